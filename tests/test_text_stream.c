/* A stream over memory keeps every byte, zero bytes too; what was never opened closes to nothing. That it loses nothing in
 * silence when memory lacks is held by tests/faults/memory.sh. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "out/text_stream.h"

static void every_byte_is_there(void **state)
{
  (void)state;
  pw_text_stream s;
  size_t sum = 0;
  assert_int_equal(pw_text_stream_open(&s), 1);
  for (int i = 0; i < 70000; i++) {
    fputc(i & 0xff, s.f);
    if (i % 7000 == 0) fflush(s.f);
  }
  fprintf(s.f, "%5d", 42);
  assert_int_equal(pw_text_stream_close(&s), 1);
  assert_int_equal(s.size, 70005);
  for (size_t i = 0; i < 70000; i++)
    sum += (unsigned char)s.text[i] == (i & 0xff);
  assert_int_equal(sum, 70000);
  assert_string_equal(s.text + 70000, "   42");
  free(s.text);
}

static void nothing_is_an_empty_text(void **state)
{
  (void)state;
  pw_text_stream s, never = {.f = NULL};
  assert_int_equal(pw_text_stream_open(&s), 1);
  assert_int_equal(pw_text_stream_close(&s), 1);
  assert_int_equal(s.size, 0);
  assert_string_equal(s.text, "");
  assert_int_equal(pw_text_stream_close(&s), 0); /* closed already: the text stays */
  assert_string_equal(s.text, "");
  free(s.text);
  assert_int_equal(pw_text_stream_close(&never), 0);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(every_byte_is_there),
      cmocka_unit_test(nothing_is_an_empty_text),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
