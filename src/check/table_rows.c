#include "check/table_rows.h"

#include <math.h>
#include <string.h>

const char *row_text(const pw_table *t, size_t i, const char *column)
{
  return pw_table_text(t, i, pw_table_column(t, column));
}

double row_number(const pw_table *t, size_t i, const char *column)
{
  return pw_table_number(t, i, pw_table_column(t, column));
}

int row_agrees(const pw_table *t, size_t i)
{
  return strncmp(row_text(t, i, "checked"), "agrees", 6) == 0;
}

int row_begins(const pw_table *t, size_t i, const char *column, const char *start)
{
  return strncmp(row_text(t, i, column), start, strlen(start)) == 0;
}

pw_status row_table(const char *name, const pw_table **t, pw_err *err)
{
  *t = pw_table_find(name);
  return *t ? PW_OK : pw_fail(err, PW_E_DATA, name, "table %s is not compiled in", name);
}

void row_give_within(const pw_check_sink *sink, const pw_table *t, size_t i,
                     const char *quantity, double ours, double tolerance)
{
  const char *id = row_text(t, i, "id");
  const pw_check_row row = {.id = id[0] ? id : t->name,
                            .quantity = quantity,
                            .unit = row_text(t, i, "unit"),
                            .ours = ours,
                            .want = row_number(t, i, "value"),
                            .tolerance = tolerance,
                            .source = row_text(t, i, "source"),
                            .how_known = row_text(t, i, "how_known")};
  sink->row(sink->context, &row);
}

void row_give(const pw_check_sink *sink, const pw_table *t, size_t i, const char *quantity,
              double ours)
{
  /* A hair for decimal rounding of values that meet the limit exactly. */
  row_give_within(sink, t, i, quantity, ours, row_number(t, i, "tolerance") * (1.0 + 1e-9));
}

void row_tally(const pw_check_sink *sink, const char *id, const char *quantity, double count,
               double least, double most, const char *source)
{
  pw_check_give_range(sink, id, quantity, "rows", count, least, most, 0, source, "counted");
}
