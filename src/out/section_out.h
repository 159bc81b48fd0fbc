/* A frame section solved: terminal, CSV, JSON. */
#ifndef OUT_SECTION_OUT_H
#define OUT_SECTION_OUT_H

#include <stdio.h>

#include "frame/conduct.h"
#include "out/grid.h"

typedef struct pw_section_told {
  const pw_section_result *result;
  double u_f, psi;        /* panel method; NAN without a panel */
  double humidity, t_dew; /* of the indoor air: %, K */
} pw_section_told;

/* PW_E_IO when writing fails. */
pw_status pw_section_print(const pw_section_told *told, pw_format format, int si, FILE *f,
                           pw_err *err);

#endif
