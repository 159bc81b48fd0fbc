/* What the fuzz targets share. One program holds them all; the name that it is called by says which one runs. */
#ifndef FUZZ_FUZZ_H
#define FUZZ_FUZZ_H

#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include "job/notes.h"
#include "panewright/survey.h"

/* Each target takes the bytes of a file; behind text[size] is nothing, so that a byte read too far is seen. */
#define TARGET(name, share) void fuzz_##name(const char *text, size_t size);
#include "targets.def"
#undef TARGET

/* A refusal says something, in one line. */
void fuzz_said(pw_status status, const pw_err *err);

/* What the reader noted is printed, then freed. */
void fuzz_notes(pw_notes *notes);

/* The bytes as a file, for readers that want a path; the same name for as long as the program runs. */
const char *fuzz_file(const char *text, size_t size);

/* A folder of this run's own, in memory where there is such a place. */
const char *fuzz_folder(void);

/* Text and NUL, owned by the caller: for readers of strings. */
char *fuzz_string(const char *text, size_t size);

/* A small job for the files that stand beside one; it owns nothing of the caller's. */
pw_job fuzz_small_job(void);

#endif
