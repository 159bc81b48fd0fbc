/* What the search says of a build-up: price, weight, cost over the horizon, by hand from the catalogue and the openings. */
#include "rank_fixture.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "job/program_file.h"
#include "panewright/glazing.h"
#include "study/rank.h"
#include "window/frame_line.h"
#include "window/opening_package.h"

static const char small[] = RANK_SMALL "spacer,insulating,,,,,,,4 $/m\n";

typedef struct desk {
  pw_open_job open;
  pw_compare compare;
  pw_rank_catalogue catalogue;
  pw_rank rank;
} desk;

static int set_up(void **state)
{
  desk *d = calloc(1, sizeof *d);
  pw_err err = {0};
  const pw_rank_options o = {.limits = {.panes_max = 2, .coatings_max = 1},
                             .method = PW_YEAR_QUICK,
                             .n_top = 1000,
                             .no_years = 1};
  if (!d || rank_open(small, &d->open, &d->compare, &d->catalogue, &err) != PW_OK ||
      pw_rank_run(&d->compare, d->open.weather, &d->catalogue, &o, &d->rank, &err) != PW_OK)
    return -1;
  *state = d;
  return 0;
}

static int tear_down(void **state)
{
  desk *d = *state;
  pw_rank_free(&d->rank);
  pw_compare_free(&d->compare);
  pw_job_close(&d->open);
  free(d);
  return 0;
}

static int is_metal(const desk *d, const pw_rank_choice *r)
{
  return d->catalogue.spacer[r->spacer].spacer == PW_SPACER_METAL;
}

static double glass_mm(const pw_buildup *b)
{
  double mm = 0.0;
  for (size_t i = 0; i < b->n_pane; i++)
    mm += 1e3 * b->pane[i].thickness;
  return mm;
}

/* $10 a m2 of 3 mm, $24 of 6 mm, $13 a coating, $2 and $5 a gap, $150 of frame, all of the opening's area; $300 an opening; $1 or
 * $4 a metre round each lite, a gap. */
static void a_price_is_the_sum_of_its_parts(void **state)
{
  const desk *d = *state;
  const pw_compare *c = &d->compare;
  double openings = 0.0, area = 0.0, around = 0.0;
  for (size_t i = 0; i < c->n_opening; i++) {
    double times = c->job->opening[i].quantity;
    const pw_lites *w = &c->fitted.fit[0][i].insert;
    openings += times;
    area += times * c->rated.existing[i].rating.area;
    for (size_t k = 0; k < w->n_lite; k++)
      around += times * 2.0 * (w->lite[k].width + w->lite[k].height);
  }
  assert_true(d->rank.n_top > 20);
  for (size_t i = 0; i < d->rank.n_top; i++) {
    const pw_rank_choice *r = &d->rank.top[i];
    double per_area = 150.0, gaps = (double)(r->glass.n_pane - 1);
    for (size_t k = 0; k < r->glass.n_pane; k++) {
      per_area += r->glass.pane[k].thickness > 0.004 ? 24.0 : 10.0;
      for (int side = 0; side < 2; side++)
        per_area += r->glass.pane[k].coating[side][0] ? 13.0 : 0.0;
      if (k + 1 < r->glass.n_pane) per_area += r->glass.gap[k].thickness > 0.012 ? 5.0 : 2.0;
    }
    pw_assert_near(r->price,
                   300.0 * openings + per_area * area +
                       around * gaps * (is_metal(d, r) ? 1.0 : 4.0),
                   1e-6 * r->price, "price", "by hand");
  }
}

/* Glass weighs 2500 kg/m3 (EN 572-1, from memory): of the largest lite that moves, with what the frame holds of it all round. */
static void the_heaviest_sash_is_weighed(void **state)
{
  const desk *d = *state;
  const pw_compare *c = &d->compare;
  double largest = 0.0;
  for (size_t i = 0; i < c->n_opening; i++) {
    const pw_lites *w = &c->fitted.fit[0][i].insert;
    double bite = 2.0 * pw_opening_line(c->job, 0, &c->job->opening[i])->bite_max;
    for (size_t k = 0; k < w->n_lite; k++)
      if (w->lite[k].moving)
        largest = fmax(largest, (w->lite[k].width + bite) * (w->lite[k].height + bite));
  }
  for (size_t i = 0; i < d->rank.n_top; i++)
    pw_assert_near(d->rank.top[i].sash_weight,
                   2500.0 * 1e-3 * glass_mm(&d->rank.top[i].glass) * largest, 1e-6, "sash, kg",
                   "by hand");
}

/* Life cost is the price and the bills of the horizon, each year's $1 worth ((1 + e) / (1 + d))^k: as a sum of a geometric row.
 * The order is that of life cost, equal ones by number. */
static void life_cost_is_price_and_bills(void **state)
{
  const desk *d = *state;
  const pw_house_facts *f = &d->compare.job->house;
  double q = (1.0 + f->escalation.value) / (1.0 + f->discount.value);
  double years = f->horizon_years.value > 0.0 ? f->horizon_years.value : 25.0;
  double worth = q * (pow(q, years) - 1.0) / (q - 1.0);
  for (size_t i = 0; i < d->rank.n_top; i++) {
    const pw_rank_choice *r = &d->rank.top[i];
    pw_assert_near(r->life_cost, r->price + worth * r->bill_year, 1e-9 * r->life_cost,
                   "life cost", "by hand");
    if (i == 0) continue;
    const pw_rank_choice *b = &d->rank.top[i - 1];
    assert_true(b->life_cost < r->life_cost ||
                (b->life_cost == r->life_cost && b->number < r->number));
  }
}

/* A list of any length, found by one thread or several, is the head of the longest; of a gap that is offered twice every build-up has a
 * twin that costs the same, so that the end of a list falls between equal ones, of which the first by number stays. */
static void a_shorter_list_is_the_head_of_the_longer(void **state)
{
  const desk *d = *state;
  pw_rank_catalogue catalogue = d->catalogue;
  pw_rank all, r;
  pw_err err = {0};
  catalogue.gap[catalogue.n_gap++] = catalogue.gap[0];
  catalogue.n_pane = catalogue.n_spacer = 1;
  pw_rank_options o = {.limits = {.panes_max = 2, .coatings_max = 1},
                       .method = PW_YEAR_QUICK,
                       .n_top = 1000,
                       .no_years = 1};
  assert_int_equal(pw_rank_run(&d->compare, d->open.weather, &catalogue, &o, &all, &err),
                   PW_OK);
  size_t alike = 0;
  for (size_t i = 1; i < all.n_top; i++) {
    alike += all.top[i].life_cost == all.top[i - 1].life_cost;
    assert_true(all.top[i].life_cost > all.top[i - 1].life_cost ||
                (all.top[i].life_cost == all.top[i - 1].life_cost &&
                 all.top[i].number > all.top[i - 1].number));
  }
  assert_true(alike > 1);
  for (o.n_top = 1; o.n_top <= 6; o.n_top++) {
    o.n_thread = o.n_top % 3 == 0 ? 3 : 1;
    assert_int_equal(pw_rank_run(&d->compare, d->open.weather, &catalogue, &o, &r, &err),
                     PW_OK);
    assert_int_equal(r.n_top, o.n_top);
    for (size_t i = 0; i < r.n_top; i++)
      assert_int_equal(r.top[i].number, all.top[i].number);
    pw_rank_free(&r);
  }
  pw_rank_free(&all);
}

/* The same build-up with an insulating spacer: the edge alone is better, so less U, more dollars, and the same glass. */
static void a_spacer_is_the_edge_alone(void **state)
{
  const desk *d = *state;
  size_t pairs = 0;
  for (size_t i = 0; i < d->rank.n_top; i++)
    for (size_t k = 0; k < d->rank.n_top; k++) {
      const pw_rank_choice *a = &d->rank.top[i], *b = &d->rank.top[k];
      if (!is_metal(d, a) || is_metal(d, b) ||
          memcmp(&a->glass, &b->glass, sizeof a->glass) != 0)
        continue;
      if (a->glass.n_pane == 1) continue;
      assert_true(b->u < a->u && b->price > a->price && b->vt == a->vt);
      assert_true(b->heating_kwh < a->heating_kwh);
      pairs++;
    }
  assert_true(pairs > 5);
}

/* Comfort is the inner glass on the design night, in the wind of NFRC 100's winter, 5.5 m/s: by the unit's own balance. */
static void the_inner_glass_is_that_of_the_design_night(void **state)
{
  const desk *d = *state;
  const pw_env env = {
      .t_out = d->compare.rated.t_design_out, .t_in = d->compare.rated.t_in, .wind = 5.5};
  for (size_t i = 0; i < d->rank.n_top; i++) {
    pw_glazing g;
    pw_unit_result night;
    assert_int_equal(pw_glazing_build(&d->rank.top[i].glass, &g, NULL), PW_OK);
    assert_int_equal(pw_unit_balance(&g.unit, &env, NULL, &night, NULL), PW_OK);
    pw_assert_near(d->rank.top[i].t_inner, night.t[2 * g.unit.n_pane - 1], 1e-6,
                   "inner glass, K", "NFRC 100");
  }
}

/* Two panes; of two of them 2 x 2, one coating or none at 2 or 3, 2 gaps, 2 spacers: 2 + 4 x 3 x 2 x 2 = 50. Each is ranked or left
 * out once, by however many threads: by the program those whose U, in two digits as on a label, is above 0.42 Btu/(h ft2 F). */
static void every_build_up_is_counted_once(void **state)
{
  static const char text[] =
      "program,edition,zone,row,group,metric,op,value,unit,from,to,source,note\n"
      "demo,1,all,criterion,,u,<=,0.42,Btu/h-ft2-F,,,invented,\n";
  const desk *d = *state;
  pw_program program;
  size_t above = 0;
  assert_int_equal(pw_program_parse("demo.csv", text, sizeof text - 1, &program, NULL, NULL),
                   PW_OK);
  for (size_t i = 0; i < d->rank.n_top; i++)
    above += floor(d->rank.top[i].u / 5.678263 * 100.0 + 0.5) > 42.0;
  assert_true(d->rank.n_top == 50 && d->rank.counts.all == 50 && above > 2 && above < 48);
  for (int n = 1; n <= 3; n++) {
    const pw_rank_options o = {
        .limits = {.panes_max = 2, .coatings_max = 1, .program = &program, .date = 20260914},
        .method = PW_YEAR_QUICK,
        .n_top = 1000,
        .n_thread = n,
        .no_years = 1};
    pw_rank r;
    assert_int_equal(pw_rank_run(&d->compare, d->open.weather, &d->catalogue, &o, &r, NULL),
                     PW_OK);
    const pw_rank_counts *c = &r.counts;
    assert_int_equal(c->all, 50);
    assert_int_equal(c->program, above);
    assert_int_equal(c->ranked, r.n_top);
    assert_int_equal(
        c->thickness + c->weight + c->light + c->tint + c->sound + c->program + c->ranked, 50);
    pw_rank_free(&r);
  }
  pw_program_free(&program);
}

/* Four panes: in a pocket of 40 mm with gaps of 8 mm (16 mm are too wide) all of 3 mm, 36 mm, or one of 6 mm, 39 mm: 5 sets of panes, a
 * coating or none at six surfaces of a gap, two spacers: 70, each with the U of the openings' own ratings over their area. */
static void four_panes_are_rated_as_any(void **state)
{
  const desk *d = *state;
  const pw_compare *c = &d->compare;
  const pw_job *job = c->job;
  const pw_rank_options o = {.limits = {.panes_min = 4, .panes_max = 4, .coatings_max = 1},
                             .method = PW_YEAR_QUICK,
                             .n_top = 1000,
                             .no_years = 1};
  pw_rank four;
  pw_err err = {0};
  if (pw_rank_run(c, d->open.weather, &d->catalogue, &o, &four, &err) != PW_OK)
    fail_msg("%s", err.text);
  assert_int_equal(four.n_top, 70);
  for (size_t k = 0; k < four.n_top; k += 3) {
    const pw_rank_choice *r = &four.top[k];
    const pw_package package = {.filling = "foam",
                                .spacer = d->catalogue.spacer[r->spacer].spacer};
    pw_glazing g;
    double ua = 0.0, area = 0.0;
    assert_int_equal(r->glass.n_pane, 4);
    assert_int_equal(pw_glazing_build(&r->glass, &g, NULL), PW_OK);
    for (size_t i = 0; i < job->n_opening; i++) {
      const pw_opening *at = &job->opening[i];
      const pw_frame_line *line =
          pw_frame_line_pick(job->frame_line, job->n_frame_line, "vinyl", at->operator_insert);
      pw_fit fit;
      pw_rating one;
      assert_int_equal(pw_fit_opening(at, line, &fit, NULL), PW_OK);
      assert_int_equal(pw_rating_insert(&fit, &package, line, &g, NULL, &one, NULL), PW_OK);
      ua += at->quantity * one.u * one.area;
      area += at->quantity * one.area;
    }
    pw_assert_near(r->u, ua / area, 1e-6, "U", "ratings, opening by opening");
  }
  pw_rank_free(&four);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_price_is_the_sum_of_its_parts),
      cmocka_unit_test(the_heaviest_sash_is_weighed),
      cmocka_unit_test(the_inner_glass_is_that_of_the_design_night),
      cmocka_unit_test(a_spacer_is_the_edge_alone),
      cmocka_unit_test(life_cost_is_price_and_bills),
      cmocka_unit_test(four_panes_are_rated_as_any),
      cmocka_unit_test(every_build_up_is_counted_once),
      cmocka_unit_test(a_shorter_list_is_the_head_of_the_longer),
  };
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
