/* The bills of a job folder: bills.csv, and bills_weather.csv with the daily means of their own days. */
#ifndef JOB_BILLS_OF_JOB_H
#define JOB_BILLS_OF_JOB_H

#include "job/bills_file.h"
#include "study/range_bills.h"

typedef struct pw_bills_of_job {
  int found;                       /* bills.csv is there */
  pw_range_bills range;            /* what may weigh the draws; owned */
  pw_meter_use use[PW_FUEL_COUNT]; /* owned; of fuels that have bills */
} pw_bills_of_job;

/* Reads them where they are there. bills.csv may be a usage feed as well; bills_weather.csv any layout of
 * job/daily_file.h. Bills that end after install_date ("" not known) are left
 * out with a note: they are of the new windows. Without the weather the bills are refused, and the notes say what to fetch.
 *
 * Status    PW_OK, also when there are none; as pw_bills_open, pw_daily_read; a typical year as weather is
 *           refused. On failure *bills owns nothing.
 */
pw_status pw_bills_of_job_read(const char *dir, const char *install_date,
                               pw_bills_of_job *bills, pw_notes *notes, pw_err *err);
void pw_bills_of_job_free(pw_bills_of_job *bills); /* NULL and a zeroed struct are fine */

#endif
