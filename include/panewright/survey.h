/* What a job folder holds, as the readers of job/ fill it and the kernels take it: the house, the
 * openings as measured, the packages on offer, the frame lines. Types only. */
#ifndef PANEWRIGHT_SURVEY_H
#define PANEWRIGHT_SURVEY_H

#include <stddef.h>

#include "panewright/facts.h"
#include "panewright/given.h"
#include "panewright/kinds.h"
#include "panewright/opening.h"
#include "panewright/package.h"

/* A whole job. Arrays are owned by whoever filled the struct (job/survey.h frees them). */
typedef struct pw_job {
  pw_house_facts house;
  char dwelling[PW_DWELLING_MAX]; /* which of several on one job; "" the one house, or all */
  size_t n_opening, n_package, n_frame_line, n_label, n_price;
  pw_opening *opening;
  pw_package *package;
  pw_frame_line *frame_line;
  pw_label_row *label;  /* labels.csv, NULL none */
  pw_price_row *price;  /* prices.csv, NULL none */
  char prices_name[32]; /* that file's name, for messages */
  pw_firm firm;
} pw_job;

#endif
