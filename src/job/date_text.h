/* Dates as people and spreadsheets write them, and what a spreadsheet made a date of.
 *
 *   2027-02-15   2027/2/15   2/15/2027   15.2.2027   Feb 15, 2027   15-Feb-2027   15 de febrero de 2027
 */
#ifndef JOB_DATE_TEXT_H
#define JOB_DATE_TEXT_H

#include "panewright/status.h"

/* Reads a day.
 *
 * Returned  iso[11]  "yyyy-mm-dd"
 * Status    PW_OK; PW_E_DATA err->text says what was found and what is accepted: no such day, a year
 *           of two digits, a spreadsheet's day number, or a day and a month that may change places
 *           (3/4/2027: both readings are said). On failure iso is untouched.
 */
pw_status job_date_read(const char *text, char iso[11], pw_err *err);

/* Both readings of a day written with its year last and in numbers alone (3/4/2027), so that the other
 * dates of a file may say which holds; "" where there is no such day. 0 when it is not written so. */
int job_date_two_ways(const char *text, char month_first[11], char day_first[11]);

/* A cell that stands for a day of the calendar where none is wanted, such as 2-Jan for 1/2.
 *
 * Returned  *over, *under  the fraction below 1 that was turned into the day (1/2, 3/64), when the day
 *                          can only stem from one of a tape; else both 0
 * Notes     1 when the text is such a day, else 0.
 */
int job_date_turned(const char *text, int *over, int *under);

#endif
