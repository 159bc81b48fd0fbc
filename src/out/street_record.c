/* What a house of a street gave, as two lines of JSON. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "out/caution_out.h"
#include "out/climate_text.h"
#include "out/compare_out.h"
#include "out/json.h"
#include "out/message_text.h"
#include "out/range_out.h"
#include "out/saving_said.h"
#include "out/street_out.h"
#include "window/order_check.h"

/* One line; releases o. What could not be had for memory is marked lost. */
static void put(pw_lines *lines, json_t *o)
{
  char *text = json_dumps(o, JSON_COMPACT | JSON_REAL_PRECISION(12));
  json_decref(o);
  if (!text || pw_json_lost()) {
    lines->lost = 1;
    free(text);
    return;
  }
  pw_lines_add(lines, text, strlen(text));
  pw_lines_add(lines, "\n", 1);
  free(text);
}

void pw_street_head(pw_lines *lines, const pw_street_run *run)
{
  json_t *o = json_object();
  pw_json_set_text(o, "street", run->version);
  json_object_set_new(o, "draws", json_integer((json_int_t)run->n_draw));
  json_object_set_new(o, "seed", json_integer((json_int_t)run->seed));
  json_object_set_new(o, "full", json_boolean(run->full));
  put(lines, o);
}

/* Findings of the readings, "TAG: sentence", and how many rows may not be ordered as they stand. */
static void findings(const pw_compare *c, size_t p, json_t *o)
{
  json_t *list = json_array();
  json_int_t held = 0;
  for (size_t i = 0; i < c->n_opening; i++) {
    if (!pw_compare_replaces(c->job, i)) continue;
    const pw_fit *fit = &c->fitted.fit[p][i];
    pw_order_check check;
    pw_order_check_of((int)i, fit, &c->fitted.cautions, &check);
    held += !check.may_order;
    for (size_t k = 0; k < fit->n_finding; k++) {
      char says[PW_MESSAGE_TEXT], text[PW_MESSAGE_TEXT + 64];
      pw_message_text(NULL, &fit->finding[k].says, says, sizeof says);
      snprintf(text, sizeof text, "%.60s: %s", c->job->opening[i].tag, says);
      json_array_append_new(list, json_string(text));
    }
  }
  json_object_set_new(o, "findings", list);
  json_object_set_new(o, "rows_held", json_integer(held));
}

static void cautions(const pw_compare *c, json_t *o)
{
  json_t *n = json_object();
  json_object_set_new(n, "fail", json_integer((json_int_t)c->fitted.cautions.n_fail));
  json_object_set_new(n, "flag", json_integer((json_int_t)c->fitted.cautions.n_flag));
  json_object_set_new(n, "ask", json_integer((json_int_t)c->fitted.cautions.n_ask));
  json_object_set_new(o, "cautions", n);
}

/* Columns and items that no reader knows. */
static void unknown(const pw_notes *notes, json_t *o)
{
  json_t *list = json_array();
  char line[512];
  for (size_t i = 0; i < notes->n; i++) {
    if (notes->note[i].kind != PW_NOTE_UNKNOWN) continue;
    pw_notes_line(&notes->note[i], line, sizeof line);
    json_array_append_new(list, json_string(line));
  }
  json_object_set_new(o, "unknown", list);
}

/* Months and parts of the heat are the comparison's; a street has rows. */
static json_t *shorter(json_t *set)
{
  static const char *const gone[] = {"heating_month_kwh", "cooling_month_kwh", "ua_w_k",
                                     "price_parts", "air_through_joints"};
  for (size_t i = 0; i < sizeof gone / sizeof gone[0]; i++)
    json_object_del(set, gone[i]);
  return set;
}

static json_t *package(const pw_street_told *h, size_t p)
{
  const pw_range_set *set = &h->range->package[p];
  json_t *o = shorter(pw_compare_package_json(h->compare, h->range, p));
  char text[400];
  pw_claim_said(h->compare, h->range, NULL, p, text, sizeof text);
  pw_json_set_text(o, "claim", text);
  json_object_set_new(
      o, "may_be_claimed",
      json_boolean(!set->includes_zero && pw_band_above_zero(&set->saving_cost, pw_units(0))));
  return o;
}

static int told(const pw_street_told *h, size_t p)
{
  return h->package < 0 || (size_t)h->package == p;
}

static void put_row(pw_lines *lines, const pw_street_told *h)
{
  const pw_compare *c = h->compare;
  json_t *o = json_object(), *packages = json_array();
  json_int_t openings = 0;
  for (size_t i = 0; i < c->n_opening; i++)
    if (pw_compare_replaces(c->job, i)) openings += c->job->opening[i].quantity;
  pw_json_set_text(o, "job", h->name);
  pw_json_set_text(o, "dwelling", c->job->dwelling);
  pw_json_set_text(o, "files", h->files);
  pw_json_set_text(o, "title", c->job->house.job);
  pw_json_set_text(o, "climate",
                   pw_climate_text(NULL, h->climate, (char[PW_CLIMATE_TEXT]){""}));
  json_object_set_new(o, "openings", json_integer(openings));
  findings(c, h->package < 0 ? 0 : (size_t)h->package, o);
  cautions(c, o);
  unknown(h->notes, o);
  json_object_set_new(o, "existing", shorter(pw_compare_existing_json(c, h->range)));
  for (size_t p = 0; p < c->n_package; p++)
    if (told(h, p)) json_array_append_new(packages, package(h, p));
  json_object_set_new(o, "packages", packages);
  json_object_set_new(o, "range_run", pw_range_run_json(h->range));
  put(lines, o);
}

/* To the cent, to the hundredth of a kWh: finer than any draw is known, and short. */
static json_t *draws(const double v[], size_t n)
{
  json_t *a = json_array();
  for (size_t i = 0; i < n; i++)
    json_array_append_new(a, json_real(round(v[i] * 100.0) / 100.0));
  return a;
}

static void put_draws(pw_lines *lines, const pw_street_told *h)
{
  const pw_street_house *d = h->draws;
  json_t *o = json_object(), *packages = json_array();
  json_object_set_new(o, "cost", draws(d->cost, d->n_draw));
  for (size_t p = 0; p < d->n_package; p++) {
    if (!told(h, p)) continue;
    json_t *figures = json_array();
    for (size_t k = 0; k < PW_STREET_FIGURES; k++)
      json_array_append_new(
          figures, draws(d->package + (p * PW_STREET_FIGURES + k) * d->n_draw, d->n_draw));
    json_array_append_new(packages, figures);
  }
  json_object_set_new(o, "packages", packages);
  put(lines, o);
}

void pw_street_record(pw_lines *lines, const pw_street_told *house)
{
  put_row(lines, house);
  put_draws(lines, house);
}

void pw_street_reject(pw_lines *lines, const char *name, const char *files, const pw_err *err)
{
  json_t *o = json_object();
  pw_json_set_text(o, "job", name);
  pw_json_set_text(o, "dwelling", "");
  pw_json_set_text(o, "files", files);
  pw_json_set_text(o, "rejected", err->text);
  json_object_set_new(o, "line", json_integer(err->line));
  json_object_set_new(o, "column", json_integer(err->column));
  put(lines, o);
}
