/* The lites of an opening as its config has them. */
#include <string.h>

#include "job/opening_row.h"
#include "panewright/lites.h"

int job_opening_config(const char *text, const pw_csv *csv, size_t r, pw_opening *o,
                       pw_notes *notes)
{
  size_t n = 0;
  for (const char *p = text; *p; p++) {
    char c = *p == 'x' || *p == 'X' ? 'X' : *p == 'o' || *p == 'O' || *p == '0' ? 'O' : *p;
    if (strchr("/- ", c)) continue;
    if ((c != 'X' && c != 'O') || n + 1 >= sizeof o->config) return 0;
    o->config[n++] = c;
  }
  o->config[n] = '\0';
  pw_operator k = o->operator_existing;
  if (n == 0 && (k == PW_SLIDER || k == PW_SLIDING_DOOR))
    pw_notes_default(notes, csv->name, csv->line[r + 1], "config", o->tag,
                     "XO (the left lite moves, seen from outside)");
  if (n > 0 && (k == PW_SLIDER || k == PW_SLIDING_DOOR) && !strchr(o->config, 'X'))
    return 0; /* nothing moves: it is fixed */
  if (k == PW_SLIDER && n > 2 && strcmp(o->config, "XOX") != 0 &&
      strcmp(o->config, "XOOX") != 0)
    return 0;
  return n == 0 || n == pw_operator_lites(k, o->config);
}
