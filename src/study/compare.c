#include "panewright/compare.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "panewright/frame_line.h"
#include "panewright/shade.h"
#include "panewright/units.h"
#include "study/compare_impl.h"

/* Rating wind of the winter condition, on the design night too (NFRC 100, from memory). */
static const double design_wind = 5.5;
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

static pw_status with_name(pw_status status, pw_err *err, const char *kind, const char *name)
{
  if (status == PW_OK || !err) return status;
  char text[sizeof err->text];
  memcpy(text, err->text, sizeof text);
  snprintf(err->text, sizeof err->text, "%s %.48s: %.300s", kind, name, text);
  return status;
}

static pw_status build_glass(pw_compare *c, pw_err *err)
{
  const pw_job *job = c->job;
  for (size_t i = 0; i < c->n_opening; i++) {
    size_t same = 0;
    while (same < i && strcmp(job->opening[same].existing_glass_text,
                              job->opening[i].existing_glass_text) != 0)
      same++;
    if (same < i) {
      c->existing_glass[i] = c->existing_glass[same];
      continue;
    }
    pw_status status =
        pw_glazing_build(&job->opening[i].existing_glass, &c->existing_glass[i], err);
    if (status != PW_OK) return with_name(status, err, "opening", job->opening[i].tag);
  }
  for (size_t p = 0; p < c->n_package; p++) {
    pw_status status = pw_glazing_build(&job->package[p].glass, &c->package_glass[p], err);
    if (status != PW_OK) return with_name(status, err, "package", job->package[p].name);
  }
  return PW_OK;
}

static pw_status fit_all(pw_compare *c, pw_err *err)
{
  const pw_job *job = c->job;
  for (size_t p = 0; p < c->n_package; p++)
    for (size_t i = 0; i < c->n_opening; i++) {
      const pw_opening *o = &job->opening[i];
      const pw_frame_line *line = pw_frame_line_pick(
          job->frame_line, job->n_frame_line, job->package[p].frame_line, o->operator_insert);
      if (!line)
        return pw_fail(err, PW_E_DATA, "frame_line",
                       "package %s: no frame line '%s' for opening %s", job->package[p].name,
                       job->package[p].frame_line, o->tag);
      pw_status status = pw_fit_opening(o, line, &c->fit[p * c->n_opening + i], err);
      if (status != PW_OK) return with_name(status, err, "opening", o->tag);
    }
  return PW_OK;
}

static double light(const pw_rating *rating, const pw_glazing *glazing)
{
  return rating->glass_area * glazing->light.t_vis[0];
}

static pw_status rate_all(pw_compare *c, const pw_compare_frames *frames, pw_err *err)
{
  const pw_job *job = c->job;
  for (size_t i = 0; i < c->n_opening; i++) {
    const pw_opening *o = &job->opening[i];
    pw_compare_window *now = &c->existing[i];
    const pw_frame_values *values = frames && frames->existing ? &frames->existing[i] : NULL;
    pw_status status = pw_rating_existing(o, pw_compare_fit(c, 0, i), &c->existing_glass[i],
                                          values, &now->rating, err);
    if (status == PW_OK)
      status = pw_sweat_window(&c->existing_glass[i].unit, &now->rating, c->t_in,
                               c->t_design_out, design_wind, 0.0, &now->sweat, err);
    if (status != PW_OK) return with_name(status, err, "opening", o->tag);
    now->glass_kept = now->light_kept = 1.0;
    for (size_t p = 0; p < c->n_package; p++) {
      const pw_package *package = &job->package[p];
      const pw_frame_line *line = pw_frame_line_pick(job->frame_line, job->n_frame_line,
                                                     package->frame_line, o->operator_insert);
      pw_compare_window *w = &c->package[p * c->n_opening + i];
      values = frames && frames->insert ? &frames->insert[p * c->n_opening + i] : NULL;
      status = pw_rating_insert(pw_compare_fit(c, p, i), package, line, &c->package_glass[p],
                                values, &w->rating, err);
      if (status == PW_OK)
        status = pw_sweat_window(&c->package_glass[p].unit, &w->rating, c->t_in,
                                 c->t_design_out, design_wind, 0.0, &w->sweat, err);
      if (status != PW_OK) return with_name(status, err, "opening", o->tag);
      w->glass_kept = w->rating.glass_area / now->rating.glass_area;
      w->light_kept =
          light(&w->rating, &c->package_glass[p]) / light(&now->rating, &c->existing_glass[i]);
    }
  }
  return PW_OK;
}

void pw_compare_house_window(const pw_opening *opening, const pw_lites *lites,
                             const pw_rating *rating, const pw_glazing *glazing,
                             pw_house_window *window)
{
  double moving = 0.0, glass = 0.0;
  for (size_t i = 0; i < lites->n_lite; i++) {
    double a = lites->lite[i].width * lites->lite[i].height;
    glass += a;
    if (lites->lite[i].moving) moving += a;
  }
  double passed = pw_screen_factor(0.0, screen_wire_reflectance, 0.5);
  double covered = opening->screen && glass > 0.0 ? moving / glass : 0.0;
  double height = lites->n_lite ? lites->lite[0].height : 0.0;
  if (lites->n_meeting && !lites->meeting_upright) /* hung: both sashes and the rail between */
    height = 2.0 * height + lites->meeting_width;
  *window = (pw_house_window){
      .facing_deg = opening->facing_deg,
      .area_glass = rating->glass_area,
      .height = height,
      .width = height > 0.0 ? rating->glass_area / height : 0.0,
      .glazing = glazing,
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
  };
}

size_t pw_compare_windows(const pw_compare *c, int package, pw_house_window window[])
{
  for (size_t i = 0; i < c->n_opening; i++) {
    const pw_opening *o = &c->job->opening[i];
    if (package < 0)
      pw_compare_house_window(o, &pw_compare_fit(c, 0, i)->existing, &c->existing[i].rating,
                              &c->existing_glass[i], &window[i]);
    else
      pw_compare_house_window(o, &pw_compare_fit(c, (size_t)package, i)->insert,
                              &pw_compare_window_of(c, (size_t)package, i)->rating,
                              &c->package_glass[package], &window[i]);
  }
  return c->n_opening;
}

/* Windows of the first package's size with the U of the code, and its SHGC where it sets one: the
 * heat beside the glass and the sun let in are moved to what the code asks for. */
static size_t minimum_windows(const pw_compare *c, pw_house_window window[])
{
  size_t n = pw_compare_windows(c, 0, window);
  for (size_t i = 0; i < n; i++) {
    double area = pw_compare_window_of(c, 0, i)->rating.area;
    pw_house_window *w = &window[i];
    w->glazing = &c->minimum_glass;
    w->ua_other = c->minimum.u * area - c->minimum_glass.u_winter * w->area_glass;
    if (isfinite(c->minimum.shgc)) {
      double glass_sun = c->minimum_glass.shgc[0] * w->area_glass;
      double wanted = c->minimum.shgc * area;
      w->screen *= fmin(1.0, wanted / glass_sun);
      w->solar_other =
          fmax(0.0, wanted - glass_sun); /* more sun than the glass alone lets in */
    }
  }
  return n;
}

static void add_parts(pw_parts *sum, const pw_parts *part, double times)
{
  sum->center += times * part->center;
  sum->edge += times * part->edge;
  sum->frame += times * part->frame;
  sum->divider += times * part->divider;
  sum->retained += times * part->retained;
}

static double first_to_sweat(const pw_sweat *sweat)
{
  double rh = fmin(sweat->center.rh, fmin(sweat->edge.rh, sweat->frame.rh));
  return isfinite(sweat->retained.t) ? fmin(rh, sweat->retained.rh) : rh;
}

void pw_compare_sum(const pw_compare *c, int package, pw_compare_set *set)
{
  double sun = 0.0, seen = 0.0, lit = 0.0, lit_now = 0.0, glass_now = 0.0;
  set->sweat_rh = 2.0;
  for (size_t i = 0; i < c->n_opening; i++) {
    double times = (double)c->job->opening[i].quantity;
    const pw_compare_window *w =
        package < 0 ? &c->existing[i] : pw_compare_window_of(c, (size_t)package, i);
    const pw_glazing *glass = package < 0 ? &c->existing_glass[i] : &c->package_glass[package];
    add_parts(&set->areas, &w->rating.areas, times);
    add_parts(&set->ua, &w->rating.ua, times);
    set->area += times * w->rating.area;
    set->glass_area += times * w->rating.glass_area;
    sun += times * w->rating.shgc * w->rating.area;
    seen += times * w->rating.vt * w->rating.area;
    lit += times * light(&w->rating, glass);
    lit_now += times * light(&c->existing[i].rating, &c->existing_glass[i]);
    glass_now += times * c->existing[i].rating.glass_area;
    double rh = first_to_sweat(&w->sweat);
    if (rh < set->sweat_rh) {
      set->sweat_rh = rh;
      set->sweat_opening = i;
    }
  }
  const pw_parts *ua = &set->ua;
  set->u = (ua->center + ua->edge + ua->frame + ua->divider + ua->retained) / set->area;
  set->shgc = sun / set->area;
  set->vt = seen / set->area;
  set->glass_kept = set->glass_area / glass_now;
  set->light_kept = lit / lit_now;
}

void pw_compare_needs(const pw_year_result *year, pw_needs *needs)
{
  *needs = (pw_needs){0};
  for (size_t m = 0; m < 12; m++) {
    needs->heating_kwh[m] = fmax(0.0, year->heating_month_kwh[m]);
    needs->cooling_kwh[m] = fmax(0.0, year->cooling_month_kwh[m]);
  }
}

static pw_status house_of(pw_compare *c, const pw_weather *weather, pw_err *err)
{
  pw_house_hole *hole = calloc(c->n_opening, sizeof *hole);
  if (!hole) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the openings");
  for (size_t i = 0; i < c->n_opening; i++) {
    hole[i].facing_deg = c->job->opening[i].facing_deg;
    hole[i].area = c->existing[i].rating.area * (double)c->job->opening[i].quantity;
  }
  pw_status status = pw_house_from_facts(&c->job->house, weather, hole, c->n_opening, &c->house,
                                         &c->house_notes, err);
  free(hole);
  return status;
}

/* A year of one set and its bill. With hourly prices the needs carry their hours. */
static pw_status live(pw_compare *c, const pw_weather *weather,
                      const pw_compare_options *options, pw_year_workspace *workspace,
                      const pw_house_window window[], float hours[2][PW_HOURS],
                      pw_compare_set *set, pw_err *err)
{
  pw_year_hours want = {.heating_w = hours ? hours[0] : NULL,
                        .cooling_w = hours ? hours[1] : NULL};
  pw_year_options year = {.method = options->method, .hours = hours ? &want : NULL};
  pw_status status =
      pw_year_run(&c->house, weather, window, c->n_opening, &year, workspace, &set->year, err);
  if (status != PW_OK) return with_name(status, err, "year with", set->name);
  pw_compare_needs(&set->year, &set->needs);
  double *kwh = NULL;
  if (hours && options->method != PW_YEAR_QUICK) {
    kwh = malloc(2 * sizeof *kwh * PW_HOURS);
    if (!kwh) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the hours");
    for (size_t h = 0; h < PW_HOURS; h++) {
      kwh[h] = (double)hours[0][h] / 1000.0;
      kwh[PW_HOURS + h] = (double)hours[1][h] / 1000.0;
    }
    set->needs.heating_hour_kwh = kwh;
    set->needs.cooling_hour_kwh = kwh + PW_HOURS;
  }
  status = pw_bill_of(&set->needs, &c->rates, &set->bill, err);
  set->needs.heating_hour_kwh = set->needs.cooling_hour_kwh = NULL;
  free(kwh);
  return with_name(status, err, "bill with", set->name);
}

static int hourly_prices(const pw_compare_options *options)
{
  for (size_t f = 0; options->tariff && f < PW_FUEL_COUNT; f++)
    if (options->tariff[f]) return 1;
  return 0;
}

static pw_status years(pw_compare *c, const pw_weather *weather,
                       const pw_compare_options *options, pw_year_workspace *workspace,
                       pw_err *err)
{
  pw_house_window *window = calloc(c->n_opening, sizeof *window);
  float(*hours)[PW_HOURS] = hourly_prices(options) ? calloc(2, sizeof *hours) : NULL;
  if (!window || (hourly_prices(options) && !hours)) {
    free(window);
    free(hours);
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the year");
  }
  pw_compare_windows(c, -1, window);
  pw_status status = live(c, weather, options, workspace, window, hours, &c->existing_set, err);
  if (status == PW_OK) {
    minimum_windows(c, window);
    status = live(c, weather, options, workspace, window, hours, &c->minimum_set, err);
  }
  for (size_t p = 0; status == PW_OK && p < c->n_package; p++) {
    pw_compare_windows(c, (int)p, window);
    status = live(c, weather, options, workspace, window, hours, &c->package_set[p], err);
  }
  free(window);
  free(hours);
  return status;
}

static double given_or(const pw_given *given, double otherwise)
{
  return isfinite(given->value) && given->value > 0.0 ? given->value : otherwise;
}

static pw_status price_and_worth(pw_compare *c, const pw_compare_options *options, pw_err *err)
{
  const pw_house_facts *facts = &c->job->house;
  double n = 0.0, area = 0.0;
  for (size_t i = 0; i < c->n_opening; i++) {
    n += (double)c->job->opening[i].quantity;
    area += (double)c->job->opening[i].quantity * c->existing[i].rating.area;
  }
  for (size_t p = 0; p < c->n_package; p++) {
    pw_compare_set *set = &c->package_set[p];
    const pw_package *package = &c->job->package[p];
    pw_status status = pw_saving_of(&c->existing_set.needs, &c->existing_set.bill, &set->needs,
                                    &set->bill, facts->bill_year.value, &set->saving, err);
    if (status ==
        PW_OK) /* the bill given is of the existing house, so it does not bound this one */
      status = pw_saving_of(&c->minimum_set.needs, &c->minimum_set.bill, &set->needs,
                            &set->bill, 0.0, &set->saving_minimum, err);
    if (status == PW_OK)
      status = pw_installed_price(package->price_per_opening.value,
                                  package->price_per_area.value, n, area, &set->price, err);
    if (status == PW_OK && set->price > 0.0) {
      const pw_frame_line *line =
          pw_frame_line_pick(c->job->frame_line, c->job->n_frame_line, package->frame_line,
                             c->job->opening[0].operator_insert);
      pw_invest invest = {
          .price = set->price,
          .incentive = fmin(options->incentive[p], set->price),
          .saving_year = set->saving.cost_year,
          .escalation = facts->escalation.value,
          .discount = facts->discount.value,
          .horizon = given_or(&facts->horizon_years, PW_YEARS_DEFAULT),
          .life = given_or(&facts->window_life_years,
                           pw_window_life(line ? line->kind : PW_FRAME_VINYL).value),
      };
      status = pw_worth_of(&invest, &set->worth, err);
    }
    if (status != PW_OK) return with_name(status, err, "package", package->name);
  }
  return pw_saving_of(&c->existing_set.needs, &c->existing_set.bill, &c->minimum_set.needs,
                      &c->minimum_set.bill, facts->bill_year.value, &c->minimum_set.saving,
                      err);
}

/* The common unit that carries the code's figures (its own U and SHGC are replaced): of the usual
 * coatings the first that lets in as much sun as the code allows, else clear glass. */
static pw_status minimum_glass(pw_compare *c, const pw_weather *weather, pw_err *err)
{
  static const char *const coating[] = {"ag2", "ag1", "ag1_high", "pyr20", ""};
  pw_status status = pw_code_minimum_find(weather, &c->minimum, err);
  double share = 1.0; /* least glass of an opening */
  for (size_t i = 0; i < c->n_opening; i++) {
    const pw_rating *r = &pw_compare_window_of(c, 0, i)->rating;
    share = fmin(share, r->glass_area / r->area);
  }
  for (size_t k = 0; status == PW_OK && k < sizeof coating / sizeof coating[0]; k++) {
    pw_buildup b = {.n_pane = 2};
    for (size_t i = 0; i < 2; i++) {
      b.pane[i].thickness = 0.003;
      memcpy(b.pane[i].kind, "clear", sizeof "clear");
    }
    snprintf(b.pane[0].coating[1], sizeof b.pane[0].coating[1], "%s", coating[k]);
    b.gap[0].thickness = 0.0127;
    b.gap[0].mix.share[PW_ARGON] = 0.9;
    b.gap[0].mix.share[PW_AIR] = 0.1;
    status = pw_glazing_build(&b, &c->minimum_glass, err);
    if (!isfinite(c->minimum.shgc) || c->minimum_glass.shgc[0] * share >= c->minimum.shgc)
      break;
  }
  return status;
}

static void sum_sets(pw_compare *c)
{
  snprintf(c->existing_set.name, sizeof c->existing_set.name, "existing");
  pw_compare_sum(c, -1, &c->existing_set);
  for (size_t p = 0; p < c->n_package; p++) {
    snprintf(c->package_set[p].name, sizeof c->package_set[p].name, "%s",
             c->job->package[p].name);
    pw_compare_sum(c, (int)p, &c->package_set[p]);
  }
  pw_compare_set *m = &c->minimum_set;
  *m = c->package_set[0];
  snprintf(m->name, sizeof m->name, "code minimum");
  m->areas = m->ua = (pw_parts){0};
  m->u = c->minimum.u;
  m->shgc = c->minimum.shgc;
  m->vt = (double)NAN;
  m->light_kept = m->sweat_rh = (double)NAN;
}

static int compare_float(const void *a, const void *b)
{
  float x = *(const float *)a, y = *(const float *)b;
  return (x > y) - (x < y);
}

double pw_compare_design_night(const pw_weather *weather)
{
  float *t = malloc(PW_HOURS * sizeof *t);
  if (!t) return (double)NAN;
  for (size_t h = 0; h < PW_HOURS; h++)
    t[h] = weather->hour[h].t_air;
  qsort(t, PW_HOURS, sizeof *t, compare_float);
  double cold = (double)t[PW_HOURS / 100];
  free(t);
  return pw_k(cold);
}

static pw_status chain(pw_compare *c, const pw_weather *weather,
                       const pw_compare_options *options, pw_year_workspace *workspace,
                       pw_err *err)
{
  pw_status status = build_glass(c, err);
  if (status == PW_OK) status = fit_all(c, err);
  if (status == PW_OK) status = rate_all(c, options->frames, err);
  if (status == PW_OK) status = pw_cautions_find(c->job, c->fit, &c->cautions, err);
  if (status == PW_OK) status = minimum_glass(c, weather, err);
  if (status == PW_OK) status = house_of(c, weather, err);
  if (status == PW_OK)
    status = pw_rates_of_house(&c->job->house, options->tariff, &c->rates, err);
  if (status != PW_OK) return status;
  sum_sets(c);
  status = years(c, weather, options, workspace, err);
  return status == PW_OK ? price_and_worth(c, options, err) : status;
}

pw_status pw_compare_run(const pw_job *job, const pw_weather *weather,
                         const pw_compare_options *options, pw_year_workspace *workspace,
                         pw_compare *out, pw_err *err)
{
  static const pw_compare_options defaults = {0};
  if (!options) options = &defaults;
  memset(out, 0, sizeof *out);
  if (job->n_opening < 1 || job->n_opening > PW_WINDOWS_MAX)
    return pw_fail(err, PW_E_SHAPE, "openings",
                   "%zu openings, want 1 to %d rows (use quantity)", job->n_opening,
                   PW_WINDOWS_MAX);
  if (job->n_package < 1 || job->n_package > PW_COMPARE_PACKAGES_MAX)
    return pw_fail(err, PW_E_SHAPE, "packages", "%zu packages, want 1 to %d", job->n_package,
                   PW_COMPARE_PACKAGES_MAX);
  out->job = job;
  out->n_opening = job->n_opening;
  out->n_package = job->n_package;
  out->t_in = pw_k(given_or(&job->house.heat_set_c, 20.0));
  out->t_design_out =
      options->t_design_out > 0.0 ? options->t_design_out : pw_compare_design_night(weather);
  size_t n = job->n_opening, np = n * job->n_package;
  out->existing_glass = calloc(n, sizeof *out->existing_glass);
  out->package_glass = calloc(job->n_package, sizeof *out->package_glass);
  out->fit = calloc(np, sizeof *out->fit);
  out->existing = calloc(n, sizeof *out->existing);
  out->package = calloc(np, sizeof *out->package);
  pw_status status = PW_OK;
  if (!out->existing_glass || !out->package_glass || !out->fit || !out->existing ||
      !out->package)
    status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for the comparison");
  pw_year_workspace *own = NULL;
  if (status == PW_OK && !workspace) {
    workspace = own = pw_year_workspace_new();
    if (!own) status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for the year");
  }
  if (status == PW_OK) status = chain(out, weather, options, workspace, err);
  pw_year_workspace_free(own);
  if (status != PW_OK) pw_compare_free(out);
  return status;
}

void pw_compare_free(pw_compare *compare)
{
  if (!compare) return;
  free(compare->existing_glass);
  free(compare->package_glass);
  free(compare->fit);
  free(compare->existing);
  free(compare->package);
  pw_cautions_free(&compare->cautions);
  memset(compare, 0, sizeof *compare);
}
