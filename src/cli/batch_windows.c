/* Rows of windows in a batch: read, solved, printed. */
#include <stdio.h>
#include <string.h>

#include "cli/batch_run.h"

static void reject(batch_chunk *s, long number, const pw_err *err, const char *id)
{
  pw_reject_print(&s->rejects, number, err->column, id, err->text);
  if (s->rejected++ == 0)
    snprintf(s->first_reason, sizeof s->first_reason, "line %ld: %.200s", number, err->text);
}

/* Every line of a chunk. */
static void work_chunk(void *of_worker, batch_chunk *s)
{
  pw_batch_hand *hand = of_worker;
  pw_batch_figures figures;
  pw_batch_item item;
  const char *id = "";
  double away_km = 0.0;
  long number = (long)s->line;
  for (size_t at = 0; at < s->n; number++) {
    const char *end = memchr(s->in + at, '\n', s->n - at);
    size_t length = end ? (size_t)(end - s->in) - at : s->n - at;
    if (!pw_batch_is_blank(s->in + at, length)) {
      pw_err err = {0};
      s->rows++;
      pw_status status =
          pw_batch_read(hand, s->in + at, length, number, &item, &id, &away_km, &err);
      s->windows1252 += (uint64_t)pw_batch_was_windows1252(hand);
      if (status == PW_OK) status = pw_batch_solve(&item, &figures, &err);
      if (status == PW_OK)
        pw_batch_print(&s->out, id, away_km, &figures);
      else if (status == PW_E_NOMEM) { /* no fault of the row: the run ends, to be resumed */
        s->failed = err;
        return;
      } else
        reject(s, number, &err, id);
    }
    at += length + 1;
  }
}

static void *hand_new(void *context) { return pw_batch_hand_new(context); }

static void hand_free(void *hand) { pw_batch_hand_free(hand); }

const batch_work batch_windows = {hand_new, hand_free, work_chunk, NULL};
