#include "paper_read.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "support.h"

enum { WORD_MAX = 200 };

/* How a kind is printed: shown = value * scale + shift, to a multiple of step. Factors from the
 * definitions: 1 ft = 0.3048 m, 1 lb = 0.45359237 kg, 1 Btu(IT) = 1055.05585262 J, F = 1.8 C + 32.
 * The JSON gives temperatures in C. */
static const struct {
  const char *name;
  double scale, shift, step;
} kind[] = {
    {"u", 0.3048 * 0.3048 * 3600.0 / 1055.05585262 / 1.8, 0.0, 0.01},
    {"ratio", 1.0, 0.0, 0.01},
    {"share", 100.0, 0.0, 1.0},
    {"money5", 1.0, 0.0, 5.0},
    {"money", 1.0, 0.0, 1.0},
    {"cents", 1.0, 0.0, 0.01},
    {"kwh", 1.0, 0.0, 10.0},
    {"area", 1.0 / (0.3048 * 0.3048), 0.0, 0.1},
    {"temperature", 1.8, 32.0, 1.0},
    {"years", 1.0, 0.0, 1.0},
    {"hours", 1.0, 0.0, 10.0},
    {"mass", 1.0 / 0.45359237, 0.0, 10.0},
    {"db", 1.0, 0.0, 1.0},
};

/* The number at a path such as "house.packages.0.u_w_m2k"; null counts as infinite. */
static double at_path(const json_t *data, const char *path)
{
  char copy[WORD_MAX], *rest = NULL;
  snprintf(copy, sizeof copy, "%s", path);
  for (char *word = strtok_r(copy, ".", &rest); word; word = strtok_r(NULL, ".", &rest)) {
    char *end = NULL;
    size_t i = strtoul(word, &end, 10);
    data = *end ? json_object_get(data, word) : json_array_get(data, i);
  }
  if (!data) fail_msg("no %s in the data", path);
  return json_is_null(data) ? (double)INFINITY : json_number_value(data);
}

/* "path", "path - path" or "path * factor"; or "A less B" of such, each rounded to step first, as the paper subtracts. */
static double value_of(const json_t *data, const char *key, double step)
{
  char first[WORD_MAX];
  snprintf(first, sizeof first, "%s", key);
  char *less = strstr(first, " less ");
  if (less) {
    *less = '\0';
    return step * (floor(value_of(data, first, step) / step + 0.5) -
                   floor(value_of(data, less + 6, step) / step + 0.5));
  }
  char *minus = strstr(first, " - "), *times = strstr(first, " * ");
  if (minus) {
    *minus = '\0';
    return at_path(data, first) - at_path(data, minus + 3);
  }
  if (times) {
    *times = '\0';
    return at_path(data, first) * strtod(times + 3, NULL);
  }
  return at_path(data, first);
}

/* The text from a mark after s up to an end, or NULL. */
static const char *between(const char *s, const char *from, const char *to, char text[],
                           size_t room)
{
  s = strstr(s, from);
  if (!s) return NULL;
  s += strlen(from);
  size_t n = strcspn(s, to);
  assert_true(n < room);
  memcpy(text, s, n);
  text[n] = '\0';
  return s + n;
}

/* "$1,045" or "-$20" or "87 %" as a number. */
static double printed(const char *text)
{
  char digits[WORD_MAX];
  size_t n = 0;
  if (strcmp(text, "never") == 0 || strcmp(text, "nunca") == 0) return (double)INFINITY;
  for (; *text && n + 1 < sizeof digits; text++)
    if (strchr("0123456789.-", *text)) digits[n++] = *text;
  digits[n] = '\0';
  char *end = NULL;
  double v = strtod(digits, &end);
  if (end == digits || *end) fail_msg("'%s' is no figure", digits);
  return v;
}

static void hold(const json_t *data, const char *name, const char *key, const char *text)
{
  for (size_t i = 0; i < sizeof kind / sizeof kind[0]; i++) {
    if (strcmp(kind[i].name, name) != 0) continue;
    double want = value_of(data, key, kind[i].step) * kind[i].scale + kind[i].shift,
           got = printed(text);
    if (isinf(want) && isinf(got)) return;
    /* a hair for the digits that a factor in a key leaves off */
    pw_assert_near(got, want, 0.5 * kind[i].step * (1.0 + 1e-4), key, "pw_compare_json");
    double steps = got / kind[i].step;
    pw_assert_near(steps, floor(steps + 0.5), 1e-6, key, "rounding of its kind");
    return;
  }
  fail_msg("no kind '%s'", name);
}

size_t paper_figures_match(const char *html, const json_t *data)
{
  size_t n = 0;
  char name[WORD_MAX], key[WORD_MAX], text[WORD_MAX];
  for (const char *s = html; (s = strstr(s, "<span class=\"fig\" data-kind=")) != NULL; n++) {
    s = between(s, "data-kind=\"", "\"", name, sizeof name);
    s = between(s, "data-key=\"", "\"", key, sizeof key);
    s = between(s, ">", "<", text, sizeof text);
    hold(data, name, key, text);
  }
  return n;
}

void paper_next_figure(const char **at, char text[32])
{
  const char *s = strstr(*at, "<span class=\"fig\"");
  text[0] = '\0';
  if (s) *at = between(s, ">", "<", text, 32);
}

void paper_cells_are_keyed(const char *html, const char *table_class)
{
  char head[80];
  snprintf(head, sizeof head, "<table class=\"%s\">", table_class);
  const char *table = strstr(html, head);
  assert_non_null(table);
  for (; table; table = strstr(table + 1, head)) {
    const char *end = strstr(table, "</table>");
    for (const char *cell = table; (cell = strstr(cell, "<td")) != NULL && cell < end;) {
      const char *stop = strstr(cell, "</td>");
      int inside = 0;
      for (cell = strchr(cell, '>') + 1; cell < stop; cell++) {
        if (*cell == '<') {
          if (strncmp(cell, "<span class=\"fig\"", 17) == 0) inside = 1;
          if (strncmp(cell, "</span>", 7) == 0) inside = 0;
          cell = strchr(cell, '>');
        } else if (!inside && *cell >= '0' && *cell <= '9') {
          fail_msg("a bare figure in table %s: %.60s", table_class, cell);
        }
      }
    }
  }
}

void paper_ids_are_sound(const char *html)
{
  char name[WORD_MAX], mark[WORD_MAX + 8];
  for (const char *s = html; (s = between(s, " id=\"", "\"", name, sizeof name)) != NULL;) {
    snprintf(mark, sizeof mark, " id=\"%s\"", name);
    if (strstr(s, mark)) fail_msg("id %s stands twice", name);
  }
  static const char *const use[] = {"href=\"#", "url(#"};
  for (size_t u = 0; u < 2; u++)
    for (const char *s = html; (s = between(s, use[u], "\")", name, sizeof name)) != NULL;) {
      snprintf(mark, sizeof mark, " id=\"%s\"", name);
      if (!strstr(html, mark)) fail_msg("nothing bears the id %s", name);
    }
}

int paper_is_tidy(const char *html)
{
  char path[] = "/tmp/pw_paper_XXXXXX", line[80];
  if (system("command -v tidy >/dev/null 2>&1") != 0) return -1;
  int fd = mkstemp(path);
  assert_true(fd >= 0);
  assert_int_equal(write(fd, html, strlen(html)), (ssize_t)strlen(html));
  close(fd);
  snprintf(line, sizeof line, "tidy -e -q %s", path);
  int status = system(line);
  unlink(path);
  return status == 0;
}
