/* prices.csv: what windows, options and the job as a whole cost, by package, kind and size. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "job/field_list.h"
#include "job/scope_cells.h"
#include "job/survey.h"
#include "money/price.h"
#include "panewright/lites.h"
#include "panewright/units.h"
#include "window/opening_label.h"
#include "window/opening_package.h"

typedef struct row {
  job_scope_cells scope;
  char item[48], per_job[64];
  pw_price_row price;
} row;

#define MOST (60.0 * PW_FOOT) /* width and height together */
#define TEXT(column, member) JOB_TEXT_AT(row, column, member, "", NULL)
#define SIZE(column, member)                                                                   \
  {                                                                                            \
    .name = column, .kind = JOB_LENGTH, .offset = offsetof(row, price.scope.member),           \
    .low = 0.0, .high = MOST, .blank = ""                                                      \
  }
#define GIVEN(name_, member, units, n)                                                         \
  {                                                                                            \
    .name = name_, .kind = JOB_GIVEN, .offset = offsetof(row, price.member), .low = 0.0,       \
    .high = 1e5, .blank = "", .unit = units, .n_unit = n                                       \
  }

static const pw_unit_word money[] = {{"$", 1, 0}};
static const pw_unit_word percent[] = {{"%", 0.01, 0}};
static const pw_unit_word per_area[] = {{"$/ft2", 1.0 / PW_FOOT2, 0}, {"$/m2", 1, 0}};

enum {
  PACKAGE,
  KIND,
  SIZE_FROM,
  SIZE_TO,
  PER_OPENING,
  PER_AREA,
  PER_JOB,
  ITEM,
  COLUMNS_MAX = 12
};

static size_t columns(job_field f[])
{
  const job_field table[] = {
      TEXT("package", scope.package),
      TEXT("kind", scope.kind),
      SIZE("size_from", size_from),
      SIZE("size_to", size_to),
      GIVEN("per_opening", per_opening, money, 1),
      GIVEN("per_area", per_area, per_area, 2),
      TEXT("per_job", per_job),
      TEXT("item", item),
  };
  memcpy(f, table, sizeof table);
  return JOB_COUNT(table);
}

static int is_rate(const char *item)
{
  return strcmp(item, "tax") == 0 || strcmp(item, "discount") == 0;
}

/* per_job: dollars, or of tax and discount a share. */
static pw_status read_per_job(row *w, const job_row_at *at, pw_err *err)
{
  pw_price_row *p = &w->price;
  pw_err why = {0};
  int share = strchr(w->per_job, '%') != NULL;
  if (!w->per_job[0]) return PW_OK;
  if (!p->item[0])
    return job_row_refuse(at, PER_JOB, w->per_job,
                          "an item beside it, such as permit or disposal", err);
  if (share && !is_rate(p->item))
    return job_row_refuse(at, PER_JOB, w->per_job, "dollars; only tax and discount take a %",
                          err);
  pw_given *to = share ? &p->share : &p->per_job;
  if (pw_number_read(w->per_job, share ? percent : money, 1, 0.0, share ? 1.0 : 1e6, to, NULL,
                     &why) != PW_OK)
    return pw_fail_at(err, PW_E_DATA, at->csv->name, p->line, at->index[PER_JOB] + 1,
                      "per_job: %.200s", why.text);
  to->line = p->line;
  return PW_OK;
}

/* What a row may hold together. */
static pw_status check_row(const row *w, const job_row_at *at, pw_err *err)
{
  const pw_price_row *p = &w->price;
  int each = pw_given_is(&p->per_opening) || pw_given_is(&p->per_area);
  int job = pw_given_is(&p->per_job) || pw_given_is(&p->share);
  int narrow = p->scope.kind || p->scope.size_to > 0.0;
  if (!each && !job)
    return job_row_refuse(at, PER_OPENING, "", "a price in per_opening, per_area or per_job",
                          err);
  if (is_rate(p->item) && each)
    return job_row_refuse(at, PER_OPENING, p->item,
                          "tax and discount in per_job, as in 8.6 % or $200", err);
  if (job && narrow)
    return job_row_refuse(at, p->scope.kind ? KIND : SIZE_TO, w->per_job,
                          "no kind and no size beside per_job: it is of the whole job", err);
  return PW_OK;
}

static pw_status read_row(const pw_csv *csv, size_t r, const job_field f[], size_t n,
                          const int index[], const pw_job *job, int shared, row *w, int *other,
                          pw_notes *notes, pw_err *err)
{
  static const job_scope_columns column = {PACKAGE, KIND, -1};
  const job_row_at at = {csv, r, index, f};
  pw_scope *scope = &w->price.scope;
  pw_status status = job_row_read(f, n, csv, r, index, "", w, notes, err);
  w->price.line = csv->line[r + 1];
  if (status == PW_OK)
    status = job_scope_read(&w->scope, &at, &column, job, shared, scope, other, err);
  if (status != PW_OK) return status;
  job_option_name(w->item, w->price.item);
  if (scope->size_from > 0.0 && scope->size_to == 0.0) scope->size_to = MOST;
  if (scope->size_to > 0.0 && !(scope->size_from <= scope->size_to))
    return job_row_refuse(&at, SIZE_TO, pw_csv_at(csv, r, index[SIZE_TO]),
                          "it at or above size_from", err);
  status = read_per_job(w, &at, err);
  return status == PW_OK ? check_row(w, &at, err) : status;
}

/* Every window and every item finds one row under every package. */
static pw_status check_openings(const pw_job *job, pw_err *err)
{
  double *area = calloc(job->n_opening ? job->n_opening : 1, sizeof *area);
  if (!area) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the prices");
  pw_status status = PW_OK;
  for (size_t p = 0; status == PW_OK && p < job->n_package; p++) {
    pw_price price;
    status = pw_price_of(job, p, area, NULL, &price, err);
  }
  free(area);
  return status;
}

/* Dollars of tax or discount below this read like a share without its %. */
#define RATE_LIKE 30.0

/* An item that no opening has may be a slip. */
static void say_item(const pw_csv *csv, const pw_job *job, const pw_price_row *p,
                     pw_notes *notes)
{
  int found = !p->item[0] || pw_price_is_of_job(job, p->item);
  for (size_t i = 0; !found && i < job->n_opening; i++) {
    pw_option_list list;
    pw_option_list_of(&job->opening[i], &list);
    found = pw_option_has(&list, p->item);
  }
  if (!found)
    pw_notes_warn(notes, csv->name, p->line,
                  "no opening has the option '%s'; its price counts nowhere", p->item);
  if (is_rate(p->item) && pw_given_is(&p->per_job) && p->per_job.value < RATE_LIKE)
    pw_notes_warn(notes, csv->name, p->line,
                  "%s is taken as $%.2f of the whole job; a share is written as 8.6 %%",
                  p->item, p->per_job.value);
}

static int is_priced(const pw_job *job, size_t column, const pw_opening *o,
                     const pw_option_name *name)
{
  const char *const item[] = {name->own, name->general};
  for (size_t k = 0; k < 2; k++) {
    pw_given price;
    if (!item[k][0]) continue;
    if (pw_price_is_of_job(job, item[k]) ||
        pw_price_of_item(job, column, o, 1.0, item[k], &price, NULL) != PW_OK || price.line > 0)
      return 1;
  }
  return 0;
}

/* Windows for which no price is found under a package, and options that no row prices. */
static void say_unpriced(const pw_csv *csv, const pw_job *job, size_t column, pw_notes *notes)
{
  const char *package = job->package[column].name;
  pw_option_list said = {0};
  for (size_t i = 0; i < job->n_opening; i++) {
    const pw_opening *o = &job->opening[i];
    pw_option_name name[PW_OPTIONS_MAX];
    pw_given price;
    if (o->standing == PW_STAYS || pw_opening_package_row(o, column) != column) continue;
    if (pw_price_of_window(job, column, o, 1.0, &price, NULL) == PW_OK && !(price.line > 0))
      pw_notes_warn(notes, csv->name, 0,
                    "no price for %s (%s) under package %s, so none for the job", o->tag,
                    pw_operator_name(o->operator_insert), package);
    size_t n = pw_option_names(o, name);
    for (size_t k = 0; !pw_given_is(&o->price_options) && k < n; k++) {
      if (pw_option_has(&said, name[k].own) || is_priced(job, column, o, &name[k])) continue;
      pw_option_add(&said, name[k].own);
      pw_notes_warn(notes, csv->name, 0,
                    "no price for the option %s under package %s (%s): counted as nothing",
                    name[k].own, package, o->tag);
    }
  }
}

static void say(const pw_csv *csv, const pw_job *job, pw_notes *notes)
{
  for (size_t r = 0; r < job->n_price; r++)
    say_item(csv, job, &job->price[r], notes);
  for (size_t p = 0; p < job->n_package; p++)
    say_unpriced(csv, job, p, notes);
}

static pw_status read_rows(const pw_csv *csv, pw_job *job, int shared, pw_notes *notes,
                           pw_err *err)
{
  job_field f[COLUMNS_MAX];
  int index[COLUMNS_MAX];
  size_t n = columns(f);
  pw_status status = job_fields_bind(f, n, csv, index, notes, err);
  for (size_t r = 0; r < csv->n_row && status == PW_OK; r++) {
    row w = {0};
    int other = 0;
    status = read_row(csv, r, f, n, index, job, shared, &w, &other, notes, err);
    if (status == PW_OK && !other) job->price[job->n_price++] = w.price;
  }
  return status == PW_OK ? check_openings(job, err) : status;
}

static void drop(pw_job *job)
{
  free(job->price);
  job->price = NULL;
  job->n_price = 0;
}

static pw_status take(pw_csv *csv, int shared, pw_job *job, pw_notes *notes, pw_err *err)
{
  pw_status status = PW_OK;
  csv->is_order = 1;
  memcpy(job->prices_name, csv->name, sizeof job->prices_name);
  if (csv->n_row > PW_PRICES_MAX)
    status = pw_fail_at(err, PW_E_DATA, csv->name, csv->line[PW_PRICES_MAX + 1], 0,
                        "more than %d rows", PW_PRICES_MAX);
  if (status == PW_OK) {
    job->price = calloc(csv->n_row ? csv->n_row : 1, sizeof *job->price);
    if (!job->price) status = pw_fail(err, PW_E_NOMEM, NULL, "%s: no memory", csv->name);
  }
  if (status == PW_OK) status = read_rows(csv, job, shared, notes, err);
  if (status == PW_OK) say(csv, job, notes);
  if (status != PW_OK) drop(job);
  pw_csv_free(csv);
  return status;
}

pw_status pw_prices_parse(const char *name, const char *text, size_t size, int shared,
                          pw_job *job, pw_notes *notes, pw_err *err)
{
  pw_csv csv;
  drop(job);
  pw_status status = pw_csv_open(name, text, size, &csv, err);
  return status == PW_OK ? take(&csv, shared, job, notes, err) : status;
}

pw_status pw_prices_read(const char *path, int shared, pw_job *job, pw_notes *notes,
                         pw_err *err)
{
  drop(job);
  return path ? pw_prices_parse(path, NULL, 0, shared, job, notes, err) : PW_OK;
}

size_t job_prices_fields(job_field f[]) { return columns(f); }
