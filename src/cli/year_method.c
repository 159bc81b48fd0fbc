#include "cli/year_method.h"

#include <string.h>

const char *cli_year_word(pw_year_method method)
{
  /* Biases: table screening. */
  static const char *const word[] = {
      "hour by hour: heat balance of every surface",
      "hour by hour: one mass node (ISO 13790), for screening: 18 % less heating and 1 % less "
      "cooling saved than by the full balance",
      "month by month: utilisation factors (ISO 13790), for screening: 6 % more heating and "
      "30 % more cooling saved than by the full balance"};
  return word[method];
}

pw_status cli_year_method(const cli_args *args, pw_year_method *method, pw_err *err)
{
  const char *word = cli_get(args, "method");
  *method = PW_YEAR_DETAILED;
  if (cli_get(args, "quick")) *method = PW_YEAR_QUICK;
  if (!word) return PW_OK;
  if (strcmp(word, "simple") == 0)
    *method = PW_YEAR_SIMPLE;
  else if (strcmp(word, "monthly") == 0)
    *method = PW_YEAR_QUICK;
  else if (strcmp(word, "detailed") != 0)
    return pw_fail(err, PW_E_DOMAIN, "option", "--method %s: want detailed, simple or monthly",
                   word);
  return PW_OK;
}
