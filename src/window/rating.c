#include "panewright/rating.h"

#include <math.h>

static const double h_out_default = 30.0; /* W/(m2 K), see note 2 of the header */
static const double absorptance_default = 0.3;

static pw_status lite_check(const pw_rating_lite *l, pw_err *err)
{
  pw_status s = pw_in_range(l->width, 1e-3, 20.0, "lite.width", "", err);
  if (s == PW_OK) s = pw_in_range(l->height, 1e-3, 20.0, "lite.height", "", err);
  for (int k = 0; k < 4 && s == PW_OK; k++)
    s = pw_in_range(l->u_edge[k], 0.0, 30.0, "lite.u_edge", "", err);
  return s;
}

/* Of a light that is no rectangle, else NULL. */
static const pw_lite_round *round_of(const pw_rating_input *in, size_t i)
{
  return in->round && in->round[i].area > 0.0 ? &in->round[i] : NULL;
}

static pw_status round_check(const pw_lite_round *round, pw_err *err)
{
  pw_status s = pw_in_range(round->perimeter, 0.0, 1600.0, "lite.round", "", err);
  if (s == PW_OK) s = pw_in_range(round->center, 0.0, 400.0, "lite.round", "", err);
  for (int k = 0; k < 4 && s == PW_OK; k++)
    s = pw_in_range(round->edge[k], 0.0, 400.0, "lite.round", "", err);
  return s;
}

static pw_status part_check(const pw_rating_part *p, pw_err *err)
{
  if (!((unsigned)p->kind <= PW_PART_RETAINED))
    return pw_fail(err, PW_E_DOMAIN, "part.kind", "part of kind %d, want 0 to %d", (int)p->kind,
                   PW_PART_RETAINED);
  pw_status s = pw_in_range(p->area, 0.0, 400.0, "part.area", "", err);
  if (s == PW_OK) s = pw_in_range(p->u, 0.0, 100.0, "part.u", "", err);
  if (s == PW_OK) s = pw_in_range(p->absorptance, 0.0, 1.0, "part.absorptance", "", err);
  if (s == PW_OK && p->developed != 0.0)
    s = pw_in_range(p->developed, 1.0, 20.0, "part.developed", "", err);
  return s;
}

static pw_status input_check(const pw_rating_input *in, pw_err *err)
{
  pw_status s = pw_in_range(in->width, 0.01, 20.0, "width", "", err);
  if (s == PW_OK) s = pw_in_range(in->height, 0.01, 20.0, "height", "", err);
  if (s == PW_OK) s = pw_in_range(in->u_center, 0.0, 20.0, "u_center", "", err);
  if (s == PW_OK) s = pw_in_range(in->shgc, 0.0, 1.0, "shgc", "", err);
  if (s == PW_OK) s = pw_in_range(in->vt, 0.0, 1.0, "vt", "", err);
  if (s == PW_OK) s = pw_in_range(in->band, 0.0, 1.0, "band", "", err);
  if (s == PW_OK && in->h_out != 0.0) s = pw_in_range(in->h_out, 1.0, 200.0, "h_out", "", err);
  if (s == PW_OK && in->n_lite == 0) return pw_fail(err, PW_E_SHAPE, "n_lite", "no glass");
  for (size_t i = 0; i < in->n_lite && s == PW_OK; i++)
    s = lite_check(&in->lite[i], err);
  for (size_t i = 0; i < in->n_lite && s == PW_OK; i++)
    if (round_of(in, i)) s = round_check(round_of(in, i), err);
  for (size_t i = 0; i < in->n_part && s == PW_OK; i++)
    s = part_check(&in->part[i], err);
  return s;
}

static double opening_area(const pw_rating_input *in)
{
  return in->area > 0.0 ? in->area : in->width * in->height;
}

static double glass_of(const pw_rating_input *in, size_t i)
{
  const pw_lite_round *round = round_of(in, i);
  return round ? round->area : in->lite[i].width * in->lite[i].height;
}

static double perimeter_of(const pw_rating_input *in, size_t i)
{
  const pw_lite_round *round = round_of(in, i);
  return round ? round->perimeter : 2.0 * (in->lite[i].width + in->lite[i].height);
}

/* The share of the opening that neither glass nor parts cover, which must be rounding only. */
static pw_status remainder_of(const pw_rating_input *in, double *rest, pw_err *err)
{
  double area = opening_area(in), filled = 0.0;
  for (size_t i = 0; i < in->n_lite; i++)
    filled += glass_of(in, i);
  for (size_t i = 0; i < in->n_part; i++)
    filled += in->part[i].area;
  *rest = area - filled;
  if (fabs(*rest) <= 1e-9 * area) return PW_OK;
  return pw_fail(err, PW_E_SHAPE, "part.area",
                 "glass and parts cover %.9g m2 of an opening of %.9g m2", filled, area);
}

/* Centre and edge of one light. The edge band along a side is cut at the corners by the mitre. */
static void add_lite(const pw_rating_input *in, size_t i, pw_rating *r)
{
  const pw_rating_lite *l = &in->lite[i];
  const pw_lite_round *round = round_of(in, i);
  r->glass_perimeter += perimeter_of(in, i);
  if (round) { /* a shape brings its own band */
    r->areas.center += round->center;
    r->ua.center += round->center * in->u_center;
    r->areas.edge += round->area - round->center;
    for (int k = 0; k < 4; k++)
      r->ua.edge += round->edge[k] * l->u_edge[k];
    return;
  }
  double band = in->band > 0.0 ? in->band : PW_EDGE_BAND;
  double b = fmin(band, 0.5 * fmin(l->width, l->height)); /* a narrow light is all edge */
  double center = (l->width - 2.0 * b) * (l->height - 2.0 * b);
  r->areas.center += center;
  r->ua.center += center * in->u_center;
  r->areas.edge += l->width * l->height - center;
  for (int k = 0; k < 4; k++) {
    double along = k == PW_LEFT || k == PW_RIGHT ? l->height : l->width;
    r->ua.edge += b * (along - b) * l->u_edge[k];
  }
}

static double solar_of(const pw_rating_input *in, const pw_rating_part *p)
{
  double alpha = p->absorptance > 0.0 ? p->absorptance : absorptance_default;
  double h = in->h_out > 0.0 ? in->h_out : h_out_default;
  double developed = p->developed > 0.0 ? p->developed : 1.0;
  return alpha * p->u / (h * developed); /* ISO 15099:2003 4.2, frame; clause from memory */
}

static void add_part(pw_rating *r, const pw_rating_part *p, double area)
{
  double *a = p->kind == PW_PART_FRAME     ? &r->areas.frame
              : p->kind == PW_PART_DIVIDER ? &r->areas.divider
                                           : &r->areas.retained;
  double *ua = p->kind == PW_PART_FRAME     ? &r->ua.frame
               : p->kind == PW_PART_DIVIDER ? &r->ua.divider
                                            : &r->ua.retained;
  *a += area;
  *ua += area * p->u;
}

static double sum_of(const pw_parts *p)
{
  return p->center + p->edge + p->frame + p->divider + p->retained;
}

static pw_given mean_of(double ua, double area)
{
  return (pw_given){.value = area > 0.0 ? ua / area : 0.0, .origin = PW_ORIGIN_COMPUTED};
}

pw_status pw_rating_window(const pw_rating_input *input, pw_rating *rating, pw_err *err)
{
  double rest = 0.0, solar = 0.0;
  pw_rating r = {.area = opening_area(input), .u_psi = NAN};
  pw_status s = input_check(input, err);
  if (s == PW_OK) s = remainder_of(input, &rest, err);
  if (s != PW_OK) return s;
  for (size_t i = 0; i < input->n_lite; i++)
    add_lite(input, i, &r);
  for (size_t i = 0; i < input->n_part; i++) {
    const pw_rating_part *p = &input->part[i];
    double area = p->area + (i + 1 == input->n_part ? rest : 0.0);
    add_part(&r, p, area);
    solar += area * solar_of(input, p);
  }
  r.glass_area = r.areas.center + r.areas.edge;
  double opaque = r.areas.frame + r.areas.divider + r.areas.retained;
  r.u = sum_of(&r.ua) / r.area;
  r.shgc = (input->shgc * r.glass_area + solar) / r.area;
  r.vt = input->vt * r.glass_area / r.area;
  r.shgc_opaque = opaque > 0.0 ? solar / opaque : 0.0;
  r.u_center = mean_of(r.ua.center, r.areas.center);
  r.u_edge = mean_of(r.ua.edge, r.areas.edge);
  r.u_frame = mean_of(r.ua.frame, r.areas.frame);
  r.u_retained = mean_of(r.ua.retained, r.areas.retained);
  *rating = r;
  return PW_OK;
}

pw_status pw_rating_u_psi(const pw_rating_input *input, double u_glass, double psi, double *u,
                          pw_err *err)
{
  double rest = 0.0, sum = 0.0;
  pw_status s = input_check(input, err);
  if (s == PW_OK) s = pw_in_range(u_glass, 0.0, 20.0, "u_glass", "", err);
  if (s == PW_OK) s = pw_in_range(psi, -0.5, 2.0, "psi", "", err);
  if (s == PW_OK) s = remainder_of(input, &rest, err);
  if (s != PW_OK) return s;
  for (size_t i = 0; i < input->n_lite; i++) {
    const pw_rating_lite *l = &input->lite[i];
    const pw_lite_round *round = round_of(input, i);
    sum += round ? u_glass * round->area + psi * round->perimeter
                 : u_glass * l->width * l->height + psi * 2.0 * (l->width + l->height);
  }
  for (size_t i = 0; i < input->n_part; i++)
    sum += input->part[i].u * input->part[i].area;
  *u = sum / opening_area(input); /* ISO 10077-1:2017 6.4 */
  return PW_OK;
}
