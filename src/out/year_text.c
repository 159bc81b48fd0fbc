#include <math.h>
#include <stdio.h>

#include "out/airing_out.h"
#include "out/calendar.h"
#include "out/caution_out.h"
#include "out/clip.h"
#include "out/fit_out.h"
#include "out/grid.h"
#include "out/opening_facts.h"
#include "out/text_stream.h"
#include "out/wrap.h"
#include "out/year_out.h"
#include "panewright/units.h"

enum { WIDTH = 100, SETS = 1 + PW_COMPARE_PACKAGES_MAX };

size_t pw_year_best(const pw_compare *c)
{
  size_t best = 0;
  for (size_t p = 1; p < c->n_package; p++)
    if (c->billed.package_set[p].bill.cost_year < c->billed.package_set[best].bill.cost_year)
      best = p;
  return best;
}

static pw_status print(pw_grid *grid, const char *title, FILE *f, pw_err *err)
{
  fprintf(f, "\n%s\n", title);
  pw_status status = pw_grid_print(grid, f, PW_TEXT, err);
  pw_grid_free(grid);
  return status;
}

/* "-21 %", also of figures that are not there. */
static void percent(pw_grid *g, double part, double whole)
{
  if (isfinite(part) && whole > 0.0)
    pw_grid_cell(g, "%.0f %%", rint(100.0 * part / whole) + 0.0);
  else
    pw_grid_cell(g, "-");
}

static void fuel_header(char text[24], pw_fuel fuel, int si)
{
  static const char *const ip[PW_FUEL_COUNT] = {"kWh", "therm", "MMBtu", "MMBtu"};
  snprintf(text, 24, "%s %s", pw_fuel_name(fuel), si ? "kWh" : ip[fuel]);
}

static double fuel_use(const pw_bill *bill, pw_fuel fuel, int si)
{
  static const double kwh[PW_FUEL_COUNT] = {1.0, PW_THERM_KWH, 10.0 * PW_THERM_KWH,
                                            10.0 * PW_THERM_KWH};
  return bill->use_kwh[fuel] / (si ? 1.0 : kwh[fuel]);
}

/* Need and what is bought for it. */
static pw_status need(const pw_compare *c, const pw_unit_set *units, FILE *f, pw_err *err)
{
  char fuel[PW_FUEL_COUNT][24];
  const char *header[7 + PW_FUEL_COUNT] = {"<windows"};
  size_t n = 1;
  header[n++] = "heating kWh";
  if (!units->si) header[n++] = "MMBtu";
  header[n++] = "cooling kWh";
  if (!units->si) header[n++] = "MMBtu";
  for (int k = PW_FUEL_COUNT - 1; k >= 0; k--) /* what heats first, electricity last */
    if (c->billed.existing_set.bill.use_kwh[k] > 0.0) {
      fuel_header(fuel[k], (pw_fuel)k, units->si);
      header[n++] = fuel[k];
    }
  header[n++] = "bill";
  header[n++] = "saved";
  pw_grid *g = pw_grid_new(n, header);
  for (int s = -1; s < (int)c->n_package; s++) {
    const pw_compare_set set = pw_compare_set_of(c, s);
    const double kwh[2] = {set.lived->year.heating_kwh, set.lived->year.cooling_kwh};
    pw_grid_cell(g, "%s", pw_clip(set.rated->name, 14).text);
    for (int k = 0; k < 2; k++) {
      pw_grid_number(g, kwh[k], 0);
      if (!units->si) pw_grid_number(g, kwh[k] / (10.0 * PW_THERM_KWH), 1);
    }
    for (int k = PW_FUEL_COUNT - 1; k >= 0; k--)
      if (c->billed.existing_set.bill.use_kwh[k] > 0.0)
        pw_grid_number(g, fuel_use(&set.billed->bill, (pw_fuel)k, units->si), 0);
    pw_grid_cell(g, "$%.0f", set.billed->bill.cost_year);
    if (s < 0)
      pw_grid_cell(g, "%s", "");
    else
      pw_grid_cell(g, "$%.0f", set.billed->saving.cost_year);
  }
  return print(g, "The year: heat and cold the house needs, and what is bought for it", f, err);
}

static void peak(pw_grid *g, const pw_unit_set *units, double w, int hour)
{
  char when[PW_DAY_TEXT];
  pw_show_hour(isfinite(w) && w > 0.0 ? hour : -1, when);
  pw_grid_number(g, units->si ? 1e-3 * w : 1e-3 * w / PW_BTU_H, 1);
  pw_grid_cell(g, "%s", when);
}

static void degrees(pw_grid *g, const pw_unit_set *units, double c)
{
  pw_grid_number(g, pw_show_temperature(units, pw_k(c)), units->si);
}

/* The monthly method knows neither peaks nor hours. */
static pw_status peaks(const pw_compare *c, const pw_unit_set *units, FILE *f, pw_err *err)
{
  static const char *const header[] = {"<windows", "heating",  "when",     "cooling", "when",
                                       "too warm", "too cold", "air, low", "high",    "warm h"};
  pw_grid *g =
      pw_grid_new(sizeof header / sizeof header[0] - (c->billed.rates.cools ? 1 : 0), header);
  for (int s = -1; s < (int)c->n_package; s++) {
    const pw_year_result *y = &pw_compare_set_of(c, s).lived->year;
    pw_grid_cell(g, "%s", pw_clip(pw_compare_set_of(c, s).rated->name, 14).text);
    peak(g, units, y->peak_heating_w, y->peak_heating_hour);
    peak(g, units, y->peak_cooling_w, y->peak_cooling_hour);
    pw_grid_number(g, y->hours_overheated, 0);
    pw_grid_number(g, y->hours_cold, 0);
    degrees(g, units, y->t_air_min_c);
    degrees(g, units, y->t_air_max_c);
    if (!c->billed.rates.cools) pw_grid_number(g, y->hours_warm, 0);
  }
  char title[160];
  snprintf(title, sizeof title,
           "Peaks (%s, mean of an hour) and comfort (hours that feel above %s or below %s; air "
           "in %s)",
           units->si ? "kW" : "kBtu/h", units->si ? "27 C" : "81 F",
           units->si ? "19 C" : "66 F", units->temperature);
  return print(g, title, f, err);
}

/* Where the heat of the year comes from and where it goes. */
static pw_status balance(const pw_compare *c, FILE *f, pw_err *err)
{
  static const char *const header[] = {"<windows",     "heating",         "sun in",
                                       "inside gains", "through windows", "walls, roof, floor",
                                       "air",          "cooling"};
  pw_grid *g = pw_grid_new(sizeof header / sizeof header[0], header);
  for (int s = -1; s < (int)c->n_package; s++) {
    const pw_year_result *y = &pw_compare_set_of(c, s).lived->year;
    const double v[] = {y->heating_kwh,     y->solar_kwh,    y->gain_kwh,   y->window_loss_kwh,
                        y->opaque_loss_kwh, y->air_loss_kwh, y->cooling_kwh};
    pw_grid_cell(g, "%s", pw_clip(pw_compare_set_of(c, s).rated->name, 14).text);
    for (size_t i = 0; i < sizeof v / sizeof v[0]; i++)
      pw_grid_number(g, v[i], 0);
  }
  return print(g, "Heat balance of the year, kWh: the first three come in, the others go out",
               f, err);
}

static pw_status by_month(const pw_compare *c, int cooling, const pw_unit_set *units, FILE *f,
                          pw_err *err)
{
  pw_clipped name[SETS];
  const char *header[1 + SETS] = {"<month"};
  int n = (int)c->n_package, wide = n > 5 ? 8 : 14;
  for (int s = -1; s < n; s++) {
    name[s + 1] = pw_clip(pw_compare_set_of(c, s).rated->name, wide);
    header[s + 2] = name[s + 1].text;
  }
  pw_grid *g = pw_grid_new((size_t)n + 2, header);
  for (int m = 0; m < 12; m++) {
    pw_grid_cell(g, "%s", pw_month_name[m]);
    for (int s = -1; s < n; s++) {
      const pw_year_result *y = &pw_compare_set_of(c, s).lived->year;
      pw_grid_number(g, cooling ? y->cooling_month_kwh[m] : y->heating_month_kwh[m], 0);
    }
  }
  pw_grid_rule(g);
  for (int row = 0; row < (units->si ? 1 : 2); row++) {
    pw_grid_cell(g, row ? "MMBtu" : "year kWh");
    for (int s = -1; s < n; s++) {
      const pw_year_result *y = &pw_compare_set_of(c, s).lived->year;
      double kwh = cooling ? y->cooling_kwh : y->heating_kwh;
      pw_grid_number(g, row ? kwh / (10.0 * PW_THERM_KWH) : kwh, row);
    }
  }
  return print(g, cooling ? "Cooling need by month, kWh" : "Heating need by month, kWh", f,
               err);
}

static pw_status by_side(const pw_compare *c, size_t package, const pw_unit_set *units, FILE *f,
                         pw_err *err)
{
  static const char *const header[] = {"<facing", "windows",    "<with",
                                       "glass",   "sun in",     "lost",
                                       "net in",  "of heating", "of cooling"};
  pw_side_year now[PW_FACADES], then[PW_FACADES];
  pw_compare_sides(c, -1, now);
  pw_compare_sides(c, (int)package, then);
  pw_grid *g = pw_grid_new(sizeof header / sizeof header[0], header);
  for (int k = 0; k < PW_FACADES; k++)
    for (int p = 0; now[k].n_window && p < 2; p++) {
      const pw_side_year *side = p ? &then[k] : &now[k];
      const pw_compare_set set = pw_compare_set_of(c, p ? (int)package : PW_SET_EXISTING);
      pw_grid_cell(g, "%s", p ? "" : pw_side_name[k]);
      if (p)
        pw_grid_cell(g, "%s", "");
      else
        pw_grid_cell(g, "%d", side->n_window);
      pw_grid_cell(g, "%s", pw_clip(set.rated->name, 14).text);
      pw_grid_number(g, pw_show_area(units, side->glass_area), 1);
      pw_grid_number(g, side->solar_kwh, 0);
      pw_grid_number(g, side->lost_kwh, 0);
      pw_grid_number(g, side->solar_kwh - side->lost_kwh, 0);
      percent(g, side->heating_part_kwh, set.lived->year.heating_kwh);
      percent(g, side->cooling_part_kwh, set.lived->year.cooling_kwh);
    }
  char title[160];
  snprintf(
      title, sizeof title,
      "Facade by facade, kWh a year (glass in %s; shares of the house's heating and cooling)",
      units->area);
  return print(g, title, f, err);
}

/* Net heat of each facade by month for one set, and what it is made of. */
static pw_status month_by_side(const pw_compare *c, int s, FILE *f, pw_err *err)
{
  pw_side_year side[PW_FACADES];
  const char *header[1 + PW_FACADES + 3] = {"<month"};
  size_t n = 1;
  pw_compare_sides(c, s, side);
  for (int k = 0; k < PW_FACADES; k++)
    if (side[k].n_window) header[n++] = pw_side_name[k];
  header[n++] = "net in";
  header[n++] = "= sun in";
  header[n++] = "- lost";
  pw_grid *g = pw_grid_new(n, header);
  for (int m = 0; m < 13; m++) {
    double sun = 0.0, lost = 0.0;
    if (m == 12) pw_grid_rule(g);
    pw_grid_cell(g, "%s", m == 12 ? "year" : pw_month_name[m]);
    for (int k = 0; k < PW_FACADES; k++) {
      if (!side[k].n_window) continue;
      double in = m == 12 ? side[k].solar_kwh : side[k].solar_month_kwh[m];
      double out = m == 12 ? side[k].lost_kwh : side[k].lost_month_kwh[m];
      pw_grid_number(g, in - out, 0);
      sun += in;
      lost += out;
    }
    pw_grid_number(g, sun - lost, 0);
    pw_grid_number(g, sun, 0);
    pw_grid_number(g, lost, 0);
  }
  char title[240];
  snprintf(title, sizeof title, "Heat in through the windows by month and facade, kWh: %s",
           pw_clip(pw_compare_set_of(c, s).rated->name, 30).text);
  return print(g, title, f, err);
}

static pw_status by_opening(const pw_compare *c, size_t package, const pw_unit_set *units,
                            FILE *f, pw_err *err)
{
  static const char *const header[] = {"<opening",   "<facing",   "<with",   "sun in",
                                       "lost",       "heating",   "cooling", "hours off",
                                       "walls felt", "glass low", "high"};
  pw_grid *g = pw_grid_new(sizeof header / sizeof header[0], header);
  for (size_t i = 0; i < c->n_opening; i++)
    for (int p = 0; p < 2; p++) {
      const pw_opening *o = &c->job->opening[i];
      if (p && !pw_compare_replaces(c->job, i)) break; /* the same in every set */
      const pw_compare_set set = pw_compare_set_of(c, p ? (int)package : PW_SET_EXISTING);
      const pw_year_window *w = &set.lived->year.window[i];
      pw_grid_cell(g, "%s", p ? "" : o->tag);
      pw_grid_cell(g, "%s", p ? "" : pw_side_name[pw_year_facade(o->facing_deg)]);
      pw_grid_cell(g, "%s", pw_window_name(c, p ? (int)package : -1, i, 9).text);
      pw_grid_number(g, w->solar_kwh, 0);
      pw_grid_number(g, w->heat_lost_kwh, 0);
      percent(g, w->heating_part_kwh, set.lived->year.heating_kwh);
      percent(g, w->cooling_part_kwh, set.lived->year.cooling_kwh);
      pw_grid_number(g, w->hours_uncomfortable, 0);
      degrees(g, units, w->radiant_min_c);
      degrees(g, units, w->t_inner_min_c);
      degrees(g, units, w->t_inner_max_c);
    }
  return print(g,
               "Opening by opening: kWh a year, shares of heating and cooling, comfort beside "
               "the window",
               f, err);
}

static void legend(const pw_unit_set *units, FILE *f)
{
  char text[800];
  snprintf(
      text, sizeof text,
      "Shares: the heat a window loses, or lets in, in the hours that heat, or "
      "cool, as a share of the house's need; a minus is a window that helps. hours off: "
      "hours in which it feels below %s or above %s one metre before the glass, by day and by "
      "night. walls felt: the lowest mean temperature there of all surfaces around, in %s; "
      "glass: the lowest and highest of its inner face. Sun that falls on a person is not in "
      "it.",
      units->si ? "19 C" : "66 F", units->si ? "27 C" : "81 F", units->temperature);
  pw_wrap(f, "", text, WIDTH);
}

pw_status pw_year_text(const pw_compare *c, const pw_compare_frame *frame, size_t package,
                       const pw_unit_set *units, FILE *f, pw_err *err)
{
  pw_notes_head(frame->notes, f);
  pw_compare_heading(c, frame, f);
  pw_status status = need(c, units, f, err);
  int hourly = isfinite(c->lived.existing_set.year.hours_cold);
  if (status == PW_OK && hourly) status = peaks(c, units, f, err);
  if (status == PW_OK && !c->billed.rates.heats) fputs(pw_no_heating, f);
  if (status == PW_OK && !c->billed.rates.cools) pw_no_cooling(c, units, f);
  if (status == PW_OK) status = pw_airing_text(c, frame->airing, units, f, err);
  if (status == PW_OK) status = balance(c, f, err);
  if (status == PW_OK) status = by_month(c, 0, units, f, err);
  if (status == PW_OK) status = by_month(c, 1, units, f, err);
  if (status == PW_OK) status = by_side(c, package, units, f, err);
  if (status == PW_OK) status = month_by_side(c, -1, f, err);
  if (status == PW_OK) status = month_by_side(c, (int)package, f, err);
  if (status == PW_OK) status = by_opening(c, package, units, f, err);
  if (status != PW_OK) return status;
  legend(units, f);
  pw_findings_text(c->job, c->fitted.fit[0], f);
  if (!isfinite(c->lived.existing_set.year.opaque_loss_kwh))
    fprintf(f, "A dash: this method does not give the figure.\n");
  fprintf(f, "\nComputed for these openings; not a certified rating.\n");
  return pw_text_written(f, "the year", err);
}
