/* panewright tables: what is compiled in, and a look into one table. */
#include <stdio.h>

#include "base/table.h"
#include "cli/command.h"
#include "job/table_source.h"

static pw_grid *list(void)
{
  pw_grid *grid = pw_grid_new(3, (const char *const[]){"<table", "rows", "columns"});
  for (size_t i = 0; i < pw_table_count; i++) {
    pw_grid_cell(grid, "%s", pw_tables[i].name);
    pw_grid_cell(grid, "%zu", pw_tables[i].n_row);
    pw_grid_cell(grid, "%zu", pw_tables[i].n_col);
  }
  return grid;
}

static pw_grid *rows(const pw_csv *csv)
{
  pw_grid *grid = pw_grid_new(csv->n_col, (const char *const *)csv->cell);
  for (size_t r = 0; r < csv->n_row; r++)
    for (size_t c = 0; c < csv->n_col; c++)
      pw_grid_cell(grid, "%s", pw_csv_at(csv, r, (int)c));
  return grid;
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  pw_csv csv = {0};
  if (args->n_word && pw_table_source_read(args->word[0], &csv, &err) != PW_OK)
    return cli_fail(&err);
  pw_grid *grid = args->n_word ? rows(&csv) : list();
  pw_status status = pw_grid_print(grid, stdout, args->format, &err);
  pw_grid_free(grid);
  pw_csv_free(&csv);
  return status == PW_OK ? cli_finish() : cli_fail(&err);
}

static const cli_option option[] = {{"format", "text|csv", "how to print (text)"}, CLI_END};
extern const cli_command cli_tables;
const cli_command cli_tables = {
    "tables", "[NAME]", "lists the built-in reference tables, or prints one", NULL, option, 0,
    1,        run};
