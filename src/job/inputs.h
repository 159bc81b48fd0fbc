/* Which files the run has read, or would read by what a job names: no output may go onto one.
 *
 * A file is known by device and inode, so a link or another spelling of its path does not hide it.
 * Any thread may call; the list lives as long as the process.
 */
#ifndef JOB_INPUTS_H
#define JOB_INPUTS_H

#include <sys/stat.h>

#include "panewright/status.h"

/* Notes a file that is open for reading, or one by its name. What is no regular file, or is not
 * there, is passed over. Status PW_OK; PW_E_NOMEM (the file must then not be used). */
pw_status pw_inputs_note(int fd, pw_err *err);
pw_status pw_inputs_note_path(const char *path, pw_err *err);

/* 1 when that file is one of them. */
int pw_inputs_has(const struct stat *file);

#endif
