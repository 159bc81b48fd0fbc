/* The schema beside the tables: reference/FOLDER/schema.csv says what each column of that folder's
 * tables holds. Columns: tables (a name, or a stem and '*'), column, kind, words. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "embed/embed.h"

char *embed_table_name(const char *path)
{
  const char *base = strchr(path, '/');
  base = base ? base + 1 : path;
  const char *dot = strrchr(base, '.');
  size_t n = dot ? (size_t)(dot - base) : strlen(base);
  char *name = embed_alloc(n + 1, 1);
  snprintf(name, n + 1, "%s", base);
  return name;
}

/* "glazing/gas" from "glazing/schema" and "gas". */
static char *beside(const char *schema, const char *tables)
{
  const char *slash = strrchr(schema, '/');
  size_t n = slash ? (size_t)(slash - schema) + 1 : 0;
  char *name = embed_alloc(n + strlen(tables) + 1, 1);
  memcpy(name, schema, n);
  strcpy(name + n, tables);
  return name;
}

static void kind_of(embed_column *c, const char *text)
{
  static const struct {
    const char *word;
    embed_kind kind;
    int blank;
  } known[] = {
      {"number", EMBED_NUMBER, 0}, {"number?", EMBED_NUMBER, 1}, {"word", EMBED_WORD, 0},
      {"word?", EMBED_WORD, 1},    {"text", EMBED_TEXT, 0},      {"text?", EMBED_TEXT, 1},
      {"key", EMBED_KEY, 0},       {"key?", EMBED_KEY, 1},       {"enum", EMBED_ENUM, 0},
      {"table", EMBED_TABLE, 0},   {"table?", EMBED_TABLE, 1},   {"row", EMBED_ROW, 0},
      {"row?", EMBED_ROW, 1},      {"note", EMBED_NOTE, 1},      {"chars", EMBED_CHARS, 0},
      {"chars?", EMBED_CHARS, 1},  {"fixed", EMBED_FIXED, 0},    {"fixed?", EMBED_FIXED, 1}};
  for (size_t i = 0; i < sizeof known / sizeof known[0]; i++)
    if (!strcmp(text, known[i].word)) {
      c->kind = known[i].kind;
      c->may_be_blank = known[i].blank;
      return;
    }
  embed_fail(
      c->path, c->line,
      "kind '%s': number, number?, word, word?, text, text?, key, key?, enum, table, table?, "
      "row, row?, chars, chars?, fixed, fixed?, note",
      text);
}

/* One blank or, where words have blanks inside, one | between two. */
static void words_of(embed_column *c, char *text)
{
  const char *between = strchr(text, '|') ? "|" : " ";
  for (char *word = strtok(text, between); word; word = strtok(NULL, between)) {
    if (c->n_word == sizeof c->words / sizeof c->words[0])
      embed_fail(c->path, c->line, "too many words");
    c->words[c->n_word++] = word;
  }
  if (c->kind == EMBED_ROW && c->n_word != 1)
    embed_fail(c->path, c->line, "a row needs the name of its table");
  if ((c->kind == EMBED_CHARS || c->kind == EMBED_FIXED) &&
      (c->n_word != 1 || atoi(c->words[0]) < 1))
    embed_fail(c->path, c->line, "chars and fixed need a count");
  if (c->kind == EMBED_ENUM && c->n_word == 0)
    embed_fail(c->path, c->line, "an enum needs its words");
}

embed_schema embed_schema_read(char *const path[], size_t n_path)
{
  embed_schema s = {0};
  for (size_t i = 0; i < n_path; i++) {
    char *name = embed_table_name(path[i]);
    if (strcmp(strrchr(name, '/') ? strrchr(name, '/') + 1 : name, "schema") != 0) continue;
    embed_csv csv = embed_csv_read(path[i]);
    if (csv.n_col != 4) embed_fail(path[i], csv.line[0], "want tables,column,kind,words");
    s.column = realloc(s.column, (s.n_column + csv.n_row) * sizeof *s.column);
    if (!s.column) embed_fail(path[i], 0, "no memory");
    for (size_t r = 1; r < csv.n_row; r++) {
      embed_column *c = &s.column[s.n_column++];
      *c = (embed_column){.tables = beside(name, csv.cell[4 * r]),
                          .name = csv.cell[4 * r + 1],
                          .path = path[i],
                          .line = csv.line[r]};
      kind_of(c, csv.cell[4 * r + 2]);
      words_of(c, csv.cell[4 * r + 3]);
    }
  }
  return s;
}

static int fits(const char *tables, const char *table)
{
  size_t n = strlen(tables);
  return n && tables[n - 1] == '*' ? strncmp(tables, table, n - 1) == 0
                                   : strcmp(tables, table) == 0;
}

embed_column *embed_schema_find(const embed_schema *schema, const char *table,
                                const char *column)
{
  for (size_t i = 0; i < schema->n_column; i++)
    if (fits(schema->column[i].tables, table) && !strcmp(schema->column[i].name, column)) {
      schema->column[i].used = 1;
      return &schema->column[i];
    }
  return NULL;
}

void embed_schema_all_used(const embed_schema *schema)
{
  for (size_t i = 0; i < schema->n_column; i++)
    if (!schema->column[i].used)
      embed_fail(schema->column[i].path, schema->column[i].line,
                 "no table has the column %s of %s", schema->column[i].name,
                 schema->column[i].tables);
}
