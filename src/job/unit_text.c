#include "job/unit_text.h"

#include <ctype.h>
#include <string.h>

/* In this order: a longer spelling stands before one that it holds. */
static const struct {
  const char *spelling, *plain;
} table[] = {
    {"percent", "%"},    {"squarefeet", "ft2"}, {"squarefoot", "ft2"},  {"sqfeet", "ft2"},
    {"sqft", "ft2"},     {"ft\xC2\xB2", "ft2"}, {"squaremetres", "m2"}, {"squaremeters", "m2"},
    {"sqm", "m2"},       {"m\xC2\xB2", "m2"},   {"us$", "$"},           {"usd", "$"},
    {"dollars", "$"},    {"\xC2\xA2", "c"},     {"cents", "c"},         {"cent", "c"},
    {"per", "/"},        {"fahrenheit", "f"},   {"celsius", "c"},       {"degrees", ""},
    {"degree", ""},      {"deg", ""},           {"\xC2\xB0", ""},       {"\xC2\xBA", ""},
    {"\xCB\x9A", ""},    {"\xC2\xB7", ""},      {"\xC2\xA0", ""},       {"hour", "h"},
    {"hr", "h"},         {"years", "yr"},       {"year", "yr"},         {"yrs", "yr"},
    {"therms", "therm"}, {"feet", "ft"},        {"foot", "ft"},         {"metres", "m"},
    {"meters", "m"},     {"lbs", "lb"},         {"gallon", "gal"},
};

void job_unit_plain(const char *word, char plain[JOB_UNIT_MAX])
{
  char low[JOB_UNIT_MAX];
  size_t n = 0;
  for (; *word && n + 1 < JOB_UNIT_MAX; word++)
    if (!strchr(" .-*()^\t", *word)) low[n++] = (char)tolower((unsigned char)*word);
  low[n] = '\0';
  n = 0;
  for (const char *s = low; *s && n + 4 < JOB_UNIT_MAX;) {
    const char *put = NULL;
    for (size_t i = 0; i < sizeof table / sizeof table[0] && !put; i++) {
      size_t k = strlen(table[i].spelling);
      if (strncmp(s, table[i].spelling, k) != 0) continue;
      put = table[i].plain;
      s += k;
    }
    if (!put) {
      plain[n++] = *s++;
      continue;
    }
    size_t k = strlen(put);
    memcpy(plain + n, put, k);
    n += k;
  }
  plain[n] = '\0';
  if (strcmp(plain, "sf") == 0 || (n > 3 && strcmp(plain + n - 3, "/sf") == 0))
    memcpy(plain + n - 2, "ft2", 4);
}
