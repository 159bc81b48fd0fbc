/* Invented houses with their bills judged, for the tests of bills. */
#ifndef TESTS_LIVED_BILLS_H
#define TESTS_LIVED_BILLS_H

#include "invented_bills.h"
#include "meter/meter_use.h"
#include "support.h"

static inline double invented_year(const invented *h, const pw_normal_set *normal)
{
  double sum = 0.0;
  for (size_t i = 0; i < normal->n; i++)
    sum += normal->weight[i] * invented_day(h, normal->t[i]);
  return sum;
}

typedef struct lived {
  pw_daily weather;
  pw_normal_set normal;
  pw_bill_row row[64];
  size_t n;
  pw_meter_use use;
} lived;

static inline void live(lived *l, const invented *h, pw_fuel fuel, size_t n, int days_each)
{
  invent_weather(h, &l->weather);
  assert_int_equal(pw_normal_set_of(&l->weather, &l->normal, NULL), PW_OK);
  invent_bills(h, &l->weather, l->row, n, days_each);
  l->n = n;
  assert_int_equal(
      pw_meter_use_of(fuel, l->row, n, &l->weather, &l->normal, PW_BILL_NO_DAY, &l->use, NULL),
      PW_OK);
}

static inline void again(lived *l, pw_fuel fuel)
{
  pw_meter_use_free(&l->use);
  assert_int_equal(pw_meter_use_of(fuel, l->row, l->n, &l->weather, &l->normal, PW_BILL_NO_DAY,
                                   &l->use, NULL),
                   PW_OK);
}

static inline void leave(lived *l)
{
  pw_meter_use_free(&l->use);
  pw_normal_set_free(&l->normal);
  pw_daily_free(&l->weather);
}

static inline const pw_bill_finding *find(const pw_meter_use *u, pw_bill_finding_kind kind)
{
  for (size_t i = 0; i < u->findings.n; i++)
    if (u->findings.finding[i].kind == kind) return &u->findings.finding[i];
  return NULL;
}

#endif
