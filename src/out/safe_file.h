/* A file that is written whole or not at all: to a temporary name beside the target, then renamed. */
#ifndef OUT_SAFE_FILE_H
#define OUT_SAFE_FILE_H

#include <stdio.h>

#include "panewright/status.h"

typedef struct pw_safe_file {
  FILE *f;         /* write here */
  char path[4096]; /* target */
  char temp[4128]; /* temporary name; "" when closed */
} pw_safe_file;

/* Opens for writing. Status PW_OK; PW_E_CREATE. */
pw_status pw_safe_open(pw_safe_file *file, const char *path, pw_err *err);

/* Only reserves the temporary name (for another program that writes it); file->f is NULL. */
pw_status pw_safe_reserve(pw_safe_file *file, const char *path, pw_err *err);

/* Flushes, syncs and renames. Status PW_OK; PW_E_IO (full disk), the target is then untouched. */
pw_status pw_safe_commit(pw_safe_file *file, pw_err *err);

/* Drops what was written; harmless after commit. */
void pw_safe_drop(pw_safe_file *file);

#endif
