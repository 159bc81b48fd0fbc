/* A house's own bills, made ready to weigh the draws of a range. */
#ifndef STUDY_RANGE_BILLS_H
#define STUDY_RANGE_BILLS_H

#include <stddef.h>

#include "meter/change_point.h"
#include "meter/condition.h"
#include "meter/meter_use.h"
#include "study/sensitivity.h"

/* One meter's bills with the weather of their own days. */
typedef struct pw_range_meter {
  size_t n;                /* 0: none that can be used */
  pw_change_data data;     /* use in kWh a day; owned */
  double (*share)[12];     /* of each bill's days, by month; owned */
  int *from, *to;          /* days of each bill; owned */
  double mean;             /* kWh a day, weighted by days */
  pw_bill_refusal refused; /* why there are none */
} pw_range_meter;

typedef struct pw_range_bills {
  pw_range_meter meter[PW_FUEL_COUNT];
  pw_daily weather; /* of all of them; owned */
} pw_range_bills;

/* Takes the bills of a fuel that its regression used; none when that refused them.
 *
 * Given     use; unit_kwh; weather  as pw_meter_use_of had it
 * Status    PW_OK; PW_E_NOMEM; PW_E_SHAPE the fuel has its bills already
 */
pw_status pw_range_bills_add(pw_range_bills *bills, const pw_meter_use *use, double unit_kwh,
                             const pw_daily *weather, pw_err *err);
void pw_range_bills_free(pw_range_bills *bills); /* NULL and a zeroed struct are fine */

/* What bills did to a range. */
typedef struct pw_range_conditioned {
  int given, used; /* bills were there; they weigh the draws */
  size_t n_bill
      [PW_FUEL_COUNT]; /* that were held against the draws; 0 for a fuel that neither heats nor cools */
  size_t n_draw; /* that were weighed: more than the range's where these left too few */
  pw_condition condition;
  pw_band before_cost,
      before_saving[8]; /* $ a year without them: existing windows, each package */
} pw_range_conditioned;

#endif
