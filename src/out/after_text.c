#include <math.h>
#include <stdio.h>
#include <string.h>

#include "out/after_out.h"
#include "out/bills_out.h"
#include "out/text_stream.h"
#include "out/wrap.h"
#include "panewright/rates.h"

enum { WIDTH = 100, LINE = 700 };

static void say_promise(const pw_after_house *h, pw_fuel k, FILE *f)
{
  static const char *const words[] = {
      [PW_AFTER_INSIDE] = "What the bills say lies inside what was promised.",
      [PW_AFTER_BELOW_UNSURE] = "What the bills say lies below what was promised, by less than "
                                "they can be sure of.",
      [PW_AFTER_BELOW] = "The bills say less than was promised, and by more than their own "
                         "error.",
      [PW_AFTER_ABOVE_UNSURE] = "What the bills say lies above what was promised, by less than "
                                "they can be sure of.",
      [PW_AFTER_ABOVE] = "The bills say more than was promised, and by more than their own "
                         "error; the promise was too low, or something else changed as well."};
  const pw_after_net *net = &h->net[k];
  double said[3];
  char day[11];
  if (!h->promised[k]) {
    fprintf(f, "  %-12s %s\n", "promised",
            !h->package[0]    ? "which package was built in is not said (item installed of "
                                "job.csv, or --package)"
            : h->late_promise ? "promise.csv holds only what was said after the work began"
                              : "nothing is noted in promise.csv");
    return;
  }
  pw_after_promise(h, k, said);
  pw_date_write(h->promise[k].date, day);
  fprintf(f, "  %-12s %.0f %s a year, %.0f to %.0f (%s, files %s, package %s)\n", "promised",
          said[1], h->unit[k], said[0], said[2], day, h->promise[k].version, h->package);
  pw_wrap(f, "  ", words[pw_after_verdict_of(h, k)], WIDTH);
  if (net->saving <= 2.0 * net->se)
    pw_wrap(f, "  ",
            "The saving is not above twice its standard error: these bills cannot tell it from "
            "none.",
            WIDTH);
}

static void say_group(const pw_after_house *h, pw_fuel k, FILE *f)
{
  const pw_drift *d = &h->drift[k];
  const pw_after_net *net = &h->net[k];
  if (!d->n) return;
  fprintf(f, "  %-12s %zu house%s without the work used %.1f %% %s, standard error %.1f %%\n",
          "group", d->n, d->n == 1 ? "" : "s", 100.0 * fabs(d->mean),
          d->mean < 0.0 ? "more" : "less", 100.0 * d->se);
  fprintf(f, "  %-12s %.0f %s a year beside them, standard error %.0f; 8 in 10: %.0f to %.0f\n",
          "saved", net->saving, h->unit[k], net->se, net->low, net->high);
}

/* Columns that subtract: what stands after the work is the rounded use before less the rounded saving, and the parts of
 * the saving add up, so that a reader's sum closes. */
static void say_saving(const pw_after_house *h, pw_fuel k, FILE *f)
{
  static const char *const name[3] = {"base", "heating", "cooling"};
  const pw_after *a = &h->after[k];
  const char *unit = h->unit[k];
  const pw_normal_use *b = &a->before.normal, *l = &a->after.normal;
  fprintf(f, "  %-12s %.0f %s in a normal year, standard error %.0f\n", "before", b->total,
          unit, b->total_se);
  fprintf(f, "  %-12s %.0f %s in a normal year, standard error %.0f\n", "after",
          round(b->total) - round(a->saving), unit, l->total_se);
  fprintf(f, "  %-12s %.0f %s a year, standard error %.0f; 8 in 10: %.0f to %.0f\n", "saved",
          a->saving, unit, a->se, a->low, a->high);
  int has[3] = {1, 0, 0}, last = 0;
  double left = round(a->saving);
  for (int p = 1; p < 3; p++) {
    has[p] = !isnan(a->before.fit.balance[p - 1]) || !isnan(a->after.fit.balance[p - 1]);
    if (has[p]) last = p;
  }
  for (int p = 0; p <= last; p++) {
    if (!has[p]) continue;
    double part = p == last ? left : round(a->part[p]);
    left -= part;
    fprintf(f, "    %-10s %.0f, standard error %.0f\n", name[p], part, a->part_se[p]);
  }
  say_group(h, k, f);
  say_promise(h, k, f);
}

static void say_so_far(const pw_after_house *h, pw_fuel k, FILE *f)
{
  const pw_avoided *s = &h->after[k].so_far;
  char text[LINE];
  if (!s->n) return;
  int n = snprintf(text, sizeof text,
                   "%zu bills, %.0f days: %.0f %s measured, %.0f as the house of before would "
                   "have used in that weather; %.0f %s (%.0f %%), standard error %.0f",
                   s->n, s->days, s->measured, h->unit[k],
                   round(s->measured) + round(s->avoided), fabs(s->avoided),
                   s->avoided < 0.0 ? "more" : "less", 100.0 * fabs(s->fraction), s->se);
  if (isfinite(h->after[k].fractional))
    snprintf(text + n, sizeof text - (size_t)n,
             "; Guideline 14, simplified: +- %.0f %% of it at 68 %% (50 %% at most is asked)",
             100.0 * h->after[k].fractional);
  pw_wrap(f, "  so far       ", text, WIDTH);
}

static void say_fuel(const pw_after_house *h, pw_fuel k, FILE *f)
{
  const pw_after *a = &h->after[k];
  char why[PW_AFTER_TEXT];
  fprintf(f, "%s: %zu bills, %zu used of before, %zu of after, %zu left out around the work\n",
          pw_fuel_name(k), h->n_bill[k], a->before.n_used, a->after.n_used, a->n_work);
  pw_after_refusal_say(h, k, why);
  if (why[0])
    pw_wrap(f, "  no saving: ", why, WIDTH);
  else
    say_saving(h, k, f);
  say_so_far(h, k, f);
  pw_bill_findings_text(&a->before, h->unit[k], f);
  pw_bill_findings_text(&a->after, h->unit[k], f);
}

static void say_house(const pw_after_house *h, FILE *f)
{
  char from[11], to[11];
  pw_bill_day(h->work.from, from);
  pw_bill_day(h->work.to, to);
  fprintf(f, "%s: work %s%s%s\n", h->job, from, h->work.to > h->work.from ? " to " : "",
          h->work.to > h->work.from ? to : "");
  for (int k = 0; k < PW_FUEL_COUNT; k++)
    if (h->n_bill[k]) say_fuel(h, (pw_fuel)k, f);
  pw_wrap(f, "normal year: ", h->normal, WIDTH);
  for (size_t i = 0; i < h->notes.n; i++) {
    char line[400];
    pw_notes_line(&h->notes.note[i], line, sizeof line);
    pw_wrap(f, "note: ", line, WIDTH);
  }
  fputc('\n', f);
}

static void say_record(const pw_after_house house[], size_t n, FILE *f)
{
  pw_after_record r;
  char text[LINE];
  pw_after_record_of(house, n, &r);
  fprintf(f, "Record: %zu house%s, %zu meter%s\n", r.n_house, r.n_house == 1 ? "" : "s",
          r.n_meter, r.n_meter == 1 ? "" : "s");
  if (r.n) {
    fprintf(f, "  %-12s %.0f kWh a year promised, %.0f kWh by the bills", "sums",
            r.promised_kwh, r.measured_kwh);
    if (isfinite(r.ratio)) fprintf(f, ": %.2f of what was said", r.ratio);
    fputc('\n', f);
    fprintf(f,
            "  %-12s %zu of %zu inside the promised 10 to 90 %% (8 in 10 would be right; the "
            "bills' own error takes some out)\n",
            "inside", r.n_inside, r.n);
    if (isfinite(r.bias_se))
      fprintf(f, "  %-12s %+.0f %% of the promise on average, standard error %.0f %%\n", "bias",
              100.0 * r.bias, 100.0 * r.bias_se);
  }
  snprintf(text, sizeof text,
           "%zu %s not in it: %zu whose bills tell no saving, %zu without a promise "
           "noted before the work. Houses whose bills are not kept are not seen at all.",
           r.n_refused + r.n_unpromised,
           r.n_refused + r.n_unpromised == 1 ? "meter is" : "meters are", r.n_refused,
           r.n_unpromised);
  pw_wrap(f, "  ", text, WIDTH);
  fputc('\n', f);
}

pw_status pw_after_text(const pw_after_house house[], size_t n, FILE *f, pw_err *err)
{
  for (size_t i = 0; i < n; i++)
    say_house(&house[i], f);
  if (n > 1) say_record(house, n, f);
  pw_wrap(
      f, "",
      "Savings are by the bills, at the weather of a normal year. They hold whatever else "
      "changed in the house as well (people, habits, plant, other work), and a saving of a "
      "few per cent is within the noise of a year of bills. What was promised in kWh is of a "
      "normal year's weather, too; what was promised in $ is of one year with its weather.",
      WIDTH);
  return pw_text_written(f, "the measured saving", err);
}

static void explain_year(const pw_meter_use *u, const char *name, FILE *f)
{
  const pw_change_fit *x = &u->fit;
  fprintf(f, "  %-6s = 365 x %.4g", name, x->base);
  for (int side = 0; side < 2; side++)
    if (!isnan(x->balance[side]))
      fprintf(f, " + %.4g x %.0f K d %s %.1f C", x->slope[side], u->normal.degree_days[side],
              side ? "above" : "below", x->balance[side]);
  fprintf(f, " = %.1f (model %s, %zu bills, CV(RMSE) %.1f %%)\n", u->normal.total,
          pw_change_model_name(x->model), x->n, 100.0 * x->cv);
}

pw_status pw_after_explain(const pw_after_house house[], size_t n, FILE *f, pw_err *err)
{
  for (size_t i = 0; i < n; i++)
    for (int k = 0; k < PW_FUEL_COUNT; k++) {
      const pw_after_house *h = &house[i];
      const pw_after *a = &h->after[k];
      if (!h->n_bill[k] || a->refused != PW_AFTER_ACCEPTED) continue;
      fprintf(f, "%s, %s, %s a year\n", h->job, pw_fuel_name((pw_fuel)k), h->unit[k]);
      for (int s = 0; s < 2; s++)
        explain_year(s ? &a->after : &a->before, s ? "after" : "before", f);
      fprintf(f, "  saved  = %.1f - %.1f = %.1f\n", a->before.normal.total,
              a->after.normal.total, a->saving);
      fprintf(f,
              "  error  = %ssqrt(%.2f^2 + %.2f^2) = %.2f; 10 to 90 %%: t of %.1f degrees of "
              "freedom\n",
              k == PW_FUEL_ELECTRICITY ? "" : "1.2 x ", a->before.normal.total_se,
              a->after.normal.total_se, a->se, a->freedom);
      if (h->drift[k].n)
        fprintf(f, "  beside the group = %.1f - %.4f x %.1f = %.1f\n", a->saving,
                h->drift[k].mean, a->before.normal.total, h->net[k].saving);
      if (h->promised[k])
        fprintf(f, "  promised = %.1f kWh / %.4f kWh a %s = %.1f\n", h->promise[k].p50,
                h->unit_kwh[k], h->unit[k], h->promise[k].p50 / h->unit_kwh[k]);
      fputs("  sources: change points and normal year, ASHRAE Guideline 14 and IPMVP option C "
            "(from memory); 1.2 for a fuel that heats alone, seeded trials\n",
            f);
    }
  return pw_text_written(f, "the measured saving", err);
}
