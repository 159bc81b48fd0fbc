/* panewright: what a window, a house and a package are, and what becomes of them: rated, lived in for a year, billed, compared.
 *
 * Every call takes structs and gives a pw_status; with PW_OK the results are set, else err->text is one line that says what was
 * found and what is wanted. A struct begins with its pw_..._init; a number that is not known is PW_NOT_GIVEN. SI throughout; Inch
 * and foot are PW_INCH and PW_FOOT. Nothing is printed, read or written, nothing hangs on the locale, the environment, the
 * working folder or the clock, nothing is kept between calls. A host with several threads turns GSL's error handler off once
 * (gsl_set_error_handler_off): GSL has one for all of them. Examples: examples/c. Figures are computed, no certified rating.
 */
#ifndef PANEWRIGHT_H
#define PANEWRIGHT_H

#include <math.h>
#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

#include "panewright/bill.h"
#include "panewright/comparison.h"
#include "panewright/house_facts.h"
#include "panewright/place.h"
#include "panewright/rating.h"
#include "panewright/units.h"
#include "panewright/version.h"
#include "panewright/year.h"

#ifdef __cplusplus
}
#endif

#endif
