/* No output of a command may be one of its inputs. */
#ifndef CLI_PATHS_H
#define CLI_PATHS_H

#include "cli/command.h"

/* Looks at what the command line names before anything is opened: an output (--output, --order, --plot,
 * --rejects, --records, and the journal beside a batch or records) must be no file that is an argument, the value of another
 * option, standard input or standard output, nor a name by which a folder given is read, nor another
 * output; links change nothing. Files that only a job names are noted as they are read
 * (job/inputs.h) and looked at before the output is written.
 * Status PW_OK; PW_E_CREATE; PW_E_NOMEM. */
pw_status cli_paths_check(const cli_args *args, pw_err *err);

#endif
