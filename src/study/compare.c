#include "study/compare.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/date.h"
#include "base/select.h"
#include "climate/shade.h"
#include "house/covering.h"
#include "panewright/units.h"
#include "study/compare_impl.h"
#include "study/compare_price.h"
#include "window/frame_line.h"

/* Glass of a package, m2; what its frames and retained rings lose, W/K; the sun that all but its glass lets in, m2. */
static void glass_and_frame(const pw_compare *c, size_t p, double sum[3])
{
  sum[0] = sum[1] = sum[2] = 0.0;
  for (size_t i = 0; i < c->n_opening; i++) {
    if (!pw_compare_replaces(c, i)) continue;
    const pw_rating *r = &pw_compare_window_of(c, p, i)->rating;
    double n = (double)c->job->opening[i].quantity;
    sum[0] += n * r->glass_area;
    sum[1] += n * (r->ua.frame + r->ua.retained);
    sum[2] += n * r->shgc_opaque * (r->area - r->glass_area);
  }
}

/* The package that leaves the least glass, of equals the one whose frames lose least, of equals whose frames and
 * bars let in the least sun (bars between the panes stand behind its outer pane): its size is what a window of the
 * code would have, whichever package is listed first. */
static size_t least_glass(const pw_compare *c)
{
  size_t best = 0;
  double least[3], here[3];
  glass_and_frame(c, 0, least);
  for (size_t p = 1; p < c->n_package; p++) {
    glass_and_frame(c, p, here);
    /* a last digit is no difference; without any glass they are alike */
    double more = least[0] > 0.0 ? here[0] / least[0] - 1.0 : here[0];
    int equal = more > -1e-12 && here[1] == least[1];
    if (more > 1e-12 || (more > -1e-12 && here[1] > least[1]) || (equal && here[2] >= least[2]))
      continue;
    memcpy(least, here, sizeof least);
    best = p;
  }
  return best;
}

size_t pw_compare_minimum_windows(const pw_compare *c, pw_house_window window[])
{
  size_t size = least_glass(c), n = pw_compare_windows(c, (int)size, window);
  for (size_t i = 0; i < n; i++) {
    if (!pw_compare_replaces(c, i)) continue; /* it stays in every set */
    double area = pw_compare_window_of(c, size, i)->rating.area;
    pw_house_window *w = &window[i];
    w->glazing = &c->minimum_glass;
    pw_covering_of((pw_covering)c->job->opening[i].covering, c->job->opening[i].covering_of_all,
                   &c->minimum_glass, &w->covered);
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
  size_t n = 0;
  for (size_t i = 0; i < c->n_opening; i++) {
    c->covered |= c->job->opening[i].covering > PW_COVERING_NONE;
    if (c->job->opening[i].unconditioned) continue; /* in no wall of the house's energy */
    hole[n].facing_deg = c->job->opening[i].facing_deg;
    hole[n++].area = c->existing[i].rating.area * (double)c->job->opening[i].quantity;
  }
  pw_status status =
      pw_house_from_facts(&c->job->house, weather, hole, n, &c->house, &c->house_notes, err);
  free(hole);
  return status == PW_OK ? pw_compare_air(c, weather, err) : status;
}

static pw_status years(pw_compare *c, const pw_weather *weather,
                       const pw_compare_options *options, pw_year_workspace *workspace,
                       pw_err *err)
{
  const size_t n_set = c->n_package + 2;
  compare_lane lane[PW_COMPARE_PACKAGES_MAX + 2];
  pw_house_window *window = calloc(n_set * c->n_opening, sizeof *window);
  float(*hours)[2][PW_HOURS] = pw_compare_hourly(c) ? calloc(n_set, sizeof *hours) : NULL;
  if (!window || (pw_compare_hourly(c) && !hours)) {
    free(window);
    free(hours);
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the year");
  }
  for (size_t s = 0; s < n_set; s++) {
    pw_house_window *w = window + s * c->n_opening;
    pw_compare_set *set = s == 0   ? &c->existing_set
                          : s == 1 ? &c->minimum_set
                                   : &c->package_set[s - 2];
    lane[s] = (compare_lane){w, set, hours ? hours[s] : NULL};
    if (s == 1)
      pw_compare_minimum_windows(c, w);
    else
      pw_compare_windows(c, s == 0 ? -1 : (int)s - 2, w);
  }
  pw_status status = pw_compare_live(c, weather, options, workspace, lane, n_set, err);
  free(window);
  free(hours);
  return status;
}

/* The kind of old frame that most of the openings' area has. */
static pw_frame_kind usual_frame(const pw_compare *c)
{
  double area[PW_FRAME_KIND_COUNT] = {0};
  size_t most = 0;
  for (size_t i = 0; i < c->n_opening; i++)
    if (pw_compare_replaces(c, i))
      area[c->job->opening[i].existing_frame] +=
          (double)c->job->opening[i].quantity * c->existing[i].rating.area;
  for (size_t k = 1; k < PW_FRAME_KIND_COUNT; k++)
    if (area[k] > area[most]) most = k;
  return (pw_frame_kind)most;
}

/* The savings between two sets, held to the bill that the job gives. */
static pw_status savings(pw_compare *c, double cost_before, pw_compare_set *set, pw_err *err)
{
  const pw_compare_set *now = &c->existing_set;
  double given = pw_given_or(&c->job->house.bill_year, 0.0);
  pw_status status =
      pw_saving_of(&now->needs, &now->bill, &set->needs, &set->bill, given, &set->saving, err);
  if (status != PW_OK || !(cost_before > 0.0 && given > 0.0)) return status;
  const pw_saving held = {.bill_ratio = cost_before / given};
  set->saving.notes &= ~(unsigned)(PW_BILL_SCALED | PW_BILL_FAR_FROM_GIVEN);
  pw_saving_hold(&held, &set->saving);
  return PW_OK;
}

static pw_status price_and_worth(pw_compare *c, const pw_compare_options *options,
                                 double cost_before, pw_err *err)
{
  const pw_house_facts *facts = &c->job->house;
  pw_date placed = 0;
  pw_status dated = pw_date_read(facts->install_date, &placed, err);
  if (dated != PW_OK) return dated;
  c->residual_life = pw_residual_life(usual_frame(c), facts->year_built, placed / 10000);
  for (size_t p = 0; p < c->n_package; p++) {
    pw_compare_set *set = &c->package_set[p];
    const pw_package *package = &c->job->package[p];
    pw_status status = savings(c, cost_before, set, err);
    if (status == PW_OK)
      status = pw_saving_of(&c->minimum_set.needs, &c->minimum_set.bill, &set->needs,
                            &set->bill, 0.0, &set->saving_minimum, err);
    if (status == PW_OK) pw_saving_hold(&set->saving, &set->saving_minimum);
    if (status == PW_OK) status = pw_compare_price(c, p, NULL, &set->parts, err);
    if (status == PW_OK) set->price = set->parts.value;
    if (status == PW_OK && set->price > 0.0) {
      const pw_frame_line *line =
          pw_frame_line_pick(c->job->frame_line, c->job->n_frame_line, package->frame_line,
                             c->job->opening[0].operator_insert);
      set->invest = (pw_invest){
          .price = set->price,
          .incentive = fmin(options->incentive[p], set->price),
          .saving_year = set->saving.cost_year,
          .residual = c->residual_life.value,
          .escalation = pw_given_or(&facts->escalation, 0.0),
          .discount = pw_given_or(&facts->discount, 0.0),
          .horizon = pw_positive_or(&facts->horizon_years, PW_YEARS_DEFAULT),
          .life = pw_positive_or(&facts->window_life_years,
                                 pw_window_life(line ? line->kind : PW_FRAME_VINYL).value),
      };
      status = pw_worth_of(&set->invest, &set->worth, err);
    }
    if (status != PW_OK) return pw_compare_blame(status, err, "package", package->name);
  }
  return savings(c, cost_before, &c->minimum_set, err);
}

/* The common unit that carries the code's figures (its own U and SHGC are replaced): of the usual
 * coatings the first that lets in as much sun as the code allows, else clear glass. */
static pw_status minimum_glass(pw_compare *c, const pw_weather *weather, pw_err *err)
{
  static const char *const coating[] = {"ag2", "ag1", "ag1_high", "pyr20", ""};
  for (size_t i = 0; i < c->n_opening; i++)
    if (pw_compare_replaces(c, i))
      c->code_place.area += (double)c->job->opening[i].quantity * c->existing[i].rating.area;
  pw_status status = pw_code_limits_find(&c->code_place, &c->code, err);
  if (status == PW_OK)
    status = pw_code_minimum_at(&c->code_place, &c->code, weather, &c->minimum, err);
  double share = 1.0; /* least glass of an opening */
  size_t size = least_glass(c);
  for (size_t i = 0; i < c->n_opening; i++) {
    const pw_rating *r = &pw_compare_window_of(c, size, i)->rating;
    if (!pw_compare_replaces(c, i)) continue;
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
  *m = c->package_set[least_glass(c)];
  snprintf(m->name, sizeof m->name, "code minimum");
  m->areas = m->ua = (pw_parts){0};
  m->u = c->minimum.u;
  m->shgc = c->minimum.shgc;
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

static pw_status chain(pw_compare *c, const pw_weather *weather,
                       const pw_compare_options *options, pw_year_workspace *workspace,
                       pw_err *err)
{
  pw_status status = pw_compare_build_glass(c, err);
  if (status == PW_OK) status = pw_compare_fit_all(c, err);
  if (status == PW_OK) status = pw_compare_rate_all(c, err);
  if (status == PW_OK) status = pw_cautions_find(c->job, c->fit, &c->cautions, err);
  if (status == PW_OK) status = minimum_glass(c, weather, err);
  if (status == PW_OK) status = house_of(c, weather, err);
  if (status == PW_OK)
    status = pw_rates_of_house(&c->job->house, options->tariff, &c->rates, err);
  if (status != PW_OK) return status;
  pw_compare_ducts(c, weather);
  sum_sets(c);
  status = years(c, weather, options, workspace, err);
  for (size_t p = 0; status == PW_OK && p < c->n_package; p++)
    status = pw_compare_joints(c, p, weather, err);
  double cost_before = 0.0;
  if (status == PW_OK && pw_compare_is_later(c))
    status = pw_compare_cost_before(c, weather, options, workspace, &cost_before, err);
  return status == PW_OK ? price_and_worth(c, options, cost_before, err) : status;
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
  out->frames = (pw_frame_book){.section = options->section,
                                .n_section = options->n_section,
                                .mismatch = job->house.section_mismatch};
  out->code_place = options->code_place;
  out->code_place.area = 0.0;
  out->t_in = pw_k(pw_positive_or(&job->house.heat_set_c, 20.0));
  out->t_design_out = options->t_design_out;
  size_t n = job->n_opening, np = n * job->n_package;
  out->existing_glass = calloc(n, sizeof *out->existing_glass);
  out->glass_at = calloc(np, sizeof *out->glass_at);
  out->fit = calloc(np, sizeof *out->fit);
  out->existing = calloc(n, sizeof *out->existing);
  out->package = calloc(np, sizeof *out->package);
  pw_status status = PW_OK;
  if (!out->existing_glass || !out->glass_at || !out->fit || !out->existing || !out->package)
    status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for the comparison");
  if (status == PW_OK && !(options->t_design_out > 0.0))
    status = pw_compare_design_night(weather, &out->t_design_out, err);
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
  free(compare->air_shape);
  free(compare->existing_glass);
  free(compare->package_glass);
  free(compare->package_buildup);
  free(compare->glass_at);
  free(compare->fit);
  free(compare->existing);
  free(compare->package);
  pw_cautions_free(&compare->cautions);
  pw_frame_book_free(&compare->frames);
  memset(compare, 0, sizeof *compare);
}
