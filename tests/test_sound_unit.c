/* sound/sound_unit beside transfer matrices of complex numbers (textbooks of building acoustics), written apart: a dense grid of
 * angles and frequencies, cosine and sine of the library, no lattice and no series. The header allows 0.7 dB in a band. */
#include "support.h"

#include <complex.h>
#include <math.h>

#include "gen/reference.h"
#include "sound/sound_unit.h"

enum { ANGLES = 240, TONES = 24 };
static const double pi = 3.14159265358979;

/* Transmission of one plane wave; sine2 = sin^2 of the angle. */
static double tau_at(const pw_leaf leaf[], const double gap[], size_t n, const pw_sound_set *x,
                     const double eta[], double f, double sine2)
{
  double k = 2.0 * pi * f / PW_SOUND_C, cosine = sqrt(1.0 - sine2);
  double complex p = 1.0, v = cosine,
                 nz = csqrt((1.0 - 0.5 * I * x->h) * (1.0 - 0.5 * I * x->h) - sine2);
  for (size_t i = n; i-- > 0;) {
    double b = f / leaf[i].fc * f / leaf[i].fc * sine2 * sine2;
    p += 2.0 * pi * f * leaf[i].mass / (PW_SOUND_RHO * PW_SOUND_C) * I *
         (1.0 - b * (1.0 + I * eta[i])) * v;
    if (i == 0) break;
    double complex z = k * nz * gap[i - 1], was = p;
    p = ccos(z) * was + I * csin(z) / nz * v;
    v = ccos(z) * v + I * nz * csin(z) * was;
  }
  double complex in = p + v / cosine;
  return 4.0 / (creal(in) * creal(in) + cimag(in) * cimag(in));
}

static double mean_tau(const pw_leaf leaf[], const double gap[], size_t n,
                       const pw_sound_set *x, double band)
{
  double eta[PW_LEAVES_MAX], sum = 0.0, top = sin(x->theta) * sin(x->theta);
  for (size_t i = 0; i < n; i++)
    eta[i] = leaf[i].eta + x->eta_mount + leaf[i].mass / (485.0 * sqrt(band));
  for (int t = 0; t < TONES; t++) {
    double f = band * pow(10.0, 0.1 * ((t + 0.5) / TONES - 0.5));
    for (int a = 0; a < ANGLES; a++)
      sum += tau_at(leaf, gap, n, x, eta, f, top * (a + 0.5) / ANGLES);
  }
  return sum / (TONES * ANGLES);
}

/* With the path through the spacer: so much less than the mean pane. */
static double reduction(const pw_leaf leaf[], const double gap[], size_t n,
                        const pw_sound_set *x, double band)
{
  double alone = 0.0;
  for (size_t i = 0; i < n; i++)
    alone -= 10.0 * log10(mean_tau(&leaf[i], NULL, 1, x, band)) / (double)n;
  double tau = mean_tau(leaf, gap, n, x, band);
  return -10.0 *
         log10(tau + (n > 1 ? pow(10.0, -(alone + x->k_db * (double)(n - 1)) / 10.0) : 0.0));
}

/* 4 mm glass: 10 kg/m2, coincidence at 3000 Hz. Gaps from 12 to 250 mm: the widest has its waves across many times over. */
static void units_meet_the_matrices(void **state)
{
  (void)state;
  static const struct {
    size_t n;
    double mm[3], gap[2];
  } row[] = {{1, {6}, {0}},
             {2, {4, 4}, {0.016}},
             {2, {6, 4}, {0.012}},
             {2, {8, 4}, {0.100}},
             {2, {10, 4}, {0.250}},
             {3, {4, 4, 6}, {0.012, 0.014}},
             {3, {3, 6, 4}, {0.020, 0.080}}};
  const pw_sound_set set = pw_sound_set_of(pw_ref_sound_unit_sets__safe);
  double worst = 0.0;
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_leaf leaf[3];
    pw_thirds r;
    for (size_t k = 0; k < row[i].n; k++)
      leaf[k] =
          (pw_leaf){.mass = 2.5 * row[i].mm[k], .fc = 12000.0 / row[i].mm[k], .eta = 0.01};
    assert_int_equal(pw_sound_unit(leaf, row[i].gap, row[i].n, &set, &r, NULL), PW_OK);
    for (int b = 0; b < PW_THIRDS; b++) {
      double want = reduction(leaf, row[i].gap, row[i].n, &set, pw_third_hz(b));
      worst = fmax(worst, fabs(r.db[b] - want));
      pw_assert_near(r.db[b], want, 0.7, "reduction of a band, dB", "transfer matrices");
    }
  }
  print_message("sealed units: at worst %.2f dB off a dense grid\n", worst);
}

/* Panes that share a critical frequency but not their mass, or not their loss, are two panes in the path through the spacer, which
 * goes by the mean of the panes alone. */
static void panes_alike_in_part_are_two(void **state)
{
  (void)state;
  static const pw_leaf two[][2] = {{{10.0, 3000.0, 0.05}, {20.0, 3000.0, 0.05}},
                                   {{10.0, 3000.0, 0.05}, {10.0, 3000.0, 0.15}},
                                   {{10.0, 3000.0, 0.2}, {10.0, 3000.0, 0.2}}};
  const pw_sound_set set = pw_sound_set_of(pw_ref_sound_unit_sets__safe);
  const double gap = 0.016;
  for (size_t i = 0; i < sizeof two / sizeof two[0]; i++) {
    pw_thirds r;
    assert_int_equal(pw_sound_unit(two[i], &gap, 2, &set, &r, NULL), PW_OK);
    for (int b = 0; b < PW_THIRDS; b++)
      pw_assert_near(r.db[b], reduction(two[i], &gap, 2, &set, pw_third_hz(b)), 0.7,
                     "reduction of a band, dB", "transfer matrices");
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {cmocka_unit_test(units_meet_the_matrices),
                                     cmocka_unit_test(panes_alike_in_part_are_two)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
