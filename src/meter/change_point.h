/* Use per day against the weather of the bills' own days: a base, a heating term below a balance
 * point, a cooling term above one.
 *
 *   y_i = a + b H_i(t_h) + c C_i(t_c)
 *   H_i(t) = mean over the days of bill i of max(0, t - T_d),  C_i(t) of max(0, T_d - t)
 *
 * Temperatures in degrees C (any scale will do: balance points come back in it), y in the meter's
 * unit a day.
 */
#ifndef METER_CHANGE_POINT_H
#define METER_CHANGE_POINT_H

#include <stddef.h>

#include "panewright/status.h"

typedef enum pw_change_model {
  PW_CHANGE_BASE = 0, /* a                 1 parameter  */
  PW_CHANGE_H,        /* a + b H           3            */
  PW_CHANGE_C,        /* a + c C           3            */
  PW_CHANGE_HC,       /* both, t_h <= t_c  5; 4 where both balance points meet */
  PW_CHANGE_ONE,      /* both, t_h = t_c   4            */
  PW_CHANGE_COUNT
} pw_change_model;

/* One bill. */
typedef struct pw_change_period {
  double per_day;  /* use a day, the meter's unit */
  double days;     /* weight, above 0 */
  const double *t; /* t[n_t]: daily means of its days; borrowed */
  size_t n_t;
} pw_change_period;

/* Bills made ready: daily means in rising order with their sums, and degree days on a grid of balance
 * points 0.25 K apart. */
typedef struct pw_change_data {
  size_t n;
  double *per_day, *days; /* owned */
  double *sorted, *sum;   /* of bill i from start[i]; sum of those before; owned */
  size_t *start;          /* n + 1; owned */
  double low, step;       /* of the grid */
  size_t n_grid;
  double *h, *c; /* [grid * n + i]; owned */
  double *room;  /* working space of the fits, as is index; owned: one caller at a time */
  size_t *index;
} pw_change_data;

/* Status PW_OK; PW_E_SHAPE no bill, or one without a day; PW_E_DOMAIN a value that is not finite, a weight
 * not above 0; PW_E_NOMEM. On failure *data is zeroed. */
pw_status pw_change_data_init(pw_change_data *data, const pw_change_period period[], size_t n,
                              pw_err *err);
void pw_change_data_free(pw_change_data *data); /* NULL and a zeroed struct are fine */

/* Degree days a day of bill i, and the share of its days on that side. */
double pw_change_heating(const pw_change_data *data, size_t i, double balance, double *share);
double pw_change_cooling(const pw_change_data *data, size_t i, double balance, double *share);

/* Why a term is not believed; bits of pw_change_fit.doubt, shifted by one for the cooling term. */
enum {
  PW_CHANGE_EDGE = 1u,     /* its balance point lies at an end of the daily means */
  PW_CHANGE_SIGN = 4u,     /* its slope is not above 0 */
  PW_CHANGE_WEAK = 16u,    /* |t| of its slope, balance point held, below 2 */
  PW_CHANGE_FEW_DAYS = 64u /* fewer than 10 days or 20 K d a year on its side */
};

enum { PW_CHANGE_PARAMETERS = 5 }; /* base, slope H, slope C, balance H, balance C */

typedef struct pw_change_fit {
  pw_change_model model;
  size_t n, p;       /* bills, parameters with the balance points */
  double base;       /* a day */
  double slope[2];   /* heating, cooling: a K d; 0 where the model has none */
  double balance[2]; /* NAN where the model has none */
  double t[2];       /* slope over its standard error, balance point held; NAN */
  double sse, sst;   /* weights of mean 1 */
  double mean;       /* weighted mean of y */
  double s;          /* sqrt(SSE / (n - p)) */
  double r2, r2_adjusted;
  double cv, nmbe; /* share of the mean */
  double rho;      /* lag-1 correlation of the residuals, in the order given */
  double bic;      /* n ln(SSE / n) + p ln n */
  double covariance[PW_CHANGE_PARAMETERS *
                    PW_CHANGE_PARAMETERS]; /* rows of what is not fitted 0 */
  unsigned doubt;
} pw_change_fit;

/* Fits one model.
 *
 * Given     data; leave_out[n] 1 for a bill that is not used, or NULL
 * Returned  *fit
 * Status    PW_OK; PW_E_SHAPE not more bills than parameters; PW_E_NOMEM, PW_E_CONVERGE
 * Notes     1) Weighted least squares, weight = days (mean 1). Balance points: SSE on the grid, best
 *              cells refined (golden section; Nelder-Mead for two), within the range of the daily means.
 *           2) Covariance s^2 (J' W J)^-1 with J = [1, H, C, b dH/dt_h, c dC/dt_c].
 * Source    forms: ASHRAE Guideline 14 and the inverse-modelling papers (from memory); reference/meter/
 *           METHODS.md section 2; cases reference/meter/change_cases.csv.
 */
pw_status pw_change_point_fit(const pw_change_data *data, const unsigned char leave_out[],
                              pw_change_model model, pw_change_fit *fit, pw_err *err);

/* The model that the bills bear: of base, H and, where cooling may be, C and HC those without doubt, the
 * one of the lowest BIC; base when there is none.
 *
 * Given     as above; may_cool 0 for a fuel that does not cool
 * Returned  *best; tried[4] (may be NULL): base, H, C, HC as fitted, n 0 where not
 * Status    as pw_change_point_fit of the base
 */
pw_status pw_change_point_choose(const pw_change_data *data, const unsigned char leave_out[],
                                 int may_cool, pw_change_fit *best, pw_change_fit tried[4],
                                 pw_err *err);

/* What the fit says of one bill, a day. */
double pw_change_point_at(const pw_change_fit *fit, const pw_change_data *data, size_t i);

/* The name of a model: base, H, C, HC. */
const char *pw_change_model_name(pw_change_model model);

#endif
