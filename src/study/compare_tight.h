/* What tighter windows do, apart from their glass: one leakage area of the house before and one after, the windows'
 * difference taken out of it. The windows there now are lived with in the tighter house; its bill less that of the
 * house as it is is the saving of tightness. No figure of the comparison holds any of it.
 *
 *   after = before - (old sashes - inserts and their joints),  air after = air before x after / before
 *
 * Old sashes by kind and state (sash_leak.h), their sum at most 22 % of the house unless a reading with the windows taped
 * says what they are. A window that is fixed before and after counts nothing: nothing is published on old fixed lites.
 */
#ifndef STUDY_COMPARE_TIGHT_H
#define STUDY_COMPARE_TIGHT_H

#include "house/infiltration.h"
#include "house/sash_leak.h"
#include "study/compare.h"

enum { PW_TIGHT_DRAWS = 1024, PW_TIGHT_CAUTIONS = 2 };

/* One row of openings.csv, all its windows. */
typedef struct pw_tight_opening {
  int counted;      /* 1: in a room inside the energy of the house */
  int replaced;     /* 1: by an insert, and one of the two opens */
  double crack;     /* m, of the sashes there now; 0 of an insert of an earlier phase */
  pw_leak_span now; /* m2, by the tables alone, not held to the cap or a reading */
} pw_tight_opening;

typedef struct pw_tight_package {
  pw_leak_span inserts;            /* m2, joints included, of what is replaced */
  double area;                     /* m2 of the house after */
  double air_changes;              /* 1/h after */
  double heating_kwh, cooling_kwh; /* need of the house, the windows there now, so tight */
  pw_saving saving;                /* of tightness, held to the bill as the whole is */
  double cost_low, cost_high;      /* $ a year, 10 and 90 % of the draws, never inside saving */
  double need_low, need_high;      /* kWh a year of heating and cooling, the same */
  double air_low;                  /* 1/h after, where the draws save most (90 %) */
} pw_tight_package;

typedef struct pw_compare_tight {
  int told; /* 1: the job gives sash_leak, cfm50 or a model of infiltration; else nothing else is set */
  pw_infiltration model;
  int by_door, taped;       /* 1: area by cfm50; the sashes by cfm50_taped */
  double area, air_changes; /* m2 and 1/h of the house before */
  double by_table;          /* m2, sum of the openings' usual areas */
  double sashes;            /* m2, what is counted of it */
  double sashes_replaced;   /* m2, of these */
  double share_most;        /* of the house that sashes may be; infinite where taped */
  int held;                 /* 1: the tables' sum is above that */
  double held_draws;        /* share of the draws in which it is */
  int n_state
      [PW_SASH_STATES]; /* windows counted that open, by the state told; blank ones under 0 */
  pw_tight_opening opening[PW_WINDOWS_MAX];
  pw_tight_package package[PW_COMPARE_PACKAGES_MAX];
  double air_least,
      air_limit; /* 1/h, the least air_low; under which moisture is the usual trouble */
  size_t n_caution;
  pw_caution caution[PW_TIGHT_CAUTIONS]; /* finding is "": out/tight_out says it */
} pw_compare_tight;

/* Given     compare with its weather, options and a workspace of the year (NULL: one for this call)
 * Returned  *tight; where the job gives none of the three, told is 0 and no year is lived
 * Status    PW_OK; as the year and the bill
 * Notes     The band: PW_TIGHT_DRAWS draws of sashes (all alike: one builder, one age), inserts, joints, the house's rate or
 *           reading, shelter, terrain, level of the leaks and the model, each in its published or stated span; prices and
 *           plant as the job has them. Years are lived at three tightnesses, between them saved heat and money go as a
 *           parabola.
 */
pw_status pw_compare_tight_of(const pw_compare *compare, const pw_weather *weather,
                              const pw_compare_options *options, pw_year_workspace *workspace,
                              pw_compare_tight *tight, pw_err *err);

/* What each draw saves, by package. */
typedef struct pw_tight_drawn {
  double area[PW_COMPARE_PACKAGES_MAX][PW_TIGHT_DRAWS]; /* share of the house's leakage area */
  double kwh[PW_COMPARE_PACKAGES_MAX][2]
            [PW_TIGHT_DRAWS]; /* need of heating, of cooling; a year */
} pw_tight_drawn;

/* The same, and *drawn; all 0 where nothing is told. */
pw_status pw_compare_tight_draws(const pw_compare *compare, const pw_weather *weather,
                                 const pw_compare_options *options,
                                 pw_year_workspace *workspace, pw_compare_tight *tight,
                                 pw_tight_drawn *drawn, pw_err *err);

#endif
