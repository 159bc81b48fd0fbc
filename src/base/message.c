#include "panewright/message.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "panewright/units.h"

static const char *const letters[] = {
#define LETTERS(name, of) of,
    PW_MESSAGES(LETTERS)
#undef LETTERS
};

void pw_message_own(pw_message *m, const char *text)
{
  snprintf(m->own[0], sizeof m->own[0], "%s", text);
}

void pw_message_owns(pw_message *m, const char *text, const char *other)
{
  pw_message_own(m, text);
  snprintf(m->own[1], sizeof m->own[1], "%s", other);
}

static int argument_alike(const pw_message_arg *a, const pw_message_arg *b, char letter)
{
  if (a->kind != b->kind) return 0;
  if (a->kind == PW_ARG_COLUMN) return strcmp(a->column, b->column) == 0;
  if (a->kind != PW_ARG_SI) return a->count == b->count;
  double part = letter == 'q' ? PW_INCH / 16.0 : letter == 'e' ? PW_INCH / 8.0 : 1e-3;
  if (!strchr("qez", letter)) return !(a->si < b->si) && !(a->si > b->si);
  return fabs(floor(a->si / part + 0.5) - floor(b->si / part + 0.5)) < 0.5;
}

int pw_message_alike(const pw_message *a, const pw_message *b)
{
  if (a->number != b->number || a->led_by != b->led_by) return 0;
  const char *of = pw_message_letters(a->number);
  for (size_t i = 0; of[i]; i++)
    if (of[i] != '*' && !argument_alike(&a->arg[i], &b->arg[i], of[i])) return 0;
  return strcmp(a->own[0], b->own[0]) == 0 && strcmp(a->own[1], b->own[1]) == 0;
}

const char *pw_message_letters(pw_message_number number)
{
  return (unsigned)number < PW_SAY_COUNT ? letters[number] : "";
}

pw_message_kind pw_message_kind_of(char letter)
{
  if (letter == '\0' || letter == '*') return PW_ARG_NONE;
  if (strchr("tx", letter)) return PW_ARG_OWN;
  if (letter == 'c') return PW_ARG_COLUMN;
  return strchr("iywopl", letter) ? PW_ARG_COUNT : PW_ARG_SI;
}
