/* Every text of the repository is walked: no web host but a short list, no account of a code host, no
 * commit of another project. What this file looks for it writes in pieces, so that it may walk itself. */
#include "support.h"

#include <ctype.h>
#include <dirent.h>
#include <regex.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

/* Hosts that may stand in a text: name spaces of the standards bodies (the web's, the energy usage feed's),
 * and our licence's. */
static const char *const allowed[] = {"www.w3.org", "naesb.org", "www.gnu.org",
                                      "gnu.org",    "fsf.org",   "www.fsf.org"};

static const struct {
  const char *pattern, *what;
} never[] = {
    {"@ ?[0-9a-f]{7,40}([^0-9a-z]|$)", "a commit of another project"},
    {"commit [0-9a-f]{6,}", "a commit of another project"},
    {"[A-Za-z0-9_.-]+/[A-Za-z0-9_.-]+ @", "an account of a code host"},
    {"([Gg]it)([Hh]ub|[Ll]ab)", "a code host"},
};
static const char host_pattern[] = "(https?://[A-Za-z0-9./_-]+|www\\.[a-z0-9.-]+|"
                                   "[a-z0-9-]+(\\.[a-z0-9-]+)*\\.(com|net|org|gov|edu|info|io|"
                                   "dev|eu|uk|dk)([^a-z0-9_(]|$))";

enum { LINE_MAX_LENGTH = 1 << 16 };

typedef struct walk {
  regex_t host, never[sizeof never / sizeof never[0]];
  size_t files, bad;
} walk;

static int host_allowed(const char *found, size_t n)
{
  if (n > 7 && strncmp(found, "http://", 7) == 0) found += 7, n -= 7;
  if (n > 8 && strncmp(found, "https://", 8) == 0) found += 8, n -= 8;
  size_t host = strcspn(found, "/ \"')>,;:");
  if (host > n) host = n;
  for (size_t i = 0; i < sizeof allowed / sizeof allowed[0]; i++)
    if (strlen(allowed[i]) == host && strncmp(found, allowed[i], host) == 0) return 1;
  return 0;
}

/* What is wrong with a line, or NULL. */
static const char *fault(const walk *w, const char *line)
{
  regmatch_t m;
  for (size_t i = 0; i < sizeof never / sizeof never[0]; i++)
    if (regexec(&w->never[i], line, 1, &m, 0) == 0) return never[i].what;
  for (const char *at = line; regexec(&w->host, at, 1, &m, 0) == 0; at += m.rm_eo)
    if (!host_allowed(at + m.rm_so, (size_t)(m.rm_eo - m.rm_so))) return "a web host";
  return NULL;
}

static void walk_file(walk *w, const char *path)
{
  static char line[LINE_MAX_LENGTH];
  FILE *f = fopen(path, "r");
  assert_non_null(f);
  w->files++;
  for (int n = 1; fgets(line, sizeof line, f); n++) {
    const char *what = fault(w, line);
    if (!what) continue;
    print_error("%s:%d: %s: %.100s\n", path, n, what, line);
    w->bad++;
  }
  fclose(f);
}

static int is_text(const char *name)
{
  static const char *const other[] = {".gz", ".png", ".o", ".pdf"};
  size_t n = strlen(name);
  for (size_t i = 0; i < sizeof other / sizeof other[0]; i++)
    if (n > strlen(other[i]) && strcmp(name + n - strlen(other[i]), other[i]) == 0) return 0;
  return 1;
}

static void walk_folder(walk *w, const char *folder)
{
  DIR *d = opendir(folder);
  assert_non_null(d);
  for (struct dirent *e; (e = readdir(d));) {
    char path[512];
    struct stat s;
    if (strcmp(e->d_name, ".") == 0 || strcmp(e->d_name, "..") == 0) continue;
    if (strcmp(e->d_name, ".git") == 0 || strcmp(e->d_name, "build") == 0) continue;
    if (strcmp(e->d_name, "node_modules") == 0) continue;
    snprintf(path, sizeof path, "%s/%s", folder, e->d_name);
    if (lstat(path, &s) != 0) continue;
    if (S_ISDIR(s.st_mode)) walk_folder(w, path);
    if (S_ISREG(s.st_mode) && is_text(e->d_name)) walk_file(w, path);
  }
  closedir(d);
}

static void walk_begin(walk *w)
{
  *w = (walk){.files = 0};
  assert_int_equal(regcomp(&w->host, host_pattern, REG_EXTENDED), 0);
  for (size_t i = 0; i < sizeof never / sizeof never[0]; i++)
    assert_int_equal(regcomp(&w->never[i], never[i].pattern, REG_EXTENDED), 0);
}

static void walk_end(walk *w)
{
  regfree(&w->host);
  for (size_t i = 0; i < sizeof never / sizeof never[0]; i++)
    regfree(&w->never[i]);
}

static void the_walk_sees_what_it_looks_for(void **state)
{
  (void)state;
  static const char *const bad[] = {"read: https:/"
                                    "/example.invalid/page",
                                    "see www"
                                    ".example.invalid",
                                    "a page of glass-seller."
                                    "com, stored",
                                    "some-body/some-thing"
                                    " @ 12",
                                    "a set @"
                                    "71e27ab5",
                                    "comm"
                                    "it 6382338",
                                    "on Git"
                                    "Hub"};
  static const char *const good[] = {"xmlns=\"http://www.w3.org/2000/svg\"",
                                     "row.us = 1; t.ca_limit", "order.csv, 3.5 in; e.g. this",
                                     "o->dev(x)"};
  walk w;
  walk_begin(&w);
  for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
    if (!fault(&w, bad[i])) fail_msg("not seen: %s", bad[i]);
  for (size_t i = 0; i < sizeof good / sizeof good[0]; i++)
    if (fault(&w, good[i])) fail_msg("seen as %s: %s", fault(&w, good[i]), good[i]);
  walk_end(&w);
}

static void no_text_names_a_host_or_an_account(void **state)
{
  (void)state;
  walk w;
  walk_begin(&w);
  walk_folder(&w, ".");
  walk_end(&w);
  print_message("%zu files walked\n", w.files);
  assert_true(w.files > 700);
  assert_int_equal(w.bad, 0);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_walk_sees_what_it_looks_for),
      cmocka_unit_test(no_text_names_a_host_or_an_account),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
