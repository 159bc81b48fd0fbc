/* What the readings of a shape say of it: whether they are of that shape, and whether it is square. */
#include <math.h>

#include "base/own_math.h"
#include "window/fit_impl.h"

/* Common practice, no source: measures of one shape agree to 1/4 in, as neighbours' sizes do. */
static const double agree = 0.25 * PW_INCH, hair = 1e-3 * PW_INCH;
static const double diagonal_slack = 0.25 * PW_INCH; /* as of a rectangle, fit_findings.c */

/* One measure against what the others make it. */
static void should_be(pw_fit *fit, pw_message_number what, double is, double should,
                      pw_message_number why)
{
  if (fabs(is - should) <= agree + hair) return;
  fit_find(fit, PW_FINDING_NO_SUCH,
           PW_SAYS(PW_SAY_NO_SUCH_SHAPE, PW_INT(fit->shape.kind), PW_WORD(what), PW_SI(is),
                   PW_WORD(why), PW_SI(should)));
}

static void judge_name(const pw_opening *o, pw_fit *fit)
{
  const pw_shape_size *z = &fit->shape;
  double w = fit_read_three(o->width).middle, h = fit_read_three(o->height).middle;
  double legs[2] = {o->leg_left, o->leg_right};
  static const pw_message_number name[2] = {PW_SAY_LEG_LEFT, PW_SAY_LEG_RIGHT};
  switch (z->kind) {
  case PW_SHAPE_CIRCLE:
    if (h > 0.0) should_be(fit, PW_SAY_HEIGHT, h, w, PW_SAY_ITS_WIDTH_IS);
    break;
  case PW_SHAPE_HALF_ROUND:
    if (o->rise > 0.0) should_be(fit, PW_SAY_RISE, o->rise, 0.5 * w, PW_SAY_HALF_ITS_WIDTH_IS);
    if (h > 0.0 && h < 0.5 * w)
      should_be(fit, PW_SAY_HEIGHT, h, 0.5 * w, PW_SAY_HALF_ITS_WIDTH_IS);
    for (int k = 0; k < 2; k++)
      if (legs[k] > 0.0)
        should_be(fit, name[k], legs[k], h - z->rise, PW_SAY_HEIGHT_LESS_RISE_IS);
    break;
  case PW_SHAPE_ARCH:
  case PW_SHAPE_GOTHIC:
    for (int k = 0; k < 2; k++)
      if (legs[k] > 0.0)
        should_be(fit, name[k], legs[k], z->height - z->rise, PW_SAY_HEIGHT_LESS_RISE_IS);
    break;
  case PW_SHAPE_QUARTER_ROUND:
    if (o->rise > 0.0) should_be(fit, PW_SAY_RISE, o->rise, w, PW_SAY_ITS_WIDTH_IS);
    if (z->peak_at > 0.0 ? o->leg_right > 0.0 : o->leg_left > 0.0)
      should_be(fit, z->peak_at > 0.0 ? PW_SAY_LEG_RIGHT : PW_SAY_LEG_LEFT,
                z->peak_at > 0.0 ? o->leg_right : o->leg_left, z->height, PW_SAY_ITS_HEIGHT_IS);
    should_be(fit, PW_SAY_HEIGHT_LESS_LEG, z->height - fmax(z->leg_left, z->leg_right), w,
              PW_SAY_ITS_WIDTH_IS);
    break;
  case PW_SHAPE_TRAPEZOID:
    if (h > 0.0 && (o->leg_left > 0.0 || o->leg_right > 0.0))
      should_be(fit, PW_SAY_HEIGHT, fmax(o->height[0], fmax(o->height[1], o->height[2])),
                z->height, PW_SAY_ITS_LEG_IS);
    break;
  case PW_SHAPE_OCTAGON:
    if (o->leg_left > 0.0 && o->leg_right > 0.0)
      should_be(fit, PW_SAY_LEG_RIGHT, o->leg_right, o->leg_left, PW_SAY_LEG_LEFT_IS);
    break;
  case PW_SHAPE_RECTANGLE:
  case PW_SHAPE_TRIANGLE:
  case PW_SHAPE_COUNT:
  default:
    break;
  }
}

/* What the two diagonals should be: from the lower left corner to the top of the right leg, and the other;
 * of a triangle its slopes, left and right; of a circle its diameter. 0: there is none to take. */
static void wanted(const pw_shape_size *z, double want[2])
{
  double left = z->leg_left, right = z->leg_right, w = z->width;
  want[0] = want[1] = 0.0;
  switch (z->kind) {
  case PW_SHAPE_TRIANGLE: {
    double peak = z->peak_at < 0.0 ? 0.5 * w : z->peak_at;
    want[0] = pw_hypot(peak, z->height);
    want[1] = pw_hypot(w - peak, z->height);
    return;
  }
  case PW_SHAPE_CIRCLE:
    want[0] = want[1] = w;
    return;
  case PW_SHAPE_HALF_ROUND:
  case PW_SHAPE_ARCH:
  case PW_SHAPE_GOTHIC:
    left = right = z->height - z->rise;
    break;
  case PW_SHAPE_QUARTER_ROUND:
    if (z->peak_at > 0.0)
      right = z->height;
    else
      left = z->height;
    break;
  case PW_SHAPE_OCTAGON:
    if (!(left > 0.0)) left = z->height - w * (2.0 - sqrt(2.0));
    right = left;
    break;
  case PW_SHAPE_RECTANGLE:
  case PW_SHAPE_TRAPEZOID:
  case PW_SHAPE_COUNT:
  default:
    break;
  }
  if (right > agree) want[0] = pw_hypot(w, right);
  if (left > agree) want[1] = pw_hypot(w, left);
}

void fit_judge_shape(const pw_opening *o, pw_fit *fit)
{
  double want[2], off[2] = {0.0};
  int n = 0, asked = 0, bad = 0;
  fit_judge_spread(fit_read_three(o->width).spread, 0, fit);
  if (o->shape != PW_SHAPE_TRAPEZOID)
    fit_judge_spread(fit_read_three(o->height).spread, 1, fit);
  fit_judge_parts(o, fit);
  judge_name(o, fit);
  wanted(&fit->shape, want);
  for (int k = 0; k < 2; k++) {
    double d = o->diagonal[k];
    asked += want[k] > 0.0;
    if (!(d > 0.0 && want[k] > 0.0)) continue;
    off[k] = d - want[k];
    n++;
  }
  double mean = n ? (off[0] + off[1]) / n : 0.0;
  if (n && (fabs(mean) > diagonal_slack || (n == 2 && fabs(off[0] - off[1]) > 4.0 * PW_INCH))) {
    int k = fabs(off[0]) >= fabs(off[1]) ? 0 : 1;
    fit_find(fit, PW_FINDING_DIAGONAL,
             PW_SAYS(PW_SAY_SHAPE_DIAGONAL, PW_INT(o->shape),
                     PW_COLUMN(k ? "diagonal_2" : "diagonal_1"), PW_SI(o->diagonal[k]),
                     PW_SI(want[k])));
    bad = 1;
  }
  if (o->shape == PW_SHAPE_CIRCLE || o->shape == PW_SHAPE_TRIANGLE || asked < 2) {
    fit->square = PW_SQUARE_NOT_ASKED;
    return;
  }
  if (n < 2) {
    fit_find(fit, PW_FINDING_NO_DIAGONAL,
             PW_SAYS_PLAIN(n ? PW_SAY_ONE_DIAGONAL : PW_SAY_NO_DIAGONAL));
    return;
  }
  /* Sheared by s, the base staying level, d1^2 grows by 2 W s and d2^2 shrinks by it: measure.md item 3
   * with each diagonal against its own. */
  double d1 = o->diagonal[0], d2 = o->diagonal[1];
  if (!bad)
    fit->lean = fabs((d1 * d1 - want[0] * want[0]) - (d2 * d2 - want[1] * want[1])) /
                (4.0 * fit->shape.width);
  fit_judge_difference(fabs(off[0] - off[1]), fit);
}
