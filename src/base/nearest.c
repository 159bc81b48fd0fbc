#include "base/nearest.h"

#include <string.h>

enum { WORD_MAX = 64 };

static char lower(char c) { return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c; }

size_t pw_edit_distance(const char *a, const char *b)
{
  size_t n = strlen(a), m = strlen(b);
  if (n > WORD_MAX || m > WORD_MAX) return n > m ? n : m;
  size_t row[3][WORD_MAX + 1];
  for (size_t j = 0; j <= m; j++)
    row[0][j] = j;
  for (size_t i = 1; i <= n; i++) {
    size_t *now = row[i % 3], *last = row[(i + 2) % 3], *before = row[(i + 1) % 3];
    now[0] = i;
    for (size_t j = 1; j <= m; j++) {
      size_t cost = lower(a[i - 1]) != lower(b[j - 1]);
      size_t best = last[j - 1] + cost;
      if (last[j] + 1 < best) best = last[j] + 1;
      if (now[j - 1] + 1 < best) best = now[j - 1] + 1;
      if (i > 1 && j > 1 && lower(a[i - 1]) == lower(b[j - 2]) &&
          lower(a[i - 2]) == lower(b[j - 1]) && before[j - 2] + 1 < best)
        best = before[j - 2] + 1;
      now[j] = best;
    }
  }
  return row[n % 3][m];
}

const char *pw_nearest(const char *word, const char *const known[], size_t n)
{
  const char *found = NULL;
  size_t best = strlen(word) < 4 ? 2 : 3;
  for (size_t i = 0; i < n; i++) {
    size_t d = pw_edit_distance(word, known[i]);
    if (d < best) {
      best = d;
      found = known[i];
    }
  }
  return found;
}
