/* A glass unit as JSON, SI with units in the keys. */
#include <jansson.h>
#include <math.h>

#include "out/glass_report.h"
#include "out/json.h"
#include "panewright/units.h"

static json_t *conditions(const char *name, const pw_env *e)
{
  json_t *o = json_object();
  if (name) pw_json_set_text(o, "name", name);
  pw_json_set(o, "outdoor_c", pw_c(e->t_out));
  pw_json_set(o, "indoor_c", pw_c(e->t_in));
  pw_json_set(o, "wind_m_s", e->wind);
  pw_json_set(o, "sun_w_m2", e->sun);
  return o;
}

static json_t *panes(const pw_glass_report *r)
{
  const pw_unit *u = &r->glazing.unit;
  double bare = r->en673 ? PW_BARE_GLASS_EN : PW_BARE_GLASS;
  json_t *list = json_array();
  for (size_t i = 0; i < u->n_pane; i++) {
    json_t *o = json_object();
    pw_json_set_text(o, "kind", r->buildup.pane[i].kind);
    pw_json_set(o, "thickness_mm", u->pane[i].thickness * 1e3);
    pw_json_set_text(o, "coating_out", r->buildup.pane[i].coating[0]);
    pw_json_set_text(o, "coating_in", r->buildup.pane[i].coating[1]);
    pw_json_set(o, "emissivity_out", u->pane[i].emit[0] > 0.0 ? u->pane[i].emit[0] : bare);
    pw_json_set(o, "emissivity_in", u->pane[i].emit[1] > 0.0 ? u->pane[i].emit[1] : bare);
    pw_json_set(o, "absorptance", r->light.absorbed[i]);
    pw_json_set(o, "temperature_out_c", pw_c(r->now.t[2 * i]));
    pw_json_set(o, "temperature_in_c", pw_c(r->now.t[2 * i + 1]));
    pw_json_set(o, "temperature_out_in_sun_c", pw_c(r->sunny.t[2 * i]));
    pw_json_set(o, "temperature_in_in_sun_c", pw_c(r->sunny.t[2 * i + 1]));
    json_array_append_new(list, o);
  }
  return list;
}

static json_t *gaps(const pw_glass_report *r)
{
  json_t *list = json_array();
  for (size_t i = 0; i + 1 < r->buildup.n_pane; i++) {
    json_t *o = json_object(), *mix = json_object();
    for (size_t k = 0; k < PW_GAS_COUNT; k++)
      if (r->buildup.gap[i].mix.share[k] > 0.0)
        pw_json_set(mix, pw_gas_name((pw_gas)k), r->buildup.gap[i].mix.share[k]);
    pw_json_set(o, "thickness_mm", r->buildup.gap[i].thickness * 1e3);
    json_object_set_new(o, "gas", mix);
    pw_json_set(o, "nusselt", r->now.gap[i].nusselt);
    pw_json_set(o, "convection_w_m2k", r->now.gap[i].h_conv);
    pw_json_set(o, "radiation_w_m2k", r->now.gap[i].h_rad);
    pw_json_set(o, "conductance_w_m2k", r->now.gap[i].conductance);
    pw_json_set(o, "conductance_in_sun_w_m2k", r->sunny.gap[i].conductance);
    json_array_append_new(list, o);
  }
  return list;
}

static json_t *angles(const pw_glass_report *r)
{
  const pw_light *l = &r->glazing.light;
  json_t *list = json_array();
  for (size_t a = 0; a < PW_ANGLES; a++) {
    json_t *o = json_object();
    double taken[PW_PANES_MAX];
    if (a == PW_ANGLE_DIFFUSE)
      pw_json_set_text(o, "angle_deg", "hemispherical");
    else
      pw_json_set(o, "angle_deg", 10.0 * (double)a);
    pw_json_set(o, "shgc", r->glazing.shgc[a]);
    pw_json_set(o, "vt", l->tau_v[a]);
    pw_json_set(o, "solar_transmittance", l->tau_e[a]);
    pw_json_set(o, "solar_reflectance_out", l->rho_e_out[a]);
    pw_json_set(o, "solar_reflectance_in", l->rho_e_in[a]);
    pw_json_set(o, "visible_reflectance_out", l->rho_v_out[a]);
    pw_json_set(o, "visible_reflectance_in", l->rho_v_in[a]);
    for (size_t i = 0; i < l->n_pane; i++)
      taken[i] = l->absorbed[i][a];
    json_object_set_new(o, "absorptance", pw_json_array(taken, l->n_pane));
    json_array_append_new(list, o);
  }
  return list;
}

static json_t *films(const pw_unit_result *now)
{
  json_t *o = json_object();
  pw_json_set(o, "outdoor_convection_w_m2k", now->h_c_out);
  pw_json_set(o, "outdoor_radiation_w_m2k", now->h_r_out);
  pw_json_set(o, "indoor_convection_w_m2k", now->h_c_in);
  pw_json_set(o, "indoor_radiation_w_m2k", now->h_r_in);
  return o;
}

pw_status pw_glass_json(const pw_glass_report *r, FILE *f, pw_err *err)
{
  const pw_light *l = &r->glazing.light;
  json_t *root = json_object(), *colour = json_object(), *notes = json_array();
  pw_json_set_text(root, "build_up", r->text);
  pw_json_set_text(root, "method", r->en673 ? "en673" : "iso15099");
  json_object_set_new(root, "conditions", conditions(r->conditions, &r->env));
  json_object_set_new(root, "sun_conditions", conditions(NULL, &r->sun_env));
  pw_json_set(root, "height_m", r->glazing.unit.height > 0.0 ? r->glazing.unit.height : 1.0);
  pw_json_set(root, "angle_deg", r->angle_deg);
  pw_json_set(root, "u_center_w_m2k", r->u);
  pw_json_set(root, "shgc", r->shgc);
  pw_json_set(root, "vt", r->light.tau_v);
  pw_json_set(root, "g_en410", r->g_en410);
  pw_json_set(root, "solar_transmittance", r->light.tau_e);
  pw_json_set(root, "solar_reflectance_out", r->light.rho_e_out);
  pw_json_set(root, "solar_reflectance_in", r->light.rho_e_in);
  pw_json_set(root, "visible_reflectance_out", r->light.rho_v_out);
  pw_json_set(root, "visible_reflectance_in", r->light.rho_v_in);
  pw_json_set(root, "ultraviolet_transmittance", l->tau_uv);
  pw_json_set(root, "damage_transmittance", l->t_damage);
  pw_json_set(colour, "x", l->cie_x);
  pw_json_set(colour, "y", l->cie_y);
  pw_json_set_text(colour, "words", pw_colour_word(l->cie_x, l->cie_y, l->tau_v[0]));
  json_object_set_new(root, "colour", colour);
  pw_json_set(root, "rw_db", r->sound.rw);
  pw_json_set(root, "c_db", r->sound.c[0]);
  pw_json_set(root, "ctr_db", r->sound.ctr[0]);
  pw_json_set(root, "stc_db", r->sound.stc);
  pw_json_set(root, "oitc_db", r->sound.oitc);
  json_object_set_new(root, "panes", panes(r));
  json_object_set_new(root, "gaps", gaps(r));
  json_object_set_new(root, "films", films(&r->now));
  json_object_set_new(root, "angles", angles(r));
  for (size_t i = 0; i < r->n_note; i++)
    json_array_append_new(notes, json_string(r->note[i]));
  json_object_set_new(root, "notes", notes);
  return pw_json_print(root, f, err);
}
