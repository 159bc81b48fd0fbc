#include "job/field.h"

#include <ctype.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/nearest.h"
#include "base/tape.h"
#include "job/date_text.h"
#include "job/measure.h"
#include "panewright/units.h"

enum { WORD_MAX = 40, LIST_MAX = 200, NO_WORD = -99 };

static void plain_word(const char *text, char word[WORD_MAX])
{
  size_t n = 0;
  for (; *text && n + 1 < WORD_MAX; text++)
    word[n++] = (char)(*text == ' ' || *text == '-' ? '_' : tolower((unsigned char)*text));
  word[n] = '\0';
}

int job_word_find(const job_word word[], size_t n, const char *text, const char **near)
{
  char plain[WORD_MAX];
  const char *known[JOB_WORDS_MAX];
  if (near) *near = NULL;
  if (strlen(text) >= WORD_MAX) return NO_WORD;
  plain_word(text, plain);
  if (n > JOB_WORDS_MAX) n = JOB_WORDS_MAX;
  for (size_t i = 0; i < n; i++)
    if (plain[0] == word[i].word[0] && strcmp(plain, word[i].word) == 0) return word[i].meaning;
  for (size_t i = 0; near && i < n; i++)
    known[i] = word[i].word;
  if (near) *near = pw_nearest(plain, known, n);
  return NO_WORD;
}

#if defined(__GNUC__)
__attribute__((format(printf, 4, 5)))
#endif
static pw_status
refuse(const job_field *f, const job_place *p, pw_err *err, const char *format, ...)
{
  char text[300];
  va_list args;
  va_start(args, format);
  vsnprintf(text, sizeof text, format, args);
  va_end(args);
  return pw_fail_at(err, PW_E_DATA, p->file, p->line, p->column, "%s%s%s: %s",
                    p->where[0] ? p->where : "", p->where[0] ? " " : "", f->name, text);
}

static pw_status read_word(const job_field *f, const char *text, const job_place *p, int *v,
                           pw_err *err)
{
  const char *near = NULL;
  int meaning = job_word_find(f->word, f->n_word, text, &near);
  if (meaning != NO_WORD) {
    *v = meaning;
    return PW_OK;
  }
  if (near) return refuse(f, p, err, "'%.40s' is not known; did you mean %s?", text, near);
  char list[LIST_MAX] = "";
  size_t have = 0;
  for (size_t i = 0; i < f->n_word; i++) {
    if (i > 0 && f->word[i].meaning == f->word[i - 1].meaning)
      continue; /* one word a meaning */
    if (have + strlen(f->word[i].word) + 3 >= LIST_MAX) break;
    have += (size_t)snprintf(list + have, LIST_MAX - have, "%s%s", have ? ", " : "",
                             f->word[i].word);
  }
  return refuse(f, p, err, "'%.40s' is not known; want %s", text, list);
}

/* The canonical word: of several with one meaning, the first. */
static pw_status read_choice(const job_field *f, const char *text, const job_place *p, char *to,
                             pw_err *err)
{
  int meaning = 0;
  pw_status status = read_word(f, text, p, &meaning, err);
  for (size_t i = 0; i < f->n_word && status == PW_OK; i++)
    if (f->word[i].meaning == meaning) {
      snprintf(to, f->size, "%s", f->word[i].word);
      break;
    }
  return status;
}

static pw_status read_length(const job_field *f, const char *text, const job_place *p,
                             double *v, pw_err *err)
{
  pw_err why = {0};
  double length = 0.0;
  char low[32], high[32];
  if (pw_measure_read(text, &length, &why) != PW_OK) return refuse(f, p, err, "%s", why.text);
  if (!(length >= f->low - 1e-9 && length <= f->high + 1e-9)) {
    int over = 0, under = 0;
    if (job_date_turned(text, &over, &under) && under > 0)
      return refuse(f, p, err,
                    "'%.40s' is a spreadsheet's number of a day, which it made of %d/%d; write "
                    "0 %d/%d or %d/%d in (make the cells text first)",
                    text, over, under, over, under, over, under);
    pw_tape_text(f->low, 16, low, sizeof low);
    pw_tape_text(f->high, 16, high, sizeof high);
    return refuse(f, p, err, "'%.40s' is out of range; want %s to %s in (%g to %g mm)", text,
                  low, high, f->low * 1e3, f->high * 1e3);
  }
  *v = length;
  return PW_OK;
}

static pw_status read_bearing(const job_field *f, const char *text, const job_place *p,
                              double *v, pw_err *err)
{
  static const job_word point[] = {
      {"n", 0},          {"north", 0},      {"nne", 1},         {"ne", 2},
      {"northeast", 2},  {"north_east", 2}, {"ene", 3},         {"e", 4},
      {"east", 4},       {"ese", 5},        {"se", 6},          {"southeast", 6},
      {"south_east", 6}, {"sse", 7},        {"s", 8},           {"south", 8},
      {"ssw", 9},        {"sw", 10},        {"southwest", 10},  {"south_west", 10},
      {"wsw", 11},       {"w", 12},         {"west", 12},       {"wnw", 13},
      {"nw", 14},        {"northwest", 14}, {"north_west", 14}, {"nnw", 15}};
  static const pw_unit_word degree[] = {
      {"", 1.0, 0.0}, {"deg", 1.0, 0.0}, {"degrees", 1.0, 0.0}, {"\xC2\xB0", 1.0, 0.0}};
  int meaning = job_word_find(point, JOB_COUNT(point), text, NULL);
  if (meaning != NO_WORD) {
    *v = 22.5 * meaning;
    return PW_OK;
  }
  pw_given g = {0};
  if (pw_number_read(text, degree, JOB_COUNT(degree), 0.0, 360.0, &g, NULL, NULL) != PW_OK)
    return refuse(
        f, p, err,
        "'%.40s' is no facing; want the way one looks out: N, NE ... NW or degrees 0 to 360",
        text);
  *v = g.value == 360.0 ? 0.0 : g.value;
  return PW_OK;
}

/* A height in feet may be written as the tape reads: 8'-6", 8 ft 6 in, 96 in. */
static int is_height(const job_field *f, const char *text, pw_given *given)
{
  double v = 0.0;
  if (!f->n_unit || strcmp(f->unit[0].word, "ft") != 0) return 0;
  if (pw_measure_read(text, &v, NULL) != PW_OK || !(v >= f->low && v <= f->high)) return 0;
  *given = (pw_given){.value = v, .origin = PW_ORIGIN_STATED};
  return strpbrk(text, "'\"iIfFmM\xE2") != NULL; /* a mark says that it is no bare number */
}

static pw_status read_number(const job_field *f, const char *text, const job_place *p,
                             pw_given *given, pw_err *err)
{
  pw_err why = {0};
  int over = 0, under = 0;
  if (pw_number_read(text, f->unit, f->n_unit, f->low, f->high, given, NULL, &why) != PW_OK &&
      !is_height(f, text, given)) {
    if (strpbrk(text, "-/ ") && job_date_turned(text, &over, &under))
      return refuse(
          f, p, err,
          "'%.40s' is a date that a spreadsheet made; write a range as 12 .. 14 (make "
          "the cell text first)",
          text);
    return refuse(f, p, err, "%s", why.text);
  }
  given->line = p->line;
  return PW_OK;
}

static pw_status read_text(const job_field *f, const char *text, const job_place *p, char *to,
                           pw_err *err)
{
  const size_t n = strlen(text);
  if (n >= f->size)
    return refuse(f, p, err, "a text of %zu bytes, want at most %zu", n, f->size - 1);
  for (size_t i = 0; i <= n; i++) /* a line break in a cell becomes a blank */
    to[i] = (char)((unsigned char)text[i] < 32 && text[i] ? ' ' : text[i]);
  return PW_OK;
}

static pw_status read_date(const job_field *f, const char *text, const job_place *p, char *to,
                           pw_err *err)
{
  pw_err why = {0};
  if (job_date_read(text, to, &why) != PW_OK) return refuse(f, p, err, "%s", why.text);
  return PW_OK;
}

static pw_status read_integer(const job_field *f, const char *text, const job_place *p, int *v,
                              pw_err *err)
{
  pw_given g = {0};
  if (pw_number_read(text, NULL, 0, f->low, f->high, &g, NULL, NULL) != PW_OK ||
      floor(g.value) != g.value || g.spread != 0.0)
    return refuse(f, p, err, "'%.40s' is not taken; want a whole number from %g to %g", text,
                  f->low, f->high);
  *v = (int)g.value;
  return PW_OK;
}

static pw_status read_flag(const job_field *f, const char *text, const job_place *p, int *v,
                           pw_err *err)
{
  static const job_word flag[] = {{"yes", 1}, {"y", 1}, {"1", 1}, {"true", 1},
                                  {"no", 0},  {"n", 0}, {"0", 0}, {"false", 0}};
  static const job_word unknown[] = {{"unknown", -1}, {"?", -1}};
  int meaning = job_word_find(flag, JOB_COUNT(flag), text, NULL);
  if (meaning == NO_WORD && f->low < 0.0)
    meaning = job_word_find(unknown, JOB_COUNT(unknown), text, NULL);
  if (meaning == NO_WORD)
    return refuse(f, p, err, "'%.40s' is not taken; want yes%s", text,
                  f->low < 0.0 ? ", no or unknown" : " or no");
  *v = meaning;
  return PW_OK;
}

/* What a spreadsheet leaves where a value should stand. */
static const char *leftover(const job_field *f, const char *text)
{
  static const char *const error[] = {"#REF!",   "#VALUE!", "#N/A",   "#NAME?",
                                      "#DIV/0!", "#NUM!",   "#NULL!", "#SPILL!"};
  for (size_t i = 0; i < JOB_COUNT(error); i++)
    if (strcmp(text, error[i]) == 0) return "is a spreadsheet's error, no value";
  if (strlen(text) >= 3 && strspn(text, "#") == strlen(text))
    return "is what a spreadsheet shows when a column is too narrow; widen it and save again";
  if (text[0] == '=' && text[1] && f->kind != JOB_TEXT)
    return "is a formula; save the file as CSV, which keeps its value";
  return NULL;
}

/* A cell made text by force, ="1/2" or '1/2, without that. */
static const char *unforced(const job_field *f, const char *text, char copy[WORD_MAX])
{
  size_t n = strlen(text);
  if (n > 3 && n < WORD_MAX && strncmp(text, "=\"", 2) == 0 && text[n - 1] == '"') {
    memcpy(copy, text + 2, n - 3);
    copy[n - 3] = '\0';
    return copy;
  }
  return f->kind != JOB_TEXT && text[0] == '\'' && isdigit((unsigned char)text[1]) ? text + 1
                                                                                   : text;
}

/* "none" in an optional length: stated, and the same as the default. */
static int is_none(const char *text)
{
  static const job_word word[] = {{"none", 0}, {"no", 0}, {"n", 0}, {"n/a", 0}, {"_", 0}};
  return job_word_find(word, JOB_COUNT(word), text, NULL) == 0;
}

pw_status job_field_read(const job_field *f, const char *text, const job_place *p, void *record,
                         pw_notes *notes, pw_err *err)
{
  char copy[WORD_MAX];
  int defaulted = text[0] == '\0', none = 0;
  if (!defaulted && strchr("='#", text[0])) {
    text = unforced(f, text, copy);
    const char *left = leftover(f, text);
    if (left) return refuse(f, p, err, "'%.40s' %s", text, left);
  }
  if (f->blank && f->kind == JOB_LENGTH && is_none(text)) defaulted = none = 1;
  if (defaulted) {
    if (!f->blank) return refuse(f, p, err, "the cell is blank and has no default");
    if (f->why && !none) {
      char value[sizeof((pw_note *)0)->value];
      int both = f->blank[0] && f->why[0];
      snprintf(value, sizeof value, "%s%s%s%s", f->blank, both ? " (" : "", f->why,
               both ? ")" : "");
      pw_notes_default(notes, p->file, p->line, f->name, p->where, value);
    }
    if (!f->blank[0]) return PW_OK;
    text = f->blank;
  }
  void *to = (char *)record + f->offset;
  pw_given given = {0};
  pw_status status = PW_OK;
  switch (f->kind) {
  case JOB_TEXT:
    return read_text(f, text, p, to, err);
  case JOB_LENGTH:
    return read_length(f, text, p, to, err);
  case JOB_INTEGER:
    return read_integer(f, text, p, to, err);
  case JOB_FLAG:
    return read_flag(f, text, p, to, err);
  case JOB_WORD:
    return read_word(f, text, p, to, err);
  case JOB_CHOICE:
    return read_choice(f, text, p, to, err);
  case JOB_BEARING:
    return read_bearing(f, text, p, to, err);
  case JOB_DATE:
    return read_date(f, text, p, to, err);
  case JOB_NUMBER:
  case JOB_GIVEN:
    status = read_number(f, text, p, &given, err);
    if (status != PW_OK) return status;
    if (defaulted) {
      given.origin = PW_ORIGIN_ASSUMED;
      given.source = f->why;
      given.line = 0;
    }
    if (f->kind == JOB_GIVEN)
      memcpy(to, &given, sizeof given);
    else
      memcpy(to, &given.value, sizeof given.value);
  }
  return status;
}

pw_status job_fields_bind(const job_field field[], size_t n, const pw_csv *csv, int index[],
                          pw_notes *notes, pw_err *err)
{
  pw_csv_column column[PW_CSV_COLUMNS_MAX];
  for (size_t i = 0; i < n; i++)
    column[i] = (pw_csv_column){field[i].name, field[i].blank == NULL};
  return pw_csv_bind(csv, column, n, index, notes, err);
}

/* A refused cell that a spreadsheet turned into a date: says how many of its column were. */
static void add_column(const pw_csv *csv, int column, size_t row, pw_err *err)
{
  size_t filled = 0, turned = 0;
  int over = 0, under = 0;
  if (!err || !job_date_turned(pw_csv_at(csv, row, column), &over, &under)) return;
  for (size_t r = 0; r < csv->n_row; r++) {
    const char *text = pw_csv_at(csv, r, column);
    filled += text[0] != '\0';
    turned += text[0] && job_date_turned(text, &over, &under);
  }
  if (turned < 2) return;
  char text[sizeof err->text];
  memcpy(text, err->text, sizeof text);
  if (turned == filled)
    snprintf(err->text, sizeof err->text, "%.300s; all %zu cells of the column are turned",
             text, turned);
  else
    snprintf(err->text, sizeof err->text, "%.300s; %zu of the column's %zu cells are turned",
             text, turned, filled);
}

pw_status job_row_read(const job_field field[], size_t n, const pw_csv *csv, size_t row,
                       const int index[], const char *where, void *record, pw_notes *notes,
                       pw_err *err)
{
  for (size_t i = 0; i < n; i++) {
    job_place place = {csv->name, csv->line[row + 1], index[i] + 1, where};
    pw_status status =
        job_field_read(&field[i], pw_csv_at(csv, row, index[i]), &place, record, notes, err);
    if (status != PW_OK) {
      if (field[i].kind == JOB_LENGTH) add_column(csv, index[i], row, err);
      return status;
    }
  }
  return PW_OK;
}

pw_status job_row_refuse(const job_row_at *at, size_t column, const char *found,
                         const char *wanted, pw_err *err)
{
  return pw_fail_at(err, PW_E_DATA, at->csv->name, at->csv->line[at->row + 1],
                    at->index[column] + 1, "%s: '%.40s'; want %s", at->field[column].name,
                    found, wanted);
}
