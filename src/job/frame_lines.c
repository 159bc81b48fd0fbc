/* frame_lines.csv: the insert maker's sight lines, in place of the built-in ones. */
#include <stdlib.h>
#include <string.h>

#include "job/survey.h"
#include "job/words.h"
#include "panewright/lites.h"
#include "panewright/units.h"

#define AT(member) .offset = offsetof(pw_frame_line, member)
#define FACE(name_, member, default_, said)                                                    \
  {                                                                                            \
    .name = name_, .kind = JOB_LENGTH, AT(member), .low = 0.25 * PW_INCH,                      \
    .high = 8.0 * PW_INCH, .blank = default_, .why = said                                      \
  }
#define SECTION(name_, member)                                                                 \
  {                                                                                            \
    .name = name_, .kind = JOB_TEXT, AT(member), .size = PW_TEXT_MAX, .blank = ""              \
  }

enum { COLUMNS_MAX = 20 };

static size_t columns(job_field f[])
{
  const job_field table[] = {
      {.name = "frame_line", .kind = JOB_TEXT, AT(name), .size = PW_NAME_MAX},
      {.name = "kind",
       .kind = JOB_WORD,
       AT(kind),
       .blank = "vinyl",
       .why = "",
       .word = job_frame_word,
       .n_word = job_frame_words},
      {.name = "operator",
       .kind = JOB_WORD,
       AT(operator_),
       .blank = "any",
       .why = "",
       .word = job_operator_word,
       .n_word = job_operator_words_any},
      FACE("frame_face", frame_face, NULL, NULL),
      FACE("sash_face", sash_face, NULL, NULL),
      FACE("meeting_face", meeting_face, "1 3/4", "table measure F3"),
      {.name = "frame_u",
       .kind = JOB_GIVEN,
       AT(frame_u),
       .low = 0.5,
       .high = 15.0,
       .blank = "",
       .why = "by frame kind",
       .unit = job_u_value,
       .n_unit = 4},
      SECTION("section_sill", section_sill),
      SECTION("section_head", section_head),
      SECTION("section_jamb", section_jamb),
      SECTION("section_meeting", section_meeting),
      {.name = "sections_hold_ring",
       .kind = JOB_FLAG,
       AT(sections_hold_ring),
       .blank = "yes",
       .why = "drawn with the retained frame round them"},
      {.name = "clearance",
       .kind = JOB_LENGTH,
       AT(clearance),
       .low = 0.125 * PW_INCH,
       .high = 2.0 * PW_INCH,
       .blank = "3/8",
       .why = "in all, table measure M9 M10"},
      {.name = "bite_max",
       .kind = JOB_LENGTH,
       AT(bite_max),
       .low = 0.125 * PW_INCH,
       .high = 2.0 * PW_INCH,
       .blank = "1/2",
       .why = "table measure F11"},
      {.name = "absorptance",
       .kind = JOB_NUMBER,
       AT(absorptance),
       .low = 0.0,
       .high = 1.0,
       .blank = "0.3",
       .why = "light colour",
       .unit = job_share,
       .n_unit = 2},
      {.name = "note", .kind = JOB_TEXT, .offset = 0, .size = 0, .blank = ""},
  };
  memcpy(f, table, sizeof table);
  return JOB_COUNT(table);
}

/* Appends the built-in lines whose names the file does not use; *n rows so far. */
static pw_status add_built_in(pw_frame_line **line, size_t *n, pw_err *err)
{
  size_t own = *n, more = pw_frame_line_count();
  pw_frame_line *all = realloc(*line, (own + more + 1) * sizeof *all);
  if (!all) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the frame lines");
  *line = all;
  for (size_t i = 0; i < more; i++) {
    int taken = 0;
    pw_frame_line_builtin(i, &all[*n]);
    for (size_t k = 0; k < own && !taken; k++)
      taken = strcmp(all[k].name, all[*n].name) == 0;
    if (!taken) (*n)++;
  }
  return PW_OK;
}

static pw_status read_rows(const pw_csv *csv, pw_frame_line line[], pw_notes *notes,
                           pw_err *err)
{
  job_field f[COLUMNS_MAX];
  int index[COLUMNS_MAX];
  size_t n = columns(f);
  pw_status status = job_fields_bind(f, n, csv, index, notes, err);
  for (size_t r = 0; r < csv->n_row && status == PW_OK; r++) {
    const char *name = pw_csv_at(csv, r, index[0]);
    pw_frame_line_init(&line[r]);
    status =
        job_row_read(f, n - 1, csv, r, index, name, &line[r], notes, err); /* not the note */
    if (status != PW_OK) break;
    line[r].line = csv->line[r + 1];
    for (size_t i = 0; i < r; i++)
      if (strcmp(line[i].name, name) == 0 && line[i].operator_ == line[r].operator_)
        return pw_fail_at(err, PW_E_DATA, csv->name, line[r].line, 1,
                          "%s for %s stands already in line %d", name,
                          pw_operator_name(line[r].operator_), line[i].line);
  }
  return status;
}

static pw_status read_file(const char *path, pw_frame_line **line, size_t *n, pw_notes *notes,
                           pw_err *err)
{
  pw_csv csv;
  pw_status status = pw_csv_read(path, &csv, err);
  if (status != PW_OK) return status;
  *n = csv.n_row;
  *line = calloc(csv.n_row + 1, sizeof **line);
  if (!*line)
    status = pw_fail(err, PW_E_NOMEM, NULL, "%s: no memory", csv.name);
  else
    status = read_rows(&csv, *line, notes, err);
  if (status == PW_OK && csv.n_row == 0)
    status = pw_fail_at(err, PW_E_DATA, csv.name, csv.line[0], 0, "no frame line in the file");
  pw_csv_free(&csv);
  return status;
}

pw_status pw_frame_lines_read(const char *path, pw_job *job, pw_notes *notes, pw_err *err)
{
  pw_frame_line *line = NULL;
  size_t n = 0;
  pw_status status = path ? read_file(path, &line, &n, notes, err) : PW_OK;
  if (status == PW_OK) status = add_built_in(&line, &n, err);
  if (status != PW_OK) {
    free(line);
    return status;
  }
  free(job->frame_line);
  job->frame_line = line;
  job->n_frame_line = n;
  return PW_OK;
}
