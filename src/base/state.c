#include "base/state.h"

#include <string.h>

#include "base/ascii.h"
#include "base/nearest.h"
#include "gen/reference.h"

enum { WORD_MAX = 32 };

int pw_state_find(const char *text, const char **code, const char **near)
{
  char plain[WORD_MAX];
  const char *name[pw_ref_states__n];
  size_t n = 0, states = pw_ref_states__n;
  if (near) *near = NULL;
  for (; *text && n + 1 < WORD_MAX; text++)
    if (*text != '.') plain[n++] = pw_lower(*text);
  plain[n] = '\0';
  if (*text) return 0;
  for (size_t i = 0; i < states; i++) {
    name[i] = pw_ref_states[i].name;
    if (pw_edit_distance(plain, pw_ref_states[i].code) == 0 ||
        pw_edit_distance(plain, name[i]) == 0) {
      *code = pw_ref_states[i].code;
      return 1;
    }
  }
  if (near && n > 3) *near = pw_nearest(plain, name, states);
  return 0;
}
