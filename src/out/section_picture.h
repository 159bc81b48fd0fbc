/* The picture of a solved frame section: what it is made of, where heat goes, how warm it is. */
#ifndef OUT_SECTION_PICTURE_H
#define OUT_SECTION_PICTURE_H

#include "frame/conduct.h"

typedef struct pw_section_caption {
  const char *title;   /* user's text */
  const char *figures; /* one line of figures */
  double t_dew;        /* K; NAN: no dew-point line */
  const char *dew;     /* what that line stands for */
} pw_section_caption;

/* si 0: inches, F and Btu on the picture. Writes path (.svg, .png, .pdf) whole or not at all. Wants result->field. Status as pw_plot_write. */
pw_status pw_section_picture(const pw_section *section, const pw_section_result *result,
                             const pw_section_caption *caption, int si, const char *path,
                             pw_err *err);

#endif
