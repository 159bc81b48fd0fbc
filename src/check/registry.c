#include "check/check.h"

#include <math.h>

extern const pw_check_group pw_check_section;
extern const pw_check_group pw_check_sections;
extern const pw_check_group pw_check_units;
extern const pw_check_group pw_check_money;
extern const pw_check_group pw_check_sampling;
extern const pw_check_group pw_check_sun;
extern const pw_check_group pw_check_optics;
extern const pw_check_group pw_check_sky;
extern const pw_check_group pw_check_month;
extern const pw_check_group pw_check_weather;
extern const pw_check_group pw_check_trade;
extern const pw_check_group pw_check_std140;
extern const pw_check_group pw_check_models;
extern const pw_check_group pw_check_rows;
extern const pw_check_group pw_check_simple;
extern const pw_check_group pw_check_walls;
extern const pw_check_group pw_check_glazing;
extern const pw_check_group pw_check_moisture;
extern const pw_check_group pw_check_code_default;
extern const pw_check_group pw_check_sound;
extern const pw_check_group pw_check_bills;
extern const pw_check_group pw_check_air;
extern const pw_check_group pw_check_field;

/* One a line, so that two additions do not collide. */
// clang-format off
const pw_check_group *const pw_check_groups[] = {
    &pw_check_units,
    &pw_check_money,
    &pw_check_sampling,
    &pw_check_sun,
    &pw_check_optics,
    &pw_check_sky,
    &pw_check_month,
    &pw_check_weather,
    &pw_check_trade,
    &pw_check_std140,
    &pw_check_models,
    &pw_check_rows,
    &pw_check_simple,
    &pw_check_walls,
    &pw_check_section,
    &pw_check_sections,
    &pw_check_glazing,
    &pw_check_moisture,
    &pw_check_code_default,
    &pw_check_sound,
    &pw_check_bills,
    &pw_check_air,
    &pw_check_field,
};
// clang-format on
const size_t pw_check_group_count = sizeof pw_check_groups / sizeof pw_check_groups[0];

int pw_check_apart(const pw_check_group *group)
{
  return group == &pw_check_models || group == &pw_check_rows || group == &pw_check_field;
}

void pw_check_give(const pw_check_sink *sink, const char *id, const char *quantity,
                   const char *unit, double ours, double want, double tolerance,
                   const char *source, const char *how_known)
{
  pw_check_give_as(sink, 0, id, quantity, unit, ours, want, tolerance, source, how_known);
}

void pw_check_give_as(const pw_check_sink *sink, int advisory, const char *id,
                      const char *quantity, const char *unit, double ours, double want,
                      double tolerance, const char *source, const char *how_known)
{
  const pw_check_row row = {.id = id,
                            .quantity = quantity,
                            .unit = unit,
                            .ours = ours,
                            .want = want,
                            .tolerance = tolerance,
                            .source = source,
                            .how_known = how_known,
                            .advisory = advisory};
  sink->row(sink->context, &row);
}

void pw_check_give_range(const pw_check_sink *sink, const char *id, const char *quantity,
                         const char *unit, double ours, double low, double high, int advisory,
                         const char *source, const char *how_known)
{
  const pw_check_row row = {.id = id,
                            .quantity = quantity,
                            .unit = unit,
                            .ours = ours,
                            .want = (double)NAN,
                            .low = low,
                            .high = high,
                            .source = source,
                            .how_known = how_known,
                            .advisory = advisory};
  sink->row(sink->context, &row);
}

int pw_check_holds(const pw_check_row *row)
{
  if (isnan(row->want)) return row->ours >= row->low && row->ours <= row->high;
  return fabs(row->ours - row->want) <= row->tolerance;
}
