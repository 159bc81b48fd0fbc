/* Every build-up that a catalogue allows, by number. */
#include <stdlib.h>
#include <string.h>

#include "study/rank_impl.h"

/* Whether a coating may sit there: a soft one only where it faces a gap. */
static int may_sit(const rank_space *s, size_t n_pane, size_t face, size_t coating)
{
  int open = face == 0 || face + 1 == 2 * n_pane;
  return !open || s->catalogue->coating[coating].outside;
}

/* The face across the gap; itself where it faces no gap. */
static size_t across(size_t n_pane, size_t face)
{
  if (face == 0 || face + 1 == 2 * n_pane) return face;
  return face % 2 ? face + 1 : face - 1;
}

/* Adds every pattern whose surfaces below `face` stand as in *p. */
static int add_patterns(const rank_space *s, rank_group *g, rank_pattern *p, size_t face,
                        size_t left)
{
  if (face == 2 * g->n_pane) {
    if (g->n_pattern == RANK_PATTERNS) return 0;
    g->pattern[g->n_pattern++] = *p;
    return 1;
  }
  p->coat[face] = -1;
  int ok = add_patterns(s, g, p, face + 1, left);
  size_t other = across(g->n_pane, face);
  if (left == 0 || (other < face && p->coat[other] >= 0)) return ok; /* one a gap */
  for (size_t c = 0; ok && c < s->catalogue->n_coating; c++) {
    if (!may_sit(s, g->n_pane, face, c)) continue;
    p->coat[face] = (signed char)c;
    ok = add_patterns(s, g, p, face + 1, left - 1);
  }
  p->coat[face] = -1;
  return ok;
}

static uint64_t power(size_t base, size_t exponent)
{
  uint64_t v = 1;
  while (exponent--)
    v *= base;
  return v;
}

static pw_status add_group(rank_space *s, size_t n_pane, pw_err *err)
{
  const pw_rank_catalogue *c = s->catalogue;
  const pw_rank_limits *l = s->limits;
  rank_group *g = &s->group[s->n_group];
  rank_pattern p;
  memset(&p, -1, sizeof p);
  *g = (rank_group){.n_pane = n_pane, .first_stack = s->n_stack, .first = s->n_all};
  g->pattern = malloc(RANK_PATTERNS * sizeof *g->pattern);
  if (!g->pattern) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the search");
  s->n_group++;
  size_t coats = l->no_coating ? 0 : l->coatings_max ? l->coatings_max : 2;
  if (!add_patterns(s, g, &p, 0, coats))
    return pw_fail(err, PW_E_SHAPE, "coatings",
                   "more than %d ways to coat %zu panes; allow fewer coatings a unit",
                   RANK_PATTERNS, n_pane);
  g->n_gaps = n_pane == 1 ? 1 : l->gaps_differ ? (size_t)power(c->n_gap, n_pane - 1) : c->n_gap;
  g->n_spacer = n_pane == 1 ? 1 : c->n_spacer; /* a single pane has none: counted once */
  g->n_stack = power(c->n_pane, n_pane) * g->n_pattern;
  s->n_stack += g->n_stack;
  s->n_all += g->n_stack * g->n_gaps * g->n_spacer * c->n_line;
  if (s->n_all > (uint64_t)1 << 40)
    return pw_fail(err, PW_E_SHAPE, "catalogue", "more than 2^40 build-ups; set limits");
  return PW_OK;
}

pw_status rank_space_init(rank_space *space, const pw_rank_catalogue *c,
                          const pw_rank_limits *limits, pw_err *err)
{
  size_t from = limits->panes_min ? limits->panes_min : 1;
  size_t to = limits->panes_max ? limits->panes_max : 3;
  *space = (rank_space){.catalogue = c, .limits = limits};
  if (from < 1 || to > PW_PANES_MAX || from > to)
    return pw_fail(err, PW_E_DOMAIN, "panes", "%zu to %zu panes, want 1 to %d", from, to,
                   PW_PANES_MAX);
  if (c->n_pane < 1 || c->n_line < 1 || (to > 1 && (c->n_gap < 1 || c->n_spacer < 1)))
    return pw_fail(err, PW_E_SHAPE, "catalogue",
                   "no pane, gap, spacer or frame line to choose");
  for (size_t n = from; n <= to; n++) {
    pw_status status = add_group(space, n, err);
    if (status != PW_OK) {
      rank_space_free(space);
      return status;
    }
  }
  return PW_OK;
}

void rank_space_free(rank_space *space)
{
  for (size_t i = 0; i < space->n_group; i++)
    free(space->group[i].pattern);
  space->n_group = 0;
}

void rank_stack_of(const rank_space *s, uint64_t stack, rank_stack *out)
{
  size_t i = 0;
  while (i + 1 < s->n_group && stack >= s->group[i + 1].first_stack)
    i++;
  const rank_group *g = &s->group[i];
  uint64_t k = stack - g->first_stack;
  *out = (rank_stack){.group = g, .pattern = &g->pattern[k % g->n_pattern]};
  out->first = g->first + k * g->n_gaps * g->n_spacer * s->catalogue->n_line;
  k /= g->n_pattern;
  for (size_t p = 0; p < g->n_pane; p++, k /= s->catalogue->n_pane)
    out->pane[p] = (size_t)(k % s->catalogue->n_pane);
}

void rank_gaps_of(const rank_space *s, const rank_group *group, size_t g,
                  size_t gap[PW_PANES_MAX - 1])
{
  for (size_t i = 0; i + 1 < group->n_pane; i++) {
    gap[i] = s->limits->gaps_differ ? g % s->catalogue->n_gap : g;
    if (s->limits->gaps_differ) g /= s->catalogue->n_gap;
  }
}

void rank_buildup(const rank_space *s, const rank_stack *stack, const size_t gap[],
                  pw_buildup *glass)
{
  *glass = (pw_buildup){.n_pane = stack->group->n_pane};
  for (size_t i = 0; i < glass->n_pane; i++) {
    glass->pane[i] = s->catalogue->pane[stack->pane[i]].pane;
    for (size_t side = 0; side < 2; side++) {
      /* NOLINTNEXTLINE(bugprone-signed-char-misuse): a number, -1 none */
      int c = stack->pattern->coat[2 * i + side];
      if (c >= 0)
        memcpy(glass->pane[i].coating[side], s->catalogue->coating[c].name, PW_NAME_MAX);
    }
    if (i + 1 < glass->n_pane) glass->gap[i] = s->catalogue->gap[gap[i]].gap;
  }
}

void rank_decode(const rank_space *s, uint64_t number, pw_buildup *glass, size_t *spacer,
                 size_t *line)
{
  size_t i = 0, gap[PW_PANES_MAX - 1] = {0};
  while (i + 1 < s->n_group && number >= s->group[i + 1].first)
    i++;
  const rank_group *g = &s->group[i];
  uint64_t k = number - g->first;
  rank_stack stack;
  *line = (size_t)(k % s->catalogue->n_line);
  k /= s->catalogue->n_line;
  *spacer = (size_t)(k % g->n_spacer);
  k /= g->n_spacer;
  rank_stack_of(s, g->first_stack + k / g->n_gaps, &stack);
  rank_gaps_of(s, g, (size_t)(k % g->n_gaps), gap);
  rank_buildup(s, &stack, gap, glass);
}
