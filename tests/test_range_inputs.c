/* study/range_inputs: which inputs of the example are drawn, by what spread, and what a draw and the surface make of chances. */
#include "example_fixture.h"

#include "study/range_impl.h"

static range_case case_of(const fixture *f, unsigned like)
{
  range_case rc;
  pw_err err = {0};
  if (range_case_of(&f->whole, f->open.weather, PW_YEAR_QUICK, like, &rc, &err) != PW_OK)
    fail_msg("%s", err.text);
  return rc;
}

/* Asked for what two models of one house differ in, only their forms and what models disagree in are drawn; all else stays in its middle, whatever
 * the chance, and a made year is then not centred. */
static void models_of_one_house_share_the_house(void **state)
{
  const fixture *f = *state;
  const range_case all = case_of(f, 0);
  for (int k = 0; k < PW_FORM_KINDS; k++) {
    const range_case rc = case_of(f, 1u << k);
    assert_int_equal(rc.n_in, all.n_in);
    for (size_t i = 0; i < IN_COUNT; i++) {
      const pw_spread *s = &rc.input[i].spread, *free_one = &all.input[i].spread;
      int drawn = i == (size_t)(IN_FORM + k) || (i >= IN_MODEL_HEAT && i <= IN_EFFECT_COOL);
      if (drawn) {
        assert_int_equal(s->shape, free_one->shape);
        pw_assert_near(s->low, free_one->low, 0.0, rc.input[i].name, "as ever");
        pw_assert_near(s->high, free_one->high, 0.0, rc.input[i].name, "as ever");
        continue;
      }
      int normals = i == IN_NORMALS_HEAT || i == IN_NORMALS_COOL;
      assert_int_equal(s->shape, PW_SHAPE_FIXED);
      pw_assert_near(s->mode, normals ? 1.0 : free_one->mode, 0.0, rc.input[i].name,
                     "its middle");
      assert_true(s->low == s->mode && s->high == s->mode);
    }
    double u[2 * IN_COUNT], low[IN_COUNT], high[IN_COUNT];
    for (size_t i = 0; i < rc.n_in; i++)
      u[i] = 0.001;
    range_values(&rc, u, low);
    for (size_t i = 0; i < rc.n_in; i++)
      u[i] = 0.999;
    range_values(&rc, u, high);
    for (size_t i = 0; i < IN_COUNT; i++)
      assert_int_equal(low[i] != high[i], rc.input[i].spread.shape != PW_SHAPE_FIXED);
  }
}

/* Every input of the house has its value at its own chance; one that the house has not keeps its middle. Those of the year stand first, each once,
 * in the order of the list. */
static void each_input_goes_by_its_own_chance(void **state)
{
  const fixture *f = *state;
  const range_case rc = case_of(f, 0);
  double u[2 * IN_COUNT], v[IN_COUNT], w[IN_COUNT];
  assert_true(rc.n_year < rc.n_in && rc.n_in < IN_COUNT);
  for (size_t k = 0; k < rc.n_in; k++) {
    assert_int_equal(rc.which[k] < IN_YEAR, k < rc.n_year);
    if (k > 0) assert_true(rc.which[k] > rc.which[k - 1]);
    assert_int_equal(rc.input[rc.which[k]].id, rc.which[k]);
    assert_int_equal(rc.input[rc.which[k]].year, k < rc.n_year);
    u[k] = 0.5;
  }
  range_values(&rc, u, v);
  for (size_t k = 0; k < rc.n_in; k++) {
    u[k] = 0.9;
    range_values(&rc, u, w);
    for (size_t i = 0; i < IN_COUNT; i++)
      if (i != rc.which[k])
        pw_assert_near(w[i], v[i], 0.0, rc.input[i].name, "another's chance");
    if (rc.input[rc.which[k]].spread.shape != PW_SHAPE_FIXED)
      assert_true(w[rc.which[k]] > v[rc.which[k]] ||
                  rc.input[rc.which[k]].spread.shape == PW_SHAPE_CHOICE);
    pw_assert_near(w[rc.which[k]], pw_spread_at(&rc.input[rc.which[k]].spread, 0.9), 0.0,
                   rc.input[rc.which[k]].name, "its spread");
    u[k] = 0.5;
  }
}

/* For the surface an input runs from -1 at its lowest to 1 at its highest; one that is fixed lies at 0. */
static void the_surface_sees_minus_one_to_one(void **state)
{
  const fixture *f = *state;
  const range_case rc = case_of(f, 0);
  for (int end = -1; end <= 1; end++) {
    double v[IN_COUNT], z[IN_COUNT];
    for (size_t i = 0; i < IN_COUNT; i++) {
      const pw_spread *s = &rc.input[i].spread;
      v[i] = end < 0 ? s->low : end > 0 ? s->high : 0.5 * (s->low + s->high);
    }
    range_scaled(&rc, v, z);
    for (size_t k = 0; k < rc.n_year; k++) {
      const pw_spread *s = &rc.input[rc.which[k]].spread;
      int still = s->shape == PW_SHAPE_FIXED || !(s->high > s->low);
      pw_assert_near(z[k], still ? 0.0 : end, 1e-12, rc.input[rc.which[k]].name, "scaled");
    }
  }
}

/* What is told of the inputs is what is drawn, as many as the house has. */
static void the_list_is_what_is_drawn(void **state)
{
  const fixture *f = *state;
  const range_case rc = case_of(f, 0);
  pw_range_input list[IN_COUNT];
  size_t n = 0;
  assert_int_equal(pw_range_list(&f->whole, f->open.weather, list, &n, NULL), PW_OK);
  assert_int_equal(n, rc.n_in);
  for (size_t k = 0; k < n; k++) {
    assert_string_equal(list[k].name, rc.input[rc.which[k]].name);
    assert_true(list[k].spread.low == rc.input[rc.which[k]].spread.low &&
                list[k].spread.high == rc.input[rc.which[k]].spread.high);
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(models_of_one_house_share_the_house),
      cmocka_unit_test(each_input_goes_by_its_own_chance),
      cmocka_unit_test(the_surface_sees_minus_one_to_one),
      cmocka_unit_test(the_list_is_what_is_drawn),
  };
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
