/* What each house of a street saves, and all together. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "out/clip.h"
#include "out/plot.h"
#include "out/range_out.h"
#include "out/street_out.h"

typedef struct house {
  char name[48];
  pw_band saved;
} house;

typedef struct gathering {
  const char *package;
  house *house; /* owned */
  size_t n, room;
} gathering;

/* The end of a path says which house it is. */
static void name_of(const json_t *record, char name[48])
{
  const char *job = pw_street_word(record, "job"), *slash = strrchr(job, '/');
  const char *dwelling = pw_street_word(record, "dwelling");
  snprintf(name, 48, "%.26s%s%.12s", pw_clip(slash && slash[1] ? slash + 1 : job, 26).text,
           dwelling[0] ? " " : "", pw_clip(dwelling, 12).text);
}

static pw_status gather(void *context, json_t *record, json_t *draws, pw_err *err)
{
  gathering *g = context;
  const json_t *packages = json_object_get(record, "packages");
  for (size_t p = 0; draws && p < json_array_size(packages); p++) {
    const json_t *set = json_array_get(packages, p);
    if (strcmp(pw_street_word(set, "package"), g->package) != 0) continue;
    if (g->n == g->room) {
      size_t room = g->room ? 2 * g->room : 64;
      house *bigger = realloc(g->house, room * sizeof *bigger);
      if (!bigger) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the picture");
      g->house = bigger;
      g->room = room;
    }
    house *h = &g->house[g->n++];
    name_of(record, h->name);
    h->saved = pw_street_band(set, PW_RESULT_SAVING);
  }
  return PW_OK;
}

static int by_saving(const void *a, const void *b)
{
  const house *x = a, *y = b;
  if (x->saved.p50 != y->saved.p50) return x->saved.p50 > y->saved.p50 ? 1 : -1;
  return strcmp(x->name, y->name);
}

static const pw_street_package *chosen(const pw_street_total *t, const char *name)
{
  const pw_street_package *best = NULL;
  for (size_t p = 0; p < t->n_package; p++) {
    const pw_street_package *here = &t->package[p];
    if (name ? strcmp(here->name, name) == 0
             : !best || here->sum[0].n_house > best->sum[0].n_house)
      best = here;
  }
  return best;
}

static void put_together(pw_plot *plot, const pw_street_package *p)
{
  const pw_street_sum *s = &p->sum[1 + PW_STREET_SAVING];
  const pw_band *b = &p->band[1 + PW_STREET_SAVING];
  /* The width that houses which share nothing would leave, in the proportion of the standard deviations. */
  double share = b->sd > 0.0 ? sqrt(s->variance_alone) / b->sd : 0.0;
  pw_plot_block(plot, "T");
  pw_plot_row(plot, "sfff", "the street", b->p10, b->p50, b->p90);
  pw_plot_row(plot, "sfff", "were nothing shared", b->p50 - share * (b->p50 - b->p10), b->p50,
              b->p50 + share * (b->p90 - b->p50));
  pw_plot_row(plot, "sfff", "low to low, high to high", s->low, b->p50, s->high);
  pw_plot_end_block(plot);
}

pw_status pw_street_picture(const pw_street *street, const pw_street_total *total,
                            const char *package, const char *path, pw_err *err)
{
  const pw_street_package *p = chosen(total, package);
  if (!p)
    return pw_fail(err, PW_E_DATA, "plot", "no house that could be drawn%s%.60s",
                   package ? " has package " : "", package ? package : "");
  gathering g = {.package = p->name};
  pw_status status = pw_street_each(street, gather, &g, err);
  if (status != PW_OK) {
    free(g.house);
    return status;
  }
  qsort(g.house, g.n, sizeof *g.house, by_saving);
  const pw_band *b = &p->band[1 + PW_STREET_SAVING];
  char title[160], together[200];
  snprintf(title, sizeof title, "What %.30s saves in each of %zu houses",
           pw_clip(p->name, 30).text, g.n);
  snprintf(together, sizeof together, "All together: %s a year, %s to %s",
           pw_dollars_of(b->p50).text, pw_dollars_of(b->p10).text, pw_dollars_of(b->p90).text);
  size_t shown = g.n < 12 ? 12 : g.n > 60 ? 60 : g.n;
  int height = 330 + 18 * (int)shown;
  pw_plot *plot = pw_plot_new("plots/street.gp");
  pw_plot_text(plot, "title", title);
  pw_plot_text(plot, "together", together);
  pw_plot_number(plot, "n", (double)g.n);
  pw_plot_number(plot, "left", 26.0);
  pw_plot_number(plot, "cut", 240.0 / height + 0.02);
  pw_plot_number(plot, "gap", 110.0 / height);
  pw_plot_number(plot, "foot", 62.0 / height);
  pw_plot_block(plot, "D");
  for (size_t i = 0; i < g.n; i++)
    pw_plot_row(plot, "sfff", g.house[i].name, g.house[i].saved.p10, g.house[i].saved.p50,
                g.house[i].saved.p90);
  pw_plot_end_block(plot);
  put_together(plot, p);
  status = pw_plot_write(plot, path, 900, height, err);
  pw_plot_free(plot);
  free(g.house);
  return status;
}
