/* A range before and with the house's own bills. */
#include <math.h>
#include <stdio.h>

#include "out/grid.h"
#include "out/json.h"
#include "out/range_out.h"
#include "out/result.h"
#include "out/wrap.h"
#include "panewright/rates.h"

enum { WIDTH = 100 };

static const char *refusal_word(pw_condition_refusal why)
{
  static const char *const word[] = {"", "few", "tail", "far"};
  return (unsigned)why < sizeof word / sizeof word[0] ? word[why] : "?";
}

/* How many bills of which fuel; 0 when none was held against the draws. */
static int say_bills(const pw_range_conditioned *b, char text[160])
{
  size_t n = 0;
  text[0] = '\0';
  for (int f = 0; f < PW_FUEL_COUNT; f++)
    if (b->n_bill[f])
      n += (size_t)snprintf(text + n, 160 - n, "%s%zu %s bills", n ? ", " : "", b->n_bill[f],
                            pw_fuel_name((pw_fuel)f));
  return n > 0;
}

static void say_refused(const pw_range_conditioned *b, int any, FILE *f)
{
  const pw_condition *c = &b->condition;
  char text[400];
  if (!any)
    snprintf(text, sizeof text,
             "no fuel that heats or cools has bills that can be used (panewright bills says "
             "why); the range is that "
             "of before");
  else if (c->refused == PW_CONDITION_FAR)
    snprintf(text, sizeof text,
             "the bills do not fit this house as described: even the nearest draw is off by "
             "chi-square %.0f, want "
             "%.0f at most; look at floor area, plant, set points, or a second meter; the "
             "range is that of before",
             c->best_chi2, c->chi2_limit);
  else
    snprintf(text, sizeof text,
             "too few draws come near the bills (worth %.0f equal ones of %zu%s); the range is "
             "that of before",
             c->effective, b->n_draw,
             c->refused == PW_CONDITION_TAIL ? ", a few of which carry all" : "");
  pw_wrap(f, "Your bills are not used: ", text, WIDTH);
}

static pw_status before_and_with(const pw_compare *c, const pw_range *r,
                                 const pw_range_conditioned *b, FILE *f, pw_err *err)
{
  static const char *const header[] = {"<$ a year",       "before: low", "typical", "high",
                                       "with bills: low", "typical",     "high"};
  char text[160];
  pw_grid *g = pw_grid_new(sizeof header / sizeof header[0], header);
  pw_grid_cell(g, "heating and cooling, existing windows");
  pw_band_dollars(g, &b->before_cost);
  pw_band_dollars(g, &r->existing.cost_year);
  for (size_t p = 0; p < r->n_package; p++) {
    pw_grid_cell(g, "saved by %.40s", c->rated.package_set[p].name);
    pw_band_dollars(g, &b->before_saving[p]);
    pw_band_dollars(g, &r->package[p].saving_cost);
  }
  pw_status status = pw_grid_print(g, f, PW_TEXT, err);
  pw_grid_free(g);
  snprintf(text, sizeof text, "%.0f equal draws of %zu bear the bills; ",
           b->condition.effective, b->n_draw);
  pw_wrap(f, text,
          "all figures above are weighed by them. A range that rests on bills is still a "
          "range: nothing in it was "
          "measured.",
          WIDTH);
  return status;
}

pw_status pw_range_bills_text(const pw_compare *c, const pw_range *r, FILE *f, pw_err *err)
{
  const pw_range_conditioned *b = &r->bills;
  char text[160];
  if (!b->given) return PW_OK;
  int any = say_bills(b, text);
  fprintf(f, "\nBefore your bills and with your bills%s%s\n", any ? ": " : "", text);
  if (b->used) return before_and_with(c, r, b, f, err);
  say_refused(b, any, f);
  return PW_OK;
}

pw_status pw_range_bill_year_text(const pw_compare *c, const pw_range *r, FILE *f, pw_err *err)
{
  const pw_range_conditioned *b = &r->bill_year;
  if (!b->given || r->bills.used) return PW_OK;
  fprintf(f, "\nBefore your bill and with your bill: heating and cooling of a year, $%.0f\n",
          c->job->house.bill_year.value);
  if (b->used) return before_and_with(c, r, b, f, err);
  say_refused(b, 1, f);
  return PW_OK;
}

/* By the key that the range has with the bills. */
static void set_before(json_t *o, pw_result result, json_t *value)
{
  char key[64];
  snprintf(key, sizeof key, "%s_before", pw_result_of(result)->ranged);
  json_object_set_new(o, key, value);
}

json_t *pw_range_bills_json(const pw_range *r, const pw_range_conditioned *b)
{
  json_t *o = json_object(), *before = json_array(), *n = json_object();
  for (int f = 0; f < PW_FUEL_COUNT; f++)
    if (b->n_bill[f])
      json_object_set_new(n, pw_fuel_name((pw_fuel)f), json_integer((json_int_t)b->n_bill[f]));
  json_object_set_new(o, "used", json_boolean(b->used));
  if (b == &r->bills)
    json_object_set_new(o, "bills", n);
  else
    json_decref(n);
  json_object_set_new(o, "draws", json_integer((json_int_t)b->n_draw));
  pw_json_set(o, "effective_draws", b->condition.effective);
  pw_json_set(o, "tail_index", b->condition.tail);
  pw_json_set(o, "best_chi2", b->condition.best_chi2);
  pw_json_set(o, "chi2_limit", b->condition.chi2_limit);
  pw_json_set_text(o, "refused",
                   b->used                ? ""
                   : b->condition.refused ? refusal_word(b->condition.refused)
                                          : "no_bills");
  set_before(o, PW_RESULT_COST, pw_band_json(&b->before_cost));
  for (size_t p = 0; p < r->n_package; p++)
    json_array_append_new(before, pw_band_json(&b->before_saving[p]));
  set_before(o, PW_RESULT_SAVING, before);
  return o;
}
