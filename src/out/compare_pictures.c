#include <math.h>
#include <stdio.h>

#include "out/calendar.h"
#include "out/clip.h"
#include "out/compare_out.h"
#include "out/plot.h"
#include "out/range_out.h"
#include "panewright/units.h"

/* How a set is called in a picture. */
static const char *label_of(const pw_compare *c, const pw_tongue *tongue, int s)
{
  return s < 0 ? pw_tongue_say(tongue, PW_TEXT("there now")) : c->rated.package_set[s].name;
}

static pw_plot *ratings(const pw_compare *c, const pw_unit_set *units, const pw_tongue *tongue)
{
  pw_plot *p = pw_plot_new("plots/ratings.gp");
  double top = 0.0;
  for (int s = -1; s < (int)c->n_package; s++)
    top = fmax(top, pw_show_u(units, pw_compare_set_of(c, s).rated->u));
  pw_plot_text(p, "u_label",
               pw_tongue_say(tongue, PW_TEXT("heat-leak number (U-factor), whole openings")));
  pw_plot_text(p, "sun_label",
               pw_tongue_say(tongue, PW_TEXT("sun heat and daylight let in, whole openings")));
  pw_plot_text(p, "u_unit", units->u);
  pw_plot_text(p, "u_format", "%.2f");
  pw_plot_text(p, "shgc_key", pw_tongue_say(tongue, PW_TEXT("sun heat (SHGC)")));
  pw_plot_text(p, "vt_key", pw_tongue_say(tongue, PW_TEXT("daylight (VT)")));
  pw_plot_number(p, "u_max", top);
  pw_plot_number(p, "n", (double)c->n_package + 1.0);
  pw_plot_block(p, "D");
  for (int s = -1; s < (int)c->n_package; s++)
    pw_plot_row(p, "sfff", pw_clip(label_of(c, tongue, s), 12).text,
                pw_show_u(units, pw_compare_set_of(c, s).rated->u),
                pw_compare_set_of(c, s).rated->shgc, pw_compare_set_of(c, s).rated->vt);
  pw_plot_end_block(p);
  return p;
}

static pw_plot *heat_path(const pw_compare *c, const pw_unit_set *units,
                          const pw_tongue *tongue)
{
  pw_plot *p = pw_plot_new("plots/heat_path.gp");
  double top = 0.0, k = pw_show_ua(units, 1.0);
  pw_plot_block(p, "D");
  for (int s = -1; s < (int)c->n_package; s++) {
    const pw_parts *ua = &pw_compare_set_of(c, s).rated->ua;
    top = fmax(top, k * (ua->center + ua->edge + ua->frame + ua->divider + ua->retained));
    pw_plot_row(p, "sfffff", pw_clip(label_of(c, tongue, s), 12).text, k * ua->center,
                k * ua->edge, k * ua->frame, k * ua->divider, k * ua->retained);
  }
  pw_plot_end_block(p);
  pw_plot_text(p, "title", pw_tongue_say(tongue, PW_TEXT("Where the heat goes, all openings")));
  static const struct {
    const char *name, *text;
  } key[] = {{"old_key", PW_TEXT("old frame left in")},
             {"rail_key", PW_TEXT("meeting rail")},
             {"frame_key", PW_TEXT("frame and sash")},
             {"rim_key", PW_TEXT("rim of glass")},
             {"middle_key", PW_TEXT("middle of glass")}};
  for (size_t i = 0; i < sizeof key / sizeof key[0]; i++)
    pw_plot_text(p, key[i].name, pw_tongue_say(tongue, key[i].text));
  pw_plot_text(p, "unit", units->ua);
  pw_plot_number(p, "n", (double)c->n_package + 1.0);
  pw_plot_number(p, "top", top);
  return p;
}

static pw_plot *glass_kept(const pw_compare *c, const pw_tongue *tongue)
{
  pw_plot *p = pw_plot_new("plots/glass_kept.gp");
  pw_plot_text(p, "title", pw_tongue_say(tongue, PW_TEXT("Glass kept by opening")));
  pw_plot_number(p, "n", (double)c->n_opening);
  pw_plot_block(p, "D");
  for (size_t i = 0; i < c->n_opening; i++) {
    const pw_fit *fit = &c->fitted.fit[0][i];
    int stays = !pw_compare_replaces(c->job, i);
    double left = fit->n_choice && !stays ? 100.0 * fit->choice[0].glass_kept : (double)NAN;
    pw_plot_row(p, "sff", c->job->opening[i].tag, stays ? 100.0 : 100.0 * fit->glass_kept,
                left);
  }
  pw_plot_end_block(p);
  return p;
}

void pw_compare_names(pw_plot *p, const pw_compare *c, const pw_tongue *tongue)
{
  for (int s = -1; s < 4; s++) {
    char key[16];
    snprintf(key, sizeof key, "name%d", s + 1);
    pw_plot_text(p, key, s < (int)c->n_package ? pw_clip(label_of(c, tongue, s), 20).text : "");
  }
  pw_plot_number(p, "k", fmin(4.0, (double)c->n_package));
}

static pw_plot *monthly(const pw_compare *c, const pw_tongue *tongue)
{
  int k = c->n_package < 4 ? (int)c->n_package : 4;
  pw_plot *p = pw_plot_new("plots/monthly.gp");
  pw_plot_text(p, "heat_title", pw_tongue_say(tongue, PW_TEXT("Heating need by month")));
  pw_plot_text(p, "cool_title", pw_tongue_say(tongue, PW_TEXT("Cooling need by month")));
  pw_plot_text(p, "unit", "kWh");
  pw_compare_names(p, c, tongue);
  pw_plot_block(p, "D");
  for (size_t m = 0; m < 12; m++) {
    double v[10] = {0};
    for (int s = -1; s < k; s++) {
      v[s + 1] = pw_compare_set_of(c, s).lived->year.heating_month_kwh[m];
      v[k + 2 + s] = pw_compare_set_of(c, s).lived->year.cooling_month_kwh[m];
    }
    char kinds[12] = "sffffffffff";
    kinds[1 + 2 * (k + 1)] = '\0';
    pw_plot_row(p, kinds, pw_tongue_say(tongue, pw_month_name[m]), v[0], v[1], v[2], v[3], v[4],
                v[5], v[6], v[7], v[8], v[9]);
  }
  pw_plot_end_block(p);
  return p;
}

/* The opening that sweats first with the new windows, by the package that is worst, stands for all. */
static size_t worst_to_sweat(const pw_compare *c)
{
  const pw_rated_set *worst = &c->rated.package_set[0];
  for (size_t p = 1; p < c->n_package; p++)
    if (c->rated.package_set[p].sweat_rh < worst->sweat_rh) worst = &c->rated.package_set[p];
  return worst->sweat_opening;
}

static pw_status sweating(const pw_compare *c, const pw_unit_set *units,
                          const pw_tongue *tongue, pw_plot **plot, pw_err *err)
{
  size_t i = worst_to_sweat(c);
  int k = c->n_package < 4 ? (int)c->n_package : 4;
  char text[120];
  pw_plot *p = pw_plot_new("plots/sweating.gp");
  pw_tongue_put(tongue, text, sizeof text, "When opening %s begins to sweat, room at %.0f %s",
                c->job->opening[i].tag, pw_show_temperature(units, c->rated.t_in),
                units->temperature);
  pw_plot_text(p, "title", text);
  pw_tongue_put(tongue, text, sizeof text, "outdoor temperature, %s", units->temperature);
  pw_plot_text(p, "x_label", text);
  pw_plot_text(p, "y_label", pw_tongue_say(tongue, PW_TEXT("room humidity, %")));
  pw_plot_number(p, "design", pw_show_temperature(units, c->rated.t_design_out));
  pw_plot_text(p, "design_text", pw_tongue_say(tongue, PW_TEXT("cold night here")));
  pw_compare_names(p, c, tongue);
  double low = fmin(253.15, c->rated.t_design_out - 2.0), high = c->rated.t_in - 4.0;
  pw_plot_block(p, "D");
  for (int step = 0; step <= 10; step++) {
    double t = low + (high - low) * step / 10.0, v[5] = {0};
    for (int s = -1; s < k; s++) {
      const pw_compare_window *w = pw_compare_window_of(&c->rated, s, i);
      const pw_glazing *g = pw_compare_glass(c->job, &c->fitted, s, i);
      pw_sweat sweat;
      pw_status status = pw_sweat_window(&g->unit, &w->rating, c->rated.t_in, t,
                                         pw_env_winter.wind, 0.0, &sweat, err);
      if (status != PW_OK) {
        pw_plot_free(p);
        return status;
      }
      v[s + 1] = 100.0 * pw_compare_first_to_sweat(&sweat);
    }
    char kinds[8] = "ffffff";
    kinds[k + 2] = '\0';
    pw_plot_row(p, kinds, pw_show_temperature(units, t), v[0], v[1], v[2], v[3], v[4]);
  }
  pw_plot_end_block(p);
  *plot = p;
  return PW_OK;
}

/* By pw_compare_picture_kind. */
static const struct {
  const char *name;
  int width, height;
} picture[PW_PICTURE_COUNT] = {{"ratings", 900, 430},    {"heat_path", 900, 430},
                               {"glass_kept", 900, 380}, {"monthly", 900, 560},
                               {"sweating", 900, 430},   {"cash", 900, 430}};

pw_status pw_compare_picture(const pw_compare *c, const pw_unit_set *units,
                             const pw_tongue *tongue, pw_compare_picture_kind kind,
                             pw_plot **plot, pw_err *err)
{
  *plot = NULL;
  switch (kind) {
  case PW_PICTURE_RATINGS:
    *plot = ratings(c, units, tongue);
    break;
  case PW_PICTURE_HEAT_PATH:
    *plot = heat_path(c, units, tongue);
    break;
  case PW_PICTURE_GLASS_KEPT:
    *plot = glass_kept(c, tongue);
    break;
  case PW_PICTURE_MONTHLY:
    *plot = monthly(c, tongue);
    break;
  case PW_PICTURE_CASH:
    *plot = pw_cash_picture(c);
    break;
  default:
    return sweating(c, units, tongue, plot, err);
  }
  return PW_OK;
}

static int priced(const pw_compare *c)
{
  for (size_t p = 0; p < c->n_package; p++)
    if (c->billed.package_set[p].price > 0.0) return 1;
  return 0;
}

pw_status pw_compare_pictures(const pw_compare *c, const pw_range *range,
                              const pw_unit_set *units, const char *dir, pw_err *err)
{
  pw_status status = pw_plot_folder(dir, err);
  for (int kind = 0; status == PW_OK && kind < PW_PICTURE_COUNT; kind++) {
    pw_plot *p = NULL;
    if (kind == PW_PICTURE_CASH && !priced(c)) continue;
    status = pw_compare_picture(c, units, NULL, (pw_compare_picture_kind)kind, &p, err);
    if (status == PW_OK)
      status = pw_plot_write_both(p, dir, picture[kind].name, picture[kind].width,
                                  picture[kind].height, err);
    pw_plot_free(p);
  }
  for (size_t i = 0; range && status == PW_OK && i < c->n_package; i++) {
    char name[40];
    pw_plot *p = pw_range_picture(c, range, i);
    snprintf(name, sizeof name, "drivers_%zu", i + 1);
    status = pw_plot_write_both(p, dir, name, 900, 430, err);
    pw_plot_free(p);
  }
  return status;
}
