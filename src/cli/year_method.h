/* The option --method (and --quick) of the commands that live through a year. */
#ifndef CLI_YEAR_METHOD_H
#define CLI_YEAR_METHOD_H

#include "cli/command.h"
#include "panewright/year.h"

#define CLI_METHOD                                                                             \
  {                                                                                            \
    "method", "WORD", "detailed (hour by hour); for screening simple or monthly"               \
  }

/* The method asked for; detailed when none is. PW_E_DOMAIN with the field "option" for an unknown word. */
pw_status cli_year_method(const cli_args *args, pw_year_method *method, pw_err *err);

/* What a method is, for print. */
const char *cli_year_word(pw_year_method method);

#endif
