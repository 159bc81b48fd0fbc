/* `after` as JSON and CSV: the same figures under the same names, in the meter's unit. */
#include <math.h>
#include <string.h>

#include "out/after_out.h"
#include "out/bills_out.h"
#include "out/grid.h"
#include "out/json.h"
#include "panewright/rates.h"

enum { NUMBERS = 27 };

typedef struct number {
  const char *key;
  double v;
} number;

/* Every number of a meter; NAN where there is none. */
static void numbers(const pw_after_house *h, pw_fuel f, number to[NUMBERS])
{
  const pw_after *a = &h->after[f];
  const pw_after_net *net = &h->net[f];
  const pw_avoided *s = &a->so_far;
  double none = (double)NAN, said[3] = {none, none, none};
  int told = a->refused == PW_AFTER_ACCEPTED, far = s->n > 0, group = told && h->drift[f].n > 0;
  if (h->promised[f]) pw_after_promise(h, f, said);
  const number all[NUMBERS] = {{"normal_before", told ? a->before.normal.total : none},
                               {"normal_before_se", told ? a->before.normal.total_se : none},
                               {"normal_after", told ? a->after.normal.total : none},
                               {"normal_after_se", told ? a->after.normal.total_se : none},
                               {"saved", told ? a->saving : none},
                               {"saved_se", told ? a->se : none},
                               {"saved_p10", told ? a->low : none},
                               {"saved_p90", told ? a->high : none},
                               {"saved_base", told ? a->part[0] : none},
                               {"saved_heating", told ? a->part[1] : none},
                               {"saved_cooling", told ? a->part[2] : none},
                               {"group_houses", group ? (double)h->drift[f].n : none},
                               {"group_share_saved", group ? h->drift[f].mean : none},
                               {"group_share_se", group ? h->drift[f].se : none},
                               {"net_saved", told ? net->saving : none},
                               {"net_saved_se", told ? net->se : none},
                               {"net_saved_p10", told ? net->low : none},
                               {"net_saved_p90", told ? net->high : none},
                               {"promised_p10", said[0]},
                               {"promised_p50", said[1]},
                               {"promised_p90", said[2]},
                               {"so_far_days", far ? s->days : none},
                               {"so_far_measured", far ? s->measured : none},
                               {"so_far_expected", far ? s->expected : none},
                               {"so_far_avoided", far ? s->avoided : none},
                               {"so_far_avoided_se", far ? s->se : none},
                               {"so_far_fractional_uncertainty", a->fractional}};
  memcpy(to, all, sizeof all);
}

/* "" where there is nothing to judge. */
static const char *verdict(const pw_after_house *h, pw_fuel f)
{
  if (h->after[f].refused != PW_AFTER_ACCEPTED || !h->promised[f]) return "";
  return pw_after_verdict_word(pw_after_verdict_of(h, f));
}

static json_t *findings(const pw_after *a, const char *unit)
{
  json_t *list = pw_bill_findings_json(&a->before, unit, "before");
  json_t *after = pw_bill_findings_json(&a->after, unit, "after");
  json_array_extend(list, after);
  json_decref(after);
  return list;
}

static json_t *one_fuel(const pw_after_house *h, pw_fuel f)
{
  const pw_after *a = &h->after[f];
  number n[NUMBERS];
  char why[PW_AFTER_TEXT], day[11] = "";
  json_t *o = json_object();
  pw_json_set_text(o, "fuel", pw_fuel_name(f));
  pw_json_set_text(o, "unit", h->unit[f]);
  pw_json_set(o, "unit_kwh", h->unit_kwh[f]);
  json_object_set_new(o, "bills", json_integer((json_int_t)h->n_bill[f]));
  json_object_set_new(o, "used_before", json_integer((json_int_t)a->before.n_used));
  json_object_set_new(o, "used_after", json_integer((json_int_t)a->after.n_used));
  json_object_set_new(o, "left_out_around_work", json_integer((json_int_t)a->n_work));
  pw_after_refusal_say(h, f, why);
  if (why[0])
    pw_json_set_text(o, "refused", why);
  else
    json_object_set_new(o, "refused", json_null());
  numbers(h, f, n);
  for (int i = 0; i < NUMBERS; i++)
    pw_json_set(o, n[i].key, n[i].v);
  if (h->promised[f]) pw_date_write(h->promise[f].date, day);
  pw_json_set_text(o, "promised_on", day);
  pw_json_set_text(o, "promised_files", h->promised[f] ? h->promise[f].version : "");
  pw_json_set_text(o, "verdict", verdict(h, f));
  json_object_set_new(o, "findings", findings(a, h->unit[f]));
  return o;
}

static json_t *one_house(const pw_after_house *h)
{
  char from[11], to[11];
  json_t *o = json_object(), *fuels = json_array(), *notes = json_array();
  pw_bill_day(h->work.from, from);
  pw_bill_day(h->work.to, to);
  pw_json_set_text(o, "job", h->job);
  pw_json_set_text(o, "folder", h->dir);
  pw_json_set_text(o, "work_from", from);
  pw_json_set_text(o, "work_to", to);
  pw_json_set_text(o, "package", h->package);
  pw_json_set_text(o, "normal", h->normal);
  for (int f = 0; f < PW_FUEL_COUNT; f++)
    if (h->n_bill[f]) json_array_append_new(fuels, one_fuel(h, (pw_fuel)f));
  json_object_set_new(o, "fuels", fuels);
  for (size_t i = 0; i < h->notes.n; i++) {
    char line[400];
    pw_notes_line(&h->notes.note[i], line, sizeof line);
    json_array_append_new(notes, json_string(line));
  }
  json_object_set_new(o, "notes", notes);
  return o;
}

pw_status pw_after_json(const pw_after_house house[], size_t n, FILE *f, pw_err *err)
{
  json_t *root = json_object(), *houses = json_array(), *o = json_object();
  pw_after_record r;
  pw_after_record_of(house, n, &r);
  for (size_t i = 0; i < n; i++)
    json_array_append_new(houses, one_house(&house[i]));
  json_object_set_new(root, "houses", houses);
  json_object_set_new(o, "houses", json_integer((json_int_t)r.n_house));
  json_object_set_new(o, "meters", json_integer((json_int_t)r.n_meter));
  json_object_set_new(o, "held", json_integer((json_int_t)r.n));
  json_object_set_new(o, "inside", json_integer((json_int_t)r.n_inside));
  json_object_set_new(o, "refused", json_integer((json_int_t)r.n_refused));
  json_object_set_new(o, "without_promise", json_integer((json_int_t)r.n_unpromised));
  pw_json_set(o, "share_inside", r.n ? (double)r.n_inside / (double)r.n : (double)NAN);
  pw_json_set(o, "promised_kwh", r.promised_kwh);
  pw_json_set(o, "measured_kwh", r.measured_kwh);
  pw_json_set(o, "measured_over_promised", r.ratio);
  pw_json_set(o, "bias", r.bias);
  pw_json_set(o, "bias_se", r.bias_se);
  json_object_set_new(root, "record", o);
  return pw_json_print(root, f, err);
}

pw_status pw_after_csv(const pw_after_house house[], size_t n, FILE *f, pw_err *err)
{
  static const char *const lead[] = {
      "job",  "folder", "work_from",   "work_to",    "package",
      "fuel", "unit",   "used_before", "used_after", "left_out_around_work"};
  enum { LEAD = sizeof lead / sizeof lead[0], N = LEAD + NUMBERS + 4 };
  const char *header[N];
  number v[NUMBERS];
  numbers(&house[0], PW_FUEL_GAS, v);
  memcpy(header, lead, sizeof lead);
  for (int i = 0; i < NUMBERS; i++)
    header[LEAD + i] = v[i].key;
  header[N - 4] = "promised_on";
  header[N - 3] = "promised_files";
  header[N - 2] = "verdict";
  header[N - 1] = "refused";
  pw_grid *g = pw_grid_new(N, header);
  for (size_t i = 0; i < n; i++)
    for (int k = 0; k < PW_FUEL_COUNT; k++) {
      const pw_after_house *h = &house[i];
      char from[11], to[11], day[11] = "", why[PW_AFTER_TEXT];
      if (!h->n_bill[k]) continue;
      pw_bill_day(h->work.from, from);
      pw_bill_day(h->work.to, to);
      const char *const text[] = {
          h->job, h->dir, from, to, h->package, pw_fuel_name((pw_fuel)k), h->unit[k]};
      for (size_t c = 0; c < sizeof text / sizeof text[0]; c++)
        pw_grid_cell(g, "%s", text[c]);
      pw_grid_cell(g, "%zu", h->after[k].before.n_used);
      pw_grid_cell(g, "%zu", h->after[k].after.n_used);
      pw_grid_cell(g, "%zu", h->after[k].n_work);
      numbers(h, (pw_fuel)k, v);
      for (int c = 0; c < NUMBERS; c++)
        pw_grid_cell(g, isfinite(v[c].v) ? "%.8g" : "", v[c].v);
      if (h->promised[k]) pw_date_write(h->promise[k].date, day);
      pw_after_refusal_say(h, (pw_fuel)k, why);
      pw_grid_cell(g, "%s", day);
      pw_grid_cell(g, "%s", h->promised[k] ? h->promise[k].version : "");
      pw_grid_cell(g, "%s", verdict(h, (pw_fuel)k));
      pw_grid_cell(g, "%s", why);
    }
  pw_status status = pw_grid_print(g, f, PW_CSV, err);
  pw_grid_free(g);
  return status;
}
