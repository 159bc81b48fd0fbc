#include "window/escape.h"

#include <math.h>

#include "panewright/units.h"
#include "window/caution_impl.h"
#include "window/fit_impl.h"

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
static pw_remedy try_kind(const pw_opening *o, const pw_fit *fit, pw_message_number what,
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
  if (cut) remedy[n++] = try_kind(o, fit, PW_SAY_REMEDY_SAME_CUT, k, share, cut);
  if (k != PW_CASEMENT)
    remedy[n++] = try_kind(o, fit, PW_SAY_REMEDY_CASEMENT, PW_CASEMENT, 0.0, NULL);
  if (k != PW_CASEMENT && cut)
    remedy[n++] = try_kind(o, fit, PW_SAY_REMEDY_CASEMENT_CUT, PW_CASEMENT, 0.0, cut);
  if (k == PW_SLIDER)
    remedy[n++] = try_kind(o, fit, PW_SAY_REMEDY_SLIDER_WIDER, PW_SLIDER, 0.4, NULL);
  else if (!pw_operator_is_door(k))
    remedy[n++] = try_kind(o, fit, PW_SAY_REMEDY_SLIDER_HALF, PW_SLIDER, 0.0, NULL);
  if (k == PW_FLANKER)
    remedy[n++] = try_kind(o, fit, PW_SAY_REMEDY_SPLIT_THIRDS, PW_FLANKER, 1.0 / 3.0, NULL);
  else if (hung)
    remedy[n++] = try_kind(o, fit, PW_SAY_REMEDY_SPLIT_LOWER, k, 0.4, NULL);
  else if (k == PW_SLIDER && !(share > 0.0))
    remedy[n++] = try_kind(o, fit, PW_SAY_REMEDY_SPLIT_LITES, PW_FLANKER, 1.0 / 3.0, NULL);
  return n;
}

pw_message pw_remedy_says(const pw_remedy *r)
{
  const pw_clear *c = &r->clear;
#define CLEAR PW_WORD(r->what), PW_SI(c->width), PW_SI(c->height), PW_SI(c->area)
  if (r->lacks && c->bottom >= 0.0)
    return PW_SAYS(PW_SAY_REMEDY_FAILS, CLEAR, PW_SI(c->bottom), PW_INT(r->lacks));
  if (r->lacks) return PW_SAYS(PW_SAY_REMEDY_FAILS_SOMEWHERE, CLEAR, PW_INT(r->lacks));
  if (c->bottom < 0.0)
    return PW_SAYS(PW_SAY_REMEDY_PASSES_BELOW, CLEAR, PW_SI(SAFETY(EG5).limit * PW_INCH));
  return PW_SAYS(PW_SAY_REMEDY_PASSES, CLEAR, PW_SI(c->bottom));
#undef CLEAR
}
