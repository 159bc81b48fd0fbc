/* Draws held against bills. Internal. */
#ifndef STUDY_RANGE_BILLS_IMPL_H
#define STUDY_RANGE_BILLS_IMPL_H

#include "panewright/range_bills.h"
#include "panewright/sobol.h"
#include "study/range_impl.h"

/* What a draw says of the existing windows: need of each month in the comparison's weather, kWh, heating and
 * cooling, the weather of single years left out; kWh of fuel for a kWh of need. */
typedef struct range_need {
  double month[2][12], per_need[2];
} range_need;

/* The existing windows as they are, lived hour by hour in the weather of the bills' days: need of each day of
 * bills->weather, kWh, heating then cooling; *daily is NULL by the monthly method. To be freed. */
pw_status range_bills_live(const range_case *rc, const pw_range_bills *bills, double **daily,
                           pw_err *err);

/* Weights of n draws by the bills.
 *
 * Given     daily, of range_bills_live or NULL; need[n]
 * Returned  weight[n], the largest 1, when what->used; *what but for its bands
 * Status    PW_OK; PW_E_NOMEM; as pw_condition_add
 */
pw_status range_bills_weigh(const range_case *rc, const pw_range_bills *bills,
                            const double *daily, const range_need need[], size_t n,
                            double weight[], pw_range_conditioned *what, pw_err *err);

/* Need of a bill's days, kWh a day, heating (0) or cooling (1), from a draw's months. See range_bills.c. */
typedef struct range_response range_response;
pw_status range_response_new(const range_case *rc, const pw_range_bills *bills,
                             const pw_range_meter *meter, const double *daily,
                             range_response **response, pw_err *err);
void range_response_free(range_response *response);
void range_response_at(const range_response *response, int side, const double month[12],
                       double per_day[]);

/* A set of draws with room for its weights. */
typedef struct range_drawn {
  double *f;        /* f[draw][set][figure] */
  range_need *need; /* n */
  double *weight;   /* n */
  double *sort;     /* 2 n */
  size_t n;
} range_drawn;

/* Makes figures and needs of n draws. */
typedef pw_status (*range_drawer)(const void *context, const pw_sobol *sobol, size_t n,
                                  double f[], range_need need[], pw_err *err);

/* Bands by the bills in place of those in *range, which are kept as those of before. Where fewer than 200 effective
 * draws are left, more is drawn and weighed instead of it: RANGE_MORE times as many draws from another seed.
 * more NULL: a draw costs years, so no more is drawn. */
enum { RANGE_MORE = 8 };
pw_status range_bills_bands(const range_case *rc, const pw_range_options *options,
                            const double *daily, const range_drawn *drawn, range_drawer more,
                            const void *context, pw_range *range, pw_err *err);

#endif
