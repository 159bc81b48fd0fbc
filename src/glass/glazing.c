#include "panewright/glazing.h"

#include "glass/optics.h"

void pw_glazing_unit(const pw_buildup *b, const pw_layer *const layer[], pw_unit *unit)
{
  *unit = (pw_unit){.n_pane = b->n_pane};
  for (size_t i = 0; i < b->n_pane; i++) {
    unit->pane[i].thickness = b->pane[i].thickness;
    unit->pane[i].conductivity = layer[i]->conductivity;
    for (size_t side = 0; side < 2; side++)
      unit->pane[i].emit[side] =
          b->pane[i].emit[side] > 0.0 ? b->pane[i].emit[side] : layer[i]->emit[side];
    if (i + 1 < b->n_pane) unit->gap[i] = b->gap[i];
  }
}

pw_status pw_glazing_shgc(const pw_glazing *glazing, const pw_env *env, size_t angle,
                          double *shgc, pw_err *err)
{
  double absorbed[PW_PANES_MAX] = {0};
  for (size_t i = 0; i < glazing->light.n_pane; i++)
    absorbed[i] = glazing->light.absorbed[i][angle];
  return pw_unit_shgc(&glazing->unit, env, glazing->light.tau_e[angle], absorbed, shgc, err);
}

pw_status pw_layers_init(const pw_buildup *buildup, const pw_measured own[], size_t n_own,
                         pw_layers *layers, pw_err *err)
{
  if (buildup->n_pane < 1 || buildup->n_pane > PW_PANES_MAX)
    return pw_fail(err, PW_E_SHAPE, "n_pane", "%zu panes, want 1 to %d", buildup->n_pane,
                   PW_PANES_MAX);
  pw_status status = PW_OK;
  pw_spectrum_init(&layers->spectrum);
  layers->n = buildup->n_pane;
  for (size_t i = 0; status == PW_OK && i < layers->n; i++) {
    status =
        pw_layer_init(&buildup->pane[i], own, n_own, &layers->spectrum, &layers->layer[i], err);
    layers->list[i] = &layers->layer[i];
  }
  return status;
}

pw_status pw_glazing_optics(const pw_buildup *buildup, const pw_measured own[], size_t n_own,
                            pw_pol pol, pw_unit *unit, pw_light *light, pw_err *err)
{
  pw_layers layers;
  pw_status status = pw_layers_init(buildup, own, n_own, &layers, err);
  if (status == PW_OK)
    status = pw_light_build(layers.list, layers.n, &layers.spectrum, pol, light, err);
  if (status == PW_OK) pw_glazing_unit(buildup, layers.list, unit);
  return status;
}

/* All angles, the dark balance once. Two-state difference: ISO 15099:2003 4.2 (clause from
 * memory). */
pw_status pw_glazing_sun(pw_glazing *g, pw_err *err)
{
  const pw_env *env = &pw_env_summer;
  pw_unit_result dark, sunny;
  pw_status status = pw_unit_balance(&g->unit, env, NULL, &dark, err);
  for (size_t a = 0; status == PW_OK && a < PW_ANGLES; a++) {
    double absorbed[PW_PANES_MAX] = {0};
    for (size_t i = 0; i < g->light.n_pane; i++)
      absorbed[i] = g->light.absorbed[i][a];
    status = pw_unit_balance(&g->unit, env, absorbed, &sunny, err);
    if (status == PW_OK) g->shgc[a] = g->light.tau_e[a] + (dark.q_in - sunny.q_in) / env->sun;
  }
  return status;
}

pw_status pw_glazing_heat(pw_glazing *glazing, pw_err *err)
{
  pw_unit_result dark;
  pw_status status = pw_unit_solve(&glazing->unit, &pw_env_winter, NULL, &dark, err);
  if (status == PW_OK) status = pw_glazing_sun(glazing, err);
  if (status == PW_OK) glazing->u_winter = dark.u;
  return status;
}

pw_status pw_glazing_build_with(const pw_buildup *buildup, const pw_measured own[],
                                size_t n_own, pw_glazing *glazing, pw_err *err)
{
  pw_glazing g = {0};
  pw_status status =
      pw_glazing_optics(buildup, own, n_own, PW_POL_MEAN, &g.unit, &g.light, err);
  if (status == PW_OK) status = pw_glazing_heat(&g, err);
  if (status == PW_OK) *glazing = g;
  return status;
}

pw_status pw_glazing_build(const pw_buildup *buildup, pw_glazing *glazing, pw_err *err)
{
  return pw_glazing_build_with(buildup, NULL, 0, glazing, err);
}
