/* What bills say, for the terminal and as CSV; and bills as rows of bills.csv. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "out/bills_out.h"
#include "out/grid.h"
#include "out/wrap.h"
#include "panewright/rates.h"

enum { WIDTH = 100 };

static void say_model(const pw_meter_use *u, const char *unit, const pw_unit_set *units,
                      FILE *f)
{
  static const char *const name[2] = {"heating", "cooling"};
  const pw_change_fit *fit = &u->fit;
  const char *degree = units->si ? "C" : "F";
  fprintf(f, "  %-12s %.4g %s a day", "base", fit->base, unit);
  if (fit->model == PW_CHANGE_BASE) fputs("; no weather term", f);
  fputc('\n', f);
  for (int side = 0; side < 2; side++) {
    if (isnan(fit->balance[side])) continue;
    fprintf(f, "  %-12s %.4g %s a day for each degree %s %s %.1f %s\n", name[side],
            units->si ? fit->slope[side] : fit->slope[side] / 1.8, unit, degree,
            side ? "above" : "below", pw_show_temperature(units, fit->balance[side] + 273.15),
            degree);
  }
  fprintf(f, "  %-12s R2 %.3f, CV(RMSE) %.1f %%, lag-1 correlation %.2f\n", "fit", fit->r2,
          100.0 * fit->cv, fit->rho);
}

static void say_normal(const pw_meter_use *u, const char *unit, FILE *f)
{
  static const char *const name[3] = {"base", "heating", "cooling"};
  fprintf(f, "  %-12s %.0f %s a year, standard error %.0f; 95 %%: %.0f to %.0f\n",
          "normal year", u->normal.total, unit, u->normal.total_se, u->low, u->high);
  for (int k = 0; k < 3; k++) {
    if (k > 0 && isnan(u->fit.balance[k - 1])) continue;
    fprintf(f, "    %-10s %.0f, standard error %.0f\n", name[k], u->normal.part[k],
            u->normal.part_se[k]);
  }
}

void pw_bill_findings_text(const pw_meter_use *u, const char *unit, FILE *f)
{
  for (size_t i = 0; i < u->findings.n; i++) {
    const pw_bill_finding *one = &u->findings.finding[i];
    char text[PW_BILL_TEXT], from[11], to[11], lead[64];
    pw_bill_finding_say(one, unit, text);
    pw_bill_day(one->from, from);
    pw_bill_day(one->to, to);
    snprintf(lead, sizeof lead, "  %s to %s: ", from, to);
    pw_wrap(f, lead, text, WIDTH);
  }
  if (u->findings.lost) fprintf(f, "  and %zu findings more\n", u->findings.lost);
}

pw_status pw_bills_text(const pw_bills_report *r, const pw_unit_set *units, FILE *f,
                        pw_err *err)
{
  (void)err;
  for (int k = 0; k < PW_FUEL_COUNT; k++) {
    const pw_bills_fuel *b = &r->bills->fuel[k];
    const pw_meter_use *u = &r->use[k];
    char text[PW_BILL_TEXT];
    if (!b->n) continue;
    fprintf(f, "%s: %zu bills, %zu used\n", pw_fuel_name((pw_fuel)k), b->n, u->n_used);
    pw_bill_refusal_say(r, (pw_fuel)k, text);
    if (text[0]) pw_wrap(f, "  refused: ", text, WIDTH);
    if (!text[0] && u->fitted) say_model(u, b->unit, units, f);
    if (!text[0] && u->has_normal) say_normal(u, b->unit, f);
    pw_bill_findings_text(u, b->unit, f);
    fputc('\n', f);
  }
  if (r->weather[0]) pw_wrap(f, "weather: ", r->weather, WIDTH);
  if (r->normal[0]) pw_wrap(f, "normal year: ", r->normal, WIDTH);
  for (size_t i = 0; i < r->notes->n; i++) {
    char line[400];
    pw_notes_line(&r->notes->note[i], line, sizeof line);
    pw_wrap(f, "note: ", line, WIDTH);
  }
  return PW_OK;
}

static void cell(pw_grid *g, double v, int said)
{
  if (said && isfinite(v))
    pw_grid_cell(g, "%.8g", v);
  else
    pw_grid_cell(g, "%s", "");
}

pw_status pw_bills_csv(const pw_bills_report *r, FILE *f, pw_err *err)
{
  static const char *const header[] = {
      "fuel",    "unit",        "model",       "n_used",  "base_per_day", "slope_h",
      "slope_c", "balance_h_c", "balance_c_c", "r2",      "cvrmse",       "nac",
      "nac_se",  "heating",     "heating_se",  "cooling", "cooling_se",   "base",
      "base_se", "refused",     "findings"};
  enum { N = sizeof header / sizeof header[0] };
  pw_grid *g = pw_grid_new(N, header);
  for (int k = 0; k < PW_FUEL_COUNT; k++) {
    const pw_meter_use *u = &r->use[k];
    char text[PW_BILL_TEXT], all[3000] = "";
    if (!r->bills->fuel[k].n) continue;
    pw_bill_refusal_say(r, (pw_fuel)k, text);
    int said = !text[0] && u->fitted, year = said && u->has_normal;
    pw_grid_cell(g, "%s", pw_fuel_name((pw_fuel)k));
    pw_grid_cell(g, "%s", r->bills->fuel[k].unit);
    pw_grid_cell(g, "%s", said ? pw_change_model_name(u->fit.model) : "");
    pw_grid_cell(g, "%zu", u->n_used);
    cell(g, u->fit.base, said);
    for (int side = 0; side < 2; side++)
      cell(g, u->fit.slope[side], said && !isnan(u->fit.balance[side]));
    for (int side = 0; side < 2; side++)
      cell(g, u->fit.balance[side], said);
    cell(g, u->fit.r2, u->fitted);
    cell(g, u->fit.cv, u->fitted);
    cell(g, u->normal.total, year);
    cell(g, u->normal.total_se, year);
    static const int order[3] = {1, 2, 0};
    for (int p = 0; p < 3; p++) {
      cell(g, u->normal.part[order[p]], year);
      cell(g, u->normal.part_se[order[p]], year);
    }
    pw_grid_cell(g, "%s", text);
    size_t n = 0;
    for (size_t i = 0; i < u->findings.n && n + 64 < sizeof all; i++) {
      char from[11], to[11];
      pw_bill_day(u->findings.finding[i].from, from);
      pw_bill_day(u->findings.finding[i].to, to);
      n += (size_t)snprintf(all + n, sizeof all - n, "%s%s %s %s", n ? "; " : "",
                            pw_bill_finding_word(u->findings.finding[i].kind), from, to);
    }
    pw_grid_cell(g, "%s", all);
  }
  pw_status status = pw_grid_print(g, f, PW_CSV, err);
  pw_grid_free(g);
  return status;
}

pw_status pw_bills_list(const pw_bills *bills, FILE *f, pw_err *err)
{
  static const char *const header[] = {"fuel", "from", "to",   "amount",
                                       "unit", "cost", "read", "generation"};
  static const char *const read[] = {"actual", "estimated", "missing", "corrected"};
  int sun = 0;
  for (int k = 0; k < PW_FUEL_COUNT; k++)
    for (size_t i = 0; i < bills->fuel[k].n; i++)
      sun |= !isnan(bills->fuel[k].row[i].generation);
  pw_grid *g = pw_grid_new(sun ? 8 : 7, header);
  for (int k = 0; k < PW_FUEL_COUNT; k++)
    for (size_t i = 0; i < bills->fuel[k].n; i++) {
      const pw_bill_row *b = &bills->fuel[k].row[i];
      char day[11] = "";
      pw_grid_cell(g, "%s", pw_fuel_name((pw_fuel)k));
      if (b->from != PW_BILL_NO_DAY) pw_bill_day(b->from, day);
      pw_grid_cell(g, "%s", day);
      pw_bill_day(b->to, day);
      pw_grid_cell(g, "%s", day);
      cell(g, b->amount, 1);
      pw_grid_cell(g, "%s", bills->fuel[k].unit);
      cell(g, b->cost, 1);
      pw_grid_cell(g, "%s", read[b->read]);
      if (sun) cell(g, b->generation, 1);
    }
  pw_status status = pw_grid_print(g, f, PW_CSV, err);
  pw_grid_free(g);
  return status;
}
