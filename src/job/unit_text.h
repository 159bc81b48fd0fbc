/* Unit words brought to one spelling: "sq. ft." and "ft^2" are ft2, "°F" and "degrees F" are f, "cents
 * per kWh" is c/kwh. */
#ifndef JOB_UNIT_TEXT_H
#define JOB_UNIT_TEXT_H

enum { JOB_UNIT_MAX = 32 };

/* Given     word  in any case, blanks in it do not matter
 * Returned  plain  lower case, without blanks, points, hyphens, brackets and degree marks */
void job_unit_plain(const char *word, char plain[JOB_UNIT_MAX]);

#endif
