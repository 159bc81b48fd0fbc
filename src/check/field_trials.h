/* Published trials of windows in houses, each a job folder, with what was measured there: field/trials.csv of the folder of
 * open data, one row a measured value, and field/TRIAL beside it (field/README.md). */
#ifndef CHECK_FIELD_TRIALS_H
#define CHECK_FIELD_TRIALS_H

#include "check/check.h"
#include "job/csv.h"

enum { PW_FIELD_VALUES_MAX = 400 };

typedef enum pw_field_what {
  PW_FIELD_HEATING_SAVED = 0, /* energy bought for heating, of a normal year */
  PW_FIELD_COOLING_SAVED,
  PW_FIELD_ENERGY_SAVED, /* both */
  PW_FIELD_HEATING_USED, /* with the windows there before */
  PW_FIELD_COOLING_USED,
  PW_FIELD_ENERGY_USED,
  PW_FIELD_AIR_SAVED, /* share of the house's leakage, as a blower door has it */
  PW_FIELD_WHATS
} pw_field_what;

typedef enum pw_field_kind {
  PW_FIELD_LAB = 0,   /* matched or instrumented lab houses */
  PW_FIELD_MONITORED, /* homes that people live in */
  PW_FIELD_BILLS,     /* regressions of bills, surveys of bills */
  PW_FIELD_KINDS
} pw_field_kind;

typedef struct pw_field_value {
  char trial[40], package[48]; /* the job's folder; "" for its first package */
  pw_field_kind kind;
  int whole_house; /* 1: a programme or survey of whole houses, else of windows alone */
  pw_field_what what;
  int month_from,
      month_to; /* of the year, 1 to 12, both counted, over the turn of the year, too: when it was measured */
  int share;               /* 1: value, low and high are shares, else kWh a year */
  double value, low, high; /* measured, and its spread */
  double other_kwh;        /* in those months, on the same meter beside heating and cooling */
  double
      glass_spread; /* standard deviation of the windows' area, a share; 0 where it is told */
  const char *place, *source, *how_known; /* of the file held in pw_field_trials */
  int line;
} pw_field_value;

typedef struct pw_field_trials {
  pw_csv csv;
  pw_field_value *value; /* owned; by trial, package and what, whatever the order of the file */
  size_t n;
} pw_field_trials;

/* Reads DATA/field/trials.csv. Status PW_OK; PW_E_MISSING; PW_E_DATA file, line, column, found, accepted: a word, a
 * number, a spread that does not hold its value, a value from memory without a spread, a measured value that stands
 * twice, a trial of two kinds; PW_E_NOMEM. On failure *trials owns nothing. */
pw_status pw_field_read(const pw_check_sink *sink, pw_field_trials *trials, pw_err *err);
void pw_field_free(pw_field_trials *trials);

/* Facts of a job by how they are known: each row of its job.csv, openings.csv and packages.csv says so where its note
 * begins. */
typedef struct pw_field_facts {
  size_t report, memory, assumed;
} pw_field_facts;

/* Adds those of the job in dir. Status as pw_csv_read; PW_E_DATA a row whose note says nothing of it. */
pw_status pw_field_count_facts(const char *dir, pw_field_facts *facts, pw_err *err);

extern const char *const pw_field_kind_text[PW_FIELD_KINDS];
extern const char *const pw_field_what_text[PW_FIELD_WHATS];

#endif
