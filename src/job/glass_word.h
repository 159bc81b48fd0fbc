/* Glass that is there, by the words people have for it. */
#ifndef JOB_GLASS_WORD_H
#define JOB_GLASS_WORD_H

#include <stddef.h>

#include "job/notes.h"

/* The build-up that a word such as "single clear", "tinted" or "double pane" is taken for, or NULL when it is
 * none of ours (then it is read as a build-up). Thicknesses: common practice, no source. */
const char *job_glass_word(const char *text);

/* Puts that build-up in the word's place and says which was taken. */
void job_glass_word_take(char text[], size_t size, const char *file, int line, const char *tag,
                         pw_notes *notes);

#endif
