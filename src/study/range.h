/* How sure a comparison is: every input drawn within its spread, the same draws for every set of
 * windows, 10 / 50 / 90 % of the figures, and what drives them. */
#ifndef STUDY_RANGE_H
#define STUDY_RANGE_H

#include <stdint.h>

#include "study/compare.h"
#include "study/forms.h"
#include "study/range_bills.h"
#include "study/sensitivity.h"
#include "study/spread.h"
#include "study/street.h"

enum {
  PW_RANGE_INPUTS_MAX = 56,
  PW_RANGE_DRAWS = 2048,
  PW_RANGE_FIT_FIRST = 96, /* enough where the surface then misses half of what it may */
  PW_RANGE_FIT_RUNS = 144
};

typedef enum pw_range_method {
  PW_RANGE_AUTO = 0, /* reduced when its error is under a tenth of the band, else full */
  PW_RANGE_FULL,     /* the year itself for every draw */
  PW_RANGE_REDUCED /* a response surface fitted to PW_RANGE_FIT_FIRST or PW_RANGE_FIT_RUNS years */
} pw_range_method;

/* Which figures an input enters. */
enum {
  PW_ENTERS_U = 1,
  PW_ENTERS_SHGC = 2,
  PW_ENTERS_YEAR = 4,
  PW_ENTERS_BILL = 8,
  PW_ENTERS_WORTH = 16
};

/* One uncertain input. */
typedef struct pw_range_input {
  size_t id;        /* which of all that a range knows (study/range_impl.h) */
  const char *name; /* plain words */
  const char *key;  /* row of reference/spreads.csv */
  pw_given given;   /* value and provenance, in the unit of the job's figure or as a factor 1 */
  pw_spread spread; /* of the value, or of a factor around 1 */
  double value, low, high; /* nominal value and ends of the spread, in unit, for print */
  const char *unit;
  pw_form_kind form; /* of a choice: what is chosen among */
  unsigned enters;   /* PW_ENTERS_... */
  int year;          /* 1: enters the house year, so that a draw needs a run of its own */
} pw_range_input;

typedef struct pw_range_options {
  size_t n_draw; /* 0 means 2048 */
  uint64_t seed;
  int n_thread;
  int lanes; /* as of pw_year_options: most house years side by side; 0: as many as the processor can */
  pw_range_method method;
  double error_limit; /* share of the band that the reduced year may miss by; 0 means 0.1 */
  double beat;        /* $ a year that the saving should beat; see chance_beats */
  int (*progress)(void *context, size_t done, size_t all); /* NULL: none; not 0 stops */
  void *progress_context;
  unsigned
      like; /* bits 1 << pw_form_kind; 0: all is drawn. Else only these forms are, and what models disagree
                     on; house, windows, weather and money stay at their values, as two models of one house share them */
  int bands_only; /* 1: what drives the saving is not asked; sensitivity and rank stay 0 */
  const pw_range_bills *bills; /* that weigh the draws; NULL: none; borrowed */
  pw_street_house
      *street; /* NULL, or gets the house's draws for a street (street.h); borrowed */
  /* NULL, or gets what each draw buys in a year of normal weather, before any bill weighs it, at
   * [(draw * (1 + n_package) + set) * 24 + month], existing windows first, cooling from 12 on; borrowed */
  double *normal_kwh;
} pw_range_options;

/* Figures of one set of windows; payback and saving only of packages. */
typedef struct pw_range_set {
  pw_band u, shgc;        /* W/(m2 K), - over all openings */
  pw_band cost_year;      /* $ of heating and cooling */
  pw_band saving_cost;    /* $ a year against the existing windows */
  pw_band saving_minimum; /* $ a year against windows that just meet the code */
  pw_band saving_need_kwh, saving_fuel_kwh; /* heat and cold; energy bought; a year */
  pw_band saving_heating_fuel_kwh, saving_cooling_kwh,
      saving_normal_kwh; /* as meters count it at the weather of a normal year: a promise; the last their sum */
  pw_band payback;           /* years, simple; INFINITY where it never comes */
  pw_band net_present_worth; /* $ */
  double chance_positive;    /* that the saving is above 0 */
  double chance_beats;       /* that it is above options.beat */
  double chance_pays;        /* that the payback is within the life of the window */
  int includes_zero;         /* 1: the 10 to 90 % band of the saving holds 0 */
  pw_sensitivity sensitivity[PW_RANGE_INPUTS_MAX]; /* of the saving in $, by input */
  size_t rank[PW_RANGE_INPUTS_MAX]; /* inputs by their total index, largest first */
  double surface_error; /* $ a year, root mean square of what the response surface misses of the
                           saving, each run left out of its own fit */
} pw_range_set;

typedef struct pw_range {
  size_t n_input, n_package, n_draw;
  uint64_t seed;
  double beat;
  pw_range_input input[PW_RANGE_INPUTS_MAX];
  pw_range_set existing, package[PW_COMPARE_PACKAGES_MAX];
  int reduced;    /* 1: figures by the response surface */
  size_t n_year;  /* house years run */
  size_t n_lane;  /* lanes run for them, the rest of these idle; 0 but by the detailed method */
  double n_worth; /* how many equal draws the bands rest on once a bill has weighed them;
                           n_draw where none has */
  double error_of_band;       /* largest surface_error over the width of its 10 to 90 % band */
  pw_range_conditioned bills; /* what the house's own bills did */
  pw_range_conditioned bill_year; /* what the one bill of a year did that the job gives */
  int with_drivers;               /* 1: sensitivity and rank are set */
  int stopped;                    /* 1: progress stopped it; nothing else is set */
} pw_range;

/* The inputs of a comparison with value, source and spread, without any draw. input[] takes
 * PW_RANGE_INPUTS_MAX. Status as pw_range_of. */
pw_status pw_range_list(const pw_compare *compare, const pw_weather *weather,
                        pw_range_input input[], size_t *n, pw_err *err);

/* Ranges of a finished comparison.
 *
 * Given     compare (its job, house, windows, rates); weather; year method as the comparison's
 * Returned  *range
 * Status    PW_OK; PW_E_SHAPE draws or threads out of range; PW_E_DOMAIN a spread; what the year
 *           refuses; PW_E_NOMEM
 * Notes     1) Existing windows and packages share every draw, so what they have in common cancels
 *              in the saving as it does in the house.
 *           2) Time-of-use prices enter by their mean over the needs of the comparison.
 *           3) Weather of single years and the model act on heating and cooling as a whole; what
 *              good models disagree on about a change of windows acts on the difference.
 *           4) Bill and saving are of one year with its weather; payback and worth take a mean over
 *              the horizon, so that chance years average out there.
 *           5) A bill given weighs every draw by exp(-((bill - computed) / (0.1 bill))^2 / 2), computed
 *              being the existing windows' cost of that draw; no draw is scaled or cut by it. What
 *              drives the saving is told of the draws before that weighing.
 *           6) Bills of options.bills weigh the draws instead, each by its own prediction of every bill under
 *              the weather of the bill's days (condition.h); where they are refused nothing is weighed by
 *              them. range->bills keeps the bands of before.
 * Source    spreads: reference/spreads.csv, each with its source or the word assumed
 */
pw_status pw_range_of(const pw_compare *compare, const pw_weather *weather,
                      pw_year_method method, const pw_range_options *options, pw_range *range,
                      pw_err *err);

#endif
