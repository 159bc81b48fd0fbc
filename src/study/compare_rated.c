/* The comparison, second stage: both windows of every opening rated over the same rectangle, sums over the
 * house. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/select.h"
#include "house/airing.h"
#include "panewright/units.h"
#include "study/compare_impl.h"
#include "window/opening_package.h"

const pw_compare_window *pw_compare_window_of(const pw_compare_rated *r, int package,
                                              size_t opening)
{
  return package < 0 ? &r->existing[opening] : &r->package[package][opening];
}

const pw_rating *pw_compare_rating(const pw_compare_rated *r, int package, size_t opening)
{
  return &pw_compare_window_of(r, package, opening)->rating;
}

static double light(const pw_rating *rating, const pw_glazing *glazing)
{
  return rating->glass_area * glazing->light.tau_v[0];
}

void pw_compare_kept(pw_compare_window *now, const pw_glazing *existing,
                     pw_compare_window *insert, const pw_glazing *glass)
{
  now->glass_kept = now->light_kept = 1.0;
  insert->glass_kept = insert->rating.glass_area / now->rating.glass_area;
  insert->light_kept = light(&insert->rating, glass) / light(&now->rating, existing);
}

pw_status pw_compare_sweat(const pw_glazing *glazing, double t_in, double t_out,
                           pw_compare_window *window, pw_err *err)
{
  return pw_sweat_window(&glazing->unit, &window->rating, t_in, t_out, pw_env_winter.wind, 0.0,
                         &window->sweat, err); /* the rating wind, on the design night too */
}

/* The insert that an opening gets in a column. */
static pw_status rate_insert(const pw_job *job, const pw_fit *fit, size_t p, size_t i,
                             const pw_glazing *glass, pw_compare_rated *r, pw_compare_window *w,
                             pw_err *err)
{
  const pw_opening *o = &job->opening[i];
  const pw_frame_line *line = pw_opening_line(job, p, o);
  pw_frame_values values;
  pw_package package;
  pw_opening_package(job, p, o, &package);
  pw_status status = pw_frames_insert(&r->frames, line, &package, fit, glass, &values, err);
  if (status == PW_OK)
    status = pw_rating_insert(fit, &package, line, glass, &values, &w->rating, err);
  if (status == PW_OK) status = pw_compare_sweat(glass, r->t_in, r->t_design_out, w, err);
  return status;
}

/* The window that is there: the old one, or the insert of an earlier phase. */
static pw_status rate_existing(const pw_job *job, const pw_fit *fit, size_t i,
                               const pw_glazing *glass, pw_compare_rated *r,
                               pw_compare_window *now, pw_err *err)
{
  const pw_opening *o = &job->opening[i];
  pw_frame_values values;
  if (o->standing == PW_DONE) return rate_insert(job, fit, 0, i, glass, r, now, err);
  pw_status status = pw_frames_existing(&r->frames, o, fit, glass, &values, err);
  if (status == PW_OK) status = pw_rating_existing(o, fit, glass, &values, &now->rating, err);
  if (status == PW_OK) status = pw_compare_sweat(glass, r->t_in, r->t_design_out, now, err);
  return status;
}

static pw_status rate_all(const pw_job *job, const pw_compare_fitted *f, pw_compare_rated *r,
                          pw_compare_window existing[], pw_compare_window package[],
                          pw_err *err)
{
  for (size_t i = 0; i < job->n_opening; i++) {
    pw_compare_window *now = &existing[i];
    pw_status status = rate_existing(job, &f->fit[0][i], i, &f->existing_glass[i], r, now, err);
    now->glass_kept = now->light_kept = 1.0;
    for (size_t p = 0; status == PW_OK && p < job->n_package; p++) {
      pw_compare_window *w = &package[p * job->n_opening + i];
      const pw_glazing *glass = pw_compare_glass(job, f, (int)p, i);
      *w = *now; /* a window that stays */
      if (!pw_compare_replaces(job, i)) continue;
      *w = (pw_compare_window){0};
      status = rate_insert(job, &f->fit[p][i], p, i, glass, r, w, err);
      if (status == PW_OK) pw_compare_kept(now, &f->existing_glass[i], w, glass);
    }
    if (status != PW_OK) return pw_compare_blame(status, err, "opening", job->opening[i].tag);
  }
  return PW_OK;
}

static void add_parts(pw_parts *sum, const pw_parts *part, double times)
{
  sum->center += times * part->center;
  sum->edge += times * part->edge;
  sum->frame += times * part->frame;
  sum->divider += times * part->divider;
  sum->retained += times * part->retained;
}

double pw_compare_first_to_sweat(const pw_sweat *sweat)
{
  double rh = fmin(sweat->center.rh, fmin(sweat->edge.rh, sweat->frame.rh));
  rh = fmin(rh, sweat->coldest.rh);
  if (isfinite(sweat->meeting.t)) rh = fmin(rh, sweat->meeting.rh);
  return isfinite(sweat->retained.t) ? fmin(rh, sweat->retained.rh) : rh;
}

static double can_open(const pw_job *job, const pw_compare_fitted *f, int package, size_t i)
{
  pw_openable open;
  pw_openable_of(pw_compare_lites(job, f, package, i), pw_compare_is_stuck(job, package, i),
                 &open);
  return open.area;
}

static void sum_set(const pw_job *job, const pw_compare_fitted *f, const pw_compare_rated *r,
                    int package, const char *name, pw_rated_set *set)
{
  double sun = 0.0, seen = 0.0, lit = 0.0, lit_now = 0.0, glass_now = 0.0, old = 0.0;
  snprintf(set->name, sizeof set->name, "%s", name);
  set->sweat_rh = 2.0;
  for (size_t i = 0; i < job->n_opening; i++) {
    double times = (double)job->opening[i].quantity;
    const pw_compare_window *w = pw_compare_window_of(r, package, i);
    const pw_glazing *glass = pw_compare_glass(job, f, package, i);
    add_parts(&set->areas, &w->rating.areas, times);
    add_parts(&set->ua, &w->rating.ua, times);
    set->area += times * w->rating.area;
    set->glass_area += times * w->rating.glass_area;
    sun += times * w->rating.shgc * w->rating.area;
    if (pw_compare_is_old(job, package, i)) {
      add_parts(&set->ua_old, &w->rating.ua, times);
      old += times * w->rating.shgc * w->rating.area;
    }
    seen += times * w->rating.vt * w->rating.area;
    lit += times * light(&w->rating, glass);
    lit_now += times * light(&r->existing[i].rating, &f->existing_glass[i]);
    glass_now += times * r->existing[i].rating.glass_area;
    if (!job->opening[i].unconditioned) set->open_area += times * can_open(job, f, package, i);
    double rh = pw_compare_first_to_sweat(&w->sweat);
    if (!job->opening[i].unconditioned && rh < set->sweat_rh) {
      set->sweat_rh = rh;
      set->sweat_opening = i;
    }
  }
  const pw_parts *ua = &set->ua;
  if (set->sweat_rh == 2.0) set->sweat_rh = (double)NAN; /* no room is kept warm */
  set->u = (ua->center + ua->edge + ua->frame + ua->divider + ua->retained) / set->area;
  set->shgc = sun / set->area;
  set->sun_old = sun > 0.0 ? old / sun : 0.0;
  set->vt = seen / set->area;
  set->glass_kept = set->glass_area / glass_now;
  set->light_kept = lit / lit_now;
}

static void sum_sets(const pw_job *job, const pw_compare_fitted *f, pw_compare_rated *r)
{
  sum_set(job, f, r, -1, "existing", &r->existing_set);
  for (size_t p = 0; p < job->n_package; p++)
    sum_set(job, f, r, (int)p, job->package[p].name, &r->package_set[p]);
  pw_rated_set *m = &r->minimum_set;
  *m = r->package_set[r->minimum_size];
  snprintf(m->name, sizeof m->name, "code minimum");
  m->areas = m->ua = (pw_parts){0};
  m->u = r->minimum.u;
  m->shgc = r->minimum.shgc;
  m->vt = (double)NAN;
  m->light_kept = m->sweat_rh = (double)NAN;
}

pw_status pw_compare_design_night(const pw_weather *weather, double *t_out, pw_err *err)
{
  double *t = malloc(PW_HOURS * sizeof *t);
  if (!t) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the design night");
  for (size_t h = 0; h < PW_HOURS; h++)
    t[h] = (double)weather->hour[h].t_air;
  *t_out = pw_k(pw_select(t, PW_HOURS, PW_HOURS / 100));
  free(t);
  return PW_OK;
}

pw_status pw_compare_make_rated(const pw_job *job, const pw_compare_fitted *f,
                                const pw_weather *weather, const pw_compare_options *options,
                                pw_compare_rated *r, pw_err *err)
{
  size_t n = job->n_opening;
  r->frames = (pw_frame_book){.section = options->section,
                              .n_section = options->n_section,
                              .mismatch = job->house.section_mismatch};
  r->code_place = options->code_place;
  r->t_in = pw_k(pw_positive_or(&job->house.heat_set_c, 20.0));
  r->t_design_out = options->t_design_out;
  pw_compare_window *existing = calloc(n, sizeof *existing);
  pw_compare_window *package = calloc(n * job->n_package, sizeof *package);
  r->existing = existing;
  r->package[0] = package;
  if (!existing || !package)
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the comparison");
  for (size_t p = 1; p < job->n_package; p++)
    r->package[p] = package + p * n;
  pw_status status = PW_OK;
  if (!(r->t_design_out > 0.0))
    status = pw_compare_design_night(weather, &r->t_design_out, err);
  if (status == PW_OK) status = rate_all(job, f, r, existing, package, err);
  if (status == PW_OK) status = pw_compare_minimum_find(job, weather, r, err);
  if (status == PW_OK) sum_sets(job, f, r);
  return status;
}

void pw_compare_rated_free(pw_compare_rated *r)
{
  free((void *)r->existing);
  free((void *)r->package[0]);
  pw_frame_book_free(&r->frames);
}
