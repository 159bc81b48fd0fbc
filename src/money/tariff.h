/* What a fuel costs: flat, in tiers of the month, or by the hour. */
#ifndef MONEY_TARIFF_H
#define MONEY_TARIFF_H

#include <stddef.h>

#include "panewright/kinds.h"
#include "panewright/status.h"

enum { PW_TIERS_MAX = 8, PW_PERIODS_MAX = 24, PW_YEAR_HOURS = 8760 };

typedef enum pw_tariff_kind {
  PW_TARIFF_FLAT = 0,
  PW_TARIFF_TIERED,
  PW_TARIFF_TIME
} pw_tariff_kind;

typedef enum pw_days { PW_DAYS_ALL = 0, PW_DAYS_WEEKDAY, PW_DAYS_WEEKEND } pw_days;

typedef struct pw_tier {
  double upto_kwh; /* kWh a month at which it ends; INFINITY on the last */
  double price;    /* $/kWh */
} pw_tier;

typedef struct pw_period {
  unsigned months; /* bit 0 January .. bit 11 December; 0 means all */
  pw_days days;
  double from_h, to_h; /* clock hours 0..24; from > to runs over midnight; both 0: all day */
  double price;        /* $/kWh */
} pw_period;

/* What one fuel costs. Later periods win where two cover an hour; every hour must be covered. */
typedef struct pw_tariff {
  pw_tariff_kind kind;
  double flat; /* $/kWh, PW_TARIFF_FLAT */
  size_t n_tier;
  pw_tier tier[PW_TIERS_MAX];
  size_t n_period;
  pw_period period[PW_PERIODS_MAX];
  double
      base_kwh[12]; /* other use of that fuel a month, below heating and cooling in the tiers */
  int clock;        /* 1: periods are in clock time with US daylight saving; 0: standard time */
  int first_weekday; /* of 1 January: 0 Monday .. 6 Sunday */
} pw_tariff;

/* Refuses negative or missing prices, tiers out of order, hours not covered. The field of err names
 * the part. */
pw_status pw_tariff_check(const pw_tariff *tariff, pw_err *err);

/* Price of an hour of the year (0 = the hour that begins at 0:00 on 1 January, standard time).
 * For a tiered tariff the price of its first tier. NAN when no period covers it. */
double pw_tariff_hour_price(const pw_tariff *tariff, size_t hour);

/* $ of kwh on top of the month's base use, tiered tariff; month 0..11. */
double pw_tariff_tier_cost(const pw_tariff *tariff, int month, double kwh);

/* Mean price of each month over its hours. */
void pw_tariff_month_mean(const pw_tariff *tariff, double price[12]);

/* Month 0..11 of an hour of a year of 365 days. */
int pw_year_month(size_t hour);

#endif
