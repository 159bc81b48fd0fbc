#define _GNU_SOURCE /* dladdr */
/* Every allocation that a study makes fails once: the answer is the same as undisturbed, or PW_E_NOMEM, with nothing kept and
 * nothing lost; GSL's own handler, which would end the program, is on. */
#include "lived_bills.h"

#include <stdlib.h>
#include <string.h>

#include "example_fixture.h"
#include "failing_memory.h"
#include "frame/conduct.h"
#include "job/catalogue_file.h"
#include "job/section_file.h"
#include "meter/after.h"
#include "panewright/comparison.h"
#include "panewright/place.h"
#include "rank_fixture.h"
#include "study/alone.h"
#include "study/batch.h"
#include "study/compare_airing.h"
#include "study/compare_phases.h"
#include "study/compare_sound.h"
#include "study/compare_tight.h"
#include "study/compare_year.h"
#include "study/first_window.h"
#include "study/pareto.h"
#include "study/range.h"
#include "study/rank.h"
#include "window/materials.h"

#if WATCHED
static void the_sanitizers_have_an_allocator(void **state)
{
  (void)state;
  skip();
}
#else
/* ---------------------------------------------------------------- the studies */

static const pw_compare_options detailed = {.method = PW_YEAR_DETAILED};

static const pw_tariff by_hour = {
    .kind = PW_TARIFF_TIME,
    .n_period = 2,
    .period = {{.price = 0.2}, {.from_h = 16, .to_h = 21, .price = 0.4}}};
static const pw_tariff *const hourly[PW_FUEL_COUNT] = {[PW_FUEL_ELECTRICITY] = &by_hour};

static pw_status compared(void *desk, double *figure, pw_err *err)
{
  fixture *f = desk;
  pw_compare_options o = quick;
  pw_compare *c = &f->whole; /* taken apart by each run */
  o.tariff = hourly;
  pw_status s = pw_compare_run(&f->open.job, f->open.weather, &o, NULL, c, err);
  if (s == PW_OK) *figure = c->billed.package_set[0].saving.cost_year;
  pw_compare_free(c);
  return s;
}

static void a_comparison(void **state)
{
  fixture *f = *state;
  pw_compare_free(&f->whole);
  f->open.job.n_opening = 3;
  f->open.job.opening[1].option.grille =
      (pw_grille){.place = PW_GRILLE_BETWEEN, .cols = 2, .rows = 2, .bar = 0.02};
  strike_all("comparison", compared, f);
  f->open.job.house.infiltration = PW_INFILTRATION_AIM2;
  f->open.job.house.cfm50 = (pw_given){.value = 0.9, .origin = PW_ORIGIN_MEASURED};
  strike_all("comparison with air by the hour", compared, f);
}

static pw_status in_public(void *desk, double *figure, pw_err *err)
{
  fixture *f = desk;
  pw_comparison *c = NULL;
  pw_compared got;
  pw_job job = f->open.job;
  job.n_frame_line = 0;
  pw_status s = pw_comparison_new(&job, f->open.weather, &c, err);
  if (s == PW_OK) s = pw_comparison_get(c, 2, &got, err);
  if (s == PW_OK) *figure = got.saved;
  pw_comparison_free(c);
  return s;
}

static void a_hosts_comparison(void **state)
{
  fixture *f = *state;
  f->open.job.n_opening = 1;
  strike_all("public comparison", in_public, f);
}

static pw_status beside(void *desk, double *figure, pw_err *err)
{
  fixture *f = desk;
  static pw_compare_airing airing;
  static pw_compare_tight tight;
  pw_status s = pw_compare_airing_of(&f->whole, f->open.weather, &detailed, NULL, &airing, err);
  if (s == PW_OK)
    s = pw_compare_tight_of(&f->whole, f->open.weather, &quick, NULL, &tight, err);
  if (s == PW_OK) *figure = tight.air_changes + airing.package[0][0].cooling_kwh;
  return s;
}

static pw_status heard(void *desk, double *figure, pw_err *err)
{
  fixture *f = desk;
  pw_compare_sound sound;
  pw_status s = pw_compare_sound_of(&f->whole, &sound, err);
  if (s != PW_OK) return s;
  *figure = (double)sound.n_room;
  pw_compare_sound_free(&sound);
  return PW_OK;
}

static pw_status by_the_hour(void *desk, double *figure, pw_err *err)
{
  fixture *f = desk;
  pw_compare_hours hours;
  pw_compare_choice choice[PW_COMPARE_CHOICES];
  pw_first_window first[OPENINGS];
  size_t n;
  pw_status s =
      pw_compare_hours_run(&f->whole, f->open.weather, PW_YEAR_SIMPLE, NULL, &hours, err);
  if (s != PW_OK) return s;
  pw_compare_hours_free(&hours);
  s = pw_compare_choices(&f->whole, 0, choice, &n, err);
  if (s == PW_OK) s = pw_first_windows(&f->whole, 0, first, &n, err);
  if (s == PW_OK) *figure = choice[0].ua + (double)n;
  return s;
}

static pw_status materials(void *desk, double *figure, pw_err *err)
{
  fixture *f = desk;
  static pw_install install[OPENINGS];
  pw_materials_job sum;
  pw_status s =
      pw_materials_of_job(&f->open.job, 0, f->whole.fitted.fit[0], install, &sum, err);
  if (s != PW_OK) return s;
  *figure = (double)sum.n_unit;
  pw_materials_free(&sum);
  return PW_OK;
}

/* The comparison anew, of a job that the test has changed. */
static void anew(fixture *f)
{
  pw_err err = {0};
  pw_compare_free(&f->whole);
  if (pw_compare_run(&f->open.job, f->open.weather, &quick, NULL, &f->whole, &err) != PW_OK)
    fail_msg("%s", err.text);
}

static void what_stands_beside_it(void **state)
{
  fixture *f = *state;
  f->open.job.n_opening = 3;
  f->open.job.house.cfm50 = (pw_given){.value = 0.9, .origin = PW_ORIGIN_MEASURED};
  anew(f);
  strike_all("airing and tightness", beside, f);
  strike_all("sound", heard, f);
  strike_all("hours, choices, first windows", by_the_hour, f);
  strike_all("materials", materials, f);
}

static pw_status phased(void *desk, double *figure, pw_err *err)
{
  fixture *f = desk;
  pw_compare_phases p;
  pw_status s = pw_compare_phases_of(&f->whole, f->open.weather, &quick, NULL, &p, err);
  if (s == PW_OK) *figure = p.step[0][0].saving.cost_year;
  return s;
}

static void phases(void **state)
{
  fixture *f = *state;
  in_phases(f);
  anew(f);
  strike_all("phases", phased, f);
}

static pw_status ranged(void *desk, double *figure, pw_err *err)
{
  fixture *f = desk;
  static pw_range range;
  const pw_range_options o = {.n_draw = 64, .seed = 1, .method = PW_RANGE_FULL};
  pw_status s = pw_range_of(&f->whole, f->open.weather, PW_YEAR_QUICK, &o, &range, err);
  if (s == PW_OK) *figure = range.package[0].saving_cost.p50;
  return s;
}

static pw_status reduced(void *desk, double *figure, pw_err *err)
{
  fixture *f = desk;
  static pw_range range;
  const pw_range_options o = {
      .n_draw = 64, .seed = 1, .method = PW_RANGE_REDUCED, .bands_only = 1};
  pw_status s = pw_range_of(&f->whole, f->open.weather, PW_YEAR_QUICK, &o, &range, err);
  if (s == PW_OK) *figure = range.package[0].saving_cost.p50;
  return s;
}

static void ranges(void **state)
{
  fixture *f = *state;
  f->open.job.n_opening = 1;
  anew(f);
  strike_all("range, each draw its year", ranged, f);
  strike_all("range by a surface", reduced, f);
}

typedef struct ranking {
  pw_open_job open;
  pw_compare compare;
  pw_rank_catalogue catalogue;
} ranking;

static pw_status ranked(void *desk, double *figure, pw_err *err)
{
  ranking *r = desk;
  pw_rank rank;
  const pw_rank_options o = {.method = PW_YEAR_QUICK,
                             .n_top = 1,
                             .sound = 1,
                             .limits = {.panes_min = 1, .panes_max = 2}};
  pw_status s = pw_rank_run(&r->compare, r->open.weather, &r->catalogue, &o, &rank, err);
  if (s != PW_OK) return s;
  *figure = rank.top[0].life_cost;
  pw_rank_free(&rank);
  return PW_OK;
}

static void a_search(void **state)
{
  (void)state;
  ranking *r = calloc(1, sizeof *r);
  pw_err err = {0};
  assert_non_null(r);
  if (rank_open(RANK_SMALL, &r->open, &r->compare, &r->catalogue, &err) != PW_OK)
    fail_msg("%s", err.text);
  strike_all("rank", ranked, r);
  pw_compare_free(&r->compare);
  pw_job_close(&r->open);
  free(r);
}

static pw_status solved(void *desk, double *figure, pw_err *err)
{
  pw_section copy;
  pw_section_result r;
  pw_status s = pw_section_copy(desk, &copy, err);
  if (s != PW_OK) return s;
  const pw_section_options o = {.tolerance = 0.02};
  s = pw_section_solve(&copy, &o, &r, err);
  if (s == PW_OK) *figure = r.l2d;
  pw_section_result_free(&r);
  pw_section_free(&copy);
  return s;
}

static void a_section(void **state)
{
  (void)state;
  pw_section section;
  pw_err err = {0};
  if (pw_section_read("examples/sections/old_jamb_fixed_fins_cut.csv", 0, &section, &err) !=
      PW_OK)
    fail_msg("%s", err.text);
  strike_all("section", solved, &section);
  pw_section_free(&section);
}

static pw_status a_year(void *desk, double *figure, pw_err *err)
{
  (void)desk;
  pw_weather *w = malloc(sizeof *w);
  pw_alone_place *p = NULL;
  if (!w) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the test");
  pw_status s = pw_place_year(7, w, err);
  for (int m = 0; s == PW_OK && m < PW_ALONE_METHOD_COUNT; m++) {
    s = pw_alone_place_new(w, (pw_alone_method)m, &p, err);
    if (s == PW_OK) pw_alone_place_free(p);
  }
  if (s == PW_OK) *figure = (double)w->hour[17].t_air;
  free(w);
  return s;
}

static void places(void **state)
{
  (void)state;
  strike_all("places", a_year, NULL);
}

static pw_status billed(void *desk, double *figure, pw_err *err)
{
  lived *l = desk;
  pw_meter_use use;
  pw_normal_set set;
  const pw_work work = {l->row[12].from + 5, l->row[12].from + 6};
  pw_after after;
  pw_status s = pw_normal_set_of(&l->weather, &set, err);
  if (s != PW_OK) return s;
  s = pw_meter_use_of(PW_FUEL_GAS, l->row, l->n, &l->weather, &set, PW_BILL_NO_DAY, &use, err);
  if (s == PW_OK) {
    *figure = use.normal.total;
    pw_meter_use_free(&use);
    s = pw_after_of(PW_FUEL_GAS, l->row, l->n, &l->weather, &set, &work, PW_BILL_NO_DAY, &after,
                    err);
  }
  if (s == PW_OK) {
    *figure += after.saving;
    pw_after_free(&after);
  }
  pw_normal_set_free(&set);
  return s;
}

static void bills(void **state)
{
  (void)state;
  lived l;
  live(&l, &gas_house, PW_FUEL_GAS, 26, 0);
  strike_all("bills", billed, &l);
  leave(&l);
}

static pw_status on_the_front(void *desk, double *figure, pw_err *err)
{
  static const double v[] = {1, 5, 2, 4, 3, 3, 4, 4, 5, 1};
  size_t front[5], n = 0;
  (void)desk;
  pw_status s = pw_pareto(v, 5, 2, front, &n, err);
  if (s == PW_OK) *figure = (double)n;
  return s;
}

static void a_front(void **state)
{
  (void)state;
  strike_all("front", on_the_front, NULL);
}
#endif

int main(int argc, char **argv)
{
#if WATCHED
  (void)argc, (void)argv;
  const struct CMUnitTest tests[] = {cmocka_unit_test(the_sanitizers_have_an_allocator)};
  return cmocka_run_group_tests(tests, NULL, NULL);
#else
  void *warm[4];
  backtrace(warm, 4); /* it allocates at its first call */
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test_setup_teardown(a_comparison, set_up, tear_down),
      cmocka_unit_test_setup_teardown(a_hosts_comparison, set_up, tear_down),
      cmocka_unit_test_setup_teardown(what_stands_beside_it, set_up, tear_down),
      cmocka_unit_test_setup_teardown(phases, set_up, tear_down),
      cmocka_unit_test_setup_teardown(ranges, set_up, tear_down),
      cmocka_unit_test(a_search),
      cmocka_unit_test(a_section),
      cmocka_unit_test(places),
      cmocka_unit_test(bills),
      cmocka_unit_test(a_front),
  };
  if (argc > 1) cmocka_set_test_filter(argv[1]);
  return cmocka_run_group_tests(tests, NULL, NULL);
#endif
}
