/* The crew's day: a first page (the day in order, who is warned, rooms, tools, load) and a block an opening, two to a page,
 * to be read on a ladder. */
#ifndef OUT_CREW_DAY_H
#define OUT_CREW_DAY_H

#include "out/length.h"
#include "out/paper.h"
#include "window/caution.h"
#include "window/install.h"
#include "window/materials.h"
#include "window/order_check.h"

typedef struct pw_crew_day {
  pw_paper paper;
  size_t column;     /* the package, a row of packages.csv */
  const pw_fit *fit; /* [job->n_opening], as all below */
  const pw_install *install;
  const pw_order_check *check;
  const pw_cautions *cautions;
  const pw_materials_job *sum;
} pw_crew_day;

/* Writes the whole document. Status PW_OK; PW_E_IO the stream failed. */
pw_status pw_crew_day_html(const pw_crew_day *day, pw_html *h, pw_err *err);

/* The block of opening i, the number-th of those that are set. */
void pw_crew_block(const pw_crew_day *day, size_t i, size_t number, pw_html *h);

/* Whether safety glass is called for in opening i: its mark is looked for. */
int pw_crew_safety_glass(const pw_crew_day *day, size_t i);

#endif
