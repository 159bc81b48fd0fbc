/* The command itself: how much memory it takes, however long the input. */
#define _DEFAULT_SOURCE /* wait4 */
#include "support.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#if defined(__SANITIZE_ADDRESS__)
enum { SANITIZED = 1 };
#else
enum { SANITIZED = 0 };
#endif

/* Peak memory (MB) of a batch over that many example rows, its status in *status. */
static double peak_mb(const char *energy, long rows, int *status)
{
  char line[256];
  struct rusage use;
  const char *build = getenv("BUILD");
  if (!build) build = "build";
  snprintf(line, sizeof line, "%s/panewright batch --example %ld", build, rows);
  FILE *source = popen(line, "r");
  assert_non_null(source);
  fflush(NULL);
  pid_t child = fork();
  if (child == 0) {
    dup2(fileno(source), STDIN_FILENO);
    if (!freopen("/dev/null", "w", stdout)) _exit(99);
    snprintf(line, sizeof line, "%s/panewright", build);
    execl(line, line, "batch", "--threads", "2", "--energy", energy, (char *)NULL);
    _exit(98);
  }
  assert_true(child > 0);
  assert_int_equal(wait4(child, status, 0, &use), child);
  pclose(source);
  return (double)use.ru_maxrss / 1024.0;
}

/* The bound is 64 MB; with two threads it is held at half of it, so that more threads have room. */
static void memory_does_not_grow_with_the_input(void **state)
{
  static const char *const energy[] = {"monthly", "hourly"};
  static const long rows[] = {3000, 30000};
  (void)state;
  if (SANITIZED) skip();
  for (int e = 0; e < 2; e++) {
    double mb[2];
    for (int k = 0; k < 2; k++) {
      int status = -1;
      mb[k] = peak_mb(energy[e], rows[k] / (e ? 3 : 1), &status);
      assert_true(WIFEXITED(status));
      assert_int_equal(WEXITSTATUS(status), 0);
    }
    printf("%s: %.1f MB for %ld rows, %.1f MB for %ld\n", energy[e], mb[0], rows[0], mb[1],
           rows[1]);
    assert_true(mb[1] < 32.0);
    assert_true(mb[1] < mb[0] + 4.0);
  }
}

int main(void)
{
  const struct CMUnitTest tests[] = {cmocka_unit_test(memory_does_not_grow_with_the_input)};
  pw_test_begin();
  return cmocka_run_group_tests(tests, NULL, NULL);
}
