#include "panewright/year.h"

#include <stdlib.h>
#include <string.h>

#include "house/airing.h"
#include "house/cut.h"
#include "house/year_impl.h"

int pw_year_facade(double facing_deg)
{
  double turn = fmod(facing_deg, 360.0);
  if (turn < 0.0) turn += 360.0;
  return (int)floor(turn / 45.0 + 0.5) % PW_FACADES;
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
             {"covered.pass", w->covered.pass[0], 0.0, 1.0},
             {"covered.pass", w->covered.pass[1], 0.0, 1.0},
             {"covered.closed", w->covered.closed[0], 0.0, 1.0},
             {"covered.closed", w->covered.closed[1], 0.0, 1.0},
             {"covered.resistance", w->covered.resistance, 0.0, 10.0},
             {"open_area", w->open_area, 0.0, 1e4},
             {"open_height", w->open_height, 0.0, 30.0},
             {"count", w->count, 0.0, 1e6}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    if (!(row[i].value >= row[i].low && row[i].value <= row[i].high))
      return pw_fail(err, PW_E_DOMAIN, row[i].name, "window: %s %g, want %g to %g", row[i].name,
                     row[i].value, row[i].low, row[i].high);
  if (!w->glazing) return pw_fail(err, PW_E_SHAPE, "glazing", "window without a glazing");
  return PW_OK;
}

static int count_of(const pw_house_window *w) { return w->count > 0 ? w->count : 1; }

pw_airing_flow pw_year_open_flow(const pw_house *house, const pw_house_window window[],
                                 size_t n)
{
  pw_airing_hole hole[PW_WINDOWS_MAX];
  pw_airing_flow flow;
  const pw_airing *a = &house->airing;
  for (size_t w = 0; w < n; w++) {
    const pw_house_window *in = &window[w];
    hole[w] = (pw_airing_hole){in->facing_deg, in->open_area * count_of(in), in->open_height};
  }
  pw_airing_flow_of(hole, n, a->share, a->flow, house->terrain, &flow);
  return flow;
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
  if (!(o->lanes >= 0 && o->lanes <= SITE_LANES && (o->lanes & (o->lanes - 1)) == 0 &&
        o->lanes <= pw_year_lanes()))
    return pw_fail(err, PW_E_DOMAIN, "lanes", "%d, want 0, or 1, 2, 4, 8 up to %d here",
                   o->lanes, pw_year_lanes());
  if (!(o->method <= PW_YEAR_QUICK))
    return pw_fail(err, PW_E_DOMAIN, "method", "%d, want 0 to 2", (int)o->method);
  return PW_OK;
}

/* Brings the sun of every part and window of n cases to hand. */
static pw_status open_cases(year_case c[], size_t n, size_t *failed, pw_err *err)
{
  const pw_house_window *window[SITE_LANES];
  double albedo[SITE_LANES];
  pw_status s = PW_OK;
  for (size_t l = 0; s == PW_OK && l < n; l++) {
    const pw_house *h = c[l].house;
    *failed = l;
    window[l] = c[l].window;
    albedo[l] = h->albedo > 0.0 ? h->albedo : -1.0; /* the file's, by hour */
    for (size_t w = 0; w < c[l].n; w++)
      c[l].count[w] = count_of(&c[l].window[w]);
    for (size_t i = 0; s == PW_OK && i < h->n_part; i++)
      s = site_part_of(c->ws, l, i, &h->part[i], albedo[l], &c[l].part_sun[i], err);
  }
  for (size_t w = 0; s == PW_OK && w < c->n; w++)
    s = site_window_of(c->ws, w, n, window, albedo, failed, err);
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

/* May these two be lived in side by side? */
static int alike(const year_case *a, const year_case *b)
{
  const pw_house *x = a->house, *y = b->house;
  if (x->n_part != y->n_part || x->film_out != y->film_out || x->height != y->height ||
      x->terrain != y->terrain)
    return 0;
  unsigned char cut[2][24];
  house_cut(x, cut[0]);
  house_cut(y, cut[1]);
  if (memcmp(cut[0], cut[1], sizeof cut[0]) != 0) return 0;
  for (size_t i = 0; i < x->n_part; i++)
    if (x->part[i].outside != y->part[i].outside) return 0;
  return 1;
}

/* The kernel for this many, of those the processor has and the caller allows. */
static year_lanes *kernel_for(size_t n, size_t most, size_t *lanes)
{
  static const struct {
    size_t lanes;
    year_lanes *run;
  } kernel[] = {{1, year_lanes_1}, {2, year_lanes_2}, {4, year_lanes_4}, {8, year_lanes_8}};
  size_t k = 0;
  while (k < 3 && kernel[k].lanes < n && kernel[k + 1].lanes <= most)
    k++;
  *lanes = kernel[k].lanes;
  return kernel[k].run;
}

int pw_year_lanes(void)
{
#if defined __x86_64__
  return __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq") &&
                 __builtin_cpu_supports("avx512vl")
             ? 8
         : __builtin_cpu_supports("avx2") ? 4
                                          : 2;
#else
  return 2;
#endif
}

typedef struct group {
  year_case c[SITE_LANES];
  const year_case *at[SITE_LANES];
  pw_year_result *result[SITE_LANES];
  size_t n, lanes;
  year_lanes *run;
} group;

static void clear(pw_year_result *r)
{
  memset(r, 0, sizeof *r);
  r->peak_heating_hour = r->peak_cooling_hour = -1;
}

/* Opens and lives in a group. On failure *failed is the case. */
static pw_status live(group *g, size_t *failed, pw_err *err)
{
  static pw_status (*const quick[])(const year_case *, pw_year_result *,
                                    pw_err *) = {NULL, year_simple, year_quick};
  const year_case *c = g->c;
  pw_year_workspace *ws = c->ws;
  *failed = 0;
  pw_status s = site_open(ws, c->weather, &c->options, c->house, err);
  if (s != PW_OK) return s;
  site_make_room(ws, g->n, c->house->n_part, c->n);
  s = site_lay_windows(ws, c->n, g->lanes, err);
  for (size_t l = 0; l < g->n; l++)
    clear(g->result[l]);
  if (s == PW_OK) s = open_cases(g->c, g->n, failed, err);
  if (s != PW_OK) return s;
  if (c->options.method == PW_YEAR_DETAILED) {
    s = g->run(g->at, g->n, g->result, failed, err);
    ws->n_lived += g->n;
    ws->n_lane += g->lanes;
  } else
    s = quick[c->options.method](c, g->result[0], err);
  for (size_t l = 0; s == PW_OK && l < g->n; l++)
    finish(&g->c[l], g->result[l]);
  return s;
}

/* Takes as many of the cases from `first` on as can live side by side. */
static void gather(group *g, const pw_year_lane lane[], size_t first, size_t n, size_t n_window,
                   const pw_weather *weather, const pw_year_options *options,
                   pw_year_workspace *ws)
{
  size_t most = options->lanes > 0 ? (size_t)options->lanes : (size_t)pw_year_lanes();
  if (options->method != PW_YEAR_DETAILED) most = 1;
  for (g->n = 0; g->n < most && first + g->n < n; g->n++) {
    const pw_year_lane *from = &lane[first + g->n];
    year_case *c = &g->c[g->n];
    *c = (year_case){.house = from->house,
                     .weather = weather,
                     .window = from->window,
                     .n = n_window,
                     .options = *options,
                     .ws = ws};
    c->options.hours = from->hours;
    if (!alike(&g->c[0], c)) break;
    g->at[g->n] = c;
    g->result[g->n] = from->result;
  }
  g->run = kernel_for(g->n, most, &g->lanes);
}

pw_status pw_year_run_beside(const pw_year_lane lane[], size_t n, const pw_weather *weather,
                             size_t n_window, const pw_year_options *options,
                             pw_year_workspace *workspace, size_t *failed, pw_err *err)
{
  const pw_year_options o = options ? *options : (pw_year_options){0};
  size_t at = 0;
  pw_status s = PW_OK;
  for (size_t i = 0; s == PW_OK && i < n; i++) {
    at = i;
    s = check(lane[i].house, lane[i].window, n_window, &o, err);
  }
  group *g = s == PW_OK ? malloc(sizeof *g) : NULL;
  pw_year_workspace *ws = workspace ? workspace : g ? pw_year_workspace_new() : NULL;
  if (s == PW_OK && (!g || !ws))
    s = pw_fail(err, PW_E_NOMEM, NULL, "no memory for a year's work");
  for (size_t i = 0; s == PW_OK && i < n; i += g->n) {
    size_t which = 0;
    gather(g, lane, i, n, n_window, weather, &o, ws);
    s = live(g, &which, err);
    at = i + which;
  }
  if (failed) *failed = at;
  if (!workspace && ws) pw_year_workspace_free(ws);
  free(g);
  return s;
}

pw_status pw_year_run(const pw_house *house, const pw_weather *weather,
                      const pw_house_window window[], size_t n_window,
                      const pw_year_options *options, pw_year_workspace *workspace,
                      pw_year_result *result, pw_err *err)
{
  pw_year_result *r = malloc(sizeof *r);
  if (!r) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a year's work");
  const pw_year_lane one = {house, window, options ? options->hours : NULL, r};
  pw_status s = pw_year_run_beside(&one, 1, weather, n_window, options, workspace, NULL, err);
  if (s == PW_OK) *result = *r;
  free(r);
  return s;
}
