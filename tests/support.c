#include "support.h"

#include <gsl/gsl_errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

void pw_assert_near_at(double got, double want, double tolerance, const char *what,
                       const char *source, const char *file, int line)
{
  if (fabs(got - want) <= tolerance) return;
  print_error("%s: got %.10g, want %.10g +- %.3g (off by %.3g); source: %s\n", what, got, want,
              tolerance, got - want, source);
  _fail(file, line);
}

const char *pw_shared(const char *name)
{
  static char path[512];
  const char *root = getenv("PW_SHARED");
  snprintf(path, sizeof path, "%s/%s", root ? root : "../shared", name);
  return access(path, R_OK) == 0 ? path : NULL;
}

void pw_skip(const char *name)
{
  print_message("skipped: %s is not there (set PW_SHARED)\n", name);
  skip();
}

void pw_test_begin(void) { gsl_set_error_handler_off(); }
