/* What people write in a cell: lengths, numbers, dates, units, rooms, places, unknown names, code pages. */
#include <math.h>
#include <stdlib.h>

#include "base/state.h"
#include "base/windows1252.h"
#include "climate/place_find.h"
#include "fuzz.h"
#include "job/date_text.h"
#include "job/measure.h"
#include "job/number.h"
#include "job/room_name.h"
#include "job/unit_text.h"
#include "job/unknown.h"

static const pw_unit_word unit[] = {
    {"$/kWh", 1.0, 0.0}, {"F", 1 / 1.8, -32 / 1.8}, {"%", 0.01, 0}, {"ft2", 0.09, 0}};
enum { N_UNIT = sizeof unit / sizeof unit[0] };

/* What is taken is finite, in its range, and comes back as it is printed. */
void fuzz_measure(const char *bytes, size_t size)
{
  char *text = fuzz_string(bytes, size), again[64];
  double length = 0.0, back = 0.0;
  pw_given given;
  pw_err err = {0};
  pw_status status = pw_measure_read(text, &length, &err);
  fuzz_said(status, &err);
  if (status == PW_OK) {
    if (!(length >= 0.0 && isfinite(length))) abort();
    pw_measure_text(length, again, sizeof again);
    if (length < 1e4 &&
        (pw_measure_read(again, &back, NULL) != PW_OK || fabs(back - length) > 2e-4))
      abort();
  }
  if (pw_number_read(text, unit, N_UNIT, -1e6, 1e6, &given, NULL, NULL) == PW_OK &&
      !(fabs(given.value) <= 1e6 && given.spread >= 0.0))
    abort();
  free(text);
}

/* A place that is offered is one that is taken. */
void fuzz_place(const char *bytes, size_t size)
{
  char *text = fuzz_string(bytes, size);
  enum { MOST = 3 };
  pw_place_hit hit;
  pw_place_choice choice[MOST];
  pw_err err = {0};
  fuzz_said(pw_place_look(text, &hit, &err), &err);
  for (size_t i = pw_place_like(text, choice, MOST); i-- > 0;)
    if (pw_place_look(choice[i].write, &hit, &err) != PW_OK) abort();
  free(text);
}

void fuzz_spelling(const char *bytes, size_t size)
{
  static const char *const known[] = {"floor_area", "width_bottom"};
  char *text = fuzz_string(bytes, size), iso[11], plain[JOB_UNIT_MAX];
  const char *code = NULL, *near = NULL;
  int over = 0, under = 0;
  pw_err err = {0};
  pw_notes notes = {0};
  job_unknown_at at = {"f", 1, 1, "item", 1};
  fuzz_said(job_date_read(text, iso, &err), &err);
  if (job_date_turned(text, &over, &under) && under && over >= under) abort();
  job_unit_plain(text, plain);
  job_room_read(text);
  pw_state_find(text, &code, &near);
  job_unknown_name(text, known, 2, &at, &notes, &err);
  fuzz_notes(&notes);
  size_t n = 0, bad = 0;
  free(pw_windows1252_to_utf8(bytes, size, &n, &bad));
  free(text);
}
