/* What work on a house saved, by the bills of one meter from before and from after it.
 *
 * At normal weather: the normal year's use by the regression of the bills before less that by those after, standard
 * errors as independent. So far: the bills after beside what the model of before says for their own weather (avoided
 * use). Both hold whatever else changed in the house as well.
 */
#ifndef METER_AFTER_H
#define METER_AFTER_H

#include <stddef.h>

#include "meter/meter_use.h"

typedef enum pw_after_refusal {
  PW_AFTER_ACCEPTED = 0,
  PW_AFTER_BEFORE, /* the bills before the work: before.refused says why */
  PW_AFTER_NONE,   /* no bill after it */
  PW_AFTER_LATER, /* the bills after it: after.refused says why (few, no weather, season, scatter, ...) */
  PW_AFTER_CHANGE, /* the house became another after the work: a change of occupancy, equipment, habits */
  PW_AFTER_NORMAL, /* no normal year */
  PW_AFTER_REFUSAL_COUNT
} pw_after_refusal;

/* Avoided use: what the model of before says for the bills after, less what these measured. */
typedef struct pw_avoided {
  size_t n; /* bills */
  double days;
  double measured, expected, avoided, se; /* meter's unit */
  double fraction;                        /* avoided over expected */
} pw_avoided;

typedef struct pw_after {
  pw_fuel fuel;
  pw_after_refusal refused;
  pw_meter_use before, after; /* owned */
  size_t
      n_work; /* bills left out: they hold days of the work, or count up from a guess before it */
  pw_avoided so_far; /* n 0 where there is no model of before */
  /* [after.n_period] what the model of before says for it, a day; NAN; owned; NULL no such model */
  double *as_before;
  double saving, se; /* of a normal year, meter's unit; se by the errors of both regressions */
  double low, high;  /* 10 and 90 % */
  double part[3], part_se[3]; /* of saving: base, heating, cooling */
  double freedom;             /* degrees of freedom of se (Welch and Satterthwaite) */
  double fractional; /* of the avoided use, Guideline 14, simplified form at 68 %; NAN none */
} pw_after;

/* Days of the work, its first and its last. */
typedef struct pw_work {
  int from, to;
} pw_work;

/* Given     fuel; row[n] of that fuel, one unit, in any order; weather of their days (NULL none); normal (may be NULL);
 *           work; moved: day from which the house is as it is, PW_BILL_NO_DAY when not known
 * Returned  *after, also when refused
 * Status    PW_OK; as pw_meter_use_of
 * Notes     1) A bill that holds a day of the work is left out; after an estimated read before the work, bills are
 *              left out up to the first actual read, since only the sum up to it is true.
 *           2) moved within or after the work's days refuses: what was saved cannot be told from what changed.
 * Source    reference/meter/METHODS.md section 6 (IPMVP option C, ASHRAE Guideline 14 forms; from memory).
 */
pw_status pw_after_of(pw_fuel fuel, const pw_bill_row row[], size_t n, const pw_daily *weather,
                      const pw_normal_set *normal, const pw_work *work, int moved,
                      pw_after *after, pw_err *err);
void pw_after_free(pw_after *after); /* NULL and a zeroed struct are fine */

/* Avoided use of reporting periods under a fitted model.
 *
 *   var = s^2 m + g' cov g,  g the sums of [1, H, C, b n_below, -c n_above] over all days of the periods
 *
 * s is of a bill of mean_days days; a bill of d days has the variance s^2 d mean_days.
 * Periods whose days lack weather for more than a tenth are passed over.
 */
void pw_avoided_of(const pw_change_fit *fit, double mean_days, const pw_bill_period period[],
                   size_t n, const pw_daily *weather, pw_avoided *avoided);

/* Fractional uncertainty of a saving, simplified form: t k CV sqrt((n / n') (1 + 2 / n') (1 / m)) / F,
 * n' = n (1 - rho) / (1 + rho), t of n' - p degrees of freedom, two-sided.
 *
 * Given     k 1.26, or pw_fractional_factor; cv, n, p, rho of the baseline; m points reported; share saved F
 */
double pw_fractional(double k, double cv, double n, double p, double rho, double m,
                     double share, double confidence);

/* In place of 1.26, of months reported, from monthly or daily data. Coefficients from memory. */
double pw_fractional_factor(double months, int daily);

/* Where a saving lies beside the band that was promised. */
typedef enum pw_after_verdict {
  PW_AFTER_INSIDE = 0,
  PW_AFTER_BELOW_UNSURE, /* below it, and its own 10 to 90 % reaches into it */
  PW_AFTER_BELOW,
  PW_AFTER_ABOVE_UNSURE,
  PW_AFTER_ABOVE
} pw_after_verdict;
pw_after_verdict pw_after_beside(double saving, double low, double high, double p10,
                                 double p90);

/* A group of houses without the work: how their normal use went over the same days. */
typedef struct pw_drift {
  size_t n;        /* houses */
  double mean, se; /* share of the use before; + when they use less */
} pw_drift;

/* change[n], se[n]: share that each uses less, and its own standard error. Of one house its own error, else that of the
 * mean by their spread, at least that of their own errors. */
void pw_drift_of(const double change[], const double se[], size_t n, pw_drift *drift);

/* The saving less what a group of houses without the work saved, as a share of the use before. */
typedef struct pw_after_net {
  double saving, se, low, high; /* 10 and 90 % */
} pw_after_net;
pw_after_net pw_after_net_of(const pw_after *after, const pw_drift *drift);

#endif
