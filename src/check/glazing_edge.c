/* The catalogue's spacer shares and ring conductances against the computed sections they are drawn
 * from, recomputed from those sections' own printed figures; the edge correlation and the rating
 * conditions against constants.csv. */
#include <math.h>
#include <string.h>

#include "check/glazing.h"
#include "check/table_rows.h"
#include "frame/catalogue.h"
#include "panewright/rating.h"
#include "panewright/units.h"

static const char source[] = "table section/generic/expected_plausible";

static size_t section(const pw_table *t, const char *name)
{
  for (size_t i = 0; i < t->n_row; i++)
    if (strcmp(row_text(t, i, "section"), name) == 0) return i;
  return t->n_row;
}

/* u_edge less the centre U that the section's own balance leaves, W/(m2 K). */
static double excess(const pw_table *t, const char *name)
{
  size_t i = section(t, name);
  double sight = row_number(t, i, "sight_mm") * 1e-3,
         top = row_number(t, i, "glass_top_mm") * 1e-3;
  double edge = row_number(t, i, "u_edge_w_m2k"), band = PW_EDGE_BAND;
  double rest =
      row_number(t, i, "l2d_w_mk") - row_number(t, i, "u_frame_w_m2k") * sight - edge * band;
  return edge - rest / (top - sight - band);
}

static double share(pw_spacer spacer)
{
  pw_given metal, other; /* at a centre of 1.4 W/(m2 K), as the sections have */
  if (pw_catalogue_edge_u(PW_SPACER_METAL, 2, 1.4, &metal, NULL) != PW_OK ||
      pw_catalogue_edge_u(spacer, 2, 1.4, &other, NULL) != PW_OK)
    return NAN;
  return (other.value - 1.4) / (metal.value - 1.4);
}

static double ring(const char *filling, double width)
{
  pw_given g;
  return pw_catalogue_ring(filling, width, &g, NULL) == PW_OK ? g.value : NAN;
}

static double ring_of(const pw_table *t, const char *name)
{
  size_t i = section(t, name), alone = section(t, "vinyl_alone");
  return 1e-3 * (row_number(t, i, "sight_mm") * row_number(t, i, "u_frame_w_m2k") -
                 row_number(t, alone, "sight_mm") * row_number(t, alone, "u_frame_w_m2k"));
}

/* A + B U + C U^2 of the metal edge, recovered from the catalogue at three centres. */
static double edge_coefficient(const char *which)
{
  double u[3] = {1.0, 2.0, 3.0}, e[3];
  for (int i = 0; i < 3; i++) {
    pw_given g;
    if (pw_catalogue_edge_u(PW_SPACER_METAL, 2, u[i], &g, NULL) != PW_OK) return NAN;
    e[i] = g.value;
  }
  double c = 0.5 * (e[2] - 2.0 * e[1] + e[0]), b = e[1] - e[0] - 3.0 * c;
  return which[0] == 'C' ? c : which[0] == 'B' ? b : e[0] - b - c;
}

/* The edge band: a light of 1 x 1 m keeps (1 - 2 band)^2 as centre. */
static double band_mm(void)
{
  const pw_rating_lite lite = {1.0, 1.0, {3.0, 3.0, 3.0, 3.0}};
  const pw_rating_input in = {
      .width = 1.0, .height = 1.0, .u_center = 2.0, .lite = &lite, .n_lite = 1};
  pw_rating r;
  if (pw_rating_window(&in, &r, NULL) != PW_OK) return NAN;
  return 500.0 * (1.0 - sqrt(r.areas.center));
}

/* The rating procedure's conditions as the code carries them. */
static double condition(const char *quantity)
{
  const pw_unit pane = {.n_pane = 1, .pane = {{.thickness = 0.003}}};
  const pw_env *env = strncmp(quantity, "winter", 6) == 0 ? &pw_env_winter : &pw_env_summer;
  pw_unit_result r;
  if (strstr(quantity, "indoor air")) return pw_c(env->t_in);
  if (strstr(quantity, "outdoor air")) return pw_c(env->t_out);
  if (strstr(quantity, "wind")) return env->wind;
  if (strstr(quantity, "solar")) return env->sun;
  if (pw_unit_solve(&pane, env, NULL, &r, NULL) != PW_OK) return NAN;
  return r.h_c_out;
}

/* Rows of constants.csv that gas.c has no part in. */
static pw_status constants(const pw_check_sink *sink, pw_err *err)
{
  const pw_table *t = NULL;
  pw_status s = row_table("glazing/constants", &t, err);
  for (size_t i = 0; s == PW_OK && i < t->n_row; i++) {
    const char *quantity = row_text(t, i, "quantity");
    if (row_begins(t, i, "quantity", "edge-of-glass Ueg") && row_agrees(t, i))
      row_give_within(sink, t, i, quantity, edge_coefficient(row_text(t, i, "coefficient")),
                      1e-9);
    else if (strcmp(quantity, "edge-of-glass band") == 0)
      row_give_within(sink, t, i, quantity, band_mm(), 1e-9);
    else if (row_begins(t, i, "standard", "NFRC"))
      row_give_within(sink, t, i, quantity, condition(quantity), 1e-9);
  }
  return s;
}

/* The ring's table is of own sections, the printed figures of an independent solver: within 1 % of
 * the frame heats whose difference it is, as the sections themselves are compared. */
static double near(const pw_table *t, const char *name)
{
  return 1e-5 * row_number(t, section(t, name), "sight_mm") *
         row_number(t, section(t, name), "u_frame_w_m2k");
}

/* Two decimals of U on 100 mm leave 0.0005 W/(m K) and 0.02 of a share. */
pw_status glazing_edge(const pw_check_sink *sink, pw_err *err)
{
  const pw_table *t = NULL;
  pw_status s = row_table("section/generic/expected_plausible", &t, err);
  if (s != PW_OK) return s;
  double metal = excess(t, "insert_jamb_fins_kept_foam");
  const pw_check_row row[] = {
      {"edge_stainless", "edge excess of a stainless spacer over metal", "-",
       share(PW_SPACER_STAINLESS), excess(t, "insert_jamb_stainless") / metal, 0.02, 0, 0,
       source, "computed", 0},
      {"edge_insulating", "edge excess of a foam spacer over metal", "-",
       share(PW_SPACER_INSULATING), excess(t, "insert_jamb_foam_spacer") / metal, 0.02, 0, 0,
       source, "computed", 0},
      {"ring_cut_foam", "retained ring 7.5 mm, foam", "W/mK", ring("foam", 0.0075),
       ring_of(t, "insert_jamb_fins_cut_foam"), near(t, "insert_jamb_fins_cut_foam"), 0, 0,
       source, "computed", 0},
      {"ring_kept_foam", "retained ring 21.8 mm, foam", "W/mK", ring("foam", 0.0218),
       ring_of(t, "insert_jamb_fins_kept_foam"), near(t, "insert_jamb_fins_kept_foam"), 0, 0,
       source, "computed", 0},
      {"ring_cut_air", "retained ring 7.5 mm, air", "W/mK", ring("air", 0.0075),
       ring_of(t, "insert_jamb_fins_cut_air"), near(t, "insert_jamb_fins_cut_air"), 0, 0,
       source, "computed", 0},
      {"ring_kept_air", "retained ring 21.8 mm, air", "W/mK", ring("air", 0.0218),
       ring_of(t, "insert_jamb_fins_kept_air"), near(t, "insert_jamb_fins_kept_air"), 0, 0,
       source, "computed", 0},
  };
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    sink->row(sink->context, &row[i]);
  return constants(sink, err);
}
