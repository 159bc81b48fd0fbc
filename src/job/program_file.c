#include "job/program_file.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "job/csv.h"
#include "job/field.h"
#include "panewright/units.h"

typedef struct row {
  pw_program_row r;
  char from[11], to[11], unit[24];
  int metric, op; /* -1 blank */
} row;

enum { UNIT = 8, VALUE = 7, METRIC = 5, OP = 6, FROM = 9, TO = 10, NOTE = 12 };

static const job_word kind_word[] = {
    {"criterion", PW_ROW_CRITERION}, {"amount", PW_ROW_AMOUNT},       {"cap", PW_ROW_CAP},
    {"document", PW_ROW_DOCUMENT},   {"condition", PW_ROW_CONDITION}, {"rooms", PW_ROW_ROOMS}};
static const job_word metric_word[] = {{"u", PW_METRIC_U},
                                       {"shgc", PW_METRIC_SHGC},
                                       {"vt", PW_METRIC_VT},
                                       {"air_leakage", PW_METRIC_AIR_LEAKAGE}};
static const job_word op_word[] = {{"<=", PW_OP_LE}, {">=", PW_OP_GE}, {"=", PW_OP_EQ}};

#define TEXT(column, member, empty) JOB_TEXT_AT(row, column, member, empty, NULL)
#define WORD(column, member, words, empty)                                                     \
  JOB_WORD_AT(row, column, member, words, JOB_COUNT(words), empty, NULL)

static const job_field field[] = {
    TEXT("program", r.program, NULL),
    TEXT("edition", r.edition, ""),
    TEXT("zone", r.zone, ""),
    WORD("row", r.kind, kind_word, NULL),
    TEXT("group", r.group, ""),
    WORD("metric", metric, metric_word, ""),
    WORD("op", op, op_word, ""),
    {.name = "value",
     .kind = JOB_NUMBER,
     .offset = offsetof(row, r.value),
     .low = 0.0,
     .high = 1e7,
     .blank = ""},
    TEXT("unit", unit, ""),
    {.name = "from", .kind = JOB_DATE, .offset = offsetof(row, from), .size = 11, .blank = ""},
    {.name = "to", .kind = JOB_DATE, .offset = offsetof(row, to), .size = 11, .blank = ""},
    TEXT("source", r.source, ""),
    TEXT("note", r.note, ""),
};

/* How amounts and caps may be counted; factor brings the value to what pw_basis keeps. */
static const struct {
  const char *unit;
  pw_basis basis;
  double factor;
} basis_row[] = {
    {"$", PW_BASIS_FIXED, 1.0},         {"$/ft2", PW_BASIS_AREA, 1.0 / PW_FOOT2},
    {"$/m2", PW_BASIS_AREA, 1.0},       {"$/opening", PW_BASIS_OPENING, 1.0},
    {"% of cost", PW_BASIS_COST, 0.01}, {"% of product cost", PW_BASIS_PRODUCT_COST, 0.01},
};

static pw_status finish_criterion(const job_row_at *s, row *in, pw_err *err)
{
  pw_err why = {0};
  if (in->metric < 0) return job_row_refuse(s, METRIC, "", "u, shgc, vt or air_leakage", err);
  if (in->op < 0) return job_row_refuse(s, OP, "", "<=, >= or =", err);
  in->r.metric = (pw_metric)in->metric;
  in->r.op = (pw_op)in->op;
  if (pw_metric_unit(in->r.metric, in->unit, &in->r.si, &in->r.step, &why) != PW_OK)
    return pw_fail_at(err, PW_E_DATA, s->csv->name, s->csv->line[s->row + 1],
                      s->index[UNIT] + 1, "unit: %.200s", why.text);
  return PW_OK;
}

static pw_status finish_money(const job_row_at *s, row *in, pw_err *err)
{
  for (size_t i = 0; i < sizeof basis_row / sizeof basis_row[0]; i++)
    if (strcmp(in->unit, basis_row[i].unit) == 0) {
      in->r.basis = basis_row[i].basis;
      in->r.value *= basis_row[i].factor;
      return PW_OK;
    }
  return job_row_refuse(s, UNIT, in->unit,
                        "$, $/ft2, $/m2, $/opening, % of cost or % of product cost", err);
}

static pw_status finish_rooms(const job_row_at *s, row *in, pw_err *err)
{
  in->r.conditioned = strcmp(in->unit, "conditioned") == 0;
  return in->r.conditioned || strcmp(in->unit, "all") == 0
             ? PW_OK
             : job_row_refuse(s, UNIT, in->unit, "conditioned or all", err);
}

/* What one column cannot say alone. */
static pw_status finish(const job_row_at *s, row *in, pw_err *err)
{
  pw_program_row *r = &in->r;
  r->line = s->csv->line[s->row + 1];
  memcpy(r->unit, in->unit, sizeof r->unit);
  pw_date_read(in->from, &r->from, NULL); /* the field has looked at the form */
  pw_date_read(in->to, &r->to, NULL);
  if (r->from && r->to && r->from > r->to)
    return job_row_refuse(s, TO, in->to, "a day not before `from`", err);
  if (r->kind == PW_ROW_DOCUMENT || r->kind == PW_ROW_CONDITION)
    return r->note[0] ? PW_OK : job_row_refuse(s, NOTE, "", "the words to print", err);
  if (r->kind == PW_ROW_ROOMS) return finish_rooms(s, in, err);
  if (isnan(r->value)) return job_row_refuse(s, VALUE, "", "a number of 0 or more", err);
  return r->kind == PW_ROW_CRITERION ? finish_criterion(s, in, err) : finish_money(s, in, err);
}

static pw_status read_rows(const pw_csv *csv, pw_program *program, pw_notes *notes, pw_err *err)
{
  int index[JOB_COUNT(field)];
  pw_status status = job_fields_bind(field, JOB_COUNT(field), csv, index, notes, err);
  if (status != PW_OK) return status;
  if (csv->n_row == 0)
    return pw_fail_at(err, PW_E_DATA, csv->name, csv->line[0], 0, "no rows below the header");
  program->row = calloc(csv->n_row, sizeof *program->row);
  if (!program->row) return pw_fail(err, PW_E_NOMEM, "program", "no memory");
  for (size_t i = 0; i < csv->n_row && status == PW_OK; i++) {
    row in = {.metric = -1, .op = -1, .r = {.value = (double)NAN}};
    const job_row_at at = {csv, i, index, field};
    status = job_row_read(field, JOB_COUNT(field), csv, i, index, "", &in, notes, err);
    if (status == PW_OK) status = finish(&at, &in, err);
    if (status == PW_OK) program->row[program->n_row++] = in.r;
  }
  return status;
}

static pw_status take(pw_csv *csv, pw_program *program, pw_notes *notes, pw_err *err)
{
  memcpy(program->file, csv->name, strlen(csv->name) + 1);
  pw_status status = read_rows(csv, program, notes, err);
  pw_csv_free(csv);
  if (status != PW_OK) pw_program_free(program);
  return status;
}

pw_status pw_program_read(const char *path, pw_program *program, pw_notes *notes, pw_err *err)
{
  return pw_program_parse(path, NULL, 0, program, notes, err);
}

pw_status pw_program_parse(const char *name, const char *text, size_t size, pw_program *program,
                           pw_notes *notes, pw_err *err)
{
  pw_csv csv;
  *program = (pw_program){0};
  pw_status status = pw_csv_open(name, text, size, &csv, err);
  return status == PW_OK ? take(&csv, program, notes, err) : status;
}

void pw_program_free(pw_program *program)
{
  if (!program) return;
  free(program->row);
  *program = (pw_program){0};
}
