#include "out/label_group.h"

#include <stdio.h>
#include <string.h>

static int label_of(const pw_compare *c, size_t p, size_t i, pw_label_row *label)
{
  return pw_compare_replaces(c->job, i) &&
         pw_opening_label(c->job, p, &c->job->opening[i], label, NULL) == PW_OK;
}

/* One row of labels.csv, or packages.csv's with its number or, where the glass is another, without. */
static int same(const pw_label_row *a, const pw_label_row *b)
{
  return a->line == b->line && strcmp(a->certificate, b->certificate) == 0;
}

/* The openings with that label; 0 when one before i has it, so that it was told. */
static int gather(const pw_compare *c, size_t p, size_t i, pw_label_group *g)
{
  g->tags[0] = '\0';
  g->all = 1;
  for (size_t o = 0; o < c->n_opening; o++) {
    pw_label_row other;
    size_t used = strlen(g->tags);
    if (!label_of(c, p, o, &other)) continue;
    if (!same(&other, &g->label)) {
      g->all = 0;
      continue;
    }
    if (o < i) return 0;
    snprintf(g->tags + used, sizeof g->tags - used, "%s%s", used ? " " : "",
             c->job->opening[o].tag);
  }
  return 1;
}

int pw_label_group_next(const pw_compare *c, size_t p, size_t *i, pw_label_group *g)
{
  while (*i < c->n_opening) {
    size_t here = (*i)++;
    if (label_of(c, p, here, &g->label) && gather(c, p, here, g)) return 1;
  }
  return 0;
}
