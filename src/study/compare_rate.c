/* The comparison up to the rated windows: glass built, openings fitted, both windows rated over the
 * same rectangle, sums over the house. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "climate/shade.h"
#include "house/airing.h"
#include "house/covering.h"
#include "study/compare_impl.h"
#include "window/fit_job.h"
#include "window/opening_package.h"

/* Sun a fine insect screen takes from the light that falls through it: wire reflectance of dark
 * glass-fibre mesh, assumed. */
static const double screen_wire_reflectance = 0.2;

const pw_fit *pw_compare_fit(const pw_compare *compare, size_t package, size_t opening)
{
  return &compare->fit[package * compare->n_opening + opening];
}

const pw_compare_window *pw_compare_window_of(const pw_compare *compare, size_t package,
                                              size_t opening)
{
  return &compare->package[package * compare->n_opening + opening];
}

pw_status pw_compare_blame(pw_status status, pw_err *err, const char *kind, const char *name)
{
  if (status == PW_OK || !err) return status;
  char text[sizeof err->text];
  memcpy(text, err->text, sizeof text);
  snprintf(err->text, sizeof err->text, "%s %.48s: %.300s", kind, name, text);
  return status;
}

pw_status pw_compare_fit_all(pw_compare *c, pw_err *err)
{
  pw_status status = PW_OK;
  for (size_t p = 0; status == PW_OK && p < c->n_package; p++)
    status = pw_fit_job(c->job, p, &c->fit[p * c->n_opening], err);
  return status;
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
static pw_status rate_insert(pw_compare *c, size_t p, size_t i, const pw_glazing *glass,
                             pw_compare_window *w, pw_err *err)
{
  const pw_opening *o = &c->job->opening[i];
  const pw_frame_line *line = pw_opening_line(c->job, p, o);
  const pw_fit *fit = pw_compare_fit(c, p, i);
  pw_frame_values values;
  pw_package package;
  pw_opening_package(c->job, p, o, &package);
  pw_status status = pw_frames_insert(&c->frames, line, &package, fit, glass, &values, err);
  if (status == PW_OK)
    status = pw_rating_insert(fit, &package, line, glass, &values, &w->rating, err);
  if (status == PW_OK) status = pw_compare_sweat(glass, c->t_in, c->t_design_out, w, err);
  return status;
}

/* The window that is there: the old one, or the insert of an earlier phase. */
static pw_status rate_existing(pw_compare *c, size_t i, pw_compare_window *now, pw_err *err)
{
  const pw_opening *o = &c->job->opening[i];
  const pw_fit *fit = pw_compare_fit(c, 0, i);
  pw_frame_values values;
  if (o->standing == PW_DONE) return rate_insert(c, 0, i, &c->existing_glass[i], now, err);
  pw_status status =
      pw_frames_existing(&c->frames, o, fit, &c->existing_glass[i], &values, err);
  if (status == PW_OK)
    status = pw_rating_existing(o, fit, &c->existing_glass[i], &values, &now->rating, err);
  if (status == PW_OK)
    status = pw_compare_sweat(&c->existing_glass[i], c->t_in, c->t_design_out, now, err);
  return status;
}

pw_status pw_compare_rate_all(pw_compare *c, pw_err *err)
{
  for (size_t i = 0; i < c->n_opening; i++) {
    pw_compare_window *now = &c->existing[i];
    pw_status status = rate_existing(c, i, now, err);
    now->glass_kept = now->light_kept = 1.0;
    for (size_t p = 0; status == PW_OK && p < c->n_package; p++) {
      pw_compare_window *w = &c->package[p * c->n_opening + i];
      const pw_glazing *glass = pw_compare_glass(c, (int)p, i);
      *w = *now; /* a window that stays */
      if (!pw_compare_replaces(c, i)) continue;
      *w = (pw_compare_window){0};
      status = rate_insert(c, p, i, glass, w, err);
      if (status == PW_OK) pw_compare_kept(now, &c->existing_glass[i], w, glass);
    }
    if (status != PW_OK)
      return pw_compare_blame(status, err, "opening", c->job->opening[i].tag);
  }
  return PW_OK;
}

void pw_compare_house_window(const pw_opening *opening, const pw_lites *lites,
                             const pw_rating *rating, const pw_glazing *glazing,
                             pw_house_window *window)
{
  double moving = 0.0, glass = 0.0;
  for (size_t i = 0; i < lites->n_lite; i++) {
    double a = pw_lite_area(&lites->lite[i]);
    glass += a;
    if (lites->lite[i].moving) moving += a;
  }
  double passed = pw_screen_factor(0.0, screen_wire_reflectance, 0.5);
  double covered = opening->screen && glass > 0.0 ? moving / glass : 0.0;
  double height = lites->n_lite ? lites->lite[0].height : 0.0;
  pw_openable open;
  pw_openable_of(lites, 0, &open);
  if (lites->n_meeting && !lites->meeting_upright) /* hung: both sashes and the rail between */
    height = 2.0 * height + lites->meeting_width;
  *window = (pw_house_window){
      .facing_deg = opening->facing_deg,
      .area_glass = rating->glass_area,
      .height = height,
      .width = height > 0.0 ? rating->glass_area / height : 0.0,
      .glazing = glazing,
      .area_other = rating->areas.frame + rating->areas.divider + rating->areas.retained,
      .ua_other = rating->ua.edge - glazing->u_winter * rating->areas.edge + rating->ua.frame +
                  rating->ua.divider + rating->ua.retained,
      .solar_other = rating->shgc_opaque *
                     (rating->areas.frame + rating->areas.divider + rating->areas.retained),
      .overhang_depth = opening->overhang_depth,
      .overhang_gap = opening->overhang_gap,
      .reveal_depth = opening->reveal_depth,
      .screen = 1.0 - covered * (1.0 - passed),
      .shade_factor = opening->shade_factor,
      .count = opening->quantity,
      .open_area = (opening->screen ? pw_airing_screen() : 1.0) * open.area,
      .open_height = open.height,
  };
  pw_covering_of((pw_covering)opening->covering, opening->covering_of_all, glazing,
                 &window->covered);
}

const pw_rating *pw_compare_rating(const pw_compare *c, int package, size_t opening)
{
  return package < 0 ? &c->existing[opening].rating
                     : &pw_compare_window_of(c, (size_t)package, opening)->rating;
}

int pw_compare_is_stuck(const pw_compare *c, int package, size_t opening)
{
  return c->job->opening[opening].sash_leak == PW_SASH_STUCK &&
         pw_compare_is_old(c, package, opening);
}

size_t pw_compare_windows(const pw_compare *c, int package, pw_house_window window[])
{
  for (size_t i = 0; i < c->n_opening; i++) {
    pw_compare_house_window(&c->job->opening[i], pw_compare_lites(c, package, i),
                            pw_compare_rating(c, package, i), pw_compare_glass(c, package, i),
                            &window[i]);
    if (pw_compare_is_stuck(c, package, i)) window[i].open_area = 0.0;
  }
  return c->n_opening;
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

static double can_open(const pw_compare *c, int package, size_t i)
{
  pw_openable open;
  pw_openable_of(pw_compare_lites(c, package, i), pw_compare_is_stuck(c, package, i), &open);
  return open.area;
}

void pw_compare_sum(const pw_compare *c, int package, pw_compare_set *set)
{
  double sun = 0.0, seen = 0.0, lit = 0.0, lit_now = 0.0, glass_now = 0.0, old = 0.0;
  set->sweat_rh = 2.0;
  set->aired = c->house.airing.hours != 0;
  for (size_t i = 0; i < c->n_opening; i++) {
    double times = (double)c->job->opening[i].quantity;
    const pw_compare_window *w =
        package < 0 ? &c->existing[i] : pw_compare_window_of(c, (size_t)package, i);
    const pw_glazing *glass = pw_compare_glass(c, package, i);
    add_parts(&set->areas, &w->rating.areas, times);
    add_parts(&set->ua, &w->rating.ua, times);
    set->area += times * w->rating.area;
    set->glass_area += times * w->rating.glass_area;
    sun += times * w->rating.shgc * w->rating.area;
    if (pw_compare_is_old(c, package, i)) {
      add_parts(&set->ua_old, &w->rating.ua, times);
      old += times * w->rating.shgc * w->rating.area;
    }
    seen += times * w->rating.vt * w->rating.area;
    lit += times * light(&w->rating, glass);
    lit_now += times * light(&c->existing[i].rating, &c->existing_glass[i]);
    glass_now += times * c->existing[i].rating.glass_area;
    if (!c->job->opening[i].unconditioned) set->open_area += times * can_open(c, package, i);
    double rh = pw_compare_first_to_sweat(&w->sweat);
    if (!c->job->opening[i].unconditioned && rh < set->sweat_rh) {
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
