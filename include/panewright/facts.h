/* What a contractor knows of a house, its customer and the work. SI; money in dollars. */
#ifndef PANEWRIGHT_FACTS_H
#define PANEWRIGHT_FACTS_H

#include "panewright/given.h"
#include "panewright/kinds.h"
#include "panewright/opening.h"

/* What a firm promises and asks for on an offer, in its own words; "" and 0 not given: a line to fill in. */
typedef struct pw_offer_terms {
  char schedule[PW_TEXT_MAX], deposit[PW_TEXT_MAX], terms[PW_TEXT_MAX],
      warranty_work[PW_TEXT_MAX], warranty_product[PW_TEXT_MAX];
  double valid_days; /* the offer stands so long */
} pw_offer_terms;

/* firm.csv: what a firm writes on every paper. "" not given. */
typedef struct pw_firm {
  char firm[96], address[96], phone[40], mail[64], licence[48], program_number[48],
      insurance[40], lead_certificate[48], account[48], payee[96], maker[64], model[64];
  pw_offer_terms offer;
  int translation_reviewed; /* 1: a person who knows has read the Spanish words */
} pw_firm;

/* A glass whose number of gaps is not that of a drawn section. */
typedef enum pw_section_mismatch {
  PW_MISMATCH_REFUSE = 0,
  PW_MISMATCH_CATALOGUE /* catalogue values stand in, and every paper says so */
} pw_section_mismatch;

/* Whether the weather is brought to the job's elevation. */
typedef enum pw_height_rule {
  PW_HEIGHT_MADE = 0, /* years made from normals are, hourly files are not */
  PW_HEIGHT_YES,
  PW_HEIGHT_NO
} pw_height_rule;

/* job.csv. Begin with pw_house_init. */
typedef struct pw_house_facts {
  pw_section_mismatch section_mismatch;
  char job[64], customer[96], place_label[96], contractor[96], note[PW_TEXT_MAX];
  char climate[PW_TEXT_MAX]; /* built-in place, "lat,lon", or an hourly file */
  int climate_line;          /* of job.csv, for refusals; 0 unknown */
  char state[4];             /* two letters, for prices; "" unknown */
  int year_built;            /* 0 unknown */
  int storeys;
  pw_given floor_area;                /* m2 */
  pw_given ceiling_height;            /* m */
  char wall[32], roof[32], floor[32]; /* preset names; "" means by year built */
  pw_given envelope_ua; /* W/K of everything but windows and air; not given: from presets */
  pw_given air_changes; /* 1/h natural mean; not given: from presets */
  int infiltration;     /* pw_infiltration: how air_changes goes by the hour; 0 one rate */
  int covering;         /* pw_covering: of all windows that do not say their own */
  int airing;           /* pw_airing_habit: when the windows are opened */
  pw_given cfm50;       /* m3/s of a blower door at 50 Pa */
  pw_given cfm50_taped; /* the same with the windows taped over */
  char mass[16];        /* light, medium, heavy; "" means light */
  pw_fuel heating_fuel;
  char heating_kind[24];       /* none, furnace, boiler, heat_pump, resistance */
  pw_given heating_efficiency; /* seasonal, useful heat over fuel; heat pump: COP */
  char cooling_kind[24];       /* none, central, heat_pump, room */
  pw_given cooling_cop;        /* seasonal */
  pw_given duct_efficiency;    /* 1 none */
  int ducts;                   /* pw_duct_place, where no duct_efficiency is stated */
  pw_given heat_set_c, cool_set_c, setback_k; /* C, C, K */
  pw_given internal_gain;                     /* W/m2 of floor */
  pw_given price[PW_FUEL_COUNT];              /* $/kWh of fuel; not given: state average */
  char tariff[PW_TEXT_MAX];                   /* tariff file, "" flat prices */
  pw_given bill_year;                         /* $ of heating and cooling a year */
  pw_given escalation, discount;              /* real, share a year */
  pw_given horizon_years, window_life_years;
  pw_given elevation, plant_elevation; /* m */
  pw_height_rule correct_height;       /* of the weather to elevation */
  char install_date[12];               /* yyyy-mm-dd or "" */
  int open_combustion;                 /* 1: an appliance draws room air; -1 unknown */
  int coastal, wildfire, leak_history; /* 1 when the job says so; -1 unknown */
  double wind_pressure;                /* Pa, required design pressure */
  char sealant[24];                    /* polyurethane, hybrid, silicone, acrylic */
  double paint_wait_days;              /* not given: by the sealant */
  char lead_certificate[48];           /* firm's number, "" none */
  int noise;                           /* row of reference/sound/noise.csv */
  double noise_db_2m;                  /* dB(A), its level 2 m before the facade */
  char code_zone[48]; /* climate zone or county of the energy code; "" by place */
  int code_zone_line, code_edition_line; /* of job.csv, for refusals; 0 unknown */
  int code_edition;                      /* of the energy code; 0 not said */
  char customer_phone[40], customer_mail[64], utility[64], account[48], payee[96], maker[64],
      model[64];        /* "" not given; firm.csv may give the last four */
  pw_offer_terms offer; /* goes before the firm's, item by item */
  char installed[48];   /* the package that was built in; "" not said */
  char prices_file[PW_TEXT_MAX], firm_file[PW_TEXT_MAX]; /* shared ones; "" none */
  char language[8],
      crew_language[8]; /* of the customer's papers and the crew's: "en", "es"; "" not said */
} pw_house_facts;

/* One storey, nothing given: numbers PW_NOT_GIVEN, flags -1 (unknown), words "" (the usual of its age). A zeroed
 * pw_house_facts is refused for its storeys. */
void pw_house_init(pw_house_facts *house);

#endif
