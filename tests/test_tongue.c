/* The catalogue of another tongue: each text keeps the places, the markup and the marks of its English wording. */
#include "support.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "out/calendar.h"
#include "out/html.h"
#include "panewright/lites.h"

static const pw_tongue *spanish(void)
{
  const pw_tongue *t = NULL;
  assert_true(pw_tongue_find("es", &t));
  assert_non_null(t);
  return t;
}

/* A number of the catalogue by GNU gettext's manual, read here by its own hand. */
static uint32_t at(const pw_tongue *t, size_t place)
{
  uint32_t v;
  assert_true(place + 4 <= t->size);
  memcpy(&v, t->words + place, 4);
  return v;
}

static const char *text_of(const pw_tongue *t, size_t table, size_t row)
{
  uint32_t length = at(t, table + 8 * row), place = at(t, table + 8 * row + 4);
  assert_true(place + length < t->size);
  return (const char *)t->words + place;
}

enum { PARTS = 64 };

static int by_text(const void *a, const void *b) { return strcmp(a, b); }

/* Places of a format ("%.2f", "%s") or tags of its markup, sorted: what a translation may move and never lose. */
static size_t parts(const char *text, int tags, char part[PARTS][240])
{
  size_t n = 0;
  for (const char *s = text; *s; s++) {
    const char *end = s + 1;
    if (tags ? *s != '<' : *s != '%') continue;
    if (tags)
      end = strchr(s, '>');
    else
      end += strspn(end, "0123456789$.+- z");
    if (!end) fail_msg("a tag without an end: %s", text);
    size_t length = (size_t)(end - s) + 1;
    if (n == PARTS || length >= 240) fail_msg("too much in one text: %s", text);
    const char *from = s;
    const char *dollar = tags ? NULL : memchr(s, '$', length);
    size_t skip = dollar ? (size_t)(dollar - s) : 0; /* "%2$s" is "%s" */
    part[n][0] = *s;
    memcpy(part[n] + 1, from + 1 + skip, length - 1 - skip);
    part[n][length - skip] = '\0';
    n++;
    s = end;
  }
  qsort(part, n, sizeof part[0], by_text);
  return n;
}

/* A label for those who do not see: its words are text, the rest of the tag is markup. */
static void cut_label(char *tag)
{
  char *label = strstr(tag, "aria-label=\"");
  char *end = label ? strchr(label + 12, '"') : NULL;
  if (end) memmove(label + 12, end, strlen(end) + 1);
}

static void same_parts(const char *from, const char *to, int tags)
{
  char a[PARTS][240], b[PARTS][240];
  size_t n = parts(from, tags, a), m = parts(to, tags, b);
  if (n != m) fail_msg("%zu %s in '%s', %zu in '%s'", n, tags ? "tags" : "places", from, m, to);
  for (size_t i = 0; i < n; i++) {
    cut_label(a[i]);
    cut_label(b[i]);
    if (strcmp(a[i], b[i]) != 0) fail_msg("'%s' is not '%s': %s", b[i], a[i], to);
  }
}

/* Whether the ends of both are alike: a blank or a line's end that joins one piece to the next. */
static void same_ends(const char *from, const char *to)
{
  size_t n = strlen(from), m = strlen(to);
  static const char joins[] = " \n";
  if ((strchr(joins, from[0]) || strchr(joins, to[0])) && from[0] != to[0])
    fail_msg("'%s' begins otherwise than '%s'", to, from);
  if ((strchr(joins, from[n - 1]) || strchr(joins, to[m - 1])) && from[n - 1] != to[m - 1])
    fail_msg("'%s' ends otherwise than '%s'", to, from);
}

static void every_text_keeps_places_markup_and_ends(void **state)
{
  (void)state;
  const pw_tongue *t = spanish();
  size_t n = at(t, 8), originals = at(t, 12), translations = at(t, 16);
  assert_true(n > 50);
  for (size_t i = 1; i < n; i++) { /* the first is the head */
    const char *from = text_of(t, originals, i), *to = text_of(t, translations, i);
    uint32_t pair = at(t, translations + 8 * i);
    assert_true(strcmp(text_of(t, originals, i - 1), from) < 0);
    if (!to[0]) fail_msg("no words for '%s'", from);
    same_parts(from, to, 0);
    same_parts(from, to, 1);
    same_ends(from, to);
    for (const char *s = to; *s;) {
      unsigned long point = 0;
      size_t step = pw_text_decode(s, &point);
      if (step == 0 || (pw_text_unwanted(point) && point != '\n'))
        fail_msg("'%s' holds what is no text", to);
      s += step;
    }
    if (strlen(to) + 1 < pair) same_parts(from, to + strlen(to) + 1, 0); /* the plural */
    assert_ptr_equal(pw_tongue_say(t, from), to);
  }
}

/* Sentences about a saving never say "up to" (the terms' own rule; 16 CFR 460.19 is why). */
static void no_saving_is_said_up_to(void **state)
{
  (void)state;
  const pw_tongue *t = spanish();
  for (size_t i = 1; i < at(t, 8); i++) {
    const char *to = text_of(t, at(t, 16), i);
    if (strstr(to, "ahorr") && strstr(to, "hasta $")) fail_msg("%s", to);
  }
}

static char *put_in(const pw_tongue *t, const char *who)
{
  char *out = NULL;
  size_t size = 0;
  FILE *f = open_memstream(&out, &size);
  assert_non_null(f);
  pw_html h = {f, t};
  pw_html_put(&h, ". Files %s, printed %s.</span>", who, "2026-11-29");
  pw_html_put(&h, "<i>%s</i> %d", "no such text", 3);
  fclose(f);
  return out;
}

static void a_document_speaks_its_tongue_and_escapes_alike(void **state)
{
  (void)state;
  char *en = put_in(NULL, "<b>"), *es = put_in(spanish(), "<b>");
  assert_string_equal(en, ". Files &lt;b&gt;, printed 2026-11-29.</span><i>no such text</i> 3");
  assert_string_equal(es,
                      ". Archivos &lt;b&gt;, impreso 2026-11-29.</span><i>no such text</i> 3");
  free(en);
  free(es);
}

/* Places in another order, as a translation may need them (POSIX printf's "%2$s"). */
static void places_may_change_order(void **state)
{
  (void)state;
  /* one entry, built by hand after the manual: head of 28 bytes, two tables, texts */
  static const char from[] = "%s of %.1f: %d%%", to[] = "%3$d%%: %2$.1f, %1$s";
  unsigned char mo[256] = {0};
  uint32_t head[7] = {0x950412de, 0, 1, 28, 36, 0, 0};
  uint32_t row[4] = {sizeof from - 1, 44, sizeof to - 1, 44 + sizeof from};
  memcpy(mo, head, sizeof head);
  memcpy(mo + 28, row, sizeof row);
  memcpy(mo + 44, from, sizeof from);
  memcpy(mo + 44 + sizeof from, to, sizeof to);
  const pw_tongue t = {"xx", "one text", mo, sizeof mo};
  char *out = NULL;
  size_t size = 0;
  FILE *f = open_memstream(&out, &size);
  assert_non_null(f);
  pw_html h = {f, &t};
  pw_html_put(&h, "%s of %.1f: %d%%", "<a>", 2.25, 7);
  fclose(f);
  assert_string_equal(out, "7%: 2.2, &lt;a&gt;");
  free(out);
}

/* Words that kernels give are no calls of the writers, so no extraction finds them. */
static void words_of_kernels_are_there(void **state)
{
  (void)state;
  const pw_tongue *t = spanish();
  for (int k = 0; k < PW_OPERATOR_COUNT; k++) {
    const char *word = pw_operator_name((pw_operator)k);
    if (pw_tongue_say(t, word) == word) fail_msg("no words for %s", word);
  }
  for (int side = 0; side < 8; side++) {
    const char *word = pw_side_word(45.0 * side);
    if (pw_tongue_say(t, word) == word) fail_msg("no words for %s", word);
  }
}

static void only_known_tongues_are_found(void **state)
{
  (void)state;
  const pw_tongue *t = spanish();
  assert_true(pw_tongue_find("en", &t) && t == NULL);
  assert_false(pw_tongue_find("", &t));
  assert_false(pw_tongue_find("es ", &t));
  assert_string_equal(pw_tongue_say(spanish(), ""), "");
  assert_string_equal(pw_tongue_count(NULL, "one", "many", 1), "one");
  assert_string_equal(pw_tongue_count(NULL, "one", "many", 0), "many");
}

int main(void)
{
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(every_text_keeps_places_markup_and_ends),
      cmocka_unit_test(no_saving_is_said_up_to),
      cmocka_unit_test(a_document_speaks_its_tongue_and_escapes_alike),
      cmocka_unit_test(places_may_change_order),
      cmocka_unit_test(words_of_kernels_are_there),
      cmocka_unit_test(only_known_tongues_are_found),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
