/* The windows that just meet the code: whose size they have, their glass, and as the year takes them. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "house/covering.h"
#include "study/compare_impl.h"

/* Glass of a package, m2; what its frames and retained rings lose, W/K; the sun that all but its glass lets in, m2. */
static void glass_and_frame(const pw_job *job, const pw_compare_window window[], double sum[3])
{
  sum[0] = sum[1] = sum[2] = 0.0;
  for (size_t i = 0; i < job->n_opening; i++) {
    if (!pw_compare_replaces(job, i)) continue;
    const pw_rating *r = &window[i].rating;
    double n = (double)job->opening[i].quantity;
    sum[0] += n * r->glass_area;
    sum[1] += n * (r->ua.frame + r->ua.retained);
    sum[2] += n * r->shgc_opaque * (r->area - r->glass_area);
  }
}

/* The package that leaves the least glass, of equals the one whose frames lose least, of equals whose frames and
 * bars let in the least sun (bars between the panes stand behind its outer pane): its size is what a window of the
 * code would have, whichever package is listed first. */
static size_t least_glass(const pw_job *job, const pw_compare_rated *r)
{
  size_t best = 0;
  double least[3], here[3];
  glass_and_frame(job, r->package[0], least);
  for (size_t p = 1; p < job->n_package; p++) {
    glass_and_frame(job, r->package[p], here);
    /* a last digit is no difference; without any glass they are alike */
    double more = least[0] > 0.0 ? here[0] / least[0] - 1.0 : here[0];
    int equal = more > -1e-12 && here[1] == least[1];
    if (more > 1e-12 || (more > -1e-12 && here[1] > least[1]) || (equal && here[2] >= least[2]))
      continue;
    memcpy(least, here, sizeof least);
    best = p;
  }
  return best;
}

/* The common unit that carries the code's figures (its own U and SHGC are replaced): of the usual
 * coatings the first that lets in as much sun as the code allows, else clear glass. */
static pw_status glass_of(const pw_job *job, pw_compare_rated *r, pw_err *err)
{
  static const char *const coating[] = {"ag2", "ag1", "ag1_high", "pyr20", ""};
  pw_status status = PW_OK;
  double share = 1.0; /* least glass of an opening */
  for (size_t i = 0; i < job->n_opening; i++) {
    const pw_rating *w = &r->package[r->minimum_size][i].rating;
    if (pw_compare_replaces(job, i)) share = fmin(share, w->glass_area / w->area);
  }
  for (size_t k = 0; status == PW_OK && k < sizeof coating / sizeof coating[0]; k++) {
    pw_buildup b = {.n_pane = 2};
    for (size_t i = 0; i < 2; i++) {
      b.pane[i].thickness = 0.003;
      memcpy(b.pane[i].kind, "clear", sizeof "clear");
    }
    snprintf(b.pane[0].coating[1], sizeof b.pane[0].coating[1], "%s", coating[k]);
    b.gap[0].thickness = 0.0127;
    b.gap[0].mix.share[PW_ARGON] = 0.9;
    b.gap[0].mix.share[PW_AIR] = 0.1;
    status = pw_glazing_build(&b, &r->minimum_glass, err);
    if (!isfinite(r->minimum.shgc) || r->minimum_glass.shgc[0] * share >= r->minimum.shgc)
      break;
  }
  return status;
}

pw_status pw_compare_minimum_find(const pw_job *job, const pw_weather *weather,
                                  pw_compare_rated *r, pw_err *err)
{
  r->code_place.area = 0.0;
  for (size_t i = 0; i < job->n_opening; i++)
    if (pw_compare_replaces(job, i))
      r->code_place.area += (double)job->opening[i].quantity * r->existing[i].rating.area;
  r->minimum_size = least_glass(job, r);
  pw_status status = pw_code_limits_find(&r->code_place, &r->code, err);
  if (status == PW_OK)
    status = pw_code_minimum_at(&r->code_place, &r->code, weather, &r->minimum, err);
  return status == PW_OK ? glass_of(job, r, err) : status;
}

size_t pw_compare_minimum_windows(const pw_job *job, const pw_compare_fitted *fitted,
                                  const pw_compare_rated *r, pw_house_window window[])
{
  const pw_glazing *glass = &r->minimum_glass;
  size_t n = pw_compare_windows(job, fitted, r, (int)r->minimum_size, window);
  for (size_t i = 0; i < n; i++) {
    if (!pw_compare_replaces(job, i)) continue; /* it stays in every set */
    double area = r->package[r->minimum_size][i].rating.area;
    pw_house_window *w = &window[i];
    w->glazing = glass;
    pw_covering_of((pw_covering)job->opening[i].covering, job->opening[i].covering_of_all,
                   glass, &w->covered);
    w->ua_other = r->minimum.u * area - glass->u_winter * w->area_glass;
    if (isfinite(r->minimum.shgc)) {
      double glass_sun = glass->shgc[0] * w->area_glass;
      double wanted = r->minimum.shgc * area;
      w->screen *= fmin(1.0, wanted / glass_sun);
      w->solar_other =
          fmax(0.0, wanted - glass_sun); /* more sun than the glass alone lets in */
    }
  }
  return n;
}
