#include "out/svg.h"

#include <stdlib.h>
#include <string.h>

#include "out/html.h"

enum { COLOUR_MAX = 40 };

typedef struct walk {
  FILE *f;
  const char *id;
  int in_defs;
  char colour[COLOUR_MAX]; /* of the group that is open */
} walk;

static int begins(const char *s, const char *word)
{
  return strncmp(s, word, strlen(word)) == 0;
}

/* The next attribute of a tag: name and value, quotes off. Returns past it, or NULL at the end. */
static const char *attribute(const char *s, const char *end, const char **name, size_t *n_name,
                             const char **value, size_t *n_value)
{
  s += strspn(s, " \t\n/");
  if (s >= end) return NULL;
  *name = s;
  *n_name = strcspn(s, " =>\t\n");
  s += *n_name;
  s += strspn(s, " \t\n");
  if (*s != '=') return NULL;
  s++;
  s += strspn(s, " \t\n");
  char quote = *s++;
  if (quote != '"' && quote != '\'') return NULL;
  *value = s;
  while (s < end && *s != quote)
    s++;
  *n_value = (size_t)(s - *value);
  return s + 1;
}

static int is(const char *text, size_t n, const char *word)
{
  return n == strlen(word) && memcmp(text, word, n) == 0;
}

/* The colour that an element sets for those inside it, or "". */
static void own_colour(const char *s, const char *end, char colour[COLOUR_MAX])
{
  const char *name, *value;
  size_t n_name, n_value;
  colour[0] = '\0';
  while ((s = attribute(s, end, &name, &n_name, &value, &n_value)) != NULL)
    if (is(name, n_name, "color") && n_value < COLOUR_MAX) {
      memcpy(colour, value, n_value);
      colour[n_value] = '\0';
    }
}

/* A value, its names of other elements led by the id. */
static void put_value(const walk *w, const char *name, size_t n_name, const char *value,
                      size_t n_value)
{
  if (is(name, n_name, "id")) {
    fprintf(w->f, "%s-%.*s", w->id, (int)n_value, value);
  } else if (n_value > 1 && value[0] == '#' && is(name, n_name, "xlink:href")) {
    fprintf(w->f, "#%s-%.*s", w->id, (int)n_value - 1, value + 1);
  } else if (n_value > 5 && memcmp(value, "url(#", 5) == 0) {
    fprintf(w->f, "url(#%s-%.*s", w->id, (int)n_value - 5, value + 5);
  } else {
    fwrite(value, 1, n_value, w->f);
  }
}

/* gnuplot's point types: of the marks gpPt0, gpPt1 .. the even ones from 4 on are filled. */
static int filled_mark(const char *s, const char *end)
{
  const char *mark = strstr(s, "#gpPt");
  if (!mark || mark >= end) return strstr(s, "#gpDot") != NULL;
  long number = strtol(mark + 5, NULL, 10);
  return number >= 4 && number % 2 == 0;
}

/* A tag from '<' to '>' with its colours spelt out. Marks in <defs> take theirs from whoever uses
 * them. */
static void put_tag(walk *w, const char *s, const char *end)
{
  const char *name, *value, *after = s + 1 + strcspn(s + 1, " \t\n/>");
  size_t n_name, n_value;
  char colour[COLOUR_MAX];
  own_colour(after, end, colour);
  int use = begins(s, "<use") && !w->in_defs;
  fwrite(s, 1, (size_t)(after - s), w->f);
  for (const char *a = after;
       (a = attribute(a, end, &name, &n_name, &value, &n_value)) != NULL;) {
    int current = is(value, n_value, "currentColor");
    if (is(name, n_name, "color") || (current && w->in_defs)) continue;
    fprintf(w->f, " %.*s=\"", (int)n_name, name);
    if (current)
      fputs(colour[0] ? colour : w->colour, w->f);
    else
      put_value(w, name, n_name, value, n_value);
    fputc('"', w->f);
  }
  if (use) {
    const char *paint = colour[0] ? colour : w->colour;
    fprintf(w->f, " stroke=\"%s\" fill=\"%s\"", paint, filled_mark(s, end) ? paint : "none");
  }
  fputs(end[-1] == '/' ? "/>" : ">", w->f);
  if (begins(s, "<g") && colour[0]) memcpy(w->colour, colour, sizeof colour);
}

/* Elements without use in a document: skipped whole. */
static const char *skipped(const char *s)
{
  static const char *const pair[][2] = {
      {"<title>", "</title>"}, {"<desc>", "</desc>"}, {"<filter", "</filter>"}};
  for (size_t i = 0; i < sizeof pair / sizeof pair[0]; i++)
    if (begins(s, pair[i][0])) {
      const char *end = strstr(s, pair[i][1]);
      return end ? end + strlen(pair[i][1]) : s + strlen(s);
    }
  return NULL;
}

/* A group that holds nothing: past it, or NULL. */
static const char *empty_group(const char *s)
{
  const char *end = strchr(s, '>');
  if (!begins(s, "<g ") || !end) return NULL;
  end += 1 + strspn(end + 1, " \t\n");
  return begins(end, "</g>") ? end + 4 : NULL;
}

static const char *put_element(walk *w, const char *s)
{
  const char *past = skipped(s);
  if (!past) past = empty_group(s);
  if (past) return past;
  const char *end = strchr(s, '>');
  if (!end) return s + strlen(s);
  if (s[1] == '/' || s[1] == '!') {
    if (begins(s, "</defs>")) w->in_defs = 0;
    if (s[1] == '/') fwrite(s, 1, (size_t)(end - s) + 1, w->f);
    return end + 1;
  }
  if (begins(s, "<defs>")) w->in_defs = 1;
  put_tag(w, s, end);
  return end + 1;
}

void pw_svg_inline(pw_html *h, const char *svg, const char *id, const char *alt)
{
  walk w = {h->f, id, 0, "black"};
  const char *s = strstr(svg, "<svg");
  const char *box = s ? strstr(s, "viewBox=\"") : NULL;
  const char *inside = s ? strchr(s, '>') : NULL;
  if (!box || !inside) return;
  pw_html_put(h, "<svg role=\"img\" aria-label=\"%s\" ", alt);
  fwrite(box, 1, strcspn(box + 9, "\"") + 10, h->f);
  fputs(" xmlns=\"http://www.w3.org/2000/svg\" "
        "xmlns:xlink=\"http://www.w3.org/1999/xlink\">\n",
        h->f);
  int fresh = 1; /* at the start of a line: blanks and empty lines are left out */
  for (s = inside + 1; *s;) {
    int keep = 0;
    if (*s == '<') {
      s = put_element(&w, s);
      fresh = 0;
      continue;
    }
    size_t n = pw_html_step(s, &keep);
    int line = *s == '\n', blank = *s == ' ' || *s == '\t';
    if (line ? !fresh : keep && !(fresh && blank)) fwrite(s, 1, n, h->f);
    fresh = line || (fresh && blank);
    s += n;
  }
}
