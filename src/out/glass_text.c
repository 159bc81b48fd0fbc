/* A glass unit in tables for the terminal, or its table by angle as CSV. */
#include <math.h>
#include <string.h>

#include "out/glass_report.h"
#include "out/sound_report.h"
#include "panewright/units.h"

static double degrees(double kelvin, int si) { return si ? pw_c(kelvin) : pw_f(kelvin); }
static double heat(double u, int si) { return si ? u : u / PW_U_IP; }

static void head(const pw_glass_report *r, int si, FILE *f)
{
  const pw_light *l = &r->glazing.light;
  const pw_env *e = &r->sun_env;
  const char *u_unit = si ? "W/(m2 K)" : "Btu/(h ft2 F)", *t_unit = si ? "C" : "F";
  fprintf(f, "%s\n\n", r->text);
  fprintf(f, "%-22s %.*f %s  (%s, %s: %.1f %s out, %.1f %s in)\n", "U, centre of glass",
          si ? 2 : 3, heat(r->u, si), u_unit, r->conditions, r->en673 ? "EN 673" : "ISO 15099",
          degrees(r->env.t_out, si), t_unit, degrees(r->env.t_in, si), t_unit);
  char at[32];
  snprintf(at, sizeof at, "SHGC at %g deg", r->angle_deg);
  if (r->no_balance)
    fprintf(f, "%-22s not computed (see the note)\n", at);
  else
    fprintf(f, "%-22s %.3f  (%.1f %s out, %.1f %s in, sun %.0f %s)\n", at, r->shgc,
            degrees(e->t_out, si), t_unit, degrees(e->t_in, si), t_unit,
            si ? e->sun : e->sun * PW_FOOT2 / PW_BTU_H, si ? "W/m2" : "Btu/(h ft2)");
  snprintf(at, sizeof at, "VT at %g deg", r->angle_deg);
  fprintf(f, "%-22s %.3f\n", at, r->light.tau_v);
  fprintf(f, "ultraviolet, fading    %.3f of 300 to 380 nm, %.3f damage-weighted\n", l->tau_uv,
          l->t_damage);
  fprintf(f, "colour of the light    %s (x %.4f, y %.4f; daylight itself 0.3127, 0.3290)\n",
          pw_colour_word(l->cie_x, l->cie_y, l->tau_v[0]), l->cie_x, l->cie_y);
  fprintf(f, "g by EN 410            %.3f (not an SHGC)\n", r->g_en410);
  fprintf(f,
          "sound, Rw (C; Ctr)     %s dB, STC %.0f, OITC %.0f (+- 3 dB; panewright sound)\n\n",
          pw_sound_rw_text(&r->sound, at), r->sound.stc, r->sound.oitc);
}

static pw_status panes(const pw_glass_report *r, int si, FILE *f, pw_err *err)
{
  static const char *const header[] = {"pane",     "<glass",  "emit out", "emit in", "absorbs",
                                       "dark out", "dark in", "sun out",  "sun in"};
  const pw_unit *u = &r->glazing.unit;
  double bare = r->en673 ? PW_BARE_GLASS_EN : PW_BARE_GLASS;
  pw_grid *g = pw_grid_new(9, header);
  for (size_t i = 0; i < u->n_pane; i++) {
    pw_grid_cell(g, "%zu", i + 1);
    pw_grid_cell(g, "%.2f mm %s", u->pane[i].thickness * 1e3, r->buildup.pane[i].kind);
    for (size_t side = 0; side < 2; side++)
      pw_grid_number(g, u->pane[i].emit[side] > 0.0 ? u->pane[i].emit[side] : bare, 3);
    pw_grid_number(g, r->light.absorbed[i], 3);
    for (size_t side = 0; side < 2; side++)
      pw_grid_number(g, degrees(r->now.t[2 * i + side], si), 1);
    for (size_t side = 0; side < 2; side++)
      pw_grid_number(g, degrees(r->sunny.t[2 * i + side], si), 1);
  }
  fprintf(f,
          "Panes, outdoors first; surface temperatures in %s: under the conditions of U%s, and "
          "in the\nsun of SHGC at %g deg\n",
          si ? "C" : "F", r->env.sun > 0.0 ? " (with its sun)" : "", r->angle_deg);
  pw_status s = pw_grid_print(g, f, PW_TEXT, err);
  pw_grid_free(g);
  return s;
}

static pw_status gaps(const pw_glass_report *r, int si, FILE *f, pw_err *err)
{
  static const char *const header[] = {"gap",       "width mm", "Nusselt",      "convection",
                                       "radiation", "in all",   "sun: Nusselt", "sun: in all"};
  if (r->buildup.n_pane < 2) return PW_OK;
  pw_grid *g = pw_grid_new(8, header);
  for (size_t i = 0; i + 1 < r->buildup.n_pane; i++) {
    const pw_gap_result *now = &r->now.gap[i], *sun = &r->sunny.gap[i];
    int digits = si ? 2 : 3;
    pw_grid_cell(g, "%zu", i + 1);
    pw_grid_number(g, r->buildup.gap[i].thickness * 1e3, 1);
    pw_grid_number(g, now->nusselt, 2);
    pw_grid_number(g, heat(now->h_conv, si), digits);
    pw_grid_number(g, heat(now->h_rad, si), digits);
    pw_grid_number(g, heat(now->conductance, si), digits);
    pw_grid_number(g, sun->nusselt, 2);
    pw_grid_number(g, heat(sun->conductance, si), digits);
  }
  fprintf(f, "\nGaps, %s\n", si ? "W/(m2 K)" : "Btu/(h ft2 F)");
  pw_status s = pw_grid_print(g, f, PW_TEXT, err);
  pw_grid_free(g);
  return s;
}

/* Keys carry no unit: all shares. */
static pw_status angles(const pw_glass_report *r, FILE *f, pw_format format, pw_err *err)
{
  static const char *const text[] = {"angle",   "T sun", "R sun", "R sun in", "SHGC", "VT",
                                     "R light", "A1",    "A2",    "A3",       "A4"};
  static const char *const key[] = {"angle_deg",
                                    "solar_transmittance",
                                    "solar_reflectance_out",
                                    "solar_reflectance_in",
                                    "shgc",
                                    "vt",
                                    "visible_reflectance_out",
                                    "absorptance_1",
                                    "absorptance_2",
                                    "absorptance_3",
                                    "absorptance_4"};
  const pw_light *l = &r->glazing.light;
  int digits = format == PW_CSV ? 6 : 3;
  pw_grid *g = pw_grid_new(7 + l->n_pane, format == PW_CSV ? key : text);
  for (size_t a = 0; a < PW_ANGLES; a++) {
    if (a == PW_ANGLE_DIFFUSE)
      pw_grid_cell(g, "hemispherical");
    else
      pw_grid_cell(g, "%zu", 10 * a);
    pw_grid_number(g, l->tau_e[a], digits);
    pw_grid_number(g, l->rho_e_out[a], digits);
    pw_grid_number(g, l->rho_e_in[a], digits);
    pw_grid_number(g, r->glazing.shgc[a], digits);
    pw_grid_number(g, l->tau_v[a], digits);
    pw_grid_number(g, l->rho_v_out[a], digits);
    for (size_t i = 0; i < l->n_pane; i++)
      pw_grid_number(g, l->absorbed[i][a], digits);
  }
  pw_status s = pw_grid_print(g, f, format, err);
  pw_grid_free(g);
  return s;
}

pw_status pw_glass_text(const pw_glass_report *r, int si, FILE *f, pw_err *err)
{
  head(r, si, f);
  pw_status s = panes(r, si, f, err);
  if (s == PW_OK) s = gaps(r, si, f, err);
  fputs("\nBy angle of incidence; A: share of the sun each pane takes\n", f);
  if (s == PW_OK) s = angles(r, f, PW_TEXT, err);
  for (size_t i = 0; i < r->n_note; i++)
    fprintf(f, "%snote: %s\n", i ? "" : "\n", r->note[i]);
  return s;
}

pw_status pw_glass_csv(const pw_glass_report *r, FILE *f, pw_err *err)
{
  return angles(r, f, PW_CSV, err);
}
