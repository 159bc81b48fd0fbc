/* The comparison, third stage: the house and its year with each set of windows, side by side. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "study/compare_impl.h"

int pw_compare_hourly(const pw_tariff *const tariff[PW_FUEL_COUNT])
{
  for (size_t f = 0; tariff && f < PW_FUEL_COUNT; f++)
    if (tariff[f]) return 1;
  return 0;
}

static pw_status house_of(const pw_job *job, const pw_compare_rated *rated,
                          const pw_weather *weather, pw_compare_lived *l, pw_err *err)
{
  pw_house_hole *hole = calloc(job->n_opening, sizeof *hole);
  if (!hole) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the openings");
  size_t n = 0;
  for (size_t i = 0; i < job->n_opening; i++) {
    l->covered |= job->opening[i].covering > PW_COVERING_NONE;
    if (job->opening[i].unconditioned) continue; /* in no wall of the house's energy */
    hole[n].facing_deg = job->opening[i].facing_deg;
    hole[n++].area = rated->existing[i].rating.area * (double)job->opening[i].quantity;
  }
  pw_status status =
      pw_house_from_facts(&job->house, weather, hole, n, &l->house, &l->house_notes, err);
  free(hole);
  return status == PW_OK ? pw_compare_air(&job->house, rated->t_in, weather, l, err) : status;
}

/* Each window's year put back to its opening; one outside the energy of the house has none. */
static void put_back(const pw_job *job, pw_year_result *year)
{
  size_t n = year->n_window;
  for (size_t i = job->n_opening; i-- > 0;)
    if (job->opening[i].unconditioned)
      memset(&year->window[i], 0, sizeof year->window[i]);
    else if (n > 0)
      year->window[i] = year->window[--n];
  year->n_window = job->n_opening;
}

/* Needs by month out of a year. */
static void needs_of(const pw_year_result *year, pw_needs *needs)
{
  *needs = (pw_needs){0};
  for (size_t m = 0; m < 12; m++) {
    needs->heating_kwh[m] = fmax(0.0, year->heating_month_kwh[m]);
    needs->cooling_kwh[m] = fmax(0.0, year->cooling_month_kwh[m]);
  }
}

/* In a new workspace the first touch of a window's sun costs for each lane: of one comparison by 1, 2, 4, 8 lanes the
 * whole process takes 87, 73, 68, 72 ms; made again in the same workspace 58, 41, 31, 28. 0: all. */
static int lanes_for(const pw_year_workspace *workspace)
{
  size_t lived = 0, lanes = 0;
  if (workspace) pw_year_workspace_use(workspace, &lived, &lanes);
  return lived > 0 || pw_year_lanes() < 4 ? 0 : 4;
}

pw_status pw_compare_live(const pw_job *job, const pw_house *house, const pw_weather *weather,
                          const pw_compare_options *options, pw_year_workspace *workspace,
                          const compare_lane lane[], size_t n, pw_err *err)
{
  pw_year_lane year[PW_COMPARE_PACKAGES_MAX + 2] = {0};
  pw_year_hours hours[PW_COMPARE_PACKAGES_MAX + 2];
  const pw_year_options how = {.method = options->method,
                               .lanes = options->lanes ? options->lanes : lanes_for(workspace)};
  size_t n_window = 0, failed = 0;
  for (size_t s = 0; s < n; s++) {
    n_window = pw_compare_inside(job, lane[s].window);
    if (lane[s].hours)
      hours[s] =
          (pw_year_hours){.heating_w = lane[s].hours, .cooling_w = lane[s].hours + PW_HOURS};
    year[s] = (pw_year_lane){house, lane[s].window, lane[s].hours ? &hours[s] : NULL,
                             &lane[s].set->year};
  }
  pw_status status =
      pw_year_run_beside(year, n, weather, n_window, &how, workspace, &failed, err);
  if (status != PW_OK) return pw_compare_blame(status, err, "year with", lane[failed].name);
  for (size_t s = 0; s < n; s++) {
    put_back(job, &lane[s].set->year);
    needs_of(&lane[s].set->year, &lane[s].set->needs);
  }
  return PW_OK;
}

static pw_status years(const pw_job *job, const pw_compare_fitted *fitted,
                       const pw_compare_rated *rated, const pw_weather *weather,
                       const pw_compare_options *options, pw_year_workspace *workspace,
                       pw_compare_lived *l, pw_err *err)
{
  const size_t n = job->n_opening, n_set = job->n_package + 2;
  compare_lane lane[PW_COMPARE_PACKAGES_MAX + 2] = {
      {rated->existing_set.name, NULL, &l->existing_set, NULL},
      {rated->minimum_set.name, NULL, &l->minimum_set, NULL}};
  pw_house_window *window = calloc(n_set * n, sizeof *window);
  int hourly = options->method != PW_YEAR_QUICK && pw_compare_hourly(options->tariff);
  float *hours = hourly ? calloc(n_set * 2 * PW_HOURS, sizeof *hours) : NULL;
  l->hours = hours;
  if (!window || (hourly && !hours)) {
    free(window);
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the year");
  }
  pw_compare_windows(job, fitted, rated, -1, window);
  pw_compare_minimum_windows(job, fitted, rated, window + n);
  for (size_t p = 0; p < job->n_package; p++) {
    pw_compare_windows(job, fitted, rated, (int)p, window + (2 + p) * n);
    lane[2 + p] = (compare_lane){rated->package_set[p].name, NULL, &l->package_set[p], NULL};
  }
  for (size_t s = 0; s < n_set; s++) {
    lane[s].window = window + s * n;
    lane[s].hours = hourly ? hours + s * 2 * PW_HOURS : NULL;
  }
  pw_status status =
      pw_compare_live(job, &l->house, weather, options, workspace, lane, n_set, err);
  free(window);
  return status;
}

pw_status pw_compare_make_lived(const pw_job *job, const pw_compare_fitted *fitted,
                                const pw_compare_rated *rated, const pw_weather *weather,
                                const pw_compare_options *options, pw_year_workspace *workspace,
                                pw_compare_lived *l, pw_err *err)
{
  pw_status status = house_of(job, rated, weather, l, err);
  if (status != PW_OK) return status;
  pw_compare_ducts(&job->house, weather, l);
  status = years(job, fitted, rated, weather, options, workspace, l, err);
  for (size_t p = 0; status == PW_OK && p < job->n_package; p++)
    status =
        pw_compare_joints(job, rated, p, weather, l->house.volume, &l->package_set[p], err);
  return status;
}

void pw_compare_lived_free(pw_compare_lived *l)
{
  free((void *)l->air_shape);
  free((void *)l->hours);
}
