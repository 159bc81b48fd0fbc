/* The year of a comparison by month, facade and opening: on a terminal, as CSV, JSON and pictures. */
#ifndef OUT_YEAR_OUT_H
#define OUT_YEAR_OUT_H

#include "out/compare_out.h"
#include "study/compare_year.h"

/* The package with the lowest bill, which stands beside the existing windows where none is named. */
size_t pw_year_best(const pw_compare *compare);

/* Tables of at most 100 columns; package is the one set beside the existing windows by facade and by
 * opening. PW_E_IO when writing fails. */
pw_status pw_year_text(const pw_compare *compare, const pw_compare_frame *frame, size_t package,
                       const pw_unit_set *units, FILE *f, pw_err *err);

/* A row a set, month (and year) and facade (and all of them); kWh. */
pw_status pw_year_csv(const pw_compare *compare, FILE *f, pw_err *err);

/* Every set by month, facade and opening (new reference). With hours (else NULL) also the cold and
 * the hot day hour by hour, and what each package has saved by the end of each day. */
json_t *pw_year_json(const pw_compare *compare, const pw_compare_frame *frame,
                     const pw_compare_hours *hours, const pw_weather *weather);

/* One picture as a plot, to be freed; of the existing windows and a package. */
typedef enum pw_year_picture_kind {
  PW_YEAR_PICTURE_DAYS = 0, /* the cold and the hot day hour by hour */
  PW_YEAR_PICTURE_MAP,      /* heat through the windows, a cell an hour */
  PW_YEAR_PICTURE_SAVED,    /* how the saving grows, every package */
  PW_YEAR_PICTURE_COUNT
} pw_year_picture_kind;
pw_status pw_year_picture(const pw_compare *compare, const pw_compare_hours *hours,
                          const pw_weather *weather, size_t package, const pw_unit_set *units,
                          pw_year_picture_kind kind, pw_plot **plot, pw_err *err);

/* These and heating and cooling by month into a folder, as SVG and PNG. */
pw_status pw_year_pictures(const pw_compare *compare, const pw_compare_hours *hours,
                           const pw_weather *weather, size_t package, const pw_unit_set *units,
                           const char *dir, pw_err *err);

#endif
