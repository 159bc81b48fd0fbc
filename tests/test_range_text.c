/* out/range_out: chances in cases of 100, bands and how the draws were made, of a range made by hand. */
#include "example_fixture.h"

#include <stdio.h>

#include "out/range_out.h"

static char text[20000];

static void told(const pw_compare *c, const pw_range *r)
{
  pw_err err = {0};
  memset(text, 0, sizeof text);
  FILE *f = fmemopen(text, sizeof text - 1, "w");
  assert_non_null(f);
  if (pw_range_text(c, r, pw_units(1), f, &err) != PW_OK) fail_msg("%s", err.text);
  fclose(f);
}

static void has(const char *want)
{
  if (!strstr(text, want)) fail_msg("no '%s' in:\n%s", want, text);
}

static pw_range *by_hand(const pw_compare *c)
{
  pw_range *r = calloc(1, sizeof *r);
  assert_non_null(r);
  r->n_package = c->n_package;
  r->n_draw = 4096;
  r->seed = 7;
  r->n_year = 96;
  r->n_worth = 4096.0;
  return r;
}

/* Rounded to whole cases, but what is not quite certain is neither never nor always. */
static void chances_in_cases_of_a_hundred(void **state)
{
  const fixture *f = *state;
  static const struct {
    double chance;
    const char *said;
  } row[] = {{0.0, " in 0 of"},     {0.0001, " in under 1 of"}, {0.0049, " in under 1 of"},
             {0.0051, " in 1 of"},  {0.5, " in 50 of"},         {0.994, " in 99 of"},
             {0.9949, " in 99 of"}, {0.9951, " in over 99 of"}, {0.9999, " in over 99 of"},
             {1.0, " in 100 of"}};
  pw_range *r = by_hand(&f->whole);
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    char want[80];
    r->package[0].chance_positive = row[i].chance;
    told(&f->whole, r);
    snprintf(want, sizeof want, "%s: saves something%s 100 cases",
             f->whole.rated.package_set[0].name, row[i].said);
    has(want);
    assert_null(strstr(text, "more than $"));
  }
  r->beat = 150.0;
  r->package[0].chance_positive = 0.8;
  r->package[0].chance_beats = 0.3;
  r->package[0].chance_pays = 0.002;
  told(&f->whole, r);
  has("saves something in 80 of 100 cases, more than $150 a year in 30, pays back within its "
      "life "
      "in under 1\n");
  free(r);
}

static void how_the_draws_were_made(void **state)
{
  const fixture *f = *state;
  pw_range *r = by_hand(&f->whole);
  told(&f->whole, r);
  has("4096 draws shared by all windows, seed 7, 96 house years; every draw by its own year.");
  r->reduced = 1;
  r->error_of_band = 0.0123;
  told(&f->whole, r);
  has("misses a left-out year by 1.2 % of the range");
  free(r);
}

static double at(const json_t *o, const char *key)
{
  const json_t *v = json_object_get(o, key);
  assert_true(json_is_number(v));
  return json_number_value(v);
}

/* Each band under its key, as it is; inputs in the order of their rank. */
static void the_json_carries_the_bands(void **state)
{
  const fixture *f = *state;
  pw_range *r = by_hand(&f->whole);
  pw_range_set *s = &r->package[1];
  s->saving_cost = (pw_band){.p10 = 11.0, .p50 = 22.0, .p90 = 33.0};
  s->payback = (pw_band){.p10 = 4.0, .p50 = 5.0, .p90 = 6.0};
  s->chance_positive = 0.75;
  s->chance_beats = 0.25;
  s->chance_pays = 0.5;
  s->includes_zero = 1;
  r->with_drivers = 1;
  r->n_input = 3;
  for (size_t i = 0; i < 3; i++) {
    static const char *const name[] = {"input 0", "input 1", "input 2"};
    r->input[i].name = name[i];
    r->input[i].unit = "m";
    s->rank[i] = (i + 2) % 3;
    s->sensitivity[i].first_order = 0.1 * (double)(i + 1);
    s->sensitivity[i].total = 0.2 * (double)(i + 1);
  }
  json_t *o = json_object();
  pw_range_json(r, 1, o);
  const json_t *range = json_object_get(o, "range"), *list = json_object_get(o, "sensitivity");
  const json_t *saved = json_object_get(range, "saving_cost_year");
  pw_assert_near(at(saved, "p10"), 11.0, 0.0, "p10", "as it is");
  pw_assert_near(at(saved, "p50"), 22.0, 0.0, "p50", "as it is");
  pw_assert_near(at(saved, "p90"), 33.0, 0.0, "p90", "as it is");
  pw_assert_near(at(range, "chance_saving_positive"), 0.75, 0.0, "chance", "as it is");
  pw_assert_near(at(range, "chance_pays_within_life"), 0.5, 0.0, "chance", "as it is");
  assert_null(json_object_get(range, "chance_saving_beats")); /* not asked */
  assert_true(json_is_true(json_object_get(range, "saving_includes_zero")));
  assert_int_equal(json_array_size(list), 3);
  for (size_t i = 0; i < 3; i++) {
    const json_t *in = json_array_get(list, i);
    char want[16];
    snprintf(want, sizeof want, "input %zu", (i + 2) % 3);
    assert_string_equal(json_string_value(json_object_get(in, "input")), want);
    pw_assert_near(at(in, "first_order"), 0.1 * (double)((i + 2) % 3 + 1), 1e-12, "alone",
                   "as it is");
    pw_assert_near(at(in, "total"), 0.2 * (double)((i + 2) % 3 + 1), 1e-12, "in all",
                   "as it is");
  }
  json_decref(o);
  free(r);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(chances_in_cases_of_a_hundred),
      cmocka_unit_test(how_the_draws_were_made),
      cmocka_unit_test(the_json_carries_the_bands),
  };
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
