/* An invented house whose bills are known in closed form: daily use a + b max(0, t_h - T) + c max(0, T - t_c)
 * with noise, summed over the bills' days. Numbers from a generator of its own, so that every run is the same. */
#ifndef TESTS_INVENTED_BILLS_H
#define TESTS_INVENTED_BILLS_H

#include <math.h>
#include <stdint.h>
#include <stdlib.h>

#include "meter/bill_periods.h"
#include "meter/normal_use.h"

enum { INVENTED_DAYS = 1200, INVENTED_FIRST = 18600 /* 2020-12-04 */ };

typedef struct invented {
  double base, heat, t_heat, cool, t_cool,
      noise; /* noise: share of a day's use, correlated 0.5 */
  double t_mean, t_swing;
  uint64_t seed;
} invented;

static double chance(uint64_t *s) /* 0..1; xorshift64* */
{
  *s ^= *s >> 12;
  *s ^= *s << 25;
  *s ^= *s >> 27;
  return (double)((*s * 2685821657736338717ull) >> 11) / 9007199254740992.0;
}

static double normal_chance(uint64_t *s)
{
  return sqrt(-2.0 * log(chance(s) + 1e-300)) * cos(6.283185307179586 * chance(s));
}

/* Daily means with a season and weather that lasts; *daily is to be freed by pw_daily_free. */
static void invent_weather(const invented *h, pw_daily *daily)
{
  uint64_t s = h->seed * 77 + 5;
  double spell = 0.0;
  *daily = (pw_daily){0, INVENTED_FIRST, INVENTED_DAYS, malloc(INVENTED_DAYS * sizeof(double))};
  for (int i = 0; i < INVENTED_DAYS; i++) {
    spell = 0.7 * spell + 2.2 * normal_chance(&s);
    daily->t[i] = h->t_mean - h->t_swing * cos(6.283185307179586 * (i - 40) / 365.25) + spell;
  }
}

static double invented_day(const invented *h, double t)
{
  return h->base + h->heat * fmax(0.0, h->t_heat - t) + h->cool * fmax(0.0, t - h->t_cool);
}

/* n bills of 28 to 33 days (days_each > 0: of so many), from the 20th day on. */
static void invent_bills(const invented *h, const pw_daily *w, pw_bill_row row[], size_t n,
                         int days_each)
{
  uint64_t s = h->seed * 131 + 7;
  double last = 0.0;
  int day = 20;
  for (size_t i = 0; i < n; i++) {
    int days = days_each ? days_each : 28 + (int)(6.0 * chance(&s));
    double use = 0.0;
    for (int k = 0; k < days; k++) {
      last = 0.5 * last + 0.8660254 * h->noise * normal_chance(&s);
      use += invented_day(h, w->t[day + k]) * (1.0 + last);
    }
    row[i] = (pw_bill_row){w->first + day, w->first + day + days, use,
                           (double)NAN,    PW_READ_ACTUAL,        (double)NAN};
    day += days;
  }
}

static const invented gas_house = {.base = 0.5,
                                   .heat = 0.17,
                                   .t_heat = 16.0,
                                   .t_cool = 99.0,
                                   .noise = 0.1,
                                   .t_mean = 14.0,
                                   .t_swing = 10.0,
                                   .seed = 3};
static const invented both_house = {.base = 11.0,
                                    .heat = 1.2,
                                    .t_heat = 14.0,
                                    .cool = 2.4,
                                    .t_cool = 20.0,
                                    .noise = 0.1,
                                    .t_mean = 17.0,
                                    .t_swing = 11.0,
                                    .seed = 5};

#endif
