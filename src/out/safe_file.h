/* The one place through which every document, picture and list reaches the disk, whole or not at all.
 *
 * put writes a temporary file beside the target, synced to the disk; settle, at the end of the run, when
 * standard output is out as well, gives all of them their names. What fails or is stopped on the way
 * leaves nothing behind, folders made for it included. A file that is there keeps its mode, and its
 * owner where the system lets it; one that may not be written is not replaced; a symlink is followed;
 * a device or pipe is written to at once. A target that is an input of the run (job/inputs.h), or
 * another of its outputs, is refused before anything is written.
 */
#ifndef OUT_SAFE_FILE_H
#define OUT_SAFE_FILE_H

#include <stddef.h>

#include "panewright/status.h"

/* Status PW_OK; PW_E_CREATE the target cannot be had; PW_E_IO the disk is full or fails; PW_E_NOMEM. */
pw_status pw_safe_put(const char *path, const char *text, size_t size, pw_err *err);

/* The same, but a file that is there by then is never replaced. */
pw_status pw_safe_put_new(const char *path, const char *text, size_t size, pw_err *err);

/* Whether put would be refused; for asking before the work of making the text. */
pw_status pw_safe_check(const char *path, pw_err *err);

/* Makes a folder when it is missing; one that was made goes again when the run fails. */
pw_status pw_safe_folder(const char *dir, pw_err *err);

/* Gives all files their names. On failure all is as before (where the file system can swap names; else
 * what was replaced stays new and whole). */
pw_status pw_safe_settle(pw_err *err);

/* Drops what was not settled; harmless at any time. */
void pw_safe_drop(void);

/* All of a text to an open descriptor, whatever interrupts: 0, or the errno of what failed. */
int pw_write_all(int fd, const char *text, size_t size);

#endif
