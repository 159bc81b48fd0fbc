/* Between the parts of the study of tightness. */
#ifndef STUDY_COMPARE_TIGHT_IMPL_H
#define STUDY_COMPARE_TIGHT_IMPL_H

#include "panewright/year.h"
#include "study/compare_tight.h"

/* What is saved of the house's air, as a share of the air before. */
double tight_share(const pw_compare_tight *tight, size_t package);

/* Saved at a share: 0 nothing, then as a parabola through two years. */
typedef struct tight_curve {
  double share;                  /* of the further year; the nearer has half of it */
  double cost[2], need[2];       /* $ as computed, kWh; at half the share, at the share */
  double heating[2], cooling[2]; /* kWh of need, the same */
} tight_curve;
double tight_curve_at(const tight_curve *curve, const double saved[2], double share);

/* Draws: what each package saves of the house's air, as a share of the air in the middle, share[p * PW_TIGHT_DRAWS +
 * draw], and of the draw's own leakage area, area[]; how often the cap holds. */
pw_status tight_draw(const pw_compare *compare, const pw_weather *weather,
                     pw_compare_tight *tight, double share[], double area[], pw_err *err);

/* The two cautions that follow from it. */
void tight_cautions(const pw_compare *compare, pw_compare_tight *tight);

#endif
