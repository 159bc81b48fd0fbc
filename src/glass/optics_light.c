/* The table of light by angle: every angle's stack, weighted. */
#include <gsl/gsl_integration.h>
#include <math.h>
#include <string.h>

#include "base/gsl_quiet.h"
#include "base/own_math.h"
#include "glass/optics.h"
#include "panewright/units.h"

enum { STEPS = PW_FAN - PW_HEMI }; /* 0, 10 .. 80 degrees, ahead of the Gauss points */

/* Cosines of the fan and the share of each in the hemispherical mean (0 for the steps). */
typedef struct angles {
  double cosine[PW_FAN], share[PW_FAN];
} angles;

/* X_hemi = integral of X(th) sin(2 th) d th = integral of X du, u = sin^2 th, 0..1. */
static pw_status set_angles(angles *a, pw_err *err)
{
  memset(a, 0, sizeof *a);
  for (size_t i = 0; i < STEPS; i++)
    a->cosine[i] = pw_cos(pw_rad(10.0 * (double)i));
  gsl_error_handler_t *held = pw_gsl_hold();
  gsl_integration_glfixed_table *table = gsl_integration_glfixed_table_alloc(PW_HEMI);
  pw_gsl_release(held);
  if (!table) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the quadrature");
  for (size_t i = 0; i < PW_HEMI; i++) {
    double u = 0.0, w = 0.0;
    gsl_integration_glfixed_point(0.0, 1.0, i, &u, &w, table);
    a->cosine[STEPS + i] = sqrt(1.0 - u);
    a->share[STEPS + i] = w;
  }
  gsl_integration_glfixed_table_free(table);
  return PW_OK;
}

static void weigh(const pw_spectrum *s, const pw_sheet *system,
                  const double absorbed[][PW_LANE], size_t n, pw_light_row *r)
{
  r->tau_e = pw_spectrum_mean(s, PW_W_SOLAR, system->t);
  r->rho_e_out = pw_spectrum_mean(s, PW_W_SOLAR, system->rf);
  r->rho_e_in = pw_spectrum_mean(s, PW_W_SOLAR, system->rb);
  r->tau_v = pw_spectrum_mean(s, PW_W_VISIBLE, system->t);
  r->rho_v_out = pw_spectrum_mean(s, PW_W_VISIBLE, system->rf);
  r->rho_v_in = pw_spectrum_mean(s, PW_W_VISIBLE, system->rb);
  for (size_t k = 0; k < n; k++)
    r->absorbed[k] = pw_spectrum_mean(s, PW_W_SOLAR, absorbed[k]);
}

static void add(pw_light *light, size_t to, const pw_light_row *r, double share)
{
  light->tau_e[to] += share * r->tau_e;
  light->rho_e_out[to] += share * r->rho_e_out;
  light->rho_e_in[to] += share * r->rho_e_in;
  light->tau_v[to] += share * r->tau_v;
  light->rho_v_out[to] += share * r->rho_v_out;
  light->rho_v_in[to] += share * r->rho_v_in;
  for (size_t k = 0; k < light->n_pane; k++)
    light->absorbed[k][to] += share * r->absorbed[k];
}

static void normal_only(pw_light *light, const pw_spectrum *s, const double t[PW_LANE])
{
  light->tau_uv = pw_spectrum_mean(s, PW_W_UV, t);
  light->t_damage = pw_spectrum_mean(s, PW_W_DAMAGE, t);
  double x = pw_spectrum_mean(s, PW_W_X, t), y = pw_spectrum_mean(s, PW_W_Y, t);
  double z = pw_spectrum_mean(s, PW_W_Z, t), sum = x + y + z;
  light->cie_x = sum > 0.0 ? x / sum : 0.0;
  light->cie_y = sum > 0.0 ? y / sum : 0.0;
}

static void grazing(pw_light *light)
{
  light->rho_e_out[9] = light->rho_e_in[9] = 1.0;
  light->rho_v_out[9] = light->rho_v_in[9] = 1.0;
}

static void take(pw_light *light, const pw_spectrum *spectrum, const angles *a, size_t i,
                 const pw_sheet *system, const double absorbed[][PW_LANE])
{
  pw_light_row r;
  weigh(spectrum, system, absorbed, light->n_pane, &r);
  add(light, PW_ANGLE_DIFFUSE, &r, a->share[i]);
  if (i < STEPS) add(light, i, &r, 1.0);
  if (i == 0) normal_only(light, spectrum, system->t);
}

static pw_status count(size_t n, pw_err *err)
{
  if (n >= 1 && n <= PW_PANES_MAX) return PW_OK;
  return pw_fail(err, PW_E_SHAPE, "n_pane", "%zu panes, want 1 to %d", n, PW_PANES_MAX);
}

/* An empty table for n panes, and the angles to fill it at. */
static pw_status start(size_t n, angles *a, pw_light *light, pw_err *err)
{
  pw_status status = count(n, err);
  if (status == PW_OK) status = set_angles(a, err);
  if (status != PW_OK) return status;
  memset(light, 0, sizeof *light);
  light->n_pane = n;
  return PW_OK;
}

pw_status pw_light_build(const pw_layer *const layer[], size_t n, const pw_spectrum *spectrum,
                         pw_pol pol, pw_light *light, pw_err *err)
{
  angles a;
  pw_status status = start(n, &a, light, err);
  if (status != PW_OK) return status;
  for (size_t i = 0; i < PW_FAN; i++) {
    pw_sheet system;
    double absorbed[PW_PANES_MAX][PW_LANE];
    pw_stack_at(layer, n, spectrum, a.cosine[i], pol, &system, absorbed);
    take(light, spectrum, &a, i, &system, (const double(*)[PW_LANE])absorbed);
  }
  grazing(light);
  return PW_OK;
}

pw_status pw_light_at(const pw_layer *const layer[], size_t n, const pw_spectrum *spectrum,
                      double degree, pw_pol pol, pw_light_row *out, pw_err *err)
{
  pw_sheet system;
  double absorbed[PW_PANES_MAX][PW_LANE];
  pw_status status = count(n, err);
  if (status != PW_OK) return status;
  if (!(degree >= 0.0 && degree <= 90.0))
    return pw_fail(err, PW_E_DOMAIN, "angle", "angle of incidence %g, want 0 to 90 degrees",
                   degree);
  pw_light_row r = {.rho_e_out = 1.0, .rho_e_in = 1.0, .rho_v_out = 1.0, .rho_v_in = 1.0};
  if (degree < 90.0) {
    pw_stack_at(layer, n, spectrum, pw_cos(pw_rad(degree)), pol, &system, absorbed);
    weigh(spectrum, &system, (const double(*)[PW_LANE])absorbed, n, &r);
  }
  *out = r;
  return PW_OK;
}

pw_status pw_fan_init(const pw_layer *layer, const pw_spectrum *spectrum, pw_fan *fan,
                      pw_err *err)
{
  angles a;
  pw_status status = set_angles(&a, err);
  for (size_t i = 0; status == PW_OK && i < PW_FAN; i++)
    pw_layer_at(layer, spectrum, a.cosine[i], PW_POL_MEAN, &fan->at[i]);
  return status;
}

pw_status pw_light_from_fans(const pw_fan *const fan[], size_t n, const pw_spectrum *spectrum,
                             pw_light *light, pw_err *err)
{
  angles a;
  pw_status status = start(n, &a, light, err);
  if (status != PW_OK) return status;
  for (size_t i = 0; i < PW_FAN; i++) {
    pw_sheet system;
    double absorbed[PW_PANES_MAX][PW_LANE];
    const pw_sheet *sheet[PW_PANES_MAX] = {0};
    for (size_t k = 0; k < n; k++)
      sheet[k] = &fan[k]->at[i];
    pw_stack_solve(sheet, n, &system, absorbed);
    take(light, spectrum, &a, i, &system, (const double(*)[PW_LANE])absorbed);
  }
  grazing(light);
  return PW_OK;
}
