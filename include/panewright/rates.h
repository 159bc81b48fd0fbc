/* Efficiencies, prices and emission factors of a house, each with its origin: its own figures first,
 * then reference/trade/money.csv. A value that the job does not give stays PW_ORIGIN_ASSUMED (a
 * convention) or PW_ORIGIN_TABLE (a published state average) and sets a note until the job gives
 * its own. */
#ifndef PANEWRIGHT_RATES_H
#define PANEWRIGHT_RATES_H

#include <stddef.h>

#include "panewright/given.h"
#include "panewright/kinds.h"
#include "panewright/status.h"

struct pw_house_facts; /* facts.h */
struct pw_tariff;      /* tariff.h */

/* The same machine under the later test procedure, which has more duct pressure: industry rule.
 * Source    reference/trade/money.csv ratio_SEER2_per_SEER, ratio_HSPF2_per_HSPF. */
#define PW_SEER2_PER_SEER 0.95
#define PW_HSPF2_PER_HSPF 0.85

/* How a plate rates its machine. */
typedef enum pw_plate {
  PW_PLATE_AFUE = 0, /* share of the fuel's heat over the season, 0..1 (above 1.5: per cent) */
  PW_PLATE_COP,      /* W/W over the season */
  PW_PLATE_SEER,     /* Btu/Wh over the cooling season */
  PW_PLATE_SEER2,
  PW_PLATE_EER, /* Btu/Wh, steady, 95 F outdoors */
  PW_PLATE_EER2,
  PW_PLATE_HSPF, /* Btu/Wh over the heating season, region IV */
  PW_PLATE_HSPF2,
  PW_PLATE_COUNT
} pw_plate;

/* Seasonal use of a rating: W of heat or cold moved per W of fuel.
 *
 * Given     rating, value on the plate
 * Returned  *seasonal
 * Status    PW_OK; PW_E_DOMAIN outside what such machines reach (the message says the range)
 * Notes     1) Btu/Wh ratings times 0.29307 (exact). SEER2 and HSPF2 are brought to the basis of
 *              SEER and HSPF first, so that one machine has one figure whatever its plate says.
 *           2) An EER is a hot-day figure; over a season the machine does better, so the cost of
 *              cooling comes out high (a few per cent to a fifth).
 * Source    reference/trade/money.csv seer_to_cop, ratio_SEER2_per_SEER, ratio_HSPF2_per_HSPF.
 */
pw_status pw_plate_seasonal(pw_plate rating, double value, double *seasonal, pw_err *err);

/* The rating of that name ("SEER2", any case), or PW_PLATE_COUNT. */
pw_plate pw_plate_find(const char *word);

enum {
  PW_BILL_STATE_AVERAGE = 1u, /* a price is a state or national average */
  PW_BILL_NATIONAL = 2u,      /* no state known: national average */
  PW_BILL_EFFICIENCY = 4u,    /* an efficiency is a default of its kind */
  PW_BILL_FLAT_HOURS = 8u,    /* a time-of-use tariff without hourly needs: spread evenly */
  PW_BILL_NO_COOLING = 16u,   /* the house has no cooling: cooling need costs nothing */
  PW_BILL_SCALED = 32u,       /* computed bill above the given one: saving scaled down to it */
  PW_BILL_FAR_FROM_GIVEN = 64u, /* computed and given bill differ by more than a quarter */
  PW_BILL_PRICE_MEMORY = 128u,  /* a price is from memory (heating oil) */
  PW_BILL_NO_HEATING = 256u /* the house has no heating plant: it floats, no heat is billed */
};

/* All that turns need into money for one house; fill with pw_rates_of_house. */
typedef struct pw_rates {
  pw_fuel heating_fuel;
  int heats;                        /* 0: no heating equipment */
  int cools;                        /* 0: no cooling equipment */
  int heats_by_duct, cools_by_duct; /* 1: what duct_efficiency of the house acts on */
  pw_given heating_efficiency, cooling_cop;
  pw_given heating_duct, cooling_duct;
  pw_given price[PW_FUEL_COUNT]; /* $/kWh of fuel, flat; origin says whose */
  int price_year[PW_FUEL_COUNT]; /* of a table price; 0 otherwise */
  const char *price_region[PW_FUEL_COUNT];
  const struct pw_tariff *tariff[PW_FUEL_COUNT]; /* borrowed; NULL: price[] flat */
  pw_given co2_kg_kwh[PW_FUEL_COUNT];
  const char *grid_region; /* of the electricity factor */
  unsigned notes;
} pw_rates;

/* Rates of a house: its own figures first, then the tables.
 *
 * Given     house; tariff[n_tariff] by fuel, NULL entries or a NULL pointer for flat prices
 * Returned  *rates with origins; pointers into static tables and the tariffs given
 * Status    PW_OK; PW_E_DOMAIN negative price, efficiency out of range, unknown state or kind
 */
pw_status pw_rates_of_house(const struct pw_house_facts *house,
                            const struct pw_tariff *const tariff[PW_FUEL_COUNT],
                            pw_rates *rates, pw_err *err);

/* State average price of a fuel, $/kWh of fuel (higher heating value), from money.csv.
 * state "" gives the national one. Status PW_OK; PW_E_DOMAIN unknown state. */
pw_status pw_state_price(pw_fuel fuel, const char *state, pw_given *price, int *year,
                         const char **region, unsigned *notes, pw_err *err);

/* Plain name of a fuel: "electricity", "gas", "oil", "propane". */
const char *pw_fuel_name(pw_fuel fuel);

/* kWh in one unit of trade: "kWh", "therm", "Mcf", "MMBtu", "gal" (of that fuel); NAN unknown.
 * Source    reference/trade/money.csv heat_content_*. */
double pw_fuel_unit_kwh(pw_fuel fuel, const char *unit);

#endif
