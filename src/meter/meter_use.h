/* What the bills of one meter say about a house: which model they bear, its use of a normal year, what is
 * odd in them, or why they cannot be used. */
#ifndef METER_METER_USE_H
#define METER_METER_USE_H

#include <stddef.h>

#include "meter/bill_periods.h"
#include "meter/change_point.h"
#include "meter/normal_use.h"

typedef enum pw_meter_place {
  PW_METER_USED = 0,
  PW_METER_OUTLIER, /* left out as one that the others do not bear */
  PW_METER_BEFORE,  /* before a change of the house, or the bill that holds it */
  PW_METER_NO_WEATHER
} pw_meter_place;

typedef struct pw_meter_period {
  pw_bill_period bill;
  double t_mean; /* of its days; NAN without weather */
  double fitted; /* a day; NAN when refused */
  pw_meter_place place;
} pw_meter_period;

typedef struct pw_meter_use {
  pw_fuel fuel;
  pw_bill_refusal refused;
  pw_bill_findings findings;
  size_t n_period;
  pw_meter_period *period; /* owned */
  size_t n_used;
  int fitted; /* 1: fit is filled, also where it is refused */
  pw_change_fit fit;
  pw_change_fit tried[4]; /* base, H, C, HC; n 0 not tried */
  int has_normal;
  pw_normal_use normal;
  double low,
      high; /* 95 % of the normal year's use: Student's t, and for a fuel that heats alone wider by
                       1.2 (12 gas bills cover 88 % without it) */
} pw_meter_use;

/* Given     fuel; row[n] of that fuel, one unit; weather of the bills' days (NULL: none, so
 *           nothing is fitted); normal (may be NULL);
 *           moved: day from which the house is as it is, PW_BILL_NO_DAY when not known
 * Returned  *use, also when the bills are refused (use->refused says why)
 * Status    PW_OK; PW_E_SHAPE, PW_E_DOMAIN as pw_bill_periods_of; PW_E_NOMEM; PW_E_CONVERGE
 * Notes     Order: periods; weather; the date given; bills that the others do not bear (at most two); a
 *           change of the house; the model; the normal year.
 * Source    reference/meter/METHODS.md sections 1 to 5.
 */
pw_status pw_meter_use_of(pw_fuel fuel, const pw_bill_row row[], size_t n,
                          const pw_daily *weather, const pw_normal_set *normal, int moved,
                          pw_meter_use *use, pw_err *err);
void pw_meter_use_free(pw_meter_use *use); /* NULL and a zeroed struct are fine */

#endif
