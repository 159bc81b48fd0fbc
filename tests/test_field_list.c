/* What `words` tells of the files of a job: out of the readers' tables, so each word that it offers is taken by
 * the reader and none beside is. */
#include "support.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "job/bills_file.h"
#include "job/field_list.h"
#include "job/survey.h"
#include "out/tongue.h"

static job_field_list list[JOB_FILES];

static void every_field_has_one_meaning(void **state)
{
  (void)state;
  job_field_lists(list);
  for (size_t k = 0; k < JOB_FILES; k++) {
    assert_true(list[k].n > 0 && list[k].n <= JOB_FIELDS_MAX);
    assert_int_equal(job_meaning_count(list[k].file), list[k].n);
    for (size_t i = 0; i < list[k].n; i++) {
      const job_meaning *m = job_meaning_of(list[k].file, list[k].field[i].name);
      if (!m) fail_msg("%s %s has no meaning", list[k].file, list[k].field[i].name);
      assert_true(m->says[0] && m->part[0] && !strpbrk(m->says, "\n"));
      for (size_t j = 0; j < i; j++)
        assert_string_not_equal(list[k].field[j].name, list[k].field[i].name);
    }
  }
  const pw_tongue *es;
  assert_true(pw_tongue_find("es", &es));
  for (size_t k = 0; k < JOB_FILES; k++)
    for (size_t i = 0; i < list[k].n; i++) {
      const char *says = job_meaning_of(list[k].file, list[k].field[i].name)->says;
      if (pw_tongue_say(es, says) == says) fail_msg("no Spanish for '%s'", says);
    }
  assert_null(job_meaning_of("openings.csv", "width"));
  assert_null(job_meaning_of("other.csv", "tag"));
  assert_int_equal(job_meaning_count("other.csv"), 0);
}

/* Whether the reader of openings.csv knows the word in that column; it may refuse what goes with it. */
static int is_taken(const char *column, const char *word)
{
  char path[64];
  pw_job job = {0};
  pw_err err = {0};
  snprintf(path, sizeof path, "/tmp/pw_words_%ld.csv", (long)getpid());
  FILE *f = fopen(path, "w");
  assert_non_null(f);
  int twice = strcmp(column, "operator") == 0;
  fprintf(f, "tag,facing,%swidth_bottom,height_left,%s\n1,S,%s36,36,%s\n",
          twice ? "" : "operator,", column, twice ? "" : "fixed,", word);
  assert_int_equal(fclose(f), 0);
  pw_status status = pw_openings_read(path, &job, NULL, &err);
  remove(path);
  pw_job_free(&job);
  if (status == PW_OK) return 1;
  char named[64];
  snprintf(named, sizeof named,
           " %s: ", column); /* "file:line:column: 1 operator: found; want" */
  int unknown = strstr(err.text, "is not known") || strstr(err.text, "want");
  return !(unknown && strstr(err.text, named)); /* "give operator_insert" knows the jalousie */
}

static void words_are_those_that_are_taken(void **state)
{
  (void)state;
  size_t n = 0;
  job_field_lists(list);
  const job_field_list *o = &list[1];
  assert_string_equal(o->file, "openings.csv");
  for (size_t i = 0; i < o->n; i++) {
    const job_field *f = &o->field[i];
    const job_meaning *m = job_meaning_of(o->file, f->name);
    char words[400] = "";
    if (m->words) snprintf(words, sizeof words, "%s", m->words);
    if (f->kind == JOB_FLAG) snprintf(words, sizeof words, "yes, no");
    for (char *word = strtok(words, ", "); word; word = strtok(NULL, ", "), n++)
      if (!is_taken(f->name, word)) fail_msg("%s does not take %s", f->name, word);
    for (size_t k = 0; k < f->n_word && !m->words; k++, n++)
      if (!is_taken(f->name, f->word[k].word))
        fail_msg("%s does not take %s", f->name, f->word[k].word);
    if ((m->words || f->n_word || f->kind == JOB_FLAG) && is_taken(f->name, "zzz"))
      fail_msg("%s takes zzz", f->name);
  }
  assert_true(n > 100);
}

/* A row with each column that is told is read without a note of an unknown one. */
static void columns_of_bills_are_those_that_are_read(void **state)
{
  (void)state;
  char text[400] = "", row[400] = "";
  job_field_lists(list);
  const job_field_list *b = &list[JOB_FILES - 1];
  assert_string_equal(b->file, "bills.csv");
  for (size_t i = 0; i < b->n; i++) {
    const char *name = b->field[i].name, *cell = strcmp(name, "heat_factor") ? "" : "1.03";
    for (size_t k = 0; k < (b->field[i].n_word ? b->field[i].n_word : 1); k++) {
      pw_bills bills;
      pw_notes notes = {0};
      pw_err err = {0};
      if (b->field[i].n_word) cell = b->field[i].word[k].word;
      int fuel = strcmp(name, "fuel") == 0, gas = strcmp(name, "heat_factor") == 0,
          there = strstr("from to amount", name) != NULL;
      snprintf(text, sizeof text, "from,to,amount,%s%s\n2021-02-09,2021-03-10,%s,%s%s\n",
               fuel ? "" : "fuel,", there ? "note" : name, gas ? "55.8 ccf" : "55.8",
               fuel  ? ""
               : gas ? "gas,"
                     : "electricity,",
               cell);
      pw_status status = pw_bills_parse("bills.csv", text, strlen(text), &bills, &notes, &err);
      if (status != PW_OK) fail_msg("%s: %s", text, err.text);
      for (size_t j = 0; j < notes.n; j++)
        assert_null(strstr(notes.note[j].value, "not known"));
      pw_bills_free(&bills);
      pw_notes_free(&notes);
    }
    snprintf(row + strlen(row), sizeof row - strlen(row), "%s%s", i ? "," : "", name);
  }
  assert_string_equal(row, "fuel,from,to,amount,unit,cost,read,generation,heat_factor,house");
}

int main(void)
{
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(every_field_has_one_meaning),
      cmocka_unit_test(words_are_those_that_are_taken),
      cmocka_unit_test(columns_of_bills_are_those_that_are_read),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
