/* What the parts of the range study share. Internal. */
#ifndef STUDY_RANGE_IMPL_H
#define STUDY_RANGE_IMPL_H

#include <stdatomic.h>

#include "study/range.h"
#include "study/range_run.h"

/* Inputs in their order: those that enter the house year first. */
enum {
  IN_GLASS_U_OLD = 0,
  IN_GLASS_U_NEW,
  IN_FRAME_U_OLD,
  IN_FRAME_U_NEW,
  IN_SHGC_OLD,
  IN_SHGC_NEW,
  IN_TAPE,
  IN_SIGHT_OLD,
  IN_SIGHT_NEW,
  IN_SUN,
  IN_SHADE,
  IN_AIR,
  IN_UA,
  IN_MASS,
  IN_FORM, /* published forms of a model, in the order of pw_form_kind */
  IN_FORM_LAST = IN_FORM + PW_FORM_KINDS - 1,
  IN_HEAT_SET,
  IN_COOL_SET,
  IN_GAIN,
  IN_FLOOR,
  IN_CEILING,
  IN_SOME,                 /* from here to IN_YEAR of some houses only */
  IN_AIR_SHIELD = IN_SOME, /* of a house whose air goes by the hour or by a blower door */
  IN_AIR_TERRAIN,
  IN_AIR_LEVEL,
  IN_COVER_CLOSED, /* of a house whose drapes and blinds are told */
  IN_COVER_SUN,
  IN_COVER_R,
  IN_AIRING_SHARE, /* of a house whose windows are opened */
  IN_AIRING_FLOW,
  IN_AIRING_HEAT,
  IN_AIRING_OVER,
  IN_AIRING_DEW,
  IN_SETBACK, /* of a heated house whose job does not tell it */
  IN_YEAR,    /* how many enter the year */
  IN_WEATHER_HEAT = IN_YEAR,
  IN_WEATHER_COOL,
  IN_NORMALS_HEAT,
  IN_NORMALS_COOL,
  IN_MODEL_HEAT,
  IN_MODEL_COOL,
  IN_EFFECT_HEAT,
  IN_EFFECT_COOL,
  IN_HEAT_EFFICIENCY,
  IN_COOL_COP,
  IN_DUCT,
  IN_PRICE_HEAT,
  IN_PRICE_COOL,
  IN_ESCALATION,
  IN_INSTALLED,
  IN_COUNT
};

enum { RANGE_SETS = 2 + PW_COMPARE_PACKAGES_MAX, RANGE_MONTHS = 24 };

/* A comparison made ready to be drawn. Read only once made. */
typedef struct range_case {
  const pw_compare *compare;
  const pw_weather *weather;
  pw_year_method method;
  unsigned like; /* of the options */
  size_t n_set;  /* existing, packages, windows that just meet the code */
  pw_range_input input[IN_COUNT];
  size_t n_in, n_year;    /* inputs that this house has; of them in its year, which are first */
  size_t which[IN_COUNT]; /* input k of those */
  pw_rates rates; /* without time-of-use: there each set and purpose has its mean price of the
                     comparison, $/kWh; NAN where the rates hold */
  double mean_price[RANGE_SETS][2];
  int lanes;               /* of the options */
  atomic_size_t *n_lane;   /* NULL, or counts the lanes run for its years; borrowed */
  pw_street_house *street; /* NULL, or gets this house's draws for a street; borrowed */
} range_case;

/* Status as range_inputs. */
pw_status range_case_of(const pw_compare *compare, const pw_weather *weather,
                        pw_year_method method, unsigned like, range_case *rc, pw_err *err);

/* Share of a package's installed price that its given range is wide; 0 when the job gives none. */
double range_price_width(const pw_compare *compare, size_t package);

/* The package whose price is given least surely: its price is the one that is drawn. */
size_t range_widest_price(const pw_compare *compare);

/* A plant without ducts has an assumed efficiency of 1: nothing of it is drawn. */
static inline int range_has_ducts(const pw_given *duct)
{
  return duct->value < 1.0 || duct->origin != PW_ORIGIN_ASSUMED;
}

/* The ducts that are drawn: the heating's, or the cooling's where only it has any. */
static inline const pw_given *range_duct(const pw_rates *rates)
{
  return range_has_ducts(&rates->heating_duct) ? &rates->heating_duct : &rates->cooling_duct;
}

/* Lists the inputs with their spreads, and which of them this house has: rc->compare, rc->weather, rc->like are set. */
pw_status range_inputs(range_case *rc, pw_err *err);

/* Values of a draw, u[n_in] chances: factors around 1, or additions around 0 (tape, sight lines, shade, set points,
 * escalation, duct). An input that the house has not keeps its middle. */
void range_values(const range_case *rc, const double u[], double v[IN_COUNT]);

/* The same brought to about -1 .. 1 for the response surface; z[n_year]. */
void range_scaled(const range_case *rc, const double v[], double z[]);

/* A thread's own room for house years. */
typedef struct range_room range_room;
void *range_room_new(const void *context);
void range_room_free(void *room);

/* Heating and cooling by month of every set at n_draw draws, side by side where they are of one kind:
 * y[set * 24 + month], cooling from 12 on. IN_YEAR or more chances a draw. */
pw_range_plan range_years_plan(const range_case *rc, size_t n_draw, int n_thread);

/* Years by form, everything else in the middle of its spread; see range_forms.c. */
enum { RANGE_FORMS_MAX = 4 }; /* of a kind */
typedef double range_form_year[RANGE_SETS * RANGE_MONTHS];
typedef struct range_forms {
  size_t n_year;                                                 /* house years lived for it */
  range_form_year usual, film[RANGE_FORMS_MAX][RANGE_FORMS_MAX]; /* [outdoors][indoors] */
  range_form_year other[PW_FORM_KINDS][RANGE_FORMS_MAX];
} range_forms;

pw_status range_forms_of(const range_case *rc, int n_thread, range_forms **forms, pw_err *err);
void range_forms_free(range_forms *forms);

/* Adds (sign 1) or takes off (-1) what the forms of a draw make of the year in the middle: year[set * 24 + month]. */
void range_forms_add(const range_case *rc, const range_forms *forms, const double v[IN_COUNT],
                     double sign, double year[]);

/* Figures of one draw, set by set. */
enum figure {
  F_U = 0,
  F_SHGC,
  F_COST,
  F_SAVING,
  F_MINIMUM,
  F_NEED,
  F_FUEL,
  F_PAYBACK,
  F_WORTH,
  F_HEATING_FUEL,
  F_COOLING_POWER,
  F_NORMAL_FUEL,
  F_COUNT
};

/* Weights of n draws by their bills cost[i * stride] of a year with its weather beside the one given, $: one bill, as
 * METHODS section 7 weighs each (noise and what a good but wrong model leaves).
 *
 * Returned  weight[n], the largest 1; *what but for its bands; used 0 where the bill contradicts the draws
 * Status    PW_OK; PW_E_NOMEM; as pw_condition_add */
pw_status range_bill_weights(const double cost[], size_t stride, size_t n, double given,
                             double weight[], pw_range_conditioned *what, pw_err *err);

/* The same of every set. */
pw_status range_all_bands(const range_case *rc, const double f[], size_t n,
                          const double weight[], double beat, double sort[], pw_range *range,
                          pw_err *err);

/* Figures f[set][figure] at the chances u[n_in]. */
typedef pw_status (*range_figures)(const void *context, const double u[], double f[],
                                   pw_err *err);

/* A house's draws for a street, in two steps; see range_street.c. First the spread of each figure as the bands
 * have it, then the order in which its values go with the draws that all houses share. */
pw_status range_street_spreads(const range_case *rc, const double f[], size_t n,
                               const double weight[], double sort[], pw_err *err);
pw_status range_street_draws(const range_case *rc, uint64_t seed, range_figures figures,
                             const void *context, pw_err *err);

#endif
