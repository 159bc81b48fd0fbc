#include <math.h>

#include "out/airing_out.h"
#include "out/caution_out.h"
#include "out/climate_text.h"
#include "out/code_out.h"
#include "out/compare_out.h"
#include "out/compare_sound_out.h"
#include "out/covering_out.h"
#include "out/duct_out.h"
#include "out/json.h"
#include "out/message_text.h"
#include "out/opening_facts.h"
#include "out/option_out.h"
#include "out/phases_out.h"
#include "out/price_out.h"
#include "out/range_out.h"
#include "out/result.h"
#include "out/section_said.h"
#include "out/shape_out.h"
#include "out/tight_out.h"
#include "out/unit_out.h"
#include "panewright/units.h"
#include "study/batch.h"
#include "study/first_window.h"
#include "window/code_default.h"

static json_t *parts(const pw_parts *p)
{
  json_t *o = json_object();
  pw_json_set(o, "center", p->center);
  pw_json_set(o, "edge", p->edge);
  pw_json_set(o, "frame", p->frame);
  pw_json_set(o, "divider", p->divider);
  pw_json_set(o, "retained", p->retained);
  return o;
}

static json_t *window(const char *name, const pw_compare_window *w, const pw_year_window *year)
{
  json_t *o = json_object();
  if (name) pw_json_set_text(o, "package", name);
  pw_window_results_json(o, w, year);
  return o;
}

static void set_basic(json_t *o, const pw_compare *c, int set)
{
  const pw_compare_set s = pw_compare_set_of(c, set);
  pw_results_json(o, s, PW_RESULT_U, PW_RESULT_COOLING);
  json_object_set_new(o, "heating_month_kwh",
                      pw_json_array(s.lived->year.heating_month_kwh, 12));
  json_object_set_new(o, "cooling_month_kwh",
                      pw_json_array(s.lived->year.cooling_month_kwh, 12));
  pw_results_json(o, s, PW_RESULT_PEAK_HEATING, PW_RESULT_CO2);
  if (c->lived.house.airing.hours) pw_airing_set_json(s, o);
}

json_t *pw_compare_package_json(const pw_compare *c, const pw_range *range, size_t p)
{
  const pw_compare_set s = pw_compare_set_of(c, (int)p);
  json_t *o = json_object();
  pw_json_set_text(o, "package", s.rated->name);
  set_basic(o, c, (int)p);
  json_object_set_new(o, "ua_w_k", parts(&s.rated->ua));
  pw_results_json(o, s, PW_RESULT_GLASS_KEPT, PW_RESULT_SAVING_MINIMUM);
  if (s.lived->joints_known) {
    json_t *air = json_object();
    pw_json_set(air, "flow_mean_m3_s", s.lived->joints.flow_mean);
    pw_json_set(air, "heat_kwh", s.lived->joints.heat_kwh);
    pw_json_set(air, "changes_1_h", s.lived->joints.changes_1_h);
    json_object_set_new(o, "air_through_joints", air);
  }
  if (s.billed->price > 0.0) {
    pw_results_json(o, s, PW_RESULT_PRICE, PW_RESULT_PRICE);
    if (s.billed->parts.by_table)
      json_object_set_new(o, "price_parts", pw_price_parts_json(&s.billed->parts));
    pw_results_json(o, s, PW_RESULT_PAYBACK, PW_RESULT_RATE);
  }
  if (pw_compare_n_replaced(c->job) == 0)
    pw_json_set(o, pw_result_of(PW_RESULT_PRICE)->key, 0.0);
  if (range) pw_range_json(range, p, o);
  return o;
}

json_t *pw_compare_existing_json(const pw_compare *c, const pw_range *range)
{
  json_t *o = json_object();
  set_basic(o, c, PW_SET_EXISTING);
  json_object_set_new(o, "ua_w_k", parts(&c->rated.existing_set.ua));
  pw_results_json(o, pw_compare_set_of(c, PW_SET_EXISTING), PW_RESULT_SWEAT, PW_RESULT_SWEAT);
  pw_json_set(o, "residual_life_years", c->billed.residual_life.value);
  pw_json_set(o, pw_result_of(PW_RESULT_SAVING)->key,
              0.0); /* what the others are counted from */
  if (range) pw_range_existing_json(range, o);
  return o;
}

/* The window's year by itself, as panewright batch --energy hourly gives it: for screening. */
static void add_alone(json_t *window, const pw_compare *c, int package, size_t i,
                      const pw_alone_place *place)
{
  pw_alone a;
  if (!place || c->job->opening[i].unconditioned ||
      pw_compare_alone(c, package, i, place, &a, NULL) != PW_OK)
    return;
  json_t *o = json_object();
  pw_result_set(o, PW_RESULT_HEATING, a.heating_kwh);
  pw_result_set(o, PW_RESULT_COOLING, a.cooling_kwh);
  pw_json_set_text(o, "energy", "hourly (screening)");
  json_object_set_new(window, "alone", o);
}

static json_t *opening(const pw_compare *c, const pw_compare_frame *frame, size_t i)
{
  const pw_opening *o = &c->job->opening[i];
  const pw_fit *fit = &c->fitted.fit[0][i];
  json_t *j = json_object();
  pw_json_set_text(j, "tag", o->tag);
  pw_json_set_text(j, "room", o->room);
  json_object_set_new(j, "quantity", json_integer(o->quantity));
  pw_facts_json(c->job, o, j);
  pw_json_set(j, "facing_deg", o->facing_deg);
  pw_json_set(j, "opening_area_m2", fit->opening_area);
  pw_json_set(j, "order_width_mm", fit->order_width * 1000.0);
  pw_json_set(j, "order_height_mm", fit->order_height * 1000.0);
  if (pw_option_any(o) || pw_option_screened(o))
    json_object_set_new(j, "options", pw_option_json(o));
  if (o->shape != PW_SHAPE_RECTANGLE) json_object_set_new(j, "shape", pw_shape_json(fit));
  pw_unit_json_add(c->job, i, j);
  json_t *now = window(NULL, &c->rated.existing[i], &c->lived.existing_set.year.window[i]);
  pw_code_values v;
  if (pw_code_default_of(PW_CODE_IECC, o, &v, NULL) == PW_OK) {
    json_t *code = json_object();
    pw_json_set(code, "u_w_m2k", v.u);
    pw_json_set(code, "shgc", v.shgc);
    json_object_set_new(now, "code_default", code);
  }
  add_alone(now, c, -1, i, frame->alone);
  if (frame->sound) pw_compare_sound_window_json(frame->sound, -1, i, now);
  json_object_set_new(j, "existing", now);
  json_t *packages = json_array();
  for (size_t p = 0; p < c->n_package; p++) {
    json_t *w = window(c->rated.package_set[p].name, &c->rated.package[p][i],
                       &c->lived.package_set[p].year.window[i]);
    add_alone(w, c, (int)p, i, frame->alone);
    if (frame->sound) pw_compare_sound_window_json(frame->sound, (int)p, i, w);
    json_object_set_new(w, "code", pw_code_opening_json(c, p, i));
    json_t *price = pw_price_opening_json(c, p, i);
    if (price) json_object_set_new(w, "price", price);
    json_array_append_new(packages, w);
  }
  json_object_set_new(j, "packages", packages);
  char text[PW_MESSAGE_TEXT];
  json_t *findings = json_array();
  for (size_t k = 0; k < fit->n_finding; k++)
    json_array_append_new(
        findings, json_string(pw_message_text(NULL, &fit->finding[k].says, text, sizeof text)));
  json_object_set_new(j, "findings", findings);
  return j;
}

/* What each window saves and adds to the price; left out where a price list is ambiguous, which the comparison refuses. */
static void add_first(json_t *openings, const pw_compare *c)
{
  pw_first_window first[PW_WINDOWS_MAX];
  for (size_t p = 0; p < c->n_package; p++) {
    size_t n = 0;
    if (c->n_opening > PW_WINDOWS_MAX || pw_first_windows(c, p, first, &n, NULL) != PW_OK)
      return;
    for (size_t k = 0; k < n; k++) {
      json_t *o = json_array_get(openings, first[k].opening);
      json_t *w = json_array_get(json_object_get(o, "packages"), p);
      pw_json_set(w, pw_window_result_of(PW_WINDOW_SAVING)->key, first[k].saving);
      if (first[k].price > 0.0)
        pw_json_set(w, pw_window_result_of(PW_WINDOW_PRICE)->key, first[k].price);
    }
  }
}

json_t *pw_compare_json(const pw_compare *c, const pw_compare_frame *frame)
{
  json_t *root = json_object();
  pw_json_set_text(root, "job", c->job->house.job);
  pw_json_set_text(root, "climate",
                   pw_climate_text(NULL, frame->climate, (char[PW_CLIMATE_TEXT]){""}));
  pw_json_set_text(root, "method", frame->method);
  pw_json_set(root, "design_outdoor_c", pw_c(c->rated.t_design_out));
  json_t *openings = json_array();
  for (size_t i = 0; i < c->n_opening; i++)
    json_array_append_new(openings, opening(c, frame, i));
  add_first(openings, c);
  json_object_set_new(root, "openings", openings);
  json_t *mulled = pw_units_json(c);
  if (mulled) json_object_set_new(root, "units", mulled);
  json_t *house = json_object(), *minimum = json_object();
  pw_json_set(house, "opening_area_m2", c->rated.existing_set.area);
  json_object_set_new(house, "existing", pw_compare_existing_json(c, frame->range));
  set_basic(minimum, c, PW_SET_MINIMUM);
  pw_results_json(minimum, pw_compare_set_of(c, PW_SET_MINIMUM), PW_RESULT_SAVING,
                  PW_RESULT_SAVING);
  json_object_set_new(minimum, "climate_zone", json_integer(c->rated.minimum.zone));
  json_object_set_new(house, "code_minimum", minimum);
  json_t *packages = json_array();
  for (size_t p = 0; p < c->n_package; p++) {
    json_t *package = pw_compare_package_json(c, frame->range, p);
    if (frame->rebate)
      json_object_set_new(package, "rebate", pw_rebate_json(&frame->rebate[p]));
    json_array_append_new(packages, package);
  }
  json_object_set_new(house, "packages", packages);
  json_object_set_new(root, "house", house);
  if (frame->phases && frame->phases->n_phase > 1)
    json_object_set_new(root, "phases", pw_phases_json(c, frame->phases));
  json_object_set_new(root, "code", pw_code_json(c));
  if (frame->sound) json_object_set_new(root, "sound", pw_compare_sound_json(c, frame->sound));
  if (frame->range) json_object_set_new(root, "range_run", pw_range_run_json(frame->range));
  json_object_set_new(root, "cautions", pw_caution_json(c->job, &c->fitted.cautions));
  json_t *assumed = json_array();
  for (size_t i = 0; i < c->lived.house_notes.n_assumed; i++) {
    json_t *o = json_object();
    char text[PW_MESSAGE_TEXT];
    pw_json_set_text(o, "item", pw_message_word(NULL, c->lived.house_notes.assumed[i].item));
    pw_json_set_text(
        o, "value",
        pw_message_text(NULL, &c->lived.house_notes.assumed[i].value, text, sizeof text));
    pw_json_set_text(o, "source", c->lived.house_notes.assumed[i].source);
    json_array_append_new(assumed, o);
  }
  json_object_set_new(root, "assumed", assumed);
  json_object_set_new(root, "frames_and_sweating", pw_section_said_json(c));
  if (frame->notes) json_object_set_new(root, "notes", pw_notes_json(frame->notes));
  if (frame->tight && frame->tight->told)
    json_object_set_new(root, "tightness", pw_tight_json(c, frame->tight));
  if (c->job->house.ducts) json_object_set_new(root, "ducts", pw_duct_json(c));
  if (c->lived.covered) json_object_set_new(root, "coverings", pw_covering_json(c));
  if (c->lived.house.airing.hours)
    json_object_set_new(root, "airing", pw_airing_json(c, frame->airing));
  return root;
}
