#include "window/glass_sound.h"

#include <math.h>
#include <string.h>

#include "gen/reference.h"

_Static_assert((int)PW_PANES_MAX <= (int)PW_LEAVES_MAX, "a leaf a pane");

/* The row of a pane: for a laminate that of its thickness. NULL when the kind is not in the table. */
static const pw_ref_panes_row *row_of(const pw_buildup_pane *pane)
{
  const char *kind = pane->kind[0] ? pane->kind : "clear";
  const pw_ref_panes_row *best = NULL;
  double mm = pane->thickness * 1e3;
  for (size_t i = 0; i < (size_t)pw_ref_panes__n; i++) {
    const pw_ref_panes_row *r = &pw_ref_panes[i];
    if (strcmp(r->id, kind) != 0) continue;
    if (!best || fabs(r->thickness_mm - mm) < fabs(best->thickness_mm - mm)) best = r;
  }
  return best;
}

static pw_status leaf_of(const pw_buildup_pane *pane, double at, pw_leaf *leaf, unsigned *notes,
                         pw_err *err)
{
  const pw_ref_panes_row *r = row_of(pane);
  if (r && r->interlayer >= 0) {
    double ply[2] = {r->ply_out_mm * 1e-3, r->ply_in_mm * 1e-3};
    *notes |= PW_SOUND_LAMINATE;
    if (!(fabs(r->thickness_mm - pane->thickness * 1e3) <= 0.35))
      return pw_fail(err, PW_E_DOMAIN, "thickness", "%g mm %s: no such plies are known",
                     pane->thickness * 1e3, pane->kind);
    return pw_leaf_laminate(ply, r->interlayer_mm * 1e-3, (size_t)r->interlayer, at, leaf, err);
  }
  if (r && r->leaf > 0) *notes |= PW_SOUND_PLASTIC;
  if (!r || (isfinite(r->thickness_mm) && r->leaf <= 0)) *notes |= PW_SOUND_OWN;
  return pw_leaf_sheet(pane->thickness, r && r->leaf >= 0 ? (size_t)r->leaf : 0, leaf, err);
}

pw_status pw_glass_leaves(const pw_buildup *b, double at, pw_leaf leaf[PW_LEAVES_MAX],
                          double gap[PW_LEAVES_MAX - 1], unsigned *notes, pw_err *err)
{
  if (b->n_pane < 1 || b->n_pane > PW_PANES_MAX)
    return pw_fail(err, PW_E_SHAPE, "n_pane", "%zu panes, want 1 to %d", b->n_pane,
                   PW_PANES_MAX);
  *notes = b->n_pane > 2 ? PW_SOUND_TRIPLE : 0;
  for (size_t i = 0; i < b->n_pane; i++) {
    pw_status s = leaf_of(&b->pane[i], at, &leaf[i], notes, err);
    if (s != PW_OK) return s;
    if (i + 1 == b->n_pane) continue;
    gap[i] = b->gap[i].thickness;
    if (gap[i] > 0.020) *notes |= PW_SOUND_WIDE;
    for (size_t k = 0; k < PW_GAS_COUNT; k++)
      if (k != PW_AIR && b->gap[i].mix.share[k] > 0.0) *notes |= PW_SOUND_GAS;
  }
  return PW_OK;
}

pw_status pw_glass_sound(const pw_buildup *buildup, const pw_sound_set *set, double at,
                         pw_thirds *out, unsigned *notes, pw_err *err)
{
  pw_leaf leaf[PW_LEAVES_MAX];
  double gap[PW_LEAVES_MAX - 1];
  unsigned found = 0;
  pw_status s = pw_glass_leaves(buildup, at, leaf, gap, &found, err);
  if (s == PW_OK) s = pw_sound_unit(leaf, gap, buildup->n_pane, set, out, err);
  if (s == PW_OK && notes) *notes = found;
  return s;
}
