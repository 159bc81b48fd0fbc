/* The cells that say what a row of labels.csv or prices.csv holds for: package, kind, options, sizes. */
#ifndef JOB_SCOPE_CELLS_H
#define JOB_SCOPE_CELLS_H

#include "job/field.h"
#include "panewright/survey.h"

/* As read, before they are understood. */
typedef struct job_scope_cells {
  char package[48], kind[48], options[128];
} job_scope_cells;

/* Understands them. Column numbers (of the reader's table) are for refusals; options -1 where the
 * reader has none.
 *
 * Given     shared  1: the file serves several jobs, so a package of another one is no slip
 * Returned  *scope  package spelt as in packages.csv, kind, options; sizes are left alone
 *           *other  1: the row is of a package that this job has not (only where shared)
 * Status    PW_OK; PW_E_DATA file, line, column, found and accepted
 */
typedef struct job_scope_columns {
  size_t package, kind;
  int options;
} job_scope_columns;
pw_status job_scope_read(const job_scope_cells *cells, const job_row_at *at,
                         const job_scope_columns *column, const pw_job *job, int shared,
                         pw_scope *scope, int *other, pw_err *err);

/* A name as options are compared: plain (base/text.h), "grilles_" taken off. */
void job_option_name(const char *text, char name[PW_OPTION_MAX]);

/* "slider", "slider, between + tempered", "every kind": for print. */
void job_scope_text(const pw_scope *scope, char text[160]);

#endif
