#include "panewright/year.h"

#include <string.h>

#include "house/year_impl.h"

int pw_year_facade(double facing_deg)
{
  double turn = fmod(facing_deg, 360.0);
  if (turn < 0.0) turn += 360.0;
  return (int)floor(turn / 45.0 + 0.5) % PW_FACADES;
}

void year_count_need(pw_year_result *r, int hour, double heat, double cool)
{
  int month = pw_month_of_day(hour / 24);
  r->heating_month_kwh[month] += 1e-3 * heat;
  r->cooling_month_kwh[month] += 1e-3 * cool;
  if (heat > r->peak_heating_w) {
    r->peak_heating_w = heat;
    r->peak_heating_hour = hour;
  }
  if (cool > r->peak_cooling_w) {
    r->peak_cooling_w = cool;
    r->peak_cooling_hour = hour;
  }
}

void year_count_sun(const year_case *c, pw_year_result *r)
{
  for (size_t w = 0; w < c->n; w++) {
    const site_window *s = c->ws->window[w];
    double incident = 0.0, passed = 0.0, scale = 1e-3 * c->window[w].area_glass * c->count[w];
    for (int i = 0; i < PW_HOURS; i++) {
      incident += (double)s->incident[i];
      passed += (double)(s->beam[i] + s->diffuse[i]);
    }
    r->window[w].incident_kwh = scale * incident;
    r->window[w].transmitted_kwh = scale * passed;
  }
}

static pw_status check_window(const pw_house_window *w, pw_err *err)
{
  const struct {
    const char *name;
    double value, low, high;
  } row[] = {{"facing_deg", w->facing_deg, -360.0, 720.0},
             {"tilt_deg", w->tilt_deg, 0.0, 180.0},
             {"area_glass", w->area_glass, 1e-4, 1e4},
             {"height", w->height, 0.0, 30.0},
             {"width", w->width, 0.0, 100.0},
             {"ua_other", w->ua_other, -1e3, 1e5},
             {"area_other", w->area_other, 0.0, 1e4},
             {"solar_other", w->solar_other, 0.0, 1e4},
             {"overhang_depth", w->overhang_depth, 0.0, 20.0},
             {"overhang_gap", w->overhang_gap, 0.0, 20.0},
             {"reveal_depth", w->reveal_depth, 0.0, 20.0},
             {"fin_depth", w->fin_depth, 0.0, 20.0},
             {"screen", w->screen, 0.0, 1.0},
             {"shade_factor", w->shade_factor, 0.0, 1.0},
             {"count", w->count, 0.0, 1e6}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    if (!(row[i].value >= row[i].low && row[i].value <= row[i].high))
      return pw_fail(err, PW_E_DOMAIN, row[i].name, "window: %s %g, want %g to %g", row[i].name,
                     row[i].value, row[i].low, row[i].high);
  if (!w->glazing) return pw_fail(err, PW_E_SHAPE, "glazing", "window without a glazing");
  return PW_OK;
}

static pw_status check(const pw_house *house, const pw_house_window window[], size_t n,
                       const pw_year_options *o, pw_err *err)
{
  pw_status s = pw_house_check(house, err);
  if (s != PW_OK) return s;
  if (n > PW_WINDOWS_MAX)
    return pw_fail(err, PW_E_SHAPE, "window", "%zu windows, want at most %d", n,
                   PW_WINDOWS_MAX);
  for (size_t i = 0; i < n; i++) {
    s = check_window(&window[i], err);
    if (s != PW_OK) return s;
  }
  if (!(o->steps_per_hour >= 0 && o->steps_per_hour <= 12))
    return pw_fail(err, PW_E_DOMAIN, "steps_per_hour", "%d, want 1 to 12", o->steps_per_hour);
  if (!(o->warm_up_days >= 0 && o->warm_up_days <= 365))
    return pw_fail(err, PW_E_DOMAIN, "warm_up_days", "%d, want 0 to 365", o->warm_up_days);
  if (!(o->method <= PW_YEAR_QUICK))
    return pw_fail(err, PW_E_DOMAIN, "method", "%d, want 0 to 2", (int)o->method);
  return PW_OK;
}

/* Brings the sun of every part and window to hand. */
static pw_status open_case(year_case *c, pw_err *err)
{
  const pw_house *h = c->house;
  double albedo = h->albedo > 0.0 ? h->albedo : -1.0; /* the file's, by hour */
  pw_status s = site_open(c->ws, c->weather, &c->options, h, err);
  for (size_t i = 0; s == PW_OK && i < h->n_part; i++)
    s = site_part_of(c->ws, i, &h->part[i], albedo, &c->part_sun[i], err);
  for (size_t w = 0; s == PW_OK && w < c->n; w++) {
    c->count[w] = c->window[w].count > 0 ? c->window[w].count : 1;
    s = site_window_of(c->ws, w, &c->window[w], albedo, &c->window_sun[w], err);
  }
  return s;
}

static void finish(const year_case *c, pw_year_result *r)
{
  r->n_window = c->n;
  if (!(c->house->warm_c > 0.0)) r->hours_warm = NAN;
  for (int m = 0; m < 12; m++) {
    r->heating_kwh += r->heating_month_kwh[m];
    r->cooling_kwh += r->cooling_month_kwh[m];
  }
  for (size_t w = 0; w < c->n; w++) {
    pw_year_window *q = &r->window[w];
    int f = pw_year_facade(c->window[w].facing_deg);
    for (int m = 0; m < 12; m++) {
      q->solar_kwh += q->solar_month_kwh[m];
      q->heat_lost_kwh += q->lost_month_kwh[m];
    }
    r->solar_kwh += q->solar_kwh;
    r->window_loss_kwh += q->heat_lost_kwh;
    r->facade_solar_kwh[f] += q->solar_kwh;
    r->facade_loss_kwh[f] += q->heat_lost_kwh;
  }
}

pw_status pw_year_run(const pw_house *house, const pw_weather *weather,
                      const pw_house_window window[], size_t n_window,
                      const pw_year_options *options, pw_year_workspace *workspace,
                      pw_year_result *result, pw_err *err)
{
  static pw_status (*const method[])(const year_case *, pw_year_result *,
                                     pw_err *) = {year_detailed, year_simple, year_quick};
  year_case c = {.house = house, .weather = weather, .window = window, .n = n_window};
  if (options) c.options = *options;
  pw_status s = check(house, window, n_window, &c.options, err);
  if (s != PW_OK) return s;
  c.ws = workspace ? workspace : pw_year_workspace_new();
  if (!c.ws) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a year's work");
  pw_year_result r;
  memset(&r, 0, sizeof r);
  r.peak_heating_hour = r.peak_cooling_hour = -1;
  s = open_case(&c, err);
  if (s == PW_OK) {
    year_count_sun(&c, &r);
    s = method[c.options.method](&c, &r, err);
  }
  if (s == PW_OK) {
    finish(&c, &r);
    *result = r;
  }
  if (!workspace) pw_year_workspace_free(c.ws);
  return s;
}
