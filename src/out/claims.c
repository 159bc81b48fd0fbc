/* What may be said of a saving, and what must be said beside it. */
#include <math.h>
#include <string.h>

#include "out/credit.h"
#include "out/range_out.h"
#include "out/wrap.h"

static void credit(const pw_compare *c, FILE *f)
{
  if (pw_credit_of(&c->job->house) == PW_CREDIT_BEFORE_END)
    pw_wrap(f, "  ",
            "Federal tax credit: it ended for windows placed in service after 2025-12-31; "
            "this job's date lies before. Ask a tax preparer.",
            100);
  else
    pw_wrap(f, "  ",
            "Federal tax credit: none. It ended for windows placed in service after "
            "2025-12-31.",
            100);
}

static void bill_given(const pw_compare *c, const pw_range *range, FILE *f)
{
  double given = c->job->house.bill_year.value;
  char text[300];
  if (!(given > 0.0)) return;
  unsigned notes = c->billed.package_set[0].saving.notes;
  double computed = pw_compare_cost_of_bill(c);
  if (range)
    snprintf(text, sizeof text, "The computed bill is $%.0f, the job gives $%.0f: %s.",
             computed, given,
             range->bills.used       ? "draws count by how well they meet the house's own bills"
             : range->bill_year.used ? "draws count by how well they meet it"
             : range->bill_year.given
                 ? range->bill_year.condition.refused == PW_CONDITION_FAR
                       ? "no draw meets it, so savings go by what is computed"
                       : "too few draws meet it, so savings go by what is computed"
                 : "both of the house before any phase, so no draw is "
                   "weighed by the bill");
  else if (notes & PW_BILL_SCALED)
    snprintf(
        text, sizeof text,
        "The computed bill of $%.0f is above the $%.0f that the job gives: savings are scaled "
        "down to it.",
        computed, given);
  else
    snprintf(text, sizeof text,
             "The computed bill is $%.0f, the job gives $%.0f; no saving exceeds it.", computed,
             given);
  pw_wrap(f, "  ", text, 100);
  if (notes & PW_BILL_FAR_FROM_GIVEN)
    pw_wrap(f, "  ",
            "The two differ by more than a quarter: look at set points, leakage, "
            "efficiencies and what else is on that bill.",
            100);
}

enum { CLAIM_MAX = 64 };

/* "saves typically $215 a year", to five dollars: no finer than it is known. */
static void claim(double saved, int typically, const pw_tongue *tongue, char text[CLAIM_MAX])
{
  double dollars = pw_figure_rounded(PW_FIGURE_MONEY_5, pw_units(0), saved);
  if (dollars == 0.0)
    pw_tongue_put(tongue, text, CLAIM_MAX, "changes little (under $3 a year)");
  else if (typically && dollars < 0.0)
    pw_tongue_put(tongue, text, CLAIM_MAX, "costs typically $%.0f a year", -dollars);
  else if (typically)
    pw_tongue_put(tongue, text, CLAIM_MAX, "saves typically $%.0f a year", dollars);
  else if (dollars < 0.0)
    pw_tongue_put(tongue, text, CLAIM_MAX, "costs $%.0f a year", -dollars);
  else
    pw_tongue_put(tongue, text, CLAIM_MAX, "saves $%.0f a year", dollars);
}

void pw_claim_said(const pw_compare *c, const pw_range *range, const pw_tongue *tongue,
                   size_t p, char text[], size_t size)
{
  const pw_billed_set *s = &c->billed.package_set[p];
  char now[CLAIM_MAX], code[CLAIM_MAX];
  double saved = range ? range->package[p].saving_cost.p50 : s->saving.cost_year;
  double over = range ? range->package[p].saving_minimum.p50 : s->saving_minimum.cost_year;
  claim(saved, 1, tongue, now);
  claim(over, 0, tongue, code);
  pw_tongue_put(tongue, text, size,
                "%s on heating and cooling against the existing windows, and %s against new "
                "windows that just meet the code.",
                now, code);
}

static void package(const pw_compare *c, const pw_range *range, size_t p, FILE *f)
{
  const pw_compare_set s = pw_compare_set_of(c, (int)p);
  char text[400];
  pw_claim_said(c, range, NULL, p, text, sizeof text);
  char lead[60];
  snprintf(lead, sizeof lead, "  %.40s: ", s.rated->name);
  pw_wrap(f, lead, text, 100);
  if (range && range->package[p].includes_zero)
    pw_wrap(f, "    ",
            "The range of this saving includes zero: in some cases it saves nothing.", 100);
  if (s.billed->price > 0.0 &&
      (s.billed->worth.notes & (PW_WORTH_BEYOND_LIFE | PW_WORTH_NO_PAYBACK))) {
    if (isfinite(s.billed->worth.simple_payback))
      snprintf(text, sizeof text,
               "The payback of %.0f years is longer than the %.0f years the window is expected "
               "to live: energy alone does not pay for it.",
               s.billed->worth.simple_payback, s.billed->invest.life);
    else
      snprintf(text, sizeof text, "The savings never pay for it (life %.0f years).",
               s.billed->invest.life);
    pw_wrap(f, "    ", text, 100);
  }
}

void pw_claims_text(const pw_compare *c, const pw_range *range, FILE *f)
{
  fprintf(f, "\nWhat may be said\n");
  for (size_t p = 0; p < c->n_package; p++)
    package(c, range, p, f);
  bill_given(c, range, f);
  credit(c, f);
  pw_wrap(f, "  ",
          "Weather, thermostat, shade and prices change every figure. Less noise, less "
          "draught and easier use are reasons of their own and are not in the money.",
          100);
}
