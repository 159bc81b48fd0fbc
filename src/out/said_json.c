#include "out/said_json.h"

#include "out/code_out.h"
#include "out/json.h"
#include "out/range_out.h"
#include "out/result.h"

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
  pw_figure kind;
  const int is_said = pw_result_said(key, &kind);
  const char *name;
  json_t *member;
  for (size_t i = 0; is_said && i < 3; i++)
    if (json_is_number(member = json_object_get(v, point[i])))
      json_object_set_new(all, point[i], text_of(kind, units, json_number_value(member)));
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
  pw_figure kind;
  if (json_is_number(v))
    return pw_result_said(key, &kind) ? text_of(kind, units, json_number_value(v)) : NULL;
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
  if (c->rated.code.known) {
    pw_code_limits_text(&c->rated.code, units, text);
    pw_json_set_text(code, "limits", text);
  }
  for (size_t p = 0; c->rated.code.known && p < c->n_package; p++) {
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
