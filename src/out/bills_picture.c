/* Bills by month with the model, and against the temperature of their days. */
#include <math.h>
#include <stdio.h>

#include "out/bills_out.h"
#include "out/plot.h"
#include "panewright/rates.h"

static void title_of(const pw_bills_report *r, pw_fuel fuel, char text[160])
{
  const pw_meter_use *u = &r->use[fuel];
  const char *unit = r->bills->fuel[fuel].unit;
  if (u->refused == PW_BILL_ACCEPTED && u->has_normal)
    snprintf(text, 160,
             "%s: %.0f %s in a normal year, 95 %%: %.0f to %.0f (model %s, CV(RMSE) %.1f %%)",
             pw_fuel_name(fuel), u->normal.total, unit, u->low, u->high,
             pw_change_model_name(u->fit.model), 100.0 * u->fit.cv);
  else
    snprintf(text, 160, "%s: bills as they are; not used", pw_fuel_name(fuel));
}

pw_status pw_bills_picture(const pw_bills_report *r, const pw_unit_set *units, pw_fuel fuel,
                           const char *path, pw_err *err)
{
  const pw_meter_use *u = &r->use[fuel];
  double high = 0.0, cold = INFINITY, hot = -INFINITY;
  int fitted = u->refused == PW_BILL_ACCEPTED && u->fitted, n_odd = 0, n_out = 0;
  char title[160];
  if (u->n_period == 0)
    return pw_fail(err, PW_E_DATA, "plot", "no bill of %s that could be drawn",
                   pw_fuel_name(fuel));
  pw_plot *p = pw_plot_new("plots/metered.gp");
  title_of(r, fuel, title);
  pw_plot_text(p, "what", title);
  pw_plot_text(p, "unit", r->bills->fuel[fuel].unit);
  pw_plot_text(p, "t_unit", units->temperature);
  pw_plot_block(p, "B");
  for (size_t i = 0; i < u->n_period; i++) {
    const pw_meter_period *m = &u->period[i];
    double days = m->bill.to - m->bill.from, t = pw_show_temperature(units, m->t_mean + 273.15);
    int kind = !fitted                        ? 3
               : m->place == PW_METER_USED    ? 0
               : m->place == PW_METER_OUTLIER ? 1
                                              : 2;
    n_odd += kind == 1;
    n_out += kind >= 2;
    high = fmax(high, m->bill.use / days);
    if (isfinite(m->fitted)) high = fmax(high, m->fitted);
    if (isfinite(t)) {
      cold = fmin(cold, t);
      hot = fmax(hot, t);
    }
    pw_plot_row(p, "ffffff", 86400.0 * m->bill.from, 86400.0 * m->bill.to, m->bill.use / days,
                kind == 2 ? (double)NAN : m->fitted, t, (double)kind);
  }
  pw_plot_end_block(p);
  if (!isfinite(cold)) cold = hot = 0.0;
  double first = u->period[0].bill.from, last = u->period[u->n_period - 1].bill.to;
  /* A tick each two, three or six months, on about eight places. */
  double month = 86400.0 * 365.25 / 12.0, months = (last - first) * 86400.0 / month;
  pw_plot_number(p, "step", month * (months > 24.0 ? 6.0 : months > 12.0 ? 3.0 : 2.0));
  pw_plot_number(p, "first", 86400.0 * first);
  pw_plot_number(p, "last", 86400.0 * last);
  pw_plot_number(p, "high", high > 0.0 ? 1.06 * high : 1.0);
  pw_plot_number(p, "cold", cold - 2.0);
  pw_plot_number(p, "hot", hot + 2.0);
  pw_plot_number(p, "fitted", fitted);
  pw_plot_number(p, "n_odd", n_odd);
  pw_plot_number(p, "n_out", n_out);
  pw_status status = pw_plot_write(p, path, 1080, 480, err);
  pw_plot_free(p);
  return status;
}
