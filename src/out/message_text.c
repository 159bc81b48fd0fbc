#include "out/message_text.h"

#include <stdio.h>
#include <string.h>

#include "base/date.h"
#include "base/tape.h"
#include "panewright/shape.h"
#include "panewright/survey.h"
#include "panewright/units.h"
#include "window/escape.h"

/* What a clear opening lacks, PW_LACKS_ bits of escape.h, in their order. */
static const char *const lacks[] = {PW_TEXT("area too small"), PW_TEXT("too narrow"),
                                    PW_TEXT("too low"),
                                    PW_TEXT("its bottom too high above the floor")};

enum { ARGUMENT = 160 }; /* holds all that a way out can lack, in Spanish */

static void say_lacks(const pw_tongue *tongue, unsigned bits, char text[ARGUMENT])
{
  size_t n = 0;
  text[0] = '\0';
  for (unsigned i = 0; i < sizeof lacks / sizeof lacks[0]; i++)
    if (bits & 1u << i)
      n += (size_t)snprintf(text + n, ARGUMENT - n, "%s%s", n ? ", " : "",
                            pw_tongue_say(tongue, lacks[i]));
}

/* An argument as it is read, by its letter (panewright/message.h). */
static void say_argument(const pw_tongue *tongue, const pw_message *m, size_t i, char letter,
                         char text[ARGUMENT])
{
  const pw_message_arg *a = &m->arg[i];
  double v = a->si;
  const char *word = NULL;
  if (a->kind != pw_message_kind_of(letter))
    letter = '?'; /* tests/test_message.c looks for it */
  switch (letter) {
  case 'q':
    pw_tape_text(v, 16, text, ARGUMENT);
    return;
  case 'e':
    pw_tape_text(v, 8, text, ARGUMENT);
    return;
  case 'f':
    snprintf(text, ARGUMENT, "%.0f", v / PW_FOOT);
    return;
  case 'a':
    snprintf(text, ARGUMENT, "%.1f", v / PW_FOOT2);
    return;
  case 'd':
    snprintf(text, ARGUMENT, "%.0f", v / PW_PSF);
    return;
  case 'b':
    snprintf(text, ARGUMENT, "%.1f", v / PW_PSI);
    return;
  case 'k':
    snprintf(text, ARGUMENT, "%g", pw_f(v));
    return;
  case 'r':
    snprintf(text, ARGUMENT, "%.0f", 100.0 * v);
    return;
  case 'g':
    snprintf(text, ARGUMENT, "%g", 100.0 * v);
    return;
  case 'n':
    snprintf(text, ARGUMENT, "%g", v);
    return;
  case 'v':
  case 'm':
    snprintf(text, ARGUMENT, "%.2f", v);
    return;
  case 'u':
    snprintf(text, ARGUMENT, "%.2f", v * PW_FOOT2);
    return;
  case 's':
    snprintf(text, ARGUMENT, "%.1f", v);
    return;
  case 'z':
    snprintf(text, ARGUMENT, "%.0f", 1e3 * v);
    return;
  case 'y':
    pw_date_write(a->count, text);
    return;
  case 'i':
    snprintf(text, ARGUMENT, "%d", a->count);
    return;
  case 'l':
    say_lacks(tongue, (unsigned)a->count, text);
    return;
  case 'w':
    word = pw_message_word(tongue, (pw_message_number)a->count);
    break;
  case 'o':
    word = pw_tongue_say(tongue, pw_operator_name((pw_operator)a->count));
    break;
  case 'p':
    word = pw_tongue_say(tongue, pw_shape_name((pw_shape_kind)a->count));
    break;
  case 'x':
    word = pw_tongue_say(tongue, m->own[a->count]);
    break;
  case 'c':
    word = a->column;
    break;
  case 't':
    word = m->own[a->count];
    break;
  default:
    word = "?";
    break;
  }
  snprintf(text, ARGUMENT, "%s", word);
}

#if defined(__GNUC__)
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
#endif
const char *pw_message_text(const pw_tongue *tongue, const pw_message *m, char text[],
                            size_t size)
{
  const char *letters = pw_message_letters(m->number);
  char a[PW_MESSAGE_ARGS][ARGUMENT], alone[PW_MESSAGE_TEXT];
  for (size_t i = 0; i < PW_MESSAGE_ARGS; i++) {
    a[i][0] = '\0';
    if (i < strlen(letters)) say_argument(tongue, m, i, letters[i], a[i]);
  }
  snprintf(alone, sizeof alone, pw_message_word(tongue, m->number), a[0], a[1], a[2], a[3],
           a[4], a[5], a[6], a[7]);
  snprintf(text, size, m->led_by ? pw_message_word(tongue, m->led_by) : "%s", alone);
  return text;
}
#if defined(__GNUC__)
#pragma GCC diagnostic pop
#endif
