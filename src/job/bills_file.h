/* bills.csv: a bill a row.
 *
 *   fuel, from, to, amount, unit, cost, read, generation, heat_factor, note
 *
 * `from` counts, `to` does not: both are read dates; a blank `from` is the `to` before it (deliveries of
 * oil and propane). `read` is actual (or blank), estimated, missing or corrected. `start`, `end`, `use`,
 * `estimated` stand for from, to, amount, read. generation: kWh of the house's own solar cells in the
 * period. heat_factor: therm in one ccf, as the bill prints it.
 */
#ifndef JOB_BILLS_FILE_H
#define JOB_BILLS_FILE_H

#include "job/notes.h"
#include "meter/bill_periods.h"

typedef struct pw_bills_fuel {
  size_t n;
  pw_bill_row *row; /* owned; amounts in unit */
  char unit[12];    /* that of the bills where all have one, else therm, kWh or gal */
  double unit_kwh;  /* kWh in it (higher heating value) */
  int solar;        /* 1: the meter also counts what flows back to the utility */
} pw_bills_fuel;

typedef struct pw_bills {
  pw_bills_fuel fuel[PW_FUEL_COUNT];
} pw_bills;

void pw_bills_free(pw_bills *bills); /* NULL and a zeroed struct are fine */

/* Reads bills.csv.
 *
 * Returned  *bills; notes of what was taken for granted
 * Status    PW_OK; PW_E_NOMEM as pw_csv_parse; PW_E_DATA with the place: no such
 *           fuel, date, unit, word, a bill that ends before it begins, an amount in money, more than
 *           PW_BILL_PERIODS_MAX bills of a fuel, bills of more than one house, no bill
 * Notes     Dates as job/date_text reads them; of 3/4/2027 the other dates of the file decide.
 */
pw_status pw_bills_parse(const char *name, const char *text, size_t size, pw_bills *bills,
                         pw_notes *notes, pw_err *err);

/* Adds a bill to a fuel. Status PW_OK; PW_E_SHAPE too many; PW_E_NOMEM. */
pw_status pw_bills_add(pw_bills_fuel *fuel, const pw_bill_row *row, pw_err *err);

/* kWh in a unit as bills keep it (therm, ccf, kWh, gal, ...), of that fuel; NAN none. */
double pw_bills_unit_kwh(pw_fuel fuel, const char *name);

#endif
