/* Every published case that panewright recomputes (src/check/): a row that misses fails here, with
 * its value, ours, tolerance and source. One test a group. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#include "check/check.h"

typedef struct tally {
  size_t held, missed, advisory;
} tally;

static void take_row(void *context, const pw_check_row *row)
{
  tally *t = context;
  if (pw_check_holds(row)) {
    t->held++;
    return;
  }
  if (row->advisory)
    t->advisory++;
  else
    t->missed++;
  print_message(
      "%s %s %s: ours %.8g, published %.8g +- %.3g (range %.6g .. %.6g) %s; source: %s (%s)\n",
      row->advisory ? "noted" : "MISSED", row->id, row->quantity, row->ours, row->want,
      row->tolerance, row->low, row->high, row->unit, row->source, row->how_known);
}

static void take_note(void *context, const char *text)
{
  (void)context;
  print_message("note: %s\n", text);
}

static void group_holds(void **state)
{
  const pw_check_group *group = *state;
  tally t = {0};
  pw_err err = {0};
  pw_check_sink sink = {take_row, take_note, &t, "reference/checks", NULL};
  if (group->run(&sink, &err) != PW_OK) fail_msg("%s: %s", group->name, err.text);
  print_message("%s: %zu hold, %zu missed, %zu off but noted\n", group->name, t.held, t.missed,
                t.advisory);
  assert_int_equal(t.missed, 0);
}

int main(void)
{
  pw_test_begin();
  struct CMUnitTest *tests = calloc(pw_check_group_count, sizeof *tests);
  if (!tests) return 1;
  size_t n = 0;
  for (size_t i = 0; i < pw_check_group_count; i++) {
    if (pw_check_apart(pw_check_groups[i])) continue; /* .ci/run runs them by name */
    tests[n].name = pw_check_groups[i]->name;
    tests[n].test_func = group_holds;
    tests[n++].initial_state = (void *)(uintptr_t)pw_check_groups[i];
  }
  int failed = _cmocka_run_group_tests("published cases", tests, n, NULL, NULL);
  free(tests);
  return failed;
}
