/* The option --package of the commands that look at one package. */
#ifndef CLI_PACKAGE_CHOICE_H
#define CLI_PACKAGE_CHOICE_H

#include <stddef.h>

#include "cli/command.h"
#include "panewright/survey.h"

/* Given     args, job; otherwise  the package taken when none is named
 * Returned  *package
 * Status    PW_OK; PW_E_DATA the job has none of that name (the nearest is offered)
 */
pw_status cli_package(const cli_args *args, const pw_job *job, size_t otherwise,
                      size_t *package, pw_err *err);

/* The same; without a name the first package that has a label value for some opening, else the first. */
pw_status cli_package_labelled(const cli_args *args, const pw_job *job, size_t *package,
                               pw_err *err);

#endif
