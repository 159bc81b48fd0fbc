/* Openings that are one opening in the wall. */
#include <stdio.h>
#include <string.h>

#include "base/nearest.h"
#include "base/tape.h"
#include "job/opening_row.h"
#include "window/mulled.h"

/* A face that the job does not give; used: the opening joins its unit. */
static void default_face(const char *file, pw_opening *o, pw_notes *notes)
{
  char tape[24], said[64];
  o->mullion_face = o->meeting_face; /* what stands there does so whatever is ordered */
  pw_tape_text(o->meeting_face, 16, tape, sizeof tape);
  snprintf(said, sizeof said, "%s in (as a meeting rail)", tape);
  pw_notes_default(notes, file, o->line, "mullion_face", o->tag, said);
}

/* One spelling a unit, that of its first row: letter case is nothing. */
static void spell_alike(pw_opening o[], size_t n)
{
  for (size_t i = 1; i < n; i++)
    for (size_t j = 0; o[i].unit[0] && j < i; j++)
      if (o[j].unit[0] && pw_edit_distance(o[i].unit, o[j].unit) == 0) {
        memcpy(o[i].unit, o[j].unit, sizeof o[i].unit);
        break;
      }
}

pw_status job_openings_join(const char *file, pw_opening o[], size_t n, pw_notes *notes,
                            pw_err *err)
{
  pw_err why = {0};
  for (size_t i = 0; i < n; i++)
    if (!o[i].unit[0] && (o[i].unit_joint || o[i].mullion_face > 0.0))
      return pw_fail_at(err, PW_E_DATA, file, o[i].line, 0,
                        "%s has %s and no unit: name the unit that it is part of", o[i].tag,
                        o[i].unit_joint ? "unit_joint" : "mullion_face");
  spell_alike(o, n);
  for (int pass = 0; pass < 2; pass++) { /* who joins is known after the first */
    if (pw_mulled_join(o, n, &why) != PW_OK)
      return pw_fail_at(err, PW_E_DATA, file, why.line, 0, "%s", why.text);
    for (size_t i = 0; i < n && pass == 0; i++)
      if (o[i].unit_joint && !(o[i].mullion_face > 0.0)) default_face(file, &o[i], notes);
  }
  return PW_OK;
}
