#include "panewright/weather.h"
#include "base/own_math.h"

#include <math.h>

const int pw_month_days[12] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
const int pw_month_start[12] = {0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334};

int pw_month_of_day(int day)
{
  int month = day < 0 ? 0 : day < 365 ? day / 31 : 11; /* or the one before it */
  return month < 11 && day >= pw_month_start[month + 1] ? month + 1 : month;
}

double pw_standard_pressure(double elevation)
{
  return 101325.0 * pw_power(1.0 - 2.25577e-5 * elevation, 5.2559); /* ISO 2533 */
}
