/* Rows of windows in a batch: read and rated one by one, lived in side by side where rows share their place, printed in
 * the order of the input. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "cli/batch_run.h"

enum { POOL = 32 }; /* rows that wait for others of their place */

/* A row that was rated. */
typedef struct pending {
  long number;
  char *id; /* owned */
  double away_km;
  pw_batch_figures figures;
  pw_batch_years years;
  int lived;
  pw_err err; /* code PW_OK: it is printed, else rejected */
} pending;

typedef struct windows {
  pw_batch_hand *hand;
  size_t n;
  pending row[POOL];
} windows;

static void reject(batch_chunk *s, long number, const pw_err *err, const char *id)
{
  pw_reject_print(&s->rejects, number, err->column, id, err->text);
  if (s->rejected++ > 0) return;
  char why[201];
  pw_text_keep(err->text, why, sizeof why);
  pw_text_clean(why); /* it quotes the row */
  snprintf(s->first_reason, sizeof s->first_reason, "line %ld: %s", number, why);
}

/* Lives in the row and in those after it of the same place, as many as fit side by side. */
static void live_from(windows *w, size_t first, pw_alone_desk *desk)
{
  pending *row[PW_BATCH_BESIDE];
  const pw_batch_years *years[PW_BATCH_BESIDE];
  pw_batch_figures *figures[PW_BATCH_BESIDE];
  size_t n = 0;
  for (size_t i = first; i < w->n && n < PW_BATCH_BESIDE; i++) {
    pending *p = &w->row[i];
    if (p->lived || p->years.place != w->row[first].years.place) continue;
    row[n] = p;
    years[n] = &p->years;
    figures[n++] = &p->figures;
    p->lived = 1;
  }
  if (pw_batch_live(years, figures, n, desk, NULL) == PW_OK) return;
  for (size_t i = 0; i < n; i++) /* which of them it was, each tells by itself */
    pw_batch_live(&years[i], &figures[i], 1, desk, &row[i]->err);
}

/* One row that was lived in: printed, rejected, or the end of the run. */
static void settle(batch_chunk *s, const pending *p)
{
  if (p->err.code == PW_OK)
    pw_batch_print(&s->out, p->id, p->away_km, &p->figures);
  else if (p->err.code == PW_E_NOMEM) /* no fault of the row: the run ends, to be resumed */
    s->failed = p->err;
  else
    reject(s, p->number, &p->err, p->id);
}

/* What waits, in its order, up to a row that the run must end at. */
static void let_go(windows *w, batch_chunk *s)
{
  for (size_t i = 0; i < w->n; i++)
    if (!w->row[i].lived) live_from(w, i, pw_batch_desk(w->hand));
  for (size_t i = 0; i < w->n; i++) {
    if (s->failed.code == PW_OK) settle(s, &w->row[i]);
    free(w->row[i].id);
  }
  w->n = 0;
  pw_batch_hold(w->hand, 0);
}

/* Reads and rates a line; its years wait. */
static void take(windows *w, batch_chunk *s, const char *line, size_t size, long number)
{
  pending *p = &w->row[w->n++];
  pw_batch_item item;
  const char *id = "";
  p->number = number;
  p->err = (pw_err){.code = PW_OK};
  s->rows++;
  pw_status status =
      pw_batch_read(w->hand, line, size, number, &item, &id, &p->away_km, &p->err);
  pw_batch_hold(w->hand, 1);
  s->windows1252 += (uint64_t)pw_batch_was_windows1252(w->hand);
  if (status == PW_OK) status = pw_batch_rate(&item, &p->figures, &p->years, &p->err);
  p->lived = status != PW_OK || item.without_energy;
  p->id = strdup(id);
  if (!p->id) {
    pw_fail(&p->err, PW_E_NOMEM, NULL, "no memory for the name of a row");
    p->lived = 1;
  }
}

/* Every line of a chunk. Quick methods have nothing to live in side by side. */
static void work_chunk(void *of_worker, batch_chunk *s)
{
  windows *w = of_worker;
  const size_t pool = pw_batch_desk(w->hand) ? POOL : 1;
  long number = (long)s->line;
  for (size_t at = 0; at < s->n && s->failed.code == PW_OK; number++) {
    const char *end = memchr(s->in + at, '\n', s->n - at);
    size_t length = end ? (size_t)(end - s->in) - at : s->n - at;
    if (!pw_batch_is_blank(s->in + at, length)) take(w, s, s->in + at, length, number);
    if (w->n == pool) let_go(w, s);
    at += length + 1;
  }
  let_go(w, s);
}

static void hand_free(void *hand)
{
  windows *w = hand;
  pw_batch_hand_free(w->hand);
  free(w);
}

static void *hand_new(void *context)
{
  windows *w = calloc(1, sizeof *w);
  if (w && (w->hand = pw_batch_hand_new(context))) return w;
  free(w);
  return NULL;
}

const batch_work batch_windows = {hand_new, hand_free, work_chunk, NULL};
