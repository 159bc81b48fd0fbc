#include "job/scope_cells.h"

#include <stdio.h>
#include <string.h>

#include "base/nearest.h"
#include "base/text.h"
#include "job/words.h"
#include "panewright/lites.h"

enum { NAMES_MAX = 64 };

void job_option_name(const char *text, char name[PW_OPTION_MAX])
{
  static const char *const same[][2] = {
      {"no_grilles", "none"}, {"no", "none"}, {"color", "colour"}, {"grille", "grilles"}};
  pw_text_plain(text, name, PW_OPTION_MAX);
  if (strncmp(name, "grilles_", 8) == 0) memmove(name, name + 8, strlen(name + 8) + 1);
  for (size_t i = 0; i < sizeof same / sizeof same[0]; i++)
    if (strcmp(name, same[i][0]) == 0) snprintf(name, PW_OPTION_MAX, "%s", same[i][1]);
}

static pw_status read_package(const char *text, const job_row_at *at, size_t column,
                              const pw_job *job, int shared, pw_scope *scope, int *other,
                              pw_err *err)
{
  const char *name[NAMES_MAX];
  size_t n = 0;
  *other = 0;
  scope->package[0] = '\0';
  if (!text[0]) return PW_OK;
  for (size_t i = 0; i < job->n_package; i++) {
    if (n < NAMES_MAX) name[n++] = job->package[i].name;
    if (pw_edit_distance(text, job->package[i].name) != 0)
      continue; /* letters of either case */
    snprintf(scope->package, sizeof scope->package, "%s", job->package[i].name);
    return PW_OK;
  }
  *other = shared;
  if (shared) return PW_OK;
  const char *near = pw_nearest(text, name, n);
  char wanted[120];
  snprintf(wanted, sizeof wanted, "a package of packages.csv%s%.48s%s",
           near ? "; did you mean " : ", or blank for every one", near ? near : "",
           near ? "?" : "");
  return job_row_refuse(at, column, text, wanted, err);
}

static pw_status read_options(const char *text, const job_row_at *at, int column,
                              pw_scope *scope, pw_err *err)
{
  char word[64], name[PW_OPTION_MAX];
  scope->n_option = 0;
  while (*text) {
    size_t n = strcspn(text, "+");
    snprintf(word, sizeof word, "%.*s", (int)(n < 63 ? n : 63), text);
    text += n + (text[n] == '+');
    job_option_name(word, name);
    if (!name[0] || scope->n_option == PW_SCOPE_OPTIONS_MAX)
      return job_row_refuse(at, (size_t)column, word,
                            "at most six words joined by +, as in between + tempered", err);
    snprintf(scope->option[scope->n_option++], PW_OPTION_MAX, "%s", name);
  }
  return PW_OK;
}

pw_status job_scope_read(const job_scope_cells *cells, const job_row_at *at,
                         const job_scope_columns *column, const pw_job *job, int shared,
                         pw_scope *scope, int *other, pw_err *err)
{
  pw_status status =
      read_package(cells->package, at, column->package, job, shared, scope, other, err);
  scope->kind = 0;
  if (status == PW_OK && cells->kind[0]) {
    const char *near = NULL;
    char wanted[120];
    int kind = job_word_find(job_operator_word, job_operator_words_any, cells->kind, &near);
    snprintf(wanted, sizeof wanted, "fixed, slider, single_hung ... or blank for all%s%.40s%s",
             near ? "; did you mean " : "", near ? near : "", near ? "?" : "");
    if (kind < 0) return job_row_refuse(at, column->kind, cells->kind, wanted, err);
    scope->kind = kind == PW_OPERATOR_COUNT ? 0 : 1 + kind;
  }
  if (status == PW_OK && column->options >= 0)
    status = read_options(cells->options, at, column->options, scope, err);
  return status;
}

void job_scope_text(const pw_scope *scope, char text[160])
{
  int n =
      snprintf(text, 160, "%s",
               scope->kind ? pw_operator_name((pw_operator)(scope->kind - 1)) : "every kind");
  for (size_t i = 0; i < scope->n_option && n > 0 && n < 160; i++)
    n += snprintf(text + n, 160 - (size_t)n, "%s%s", i ? " + " : ", ", scope->option[i]);
}
