/* What stays, and phases: each against a closed form, a hand sum, or the same job told in another way. The example job,
 * month by month and hour by hour. */
#include "example_fixture.h"

#include <jansson.h>

#include "job/phase.h"
#include "out/compare_out.h"
#include "study/compare_phases.h"
#include "study/range.h"
#include "window/fit_job.h"
#include "window/order_check.h"

/* ---------------------------------------------------------------- what stays */

static void a_job_of_windows_that_stay_saves_and_costs_nothing(void **state)
{
  fixture *f = *state;
  static const pw_year_method method[] = {PW_YEAR_QUICK, PW_YEAR_DETAILED};
  for (size_t i = 0; i < OPENINGS; i++)
    f->open.job.opening[i].standing = PW_STAYS;
  for (size_t m = 0; m < 2; m++) {
    const pw_compare_options o = {.method = method[m]};
    pw_compare *c = run(f, &o);
    for (size_t p = 0; p < c->n_package; p++) {
      const pw_compare_set s = pw_compare_set_of(c, (int)p);
      assert_true(s.billed->saving.cost_year == 0.0 && s.billed->saving.need_kwh == 0.0);
      assert_true(s.billed->saving.co2_kg == 0.0 && s.billed->saving_minimum.cost_year == 0.0);
      assert_true(s.billed->price == 0.0 && s.rated->u == c->rated.existing_set.u);
    }
    assert_int_equal(c->fitted.cautions.n_fail, 0); /* B2's escape opening is of no order */
    forget(c);
  }
  as_read(f);
}

/* And in every draw of a range, which moves old and new windows by factors of their own. */
static void no_draw_makes_a_kept_window_save(void **state)
{
  fixture *f = *state;
  static const pw_range_options o = {
      .n_draw = 64, .seed = 3, .n_thread = 1, .method = PW_RANGE_FULL};
  pw_range *r = calloc(1, sizeof *r);
  for (size_t i = 0; i < OPENINGS; i++)
    f->open.job.opening[i].standing = PW_STAYS;
  pw_compare *c = run(f, &quick);
  pw_err err = {0};
  assert_non_null(r);
  if (pw_range_of(c, f->open.weather, PW_YEAR_QUICK, &o, r, &err) != PW_OK)
    fail_msg("%s", err.text);
  for (size_t p = 0; p < c->n_package; p++) {
    assert_true(r->package[p].saving_cost.p10 == 0.0);
    assert_true(r->package[p].saving_cost.p90 == 0.0);
    assert_true(r->package[p].saving_minimum.p90 == 0.0);
    same(r->package[p].u.p10, r->existing.u.p10, "U of windows that stay");
    same(r->package[p].shgc.p90, r->existing.shgc.p90, "SHGC of windows that stay");
  }
  free(r);
  forget(c);
  as_read(f);
}

/* Beside one that stays, the others' windows, prices and sizes are what they were. */
static void one_that_stays_takes_only_itself_away(void **state)
{
  fixture *f = *state;
  f->open.job.opening[B2].standing = PW_STAYS;
  pw_compare *c = run(f, &quick);
  same(c->billed.existing_set.bill.cost_year, f->whole.billed.existing_set.bill.cost_year,
       "the house now");
  for (size_t p = 0; p < c->n_package; p++) {
    const pw_package *k = &f->open.job.package[p];
    double area = f->whole.rated.existing[B2].rating.area;
    double one = k->price_per_opening.value + k->price_per_area.value * area;
    same(c->billed.package_set[p].price, f->whole.billed.package_set[p].price - one,
         "price less one window");
    for (size_t i = 0; i < OPENINGS; i++) {
      double u = pw_compare_rating(&c->rated, (int)p, i)->u;
      if (i == B2)
        assert_true(u == f->whole.rated.existing[i].rating.u);
      else
        assert_true(u == pw_compare_rating(&f->whole.rated, (int)p, i)->u);
    }
    double kept = c->rated.package_set[p].ua.center - f->whole.rated.package_set[p].ua.center;
    double differs = f->whole.rated.existing[B2].rating.ua.center -
                     pw_compare_rating(&f->whole.rated, (int)p, B2)->ua.center;
    same(kept, differs, "heat through the glass differs by that window's");
  }
  assert_true(f->whole.fitted.cautions.n_fail > 0); /* B2's, which is none of this order now */
  assert_int_equal(c->fitted.cautions.n_fail, 0);
  int said = 0;
  for (size_t k = 0; k < c->fitted.cautions.n; k++) {
    if (c->fitted.cautions.caution[k].opening != B2) continue;
    said |= c->fitted.cautions.caution[k].state == PW_CAUTION_FLAG;
    assert_non_null(
        strstr(pw_said(&c->fitted.cautions.caution[k].finding), "the old window stays"));
  }
  assert_true(said);
  forget(c);
  as_read(f);
}

/* A reading that would stop an order stops none where the window stays. */
static void a_window_that_stays_has_no_finding_of_the_order(void **state)
{
  fixture *f = *state;
  pw_fit fit[OPENINGS];
  pw_err err = {0};
  assert_int_equal(pw_fit_job(&f->open.job, 0, fit, &err), PW_OK);
  assert_true(fit[B3].n_finding > 0); /* the racked one */
  f->open.job.opening[B3].standing = PW_STAYS;
  assert_int_equal(pw_fit_job(&f->open.job, 0, fit, &err), PW_OK);
  assert_int_equal(fit[B3].n_finding, 0);
  pw_cautions list;
  pw_order_check check;
  assert_int_equal(pw_cautions_find(&f->open.job, fit, &list, &err), PW_OK);
  pw_order_check_of(B3, &fit[B3], &list, &check);
  assert_int_equal(check.n, 0);
  pw_cautions_free(&list);
  as_read(f);
}

/* ---------------------------------------------------------------- phases */

static void phases_add_up_to_the_whole(void **state)
{
  fixture *f = *state;
  static const pw_year_method method[] = {PW_YEAR_QUICK, PW_YEAR_SIMPLE};
  in_phases(f);
  for (size_t m = 0; m < 2; m++) {
    const pw_compare_options o = {.method = method[m]};
    pw_compare *c = run(f, &o);
    pw_compare_phases ph;
    pw_err err = {0};
    assert_int_equal(pw_compare_phases_of(c, f->open.weather, &o, NULL, &ph, &err), PW_OK);
    assert_int_equal(ph.n_phase, 3);
    assert_int_equal(ph.number[2], 4);
    assert_int_equal(ph.n_window[0] + ph.n_window[1] + ph.n_window[2], OPENINGS + 1 - 1);
    for (size_t p = 0; p < c->n_package; p++) {
      const pw_compare_set s = pw_compare_set_of(c, (int)p);
      double price = 0.0, saved = 0.0, need = 0.0, fuel = 0.0, co2 = 0.0;
      for (size_t k = 0; k < ph.n_phase; k++) {
        const pw_phase_step *step = &ph.step[p][k];
        price += step->price;
        saved += step->saving.cost_year;
        need += step->saving.need_kwh;
        fuel += step->saving.fuel_kwh;
        co2 += step->saving.co2_kg;
        assert_true(step->price > 0.0 && step->saving.cost_year > 0.0);
      }
      same(price, s.billed->price, "prices of the phases");
      same(saved, s.billed->saving.cost_year, "savings of the phases");
      same(need, s.billed->saving.need_kwh, "need saved by the phases");
      same(fuel, s.billed->saving.fuel_kwh, "fuel saved by the phases");
      same(co2, s.billed->saving.co2_kg, "carbon dioxide of the phases");
      same(ph.step[p][2].cost_year, s.billed->bill.cost_year, "after the last phase");
    }
    forget(c);
  }
  as_read(f);
}

/* A phase seen by itself is the row of the table: what stands there before is the earlier phases'. */
static void a_phase_by_itself_is_its_row(void **state)
{
  fixture *f = *state;
  pw_compare_phases ph;
  pw_err err = {0};
  in_phases(f);
  pw_compare *all = run(f, &quick);
  assert_int_equal(pw_compare_phases_of(all, f->open.weather, &quick, NULL, &ph, &err), PW_OK);
  for (size_t k = 0; k < ph.n_phase; k++)
    for (size_t p = 0; p < all->n_package; p++) {
      as_read(f);
      in_phases(f);
      assert_int_equal(
          pw_job_take_phase(&f->open.job, ph.number[k], f->open.job.package[p].name, &err),
          PW_OK);
      pw_compare *c = run(f, &quick);
      same(c->billed.package_set[p].price, ph.step[p][k].price, "price of the phase");
      same(c->billed.package_set[p].saving.cost_year, ph.step[p][k].saving.cost_year,
           "its saving");
      same(c->billed.package_set[p].saving.co2_kg, ph.step[p][k].saving.co2_kg,
           "its carbon dioxide");
      same(c->billed.package_set[p].bill.cost_year, ph.step[p][k].cost_year,
           "the house after it");
      same(c->lived.package_set[p].year.heating_kwh, ph.step[p][k].heating_kwh,
           "heating after it");
      same(c->lived.package_set[p].year.cooling_kwh, ph.step[p][k].cooling_kwh,
           "cooling after it");
      same(ph.step[p][k].payback * ph.step[p][k].saving.cost_year, ph.step[p][k].price,
           "simple payback: years of that saving that make the price");
      forget(c);
    }
  forget(all);
  as_read(f);
}

static void a_phase_that_is_none_is_refused(void **state)
{
  fixture *f = *state;
  pw_err err = {0};
  in_phases(f);
  assert_int_equal(pw_job_take_phase(&f->open.job, 3, NULL, &err), PW_E_DATA);
  assert_string_equal(err.field, "phase");
  assert_non_null(strstr(err.text, "1, 2, 4"));
  assert_int_equal(pw_job_take_phase(&f->open.job, 2, NULL, &err), PW_E_DATA);
  assert_string_equal(err.field, "earlier");
  as_read(f);
  in_phases(f);
  assert_int_equal(pw_job_take_phase(&f->open.job, 1, NULL, &err), PW_OK);
  as_read(f);
}

/* ---------------------------------------------------------------- order of the rows, JSON */

static void order_of_rows_changes_nothing(void **state)
{
  fixture *f = *state;
  pw_job *job = &f->open.job;
  pw_compare_phases a, b;
  pw_err err = {0};
  in_phases(f);
  job->opening[K2].unconditioned = 1;
  pw_compare *first = run(f, &quick);
  assert_int_equal(pw_compare_phases_of(first, f->open.weather, &quick, NULL, &a, &err), PW_OK);
  for (size_t i = 0; i < OPENINGS / 2; i++) {
    pw_opening o = job->opening[i];
    job->opening[i] = job->opening[OPENINGS - 1 - i];
    job->opening[OPENINGS - 1 - i] = o;
  }
  pw_compare *turned = run(f, &quick);
  assert_int_equal(pw_compare_phases_of(turned, f->open.weather, &quick, NULL, &b, &err),
                   PW_OK);
  alike(turned, first);
  for (size_t p = 0; p < first->n_package; p++)
    for (size_t k = 0; k < a.n_phase; k++) {
      same(a.step[p][k].price, b.step[p][k].price, "price of a phase");
      same(a.step[p][k].saving.cost_year, b.step[p][k].saving.cost_year, "its saving");
    }
  forget(first);
  forget(turned);
  as_read(f);
}

static void json_carries_the_phases_and_what_stays(void **state)
{
  fixture *f = *state;
  pw_compare_phases ph;
  pw_err err = {0};
  in_phases(f);
  pw_compare *c = run(f, &quick);
  assert_int_equal(pw_compare_phases_of(c, f->open.weather, &quick, NULL, &ph, &err), PW_OK);
  const pw_compare_frame frame = {.method = "monthly", .phases = &ph};
  json_t *j = pw_compare_json(c, &frame);
  const json_t *phases = json_object_get(j, "phases");
  assert_int_equal(json_array_size(phases), 3);
  for (size_t p = 0; p < c->n_package; p++) {
    double price = 0.0;
    for (size_t k = 0; k < 3; k++)
      price += json_number_value(json_object_get(
          json_array_get(json_object_get(json_array_get(phases, k), "packages"), p), "price"));
    same(price, c->billed.package_set[p].price, "prices in JSON");
  }
  const json_t *k1 = json_array_get(json_object_get(j, "openings"), K1);
  const json_t *t1 = json_array_get(json_object_get(j, "openings"), T1);
  assert_string_equal(json_string_value(json_object_get(k1, "action")), "keep");
  assert_string_equal(json_string_value(json_object_get(t1, "own_package")),
                      f->open.job.package[2].name);
  json_decref(j);
  as_read(f); /* whole borrows the job */
  j = pw_compare_json(&f->whole, &(pw_compare_frame){.method = ""});
  assert_null(json_object_get(j, "phases"));
  assert_null(json_object_get(json_array_get(json_object_get(j, "openings"), K1), "action"));
  json_decref(j);
  forget(c);
  as_read(f);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_job_of_windows_that_stay_saves_and_costs_nothing),
      cmocka_unit_test(no_draw_makes_a_kept_window_save),
      cmocka_unit_test(one_that_stays_takes_only_itself_away),
      cmocka_unit_test(a_window_that_stays_has_no_finding_of_the_order),
      cmocka_unit_test(phases_add_up_to_the_whole),
      cmocka_unit_test(a_phase_by_itself_is_its_row),
      cmocka_unit_test(a_phase_that_is_none_is_refused),
      cmocka_unit_test(order_of_rows_changes_nothing),
      cmocka_unit_test(json_carries_the_phases_and_what_stays),
  };
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
