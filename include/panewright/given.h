/* A number with where it comes from, and how a number that nobody gave is written: one way, everywhere. */
#ifndef PANEWRIGHT_GIVEN_H
#define PANEWRIGHT_GIVEN_H

#include <math.h>

/* A number that is not given, in a double or in the value of a pw_given. pw_opening_init, pw_package_init and the like
 * set it. Where only a number above 0 makes sense (a size, an area, a price of energy), 0 says no more. */
#define PW_NOT_GIVEN ((double)NAN)
#define pw_is_given(number) (isnan(number) == 0)

/* Where a value comes from; decides its default spread and what --explain prints. */
typedef enum pw_origin {
  PW_ORIGIN_ASSUMED = 0, /* stated default */
  PW_ORIGIN_TABLE,       /* handbook or published table */
  PW_ORIGIN_STATED,      /* given in the job without further proof */
  PW_ORIGIN_MEASURED,    /* tape or instrument */
  PW_ORIGIN_LABEL,       /* certified label */
  PW_ORIGIN_COMPUTED
} pw_origin;

/* A number with its provenance. */
typedef struct pw_given {
  double value;
  double spread; /* half width of the range the user gave ("12.5 +- 0.5", "12 .. 14"); 0 none */
  pw_origin origin;
  const char *source; /* static text, or NULL */
  int line;           /* in the file it was read from, 0 none */
} pw_given;

/* Whether it says a number: a zeroed one does not, a 0 that somebody stated does. */
static inline int pw_given_is(const pw_given *given)
{
  return isfinite(given->value) && (given->value != 0.0 || given->origin != PW_ORIGIN_ASSUMED);
}

/* Its number, or that one where it says none. */
static inline double pw_given_or(const pw_given *given, double otherwise)
{
  return pw_given_is(given) ? given->value : otherwise;
}

/* The same of a number that is above 0 where it says any. */
static inline double pw_positive_or(const pw_given *given, double otherwise)
{
  return isfinite(given->value) && given->value > 0.0 ? given->value : otherwise;
}

#endif
