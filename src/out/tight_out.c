#include "out/tight_out.h"
#include "out/text_stream.h"

#include <math.h>

#include "gen/reference.h"
#include "out/caution_out.h"
#include "out/clip.h"
#include "out/grid.h"
#include "out/json.h"
#include "out/message_text.h"
#include "out/result.h"
#include "out/wrap.h"
#include "panewright/units.h"

enum { WIDE = 100 };

const char *pw_tight_model(const pw_compare_tight *t)
{
  return t->model == PW_INFILTRATION_AIM2 ? "AIM-2" : "Sherman and Grimsrud 1980";
}

static double area(const pw_unit_set *units, double m2)
{
  return units->si ? 1e4 * m2 : m2 / (PW_INCH * PW_INCH);
}

static pw_status table(const pw_compare *c, const pw_compare_tight *t, const pw_unit_set *units,
                       FILE *f, pw_err *err)
{
  static const char *const header[] = {"<package", "sashes", "house", "air 1/h", "heat kWh",
                                       "cool kWh", "saved",  "low",   "high"};
  pw_grid *g = pw_grid_new(sizeof header / sizeof header[0], header);
  for (int p = -1; p < (int)c->n_package; p++) {
    const pw_tight_package *k = p < 0 ? NULL : &t->package[p];
    double sashes = t->sashes - (k ? t->sashes_replaced - k->inserts.usual : 0.0);
    pw_grid_cell(g, "%s", k ? pw_clip(c->rated.package_set[p].name, 16).text : "existing");
    pw_grid_number(g, area(units, sashes), 1);
    pw_grid_number(g, area(units, k ? k->area : t->area), 1);
    pw_grid_number(g, k ? k->air_changes : t->air_changes, 3);
    pw_grid_number(g, k ? k->heating_kwh : c->lived.existing_set.year.heating_kwh, 0);
    pw_grid_number(g,
                   !c->billed.rates.cools ? (double)NAN
                   : k                    ? k->cooling_kwh
                                          : c->lived.existing_set.year.cooling_kwh,
                   0);
    if (!k) {
      for (int i = 0; i < 3; i++)
        pw_grid_cell(g, "%s", "");
      continue;
    }
    pw_grid_dollars(g, k->saving.cost_year);
    pw_grid_dollars(g, k->cost_low);
    pw_grid_dollars(g, k->cost_high);
  }
  fprintf(f,
          "\nTightness: what tighter windows save beside their glass, in no other figure here\n"
          "(leakage areas at 4 Pa in %s; the windows there now, for a year)\n",
          units->si ? "cm2" : "in2");
  pw_status status = pw_grid_print(g, f, PW_TEXT, err);
  pw_grid_free(g);
  return status;
}

static void basis(const pw_compare_tight *t, FILE *f)
{
  char text[400], states[120] = "";
  int n = 0;
  for (int s = 0; s < PW_SASH_STATES; s++)
    if (t->n_state[s] > 0 && n < (int)sizeof states)
      n += snprintf(states + n, sizeof states - (size_t)n, "%s%d %s%s", n ? ", " : "",
                    t->n_state[s], pw_sash_state_name((pw_sash_state)s),
                    s == PW_SASH_BLANK ? " (not said)" : "");
  snprintf(
      text, sizeof text,
      "The house's area by %s, %s. Sashes by kind and state (%s), inserts by their label or "
      "the published range, with their joints; sashes make %.0f %% of the house's area.",
      t->by_door ? "cfm50" : "its air changes", pw_tight_model(t), states[0] ? states : "none",
      100.0 * t->sashes / t->area);
  pw_wrap(f, "", text, WIDE);
  const pw_ref_air_leakage_row *r = &pw_ref_air_leakage[pw_ref_air_leakage__share_windows];
  if (t->taped)
    pw_wrap(f, "", "Their sum is what the tape shut, cfm50 less cfm50_taped.", WIDE);
  else if (t->held) {
    snprintf(
        text, sizeof text,
        "By the tables they would make %.0f %%: held to %.0f %%, the most that houses showed "
        "(%s), since no reading with the windows taped says more.",
        100.0 * t->by_table / t->area, 100.0 * t->share_most, r->source);
    pw_wrap(f, "", text, WIDE);
  }
  snprintf(
      text, sizeof text,
      "Saved: $ a year at the job's prices and plant. Low and high: 8 in 10 of %d "
      "draws of sashes, inserts, joints, the house's leakage, shelter, terrain and the two "
      "models. Most of these numbers are from memory; a blower door, with the windows taped "
      "and without, would tell.",
      PW_TIGHT_DRAWS);
  pw_wrap(f, "", text, WIDE);
}

pw_status pw_tight_text(const pw_compare *c, const pw_compare_tight *t,
                        const pw_unit_set *units, FILE *f, pw_err *err)
{
  if (!t->told) return PW_OK;
  pw_status status = table(c, t, units, f, err);
  if (status != PW_OK) return status;
  basis(t, f);
  for (size_t i = 0; i < t->n_caution; i++) {
    const pw_caution *k = &t->caution[i];
    char lead[40], said[PW_MESSAGE_TEXT], text[2 * PW_MESSAGE_TEXT];
    pw_message_text(NULL, &k->finding, said, sizeof said);
    snprintf(lead, sizeof lead, "  %-6s %-4s ", pw_caution_state_name(k->state), k->id);
    snprintf(text, sizeof text, "%s. [%s; decides: %s]", said, k->source, k->defer_to);
    pw_wrap(f, lead, text, WIDE);
  }
  return pw_text_written(f, "the tightness", err);
}

/* ---------------------------------------------------------------- JSON */

static json_t *span_json(const pw_leak_span *s)
{
  json_t *o = json_object();
  pw_json_set(o, "low", 1e4 * s->low);
  pw_json_set(o, "usual", 1e4 * s->usual);
  pw_json_set(o, "high", 1e4 * s->high);
  return o;
}

static json_t *openings_json(const pw_compare *c, const pw_compare_tight *t)
{
  json_t *all = json_array();
  for (size_t i = 0; i < c->n_opening; i++) {
    const pw_opening *o = &c->job->opening[i];
    const pw_tight_opening *at = &t->opening[i];
    if (!at->counted) continue;
    json_t *j = json_object();
    pw_json_set_text(j, "opening", o->tag);
    pw_json_set_text(j, "state", pw_sash_state_name(o->sash_leak));
    json_object_set_new(j, "replaced", json_boolean(at->replaced));
    pw_json_set(j, "crack_m", at->crack);
    json_object_set_new(j, "leakage_area_cm2", span_json(&at->now));
    json_array_append_new(all, j);
  }
  return all;
}

static json_t *package_json(const pw_compare *c, const pw_compare_tight *t, size_t p)
{
  const pw_tight_package *k = &t->package[p];
  json_t *o = json_object();
  pw_json_set_text(o, "package", c->rated.package_set[p].name);
  json_object_set_new(o, "inserts_cm2", span_json(&k->inserts));
  pw_json_set(o, "sashes_cm2", 1e4 * (t->sashes - t->sashes_replaced + k->inserts.usual));
  pw_json_set(o, "leakage_area_cm2", 1e4 * k->area);
  pw_json_set(o, "air_changes_1_h", k->air_changes);
  pw_result_set(o, PW_RESULT_HEATING, k->heating_kwh);
  pw_result_set(o, PW_RESULT_COOLING, k->cooling_kwh);
  pw_result_set(o, PW_RESULT_SAVING, k->saving.cost_year);
  pw_json_set(o, "saving_low", k->cost_low);
  pw_json_set(o, "saving_high", k->cost_high);
  pw_result_set(o, PW_RESULT_SAVING_COMPUTED, k->saving.cost_computed);
  pw_result_set(o, PW_RESULT_SAVING_ENERGY, k->saving.need_kwh);
  pw_json_set(o, "saving_energy_kwh_low", k->need_low);
  pw_json_set(o, "saving_energy_kwh_high", k->need_high);
  pw_result_set(o, PW_RESULT_SAVING_FUEL, k->saving.fuel_kwh);
  pw_result_set(o, PW_RESULT_SAVING_CO2, k->saving.co2_kg);
  return o;
}

json_t *pw_tight_json(const pw_compare *c, const pw_compare_tight *t)
{
  json_t *o = json_object(), *house = json_object(), *packages = json_array();
  pw_json_set_text(house, "by", t->by_door ? "cfm50" : "air_changes");
  pw_json_set_text(house, "model", pw_tight_model(t));
  pw_json_set(house, "leakage_area_cm2", 1e4 * t->area);
  pw_json_set(house, "air_changes_1_h", t->air_changes);
  pw_json_set(house, "sashes_by_table_cm2", 1e4 * t->by_table);
  pw_json_set(house, "sashes_cm2", 1e4 * t->sashes);
  pw_json_set(house, "sashes_share", t->sashes / t->area);
  json_object_set_new(house, "taped", json_boolean(t->taped));
  pw_json_set(house, "share_at_most", t->share_most); /* null where taped */
  json_object_set_new(house, "held", json_boolean(t->held));
  pw_json_set(house, "held_share_of_draws", t->held_draws);
  json_object_set_new(o, "house", house);
  json_object_set_new(o, "openings", openings_json(c, t));
  for (size_t p = 0; p < c->n_package; p++)
    json_array_append_new(packages, package_json(c, t, p));
  json_object_set_new(o, "packages", packages);
  json_object_set_new(o, "draws", json_integer(PW_TIGHT_DRAWS));
  const pw_cautions list = {.caution = (pw_caution *)t->caution, .n = t->n_caution};
  json_object_set_new(o, "cautions", pw_caution_json(c->job, &list));
  return o;
}
