/* Outputs: what counts as whole, where a name leads, how names are given. */
#include <errno.h>
#include <fcntl.h>
#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include "job/inputs.h"
#include "out/json.h"
#include "out/safe_file.h"
#include "out/target.h"
#include "out/whole.h"
#include "support.h"

static char folder[64];

static int enter(void **state)
{
  (void)state;
  strcpy(folder, "/tmp/pw_output_XXXXXX");
  return mkdtemp(folder) && chdir(folder) == 0 ? 0 : -1;
}

static int leave(void **state)
{
  (void)state;
  static const char *const name[] = {"a", "b", "link", "ring", "d/c", "d", "far"};
  for (size_t i = 0; i < sizeof name / sizeof name[0]; i++)
    remove(name[i]);
  return chdir("/") == 0 && rmdir(folder) == 0 ? 0 : -1; /* nothing else may be left in it */
}

static void put(const char *name, const char *text)
{
  FILE *f = fopen(name, "w");
  assert_non_null(f);
  fputs(text, f);
  assert_int_equal(fclose(f), 0);
}

static const char *text_of(const char *name)
{
  static char text[64];
  FILE *f = fopen(name, "r");
  if (!f) return NULL;
  text[fread(text, 1, sizeof text - 1, f)] = '\0';
  fclose(f);
  return text;
}

/* A PNG of one pixel, by ISO/IEC 15948 (from memory: signature, IHDR, IDAT, IEND); every cut of it is
 * not whole. */
static void only_the_whole_text_is_whole(void **state)
{
  (void)state;
  static const char png[] =
      "\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\0\1\0\0\0\1\b\0\0\0\0\x3a\x7e\x9b\x55"
      "\0\0\0\nIDAT\x78\x9c\x63\x60\0\0\0\2\0\1\x48\xaf\xa4\x71"
      "\0\0\0\0IEND\xae\x42\x60\x82";
  static const struct {
    pw_whole_kind kind;
    const char *text;
    size_t size, blank; /* blank: white space at the end, without which it is whole, too */
  } row[] = {{PW_WHOLE_PNG, png, sizeof png - 1, 0},
             {PW_WHOLE_SVG, "<?xml?><svg><g></g></svg>\n\n", 27, 2},
             {PW_WHOLE_PDF, "%PDF-1.7\n1 0 obj\nstartxref\n9\n%%EOF\n", 35, 1},
             {PW_WHOLE_HTML, "<!doctype html><html></html>\n", 29, 1}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    assert_int_equal(strlen(row[i].text) == row[i].size, i > 0);
    for (size_t n = 0; n <= row[i].size; n++)
      assert_int_equal(pw_whole(row[i].kind, row[i].text, n), n + row[i].blank >= row[i].size);
    assert_int_equal(pw_whole(row[i].kind, row[i].text + 1, row[i].size - 1), 0);
  }
}

static void a_link_leads_to_the_file_at_its_end(void **state)
{
  (void)state;
  pw_target a, b;
  put("a", "x");
  assert_int_equal(symlink("d/c", "link") | symlink("link", "far") | symlink("ring", "ring"),
                   0);
  assert_int_equal(pw_target_find("link", &a, NULL), PW_E_CREATE); /* no folder d */
  assert_int_equal(mkdir("d", 0700), 0);
  assert_int_equal(pw_target_find("far", &a, NULL), PW_OK);
  assert_int_equal(pw_target_find("./d/../d/c", &b, NULL), PW_OK);
  assert_int_equal(a.there, 0);
  assert_string_equal(a.path, b.path);
  assert_true(pw_target_same(&a, &b));
  assert_int_equal(link("a", "b"), 0);
  assert_int_equal(pw_target_find("a", &a, NULL) | pw_target_find("b", &b, NULL), PW_OK);
  assert_string_not_equal(a.path, b.path);
  assert_true(pw_target_same(&a, &b)); /* one file, two names */
  assert_int_equal(pw_target_find("ring", &a, NULL), PW_E_CREATE);
  assert_int_equal(pw_target_find("d/", &a, NULL), PW_OK);
  assert_int_equal(pw_target_find("e/", &a, NULL), PW_E_CREATE);
  assert_int_equal(pw_target_find("", &a, NULL), PW_E_CREATE);
}

/* All names at once; before, and after a drop, everything is as it was. */
static void names_are_given_together_or_not_at_all(void **state)
{
  (void)state;
  struct stat is;
  put("a", "old");
  assert_int_equal(chmod("a", 0640), 0);
  assert_int_equal(pw_safe_folder("d", NULL), PW_OK);
  assert_int_equal(pw_safe_put("a", "new", 3, NULL), PW_OK);
  assert_int_equal(pw_safe_put("b", "two", 3, NULL), PW_OK);
  assert_int_equal(pw_safe_put("./b", "two", 3, NULL), PW_E_CREATE); /* one name twice */
  assert_string_equal(text_of("a"), "old");
  assert_null(text_of("b"));
  pw_safe_drop();
  assert_int_equal(stat("d", &is), -1);
  assert_string_equal(text_of("a"), "old");

  assert_int_equal(pw_safe_put("a", "new", 3, NULL), PW_OK);
  assert_int_equal(pw_safe_put_new("b", "two", 3, NULL), PW_OK);
  put("b", "his"); /* another one was faster */
  assert_int_equal(pw_safe_settle(NULL), PW_E_CREATE);
  assert_string_equal(text_of("a"), "old"); /* swapped back */
  assert_string_equal(text_of("b"), "his");
  assert_int_equal(remove("b"), 0);

  assert_int_equal(pw_safe_put("a", "new", 3, NULL), PW_OK);
  assert_int_equal(pw_safe_put("b", "two", 3, NULL), PW_OK);
  assert_int_equal(pw_safe_settle(NULL), PW_OK);
  assert_string_equal(text_of("a"), "new");
  assert_string_equal(text_of("b"), "two");
  assert_int_equal(stat("a", &is), 0);
  assert_int_equal(is.st_mode & 0777, 0640);
}

static void an_input_is_no_output(void **state)
{
  (void)state;
  put("a", "old");
  assert_int_equal(link("a", "b") | symlink("b", "link"), 0);
  assert_int_equal(pw_safe_check("link", NULL), PW_OK);
  assert_int_equal(pw_inputs_note_path("a", NULL), PW_OK);
  assert_int_equal(pw_safe_check("link", NULL), PW_E_CREATE);
  assert_int_equal(pw_safe_put("b", "new", 3, NULL), PW_E_CREATE);
  assert_string_equal(text_of("a"), "old");
}

/* A text that a full device took only into its buffer is not written: flushed, and told. /dev/full is Linux's. */
static void json_that_was_not_written_is_told(void **state)
{
  (void)state;
  pw_err err = {0};
  FILE *f = fopen("/dev/full", "w");
  assert_non_null(f);
  assert_int_equal(pw_json_print(json_pack("{s:f}", "u", 0.30), f, &err), PW_E_IO);
  assert_non_null(strstr(err.text, "the JSON output"));
  fclose(f);
  char text[64] = "";
  f = fmemopen(text, sizeof text, "w");
  assert_non_null(f);
  json_t *root = json_object();
  pw_json_set(root, "u", 0.25);
  pw_json_set(root, "no", (double)INFINITY); /* JSON has no such number */
  assert_int_equal(pw_json_print(root, f, &err), PW_OK);
  assert_string_equal(text,
                      "{\n  \"u\": 0.25,\n  \"no\": null\n}\n"); /* there before it is closed */
  fclose(f);
}

/* What is written in part is written on, until it is whole or cannot be: a file may grow to 100 bytes here (setrlimit, POSIX), and a write of 150
 * then gives 100 first and an error next. */
static void a_write_in_part_goes_on(void **state)
{
  (void)state;
  static char text[150];
  memset(text, 'x', sizeof text);
  struct rlimit kept;
  void (*held)(int) = signal(SIGXFSZ, SIG_IGN);
  int fd = open("a", O_CREAT | O_WRONLY | O_TRUNC, 0600);
  assert_true(fd >= 0);
  assert_int_equal(getrlimit(RLIMIT_FSIZE, &kept), 0);
  const struct rlimit small = {100, kept.rlim_max};
  assert_int_equal(setrlimit(RLIMIT_FSIZE, &small), 0);
  int status = pw_write_all(fd, text, sizeof text);
  assert_int_equal(setrlimit(RLIMIT_FSIZE, &kept), 0);
  signal(SIGXFSZ, held);
  assert_int_equal(status, EFBIG);
  struct stat is;
  assert_int_equal(fstat(fd, &is), 0);
  assert_int_equal(is.st_size, 100);
  assert_int_equal(pw_write_all(fd, text, 50), 0);
  assert_int_equal(fstat(fd, &is), 0);
  assert_int_equal(is.st_size, 150);
  assert_int_equal(pw_write_all(fd, text, 0), 0);
  close(fd);
  assert_int_equal(pw_write_all(fd, text, 1), EBADF);
}

int main(void)
{
  const struct CMUnitTest test[] = {
      cmocka_unit_test(only_the_whole_text_is_whole),
      cmocka_unit_test(json_that_was_not_written_is_told),
      cmocka_unit_test_setup_teardown(a_link_leads_to_the_file_at_its_end, enter, leave),
      cmocka_unit_test_setup_teardown(names_are_given_together_or_not_at_all, enter, leave),
      cmocka_unit_test_setup_teardown(an_input_is_no_output, enter, leave),
      cmocka_unit_test_setup_teardown(a_write_in_part_goes_on, enter, leave)};
  return cmocka_run_group_tests(test, NULL, NULL);
}
