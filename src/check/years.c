#include "check/years.h"

#include <stdlib.h>

pw_status pw_check_years(const pw_check_sink *sink, size_t desk, pw_check_years_work *work,
                         pw_err *err)
{
  void *at = calloc(1, desk);
  pw_year_workspace *ws = pw_year_workspace_new();
  pw_status s = at && ws ? work(at, sink, ws, err)
                         : pw_fail(err, PW_E_NOMEM, NULL, "no memory for a year");
  pw_year_workspace_free(ws);
  free(at);
  return s;
}
