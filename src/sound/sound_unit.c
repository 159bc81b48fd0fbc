#include "sound/sound_unit.h"

#include <math.h>

#include "gen/reference.h"
#include "panewright/units.h"

/* Rank-1 lattices of Fibonacci (n points, generator g): peaks of tau are ridges across the plane of
 * frequency and angle, and such a lattice cuts them n times, not sqrt n times. */
typedef struct lattice {
  size_t n, g;
} lattice;
static const lattice coarse = {34, 21}, fine = {55, 34}, at_peak = {21, 13};
enum { POINTS_MAX = 56 + 24 * PW_LEAVES_MAX, LANES = 8 };

pw_sound_set pw_sound_set_of(size_t row)
{
  const pw_ref_sound_unit_sets_row *r =
      &pw_ref_sound_unit_sets[row < (size_t)pw_ref_sound_unit_sets__n ? row : 0];
  return (pw_sound_set){r->theta_deg * PW_PI / 180.0, r->eta_mount, r->h, r->k_db};
}

double pw_sound_resonance(double m1, double m2, double gap)
{
  return sqrt(1.4 * 101325.0 / gap * (1.0 / m1 + 1.0 / m2)) / (2.0 * PW_PI);
}

/* Where a band is looked at. */
typedef struct points {
  size_t n;
  double ratio[POINTS_MAX]; /* f over the centre of the band */
  double sin2[POINTS_MAX], cos[POINTS_MAX];
  double weight[POINTS_MAX]; /* of its tau in the mean */
} points;

/* e^t for the half width of a band in ln f, +- 0.115. */
static double frequency(double share)
{
  double t = (share - 0.5) * 0.1 * log(10.0);
  return 1.0 + t * (1.0 + t / 2.0 * (1.0 + t / 3.0 * (1.0 + t / 4.0)));
}

static void spread_even(points *p, lattice l, double s)
{
  p->n = l.n;
  for (size_t i = 0, at = 0; i < l.n; i++, at = (at + l.g) % l.n) {
    p->ratio[i] = frequency(((double)i + 0.5) / (double)l.n);
    p->sin2[i] = s * (((double)at + 0.5) / (double)l.n);
    p->cos[i] = sqrt(1.0 - p->sin2[i]);
    p->weight[i] = 1.0 / (double)l.n;
  }
}

/* Where a leaf lets most through: coincidence, sin^2 th f/fc = 1, of half width w in sin^2 th. More
 * points go there, as dense as a Lorentz curve in y = sin^2 th f/(band centre), whose peak stands still. */
typedef struct peak {
  double y, w, low, span; /* angle of the tangent at y 0, and to the end */
} peak;

static peak peak_of(const pw_leaf *leaf, double f, double eta, double s)
{
  double y = leaf->fc / f, x = fmin(y, s);
  double reach = 2.0 * PW_PI * f * leaf->mass / (PW_SOUND_RHO * PW_SOUND_C) * sqrt(1.0 - x);
  peak k = {.y = y, .w = 1.5 * x * (0.5 * eta + 1.0 / reach)};
  k.low = atan(-y / k.w);
  k.span = atan((s * 1.1221 - y) / k.w) - k.low; /* 1.1221: top of a band over its centre */
  return k;
}

static double density(const peak *k, double y)
{
  double t = (y - k->y) / k->w;
  return 1.0 / (k->span * k->w * (1.0 + t * t));
}

/* Adds the points of a peak; tangents of even angles by turning. */
static void spread_peak(points *p, const peak *k, double s)
{
  const lattice l = at_peak;
  double turn = k->span / (double)l.n, c = cos(turn), d = sin(turn), tangent[64];
  double a = cos(k->low + 0.5 * turn), b = sin(k->low + 0.5 * turn);
  for (size_t i = 0; i < l.n; i++) {
    double x = a * c - b * d;
    tangent[i] = b / a;
    b = a * d + b * c;
    a = x;
  }
  for (size_t i = 0, at = 0; i < l.n; i++, at = (at + l.g) % l.n) {
    double ratio = frequency(((double)i + 0.5) / (double)l.n);
    double x = (k->y + k->w * tangent[at]) / ratio;
    if (!(x < s)) continue;
    p->ratio[p->n] = ratio;
    p->sin2[p->n] = x;
    p->cos[p->n++] = sqrt(1.0 - x);
  }
}

/* Even points, and more at each leaf's coincidence when the band reaches it. Each point counts by the
 * inverse of how dense all of them together lie there. */
static void spread(points *p, const pw_leaf leaf[], const double eta[], size_t n, lattice l,
                   double f, double s)
{
  peak k[PW_LEAVES_MAX];
  size_t n_peak = 0;
  for (size_t i = 0; i < n; i++) {
    int seen = 0;
    for (size_t j = 0; j < i; j++)
      seen = seen || leaf[i].fc == leaf[j].fc;
    if (!seen && leaf[i].fc < 1.25 * f * s) k[n_peak++] = peak_of(&leaf[i], f, eta[i], s);
  }
  if (n_peak && l.n == coarse.n) l = at_peak; /* the peaks' own points do most */
  spread_even(p, l, s);
  for (size_t j = 0; j < n_peak; j++)
    spread_peak(p, &k[j], s);
  for (size_t i = 0; n_peak && i < p->n; i++) {
    double all = (double)l.n / s;
    for (size_t j = 0; j < n_peak; j++)
      all += (double)at_peak.n * density(&k[j], p->sin2[i] * p->ratio[i]) * p->ratio[i];
    p->weight[i] = 1.0 / (s * all);
  }
  for (; p->n % LANES; p->n++) { /* whole lanes, of no weight */
    p->ratio[p->n] = p->cos[p->n] = 1.0;
    p->sin2[p->n] = p->weight[p->n] = 0.0;
  }
}

/* Pressure and velocity (times rho c) behind what was passed so far, from indoors out. */
typedef struct wave {
  double pr[POINTS_MAX], pi[POINTS_MAX], vr[POINTS_MAX], vi[POINTS_MAX];
} wave;

static void begin(wave *w, const points *p)
{
  for (size_t i = 0; i < p->n; i++) {
    w->pr[i] = 1.0;
    w->vr[i] = p->cos[i];
    w->pi[i] = w->vi[i] = 0.0;
  }
}

/* p += Z v, Z = i w m (1 - (f/fc)^2 sin^4 th (1 + i eta))/(rho c). */
static void pass_leaf(wave *restrict w, const points *restrict p, const pw_leaf *leaf, double f,
                      double eta)
{
  double reach = 2.0 * PW_PI * f * leaf->mass / (PW_SOUND_RHO * PW_SOUND_C);
  double over = f / leaf->fc * (f / leaf->fc);
  for (size_t i = 0; i < p->n; i++) {
    double b = over * p->ratio[i] * p->ratio[i] * p->sin2[i] * p->sin2[i];
    double zr = reach * p->ratio[i] * b * eta, zi = reach * p->ratio[i] * (1.0 - b);
    w->pr[i] += zr * w->vr[i] - zi * w->vi[i];
    w->pi[i] += zr * w->vi[i] + zi * w->vr[i];
  }
}

enum { TERMS_MAX = 12 };

/* How the cosine and the sine over z of a gap are taken: by their series in z^2, halved `half` times so
 * that z^2 is at most 1. No root, no branch. */
typedef struct series {
  size_t n;
  int half;
  double scale, c[TERMS_MAX], s[TERMS_MAX];
} series;

static series series_for(double q)
{
  series t = {.n = 2, .scale = 1.0};
  while (q > 1.5) {
    q /= 4.0;
    t.half++;
    t.scale /= 4.0;
  }
  double c = 1.0;
  for (size_t k = 0; k < TERMS_MAX; k++) {
    t.c[k] = c;
    t.s[k] = c / (2.0 * (double)k + 1.0);
    c = -c / ((2.0 * (double)k + 1.0) * (2.0 * (double)k + 2.0));
  }
  while (t.n < TERMS_MAX && fabs(t.c[t.n]) * pow(q, (double)t.n) > 1e-5)
    t.n++;
  return t;
}

/* p' = cos z p + i a sinc z v, v' = cos z v + i (z^2/a) sinc z p, a = w d/c, z = kz d,
 * z^2 = a^2 ((1 - i h/2)^2 - sin^2 th). */
static void pass_gap(wave *restrict w, const points *restrict p, double gap, double f, double h)
{
  double a0 = 2.0 * PW_PI * f * gap / PW_SOUND_C, most = 1.1221;
  series t = series_for(a0 * a0 * most * most * (1.0 + h));
  for (size_t from = 0; from < p->n; from += LANES) {
    double a[LANES], qr[LANES], qi[LANES], cr[LANES], ci[LANES], sr[LANES], si[LANES];
    for (size_t j = 0; j < LANES; j++) {
      a[j] = a0 * p->ratio[from + j];
      qr[j] = a[j] * a[j] * (1.0 - 0.25 * h * h - p->sin2[from + j]);
      qi[j] = -a[j] * a[j] * h;
      cr[j] = t.c[t.n - 1];
      sr[j] = t.s[t.n - 1];
      ci[j] = si[j] = 0.0;
    }
    for (size_t k = t.n - 1; k-- > 0;)
      for (size_t j = 0; j < LANES; j++) {
        double yr = qr[j] * t.scale, yi = qi[j] * t.scale;
        double c = cr[j] * yr - ci[j] * yi + t.c[k], s = sr[j] * yr - si[j] * yi + t.s[k];
        ci[j] = cr[j] * yi + ci[j] * yr;
        si[j] = sr[j] * yi + si[j] * yr;
        cr[j] = c;
        sr[j] = s;
      }
    for (int k = 0; k < t.half; k++)
      for (size_t j = 0; j < LANES; j++) { /* sinc 2z = sinc z cos z, cos 2z = 2 cos^2 z - 1 */
        double s = sr[j] * cr[j] - si[j] * ci[j];
        si[j] = sr[j] * ci[j] + si[j] * cr[j];
        sr[j] = s;
        double c = 2.0 * (cr[j] * cr[j] - ci[j] * ci[j]) - 1.0;
        ci[j] = 4.0 * cr[j] * ci[j];
        cr[j] = c;
      }
    for (size_t j = 0; j < LANES; j++) {
      double gr = (qr[j] * sr[j] - qi[j] * si[j]) / a[j];
      double gi = (qr[j] * si[j] + qi[j] * sr[j]) / a[j];
      double pr = w->pr[from + j], pi = w->pi[from + j];
      double vr = w->vr[from + j], vi = w->vi[from + j];
      w->pr[from + j] = cr[j] * pr - ci[j] * pi - a[j] * (sr[j] * vi + si[j] * vr);
      w->pi[from + j] = cr[j] * pi + ci[j] * pr + a[j] * (sr[j] * vr - si[j] * vi);
      w->vr[from + j] = cr[j] * vr - ci[j] * vi - (gr * pi + gi * pr);
      w->vi[from + j] = cr[j] * vi + ci[j] * vr + (gr * pr - gi * pi);
    }
  }
}

/* Mean of tau = 4/|p + v/cos th|^2. */
static double mean_tau(const wave *w, const points *p)
{
  double sum = 0.0;
  for (size_t i = 0; i < p->n; i++) {
    double r = w->pr[i] * p->cos[i] + w->vr[i], m = w->pi[i] * p->cos[i] + w->vi[i];
    sum += p->weight[i] * 4.0 * p->cos[i] * p->cos[i] / (r * r + m * m);
  }
  return sum;
}

/* A pane alone: |p + v/cos|^2 = |2 + Z cos|^2. */
static double mean_tau_leaf(const points *p, const pw_leaf *leaf, double f, double eta)
{
  double reach = 2.0 * PW_PI * f * leaf->mass / (PW_SOUND_RHO * PW_SOUND_C), sum = 0.0;
  double over = f / leaf->fc * (f / leaf->fc);
  for (size_t i = 0; i < p->n; i++) {
    double b = over * p->ratio[i] * p->ratio[i] * p->sin2[i] * p->sin2[i];
    double z = reach * p->ratio[i] * p->cos[i], r = 2.0 + z * b * eta, m = z * (1.0 - b);
    sum += p->weight[i] * 4.0 / (r * r + m * m);
  }
  return sum;
}

/* Fewer points where nothing resonates: two leaves below half their resonance and above where it
 * would lie at the limiting angle. */
static lattice even(const pw_leaf leaf[], const double gap[], size_t n, double f, double theta)
{
  if (n != 2) return fine; /* one leaf costs little */
  double f0 = pw_sound_resonance(leaf[0].mass, leaf[1].mass, gap[0]);
  int open = gap[0] < 0.025 && f > 1.3 * f0 / cos(theta);
  return f < 0.5 * f0 || open ? coarse : fine;
}

static pw_status refuse(const pw_leaf leaf[], const double gap[], size_t n,
                        const pw_sound_set *set, pw_err *err)
{
  if (n < 1 || n > PW_LEAVES_MAX)
    return pw_fail(err, PW_E_SHAPE, "n", "%zu leaves, want 1 to %d", n, PW_LEAVES_MAX);
  for (size_t k = 0; k < n; k++) {
    if (!(leaf[k].mass > 0.1 && leaf[k].mass <= 1000.0 && leaf[k].fc > 1.0 &&
          leaf[k].fc <= 1e6 && leaf[k].eta >= 0.0 && leaf[k].eta < 10.0))
      return pw_fail(err, PW_E_DOMAIN, "leaf", "%g kg/m2, fc %g Hz, loss %g: no such leaf",
                     leaf[k].mass, leaf[k].fc, leaf[k].eta);
    if (k + 1 < n && !(gap[k] >= 1e-3 && gap[k] <= 0.3))
      return pw_fail(err, PW_E_DOMAIN, "gap", "%g mm, want 1 to 300", gap[k] * 1e3);
  }
  if (!(set->theta <= 0.5 * PW_PI && set->eta_mount >= 0.0 && set->eta_mount <= 10.0 &&
        set->h >= 0.0 && set->h <= 1.0 && fabs(set->k_db) <= 100.0))
    return pw_fail(err, PW_E_DOMAIN, "set", "%g rad, loss %g and %g, %g dB: no such set",
                   set->theta, set->eta_mount, set->h, set->k_db);
  return PW_OK;
}

pw_status pw_sound_unit(const pw_leaf leaf[], const double gap[], size_t n,
                        const pw_sound_set *set, pw_thirds *out, pw_err *err)
{
  pw_sound_set x =
      set && set->theta > 0.0 ? *set : pw_sound_set_of(pw_ref_sound_unit_sets__safe);
  pw_status s = refuse(leaf, gap, n, &x, err);
  if (s != PW_OK) return s;
  points p;
  wave w;
  double top = sin(x.theta) * sin(x.theta);
  for (int i = 0; i < PW_THIRDS; i++) {
    double f = pw_third_hz(i), eta[PW_LEAVES_MAX], tau, alone = 0.0, r = 0.0;
    int same;
    for (size_t k = 0; k < n; k++)
      eta[k] = leaf[k].eta + x.eta_mount + pw_leaf_eta_laboratory(leaf[k].mass, f);
    spread(&p, leaf, eta, n, even(leaf, gap, n, f, x.theta), f, top);
    if (n == 1) {
      tau = mean_tau_leaf(&p, &leaf[0], f, eta[0]);
    } else {
      begin(&w, &p);
      for (size_t k = n; k-- > 0;) {
        pass_leaf(&w, &p, &leaf[k], f, eta[k]);
        if (k > 0) pass_gap(&w, &p, gap[k - 1], f, x.h);
        same = k + 1 < n && leaf[k].fc == leaf[k + 1].fc && leaf[k].mass == leaf[k + 1].mass &&
               leaf[k].eta == leaf[k + 1].eta;
        if (!same) r = -10.0 * log10(mean_tau_leaf(&p, &leaf[k], f, eta[k]));
        alone += r;
      }
      tau = mean_tau(&w, &p) + pw_sound_tau(alone / (double)n + x.k_db * (double)(n - 1));
    }
    out->db[i] = -10.0 * log10(tau);
  }
  return PW_OK;
}
