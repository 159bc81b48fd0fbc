/* labels.csv: a row a label, by package, kind and options. It stands beside packages.csv or not at all. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "job/field_list.h"
#include "job/scope_cells.h"
#include "job/survey.h"
#include "job/words.h"
#include "panewright/lites.h"
#include "panewright/units.h"
#include "window/opening_label.h"
#include "window/opening_package.h"

typedef struct row {
  job_scope_cells scope;
  pw_label_row label;
} row;

#define CFM_FT2 (PW_FOOT / 60.0) /* m3/(s m2) in one cfm/ft2 */
#define GIVEN(name_, member, units, n, low_, high_)                                            \
  {                                                                                            \
    .name = name_, .kind = JOB_GIVEN, .offset = offsetof(row, label.member), .low = low_,      \
    .high = high_, .blank = "", .unit = units, .n_unit = n                                     \
  }
#define TEXT(column, member) JOB_TEXT_AT(row, column, member, "", NULL)

static const pw_unit_word leakage[] = {{"cfm/ft2", CFM_FT2, 0}, {"m3/hm2", 1.0 / 3600.0, 0}};
static const pw_unit_word decibel[] = {{"dB", 1, 0}};

enum { PACKAGE, KIND, OPTIONS, U, COLUMNS_MAX = 16 };

static size_t columns(job_field f[])
{
  const job_field table[] = {
      TEXT("package", scope.package),
      TEXT("kind", scope.kind),
      TEXT("options", scope.options),
      GIVEN("u", u, job_u_value, 4, 0.28, 8.6),
      GIVEN("shgc", shgc, job_share, 2, 0.0, 1.0),
      GIVEN("vt", vt, job_share, 2, 0.0, 1.0),
      GIVEN("air_leakage", air_leakage, leakage, 2, 0.0, 3.0 * CFM_FT2),
      GIVEN("rw", rw, decibel, 1, 15.0, 70.0),
      GIVEN("ctr", ctr, decibel, 1, -20.0, 5.0),
      GIVEN("stc", stc, decibel, 1, 15.0, 70.0),
      GIVEN("oitc", oitc, decibel, 1, 10.0, 70.0),
      TEXT("certificate", label.certificate),
  };
  memcpy(f, table, sizeof table);
  return JOB_COUNT(table);
}

/* ---------------------------------------------------------------- rows against each other */

/* Two rows for the same windows can never be told apart. */
static pw_status same_rows(const pw_csv *csv, const pw_label_row label[], size_t n, pw_err *err)
{
  for (size_t i = 0; i < n; i++)
    for (size_t k = i + 1; k < n; k++)
      if (pw_scope_within(&label[i].scope, &label[k].scope) &&
          pw_scope_within(&label[k].scope, &label[i].scope))
        return pw_fail_at(err, PW_E_DATA, csv->name, label[k].line, 0,
                          "holds for the same windows as line %d; want one label for them",
                          label[i].line);
  return PW_OK;
}

/* Every opening must find one label under every package. */
static pw_status check_openings(const pw_job *job, pw_err *err)
{
  for (size_t p = 0; p < job->n_package; p++)
    for (size_t i = 0; i < job->n_opening; i++) {
      pw_label_row label;
      pw_status status = pw_opening_label(job, p, &job->opening[i], &label, err);
      if (status != PW_OK) return status;
    }
  return PW_OK;
}

/* ---------------------------------------------------------------- what is said */

/* A value that packages.csv has, too, and otherwise. */
static void differs(const pw_csv *csv, const pw_label_row *l, const pw_package *k,
                    pw_notes *notes)
{
  const struct {
    const char *name;
    const pw_given *here, *there;
    double unit;
    int decimals;
  } value[] = {{"U", &l->u, &k->label_u, PW_U_IP, 2},
               {"SHGC", &l->shgc, &k->label_shgc, 1.0, 2},
               {"VT", &l->vt, &k->label_vt, 1.0, 2},
               {"air leakage", &l->air_leakage, &k->label_air_leakage, CFM_FT2, 1}};
  char scope[160];
  job_scope_text(&l->scope, scope);
  for (size_t i = 0; i < JOB_COUNT(value); i++) {
    double a = value[i].here->value / value[i].unit, b = value[i].there->value / value[i].unit;
    if (!(fabs(a - b) > 1e-6)) continue; /* false where one is not given */
    pw_notes_warn(
        notes, csv->name, l->line,
        "%s (%s): %s %.*f, and packages.csv line %d says %.*f; labels.csv goes before", k->name,
        scope, value[i].name, value[i].decimals, a, k->line, value[i].decimals, b);
  }
  if (l->certificate[0] && k->certificate[0] && strcmp(l->certificate, k->certificate) != 0)
    pw_notes_warn(notes, csv->name, l->line,
                  "%s (%s): certificate %s, and packages.csv line %d says %s; labels.csv goes "
                  "before",
                  k->name, scope, l->certificate, k->line, k->certificate);
}

/* Kinds of opening that find no row, a line a kind. */
static void say_missing(const pw_csv *csv, const pw_job *job, size_t column, pw_notes *notes)
{
  const pw_package *k = &job->package[column];
  for (int kind = 0; kind < PW_OPERATOR_COUNT; kind++) {
    int windows = 0, known = 0;
    for (size_t i = 0; i < job->n_opening; i++) {
      pw_label_row l;
      const pw_opening *o = &job->opening[i];
      if ((int)o->operator_insert != kind || o->standing == PW_STAYS ||
          pw_opening_package_row(o, column) != column ||
          pw_opening_label(job, column, o, &l, NULL) != PW_OK || l.line > 0)
        continue;
      windows += o->quantity;
      known = pw_label_is_known(&l);
    }
    if (windows)
      pw_notes_warn(notes, csv->name, 0, "no label row for package %s, kind %s: %d opening%s%s",
                    k->name, pw_operator_name((pw_operator)kind), windows,
                    windows == 1 ? "" : "s",
                    known ? "; the label of packages.csv stands for them" : "");
  }
}

/* A word that no opening has may be a slip. */
static void say_unused_options(const pw_csv *csv, const pw_job *job, const pw_label_row *l,
                               pw_notes *notes)
{
  for (size_t k = 0; k < l->scope.n_option; k++) {
    const char *word = l->scope.option[k];
    int found = strcmp(word, "none") == 0;
    for (size_t i = 0; !found && i < job->n_opening; i++) {
      pw_option_list list;
      pw_option_list_of(&job->opening[i], &list);
      found = pw_option_has(&list, word);
    }
    if (!found)
      pw_notes_warn(notes, csv->name, l->line, "no opening has the option '%s'", word);
  }
}

static void say(const pw_csv *csv, const pw_job *job, pw_notes *notes)
{
  for (size_t i = 0; i < job->n_label; i++) {
    const pw_label_row *l = &job->label[i];
    for (size_t p = 0; p < job->n_package; p++)
      if (!l->scope.package[0] || strcmp(l->scope.package, job->package[p].name) == 0)
        differs(csv, l, &job->package[p], notes);
    if (!l->certificate[0])
      pw_notes_warn(notes, csv->name, l->line, "a label without its certificate number");
    say_unused_options(csv, job, l, notes);
  }
  for (size_t p = 0; p < job->n_package; p++)
    say_missing(csv, job, p, notes);
}

/* ---------------------------------------------------------------- the file */

static pw_status read_row(const pw_csv *csv, size_t r, const job_field f[], size_t n,
                          const int index[], const pw_job *job, pw_label_row *out,
                          pw_notes *notes, pw_err *err)
{
  static const job_scope_columns column = {PACKAGE, KIND, OPTIONS};
  const job_row_at at = {csv, r, index, f};
  row w = {0};
  pw_label_row_init(&w.label);
  int other = 0;
  pw_status status = job_row_read(f, n, csv, r, index, "", &w, notes, err);
  if (status == PW_OK)
    status = job_scope_read(&w.scope, &at, &column, job, 0, &w.label.scope, &other, err);
  if (status != PW_OK) return status;
  w.label.line = csv->line[r + 1];
  pw_given *const value[] = {&w.label.u, &w.label.shgc, &w.label.vt, &w.label.air_leakage};
  for (size_t i = 0; i < JOB_COUNT(value); i++)
    if (pw_given_is(value[i])) value[i]->origin = PW_ORIGIN_LABEL;
  if (!pw_label_is_known(&w.label) && !pw_given_is(&w.label.rw) && !pw_given_is(&w.label.stc))
    return job_row_refuse(&at, U, "", "a label value (u, shgc, vt, air_leakage) in the row",
                          err);
  *out = w.label;
  return PW_OK;
}

static pw_status read_rows(const pw_csv *csv, pw_job *job, pw_notes *notes, pw_err *err)
{
  job_field f[COLUMNS_MAX];
  int index[COLUMNS_MAX];
  size_t n = columns(f);
  pw_status status = job_fields_bind(f, n, csv, index, notes, err);
  for (size_t r = 0; r < csv->n_row && status == PW_OK; r++)
    status = read_row(csv, r, f, n, index, job, &job->label[r], notes, err);
  if (status == PW_OK) status = same_rows(csv, job->label, csv->n_row, err);
  if (status != PW_OK) return status;
  job->n_label = csv->n_row;
  return check_openings(job, err);
}

static void drop(pw_job *job)
{
  free(job->label);
  job->label = NULL;
  job->n_label = 0;
}

static pw_status take(pw_csv *csv, pw_job *job, pw_notes *notes, pw_err *err)
{
  pw_status status = PW_OK;
  csv->is_order = 1;
  if (csv->n_row > PW_LABELS_MAX)
    status = pw_fail_at(err, PW_E_DATA, csv->name, csv->line[PW_LABELS_MAX + 1], 0,
                        "more than %d rows", PW_LABELS_MAX);
  if (status == PW_OK) {
    job->label = calloc(csv->n_row ? csv->n_row : 1, sizeof *job->label);
    if (!job->label) status = pw_fail(err, PW_E_NOMEM, NULL, "%s: no memory", csv->name);
  }
  if (status == PW_OK) status = read_rows(csv, job, notes, err);
  if (status == PW_OK) say(csv, job, notes);
  if (status != PW_OK) drop(job);
  pw_csv_free(csv);
  return status;
}

pw_status pw_labels_parse(const char *name, const char *text, size_t size, pw_job *job,
                          pw_notes *notes, pw_err *err)
{
  pw_csv csv;
  drop(job);
  pw_status status = pw_csv_open(name, text, size, &csv, err);
  return status == PW_OK ? take(&csv, job, notes, err) : status;
}

pw_status pw_labels_read(const char *path, pw_job *job, pw_notes *notes, pw_err *err)
{
  drop(job);
  return path ? pw_labels_parse(path, NULL, 0, job, notes, err) : PW_OK;
}

size_t job_labels_fields(job_field f[]) { return columns(f); }
