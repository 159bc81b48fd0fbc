#include "panewright/escape.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "panewright/tape.h"
#include "panewright/units.h"
#include "window/caution_impl.h"
#include "window/fit_impl.h"

enum { TAPE = 24 };

const char *const pw_escape_words =
    "In a fire a person asleep here must be able to climb out through this window, and a "
    "firefighter with air tank must be able to climb in.";

/* The last choice has all off that can come off; it is the present one when nothing more can. */
static const pw_cut_choice *all_cut(const pw_fit *fit)
{
  const pw_cut_choice *c = fit->n_choice ? &fit->choice[fit->n_choice - 1] : NULL;
  if (!c || !(c->order_width > 0.0)) return NULL;
  int more =
      c->order_width > fit->order_width + 1e-9 || c->order_height > fit->order_height + 1e-9;
  return more ? c : NULL;
}

unsigned escape_lacks(const pw_opening *o, const pw_clear *c)
{
  double area = (o->grade_floor ? SAFETY(EG2).limit : SAFETY(EG1).limit) * PW_FOOT2;
  unsigned bits = 0;
  if (!(c->area >= area)) bits |= PW_LACKS_AREA;
  if (!(c->width >= SAFETY(EG4).limit * PW_INCH)) bits |= PW_LACKS_WIDTH;
  if (!(c->height >= SAFETY(EG3).limit * PW_INCH)) bits |= PW_LACKS_HEIGHT;
  if (c->bottom > SAFETY(EG5).limit * PW_INCH) bits |= PW_LACKS_BOTTOM;
  return bits;
}

/* A window of that kind in the opening; cut: with all off (NULL as ordered); share: of the width (of the
 * height of a hung window) that clears, 0 the usual. */
static pw_remedy try_kind(const pw_opening *o, const pw_fit *fit, const char *what,
                          pw_operator kind, double share, const pw_cut_choice *cut)
{
  pw_remedy r = {.what = what,
                 .order_width = cut ? cut->order_width : fit->order_width,
                 .order_height = cut ? cut->order_height : fit->order_height};
  r.clear = fit_clear_share(kind, share, r.order_width, r.order_height);
  r.clear.bottom = fit->clear_insert.bottom;
  if (cut && r.clear.bottom >= 0.0) {
    int lip_now = o->sill_lip_cut && !o->lip_stay;
    r.clear.bottom += (lip_now || !cut->lip_cut ? 0.0 : -o->sill_lip) +
                      0.5 * (cut->pocket_height - cut->order_height) -
                      0.5 * (fit->pocket_height - fit->order_height);
  }
  r.lacks = escape_lacks(o, &r.clear);
  return r;
}

size_t pw_escape_remedies(const pw_opening *o, const pw_fit *fit,
                          pw_remedy remedy[PW_REMEDIES_MAX])
{
  const pw_cut_choice *cut = all_cut(fit);
  pw_operator k = o->operator_insert;
  int hung = k == PW_SINGLE_HUNG || k == PW_DOUBLE_HUNG;
  size_t n = 0;
  if (o->shape != PW_SHAPE_RECTANGLE) return 0; /* no rectangular sash stands in it */
  double share = pw_operator_open_share(k, o->config);
  if (cut) remedy[n++] = try_kind(o, fit, "the same kind, fins and lip cut", k, share, cut);
  if (k != PW_CASEMENT)
    remedy[n++] = try_kind(o, fit, "a casement of the same size", PW_CASEMENT, 0.0, NULL);
  if (k != PW_CASEMENT && cut)
    remedy[n++] = try_kind(o, fit, "a casement, fins and lip cut", PW_CASEMENT, 0.0, cut);
  if (k == PW_SLIDER)
    remedy[n++] = try_kind(o, fit, "a slider with the wider vent, 3/5 (it slides past 2/5)",
                           PW_SLIDER, 0.4, NULL);
  else if (!pw_operator_is_door(k))
    remedy[n++] =
        try_kind(o, fit, "a slider with the wider vent, half and half", PW_SLIDER, 0.0, NULL);
  if (k == PW_FLANKER)
    remedy[n++] = try_kind(o, fit, "another split, in thirds", PW_FLANKER, 1.0 / 3.0, NULL);
  else if (hung)
    remedy[n++] =
        try_kind(o, fit, "another split, lower sash 3/5 (it rises past 2/5)", k, 0.4, NULL);
  else if (k == PW_SLIDER && !(share > 0.0))
    remedy[n++] =
        try_kind(o, fit, "another split, three lites in thirds", PW_FLANKER, 1.0 / 3.0, NULL);
  return n;
}

void pw_remedy_text(const pw_remedy *r, char text[], size_t size)
{
  static const struct {
    unsigned bit;
    const char *word;
  } lack[] = {{PW_LACKS_AREA, "area too small"},
              {PW_LACKS_WIDTH, "too narrow"},
              {PW_LACKS_HEIGHT, "too low"},
              {PW_LACKS_BOTTOM, "its bottom too high above the floor"}};
  char w[TAPE], h[TAPE], b[TAPE], missing[100] = "", bottom[48] = "";
  pw_tape_text(r->clear.width, 8, w, sizeof w);
  pw_tape_text(r->clear.height, 8, h, sizeof h);
  pw_tape_text(r->clear.bottom, 8, b, sizeof b);
  for (size_t i = 0; i < sizeof lack / sizeof lack[0]; i++)
    if (r->lacks & lack[i].bit) {
      size_t n = strlen(missing);
      snprintf(missing + n, sizeof missing - n, "%s%s", n ? ", " : "", lack[i].word);
    }
  if (r->clear.bottom >= 0.0) snprintf(bottom, sizeof bottom, ", bottom at %s in", b);
  char ending[120];
  if (r->lacks)
    snprintf(ending, sizeof ending, "fails, %s", missing);
  else if (r->clear.bottom < 0.0)
    snprintf(ending, sizeof ending, "would pass if its bottom is at most %g in above the floor",
             SAFETY(EG5).limit);
  else
    snprintf(ending, sizeof ending, "would pass");
  snprintf(text, size, "%s: clear about %s x %s in = %.1f ft2%s: %s", r->what, w, h,
           r->clear.area / PW_FOOT2, bottom, ending);
}
