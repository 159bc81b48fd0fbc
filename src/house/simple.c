#include "house/simple.h"

#include <math.h>

static const double h_ms_area = 9.1; /* W/(m2 K), mass to surface; ISO 13790 12.2.2, memory */

static double area_total(const pw_simple *s)
{
  return s->total_area > 0.0 ? s->total_area : 4.5 * s->floor_area;
}

static pw_status check(const pw_simple *s, pw_err *err)
{
  const struct {
    const char *name;
    double value, low;
  } row[] = {{"floor_area", s->floor_area, 1e-9},
             {"mass_area", s->mass_area, 1e-9},
             {"mass_store", s->mass_store, 1e-9},
             {"h_opaque", s->h_opaque, 0.0},
             {"h_window", s->h_window, 0.0},
             {"h_air", s->h_air, 0.0},
             {"h_is", s->h_is, 0.0},
             {"total_area", s->total_area, 0.0}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    if (!(row[i].value >= row[i].low && row[i].value < 1e12))
      return pw_fail(err, PW_E_DOMAIN, row[i].name, "%s %g, want %s", row[i].name, row[i].value,
                     row[i].low > 0.0 ? "above 0" : "0 or more");
  return PW_OK;
}

pw_status pw_simple_init(const pw_simple *s, pw_simple_net *net, pw_err *err)
{
  pw_status status = check(s, err);
  if (status != PW_OK) return status;
  pw_simple_net n = {0};
  n.h_is = (s->h_is > 0.0 ? s->h_is : 3.45) * area_total(s);
  n.h_ms = h_ms_area * s->mass_area;
  if (!(s->h_opaque < n.h_ms))
    return pw_fail(err, PW_E_DOMAIN, "h_opaque",
                   "%g W/K through opaque parts, want below %g W/K between mass and surface",
                   s->h_opaque, n.h_ms);
  n.h_em = s->h_opaque > 0.0 ? 1.0 / (1.0 / s->h_opaque - 1.0 / n.h_ms) : 0.0;
  n.h_1 = s->h_air > 0.0 ? 1.0 / (1.0 / s->h_air + 1.0 / n.h_is) : 0.0; /* C.6 */
  n.h_2 = n.h_1 + s->h_window;                                          /* C.7 */
  n.h_3 = n.h_2 > 0.0 ? 1.0 / (1.0 / n.h_2 + 1.0 / n.h_ms) : 0.0;       /* C.8 */
  n.total = n.h_em + n.h_3;
  *net = n;
  return PW_OK;
}

/* State of the hour for a given need. The air balance is solved with the supply term written as
 * H_1 T_sup + (H_1 / H_ve) phi, whose second factor is H_is / (H_ve + H_is): no division by a zero
 * air change. */
static double hour_state(const pw_simple *s, const pw_simple_net *n, const pw_simple_drive *d,
                         double t_old, double need, pw_simple_hour *out)
{
  double at = area_total(s), am = s->mass_area, inner = 0.5 * d->gain + d->solar;
  double phi_ia = 0.5 * d->gain + need;                                     /* C.1 */
  double phi_m = am / at * inner;                                           /* C.2 */
  double phi_st = (1.0 - am / at - s->h_window / (h_ms_area * at)) * inner; /* C.3 */
  double air = n->h_1 * d->t_supply + n->h_is / (s->h_air + n->h_is) * phi_ia;
  double node = phi_st + s->h_window * d->t_out + air;
  double lead = n->h_2 > 0.0 ? n->h_3 / n->h_2 : 1.0;
  double phi_mtot = phi_m + n->h_em * d->t_out + lead * node; /* C.5 */
  double c = s->mass_store / 3600.0, half = 0.5 * (n->h_3 + n->h_em);
  double t_new = (t_old * (c - half) + phi_mtot) / (c + half); /* C.4 */
  double t_m = 0.5 * (t_old + t_new);                          /* C.9 */
  out->need = need;
  out->t_surface = (n->h_ms * t_m + node) / (n->h_ms + s->h_window + n->h_1); /* C.10 */
  out->t_air = (n->h_is * out->t_surface + s->h_air * d->t_supply + phi_ia) /
               (n->h_is + s->h_air);                          /* C.11 */
  out->t_operative = 0.3 * out->t_air + 0.7 * out->t_surface; /* C.12 */
  return t_new;
}

void pw_simple_step(const pw_simple *simple, const pw_simple_net *net,
                    const pw_simple_drive *drive, double *t_mass, pw_simple_hour *hour)
{
  pw_simple_hour trial;
  double t_next = hour_state(simple, net, drive, *t_mass, 0.0, hour);
  double set = hour->t_air < drive->heat_set ? drive->heat_set
               : hour->t_air > drive->cool_set
                   ? drive->cool_set
                   : NAN; /* a set point that is off compares false */
  if (!isnan(set)) {
    double ten = 10.0 * simple->floor_area;
    hour_state(simple, net, drive, *t_mass, ten, &trial);
    double need = ten * (set - hour->t_air) / (trial.t_air - hour->t_air); /* C.13 */
    t_next = hour_state(simple, net, drive, *t_mass, need, hour);
  }
  *t_mass = t_next;
}
