/* A named input file, whole in memory: the one place where the readers open files.
 *
 * A named file is a regular one (a device, pipe or folder is refused without waiting for it) and no larger
 * than its kind allows, unpacked where it is gzip. It is noted as an input, so that no output goes onto it. */
#ifndef JOB_INPUT_TEXT_H
#define JOB_INPUT_TEXT_H

#include <stddef.h>

#include "panewright/status.h"

enum { PW_INPUT_PATH = 4096 };

/* dir/name. Status PW_E_MISSING it is too long to be there. */
pw_status pw_input_path(const char *dir, const char *name, char path[PW_INPUT_PATH],
                        pw_err *err);

/* What a file is for; its limit stands in one table (input_text.c). */
typedef enum pw_input_kind {
  PW_INPUT_JOB = 0, /* a CSV of a job, program, tariff, catalogue, house, spectrum */
  PW_INPUT_SECTION, /* a drawn frame section */
  PW_INPUT_WEATHER, /* an hourly year */
  PW_INPUT_FEED,    /* bills, or a utility's usage feed */
  PW_INPUT_KEPT, /* a list that the run itself adds to (promise.csv): not noted as an input */
  PW_INPUT_KIND_COUNT
} pw_input_kind;

/* Reads a file.
 *
 * Returned  *text (owned by the caller, ended by '\0'), *size without it
 * Status    PW_OK; PW_E_MISSING not there, no leave, or no regular file; PW_E_DATA larger than its kind
 *           may be, packed data damaged; PW_E_IO; PW_E_NOMEM. On failure *text is NULL.
 */
pw_status pw_input_read(const char *path, pw_input_kind kind, char **text, size_t *size,
                        pw_err *err);

#endif
