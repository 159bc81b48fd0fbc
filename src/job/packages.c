/* packages.csv: a row a glazing package on offer. */
#include <stdlib.h>
#include <string.h>

#include "job/field_list.h"
#include "job/survey.h"
#include "job/words.h"
#include "panewright/glazing.h"
#include "panewright/units.h"

#define CFM_FT2 (0.3048 / 60.0) /* m3/(s m2) in one cfm/ft2 */

#define AT(member) .offset = offsetof(pw_package, member)
#define TEXT(name_, member, default_, said)                                                    \
  JOB_TEXT_AT(pw_package, name_, member, default_, said)
#define GIVEN(name_, member, units, n, low_, high_)                                            \
  {                                                                                            \
    .name = name_, .kind = JOB_GIVEN, AT(member), .low = low_, .high = high_, .blank = "",     \
    .unit = units, .n_unit = n                                                                 \
  }

static const pw_unit_word leakage[] = {{"cfm/ft2", CFM_FT2, 0}, {"m3/hm2", 1.0 / 3600.0, 0}};
static const pw_unit_word decibel[] = {{"dB", 1, 0}};
static const pw_unit_word money[] = {{"$", 1, 0}};
static const pw_unit_word per_area[] = {{"$/ft2", 1.0 / PW_FOOT2, 0}, {"$/m2", 1, 0}};
static const job_word filling[] = {{"foam", 0}, {"air", 1}, {"none", 1}};

enum { PACKAGE, GLASS, COLUMNS_MAX = 24 };

static size_t columns(job_field f[])
{
  const job_field table[] = {
      TEXT("package", name, NULL, NULL),
      TEXT("glass", glass_text, NULL, NULL),
      {.name = "spacer",
       .kind = JOB_WORD,
       AT(spacer),
       .blank = "metal",
       .why = "the coldest edge",
       .word = job_spacer_word,
       .n_word = job_spacer_words},
      TEXT("frame_line", frame_line, "vinyl", "built in"),
      GIVEN("label_u", label_u, job_u_value, 4, 0.28, 8.6),
      GIVEN("label_shgc", label_shgc, job_share, 2, 0.0, 1.0),
      GIVEN("label_vt", label_vt, job_share, 2, 0.0, 1.0),
      GIVEN("label_air_leakage", label_air_leakage, leakage, 2, 0.0, 3.0 * CFM_FT2),
      GIVEN("label_rw", label_rw, decibel, 1, 15.0, 70.0),
      GIVEN("label_ctr", label_ctr, decibel, 1, -20.0, 5.0),
      GIVEN("label_stc", label_stc, decibel, 1, 15.0, 70.0),
      GIVEN("label_oitc", label_oitc, decibel, 1, 10.0, 70.0),
      TEXT("certificate", certificate, "", NULL),
      GIVEN("price_per_opening", price_per_opening, money, 1, 0.0, 1e5),
      GIVEN("price_per_area", price_per_area, per_area, 2, 0.0, 1e5),
      {.name = "filling",
       .kind = JOB_CHOICE,
       AT(filling),
       .size = sizeof((pw_package *)0)->filling,
       .blank = "foam",
       .why = "behind the insert",
       .word = filling,
       .n_word = JOB_COUNT(filling)},
      {.name = "open_tubes", .kind = JOB_FLAG, AT(open_tubes), .blank = "no", .why = ""},
      TEXT("note", note, "", NULL),
  };
  memcpy(f, table, sizeof table);
  return JOB_COUNT(table);
}

/* Open tubes let the gas go: the unit is reckoned with air (safety.csv AL2). */
static void lose_gas(pw_package *p)
{
  for (size_t i = 0; i + 1 < p->glass.n_pane; i++)
    p->glass.gap[i].mix = (pw_mix){0};
}

static pw_status finish_row(pw_package *p, const pw_csv *csv, size_t r, const int index[],
                            pw_notes *notes, pw_err *err)
{
  pw_err why = {0};
  int line = csv->line[r + 1];
  p->line = line;
  if (pw_buildup_parse(p->glass_text, &p->glass, &why) != PW_OK)
    return pw_fail_at(err, PW_E_DATA, csv->name, line, index[GLASS] + 1, "%s glass: %s",
                      p->name, why.text);
  if (p->open_tubes) {
    lose_gas(p);
    pw_notes_warn(notes, csv->name, line, "%s: open tubes lose the gas, reckoned with air",
                  p->name);
  }
  int label =
      pw_given_is(&p->label_u) || pw_given_is(&p->label_shgc) || pw_given_is(&p->label_vt);
  pw_given *const from_label[] = {&p->label_u, &p->label_shgc, &p->label_vt,
                                  &p->label_air_leakage};
  for (size_t i = 0; i < JOB_COUNT(from_label); i++)
    if (pw_given_is(from_label[i])) from_label[i]->origin = PW_ORIGIN_LABEL;
  if (label && !p->certificate[0])
    pw_notes_warn(notes, csv->name, line, "%s has label values but no certificate number",
                  p->name);
  if (!pw_given_is(&p->price_per_opening) && !pw_given_is(&p->price_per_area))
    pw_notes_warn(notes, csv->name, line, "%s has no price; no payback can be reckoned",
                  p->name);
  return PW_OK;
}

static pw_status same_name(const pw_csv *csv, size_t r, const pw_package p[], size_t n,
                           const char *name, pw_err *err)
{
  for (size_t i = 0; i < n; i++)
    if (strcmp(p[i].name, name) == 0)
      return pw_fail_at(err, PW_E_DATA, csv->name, csv->line[r + 1], 1,
                        "the package %s stands already in line %d", name, p[i].line);
  return PW_OK;
}

pw_status pw_packages_read(const char *path, pw_job *job, pw_notes *notes, pw_err *err)
{
  job_field f[COLUMNS_MAX];
  int index[COLUMNS_MAX];
  size_t n = columns(f), done = 0;
  pw_csv csv;
  pw_status status = pw_csv_read(path, &csv, err);
  if (status != PW_OK) return status;
  csv.is_order = 1;
  status = job_fields_bind(f, n, &csv, index, notes, err);
  pw_package *p = calloc(csv.n_row ? csv.n_row : 1, sizeof *p);
  if (!p) status = pw_fail(err, PW_E_NOMEM, NULL, "%s: no memory", csv.name);
  for (; done < csv.n_row && status == PW_OK; done++) {
    pw_package_init(&p[done]);
    const char *name = pw_csv_at(&csv, done, index[PACKAGE]);
    status = same_name(&csv, done, p, done, name, err);
    if (status == PW_OK)
      status = job_row_read(f, n, &csv, done, index, name, &p[done], notes, err);
    if (status == PW_OK) status = finish_row(&p[done], &csv, done, index, notes, err);
  }
  if (status == PW_OK && done == 0)
    status = pw_fail_at(err, PW_E_DATA, csv.name, csv.line[0], 0, "no package in the file");
  pw_csv_free(&csv);
  if (status != PW_OK) {
    free(p);
    return status;
  }
  free(job->package);
  job->package = p;
  job->n_package = done;
  return PW_OK;
}

size_t job_packages_fields(job_field f[]) { return columns(f); }
