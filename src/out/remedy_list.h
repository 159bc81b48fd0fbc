/* What else would fit a failing escape opening, in words: the lead, then a line each, what would pass first. */
#ifndef OUT_REMEDY_LIST_H
#define OUT_REMEDY_LIST_H

#include "out/message_text.h"
#include "window/escape.h"

typedef struct pw_remedy_list {
  const char *lead;
  size_t n;
  char line[PW_REMEDIES_MAX][PW_MESSAGE_TEXT];
} pw_remedy_list;

void pw_remedy_list_of(const pw_tongue *tongue, const pw_opening *opening, const pw_fit *fit,
                       pw_remedy_list *list);

#endif
