/* panewright tables: what is compiled in, and a look into one table. */
#include <stdio.h>
#include <stdlib.h>

#include "cli/command.h"
#include "panewright/nearest.h"
#include "panewright/table.h"

static int run(const cli_args *args)
{
  pw_err err = {0};
  pw_grid *grid = NULL;
  if (args->n_word == 0) {
    grid = pw_grid_new(3, (const char *const[]){"<table", "rows", "columns"});
    for (size_t i = 0; i < pw_table_count; i++) {
      pw_grid_cell(grid, "%s", pw_tables[i].name);
      pw_grid_cell(grid, "%zu", pw_tables[i].n_row);
      pw_grid_cell(grid, "%zu", pw_tables[i].n_col);
    }
  } else {
    const pw_table *table = pw_table_find(args->word[0]);
    if (!table) {
      const char **known = calloc(pw_table_count, sizeof *known);
      for (size_t i = 0; known && i < pw_table_count; i++)
        known[i] = pw_tables[i].name;
      const char *near = known ? pw_nearest(args->word[0], known, pw_table_count) : NULL;
      free(known);
      pw_fail(&err, PW_E_MISSING, NULL, "no table %s%s%s%s", args->word[0],
              near ? "; did you mean " : " (panewright tables lists them)", near ? near : "",
              near ? "?" : "");
      return cli_fail(&err);
    }
    grid = pw_grid_new(table->n_col, table->text);
    for (size_t r = 0; r < table->n_row; r++)
      for (size_t c = 0; c < table->n_col; c++)
        pw_grid_cell(grid, "%s", pw_table_text(table, r, (int)c));
  }
  pw_status status = pw_grid_print(grid, stdout, args->format, &err);
  pw_grid_free(grid);
  return status == PW_OK ? cli_finish() : cli_fail(&err);
}

static const cli_option option[] = {{"format", "text|csv", "how to print (text)"}, CLI_END};
extern const cli_command cli_tables;
const cli_command cli_tables = {
    "tables", "[NAME]", "lists the built-in reference tables, or prints one", NULL, option, 0,
    1,        run};
