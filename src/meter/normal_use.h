/* Use of a normal year by a regression of bills, with its standard error; the weather that both need as
 * daily means. */
#ifndef METER_NORMAL_USE_H
#define METER_NORMAL_USE_H

#include <stddef.h>

#include "meter/change_point.h"
#include "panewright/status.h"

/* Daily means in a row. */
typedef struct pw_daily {
  int typical; /* 1: a year without a date of its own (first is 0): never paired with bills */
  int first;   /* day of t[0] since 1970-01-01 */
  size_t n;
  double *t; /* degrees C, NAN missing; owned */
} pw_daily;

void pw_daily_free(pw_daily *daily); /* NULL and a zeroed struct are fine */

/* The normal year that daily means stand for: a typical year as it is; dated days by the same day of each
 * of their years, each year as likely (degree days are made of single days, so years stay side by side).
 * 29 February is left out.
 *
 * Given     daily
 * Returned  *set
 * Status    PW_OK; PW_E_DATA days of the year without weather (says how many); PW_E_DOMAIN an infinite day; PW_E_NOMEM
 */
typedef struct pw_normal_set {
  size_t n;
  double *t, *weight;        /* n; the weights of each day of the year sum to 1; owned */
  double days;               /* 365 */
  int year_first, year_last; /* 0 of a typical year */
} pw_normal_set;
pw_status pw_normal_set_of(const pw_daily *daily, pw_normal_set *set, pw_err *err);
void pw_normal_set_free(pw_normal_set *set);

typedef struct pw_normal_use {
  double total, total_se;     /* meter's unit a year */
  double part[3], part_se[3]; /* base, heating, cooling */
  double degree_days[2];      /* K d a year below t_h, above t_c */
} pw_normal_use;

/* NAC = 365 a + b H0(t_h) + c C0(t_c), se^2 = g' cov g with g = [365, H0, C0, b n_below, -c n_above].
 *
 * Source    reference/meter/METHODS.md section 5.
 */
void pw_normal_use_of(const pw_change_fit *fit, const pw_normal_set *normal,
                      pw_normal_use *use);

#endif
