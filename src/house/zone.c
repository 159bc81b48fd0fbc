#include "panewright/zone.h"
#include "house/wall.h"

#include <math.h>

static pw_status check_part(const pw_house_part *p, pw_err *err)
{
  const struct {
    const char *name;
    double value, low, high;
  } row[] = {{"area", p->area, 0.0, 1e5},
             {"tilt_deg", p->tilt_deg, 0.0, 180.0},
             {"facing_deg", p->facing_deg, -360.0, 720.0},
             {"absorptance", p->absorptance, 0.0, 1.0},
             {"emittance", p->emittance, 0.0, 1.0},
             {"absorptance_in", p->absorptance_in, 0.0, 1.0},
             {"emittance_in", p->emittance_in, 0.0, 1.0},
             {"height", p->height, 0.0, 100.0},
             {"overhang_depth", p->overhang_depth, 0.0, 20.0},
             {"overhang_gap", p->overhang_gap, 0.0, 20.0}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    if (!(row[i].value >= row[i].low && row[i].value <= row[i].high))
      return pw_fail(err, PW_E_DOMAIN, row[i].name, "part \"%s\": %s %g, want %g to %g",
                     p->name, row[i].name, row[i].value, row[i].low, row[i].high);
  if (p->layers.n_layer < 1 || p->layers.n_layer > PW_LAYERS_MAX)
    return pw_fail(err, PW_E_SHAPE, "layers", "part \"%s\": %zu layers, want 1 to %d", p->name,
                   p->layers.n_layer, PW_LAYERS_MAX);
  return PW_OK;
}

static pw_status check_hours(const pw_house *h, pw_err *err)
{
  for (int i = 0; h->air_shape && i < PW_HOURS; i++)
    if (!(h->air_shape[i] >= 0.0f && h->air_shape[i] < 1000.0f))
      return pw_fail(err, PW_E_DOMAIN, "air_shape", "%g in hour %d, want 0 or more",
                     (double)h->air_shape[i], i);
  for (int i = 0; i < 24; i++) {
    double a = h->heat_set_c[i], b = h->cool_set_c[i];
    if (!(isnan(a) || (a >= -50.0 && a <= 60.0)))
      return pw_fail(err, PW_E_DOMAIN, "heat_set_c", "%g C at hour %d, want -50 to 60", a, i);
    if (!(isnan(b) || (b >= -50.0 && b <= 100.0)))
      return pw_fail(err, PW_E_DOMAIN, "cool_set_c", "%g C at hour %d, want -50 to 100", b, i);
    if (!(fabs(h->heat_ramp_k[i]) <= 50.0))
      return pw_fail(err, PW_E_DOMAIN, "heat_ramp_k", "%g K in hour %d, want -50 to 50",
                     h->heat_ramp_k[i], i);
    if (a + 0.5 * fabs(h->heat_ramp_k[i]) > b)
      return pw_fail(err, PW_E_DOMAIN, "cool_set_c",
                     "cooling at %g C below heating at %g C in hour %d", b, a, i);
    if (!(h->vent_changes[i] >= 0.0 && h->vent_changes[i] < 1000.0))
      return pw_fail(err, PW_E_DOMAIN, "vent_changes", "%g 1/h, want 0 to 1000",
                     h->vent_changes[i]);
  }
  for (int i = 0; i < 12; i++)
    if (!(h->ground_c[i] >= -40.0 && h->ground_c[i] <= 50.0))
      return pw_fail(err, PW_E_DOMAIN, "ground_c", "%g C, want -40 to 50", h->ground_c[i]);
  return PW_OK;
}

pw_status pw_house_check(const pw_house *h, pw_err *err)
{
  const struct {
    const char *name;
    double value, low, high;
  } row[] = {{"floor_area", h->floor_area, 1.0, 1e6},
             {"volume", h->volume, 1.0, 1e7},
             {"air_changes", h->air_changes, 0.0, 100.0},
             {"gain_w", h->gain_w, 0.0, 1e7},
             {"gain_radiant", h->gain_radiant, 0.0, 1.0},
             {"heat_radiant", h->heat_radiant, 0.0, 1.0},
             {"heat_max_w", h->heat_max_w, 0.0, 1e9},
             {"cool_max_w", h->cool_max_w, 0.0, 1e9},
             {"air_store", h->air_store, 0.0, 100.0},
             {"albedo", h->albedo, 0.0, 1.0},
             {"height", h->height, 0.0, 100.0},
             {"terrain", h->terrain, 0.0, 0.6},
             {"warm_c", h->warm_c, 0.0, 100.0},
             {"film_in", h->film_in, 0.0, PW_FILM_IN_HEATED},
             {"film_out", h->film_out, 0.0, PW_FILM_OUT_PLAIN},
             {"airing.share", h->airing.share, 0.0, 1.0},
             {"airing.flow", h->airing.flow, 0.0, 100.0},
             {"airing.down_to_c", h->airing.down_to_c, 0.0, 60.0},
             {"airing.over_out", h->airing.over_out, 0.0, 50.0},
             {"airing.dew_most_c", h->airing.dew_most_c, -100.0, 100.0},
             {"airing.most_changes", h->airing.most_changes, 0.0, 1000.0},
             {"mass_area", h->mass_area, 0.0, 1e7},
             {"mass_store", h->mass_store, 0.0, 1e12}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    if (!(row[i].value >= row[i].low && row[i].value <= row[i].high))
      return pw_fail(err, PW_E_DOMAIN, row[i].name, "house: %s %g, want %g to %g", row[i].name,
                     row[i].value, row[i].low, row[i].high);
  if (h->n_part < 1 || h->n_part > PW_PARTS_MAX)
    return pw_fail(err, PW_E_SHAPE, "n_part", "%zu parts, want 1 to %d", h->n_part,
                   PW_PARTS_MAX);
  for (size_t i = 0; i < h->n_part; i++) {
    pw_status s = check_part(&h->part[i], err);
    if (s != PW_OK) return s;
  }
  return check_hours(h, err);
}

double pw_house_part_u(const pw_house_part *part)
{
  /* ISO 6946:2017 table 7: inside 0.10 up, 0.13 level, 0.17 down; outside 0.04; memory */
  double r_si = part->tilt_deg < 30.0 ? 0.10 : part->tilt_deg > 150.0 ? 0.17 : 0.13;
  double r_se = part->outside == PW_OUTSIDE_AIR ? 0.04 : 0.0;
  return 1.0 / (r_si + pw_wall_resistance(&part->layers) + r_se);
}

void pw_house_ua(const pw_house *house, double *to_air, double *to_ground)
{
  double air = 0.0, ground = 0.0;
  for (size_t i = 0; i < house->n_part; i++) {
    const pw_house_part *p = &house->part[i];
    if (p->outside == PW_OUTSIDE_SAME) continue;
    *(p->outside == PW_OUTSIDE_AIR ? &air : &ground) += p->area * pw_house_part_u(p);
  }
  if (to_air) *to_air = air;
  if (to_ground) *to_ground = ground;
}
