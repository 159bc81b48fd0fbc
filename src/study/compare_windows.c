/* The windows of a comparison as the house year takes them. */
#include "climate/shade.h"
#include "house/airing.h"
#include "house/covering.h"
#include "study/compare_impl.h"

/* Sun a fine insect screen takes from the light that falls through it: wire reflectance of dark
 * glass-fibre mesh, assumed. */
static const double screen_wire_reflectance = 0.2;

void pw_compare_house_window(const pw_opening *opening, const pw_lites *lites,
                             const pw_rating *rating, const pw_glazing *glazing,
                             pw_house_window *window)
{
  double moving = 0.0, glass = 0.0;
  for (size_t i = 0; i < lites->n_lite; i++) {
    double a = pw_lite_area(&lites->lite[i]);
    glass += a;
    if (lites->lite[i].moving) moving += a;
  }
  double passed = pw_screen_factor(0.0, screen_wire_reflectance, 0.5);
  double covered = opening->screen && glass > 0.0 ? moving / glass : 0.0;
  double height = lites->n_lite ? lites->lite[0].height : 0.0;
  pw_openable open;
  pw_openable_of(lites, 0, &open);
  if (lites->n_meeting && !lites->meeting_upright) /* hung: both sashes and the rail between */
    height = 2.0 * height + lites->meeting_width;
  *window = (pw_house_window){
      .facing_deg = opening->facing_deg,
      .area_glass = rating->glass_area,
      .height = height,
      .width = height > 0.0 ? rating->glass_area / height : 0.0,
      .glazing = glazing,
      .area_other = rating->areas.frame + rating->areas.divider + rating->areas.retained,
      .ua_other = rating->ua.edge - glazing->u_winter * rating->areas.edge + rating->ua.frame +
                  rating->ua.divider + rating->ua.retained,
      .solar_other = rating->shgc_opaque *
                     (rating->areas.frame + rating->areas.divider + rating->areas.retained),
      .overhang_depth = opening->overhang_depth,
      .overhang_gap = opening->overhang_gap,
      .reveal_depth = opening->reveal_depth,
      .screen = 1.0 - covered * (1.0 - passed),
      .shade_factor = opening->shade_factor,
      .count = opening->quantity,
      .open_area = (opening->screen ? pw_airing_screen() : 1.0) * open.area,
      .open_height = open.height,
  };
  pw_covering_of((pw_covering)opening->covering, opening->covering_of_all, glazing,
                 &window->covered);
}

size_t pw_compare_windows(const pw_job *job, const pw_compare_fitted *fitted,
                          const pw_compare_rated *rated, int package, pw_house_window window[])
{
  for (size_t i = 0; i < job->n_opening; i++) {
    pw_compare_house_window(&job->opening[i], pw_compare_lites(job, fitted, package, i),
                            pw_compare_rating(rated, package, i),
                            pw_compare_glass(job, fitted, package, i), &window[i]);
    if (pw_compare_is_stuck(job, package, i)) window[i].open_area = 0.0;
  }
  return job->n_opening;
}

size_t pw_compare_inside(const pw_job *job, pw_house_window window[])
{
  size_t n = 0;
  for (size_t i = 0; i < job->n_opening; i++)
    if (!job->opening[i].unconditioned) window[n++] = window[i];
  return n;
}
