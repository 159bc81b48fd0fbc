/* Shared by fit.c and its neighbours. */
#ifndef WINDOW_FIT_IMPL_H
#define WINDOW_FIT_IMPL_H

#include "panewright/fit.h"
#include "panewright/units.h"

/* Middle value of the readings that were taken (above 0), their count and spread. */
typedef struct fit_readings {
  size_t n;
  double least, middle, spread;
} fit_readings;
fit_readings fit_read_three(const double reading[3]);

/* ---- openings that are no rectangle, fit_shape.c and fit_shape_findings.c ---- */

/* Measures, outlines and sides of the opening; fin and lip are what can come off, face is that of the window there. */
pw_status fit_shape_begin(const pw_opening *opening, double fin, double lip, double face,
                          pw_fit *fit, pw_err *err);

/* The pocket with that much of fins and lip cut, and what is ordered for it; zeros when nothing fits. */
void fit_shape_order(const pw_opening *opening, const pw_fit *fit, int fins_cut, int lip_cut,
                     pw_cut_choice *choice, pw_shape_size *order);

/* The ring between the order and the bare pocket, side by side. */
void fit_shape_ring(const pw_opening *opening, int fins_cut, int lip_cut, pw_fit *fit);

/* As fit_judge. */
void fit_judge_shape(const pw_opening *opening, pw_fit *fit);

/* Remarks on three readings of a side that differ. */
void fit_judge_spread(double spread, int upright, pw_fit *fit);

/* Fins, lip and sill that are too large or too low for what they are called. */
void fit_judge_parts(const pw_opening *opening, pw_fit *fit);

/* What two diagonals say that differ by that much when they should not; sets square. */
void fit_judge_difference(double difference, pw_fit *fit);

/* The order is smaller than the lean of a pocket by this much more, m. */
#define FIT_LEAN_MARGIN (0.125 * PW_INCH) /* measure.csv M12 */

/* Looks at all readings of an opening: sets square, diagonal_difference, lean and finding[]. */
void fit_judge(const pw_opening *opening, pw_fit *fit);

/* Adds a finding; beyond PW_FINDINGS_MAX it is left out. */
void fit_find(pw_fit *fit, pw_finding_kind kind, pw_message says);

/* "width" or "height", for a message. */
#define FIT_SIDE(upright) PW_WORD((upright) ? PW_SAY_HEIGHT : PW_SAY_WIDTH)

/* Clear opening of a window of outer size width x height; insert: 1 takes the cautious end. */
pw_clear fit_clear(pw_operator operator_, const char *config, double width, double height,
                   int insert);

/* The same for an insert whose sash clears that share of the width (of the height when hung); 0: the usual
 * share. */
pw_clear fit_clear_share(pw_operator operator_, double share, double width, double height);

#endif
