/* The search against brute force: every build-up spelled out as text, rated and lived with one by one. */
#include "rank_fixture.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "house/covering.h"
#include "job/program_file.h"
#include "panewright/glazing.h"
#include "window/frame_line.h"

static const char small[] =
    "part,name,thickness,gas,place,pocket,price_per_area,price_per_opening,price_per_length\n"
    "pane,clear,3mm,,,,10 $/m2,,\n"
    "pane,gray,4mm,,,,14 $/m2,,\n"
    "coating,pyr20,,,any,,9 $/m2,,\n"
    "coating,ag2,,,gap,,13 $/m2,,\n"
    "gap,,8mm,air,,,2 $/m2,,\n"
    "gap,,16mm,argon 90%,,,5 $/m2,,\n"
    "spacer,metal,,,,,,,1 $/m\n"
    "spacer,insulating,,,,,,,3 $/m\n"
    "frame_line,vinyl,,,,23.5mm,150 $/m2,$300,\n"
    "frame_line,fibreglass,,,,40mm,230 $/m2,$340,\n";

static const char *const pane_text[] = {"3mm clear", "4mm gray"};
static const double pane_thick[] = {0.003, 0.004}, pane_price[] = {10.0, 14.0};
static const char *const coat_text[] = {"", "pyr20", "ag2"};
static const double coat_price[] = {0.0, 9.0, 13.0};
static const char *const gap_text[] = {"8mm air", "16mm argon 90%"};
static const double gap_thick[] = {0.008, 0.016}, gap_price[] = {2.0, 5.0};
static const pw_spacer spacer_kind[] = {PW_SPACER_METAL, PW_SPACER_INSULATING};
static const double spacer_price[] = {1.0, 3.0};
static const char *const line_name[] = {"vinyl", "fibreglass"};
static const double line_pocket[] = {0.0235, 0.04}, line_area[] = {150.0, 230.0},
                    line_opening[] = {300.0, 340.0};

typedef struct brute {
  char glass[200];
  int line, spacer;
  double thick, weight, light, tint; /* m, kg, visible transmittance, u'v' */
  double price, life, u, shgc, vt, light_kept, t_inner;
  int left_out; /* 0 no; else which limit: 1 thickness .. 5 program */
} brute;

typedef struct desk {
  pw_open_job open;
  pw_compare *compare;
  pw_rank_catalogue catalogue;
  brute *all;
  size_t n;
} desk;

static int setup(void **state)
{
  desk *d = calloc(1, sizeof *d);
  pw_err err = {0};
  d->compare = calloc(1, sizeof *d->compare);
  d->all = calloc(4096, sizeof *d->all);
  pw_status status = rank_open(small, &d->open, d->compare, &d->catalogue, &err);
  if (status != PW_OK) fail_msg("%s", err.text);
  *state = d;
  return 0;
}

static int teardown(void **state)
{
  desk *d = *state;
  pw_compare_free(d->compare);
  pw_job_close(&d->open);
  free(d->compare);
  free(d->all);
  free(d);
  return 0;
}

/* Heaviest lite that moves, by hand: 2500 kg/m3 and the bite on each side. */
static double heaviest(const pw_fit *fit, double bite, double thick)
{
  double most = 0.0;
  for (size_t i = 0; i < fit->insert.n_lite; i++) {
    const pw_lite *l = &fit->insert.lite[i];
    if (l->moving)
      most = fmax(most, 2500.0 * thick * (l->width + 2.0 * bite) * (l->height + 2.0 * bite));
  }
  return most;
}

static double tint_of(const pw_light *light)
{
  double d = -2.0 * light->cie_x + 12.0 * light->cie_y + 3.0,
         wd = -2.0 * 0.3127 + 12.0 * 0.3290 + 3.0;
  return hypot(4.0 * light->cie_x / d - 4.0 * 0.3127 / wd,
               9.0 * light->cie_y / d - 9.0 * 0.3290 / wd);
}

/* Rates and lives with one build-up, every opening, by the public calls of the library. */
static void price_and_live(const desk *d, brute *b, double glass_thick, double per_area,
                           double n_gap)
{
  const pw_compare *c = d->compare;
  const pw_job *job = &d->open.job;
  pw_buildup buildup;
  pw_glazing g;
  pw_house_window window[PW_WINDOWS_MAX];
  double area = 0.0, count = 0.0, ua = 0.0, sun = 0.0, seen = 0.0, lit = 0.0, now = 0.0,
         run = 0.0;
  pw_package package = {.filling = "foam", .spacer = spacer_kind[b->spacer]};
  assert_int_equal(pw_buildup_parse(b->glass, &buildup, NULL), PW_OK);
  assert_int_equal(pw_glazing_build(&buildup, &g, NULL), PW_OK);
  pw_compare_windows(c->job, &c->fitted, &c->rated, 0,
                     window); /* facing, shade and screen of each opening */
  for (size_t i = 0; i < job->n_opening; i++) {
    const pw_opening *o = &job->opening[i];
    const pw_frame_line *line = pw_frame_line_pick(job->frame_line, job->n_frame_line,
                                                   line_name[b->line], o->operator_insert);
    pw_fit fit;
    pw_rating r;
    double times = (double)o->quantity;
    assert_int_equal(pw_fit_opening(o, line, &fit, NULL), PW_OK);
    assert_int_equal(pw_rating_insert(&fit, &package, line, &g, NULL, &r, NULL), PW_OK);
    area += times * r.area;
    count += times;
    ua += times * r.u * r.area;
    sun += times * r.shgc * r.area;
    seen += times * r.vt * r.area;
    lit += times * r.glass_area * g.light.tau_v[0];
    now += times * c->rated.existing[i].rating.glass_area *
           c->fitted.existing_glass[i].light.tau_v[0];
    run += times * r.glass_perimeter;
    b->weight = fmax(b->weight, heaviest(&fit, line->bite_max, glass_thick));
    double opaque = r.areas.frame + r.areas.divider + r.areas.retained;
    double lite = fit.insert.lite[0].height;
    if (fit.insert.n_meeting && !fit.insert.meeting_upright)
      lite = 2.0 * lite + fit.insert.meeting_width;
    window[i].glazing = &g;
    window[i].area_glass = r.glass_area;
    window[i].height = lite;
    window[i].width = r.glass_area / lite;
    window[i].area_other = opaque;
    window[i].ua_other = r.u * r.area - g.u_winter * r.glass_area;
    window[i].solar_other = r.shgc_opaque * opaque;
    pw_covering_of((pw_covering)job->opening[i].covering, job->opening[i].covering_of_all, &g,
                   &window[i].covered); /* they go by the glass */
  }
  pw_year_result *year = calloc(1, sizeof *year);
  const pw_year_options quick = {.method = PW_YEAR_QUICK};
  pw_needs needs = {0};
  pw_bill bill;
  assert_int_equal(pw_year_run(&c->lived.house, d->open.weather, window, job->n_opening, &quick,
                               NULL, year, NULL),
                   PW_OK);
  for (int m = 0; m < 12; m++) {
    needs.heating_kwh[m] = fmax(0.0, year->heating_month_kwh[m]);
    needs.cooling_kwh[m] = fmax(0.0, year->cooling_month_kwh[m]);
  }
  free(year);
  assert_int_equal(pw_bill_of(&needs, &c->billed.rates, &bill, NULL), PW_OK);
  b->price = line_opening[b->line] * count + (line_area[b->line] + per_area) * area +
             n_gap * spacer_price[b->spacer] * run;
  b->life = b->price;
  const pw_house_facts *f = &job->house;
  double horizon = f->horizon_years.value > 0.0 ? f->horizon_years.value : 25.0;
  for (int k = 1; k <= (int)horizon; k++)
    b->life +=
        bill.cost_year * pow(1.0 + f->escalation.value, k) / pow(1.0 + f->discount.value, k);
  b->u = ua / area;
  b->shgc = sun / area;
  b->vt = seen / area;
  b->light_kept = lit / now;
  b->light = g.light.tau_v[0];
  b->tint = tint_of(&g.light);
  const pw_env env = {.t_out = c->rated.t_design_out, .t_in = c->rated.t_in, .wind = 5.5};
  pw_unit_result night;
  assert_int_equal(pw_unit_balance(&g.unit, &env, NULL, &night, NULL), PW_OK);
  b->t_inner = night.t[2 * g.unit.n_pane - 1];
}

/* A coating may not sit there: soft ones face a gap, and one a gap is enough. */
static int bad_coats(size_t n, const int coat[], size_t most)
{
  size_t used = 0;
  for (size_t k = 0; k < 2 * n; k++) {
    int open = k == 0 || k == 2 * n - 1;
    used += coat[k] > 0;
    if (open && coat[k] == 2) return 1;
    if (!open && k % 2 && coat[k] && coat[k + 1]) return 1;
  }
  return used > most;
}

/* Every build-up of n panes; digits run over panes, coatings of each surface, gaps. */
static void spell_out(desk *d, size_t n, size_t n_kind, size_t coats, int mixed)
{
  size_t n_coat = 1, n_pane = 1, n_gap = 1;
  for (size_t i = 0; i < n; i++) {
    n_pane *= n_kind;
    n_coat *= 9;
    if (i > 0) n_gap *= 2;
  }
  for (size_t p = 0; p < n_pane; p++)
    for (size_t q = 0; q < n_coat; q++) {
      int coat[8], pane[4];
      for (size_t i = 0, x = p, y = q; i < n; i++, x /= n_kind) {
        pane[i] = (int)(x % n_kind);
        coat[2 * i] = (int)(y % 3);
        coat[2 * i + 1] = (int)(y / 3 % 3);
        y /= 9;
      }
      if (bad_coats(n, coat, coats)) continue;
      for (size_t r = 0; r < n_gap; r++) {
        if (!mixed && r != 0 && r != n_gap - 1) continue;
        char text[200] = "";
        double thick = 0.0, glass = 0.0, price = 0.0;
        for (size_t i = 0; i < n; i++) {
          size_t gap = r >> i & 1, used = strlen(text);
          glass += pane_thick[pane[i]];
          price += pane_price[pane[i]] + coat_price[coat[2 * i]] + coat_price[coat[2 * i + 1]];
          used += (size_t)snprintf(text + used, sizeof text - used, "%s", pane_text[pane[i]]);
          for (size_t s = 0; s < 2; s++)
            if (coat[2 * i + s])
              used += (size_t)snprintf(text + used, sizeof text - used, " coat %s@%zu",
                                       coat_text[coat[2 * i + s]], 2 * i + s + 1);
          if (i + 1 == n) break;
          snprintf(text + used, sizeof text - used, " / %s / ", gap_text[gap]);
          thick += gap_thick[gap];
          price += gap_price[gap];
        }
        thick += glass;
        for (int l = 0; l < 2; l++)
          for (int s = 0; s < (n == 1 ? 1 : 2); s++) {
            brute *b = &d->all[d->n++];
            *b = (brute){.line = l, .spacer = s, .thick = thick};
            snprintf(b->glass, sizeof b->glass, "%s", text);
            price_and_live(d, b, glass, price, (double)(n - 1));
          }
      }
    }
}

/* The first limit that a build-up does not keep, in the order in which the search counts them. */
static void apply_limits(desk *d, const pw_rank_limits *l)
{
  for (size_t i = 0; i < d->n; i++) {
    brute *b = &d->all[i];
    pw_program_result r;
    const pw_label label = {b->u, b->shgc, b->vt, 0.0};
    b->left_out = 0;
    if (b->thick > line_pocket[b->line])
      b->left_out = 1;
    else if (l->sash_weight > 0.0 && b->weight > l->sash_weight)
      b->left_out = 2;
    else if (b->light < l->light_least)
      b->left_out = 3;
    else if (l->tint_most > 0.0 && b->tint > l->tint_most)
      b->left_out = 4;
    else if (l->program &&
             (pw_program_judge(l->program, "", &label, l->date, &r, NULL) != PW_OK ||
              r.verdict != PW_VERDICT_MEETS))
      b->left_out = 5;
  }
}

static int by_life(const void *a, const void *b)
{
  const brute *x = a, *y = b;
  if (x->left_out != y->left_out && (!x->left_out || !y->left_out)) return x->left_out ? 1 : -1;
  return (x->life > y->life) - (x->life < y->life);
}

/* Limits into which every build-up of the space falls, and all of the space among the best: so the
 * whole order is looked at, each with its own year. bites: the limit that must leave some out, and some in. */
static void check(desk *d, const pw_rank_limits *limits, int bites)
{
  pw_rank_options o = {
      .limits = *limits, .method = PW_YEAR_QUICK, .n_top = 1000, .n_thread = 2};
  pw_rank r;
  pw_err err = {0};
  uint64_t count[6] = {0};
  apply_limits(d, limits);
  qsort(d->all, d->n, sizeof *d->all, by_life);
  for (size_t i = 0; i < d->n; i++)
    count[d->all[i].left_out]++;
  if (pw_rank_run(d->compare, d->open.weather, &d->catalogue, &o, &r, &err) != PW_OK)
    fail_msg("%s", err.text);
  assert_true(count[0] > 0 && count[bites] > 0);
  assert_int_equal(r.counts.all, d->n);
  assert_int_equal(r.counts.ranked, count[0]);
  assert_int_equal(r.counts.thickness, count[1]);
  assert_int_equal(r.counts.weight, count[2]);
  assert_int_equal(r.counts.light, count[3]);
  assert_int_equal(r.counts.tint, count[4]);
  assert_int_equal(r.counts.program, count[5]);
  assert_int_equal(r.n_top, count[0]);
  for (size_t i = 0; i < r.n_top; i++) {
    const pw_rank_choice *c = &r.top[i];
    const brute *b = &d->all[i];
    char text[200];
    assert_int_equal(pw_buildup_print(&c->glass, text, sizeof text, NULL), PW_OK);
    assert_true(c->from_year);
    pw_assert_near(c->life_cost, b->life, 1e-6 * b->life, text, "brute force");
    /* Two that cost the same may stand either way round. */
    if ((i == 0 || b->life - b[-1].life > 1e-6 * b->life) &&
        (i + 1 == r.n_top || b[1].life - b->life > 1e-6 * b->life)) {
      pw_buildup same;
      char again[200];
      assert_int_equal(pw_buildup_parse(b->glass, &same, NULL), PW_OK);
      assert_int_equal(pw_buildup_print(&same, again, sizeof again, NULL), PW_OK);
      assert_string_equal(text, again);
      assert_int_equal(c->line, b->line);
      assert_int_equal(c->spacer, b->spacer);
      pw_assert_near(c->price, b->price, 1e-9 * b->price, text, "brute force");
      pw_assert_near(c->u, b->u, 1e-9, text, "brute force");
      pw_assert_near(c->shgc, b->shgc, 1e-9, text, "brute force");
      pw_assert_near(c->vt, b->vt, 1e-9, text, "brute force");
      pw_assert_near(c->light_kept, b->light_kept, 1e-9, text, "brute force");
      pw_assert_near(c->t_inner, b->t_inner, 1e-7, text, "brute force");
      pw_assert_near(c->sash_weight, b->weight, 1e-9 * b->weight, text, "brute force");
    }
  }
  pw_rank_free(&r);
}

static void order_and_limits_equal_brute_force(void **state)
{
  static const char program_text[] =
      "program,edition,zone,row,group,metric,op,value,unit,from,to,source,note\n"
      "demo,1,all,criterion,,u,<=,0.42,Btu/h-ft2-F,,,invented,\n"
      "demo,1,all,criterion,,shgc,<=,0.50,,,,invented,\n";
  desk *d = *state;
  pw_program program;
  pw_err err = {0};
  if (pw_program_parse("demo.csv", program_text, sizeof program_text - 1, &program, NULL,
                       &err) != PW_OK)
    fail_msg("%s", err.text);
  d->n = 0;
  spell_out(d, 1, 2, 1, 0);
  spell_out(d, 2, 2, 1, 0);
  assert_int_equal(d->n, 12 + 4 * 7 * 2 * 4);
  pw_rank_limits l = {.panes_min = 1, .panes_max = 2, .coatings_max = 1};
  check(d, &l, 1);
  l.sash_weight = 29.0;
  check(d, &l, 2);
  l.light_least = 0.452;
  check(d, &l, 3);
  l.tint_most = 0.0095;
  check(d, &l, 4);
  l.program = &program;
  l.date = 20260914;
  check(d, &l, 5);
  l.sash_weight = l.light_least = l.tint_most = 0.0;
  check(d, &l, 5);
  pw_program_free(&program);
}

static void mixed_gaps_and_two_coatings_equal_brute_force(void **state)
{
  desk *d = *state;
  d->n = 0;
  spell_out(d, 3, 1, 2, 1);
  pw_rank_catalogue whole = d->catalogue;
  d->catalogue.n_pane = 1;
  pw_rank_limits l = {.panes_min = 3, .panes_max = 3, .coatings_max = 2, .gaps_differ = 1};
  assert_true(d->n < 1000);
  check(d, &l, 1);
  d->catalogue = whole;
}

static int dominated(const pw_rank_choice *a, const pw_rank_choice *b)
{
  const double x[] = {a->price, a->surface_heating_kwh, a->surface_cooling_kwh, -a->light_kept,
                      -a->t_inner};
  const double y[] = {b->price, b->surface_heating_kwh, b->surface_cooling_kwh, -b->light_kept,
                      -b->t_inner};
  for (int k = 0; k < 5; k++)
    if (y[k] > x[k]) return 0;
  return memcmp(x, y, sizeof x) != 0;
}

static void front_is_what_nothing_beats_and_the_best_are_the_best(void **state)
{
  desk *d = *state;
  pw_rank_options o = {.limits = {.panes_min = 1, .panes_max = 2, .coatings_max = 1},
                       .method = PW_YEAR_QUICK,
                       .n_top = 1000,
                       .no_years = 1};
  pw_rank all, few;
  assert_int_equal(pw_rank_run(d->compare, d->open.weather, &d->catalogue, &o, &all, NULL),
                   PW_OK);
  size_t k = 0;
  for (size_t i = 0; i < all.n_top; i++) {
    int beaten = 0, found = 0;
    for (size_t j = 0; j < all.n_top && !beaten; j++)
      beaten = dominated(&all.top[i], &all.top[j]);
    for (size_t j = 0; j < all.n_front && !found; j++)
      found = all.front[j].number == all.top[i].number;
    assert_int_equal(found, !beaten);
    k += (size_t)found;
  }
  assert_int_equal(k, all.n_front);
  assert_true(k > 5);
  for (int threads = 1; threads <= 3; threads++) {
    o.n_top = 7;
    o.n_thread = threads;
    assert_int_equal(pw_rank_run(d->compare, d->open.weather, &d->catalogue, &o, &few, NULL),
                     PW_OK);
    assert_int_equal(few.n_top, 7);
    for (size_t i = 0; i < few.n_top; i++)
      assert_memory_equal(&few.top[i], &all.top[i], sizeof few.top[i]);
    assert_int_equal(few.n_front, all.n_front);
    for (size_t i = 0; i < few.n_front; i++)
      assert_int_equal(few.front[i].number, all.front[i].number);
    pw_rank_free(&few);
  }
  pw_rank_free(&all);
}

/* The surface beside the full years, hour by hour: life cost within 1 %, needs within 3 %. */
static void surface_meets_the_years(void **state)
{
  desk *d = *state;
  pw_rank_options o = {.limits = {.panes_min = 2, .panes_max = 3, .coatings_max = 2},
                       .method = PW_YEAR_DETAILED,
                       .n_top = 15};
  pw_compare *c = calloc(1, sizeof *c);
  pw_compare_options options = pw_job_options(&d->open, PW_YEAR_DETAILED);
  pw_rank r;
  assert_int_equal(pw_compare_run(&d->open.job, d->open.weather, &options, NULL, c, NULL),
                   PW_OK);
  assert_int_equal(pw_rank_run(c, d->open.weather, &d->catalogue, &o, &r, NULL), PW_OK);
  assert_int_equal(r.n_top, 15);
  for (size_t i = 0; i < r.n_top; i++) {
    const pw_rank_choice *q = &r.top[i];
    pw_assert_near(q->surface_life_cost, q->life_cost, 0.01 * q->life_cost, "life cost",
                   "its own full year");
    pw_assert_near(q->surface_heating_kwh, q->heating_kwh, 0.03 * q->heating_kwh, "heating",
                   "its own full year");
    pw_assert_near(q->surface_cooling_kwh, q->cooling_kwh, 0.03 * q->cooling_kwh, "cooling",
                   "its own full year");
  }
  pw_rank_free(&r);
  pw_compare_free(c);
  free(c);
}

static int stop_soon(void *context, size_t done, size_t all)
{
  (void)context;
  (void)all;
  return done >= 32;
}

static void stopping_and_refusals(void **state)
{
  desk *d = *state;
  pw_rank_options o = {.method = PW_YEAR_QUICK, .progress = stop_soon, .n_top = 3};
  pw_rank r;
  pw_err err = {0};
  assert_int_equal(pw_rank_run(d->compare, d->open.weather, &d->catalogue, &o, &r, &err),
                   PW_OK);
  assert_true(r.stopped && r.n_top == 3 && r.n_front > 0);
  assert_true(r.counts.ranked + r.counts.thickness < r.counts.all);
  pw_rank_free(&r);
  o.progress = NULL;
  o.limits.light_least = 0.99;
  assert_int_equal(pw_rank_run(d->compare, d->open.weather, &d->catalogue, &o, &r, &err),
                   PW_OK);
  assert_true(r.n_top == 0 && r.n_front == 0 && !r.stopped);
  pw_rank_free(&r);
  pw_rank_catalogue bad = d->catalogue;
  strcpy(bad.line[1].name, "oak");
  assert_int_equal(pw_rank_run(d->compare, d->open.weather, &bad, &o, &r, &err), PW_E_DATA);
  assert_non_null(strstr(err.text, "'oak'"));
  bad = d->catalogue;
  strcpy(bad.coating[0].name, "gold");
  assert_int_equal(pw_rank_run(d->compare, d->open.weather, &bad, &o, &r, &err), PW_E_DATA);
  bad = d->catalogue;
  bad.n_line = 0;
  assert_int_equal(pw_rank_run(d->compare, d->open.weather, &bad, &o, &r, &err), PW_E_SHAPE);
  o.limits.panes_max = 5;
  assert_int_equal(pw_rank_run(d->compare, d->open.weather, &d->catalogue, &o, &r, &err),
                   PW_E_DOMAIN);
  assert_null(r.top);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(order_and_limits_equal_brute_force),
      cmocka_unit_test(mixed_gaps_and_two_coatings_equal_brute_force),
      cmocka_unit_test(front_is_what_nothing_beats_and_the_best_are_the_best),
      cmocka_unit_test(surface_meets_the_years), cmocka_unit_test(stopping_and_refusals)};
  pw_test_begin();
  return cmocka_run_group_tests(tests, setup, teardown);
}
