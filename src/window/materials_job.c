#include <math.h>
#include <stdlib.h>

#include "gen/reference.h"
#include "panewright/units.h"
#include "window/materials.h"
#include "window/opening_package.h"

#define RULE(id) (&pw_ref_trade_materials[pw_ref_trade_materials__##id])

static const double sixteenth = PW_INCH / 16.0;

double pw_materials_whole(double number) { return ceil(number - 1e-6); }

double pw_materials_kerf(void) { return RULE(MA10)->typical * PW_INCH; }

double pw_materials_cartridges(double volume)
{
  return volume * (1.0 + RULE(MA2)->typical) / (RULE(MA1)->typical * PW_FLUID_OUNCE);
}

double pw_materials_cans(double volume)
{
  static const double cubic_inch = PW_INCH * PW_INCH * PW_INCH;
  return volume * (1.0 + RULE(MA7)->typical) / (RULE(MA6)->typical * cubic_inch);
}

/* ---------------------------------------------------------------- by size */

static int same(double a, double b) { return fabs(a - b) < 1e-6; }

static int joint_after(const pw_joint_sum *a, const pw_joint_sum *b)
{
  if (!same(a->width, b->width)) return a->width > b->width;
  if (!same(a->depth, b->depth)) return a->depth > b->depth;
  return !same(a->class_, b->class_) && a->class_ > b->class_;
}

/* Adds to the row of that size, which is put in its place when it is new. */
static void add_joint(pw_materials_job *s, const pw_joint_sum *j)
{
  size_t at = 0;
  while (at < s->n_joint && joint_after(j, &s->joint[at]))
    at++;
  if (at == s->n_joint || joint_after(&s->joint[at], j)) {
    if (s->n_joint == PW_JOINTS_MAX) return; /* widths in 1/16 in up to 1 in, four classes */
    for (size_t k = s->n_joint++; k > at; k--)
      s->joint[k] = s->joint[k - 1];
    s->joint[at] = *j;
    return;
  }
  s->joint[at].length += j->length;
  s->joint[at].volume += j->volume;
}

static void add_rod(pw_materials_job *s, double rod, double length)
{
  size_t at = 0;
  while (at < s->n_rod && s->rod[at] < rod - 1e-6)
    at++;
  if (at == s->n_rod || !same(s->rod[at], rod)) {
    if (s->n_rod == PW_RODS_MAX) return; /* in 1/8 in up to 2 in */
    for (size_t k = s->n_rod++; k > at; k--) {
      s->rod[k] = s->rod[k - 1];
      s->rod_length[k] = s->rod_length[k - 1];
    }
    s->rod[at] = rod;
    s->rod_length[at] = 0.0;
  }
  s->rod_length[at] += length;
}

static void add(pw_materials_job *s, const pw_materials *m, double units)
{
  if (m->seal_length > 0.0)
    add_joint(s, &(pw_joint_sum){m->seal_width, m->seal_depth, m->seal_class,
                                 units * m->seal_length, units * m->seal_volume});
  if (m->rod_length > 0.0) add_rod(s, m->rod, units * m->rod_length);
  s->seal_class = fmax(s->seal_class, m->seal_class);
  s->seal_length += units * m->seal_length;
  s->seal_volume += units * m->seal_volume;
  s->stucco_length += units * m->stucco_length;
  s->stucco_width = m->stucco_width; /* one for the job: S3 */
  s->stucco_depth = m->stucco_depth;
  s->stucco_volume += units * m->stucco_volume;
  s->foam_volume += units * m->foam_volume;
  s->trim_curved += units * m->trim_curved;
  s->caulk_leg = m->caulk_leg;
  s->caulk_length += units * m->caulk_length;
  s->caulk_volume += units * m->caulk_volume;
  s->shims_low += (int)units * m->shims_low;
  s->shims += (int)units * m->shims;
  s->shims_high += (int)units * m->shims_high;
  s->screws_low += (int)units * m->screws_low;
  s->screws_high += (int)units * m->screws_high;
  s->tape += units * m->tape;
}

/* What is bought of a sum. */
static void buy(pw_materials_job *s)
{
  s->seal_cartridges = pw_materials_cartridges(s->seal_volume);
  s->stucco_cartridges = pw_materials_cartridges(s->stucco_volume);
  s->caulk_cartridges = pw_materials_cartridges(s->caulk_volume);
  s->foam_cans = pw_materials_cans(s->foam_volume);
  s->tape_rolls = s->tape * (1.0 + RULE(MA16)->typical) / (RULE(MA15)->typical * PW_FOOT);
}

/* ---------------------------------------------------------------- trim */

static size_t pieces_of(pw_materials_job *s, int longer, size_t n)
{
  double longest = RULE(MA9)->high * PW_INCH;
  for (size_t i = 0; i < s->n_opening; i++)
    for (int u = 0; u < s->units[i]; u++)
      for (size_t k = 0; k < s->opening[i].n_trim; k++) {
        const pw_trim *t = &s->opening[i].trim[k];
        if ((t->length > longest + 1e-9) != longer) continue;
        s->piece[n++] =
            (pw_trim_piece){i, t->side, t->length, (int)ceil(t->length / sixteenth - 1e-6)};
        s->trim_length += t->length;
      }
  return n;
}

/* Stock by stock: the one of which least is bought in all, of equal ones the longer. */
static pw_status cut(pw_materials_job *s, int steps[], size_t place[], pw_err *err)
{
  const double length[PW_STOCKS] = {RULE(MA9)->low, RULE(MA9)->typical, RULE(MA9)->high};
  const int kerf = (int)lround(pw_materials_kerf() / sixteenth);
  const size_t n = s->n_piece - s->n_long;
  double least = HUGE_VAL;
  int longest = 0;
  for (size_t i = 0; i < n; i++) {
    steps[i] = s->piece[i].steps;
    if (steps[i] > longest) longest = steps[i];
  }
  for (size_t k = 0; k < PW_STOCKS; k++) {
    pw_trim_stock *t = &s->stock[k];
    const int stock = (int)lround(length[k] * 16.0);
    t->length = length[k] * PW_INCH;
    t->fits = longest <= stock;
    if (!t->fits) continue;
    pw_status status = pw_cut_stock(steps, n, stock, kerf, PW_CUT_LOOKS, place, &t->plan, err);
    if (status != PW_OK) return status;
    double bought = (double)t->plan.n_stock * t->length;
    if (bought <= least + 1e-9) {
      least = bought;
      s->stock_chosen = k;
      for (size_t i = 0; i < n; i++)
        s->stock_of[i] = place[i];
    }
  }
  return PW_OK;
}

static pw_status trim(pw_materials_job *s, pw_err *err)
{
  size_t n = 0;
  for (size_t i = 0; i < s->n_opening; i++)
    n += (size_t)s->units[i] * s->opening[i].n_trim;
  s->piece = calloc(n + 1, sizeof *s->piece);
  s->stock_of = calloc(n + 1, sizeof *s->stock_of);
  int *steps = calloc(n + 1, sizeof *steps);
  size_t *place = calloc(n + 1, sizeof *place);
  pw_status status = PW_OK;
  if (s->piece && s->stock_of && steps && place) {
    n = pieces_of(s, 0, 0);
    s->n_piece = pieces_of(s, 1, n);
    s->n_long = s->n_piece - n;
    status = cut(s, steps, place, err);
  } else
    status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for the trim");
  free(steps);
  free(place);
  return status;
}

/* ---------------------------------------------------------------- the job */

void pw_materials_free(pw_materials_job *s)
{
  if (!s) return;
  free(s->opening);
  free(s->units);
  free(s->piece);
  free(s->stock_of);
  *s = (pw_materials_job){0};
}

static pw_status count(const pw_job *job, pw_materials_job *s, pw_err *err)
{
  s->n_opening = s->heaviest = job->n_opening;
  s->opening = calloc(job->n_opening + 1, sizeof *s->opening);
  s->units = calloc(job->n_opening + 1, sizeof *s->units);
  if (!s->opening || !s->units) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for amounts");
  for (size_t i = 0; i < job->n_opening; i++)
    if (job->opening[i].standing == PW_REPLACED) {
      if (job->opening[i].quantity < 0)
        return pw_fail(err, PW_E_DOMAIN, "quantity", "%d windows", job->opening[i].quantity);
      s->units[i] = job->opening[i].quantity;
      s->n_unit += (size_t)job->opening[i].quantity;
    }
  if (s->n_unit > PW_MATERIALS_UNITS)
    return pw_fail(err, PW_E_DOMAIN, "quantity", "%zu windows: materials want at most %d",
                   s->n_unit, PW_MATERIALS_UNITS);
  return PW_OK;
}

pw_status pw_materials_of_job(const pw_job *job, size_t column, const pw_fit fit[],
                              const pw_install install[], pw_materials_job *sum, pw_err *err)
{
  pw_materials_job s = {0};
  pw_status status = count(job, &s, err);
  for (size_t i = 0; status == PW_OK && i < job->n_opening; i++) {
    const pw_opening *o = &job->opening[i];
    pw_package package;
    if (s.units[i] == 0) continue;
    pw_opening_package(job, column, o, &package);
    pw_materials_of(o, &fit[i], &install[i], &package, pw_opening_line(job, column, o)->kind,
                    &s.opening[i]);
    add(&s, &s.opening[i], (double)s.units[i]);
    if (s.heaviest == s.n_opening || s.opening[i].mass > s.opening[s.heaviest].mass + 1e-9)
      s.heaviest = i;
  }
  buy(&s);
  if (status == PW_OK) status = trim(&s, err);
  if (status == PW_OK)
    *sum = s;
  else
    pw_materials_free(&s);
  return status;
}
