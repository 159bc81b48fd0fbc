/* What bills say as JSON: use in the meter's unit, temperatures in C. */
#include <math.h>
#include <string.h>

#include "out/bills_out.h"
#include "out/json.h"
#include "panewright/rates.h"

static void set_day(json_t *o, const char *key, int day)
{
  char text[11];
  pw_bill_day(day, text);
  pw_json_set_text(o, key, text);
}

json_t *pw_bill_findings_json(const pw_meter_use *u, const char *unit, const char *part)
{
  json_t *list = json_array();
  for (size_t i = 0; i < u->findings.n; i++) {
    const pw_bill_finding *f = &u->findings.finding[i];
    char text[PW_BILL_TEXT];
    json_t *o = json_object();
    pw_json_set_text(o, "kind", pw_bill_finding_word(f->kind));
    if (part) pw_json_set_text(o, "part", part);
    set_day(o, "from", f->from);
    set_day(o, "to", f->to);
    pw_bill_finding_say(f, unit, text);
    pw_json_set_text(o, "text", text);
    json_array_append_new(list, o);
  }
  return list;
}

static json_t *periods(const pw_meter_use *u)
{
  static const char *const place[] = {"used", "outlier", "before_change", "no_weather"};
  json_t *list = json_array();
  for (size_t i = 0; i < u->n_period; i++) {
    const pw_meter_period *p = &u->period[i];
    double days = p->bill.to - p->bill.from;
    json_t *o = json_object();
    set_day(o, "from", p->bill.from);
    set_day(o, "to", p->bill.to);
    pw_json_set(o, "days", days);
    pw_json_set(o, "use", p->bill.use);
    pw_json_set(o, "use_per_day", p->bill.use / days);
    pw_json_set(o, "fitted_per_day", p->fitted);
    pw_json_set(o, "t_mean_c", p->t_mean);
    pw_json_set_text(o, "place", u->refused && !u->fitted ? "not_used" : place[p->place]);
    json_array_append_new(list, o);
  }
  return list;
}

/* Values of the terms that the model has, in the order H, C; null when there is no model. */
static json_t *terms(const pw_change_fit *f, const double v[2], int said)
{
  json_t *list = json_array();
  for (int side = 0; said && side < 2; side++)
    if (!isnan(f->balance[side])) json_array_append_new(list, pw_json_real(v[side]));
  return list;
}

static void set_normal(json_t *o, const pw_meter_use *u, double unit_kwh, int said)
{
  static const char *const part[3] = {"base", "heating", "cooling"};
  int has = said && u->has_normal;
  pw_json_set(o, "nac", has ? u->normal.total : (double)NAN);
  pw_json_set(o, "nac_se", has ? u->normal.total_se : (double)NAN);
  pw_json_set(o, "nac_low", has ? u->low : (double)NAN);
  pw_json_set(o, "nac_high", has ? u->high : (double)NAN);
  pw_json_set(o, "nac_kwh", has ? u->normal.total * unit_kwh : (double)NAN);
  for (int k = 0; k < 3; k++) {
    char key[16];
    pw_json_set(o, part[k], has ? u->normal.part[k] : (double)NAN);
    snprintf(key, sizeof key, "%s_se", part[k]);
    pw_json_set(o, key, has ? u->normal.part_se[k] : (double)NAN);
  }
}

static json_t *one_fuel(const pw_bills_report *r, pw_fuel fuel)
{
  const pw_meter_use *u = &r->use[fuel];
  const pw_bills_fuel *b = &r->bills->fuel[fuel];
  const pw_change_fit *f = &u->fit;
  char text[PW_BILL_TEXT];
  int said = u->refused == PW_BILL_ACCEPTED && u->fitted;
  json_t *o = json_object();
  pw_json_set_text(o, "fuel", pw_fuel_name(fuel));
  pw_json_set_text(o, "unit", b->unit);
  pw_json_set(o, "unit_kwh", b->unit_kwh);
  if (said)
    pw_json_set_text(o, "model", pw_change_model_name(f->model));
  else
    json_object_set_new(o, "model", json_null());
  json_object_set_new(o, "n_used", json_integer((json_int_t)u->n_used));
  pw_json_set(o, "parameters", said ? (double)f->p : (double)NAN);
  pw_json_set(o, "base_per_day", said ? f->base : (double)NAN);
  json_object_set_new(o, "slopes", terms(f, f->slope, said));
  json_object_set_new(o, "slopes_t", terms(f, f->t, said));
  json_object_set_new(o, "balance_c", terms(f, f->balance, said));
  pw_json_set(o, "r2", u->fitted ? f->r2 : (double)NAN);
  pw_json_set(o, "r2_adjusted", u->fitted ? f->r2_adjusted : (double)NAN);
  pw_json_set(o, "cvrmse", u->fitted ? f->cv : (double)NAN);
  pw_json_set(o, "nmbe", u->fitted ? f->nmbe : (double)NAN);
  pw_json_set(o, "rho", u->fitted ? f->rho : (double)NAN);
  set_normal(o, u, b->unit_kwh, said);
  pw_bill_refusal_say(r, fuel, text);
  if (text[0])
    pw_json_set_text(o, "refused", text);
  else
    json_object_set_new(o, "refused", json_null());
  json_object_set_new(o, "findings", pw_bill_findings_json(u, b->unit, NULL));
  json_object_set_new(o, "periods", periods(u));
  return o;
}

pw_status pw_bills_json(const pw_bills_report *r, FILE *f, pw_err *err)
{
  json_t *root = json_object(), *fuels = json_array(), *notes = json_array();
  for (int k = 0; k < PW_FUEL_COUNT; k++)
    if (r->bills->fuel[k].n) json_array_append_new(fuels, one_fuel(r, (pw_fuel)k));
  json_object_set_new(root, "fuels", fuels);
  pw_json_set_text(root, "weather", r->weather);
  pw_json_set_text(root, "normal", r->normal);
  for (size_t i = 0; i < r->notes->n; i++) {
    char line[400];
    pw_notes_line(&r->notes->note[i], line, sizeof line);
    json_array_append_new(notes, json_string(line));
  }
  json_object_set_new(root, "notes", notes);
  return pw_json_print(root, f, err);
}
