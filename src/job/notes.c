#include "job/notes.h"

#include "base/text.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static pw_note *append(pw_notes *notes)
{
  if (!notes) return NULL;
  if (notes->n == notes->room) {
    size_t room = notes->room ? 2 * notes->room : 32;
    pw_note *note = realloc(notes->note, room * sizeof *note);
    if (!note) {
      notes->lost = 1;
      return NULL;
    }
    notes->note = note;
    notes->room = room;
  }
  pw_note *n = &notes->note[notes->n++];
  memset(n, 0, sizeof *n);
  return n;
}

static void add_where(pw_note *note, const char *where)
{
  size_t have = strlen(note->where), want = strlen(where), room = sizeof note->where;
  if (!want) return;
  if (have + want + 7 < room) /* leaves room for ", ..." */
    snprintf(note->where + have, room - have, "%s%s", have ? ", " : "", where);
  else if (have < 4 || strcmp(note->where + have - 3, "...") != 0)
    snprintf(note->where + have, room - have, ", ...");
}

void pw_notes_default(pw_notes *notes, const char *file, int line, const char *what,
                      const char *where, const char *value)
{
  pw_note *note = NULL;
  for (size_t i = 0; notes && i < notes->n && !note; i++) {
    pw_note *n = &notes->note[i];
    if (n->kind == PW_NOTE_DEFAULT && strcmp(n->file, file) == 0 &&
        strcmp(n->what, what) == 0 && strcmp(n->value, value) == 0)
      note = n;
  }
  if (!note) {
    note = append(notes);
    if (!note) return;
    note->kind = PW_NOTE_DEFAULT;
    note->line = line;
    snprintf(note->file, sizeof note->file, "%s", file);
    snprintf(note->what, sizeof note->what, "%s", what);
    snprintf(note->value, sizeof note->value, "%s", value);
  }
  note->count++;
  add_where(note, where);
}

static void add(pw_notes *notes, pw_note_kind kind, const char *file, int line,
                const char *format, va_list args)
{
  pw_note *note = append(notes);
  if (!note) return;
  note->kind = kind;
  note->line = line;
  note->count = 1;
  snprintf(note->file, sizeof note->file, "%s", file);
  vsnprintf(note->value, sizeof note->value, format, args);
  pw_text_cut(note->value, sizeof note->value);
  pw_text_clean(note->value);
}

void pw_notes_warn(pw_notes *notes, const char *file, int line, const char *format, ...)
{
  va_list args;
  va_start(args, format);
  add(notes, PW_NOTE_WARNING, file, line, format, args);
  va_end(args);
}

void pw_notes_unknown(pw_notes *notes, const char *file, int line, const char *format, ...)
{
  va_list args;
  va_start(args, format);
  add(notes, PW_NOTE_UNKNOWN, file, line, format, args);
  va_end(args);
}

void pw_notes_line(const pw_note *note, char text[], size_t size)
{
  if (note->kind != PW_NOTE_DEFAULT && note->line > 0)
    snprintf(text, size, "%s:%d: %s", note->file, note->line, note->value);
  else if (note->kind != PW_NOTE_DEFAULT)
    snprintf(text, size, "%s: %s", note->file, note->value);
  else if (note->where[0])
    snprintf(text, size, "%s: %s not given, taken as %s (%d row%s: %s)", note->file, note->what,
             note->value, note->count, note->count == 1 ? "" : "s", note->where);
  else
    snprintf(text, size, "%s: %s not given, taken as %s", note->file, note->what, note->value);
}

void pw_notes_free(pw_notes *notes)
{
  if (!notes) return;
  free(notes->note);
  memset(notes, 0, sizeof *notes);
}
