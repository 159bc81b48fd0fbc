#include "study/rank.h"

#include <stdlib.h>
#include <string.h>

#include "study/rank_impl.h"
#include "study/rank_sound.h"

enum { TOP_DEFAULT = 10, POOL_EXTRA = 10 };

/* All figures of a build-up that was found. */
static pw_status choice_of(const rank_house *h, const rank_space *space, const rank_found *f,
                           rank_sound *sound, pw_rank_choice *c, pw_err *err)
{
  const rank_sound_slot *slot;
  double thickness = 0.0;
  *c = (pw_rank_choice){.number = f->number,
                        .price = f->goal[0],
                        .heating_kwh = f->goal[1],
                        .cooling_kwh = f->goal[2],
                        .light_kept = -f->goal[3],
                        .t_inner = -f->goal[4],
                        .life_cost = f->life_cost,
                        .u = f->u,
                        .shgc = f->shgc,
                        .vt = f->vt,
                        .sound_step = f->sound};
  rank_decode(space, f->number, &c->glass, &c->spacer, &c->line);
  for (size_t i = 0; i < c->glass.n_pane; i++)
    thickness += c->glass.pane[i].thickness;
  c->sash_weight = rank_weight(h, thickness, c->line);
  c->bill_year = h->heat_price * c->heating_kwh + h->cool_price * c->cooling_kwh;
  c->surface_heating_kwh = c->heating_kwh;
  c->surface_cooling_kwh = c->cooling_kwh;
  c->surface_life_cost = c->life_cost;
  pw_status status = rank_sound_of(sound, &c->glass, &slot, err);
  if (status != PW_OK) return status;
  c->rw = slot->number.rw;
  c->c = slot->number.c[PW_TERM_100_3150];
  c->ctr = slot->number.ctr[PW_TERM_100_3150];
  c->stc = slot->number.stc;
  c->oitc = slot->number.oitc;
  return PW_OK;
}

/* Quiet first, where it was the objective. */
static int by_life_cost(const void *a, const void *b)
{
  const pw_rank_choice *x = a, *y = b;
  if (x->sound_step != y->sound_step) return x->sound_step > y->sound_step ? -1 : 1;
  if (x->life_cost != y->life_cost) return x->life_cost < y->life_cost ? -1 : 1;
  return (x->number > y->number) - (x->number < y->number);
}

static int by_price(const void *a, const void *b)
{
  const pw_rank_choice *x = a, *y = b;
  if (x->price != y->price) return x->price < y->price ? -1 : 1;
  return (x->number > y->number) - (x->number < y->number);
}

/* The best by the surface, each with its own year, in the order of that. */
static pw_status best_of(const rank_house *h, const rank_space *space, const rank_list *best,
                         size_t n_top, rank_sound *sound, pw_year_workspace *ws, pw_rank *rank,
                         pw_err *err)
{
  pw_glazing *glazing = malloc(sizeof *glazing);
  pw_status status = PW_OK;
  rank->top = calloc(best->n ? best->n : 1, sizeof *rank->top);
  if (!glazing || !rank->top) status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for the best");
  for (size_t i = 0; status == PW_OK && i < best->n; i++) {
    pw_rank_choice *c = &rank->top[i];
    rank_lived lived;
    status = choice_of(h, space, &best->found[i], sound, c, err);
    if (status != PW_OK) break;
    if (h->options->no_years) continue;
    status = pw_glazing_build(&c->glass, glazing, err);
    if (status == PW_OK)
      status = rank_live(h, glazing, c->line, c->spacer, 0.0, 0.0, ws, &lived, err);
    if (status != PW_OK) break;
    c->heating_kwh = lived.heating;
    c->cooling_kwh = lived.cooling;
    c->bill_year = lived.bill;
    c->life_cost = c->price + h->years_worth * lived.bill;
    c->from_year = 1;
  }
  free(glazing);
  if (status != PW_OK) return status;
  qsort(rank->top, best->n, sizeof *rank->top, by_life_cost);
  rank->n_top = best->n < n_top ? best->n : n_top;
  return PW_OK;
}

static pw_status front_of(const rank_house *h, const rank_space *space, const rank_list *front,
                          rank_sound *sound, pw_rank *rank, pw_err *err)
{
  pw_status status = PW_OK;
  rank->front = calloc(front->n ? front->n : 1, sizeof *rank->front);
  if (!rank->front) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the Pareto set");
  for (size_t i = 0; status == PW_OK && i < front->n; i++)
    status = choice_of(h, space, &front->found[i], sound, &rank->front[i], err);
  if (status != PW_OK) return status;
  rank->n_front = front->n;
  qsort(rank->front, front->n, sizeof *rank->front, by_price);
  return PW_OK;
}

/* A program that has no such zone, or ended, would silently leave nothing. */
static pw_status check_program(const pw_rank_limits *l, pw_err *err)
{
  const pw_label any = {1.0, 0.2, 0.5, 0.0};
  pw_program_result r;
  if (!l->program) return PW_OK;
  pw_status status =
      pw_program_judge(l->program, l->zone ? l->zone : "", &any, l->date, &r, err);
  return status == PW_OK ? pw_program_open(l->program, &r, err) : status;
}

static pw_status search(rank_house *h, const rank_space *space, size_t n_top, pw_rank *rank,
                        pw_err *err)
{
  rank_result found = {0};
  pw_year_workspace *ws = pw_year_workspace_new();
  rank_sound *sound = calloc(1, sizeof *sound);
  pw_status status = ws && sound ? rank_house_init(h, space, err)
                                 : pw_fail(err, PW_E_NOMEM, NULL, "no memory for a year");
  if (status == PW_OK) status = rank_train(h, space, ws, err);
  size_t pool = h->options->no_years ? n_top : 2 * n_top + POOL_EXTRA;
  if (status == PW_OK) status = rank_search(h, space, pool, &found, err);
  if (status == PW_OK) {
    rank->counts = found.counts;
    rank->stopped = found.stopped;
    rank->n_year = h->n_year;
    rank->heating_error_kwh = h->error[0];
    rank->cooling_error_kwh = h->error[1];
    rank->sound = h->options->sound;
    status = best_of(h, space, &found.best, n_top, sound, ws, rank, err);
  }
  if (status == PW_OK) status = front_of(h, space, &found.front, sound, rank, err);
  free(found.best.found);
  free(found.front.found);
  free(sound);
  pw_year_workspace_free(ws);
  return status;
}

pw_status pw_rank_run(const pw_compare *compare, const pw_weather *weather,
                      const pw_rank_catalogue *catalogue, const pw_rank_options *options,
                      pw_rank *rank, pw_err *err)
{
  static const pw_rank_options none = {0};
  if (!options) options = &none;
  size_t n_top = options->n_top ? options->n_top : TOP_DEFAULT;
  rank_space space;
  *rank = (pw_rank){0};
  if (n_top > PW_RANK_TOP_MAX)
    return pw_fail(err, PW_E_DOMAIN, "n_top", "%zu, want 1 to %d", n_top, PW_RANK_TOP_MAX);
  pw_status status = check_program(&options->limits, err);
  if (status == PW_OK) status = rank_space_init(&space, catalogue, &options->limits, err);
  if (status != PW_OK) return status;
  rank_house h = {.compare = compare, .weather = weather, .options = options};
  status = search(&h, &space, n_top, rank, err);
  rank_house_free(&h);
  rank_space_free(&space);
  if (status != PW_OK) pw_rank_free(rank);
  return status;
}

void pw_rank_free(pw_rank *rank)
{
  if (!rank) return;
  free(rank->top);
  free(rank->front);
  *rank = (pw_rank){0};
}
