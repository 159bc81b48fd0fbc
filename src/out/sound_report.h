/* Everything that is said about the sound of one glass build-up or of one measured curve, and its
 * printing: text, CSV, JSON, picture. */
#ifndef OUT_SOUND_REPORT_H
#define OUT_SOUND_REPORT_H

#include <jansson.h>
#include <stdio.h>

#include "sound/single_number.h"

enum { PW_SOUND_SETS = 3, PW_SOUND_NOTES = 10 };

typedef struct pw_sound_curve {
  const char *name;
  pw_thirds r; /* all NAN for a curve of octaves */
  pw_single_number number;
} pw_sound_curve;

typedef struct pw_sound_report {
  char text[640]; /* the build-up said back, or the file's name */
  int measured;   /* 1: curve[0] alone, from a file */
  int octaves;    /* 1: measured in octaves */
  double octave[5];
  size_t n_curve; /* parameter sets, then one leaf by ISO 12354-1 where there is one */
  size_t lead;    /* the curve whose numbers stand first */
  pw_sound_curve curve[PW_SOUND_SETS + 1];
  double resonance[3]; /* Hz of each gap between its panes */
  size_t n_gap;
  double critical[4]; /* Hz of each pane */
  size_t n_pane;
  char note[PW_SOUND_NOTES][240];
  size_t n_note;
} pw_sound_report;

pw_status pw_sound_text(const pw_sound_report *r, FILE *f, pw_err *err);
pw_status pw_sound_csv(const pw_sound_report *r, FILE *f, pw_err *err);
pw_status pw_sound_json(const pw_sound_report *r, FILE *f, pw_err *err);

/* A picture file. Status as pw_plot_write. */
pw_status pw_sound_picture(const pw_sound_report *r, const char *path, pw_err *err);

/* Sets rw_db, c_db ... of single numbers in an object; null where a band is missing, with a key _why
 * that says which. */
void pw_sound_json_numbers(json_t *object, const pw_single_number *n);

/* "30 (-2; -3)", or "-" where Rw is not known. */
const char *pw_sound_rw_text(const pw_single_number *n, char text[32]);

#endif
