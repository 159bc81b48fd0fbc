#include "out/said_json.h"

#include <string.h>

#include "out/code_out.h"
#include "out/figure.h"
#include "out/json.h"
#include "out/range_out.h"

/* As the customer's pages print each (data-kind there; tests/cli/compare_said.case holds them together). */
static const struct {
  const char *key;
  pw_figure kind;
} kinds[] = {{"u_w_m2k", PW_FIGURE_U},
             {"shgc", PW_FIGURE_RATIO},
             {"vt", PW_FIGURE_RATIO},
             {"glass_kept", PW_FIGURE_SHARE},
             {"light_kept", PW_FIGURE_SHARE},
             {"glass_area_m2", PW_FIGURE_AREA},
             {"opening_area_m2", PW_FIGURE_AREA},
             {"sweat_above_rh", PW_FIGURE_SHARE},
             {"coldest", PW_FIGURE_SHARE},
             {"inner_glass_design_night_c", PW_FIGURE_TEMPERATURE},
             {"design_outdoor_c", PW_FIGURE_TEMPERATURE},
             {"hours_uncomfortable", PW_FIGURE_HOURS},
             {"heating_kwh", PW_FIGURE_KWH},
             {"cooling_kwh", PW_FIGURE_KWH},
             {"co2_kg", PW_FIGURE_MASS},
             {"cost", PW_FIGURE_MONEY_5},
             {"cost_year", PW_FIGURE_MONEY_5},
             {"saving", PW_FIGURE_MONEY_5},
             {"saving_cost_year", PW_FIGURE_MONEY_5},
             {"saving_over_code_minimum", PW_FIGURE_MONEY_5},
             {"saving_over_code_minimum_year", PW_FIGURE_MONEY_5},
             {"price", PW_FIGURE_MONEY},
             {"payback_years", PW_FIGURE_YEARS},
             {"window_saving_cost_year", PW_FIGURE_MONEY},
             {"window_price", PW_FIGURE_MONEY}};

static int kind_of(const char *key)
{
  for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
    if (strcmp(kinds[i].key, key) == 0) return (int)kinds[i].kind;
  return -1;
}

static json_t *text_of(pw_figure kind, const pw_unit_set *units, double value)
{
  char text[32];
  if (kind == PW_FIGURE_TEMPERATURE) value += 273.15;
  pw_figure_text(kind, units, value, text);
  return json_string(text);
}

static json_t *said(const char *key, const json_t *v, const pw_unit_set *units);

/* Low, likely and high of a range are figures of the kind that its own key has. */
static json_t *said_object(const char *key, const json_t *v, const pw_unit_set *units)
{
  static const char *const point[] = {"p10", "p50", "p90"};
  json_t *all = json_object();
  const int kind = kind_of(key);
  const char *name;
  json_t *member;
  for (size_t i = 0; kind >= 0 && i < 3; i++)
    if (json_is_number(member = json_object_get(v, point[i])))
      json_object_set_new(all, point[i],
                          text_of((pw_figure)kind, units, json_number_value(member)));
  json_object_foreach((json_t *)v, name, member)
  {
    json_t *one = said(name, member, units);
    if (one) json_object_set_new(all, name, one);
  }
  return all;
}

static json_t *said_array(const char *key, const json_t *v, const pw_unit_set *units)
{
  json_t *all = json_array();
  for (size_t i = 0; i < json_array_size(v); i++) {
    json_t *one = said(key, json_array_get(v, i), units);
    json_array_append_new(all, one ? one : json_object());
  }
  return all;
}

/* NULL when there is nothing to say of it. */
static json_t *said(const char *key, const json_t *v, const pw_unit_set *units)
{
  if (json_is_number(v)) {
    int kind = kind_of(key);
    return kind < 0 ? NULL : text_of((pw_figure)kind, units, json_number_value(v));
  }
  json_t *all = json_is_object(v) ? said_object(key, v, units)
                : json_is_array(v) && json_is_object(json_array_get(v, 0))
                    ? said_array(key, v, units)
                    : NULL;
  if (all && json_is_object(all) && json_object_size(all) == 0) {
    json_decref(all);
    return NULL;
  }
  return all;
}

json_t *pw_said_json(const json_t *root, const pw_compare *c, const pw_range *range,
                     const pw_unit_set *units, const pw_tongue *tongue)
{
  static const char *const part[] = {"openings", "house", "design_outdoor_c"};
  json_t *all = json_object(), *word = json_object(), *code = json_object(),
         *packages = json_array();
  for (size_t i = 0; i < sizeof part / sizeof part[0]; i++) {
    json_t *one = said(part[i], json_object_get(root, part[i]), units);
    if (one) json_object_set_new(all, part[i], one);
  }
  pw_json_set_text(word, "u", units->u);
  pw_json_set_text(word, "area", units->area);
  pw_json_set_text(word, "temperature", units->temperature);
  json_object_set_new(all, "units", word);
  char text[320];
  if (c->code.known) {
    pw_code_limits_text(&c->code, units, text);
    pw_json_set_text(code, "limits", text);
  }
  for (size_t p = 0; c->code.known && p < c->n_package; p++) {
    pw_code_package k;
    text[0] = '\0';
    if (pw_code_check_package(c, p, &k, NULL) == PW_OK)
      pw_code_package_text(&k, units, tongue, text);
    json_array_append_new(packages, json_string(text));
  }
  json_object_set_new(code, "packages", packages);
  json_object_set_new(all, "code", code);
  json_t *claims = json_array();
  for (size_t p = 0; p < c->n_package; p++) {
    char claim[400];
    pw_claim_said(c, range, tongue, p, claim, sizeof claim);
    json_array_append_new(claims, json_string(claim));
  }
  json_object_set_new(all, "claims", claims);
  return all;
}
