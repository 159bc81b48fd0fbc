/* What the money was figured with, beside the claim it belongs to. Each thing is a sentence of its own. */
#include <math.h>

#include "out/climate_text.h"
#include "out/sheet_impl.h"
#include "panewright/units.h"

const char *sheet_origin(pw_origin origin)
{
  static const char *const word[] = {
      [PW_ORIGIN_ASSUMED] = PW_TEXT("assumed"),
      [PW_ORIGIN_TABLE] = PW_TEXT("from a published table"),
      [PW_ORIGIN_STATED] = PW_TEXT("as given"),
      [PW_ORIGIN_MEASURED] = PW_TEXT("measured"),
      [PW_ORIGIN_LABEL] = PW_TEXT("from the certified label"),
      [PW_ORIGIN_COMPUTED] = PW_TEXT("computed from drawn sections"),
  };
  return word[origin];
}

static const char *whose(const pw_html *h, const pw_given *given)
{
  return pw_say(h, given->origin == PW_ORIGIN_ASSUMED ? PW_TEXT("assumed")
                   : given->origin == PW_ORIGIN_TABLE
                       ? PW_TEXT("published average, not your bill's")
                       : PW_TEXT("as given"));
}

static void price(const pw_sheet *sheet, pw_fuel fuel, pw_html *h)
{
  const pw_rates *r = &sheet->compare->billed.rates;
  const char *name = pw_say(h, pw_fuel_name(fuel));
  double v = r->price[fuel].value;
  if (r->tariff[fuel])
    pw_html_put(h, " Price of %s: by the tariff of the job.", name);
  else if (fuel == PW_FUEL_GAS)
    pw_html_put(h, " Price of gas: $%.2f a therm (%s).", v * PW_THERM_KWH,
                whose(h, &r->price[fuel]));
  else
    pw_html_put(h, " Price of %s: $%.3f a kWh (%s).", name, v, whose(h, &r->price[fuel]));
}

static void ducts(const pw_sheet *sheet, pw_html *h)
{
  const pw_rates *r = &sheet->compare->billed.rates;
  const pw_given *duct = &sheet->compare->job->house.duct_efficiency;
  pw_figure_words heat, cool;
  if (sheet->compare->job->house.ducts && r->heats_by_duct)
    pw_html_put(h, " Ducts bring %s of the heat to the rooms (by where they lie).",
                pw_figure_say(h, &heat, sheet->units, PW_FIGURE_SHARE, r->heating_duct.value,
                              "ducts.heating.delivers"));
  if (sheet->compare->job->house.ducts && r->cools_by_duct)
    pw_html_put(h, " Ducts bring %s of the cold to the rooms (by where they lie).",
                pw_figure_say(h, &cool, sheet->units, PW_FIGURE_SHARE, r->cooling_duct.value,
                              "ducts.cooling.delivers"));
  if (!(duct->value < 1.0)) return;
  if (r->heats_by_duct && r->cools_by_duct)
    pw_html_put(h, " Ducts of heating and cooling deliver %.0f %% (%s).", 100.0 * duct->value,
                whose(h, duct));
  else if (r->heats_by_duct)
    pw_html_put(h, " Ducts of the heating deliver %.0f %% (%s).", 100.0 * duct->value,
                whose(h, duct));
  else
    pw_html_put(h, " Ducts of the cooling deliver %.0f %% (%s).", 100.0 * duct->value,
                whose(h, duct));
}

static void equipment(const pw_sheet *sheet, pw_html *h)
{
  const pw_rates *r = &sheet->compare->billed.rates;
  const pw_given *heating = &r->heating_efficiency;
  const char *fuel = pw_say(h, pw_fuel_name(r->heating_fuel));
  if (!r->heats)
    pw_html_put(h, " No heating, so no heat is billed.");
  else if (heating->value > 1.0)
    pw_html_put(h, " Heating gives %.1f kWh of heat for 1 kWh of %s (%s).", heating->value,
                fuel, whose(h, heating));
  else
    pw_html_put(h, " Heating by %s at %.0f %% (%s).", fuel, 100.0 * heating->value,
                whose(h, heating));
  if (r->cools)
    pw_html_put(h, " Cooling moves %.1f kWh for 1 kWh of electricity (%s).",
                r->cooling_cop.value, whose(h, &r->cooling_cop));
  else
    pw_html_put(h, " No cooling machine, so cooling costs nothing here.");
  ducts(sheet, h);
}

/* Which dollars every saving is a part of, where there are such. */
static void base(const pw_sheet *sheet, pw_html *h)
{
  double bill = sheet->compare->job->house.bill_year.value;
  char text[32];
  const pw_range *range = sheet->frame->range;
  pw_figure_text(PW_FIGURE_MONEY, sheet->units, bill, text);
  if (bill > 0.0 && range && !range->bill_year.used)
    pw_html_put(h, " Bill given for heating and cooling: %s a year.", text);
  else if (bill > 0.0)
    pw_html_put(h, " Bill given for heating and cooling: %s a year, which no saving exceeds.",
                text);
  if (sheet_held_to_bill(sheet)) return; /* sheet_bills.c tells */
  if (range && (bill > 0.0 || range->bills.given))
    pw_html_put(h, " No bill is used, so ranges are a quarter wide at least.");
  else if (range)
    pw_html_put(h, " No bill is given, so ranges are a quarter wide at least.");
  else if (!(bill > 0.0))
    pw_html_put(h, " No bill is given.");
}

void sheet_assumptions(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  const pw_house_facts *facts = &c->job->house;
  const char *degree = sheet->units->temperature;
  char from[32], to[32];
  pw_figure_text(PW_FIGURE_TEMPERATURE, sheet->units, pw_k(facts->heat_set_c.value), from);
  pw_figure_text(PW_FIGURE_TEMPERATURE, sheet->units, pw_k(facts->cool_set_c.value), to);
  pw_html_put(h, "<p class=\"assumed\"><b>Figured for this house:</b> %.0f %s of floor.",
              pw_show_area(sheet->units, facts->floor_area.value), sheet->units->area);
  if (facts->year_built) pw_html_put(h, " Built %d.", facts->year_built);
  pw_html_put(h, " Weather: <bdi>%s</bdi>.",
              pw_climate_text(h->tongue, sheet->frame->climate, (char[PW_CLIMATE_TEXT]){""}));
  if (c->billed.rates.heats)
    pw_html_put(h, " Heated to %s %s, cooled to %s %s.", from, degree, to, degree);
  else
    pw_html_put(h, " Cooled to %s %s.", to, degree);
  equipment(sheet, h);
  if (c->billed.rates.heats) price(sheet, c->billed.rates.heating_fuel, h);
  if (c->billed.rates.cools &&
      (!c->billed.rates.heats || c->billed.rates.heating_fuel != PW_FUEL_ELECTRICITY))
    price(sheet, PW_FUEL_ELECTRICITY, h);
  base(sheet, h);
  if (sheet->frame->tight && sheet->frame->tight->told)
    pw_html_put(h,
                " Drafts are taken as the same before and after, but in the line on tighter "
                "windows. Weather, thermostat and shading change these results; what else is "
                "taken for granted stands in part 4.</p>\n");
  else
    pw_html_put(h,
                " Drafts are taken as the same before and after. Weather, thermostat and "
                "shading change these results; what else is taken for granted stands in part "
                "4.</p>\n");
}
