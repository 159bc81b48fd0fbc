/* What people write in a cell: dates, units, numbers, rooms, places, unknown names, code pages. */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/state.h"
#include "base/windows1252.h"
#include "climate/place_find.h"
#include "job/date_text.h"
#include "job/number.h"
#include "job/room_name.h"
#include "job/unit_text.h"
#include "job/unknown.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  static const pw_unit_word unit[] = {{"ft2", 0.09, 0}, {"$/kWh", 1, 0}, {"F", 1 / 1.8, -17.8}};
  static const char *const known[] = {"floor_area", "width_bottom"};
  char *text = malloc(size + 1);
  if (!text) return 0;
  memcpy(text, data, size);
  text[size] = '\0';
  char iso[11], plain[JOB_UNIT_MAX];
  const char *code = NULL, *near = NULL;
  int over = 0, under = 0;
  pw_err err = {0};
  pw_given given;
  pw_place_hit hit;
  pw_notes notes = {0};
  job_unknown_at at = {"f", 1, 1, "item", 1};
  job_date_read(text, iso, &err);
  if (job_date_turned(text, &over, &under) && under && over >= under) abort();
  job_unit_plain(text, plain);
  pw_number_read(text, unit, 3, -1e9, 1e9, &given, NULL, &err);
  job_room_read(text);
  pw_state_find(text, &code, &near);
  pw_place_look(text, &hit, &err);
  job_unknown_name(text, known, 2, &at, &notes, &err);
  pw_notes_free(&notes);
  size_t n = 0, bad = 0;
  free(pw_windows1252_to_utf8((const char *)data, size, &n, &bad));
  free(text);
  return 0;
}
