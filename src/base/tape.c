#include "base/tape.h"

#include <math.h>
#include <stdio.h>

#include "panewright/units.h"

double pw_tape_floor(double length, int denominator)
{
  return floor(length / PW_INCH * denominator + 1e-6) / denominator * PW_INCH;
}

void pw_tape_text(double length, int denominator, char text[], size_t size)
{
  double marks = floor(fabs(length) / PW_INCH * denominator + 0.5 +
                       1e-6); /* half a mark goes up, on any machine */
  if (!(marks < 1e9)) {
    snprintf(text, size, "-");
    return;
  }
  long n = (long)marks, whole = n / denominator, over = n % denominator, under = denominator;
  while (over && over % 2 == 0) {
    over /= 2;
    under /= 2;
  }
  const char *sign = length < 0.0 && n ? "-" : "";
  if (!over)
    snprintf(text, size, "%s%ld", sign, whole);
  else if (!whole)
    snprintf(text, size, "%s%ld/%ld", sign, over, under);
  else
    snprintf(text, size, "%s%ld %ld/%ld", sign, whole, over, under);
}
