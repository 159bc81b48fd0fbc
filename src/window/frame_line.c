#include "panewright/frame_line.h"

#include <stdio.h>
#include <string.h>

#include "panewright/table.h"
#include "panewright/units.h"

static const char table_name[] = "frame_lines";

/* Words of the table; the readers take more spellings. */
static const char *const kind_word[PW_FRAME_KIND_COUNT] = {"aluminium", "aluminium_break",
                                                           "wood", "vinyl", "fibreglass"};
static const char *const operator_word[PW_OPERATOR_COUNT] = {
    "fixed",    "slider", "single_hung", "double_hung",
    "casement", "awning", "flanker",     "sliding_door"};

static size_t index_of(const char *word, const char *const known[], size_t n)
{
  size_t i = 0;
  while (i < n && strcmp(word, known[i]) != 0)
    i++;
  return i;
}

size_t pw_frame_line_count(void)
{
  const pw_table *table = pw_table_find(table_name);
  return table ? table->n_row : 0;
}

static double inches(const pw_table *table, size_t row, const char *column)
{
  return pw_table_number(table, row, pw_table_column(table, column)) * PW_INCH;
}

void pw_frame_line_builtin(size_t i, pw_frame_line *line)
{
  const pw_table *table = pw_table_find(table_name);
  *line = (pw_frame_line){.operator_ = PW_OPERATOR_COUNT};
  if (!table || i >= table->n_row) return;
  snprintf(line->name, sizeof line->name, "%s",
           pw_table_text(table, i, pw_table_column(table, "name")));
  size_t kind = index_of(pw_table_text(table, i, pw_table_column(table, "kind")), kind_word,
                         PW_FRAME_KIND_COUNT);
  line->kind = kind < PW_FRAME_KIND_COUNT ? (pw_frame_kind)kind : PW_FRAME_VINYL;
  line->operator_ =
      (pw_operator)index_of(pw_table_text(table, i, pw_table_column(table, "operator")),
                            operator_word, PW_OPERATOR_COUNT); /* "any" gives the count */
  line->frame_face = inches(table, i, "frame_face_in");
  line->sash_face = inches(table, i, "sash_face_in");
  line->meeting_face = inches(table, i, "meeting_face_in");
  line->clearance = inches(table, i, "clearance_in");
  line->bite_max = inches(table, i, "bite_max_in");
  line->absorptance = pw_table_number(table, i, pw_table_column(table, "absorptance"));
  line->frame_u.source = "frame catalogue by kind";
}

const pw_frame_line *pw_frame_line_pick(const pw_frame_line line[], size_t n, const char *name,
                                        pw_operator operator_)
{
  const pw_frame_line *any = NULL;
  for (size_t i = 0; i < n; i++) {
    if (strcmp(line[i].name, name) != 0) continue;
    if (line[i].operator_ == operator_) return &line[i];
    if (line[i].operator_ == PW_OPERATOR_COUNT && !any) any = &line[i];
  }
  return any;
}

double pw_existing_frame_face(pw_operator operator_)
{
  return operator_ == PW_FIXED || operator_ == PW_FLANKER ? 1.0 * PW_INCH  /* measure.csv F5 */
                                                          : 1.5 * PW_INCH; /* F4 */
}

double pw_existing_sash_face(void) { return 1.5 * PW_INCH; /* measure.csv F4 */ }

double pw_existing_meeting_face(void)
{
  return 1.5 * PW_INCH; /* from the 20.7 and 7.0 ft2 printed in measure.md item 7 */
}
