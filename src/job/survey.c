#include "job/survey.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "base/nearest.h"
#include "job/dwelling.h"
#include "job/input_text.h"
#include "job/inputs.h"
#include "panewright/fit.h"
#include "window/opening_package.h"

enum { NAMES_MAX = 64 };

/* A window that does not say its covering has the house's, and a house that does not say it what is usual: as far as a
 * survey's houses have any. */
static void cover_windows(pw_job *job)
{
  for (size_t i = 0; i < job->n_opening; i++) {
    pw_opening *o = &job->opening[i];
    if (o->covering != PW_COVERING_BLANK) continue;
    o->covering = job->house.covering;
    o->covering_of_all = 1;
  }
}

/* A package may name its frame line in letters of either case. */
static void spell_lines(pw_job *job)
{
  for (size_t p = 0; p < job->n_package; p++) {
    pw_package *package = &job->package[p];
    const char *alike = NULL;
    for (size_t i = 0; i < job->n_frame_line; i++) {
      const char *name = job->frame_line[i].name;
      if (strcmp(name, package->frame_line) == 0) {
        alike = NULL;
        break;
      }
      if (pw_edit_distance(name, package->frame_line) == 0) alike = name;
    }
    if (alike) snprintf(package->frame_line, sizeof package->frame_line, "%s", alike);
  }
}

/* The packages that openings name as their own. */
static pw_status find_own_packages(pw_job *job, pw_err *err)
{
  for (size_t i = 0; i < job->n_opening; i++) {
    pw_opening *o = &job->opening[i];
    pw_err why = {0};
    size_t row = 0;
    if (!o->package[0]) continue;
    if (pw_job_package_named(job, o->package, &row, &why) != PW_OK)
      return pw_fail_at(err, PW_E_DATA, "openings.csv", o->line, o->package_column,
                        "%s package: %s", o->tag, why.text);
    o->own_package = row + 1;
  }
  return PW_OK;
}

/* Each opening's glass must take the opening's tint, pattern and bars, with each package that it may get. */
static pw_status check_options(const pw_job *job, pw_err *err)
{
  for (size_t i = 0; i < job->n_opening; i++)
    for (size_t p = 0; p < job->n_package; p++) {
      const pw_opening *o = &job->opening[i];
      pw_err why = {0};
      if (o->standing == PW_STAYS || pw_opening_package_check(job, p, o, &why) == PW_OK)
        continue;
      int column = strcmp(why.field, "tint") == 0      ? o->option.tint_column
                   : strcmp(why.field, "pattern") == 0 ? o->option.pattern_column
                                                       : o->option.grilles_column;
      return pw_fail_at(err, PW_E_DATA, "openings.csv", o->line, column,
                        "%s %s with package %s: %s", o->tag, why.field,
                        job->package[pw_opening_package_row(o, p)].name, why.text);
    }
  return PW_OK;
}

/* Each package's frame line must have a row for each opening's insert. */
static pw_status check_lines(const pw_job *job, pw_err *err)
{
  for (size_t p = 0; p < job->n_package; p++) {
    const pw_package *package = &job->package[p];
    const char *known[NAMES_MAX];
    size_t n_known = 0;
    int named = 0;
    for (size_t i = 0; i < job->n_frame_line; i++) {
      if (strcmp(job->frame_line[i].name, package->frame_line) == 0) named = 1;
      if (n_known < NAMES_MAX) known[n_known++] = job->frame_line[i].name;
    }
    const char *near = pw_nearest(package->frame_line, known, n_known);
    if (!named)
      return pw_fail_at(err, PW_E_DATA, "packages.csv", package->line, 0,
                        "%s: no frame line is named '%s'; %s %s%s", package->name,
                        package->frame_line, near ? "did you mean" : "there is",
                        near ? near : known[0], near ? "?" : "");
    for (size_t o = 0; o < job->n_opening; o++)
      if (job->opening[o].standing != PW_STAYS &&
          !pw_frame_line_pick(job->frame_line, job->n_frame_line, package->frame_line,
                              job->opening[o].operator_insert))
        return pw_fail_at(err, PW_E_DATA, "packages.csv", package->line, 0,
                          "%s: the frame line %s has no row for a %s (%s) and none for any",
                          package->name, package->frame_line,
                          pw_operator_name(job->opening[o].operator_insert),
                          job->opening[o].tag);
  }
  return PW_OK;
}

/* Every insert of every package must leave glass, so that nothing after this can fail for it. */
static pw_status check_fits(const pw_job *job, pw_err *err)
{
  for (size_t o = 0; o < job->n_opening; o++)
    for (size_t p = 0; p < job->n_package; p++) {
      const pw_opening *opening = &job->opening[o];
      pw_err why = {0};
      pw_fit fit;
      if (pw_fit_opening(opening, pw_opening_fit_line(job, p, opening), &fit, &why) != PW_OK)
        return pw_fail_at(err, PW_E_DATA, "openings.csv", opening->line, 0,
                          "%s %s: %s (package %s)", opening->tag, why.field ? why.field : "",
                          why.text, job->package[pw_opening_package_row(opening, p)].name);
    }
  return PW_OK;
}

/* A file named in the job stands in its folder: the name becomes its path. Other words, and paths
 * that are too long to keep, stay. Whatever file it is, the run must not write onto it. */
static pw_status find_beside(const char *dir, char *name, size_t size, pw_err *err)
{
  char path[PW_INPUT_PATH];
  struct stat there;
  if (!name[0]) return PW_OK;
  if (name[0] != '/' && pw_input_path(dir, name, path, NULL) == PW_OK && strlen(path) < size &&
      stat(path, &there) == 0 && S_ISREG(there.st_mode))
    memcpy(name, path, strlen(path) + 1);
  return pw_inputs_note_path(name, err);
}

static pw_status find_files(const char *dir, pw_job *job, pw_err *err)
{
  pw_house_facts *house = &job->house;
  pw_status status = find_beside(dir, house->climate, sizeof house->climate, err);
  if (status == PW_OK) status = find_beside(dir, house->tariff, sizeof house->tariff, err);
  for (size_t i = 0; status == PW_OK && i < job->n_opening; i++)
    status = find_beside(dir, job->opening[i].existing_section, PW_TEXT_MAX, err);
  for (size_t i = 0; i < job->n_frame_line; i++) {
    pw_frame_line *l = &job->frame_line[i];
    char *const section[] = {l->section_sill, l->section_head, l->section_jamb,
                             l->section_meeting};
    for (size_t k = 0; status == PW_OK && k < sizeof section / sizeof section[0]; k++)
      status = find_beside(dir, section[k], PW_TEXT_MAX, err);
  }
  return status;
}

/* Where a file of the firm is: in the folder, else where job.csv says; path "" when it is nowhere. */
static pw_status find_shared(const char *dir, const char *name, const char *item,
                             const char *named, char path[PW_INPUT_PATH], int *shared,
                             pw_err *err)
{
  struct stat there;
  *shared = 0;
  pw_status status = pw_input_path(dir, name, path, err);
  if (status != PW_OK || stat(path, &there) == 0) return status;
  path[0] = '\0';
  if (!named[0]) return PW_OK;
  *shared = 1;
  status = named[0] == '/' ? PW_OK : pw_input_path(dir, named, path, err);
  if (named[0] == '/') snprintf(path, PW_INPUT_PATH, "%s", named);
  if (status == PW_OK && (stat(path, &there) != 0 || !S_ISREG(there.st_mode)))
    return pw_fail(err, PW_E_MISSING, NULL, "job.csv: %s: there is no file %.200s", item, path);
  return status;
}

/* The files that may stand beside the others: labels, prices, what the firm writes on papers. */
static pw_status read_more(const char *dir, pw_job *job, pw_notes *notes, pw_err *err)
{
  char path[PW_INPUT_PATH];
  int shared = 0;
  pw_status status = find_shared(dir, "labels.csv", "", "", path, &shared, err);
  if (status == PW_OK) status = pw_labels_read(path[0] ? path : NULL, job, notes, err);
  if (status == PW_OK)
    status = find_shared(dir, "prices.csv", "prices_file", job->house.prices_file, path,
                         &shared, err);
  if (status == PW_OK) status = pw_prices_read(path[0] ? path : NULL, shared, job, notes, err);
  if (status == PW_OK)
    status =
        find_shared(dir, "firm.csv", "firm_file", job->house.firm_file, path, &shared, err);
  if (status == PW_OK) status = pw_firm_read(path[0] ? path : NULL, job, notes, err);
  return status;
}

static pw_status read_files(const char *dir, pw_job *job, pw_notes *notes, pw_err *err)
{
  static const struct {
    const char *name;
    pw_status (*read)(const char *path, pw_job *job, pw_notes *notes, pw_err *err);
  } file[] = {{"job.csv", pw_house_read},
              {"openings.csv", pw_openings_read},
              {"packages.csv", pw_packages_read}};
  char path[PW_INPUT_PATH];
  struct stat there;
  if (stat(dir, &there) != 0)
    return pw_fail(err, PW_E_MISSING, NULL, "%s: %s", dir, strerror(errno));
  if (!S_ISDIR(there.st_mode))
    return pw_fail(err, PW_E_MISSING, NULL,
                   "%s: a job is a folder with job.csv, openings.csv and "
                   "packages.csv (panewright new DIR makes one)",
                   dir);
  for (size_t i = 0; i < sizeof file / sizeof file[0]; i++) {
    pw_status status = pw_input_path(dir, file[i].name, path, err);
    if (status == PW_OK) status = file[i].read(path, job, notes, err);
    if (status != PW_OK) return status;
  }
  pw_status status = pw_input_path(dir, "frame_lines.csv", path, err);
  if (status == PW_OK)
    status = pw_frame_lines_read(stat(path, &there) == 0 ? path : NULL, job, notes, err);
  if (status != PW_OK) return status;
  status = find_files(dir, job, err);
  if (status == PW_OK) cover_windows(job);
  if (status == PW_OK) spell_lines(job);
  if (status == PW_OK) status = find_own_packages(job, err);
  if (status == PW_OK) status = check_options(job, err);
  if (status == PW_OK) status = read_more(dir, job, notes, err);
  if (status == PW_OK) status = check_lines(job, err);
  if (status == PW_OK) status = check_fits(job, err);
  return status;
}

pw_status pw_job_read_dwelling(const char *dir, const char *dwelling, pw_job *job,
                               pw_notes *notes, pw_err *err)
{
  pw_dwellings list;
  memset(job, 0, sizeof *job);
  pw_status status = pw_dwellings_list(dir, &list, err);
  if (status == PW_OK) status = pw_dwelling_pick(&list, dwelling, job->dwelling, err);
  if (status == PW_OK) status = read_files(dir, job, notes, err);
  if (status != PW_OK) pw_job_free(job);
  return status;
}

pw_status pw_job_read(const char *dir, pw_job *job, pw_notes *notes, pw_err *err)
{
  return pw_job_read_dwelling(dir, NULL, job, notes, err);
}

void pw_job_free(pw_job *job)
{
  if (!job) return;
  free(job->opening);
  free(job->package);
  free(job->frame_line);
  free(job->label);
  free(job->price);
  memset(job, 0, sizeof *job);
}

static pw_status none_of_that_name(const pw_job *job, const char *name, pw_err *err)
{
  const char *known[NAMES_MAX];
  char list[200] = "";
  size_t n = 0, have = 0;
  for (; n < job->n_package && n < NAMES_MAX; n++) {
    known[n] = job->package[n].name;
    if (have + 1 < sizeof list)
      have +=
          (size_t)snprintf(list + have, sizeof list - have, "%s%s", n ? ", " : "", known[n]);
  }
  const char *near = pw_nearest(name, known, n);
  if (near)
    return pw_fail(err, PW_E_DATA, "package",
                   "no package is named '%.48s' in packages.csv; did you mean %s?", name, near);
  return pw_fail(err, PW_E_DATA, "package",
                 "no package is named '%.48s' in packages.csv, which has %s", name, list);
}

pw_status pw_job_package_named(const pw_job *job, const char *name, size_t *row, pw_err *err)
{
  size_t alike = 0;
  for (size_t p = 0; p < job->n_package; p++) {
    if (strcmp(job->package[p].name, name) == 0) {
      *row = p;
      return PW_OK;
    }
    if (pw_edit_distance(job->package[p].name, name) != 0)
      continue; /* letters of either case */
    alike++;
    *row = p;
  }
  return alike == 1 ? PW_OK : none_of_that_name(job, name, err);
}
