/* Typed rows from the tables of reference/: one C struct a table (or a family of tables), a number as
 * a double, an enum as the index of its word, anything else as text. Whatever does not fit its
 * schema ends the build. */
#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "embed/embed.h"

typedef struct sheet {
  embed_csv csv;
  char *name;         /* "glazing/gas" */
  char c_name[128];   /* "pw_ref_glazing_gas" */
  char row_type[128]; /* "pw_ref_glazing_gas_row", or of its family */
  embed_column *column[CELLS_MAX];
  size_t room[CELLS_MAX]; /* bytes of a text inside the row; 0: a pointer to it, or no text */
} sheet;

/* A text of the row itself needs no pointer to be set, and no page to be copied, each time the program
 * starts. Longer ones are few and would fill the rows with blanks. */
enum { LONGEST_INSIDE = 63 };

/* A name of C from any text; where it stands alone it may not begin with a digit or be a keyword. */
static void c_word(char *out, size_t room, const char *text, int alone)
{
  static const char *const keyword[] = {"case", "default", "for",   "if",
                                        "long", "short",   "switch"};
  size_t n = 0;
  if (alone && isdigit((unsigned char)text[0])) out[n++] = '_';
  for (; *text && n + 2 < room; text++)
    if (isalnum((unsigned char)*text))
      out[n++] = *text;
    else if (n && out[n - 1] != '_')
      out[n++] = '_';
  while (n > 1 && out[n - 1] == '_')
    n--;
  out[n] = '\0';
  for (size_t i = 0; alone && i < sizeof keyword / sizeof keyword[0]; i++)
    if (!strcmp(out, keyword[i])) strcpy(out + n, "_");
}

static double number(const sheet *t, const embed_column *c, size_t row, const char *cell)
{
  char *end = NULL;
  if (*cell == '\0' && c->may_be_blank) return (double)NAN;
  for (size_t i = 0; c->kind == EMBED_NUMBER && i < c->n_word; i++)
    if (!strcmp(cell, c->words[i])) return (double)NAN;
  double v = strtod(cell, &end);
  while (isspace((unsigned char)*end))
    end++;
  if (end == cell || *end || !isfinite(v) || strpbrk(cell, "xX"))
    embed_fail(t->csv.path, t->csv.line[row], "%s is '%s', want one number", c->name, cell);
  return v;
}

static size_t enum_index(const sheet *t, const embed_column *c, size_t row, const char *cell)
{
  for (size_t i = 0; i < c->n_word; i++)
    if (!strcmp(cell, c->words[i])) return i;
  embed_fail(t->csv.path, t->csv.line[row], "%s is '%s', not a word of its enum", c->name,
             cell);
}

static const char *cell_of(const sheet *t, size_t row, size_t col)
{
  return t->csv.cell[row * t->csv.n_col + col];
}

/* "72/24/4", "6 20", "3-5": nothing but numbers, and more than one. */
static int several_numbers(const char *cell)
{
  int n = 0, inside = 0;
  if (cell[strspn(cell, "0123456789./,;-+ ")]) return 0;
  for (const char *c = cell; *c; c++) {
    int digit = isdigit((unsigned char)*c) || (*c == '.' && inside);
    n += digit && !inside;
    inside = digit;
  }
  return n > 1;
}

static void check_words(const sheet *t, size_t col)
{
  const embed_column *c = t->column[col];
  for (size_t r = 1; r < t->csv.n_row; r++) {
    const char *cell = cell_of(t, r, col);
    if (*cell == '\0' && !c->may_be_blank)
      embed_fail(t->csv.path, t->csv.line[r], "%s is blank", c->name);
    if (c->kind == EMBED_CHARS && strlen(cell) > strtoul(c->words[0], NULL, 10))
      embed_fail(t->csv.path, t->csv.line[r], "%s is '%s', want at most %s bytes", c->name,
                 cell, c->words[0]);
    if (c->kind != EMBED_TEXT && c->kind != EMBED_CHARS && several_numbers(cell))
      embed_fail(t->csv.path, t->csv.line[r], "%s is '%s': split the numbers, or call it text",
                 c->name, cell);
    for (size_t q = 1; c->kind == EMBED_KEY && *cell && q < r; q++)
      if (!strcmp(cell, cell_of(t, q, col)))
        embed_fail(t->csv.path, t->csv.line[r], "%s '%s' stands in line %zu too", c->name, cell,
                   t->csv.line[q]);
  }
}

/* Types of all columns; the row's type, one for the tables that one starred name describes. */
static sheet sheet_read(const char *path, const embed_schema *schema)
{
  sheet t = {.csv = embed_csv_read(path), .name = embed_table_name(path)};
  const char *family = "";
  int one = 1;
  for (size_t i = 0; i < t.csv.n_col; i++) {
    embed_column *c = embed_schema_find(schema, t.name, t.csv.cell[i]);
    t.column[i] = c;
    if (!c)
      embed_fail(path, t.csv.line[0], "schema.csv beside it does not know the column '%s'",
                 t.csv.cell[i]);
    else if (c->kind == EMBED_WORD || c->kind == EMBED_TEXT || c->kind == EMBED_KEY ||
             c->kind == EMBED_TABLE || c->kind == EMBED_CHARS)
      check_words(&t, i);
    if (i && strcmp(family, t.column[i]->tables) != 0) one = 0;
    family = t.column[i]->tables;
  }
  char word[100];
  c_word(word, sizeof word, t.name, 0);
  snprintf(t.c_name, sizeof t.c_name, "pw_ref_%s", word);
  if (one && strchr(family, '*')) c_word(word, sizeof word, family, 0);
  snprintf(t.row_type, sizeof t.row_type, "pw_ref_%s_row", word);
  return t;
}

static int is_text(const embed_column *c)
{
  return c->kind == EMBED_WORD || c->kind == EMBED_KEY || c->kind == EMBED_TEXT;
}

/* The longest text of a column over all tables of its row's type. */
static void make_room(sheet *t, size_t n)
{
  for (size_t i = 0; i < n; i++)
    for (size_t c = 0; c < t[i].csv.n_col; c++) {
      size_t longest = 0;
      for (size_t q = 0; is_text(t[i].column[c]) && q < n; q++)
        for (size_t r = 1; !strcmp(t[q].row_type, t[i].row_type) && r < t[q].csv.n_row; r++)
          if (strlen(cell_of(&t[q], r, c)) > longest) longest = strlen(cell_of(&t[q], r, c));
      if (is_text(t[i].column[c]) && longest <= LONGEST_INSIDE) t[i].room[c] = longest + 1;
      if (t[i].column[c]->kind == EMBED_CHARS)
        t[i].room[c] = strtoul(t[i].column[c]->words[0], NULL, 10) + 1;
    }
}

static sheet *sheets(char *const path[], size_t n_path, size_t *n)
{
  embed_schema schema = embed_schema_read(path, n_path);
  sheet *t = embed_alloc(n_path, sizeof *t);
  *n = 0;
  for (size_t i = 0; i < n_path; i++) {
    char *name = embed_table_name(path[i]);
    const char *slash = strrchr(name, '/');
    if (strcmp(slash ? slash + 1 : name, "schema") != 0)
      t[(*n)++] = sheet_read(path[i], &schema);
    free(name);
  }
  embed_schema_all_used(&schema);
  make_room(t, *n);
  return t;
}

static void put_member(const embed_column *c, size_t room)
{
  static const char *const type[] = {
      [EMBED_NUMBER] = "double ",      [EMBED_WORD] = "const char *",
      [EMBED_KEY] = "const char *",    [EMBED_TEXT] = "const char *",
      [EMBED_ENUM] = "unsigned char ", [EMBED_TABLE] = "const pw_table *",
      [EMBED_ROW] = "short ",          [EMBED_FIXED] = "short "};
  char word[100];
  if (c->kind == EMBED_NOTE) return;
  c_word(word, sizeof word, c->name, 1);
  if (room)
    printf("  char %s[%zu];\n", word, room);
  else
    printf("  %s%s;\n", type[c->kind], word);
}

void embed_tables_header(char *const path[], size_t n_path)
{
  size_t n = 0;
  sheet *t = sheets(path, n_path, &n);
  puts("#ifndef GEN_REFERENCE_H\n#define GEN_REFERENCE_H\n#include \"base/table.h\"");
  for (size_t i = 0; i < n; i++) {
    int seen = 0;
    for (size_t q = 0; q < i; q++)
      seen = seen || !strcmp(t[q].row_type, t[i].row_type);
    if (!seen) {
      printf("\ntypedef struct %s {\n", t[i].row_type);
      for (size_t c = 0; c < t[i].csv.n_col; c++)
        put_member(t[i].column[c], t[i].room[c]);
      printf("} %s;\n", t[i].row_type);
    }
    printf("enum {\n");
    for (size_t c = 0; c < t[i].csv.n_col; c++)
      for (size_t r = 1; t[i].column[c]->kind == EMBED_KEY && r < t[i].csv.n_row; r++) {
        char word[100];
        if (cell_of(&t[i], r, c)[0] == '\0') continue;
        c_word(word, sizeof word, cell_of(&t[i], r, c), 0);
        printf("  %s__%s = %zu,\n", t[i].c_name, word, r - 1);
      }
    for (size_t c = 0; c < t[i].csv.n_col; c++)
      for (size_t w = 0; t[i].column[c]->kind == EMBED_ENUM && w < t[i].column[c]->n_word;
           w++) {
        char word[100];
        c_word(word, sizeof word, t[i].column[c]->words[w], 0);
        printf("  %s__%s_%s = %zu,\n", t[i].c_name, t[i].column[c]->name, word, w);
      }
    for (size_t c = 0; c < t[i].csv.n_col; c++)
      if (t[i].column[c]->kind == EMBED_FIXED)
        printf("  %s__%s_per = %s,\n", t[i].c_name, t[i].column[c]->name,
               t[i].column[c]->words[0]);
    printf("  %s__n = %zu\n};\n", t[i].c_name, t[i].csv.n_row - 1);
    printf("extern const %s %s[];\n", t[i].row_type, t[i].c_name);
  }
  puts("#endif");
}

/* A number as a short, so many to one; a cell with more decimals than that ends the build. */
static long fixed(const sheet *t, const embed_column *c, size_t row, const char *cell)
{
  double v = number(t, c, row, cell), many = v * strtod(c->words[0], NULL);
  if (isnan(v)) return -32768;
  long whole = (long)(many < 0.0 ? many - 0.5 : many + 0.5);
  if (!(fabs(many) <= 32767.0) || fabs(many - (double)whole) > 1e-6)
    embed_fail(t->csv.path, t->csv.line[row], "%s is '%s', no short of %s to one", c->name,
               cell, c->words[0]);
  return whole;
}

static void put_cell(const sheet *t, size_t row, size_t col)
{
  const embed_column *c = t->column[col];
  const char *cell = cell_of(t, row, col);
  double v;
  switch (c->kind) {
  case EMBED_NUMBER:
    v = number(t, c, row, cell);
    if (isnan(v))
      fputs("NAN", stdout);
    else
      printf("%.17g", v);
    break;
  case EMBED_ENUM:
    printf("%zu", enum_index(t, c, row, cell));
    break;
  case EMBED_TABLE:
    if (*cell)
      printf("&pw_tables[%s]", cell); /* see link_tables */
    else
      fputs("NULL", stdout);
    break;
  case EMBED_ROW:
    fputs(*cell ? cell : "-1", stdout); /* see link_rows */
    break;
  case EMBED_FIXED:
    printf("%ld", fixed(t, c, row, cell));
    break;
  case EMBED_WORD:
  case EMBED_TEXT:
  case EMBED_KEY:
  case EMBED_CHARS:
    embed_put_string(cell, strlen(cell));
    break;
  case EMBED_NOTE:
    return;
  }
  putchar(',');
}

static const sheet *sheet_named(const sheet *t, size_t n, const char *name)
{
  for (size_t i = 0; i < n; i++)
    if (!strcmp(t[i].name, name)) return &t[i];
  return NULL;
}

/* The cells that name a table become its index. */
static void link_tables(sheet *t, size_t n)
{
  for (size_t i = 0; i < n; i++)
    for (size_t c = 0; c < t[i].csv.n_col; c++)
      for (size_t r = 1; t[i].column[c]->kind == EMBED_TABLE && r < t[i].csv.n_row; r++) {
        char **cell = &t[i].csv.cell[r * t[i].csv.n_col + c], *index = embed_alloc(24, 1);
        const sheet *other = sheet_named(t, n, *cell);
        if (**cell && !other)
          embed_fail(t[i].csv.path, t[i].csv.line[r], "no table '%s'", *cell);
        if (**cell) snprintf(index, 24, "%td", other - t);
        *cell = index;
      }
}

/* The row of a key, or the count of rows. */
static size_t row_of_key(const sheet *t, const char *key)
{
  size_t r = 1;
  for (size_t c = 0; c < t->csv.n_col; c++)
    for (r = 1; t->column[c]->kind == EMBED_KEY && r < t->csv.n_row; r++)
      if (!strcmp(cell_of(t, r, c), key)) return r;
  return t->csv.n_row;
}

/* The cells that name a row of another table become its index; keys stay text until all are known. */
static void link_rows(sheet *t, size_t n)
{
  for (size_t i = 0; i < n; i++)
    for (size_t c = 0; c < t[i].csv.n_col; c++)
      for (size_t r = 1; t[i].column[c]->kind == EMBED_ROW && r < t[i].csv.n_row; r++) {
        char **cell = &t[i].csv.cell[r * t[i].csv.n_col + c], *index = embed_alloc(24, 1);
        const sheet *other = sheet_named(t, n, t[i].column[c]->words[0]);
        size_t row = other && **cell ? row_of_key(other, *cell) : 0;
        if (!other || (**cell ? row == other->csv.n_row : !t[i].column[c]->may_be_blank))
          embed_fail(t[i].csv.path, t[i].csv.line[r], "%s '%s' is no row of %s",
                     t[i].column[c]->name, *cell, t[i].column[c]->words[0]);
        if (**cell) snprintf(index, 24, "%zu", row - 1);
        *cell = index;
      }
}

static void put_columns(const sheet *t)
{
  static const char *const kind[] = {
      [EMBED_NUMBER] = "NUMBER", [EMBED_WORD] = "WORD",  [EMBED_KEY] = "WORD",
      [EMBED_TEXT] = "WORD",     [EMBED_ENUM] = "ENUM",  [EMBED_TABLE] = "TABLE",
      [EMBED_ROW] = "ROW",       [EMBED_FIXED] = "FIXED"};
  printf("static const pw_column column_of_%s[] = {\n", t->c_name);
  for (size_t c = 0; c < t->csv.n_col; c++) {
    const embed_column *k = t->column[c];
    char word[100];
    if (k->kind == EMBED_NOTE) continue;
    c_word(word, sizeof word, k->name, 1);
    printf("{\"%s\", PW_COLUMN_%s, %s, offsetof(%s, %s), ", k->name,
           t->room[c] ? "CHARS" : kind[k->kind], k->kind == EMBED_FIXED ? k->words[0] : "1",
           t->row_type, word);
    if (k->kind == EMBED_ROW)
      printf("NULL, \"%s\"},\n", k->words[0]);
    else if (k->kind == EMBED_ENUM) {
      fputs("(const char *const[]){", stdout);
      for (size_t i = 0; i < k->n_word; i++)
        printf("\"%s\", ", k->words[i]);
      puts("NULL}, NULL},");
    } else
      puts("NULL, NULL},");
  }
  puts("};");
}

void embed_tables_source(char *const path[], size_t n_path)
{
  size_t n = 0;
  sheet *t = sheets(path, n_path, &n);
  link_tables(t, n);
  link_rows(t, n);
  puts("#include \"gen/reference.h\"\n#include <math.h>\n#include <stddef.h>");
  for (size_t i = 0; i < n; i++) {
    printf("const %s %s[] = {\n", t[i].row_type, t[i].c_name);
    for (size_t r = 1; r < t[i].csv.n_row; r++) {
      putchar('{');
      for (size_t c = 0; c < t[i].csv.n_col; c++)
        put_cell(&t[i], r, c);
      puts("},");
    }
    puts("};");
    put_columns(&t[i]);
  }
  puts("const pw_table pw_tables[] = {");
  for (size_t i = 0; i < n; i++)
    printf("{\"%s\", %zu, sizeof column_of_%s / sizeof column_of_%s[0], sizeof(%s), "
           "column_of_%s, %s},\n",
           t[i].name, t[i].csv.n_row - 1, t[i].c_name, t[i].c_name, t[i].row_type, t[i].c_name,
           t[i].c_name);
  printf("};\nconst size_t pw_table_count = %zu;\n", n);
}
