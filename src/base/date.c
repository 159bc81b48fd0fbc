#include "base/date.h"
#include "base/ascii.h"

#include <stdio.h>
#include <string.h>

pw_status pw_date_read(const char *text, pw_date *date, pw_err *err)
{
  static const int days[12] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  if (!text[0]) {
    *date = 0;
    return PW_OK;
  }
  int form = strlen(text) == 10;
  for (int i = 0; form && i < 10; i++)
    form = i == 4 || i == 7 ? text[i] == '-' : pw_is_digit(text[i]);
  if (form) {
    int y =
        (text[0] - '0') * 1000 + (text[1] - '0') * 100 + (text[2] - '0') * 10 + text[3] - '0';
    int m = (text[5] - '0') * 10 + text[6] - '0', d = (text[8] - '0') * 10 + text[9] - '0';
    int leap = (y % 4 == 0 && y % 100 != 0) || y % 400 == 0;
    if (y >= 1900 && m >= 1 && m <= 12 && d >= 1 && d <= days[m - 1] + (m == 2 && leap)) {
      *date = y * 10000 + m * 100 + d;
      return PW_OK;
    }
  }
  return pw_fail(err, PW_E_DOMAIN, "date", "'%.40s' is no date, want yyyy-mm-dd", text);
}

/* Years begin in March, so that the leap day is the last: 153 days are five months from then. */
int pw_date_day(pw_date date)
{
  if (date <= 0) return 0;
  int y = date / 10000, m = date / 100 % 100, d = date % 100;
  y -= m <= 2;
  int era = y / 400, of_era = y - 400 * era;
  int of_year = (153 * (m + (m > 2 ? -3 : 9)) + 2) / 5 + d - 1;
  return era * 146097 + of_era * 365 + of_era / 4 - of_era / 100 + of_year - 719468;
}

pw_date pw_date_of_day(int day)
{
  int z = day + 719468, era = z / 146097, of_era = z - 146097 * era;
  int year = (of_era - of_era / 1460 + of_era / 36524 - of_era / 146096) / 365;
  int of_year = of_era - (365 * year + year / 4 - year / 100);
  int month = (5 * of_year + 2) / 153, d = of_year - (153 * month + 2) / 5 + 1;
  int m = month < 10 ? month + 3 : month - 9;
  return (year + 400 * era + (m <= 2)) * 10000 + m * 100 + d;
}

void pw_date_write(pw_date date, char text[11])
{
  text[0] = '\0';
  if (date > 0 && date <= 99991231)
    snprintf(text, 11, "%04d-%02d-%02d", date / 10000 % 10000, date / 100 % 100, date % 100);
}
