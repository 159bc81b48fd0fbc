/* What each choice at the measure or the order does to the heat of the same openings. Rated as the
 * package is: with the drawn sections where there are any. What a drawing fixes is no choice. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "study/compare_impl.h"
#include "window/opening_package.h"

typedef struct change {
  pw_message_number says;
  int fins, lip; /* 0 left, 1 cut as far as there are any, -1 as in the job */
  const char *filling;
  int spacer; /* -1 as in the package */
} change;

static const change changes[] = {
    {PW_SAY_CHOICE_AS_ORDERED, -1, -1, NULL, -1},
    {PW_SAY_CHOICE_LEFT, 0, 0, NULL, -1},
    {PW_SAY_CHOICE_CUT, 1, 1, NULL, -1},
    {PW_SAY_CHOICE_AIR, -1, -1, "air", -1},
    {PW_SAY_CHOICE_FOAM, -1, -1, "foam", -1},
    {PW_SAY_CHOICE_ALUMINIUM, -1, -1, NULL, PW_SPACER_METAL},
    {PW_SAY_CHOICE_STAINLESS, -1, -1, NULL, PW_SPACER_STAINLESS},
    {PW_SAY_CHOICE_FOAM_SPACER, -1, -1, NULL, PW_SPACER_INSULATING},
};

/* Whether the drawings leave that to the job in some opening. */
static int is_open(const pw_compare *c, size_t p, const change *k)
{
  for (size_t i = 0; i < c->n_opening; i++) {
    if (!pw_compare_replaces(c->job, i)) continue;
    const pw_frame_line *line = pw_opening_line(c->job, p, &c->job->opening[i]);
    int fixed = (k->filling && pw_frames_fix(&c->rated.frames, line, PW_STANDS_FILLING)) ||
                (k->spacer >= 0 && pw_frames_fix(&c->rated.frames, line, PW_STANDS_SPACER)) ||
                (k->fins >= 0 && pw_frames_hold_ring(line));
    if (!fixed) return 1;
  }
  return 0;
}

static pw_status apply(const pw_compare *c, size_t p, const change *k, pw_frame_book *book,
                       pw_compare_choice *choice, pw_err *err)
{
  choice->says = k->says;
  choice->ua = choice->glass_area = 0.0;
  for (size_t i = 0; i < c->n_opening; i++) {
    pw_opening o = c->job->opening[i];
    pw_package package;
    if (!pw_compare_replaces(c->job, i)) { /* no choice is made at a window that stays */
      const pw_rating *stays = &c->rated.existing[i].rating;
      choice->ua += o.quantity * stays->u * stays->area;
      choice->glass_area += o.quantity * stays->glass_area;
      continue;
    }
    pw_opening_package(c->job, p, &o, &package);
    if (k->filling) snprintf(package.filling, sizeof package.filling, "%s", k->filling);
    if (k->spacer >= 0) package.spacer = (pw_spacer)k->spacer;
    if (k->fins >= 0) o.fins_cut = k->fins && o.fin_width > 0.0 ? 2 : 0;
    if (k->lip >= 0) o.sill_lip_cut = k->lip && o.sill_lip > 0.0;
    const pw_frame_line *line = pw_opening_line(c->job, p, &o);
    const pw_glazing *glass = pw_compare_glass(c->job, &c->fitted, (int)p, i);
    pw_frame_values values;
    pw_fit fit;
    pw_rating r;
    pw_status status = pw_fit_opening(&o, line, &fit, err);
    if (status == PW_OK)
      status = pw_frames_insert(book, line, &package, &fit, glass, &values, err);
    if (status == PW_OK)
      status = pw_rating_insert(&fit, &package, line, glass, &values, &r, err);
    if (status != PW_OK) return pw_compare_blame(status, err, "opening", o.tag);
    /* Cutting less leaves a smaller pocket; the rest of the same opening is old metal, which the
     * fit already counts in its ring, so that all choices are over one opening area. */
    choice->ua += o.quantity * r.u * r.area;
    choice->glass_area += o.quantity * r.glass_area;
  }
  return PW_OK;
}

pw_status pw_compare_choices(const pw_compare *compare, size_t package,
                             pw_compare_choice choice[PW_COMPARE_CHOICES], size_t *n,
                             pw_err *err)
{
  _Static_assert(sizeof changes / sizeof changes[0] == PW_COMPARE_CHOICES, "one row a choice");
  pw_frame_book *book = malloc(sizeof *book);
  if (!book) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the choices");
  *book = compare->rated.frames;
  book->solved = NULL; /* what was solved for the packages is copied, not shared */
  pw_status status = PW_OK;
  if (compare->rated.frames.solved) {
    book->solved = calloc(PW_FRAMES_SOLVED_MAX, sizeof *book->solved);
    if (!book->solved)
      status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for the choices");
    else
      memcpy(book->solved, compare->rated.frames.solved, book->n_solved * sizeof *book->solved);
  }
  *n = 0;
  for (size_t k = 0; k < PW_COMPARE_CHOICES && status == PW_OK; k++) {
    if (!is_open(compare, package, &changes[k])) continue;
    status = apply(compare, package, &changes[k], book, &choice[*n], err);
    if (status == PW_OK) ++*n;
  }
  pw_frame_book_free(book);
  free(book);
  return status;
}
