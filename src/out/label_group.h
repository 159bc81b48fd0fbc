/* The labels of a package one by one, each with the openings that have it. */
#ifndef OUT_LABEL_GROUP_H
#define OUT_LABEL_GROUP_H

#include "study/compare.h"
#include "window/opening_label.h"

typedef struct pw_label_group {
  pw_label_row label;
  char tags[400]; /* "B1 B2"; cut short where there are very many */
  int all;        /* 1: every opening that gets a new window has it */
} pw_label_group;

/* The next label of a package from opening *i on, which begins at 0 and is moved past its first opening.
 * Returns 0 when there is none left. */
int pw_label_group_next(const pw_compare *compare, size_t package, size_t *i,
                        pw_label_group *group);

#endif
