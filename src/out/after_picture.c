#include <math.h>
#include <stdio.h>
#include <string.h>

#include "out/after_out.h"
#include "out/clip.h"
#include "out/plot.h"
#include "panewright/rates.h"

enum { METERS_SHOWN = 40 };

/* The axis of what is drawn. */
typedef struct axis {
  double low, top;
  size_t n;
} axis;

static void reach(axis *x, double v)
{
  if (!isfinite(v)) return;
  x->low = fmin(x->low, v);
  x->top = fmax(x->top, v);
}

/* kWh a year of each meter that has a saving or a promise; name[] in the order of the rows. */
static void promises(pw_plot *p, const pw_after_house house[], size_t n, int with_job, axis *x,
                     char name[][64])
{
  pw_plot_block(p, "P");
  for (size_t i = 0; i < n; i++)
    for (int f = 0; f < PW_FUEL_COUNT && x->n < METERS_SHOWN; f++) {
      const pw_after_house *h = &house[i];
      int told = h->n_bill[f] && h->after[f].refused == PW_AFTER_ACCEPTED;
      double v[6] = {(double)NAN, (double)NAN, (double)NAN,
                     (double)NAN, (double)NAN, (double)NAN};
      if (!told) continue;
      if (h->promised[f]) {
        v[0] = h->promise[f].p10;
        v[1] = h->promise[f].p50;
        v[2] = h->promise[f].p90;
      }
      v[3] = h->net[f].low * h->unit_kwh[f];
      v[4] = h->net[f].saving * h->unit_kwh[f];
      v[5] = h->net[f].high * h->unit_kwh[f];
      for (int k = 0; k < 6; k++)
        reach(x, v[k]);
      snprintf(name[x->n++], 64, "%.30s%s%.20s", with_job ? pw_clip(h->job, 24).text : "",
               with_job ? ", " : "", pw_fuel_name((pw_fuel)f));
      pw_plot_row(p, "sffffff", "", v[0], v[1], v[2], v[3], v[4], v[5]);
    }
  pw_plot_end_block(p);
}

/* Bills of one meter. Returns the highest use a day. */
static double bills(pw_plot *p, const pw_after_house *h, int f, double *first, double *last,
                    int *n_out)
{
  const pw_meter_use *use[2] = {&h->after[f].before, &h->after[f].after};
  double high = 0.0;
  pw_plot_block(p, "B");
  for (int s = 0; s < 2; s++)
    for (size_t i = 0; i < use[s]->n_period; i++) {
      const pw_meter_period *m = &use[s]->period[i];
      double from = 86400.0 * m->bill.from, to = 86400.0 * m->bill.to,
             day = m->bill.use / (m->bill.to - m->bill.from);
      double model = s == 0                  ? m->fitted
                     : h->after[f].as_before ? h->after[f].as_before[i]
                                             : (double)NAN;
      int out = m->place != PW_METER_USED;
      *n_out += out;
      high = fmax(high, fmax(day, isfinite(model) ? model : 0.0));
      *first = fmin(*first, from);
      *last = fmax(*last, to);
      pw_plot_row(p, "fffff", from, to, day, model, out ? 2.0 : (double)s);
    }
  pw_plot_end_block(p);
  return high;
}

/* The meter that uses most, of those with bills on both sides. */
static int largest(const pw_after_house *h)
{
  int at = -1;
  double most = 0.0;
  for (int f = 0; f < PW_FUEL_COUNT; f++) {
    double kwh = h->n_bill[f] ? h->after[f].so_far.expected * h->unit_kwh[f] : 0.0;
    if (kwh > most) {
      most = kwh;
      at = f;
    }
  }
  return at;
}

pw_status pw_after_picture(const pw_after_house house[], size_t n, const char *path,
                           pw_err *err)
{
  char name[METERS_SHOWN][64], key[16], what[120];
  axis x = {0.0, 0.0, 0};
  int one = n == 1, fuel = largest(&house[0]), n_out = 0;
  double first = INFINITY, last = -INFINITY;
  if (one && fuel < 0)
    return pw_fail(err, PW_E_DATA, "plot", "no meter with bills before and after the work");
  pw_plot *p = pw_plot_new("plots/after.gp");
  promises(p, house, n, !one, &x, name);
  if (one) {
    double high = bills(p, &house[0], fuel, &first, &last, &n_out);
    double month = 86400.0 * 365.25 / 12.0;
    pw_plot_number(p, "high", high > 0.0 ? 1.06 * high : 1.0);
    pw_plot_number(p, "first", first);
    pw_plot_number(p, "last", last);
    pw_plot_number(p, "step", month * ((last - first) / month > 24.0 ? 6.0 : 3.0));
    pw_plot_number(p, "work", 86400.0 * house[0].work.from);
    pw_plot_number(p, "n_out", n_out);
    pw_plot_text(p, "unit", house[0].unit[fuel]);
    snprintf(what, sizeof what, "%.40s: %s before and after", house[0].job,
             pw_fuel_name((pw_fuel)fuel));
  } else {
    snprintf(what, sizeof what, "Promised and measured, %zu houses", n);
  }
  if (x.n == 0) { /* the axis stays */
    x.top = 1.0;
    snprintf(name[x.n++], 64, "no saving told");
  }
  pw_plot_text(p, "what", what);
  pw_plot_text(p, "axis", "kWh a year");
  /* Four ticks or so, of 1, 2 or 5. */
  double rough = (x.top - x.low) / 4.0, ten = pow(10.0, floor(log10(rough)));
  pw_plot_number(p, "tick", ten * (rough / ten > 5.0 ? 10.0 : rough / ten > 2.0 ? 5.0 : 2.0));
  pw_plot_number(p, "one", one);
  pw_plot_number(p, "n", (double)x.n);
  pw_plot_number(p, "low", x.low);
  pw_plot_number(p, "top", x.top);
  for (size_t i = 0; i < METERS_SHOWN; i++) {
    snprintf(key, sizeof key, "name%zu", i + 1);
    pw_plot_text(p, key, i < x.n ? name[i] : "");
  }
  pw_status status = pw_plot_write(p, path, 1080, one ? 480 : 160 + 40 * (int)x.n, err);
  pw_plot_free(p);
  return status;
}
