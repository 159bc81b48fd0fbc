/* A number with its unit and, when given, its spread:
 *   12.5   12.5 ft2   0.14 $/kWh   $350   80 %   12.5 +- 0.5   12 .. 14   7.7 HSPF
 *   $1,380.00   2,280 sq ft   68 °F   SEER 13   USD 350   14 cents per kWh
 */
#ifndef JOB_NUMBER_H
#define JOB_NUMBER_H

#include <stddef.h>

#include "panewright/status.h"
#include "panewright/survey.h"

/* One unit word that a cell may carry, and how it turns into what is kept: factor * v + add. */
typedef struct pw_unit_word {
  const char *
      word; /* compared without case and blanks, in the spellings of unit_text; "" for none: what a bare number means */
  double factor, add;
} pw_unit_word;

/* Reads one cell.
 *
 * Given     text; unit[n_unit], the units that are accepted, the first one being assumed for a bare
 *           number; low, high of the value as kept (after conversion)
 * Returned  *given  value, spread (half width, 0 none; of "12 .. 14" value is 13 and spread 1) and,
 *                   when not NULL, *unit_index
 * Status    PW_OK; PW_E_DATA says what was found and what is accepted: not a number (nan and inf are
 *           none), an unknown unit, a spread upside down, a value out of low .. high
 */
pw_status pw_number_read(const char *text, const pw_unit_word unit[], size_t n_unit, double low,
                         double high, pw_given *given, size_t *unit_index, pw_err *err);

/* Whether the comma at s, after n_before digits, parts thousands: three digits follow, no fourth. */
int job_thousands(const char *s, size_t n_before);

/* The double nearest to a decimal, by whole numbers where it has up to 15 digits: the same as strtod has it, sooner. */
double job_decimal(const char *digits);

#endif
