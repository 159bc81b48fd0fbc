/* Shared by fit.c and its neighbours. */
#ifndef WINDOW_FIT_IMPL_H
#define WINDOW_FIT_IMPL_H

#include "panewright/fit.h"

/* Middle value of the readings that were taken (above 0), their count and spread. */
typedef struct fit_readings {
  size_t n;
  double least, middle, spread;
} fit_readings;
fit_readings fit_read_three(const double reading[3]);

/* Looks at all readings of an opening: sets square, diagonal_difference, lean and finding[]. */
void fit_judge(const pw_opening *opening, pw_fit *fit);

/* Adds a finding; beyond PW_FINDINGS_MAX it is left out. */
#if defined(__GNUC__)
__attribute__((format(printf, 3, 4)))
#endif
void fit_find(pw_fit *fit, pw_finding_kind kind, const char *format, ...);

/* Clear opening of a window of outer size width x height; insert: 1 takes the cautious end. */
pw_clear fit_clear(pw_operator operator_, double width, double height, int insert);

/* The same for an insert whose sash clears that share of the width (of the height when hung); 0: the usual
 * share. */
pw_clear fit_clear_share(pw_operator operator_, double share, double width, double height);

#endif
