#include "out/calendar.h"

#include <math.h>

#include "out/tongue.h"
#include <stdio.h>

#include "panewright/weather.h"

const char *const pw_month_name[12] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                       "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
const char *const pw_side_name[8] = {"N", "NE", "E", "SE", "S", "SW", "W", "NW"};

const char *pw_side_word(double facing_deg)
{
  static const char *const word[] = {
      PW_TEXT("north"), PW_TEXT("north-east"), PW_TEXT("east"), PW_TEXT("south-east"),
      PW_TEXT("south"), PW_TEXT("south-west"), PW_TEXT("west"), PW_TEXT("north-west")};
  return word[(lround(facing_deg / 45.0) % 8 + 8) % 8];
}

void pw_show_day(int day, char text[PW_DAY_TEXT])
{
  int month = pw_month_of_day(day);
  snprintf(text, PW_DAY_TEXT, "%s %d", pw_month_name[month], day - pw_month_start[month] + 1);
}

void pw_show_hour(int hour, char text[PW_DAY_TEXT])
{
  if (hour < 0) {
    snprintf(text, PW_DAY_TEXT, "-");
    return;
  }
  char day[PW_DAY_TEXT];
  pw_show_day(hour / 24, day);
  snprintf(text, PW_DAY_TEXT, "%.8s %02d-%02dh", day, hour % 24, hour % 24 + 1);
}
