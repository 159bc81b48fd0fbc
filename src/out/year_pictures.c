#include <math.h>
#include <stdio.h>

#include "out/calendar.h"
#include "out/clip.h"
#include "out/year_out.h"
#include "panewright/units.h"

/* W as the reader's kW or kBtu/h. */
static double kilo(const pw_unit_set *units, double w)
{
  return units->si ? 1e-3 * w : 1e-3 * w / PW_BTU_H;
}

static const char *kilo_unit(const pw_unit_set *units) { return units->si ? "kW" : "kBtu/h"; }

static double shown(const pw_unit_set *units, double c)
{
  return pw_show_temperature(units, pw_k(c));
}

/* Hour, outdoors, then air, radiant, need and sun: each of the existing windows and of the package. */
static void day_block(pw_plot *p, const char *name, const pw_unit_set *units,
                      const pw_weather *weather, const pw_year_hours *a, const pw_year_hours *b,
                      int day, int cold)
{
  pw_plot_block(p, name);
  for (int i = 0; i < 24; i++) {
    int h = 24 * day + i;
    double need_a = (double)(cold ? a->heating_w[h] : a->cooling_w[h]);
    double need_b = (double)(cold ? b->heating_w[h] : b->cooling_w[h]);
    pw_plot_row(p, "ffffffffff", i + 0.5, shown(units, (double)weather->hour[h].t_air),
                shown(units, (double)a->t_air_c[h]), shown(units, (double)b->t_air_c[h]),
                shown(units, (double)a->t_radiant_c[h]),
                shown(units, (double)b->t_radiant_c[h]), kilo(units, need_a),
                kilo(units, need_b), kilo(units, (double)a->transmitted[h]),
                kilo(units, (double)b->transmitted[h]));
  }
  pw_plot_end_block(p);
}

static pw_plot *days(const pw_compare *c, const pw_compare_hours *hours,
                     const pw_weather *weather, size_t package, const pw_unit_set *units)
{
  const pw_year_hours *a = &hours->set[0], *b = &hours->set[1 + package];
  int cold = pw_compare_cold_day(hours, weather), hot = pw_compare_hot_day(hours, weather);
  char text[80], day[PW_DAY_TEXT];
  pw_plot *p = pw_plot_new("plots/year_days.gp");
  pw_show_day(cold, day);
  snprintf(text, sizeof text, "Day of most heating, %s", day);
  pw_plot_text(p, "cold_title", text);
  pw_show_day(hot, day);
  snprintf(text, sizeof text, "Day of most cooling, %s", day);
  pw_plot_text(p, "hot_title", text);
  pw_plot_text(p, "name0", c->rated.existing_set.name);
  pw_plot_text(p, "name1", pw_clip(c->rated.package_set[package].name, 24).text);
  pw_plot_text(p, "t_unit", units->temperature);
  pw_plot_text(p, "w_unit", kilo_unit(units));
  day_block(p, "C", units, weather, a, b, cold, 1);
  day_block(p, "H", units, weather, a, b, hot, 0);
  return p;
}

static pw_plot *map(const pw_compare *c, const pw_compare_hours *hours, size_t package,
                    const pw_unit_set *units)
{
  const float *a = hours->set[0].window_w, *b = hours->set[1 + package].window_w;
  double low = 0.0, high = 0.0;
  char text[240];
  pw_plot *p = pw_plot_new("plots/year_map.gp");
  for (int h = 0; h < PW_HOURS; h++) {
    low = fmin(low, fmin((double)a[h], (double)b[h]));
    high = fmax(high, fmax((double)a[h], (double)b[h]));
  }
  snprintf(text, sizeof text, "Heat in through all windows, hour by hour: %s",
           c->rated.existing_set.name);
  pw_plot_text(p, "title0", text);
  snprintf(text, sizeof text, "The same with %s",
           pw_clip(c->rated.package_set[package].name, 39).text);
  pw_plot_text(p, "title1", text);
  snprintf(text, sizeof text, "%s, below 0: heat lost", kilo_unit(units));
  pw_plot_text(p, "unit", text);
  pw_plot_number(p, "low", fmin(kilo(units, low), -0.1));
  pw_plot_number(p, "high", fmax(kilo(units, high), 0.1));
  pw_plot_block(p, "D");
  for (int day = 0; day < PW_DAYS; day++) {
    for (int i = 0; i < 24; i++)
      pw_plot_row(p, "ffff", day + 0.5, i + 0.5, kilo(units, (double)a[24 * day + i]),
                  kilo(units, (double)b[24 * day + i]));
    pw_plot_blank(p);
  }
  pw_plot_end_block(p);
  return p;
}

/* Day of the year, then heating, cooling and money saved of each package. */
static pw_plot *saved(const pw_compare *c, const pw_compare_hours *hours)
{
  int k = c->n_package < 4 ? (int)c->n_package : 4;
  pw_plot *p = pw_plot_new("plots/year_saved.gp");
  pw_plot_text(p, "heat_title", "Heating need saved");
  pw_plot_text(p, "cool_title", "Cooling need saved");
  pw_plot_text(p, "cost_title", "Saved on the bill");
  pw_plot_text(p, "heat_unit", "kWh");
  pw_plot_text(p, "cost_unit", "$");
  pw_compare_names(p, c, NULL);
  for (int i = 0; i < k; i++) {
    char name[24];
    pw_saved_days s;
    pw_compare_saved(c, hours, (size_t)i, &s);
    snprintf(name, sizeof name, "P%d", i + 1);
    pw_plot_block(p, name);
    pw_plot_row(p, "ffff", 0.0, 0.0, 0.0, 0.0);
    for (int day = 0; day < PW_DAYS; day++)
      pw_plot_row(p, "ffff", day + 1.0, s.heating_kwh[day], s.cooling_kwh[day], s.cost[day]);
    pw_plot_end_block(p);
  }
  return p;
}

pw_status pw_year_picture(const pw_compare *c, const pw_compare_hours *hours,
                          const pw_weather *weather, size_t package, const pw_unit_set *units,
                          pw_year_picture_kind kind, pw_plot **plot, pw_err *err)
{
  *plot = NULL;
  if (!hours || package + 1 >= hours->n_set)
    return pw_fail(err, PW_E_SHAPE, "hours", "no hours of package %zu for a picture", package);
  switch (kind) {
  case PW_YEAR_PICTURE_DAYS:
    *plot = days(c, hours, weather, package, units);
    break;
  case PW_YEAR_PICTURE_MAP:
    *plot = map(c, hours, package, units);
    break;
  default:
    *plot = saved(c, hours);
  }
  return PW_OK;
}

pw_status pw_year_pictures(const pw_compare *c, const pw_compare_hours *hours,
                           const pw_weather *weather, size_t package, const pw_unit_set *units,
                           const char *dir, pw_err *err)
{
  static const struct {
    const char *name;
    int width, height;
  } picture[PW_YEAR_PICTURE_COUNT] = {
      {"year_days", 1000, 900}, {"year_map", 1000, 620}, {"year_saved", 1000, 420}};
  pw_plot *p = NULL;
  pw_status status = pw_plot_folder(dir, err);
  if (status == PW_OK) status = pw_compare_picture(c, units, NULL, PW_PICTURE_MONTHLY, &p, err);
  if (status == PW_OK) status = pw_plot_write_both(p, dir, "monthly", 900, 560, err);
  pw_plot_free(p);
  for (int kind = 0; status == PW_OK && kind < PW_YEAR_PICTURE_COUNT; kind++) {
    status =
        pw_year_picture(c, hours, weather, package, units, (pw_year_picture_kind)kind, &p, err);
    if (status == PW_OK)
      status = pw_plot_write_both(p, dir, picture[kind].name, picture[kind].width,
                                  picture[kind].height, err);
    pw_plot_free(p);
  }
  return status;
}
