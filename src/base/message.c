#include "panewright/message.h"

#include <stdio.h>
#include <string.h>

static const char *const letters[] = {
#define LETTERS(name, of) of,
    PW_MESSAGES(LETTERS)
#undef LETTERS
};

void pw_message_own(pw_message *m, const char *text)
{
  snprintf(m->own, sizeof m->own, "%s", text);
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
