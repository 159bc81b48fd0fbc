/* What the money was figured with, beside the claim it belongs to. */
#include <math.h>

#include "out/sheet_impl.h"
#include "panewright/units.h"

static const char *whose(const pw_given *given)
{
  switch (given->origin) {
  case PW_ORIGIN_ASSUMED:
    return "assumed";
  case PW_ORIGIN_TABLE:
    return "published average, not your bill's";
  default:
    return "as given";
  }
}

static void price(const pw_sheet *sheet, pw_fuel fuel, pw_html *h)
{
  const pw_rates *r = &sheet->compare->rates;
  double v = r->price[fuel].value;
  if (r->tariff[fuel])
    pw_html_put(h, "; %s by the tariff of the job", pw_fuel_name(fuel));
  else if (fuel == PW_FUEL_GAS)
    pw_html_put(h, "; gas $%.2f a therm (%s)", v * PW_THERM_KWH, whose(&r->price[fuel]));
  else
    pw_html_put(h, "; %s $%.3f a kWh (%s)", pw_fuel_name(fuel), v, whose(&r->price[fuel]));
}

static void equipment(const pw_sheet *sheet, pw_html *h)
{
  const pw_rates *r = &sheet->compare->rates;
  const pw_house_facts *facts = &sheet->compare->job->house;
  if (!r->heats)
    pw_html_put(h, "; no heating, so no heat is billed");
  else if (r->heating_efficiency.value > 1.0)
    pw_html_put(h, "; heating gives %.1f kWh of heat for 1 kWh of %s (%s)",
                r->heating_efficiency.value, pw_fuel_name(r->heating_fuel),
                whose(&r->heating_efficiency));
  else
    pw_html_put(h, "; heating by %s at %.0f %% (%s)", pw_fuel_name(r->heating_fuel),
                100.0 * r->heating_efficiency.value, whose(&r->heating_efficiency));
  if (r->cools)
    pw_html_put(h, "; cooling moves %.1f kWh for 1 kWh of electricity (%s)",
                r->cooling_cop.value, whose(&r->cooling_cop));
  else
    pw_html_put(h, "; no cooling machine, so cooling costs nothing here");
  if (facts->duct_efficiency.value < 1.0)
    pw_html_put(h, "; ducts of the %s deliver %.0f %% (%s)",
                r->heats_by_duct && r->cools_by_duct ? "heating and cooling"
                : r->heats_by_duct                   ? "heating"
                                                     : "cooling",
                100.0 * facts->duct_efficiency.value, whose(&facts->duct_efficiency));
}

void sheet_assumptions(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  const pw_house_facts *facts = &c->job->house;
  char from[32], to[32];
  pw_figure_text(PW_FIGURE_TEMPERATURE, sheet->units, pw_k(facts->heat_set_c.value), from);
  pw_figure_text(PW_FIGURE_TEMPERATURE, sheet->units, pw_k(facts->cool_set_c.value), to);
  pw_html_put(h, "<p class=\"assumed\"><b>Figured for this house:</b> %.0f %s of floor",
              pw_show_area(sheet->units, facts->floor_area.value), sheet->units->area);
  if (facts->year_built) pw_html_put(h, ", built %d", facts->year_built);
  pw_html_put(h, "; weather: <bdi>%s</bdi>", sheet->frame->climate_line);
  if (c->rates.heats) pw_html_put(h, "; heated to %s %s", from, sheet->units->temperature);
  pw_html_put(h, "%s cooled to %s %s", c->rates.heats ? "," : ";", to,
              sheet->units->temperature);
  equipment(sheet, h);
  if (c->rates.heats) price(sheet, c->rates.heating_fuel, h);
  if (c->rates.cools && (!c->rates.heats || c->rates.heating_fuel != PW_FUEL_ELECTRICITY))
    price(sheet, PW_FUEL_ELECTRICITY, h);
  if (facts->bill_year.value > 0.0)
    pw_html_put(h, "; bill given for heating and cooling $%.0f a year, which no saving exceeds",
                facts->bill_year.value);
  else
    pw_html_put(h, "; no bill given%s",
                sheet->frame->range ? ", so ranges are a quarter wide at least" : "");
  if (sheet->frame->tight && sheet->frame->tight->told)
    pw_html_put(h,
                ". Drafts are taken as the same before and after, but in the line on tighter "
                "windows. Weather, thermostat and shading change these results; everything "
                "taken for granted is listed at the end.</p>\n");
  else
    pw_html_put(
        h, ". Drafts are taken as the same before and after. Weather, thermostat and shading "
           "change these results; everything taken for granted is listed at the end.</p>\n");
}
