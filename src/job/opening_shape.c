/* Shapes of openings.csv. */
#include "job/field.h"
#include "job/opening_row.h"
#include "panewright/fit.h"

/* A row without any width or height has not been measured yet: it is left out, and said. */
int job_opening_measured(const pw_opening *o)
{
  if (o->shape != PW_SHAPE_RECTANGLE) {
    pw_shape_size z = pw_fit_measured(o);
    return z.width > 0.0 && z.height > 0.0;
  }
  return (o->width[0] > 0.0 || o->width[1] > 0.0 || o->width[2] > 0.0) &&
         (o->height[0] > 0.0 || o->height[1] > 0.0 || o->height[2] > 0.0);
}

/* Measures that are of no such shape, or of a rectangle; NULL when they are right. */
const char *job_opening_shape_wrong(const pw_opening *o, pw_err *why)
{
  const struct {
    const char *name;
    double value;
  } extra[] = {{"rise", o->rise},
               {"leg_left", o->leg_left},
               {"leg_right", o->leg_right},
               {"peak_at", o->peak_at}};
  pw_shape_size z;
  pw_bounds bounds;
  if (o->shape == PW_SHAPE_RECTANGLE) {
    for (size_t i = 0; i < JOB_COUNT(extra); i++)
      if (extra[i].value > 0.0) {
        pw_fail(
            why, PW_E_DATA, NULL,
            "a rectangle has no %s; name the shape: half_round, quarter_round, arch, circle, "
            "octagon, triangle, trapezoid, gothic",
            extra[i].name);
        return extra[i].name;
      }
    return NULL;
  }
  z = pw_fit_measured(o);
  if (pw_shape_make(&z, &bounds, why) != PW_OK) return why->field;
  for (int k = 0; k < 2; k++) {
    pw_lites lites;
    pw_operator kind = k ? o->operator_insert : o->operator_existing;
    if (pw_lites_shaped(kind, &bounds, 0.0, &lites, why) == PW_OK) continue;
    return k ? "operator_insert" : "operator";
  }
  return NULL;
}
