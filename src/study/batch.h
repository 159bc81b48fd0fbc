/* One window of many: fitted, rated as it is and as the insert, and what each adds to the year of a
 * reference room. The same calls as the comparison of a job makes for an opening (compare.h), so
 * that both give the same bits. */
#ifndef STUDY_BATCH_H
#define STUDY_BATCH_H

#include "study/alone.h"
#include "study/compare.h"

/* What is asked of a window; all borrowed. */
typedef struct pw_batch_item {
  const pw_opening *opening;
  const pw_package *package;
  const pw_frame_line *line; /* of the package for the opening's operator_insert */
  const pw_glazing *existing, *insert;
  const pw_alone_place *place;
  pw_alone_desk *desk; /* of the thread; NULL: one for each call */
  int without_energy;  /* 1: the two years are left out */
} pw_batch_item;

typedef struct pw_batch_window {
  pw_compare_window window;
  double sweat_rh; /* room humidity, 0..1, at which its first part sweats */
  pw_alone alone;  /* NAN when left out */
} pw_batch_window;

typedef struct pw_batch_figures {
  pw_fit fit;
  pw_batch_window existing, insert;
  pw_alone saved;     /* existing less insert */
  pw_alone low, high; /* the same in other houses (alone.h); NAN by a screening method */
  const char
      *energy; /* how the years were lived: "detailed", "hourly (screening)", ...; "none" */
} pw_batch_figures;

/* What a row's years are asked of: kept until rows of one place are lived in side by side. */
typedef struct pw_batch_years {
  const pw_alone_place *place;
  pw_house_window window[2]; /* existing, insert; their glazings borrowed of the item */
  double area[2];            /* m2 of the opening */
} pw_batch_years;

enum { PW_BATCH_BESIDE = PW_ALONE_BESIDE / 2 };

/* Fit, rating and sweating of a row, and what its years need; figures whose energy is left out are whole.
 * Status    PW_OK; what the steps refuse. On failure *figures is undefined.
 * Notes     Sweating: at the room's temperature of alone.h and the place's design night. */
pw_status pw_batch_rate(const pw_batch_item *item, pw_batch_figures *figures,
                        pw_batch_years *years, pw_err *err);

/* The years of n rows of one place, at most PW_BATCH_BESIDE, which pw_batch_rate left. A row gives the same bits
 * alone and beside others. Status  as pw_alone_years */
pw_status pw_batch_live(const pw_batch_years *const years[], pw_batch_figures *const figures[],
                        size_t n, pw_alone_desk *desk, pw_err *err);

/* Both for one row. */
pw_status pw_batch_solve(const pw_batch_item *item, pw_batch_figures *figures, pw_err *err);

/* The year alone of a compared window (package below 0: the existing one) and of the existing window
 * of that opening. Given  place of the comparison's weather. */
pw_status pw_compare_alone(const pw_compare *compare, int package, size_t opening,
                           const pw_alone_place *place, pw_alone *alone, pw_err *err);

#endif
