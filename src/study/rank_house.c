/* The house of the search: sums of each frame line over the openings, prices, figures of a build-up. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/own_math.h"
#include "climate/shade.h"
#include "frame/catalogue.h"
#include "glass/by_angle.h"
#include "panewright/units.h"
#include "study/compare_impl.h"
#include "study/rank_impl.h"
#include "window/frame_line.h"
#include "window/grille.h"
#include "window/opening_package.h"

static const double glass_density = 2500.0; /* kg/m3, soda-lime; EN 572-1, from memory */

int rank_seeks(const rank_house *h, size_t opening)
{
  const pw_opening *o = &h->compare->job->opening[opening];
  return o->standing == PW_REPLACED && !pw_opening_has_own(o);
}

pw_status rank_dark(const rank_house *h, const pw_unit *unit, double *t_inner, double *u_year,
                    pw_err *err)
{
  pw_unit_result r;
  const pw_env night = {.t_out = h->compare->rated.t_design_out,
                        .t_in = h->compare->rated.t_in,
                        .wind = pw_env_winter.wind};
  pw_status status = pw_unit_balance(unit, &night, NULL, &r, err);
  if (status != PW_OK) return status;
  *t_inner = r.t[2 * unit->n_pane - 1];
  status = pw_unit_balance(unit, &h->cold, NULL, &r, err);
  if (status == PW_OK) *u_year = r.q_in / (h->cold.t_in - h->cold.t_out);
  return status;
}

/* What a window stands between on the mean of the hours more than 5 K colder than the room; half of
 * what it faces outdoors is sky. */
static void cold_hours(rank_house *h)
{
  double n = 0.0, t = 0.0, sky = 0.0, wind = 0.0, t_in = h->compare->rated.t_in;
  for (int i = 0; i < PW_HOURS; i++) {
    const pw_hour *w = &h->weather->hour[i];
    double air = pw_k((double)w->t_air);
    if (air > t_in - 5.0) continue;
    n += 1.0;
    t += air;
    sky += pw_sky_temperature(w, i % 24, PW_CLEAR_BERDAHL);
    wind += (double)w->wind;
  }
  h->cold = (pw_env){.t_out = t_in - 10.0, .t_in = t_in, .wind = 2.0};
  if (n < 1.0) return;
  h->cold.t_out = t / n;
  h->cold.t_rad_out = 0.5 * (t + sky) / n;
  h->cold.wind = 0.5 * wind / n; /* at a wall among houses; the share of site.h is near it */
}

/* Sun on one m2 of a window's glass in a year, kWh, shared out to the ten angles (linear between
 * them, as the SHGC is) and the diffuse one. The band along the horizon goes to the angles by their
 * cosine. */
static pw_status sun_on(const pw_sky_year *sky, const pw_house_window *w, double albedo,
                        pw_facade_year *y, float lit[PW_HOURS], double kwh[PW_ANGLES],
                        pw_err *err)
{
  const pw_facade facade = {w->facing_deg, 90.0, albedo};
  double run = w->overhang_depth > 0.0 ? INFINITY : 0.0, band = 0.0, part;
  const pw_shade shade = {.width = w->width,
                          .height = w->height,
                          .overhang_depth = w->overhang_depth,
                          .overhang_gap = w->overhang_gap,
                          .overhang_run = {run, run},
                          .reveal = w->reveal_depth};
  pw_shade_factor left;
  pw_status status = pw_facade_of_year(sky, &facade, y, err);
  if (status == PW_OK) status = pw_shade_factors(&shade, &left, err);
  if (status == PW_OK) status = pw_shade_year(&shade, &facade, &sky->sun, lit, err);
  if (status != PW_OK) return status;
  memset(kwh, 0, PW_ANGLES * sizeof *kwh);
  for (size_t n = 0; n < sky->sun.n; n++) {
    int i = sky->sun.hour[n];
    double direct = 1e-3 * (double)((y->beam[i] + y->circumsolar[i]) * lit[i]);
    kwh[PW_ANGLE_DIFFUSE] +=
        1e-3 * ((double)y->dome[i] * left.dome + (double)y->ground[i] * left.ground);
    band += 1e-3 * (double)y->horizon[i] * left.horizon;
    if (!(direct > 0.0)) continue;
    double x = pw_acos(fmin(fmax((double)y->cos_incidence[i], 0.0), 1.0)) * 18.0 / PW_PI;
    int k = pw_angle_below(x, &part);
    kwh[k] += direct * (1.0 - part);
    kwh[k + 1] += direct * part;
  }
  for (int k = 0; k < 10; k++)
    kwh[k] += band * pw_band_weight[k] / pw_band_weights;
  return PW_OK;
}

/* Lite area with the bite, of the heaviest that moves; of a window without any, of its largest. */
static void weigh_lites(const pw_lites *lites, double bite, double *moving, double *fixed)
{
  for (size_t i = 0; i < lites->n_lite; i++) {
    const pw_lite *l = &lites->lite[i];
    double area = (l->width + 2.0 * bite) * (l->height + 2.0 * bite);
    if (l->round.perimeter > 0.0) area = l->round.area + bite * l->round.perimeter;
    double *most = l->moving ? moving : fixed;
    *most = fmax(*most, area);
  }
}

/* One opening with one line, for every count of panes and every spacer. */
static pw_status add_opening(const rank_house *h, const pw_sky_year *sky, size_t i,
                             const pw_fit *fit, pw_facade_year *y, float lit[PW_HOURS],
                             rank_line *l, pw_err *err)
{
  const pw_opening *o = &h->compare->job->opening[i];
  pw_package package = {.filling = "foam"};
  double times = (double)o->quantity, kwh[PW_ANGLES], on = 0.0, bars = 0.0;
  pw_fit clear = *fit; /* what bars add to the heat is left to the years of the best */
  clear.grille.place = PW_GRILLE_NONE;
  pw_status cut = pw_grille_area(&fit->grille, &fit->insert, &bars, err);
  if (cut != PW_OK) return pw_compare_blame(cut, err, "opening", o->tag);
  pw_glazing glass = {.u_winter = 1.5, .shgc = {0.5}};
  double albedo = h->compare->lived.house.albedo > 0.0 ? h->compare->lived.house.albedo : -1.0;
  for (size_t n = 1; n <= PW_PANES_MAX; n++)
    for (size_t s = 0; s < PW_SPACER_COUNT; s++) {
      pw_rating r;
      pw_house_window w;
      glass.unit = (pw_unit){.n_pane = n};
      for (size_t k = 0; k < n; k++) {
        glass.unit.pane[k].thickness = 0.003;
        if (k + 1 < n) glass.unit.gap[k].thickness = 0.012;
      }
      package.spacer = (pw_spacer)s;
      pw_status status = pw_rating_insert(&clear, &package, l->line[i], &glass, NULL, &r, err);
      if (status != PW_OK) return pw_compare_blame(status, err, "opening", o->tag);
      pw_compare_house_window(o, &fit->insert, &r, &glass, &w);
      if (n == 1 && s == 0) {
        status = sun_on(sky, &w, albedo, y, lit, kwh, err);
        if (status != PW_OK) return pw_compare_blame(status, err, "opening", o->tag);
        l->perimeter += times * r.glass_perimeter;
        if (o->unconditioned) return PW_OK; /* it is bought, and outside the energy */
        double pass = (w.screen > 0.0 ? w.screen : 1.0) * (1.0 - w.shade_factor) * times;
        for (int a = 0; a < PW_ANGLES; a++) {
          kwh[a] *= pass;
          on += kwh[a];
          l->sun[a] += (w.area_glass - bars) * kwh[a];
        }
        l->glass_area += times * r.glass_area;
        l->bars += times * bars;
        l->center_area += times * r.areas.center;
        l->edge_area += times * r.areas.edge;
      }
      l->fixed[n][s].ua += times * (r.ua.frame + r.ua.divider + r.ua.retained);
      l->fixed[n][s].other_sun += on * w.solar_other;
      l->fixed[n][s].sun_area += times * w.solar_other;
    }
  return PW_OK;
}

static pw_status line_init(rank_house *h, const pw_sky_year *sky, size_t k, pw_err *err)
{
  const pw_job *job = h->compare->job;
  const char *name = h->catalogue->line[k].name;
  rank_line *l = &h->line[k];
  double moving = 0.0, fixed = 0.0;
  pw_facade_year *y = malloc(sizeof *y);
  float *lit = malloc(PW_HOURS * sizeof *lit);
  pw_status status =
      y && lit ? PW_OK : pw_fail(err, PW_E_NOMEM, NULL, "no memory for the sun of an opening");
  for (size_t i = 0; status == PW_OK && i < job->n_opening; i++) {
    if (!rank_seeks(h, i)) continue;
    pw_fit *fit = &h->fit[k * job->n_opening + i];
    l->line[i] = pw_frame_line_pick(job->frame_line, job->n_frame_line, name,
                                    job->opening[i].operator_insert);
    if (!l->line[i])
      status = pw_fail(err, PW_E_DATA, "frame_line", "no frame line '%s' for opening %s", name,
                       job->opening[i].tag);
    if (status == PW_OK)
      status = pw_compare_blame(pw_fit_opening(&job->opening[i], l->line[i], fit, err), err,
                                "opening", job->opening[i].tag);
    if (status != PW_OK) break;
    weigh_lites(&fit->insert, l->line[i]->bite_max, &moving, &fixed);
    status = add_opening(h, sky, i, fit, y, lit, l, err);
  }
  l->lite_area = moving > 0.0 ? moving : fixed;
  free(y);
  free(lit);
  return status;
}

/* $ a kWh of need, by the existing house's bill; where it needs none, by the bill of 100 kWh. */
static pw_status price_energy(rank_house *h, pw_err *err)
{
  const pw_compare *c = h->compare;
  pw_needs needs = c->lived.existing_set.needs;
  pw_bill bill;
  double heat = 0.0, cool = 0.0;
  for (int m = 0; m < 12; m++) {
    heat += needs.heating_kwh[m];
    cool += needs.cooling_kwh[m];
  }
  if (heat < 1.0) heat = needs.heating_kwh[0] = 100.0;
  if (cool < 1.0) cool = needs.cooling_kwh[6] = 100.0;
  needs.heating_hour_kwh = needs.cooling_hour_kwh = NULL;
  pw_status status = pw_bill_of(&needs, &c->billed.rates, &bill, err);
  if (status != PW_OK) return status;
  h->heat_price = bill.heating_cost / heat;
  h->cool_price = bill.cooling_cost / cool;
  return PW_OK;
}

static void worth_of_years(rank_house *h)
{
  const pw_house_facts *f = &h->compare->job->house;
  double horizon = pw_positive_or(&f->horizon_years, PW_YEARS_DEFAULT);
  for (int k = 1; k <= (int)horizon; k++)
    h->years_worth +=
        pw_power(1.0 + f->escalation.value, k) / pw_power(1.0 + f->discount.value, k);
}

pw_status rank_house_init(rank_house *h, const rank_space *space, pw_err *err)
{
  const pw_compare *c = h->compare;
  const pw_rank_catalogue *catalogue = space->catalogue;
  size_t n = c->n_opening;
  h->catalogue = catalogue;
  size_t sought = 0;
  for (size_t i = 0; i < n; i++)
    sought += rank_seeks(h, i) && !c->job->opening[i].unconditioned;
  if (sought == 0)
    return pw_fail(err, PW_E_SHAPE, "openings",
                   "nothing to search for: every window stays, is outside the energy of the "
                   "house, or has a package or a glass of its own");
  cold_hours(h);
  h->line = calloc(catalogue->n_line, sizeof *h->line);
  h->fit = calloc(catalogue->n_line * n, sizeof *h->fit);
  pw_sky_year *sky = malloc(sizeof *sky);
  pw_status status =
      h->line && h->fit && sky ? PW_OK : pw_fail(err, PW_E_NOMEM, NULL, "no memory for lines");
  if (status == PW_OK) status = pw_sky_of_year(h->weather, PW_SKY_PEREZ, sky, err);
  for (size_t k = 0; status == PW_OK && k < catalogue->n_line; k++)
    status = line_init(h, sky, k, err);
  free(sky);
  for (size_t i = 0; i < n; i++) {
    double times = (double)c->job->opening[i].quantity;
    if (!rank_seeks(h, i)) continue;
    h->n_opening += times;
    h->priced_area += times * c->rated.existing[i].rating.area;
    if (c->job->opening[i].unconditioned) continue;
    h->area += times * c->rated.existing[i].rating.area;
    h->light_now += times * c->rated.existing[i].rating.glass_area *
                    c->fitted.existing_glass[i].light.tau_v[0];
  }
  worth_of_years(h);
  return status == PW_OK ? price_energy(h, err) : status;
}

void rank_house_free(rank_house *house)
{
  free(house->line);
  free(house->fit);
  surface_free(&house->model);
  house->line = NULL;
  house->fit = NULL;
}

double rank_price(const rank_house *h, const rank_space *space, const rank_stack *stack,
                  const size_t gap[], size_t spacer, size_t line)
{
  const pw_rank_catalogue *c = space->catalogue;
  size_t n = stack->group->n_pane;
  double per_area = c->line[line].per_area, per_length = 0.0;
  for (size_t i = 0; i < n; i++) {
    per_area += c->pane[stack->pane[i]].per_area;
    if (i + 1 == n) break;
    per_area += c->gap[gap[i]].per_area;
    per_length += c->spacer[spacer].per_length;
  }
  for (size_t k = 0; k < 2 * n; k++)
    if (stack->pattern->coat[k] >= 0) per_area += c->coating[stack->pattern->coat[k]].per_area;
  return c->line[line].per_opening * h->n_opening + per_area * h->priced_area +
         per_length * h->line[line].perimeter;
}

double rank_weight(const rank_house *h, double glass_thickness, size_t line)
{
  return glass_density * glass_thickness * h->line[line].lite_area;
}

void rank_drive(const rank_house *h, const rank_glass *g, size_t line, size_t spacer,
                double u_edge, double z[RANK_DIMS])
{
  const rank_line *l = &h->line[line];
  size_t s = (size_t)h->catalogue->spacer[spacer].spacer;
  double passed = 0.0, handed_in = l->fixed[g->n_pane][s].other_sun;
  for (int a = 0; a < PW_ANGLES; a++) {
    passed += l->sun[a] * g->tau_e[a];
    handed_in += l->sun[a] * (g->shgc[a] - g->tau_e[a]);
  }
  z[0] = l->glass_area * g->u_year + l->edge_area * (u_edge - g->u) + l->fixed[g->n_pane][s].ua;
  z[1] = passed;
  z[2] = handed_in;
}

void rank_evaluate(const rank_house *h, const rank_glass *g, size_t line, size_t spacer,
                   double u_edge, double price, rank_figures *out)
{
  const rank_line *l = &h->line[line];
  size_t s = (size_t)h->catalogue->spacer[spacer].spacer;
  double z[RANK_DIMS], y[2];
  rank_drive(h, g, line, spacer, u_edge, z);
  out->ua = l->center_area * g->u + l->edge_area * u_edge + l->fixed[g->n_pane][s].ua;
  for (int d = 0; d < RANK_DIMS; d++)
    z[d] = 2.0 * (z[d] - h->low[d]) / (h->high[d] - h->low[d]) - 1.0;
  surface_at(&h->model, z, y);
  out->heating = fmax(y[0], 0.0);
  out->cooling = fmax(y[1], 0.0);
  out->bill = h->heat_price * out->heating + h->cool_price * out->cooling;
  out->life_cost = price + h->years_worth * out->bill;
  out->u = out->ua / h->area;
  out->shgc =
      (g->shgc[0] * (l->glass_area - l->bars) + l->fixed[g->n_pane][s].sun_area) / h->area;
  out->vt = g->vt * (l->glass_area - l->bars) / h->area;
  out->light_kept = g->vt * (l->glass_area - l->bars) / h->light_now;
}
