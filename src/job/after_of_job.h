/* What a job promised and what its bills say after the work. */
#ifndef JOB_AFTER_OF_JOB_H
#define JOB_AFTER_OF_JOB_H

#include "job/bills_file.h"
#include "job/promise_file.h"
#include "meter/after.h"

enum { PW_GROUP_MAX = 40 };

/* What is asked; NULL or PW_BILL_NO_DAY: not given. */
typedef struct pw_after_asked {
  const char *dwelling, *package, *weather, *normal,
      *group;   /* files: several with commas between */
  pw_work work; /* from PW_BILL_NO_DAY: install_date of job.csv */
  int moved;
} pw_after_asked;

typedef struct pw_after_house {
  char job[64], dir[200], package[48]; /* package "" not known */
  char normal[200];
  pw_work work;
  pw_after after[PW_FUEL_COUNT];
  pw_drift drift[PW_FUEL_COUNT];
  pw_after_net net[PW_FUEL_COUNT]; /* of accepted ones */
  size_t n_bill[PW_FUEL_COUNT];    /* 0: no bill of that fuel */
  char unit[PW_FUEL_COUNT][12];
  double unit_kwh[PW_FUEL_COUNT];
  int has_weather, promised[PW_FUEL_COUNT];
  int late_promise; /* promise.csv holds only rows said after the work began */
  pw_promise_row promise[PW_FUEL_COUNT]; /* kWh a year */
  pw_notes notes;
} pw_after_house;

/* Reads a job: bills.csv (or a feed), bills_weather.csv, promise.csv; normal year of its climate unless asked otherwise.
 *
 * Status    PW_OK; PW_E_MISSING no bills.csv; PW_E_DATA no day of the work, no such package; as the readers. On failure
 *           *house owns nothing.
 */
pw_status pw_after_of_job(const char *dir, const pw_after_asked *asked, pw_after_house *house,
                          pw_err *err);
void pw_after_house_free(pw_after_house *house); /* NULL and a zeroed struct are fine */

#endif
