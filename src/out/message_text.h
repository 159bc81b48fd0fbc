/* The sentence of a message (panewright/message.h), in any language. Every argument is a %s there: lengths as the tape
 * reads, in every system of units, as makers and crews want them. */
#ifndef OUT_MESSAGE_TEXT_H
#define OUT_MESSAGE_TEXT_H

#include <stddef.h>

#include "out/tongue.h"
#include "panewright/message.h"

enum {
  PW_MESSAGE_TEXT = 640
}; /* holds the longest with the longest names (tests/test_message.c) */

/* Makes the sentence and returns text; tongue NULL: English. */
const char *pw_message_text(const pw_tongue *tongue, const pw_message *message, char text[],
                            size_t size);

/* A sentence or a word that has no arguments. */
const char *pw_message_word(const pw_tongue *tongue, pw_message_number number);

/* Its English wording with a %s for each argument; the key of the catalogue. */
const char *pw_message_wording(pw_message_number number);

#endif
