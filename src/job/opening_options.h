/* The columns of openings.csv that an opening has over its package. */
#ifndef JOB_OPENING_OPTIONS_H
#define JOB_OPENING_OPTIONS_H

#include "job/field.h"
#include "panewright/survey.h"

enum { JOB_OPTION_COLUMNS = 10, JOB_OPTION_CELL = 24 };

/* Cells that are words first; beside the opening in the reader's row. */
typedef struct job_option_cells {
  char tempered[JOB_OPTION_CELL], pattern[PW_NAME_MAX], grille[JOB_OPTION_CELL];
  double bar; /* m; below 0 not given */
} job_option_cells;

/* Puts the fields into f (room for JOB_OPTION_COLUMNS); option and cells: their places in the reader's
 * record. Returns the count. */
size_t job_option_columns(job_field f[], size_t option, size_t cells);

/* What takes more than one cell: words, pattern of bars, usual width of a bar, hinge and kind of window.
 *
 * Returned  o->option; *column names the cell that is refused
 * Status    PW_OK; PW_E_DATA, err->text says what was found and what is accepted */
pw_status job_options_finish(const job_option_cells *cells, pw_opening *o, const char *file,
                             int line, pw_notes *notes, const char **column, pw_err *err);

#endif
