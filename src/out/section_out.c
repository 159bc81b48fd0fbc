#include "out/section_out.h"

#include <math.h>

#include "out/json.h"
#include "panewright/units.h"

/* What the solver remarks, a line each; NULL past the last. */
static const char *note_said(const pw_section_told *d, size_t k)
{
  static const struct {
    unsigned bit;
    const char *text;
  } note[] = {
      {PW_SECTION_COARSE,
       "The bracket is wider than asked for: the limit of cells was reached."},
      {PW_SECTION_ISLAND, "A solid that touches neither air nor the rest was left out."},
      {PW_SECTION_NO_BAND,
       "The glass drawn ends within 63.5 mm of the sight line: no edge figure."},
      {PW_SECTION_SIGHT,
       "The sight line was found where the outline becomes that of the glass."},
      {PW_SECTION_BELOW,
       "The drawing begins below 0: the opening's edge is taken at 0; what lies "
       "beyond counts in\nthe frame's heat, not in its width."}};
  for (size_t i = 0; i < sizeof note / sizeof note[0]; i++)
    if ((d->result->notes & note[i].bit) && k-- == 0) return note[i].text;
  return NULL;
}

static pw_status print_json(const pw_section_told *d, FILE *f, pw_err *err)
{
  const pw_section_result *r = d->result;
  json_t *o = json_object();
  const struct {
    const char *key;
    double v;
  } row[] = {{"l2d_w_mk", r->l2d},           {"q_w_m", r->q},
             {"l2d_low_w_mk", r->low},       {"l2d_high_w_mk", r->high},
             {"u_frame_w_m2k", r->u_frame},  {"u_edge_w_m2k", r->u_edge},
             {"psi_w_mk", d->psi},           {"f_rsi", r->f_rsi},
             {"coldest_c", pw_c(r->coldest)}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    pw_json_set(o, row[i].key, row[i].v);
  const double at[2] = {1e3 * r->coldest_x, 1e3 * r->coldest_y};
  json_object_set_new(o, "coldest_at_mm", pw_json_array(at, 2));
  json_object_set_new(o, "cells", json_integer((json_int_t)r->n_cell));
  pw_json_set(o, "residual", r->residual);
  pw_json_set(o, "u_f_w_m2k", d->u_f);
  pw_json_set(o, "u_glass_w_m2k", r->u_glass);
  pw_json_set(o, "sight_line_mm", 1e3 * r->sight_line);
  pw_json_set(o, "frame_width_mm", 1e3 * r->b_frame);
  json_object_set_new(o, "hollows", json_integer((json_int_t)r->n_hollow));
  json_object_set_new(o, "passes", json_integer(r->passes));
  json_t *notes = json_array();
  const char *text;
  for (size_t n = 0; (text = note_said(d, n)) != NULL; n++)
    json_array_append_new(notes, json_string(text));
  json_object_set_new(o, "notes", notes);
  json_object_set_new(o, "solver_bytes", json_integer((json_int_t)r->bytes));
  return pw_json_print(o, f, err);
}

static void cell(pw_grid *g, const char *what, double v, int decimals, const char *unit,
                 const char *note)
{
  if (isnan(v)) return;
  pw_grid_cell(g, "%s", what);
  pw_grid_number(g, v, decimals);
  pw_grid_cell(g, "%s", unit);
  pw_grid_cell(g, "%s", note);
}

static void say_notes(const pw_section_told *d, FILE *f)
{
  const char *text;
  for (size_t k = 0; (text = note_said(d, k)) != NULL; k++)
    fprintf(f, "%s\n", text);
  fputs("A frame made narrower lets through less heat though its U rises: compare windows by "
        "the\n"
        "heat of the whole opening, never by frame U alone.\n",
        f);
}

static pw_status print_grid(const pw_section_told *d, pw_format format, int si, FILE *f,
                            pw_err *err)
{
  const pw_section_result *r = d->result;
  int ip = format == PW_TEXT && !si;
  double per_k =
      ip ? 1.0 / (PW_U_IP * PW_FOOT) : 1.0; /* 1 Btu/(h ft F) = 5.678 x 0.3048 W/mK */
  double u = ip ? 1.0 / PW_U_IP : 1.0, mm = ip ? 1e3 / 25.4 : 1e3;
  const char *u_unit = ip ? "Btu/h ft2 F" : "W/m2K", *l_unit = ip ? "Btu/h ft F" : "W/mK";
  const char *s_unit = ip ? "in" : "mm", *t_unit = ip ? "F" : "C";
  double t_cold = ip ? pw_f(r->coldest) : pw_c(r->coldest),
         t_dew = ip ? pw_f(d->t_dew) : pw_c(d->t_dew);
  char bracket[96], place[96], grid_note[128], dew[64];
  snprintf(bracket, sizeof bracket, "between %.5f and %.5f", per_k * r->low, per_k * r->high);
  snprintf(place, sizeof place, "at x %.1f, y %.1f %s", mm * r->coldest_x, mm * r->coldest_y,
           s_unit);
  snprintf(grid_note, sizeof grid_note, "%zu hollows; heat in and out agree to %.0e",
           r->n_hollow, r->residual);
  snprintf(dew, sizeof dew, "of indoor air at %.0f %%", d->humidity);
  pw_grid *g = pw_grid_new(4, (const char *const[]){"<quantity", "value", "<unit", "<note"});
  cell(g, "heat, L2D", per_k * r->l2d, 5, l_unit, bracket);
  cell(g, "frame, band U", u * r->u_frame, 3, u_unit, "indoor heat up to the sight line");
  cell(g, "edge, band U", u * r->u_edge, 3, u_unit, "the next 63.5 mm of glass");
  cell(g, "frame, U_f", u * d->u_f, 3, u_unit,
       "with a 0.035 W/mK panel for glass, ISO 10077-2");
  cell(g, "edge, psi", per_k * d->psi, 4, l_unit, "linear, ISO 10077-2");
  cell(g, "glass, U", u * r->u_glass, 3, u_unit, "centre, of the layers drawn");
  cell(g, "sight line", mm * r->sight_line, 1, s_unit, "");
  cell(g, "frame width", mm * r->b_frame, 1, s_unit, "projected");
  cell(g, "f_Rsi", r->f_rsi, 3, "", "of the coldest indoor surface");
  cell(g, "coldest indoors", t_cold, 1, t_unit, place);
  cell(g, "dew point", t_dew, 1, t_unit, dew);
  cell(g, "cells", (double)r->n_cell, 0, "", grid_note);
  pw_status status = pw_grid_print(g, f, format, err);
  pw_grid_free(g);
  if (status == PW_OK && format == PW_TEXT) say_notes(d, f);
  return status;
}

pw_status pw_section_print(const pw_section_told *d, pw_format format, int si, FILE *f,
                           pw_err *err)
{
  return format == PW_JSON ? print_json(d, f, err) : print_grid(d, format, si, f, err);
}
