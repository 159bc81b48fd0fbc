/* The example compared once for the tests of the customer's sheet. */
#ifndef TESTS_SHEET_FIXTURE_H
#define TESTS_SHEET_FIXTURE_H

#include <stdio.h>
#include <stdlib.h>

#include "job/job_open.h"
#include "out/sheet.h"
#include "support.h"

typedef struct fixture {
  pw_open_job open;
  pw_compare compare;
  pw_range range;
  pw_compare_sound sound;
  pw_compare_frame frame;
} fixture;

static char *sheet_said(const fixture *f, const pw_compare_frame *frame, int si,
                        const pw_tongue *tongue)
{
  char *text = NULL;
  size_t size = 0;
  pw_err err = {0};
  pw_sheet sheet = {&f->compare,
                    frame,
                    pw_units(si),
                    {.job = &f->open.job, .si = si, .version = "0123abcd", .date = 20261129}};
  FILE *out = open_memstream(&text, &size);
  assert_non_null(out);
  pw_html h = {out, tongue};
  pw_status status = pw_sheet_html(&sheet, &h, &err);
  fclose(out);
  if (status != PW_OK) fail_msg("%s", err.text);
  return text;
}

static char *sheet_text(const fixture *f, const pw_compare_frame *frame, int si)
{
  return sheet_said(f, frame, si, NULL);
}

static int set_up(void **state)
{
  fixture *f = calloc(1, sizeof *f);
  pw_err err = {0};
  if (!f || pw_job_open("examples/harrow_bend", &f->open, &err) != PW_OK) return -1;
  pw_compare_options options = pw_job_options(&f->open, PW_YEAR_DETAILED);
  pw_range_options draws = {
      .n_draw = 256, .seed = 5, .n_thread = 2, .method = PW_RANGE_REDUCED};
  if (pw_compare_run(&f->open.job, f->open.weather, &options, NULL, &f->compare, &err) !=
          PW_OK ||
      pw_range_of(&f->compare, f->open.weather, PW_YEAR_QUICK, &draws, &f->range, &err) !=
          PW_OK ||
      pw_compare_sound_of(&f->compare, &f->sound, &err) != PW_OK) {
    print_error("%s\n", err.text);
    return -1;
  }
  f->frame = (pw_compare_frame){.climate = f->open.climate,
                                .method = "hour by hour",
                                .notes = &f->open.notes,
                                .range = &f->range,
                                .sound = &f->sound};
  *state = f;
  return 0;
}

static int tear_down(void **state)
{
  fixture *f = *state;
  pw_compare_sound_free(&f->sound);
  pw_compare_free(&f->compare);
  pw_job_close(&f->open);
  free(f);
  return 0;
}

#endif
