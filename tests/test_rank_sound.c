/* The search with quiet as its objective or its limit, against the list of a search without. */
#include "rank_fixture.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "sound/single_number.h"
#include "study/rank.h"
#include "window/glass_sound.h"

static const char small[] = RANK_SMALL;

typedef struct desk {
  pw_open_job open;
  pw_compare compare;
  pw_rank_catalogue catalogue;
} desk;

static int setup(void **state)
{
  desk *d = calloc(1, sizeof *d);
  pw_err err = {0};
  if (!d || rank_open(small, &d->open, &d->compare, &d->catalogue, &err) != PW_OK) return -1;
  *state = d;
  return 0;
}

static int teardown(void **state)
{
  desk *d = *state;
  pw_compare_free(&d->compare);
  pw_job_close(&d->open);
  free(d);
  return 0;
}

static pw_rank run(const desk *d, int sound, double least, int threads)
{
  const pw_rank_options o = {
      .limits = {.panes_max = 2, .coatings_max = 1, .sound_least = least},
      .method = PW_YEAR_QUICK,
      .n_top = 1000,
      .n_thread = threads,
      .no_years = 1,
      .sound = sound};
  pw_rank r;
  pw_err err = {0};
  if (pw_rank_run(&d->compare, d->open.weather, &d->catalogue, &o, &r, &err) != PW_OK)
    fail_msg("%s", err.text);
  return r;
}

/* Rw + Ctr, unrounded, straight from the kernel. */
static double quiet(const pw_rank_choice *c)
{
  pw_thirds r;
  assert_int_equal(pw_glass_sound(&c->glass, NULL, 0.5, &r, NULL, NULL), PW_OK);
  return pw_rw_ctr(&r);
}

static const pw_rank_choice *same(const pw_rank *r, uint64_t number)
{
  for (size_t i = 0; i < r->n_top; i++)
    if (r->top[i].number == number) return &r->top[i];
  return NULL;
}

static void quiet_first_then_life_cost(void **state)
{
  const desk *d = *state;
  pw_rank plain = run(d, 0, 0.0, 1), by = run(d, 1, 0.0, 1), two = run(d, 1, 0.0, 2);
  assert_int_equal(by.n_top, plain.n_top);
  assert_int_equal(by.n_front, plain.n_front); /* what nothing beats does not hang on it */
  assert_true(by.n_top > 10);
  for (size_t i = 0; i < by.n_top; i++) {
    const pw_rank_choice *c = &by.top[i], *p = same(&plain, c->number);
    assert_non_null(p);
    assert_true(p->life_cost == c->life_cost && p->rw == c->rw && p->sound_step == 0.0);
    pw_assert_near(c->rw + c->ctr, quiet(c), 0.51, "Rw + Ctr", "the kernel");
    pw_assert_near(c->sound_step, 3.0 * floor(quiet(c) / 3.0), 1e-12, "step", "the kernel");
    assert_int_equal(two.top[i].number, c->number);
    if (i == 0) continue;
    const pw_rank_choice *b = &by.top[i - 1];
    assert_true(b->sound_step > c->sound_step ||
                (b->sound_step == c->sound_step && b->life_cost <= c->life_cost));
  }
  assert_true(by.top[0].sound_step > by.top[by.n_top - 1].sound_step);
  pw_rank_free(&plain);
  pw_rank_free(&by);
  pw_rank_free(&two);
}

static void a_limit_leaves_out_the_loud(void **state)
{
  const desk *d = *state;
  pw_rank plain = run(d, 0, 0.0, 1), limited = run(d, 0, 26.0, 1);
  size_t quiet_enough = 0;
  for (size_t i = 0; i < plain.n_top; i++)
    quiet_enough += quiet(&plain.top[i]) >= 26.0;
  assert_true(quiet_enough > 0 && quiet_enough < plain.n_top);
  assert_int_equal(limited.n_top, quiet_enough);
  assert_int_equal(limited.counts.sound, plain.n_top - quiet_enough);
  assert_int_equal(limited.counts.ranked, quiet_enough);
  pw_rank_free(&plain);
  pw_rank_free(&limited);
}

int main(void)
{
  const struct CMUnitTest tests[] = {cmocka_unit_test(quiet_first_then_life_cost),
                                     cmocka_unit_test(a_limit_leaves_out_the_loud)};
  pw_test_begin();
  return cmocka_run_group_tests(tests, setup, teardown);
}
