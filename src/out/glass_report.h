/* Everything that is said about one glass unit, and its printing: text, CSV, JSON, picture. */
#ifndef OUT_GLASS_REPORT_H
#define OUT_GLASS_REPORT_H

#include <stdio.h>

#include "glass/optics.h"
#include "out/grid.h"
#include "sound/single_number.h"

enum { PW_GLASS_NOTES = 8 };

typedef struct pw_glass_report {
  char text[640]; /* the build-up said back */
  pw_buildup buildup;
  pw_layers layers;   /* by wavelength, for the picture */
  pw_glazing glazing; /* by angle; shgc[] under the conditions of sun_env */
  pw_pol pol;
  double angle_deg; /* shgc, vt and light below are for it */
  pw_light_row light;
  double u, shgc, g_en410; /* g: normal incidence */
  int en673;               /* U, gaps and temperatures by EN 673 instead of the balance */
  int no_balance;          /* SF6: no SHGC and nothing in the sun, NAN there */
  const char *conditions;  /* winter, summer, en673, or stated */
  pw_env env;              /* of u and of now */
  pw_env sun_env;          /* of shgc and of sunny */
  pw_unit_result now, sunny;
  pw_single_number sound; /* of the build-up, set safe */
  char note[PW_GLASS_NOTES][200];
  size_t n_note;
} pw_glass_report;

pw_status pw_glass_text(const pw_glass_report *r, int si, FILE *f, pw_err *err);
pw_status pw_glass_csv(const pw_glass_report *r, FILE *f, pw_err *err);
pw_status pw_glass_json(const pw_glass_report *r, FILE *f, pw_err *err);

/* A picture file; panel "all", "spectral", "angular" or "profile". PW_E_DATA another panel; else as
 * pw_plot_write. */
pw_status pw_glass_picture(const pw_glass_report *r, const char *path, const char *panel,
                           int si, pw_err *err);

#endif
