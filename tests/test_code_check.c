/* study/code_check: which openings the code looks at, what is counted, and when the mean of labels carries one, on a comparison made
 * by hand. IECC 2018, zone 4A: U 0.32, SHGC 0.40 (Table R402.1.2, from memory); the sums stand beside each test. */
#include "job_folder.h"

#include <math.h>

#include "study/code_check.h"

static const double u_ip = 5.678263341113488; /* W/(m2 K) in one Btu/(h ft2 F) */

typedef struct hand_made {
  pw_job job;
  pw_compare c;
  pw_compare_window existing[FOLDER_OPENINGS];
  pw_label_row row[3]; /* of fixed, slider, casement */
} hand_made;

/* A1 fixed 10 ft2, A2 two sliders of 12, A3 a slider of 24, A4 a casement of 8: 66 ft2. */
static hand_made *by_hand(const double u[3], const double shgc[3])
{
  static const double ft2[] = {10.0, 12.0, 24.0, 8.0};
  static const int kind[] = {PW_FIXED, PW_SLIDER, PW_CASEMENT};
  hand_made *m = calloc(1, sizeof *m);
  const pw_code_place place = {.zone = "4A", .edition = 2018};
  assert_non_null(m);
  m->job = folder_read(dir, NULL);
  for (int i = 0; i < 3; i++) {
    m->row[i].scope.kind = 1 + kind[i];
    m->row[i].u = (pw_given){.value = u[i] * u_ip};
    m->row[i].shgc = (pw_given){.value = shgc[i]};
    m->row[i].vt = m->row[i].air_leakage = (pw_given){.value = (double)NAN};
    m->row[i].line = i + 2;
  }
  m->job.label = m->row;
  m->job.n_label = 3;
  m->c = (pw_compare){
      .job = &m->job, .n_opening = 4, .n_package = 2, .rated.existing = m->existing};
  for (int i = 0; i < 4; i++)
    m->existing[i].rating.area = ft2[i] * 0.09290304;
  assert_int_equal(pw_code_limits_find(&place, &m->c.rated.code, NULL), PW_OK);
  return m;
}

static void forget(hand_made *m)
{
  m->job.label = NULL;
  m->job.n_label = 0;
  pw_job_free(&m->job);
  free(m);
}

static pw_code_package check(const hand_made *m)
{
  pw_code_package k;
  pw_err err = {0};
  if (pw_code_check_package(&m->c, 0, &k, &err) != PW_OK) fail_msg("%s", err.text);
  return k;
}

static void counts(const pw_code_package *k, pw_code_state state, int met, int not, int none)
{
  assert_string_equal(pw_code_state_name(k->state), pw_code_state_name(state));
  assert_int_equal(k->n_met, met);
  assert_int_equal(k->n_not, not );
  assert_int_equal(k->n_unlabelled, none);
}

/* Fixed 0.36 and 0.45 miss both limits; sliders 0.28 and 0.24, casement 0.30 and 0.20. Means
 * (3.6 + 48 x 0.28 + 2.4) / 66 = 0.294545 and (4.5 + 48 x 0.24 + 1.6) / 66 = 0.266970: carried. */
static void the_mean_carries_what_misses(void **state)
{
  (void)state;
  hand_made *m =
      by_hand((const double[]){0.36, 0.28, 0.30}, (const double[]){0.45, 0.24, 0.20});
  pw_code_package k = check(m);
  counts(&k, PW_CODE_MET_ON_AVERAGE, 4, 1, 0);
  pw_assert_near(k.mean_u / u_ip, 19.44 / 66.0, 1e-9, "mean U", "hand sum");
  pw_assert_near(k.mean_shgc, 17.62 / 66.0, 1e-9, "mean SHGC", "hand sum");
  assert_int_equal(k.n_kind, 0);             /* each kind has a label of its own */
  m->c.rated.code.code = PW_CODE_CALIFORNIA; /* there each opening stands for itself */
  k = check(m);
  counts(&k, PW_CODE_NOT_MET, 4, 1, 0);
  forget(m);
  /* SHGC alone is missed by the mean: (10 x 1.60 + 13.12) / 66 = 0.441 */
  m = by_hand((const double[]){0.30, 0.28, 0.30}, (const double[]){1.60, 0.24, 0.20});
  k = check(m);
  counts(&k, PW_CODE_NOT_MET, 4, 1, 0);
  forget(m);
  m = by_hand((const double[]){0.30, 0.28, 0.30}, (const double[]){0.30, 0.24, 0.20});
  k = check(m);
  counts(&k, PW_CODE_MET, 5, 0, 0);
  forget(m);
}

/* A3 stays and A4 is in a room that nobody heats: A1 and A2, 34 ft2, (3.6 + 24 x 0.28) / 34 = 0.303529. */
static void only_new_windows_of_heated_rooms_count(void **state)
{
  (void)state;
  hand_made *m =
      by_hand((const double[]){0.36, 0.28, 0.90}, (const double[]){0.45, 0.24, 0.90});
  m->job.opening[2].standing = PW_STAYS;
  m->job.opening[3].unconditioned = 1;
  pw_code_package k = check(m);
  counts(&k, PW_CODE_MET_ON_AVERAGE, 2, 1, 0);
  pw_assert_near(k.mean_u / u_ip, 10.32 / 34.0, 1e-9, "mean U", "hand sum");
  for (size_t i = 0; i < 4; i++) {
    static const pw_code_state want[] = {PW_CODE_NOT_MET, PW_CODE_MET, PW_CODE_NO_LIMIT,
                                         PW_CODE_NO_LIMIT};
    pw_code_opening one;
    assert_int_equal(pw_code_check_opening(&m->c, 0, i, &one, NULL), PW_OK);
    assert_int_equal(one.state, want[i]);
    assert_int_equal(one.result.n_criterion > 0, i < 2);
    for (size_t r = 0; r < one.result.n_criterion; r++) /* rows are the limits' own */
      assert_true(one.result.criterion[r].row >= m->c.rated.code.row &&
                  one.result.criterion[r].row < m->c.rated.code.row + m->c.rated.code.n_row);
  }
  m->job.opening[0].unconditioned = m->job.opening[1].unconditioned = 1;
  k = check(m);
  counts(&k, PW_CODE_NO_LIMIT, 0, 0, 0); /* none is left */
  forget(m);
}

/* Without a label that decides nothing is met; beside one that misses, the mean is not known and carries nothing. */
static void a_missing_label_is_said(void **state)
{
  (void)state;
  hand_made *m = by_hand((const double[]){0.30, NAN, 0.30}, (const double[]){0.30, 0.24, 0.20});
  pw_code_package k = check(m);
  counts(&k, PW_CODE_NO_LABEL, 2, 0, 3);
  assert_true(isnan(k.mean_u));
  pw_assert_near(k.mean_shgc, (3.0 + 48.0 * 0.24 + 1.6) / 66.0, 1e-9, "mean SHGC", "hand sum");
  m->row[0].u.value = 0.36 * u_ip;
  k = check(m);
  counts(&k, PW_CODE_NOT_MET, 1, 1, 3);
  forget(m);
}

/* One label of no kind's own stands for three kinds of window (fixed, slider, casement); the package's 0.30 and 0.33 meet. */
static void kinds_under_one_label(void **state)
{
  (void)state;
  hand_made *m = by_hand((const double[]){0.3, 0.3, 0.3}, (const double[]){0.3, 0.3, 0.3});
  m->job.n_label = 0;
  pw_code_package k = check(m);
  counts(&k, PW_CODE_MET, 5, 0, 0);
  assert_int_equal(k.n_kind, 3);
  m->job.n_label = 1; /* fixed ones have their own */
  k = check(m);
  assert_int_equal(k.n_kind, 2);
  m->c.rated.code.n_row = 0; /* no limit is known */
  k = check(m);
  counts(&k, PW_CODE_NO_LIMIT, 0, 0, 0);
  m->job.n_label = 3;
  m->row[1].scope.kind = m->row[0].scope.kind; /* two rows fit alike */
  pw_code_opening one;
  pw_err err = {0};
  assert_int_equal(pw_code_check_opening(&m->c, 0, 0, &one, &err), PW_E_DATA);
  assert_int_equal(pw_code_check_package(&m->c, 0, &k, &err), PW_E_DATA);
  forget(m);
}

static void states_have_names(void **state)
{
  (void)state;
  assert_string_equal(pw_code_state_name(PW_CODE_NO_LIMIT), "no limit");
  assert_string_equal(pw_code_state_name(PW_CODE_MET), "met");
  assert_string_equal(pw_code_state_name(PW_CODE_MET_ON_AVERAGE), "met on average");
  assert_string_equal(pw_code_state_name(PW_CODE_NO_LABEL), "label missing");
  assert_string_equal(pw_code_state_name(PW_CODE_NOT_MET), "not met");
  assert_string_equal(pw_code_state_name((pw_code_state)5), "");
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test_setup_teardown(the_mean_carries_what_misses, set_up, tear_down),
      cmocka_unit_test_setup_teardown(only_new_windows_of_heated_rooms_count, set_up,
                                      tear_down),
      cmocka_unit_test_setup_teardown(a_missing_label_is_said, set_up, tear_down),
      cmocka_unit_test_setup_teardown(kinds_under_one_label, set_up, tear_down),
      cmocka_unit_test(states_have_names),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
