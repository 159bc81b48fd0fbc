#include <math.h>

#include "climate/month.h"
#include "gen/reference.h"
#include "study/compare_impl.h"
#include "study/range_impl.h"

static const struct {
  const char *name, *key;
  unsigned enters;
} list[IN_COUNT] = {
    [IN_GLASS_U_OLD] = {"U of the existing glass", "glass_u", PW_ENTERS_U | PW_ENTERS_YEAR},
    [IN_GLASS_U_NEW] = {"U of the new glass", "glass_u", PW_ENTERS_U | PW_ENTERS_YEAR},
    [IN_FRAME_U_OLD] = {"U of the existing frame", "frame_u", PW_ENTERS_U | PW_ENTERS_YEAR},
    [IN_FRAME_U_NEW] = {"U of the new frame", "frame_u", PW_ENTERS_U | PW_ENTERS_YEAR},
    [IN_SHGC_OLD] = {"sun through the existing glass", "glass_shgc",
                     PW_ENTERS_SHGC | PW_ENTERS_YEAR},
    [IN_SHGC_NEW] = {"sun through the new glass", "glass_shgc",
                     PW_ENTERS_SHGC | PW_ENTERS_YEAR},
    [IN_TAPE] = {"tape reading", "tape", PW_ENTERS_YEAR},
    [IN_SIGHT_OLD] = {"existing sight line", "frame_face", PW_ENTERS_YEAR},
    [IN_SIGHT_NEW] = {"new sight line", "frame_face", PW_ENTERS_YEAR},
    [IN_SUN] = {"sun on the walls", "sun", PW_ENTERS_YEAR},
    [IN_SHADE] = {"shade of trees and walls", "shade", PW_ENTERS_YEAR},
    [IN_AIR] = {"air leakage of the house", "air_changes", PW_ENTERS_YEAR},
    [IN_UA] = {"insulation of the house", "envelope_ua", PW_ENTERS_YEAR},
    [IN_MASS] = {"heat stored in the house", "mass", PW_ENTERS_YEAR},
    [IN_FORM + PW_FORM_FILM_OUT] = {"formula of the air film outdoors", NULL, PW_ENTERS_YEAR},
    [IN_FORM + PW_FORM_FILM_IN] = {"formula of the air film indoors", NULL, PW_ENTERS_YEAR},
    [IN_FORM + PW_FORM_SKY_LIGHT] = {"formula of the light of the sky", NULL, PW_ENTERS_YEAR},
    [IN_FORM + PW_FORM_SKY_COLD] = {"formula of the cold of the sky", NULL, PW_ENTERS_YEAR},
    [IN_FORM + PW_FORM_GROUND] = {"formula of the ground below", NULL, PW_ENTERS_YEAR},
    [IN_HEAT_SET] = {"heating set point", "heat_set", PW_ENTERS_YEAR},
    [IN_COOL_SET] = {"cooling set point", "cool_set", PW_ENTERS_YEAR},
    [IN_GAIN] = {"heat of people and plugs", "internal_gain", PW_ENTERS_YEAR},
    [IN_FLOOR] = {"floor area", "floor_area", PW_ENTERS_YEAR},
    [IN_CEILING] = {"ceiling height", "ceiling_height", PW_ENTERS_YEAR},
    [IN_AIR_SHIELD] = {"shelter of the house from wind", "air_shield", PW_ENTERS_YEAR},
    [IN_AIR_TERRAIN] = {"terrain round the house", "air_terrain", PW_ENTERS_YEAR},
    [IN_AIR_LEVEL] = {"leaks in floor and ceiling", "air_level", PW_ENTERS_YEAR},
    [IN_COVER_CLOSED] = {"drapes and blinds that are closed", "covering_closed",
                         PW_ENTERS_YEAR},
    [IN_COVER_SUN] = {"sun that they hold back", "covering_sun", PW_ENTERS_YEAR},
    [IN_COVER_R] = {"heat that they hold back", "covering_r", PW_ENTERS_YEAR},
    [IN_AIRING_SHARE] = {"windows that stand open", NULL, PW_ENTERS_YEAR},
    [IN_AIRING_FLOW] = {"air through open windows", NULL, PW_ENTERS_YEAR},
    [IN_AIRING_HEAT] = {"rooms over the heating set point when opened", NULL, PW_ENTERS_YEAR},
    [IN_AIRING_OVER] = {"rooms warmer than outdoors when opened", NULL, PW_ENTERS_YEAR},
    [IN_AIRING_DEW] = {"damp outdoors that shuts windows", NULL, PW_ENTERS_YEAR},
    [IN_SETBACK] = {"night set-back of the heating", "setback", PW_ENTERS_YEAR},
    [IN_WEATHER_HEAT] = {"winters from year to year", "weather_heating", PW_ENTERS_YEAR},
    [IN_WEATHER_COOL] = {"summers from year to year", "weather_cooling", PW_ENTERS_YEAR},
    [IN_MODEL_HEAT] = {"computed heating", NULL, PW_ENTERS_YEAR},
    [IN_MODEL_COOL] = {"computed cooling", NULL, PW_ENTERS_YEAR},
    [IN_NORMALS_HEAT] = {"winter made from monthly normals", NULL, PW_ENTERS_YEAR},
    [IN_NORMALS_COOL] = {"summer made from monthly normals", NULL, PW_ENTERS_YEAR},
    [IN_EFFECT_HEAT] = {"computed effect of windows, heating", NULL, PW_ENTERS_BILL},
    [IN_EFFECT_COOL] = {"computed effect of windows, cooling", NULL, PW_ENTERS_BILL},
    [IN_HEAT_EFFICIENCY] = {"efficiency of the heating", "heating_efficiency", PW_ENTERS_BILL},
    [IN_COOL_COP] = {"efficiency of the cooling", "cooling_cop", PW_ENTERS_BILL},
    [IN_DUCT] = {"losses of the ducts", "duct_efficiency", PW_ENTERS_BILL},
    [IN_PRICE_HEAT] = {"price of heating energy", "price_energy", PW_ENTERS_BILL},
    [IN_PRICE_COOL] = {"price of electricity", "price_energy", PW_ENTERS_BILL},
    [IN_ESCALATION] = {"price rise of energy", "escalation", PW_ENTERS_WORTH},
    [IN_INSTALLED] = {"installed price", "installed_price", PW_ENTERS_WORTH},
};

/* The row of table air/airing that an input draws; NULL none. */
static const pw_ref_air_airing_row *airing_row(size_t i)
{
  switch (i) {
  case IN_AIRING_SHARE:
    return &pw_ref_air_airing[pw_ref_air_airing__share];
  case IN_AIRING_FLOW:
    return &pw_ref_air_airing[pw_ref_air_airing__scatter];
  case IN_AIRING_HEAT:
    return &pw_ref_air_airing[pw_ref_air_airing__over_heat];
  case IN_AIRING_OVER:
    return &pw_ref_air_airing[pw_ref_air_airing__over_out];
  case IN_AIRING_DEW:
    return &pw_ref_air_airing[pw_ref_air_airing__dew_most];
  default:
    return NULL;
  }
}

/* Whether a house has an input at all. */
static int has(const pw_compare *c, size_t i)
{
  if (i == IN_AIR_SHIELD) return pw_compare_air_drawn(&c->job->house);
  if (i == IN_AIR_TERRAIN || i == IN_AIR_LEVEL)
    return pw_compare_air_drawn(&c->job->house) &&
           pw_compare_air_model(&c->job->house) != PW_INFILTRATION_AIM2;
  if (i >= IN_COVER_CLOSED && i <= IN_COVER_R) return c->lived.covered;
  if (i == IN_SETBACK)
    return c->job->house.setback_k.origin == PW_ORIGIN_ASSUMED &&
           isfinite(c->lived.house.heat_set_c[0]);
  return !airing_row(i) || c->lived.house.airing.hours != 0;
}

/* What the moved number is, for print. */
static double nominal(const pw_compare *c, size_t i, const char **unit)
{
  const pw_house_facts *f = &c->job->house;
  size_t first = pw_compare_first(c->job);
  double air = 0.0, ground = 0.0;
  *unit = "";
  switch (i) {
  case IN_GLASS_U_OLD:
    *unit = "W/m2K";
    return c->fitted.existing_glass[first].u_winter;
  case IN_GLASS_U_NEW:
    *unit = "W/m2K";
    return pw_compare_glass(c->job, &c->fitted, 0, first)->u_winter;
  case IN_FRAME_U_OLD:
    *unit = "W/m2K";
    return c->rated.existing[first].rating.u_frame.value;
  case IN_FRAME_U_NEW:
    *unit = "W/m2K";
    return c->rated.package[0][first].rating.u_frame.value;
  case IN_SHGC_OLD:
    return c->fitted.existing_glass[first].shgc[0];
  case IN_SHGC_NEW:
    return pw_compare_glass(c->job, &c->fitted, 0, first)->shgc[0];
  case IN_TAPE:
  case IN_SIGHT_OLD:
  case IN_SIGHT_NEW:
    *unit = "m, off";
    return 0.0;
  case IN_SHADE:
    *unit = "share, more";
    return 0.0;
  case IN_AIR:
    *unit = "1/h";
    return c->lived.house.air_changes;
  case IN_UA:
    pw_house_ua(&c->lived.house, &air, &ground);
    *unit = "W/K";
    return air + ground;
  case IN_HEAT_SET:
    *unit = "C";
    return f->heat_set_c.value;
  case IN_COOL_SET:
    *unit = "C";
    return f->cool_set_c.value;
  case IN_SETBACK:
    *unit = "K";
    return f->setback_k.value;
  case IN_GAIN:
    *unit = "W";
    return c->lived.house.gain_w;
  case IN_FLOOR:
    *unit = "m2";
    return c->lived.house.floor_area;
  case IN_CEILING:
    *unit = "m";
    return f->ceiling_height.value;
  case IN_AIR_SHIELD:
    *unit = "class of 5";
    return pw_compare_air_site(&c->job->house, &c->lived.house).shield;
  case IN_AIR_TERRAIN:
    *unit = "class of 5";
    return pw_compare_air_site(&c->job->house, &c->lived.house).terrain;
  case IN_AIR_LEVEL:
    *unit = "share";
    return pw_compare_air_site(&c->job->house, &c->lived.house).level;
  case IN_AIRING_SHARE:
    *unit = "share";
    return airing_row(i)->value;
  case IN_AIRING_HEAT:
  case IN_AIRING_OVER:
    *unit = "K";
    return airing_row(i)->value;
  case IN_AIRING_DEW:
    *unit = "C";
    return airing_row(i)->value;
  case IN_HEAT_EFFICIENCY:
    return c->billed.rates.heating_efficiency.value;
  case IN_COOL_COP:
    return c->billed.rates.cooling_cop.value;
  case IN_DUCT:
    return range_duct(&c->billed.rates)->value;
  case IN_PRICE_HEAT:
    *unit = "$/kWh";
    return c->billed.rates.price[c->billed.rates.heating_fuel].value;
  case IN_PRICE_COOL:
    *unit = "$/kWh";
    return c->billed.rates.price[PW_FUEL_ELECTRICITY].value;
  case IN_ESCALATION:
    *unit = "a year";
    return f->escalation.value;
  case IN_INSTALLED:
    *unit = "$";
    return c->billed.package_set[0].price;
  default:
    *unit = "times";
    return 1.0;
  }
}

/* Value and ends as they are printed: a spread of a factor is laid around the number it moves; a choice has
 * no ends, and its value is how many there are. */
static void show(const pw_compare *c, size_t i, pw_range_input *in)
{
  if (in->spread.shape == PW_SHAPE_CHOICE) {
    in->value = in->spread.high + 1.0;
    in->low = in->high = (double)NAN;
    in->unit = "published forms";
    return;
  }
  in->value = nominal(c, i, &in->unit);
  double middle = in->spread.mode;
  if (i == IN_NORMALS_HEAT || i == IN_NORMALS_COOL) in->value = middle;
  int factor = middle == 1.0 && i != IN_DUCT;
  in->low = factor ? in->value * in->spread.low : in->value + in->spread.low - middle;
  in->high = factor ? in->value * in->spread.high : in->value + in->spread.high - middle;
  if (in->spread.shape == PW_SHAPE_FIXED) in->low = in->high = in->value;
}

/* A factor of 1 that is as sure as the value it stands for. */
static pw_given unity(const pw_given *of)
{
  pw_given g = {.value = 1.0, .origin = of->origin, .source = of->source, .line = of->line};
  if (of->spread > 0.0 && of->value != 0.0) g.spread = of->spread / fabs(of->value);
  return g;
}

static pw_given about_zero(const pw_given *of)
{
  return (pw_given){
      .spread = of->spread, .origin = of->origin, .source = of->source, .line = of->line};
}

double range_price_width(const pw_compare *c, size_t package)
{
  const pw_price *price = &c->billed.package_set[package].parts;
  return price->value > 0.0 && price->spread > 0.0 ? price->spread / price->value : 0.0;
}

size_t range_widest_price(const pw_compare *c)
{
  size_t widest = 0;
  for (size_t p = 1; p < c->n_package; p++)
    if (range_price_width(c, p) > range_price_width(c, widest)) widest = p;
  return widest;
}

static double width_of(const pw_given *frame)
{
  pw_spread s;
  pw_given factor = unity(frame);
  return pw_spread_of("frame_u", &factor, &s, NULL) == PW_OK ? s.high - s.low : 0.0;
}

/* One factor moves all frames of a kind, existing (package below 0) or new: as sure as the least sure of them, whichever
 * opening or package is listed first. */
static pw_given least_sure_frame(const pw_compare *c, int package)
{
  const pw_given *least =
      &pw_compare_rating(&c->rated, package, pw_compare_first(c->job))->u_frame;
  size_t packages = package < 0 ? 1 : c->n_package;
  for (size_t p = 0; p < packages; p++)
    for (size_t i = 0; i < c->n_opening; i++) {
      if (package >= 0 && !pw_compare_replaces(c->job, i)) continue;
      const pw_given *here =
          &pw_compare_rating(&c->rated, package < 0 ? -1 : (int)p, i)->u_frame;
      if (width_of(here) > width_of(least)) least = here;
    }
  return unity(least);
}

/* The value that an input varies, with its provenance. */
static pw_given given_of(const pw_compare *c, size_t i)
{
  const pw_house_facts *f = &c->job->house;
  const pw_given computed = {.value = 1.0, .origin = PW_ORIGIN_COMPUTED};
  const pw_given assumed = {.value = 1.0, .origin = PW_ORIGIN_ASSUMED};
  const pw_given stated = {.value = 1.0, .origin = PW_ORIGIN_STATED};
  const pw_given taped = {.value = 1.0, .origin = PW_ORIGIN_MEASURED};
  pw_given air = f->air_changes, ua = f->envelope_ua;
  switch (i) {
  case IN_FRAME_U_OLD:
    return least_sure_frame(c, -1);
  case IN_FRAME_U_NEW:
    return least_sure_frame(c, 0);
  case IN_AIRING_SHARE:
  case IN_AIRING_FLOW:
  case IN_AIRING_HEAT:
  case IN_AIRING_OVER:
  case IN_AIRING_DEW:
    return (pw_given){.value = airing_row(i)->value, .origin = PW_ORIGIN_TABLE};
  case IN_TAPE:
    return about_zero(&taped);
  case IN_SIGHT_OLD:
  case IN_SIGHT_NEW:
  case IN_SHADE:
  case IN_AIR_SHIELD:
  case IN_AIR_TERRAIN:
  case IN_AIR_LEVEL:
    return about_zero(&assumed);
  case IN_AIR:
    return air.value > 0.0 ? unity(&air) : f->cfm50.value > 0.0 ? taped : assumed;
  case IN_UA:
    return ua.value > 0.0 ? unity(&ua) : assumed;
  case IN_MASS:
  case IN_SUN:
    return assumed;
  case IN_COVER_CLOSED:
  case IN_COVER_SUN:
  case IN_COVER_R:
    return f->covering == PW_COVERING_USUAL ? assumed : stated;
  case IN_HEAT_SET:
    return about_zero(&f->heat_set_c);
  case IN_COOL_SET:
    return about_zero(&f->cool_set_c);
  case IN_SETBACK:
    return f->setback_k;
  case IN_GAIN:
    return unity(&f->internal_gain);
  case IN_HEAT_EFFICIENCY:
    return unity(&c->billed.rates.heating_efficiency);
  case IN_COOL_COP:
    return unity(&c->billed.rates.cooling_cop);
  case IN_DUCT:
    return *range_duct(&c->billed.rates);
  case IN_PRICE_HEAT:
    return unity(&c->billed.rates.price[c->billed.rates.heating_fuel]);
  case IN_PRICE_COOL:
    return unity(&c->billed.rates.price[PW_FUEL_ELECTRICITY]);
  case IN_ESCALATION:
    return about_zero(&f->escalation);
  case IN_FLOOR:
    return unity(&f->floor_area);
  case IN_CEILING:
    return unity(&f->ceiling_height);
  case IN_INSTALLED: {
    size_t widest = range_widest_price(c);
    const pw_package *p = &c->job->package[widest];
    pw_given price =
        unity(p->price_per_opening.value > 0.0 ? &p->price_per_opening : &p->price_per_area);
    price.spread = range_price_width(c, widest);
    return price;
  }
  default:
    return computed;
  }
}

/* A year made of monthly normals is less sure than one read from a file by what it misses beside the
 * files of its stations. What it misses in heating and cooling saved is in `normals`; windows that look
 * more one way than the others miss more, which adds to the sun's spread. Taken as independent. */
static pw_status sun_of_normals(const pw_compare *c, pw_spread *s, pw_err *err)
{
  double area[PW_FACADES] = {0};
  for (size_t i = 0; i < c->n_opening; i++) {
    const pw_opening *o = &c->job->opening[i];
    area[pw_year_facade(o->facing_deg)] +=
        (double)o->quantity * c->rated.existing[i].rating.glass_area;
  }
  pw_month_spread miss;
  pw_status status = pw_month_walls_spread(area, &miss, err);
  if (status != PW_OK) return status;
  double sd = hypot((s->high - s->low) / 4.0, miss.deviation);
  s->low = fmax(0.3, 1.0 - 2.0 * sd);
  s->high = 1.0 + (1.0 - s->low);
  return PW_OK;
}

/* Centred: a year that saves too much beside the files is taken down by as much. */
static pw_status normals(int heating, int synthetic, pw_spread *s, pw_err *err)
{
  static const char source[] =
      "years made from monthly normals beside the hourly files of their "
      "stations, heating and cooling saved";
  pw_month_spread miss = {.ratio = 1.0};
  pw_status status = synthetic ? pw_month_saved_spread(heating, NULL, &miss, err) : PW_OK;
  if (status != PW_OK) return status;
  double middle = 1.0 / miss.ratio, half = fmin(0.7, 2.0 * miss.deviation / miss.ratio);
  *s = (pw_spread){synthetic ? PW_SHAPE_NORMAL : PW_SHAPE_FIXED,
                   middle - half,
                   middle,
                   middle + half,
                   source,
                   "computed"};
  return PW_OK;
}

/* The spread of an input that no row of the table can give, or of one by the table. */
static pw_status spread_of(const pw_compare *c, const pw_weather *weather, size_t i,
                           pw_range_input *in, pw_err *err)
{
  switch (i) {
  case IN_MODEL_HEAT:
  case IN_MODEL_COOL:
    return pw_spread_of_model(i == IN_MODEL_COOL, &in->spread, err);
  case IN_EFFECT_HEAT:
  case IN_EFFECT_COOL:
    return pw_spread_of_effect(i == IN_EFFECT_COOL, &in->spread, err);
  case IN_NORMALS_HEAT:
  case IN_NORMALS_COOL:
    return normals(i == IN_NORMALS_HEAT, weather->synthetic, &in->spread, err);
  default:
    break;
  }
  if (i >= IN_FORM && i <= IN_FORM_LAST) {
    in->form = (pw_form_kind)(i - IN_FORM);
    pw_spread_of_forms(in->form, &in->spread);
    return PW_OK;
  }
  const pw_ref_air_airing_row *row = airing_row(i);
  if (row) {
    in->spread = (pw_spread){PW_SHAPE_TRIANGULAR, row->low,    row->value,
                             row->high,           row->source, row->how_known};
    return PW_OK;
  }
  pw_status status = pw_spread_of(in->key, &in->given, &in->spread, err);
  if (status == PW_OK && i == IN_SUN && weather->synthetic)
    status = sun_of_normals(c, &in->spread, err);
  return status;
}

/* Whether two models of one house may differ in it though they share the house. */
static int of_models(size_t i, unsigned forms)
{
  if (i >= IN_FORM && i <= IN_FORM_LAST) return (forms >> (i - IN_FORM) & 1U) != 0;
  return i >= IN_MODEL_HEAT && i <= IN_EFFECT_COOL;
}

/* A made year that saves too much does so in both models: it is not centred here. */
static void hold(size_t i, pw_spread *s)
{
  if (i == IN_NORMALS_HEAT || i == IN_NORMALS_COOL) s->mode = 1.0;
  s->shape = PW_SHAPE_FIXED;
  s->low = s->high = s->mode;
}

static pw_status inputs(const pw_compare *c, const pw_weather *weather, unsigned like,
                        pw_range_input input[IN_COUNT], pw_err *err)
{
  int one_price = c->billed.rates.heating_fuel == PW_FUEL_ELECTRICITY;
  for (size_t i = 0; i < IN_COUNT; i++) {
    pw_range_input *in = &input[i];
    *in = (pw_range_input){.id = i,
                           .name = list[i].name,
                           .key = list[i].key,
                           .enters = list[i].enters,
                           .year = i < IN_YEAR};
    in->given = given_of(c, i);
    pw_status status = spread_of(c, weather, i, in, err);
    if (status != PW_OK) return status;
    /* One price for both purposes. */
    if (i == IN_PRICE_HEAT && one_price) in->spread.shape = PW_SHAPE_FIXED;
    if (like && !of_models(i, like)) hold(i, &in->spread);
    show(c, i, in);
  }
  return PW_OK;
}

pw_status range_inputs(range_case *rc, pw_err *err)
{
  rc->n_in = rc->n_year = 0;
  for (size_t i = 0; i < IN_COUNT; i++) {
    if (!has(rc->compare, i)) continue;
    rc->which[rc->n_in++] = i;
    rc->n_year += i < IN_YEAR;
  }
  return inputs(rc->compare, rc->weather, rc->like, rc->input, err);
}

pw_status pw_range_list(const pw_compare *compare, const pw_weather *weather,
                        pw_range_input input[], size_t *n, pw_err *err)
{
  range_case rc = {.compare = compare, .weather = weather};
  pw_status status = range_inputs(&rc, err);
  *n = rc.n_in;
  for (size_t k = 0; status == PW_OK && k < rc.n_in; k++)
    input[k] = rc.input[rc.which[k]];
  return status;
}

void range_values(const range_case *rc, const double u[], double v[IN_COUNT])
{
  for (size_t i = 0; i < IN_COUNT; i++)
    v[i] = rc->input[i].spread.mode;
  for (size_t k = 0; k < rc->n_in; k++)
    v[rc->which[k]] = pw_spread_at(&rc->input[rc->which[k]].spread, u[k]);
}

void range_scaled(const range_case *rc, const double v[], double z[])
{
  for (size_t k = 0; k < rc->n_year; k++) {
    const size_t i = rc->which[k];
    const pw_spread *s = &rc->input[i].spread;
    double half = 0.5 * (s->high - s->low);
    int still = s->shape == PW_SHAPE_FIXED || !(half > 0.0);
    z[k] = still ? 0.0 : (v[i] - 0.5 * (s->low + s->high)) / half;
  }
}
