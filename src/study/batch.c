#include "study/batch.h"

#include <math.h>

#include "study/compare_impl.h"

static pw_status rate(const pw_batch_item *it, pw_batch_figures *f, pw_err *err)
{
  pw_compare_window *now = &f->existing.window, *then = &f->insert.window;
  double t_in = pw_alone_t_in(it->place), t_out = pw_alone_design_night(it->place);
  pw_status status =
      pw_rating_existing(it->opening, &f->fit, it->existing, NULL, &now->rating, err);
  if (status == PW_OK)
    status =
        pw_rating_insert(&f->fit, it->package, it->line, it->insert, NULL, &then->rating, err);
  if (status == PW_OK) status = pw_compare_sweat(it->existing, t_in, t_out, now, err);
  if (status == PW_OK) status = pw_compare_sweat(it->insert, t_in, t_out, then, err);
  if (status == PW_OK) pw_compare_kept(now, it->existing, then, it->insert);
  return status;
}

/* What the insert saves, and in other houses; a quick method does not know these. */
static void saved_of(pw_alone_method method, pw_batch_figures *f)
{
  static const char *const word[PW_ALONE_METHOD_COUNT] = {
      [PW_ALONE_HOURLY] = "hourly (screening)",
      [PW_ALONE_MONTHLY] = "monthly (screening)",
      [PW_ALONE_DETAILED] = "detailed"};
  const pw_alone *now = &f->existing.alone, *then = &f->insert.alone;
  f->energy = word[method];
  f->saved =
      (pw_alone){now->heating_kwh - then->heating_kwh, now->cooling_kwh - then->cooling_kwh};
  f->low = f->high = (pw_alone){(double)NAN, (double)NAN};
  if (method == PW_ALONE_DETAILED) pw_alone_in_other_houses(&f->saved, &f->low, &f->high);
}

static pw_status years(const pw_batch_item *it, pw_batch_figures *f, pw_err *err)
{
  pw_house_window window[2];
  pw_alone alone[2];
  const double area[2] = {f->existing.window.rating.area, f->insert.window.rating.area};
  pw_compare_house_window(it->opening, &f->fit.existing, &f->existing.window.rating,
                          it->existing, &window[0]);
  pw_compare_house_window(it->opening, &f->fit.insert, &f->insert.window.rating, it->insert,
                          &window[1]);
  pw_status status = pw_alone_year(it->place, window, area, it->desk, alone, err);
  f->existing.alone = alone[0];
  f->insert.alone = alone[1];
  saved_of(pw_alone_method_of(it->place), f);
  return status;
}

pw_status pw_batch_solve(const pw_batch_item *item, pw_batch_figures *figures, pw_err *err)
{
  pw_status status = pw_fit_opening(item->opening, item->line, &figures->fit, err);
  if (status == PW_OK) status = rate(item, figures, err);
  if (status != PW_OK) return status;
  figures->existing.sweat_rh = pw_compare_first_to_sweat(&figures->existing.window.sweat);
  figures->insert.sweat_rh = pw_compare_first_to_sweat(&figures->insert.window.sweat);
  if (!item->without_energy) return years(item, figures, err);
  const pw_alone none = {(double)NAN, (double)NAN};
  figures->existing.alone = figures->insert.alone = none;
  figures->saved = figures->low = figures->high = none;
  figures->energy = "none";
  return PW_OK;
}

pw_status pw_compare_alone(const pw_compare *c, int package, size_t opening,
                           const pw_alone_place *place, pw_alone *alone, pw_err *err)
{
  pw_house_window window[2], all[PW_WINDOWS_MAX];
  pw_alone both[2];
  double area = c->existing[opening].rating.area;
  pw_compare_windows(c, -1, all);
  window[0] = all[opening];
  pw_compare_windows(c, package, all);
  window[1] = all[opening];
  pw_status status = pw_alone_year(place, window, (double[2]){area, area}, NULL, both, err);
  if (status == PW_OK) *alone = both[1];
  return status;
}
