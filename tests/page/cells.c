/* What the program's own reader sees in CSV texts: tests/page/model_table.test.mjs holds the page's against it.
 * Standard input: for each text its size in bytes, a line end, its bytes. Output: for each a line of JSON, its rows (the header
 * first) with their lines, or why it is refused. */
#include <jansson.h>
#include <stdio.h>
#include <stdlib.h>

#include "job/csv.h"

static json_t *seen(const pw_csv *csv)
{
  json_t *rows = json_array(), *lines = json_array();
  for (size_t r = 0; r < csv->n_line; r++) {
    json_t *row = json_array();
    for (size_t c = 0; c < csv->n_col; c++)
      json_array_append_new(row, json_string(csv->cell[r * csv->n_col + c]));
    json_array_append_new(rows, row);
    json_array_append_new(lines, json_integer(csv->line[r]));
  }
  return json_pack("{s:o,s:o}", "rows", rows, "lines", lines);
}

int main(void)
{
  size_t size = 0;
  while (scanf("%zu%*1[\n]", &size) == 1) {
    char *text = malloc(size + 1);
    pw_csv csv;
    pw_err err = {0};
    if (!text || fread(text, 1, size, stdin) != size) return 1;
    text[size] = '\0';
    int good = pw_csv_parse("text.csv", text, size, &csv, &err) == PW_OK;
    json_t *o = good ? seen(&csv) : json_pack("{s:s}", "refused", err.text);
    json_dumpf(o, stdout, JSON_COMPACT);
    putchar('\n');
    json_decref(o);
    if (good) pw_csv_free(&csv);
    free(text);
  }
  return 0;
}
