/* A folder for one helper alone, made for it and gone with it; a file for this run alone. */
#ifndef OUT_PRIVATE_FOLDER_H
#define OUT_PRIVATE_FOLDER_H

#include <stdio.h>

#include "out/target.h"

/* Makes one, 0700, in $TMPDIR or /tmp. Status PW_OK; PW_E_CREATE, PW_E_IO when the disk is full. */
pw_status pw_private_folder(char path[PW_PATH_SIZE], pw_err *err);

/* Removes it with all that is in it; follows no link. */
void pw_private_folder_remove(const char *path);

/* A file without a name in the same place, to write and read, gone with the run. NULL: PW_E_CREATE in err. */
FILE *pw_private_file(pw_err *err);

#endif
