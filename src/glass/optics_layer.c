/* Coated and measured panes, and any pane at an angle. */
#include <math.h>
#include <string.h>

#include "glass/optics_impl.h"
#include "panewright/units.h"

static double bounded(double v, double low, double high)
{
  return v < low ? low : v > high ? high : v;
}

/* A face of the glass: bare, or with its film. */
typedef struct side {
  const pw_film *film; /* NULL bare */
} side;

static void face_at(const side *f, double n, size_t i, double *in, double *t, double *out)
{
  double r = (n - 1.0) * (n - 1.0) / ((n + 1.0) * (n + 1.0));
  *in = f->film ? f->film->r_glass[i] : r;
  *t = f->film ? f->film->t[i] : 1.0 - r;
  *out = f->film ? f->film->r_air[i] : r;
}

pw_status pw_layer_coat(pw_layer *layer, const pw_spectrum *spectrum, const char *outdoor,
                        const char *indoor, pw_err *err)
{
  const char *name[2] = {outdoor && outdoor[0] ? outdoor : NULL,
                         indoor && indoor[0] ? indoor : NULL};
  pw_film film[2];
  side s[2] = {{NULL}, {NULL}};
  for (size_t k = 0; k < 2; k++) {
    if (!name[k]) continue;
    pw_status status = pw_film_find(name[k], spectrum, &film[k], err);
    if (status != PW_OK) return status;
    s[k].film = &film[k];
  }
  if (!name[0] && !name[1]) return PW_OK;
  for (size_t i = 0; i < PW_LANE; i++) {
    double in0, t0, out0, in1, t1, out1, a = exp(-layer->depth[i]);
    face_at(&s[0], layer->n[i], i, &in0, &t0, &out0);
    face_at(&s[1], layer->n[i], i, &in1, &t1, &out1);
    double d = 1.0 - a * a * in0 * in1;
    layer->normal.t[i] = t0 * a * t1 / d;
    layer->normal.rf[i] = bounded(out0 + t0 * t0 * a * a * in1 / d, 0.0, 1.0);
    layer->normal.rb[i] = bounded(out1 + t1 * t1 * a * a * in0 / d, 0.0, 1.0);
  }
  layer->fresnel = 0;
  for (size_t k = 0; k < 2; k++)
    if (s[k].film) {
      layer->film[k] = film[k].angle;
      layer->emit[k] = film[k].emissivity;
    }
  return PW_OK;
}

static pw_status check_measured(const pw_measured *m, const pw_spectrum *spectrum, pw_err *err)
{
  static const double slack = 1e-9;
  for (size_t i = 0; i < PW_GRID; i++) {
    double t = m->normal.t[i], rf = m->normal.rf[i], rb = m->normal.rb[i];
    if (!(t >= 0.0 && rf >= 0.0 && rb >= 0.0 && t + rf <= 1.0 + slack && t + rb <= 1.0 + slack))
      return pw_fail(err, PW_E_DOMAIN, "pane",
                     "pane '%s' at %g nm: t %.4g, r %.4g and %.4g; want 0 to 1 and t + r not "
                     "above 1",
                     m->name, spectrum->nm[i], t, rf, rb);
  }
  return PW_OK;
}

static int sides_alike(const pw_sheet *s)
{
  for (size_t i = 0; i < PW_LANE; i++)
    if (fabs(s->rf[i] - s->rb[i]) > 0.01) return 0;
  return 1;
}

/* The slab whose angle a pane of unlike sides without a class follows: 4 mm clear. */
static pw_status like_clear(const pw_spectrum *spectrum, pw_layer *layer, pw_err *err)
{
  double n[PW_LANE], kappa[PW_LANE];
  pw_status status =
      pw_spectrum_glass(spectrum, "optics/spectral/nk_glass_clear", 1.0, 1.0, n, kappa, err);
  return status == PW_OK ? pw_layer_glass(n, kappa, 4e-3, layer, err) : status;
}

pw_status pw_layer_measured(const pw_measured *measured, const pw_spectrum *spectrum,
                            pw_layer *layer, pw_err *err)
{
  pw_layer made = {.fresnel = 1};
  pw_status status = check_measured(measured, spectrum, err);
  if (status != PW_OK) return status;
  if (sides_alike(&measured->normal) && !measured->angular[0]) {
    for (size_t i = 0; i < PW_LANE; i++) {
      double r = 0.5 * (measured->normal.rf[i] + measured->normal.rb[i]);
      pw_slab_from_measured(measured->normal.t[i], r, &made.n[i], &made.depth[i]);
    }
    double one[PW_LANE];
    pw_slab_at(made.n, made.depth, 1.0, PW_POL_MEAN, made.bare_t0, one);
    memcpy(made.bare_r0, one, sizeof one);
  } else {
    status = like_clear(spectrum, &made, err);
    made.fresnel = 0;
    pw_film film;
    if (status == PW_OK && measured->angular[0]) {
      status = pw_film_find(measured->angular, spectrum, &film, err);
      /* The film is where the emissivity is low; indoors when neither is stated. */
      int face = measured->emit[0] > 0.0 && !(measured->emit[1] > 0.0) ? 0 : 1;
      if (status == PW_OK) made.film[face] = film.angle;
    }
    if (status != PW_OK) return status;
  }
  made.normal = measured->normal;
  memcpy(made.emit, measured->emit, sizeof made.emit);
  *layer = made;
  return PW_OK;
}

/* ---- at an angle ---- */

/* Linear between the 5 degree steps of a class. */
static double at_angle(const double v[PW_CLASS_ANGLES], double degree)
{
  double x = bounded(degree / 5.0, 0.0, PW_CLASS_ANGLES - 1);
  size_t i = (size_t)x;
  if (i > PW_CLASS_ANGLES - 2) i = PW_CLASS_ANGLES - 2;
  return v[i] + (v[i + 1] - v[i]) * (x - (double)i);
}

/* Per band (middle of the visible, rest): factor on t, additions to the rise of the front and of the back reflectance. */
typedef struct change {
  double t[2], front[2], back[2];
} change;

static change change_at(const pw_layer *layer, double degree)
{
  change c = {{1.0, 1.0}, {0.0, 0.0}, {0.0, 0.0}};
  for (size_t b = 0; b < 2; b++) {
    const pw_film_angle *out = &layer->film[0], *in = &layer->film[1];
    if (out->used) c.t[b] *= at_angle(out->t[b], degree);
    if (in->used) c.t[b] *= at_angle(in->t[b], degree);
    if (out->used)
      c.front[b] = at_angle(out->r_film[b], degree);
    else if (in->used)
      c.front[b] = at_angle(in->r_glass[b], degree);
    if (in->used)
      c.back[b] = at_angle(in->r_film[b], degree);
    else if (out->used)
      c.back[b] = at_angle(out->r_glass[b], degree);
  }
  return c;
}

void pw_layer_at(const pw_layer *layer, const pw_spectrum *spectrum, double cosine, pw_pol pol,
                 pw_sheet *sheet)
{
  double t[PW_LANE], r[PW_LANE];
  if (layer->fresnel) {
    pw_slab_at(layer->n, layer->depth, cosine, pol, sheet->t, sheet->rf);
    memcpy(sheet->rb, sheet->rf, sizeof sheet->rb);
    return;
  }
  pw_slab_at(layer->n, layer->depth, cosine, PW_POL_MEAN, t, r);
  change c = change_at(layer, acos(bounded(cosine, 0.0, 1.0)) * 180.0 / PW_PI);
  for (size_t i = 0; i < PW_LANE; i++) {
    double m = pw_band_middle(spectrum->nm[i]), rest = 1.0 - m;
    double bare_rise = (r[i] - layer->bare_r0[i]) / (1.0 - layer->bare_r0[i]);
    double rf0 = layer->normal.rf[i], rb0 = layer->normal.rb[i];
    double rf = rf0 + (1.0 - rf0) * (bare_rise + m * c.front[0] + rest * c.front[1]);
    double rb = rb0 + (1.0 - rb0) * (bare_rise + m * c.back[0] + rest * c.back[1]);
    double bare = layer->bare_t0[i] > 1e-200 ? t[i] / layer->bare_t0[i] : 0.0;
    double through = layer->normal.t[i] * bare * (m * c.t[0] + rest * c.t[1]);
    /* Two tables in two bands may overshoot by a hair near grazing: energy has the last word. */
    through = bounded(through, 0.0, 1.0);
    sheet->t[i] = through;
    sheet->rf[i] = bounded(rf, 0.0, 1.0 - through);
    sheet->rb[i] = bounded(rb, 0.0, 1.0 - through);
  }
}
