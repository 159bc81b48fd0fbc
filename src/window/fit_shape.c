/* The fit of an opening that is no rectangle: the same steps, by outlines.
 *
 * The fins of such an old frame are on its legs and run on round its arcs, the lip lies on the base. The order is
 * the pocket moved inward by half the clearance, its measures taken down to 1/8 in. */
#include <math.h>

#include "base/tape.h"
#include "window/fit_impl.h"

/* A size that was measured, else 0. */
static double given(double size) { return size > 0.0 ? size : 0.0; }

static double least_of(double a, double b)
{
  return a > 0.0 && b > 0.0 ? fmin(a, b) : fmax(given(a), given(b));
}

static pw_shape_size measured_arch(const pw_opening *o, pw_shape_size z)
{
  static const double slack = 0.5 * PW_INCH; /* beyond that the name is wrong, and refused */
  double leg = least_of(o->leg_left, o->leg_right), half = 0.5 * z.width;
  z.rise = given(o->rise);
  if (!(z.rise > 0.0) && leg > 0.0 && z.height > leg) z.rise = z.height - leg;
  if (!(z.rise > 0.0) && z.kind == PW_SHAPE_HALF_ROUND)
    z.rise = z.height > 0.0 ? fmin(half, z.height) : half;
  if (!(z.height > 0.0) && z.rise > 0.0) z.height = z.rise + leg;
  if (z.rise > z.height && z.rise <= z.height + slack) z.rise = z.height;
  if (z.kind == PW_SHAPE_GOTHIC ? z.rise < half && z.rise >= half - slack
                                : z.rise > half && z.rise <= half + slack)
    z.rise = half;
  return z;
}

static pw_shape_size measured_quarter(const pw_opening *o, pw_shape_size z)
{
  static const double leg_least = 0.5 * PW_INCH;
  int right = o->peak_at > 0.5 * z.width ||
              (!pw_is_given(o->peak_at) && given(o->leg_right) > given(o->leg_left));
  double high = given(right ? o->leg_right : o->leg_left),
         low = given(right ? o->leg_left : o->leg_right);
  if (!pw_is_given(o->peak_at) && !(o->leg_left > 0.0 && o->leg_right > 0.0)) {
    /* One leg alone is the low one, the other side is high. */
    right = o->leg_left > 0.0;
    low = least_of(o->leg_left, o->leg_right);
    high = 0.0;
  }
  z.peak_at = !pw_is_given(o->peak_at) && !(low > 0.0) ? -1.0 : right ? z.width : 0.0;
  if (!(z.height > 0.0)) z.height = high > 0.0 ? high : z.width + low;
  if (!(low > 0.0) && z.height - z.width > leg_least) low = z.height - z.width;
  z.leg_left = right ? low : 0.0;
  z.leg_right = right ? 0.0 : low;
  return z;
}

pw_shape_size pw_fit_measured(const pw_opening *o)
{
  pw_shape_size z = {.kind = o->shape,
                     .width = fit_read_three(o->width).least,
                     .height = fit_read_three(o->height).least};
  switch (o->shape) {
  case PW_SHAPE_TRAPEZOID:
    z.leg_left = given(o->leg_left);
    z.leg_right = given(o->leg_right);
    if (!(z.leg_left > 0.0 || z.leg_right > 0.0)) {
      z.leg_left = given(o->height[0]);
      z.leg_right = given(o->height[2]);
    }
    z.height = fmax(z.leg_left, z.leg_right);
    break;
  case PW_SHAPE_TRIANGLE:
    z.peak_at = pw_is_given(o->peak_at) ? o->peak_at : -1.0;
    z.leg_left = z.leg_right = 0.0;
    break;
  case PW_SHAPE_OCTAGON:
    z.leg_left = least_of(o->leg_left, o->leg_right);
    if (!(z.height > 0.0)) z.height = z.width;
    break;
  case PW_SHAPE_CIRCLE:
    z.width = z.height = least_of(z.width, z.height);
    break;
  case PW_SHAPE_QUARTER_ROUND:
    return measured_quarter(o, z);
  case PW_SHAPE_HALF_ROUND:
  case PW_SHAPE_ARCH:
  case PW_SHAPE_GOTHIC:
    return measured_arch(o, z);
  case PW_SHAPE_RECTANGLE:
  case PW_SHAPE_COUNT:
  default:
    break;
  }
  return z;
}

pw_status fit_shape_begin(const pw_opening *o, double fin, double lip, double face, pw_fit *f,
                          pw_err *err)
{
  pw_outline as_read, bare, all;
  f->shape = pw_fit_measured(o);
  pw_bounds measured;
  pw_status status = pw_shape_make(&f->shape, &measured, err);
  if (status == PW_OK) status = pw_shape_outline(&measured, &as_read, err);
  if (status != PW_OK) return status;
  f->grown_fin = fin;
  f->grown_lip = lip;
  pw_bounds pocket = pw_shape_grow(&measured, fin, lip),
            whole = pw_shape_inset(&pocket, -o->retained_face);
  status = pw_shape_outline(&pocket, &bare, err);
  if (status == PW_OK) status = pw_shape_outline(&whole, &all, err);
  if (status != PW_OK) return status;
  f->width_min = as_read.x_max - as_read.x_min;
  f->height_min = as_read.y_max - as_read.y_min;
  f->bare_width = bare.x_max - bare.x_min;
  f->bare_height = bare.y_max - bare.y_min;
  f->bare_area = bare.area;
  for (int k = 0; k < 4; k++)
    f->bare_side[k] = bare.side[k];
  f->opening_width = all.x_max - all.x_min;
  f->opening_height = all.y_max - all.y_min;
  f->opening_area = all.area;
  f->opening_perimeter = all.perimeter;
  return pw_lites_shaped(o->operator_existing, &pocket, face, &f->existing, err);
}

static double eighths(double length) { return fmax(0.0, pw_tape_floor(length, 8)); }

/* Down to 1/8 in, measure by measure; what is at an end or in the middle stays there. */
static pw_shape_size taken_down(pw_shape_size z, double width_most)
{
  pw_shape_size d = z;
  d.width = eighths(fmin(z.width, width_most));
  d.height = eighths(z.height);
  d.leg_left = eighths(z.leg_left);
  d.leg_right = eighths(z.leg_right);
  /* A flatter arc stays within: a radius goes up. */
  d.radius = z.kind == PW_SHAPE_QUARTER_ROUND ? -pw_tape_floor(-z.radius, 8) : 0.0;
  switch (z.kind) {
  case PW_SHAPE_TRAPEZOID:
    d.height = fmax(d.leg_left, d.leg_right);
    break;
  case PW_SHAPE_CIRCLE:
    d.width = d.height = fmin(d.width, d.height);
    break;
  case PW_SHAPE_QUARTER_ROUND:
    d.peak_at = z.peak_at > 0.0 ? d.width : 0.0;
    if (z.peak_at > 0.0)
      d.leg_right = 0.0;
    else
      d.leg_left = 0.0;
    break;
  case PW_SHAPE_TRIANGLE:
    d.leg_left = d.leg_right = 0.0;
    d.peak_at = pw_tape_floor(z.peak_at * d.width / z.width + 0.0625 * PW_INCH, 8);
    if (z.peak_at < 1e-6) d.peak_at = 0.0;
    if (z.peak_at > z.width - 1e-6) d.peak_at = d.width;
    if (fabs(z.peak_at - 0.5 * z.width) < 1e-6) d.peak_at = 0.5 * d.width;
    d.peak_at = fmin(d.peak_at, d.width);
    break;
  case PW_SHAPE_OCTAGON: /* 0 would be the regular one */
    d.leg_left = fmax(d.leg_left, 0.125 * PW_INCH);
    d.leg_right = 0.0;
    break;
  case PW_SHAPE_GOTHIC:
  case PW_SHAPE_HALF_ROUND:
  case PW_SHAPE_ARCH:
    d.leg_left = d.leg_right = fmin(d.leg_left, d.leg_right);
    d.rise = d.height - d.leg_left;
    if (z.kind != PW_SHAPE_GOTHIC) d.rise = fmin(d.rise, 0.5 * d.width);
    if (z.kind == PW_SHAPE_GOTHIC) d.rise = fmin(fmax(d.rise, 0.5 * d.width), d.height);
    break;
  case PW_SHAPE_RECTANGLE:
  case PW_SHAPE_COUNT:
  default:
    break;
  }
  return d;
}

void fit_shape_order(const pw_opening *o, const pw_fit *fit, int fins_cut, int lip_cut,
                     pw_cut_choice *c, pw_shape_size *z)
{
  pw_bounds s;
  pw_outline pocket, within;
  double fin = fins_cut ? o->fin_width : 0.0, lip = lip_cut ? o->sill_lip : 0.0;
  double half = 0.5 * fit->clearance;
  z->kind = o->shape;
  c->order_width = c->order_height = 0.0;
  if (pw_shape_make(&fit->shape, &s, NULL) != PW_OK) return;
  s = pw_shape_grow(&s, fin, lip);
  if (pw_shape_outline(&s, &pocket, NULL) != PW_OK) return;
  c->pocket_width = pocket.x_max - pocket.x_min;
  c->pocket_height = pocket.y_max - pocket.y_min;
  s = pw_shape_inset(&s, half);
  if (pw_shape_outline(&s, &within, NULL) != PW_OK) return;
  *z = taken_down(pw_shape_measure(&s, &within), c->pocket_width - fit->lean - FIT_LEAN_MARGIN);
  c->order_width = z->width;
  c->order_height = z->height;
}

static int arcs(const pw_bounds *s)
{
  for (size_t i = 0; i < s->n; i++)
    if (s->edge[i].arc) return 1;
  return 0;
}

void fit_shape_ring(const pw_opening *o, int fins_cut, int lip_cut, pw_fit *fit)
{
  pw_bounds pocket, order;
  double gap[4], fin = fins_cut ? o->fin_width : 0.0, lip = lip_cut ? o->sill_lip : 0.0;
  if (pw_shape_make(&fit->shape, &pocket, NULL) != PW_OK ||
      pw_shape_make(&fit->order_shape, &order, NULL) != PW_OK)
    return; /* both were made before */
  pocket = pw_shape_grow(&pocket, fin, lip);
  pw_shape_gap(&pocket, &order, gap);
  fit->gap = fmin(fmin(gap[0], gap[1]), fmin(gap[2], gap[3]));
  for (int k = 0; k < 4; k++)
    fit->retained_width[k] = o->retained_face + gap[k] +
                             (k == PW_BOTTOM                  ? fit->grown_lip - lip
                              : k == PW_TOP && !arcs(&pocket) ? 0.0
                                                              : fit->grown_fin - fin);
}

pw_status pw_fit_outlines(const pw_fit *fit, pw_bounds *opening, pw_bounds *bare,
                          pw_bounds *order)
{
  pw_bounds s;
  pw_status status = pw_shape_make(&fit->shape, &s, NULL);
  if (status == PW_OK) status = pw_shape_make(&fit->order_shape, order, NULL);
  if (status != PW_OK) return status;
  *bare = pw_shape_grow(&s, fit->grown_fin, fit->grown_lip);
  *opening = pw_shape_inset(bare, -fit->retained_face);
  return PW_OK;
}
