/* A film taken off the pane on which it is tabulated and put on another glass, at any angle. */
#include <math.h>

#include "base/own_math.h"
#include "glass/optics_impl.h"
#include "panewright/units.h"

static double bounded(double v, double low, double high)
{
  return v < low ? low : v > high ? high : v;
}

/* One wavelength of a bare face and the glass behind it: r for s and p, a once through. */
typedef struct glass_at {
  double r[2], a;
} glass_at;

static glass_at glass_of(double n, double depth, double cosine)
{
  double c = sqrt(1.0 - (1.0 - cosine * cosine) / (n * n)); /* Snell */
  double s = (cosine - n * c) / (cosine + n * c);           /* Fresnel */
  double p = (n * cosine - c) / (n * cosine + c);
  return (glass_at){{s * s, p * p}, pw_exp(-depth / c)};
}

static double half_sum(const double v[2]) { return 0.5 * (v[0] + v[1]); }

/* With r the bare face, a the glass between, <> the mean of s and p, and the film's g from the
 * glass, rho from the air, tau = c w through (all inter-reflections, as in optics_slab.c):
 *   rf = <r> + <(1-r)^2> a^2 g / d,  t = c <(1-r) w> a / d,  rb = rho + c^2 <w^2 r> a^2 / d,
 *   d = 1 - <r> a^2 g,  solved for g, c and rho.
 * Where the glass swallows nearly all (below 330 nm) the film cannot be seen through it: the
 * value of the next longer wavelength stands (solar weight there 0.2 %).
 * w is told by the film's own stack, in two bands (optics/film_polarisation.csv), g by its mean alone. */
static void peel_one(const glass_at *g, const pw_sheet *pane, double p_share, size_t i,
                     pw_film_bare *film)
{
  double w[2] = {2.0 * (1.0 - p_share), 2.0 * p_share};
  double face[2], through[2], back[2], a2 = g->a * g->a, r = half_sum(g->r);
  for (size_t k = 0; k < 2; k++) {
    face[k] = (1.0 - g->r[k]) * (1.0 - g->r[k]);
    through[k] = (1.0 - g->r[k]) * w[k];
    back[k] = w[k] * w[k] * g->r[k];
  }
  double x = pane->rf[i] - r, a2g = x / (half_sum(face) + r * x), d = 1.0 - r * a2g;
  double c = pane->t[i] * d / (half_sum(through) * g->a);
  film->r_glass[i] = a2g / a2;
  film->r_air[i] = pane->rb[i] - c * c * half_sum(back) * a2 / d;
  for (size_t k = 0; k < 2; k++)
    film->t[k][i] = c * w[k];
}

void pw_film_peel(const pw_film_pane *pane, const pw_film_angle *angle,
                  const pw_spectrum *spectrum, double cosine, pw_film_bare *film)
{
  static const double a2_min = 0.05;
  static const pw_film_angle bare = {.used = 0};
  pw_sheet sheet = pane->normal;
  if (cosine < 1.0) pw_class_at(pane, &bare, angle, spectrum, cosine, &sheet);
  const double degree = pw_acos(bounded(cosine, 0.0, 1.0)) * 180.0 / PW_PI;
  const double middle = pw_at_class_angle(angle->p_share[0], degree),
               rest = pw_at_class_angle(angle->p_share[1], degree);
  for (size_t i = PW_LANE; i-- > 0;) {
    glass_at g = glass_of(pane->n[i], pane->depth[i], cosine);
    const double m = pw_band_middle(spectrum->nm[i]);
    if (g.a * g.a >= a2_min || i + 1 == PW_LANE) {
      peel_one(&g, &sheet, m * middle + (1.0 - m) * rest, i, film);
      continue;
    }
    for (size_t k = 0; k < 2; k++)
      film->t[k][i] = film->t[k][i + 1];
    film->r_glass[i] = film->r_glass[i + 1];
    film->r_air[i] = bounded(sheet.rb[i], 0.0, 1.0 - 0.5 * (film->t[0][i] + film->t[1][i]));
  }
}

/* A face as light meets it from inside and from outside; s and p. */
typedef struct face_at {
  double t[2], in[2], out;
} face_at;

static face_at face_of(const glass_at *g, const pw_film_bare *film, size_t i)
{
  if (film)
    return (face_at){
        {film->t[0][i], film->t[1][i]}, {film->r_glass[i], film->r_glass[i]}, film->r_air[i]};
  return (face_at){
      {1.0 - g->r[0], 1.0 - g->r[1]}, {g->r[0], g->r[1]}, 0.5 * (g->r[0] + g->r[1])};
}

void pw_film_put(const double n[PW_LANE], const double depth[PW_LANE], double cosine,
                 const pw_film_bare *const film[2], pw_sheet *sheet)
{
  for (size_t i = 0; i < PW_LANE; i++) {
    glass_at g = glass_of(n[i], depth[i], cosine);
    face_at f = face_of(&g, film[0], i), b = face_of(&g, film[1], i);
    double through[2], front[2], back[2], a2 = g.a * g.a;
    for (size_t k = 0; k < 2; k++) {
      through[k] = f.t[k] * b.t[k];
      front[k] = f.t[k] * f.t[k] * b.in[k];
      back[k] = b.t[k] * b.t[k] * f.in[k];
    }
    double d = 1.0 - half_sum(f.in) * half_sum(b.in) * a2;
    /* Two tables in two bands may overshoot by a hair near grazing: energy has the last word. */
    double t = bounded(half_sum(through) * g.a / d, 0.0, 1.0);
    sheet->t[i] = t;
    sheet->rf[i] = bounded(f.out + half_sum(front) * a2 / d, 0.0, 1.0 - t);
    sheet->rb[i] = bounded(b.out + half_sum(back) * a2 / d, 0.0, 1.0 - t);
  }
}
