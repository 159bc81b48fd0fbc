/* Which part of a job a command looks at: --phase, --earlier. */
#ifndef CLI_JOB_VIEW_H
#define CLI_JOB_VIEW_H

#include "cli/command.h"
#include "panewright/survey.h"

/* Takes the part that the options name, those that the command has; nothing without them. otherwise: the
 * package of earlier phases where --earlier does not say, or NULL. */
pw_status cli_job_view(const cli_args *args, const char *otherwise, pw_job *job, pw_err *err);

/* Rows for option tables. */
#define CLI_PHASE                                                                              \
  {                                                                                            \
    "phase", "N", "only the windows of that phase (all together): later ones stay as they are" \
  }
#define CLI_DWELLING                                                                           \
  {                                                                                            \
    "dwelling", "NAME", "one of several dwellings on the job (column dwelling)"                \
  }
#define CLI_EARLIER                                                                            \
  {                                                                                            \
    "earlier", "NAME", "with --phase: the package that the phases before it have got"          \
  }

#endif
