/* A tariff as a CSV file of our own, one row a price:
 *
 *   fuel,kind,months,days,from,to,upto,value,unit,note
 *
 * fuel       electricity, gas, oil, propane
 * kind       flat      one price
 *            tier      price up to `upto` of the month's whole use; blank: no end; in rising order
 *            period    price by time: months (jun-sep, all), days (all, weekday, weekend), hours
 *                      `from`..`to` (16, 21; over midnight when from > to); later rows win
 *            base      other use of the months, which lies below heating and cooling in the tiers
 *            fixed     a standing charge: left out, for it does not change with the windows
 *            standard  periods are in standard time all year (else clock time with daylight saving)
 * unit       $/kWh (when blank), $/therm, $/Mcf, $/MMBtu, $/gal; `upto` and base in its lower part
 */
#ifndef JOB_TARIFF_FILE_H
#define JOB_TARIFF_FILE_H

#include "job/notes.h"
#include "money/tariff.h"

typedef struct pw_tariff_file {
  int has[PW_FUEL_COUNT];
  pw_tariff tariff[PW_FUEL_COUNT];
} pw_tariff_file;

/* Status    PW_OK; PW_E_MISSING; PW_E_DATA file, line, column, found, wanted. On failure *file is
 *           untouched. */
pw_status pw_tariff_read(const char *path, pw_tariff_file *file, pw_notes *notes, pw_err *err);
pw_status pw_tariff_parse(const char *name, const char *text, size_t size, pw_tariff_file *file,
                          pw_notes *notes, pw_err *err);

/* What pw_rates_of_house takes: a pointer a fuel, NULL where the file has none. */
void pw_tariff_by_fuel(const pw_tariff_file *file, const pw_tariff *tariff[PW_FUEL_COUNT]);

#endif
