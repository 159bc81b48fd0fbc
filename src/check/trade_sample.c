#include "check/trade_sample.h"
#include "check/table_rows.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "job/field.h"
#include "job/measure.h"
#include "job/words.h"
#include "panewright/units.h"
#include "window/frame_line.h"

static const char *cell(const pw_table *t, size_t row, const char *column)
{
  return row_text(t, row, column);
}

/* The measured length of a cell; absent when it is blank. */
static double length(const pw_table *t, size_t row, const char *column, double absent)
{
  double v = absent;
  pw_measure_read(cell(t, row, column), &v, NULL);
  return v;
}

static pw_status take_opening(const pw_table *t, size_t r, pw_opening *o, pw_err *err)
{
  static const char *const width[3] = {"width_bottom", "width_mid", "width_top"};
  static const char *const height[3] = {"height_left", "height_mid", "height_right"};
  memset(o, 0, sizeof *o);
  snprintf(o->tag, sizeof o->tag, "%s", cell(t, r, "mark"));
  const char *config = cell(t, r, "config");
  for (size_t n = 0; *config; config++)
    if (*config != '/') o->config[n++] = *config;
  for (int i = 0; i < 3; i++) {
    o->width[i] = length(t, r, width[i], 0.0);
    o->height[i] = length(t, r, height[i], 0.0);
  }
  o->diagonal[0] = length(t, r, "diag_1", 0.0);
  o->diagonal[1] = length(t, r, "diag_2", 0.0);
  int kind = job_word_find(job_operator_word, job_operator_words, cell(t, r, "operator"), NULL);
  if (kind < 0) return pw_fail(err, PW_E_DATA, "operator", "%s: unknown operator", o->tag);
  o->operator_existing = strlen(o->config) == 3 ? PW_FLANKER : (pw_operator)kind;
  o->operator_insert = o->operator_existing;
  o->fin_width = length(t, r, "side_fin_each", 0.0);
  o->fins_stay = strcmp(cell(t, r, "fins_removable"), "Y") != 0;
  o->fins_cut = o->fins_stay ? 0 : 2;
  o->sill_lip = length(t, r, "sill_lip", 0.0);
  o->lip_stay = strcmp(cell(t, r, "lip_removable"), "Y") != 0;
  o->sill_lip_cut = !o->lip_stay;
  o->frame_face = pw_existing_frame_face(o->operator_existing);
  o->sash_face = pw_existing_sash_face();
  o->meeting_face = pw_existing_meeting_face();
  o->quantity = 1;
  o->sill_height = length(t, r, "sill_above_floor", PW_NOT_GIVEN);
  o->drop_outside = length(t, r, "drop_outside", PW_NOT_GIVEN);
  o->near_walk = length(t, r, "walkway_within", PW_NOT_GIVEN);
  o->near_door = length(t, r, "door_edge_within", PW_NOT_GIVEN);
  o->near_water = length(t, r, "wet_area_within", PW_NOT_GIVEN);
  int use = job_word_find(job_use_word, job_use_words, cell(t, r, "room_type"), NULL);
  o->use = use < 0 ? PW_USE_OTHER : (pw_use)use;
  return PW_OK;
}

/* The few facts of the site that the cautions look at. */
static void take_site(const pw_table *t, pw_house_facts *house)
{
  house->plant_elevation.value = (double)NAN;
  house->wind_pressure = (double)NAN;
  house->open_combustion = house->coastal = house->wildfire = house->leak_history = -1;
  for (size_t r = 0; r < t->n_row; r++) {
    const char *key = pw_table_text(t, r, 0), *value = pw_table_text(t, r, 1);
    if (strcmp(key, "year_built") == 0) house->year_built = atoi(value);
    if (strcmp(key, "fire_zone") == 0) house->wildfire = value[0] == 'Y';
    if (strcmp(key, "leak_history") == 0) house->leak_history = value[0] == 'Y';
    if (strcmp(key, "open_combustion_appliance") == 0) house->open_combustion = value[0] == 'Y';
    if (strcmp(key, "elevation_ft") == 0) house->elevation.value = atof(value) * PW_FOOT;
  }
}

pw_status trade_sample_read(const char *name, trade_sample *s, pw_err *err)
{
  char path[96];
  const char *const part[3] = {"windows", "expected", "site"};
  const pw_table *table[3];
  for (int i = 0; i < 3; i++) {
    snprintf(path, sizeof path, "trade/samples/%s_%s", name, part[i]);
    table[i] = pw_table_find(path);
    if (!table[i]) return pw_fail(err, PW_E_MISSING, NULL, "no table %s", path);
  }
  memset(s, 0, sizeof *s);
  s->expected = table[1];
  s->job.opening = s->opening;
  take_site(table[2], &s->job.house);
  pw_frame_line line[32];
  size_t n_line = 0;
  for (; n_line < pw_frame_line_count() && n_line < 32; n_line++)
    pw_frame_line_builtin(n_line, &line[n_line]);
  for (size_t r = 0; r < table[0]->n_row && r < TRADE_ROWS_MAX; r++) {
    pw_opening *o = &s->opening[r];
    pw_status status = take_opening(table[0], r, o, err);
    if (status == PW_OK)
      status = pw_fit_opening(o, pw_frame_line_pick(line, n_line, "vinyl", o->operator_insert),
                              &s->fit[r], err);
    if (status != PW_OK) return status;
    s->job.n_opening++;
  }
  return PW_OK;
}
