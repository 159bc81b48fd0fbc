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

static void years_of(const pw_batch_item *it, const pw_batch_figures *f, pw_batch_years *y)
{
  y->place = it->place;
  y->area[0] = f->existing.window.rating.area;
  y->area[1] = f->insert.window.rating.area;
  pw_compare_house_window(it->opening, &f->fit.existing, &f->existing.window.rating,
                          it->existing, &y->window[0]);
  pw_compare_house_window(it->opening, &f->fit.insert, &f->insert.window.rating, it->insert,
                          &y->window[1]);
}

static void without_energy(pw_batch_figures *f)
{
  const pw_alone none = {(double)NAN, (double)NAN};
  f->existing.alone = f->insert.alone = none;
  f->saved = f->low = f->high = none;
  f->energy = "none";
}

pw_status pw_batch_rate(const pw_batch_item *item, pw_batch_figures *figures,
                        pw_batch_years *years, pw_err *err)
{
  pw_status status = pw_fit_opening(item->opening, item->line, &figures->fit, err);
  if (status == PW_OK) status = rate(item, figures, err);
  if (status != PW_OK) return status;
  figures->existing.sweat_rh = pw_compare_first_to_sweat(&figures->existing.window.sweat);
  figures->insert.sweat_rh = pw_compare_first_to_sweat(&figures->insert.window.sweat);
  if (item->without_energy)
    without_energy(figures);
  else
    years_of(item, figures, years);
  return PW_OK;
}

pw_status pw_batch_live(const pw_batch_years *const years[], pw_batch_figures *const figures[],
                        size_t n, pw_alone_desk *desk, pw_err *err)
{
  pw_house_window window[PW_ALONE_BESIDE] = {0};
  double area[PW_ALONE_BESIDE] = {0};
  pw_alone alone[PW_ALONE_BESIDE];
  if (n < 1 || n > PW_BATCH_BESIDE)
    return pw_fail(err, PW_E_DOMAIN, "rows", "%zu rows side by side, want 1 to %d", n,
                   PW_BATCH_BESIDE);
  for (size_t i = 0; i < n; i++)
    for (size_t k = 0; k < 2; k++) {
      window[2 * i + k] = years[i]->window[k];
      area[2 * i + k] = years[i]->area[k];
    }
  pw_status status = pw_alone_years(years[0]->place, window, area, 2 * n, desk, alone, err);
  for (size_t i = 0; status == PW_OK && i < n; i++) {
    figures[i]->existing.alone = alone[2 * i];
    figures[i]->insert.alone = alone[2 * i + 1];
    saved_of(pw_alone_method_of(years[0]->place), figures[i]);
  }
  return status;
}

pw_status pw_batch_solve(const pw_batch_item *item, pw_batch_figures *figures, pw_err *err)
{
  pw_batch_years years;
  const pw_batch_years *const one[] = {&years};
  pw_status status = pw_batch_rate(item, figures, &years, err);
  if (status != PW_OK || item->without_energy) return status;
  return pw_batch_live(one, &figures, 1, item->desk, err);
}

pw_status pw_compare_alone(const pw_compare *c, int package, size_t opening,
                           const pw_alone_place *place, pw_alone *alone, pw_err *err)
{
  pw_house_window window[2], all[PW_WINDOWS_MAX];
  pw_alone both[2];
  double area = c->rated.existing[opening].rating.area;
  pw_compare_windows(c->job, &c->fitted, &c->rated, -1, all);
  window[0] = all[opening];
  pw_compare_windows(c->job, &c->fitted, &c->rated, package, all);
  window[1] = all[opening];
  pw_status status = pw_alone_years(place, window, (double[2]){area, area}, 2, NULL, both, err);
  if (status == PW_OK) *alone = both[1];
  return status;
}
