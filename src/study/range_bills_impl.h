/* Draws held against bills. Internal. */
#ifndef STUDY_RANGE_BILLS_IMPL_H
#define STUDY_RANGE_BILLS_IMPL_H

#include "study/range_bills.h"
#include "study/range_impl.h"
#include "study/sobol.h"

/* What a draw says of the existing windows: need of each month in the comparison's weather, kWh, heating and
 * cooling, the weather of single years left out; kWh of fuel for a kWh of need. */
typedef struct range_need {
  double month[2][12], per_need[2];
} range_need;

/* Figures f[set * F_COUNT + figure] of a draw from its years year[set * RANGE_MONTHS + month] in the comparison's weather;
 * need (may be NULL): what bills are held against. */
pw_status range_figures_at(const range_case *rc, const double v[IN_COUNT], const double year[],
                           double f[], range_need *need, pw_err *err);

/* The existing windows as they are, lived hour by hour in the weather of the bills' days: need of each day of
 * bills->weather, kWh, heating then cooling; *daily is NULL by the monthly method. To be freed. */
pw_status range_bills_live(const range_case *rc, const pw_range_bills *bills, double **daily,
                           pw_err *err);

/* A set of draws with room for its weights. The last three are NULL where no bills weigh it. */
typedef struct range_drawn {
  size_t n;
  double *f;        /* f[draw][set][figure] */
  double *weight;   /* n */
  double *sort;     /* 2 n */
  range_need *need; /* n */
  double *z;        /* [n * n_in] where each lies, see range_bills_near.c */
  int near; /* 1: drawn near the bills, so how many of them bear these tells nothing of the house */
  double *ratio; /* [n] logarithm of its density in the spreads over that it was drawn by */
} range_drawn;

/* Room for n draws, all 0. Status PW_OK; PW_E_NOMEM. */
pw_status range_drawn_new(const range_case *rc, size_t n, int bills, range_drawn *drawn,
                          pw_err *err);
void range_drawn_free(range_drawn *drawn); /* a zeroed struct is fine */

/* How the residuals of bills go with the draws, and draws near those that bear the bills: range_bills_near.c. */
typedef struct range_slope range_slope;
typedef struct range_choice {
  size_t input, n_level; /* which input, of how many forms: at most RANGE_FORMS_MAX */
} range_choice;
typedef struct range_near {
  size_t n_in, n_choice;                                     /* inputs of the house */
  double mean[IN_COUNT], root[IN_COUNT * IN_COUNT], log_det; /* root[n_in * n_in] */
  range_choice choice[PW_FORM_KINDS];
  double step[PW_FORM_KINDS][RANGE_FORMS_MAX][IN_COUNT]; /* what a form moves the mean by */
} range_near;
/* z[n * n_in], borrowed; n_choice at most PW_FORM_KINDS; NULL no memory or n too few */
range_slope *range_slope_new(const double z[], size_t n, size_t n_in,
                             const range_choice choice[], size_t n_choice);
pw_status range_slope_add(range_slope *slope, const pw_condition_meter *meter,
                          const double residual[], pw_err *err);
void range_slope_free(range_slope *slope);
pw_status range_near_of(const range_slope *slope, range_near *near, pw_err *err);
void range_near_z(const double u[], size_t n_in, double z[]);
/* Moves a draw's chances u near the bills; returns the ratio of range_drawn. */
double range_near_draw(const range_near *near, double u[], double z[]);

/* Weights of draws by the bills.
 *
 * Given     daily, of range_bills_live or NULL; drawn with need[n], ratio[n] or NULL (all alike); slope to be added to, or NULL
 * Returned  drawn->weight[n], the largest 1, when what->used; *what but for its bands
 * Status    PW_OK; PW_E_NOMEM; as pw_condition_add
 */
pw_status range_bills_weigh(const range_case *rc, const pw_range_bills *bills,
                            const double *daily, const range_drawn *drawn, range_slope *slope,
                            pw_range_conditioned *what, pw_err *err);

/* Need of a bill's days, kWh a day, heating (0) or cooling (1), from a draw's months. See range_bills.c. */
typedef struct range_response range_response;
pw_status range_response_new(const range_case *rc, const pw_range_bills *bills,
                             const pw_range_meter *meter, const double *daily,
                             range_response **response, pw_err *err);
void range_response_free(range_response *response);
void range_response_at(const range_response *response, int side, const double month[12],
                       double per_day[]);

/* Makes the draws of *drawn, n of them, near the bills where near is not NULL. */
typedef pw_status (*range_drawer)(const void *context, const pw_sobol *sobol,
                                  const range_near *near, range_drawn *drawn, pw_err *err);

/* Bands by the bills in place of those in *range, which are kept as those of before. Where fewer than 200 effective
 * draws are left, others are drawn near those that bear the bills, from other seeds, and used instead; more of them
 * the fewer bear the bills.
 * more NULL: a draw costs years, so no more is drawn. */
pw_status range_bills_bands(const range_case *rc, const pw_range_options *options,
                            const double *daily, const range_drawn *drawn, range_drawer more,
                            const void *context, pw_range *range, pw_err *err);

#endif
