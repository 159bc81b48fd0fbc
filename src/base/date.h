/* Calendar dates as the job and the programs write them. */
#ifndef BASE_DATE_H
#define BASE_DATE_H

#include "panewright/status.h"

/* A calendar date as yyyymmdd, so that dates compare as numbers; 0 is "none". */
typedef int pw_date;

/* Reads "yyyy-mm-dd". Status PW_OK ("" gives 0); PW_E_DOMAIN no such day. */
pw_status pw_date_read(const char *text, pw_date *date, pw_err *err);

/* Days since 1970-01-01 of a date (0 gives 0), and back. Gregorian calendar, also before it began. */
int pw_date_day(pw_date date);
pw_date pw_date_of_day(int day);

/* Writes "yyyy-mm-dd" or "" into text[11]. */
void pw_date_write(pw_date date, char text[11]);

#endif
