/* Where an output really goes. A symlink is followed, everywhere alike, also one that points to a
 * file that is not there yet; what is renamed or opened is the file at its end. */
#ifndef OUT_TARGET_H
#define OUT_TARGET_H

#include <sys/stat.h>

#include "panewright/status.h"

enum { PW_PATH_SIZE = 4096 };

typedef struct pw_target {
  char path[PW_PATH_SIZE]; /* absolute, no link left in it */
  int there;               /* 1: it exists, and is holds what it is */
  struct stat is;
} pw_target;

/* Status PW_OK; PW_E_CREATE no such folder, no leave, too long, a ring of links. */
pw_status pw_target_find(const char *path, pw_target *target, pw_err *err);

/* 1 when both are one file, also by way of hard links. */
int pw_target_same(const pw_target *a, const pw_target *b);

#endif
