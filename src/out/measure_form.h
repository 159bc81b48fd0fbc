/* The measuring form: a page to write readings on, two openings to a page, each with a drawing of where the tape lies. */
#ifndef OUT_MEASURE_FORM_H
#define OUT_MEASURE_FORM_H

#include "out/paper.h"

typedef struct pw_measure_form {
  pw_paper
      paper; /* the openings' tags, rooms, facings and kinds stand in the heads; no reading does */
  size_t
      blank; /* > 0: so many blocks without them. Boxes for feet, inches, sixteenths, or millimetres */
} pw_measure_form;

/* Writes the whole document. Status PW_OK; PW_E_IO the stream failed. */
pw_status pw_measure_form_html(const pw_measure_form *form, pw_html *h, pw_err *err);

#endif
