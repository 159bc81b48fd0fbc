/* From a utility's bills to periods that a regression may use: estimated reads joined, doubles dropped,
 * gaps kept as gaps, each thing that is odd named with its dates.
 *
 * Days are counted from 1970-01-01 (panewright/date.h). A bill covers the days from its first read date
 * (counted) to its last (not counted).
 */
#ifndef METER_BILL_PERIODS_H
#define METER_BILL_PERIODS_H

#include <stddef.h>

#include "panewright/status.h"
#include "panewright/survey.h"

enum { PW_BILL_NO_DAY = -1000000000 }; /* a `from` that is not known */

typedef enum pw_read_kind {
  PW_READ_ACTUAL = 0,
  PW_READ_ESTIMATED, /* its last read was a guess: only the sum up to the next read is true */
  PW_READ_MISSING,
  PW_READ_CORRECTED /* makes an earlier bill good; may be negative */
} pw_read_kind;

typedef struct pw_bill_row {
  int from, to;  /* PW_BILL_NO_DAY as from: the `to` before it (deliveries) */
  double amount; /* in one unit for all rows of a fuel; NAN not given */
  double
      generation; /* of the house's own solar cells in the period, the same unit; NAN not given */
  pw_read_kind read;
  double cost; /* $; NAN not given; not looked at */
} pw_bill_row;

typedef struct pw_bill_period {
  int from, to;
  double use;
  size_t n_row; /* bills that were joined */
} pw_bill_period;

typedef enum pw_bill_finding_kind {
  PW_BILL_JOINED = 0, /* estimated read joined up to the next actual one; count of bills */
  PW_BILL_ESTIMATE_DROPPED, /* no actual read within 70 days, or the next one is missing */
  PW_BILL_ESTIMATE_LAST,    /* the last bills are estimated: dropped */
  PW_BILL_MISSING,          /* a bill without a read */
  PW_BILL_GAP,              /* days without a bill */
  PW_BILL_OVERLAP,          /* days billed twice */
  PW_BILL_DOUBLE,           /* the same bill again: taken once */
  PW_BILL_SHORT,            /* under 10 days: joined to its neighbour */
  PW_BILL_ZERO,             /* value 1 when it was left out */
  PW_BILL_CORRECTED,        /* negative: makes good the bills before, joined with them */
  PW_BILL_SOLAR,            /* electricity below 0: what a solar meter sends back */
  PW_BILL_FIRST,            /* no day it counts from: left out */
  PW_BILL_OLD,              /* more than 36 months before the last: left out; count of bills */
  PW_BILL_WEATHER, /* under 90 % of its days have weather: left out; value is the share */
  PW_BILL_OUTLIER, /* left out; value is its use over what the other bills say */
  PW_BILL_READ_ERROR, /* a misread that the next read made good: both bills left out; value by how much */
  PW_BILL_OCCUPANCY, /* the house is another from here: value is F; the bill holds the change */
  PW_BILL_MOVED,     /* bills before the date given: left out; count of bills */
  PW_BILL_SEASON,    /* value 0 no winter seen, 1 no summer */
  PW_BILL_SCARCE,    /* no 12 months in a row with one missing at most; count of bills */
  PW_BILL_EDGE,  /* a term whose balance point lies at the edge; value 0 heating, 1 cooling */
  PW_BILL_SPLIT, /* one electric meter does not tell heating from cooling */
  PW_BILL_LAST_DAY, /* most end a day before the next begins: `to` may be the last day; count */
  PW_BILL_FINDING_COUNT
} pw_bill_finding_kind;

typedef struct pw_bill_finding {
  pw_bill_finding_kind kind;
  int from, to;
  size_t count;
  double value;
} pw_bill_finding;

enum { PW_BILL_FINDINGS_MAX = 160, PW_BILL_PERIODS_MAX = 400 };

typedef struct pw_bill_findings {
  size_t n, lost; /* lost: more than there is room for */
  pw_bill_finding finding[PW_BILL_FINDINGS_MAX];
} pw_bill_findings;

void pw_bill_find(pw_bill_findings *findings, pw_bill_finding_kind kind, int from, int to,
                  size_t count, double value);

/* Why bills cannot be used. */
typedef enum pw_bill_refusal {
  PW_BILL_ACCEPTED = 0,
  PW_BILL_REFUSED_OVERLAP,
  PW_BILL_REFUSED_SOLAR,
  PW_BILL_REFUSED_FEW,     /* fewer than 9 monthly or 6 longer bills, or under 6 months */
  PW_BILL_REFUSED_WEATHER, /* the weather given is not that of the bills */
  PW_BILL_REFUSED_BREAK,   /* a change in the house leaves too few bills after it */
  PW_BILL_REFUSED_SEASON,  /* no season of the use that is claimed was seen */
  PW_BILL_REFUSED_EDGE,    /* the weather term that fits has its balance point at the edge */
  PW_BILL_REFUSED_SCATTER, /* CV(RMSE) above 25 % */
  PW_BILL_REFUSAL_COUNT
} pw_bill_refusal;

/* Makes periods of one fuel's bills.
 *
 * Given     row[n] in any order
 * Returned  period[*n_period] in order of time, at most PW_BILL_PERIODS_MAX; *refused; findings
 *           are added
 * Status    PW_OK; PW_E_SHAPE more than PW_BILL_PERIODS_MAX rows; PW_E_DOMAIN a bill that does not end
 *           after it begins; PW_E_NOMEM
 * Source    reference/meter/METHODS.md section 1; limits of reference/meter/limits.csv.
 */
pw_status pw_bill_periods_of(const pw_bill_row row[], size_t n, pw_fuel fuel,
                             pw_bill_period period[], size_t *n_period,
                             pw_bill_refusal *refused, pw_bill_findings *findings, pw_err *err);

#endif
