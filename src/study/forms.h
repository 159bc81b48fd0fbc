/* Published forms that good models differ by: films, sky, ground. Which holds at one house is not known. */
#ifndef STUDY_FORMS_H
#define STUDY_FORMS_H

#include "study/spread.h"

/* The kinds of table model_forms. */
typedef enum pw_form_kind {
  PW_FORM_FILM_OUT = 0, /* codes: pw_film_out */
  PW_FORM_FILM_IN,      /* pw_film_in */
  PW_FORM_SKY_LIGHT,    /* pw_sky_model */
  PW_FORM_SKY_COLD,     /* pw_clear_sky */
  PW_FORM_GROUND,       /* pw_ground_form */
  PW_FORM_KINDS
} pw_form_kind;

typedef struct pw_form {
  int code;          /* in the enum of its kind; 0 is what a comparison is made by */
  const char *words; /* NULL: there is no such form */
  const char *source, *how_known;
} pw_form;

/* The form of a kind at a place, from 0, of the table's order. */
pw_form pw_form_at(pw_form_kind kind, int place);

/* Which is drawn: a choice among all of a kind, each as likely; mode is the place of code 0. */
void pw_spread_of_forms(pw_form_kind kind, pw_spread *spread);

#endif
