#include "out/field_list_out.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "out/json.h"

static const char *kind(const job_field *f)
{
  static const char *const name[] = {
      [JOB_TEXT] = "text",    [JOB_LENGTH] = "length",   [JOB_NUMBER] = "number",
      [JOB_GIVEN] = "number", [JOB_INTEGER] = "integer", [JOB_FLAG] = "yes_no",
      [JOB_WORD] = "word",    [JOB_CHOICE] = "word",     [JOB_BEARING] = "facing",
      [JOB_DATE] = "date",
  };
  return name[f->kind];
}

static int has_range(const job_field *f)
{
  return f->kind == JOB_LENGTH || f->kind == JOB_NUMBER || f->kind == JOB_GIVEN ||
         f->kind == JOB_INTEGER;
}

static void add_word(json_t *words, const char *word, size_t size)
{
  json_array_append_new(words, json_pack("{s:s%,s:[]}", "word", word, size, "also"));
}

/* "yes, no, cannot" as words. */
static void split_words(const char *list, json_t *words)
{
  for (const char *at = list; *at;) {
    size_t n = strcspn(at, ",");
    add_word(words, at, n);
    at += n;
    at += strspn(at, ", ");
  }
}

static json_t *words_of(const job_field *f, const char *list)
{
  json_t *words = json_array();
  if (list) split_words(list, words);
  if (f->kind == JOB_FLAG) split_words(f->low == -1.0 ? "yes, no, unknown" : "yes, no", words);
  for (size_t i = 0; !list && i < f->n_word; i++) {
    json_t *last = json_array_get(words, json_array_size(words) - 1);
    if (i > 0 && f->word[i].meaning == f->word[i - 1].meaning)
      json_array_append_new(json_object_get(last, "also"), json_string(f->word[i].word));
    else
      add_word(words, f->word[i].word, strlen(f->word[i].word));
  }
  return words;
}

static const char *says(const job_meaning *m, const pw_tongue *tongue)
{
  return m ? pw_tongue_say(tongue, m->says) : "";
}

static json_t *field_json(const char *file, const job_field *f, const pw_tongue *tongue)
{
  const job_meaning *m = job_meaning_of(file, f->name);
  json_t *o = json_object(), *units = json_array();
  for (size_t i = 0; i < f->n_unit; i++)
    json_array_append_new(units, json_string(f->unit[i].word));
  pw_json_set_text(o, "name", f->name);
  pw_json_set_text(o, "part", m ? m->part : "");
  pw_json_set_text(o, "says", says(m, tongue));
  pw_json_set_text(o, "kind", kind(f));
  json_object_set_new(o, "required", json_boolean(f->blank == NULL));
  pw_json_set_text(o, "blank", f->blank ? f->blank : "");
  pw_json_set_text(o, "why", f->why ? f->why : "");
  json_object_set_new(o, "words", words_of(f, m ? m->words : NULL));
  json_object_set_new(o, "units", units);
  pw_json_set(o, "low", has_range(f) ? f->low : (double)NAN);
  pw_json_set(o, "high", has_range(f) ? f->high : (double)NAN);
  json_object_set_new(o, "spread", json_boolean(f->kind == JOB_GIVEN));
  return o;
}

static pw_status print_json(const job_field_list list[], size_t n, FILE *f,
                            const pw_tongue *tongue, pw_err *err)
{
  json_t *files = json_array(), *root = json_object();
  for (size_t k = 0; k < n; k++) {
    json_t *file = json_object(), *fields = json_array();
    for (size_t i = 0; i < list[k].n; i++)
      json_array_append_new(fields, field_json(list[k].file, &list[k].field[i], tongue));
    pw_json_set_text(file, "file", list[k].file);
    json_object_set_new(file, "items", json_boolean(list[k].items));
    json_object_set_new(file, "fields", fields);
    json_array_append_new(files, file);
  }
  json_object_set_new(root, "files", files);
  return pw_json_print(root, f, err);
}

pw_status pw_field_list_print(const job_field_list list[], size_t n, FILE *f, pw_format format,
                              const pw_tongue *tongue, pw_err *err)
{
  if (format == PW_JSON) return print_json(list, n, f, tongue, err);
  pw_grid *grid =
      pw_grid_new(5, (const char *const[]){"<file", "<name", "<kind", "<blank", "<meaning"});
  for (size_t k = 0; k < n; k++)
    for (size_t i = 0; i < list[k].n; i++) {
      const job_field *field = &list[k].field[i];
      const job_meaning *m = job_meaning_of(list[k].file, field->name);
      pw_grid_cell(grid, "%s", list[k].file);
      pw_grid_cell(grid, "%s", field->name);
      pw_grid_cell(grid, "%s", kind(field));
      pw_grid_cell(grid, "%s", field->blank ? field->blank : "(must be there)");
      pw_grid_cell(grid, "%s", says(m, tongue));
    }
  pw_status status = pw_grid_print(grid, f, format, err);
  pw_grid_free(grid);
  return status;
}
