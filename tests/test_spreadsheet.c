/* job/: the files as people and spreadsheets write them (spreadsheet_mistakes.h). */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/windows1252.h"
#include "job/csv.h"
#include "job/survey.h"
#include "spreadsheet_mistakes.h"

static char folder[64];

static int make_folder(void **state)
{
  (void)state;
  snprintf(folder, sizeof folder, "/tmp/pw_sheet_XXXXXX");
  return mkdtemp(folder) ? 0 : -1;
}

static const char *const file_name[] = {"openings.csv", "job.csv", "packages.csv"};

static void put(mistake_file file, const char *text)
{
  char path[128];
  snprintf(path, sizeof path, "%s/%s", folder, file_name[file]);
  FILE *f = fopen(path, "wb");
  assert_non_null(f);
  assert_int_equal(fwrite(text, 1, strlen(text), f), strlen(text));
  fclose(f);
}

static int drop_folder(void **state)
{
  char path[128];
  (void)state;
  for (size_t i = 0; i < 3; i++) {
    snprintf(path, sizeof path, "%s/%s", folder, file_name[i]);
    unlink(path);
  }
  return rmdir(folder);
}

/* A cell in quotes, its own doubled, behind what text holds. */
static void add_cell(char text[], size_t size, const char *cell)
{
  size_t n = strlen(text);
  if (n + 2 * strlen(cell) + 3 > size) fail_msg("no room for '%s'", cell);
  text[n++] = '"';
  for (; *cell; cell++) {
    if (*cell == '"') text[n++] = '"';
    text[n++] = *cell;
  }
  text[n++] = '"';
  text[n] = '\0';
}

/* A table of one row in which the column holds the cell; other columns as given. */
static void one_row(const char *const column[][2], size_t n, const mistake *m, char text[],
                    size_t size)
{
  int there = 0;
  text[0] = '\0';
  for (int line = 0; line < 2; line++) {
    for (size_t i = 0; i < n; i++) {
      int mine = strcmp(column[i][0], m->where) == 0;
      there |= mine;
      if (i) strcat(text, ",");
      add_cell(text, size, line == 0 ? column[i][0] : mine ? m->cell : column[i][1]);
    }
    if (!there || line) {
      strcat(text, ",");
      if (!there) add_cell(text, size, line == 0 ? m->where : m->cell);
    }
    strcat(text, "\n");
  }
}

static void put_job(const mistake *m)
{
  static const char *const opening[][2] = {{"tag", "A1"},
                                           {"facing", "S"},
                                           {"operator", "slider"},
                                           {"width_bottom", "47.5"},
                                           {"height_left", "35.5"}};
  static const char *const package[][2] = {{"package", "good"}, {"glass", "3mm clear"}};
  char text[1024];
  const char *where = m->where;
  put(OPENINGS, HEAD "\n" ROW "\n");
  put(JOB, "item,value,note\njob,T,\nclimate,\"Phoenix, AZ\",\n");
  put(PACKAGES, "package,glass\ngood,3mm clear\n");
  if (!where[0]) {
    put(m->file, m->cell);
  } else if (m->file == JOB) {
    strcpy(text, "item,value,note\njob,T,\nclimate,\"Phoenix, AZ\",\n");
    add_cell(text, sizeof text, where);
    strcat(text, ",");
    add_cell(text, sizeof text, m->cell);
    strcat(text, ",\n");
    put(JOB, text);
  } else {
    if (m->file == OPENINGS)
      one_row(opening, 5, m, text, sizeof text);
    else
      one_row(package, 2, m, text, sizeof text);
    put(m->file, text);
  }
}

static size_t n_missed; /* so that one run tells all of them */

static void miss(const mistake *m, const char *got, const char *want)
{
  n_missed++;
  print_error("%s: got '%s', want '%s'\n", m->name, got, want);
}

static void near(const mistake *m, double got)
{
  char text[2][32];
  if (!pw_is_given(m->value) && !pw_is_given(got)) return;
  if (fabs(got - m->value) <= 1e-6 * fabs(m->value)) return;
  snprintf(text[0], sizeof text[0], "%.9g", got);
  snprintf(text[1], sizeof text[1], "%.9g", m->value);
  miss(m, text[0], text[1]);
}

/* Where a column's value is kept. */
typedef enum kept { REAL, WHOLE, TEXT } kept;
typedef struct member {
  const char *name;
  kept kind;
  size_t offset;
} member;

#define OF_OPENING(column, kind, member_)                                                      \
  {                                                                                            \
    column, kind, offsetof(pw_opening, member_)                                                \
  }
#define OF_HOUSE(column, kind, member_)                                                        \
  {                                                                                            \
    column, kind, offsetof(pw_house_facts, member_)                                            \
  }
#define OF_PACKAGE(column, kind, member_)                                                      \
  {                                                                                            \
    column, kind, offsetof(pw_package, member_)                                                \
  }

static const member opening_member[] = {
    OF_OPENING("fin_width", REAL, fin_width),
    OF_OPENING("width_bottom", REAL, width[0]),
    OF_OPENING("near_door", REAL, near_door),
    OF_OPENING("facing", REAL, facing_deg),
    OF_OPENING("shade", REAL, shade_factor),
    OF_OPENING("operator", WHOLE, operator_existing),
    OF_OPENING("fins_cut", WHOLE, fins_cut),
    OF_OPENING("sill_lip_cut", WHOLE, sill_lip_cut),
    OF_OPENING("screen", WHOLE, screen),
    OF_OPENING("quantity", WHOLE, quantity),
    OF_OPENING("use", WHOLE, use),
    OF_OPENING("existing_frame", WHOLE, existing_frame),
    OF_OPENING("config", TEXT, config),
    OF_OPENING("", TEXT, room),
};
static const member house_member[] = {
    OF_HOUSE("floor_area", REAL, floor_area),
    OF_HOUSE("Floor Area", REAL, floor_area),
    OF_HOUSE("FLOOR_AREA", REAL, floor_area),
    OF_HOUSE("bill_year", REAL, bill_year),
    OF_HOUSE("price_electricity", REAL, price[PW_FUEL_ELECTRICITY]),
    OF_HOUSE("price_gas", REAL, price[PW_FUEL_GAS]),
    OF_HOUSE("discount", REAL, discount),
    OF_HOUSE("heat_set", REAL, heat_set_c),
    OF_HOUSE("heating_efficiency", REAL, heating_efficiency),
    OF_HOUSE("cooling_efficiency", REAL, cooling_cop),
    OF_HOUSE("ceiling_height", REAL, ceiling_height),
    OF_HOUSE("elevation", REAL, elevation),
    OF_HOUSE("horizon", REAL, horizon_years),
    OF_HOUSE("wind_pressure", REAL, wind_pressure),
    OF_HOUSE("year_built", WHOLE, year_built),
    OF_HOUSE("state", TEXT, state),
    OF_HOUSE("install_date", TEXT, install_date),
    OF_HOUSE("heating", TEXT, heating_kind),
};
static const member package_member[] = {
    OF_PACKAGE("price_per_opening", REAL, price_per_opening),
    OF_PACKAGE("price_per_area", REAL, price_per_area),
    OF_PACKAGE("label_shgc", REAL, label_shgc),
    OF_PACKAGE("spacer", WHOLE, spacer),
    OF_PACKAGE("frame_line", TEXT, frame_line),
};

static const char *kept_at(const mistake *m, const pw_job *job, kept *kind)
{
  static const struct {
    const member *list;
    size_t n;
  } of[] = {{opening_member, sizeof opening_member / sizeof opening_member[0]},
            {house_member, sizeof house_member / sizeof house_member[0]},
            {package_member, sizeof package_member / sizeof package_member[0]}};
  const char *record[] = {(const char *)job->opening, (const char *)&job->house,
                          (const char *)job->package};
  for (size_t i = 0; i < of[m->file].n; i++)
    if (strcmp(of[m->file].list[i].name, m->where) == 0) {
      *kind = of[m->file].list[i].kind;
      return record[m->file] + of[m->file].list[i].offset;
    }
  fail_msg("%s: the test does not know where %s is kept", m->name, m->where);
  return NULL;
}

static void look_at(const mistake *m, const pw_job *job)
{
  kept kind = REAL;
  double got = 0.0;
  int whole = 0;
  if (m->answer == TAKEN && !m->where[0]) { /* a file: so many openings */
    near(m, (double)job->n_opening);
    pw_assert_near(job->opening[0].width[0], 47.5 * IN, 1e-12, m->name, "the row");
    return;
  }
  if (strcmp(m->where, "existing_glass") == 0) {
    near(m, (double)job->opening[0].existing_glass.n_pane);
    return;
  }
  const char *at = kept_at(m, job, &kind);
  if (kind == TEXT) {
    if (strcmp(at, m->says) != 0) miss(m, at, m->says);
    return;
  }
  if (kind == WHOLE) {
    memcpy(&whole, at, sizeof whole);
    got = whole;
  } else {
    memcpy(&got, at, sizeof got); /* a pw_given begins with its value */
  }
  near(m, got);
}

static int is_noted(const pw_notes *notes, const char *says)
{
  for (size_t i = 0; i < notes->n; i++)
    if (notes->note[i].kind == PW_NOTE_WARNING && strstr(notes->note[i].value, says)) return 1;
  return 0;
}

static void each_mistake_has_its_answer(void **state)
{
  (void)state;
  const size_t n = sizeof mistakes / sizeof mistakes[0];
  assert_true(n >= 150);
  for (size_t i = 0; i < n; i++) {
    const mistake *m = &mistakes[i];
    pw_job job = {0};
    pw_notes notes = {0};
    pw_err err = {0};
    put_job(m);
    pw_status status = pw_job_read(folder, &job, &notes, &err);
    if (m->answer == REFUSED) {
      if (status == PW_OK || !strstr(err.text, m->says) || strchr(err.text, '\n'))
        miss(m, status == PW_OK ? "taken" : err.text, m->says);
    } else {
      if (status != PW_OK)
        miss(m, err.text, "taken");
      else if (m->answer != NOTED)
        look_at(m, &job);
      else if (!is_noted(&notes, m->says))
        miss(m, "not noted", m->says);
    }
    pw_notes_free(&notes);
    pw_job_free(&job);
  }
  assert_int_equal(n_missed, 0);
}

static void names_of_mistakes_stand_once(void **state)
{
  (void)state;
  const size_t n = sizeof mistakes / sizeof mistakes[0];
  for (size_t i = 0; i < n; i++)
    for (size_t k = i + 1; k < n; k++)
      assert_string_not_equal(mistakes[i].name, mistakes[k].name);
}

/* Source: the code page windows-1252, letters that a job may hold; from memory. */
static void windows_1252_becomes_utf8(void **state)
{
  (void)state;
  size_t size = 0, bad = 0;
  char *text = pw_windows1252_to_utf8("\xBD\xB0\x94\x80 a", 6, &size, &bad);
  assert_non_null(text);
  assert_string_equal(text, "\xC2\xBD\xC2\xB0\xE2\x80\x9D\xE2\x82\xAC a");
  assert_int_equal(size, strlen(text));
  free(text);
  assert_null(pw_windows1252_to_utf8("ab\x8D", 3, &size, &bad));
  assert_int_equal(bad, 2);
}

/* A cell of digits, a slash and digits becomes a date when a spreadsheet opens the file. */
static void no_cell_of_the_starter_becomes_a_date(void **state)
{
  (void)state;
  static const char *const file[] = {"examples/starter/openings.csv",
                                     "examples/starter/job.csv",
                                     "examples/starter/packages.csv"};
  for (size_t i = 0; i < 3; i++) {
    pw_csv csv;
    pw_err err = {0};
    if (pw_csv_read(file[i], &csv, &err) != PW_OK) fail_msg("%s", err.text);
    for (size_t c = 0; c < csv.n_cell; c++) {
      const char *cell = csv.cell[c];
      size_t n = strspn(cell, "0123456789");
      if (n && cell[n] == '/' && strspn(cell + n + 1, "0123456789") == strlen(cell + n + 1))
        fail_msg("%s: %s", file[i], cell);
    }
    pw_csv_free(&csv);
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(each_mistake_has_its_answer),
      cmocka_unit_test(names_of_mistakes_stand_once),
      cmocka_unit_test(windows_1252_becomes_utf8),
      cmocka_unit_test(no_cell_of_the_starter_becomes_a_date),
  };
  return cmocka_run_group_tests(tests, make_folder, drop_folder);
}
