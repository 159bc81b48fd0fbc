/* Names of months, days and sides of a house, as every print has them. */
#ifndef OUT_CALENDAR_H
#define OUT_CALENDAR_H

#include <stddef.h>

extern const char *const pw_month_name[12]; /* Jan .. Dec */
extern const char *const pw_side_name[8];   /* N NE E SE S SW W NW */

/* "south-west" of a direction in degrees: the nearest of eight. */
const char *pw_side_word(double facing_deg);

enum { PW_DAY_TEXT = 24 };

/* "Jan 9" for a day 0..364 of the year. */
void pw_show_day(int day, char text[PW_DAY_TEXT]);

/* "Jan 9 06-07h" for an hour 0..8759 of the year; "-" for one below 0. */
void pw_show_hour(int hour, char text[PW_DAY_TEXT]);

#endif
