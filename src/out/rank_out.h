/* The search's result on a terminal, as CSV, as JSON and as a picture. */
#ifndef OUT_RANK_OUT_H
#define OUT_RANK_OUT_H

#include <stdio.h>

#include "out/units.h"
#include "study/rank.h"

typedef struct pw_rank_frame {
  const char *job;
  const pw_message *climate;      /* job/climate_of_job.h */
  const char *method, *catalogue; /* what it was made from */
  const pw_rank_catalogue *parts;
} pw_rank_frame;

pw_status pw_rank_text(const pw_rank *rank, const pw_rank_frame *frame,
                       const pw_unit_set *units, FILE *f, pw_err *err);

/* One row a build-up: first the best ("top"), then the Pareto set ("pareto"). SI. */
pw_status pw_rank_csv(const pw_rank *rank, const pw_rank_frame *frame, FILE *f, pw_err *err);
pw_status pw_rank_json(const pw_rank *rank, const pw_rank_frame *frame, FILE *f, pw_err *err);

/* The Pareto set, price against energy, coloured by light; as SVG and PNG into a folder. */
pw_status pw_rank_picture(const pw_rank *rank, const pw_rank_frame *frame, const char *dir,
                          pw_err *err);

#endif
