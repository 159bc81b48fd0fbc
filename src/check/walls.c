/* Layered walls of Standard 140: U against the printed figures, daily admittance against the closed
 * form of transmission matrices (ISO 13786 6, method from memory), computed here. */
#include <complex.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "check/check.h"
#include "house/wall.h"
#include "job/house_file.h"
#include "panewright/units.h"

/* Flux into the inner face for 1 K of swing there, outer face held. */
static double complex self_admittance(const pw_wall_layers *l, double omega)
{
  double complex m[2][2] = {{1.0, 0.0}, {0.0, 1.0}};
  for (size_t i = 0; i < l->n_layer; i++) {
    const pw_wall_layer *x = &l->layer[i];
    double complex a[2][2] = {{1.0, 0.0}, {0.0, 1.0}}, r[2][2];
    double store = x->density * x->heat, d = x->thickness;
    if (d > 0.0 && store > 0.0) {
      double complex p = csqrt(I * omega * store / x->conductivity);
      a[0][0] = a[1][1] = ccosh(p * d);
      a[0][1] = -csinh(p * d) / (p * x->conductivity);
      a[1][0] = -csinh(p * d) * p * x->conductivity;
    } else {
      a[0][1] = d > 0.0 ? -d / x->conductivity : -x->resistance;
    }
    for (int j = 0; j < 2; j++)
      for (int k = 0; k < 2; k++)
        r[j][k] = a[j][0] * m[0][k] + a[j][1] * m[1][k];
    memcpy(m, r, sizeof r);
  }
  return -m[1][1] / m[0][1];
}

/* The same by stepping our wall through forty days. */
static double complex stepped_admittance(const pw_wall *w)
{
  int n = (int)(86400.0 / w->step + 0.5);
  double z[PW_MODES_MAX] = {0.0}, before[2] = {0.0, 0.0}, flux[2], x = 2.0 * PW_PI / n;
  double complex sum = 0.0;
  for (int i = 0; i < 40 * n; i++) {
    double now[2] = {0.0, (sin(x * (i + 1)) - sin(x * i)) / x};
    pw_wall_recall(w, z, before, flux);
    flux[1] += w->direct[1][1] * now[1];
    pw_wall_step(w, before, now, z);
    memcpy(before, now, sizeof now);
    if (i >= 39 * n) sum += 2.0 / n * flux[1] * cexp(-I * x * (i + 0.5));
  }
  return sum / (sin(PW_PI / n) / (PW_PI / n));
}

/* U of the box with the films of the 1995 report, 8.29 inside and 29.3 outside (from memory). The
 * printed figures are rounded and do not say their films; 0.02 W/(m2 K) covers 25 in place of 29.3
 * and 7.7 in place of 8.29. */
static double box_u(const pw_house_part *p, const pw_wall *w)
{
  double out = p->outside == PW_OUTSIDE_AIR ? 1.0 / 29.3 : 0.0;
  return 1.0 / (1.0 / w->u + 1.0 / 8.29 + out);
}

static pw_status give_part(const pw_check_sink *sink, const char *name, const pw_house_part *p,
                           double printed, pw_err *err)
{
  pw_wall w;
  char id[64];
  pw_status s = pw_wall_init(&p->layers, 3600.0, &w, err);
  if (s != PW_OK) return s;
  snprintf(id, sizeof id, "%s %s", name, p->name);
  if (printed > 0.0)
    pw_check_give(sink, id, "U", "W/m2K", box_u(p, &w), printed, printed < 0.1 ? 5e-3 : 0.02,
                  "notes on climate STD140", "read; layers and films from memory");
  double complex want = self_admittance(&p->layers, 2.0 * PW_PI / 86400.0);
  double complex ours = stepped_admittance(&w);
  pw_check_give(sink, id, "daily admittance, hour steps", "W/m2K", cabs(ours), cabs(want),
                0.02 * cabs(want), "transmission matrices, closed form", "computed");
  pw_check_give(sink, id, "phase of it", "deg", carg(ours) * 180.0 / PW_PI,
                carg(want) * 180.0 / PW_PI, 1.0, "transmission matrices, closed form",
                "computed");
  return PW_OK;
}

static pw_status run(const pw_check_sink *sink, pw_err *err)
{
  static const struct {
    const char *name;
    double wall, roof, floor; /* printed U; 0 none */
  } box[] = {{"600", 0.53, 0.33, 0.038}, {"680", 0.15, 0.10, 0.038}, {"900", 0, 0, 0}};
  pw_house_file *file = calloc(1, sizeof *file);
  if (!file) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a house");
  pw_status s = PW_OK;
  for (size_t k = 0; s == PW_OK && k < sizeof box / sizeof box[0]; k++) {
    char name[32];
    snprintf(name, sizeof name, "std140/%s", box[k].name);
    s = pw_house_file_builtin(name, file, err);
    for (size_t i = 0; s == PW_OK && i < file->house.n_part; i++) {
      const pw_house_part *p = &file->house.part[i];
      if (p->tilt_deg == 90.0 && p->facing_deg != 0.0) continue; /* the walls are alike */
      double printed = p->tilt_deg == 90.0  ? box[k].wall
                       : p->tilt_deg < 90.0 ? box[k].roof
                                            : box[k].floor;
      s = give_part(sink, box[k].name, p, printed, err);
    }
  }
  free(file);
  return s;
}

extern const pw_check_group pw_check_walls;
const pw_check_group pw_check_walls = {
    "walls", "layered walls: U and daily admittance of the boxes of Standard 140", run};
