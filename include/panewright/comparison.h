/* The windows that are there beside the packages on offer, over a year: the figures of the command's `compare`, a set of windows
 * at a time. */
#ifndef PANEWRIGHT_COMPARISON_H
#define PANEWRIGHT_COMPARISON_H

#include <stddef.h>

#include "panewright/status.h"
#include "panewright/survey.h"
#include "panewright/weather.h"

typedef struct pw_comparison pw_comparison; /* one thread at a time */

/* One set of windows for the whole house; areas, U, SHGC and VT over all openings by quantity. A figure that a set has not is
 * PW_NOT_GIVEN. */
typedef struct pw_compared {
  const char
      *name; /* "existing", "code minimum" or the package's; lives as long as the comparison */
  double area, glass_area;         /* m2 */
  double u, shgc, vt;              /* W/(m2 K), 1, 1 */
  double heating_kwh, cooling_kwh; /* useful heat and cold of a year */
  double bill;                     /* $ a year of heating and cooling */
  double saved; /* $ a year against existing, held to the bill that the job gives */
  double price; /* $ installed */
} pw_compared;

/* Given     job (must outlive *comparison; without frame lines the built-in ones are taken), weather of its place
 * Returned  *comparison, to be freed by pw_comparison_free; NULL on failure
 * Status    PW_OK; PW_E_SHAPE no opening or package, or too many; PW_E_DOMAIN a value out of range; PW_E_DATA an unknown name;
 *           PW_E_NOMEM. The message names the opening or the package.
 * Notes     Detailed balance hour by hour, flat prices, no rebate; the code minimum of a zone by its degree days.
 */
pw_status pw_comparison_new(const pw_job *job, const pw_weather *weather,
                            pw_comparison **comparison, pw_err *err);
void pw_comparison_free(pw_comparison *comparison);

/* Sets: 0 existing, 1 the windows that just meet the model code, then the packages. */
size_t pw_comparison_count(const pw_comparison *comparison);
pw_status pw_comparison_get(const pw_comparison *comparison, size_t set, pw_compared *compared,
                            pw_err *err);

#endif
