#include "out/code_out.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "out/clip.h"
#include "out/grid.h"
#include "out/json.h"
#include "out/message_text.h"
#include "out/wrap.h"
#include "panewright/units.h"

/* A limit or a label value of a metric in the units asked for. */
static void value_text(pw_metric metric, double si, const pw_unit_set *units, char text[32])
{
  if (metric == PW_METRIC_U)
    snprintf(text, 32, "%.2f", pw_show_u(units, si));
  else if (metric == PW_METRIC_AIR_LEAKAGE && units->si)
    snprintf(text, 32, "%.2g m3/(h m2)", si * 3600.0);
  else if (metric == PW_METRIC_AIR_LEAKAGE)
    snprintf(text, 32, "%.1f cfm/ft2", si / (PW_FOOT / 60.0));
  else
    snprintf(text, 32, "%.2f", si);
}

static const char *metric_text(pw_metric metric)
{
  return metric == PW_METRIC_AIR_LEAKAGE ? "air leakage" : pw_metric_name(metric);
}

void pw_code_limits_text(const pw_code_limits *limits, const pw_unit_set *units, char text[120])
{
  size_t n = 0;
  snprintf(text, 120, "%s", limits->known ? "no limit" : "not known");
  for (size_t i = 0; i < limits->n_row && n < 120; i++) {
    const pw_program_row *row = &limits->row[i];
    char value[32];
    value_text(row->metric, row->value * row->si, units, value);
    n += (size_t)snprintf(text + n, 120 - n, "%s%s <= %s", i ? ", " : "",
                          metric_text(row->metric), value);
  }
}

void pw_code_package_text(const pw_code_package *k, const pw_unit_set *units,
                          const pw_tongue *tongue, char text[320])
{
  int all = k->n_met + k->n_not + k->n_unlabelled;
  switch (k->state) {
  case PW_CODE_NOT_MET:
    if (k->n_unlabelled)
      pw_tongue_put(tongue, text, 320,
                    "CANNOT BE INSTALLED HERE by these limits: the label of %d of %d windows "
                    "does not meet them, and labels are missing",
                    k->n_not, all);
    else
      pw_tongue_put(tongue, text, 320,
                    "CANNOT BE INSTALLED HERE by these limits: the label of %d of %d windows "
                    "does not meet them",
                    k->n_not, all);
    return;
  case PW_CODE_MET_ON_AVERAGE:
    pw_tongue_put(tongue, text, 320,
                  "met on average: the labels of %d of %d windows miss a limit, all weighed by "
                  "area meet it (U %.2f, SHGC %.2f); ask whether the building department takes "
                  "that",
                  k->n_not, all, pw_show_u(units, k->mean_u), k->mean_shgc);
    return;
  case PW_CODE_NO_LABEL:
    pw_tongue_put(
        tongue, text, 320,
        "label missing for %d of %d windows: have its values before the package is offered",
        k->n_unlabelled, all);
    return;
  case PW_CODE_MET:
    pw_tongue_put(tongue, text, 320, "met by the labels of all %d windows", all);
    return;
  default:
    pw_tongue_put(tongue, text, 320, "no limit to hold it against");
  }
}

/* The criterion that an opening misses, "U 0.32"; else the state. */
static void cell_text(const pw_code_opening *one, const pw_unit_set *units, char text[32])
{
  snprintf(text, 32, "%s", pw_code_state_name(one->state));
  for (size_t i = 0; one->state == PW_CODE_NOT_MET && i < one->result.n_criterion; i++) {
    const pw_criterion_result *r = &one->result.criterion[i];
    if (r->holds != 0) continue;
    char value[32];
    value_text(r->row->metric, r->label * r->row->si, units, value);
    snprintf(text, 32, "NOT MET: %.6s %.9s", pw_metric_name(r->row->metric), value);
    return;
  }
}

typedef struct code_cell {
  char text[32];
} code_cell;

/* Every opening's cell under each package: cell[i * n_package + p]. */
static pw_status all_cells(const pw_compare *c, const pw_unit_set *units, code_cell cell[],
                           pw_err *err)
{
  for (size_t i = 0; i < c->n_opening; i++)
    for (size_t p = 0; p < c->n_package; p++) {
      pw_code_opening one;
      pw_status status = pw_code_check_opening(c, p, i, &one, err);
      if (status != PW_OK) return status;
      cell_text(&one, units, cell[i * c->n_package + p].text);
    }
  return PW_OK;
}

static int all_alike(const pw_compare *c, const code_cell cell[])
{
  for (size_t i = c->n_package; i < c->n_opening * c->n_package; i++)
    if (strcmp(cell[i].text, cell[i - c->n_package].text) != 0) return 0;
  return 1;
}

static pw_status table(const pw_compare *c, const pw_unit_set *units, FILE *f, pw_err *err)
{
  const char *header[2 + PW_COMPARE_PACKAGES_MAX] = {"<opening", "<label must say"};
  char name[PW_COMPARE_PACKAGES_MAX][2 + PW_CLIP_MAX], limits[120];
  code_cell *cell = calloc(c->n_opening * c->n_package, sizeof *cell);
  if (!cell) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the code's table");
  pw_code_limits_text(&c->rated.code, units, limits);
  for (size_t p = 0; p < c->n_package; p++) {
    snprintf(name[p], sizeof name[p], "<%s", pw_clip(c->rated.package_set[p].name, 17).text);
    header[2 + p] = name[p];
  }
  pw_status status = all_cells(c, units, cell, err);
  pw_grid *g = pw_grid_new(2 + c->n_package, header);
  int alike = status == PW_OK && c->n_opening > 1 && all_alike(c, cell);
  for (size_t i = 0; status == PW_OK && i < (alike ? 1 : c->n_opening); i++) {
    pw_grid_cell(g, "%s", alike ? "each" : c->job->opening[i].tag);
    pw_grid_cell(g, "%s", limits);
    for (size_t p = 0; p < c->n_package; p++)
      pw_grid_cell(g, "%s", cell[i * c->n_package + p].text);
  }
  if (status == PW_OK) status = pw_grid_print(g, f, PW_TEXT, err);
  pw_grid_free(g);
  free(cell);
  return status;
}

/* The other editions, for a job whose state's is not known. */
static void other_editions(const pw_compare *c, const pw_unit_set *units, FILE *f)
{
  char text[600] = "";
  if (!c->rated.code.known || c->rated.code_place.edition || c->rated.code.code != PW_CODE_IECC)
    return;
  for (size_t i = 0; pw_code_edition(c->rated.code.code, i); i++) {
    pw_code_place place = c->rated.code_place;
    pw_code_limits limits;
    char said[120];
    place.edition = pw_code_edition(c->rated.code.code, i);
    if (place.edition == c->rated.code.edition ||
        pw_code_limits_find(&place, &limits, NULL) != PW_OK)
      continue;
    pw_code_limits_text(&limits, units, said);
    size_t n = strlen(text);
    snprintf(text + n, sizeof text - n, "%s%d %s", n ? "; " : "", place.edition, said);
  }
  pw_wrap(f, "Its other editions there: ", text, 100);
}

pw_status pw_code_text(const pw_compare *c, const pw_unit_set *units, FILE *f, pw_err *err)
{
  const pw_code_limits *l = &c->rated.code;
  char text[900], said[PW_MESSAGE_TEXT], zone[PW_MESSAGE_TEXT];
  fputs("\nThe energy code, held against the labels (never against a computed value)\n", f);
  if (!l->known) {
    pw_wrap(f, "", pw_message_text(NULL, &l->says, said, sizeof said), 100);
    return PW_OK;
  }
  pw_status status = table(c, units, f, err);
  for (size_t p = 0; status == PW_OK && p < c->n_package; p++) {
    pw_code_package k;
    char lead[64];
    status = pw_code_check_package(c, p, &k, err);
    if (status != PW_OK) break;
    snprintf(lead, sizeof lead, "%s: ", c->rated.package_set[p].name);
    pw_code_package_text(&k, units, NULL, text);
    if (k.n_kind > 1) {
      size_t n = strlen(text);
      snprintf(text + n, sizeof text - n,
               "; one label stands for %d kinds of window, and makers certify each kind apart: "
               "labels.csv takes a row a kind",
               k.n_kind);
    }
    pw_wrap(f, lead, text, 100);
  }
  if (status != PW_OK) return status;
  snprintf(text, sizeof text,
           "%s of %d, %s (%s), for windows and doors with glass of every kind (%s; %s); %s. "
           "Skylights have limits of their own.",
           pw_code_title(l->code), l->edition,
           pw_message_text(NULL, &l->zone, zone, sizeof zone), c->rated.code_place.from,
           l->source ? l->source : "no limit", l->how_known ? l->how_known : "",
           pw_message_text(NULL, &l->says, said, sizeof said));
  pw_wrap(f, "Limits: ", text, 100);
  other_editions(c, units, f);
  return PW_OK;
}

/* ---------------------------------------------------------------- JSON */

/* Keys of the metrics, as the rest of the JSON names them. */
static const char *const key[PW_METRIC_COUNT] = {"u_w_m2k", "shgc", "vt",
                                                 "air_leakage_m3_s_m2"};

static void set_known(json_t *o, const char *name, double value)
{
  if (isfinite(value)) pw_json_set(o, name, value);
}

static void set_given(json_t *o, const char *name, const pw_given *given, int there)
{
  if (there) pw_json_set(o, name, given->value);
}

json_t *pw_code_opening_json(const pw_compare *c, size_t p, size_t i)
{
  pw_code_opening one;
  if (pw_code_check_opening(c, p, i, &one, NULL) != PW_OK) return json_null();
  json_t *o = json_object(), *label = json_object();
  pw_json_set_text(o, "state", pw_code_state_name(one.state));
  const double value[] = {one.label.u.value, one.label.shgc.value, one.label.vt.value,
                          one.label.air_leakage.value};
  for (size_t k = 0; k < PW_METRIC_COUNT; k++)
    set_known(label, key[k], value[k]);
  set_given(label, "rw_db", &one.label.rw, pw_given_is(&one.label.rw));
  set_given(label, "ctr_db", &one.label.ctr, pw_given_is(&one.label.ctr));
  set_given(label, "stc_db", &one.label.stc, pw_given_is(&one.label.stc));
  set_given(label, "oitc_db", &one.label.oitc, pw_given_is(&one.label.oitc));
  if (one.label.certificate[0]) pw_json_set_text(label, "certificate", one.label.certificate);
  if (one.label.line)
    json_object_set_new(label, "labels_csv_line", json_integer(one.label.line));
  json_object_set_new(o, "label", label);
  return o;
}

static json_t *package_json(const pw_compare *c, size_t p)
{
  pw_code_package k;
  json_t *o = json_object();
  pw_json_set_text(o, "package", c->rated.package_set[p].name);
  if (pw_code_check_package(c, p, &k, NULL) != PW_OK) return o;
  pw_json_set_text(o, "state", pw_code_state_name(k.state));
  json_object_set_new(o, "windows_met", json_integer(k.n_met));
  json_object_set_new(o, "windows_not_met", json_integer(k.n_not));
  json_object_set_new(o, "windows_without_label", json_integer(k.n_unlabelled));
  json_object_set_new(o, "kinds_under_one_label", json_integer(k.n_kind));
  set_known(o, "mean_label_u_w_m2k", k.mean_u);
  set_known(o, "mean_label_shgc", k.mean_shgc);
  return o;
}

json_t *pw_code_json(const pw_compare *c)
{
  const pw_code_limits *l = &c->rated.code;
  char text[PW_MESSAGE_TEXT];
  json_t *o = json_object(), *limit = json_object(), *packages = json_array();
  json_object_set_new(o, "known", json_boolean(l->known));
  pw_json_set_text(o, "text", pw_message_text(NULL, &l->says, text, sizeof text));
  if (!l->known) {
    json_decref(limit);
    json_decref(packages);
    return o;
  }
  pw_json_set_text(o, "code", pw_code_title(l->code));
  json_object_set_new(o, "edition", json_integer(l->edition));
  pw_json_set_text(o, "zone", pw_message_text(NULL, &l->zone, text, sizeof text));
  pw_json_set_text(o, "zone_from", c->rated.code_place.from);
  for (size_t i = 0; i < l->n_row; i++)
    pw_json_set(limit, key[l->row[i].metric], l->row[i].value * l->row[i].si);
  json_object_set_new(o, "label_at_most", limit);
  if (l->source) pw_json_set_text(o, "source", l->source);
  if (l->how_known) pw_json_set_text(o, "how_known", l->how_known);
  for (size_t p = 0; p < c->n_package; p++)
    json_array_append_new(packages, package_json(c, p));
  json_object_set_new(o, "packages", packages);
  return o;
}
