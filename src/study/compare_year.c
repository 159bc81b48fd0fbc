#include "study/compare_year.h"

#include <stdlib.h>
#include <string.h>

#include "study/compare_impl.h"

enum { N_SERIES = 8 };

void pw_compare_sides(const pw_compare *c, int package, pw_side_year side[PW_FACADES])
{
  memset(side, 0, PW_FACADES * sizeof *side);
  const pw_year_result *year = &pw_compare_set_of(c, package).lived->year;
  for (size_t i = 0; i < c->n_opening; i++) {
    const pw_opening *o = &c->job->opening[i];
    if (o->unconditioned) continue;
    const pw_rating *rating = pw_compare_rating(&c->rated, package, i);
    const pw_year_window *w = &year->window[i];
    pw_side_year *f = &side[pw_year_facade(o->facing_deg)];
    double times = (double)o->quantity;
    f->n_window += (int)o->quantity;
    f->area += times * rating->area;
    f->glass_area += times * rating->glass_area;
    f->solar_kwh += w->solar_kwh;
    f->lost_kwh += w->heat_lost_kwh;
    for (size_t m = 0; m < 12; m++) {
      f->solar_month_kwh[m] += w->solar_month_kwh[m];
      f->lost_month_kwh[m] += w->lost_month_kwh[m];
    }
    f->heating_part_kwh += w->heating_part_kwh;
    f->cooling_part_kwh += w->cooling_part_kwh;
  }
}

static void point_into(pw_year_hours *h, float *store)
{
  float **series[N_SERIES] = {&h->heating_w, &h->cooling_w, &h->t_air_c,     &h->t_radiant_c,
                              &h->window_w,  &h->solar_w,   &h->transmitted, &h->incident};
  for (size_t i = 0; i < N_SERIES; i++)
    *series[i] = store + i * PW_HOURS;
}

pw_status pw_compare_hours_run(const pw_compare *c, const pw_weather *weather,
                               pw_year_method method, pw_year_workspace *workspace,
                               pw_compare_hours *hours, pw_err *err)
{
  memset(hours, 0, sizeof *hours);
  if (method == PW_YEAR_QUICK)
    return pw_fail(err, PW_E_DOMAIN, "method", "the monthly method has no hours");
  pw_house_window *window = calloc(c->n_opening, sizeof *window);
  pw_year_result *result = malloc(sizeof *result);
  hours->n_set = 1 + c->n_package;
  hours->store = calloc(hours->n_set * N_SERIES * PW_HOURS, sizeof *hours->store);
  pw_status status = PW_OK;
  if (!window || !result || !hours->store)
    status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for the hours of the years");
  for (size_t s = 0; status == PW_OK && s < hours->n_set; s++) {
    point_into(&hours->set[s], hours->store + s * N_SERIES * PW_HOURS);
    pw_year_options options = {.method = method, .hours = &hours->set[s]};
    pw_compare_windows(c->job, &c->fitted, &c->rated, (int)s - 1, window);
    size_t n = pw_compare_inside(c->job, window);
    status = pw_year_run(&c->lived.house, weather, window, n, &options, workspace, result, err);
  }
  free(window);
  free(result);
  if (status != PW_OK) pw_compare_hours_free(hours);
  return status;
}

void pw_compare_hours_free(pw_compare_hours *hours)
{
  if (!hours) return;
  free(hours->store);
  memset(hours, 0, sizeof *hours);
}

static double day_sum(const float hour[], int day)
{
  double sum = 0.0;
  for (int i = 0; i < 24; i++)
    sum += (double)hour[24 * day + i];
  return sum;
}

/* The first day of the largest need; without any need, of the temperature furthest that way. */
static int day_of_most(const float need[], const pw_weather *weather, double way)
{
  int best = 0, warmest = 0;
  double most = 0.0, furthest = -1e9;
  for (int day = 0; day < PW_DAYS; day++) {
    double sum = day_sum(need, day), t = 0.0;
    for (int i = 0; i < 24; i++)
      t += way * (double)weather->hour[24 * day + i].t_air;
    if (sum > most) {
      most = sum;
      best = day;
    }
    if (t > furthest) {
      furthest = t;
      warmest = day;
    }
  }
  return most > 0.0 ? best : warmest;
}

int pw_compare_cold_day(const pw_compare_hours *hours, const pw_weather *weather)
{
  return day_of_most(hours->set[0].heating_w, weather, -1.0);
}

int pw_compare_hot_day(const pw_compare_hours *hours, const pw_weather *weather)
{
  return day_of_most(hours->set[0].cooling_w, weather, 1.0);
}

/* $ of one set by day. */
static void cost_by_day(pw_compare_set set, const pw_year_hours *h, double cost[PW_DAYS])
{
  const pw_bill *bill = &set.billed->bill;
  const pw_year_result *y = &set.lived->year;
  double heat = y->heating_kwh > 0.0 ? bill->heating_cost / y->heating_kwh : 0.0;
  double cool = y->cooling_kwh > 0.0 ? bill->cooling_cost / y->cooling_kwh : 0.0;
  for (int m = 0; m < 12; m++) {
    int first = pw_month_start[m], last = first + pw_month_days[m];
    double sum = 0.0;
    for (int day = first; day < last; day++) {
      cost[day] = heat * day_sum(h->heating_w, day) + cool * day_sum(h->cooling_w, day);
      sum += cost[day];
    }
    for (int day = first; day < last; day++)
      cost[day] = sum > 0.0 ? cost[day] / sum * bill->cost_month[m]
                            : bill->cost_month[m] / pw_month_days[m];
  }
}

void pw_compare_saved(const pw_compare *c, const pw_compare_hours *hours, size_t package,
                      pw_saved_days *saved)
{
  double now[PW_DAYS], then[PW_DAYS], heating = 0.0, cooling = 0.0, cost = 0.0;
  const pw_compare_set set = pw_compare_set_of(c, (int)package);
  const pw_year_hours *a = &hours->set[0], *b = &hours->set[1 + package];
  cost_by_day(pw_compare_set_of(c, PW_SET_EXISTING), a, now);
  cost_by_day(set, b, then);
  /* Where the job's bill bounds the claim, the curve is bounded with it. */
  double claim = pw_bill_share(set.billed->saving.bill_ratio);
  for (int day = 0; day < PW_DAYS; day++) {
    heating += 1e-3 * (day_sum(a->heating_w, day) - day_sum(b->heating_w, day));
    cooling += 1e-3 * (day_sum(a->cooling_w, day) - day_sum(b->cooling_w, day));
    cost += claim * (now[day] - then[day]);
    saved->heating_kwh[day] = heating;
    saved->cooling_kwh[day] = cooling;
    saved->cost[day] = cost;
  }
}
