/* Lengths as a tape is read, exact to 1/64 in.
 *
 *   35 1/2   35-1/2"   35.5 in   35½   1/2   4'-2 3/8"   4' 2 3/8   4 ft 2 in   902 mm   90.2 cm   0.9 m
 *
 * A number without a unit is in inches. Fractions are halves to sixty-fourths.
 */
#ifndef JOB_MEASURE_H
#define JOB_MEASURE_H

#include <stddef.h>

#include "panewright/status.h"

/* Given     text      one cell; blanks around it do not matter
 * Returned  *length   m, never below 0; a reading in inches is (n / 64) * 0.0254 to the last bit
 * Status    PW_OK; PW_E_DATA err->text says what was found and what is accepted. On failure
 *           *length is untouched.
 */
pw_status pw_measure_read(const char *text, double *length, pw_err *err);

/* The length in inches to the nearest 1/64 with its mark, such as 35 1/2", that reads back as the
 * same double when it was read from a tape. */
void pw_measure_text(double length, char text[], size_t size);

/* The forms that are accepted, for messages. */
extern const char pw_measure_forms[];

#endif
