#include "window/frame_line.h"

#include <stdio.h>
#include <string.h>

#include "gen/reference.h"
#include "panewright/units.h"

size_t pw_frame_line_count(void) { return pw_ref_frame_lines__n; }

/* The words of kind and operator stand in schema.csv in the order of their enums; the last one of
 * operator, "any", is the count. */
_Static_assert((int)pw_ref_frame_lines__kind_vinyl == PW_FRAME_VINYL &&
                   (int)pw_ref_frame_lines__kind_steel == PW_FRAME_KIND_COUNT - 1 &&
                   (int)pw_ref_frame_lines__operator_casement == PW_CASEMENT &&
                   (int)pw_ref_frame_lines__operator_any == PW_OPERATOR_COUNT,
               "frame_lines: enums of the schema");

void pw_frame_line_builtin(size_t i, pw_frame_line *line)
{
  pw_frame_line_init(line);
  if (i >= pw_ref_frame_lines__n) return;
  const pw_ref_frame_lines_row *row = &pw_ref_frame_lines[i];
  snprintf(line->name, sizeof line->name, "%s", row->name);
  line->kind = (pw_frame_kind)row->kind;
  line->operator_ = (pw_operator)row->operator;
  line->frame_face = row->frame_face_in * PW_INCH;
  line->sash_face = row->sash_face_in * PW_INCH;
  line->meeting_face = row->meeting_face_in * PW_INCH;
  line->clearance = row->clearance_in * PW_INCH;
  line->bite_max = row->bite_max_in * PW_INCH;
  line->absorptance = row->absorptance;
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

pw_status pw_frame_line_named(const char *name, pw_operator operator_, pw_frame_line *line,
                              pw_err *err)
{
  int found = 0;
  for (size_t i = 0; i < pw_ref_frame_lines__n; i++) {
    pw_frame_line one;
    pw_frame_line_builtin(i, &one);
    if (strcmp(one.name, name) != 0) continue;
    if (one.operator_ != operator_ && one.operator_ != PW_OPERATOR_COUNT) continue;
    *line = one;
    found = 1;
    if (one.operator_ == operator_) break;
  }
  if (!found)
    return pw_fail(err, PW_E_DATA, "frame_line", "no built-in frame line is named '%.40s'",
                   name);
  return PW_OK;
}

double pw_existing_frame_face(pw_operator operator_)
{
  return operator_ == PW_FIXED || operator_ == PW_FLANKER ? 1.0 * PW_INCH  /* measure.csv F5 */
                                                          : 1.5 * PW_INCH; /* F4 */
}

double pw_existing_sash_face(void) { return 1.5 * PW_INCH; /* measure.csv F4 */ }

double pw_existing_door_face(void)
{
  return 5.0 * PW_INCH; /* a leaf's stile and its jamb, memory */
}

double pw_existing_meeting_face(void)
{
  return 1.5 * PW_INCH; /* from the 20.7 and 7.0 ft2 printed in measure.md item 7 */
}
