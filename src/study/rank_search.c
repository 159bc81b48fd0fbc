/* The search itself: stack by stack, on any number of threads. */
#include <math.h>
#include <pthread.h>
#include <stdatomic.h>
#include <stdlib.h>
#include <string.h>

#include "frame/catalogue.h"
#include "study/pareto.h"
#include "study/range_run.h"
#include "study/rank_cache.h"
#include "study/rank_impl.h"
#include "study/rank_sound.h"

enum { STACKS = 16 /* a thread takes at a time */, FRONT_ROOM = 65536 };

/* Shared by the threads; only the atomics change. */
typedef struct hunt {
  const rank_house *house;
  const rank_space *space;
  const rank_panes *panes;
  size_t n_best;
  double thinnest, widest; /* m: least gap, deepest pocket */
  atomic_uint_fast64_t next, done;
  atomic_int stop;
} hunt;

typedef struct hunter {
  hunt *hunt;
  pthread_t thread;
  int started, reports;
  rank_memory memory;
  rank_sound *sound; /* NULL: not asked for */
  rank_list best, front;
  double *goal; /* scratch of the Pareto sets */
  size_t *index;
  size_t scratch; /* points that they hold */
  pw_rank_counts counts;
  pw_status status;
  pw_err err;
} hunter;

static int rank_compare_cost(const void *a, const void *b)
{
  const rank_found *x = a, *y = b;
  if (x->sound != y->sound) return x->sound > y->sound ? -1 : 1;
  if (x->life_cost != y->life_cost) return x->life_cost < y->life_cost ? -1 : 1;
  return (x->number > y->number) - (x->number < y->number);
}

static pw_status room_for(rank_list *list, size_t n, pw_err *err)
{
  if (n <= list->room) return PW_OK;
  size_t room = list->room ? list->room : 1024;
  while (room < n)
    room *= 2;
  rank_found *grown = realloc(list->found, room * sizeof *grown);
  if (!grown) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for what was found");
  list->found = grown;
  list->room = room;
  return PW_OK;
}

/* Keeps the cheapest, in order. */
static pw_status keep_best(rank_list *best, size_t most, const rank_found *f, pw_err *err)
{
  if (best->n == most && rank_compare_cost(f, &best->found[most - 1]) >= 0) return PW_OK;
  pw_status status = room_for(best, best->n + 1, err);
  if (status != PW_OK) return status;
  size_t at = best->n < most ? best->n++ : most - 1;
  while (at > 0 && rank_compare_cost(f, &best->found[at - 1]) < 0) {
    best->found[at] = best->found[at - 1];
    at--;
  }
  best->found[at] = *f;
  return PW_OK;
}

/* Brings a list down to its Pareto set. */
static pw_status thin_out(hunter *w, rank_list *list)
{
  size_t n_front = 0;
  if (list->n == 0) return PW_OK;
  if (list->n > w->scratch) {
    free(w->goal);
    free(w->index);
    w->scratch = list->n;
    w->goal = malloc(list->n * RANK_GOALS * sizeof *w->goal);
    w->index = malloc(list->n * sizeof *w->index);
    if (!w->goal || !w->index)
      return pw_fail(&w->err, PW_E_NOMEM, NULL, "no memory for the Pareto set");
  }
  for (size_t i = 0; i < list->n; i++)
    memcpy(w->goal + i * RANK_GOALS, list->found[i].goal, sizeof list->found[i].goal);
  pw_status status = pw_pareto(w->goal, list->n, RANK_GOALS, w->index, &n_front, &w->err);
  for (size_t i = 0; status == PW_OK && i < n_front; i++)
    list->found[i] = list->found[w->index[i]];
  if (status == PW_OK) list->n = n_front;
  return status;
}

static pw_status keep(hunter *w, const rank_found *f)
{
  pw_status status = keep_best(&w->best, w->hunt->n_best, f, &w->err);
  if (status == PW_OK) status = room_for(&w->front, w->front.n + 1, &w->err);
  if (status != PW_OK) return status;
  w->front.found[w->front.n++] = *f;
  if (w->front.n < FRONT_ROOM || w->front.n < w->front.room) return PW_OK;
  return thin_out(w, &w->front); /* when the room is full; it grows when little could go */
}

/* One build-up whose glass is known. */
static pw_status judge(hunter *w, const rank_stack *stack, const size_t gap[],
                       const rank_glass *glass, size_t spacer, size_t line, double u_edge,
                       uint64_t number)
{
  const rank_house *h = w->hunt->house;
  double price = rank_price(h, w->hunt->space, stack, gap, spacer, line);
  rank_figures f;
  rank_evaluate(h, glass, line, spacer, u_edge, price, &f);
  if (!rank_program_holds(&w->memory, w->hunt->space->limits, f.u, f.shgc, f.vt)) {
    w->counts.program++;
    return PW_OK;
  }
  w->counts.ranked++;
  const rank_found found = {{price, f.heating, f.cooling, -f.light_kept, -glass->t_inner},
                            glass->sound,
                            f.life_cost,
                            f.u,
                            f.shgc,
                            f.vt,
                            number};
  return keep(w, &found);
}

/* The lines whose pocket takes the unit and whose sash bears it; counts the others. */
static size_t fitting_lines(hunter *w, double glass, double gaps, size_t n_spacer,
                            size_t line[PW_RANK_LINES])
{
  const rank_space *s = w->hunt->space;
  size_t n = 0;
  for (size_t l = 0; l < s->catalogue->n_line; l++) {
    double heavy = s->limits->sash_weight;
    if (glass + gaps > s->catalogue->line[l].pocket)
      w->counts.thickness += n_spacer;
    else if (heavy > 0.0 && rank_weight(w->hunt->house, glass, l) > heavy)
      w->counts.weight += n_spacer;
    else
      line[n++] = l;
  }
  return n;
}

/* Rw + Ctr of the glass, where a goal or a limit asks for it; *loud: below the limit. */
static pw_status sound_of(hunter *w, const rank_stack *stack, const size_t gap[], double *sound,
                          int *loud)
{
  const rank_sound_slot *slot;
  pw_buildup glass;
  *sound = 0.0;
  *loud = 0;
  if (!w->sound) return PW_OK;
  rank_buildup(w->hunt->space, stack, gap, &glass);
  pw_status status = rank_sound_of(w->sound, &glass, &slot, &w->err);
  if (status != PW_OK) return status;
  /* In steps of what is just noticed: within one the life cost decides. */
  if (w->hunt->house->options->sound) *sound = 3.0 * floor(slot->rw_ctr / 3.0);
  *loud = slot->rw_ctr < w->hunt->space->limits->sound_least;
  return PW_OK;
}

/* The light of a stack, once, and whether it may be. */
static pw_status light_of(hunter *w, const rank_stack *stack, const pw_fan *fan[],
                          pw_glazing *glazing, int *dark, int *tinted)
{
  const pw_rank_limits *limits = w->hunt->space->limits;
  size_t n = stack->group->n_pane;
  *dark = *tinted = 0;
  for (size_t i = 0; i < n; i++) /* light through all is at most that through each */
    if (rank_panes_visible(w->hunt->panes, stack, i) < limits->light_least) *dark = 1;
  if (*dark) return PW_OK;
  w->counts.light_solves++;
  pw_status status =
      pw_light_from_fans(fan, n, rank_panes_spectrum(w->hunt->panes), &glazing->light, &w->err);
  if (status == PW_OK) rank_light_holds(limits, &glazing->light, dark, tinted);
  return status;
}

/* All that shares a stack. */
static pw_status hunt_stack(hunter *w, uint64_t k)
{
  const rank_space *s = w->hunt->space;
  const pw_rank_catalogue *c = s->catalogue;
  rank_stack stack;
  pw_glazing glazing = {0};
  const pw_fan *fan[PW_PANES_MAX];
  int known = 0, dark = 0, tinted = 0;
  rank_stack_of(s, k, &stack);
  const rank_group *g = stack.group;
  double glass = 0.0;
  for (size_t i = 0; i < g->n_pane; i++)
    glass += c->pane[stack.pane[i]].pane.thickness;
  if (!rank_panes_of(w->hunt->panes, &stack, fan)) {
    w->counts.all -= g->n_gaps * g->n_spacer * c->n_line; /* no such coated pane */
    return PW_OK;
  }
  if (glass + (double)(g->n_pane - 1) * w->hunt->thinnest > w->hunt->widest) {
    w->counts.thickness += g->n_gaps * g->n_spacer * c->n_line;
    return PW_OK;
  }
  for (size_t q = 0; q < g->n_gaps; q++) {
    size_t gap[PW_PANES_MAX - 1] = {0}, line[PW_RANK_LINES];
    double gaps = 0.0;
    rank_gaps_of(s, g, q, gap);
    for (size_t i = 0; i + 1 < g->n_pane; i++)
      gaps += c->gap[gap[i]].gap.thickness;
    size_t n_line = fitting_lines(w, glass, gaps, g->n_spacer, line);
    if (n_line == 0) continue;
    pw_status status = PW_OK;
    if (!known) status = light_of(w, &stack, fan, &glazing, &dark, &tinted);
    known = 1;
    if (status != PW_OK) return status;
    w->counts.light += dark ? n_line * g->n_spacer : 0;
    w->counts.tint += !dark && tinted ? n_line * g->n_spacer : 0;
    if (dark || tinted) continue;
    double quiet = 0.0;
    int loud = 0;
    status = sound_of(w, &stack, gap, &quiet, &loud);
    if (status != PW_OK) return status;
    w->counts.sound += loud ? n_line * g->n_spacer : 0;
    if (loud) continue;
    rank_glass known_glass;
    status = rank_heat_of(&w->memory, w->hunt->house, w->hunt->panes, s, &stack, gap, &glazing,
                          &known_glass, &w->counts, &w->err);
    known_glass.sound = quiet;
    for (size_t p = 0; status == PW_OK && p < g->n_spacer; p++) {
      pw_given edge;
      status =
          pw_catalogue_edge_u(c->spacer[p].spacer, g->n_pane, known_glass.u, &edge, &w->err);
      for (size_t l = 0; status == PW_OK && l < n_line; l++)
        status = judge(w, &stack, gap, &known_glass, p, line[l], edge.value,
                       stack.first + (q * g->n_spacer + p) * c->n_line + line[l]);
    }
    if (status != PW_OK) return status;
  }
  return PW_OK;
}

static void *work(void *argument)
{
  hunter *w = argument;
  hunt *h = w->hunt;
  const pw_rank_options *o = h->house->options;
  while (!atomic_load(&h->stop) && w->status == PW_OK) {
    uint64_t k = atomic_fetch_add(&h->next, STACKS);
    if (k >= h->space->n_stack) break;
    uint64_t end = k + STACKS < h->space->n_stack ? k + STACKS : h->space->n_stack, begin = k;
    for (; k < end && w->status == PW_OK; k++)
      w->status = hunt_stack(w, k);
    uint64_t done = atomic_fetch_add(&h->done, end - begin) + end - begin;
    if (w->status != PW_OK ||
        (w->reports && o->progress &&
         o->progress(o->context, (size_t)done, (size_t)h->space->n_stack)))
      atomic_store(&h->stop, 1);
  }
  return NULL;
}

static void add_counts(pw_rank_counts *sum, const pw_rank_counts *c)
{
  sum->all += c->all; /* wraps round: threads count down from 0 */
  sum->thickness += c->thickness;
  sum->weight += c->weight;
  sum->light += c->light;
  sum->tint += c->tint;
  sum->sound += c->sound;
  sum->program += c->program;
  sum->ranked += c->ranked;
  sum->light_solves += c->light_solves;
  sum->heat_solves += c->heat_solves;
  sum->sun_solves += c->sun_solves;
}

/* What all have found, in one. */
static pw_status gather(hunter w[], size_t n, size_t n_best, rank_result *out)
{
  pw_status status = PW_OK;
  rank_list all = {0};
  for (size_t i = 0; status == PW_OK && i < n; i++) {
    add_counts(&out->counts, &w[i].counts);
    for (size_t k = 0; status == PW_OK && k < w[i].best.n; k++)
      status = keep_best(&out->best, n_best, &w[i].best.found[k], &w[0].err);
    if (status == PW_OK) status = room_for(&all, all.n + w[i].front.n, &w[0].err);
    if (status != PW_OK || w[i].front.n == 0) continue;
    memcpy(all.found + all.n, w[i].front.found, w[i].front.n * sizeof *all.found);
    all.n += w[i].front.n;
  }
  if (status == PW_OK) status = thin_out(&w[0], &all);
  if (all.n > 0) qsort(all.found, all.n, sizeof *all.found, rank_compare_cost);
  out->front = all;
  return status;
}

static int wants_sound(const hunt *h)
{
  return h->house->options->sound || h->space->limits->sound_least > 0.0;
}

static pw_status hunt_all(hunt *h, size_t n_thread, rank_result *out, pw_err *err)
{
  hunter *w = calloc(n_thread, sizeof *w);
  if (!w) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu threads", n_thread);
  for (size_t i = 0; i < n_thread; i++) {
    w[i].hunt = h;
    w[i].status = rank_memory_init(&w[i].memory, &w[i].err);
    if (w[i].status == PW_OK && wants_sound(h)) {
      w[i].sound = calloc(1, sizeof *w[i].sound);
      if (!w[i].sound)
        w[i].status = pw_fail(&w[i].err, PW_E_NOMEM, NULL, "no memory for the sound");
    }
    if (i > 0) w[i].started = pthread_create(&w[i].thread, NULL, work, &w[i]) == 0;
  }
  w[0].reports = 1;
  work(&w[0]);
  pw_status status = w[0].status;
  size_t bad = 0;
  for (size_t i = 1; i < n_thread; i++) {
    if (w[i].started) pthread_join(w[i].thread, NULL);
    if (status == PW_OK && w[i].status != PW_OK) status = w[bad = i].status;
  }
  if (status == PW_OK) {
    status = gather(w, n_thread, h->n_best, out);
    bad = 0;
  }
  if (status != PW_OK && err) *err = w[bad].err;
  for (size_t i = 0; i < n_thread; i++) {
    rank_memory_free(&w[i].memory);
    free(w[i].sound);
    free(w[i].best.found);
    free(w[i].front.found);
    free(w[i].goal);
    free(w[i].index);
  }
  free(w);
  return status;
}

pw_status rank_search(const rank_house *house, const rank_space *space, size_t n_best,
                      rank_result *out, pw_err *err)
{
  const pw_rank_catalogue *c = space->catalogue;
  rank_panes *panes = NULL;
  hunt h = {.house = house, .space = space, .n_best = n_best, .thinnest = INFINITY};
  int n = house->options->n_thread;
  for (size_t i = 0; i < c->n_gap; i++)
    h.thinnest = fmin(h.thinnest, c->gap[i].gap.thickness);
  if (c->n_gap == 0) h.thinnest = 0.0;
  for (size_t i = 0; i < c->n_line; i++)
    h.widest = fmax(h.widest, c->line[i].pocket);
  *out = (rank_result){.counts.all = space->n_all};
  pw_status status = rank_panes_new(c, &panes, err);
  h.panes = panes;
  atomic_init(&h.next, 0);
  atomic_init(&h.done, 0);
  atomic_init(&h.stop, 0);
  if (status == PW_OK)
    status = hunt_all(&h,
                      n < 1                ? 1
                      : n > PW_THREADS_MAX ? PW_THREADS_MAX
                                           : (size_t)n,
                      out, err);
  out->stopped = status == PW_OK && atomic_load(&h.done) < space->n_stack;
  rank_panes_free(panes);
  return status;
}
