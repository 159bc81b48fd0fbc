/* What the bills of a meter say at its odd ends: bills that others do not bear, breaks, seasons, terms at the edge of the
 * weather; bills before and after work where one side is missing. Houses are invented: what they use a day is known. */
#include "refused_by.h"

#include <math.h>
#include <stdlib.h>

#include "lived_bills.h"
#include "meter/after.h"

static size_t count(const pw_meter_use *u, pw_bill_finding_kind kind)
{
  size_t n = 0;
  for (size_t i = 0; i < u->findings.n; i++)
    n += u->findings.finding[i].kind == kind;
  return n;
}

static invented quiet(const invented *h)
{
  invented q = *h;
  q.noise = 0.0;
  return q;
}

static pw_status ask(lived *l, const pw_daily *weather, const pw_normal_set *normal, int moved,
                     pw_err *err)
{
  pw_meter_use_free(&l->use);
  return pw_meter_use_of(PW_FUEL_GAS, l->row, l->n, weather, normal, moved, &l->use, err);
}

/* One bill of 200 days is long enough and still one bill; one of 1170 begins more than 36 months before it ends. None at all are
 * too few as well. */
static void one_long_bill(void **state)
{
  (void)state;
  lived l;
  live(&l, &gas_house, PW_FUEL_GAS, 1, 200);
  assert_int_equal(l.use.refused, PW_BILL_REFUSED_FEW);
  assert_false(l.use.fitted);
  invent_bills(&gas_house, &l.weather, l.row, 1, 1170);
  again(&l, PW_FUEL_GAS);
  assert_int_equal(count(&l.use, PW_BILL_OLD), 1);
  assert_true(l.use.n_period == 0 && l.use.refused == PW_BILL_REFUSED_FEW);
  l.n = 0;
  again(&l, PW_FUEL_GAS);
  assert_int_equal(l.use.refused, PW_BILL_REFUSED_FEW);
  leave(&l);
}

/* The same bill again is taken once; one of the same first day that differs in anything is an overlap. */
static void what_the_same_bill_is(void **state)
{
  (void)state;
  for (int k = 0; k < 5; k++) {
    lived l;
    live(&l, &gas_house, PW_FUEL_GAS, 24, 0);
    pw_bill_row *twin = &l.row[l.n++];
    *twin = l.row[6];
    if (k == 1) twin->to -= 3;
    if (k == 2) twin->read = PW_READ_CORRECTED;
    if (k == 3) twin->amount += 1.0;
    if (k == 4) twin->generation = 5.0;
    again(&l, PW_FUEL_GAS);
    assert_int_equal(count(&l.use, PW_BILL_DOUBLE), k == 0);
    if (k)
      assert_int_equal(l.use.refused, PW_BILL_REFUSED_OVERLAP);
    else
      assert_int_equal(l.use.refused, PW_BILL_ACCEPTED);
    leave(&l);
  }
}

/* Without a normal year the model stands and no year's use; a move before the first bill leaves none out. */
static void without_a_normal_year(void **state)
{
  (void)state;
  lived l;
  pw_err err = {0};
  live(&l, &gas_house, PW_FUEL_GAS, 24, 0);
  const double base = l.use.fit.base;
  assert_int_equal(ask(&l, &l.weather, NULL, l.row[0].from - 100, &err), PW_OK);
  assert_int_equal(l.use.refused, PW_BILL_ACCEPTED);
  assert_true(l.use.fitted && !l.use.has_normal && l.use.fit.base == base);
  assert_int_equal(count(&l.use, PW_BILL_MOVED), 0);
  assert_int_equal(l.use.n_used, 24);
  leave(&l);
}

static void what_is_no_number(void **state)
{
  (void)state;
  lived l;
  pw_err err = {0};
  live(&l, &gas_house, PW_FUEL_GAS, 24, 0);
  double *day = &l.weather.t[l.row[3].from + 5 - l.weather.first], kept = *day;
  *day = INFINITY;
  refused(ask(&l, &l.weather, &l.normal, PW_BILL_NO_DAY, &err), PW_E_DOMAIN, &err, "period");
  assert_true(l.use.n_period == 0 && !l.use.period); /* nothing left to free */
  *day = kept;
  l.row[3].amount = INFINITY;
  refused(ask(&l, &l.weather, &l.normal, PW_BILL_NO_DAY, &err), PW_E_DOMAIN, &err, "period");
  l.row[3].amount = 10.0;
  l.row[3].to = l.row[3].from;
  refused(ask(&l, &l.weather, &l.normal, PW_BILL_NO_DAY, &err), PW_E_DOMAIN, &err, "to");
  leave(&l);
}

/* Summer bills of 0.5 a day without any noise: 0.11 more is far beyond their scatter and over a fifth of what they say, but
 * under a tenth of the mean bill (of about 1.2): scatter, no odd bill. The last bill of winter tripled is one. */
static void little_is_not_odd(void **state)
{
  (void)state;
  lived l;
  invented h = quiet(&gas_house);
  live(&l, &h, PW_FUEL_GAS, 24, 0);
  pw_assert_near(l.use.fit.mean, 1.22, 0.05, "mean", "the house");
  for (size_t i = 0; i < l.n; i++) {
    double days = l.row[i].to - l.row[i].from;
    if (l.row[i].amount / days > 0.52) continue;
    l.row[i].amount += 0.11 * days;
    break;
  }
  again(&l, PW_FUEL_GAS);
  assert_int_equal(count(&l.use, PW_BILL_OUTLIER), 0);
  assert_int_equal(l.use.n_used, 24);
  l.row[23].amount *= 3.0;
  again(&l, PW_FUEL_GAS);
  assert_int_equal(count(&l.use, PW_BILL_OUTLIER), 1);
  assert_int_equal(find(&l.use, PW_BILL_OUTLIER)->from, l.row[23].from);
  leave(&l);
}

/* Two odd bills side by side are one misread only when the second makes good the first: not when both are too high, not when
 * the second gives back under two thirds, not when a bill between them is missing. */
static void two_odd_bills_are_no_misread(void **state)
{
  (void)state;
  static const struct {
    double more, less;
    int gap, misread;
  } row[] = {{50.0, -50.0, 0, 1}, {80.0, 40.0, 0, 0}, {50.0, -25.0, 0, 0}, {50.0, -50.0, 1, 0}};
  for (size_t k = 0; k < sizeof row / sizeof row[0]; k++) {
    lived l;
    invented h = quiet(&gas_house);
    const size_t at = 11; /* a winter: 87, 72, 59 in a month */
    live(&l, &h, PW_FUEL_GAS, 24, 0);
    l.row[at].amount += row[k].more;
    l.row[at + 1 + (size_t)row[k].gap].amount += row[k].less;
    if (row[k].gap) l.row[at + 1] = l.row[--l.n];
    again(&l, PW_FUEL_GAS);
    assert_int_equal(count(&l.use, PW_BILL_READ_ERROR), row[k].misread);
    assert_int_equal(count(&l.use, PW_BILL_OUTLIER), row[k].misread ? 0 : 2);
    leave(&l);
  }
}

/* An electric house without weather in it but for cooling, its use 1.6 times as much from a day on. */
static void change_at(lived *l, size_t n, size_t at, double times)
{
  invented h = both_house;
  h.heat = 0.0;
  h.seed = 81;
  live(l, &h, PW_FUEL_ELECTRICITY, n, 0);
  for (size_t i = at; i < n; i++)
    l->row[i].amount *= times;
}

/* Of a break: an odd bill after it is judged once more among its own; too few bills after it refuse; a change that takes away
 * under a twentieth is none. */
static void breaks_at_their_ends(void **state)
{
  (void)state;
  lived l;
  change_at(&l, 30, 14, 1.6);
  l.row[22].amount *= 2.5;
  again(&l, PW_FUEL_ELECTRICITY);
  assert_int_equal(count(&l.use, PW_BILL_OCCUPANCY), 1);
  assert_int_equal(count(&l.use, PW_BILL_OUTLIER), 1);
  assert_int_equal(find(&l.use, PW_BILL_OUTLIER)->from, l.row[22].from);
  leave(&l);
  change_at(&l, 24, 16, 1.6);
  again(&l, PW_FUEL_ELECTRICITY);
  assert_int_equal(count(&l.use, PW_BILL_OCCUPANCY), 1);
  assert_int_equal(l.use.refused, PW_BILL_REFUSED_BREAK); /* 7 bills, 9 wanted */
  leave(&l);
  invented h = quiet(&gas_house);
  live(&l, &h, PW_FUEL_GAS, 24, 0);
  for (size_t i = 12; i < 24; i++)
    l.row[i].amount *= 1.04;
  again(&l, PW_FUEL_GAS);
  assert_int_equal(count(&l.use, PW_BILL_OCCUPANCY), 0);
  assert_int_equal(l.use.refused, PW_BILL_ACCEPTED);
  leave(&l);
}

/* A house that heats below 60 C, on every day that there is: the balance point lies at the end of what was seen, and nothing
 * says where use begins. */
static void a_balance_point_at_the_edge(void **state)
{
  (void)state;
  lived l;
  invented h = quiet(&gas_house);
  h.t_heat = 60.0;
  h.heat = 0.05;
  live(&l, &h, PW_FUEL_GAS, 24, 0);
  assert_int_equal(l.use.fit.model, PW_CHANGE_BASE);
  assert_true(l.use.tried[PW_CHANGE_H].doubt & PW_CHANGE_EDGE);
  const pw_bill_finding *f = find(&l.use, PW_BILL_EDGE);
  assert_non_null(f);
  pw_assert_near(f->value, 0.0, 0.0, "which", "heating");
  assert_int_equal(l.use.refused, PW_BILL_REFUSED_EDGE);
  leave(&l);
  /* Of use that hardly hangs on the weather it is said, and the base stands: BIC is better by under 10. */
  h.heat = 0.002;
  h.noise = 0.08;
  h.seed = 1;
  live(&l, &h, PW_FUEL_GAS, 24, 0);
  assert_int_equal(l.use.fit.model, PW_CHANGE_BASE);
  assert_non_null(find(&l.use, PW_BILL_EDGE));
  assert_in_range((uint64_t)(100.0 * (l.use.fit.bic - l.use.tried[PW_CHANGE_H].bic)), 0, 1000);
  assert_int_equal(l.use.refused, PW_BILL_ACCEPTED);
  leave(&l);
  /* Cooling above -40 C, on every day. */
  h = quiet(&both_house);
  h.heat = 0.0;
  h.t_cool = -40.0;
  h.cool = 0.1;
  live(&l, &h, PW_FUEL_ELECTRICITY, 12, 0);
  assert_non_null(find(&l.use, PW_BILL_EDGE));
  pw_assert_near(find(&l.use, PW_BILL_EDGE)->value, 1.0, 0.0, "which", "cooling");
  assert_int_equal(l.use.refused, PW_BILL_REFUSED_EDGE);
  leave(&l);
}

/* Where it never is cold, no winter need be seen: under 100 K d below 16 C in the year. Bills of summers alone of a house that
 * cools in a place with winters: the winter was not seen and is not claimed either, so it is only said. */
static void seasons_that_are_not_claimed(void **state)
{
  (void)state;
  lived l;
  invented h = both_house;
  h.heat = 0.0;
  h.t_mean = 27.0;
  h.t_swing = 4.0;
  live(&l, &h, PW_FUEL_ELECTRICITY, 24, 0);
  assert_int_equal(l.use.fit.model, PW_CHANGE_C);
  assert_int_equal(count(&l.use, PW_BILL_SEASON), 0);
  assert_int_equal(l.use.refused, PW_BILL_ACCEPTED);
  leave(&l);
  h = both_house;
  h.heat = 0.0;
  live(&l, &h, PW_FUEL_ELECTRICITY, 30, 0);
  size_t n = 0;
  for (size_t i = 0; i < l.n; i++) {
    int day = (l.row[i].from - 18628) % 365; /* since 1 January 2021 */
    if (day > 120 && day < 250) l.row[n++] = l.row[i];
  }
  l.n = n;
  assert_true(n >= 9);
  again(&l, PW_FUEL_ELECTRICITY);
  assert_int_equal(l.use.fit.model, PW_CHANGE_C);
  assert_int_equal(count(&l.use, PW_BILL_SEASON), 1);
  pw_assert_near(find(&l.use, PW_BILL_SEASON)->value, 0.0, 0.0, "which", "winter");
  assert_int_equal(l.use.refused, PW_BILL_ACCEPTED);
  leave(&l);
}

/* ---------------------------------------------------------------- after work */

typedef struct worked {
  lived l; /* 34 bills; the work lies in the 18th */
  pw_work work;
  pw_after after;
} worked;

static void work_begin(worked *w, const invented *h)
{
  invented less = *h;
  pw_bill_row later[34];
  less.heat *= 0.7;
  live(&w->l, h, PW_FUEL_OIL, 34, 0);
  invent_bills(&less, &w->l.weather, later, 34, 0);
  for (size_t i = 17; i < 34; i++)
    w->l.row[i] = later[i];
  w->work.from = w->work.to = w->l.row[17].from + 12;
  w->after = (pw_after){.n_work = 0};
}

static pw_status judge(worked *w, const pw_daily *weather, const pw_normal_set *normal,
                       pw_err *err)
{
  pw_after_free(&w->after);
  return pw_after_of(PW_FUEL_OIL, w->l.row, w->l.n, weather, normal, &w->work, PW_BILL_NO_DAY,
                     &w->after, err);
}

static void work_end(worked *w)
{
  pw_after_free(&w->after);
  leave(&w->l);
}

/* Deliveries without a first day count from the one before: what was saved is the same to the last digit. The very first of
 * all has no day it counts from, before the work or, when it is the only side, after it. */
static void deliveries_before_and_after(void **state)
{
  (void)state;
  worked w;
  pw_err err = {0};
  work_begin(&w, &gas_house);
  assert_int_equal(judge(&w, &w.l.weather, &w.l.normal, &err), PW_OK);
  assert_int_equal(w.after.refused, PW_AFTER_ACCEPTED);
  const double saving = w.after.saving;
  for (size_t i = 1; i < w.l.n; i++)
    w.l.row[i].from = PW_BILL_NO_DAY;
  assert_int_equal(judge(&w, &w.l.weather, &w.l.normal, &err), PW_OK);
  assert_true(w.after.saving == saving && w.after.n_work == 1);
  w.l.row[0].from = PW_BILL_NO_DAY;
  w.work.from = w.work.to = w.l.row[0].to - 10;
  assert_int_equal(judge(&w, &w.l.weather, &w.l.normal, &err), PW_OK);
  assert_int_equal(w.after.n_work, 1); /* it may hold the work */
  assert_int_equal(w.after.before.n_period, 0);
  assert_int_equal(w.after.refused, PW_AFTER_BEFORE);
  work_end(&w);
}

/* One side alone: all before the work, all after it, no bill, one bill. */
static void one_side_alone(void **state)
{
  (void)state;
  worked w;
  pw_err err = {0};
  work_begin(&w, &gas_house);
  const size_t all = w.l.n;
  w.work.from = w.work.to = w.l.row[33].to + 5;
  assert_int_equal(judge(&w, &w.l.weather, &w.l.normal, &err), PW_OK);
  assert_int_equal(w.after.refused, PW_AFTER_NONE);
  assert_int_equal(w.after.n_work, 0);
  w.work.from = w.work.to = w.l.row[0].from - 5;
  assert_int_equal(judge(&w, &w.l.weather, &w.l.normal, &err), PW_OK);
  assert_int_equal(w.after.refused, PW_AFTER_BEFORE);
  assert_int_equal(w.after.before.refused, PW_BILL_REFUSED_FEW);
  assert_int_equal(w.after.after.n_period, all);
  for (w.l.n = 0; w.l.n < 2; w.l.n++) {
    assert_int_equal(judge(&w, &w.l.weather, &w.l.normal, &err), PW_OK);
    assert_int_equal(w.after.refused, w.l.n ? PW_AFTER_BEFORE : PW_AFTER_NONE);
  }
  work_end(&w);
}

/* Without weather there is no model; without a normal year what was avoided so far is told, and no year's saving. */
static void without_weather_or_year(void **state)
{
  (void)state;
  worked w;
  pw_err err = {0};
  work_begin(&w, &gas_house);
  assert_int_equal(judge(&w, NULL, &w.l.normal, &err), PW_OK);
  assert_int_equal(w.after.refused, PW_AFTER_BEFORE);
  assert_int_equal(w.after.before.refused, PW_BILL_REFUSED_WEATHER);
  assert_true(w.after.so_far.n == 0 && !w.after.as_before);
  assert_int_equal(judge(&w, &w.l.weather, NULL, &err), PW_OK);
  assert_int_equal(w.after.refused, PW_AFTER_NORMAL);
  assert_true(w.after.so_far.n == 16 && w.after.so_far.avoided > 0.0 && w.after.saving == 0.0);
  work_end(&w);
}

/* An odd bill after the work is not of what was avoided so far, though what it should have been is told. A bill without days on
 * either side of the work is refused, and nothing is left to free. */
static void an_odd_bill_after_the_work(void **state)
{
  (void)state;
  worked w;
  pw_err err = {0};
  work_begin(&w, &gas_house);
  w.l.row[25].amount *= 4.0;
  assert_int_equal(judge(&w, &w.l.weather, &w.l.normal, &err), PW_OK);
  assert_int_equal(count(&w.after.after, PW_BILL_OUTLIER), 1);
  assert_int_equal(w.after.so_far.n, 15);
  for (size_t i = 0; i < w.after.after.n_period; i++)
    assert_true(isfinite(w.after.as_before[i]));
  for (size_t at = 3; at < 34; at += 25) {
    pw_bill_row kept = w.l.row[at];
    w.l.row[at].from = kept.to;
    refused(judge(&w, &w.l.weather, &w.l.normal, &err), PW_E_DOMAIN, &err, "to");
    assert_true(!w.after.before.period && !w.after.after.period && !w.after.as_before);
    w.l.row[at] = kept;
  }
  work_end(&w);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(one_long_bill),
      cmocka_unit_test(what_the_same_bill_is),
      cmocka_unit_test(without_a_normal_year),
      cmocka_unit_test(what_is_no_number),
      cmocka_unit_test(little_is_not_odd),
      cmocka_unit_test(two_odd_bills_are_no_misread),
      cmocka_unit_test(breaks_at_their_ends),
      cmocka_unit_test(a_balance_point_at_the_edge),
      cmocka_unit_test(seasons_that_are_not_claimed),
      cmocka_unit_test(deliveries_before_and_after),
      cmocka_unit_test(one_side_alone),
      cmocka_unit_test(without_weather_or_year),
      cmocka_unit_test(an_odd_bill_after_the_work),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
