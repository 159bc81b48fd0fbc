#include "study/rank_cache.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/hash.h"
#include "panewright/units.h"

enum { SIDES = PW_RANK_COATINGS + 1, U_STEPS = 256, SHARE_STEPS = 101 };

struct rank_panes {
  pw_spectrum spectrum;
  size_t n_side;   /* coatings and none */
  pw_layer *layer; /* [(pane * n_side + outdoor) * n_side + indoor], owned, as the next ones */
  pw_fan *fan;
  double *visible;                         /* NAN: there is no such pane */
  unsigned char heat_class[PW_RANK_PANES]; /* panes that conduct alike share one */
};

static size_t place(const rank_panes *p, const rank_stack *s, size_t i)
{
  const signed char *coat = &s->pattern->coat[2 * i];
  size_t out = (size_t)(coat[0] + 1), in = (size_t)(coat[1] + 1);
  return (s->pane[i] * p->n_side + out) * p->n_side + in;
}

static pw_status make_panes(const pw_rank_catalogue *c, rank_panes *p, pw_err *err)
{
  for (size_t i = 0; i < c->n_pane; i++)
    for (size_t a = 0; a < p->n_side; a++)
      for (size_t b = 0; b < p->n_side; b++) {
        size_t k = (i * p->n_side + a) * p->n_side + b;
        pw_buildup_pane pane = c->pane[i].pane;
        if (a > 0) memcpy(pane.coating[0], c->coating[a - 1].name, PW_NAME_MAX);
        if (b > 0) memcpy(pane.coating[1], c->coating[b - 1].name, PW_NAME_MAX);
        pw_status status = pw_layer_init(&pane, NULL, 0, &p->spectrum, &p->layer[k], err);
        p->visible[k] = (double)NAN;
        if (status != PW_OK && a + b == 0) return status; /* the pane itself is unknown */
        if (status != PW_OK) continue;
        status = pw_fan_init(&p->layer[k], &p->spectrum, &p->fan[k], err);
        if (status != PW_OK) return status;
        p->visible[k] = pw_spectrum_mean(&p->spectrum, PW_W_VISIBLE, p->layer[k].normal.t);
      }
  return PW_OK;
}

/* Every coating must be known on clear glass at least. */
static pw_status check_coatings(const pw_rank_catalogue *c, const rank_panes *p, pw_err *err)
{
  pw_layer *layer = malloc(sizeof *layer);
  pw_buildup_pane pane = {.thickness = 0.003, .kind = "clear"};
  pw_status status = layer ? PW_OK : pw_fail(err, PW_E_NOMEM, NULL, "no memory for a pane");
  for (size_t i = 0; status == PW_OK && i < c->n_coating; i++) {
    memcpy(pane.coating[1], c->coating[i].name, PW_NAME_MAX);
    status = pw_layer_init(&pane, NULL, 0, &p->spectrum, layer, err);
  }
  free(layer);
  return status;
}

pw_status rank_panes_new(const pw_rank_catalogue *c, rank_panes **panes, pw_err *err)
{
  rank_panes *p = calloc(1, sizeof *p);
  if (!p) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the panes");
  p->n_side = c->n_coating + 1;
  size_t n = c->n_pane * p->n_side * p->n_side;
  p->layer = calloc(n, sizeof *p->layer);
  p->fan = calloc(n, sizeof *p->fan);
  p->visible = calloc(n, sizeof *p->visible);
  pw_status status = p->layer && p->fan && p->visible
                         ? PW_OK
                         : pw_fail(err, PW_E_NOMEM, NULL, "no memory for the panes");
  pw_spectrum_init(&p->spectrum);
  if (status == PW_OK) status = check_coatings(c, p, err);
  if (status == PW_OK) status = make_panes(c, p, err);
  if (status != PW_OK) {
    rank_panes_free(p);
    return status;
  }
  for (size_t i = 0; i < c->n_pane; i++) {
    const pw_layer *mine = &p->layer[i * p->n_side * p->n_side];
    size_t k = 0;
    for (; k < i; k++) {
      const pw_layer *other = &p->layer[k * p->n_side * p->n_side];
      if (c->pane[k].pane.thickness == c->pane[i].pane.thickness &&
          other->conductivity == mine->conductivity && other->emit[0] == mine->emit[0] &&
          other->emit[1] == mine->emit[1])
        break;
    }
    p->heat_class[i] = (unsigned char)k;
  }
  *panes = p;
  return PW_OK;
}

void rank_panes_free(rank_panes *panes)
{
  if (!panes) return;
  free(panes->layer);
  free(panes->fan);
  free(panes->visible);
  free(panes);
}

const pw_spectrum *rank_panes_spectrum(const rank_panes *panes) { return &panes->spectrum; }

int rank_panes_of(const rank_panes *panes, const rank_stack *stack,
                  const pw_fan *fan[PW_PANES_MAX])
{
  for (size_t i = 0; i < stack->group->n_pane; i++) {
    size_t k = place(panes, stack, i);
    if (isnan(panes->visible[k])) return 0;
    fan[i] = &panes->fan[k];
  }
  return 1;
}

double rank_panes_visible(const rank_panes *panes, const rank_stack *stack, size_t i)
{
  return panes->visible[place(panes, stack, i)];
}

int rank_light_holds(const pw_rank_limits *l, const pw_light *light, int *dark, int *tinted)
{
  /* CIE 1976 u', v' from x, y; white is D65 through nothing, x 0.3127, y 0.3290. */
  const double white_u = 0.19783, white_v = 0.46834;
  double d = -2.0 * light->cie_x + 12.0 * light->cie_y + 3.0;
  double u = 4.0 * light->cie_x / d, v = 9.0 * light->cie_y / d;
  *dark = light->tau_v[0] < l->light_least;
  *tinted = l->tint_most > 0.0 && hypot(u - white_u, v - white_v) > l->tint_most;
  return !*dark && !*tinted;
}

pw_status rank_memory_init(rank_memory *m, pw_err *err)
{
  *m = (rank_memory){.room = 4096};
  m->heat = calloc(m->room, sizeof *m->heat);
  m->verdict = calloc((size_t)U_STEPS * SHARE_STEPS * SHARE_STEPS, 1);
  return m->heat && m->verdict ? PW_OK
                               : pw_fail(err, PW_E_NOMEM, NULL, "no memory for the search");
}

void rank_memory_free(rank_memory *memory)
{
  free(memory->heat);
  free(memory->verdict);
  *memory = (rank_memory){0};
}

static rank_heat_slot *slot_of(rank_heat_slot heat[], size_t room, const unsigned char key[],
                               size_t size)
{
  uint64_t h = pw_hash_mix(PW_HASH_START, key, size);
  size_t k = (size_t)(h ^ (h >> 32)) & (room - 1);
  while (heat[k].used && memcmp(heat[k].key, key, size) != 0)
    k = (k + 1) & (room - 1);
  return &heat[k];
}

static pw_status grow(rank_memory *m, pw_err *err)
{
  size_t room = 2 * m->room;
  rank_heat_slot *heat = calloc(room, sizeof *heat);
  if (!heat) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the search");
  for (size_t i = 0; i < m->room; i++)
    if (m->heat[i].used)
      *slot_of(heat, room, m->heat[i].key, sizeof m->heat[i].key) = m->heat[i];
  free(m->heat);
  m->heat = heat;
  m->room = room;
  return PW_OK;
}

/* A structure: how each pane conducts, what coats it, what lies between. Tints do not matter. */
static void key_of(const rank_panes *p, const rank_stack *s, const size_t gap[],
                   unsigned char key[4 * PW_PANES_MAX])
{
  memset(key, 0, 4 * PW_PANES_MAX);
  for (size_t i = 0; i < s->group->n_pane; i++) {
    key[4 * i] = (unsigned char)(p->heat_class[s->pane[i]] + 1);
    key[4 * i + 1] = (unsigned char)(s->pattern->coat[2 * i] + 1);
    key[4 * i + 2] = (unsigned char)(s->pattern->coat[2 * i + 1] + 1);
    key[4 * i + 3] = i + 1 < s->group->n_pane ? (unsigned char)(gap[i] + 1) : 0;
  }
}

pw_status rank_heat_of(rank_memory *m, const rank_house *house, const rank_panes *panes,
                       const rank_space *space, const rank_stack *stack, const size_t gap[],
                       pw_glazing *glazing, rank_glass *glass, pw_rank_counts *counts,
                       pw_err *err)
{
  unsigned char key[4 * PW_PANES_MAX];
  const pw_layer *layer[PW_PANES_MAX] = {0};
  pw_buildup buildup;
  pw_status status = 2 * m->n_heat < m->room ? PW_OK : grow(m, err);
  if (status != PW_OK) return status;
  key_of(panes, stack, gap, key);
  rank_heat_slot *slot = slot_of(m->heat, m->room, key, sizeof key);
  rank_buildup(space, stack, gap, &buildup);
  for (size_t i = 0; i < buildup.n_pane; i++)
    layer[i] = &panes->layer[place(panes, stack, i)];
  pw_glazing_unit(&buildup, layer, &glazing->unit);
  if (!slot->used) {
    pw_unit_result dark;
    counts->heat_solves++;
    status = pw_unit_solve(&glazing->unit, &pw_env_winter, NULL, &dark, err);
    if (status == PW_OK)
      status = rank_dark(house, &glazing->unit, &slot->t_inner, &slot->u_year, err);
    if (status != PW_OK) return status;
    memcpy(slot->key, key, sizeof key);
    slot->u = dark.u;
    slot->used = 1;
    m->n_heat++;
  }
  counts->sun_solves++;
  glazing->u_winter = slot->u;
  status = pw_glazing_sun(glazing, err);
  *glass = (rank_glass){.n_pane = buildup.n_pane,
                        .u = slot->u,
                        .u_year = slot->u_year,
                        .vt = glazing->light.tau_v[0],
                        .shgc = glazing->shgc,
                        .tau_e = glazing->light.tau_e,
                        .t_inner = slot->t_inner};
  return status;
}

int rank_program_holds(rank_memory *m, const pw_rank_limits *l, double u, double shgc,
                       double vt)
{
  if (!l->program) return 1;
  /* As a label prints them: U to 0.01 Btu/(h ft2 F), the others to 0.01. */
  long a = lround(100.0 * u / PW_U_IP), b = lround(100.0 * shgc), c = lround(100.0 * vt);
  if (a < 0 || a >= U_STEPS || b < 0 || b >= SHARE_STEPS || c < 0 || c >= SHARE_STEPS) return 0;
  unsigned char *known =
      &m->verdict[((size_t)a * SHARE_STEPS + (size_t)b) * SHARE_STEPS + (size_t)c];
  if (*known == 0) {
    const pw_label label = {0.01 * (double)a * PW_U_IP, 0.01 * (double)b, 0.01 * (double)c,
                            0.0};
    pw_program_result r;
    *known = pw_program_judge(l->program, l->zone ? l->zone : "", &label, l->date, &r, NULL) ==
                         PW_OK &&
                     (r.verdict == PW_VERDICT_MEETS || r.verdict == PW_VERDICT_NO_DATE)
                 ? 2
                 : 1;
  }
  return *known == 2;
}
