#include "panewright/rates.h"

#include <math.h>
#include <string.h>

#include "base/ascii.h"
#include "base/table.h"
#include "money/tariff.h"
#include "panewright/facts.h"
#include "panewright/units.h"

static const struct {
  const char *name;
  double low, high, per_watt; /* range of machines on the market, and W/W in one unit */
} plate_row[PW_PLATE_COUNT] = {
    [PW_PLATE_AFUE] = {"AFUE", 0.3, 1.5, 1.0},
    [PW_PLATE_COP] = {"COP", 0.3, 12.0, 1.0},
    [PW_PLATE_SEER] = {"SEER", 5.0, 40.0, PW_BTU / 3600.0},
    [PW_PLATE_SEER2] = {"SEER2", 5.0, 40.0, PW_BTU / 3600.0 / PW_SEER2_PER_SEER},
    [PW_PLATE_EER] = {"EER", 4.0, 25.0, PW_BTU / 3600.0},
    [PW_PLATE_EER2] = {"EER2", 4.0, 25.0, PW_BTU / 3600.0},
    [PW_PLATE_HSPF] = {"HSPF", 4.0, 16.0, PW_BTU / 3600.0},
    [PW_PLATE_HSPF2] = {"HSPF2", 4.0, 16.0, PW_BTU / 3600.0 / PW_HSPF2_PER_HSPF},
};

static const struct {
  const char *name, *price_key, *co2_key;
} fuel_row[PW_FUEL_COUNT] = {
    [PW_FUEL_ELECTRICITY] = {"electricity", "price_electricity_residential",
                             "co2_electricity_nonbaseload"},
    [PW_FUEL_GAS] = {"gas", "price_gas_residential", "co2_gas"},
    [PW_FUEL_OIL] = {"oil", "price_oil_residential", "co2_fueloil2"},
    [PW_FUEL_PROPANE] = {"propane", "price_propane_residential", "co2_propane"},
};

/* What stands in for a plate that the job does not give: a row of money.csv by its key and, where a
 * key has several, the year from which it applies. */
static const struct {
  const char *kind, *key;
  int year; /* 0 any */
  pw_plate rating;
  int ducted; /* 1: through ducts unless the job says otherwise */
} heat_default[] =
    {
        {"furnace", "eff_furnace_existing", 0, PW_PLATE_AFUE, 1},
        {"boiler", "eff_furnace_existing", 0, PW_PLATE_AFUE, 0},
        {"heat_pump", "eff_hp_heat_by_install_year", 2006, PW_PLATE_HSPF, 1},
        {"resistance", "eff_resistance", 0, PW_PLATE_COP, 0},
},
  cool_default[] = {
      {"central", "eff_ac_by_install_year", 2006, PW_PLATE_SEER, 1},
      {"heat_pump", "eff_ac_by_install_year", 2006, PW_PLATE_SEER, 1},
      {"room", "eff_room_ac", 0, PW_PLATE_EER, 0},
};

pw_plate pw_plate_find(const char *word)
{
  for (int i = 0; i < PW_PLATE_COUNT; i++)
    if (pw_same_word(word, plate_row[i].name)) return (pw_plate)i;
  return PW_PLATE_COUNT;
}

pw_status pw_plate_seasonal(pw_plate rating, double value, double *seasonal, pw_err *err)
{
  if ((int)rating < 0 || rating >= PW_PLATE_COUNT)
    return pw_fail(err, PW_E_DOMAIN, "rating", "%d is no rating", (int)rating);
  if (rating == PW_PLATE_AFUE && value > 1.5) value /= 100.0;
  if (!(value >= plate_row[rating].low && value <= plate_row[rating].high))
    return pw_fail(err, PW_E_DOMAIN, "efficiency", "%s %g, want %g to %g",
                   plate_row[rating].name, value, plate_row[rating].low,
                   plate_row[rating].high);
  *seasonal = value * plate_row[rating].per_watt;
  return PW_OK;
}

const char *pw_fuel_name(pw_fuel fuel)
{
  return (int)fuel >= 0 && fuel < PW_FUEL_COUNT ? fuel_row[fuel].name : "";
}

/* ---------------------------------------------------------------- money.csv */

typedef struct money {
  const pw_table *table;
  int key, region, value, unit, year, source, how;
} money;

static money money_open(void)
{
  const pw_table *t = pw_table_find("trade/money");
  return (money){t,
                 pw_table_column(t, "key"),
                 pw_table_column(t, "region"),
                 pw_table_column(t, "value"),
                 pw_table_column(t, "unit"),
                 pw_table_column(t, "year_from"),
                 pw_table_column(t, "source"),
                 pw_table_column(t, "how_known")};
}

static int from_memory(const money *m, long r)
{
  return strncmp(pw_table_text(m->table, (size_t)r, m->how), "memory", 6) == 0;
}

/* The row of a key for a region (NULL any) and a first year (0 any), or -1. Of several the newest
 * wins (the table runs upward in years), but one from memory never displaces one that was read. */
static long money_row(const money *m, const char *key, const char *region, int year)
{
  long found = -1;
  for (size_t r = 0; m->table && r < m->table->n_row; r++)
    if (strcmp(pw_table_text(m->table, r, m->key), key) == 0 &&
        (!region || strcmp(pw_table_text(m->table, r, m->region), region) == 0) &&
        (!year || pw_table_number(m->table, r, m->year) == year) &&
        (found < 0 || from_memory(m, found) || !from_memory(m, (long)r)))
      found = (long)r;
  return found;
}

static pw_given from_row(const money *m, long r, double value, pw_origin origin)
{
  return (pw_given){.value = value,
                    .origin = origin,
                    .source = pw_table_text(m->table, (size_t)r, m->source)};
}

double pw_fuel_unit_kwh(pw_fuel fuel, const char *unit)
{
  static const char *const content_key[PW_FUEL_COUNT] = {
      NULL, "heat_content_gas", "heat_content_oil", "heat_content_propane"};
  const double btu_kwh = PW_BTU / 3.6e6;
  if (pw_same_word(unit, "kWh")) return 1.0;
  if (pw_same_word(unit, "therm")) return PW_THERM_KWH;
  if (pw_same_word(unit, "MMBtu")) return 1e6 * btu_kwh;
  double volume =
      pw_same_word(unit, "Mcf") && fuel == PW_FUEL_GAS ? 1000.0
      : pw_same_word(unit, "gal") && (fuel == PW_FUEL_OIL || fuel == PW_FUEL_PROPANE)
          ? 1.0
          : (double)NAN;
  if (isnan(volume) || !content_key[fuel]) return (double)NAN;
  money m = money_open();
  long r = money_row(&m, content_key[fuel], "US", 0);
  return r < 0 ? (double)NAN : volume * pw_table_number(m.table, (size_t)r, m.value) * btu_kwh;
}

/* $ or kg a kWh from a row whose unit is "X/kWh", "X/therm" or "X/MMBtu". */
static double per_kwh(const money *m, long r, pw_fuel fuel)
{
  const char *slash = strchr(pw_table_text(m->table, (size_t)r, m->unit), '/');
  if (!slash) return (double)NAN;
  return pw_table_number(m->table, (size_t)r, m->value) / pw_fuel_unit_kwh(fuel, slash + 1);
}

static void upper(const char *state, char out[4])
{
  size_t n = 0;
  for (; n < 3 && state[n]; n++)
    out[n] = pw_upper(state[n]);
  out[n] = '\0';
}

pw_status pw_state_price(pw_fuel fuel, const char *state, pw_given *price, int *year,
                         const char **region, unsigned *notes, pw_err *err)
{
  if ((int)fuel < 0 || fuel >= PW_FUEL_COUNT)
    return pw_fail(err, PW_E_DOMAIN, "fuel", "%d is no fuel", (int)fuel);
  money m = money_open();
  char code[4];
  upper(state, code);
  if (code[0] && money_row(&m, "price_electricity_residential", code, 0) < 0)
    return pw_fail(err, PW_E_DOMAIN, "state", "'%s' is no state with prices, want two letters",
                   state);
  long r = code[0] ? money_row(&m, fuel_row[fuel].price_key, code, 0) : -1;
  unsigned bits = PW_BILL_STATE_AVERAGE;
  if (r < 0) {
    r = money_row(&m, fuel_row[fuel].price_key, "US", 0);
    bits |= PW_BILL_NATIONAL;
  }
  if (r < 0)
    return pw_fail(err, PW_E_DATA, "price", "no price of %s in the table", fuel_row[fuel].name);
  if (from_memory(&m, r)) bits |= PW_BILL_PRICE_MEMORY;
  *price = from_row(&m, r, per_kwh(&m, r, fuel), PW_ORIGIN_TABLE);
  *year = (int)pw_table_number(m.table, (size_t)r, m.year);
  *region = pw_table_text(m.table, (size_t)r, m.region);
  *notes |= bits;
  return PW_OK;
}

/* ---------------------------------------------------------------- equipment of a house */

static pw_status efficiency(const char *field, const pw_given *own, const char *key, int year,
                            pw_plate rating, pw_rates *rates, pw_given *out, pw_err *err)
{
  if (pw_given_is(own)) {
    if (!(own->value >= 0.3 && own->value <= 12.0))
      return pw_fail(err, PW_E_DOMAIN, field, "%g, want 0.3 to 12 (heat or cold over energy)",
                     own->value);
    *out = *own;
    return PW_OK;
  }
  money m = money_open();
  long r = money_row(&m, key, NULL, year);
  if (r < 0) return pw_fail(err, PW_E_DATA, field, "no row %s in the table", key);
  double seasonal = NAN;
  pw_status s =
      pw_plate_seasonal(rating, pw_table_number(m.table, (size_t)r, m.value), &seasonal, err);
  if (s != PW_OK) return s;
  *out = from_row(&m, r, seasonal, PW_ORIGIN_ASSUMED);
  rates->notes |= PW_BILL_EFFICIENCY;
  return PW_OK;
}

static pw_status duct(const pw_given *own, int ducted, pw_given *out, pw_err *err)
{
  static const char none[] = "no ducts";
  if (!ducted) {
    *out = (pw_given){.value = 1.0, .origin = PW_ORIGIN_ASSUMED, .source = none};
    return PW_OK;
  }
  if (pw_given_is(own)) {
    if (!(own->value >= 0.3 && own->value <= 1.0))
      return pw_fail(err, PW_E_DOMAIN, "duct_efficiency", "%g, want 0.3 to 1", own->value);
    *out = *own;
    return PW_OK;
  }
  money m = money_open();
  long r = money_row(&m, "eff_duct", NULL, 0);
  if (r < 0) return pw_fail(err, PW_E_DATA, "duct_efficiency", "no row eff_duct");
  *out = from_row(&m, r, pw_table_number(m.table, (size_t)r, m.value), PW_ORIGIN_ASSUMED);
  return PW_OK;
}

static pw_status heating(const pw_house_facts *house, pw_rates *rates, pw_err *err)
{
  const char *kind = house->heating_kind;
  rates->heats = strcmp(kind, "none") != 0;
  if (!rates->heats) {
    rates->notes |= PW_BILL_NO_HEATING;
    rates->heating_efficiency = rates->heating_duct = (pw_given){.value = 1.0};
    return PW_OK;
  }
  if (!kind[0]) kind = house->heating_fuel == PW_FUEL_ELECTRICITY ? "heat_pump" : "furnace";
  for (size_t i = 0; i < sizeof heat_default / sizeof heat_default[0]; i++) {
    if (strcmp(kind, heat_default[i].kind) != 0) continue;
    rates->heats_by_duct = heat_default[i].ducted;
    pw_status s = efficiency("heating_efficiency", &house->heating_efficiency,
                             heat_default[i].key, heat_default[i].year, heat_default[i].rating,
                             rates, &rates->heating_efficiency, err);
    return s != PW_OK ? s
                      : duct(&house->duct_efficiency, heat_default[i].ducted,
                             &rates->heating_duct, err);
  }
  return pw_fail(err, PW_E_DOMAIN, "heating_kind",
                 "'%s', want furnace, boiler, heat_pump, resistance or none", kind);
}

static pw_status cooling(const pw_house_facts *house, pw_rates *rates, pw_err *err)
{
  const char *kind = house->cooling_kind[0] ? house->cooling_kind : "central";
  rates->cools = strcmp(kind, "none") != 0;
  if (!rates->cools) {
    rates->notes |= PW_BILL_NO_COOLING;
    rates->cooling_cop = rates->cooling_duct = (pw_given){.value = 1.0};
    return PW_OK;
  }
  for (size_t i = 0; i < sizeof cool_default / sizeof cool_default[0]; i++) {
    if (strcmp(kind, cool_default[i].kind) != 0) continue;
    rates->cools_by_duct = cool_default[i].ducted;
    pw_status s = efficiency("cooling_cop", &house->cooling_cop, cool_default[i].key,
                             cool_default[i].year, cool_default[i].rating, rates,
                             &rates->cooling_cop, err);
    return s != PW_OK ? s
                      : duct(&house->duct_efficiency, cool_default[i].ducted,
                             &rates->cooling_duct, err);
  }
  return pw_fail(err, PW_E_DOMAIN, "cooling_kind",
                 "'%s', want none, central, heat_pump or room", kind);
}

/* A stated duct efficiency acts on what blows through ducts, and is refused where nothing does. */
static pw_status stated_ducts(const pw_house_facts *house, const pw_rates *rates, pw_err *err)
{
  double v = house->duct_efficiency.value;
  if (!pw_given_is(&house->duct_efficiency) || v == 1.0 || rates->heats_by_duct ||
      rates->cools_by_duct)
    return PW_OK;
  return pw_fail(
      err, PW_E_DOMAIN, "duct_efficiency",
      "%g, but neither the heating (%s) nor the cooling (%s) has ducts; leave it out, "
      "or say furnace for warm air",
      v, house->heating_kind[0] ? house->heating_kind : "by default",
      house->cooling_kind[0] ? house->cooling_kind : "by default");
}

/* ---------------------------------------------------------------- prices and CO2 of a house */

static const char *grid_region(const char *state)
{
  const pw_table *t = pw_table_find("trade/grid_region");
  int key = pw_table_column(t, "state"), region = pw_table_column(t, "region");
  char code[4];
  upper(state, code);
  for (size_t r = 0; t && code[0] && r < t->n_row; r++)
    if (strcmp(pw_table_text(t, r, key), code) == 0) return pw_table_text(t, r, region);
  return "eGRID US";
}

static pw_status co2(const pw_house_facts *house, pw_rates *rates, pw_err *err)
{
  money m = money_open();
  rates->grid_region = grid_region(house->state);
  for (int f = 0; f < PW_FUEL_COUNT; f++) {
    const char *region = f == PW_FUEL_ELECTRICITY ? rates->grid_region : "US";
    long r = money_row(&m, fuel_row[f].co2_key, region, 0);
    if (r < 0) return pw_fail(err, PW_E_DATA, "co2", "no row %s", fuel_row[f].co2_key);
    rates->co2_kg_kwh[f] = from_row(&m, r, per_kwh(&m, r, (pw_fuel)f), PW_ORIGIN_TABLE);
  }
  return PW_OK;
}

static pw_status prices(const pw_house_facts *house, pw_rates *rates, pw_err *err)
{
  for (int f = 0; f < PW_FUEL_COUNT; f++) {
    const pw_given *own = &house->price[f];
    if (own->value < 0.0 || isinf(own->value))
      return pw_fail(err, PW_E_DOMAIN, "price", "%s at %g $/kWh, want 0 or more",
                     fuel_row[f].name, own->value);
    if (pw_given_is(own)) { /* 0 stated is a price */
      rates->price[f] = *own;
      continue;
    }
    unsigned notes = 0;
    pw_status s = pw_state_price((pw_fuel)f, house->state, &rates->price[f],
                                 &rates->price_year[f], &rates->price_region[f], &notes, err);
    if (s != PW_OK) return s;
    int used = (f == (int)house->heating_fuel && rates->heats) ||
               (f == PW_FUEL_ELECTRICITY && rates->cools);
    if (used && !rates->tariff[f]) rates->notes |= notes;
  }
  return PW_OK;
}

pw_status pw_rates_of_house(const pw_house_facts *house,
                            const pw_tariff *const tariff[PW_FUEL_COUNT], pw_rates *rates,
                            pw_err *err)
{
  if ((int)house->heating_fuel < 0 || house->heating_fuel >= PW_FUEL_COUNT)
    return pw_fail(err, PW_E_DOMAIN, "heating_fuel", "%d is no fuel", (int)house->heating_fuel);
  pw_rates r = {.heating_fuel = house->heating_fuel};
  pw_status s = PW_OK;
  for (int f = 0; tariff && f < PW_FUEL_COUNT && s == PW_OK; f++) {
    r.tariff[f] = tariff[f];
    if (tariff[f]) s = pw_tariff_check(tariff[f], err);
  }
  if (s == PW_OK) s = heating(house, &r, err);
  if (s == PW_OK) s = cooling(house, &r, err);
  if (s == PW_OK) s = stated_ducts(house, &r, err);
  if (s == PW_OK) s = prices(house, &r, err);
  if (s == PW_OK) s = co2(house, &r, err);
  if (s == PW_OK) *rates = r;
  return s;
}
