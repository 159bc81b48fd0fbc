/* Spreads of inputs: distributions, defaults by provenance, refusals; how a band covers the truth. */
#include "support.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_integration.h>
#include <gsl/gsl_randist.h>
#include <math.h>
#include <string.h>

#include "base/table.h"
#include "study/spread.h"

/* Closed forms: quartiles and ends of a triangle (0, 0.25, 1) and of a uniform spread. */
static void triangle_and_uniform_meet_their_closed_forms(void **state)
{
  (void)state;
  const pw_spread t = {PW_SHAPE_TRIANGULAR, 0.0, 0.25, 1.0, NULL, NULL};
  const pw_spread u = {PW_SHAPE_UNIFORM, 2.0, 3.0, 4.0, NULL, NULL};
  pw_assert_near(pw_spread_at(&t, 0.25), 0.25, 1e-15, "P(mode) = (mode - low) / width",
                 "closed form");
  pw_assert_near(pw_spread_at(&t, 0.8125), 1.0 - 0.375, 1e-15, "1 - sqrt(0.1875 x 0.75)",
                 "closed form");
  pw_assert_near(pw_spread_at(&t, 1e-12), 5e-7, 1e-12, "low tail", "sqrt(p x 1 x 0.25)");
  pw_assert_near(pw_spread_at(&u, 0.3), 2.6, 1e-15, "uniform", "closed form");
}

/* Another library: the cut normal's distribution by GSL gives back the chance. */
static void cut_normal_is_the_inverse_of_its_distribution(void **state)
{
  (void)state;
  const pw_spread s = {PW_SHAPE_NORMAL, 0.7, 1.0, 1.5, NULL, NULL};
  double sd = 0.2, below = gsl_cdf_gaussian_P(-0.3, sd),
         all = gsl_cdf_gaussian_P(0.5, sd) - below;
  for (double p = 0.001; p < 1.0; p += 0.037) {
    double x = pw_spread_at(&s, p);
    assert_true(x >= 0.7 && x <= 1.5);
    pw_assert_near((gsl_cdf_gaussian_P(x - 1.0, sd) - below) / all, p, 1e-12, "p", "GSL");
  }
}

static double value_at(double p, void *params) { return pw_spread_at(params, p); }

/* Another way: the integral of the inverse distribution (GSL quadrature) is the mean: (a + b) / 2, (a + b + c) / 3, of a
 * normal cut at a and b the mode + sd (phi(a) - phi(b)) / (Phi(b) - Phi(a)), the densities by GSL. */
static void means_are_the_integral_of_the_inverse(void **state)
{
  (void)state;
  static pw_spread row[] = {
      {PW_SHAPE_UNIFORM, -1, 0, 3, NULL, NULL},   {PW_SHAPE_TRIANGULAR, 1, 1, 4, NULL, NULL},
      {PW_SHAPE_TRIANGULAR, 1, 3, 4, NULL, NULL}, {PW_SHAPE_NORMAL, 0.5, 1, 3, NULL, NULL},
      {PW_SHAPE_SOME, 0, 1, 5, NULL, NULL},       {PW_SHAPE_FIXED, 0, 7, 0, NULL, NULL}};
  const double sd = 2.5 / 4.0, a = -0.5 / sd, b = 2.0 / sd;
  const double cut = 1.0 + sd * (gsl_ran_ugaussian_pdf(a) - gsl_ran_ugaussian_pdf(b)) /
                               (gsl_cdf_ugaussian_P(b) - gsl_cdf_ugaussian_P(a));
  const double want[] = {1.0, 2.0, 8.0 / 3.0, cut, 1.0, 7.0};
  gsl_integration_workspace *w = gsl_integration_workspace_alloc(200);
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    gsl_function f = {value_at, &row[i]};
    double mean = NAN, error = 0.0;
    gsl_integration_qags(&f, 0.0, 1.0, 1e-9, 1e-9, 200, w, &mean, &error);
    pw_assert_near(mean, want[i], 1e-7, "mean", "closed form");
  }
  gsl_integration_workspace_free(w);
}

/* By hand: a mean of 1.6 F of up to 8 F is 2 x 1.6 / 8 = 40 % of homes, half of whom go back by more than 4 F. */
static void some_homes_set_back(void **state)
{
  (void)state;
  const pw_given blank = {.value = 1.6 / 1.8, .origin = PW_ORIGIN_ASSUMED};
  const pw_spread far = {PW_SHAPE_SOME, 0.0, 3.0, 5.0, NULL, NULL};
  pw_spread s;
  assert_int_equal(pw_spread_of("setback", &blank, &s, NULL), PW_OK);
  assert_int_equal(s.shape, PW_SHAPE_SOME);
  assert_true(pw_spread_at(&s, 0.59) == 0.0 && pw_spread_at(&s, 0.61) > 0.0);
  pw_assert_near(pw_spread_at(&s, 0.80), 4.0 / 1.8, 1e-12, "half of those", "by hand");
  assert_int_equal(pw_spread_check(&far, NULL), PW_E_DOMAIN); /* a mean over half way */
}

/* Every row of the table can be drawn, is the right way up, and names where it comes from. */
static void every_row_of_the_table_is_sound(void **state)
{
  (void)state;
  const pw_table *t = pw_table_find("spreads");
  assert_non_null(t);
  static const char *const origin[] = {"assumed",  "table", "stated",
                                       "measured", "label", "computed"};
  for (size_t r = 0; r < t->n_row; r++) {
    const char *key = pw_table_text(t, r, pw_table_column(t, "key"));
    pw_given g = {.value = 2.0};
    for (int o = 0; o < 6; o++)
      if (strcmp(origin[o], pw_table_text(t, r, pw_table_column(t, "origin"))) == 0)
        g.origin = (pw_origin)o;
    pw_spread s;
    pw_err err = {0};
    if (pw_spread_of(key, &g, &s, &err) != PW_OK) fail_msg("%s: %s", key, err.text);
    assert_true(s.low < s.high && pw_spread_at(&s, 0.1) < pw_spread_at(&s, 0.9));
    assert_true(strlen(s.source) > 10);
    const char *how = s.how_known;
    assert_true(!strcmp(how, "read") || !strcmp(how, "memory") || !strcmp(how, "assumed") ||
                !strcmp(how, "computed"));
  }
}

static void provenance_decides_and_the_job_wins(void **state)
{
  (void)state;
  pw_spread s;
  pw_given g = {.value = 10.0, .origin = PW_ORIGIN_TABLE};
  assert_int_equal(pw_spread_of("frame_u", &g, &s, NULL), PW_OK);
  pw_assert_near(s.low, 8.5, 1e-12, "handbook frame -15 %", "reference/spreads.csv");
  pw_assert_near(s.high, 11.5, 1e-12, "handbook frame +15 %", "reference/spreads.csv");
  g.origin = PW_ORIGIN_COMPUTED;
  assert_int_equal(pw_spread_of("frame_u", &g, &s, NULL), PW_OK);
  assert_true(s.high < 11.0);
  g.spread = 3.0; /* "10 +- 3" in the job */
  assert_int_equal(pw_spread_of("frame_u", &g, &s, NULL), PW_OK);
  assert_int_equal(s.shape, PW_SHAPE_UNIFORM);
  pw_assert_near(s.low, 7.0, 1e-12, "10 - 3", "the job");
  g = (pw_given){.value = 0.9, .origin = PW_ORIGIN_MEASURED};
  assert_int_equal(pw_spread_of("tape", &g, &s, NULL), PW_OK);
  pw_assert_near(s.high - 0.9, 0.0254 / 16.0, 1e-12, "a sixteenth of an inch", "measure.md");
}

/* The spread of the standard's own results, by hand from the rows of the table for heating:
 * 600 (3.993, 4.504, 4.213) gives a half width of 6.1 %; the mean over the cases is larger because
 * the heavy ones lie further apart. */
static void the_model_is_as_sure_as_the_standard(void **state)
{
  (void)state;
  pw_spread heat, cool;
  assert_int_equal(pw_spread_of_model(0, &heat, NULL), PW_OK);
  assert_int_equal(pw_spread_of_model(1, &cool, NULL), PW_OK);
  print_message("model, one standard deviation: heating %.3f, cooling %.3f\n",
                (heat.high - heat.low) / 4.0, (cool.high - cool.low) / 4.0);
  assert_true(heat.high - 1.0 > 0.08 && heat.high - 1.0 < 0.20);
  assert_true(cool.high - 1.0 > 0.06 && cool.high - 1.0 < 0.20);
  pw_assert_near(pw_spread_at(&heat, 0.5), 1.0, 1e-12, "middle", "symmetric");
}

/* By hand from the rows 670 (5.300, 6.140, 5.681), 600 (3.993, 4.504, 4.213) and 660 (3.574, 3.821,
 * 3.713) of the table, heating: high less high and low less low differ from the mean step by 11.2 and
 * 26.4 %, 18.8 % on average, over 1.267 = 14.8 %. For cooling the steps
 * (0.461, 0.522 about 0.546; 2.822, 2.466 about 2.684) differ by 5.6 and 6.6 %, 6.1 / 1.267 = 4.8 %. */
static void the_effect_of_windows_is_less_sure_than_a_year(void **state)
{
  (void)state;
  pw_spread heat, cool;
  assert_int_equal(pw_spread_of_effect(0, &heat, NULL), PW_OK);
  assert_int_equal(pw_spread_of_effect(1, &cool, NULL), PW_OK);
  pw_assert_near((heat.high - heat.low) / 4.0, 0.148, 1e-3, "heating", "by hand");
  pw_assert_near((cool.high - cool.low) / 4.0, 0.048, 1e-3, "cooling", "by hand");
  assert_int_equal(heat.shape, PW_SHAPE_NORMAL);
  assert_int_equal(cool.shape, PW_SHAPE_NORMAL);
}

static void spreads_that_cannot_be_are_refused(void **state)
{
  (void)state;
  pw_spread s = {.mode = 42.0};
  pw_err err;
  pw_given g = {.value = 1.0, .spread = -0.5};
  assert_int_equal(pw_spread_of("frame_u", &g, &s, &err), PW_E_DOMAIN);
  g = (pw_given){.value = NAN};
  assert_int_equal(pw_spread_of("frame_u", &g, &s, &err), PW_E_DOMAIN);
  g = (pw_given){.value = 1.0};
  assert_int_equal(pw_spread_of("colour", &g, &s, &err), PW_E_DOMAIN);
  pw_assert_near(s.mode, 42.0, 0.0, "untouched", "contract");
  pw_spread upside = {PW_SHAPE_UNIFORM, 2.0, 1.5, 1.0, NULL, NULL};
  assert_int_equal(pw_spread_check(&upside, &err), PW_E_DOMAIN);
  assert_non_null(strstr(err.text, "upside down: 2 .. 1, want low .. high"));
  pw_spread outside = {PW_SHAPE_TRIANGULAR, 0.0, 3.0, 1.0, NULL, NULL};
  assert_int_equal(pw_spread_check(&outside, &err), PW_E_DOMAIN);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(triangle_and_uniform_meet_their_closed_forms),
      cmocka_unit_test(cut_normal_is_the_inverse_of_its_distribution),
      cmocka_unit_test(means_are_the_integral_of_the_inverse),
      cmocka_unit_test(some_homes_set_back),
      cmocka_unit_test(every_row_of_the_table_is_sound),
      cmocka_unit_test(provenance_decides_and_the_job_wins),
      cmocka_unit_test(the_model_is_as_sure_as_the_standard),
      cmocka_unit_test(the_effect_of_windows_is_less_sure_than_a_year),
      cmocka_unit_test(spreads_that_cannot_be_are_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
