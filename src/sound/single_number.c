#include "sound/single_number.h"

#include <float.h>
#include <limits.h>
#include <math.h>

#include "gen/reference.h"

/* First and last band of each range (rows of reference/sound/bands.csv). */
enum { B50 = 0, B80 = 2, B100 = 3, B125 = 4, B3150 = 18, B4000 = 19, B5000 = 20, B500 = 10 };

static const struct {
  int first, last;
} term_bands[PW_TERM_RANGES] = {{B100, B3150}, {B50, B3150}, {B50, B5000}, {B100, B5000}};

/* Halves up; a hair makes a half of a decimal such as 0.35 one, which binary may hold as less. */
static double half_up(double v) { return floor(v + 0.5 + 1e-9); }

static double spectrum(pw_term_range range, int ctr, int i)
{
  const pw_ref_sound_bands_row *b = &pw_ref_sound_bands[i];
  if (ctr) return range == PW_TERM_100_3150 ? b->ctr : b->ctr_wide;
  return range == PW_TERM_100_3150 ? b->c : range == PW_TERM_50_3150 ? b->c_50_3150 : b->c_wide;
}

static int known(const double db[], int first, int last)
{
  for (int i = first; i <= last; i++)
    if (isnan(db[i])) return 0;
  return 1;
}

/* X_A, ISO 717-1 4.5 (clause from memory). */
static double reduction_a(const double db[], pw_term_range range, int ctr)
{
  double sum = DBL_MIN;
  for (int i = term_bands[range].first; i <= term_bands[range].last; i++)
    sum += pow(10.0, (spectrum(range, ctr, i) - db[i]) / 10.0);
  return -10.0 * log10(sum);
}

/* Sum of how far the curve lies below the reference shifted by `shift`, all in tenths of dB. */
static long below(const long r[], const double reference[], int n, long shift)
{
  long sum = 0;
  for (int i = 0; i < n; i++) {
    long d = lround(10.0 * reference[i]) + shift - r[i];
    if (d > 0) sum += d;
  }
  return sum;
}

/* The highest shift in steps (tenths of dB) whose sum of unfavourable deviations is at most `most`:
 * ISO 717-1 4.4. */
static long highest_shift(const long r[], const double reference[], int n, long step, long most)
{
  /* Nothing lies below a curve that is shifted down to the lowest band: the search begins there. It lies above this start: no band
   * is below -100 dB and no reference above 99. */
  const long start = -2000;
  long clear = LONG_MAX;
  for (int i = 0; i < n; i++) {
    long d = r[i] - lround(10.0 * reference[i]);
    if (d < clear) clear = d;
  }
  long shift = start + (clear - start) / step * step;
  while (below(r, reference, n, shift + step) <= most)
    shift += step;
  return shift;
}

static void rw_of(const long r[], const double reference[], int n, double at_500, long most,
                  pw_single_number *out)
{
  long shift = highest_shift(r, reference, n, 10, most);
  out->rw = at_500 + (double)shift / 10.0;
  out->rw_sum = (double)below(r, reference, n, shift) / 10.0;
  out->rw_tenths = at_500 + (double)highest_shift(r, reference, n, 1, most) / 10.0;
}

static void all_nan(pw_single_number *n)
{
  const double nan = (double)NAN;
  n->rw = n->rw_tenths = n->rw_sum = n->stc = n->stc_sum = n->oitc = nan;
  for (int k = 0; k < PW_TERM_RANGES; k++)
    n->c[k] = n->ctr[k] = n->c_tenths[k] = n->ctr_tenths[k] = nan;
}

static void terms(const double a[2], pw_term_range k, pw_single_number *out)
{
  out->c[k] = half_up(a[0]) - out->rw;
  out->ctr[k] = half_up(a[1]) - out->rw;
  out->c_tenths[k] = half_up(10.0 * a[0]) / 10.0 - out->rw_tenths;
  out->ctr_tenths[k] = half_up(10.0 * a[1]) / 10.0 - out->rw_tenths;
}

static void iso_717(const pw_thirds *r, pw_single_number *out)
{
  double tenth[PW_THIRDS], reference[PW_THIRDS];
  long t[PW_THIRDS];
  for (int i = 0; i < PW_THIRDS; i++)
    tenth[i] = half_up(10.0 * r->db[i]) / 10.0;
  for (int i = B100; i <= B3150; i++) {
    reference[i - B100] = pw_ref_sound_bands[i].rw_reference;
    t[i - B100] = lround(10.0 * tenth[i]);
  }
  rw_of(t, reference, B3150 - B100 + 1, pw_ref_sound_bands[B500].rw_reference, 320, out);
  for (int k = 0; k < PW_TERM_RANGES; k++) {
    if (!known(tenth, term_bands[k].first, term_bands[k].last)) continue;
    double a[2] = {reduction_a(tenth, (pw_term_range)k, 0),
                   reduction_a(tenth, (pw_term_range)k, 1)};
    terms(a, (pw_term_range)k, out);
  }
}

/* Does the contour of that class hold: ASTM E413, sum at most 32, none above 8. */
static int stc_holds(const double db[], double class, int rule_8, double *sum)
{
  double most = 0.0;
  *sum = 0.0;
  for (int i = B125; i <= B4000; i++) {
    double d = pw_ref_sound_bands[i].stc_contour + class - db[i];
    if (d > 0.0) *sum += d;
    if (d > most) most = d;
  }
  return *sum <= 32.0 + 1e-9 && (!rule_8 || most <= 8.0 + 1e-9);
}

double pw_stc_plain(const pw_thirds *r, int rule_8, double *sum)
{
  double clear = INFINITY, s = 0.0;
  *sum = (double)NAN;
  if (!known(r->db, B125, B4000)) return (double)NAN;
  for (int i = B125; i <= B4000; i++)
    clear = fmin(clear, r->db[i] - pw_ref_sound_bands[i].stc_contour);
  if (!isfinite(clear)) return (double)NAN;
  double class = fmax(-200.0, floor(clear));
  while (stc_holds(r->db, class + 1.0, rule_8, &s))
    class += 1.0;
  stc_holds(r->db, class, rule_8, sum);
  return class;
}

/* ASTM E1332: 100.13 is the A-weighted level of its source. */
static double oitc_of(const double whole[])
{
  double sum = 0.0;
  if (!known(whole, B80, B4000)) return (double)NAN;
  for (int i = B80; i <= B4000; i++)
    sum += pow(10.0,
               (pw_ref_sound_bands[i].oitc_level + pw_ref_sound_bands[i].a_weight - whole[i]) /
                   10.0);
  return half_up(100.13 - 10.0 * log10(sum));
}

static pw_status refuse(const double db[], int n, pw_err *err)
{
  int any = 0;
  for (int i = 0; i < n; i++) {
    any = any || !isnan(db[i]);
    if (!isnan(db[i]) && !(db[i] >= -100.0 && db[i] <= 200.0))
      return pw_fail(err, PW_E_DOMAIN, "r", "%g dB, want -100 to 200", db[i]);
  }
  return any ? PW_OK : pw_fail(err, PW_E_DOMAIN, "r", "no band is known");
}

pw_status pw_single_number_of(const pw_thirds *r, pw_single_number *out, pw_err *err)
{
  pw_thirds whole;
  pw_status s = refuse(r->db, PW_THIRDS, err);
  if (s != PW_OK) return s;
  all_nan(out);
  for (int i = 0; i < PW_THIRDS; i++)
    whole.db[i] = half_up(r->db[i]);
  if (known(r->db, B100, B3150)) iso_717(r, out);
  out->stc = pw_stc_plain(&whole, 1, &out->stc_sum);
  out->oitc = oitc_of(whole.db);
  return PW_OK;
}

pw_status pw_single_number_octaves(const double r[5], pw_single_number *out, pw_err *err)
{
  double reference[5], sum[2] = {0.0, 0.0};
  long t[5];
  pw_status s = refuse(r, 5, err);
  if (s != PW_OK) return s;
  all_nan(out);
  if (!known(r, 0, 4)) return PW_OK;
  for (int i = 0; i < 5; i++) {
    const pw_ref_sound_octaves_row *b = &pw_ref_sound_octaves[i];
    t[i] = lround(half_up(10.0 * r[i]));
    reference[i] = b->rw_reference;
    sum[0] += pow(10.0, (b->c - (double)t[i] / 10.0) / 10.0);
    sum[1] += pow(10.0, (b->ctr - (double)t[i] / 10.0) / 10.0);
  }
  rw_of(t, reference, 5, pw_ref_sound_octaves[2].rw_reference, 100, out); /* 10.0 dB: 4.4 */
  double a[2] = {-10.0 * log10(sum[0]), -10.0 * log10(sum[1])};
  terms(a, PW_TERM_100_3150, out);
  return PW_OK;
}

double pw_reduction_a(const pw_thirds *r, int ctr)
{
  return known(r->db, B100, B3150) ? reduction_a(r->db, PW_TERM_100_3150, ctr) : (double)NAN;
}

double pw_rw_ctr(const pw_thirds *r) { return pw_reduction_a(r, 1); }
