/* The comparison on a terminal, as CSV, as JSON and as pictures. */
#ifndef OUT_COMPARE_OUT_H
#define OUT_COMPARE_OUT_H

#include <jansson.h>
#include <stdio.h>

#include "job/notes.h"
#include "out/plot.h"
#include "out/tongue.h"
#include "out/units.h"
#include "study/alone.h"
#include "study/compare.h"
#include "study/compare_airing.h"
#include "study/compare_phases.h"
#include "study/compare_sound.h"
#include "study/compare_tight.h"
#include "study/range.h"
#include "study/rebate.h"

/* What stands around the figures. */
typedef struct pw_compare_frame {
  const pw_message *climate; /* what weather was used (job/climate_of_job.h); NULL: not told */
  const char *method;        /* "hour by hour" ... */
  const pw_notes *notes;     /* of the readers; may be NULL */
  const pw_range *range;     /* how sure the figures are; NULL: not asked */
  const pw_rebate *rebate;   /* of each package; NULL: no program given */
  const pw_compare_sound *sound;   /* NULL: not asked */
  const pw_compare_phases *phases; /* NULL: not asked */
  const pw_compare_tight *tight;   /* NULL: not asked */
  const pw_compare_airing *airing; /* NULL: not asked */
  int all;                         /* 1: print the cautions that hold for every such job, too */
  const pw_alone_place
      *alone; /* for the year of each window by itself (JSON); NULL: left out */
} pw_compare_frame;

/* Said where a house has no plant: it floats, and what that means. */
extern const char pw_no_heating[];
void pw_no_cooling(const pw_compare *compare, const pw_unit_set *units, FILE *f);

/* Whose job, by which weather and method, what its openings have of their own. */
void pw_compare_heading(const pw_compare *compare, const pw_compare_frame *frame, FILE *f);

/* Tables of at most 100 columns. PW_E_IO when writing fails. */
pw_status pw_compare_text(const pw_compare *compare, const pw_compare_frame *frame,
                          const pw_unit_set *units, FILE *f, pw_err *err);

/* One row an opening and set, SI, units in the header; of n dwellings of a job under one. */
pw_status pw_compare_csv(const pw_compare *const compare[], size_t n, FILE *f, pw_err *err);

/* The whole comparison as a JSON object (new reference). */
json_t *pw_compare_json(const pw_compare *compare, const pw_compare_frame *frame);

/* The parts of its "house": the windows there now, package p. range may be NULL. New references. */
json_t *pw_compare_existing_json(const pw_compare *compare, const pw_range *range);
json_t *pw_compare_package_json(const pw_compare *compare, const pw_range *range, size_t p);

/* One picture as a plot, to be freed; its words in that tongue (NULL: English). */
typedef enum pw_compare_picture_kind {
  PW_PICTURE_RATINGS = 0,
  PW_PICTURE_HEAT_PATH,
  PW_PICTURE_GLASS_KEPT,
  PW_PICTURE_MONTHLY,
  PW_PICTURE_SWEATING,
  PW_PICTURE_CASH, /* only when a package has a price */
  PW_PICTURE_COUNT
} pw_compare_picture_kind;
pw_status pw_compare_picture(const pw_compare *compare, const pw_unit_set *units,
                             const pw_tongue *tongue, pw_compare_picture_kind kind,
                             pw_plot **plot, pw_err *err);

/* Gives a picture the texts name0 (existing), name1.. and k, the number of packages shown (at most 4). */
void pw_compare_names(pw_plot *plot, const pw_compare *compare, const pw_tongue *tongue);

/* Every picture into a folder (made when missing), as SVG and PNG; with a range (may be NULL) also
 * what drives each package's saving. */
pw_status pw_compare_pictures(const pw_compare *compare, const pw_range *range,
                              const pw_unit_set *units, const char *dir, pw_err *err);

#endif
