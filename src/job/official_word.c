/* The building official's word on an escape opening that falls short: who agreed, and on which day. A bare yes is
 * nobody's word and is refused. */
#include <ctype.h>
#include <stdio.h>
#include <string.h>

#include "job/date_text.h"
#include "job/opening_row.h"

const char *const job_official_word_wanted =
    "want who of the building department agreed and on which day, as 'M. Reyes, building "
    "department, 2026-10-02'";

enum { WORDS = 40, DAY = 24, LETTERS = 4 };

static int a_day(const char *text)
{
  char iso[11], other[11];
  return job_date_read(text, iso, NULL) == PW_OK || job_date_two_ways(text, iso, other);
}

/* The day is one word (2026-10-02, 10/2/2026) or three (Oct 2, 2026); letters beside it are a name. */
int job_official_word(const char *text)
{
  const char *word[WORDS];
  size_t length[WORDS], n = 0, letters = 0;
  for (const char *s = text; *s && n < WORDS; s += length[n++]) {
    s += strspn(s, " ;");
    word[n] = s;
    length[n] = strcspn(s, " ;");
    if (length[n] == 0) break;
  }
  size_t day = n, of = 0;
  for (size_t i = 0; i < n && !of; i++)
    for (int k = 0; k < 2 && !of; k++) {
      static const size_t words[] = {3, 1};
      char part[DAY];
      if (i + words[k] > n) continue;
      const char *end = word[i + words[k] - 1] + length[i + words[k] - 1];
      while (end > word[i] && strchr(",.:", end[-1]))
        end--;
      if (end - word[i] >= DAY) continue;
      snprintf(part, sizeof part, "%.*s", (int)(end - word[i]), word[i]);
      if (a_day(part)) {
        day = i;
        of = words[k];
      }
    }
  for (size_t i = 0; i < n; i++)
    for (size_t k = 0; (i < day || i >= day + of) && k < length[i]; k++)
      letters += isalpha((unsigned char)word[i][k]) || (unsigned char)word[i][k] >= 0x80;
  return of > 0 && letters >= LETTERS;
}
