#include "glass/unit_check.h"

#include <math.h>

/* As pw_in_range, but 0 stands for the default. */
static pw_status in_range_or_0(double v, double low, double high, const char *field,
                               const char *unit, pw_err *err)
{
  if (v == 0.0) return PW_OK;
  return pw_in_range(v, low, high, field, unit, err);
}

pw_status unit_check(const pw_unit *unit, pw_err *err)
{
  pw_status s = PW_OK;
  if (!(unit->n_pane >= 1 && unit->n_pane <= PW_PANES_MAX))
    return pw_fail(err, PW_E_SHAPE, "n_pane", "%zu panes, want 1 to %d", unit->n_pane,
                   PW_PANES_MAX);
  for (size_t i = 0; i < unit->n_pane && s == PW_OK; i++) {
    const pw_pane *p = &unit->pane[i];
    s = pw_in_range(p->thickness, 0.5e-3, 50e-3, "pane.thickness", " m", err);
    if (s == PW_OK)
      s = in_range_or_0(p->conductivity, 0.02, 3.0, "pane.conductivity", " W/(m K)", err);
    for (int side = 0; side < 2 && s == PW_OK; side++)
      s = in_range_or_0(p->emit[side], 1e-3, 1.0, "pane.emit", "", err);
    if (i + 1 < unit->n_pane && s == PW_OK)
      s = pw_in_range(unit->gap[i].thickness, 1e-3, 0.3, "gap.thickness", " m", err);
  }
  if (s == PW_OK) s = in_range_or_0(unit->height, 0.05, 20.0, "height", " m", err);
  return s;
}

pw_status env_check(const pw_env *env, pw_err *err)
{
  const struct {
    double value, low, high;
    int zero_is_default;
    const char *field, *unit;
  } row[] = {
      {env->t_out, 173.15, 373.15, 0, "t_out", " K"},
      {env->t_in, 173.15, 373.15, 0, "t_in", " K"},
      {env->t_rad_out, 150.0, 373.15, 1, "t_rad_out", " K"},
      {env->t_rad_in, 150.0, 373.15, 1, "t_rad_in", " K"},
      {env->h_c_out, 0.1, 500.0, 1, "h_c_out", " W/(m2 K)"},
      {env->h_c_in, 0.1, 500.0, 1, "h_c_in", " W/(m2 K)"},
      {env->wind, 0.0, 100.0, 0, "wind", " m/s"},
      {env->sun, 0.0, 1500.0, 0, "sun", " W/m2"},
      {env->pressure, 3e4, 1.2e5, 1, "pressure", " Pa"},
  };
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    double v = row[i].value;
    if (v >= row[i].low && v <= row[i].high) continue;
    if (row[i].zero_is_default && v == 0.0) continue;
    return pw_in_range(v, row[i].low, row[i].high, row[i].field, row[i].unit, err);
  }
  return PW_OK;
}

pw_status absorbed_check(size_t n_pane, const double absorbed[], pw_err *err)
{
  double sum = 0.0;
  for (size_t i = 0; i < n_pane; i++) {
    if (!(absorbed[i] >= 0.0)) return pw_in_range(absorbed[i], 0.0, 1.0, "absorbed", "", err);
    sum += absorbed[i];
  }
  return pw_in_range(sum, 0.0, 1.0 + 1e-9, "absorbed", " in all", err);
}
