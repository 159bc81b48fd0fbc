/* A house of our own files in the weather of a built-in place, and two years of it to hold against each other. */
#ifndef TESTS_HOUSE_FIXTURE_H
#define TESTS_HOUSE_FIXTURE_H

#include "support.h"

#include <stdlib.h>

#include "climate/month.h"
#include "job/house_file.h"
#include "panewright/year.h"

typedef struct fixture {
  pw_weather weather;
  pw_house_file file;
  pw_year_result a, b;
} fixture;

static int set_up(void **state)
{
  fixture *f = calloc(1, sizeof *f);
  pw_place place;
  if (!f || pw_place_get(0, &place, NULL) != PW_OK ||
      pw_month_year(&place, PW_MONTH_VARIED_DAYS, &f->weather, NULL) != PW_OK)
    return 1;
  *state = f;
  return 0;
}

static int tear_down(void **state)
{
  free(*state);
  return 0;
}

static void open_house(fixture *f, const char *name)
{
  pw_err err = {0};
  if (pw_house_file_builtin(name, &f->file, &err) != PW_OK) fail_msg("%s", err.text);
}

#endif
