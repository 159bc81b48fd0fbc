#include "job/glass_word.h"

#include <stdio.h>

#include "job/field.h"

/* Old single glass is 1/8 in; an old sealed unit about 1/2 in over all (1/8, 1/4 air, 1/8). Tempering
 * changes neither heat nor light. */
enum { CLEAR, TINTED, OBSCURE, TEMPERED, DOUBLE, DOUBLE_TINTED, DOUBLE_OBSCURE, TRIPLE };

static const char *const buildup[] = {
    [CLEAR] = "3mm clear",
    [TINTED] = "3mm bronze",
    [OBSCURE] = "3mm obscure",
    [TEMPERED] = "3mm clear",
    [DOUBLE] = "3mm clear / 6.35mm air / 3mm clear",
    [DOUBLE_TINTED] = "3mm bronze / 6.35mm air / 3mm clear",
    [DOUBLE_OBSCURE] = "3mm obscure / 6.35mm air / 3mm clear",
    [TRIPLE] = "3mm clear / 6.35mm air / 3mm clear / 6.35mm air / 3mm "
               "clear"};

static const job_word word[] = {{"single", CLEAR},
                                {"single_clear", CLEAR},
                                {"single_pane", CLEAR},
                                {"single_glass", CLEAR},
                                {"clear", CLEAR},
                                {"tinted", TINTED},
                                {"tint", TINTED},
                                {"single_tinted", TINTED},
                                {"bronze", TINTED},
                                {"obscure", OBSCURE},
                                {"obscured", OBSCURE},
                                {"single_obscure", OBSCURE},
                                {"privacy", OBSCURE},
                                {"tempered", TEMPERED},
                                {"single_tempered", TEMPERED},
                                {"tempered_clear", TEMPERED},
                                {"double", DOUBLE},
                                {"double_pane", DOUBLE},
                                {"double_clear", DOUBLE},
                                {"dual_pane", DOUBLE},
                                {"insulated", DOUBLE},
                                {"double_tinted", DOUBLE_TINTED},
                                {"double_obscure", DOUBLE_OBSCURE},
                                {"triple", TRIPLE},
                                {"triple_pane", TRIPLE}};

const char *job_glass_word(const char *text)
{
  const char *near = NULL;
  int meaning = job_word_find(word, JOB_COUNT(word), text, &near);
  return meaning < 0 ? NULL : buildup[meaning];
}

void job_glass_word_take(char text[], size_t size, const char *file, int line, const char *tag,
                         pw_notes *notes)
{
  const char *taken = job_glass_word(text);
  if (!taken) return;
  pw_notes_warn(notes, file, line, "%s: existing_glass '%.40s' is taken as %s", tag, text,
                taken);
  snprintf(text, size, "%s", taken);
}
