/* Weights, colour and its words. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/table.h"
#include "glass/optics.h"

static void fill(double v[PW_LANE], double x)
{
  for (size_t i = 0; i < PW_LANE; i++)
    v[i] = x;
}

static double linear(const pw_table *t, int col, double x)
{
  size_t i = 1;
  while (i + 1 < t->n_row && pw_table_number(t, i, 0) < x)
    i++;
  double x0 = pw_table_number(t, i - 1, 0), x1 = pw_table_number(t, i, 0);
  double y0 = pw_table_number(t, i - 1, col), y1 = pw_table_number(t, i, col);
  if (x < x0 || x > x1) return 0.0;
  return y0 + (y1 - y0) * (x - x0) / (x1 - x0);
}

static void weights_sum_to_one(void **state)
{
  (void)state;
  pw_spectrum s;
  double one[PW_LANE];
  fill(one, 1.0);
  pw_spectrum_init(&s);
  for (int w = 0; w < PW_WEIGHT_COUNT; w++) {
    assert_true(s.w[w][PW_LANE - 1] == 0.0);
    if (w == PW_W_X || w == PW_W_Z) continue;
    pw_assert_near(pw_spectrum_mean(&s, (pw_weight)w, one), 1.0, 1e-14, "sum", "closure");
  }
}

/* The grid against sums in 1 nm steps over the published spectra (ASTM G173; CIE D65 and V), for
 * clear and tinted glass of 3 and 6 mm: 0.0008, the grid's stated error. */
static void grid_meets_one_nanometre_steps(void **state)
{
  (void)state;
  static const char *const glass[] = {"clear", "bronze", "gray", "green", "lowiron"};
  const pw_table *sun = pw_table_find("optics/spectral/solar_astm_g173");
  const pw_table *d65 = pw_table_find("optics/spectral/cie_d65");
  const pw_table *v = pw_table_find("optics/spectral/cie_v_lambda_1924");
  pw_spectrum s;
  double worst = 0.0;
  pw_spectrum_init(&s);
  for (size_t g = 0; g < 5; g++)
    for (double d = 3e-3; d < 7e-3; d += 3e-3) {
      char path[64];
      double n[PW_LANE], kappa[PW_LANE], sum[4] = {0, 0, 0, 0};
      pw_layer layer;
      snprintf(path, sizeof path, "optics/spectral/nk_glass_%s", glass[g]);
      assert_int_equal(pw_spectrum_glass(&s, path, 1, 1, n, kappa, NULL), PW_OK);
      assert_int_equal(pw_layer_glass(n, kappa, d, &layer, NULL), PW_OK);
      const pw_table *nk = pw_table_find(path);
      for (double nm = 321.0; nm <= 2500.0; nm += 1.0) {
        double um = nm * 1e-3, k = linear(nk, 2, um), index = linear(nk, 1, um);
        double r = pow((index - 1.0) / (index + 1.0), 2.0);
        double a = exp(-4.0 * 3.14159265358979 * k * d / (nm * 1e-9));
        double t = (1.0 - r) * (1.0 - r) * a / (1.0 - r * r * a * a);
        double e = linear(sun, 2, nm), y = linear(d65, 1, nm) * linear(v, 1, nm);
        sum[0] += e;
        sum[1] += e * t;
        sum[2] += y;
        sum[3] += y * t;
      }
      /* the first 21 nm, 0.07 % of the sun, are left out of both */
      double sol = pw_spectrum_mean(&s, PW_W_SOLAR, layer.normal.t), part = 0.0;
      for (size_t i = 0; s.nm[i] < 321.0; i++) {
        part += s.w[PW_W_SOLAR][i];
        sol -= s.w[PW_W_SOLAR][i] * layer.normal.t[i];
      }
      double off = sol / (1.0 - part) - sum[1] / sum[0];
      double off_v = pw_spectrum_mean(&s, PW_W_VISIBLE, layer.normal.t) - sum[3] / sum[2];
      worst = fmax(worst, fmax(fabs(off), fabs(off_v)));
      pw_assert_near(off, 0.0, 8e-4, glass[g], "1 nm steps, solar");
      pw_assert_near(off_v, 0.0, 8e-4, glass[g], "1 nm steps, visible");
    }
  print_message("grid against 1 nm steps: worst %.5f\n", worst);
}

/* Colour matching functions, whose table is from memory: equal energy gives 1/3, 1/3 (their
 * definition); D65 0.3127, 0.3290 and A 0.4476, 0.4074 (CIE 015); y is V(lambda) of the published
 * table to its fourth decimal. */
static void colour_functions_meet_known_whites(void **state)
{
  (void)state;
  const pw_table *c = pw_table_find("optics/spectral/cie_1931_10nm");
  const pw_table *v = pw_table_find("optics/spectral/cie_v_lambda_1924");
  const pw_table *d65 = pw_table_find("optics/spectral/cie_d65");
  double e[3] = {0}, d[3] = {0}, a[3] = {0};
  for (size_t r = 0; r < c->n_row; r++) {
    double nm = pw_table_number(c, r, 0);
    /* Planck, 2848 K with c2 = 1.4350e-2 m K: the definition of illuminant A. */
    double planck = pow(nm / 560.0, -5.0) * (exp(1.4350e7 / (2848.0 * 560.0)) - 1.0) /
                    (exp(1.4350e7 / (2848.0 * nm)) - 1.0);
    pw_assert_near(pw_table_number(c, r, 2), linear(v, 1, nm), 5e-4, "y", "CIE V(lambda)");
    for (int k = 0; k < 3; k++) {
      e[k] += pw_table_number(c, r, k + 1);
      d[k] += pw_table_number(c, r, k + 1) * linear(d65, 1, nm);
      a[k] += pw_table_number(c, r, k + 1) * planck;
    }
  }
  pw_assert_near(e[0] / (e[0] + e[1] + e[2]), 1.0 / 3.0, 2e-4, "E x", "definition");
  pw_assert_near(e[1] / (e[0] + e[1] + e[2]), 1.0 / 3.0, 2e-4, "E y", "definition");
  pw_assert_near(d[0] / (d[0] + d[1] + d[2]), 0.3127, 2e-4, "D65 x", "CIE 015");
  pw_assert_near(d[1] / (d[0] + d[1] + d[2]), 0.3290, 2e-4, "D65 y", "CIE 015");
  pw_assert_near(a[0] / (a[0] + a[1] + a[2]), 0.4476, 2e-4, "A x", "CIE 015");
  pw_assert_near(a[1] / (a[0] + a[1] + a[2]), 0.4074, 2e-4, "A y", "CIE 015");
}

static const char *word_of(const char *kind, double mm, const char *coating)
{
  pw_buildup b = {.n_pane = 1, .pane = {{.thickness = mm * 1e-3}}};
  snprintf(b.pane[0].kind, PW_NAME_MAX, "%s", kind);
  snprintf(b.pane[0].coating[1], PW_NAME_MAX, "%s", coating);
  pw_unit unit;
  pw_light l;
  assert_int_equal(pw_glazing_optics(&b, NULL, 0, PW_POL_MEAN, &unit, &l, NULL), PW_OK);
  return pw_colour_word(l.cie_x, l.cie_y, l.tau_v[0]);
}

static void words_are_those_of_the_trade(void **state)
{
  (void)state;
  assert_string_equal(word_of("clear", 3, ""), "neutral");
  assert_string_equal(word_of("lowiron", 6, ""), "neutral");
  assert_string_equal(word_of("gray", 6, ""), "neutral gray");
  assert_non_null(strstr(word_of("bronze", 6, ""), "bronze"));
  assert_non_null(strstr(word_of("green", 6, ""), "green"));
  assert_non_null(strstr(word_of("clear", 6, "ag3"), "blu"));
  assert_string_equal(pw_colour_word(0.3127, 0.3290, 1.0), "neutral");
  assert_string_equal(pw_colour_word(0.64, 0.33, 0.2), "bronze"); /* hue 40: red to orange */
  assert_string_equal(pw_colour_word(0.15, 0.06, 0.07), "purplish");
  assert_string_equal(pw_colour_word(0.30, 0.60, 0.7), "greenish");
  assert_string_equal(pw_colour_word(0.22, 0.26, 0.5), "bluish");
  assert_string_equal(pw_colour_word(0.0, 0.0, 0.0), "none");
  /* Chroma of 2.9, 3.1, 9.9, 10.1 along -a* at Y 0.8, of D65 by the equations of CIE 015: the words change at 3 and 10. */
  assert_string_equal(pw_colour_word(0.3086997, 0.3309509, 0.8), "neutral");
  assert_string_equal(pw_colour_word(0.3084222, 0.3310838, 0.8), "slightly blue-green");
  assert_string_equal(pw_colour_word(0.2989963, 0.3355963, 0.8), "slightly blue-green");
  assert_string_equal(pw_colour_word(0.2987195, 0.3357288, 0.8), "blue-green");
}

/* A flat pane leaves the colour of D65. */
static void grey_pane_keeps_the_white(void **state)
{
  (void)state;
  pw_spectrum s;
  pw_measured m = {.name = "flat"};
  pw_layer layer;
  pw_light light;
  pw_spectrum_init(&s);
  fill(m.normal.t, 0.4);
  fill(m.normal.rf, 0.1);
  fill(m.normal.rb, 0.1);
  assert_int_equal(pw_layer_measured(&m, &s, &layer, NULL), PW_OK);
  const pw_layer *list[] = {&layer};
  assert_int_equal(pw_light_build(list, 1, &s, PW_POL_MEAN, &light, NULL), PW_OK);
  pw_assert_near(light.cie_x, 0.3127, 2e-4, "x", "CIE 015, D65");
  pw_assert_near(light.cie_y, 0.3290, 2e-4, "y", "CIE 015, D65");
  pw_assert_near(light.tau_e[0], 0.4, 1e-9, "t", "flat");
  pw_assert_near(light.tau_uv, 0.4, 1e-9, "t uv", "flat");
  pw_assert_near(light.t_damage, 0.4, 1e-9, "t damage", "flat");
}

static void resampling_is_linear(void **state)
{
  (void)state;
  pw_spectrum s;
  static const double nm[] = {300.0, 700.0, 2500.0}, v[] = {0.1, 0.9, 0.9};
  double out[PW_LANE];
  pw_spectrum_init(&s);
  pw_spectrum_resample(&s, nm, v, 3, out);
  for (size_t i = 0; i < PW_LANE; i++)
    pw_assert_near(out[i], s.nm[i] < 700.0 ? 0.1 + (s.nm[i] - 300.0) * 0.002 : 0.9, 1e-12,
                   "resampled", "straight line");
  pw_spectrum_resample(&s, nm + 1, v + 1, 1, out);
  pw_assert_near(out[0], 0.9, 0.0, "one point", "flat");
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(weights_sum_to_one),
      cmocka_unit_test(grid_meets_one_nanometre_steps),
      cmocka_unit_test(colour_functions_meet_known_whites),
      cmocka_unit_test(words_are_those_of_the_trade),
      cmocka_unit_test(grey_pane_keeps_the_white),
      cmocka_unit_test(resampling_is_linear),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
