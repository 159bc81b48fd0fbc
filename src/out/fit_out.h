/* The fit of a job on a terminal, as CSV and JSON, and the order list. */
#ifndef OUT_FIT_OUT_H
#define OUT_FIT_OUT_H

#include <jansson.h>
#include <stdio.h>

#include "base/date.h"
#include "job/notes.h"
#include "out/length.h"
#include "panewright/fit.h"
#include "window/caution.h"
#include "window/install.h"
#include "window/order_check.h"

/* A job with everything that stands beside one package's fit. */
typedef struct pw_fit_report {
  const pw_job *job;
  size_t column;               /* the package, a row of packages.csv */
  const pw_fit *fit;           /* [job->n_opening] */
  const pw_install *install;   /* [job->n_opening] */
  const pw_order_check *check; /* [job->n_opening] */
  const pw_cautions *cautions;
  const pw_notes *notes;
} pw_fit_report;

/* Tables of at most 100 columns, inches and ft2, or mm and m2 when si. all: reminders and install
 * notes, too. PW_E_IO when writing fails. */
pw_status pw_fit_text(const pw_fit_report *r, int si, int all, FILE *f, pw_err *err);

/* The readings of the tape that cannot all be true, or that want a second look, if any: a heading and a
 * line each. fit[job->n_opening]. */
void pw_findings_text(const pw_job *job, const pw_fit fit[], FILE *f);

/* Of n dwellings of a job, here and below, under one header. A row an opening; SI with units in the header, order sizes also as the tape reads. */
pw_status pw_fit_csv(const pw_fit_report r[], size_t n, FILE *f, pw_err *err);

/* The whole as an object (new reference); of several dwellings job and the array dwellings.
 * as: units and tongue of what is said of an opening (opening_said.h); the other keys are SI and English. */
json_t *pw_fit_json(const pw_fit_report r[], size_t n, pw_reading as);

/* The order list of one package: sizes, handing, glass, quantities, tempered marks, whether the row may
 * be ordered and why not, remarks, install note. Written whole or not at all. Status PW_OK; PW_E_CREATE; PW_E_IO. */
pw_status pw_order_write(const pw_fit_report r[], size_t n, const char *path, pw_err *err);

/* The same as a text in memory (to be freed), for the maker: without install_note and without the survey's own note among
 * the remarks, which may speak of the buyer; at the end label_u_btu_h_ft2_f, label_shgc, certificate, open_tubes, design_pressure_psf, altitude_ft, plant_altitude_ft
 * ("" not given), printed and files, so that a later order can name the one it takes the place of.
 * Status also PW_E_DATA: two labels fit alike (pw_opening_label). */
typedef struct pw_order_maker {
  const char *version; /* of the job's files (job/version.h) */
  pw_date date;
} pw_order_maker;
pw_status pw_order_text(const pw_fit_report r[], size_t n, const pw_order_maker *maker,
                        char **text, size_t *size, pw_err *err);

/* The spacer as the lists call it; "" unknown. */
const char *pw_spacer_name(pw_spacer spacer);

/* The opening's package with its own options, and whether its glass is to be tempered. */
int pw_order_tempered(const pw_fit_report *r, size_t opening);

/* The reasons in one line, parted by "; "; "" when it may be ordered. */
enum { PW_ORDER_WHY = 2400 };
void pw_order_why(const pw_order_check *check, char text[], size_t size);

#endif
