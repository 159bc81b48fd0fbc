/* Years of sets of windows, side by side, and their bills. */
#include <stdlib.h>

#include "study/compare_impl.h"

/* With hourly prices the needs carry their hours. */
static pw_status bill_of(const pw_compare *c, const compare_lane *lane, pw_year_method method,
                         pw_err *err)
{
  pw_compare_set *set = lane->set;
  double *kwh = NULL;
  pw_compare_put_back(c, &set->year);
  pw_compare_needs(&set->year, &set->needs);
  if (lane->hours && method != PW_YEAR_QUICK) {
    kwh = malloc(2 * sizeof *kwh * PW_HOURS);
    if (!kwh) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the hours");
    for (size_t h = 0; h < PW_HOURS; h++) {
      kwh[h] = (double)lane->hours[0][h] / 1000.0;
      kwh[PW_HOURS + h] = (double)lane->hours[1][h] / 1000.0;
    }
    set->needs.heating_hour_kwh = kwh;
    set->needs.cooling_hour_kwh = kwh + PW_HOURS;
  }
  pw_status status = pw_bill_of(&set->needs, &c->rates, &set->bill, err);
  set->needs.heating_hour_kwh = set->needs.cooling_hour_kwh = NULL;
  free(kwh);
  return pw_compare_blame(status, err, "bill with", set->name);
}

/* In a new workspace the first touch of a window's sun costs for each lane: of one comparison by 1, 2, 4, 8 lanes the
 * whole process takes 87, 73, 68, 72 ms; made again in the same workspace 58, 41, 31, 28. 0: all. */
static int lanes_for(const pw_year_workspace *workspace)
{
  size_t lived = 0, lanes = 0;
  if (workspace) pw_year_workspace_use(workspace, &lived, &lanes);
  return lived > 0 || pw_year_lanes() < 4 ? 0 : 4;
}

pw_status pw_compare_live(const pw_compare *c, const pw_weather *weather,
                          const pw_compare_options *options, pw_year_workspace *workspace,
                          const compare_lane lane[], size_t n, pw_err *err)
{
  pw_year_lane year[PW_COMPARE_PACKAGES_MAX + 2] = {0};
  pw_year_hours hours[PW_COMPARE_PACKAGES_MAX + 2];
  const pw_year_options how = {.method = options->method,
                               .lanes = options->lanes ? options->lanes : lanes_for(workspace)};
  size_t n_window = 0, failed = 0;
  for (size_t s = 0; s < n; s++) {
    n_window = pw_compare_lived(c, lane[s].window);
    if (lane[s].hours)
      hours[s] = (pw_year_hours){.heating_w = lane[s].hours[0], .cooling_w = lane[s].hours[1]};
    year[s] = (pw_year_lane){&c->house, lane[s].window, lane[s].hours ? &hours[s] : NULL,
                             &lane[s].set->year};
  }
  pw_status status =
      pw_year_run_beside(year, n, weather, n_window, &how, workspace, &failed, err);
  if (status != PW_OK)
    return pw_compare_blame(status, err, "year with", lane[failed].set->name);
  for (size_t s = 0; status == PW_OK && s < n; s++)
    status = bill_of(c, &lane[s], options->method, err);
  return status;
}
