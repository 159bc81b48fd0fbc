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
  const pw_rating *r = &w->rating;
  if (name) pw_json_set_text(o, "package", name);
  pw_json_set(o, "u_w_m2k", r->u);
  pw_json_set(o, "u_psi_form_w_m2k", r->u_psi);
  pw_json_set(o, "shgc", r->shgc);
  pw_json_set(o, "vt", r->vt);
  pw_json_set(o, "glass_area_m2", r->glass_area);
  pw_json_set(o, "glass_kept", w->glass_kept);
  pw_json_set(o, "light_kept", w->light_kept);
  json_object_set_new(o, "areas", parts(&r->areas));
  json_object_set_new(o, "ua_w_k", parts(&r->ua));
  if (r->bars_area > 0.0) { /* part of the divider's */
    pw_json_set(o, "bars_area_m2", r->bars_area);
    pw_json_set(o, "bars_ua_w_k", r->bars_ua);
  }
  json_t *sweat = json_object();
  pw_json_set(sweat, "center", w->sweat.center.rh);
  pw_json_set(sweat, "edge", w->sweat.edge.rh);
  pw_json_set(sweat, "frame", w->sweat.frame.rh);
  pw_json_set(sweat, "retained",
              isfinite(w->sweat.retained.t) ? w->sweat.retained.rh : (double)NAN);
  if (isfinite(w->sweat.retained.t)) pw_json_set(sweat, "retained", w->sweat.retained.rh);
  pw_json_set(sweat, "coldest", w->sweat.coldest.rh);
  pw_json_set(sweat, "coldest_low", w->sweat.coldest_rh[0]);
  pw_json_set(sweat, "coldest_high", w->sweat.coldest_rh[1]);
  if (isfinite(w->sweat.meeting.t)) pw_json_set(sweat, "meeting", w->sweat.meeting.rh);
  json_object_set_new(o, "sweat_above_rh", sweat);
  pw_json_set(o, "inner_glass_design_night_c", pw_c(w->sweat.center.t));
  json_t *y = json_object();
  pw_json_set(y, "solar_gain_kwh", year->solar_kwh);
  pw_json_set(y, "heat_lost_kwh", year->heat_lost_kwh);
  pw_json_set(y, "heating_part_kwh", year->heating_part_kwh);
  pw_json_set(y, "cooling_part_kwh", year->cooling_part_kwh);
  pw_json_set(y, "need_kwh", year->heating_part_kwh + year->cooling_part_kwh);
  pw_json_set(y, "hours_uncomfortable", year->hours_uncomfortable);
  json_object_set_new(o, "year", y);
  return o;
}

static void set_basic(json_t *o, const pw_compare_set *s)
{
  pw_json_set(o, "u_w_m2k", s->u);
  pw_json_set(o, "shgc", s->shgc);
  pw_json_set(o, "vt", s->vt);
  pw_json_set(o, "glass_area_m2", s->glass_area);
  pw_json_set(o, "heating_kwh", s->year.heating_kwh);
  pw_json_set(o, "cooling_kwh", s->year.cooling_kwh);
  json_object_set_new(o, "heating_month_kwh", pw_json_array(s->year.heating_month_kwh, 12));
  json_object_set_new(o, "cooling_month_kwh", pw_json_array(s->year.cooling_month_kwh, 12));
  pw_json_set(o, "peak_heating_w", s->year.peak_heating_w);
  pw_json_set(o, "peak_cooling_w", s->year.peak_cooling_w);
  pw_json_set(o, "hours_overheated", s->year.hours_overheated);
  pw_json_set(o, "hours_above_cool_set", s->year.hours_warm);
  pw_json_set(o, "cost", s->bill.cost_year);
  pw_json_set(o, "heating_cost", s->bill.heating_cost);
  pw_json_set(o, "cooling_cost", s->bill.cooling_cost);
  pw_json_set(o, "co2_kg", s->bill.co2_kg);
  if (s->aired) pw_airing_set_json(s, o);
}

const pw_compare_set *pw_compare_set_of(const pw_compare *c, int s)
{
  return s < 0 ? &c->existing_set : &c->package_set[s];
}

json_t *pw_compare_package_json(const pw_compare *c, const pw_range *range, size_t p)
{
  const pw_compare_set *s = &c->package_set[p];
  json_t *o = json_object();
  pw_json_set_text(o, "package", s->name);
  set_basic(o, s);
  json_object_set_new(o, "ua_w_k", parts(&s->ua));
  pw_json_set(o, "glass_kept", s->glass_kept);
  pw_json_set(o, "light_kept", s->light_kept);
  pw_json_set(o, "sweat_above_rh", s->sweat_rh);
  pw_json_set(o, "saving", s->saving.cost_year);
  pw_json_set(o, "saving_computed", s->saving.cost_computed);
  pw_json_set(o, "saving_energy_kwh", s->saving.need_kwh);
  pw_json_set(o, "saving_fuel_kwh", s->saving.fuel_kwh);
  pw_json_set(o, "saving_co2_kg", s->saving.co2_kg);
  pw_json_set(o, "saving_over_code_minimum", s->saving_minimum.cost_year);
  if (s->joints_known) {
    json_t *air = json_object();
    pw_json_set(air, "flow_mean_m3_s", s->joints.flow_mean);
    pw_json_set(air, "heat_kwh", s->joints.heat_kwh);
    pw_json_set(air, "changes_1_h", s->joints.changes_1_h);
    json_object_set_new(o, "air_through_joints", air);
  }
  if (s->price > 0.0) {
    pw_json_set(o, "price", s->price);
    if (s->parts.by_table)
      json_object_set_new(o, "price_parts", pw_price_parts_json(&s->parts));
    pw_json_set(o, "payback_years", s->worth.simple_payback);
    pw_json_set(o, "discounted_payback_years", s->worth.discounted_payback);
    pw_json_set(o, "net_present_worth", s->worth.net_present_worth);
    pw_json_set(o, "internal_rate", s->worth.internal_rate.rate);
  }
  if (pw_compare_n_replaced(c) == 0) pw_json_set(o, "price", 0.0);
  if (range) pw_range_json(range, p, o);
  return o;
}

json_t *pw_compare_existing_json(const pw_compare *c, const pw_range *range)
{
  json_t *o = json_object();
  set_basic(o, &c->existing_set);
  json_object_set_new(o, "ua_w_k", parts(&c->existing_set.ua));
  pw_json_set(o, "sweat_above_rh", c->existing_set.sweat_rh);
  pw_json_set(o, "residual_life_years", c->residual_life.value);
  pw_json_set(o, "saving", 0.0); /* what the others are counted from */
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
  pw_json_set(o, "heating_kwh", a.heating_kwh);
  pw_json_set(o, "cooling_kwh", a.cooling_kwh);
  pw_json_set_text(o, "energy", "hourly (screening)");
  json_object_set_new(window, "alone", o);
}

static json_t *opening(const pw_compare *c, const pw_compare_frame *frame, size_t i)
{
  const pw_opening *o = &c->job->opening[i];
  const pw_fit *fit = pw_compare_fit(c, 0, i);
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
  json_t *now = window(NULL, &c->existing[i], &c->existing_set.year.window[i]);
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
    json_t *w = window(c->package_set[p].name, pw_compare_window_of(c, p, i),
                       &c->package_set[p].year.window[i]);
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
      pw_json_set(w, "window_saving_cost_year", first[k].saving);
      if (first[k].price > 0.0) pw_json_set(w, "window_price", first[k].price);
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
  pw_json_set(root, "design_outdoor_c", pw_c(c->t_design_out));
  json_t *openings = json_array();
  for (size_t i = 0; i < c->n_opening; i++)
    json_array_append_new(openings, opening(c, frame, i));
  add_first(openings, c);
  json_object_set_new(root, "openings", openings);
  json_t *mulled = pw_units_json(c);
  if (mulled) json_object_set_new(root, "units", mulled);
  json_t *house = json_object(), *minimum = json_object();
  pw_json_set(house, "opening_area_m2", c->existing_set.area);
  json_object_set_new(house, "existing", pw_compare_existing_json(c, frame->range));
  set_basic(minimum, &c->minimum_set);
  pw_json_set(minimum, "saving", c->minimum_set.saving.cost_year);
  json_object_set_new(minimum, "climate_zone", json_integer(c->minimum.zone));
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
  json_object_set_new(root, "cautions", pw_caution_json(c->job, &c->cautions));
  json_t *assumed = json_array();
  for (size_t i = 0; i < c->house_notes.n_assumed; i++) {
    json_t *o = json_object();
    char text[PW_MESSAGE_TEXT];
    pw_json_set_text(o, "item", pw_message_word(NULL, c->house_notes.assumed[i].item));
    pw_json_set_text(
        o, "value", pw_message_text(NULL, &c->house_notes.assumed[i].value, text, sizeof text));
    pw_json_set_text(o, "source", c->house_notes.assumed[i].source);
    json_array_append_new(assumed, o);
  }
  json_object_set_new(root, "assumed", assumed);
  json_object_set_new(root, "frames_and_sweating", pw_section_said_json(c));
  if (frame->notes) json_object_set_new(root, "notes", pw_notes_json(frame->notes));
  if (frame->tight && frame->tight->told)
    json_object_set_new(root, "tightness", pw_tight_json(c, frame->tight));
  if (c->job->house.ducts) json_object_set_new(root, "ducts", pw_duct_json(c));
  if (c->covered) json_object_set_new(root, "coverings", pw_covering_json(c));
  if (c->existing_set.aired)
    json_object_set_new(root, "airing", pw_airing_json(c, frame->airing));
  return root;
}
