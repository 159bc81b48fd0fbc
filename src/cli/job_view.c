#include "cli/job_view.h"

#include <math.h>

#include "job/phase.h"

pw_status cli_job_view(const cli_args *args, const char *otherwise, pw_job *job, pw_err *err)
{
  const char *earlier = cli_get(args, "earlier");
  double phase = 0.0;
  if (!cli_get(args, "phase")) {
    if (earlier)
      return pw_fail(err, PW_E_DATA, "earlier", "--earlier wants --phase N beside it");
    return PW_OK;
  }
  pw_status status = cli_number(args, "phase", 1.0, PW_PHASES_MAX, &phase, err);
  if (status == PW_OK && floor(phase) != phase)
    status = pw_fail(err, PW_E_DOMAIN, "option", "--phase %s: want a whole number",
                     cli_get(args, "phase"));
  if (status != PW_OK) return status;
  status = pw_job_take_phase(job, (int)phase, earlier ? earlier : otherwise, err);
  return cli_ask("phase", status, err);
}
