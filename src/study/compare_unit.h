/* Mulled units of a comparison, each as one window: the sum of its openings (mulled.h). */
#ifndef STUDY_COMPARE_UNIT_H
#define STUDY_COMPARE_UNIT_H

#include "study/compare.h"

/* A unit as one window. */
typedef struct pw_mulled_figures {
  size_t n_opening;
  double area;        /* m2 */
  double mullion;     /* m2 of it */
  double u, shgc, vt; /* over the area */
  int bay;            /* 1: its lights face different ways */
} pw_mulled_figures;

/* package below 0: the windows there now. Nothing (n_opening 0) for a name that no opening has. */
pw_mulled_figures pw_mulled_of(const pw_compare *compare, int package, const char *unit);

#endif
