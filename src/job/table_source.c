#include "job/table_source.h"

#include <stdlib.h>
#include <string.h>
#include <zlib.h>

#include "base/nearest.h"

enum { ROWS_MAX = 100000 };

static pw_status no_table(const char *name, pw_err *err)
{
  const char **known = calloc(pw_table_source_count + 1, sizeof *known);
  for (size_t i = 0; known && i < pw_table_source_count; i++)
    known[i] = pw_table_sources[i].name;
  const char *near = known ? pw_nearest(name, known, pw_table_source_count) : NULL;
  free(known);
  return pw_fail(err, PW_E_MISSING, NULL, "no table %s%s%s%s", name,
                 near ? "; did you mean " : " (panewright tables lists them)", near ? near : "",
                 near ? "?" : "");
}

pw_status pw_table_source_read(const char *name, pw_csv *csv, pw_err *err)
{
  *csv = (pw_csv){0};
  const pw_table_source *s = pw_table_sources, *end = s + pw_table_source_count;
  while (s < end && strcmp(s->name, name) != 0)
    s++;
  if (s == end) return no_table(name, err);
  char *text = malloc(s->size + 1);
  uLongf size = (uLongf)s->size;
  if (!text) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the table %s", name);
  pw_status status =
      uncompress((Bytef *)text, &size, s->data, (uLong)s->packed) != Z_OK
          ? pw_fail(err, PW_E_DATA, NULL, "the table %s cannot be unpacked", name)
          : pw_csv_parse_rows(name, text, (size_t)size, ROWS_MAX, csv, err);
  free(text);
  return status;
}
