/* Whole text files compiled in (gnuplot templates, the example job, style sheets). */
#ifndef JOB_TEXT_FILE_H
#define JOB_TEXT_FILE_H

#include <stddef.h>

typedef struct pw_text_file {
  const char *path; /* from the project's top, such as "plots/unit.gp" */
  const char *text;
  size_t size;
} pw_text_file;

extern const pw_text_file pw_text_files[];
extern const unsigned pw_text_file_count;

/* The text of that path, or NULL. */
const char *pw_text_file_find(const char *path);

#endif
