/* The HTML writer: what a job says never becomes markup. */
#include "support.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "out/html.h"
#include "out/svg.h"

static char *written(const char *text)
{
  char *out = NULL;
  size_t size = 0;
  FILE *f = open_memstream(&out, &size);
  assert_non_null(f);
  pw_html h = {f, NULL};
  pw_html_text(&h, text);
  fclose(f);
  return out;
}

static void expect(const char *text, const char *want)
{
  char *got = written(text);
  assert_string_equal(got, want);
  free(got);
}

/* The five characters that HTML gives a meaning: WHATWG HTML 13.1.4 and 13.1.2.3 (from memory). */
static void markup_is_escaped(void **state)
{
  (void)state;
  expect("<script>alert(\"1\" & '2')</script>",
         "&lt;script&gt;alert(&quot;1&quot; &amp; &#39;2&#39;)&lt;/script&gt;");
  expect("&lt;", "&amp;lt;");
}

/* RFC 3629: overlong forms, surrogates, cut sequences and lone bytes are no text. */
static void bytes_that_are_no_text_are_replaced(void **state)
{
  (void)state;
  expect("a\xC0\xBC"
         "b",
         "a\xEF\xBF\xBD\xEF\xBF\xBD"
         "b");
  expect("\xED\xA0\x80", "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD");
  expect("caf\xE9", "caf\xEF\xBF\xBD");
  expect("\xF5\x80\x80\x80", "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD");
  expect("\xE2\x82", "\xEF\xBF\xBD\xEF\xBF\xBD");
}

static void text_of_the_world_stays(void **state)
{
  static const char text[] =
      "Dvo\xC5\x99\xC3\xA1k \xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D \xF0\x9F\x8F\xA0";
  (void)state;
  expect(text, text);
}

/* Unicode UAX 9: the marks that turn the direction of what stands around them. */
static void turning_marks_and_controls_go(void **state)
{
  (void)state;
  expect("a\xE2\x80\xAE"
         "b\xE2\x81\xA6"
         "c\xE2\x80\x8F"
         "d",
         "abcd");
  expect("a\x01\x1B[31mb\x7F"
         "c\xC2\x85"
         "d",
         "a[31mbcd");
  expect("a\nb\tc\r", "a b c ");
}

static void only_the_format_is_markup(void **state)
{
  (void)state;
  char *out = NULL;
  size_t size = 0;
  FILE *f = open_memstream(&out, &size);
  assert_non_null(f);
  pw_html h = {f, NULL};
  pw_html_put(&h, "<b>%s</b> %d %zu %.2f %g %% %c", "<i>", -3, (size_t)7, 1.25, 2.5, 'x');
  fclose(f);
  assert_string_equal(out, "<b>&lt;i&gt;</b> -3 7 1.25 2.5 % x");
  free(out);
}

static void a_picture_is_plain_and_its_names_are_its_own(void **state)
{
  static const char svg[] =
      "<?xml version=\"1.0\"?>\n<svg \n width=\"90\" height=\"40\"\n viewBox=\"0 0 90 40\"\n>\n"
      "<title>Gnuplot</title>\n<defs>\n\t<circle id='gpPt5' stroke='currentColor' r='1'/>\n"
      "\t<use xlink:href='#gpPt5' id='gpPt6' fill='currentColor' stroke='none'/>\n</defs>\n"
      "<g fill=\"none\" color=\"red\" stroke=\"currentColor\">\n<path d='M0,0 L1,1'/>\n"
      "<use xlink:href='#gpPt6' transform='scale(4)' color='blue'/>"
      "<polygon fill = 'url(#gpPat1)' points='0,0 1,1'/></g>\n</svg>\n";
  char *out = NULL;
  size_t size = 0;
  (void)state;
  FILE *f = open_memstream(&out, &size);
  assert_non_null(f);
  pw_html h = {f, NULL};
  pw_svg_inline(&h, svg, "one", "a \"picture\"");
  fclose(f);
  assert_ptr_equal(strstr(out, "<svg "), out);
  assert_non_null(strstr(out, "aria-label=\"a &quot;picture&quot;\" viewBox=\"0 0 90 40\""));
  assert_null(strstr(out, "currentColor"));
  assert_null(strstr(out, "Gnuplot"));
  assert_null(strstr(out, "width=\"90\""));
  assert_non_null(strstr(out, "id=\"one-gpPt5\""));
  assert_non_null(strstr(out, "xlink:href=\"#one-gpPt5\""));
  assert_non_null(strstr(out, "url(#one-gpPat1)"));
  assert_non_null(strstr(out, "<g fill=\"none\" stroke=\"red\">"));
  assert_non_null(strstr(out, "stroke=\"blue\" fill=\"blue\""));
  free(out);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest test[] = {
      cmocka_unit_test(markup_is_escaped),
      cmocka_unit_test(bytes_that_are_no_text_are_replaced),
      cmocka_unit_test(text_of_the_world_stays),
      cmocka_unit_test(turning_marks_and_controls_go),
      cmocka_unit_test(only_the_format_is_markup),
      cmocka_unit_test(a_picture_is_plain_and_its_names_are_its_own),
  };
  return cmocka_run_group_tests(test, NULL, NULL);
}
