/* Coated and measured panes, and any pane at an angle. */
#include <math.h>
#include <string.h>

#include "base/own_math.h"
#include "glass/optics_impl.h"
#include "panewright/units.h"

static double bounded(double v, double low, double high)
{
  return v < low ? low : v > high ? high : v;
}

pw_status pw_layer_coat(pw_layer *layer, const pw_spectrum *spectrum, const char *outdoor,
                        const char *indoor, pw_err *err)
{
  const char *name[2] = {outdoor && outdoor[0] ? outdoor : NULL,
                         indoor && indoor[0] ? indoor : NULL};
  pw_film_bare bare[2];
  const pw_film_bare *on[2] = {NULL, NULL};
  for (size_t k = 0; k < 2; k++) {
    pw_film film;
    if (!name[k]) continue;
    pw_status status = pw_film_find(name[k], spectrum, &film, err);
    if (status != PW_OK) return status;
    pw_film_peel(&film.pane, &film.angle, spectrum, 1.0, &bare[k]);
    on[k] = &bare[k];
    layer->own[k] = film.pane;
    layer->film[k] = film.angle;
    layer->emit[k] = film.emissivity;
  }
  if (!name[0] && !name[1]) return PW_OK;
  pw_film_put(layer->n, layer->depth, 1.0, on, &layer->normal);
  layer->fresnel = 0;
  layer->exchanged = 1;
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
      /* The film is where the emissivity is lower; indoors when neither is stated. */
      const double *e = measured->emit;
      int face =
          (e[0] > 0.0 ? e[0] : PW_BARE_GLASS) < (e[1] > 0.0 ? e[1] : PW_BARE_GLASS) ? 0 : 1;
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

double pw_at_class_angle(const double v[PW_CLASS_ANGLES], double degree)
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

static change change_at(const pw_film_angle *out, const pw_film_angle *in, double degree)
{
  change c = {{1.0, 1.0}, {0.0, 0.0}, {0.0, 0.0}};
  for (size_t b = 0; b < 2; b++) {
    if (out->used) c.t[b] *= pw_at_class_angle(out->t[b], degree);
    if (in->used) c.t[b] *= pw_at_class_angle(in->t[b], degree);
    if (out->used)
      c.front[b] = pw_at_class_angle(out->r_film[b], degree);
    else if (in->used)
      c.front[b] = pw_at_class_angle(in->r_glass[b], degree);
    if (in->used)
      c.back[b] = pw_at_class_angle(in->r_film[b], degree);
    else if (out->used)
      c.back[b] = pw_at_class_angle(out->r_glass[b], degree);
  }
  return c;
}

void pw_class_at(const pw_film_pane *pane, const pw_film_angle *outdoor,
                 const pw_film_angle *indoor, const pw_spectrum *spectrum, double cosine,
                 pw_sheet *sheet)
{
  double t[PW_LANE], r[PW_LANE];
  pw_slab_at(pane->n, pane->depth, cosine, PW_POL_MEAN, t, r);
  change c = change_at(outdoor, indoor, pw_acos(bounded(cosine, 0.0, 1.0)) * 180.0 / PW_PI);
  for (size_t i = 0; i < PW_LANE; i++) {
    double m = pw_band_middle(spectrum->nm[i]), rest = 1.0 - m;
    double bare_rise = (r[i] - pane->bare_r0[i]) / (1.0 - pane->bare_r0[i]);
    double rf0 = pane->normal.rf[i], rb0 = pane->normal.rb[i];
    double rf = rf0 + (1.0 - rf0) * (bare_rise + m * c.front[0] + rest * c.front[1]);
    double rb = rb0 + (1.0 - rb0) * (bare_rise + m * c.back[0] + rest * c.back[1]);
    double bare = pane->bare_t0[i] > 1e-200 ? t[i] / pane->bare_t0[i] : 0.0;
    double through = pane->normal.t[i] * bare * (m * c.t[0] + rest * c.t[1]);
    /* Two tables in two bands may overshoot by a hair near grazing: energy has the last word. */
    through = bounded(through, 0.0, 1.0);
    sheet->t[i] = through;
    sheet->rf[i] = bounded(rf, 0.0, 1.0 - through);
    sheet->rb[i] = bounded(rb, 0.0, 1.0 - through);
  }
}

static void exchanged_at(const pw_layer *layer, const pw_spectrum *spectrum, double cosine,
                         pw_sheet *sheet)
{
  pw_film_bare bare[2];
  const pw_film_bare *on[2] = {NULL, NULL};
  for (size_t k = 0; k < 2; k++) {
    if (!layer->film[k].used) continue;
    pw_film_peel(&layer->own[k], &layer->film[k], spectrum, cosine, &bare[k]);
    on[k] = &bare[k];
  }
  pw_film_put(layer->n, layer->depth, cosine, on, sheet);
}

void pw_layer_at(const pw_layer *layer, const pw_spectrum *spectrum, double cosine, pw_pol pol,
                 pw_sheet *sheet)
{
  if (layer->fresnel) {
    pw_slab_at(layer->n, layer->depth, cosine, pol, sheet->t, sheet->rf);
    memcpy(sheet->rb, sheet->rf, sizeof sheet->rb);
    return;
  }
  if (layer->exchanged) {
    exchanged_at(layer, spectrum, cosine, sheet);
    return;
  }
  pw_film_pane like; /* a measured pane, on the slab whose angle it follows */
  memcpy(like.n, layer->n, sizeof like.n);
  memcpy(like.depth, layer->depth, sizeof like.depth);
  memcpy(like.bare_t0, layer->bare_t0, sizeof like.bare_t0);
  memcpy(like.bare_r0, layer->bare_r0, sizeof like.bare_r0);
  like.normal = layer->normal;
  pw_class_at(&like, &layer->film[0], &layer->film[1], spectrum, cosine, sheet);
}
