#include "glass/same.h"

#include <string.h>

int gap_same(const pw_gap *a, const pw_gap *b)
{
  for (int g = 0; g < PW_GAS_COUNT; g++)
    if (a->mix.share[g] != b->mix.share[g]) return 0;
  return a->thickness == b->thickness;
}

static int gaps_same(const pw_gap a[], const pw_gap b[], size_t n_pane)
{
  for (size_t i = 1; i < n_pane; i++)
    if (!gap_same(&a[i - 1], &b[i - 1])) return 0;
  return 1;
}

int unit_same(const pw_unit *a, const pw_unit *b)
{
  if (a->n_pane != b->n_pane || a->height != b->height) return 0;
  for (size_t i = 0; i < a->n_pane; i++) {
    const pw_pane *p = &a->pane[i], *q = &b->pane[i];
    if (p->thickness != q->thickness || p->conductivity != q->conductivity ||
        p->emit[0] != q->emit[0] || p->emit[1] != q->emit[1])
      return 0;
  }
  return gaps_same(a->gap, b->gap, a->n_pane);
}

int buildup_same(const pw_buildup *a, const pw_buildup *b)
{
  if (a->n_pane != b->n_pane) return 0;
  for (size_t i = 0; i < a->n_pane; i++) {
    const pw_buildup_pane *p = &a->pane[i], *q = &b->pane[i];
    if (p->thickness != q->thickness || strcmp(p->kind, q->kind) != 0) return 0;
    for (int side = 0; side < 2; side++)
      if (strcmp(p->coating[side], q->coating[side]) != 0 || p->emit[side] != q->emit[side])
        return 0;
  }
  return gaps_same(a->gap, b->gap, a->n_pane);
}
