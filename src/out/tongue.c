#include "out/tongue.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "gen/tongue_es.h"

static const pw_tongue tongue[] = {
    {"es", "Español", pw_tongue_es_words, sizeof pw_tongue_es_words}};

const char *const pw_tongue_list = "en or es";

int pw_tongue_find(const char *code, const pw_tongue **found)
{
  *found = NULL;
  if (strcmp(code, "en") == 0) return 1;
  for (size_t i = 0; i < sizeof tongue / sizeof tongue[0]; i++)
    if (strcmp(code, tongue[i].code) == 0) *found = &tongue[i];
  return *found != NULL;
}

/* The catalogue's form (GNU gettext manual, "The Format of GNU MO Files"): a magic number, a revision, the count, where
 * the tables of the originals and of their translations stand; each row of a table is a length and a place. Originals are
 * sorted. Its numbers are in the order of the machine that built it, which is the one that runs it. */
enum { MO_COUNT = 8, MO_ORIGINALS = 12, MO_TRANSLATIONS = 16, MO_ROW = 8 };

static uint32_t number_at(const pw_tongue *t, size_t at)
{
  uint32_t v = 0;
  if (at + sizeof v <= t->size) memcpy(&v, t->words + at, sizeof v);
  return v;
}

static const char *text_at(const pw_tongue *t, size_t table, size_t row)
{
  return (const char *)t->words + number_at(t, table + MO_ROW * row + 4);
}

/* The translation of an original, or NULL. */
static const char *look_up(const pw_tongue *t, const char *text)
{
  size_t originals = number_at(t, MO_ORIGINALS), translations = number_at(t, MO_TRANSLATIONS);
  size_t low = 0, high = number_at(t, MO_COUNT);
  while (low < high) {
    size_t middle = low + (high - low) / 2;
    int order = strcmp(text, text_at(t, originals, middle));
    if (order == 0) return text_at(t, translations, middle);
    if (order < 0)
      high = middle;
    else
      low = middle + 1;
  }
  return NULL;
}

const char *pw_tongue_say(const pw_tongue *t, const char *text)
{
  const char *said =
      t && text[0] ? look_up(t, text) : NULL; /* "" is the catalogue's own head */
  return said ? said : text;
}

const char *pw_tongue_count(const pw_tongue *t, const char *one, const char *many, long n)
{
  const char *said = t ? look_up(t, one) : NULL; /* its key is "one\0many" */
  if (!said) return n == 1 ? one : many;
  return n == 1 ? said : said + strlen(said) + 1;
}

#if defined(__GNUC__)
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
#endif
int pw_tongue_put(const pw_tongue *t, char *text, size_t size, const char *format, ...)
{
  va_list args;
  va_start(args, format);
  int n = vsnprintf(text, size, pw_tongue_say(t, format), args);
  va_end(args);
  return n;
}
#if defined(__GNUC__)
#pragma GCC diagnostic pop
#endif
