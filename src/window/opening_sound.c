#include "window/opening_sound.h"

#include <math.h>

#include "gen/reference.h"

/* Speed of sound at 20 C, m/s, as in leaf.h. */
static const double speed = 343.0;

pw_status pw_sound_composite(const pw_sound_part part[], size_t n, const pw_sound_joint joint[],
                             size_t m, double area, pw_thirds *out, pw_err *err)
{
  if (n == 0) return pw_fail(err, PW_E_SHAPE, "part", "no part, want at least one");
  if (!(area > 0.0 && isfinite(area)))
    return pw_fail(err, PW_E_DOMAIN, "area", "%g m2, want above 0", area);
  for (size_t i = 0; i < n; i++)
    if (!(part[i].area >= 0.0 && isfinite(part[i].area)))
      return pw_fail(err, PW_E_DOMAIN, "part", "%g m2, want 0 or more", part[i].area);
  for (int b = 0; b < PW_THIRDS; b++) {
    double sum = 0.0;
    for (size_t i = 0; i < n; i++)
      if (part[i].area > 0.0) sum += part[i].area * pw_sound_tau(part[i].r->db[b]);
    for (size_t j = 0; j < m; j++)
      if (joint[j].area > 0.0)
        sum += joint[j].area * pw_slit_tau(&joint[j].slit, pw_third_hz(b), speed);
    out->db[b] = -10.0 * log10(sum / area);
  }
  return PW_OK;
}

/* A louvre's height, m: between two there is a joint as wide as the window. Common practice, no source. */
static const double louvre = 0.1;

void pw_joints_of(const pw_lites *lites, pw_joint_lengths *joints)
{
  *joints = (pw_joint_lengths){0.0, 0.0};
  for (size_t i = 0; i < lites->n_lite; i++) {
    const pw_lite *l = &lites->lite[i];
    double round = l->round.perimeter > 0.0 ? l->round.perimeter : 2.0 * (l->width + l->height);
    if (lites->operator_ == PW_JALOUSIE) round += (floor(l->height / louvre) - 1.0) * l->width;
    if (l->moving)
      joints->moving += round;
    else
      joints->fixed += round;
  }
}

pw_sound_joint pw_sound_joint_of(double open_area, double length, double gape, double depth)
{
  const double wide = pw_ref_sound_joints[pw_ref_sound_joints__width].high;
  pw_sound_joint j = {0.0, {.depth = depth, .friction = 1}};
  if (!(open_area > 0.0 && length > 0.0)) return j;
  double even = open_area / length;
  j.area = open_area;
  j.slit.width = even < wide ? even * pow(wide / even, gape) : even;
  return j;
}

void pw_window_en_14351(double rw, double rw_ctr, double area, double *window_rw,
                        double *window_rw_ctr)
{
  double size = (double)NAN, most[2] = {0.0, 0.0}; /* highest units of the tables */
  double got[2] = {(double)NAN, (double)NAN}, unit[2] = {rw, rw_ctr};
  for (size_t i = 0; i < (size_t)pw_ref_sound_en14351__n; i++) {
    const pw_ref_sound_en14351_row *r = &pw_ref_sound_en14351[i];
    if (r->what == pw_ref_sound_en14351__what_area) {
      if (isnan(size) && !(area > r->area_to_m2)) size = r->value; /* the last has no end */
      continue;
    }
    size_t k = r->what == pw_ref_sound_en14351__what_rw ? 0 : 1;
    if (unit[k] >= r->unit_db) got[k] = r->value;
    most[k] = r->unit_db;
  }
  *window_rw = unit[0] <= most[0] ? got[0] + size : (double)NAN;
  *window_rw_ctr = unit[1] <= most[1] ? got[1] + size : (double)NAN;
}
