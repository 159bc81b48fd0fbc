#include "window/mulled.h"

#include <string.h>

#include "panewright/fit.h"
#include "window/fit_impl.h"

static double side_of(const pw_opening *o, int across)
{
  if (o->shape != PW_SHAPE_RECTANGLE) {
    pw_shape_size z = pw_fit_measured(o);
    return across ? z.width : z.height;
  }
  return fit_read_three(across ? o->width : o->height).least;
}

static pw_status in_row(const pw_opening *o, pw_err *err)
{
  if (err) err->line = o->line;
  return PW_E_DOMAIN;
}

/* One unit, whose first row is at. */
static pw_status join(pw_opening o[], size_t n, size_t at, pw_err *err)
{
  int lead = 0;
  for (size_t i = at; i < n; i++) {
    if (strcmp(o[i].unit, o[at].unit) != 0) continue;
    if (o[i].quantity != o[at].quantity) {
      pw_fail(err, PW_E_DOMAIN, "quantity",
              "%s and %s are of one unit %s, but there are %d and %d of them", o[i].tag,
              o[at].tag, o[i].unit, o[i].quantity, o[at].quantity);
      return in_row(&o[i], err);
    }
    if (o[i].unit_joint == PW_JOINT_BLANK && !lead) {
      lead = 1;
      continue;
    }
    if (o[i].unit_joint == PW_JOINT_BLANK) o[i].unit_joint = PW_JOINT_BESIDE;
    o[i].mullion_area = o[i].mullion_face * side_of(&o[i], o[i].unit_joint == PW_JOINT_OVER);
  }
  if (lead) return PW_OK;
  pw_fail(
      err, PW_E_DOMAIN, "unit_joint",
      "every row of unit %s joins another: leave unit_joint blank in the one that the others "
      "join",
      o[at].unit);
  return in_row(&o[at], err);
}

pw_status pw_mulled_join(pw_opening o[], size_t n, pw_err *err)
{
  for (size_t i = 0; i < n; i++)
    o[i].mullion_area = 0.0;
  for (size_t i = 0; i < n; i++) {
    size_t first = 0;
    while (first < i && strcmp(o[first].unit, o[i].unit) != 0)
      first++;
    if (!o[i].unit[0] || first < i) continue;
    pw_status status = join(o, n, i, err);
    if (status != PW_OK) return status;
  }
  return PW_OK;
}
