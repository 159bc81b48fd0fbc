/* A year in a house that is written down layer by layer, by all methods: terminal, CSV, JSON. */
#ifndef OUT_HOUSE_OUT_H
#define OUT_HOUSE_OUT_H

#include <stdio.h>

#include "job/house_file.h"
#include "out/grid.h"
#include "panewright/year.h"

enum { PW_HOUSE_METHODS = 3 }; /* by pw_year_method */

typedef struct pw_house_told {
  const pw_house_file *file;
  const pw_weather *weather;
  const pw_year_result *year; /* [PW_HOUSE_METHODS] */
} pw_house_told;

/* PW_E_IO when writing fails. */
pw_status pw_house_print(const pw_house_told *told, pw_format format, int si, FILE *f,
                         pw_err *err);

#endif
