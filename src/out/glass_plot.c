/* Pictures of a glass unit: light by wavelength, light by angle, temperature through it. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "out/glass_report.h"
#include "out/plot.h"
#include "panewright/units.h"

static void spectral(const pw_glass_report *r, pw_plot *p)
{
  pw_sheet s;
  double absorbed[PW_PANES_MAX][PW_LANE], most = 0.0;
  const pw_spectrum *grid = &r->layers.spectrum;
  double degree = r->angle_deg < 89.0 ? r->angle_deg : 89.0;
  pw_stack_at(r->layers.list, r->layers.n, grid, cos(pw_rad(degree)), r->pol, &s, absorbed);
  double sun[PW_GRID];
  for (size_t i = 0; i < PW_GRID;
       i++) { /* weight over width of its cell: the shape of the sun */
    double low = i > 0 ? grid->nm[i - 1] : grid->nm[0];
    double high = i + 1 < PW_GRID ? grid->nm[i + 1] : grid->nm[i];
    sun[i] = grid->w[PW_W_SOLAR][i] / (high - low);
    if (sun[i] > most) most = sun[i];
  }
  pw_plot_block(p, "S");
  for (size_t i = 0; i < PW_GRID; i++)
    pw_plot_row(p, "fffff", grid->nm[i], s.t[i], s.rf[i], s.rb[i], sun[i] / most);
  pw_plot_end_block(p);
}

static void angular(const pw_glass_report *r, pw_plot *p)
{
  const pw_light *l = &r->glazing.light;
  pw_plot_block(p, "A");
  for (size_t a = 0; a < 10; a++)
    pw_plot_row(p, "fffff", 10.0 * (double)a, r->glazing.shgc[a], l->tau_v[a], l->tau_e[a],
                l->rho_e_out[a]);
  pw_plot_end_block(p);
  pw_plot_block(p, "H");
  pw_plot_row(p, "fff", 96.0, r->glazing.shgc[PW_ANGLE_DIFFUSE], l->tau_v[PW_ANGLE_DIFFUSE]);
  pw_plot_end_block(p);
}

static void profile(const pw_glass_report *r, int si, pw_plot *p)
{
  const pw_unit *u = &r->glazing.unit;
  double x = 0.0, low = INFINITY, high = -INFINITY;
  pw_plot_block(p, "T");
  for (size_t i = 0; i < u->n_pane; i++) {
    for (size_t side = 0; side < 2; side++) {
      double dark = r->now.t[2 * i + side], sun = r->sunny.t[2 * i + side];
      dark = si ? pw_c(dark) : pw_f(dark);
      sun = si ? pw_c(sun) : pw_f(sun);
      low = fmin(low, fmin(dark, sun));
      high = fmax(high, fmax(dark, sun));
      if (side) x += u->pane[i].thickness * 1e3;
      pw_plot_row(p, "fff", x, dark, sun);
    }
    if (i + 1 < u->n_pane) x += u->gap[i].thickness * 1e3;
  }
  pw_plot_end_block(p);
  double at = 0.0; /* panes as grey boxes */
  pw_plot_block(p, "P");
  for (size_t i = 0; i < u->n_pane; i++) {
    double mm = u->pane[i].thickness * 1e3;
    pw_plot_row(p, "ff", at, at + mm);
    at += mm + (i + 1 < u->n_pane ? u->gap[i].thickness * 1e3 : 0.0);
  }
  pw_plot_end_block(p);
  double air[4] = {r->env.t_out, r->env.t_in, r->sun_env.t_out, r->sun_env.t_in};
  static const char *const name[4] = {"dark_out", "dark_in", "sun_out", "sun_in"};
  for (size_t i = 0; i < 4; i++) {
    double v = si ? pw_c(air[i]) : pw_f(air[i]);
    pw_plot_number(p, name[i], v);
    low = fmin(low, v);
    high = fmax(high, v);
  }
  double room = 0.08 * (high - low) + 0.5;
  pw_plot_number(p, "t_low", low - room);
  pw_plot_number(p, "t_high", high + room);
  pw_plot_number(p, "depth_mm", x);
}

pw_status pw_glass_picture(const pw_glass_report *r, const char *path, const char *panel,
                           int si, pw_err *err)
{
  static const struct {
    const char *name;
    int width, height;
  } known[] = {
      {"all", 1120, 820}, {"spectral", 900, 520}, {"angular", 760, 520}, {"profile", 760, 520}};
  size_t k = 0;
  while (k < 4 && strcmp(panel, known[k].name) != 0)
    k++;
  if (k == 4)
    return pw_fail(err, PW_E_DATA, "panel",
                   "--picture %.40s: want all, spectral, angular or "
                   "profile",
                   panel);
  pw_plot *p = pw_plot_new("plots/glass.gp");
  char title[140];
  snprintf(title, sizeof title, "%.120s%s", r->text, strlen(r->text) > 120 ? " ..." : "");
  pw_plot_text(p, "unit_text", title);
  pw_plot_text(p, "panel", panel);
  pw_plot_text(p, "t_unit", si ? "C" : "F");
  snprintf(title, sizeof title, "%s", r->conditions);
  pw_plot_text(p, "conditions", title);
  pw_plot_number(p, "angle", r->angle_deg);
  spectral(r, p);
  angular(r, p);
  profile(r, si, p);
  pw_status s = pw_plot_write(p, path, known[k].width, known[k].height, err);
  pw_plot_free(p);
  return s;
}
