/* Text from outside: decoding by RFC 3629 against the C library's own iconv, cleaning, cutting. */
#include "support.h"

#include <iconv.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"

/* Every code point, encoded by iconv, decodes to itself; surrogates are none. */
static void every_character_decodes_as_iconv_encodes_it(void **state)
{
  (void)state;
  iconv_t to = iconv_open("UTF-8", "UCS-4LE");
  assert_true(to != (iconv_t)-1);
  for (unsigned long p = 1; p <= 0x10FFFF; p++) {
    unsigned char raw[4] = {(unsigned char)p, (unsigned char)(p >> 8), (unsigned char)(p >> 16),
                            (unsigned char)(p >> 24)};
    char text[8] = "", *in = (char *)raw, *out = text;
    size_t left = 4, room = 7;
    unsigned long got = 0;
    int made = iconv(to, &in, &left, &out, &room) != (size_t)-1;
    iconv(to, NULL, NULL, NULL, NULL);
    size_t n = pw_text_decode(text, &got);
    if (p >= 0xD800 && p <= 0xDFFF)
      assert_false(made);
    else if (n != (size_t)(out - text) || got != p)
      fail_msg("U+%04lX: %zu bytes, U+%04lX", p, n, got);
  }
  iconv_close(to);
  static const char *const none[] = {"\xC0\x80",
                                     "\xE0\x80\x80",
                                     "\xF0\x80\x80\x80",
                                     "\xED\xA0\x80",
                                     "\xF4\x90\x80\x80",
                                     "\x80",
                                     "\xFF",
                                     "\xC3",
                                     "\xE2\x82"};
  unsigned long point;
  for (size_t i = 0; i < sizeof none / sizeof none[0]; i++)
    assert_int_equal(pw_text_decode(none[i], &point), 0);
}

static void cleaning_takes_marks_and_keeps_words(void **state)
{
  (void)state;
  static const struct {
    const char *raw, *clean;
  } row[] = {{"Bedroom 2", "Bedroom 2"},
             {"a\tb\r\nc", "a b  c"},
             {"\x1b[2Jx\x7fy", "[2Jxy"},
             {"\xC2\x9B"
              "1m \xC2\x85z",
              "1m z"},
             {"\xE2\x80\xAE"
              "abc\xE2\x81\xA9\xD8\x9C",
              "abc"},
             {"\xEF\xBB\xBFid", "id"},
             {"caf\xC3\xA9 \xE2\x82\xAC \xF0\x9F\x8F\xA0",
              "caf\xC3\xA9 \xE2\x82\xAC \xF0\x9F\x8F\xA0"},
             {"caf\xE9", "caf?"},
             {"", ""}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    char text[64];
    snprintf(text, sizeof text, "%s", row[i].raw);
    pw_text_clean(text);
    assert_string_equal(text, row[i].clean);
    pw_text_clean(text); /* again: nothing more */
    assert_string_equal(text, row[i].clean);
  }
}

static void a_cut_stands_between_characters(void **state)
{
  (void)state;
  for (size_t size = 1; size < 16; size++) {
    char text[] = "a\xC3\xA9\xE2\x82\xAC\xF0\x9F\x8F\xA0z";
    unsigned long point;
    pw_text_cut(text, size);
    assert_true(strlen(text) < size);
    for (const char *s = text; *s;) {
      size_t n = pw_text_decode(s, &point);
      assert_true(n > 0);
      s += n;
    }
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(every_character_decodes_as_iconv_encodes_it),
      cmocka_unit_test(cleaning_takes_marks_and_keeps_words),
      cmocka_unit_test(a_cut_stands_between_characters),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
