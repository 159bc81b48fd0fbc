/* One opening from the tape to both ratings, for a host that has no job. */
#include "panewright/rating.h"
#include "window/frame_line.h"

static pw_status rate_existing(const pw_opening *opening, const pw_fit *fit, pw_rating *rating,
                               pw_err *err)
{
  pw_glazing glass;
  pw_status status = pw_glazing_build(&opening->existing_glass, &glass, err);
  return status == PW_OK ? pw_rating_existing(opening, fit, &glass, NULL, rating, err) : status;
}

static pw_status rate_insert(const pw_fit *fit, const pw_package *package,
                             const pw_frame_line *line, pw_rating *rating, pw_err *err)
{
  pw_glazing glass;
  pw_status status = pw_glazing_build(&package->glass, &glass, err);
  return status == PW_OK ? pw_rating_insert(fit, package, line, &glass, NULL, rating, err)
                         : status;
}

pw_status pw_rate_opening(const pw_opening *opening, const pw_package *package,
                          pw_rating *existing, pw_rating *insert, pw_err *err)
{
  pw_frame_line line;
  pw_fit fit;
  pw_rating old, new_;
  pw_status status =
      pw_frame_line_named(package->frame_line, opening->operator_insert, &line, err);
  if (status == PW_OK) status = pw_fit_opening(opening, &line, &fit, err);
  if (status == PW_OK) status = rate_existing(opening, &fit, &old, err);
  if (status == PW_OK) status = rate_insert(&fit, package, &line, &new_, err);
  if (status != PW_OK) return status;
  *existing = old;
  *insert = new_;
  return PW_OK;
}
