/* Textbook problems of one and two panes and of plates that radiate, solved by the conduction of frame sections
 * (a slab between two films) and by the gap's exchange; doors by the area-weighted rating. Their data stand in words in the
 * rows; a row without a case is an error. What the books work by a correlation that is none of ours stands in no row. */
#include <math.h>
#include <string.h>

#include "check/glazing.h"
#include "check/table_rows.h"
#include "frame/conduct.h"
#include "glass/cavity.h"
#include "panewright/rating.h"
#include "panewright/units.h"

enum { LAYERS = 3 };

/* A slab of up to three layers between two films; a film of 0: the face has the air's temperature. */
typedef struct slab {
  double h_in, h_out; /* W/(m2 K) */
  double thickness[LAYERS], k[LAYERS];
  double t_in, t_out; /* C */
  double area;        /* m2 */
} slab;

typedef enum wanted { HEAT, HEAT_BTU, INNER, INNER_F, OUTER, RESISTANCE, U_VALUE } wanted;

/* A window of the handbook's whole U, in Btu/(h ft2 F), behind the indoor film of 1.46; 4 by 6 ft, 72 F and 15 F. */
#define WHOLE(u)                                                                               \
  {                                                                                            \
    1.46 * PW_U_IP, 0.0, {0.006}, {0.006 * PW_U_IP / (1.0 / (u)-1.0 / 1.46)},                  \
        (72.0 - 32.0) / 1.8, (15.0 - 32.0) / 1.8, 24.0 * PW_FOOT2                              \
  }

static const struct {
  const char *id, *quantity; /* NULL: the only one of its id */
  slab wall;
  wanted what;
} problem[] = {
#define CENGEL_1                                                                               \
  {                                                                                            \
    10, 40, {0.008}, {0.78}, 20, -10, 1.2                                                      \
  }
#define CENGEL_2                                                                               \
  {                                                                                            \
    10, 40, {0.004, 0.010, 0.004}, {0.78, 0.026, 0.78}, 20, -10, 1.2                           \
  }
#define REAR                                                                                   \
  {                                                                                            \
    30, 65, {0.004}, {1.4}, 40, -10, 1                                                         \
  }
#define THERMOPANE                                                                             \
  {                                                                                            \
    10, 80, {0.007, 0.007, 0.007}, {1.4, 0.0245, 1.4}, 20, -10, 0.4                            \
  }
#define SPACE                                                                                  \
  {                                                                                            \
    8.29, 34, {0.006}, {7.2 * 0.006}, 20, 0, 1                                                 \
  } /* glass neglected: the air space alone */
    {"textbo001", NULL, CENGEL_1, HEAT},
    {"textbo002", NULL, CENGEL_1, INNER},
    {"textbo003", NULL, CENGEL_2, HEAT},
    {"textbo004", NULL, CENGEL_2, RESISTANCE},
    {"textbo005", NULL, CENGEL_2, INNER},
    {"textbo009", NULL, REAR, INNER},
    {"textbo010", NULL, REAR, OUTER},
    {"textbo011", NULL, THERMOPANE, HEAT},
    {"textbo018", NULL, SPACE, U_VALUE},
    {"textbo019", NULL, WHOLE(1.18), HEAT_BTU},
    {"textbo020", NULL, WHOLE(1.18), INNER_F},
    {"CE3-2", "heat loss", CENGEL_1, HEAT},
    {"CE3-2", "inner surface", CENGEL_1, INNER},
    {"CE3-3", "heat loss", CENGEL_2, HEAT},
    {"CE3-3", "inner surface", CENGEL_2, INNER},
    {"CE3-3", "total resistance", CENGEL_2, RESISTANCE},
    {"IN3-a", NULL, THERMOPANE, HEAT},
    {"IN3-b", "inner surface", REAR, INNER},
    {"IN3-b", "outer surface", REAR, OUTER},
    {"CE9-a", "Ucg", SPACE, U_VALUE},
    {"CE9-b", "inner glass temperature at U 1.17", WHOLE(1.17), INNER_F},
    {"CE9-b", "inner glass temperature at U 0.62", WHOLE(0.62), INNER_F},
    {"CE9-b", "inner glass temperature at U 0.34", WHOLE(0.34), INNER_F},
    {"CE9-b", "heat loss, triple", WHOLE(0.34), HEAT_BTU},
};

static int same(const char *a, const char *b) { return strcmp(a, b) == 0; }

/* The slab as a section one metre high. */
static pw_status draw(const slab *w, pw_section *s, double *thickness, pw_err *err)
{
  double x = 0.0;
  pw_section_init(s);
  pw_status status = pw_section_add(s, -1.0, 0.0, 0.0, 1.0, "outdoor", NAN, NAN, 0, err);
  for (int i = 0; i < LAYERS && status == PW_OK && w->thickness[i] > 0.0; i++) {
    const char name[2] = {(char)('a' + i), 0};
    status = pw_section_add(s, x, 0.0, x + w->thickness[i], 1.0, name, w->k[i], NAN, 0, err);
    x += w->thickness[i];
  }
  if (status == PW_OK) status = pw_section_add(s, x, 0.0, 1.0, 1.0, "indoor", NAN, NAN, 0, err);
  *thickness = x;
  return status;
}

static double of_result(const slab *w, wanted what, const pw_section_result *r,
                        const double t[2])
{
  switch (what) {
  case HEAT:
    return w->area * r->q;
  case HEAT_BTU:
    return w->area * r->q * 3600.0 / PW_BTU;
  case INNER:
    return pw_c(t[1]);
  case INNER_F:
    return pw_f(t[1]);
  case OUTER:
    return pw_c(t[0]);
  case RESISTANCE:
    return 1.0 / (r->l2d * w->area);
  case U_VALUE:
    return r->l2d;
  }
  return NAN;
}

static pw_status solve(const slab *w, wanted what, double *value, pw_err *err)
{
  pw_section s;
  pw_section_result r;
  double thickness, at[4] = {0.0, 0.5, 0.0, 0.5}, t[2];
  const pw_films films = {w->h_out > 0.0 ? 1.0 / w->h_out : 0.0, 1.0 / w->h_in, 1.0 / w->h_in};
  pw_status status = draw(w, &s, &thickness, err);
  at[2] = thickness;
  const pw_section_options o = {.t_out = pw_k(w->t_out),
                                .t_in = pw_k(w->t_in),
                                .films = &films,
                                .tolerance = 1e-4,
                                .probe = at,
                                .n_probe = 2,
                                .t_probe = t};
  if (status == PW_OK) status = pw_section_solve(&s, &o, &r, err);
  if (status == PW_OK) {
    *value = of_result(w, what, &r, t);
    pw_section_result_free(&r);
  }
  pw_section_free(&s);
  return status;
}

/* sigma / (1/e + 1/e - 1) of two alike plates, as the gap has it, W/(m2 K4). */
static double exchange(double emissivity)
{
  cavity c;
  const pw_gap air = {.thickness = 0.015};
  if (cavity_set(&c, &air, 0.5, 101325.0, emissivity, emissivity, NULL) != PW_OK) return NAN;
  return c.radiation;
}

/* Holman 7-8: two plates of 0.25 m2 at 100 and 40 C, both 0.2; and the effective emissivity of two panes. */
static double radiates(const char *id)
{
  if (same(id, "textbo013")) return 0.25 * exchange(0.2) * (pow(373.0, 4.0) - pow(313.0, 4.0));
  return same(id, "CE9-a") ? exchange(0.84) / PW_SIGMA : NAN;
}

static pw_status textbook(const char *id, const char *quantity, double *value, pw_err *err)
{
  for (size_t i = 0; i < sizeof problem / sizeof problem[0]; i++)
    if (same(problem[i].id, id) &&
        (!problem[i].quantity || same(problem[i].quantity, quantity)))
      return solve(&problem[i].wall, problem[i].what, value, err);
  *value = radiates(id);
  return PW_OK;
}

pw_status glazing_textbook(const pw_check_sink *sink, pw_err *err)
{
  const pw_table *t = NULL;
  pw_status s = row_table("glazing/textbook", &t, err);
  for (size_t i = 0; s == PW_OK && i < t->n_row; i++) {
    double value = NAN;
    const char *quantity = row_text(t, i, "quantity");
    if (!row_agrees(t, i)) continue;
    s = textbook(row_text(t, i, "id"), quantity, &value, err);
    if (s == PW_OK) row_give(sink, t, i, quantity, value);
  }
  return s;
}

/* Double-door window and French door, by pw_rating_window; areas in m2, U in W/(m2 K). */
static pw_status door(int french, pw_rating *r, pw_err *err)
{
  pw_rating_lite lite[8];
  size_t n = french ? 8 : 2;
  double w = french ? 11.0 * PW_INCH : 0.94, h = french ? 16.0 * PW_INCH : 1.72;
  for (size_t k = 0; k < n; k++)
    lite[k] = (pw_rating_lite){w, h, {3.71, 3.71, 3.71, 3.71}};
  double width = french ? 38.0 * PW_INCH : 1.80, height = french ? 82.0 * PW_INCH : 2.00;
  const pw_rating_part part = {PW_PART_FRAME, width * height - (double)n * w * h, 2.8, 0.0,
                               0.0};
  const pw_rating_input in = {.width = width,
                              .height = height,
                              .u_center = 3.24,
                              .lite = lite,
                              .n_lite = n,
                              .part = &part,
                              .n_part = 1,
                              .band = french ? 0.0 : 0.065};
  return pw_rating_window(&in, r, err);
}

/* A figure of a door, or NAN for one that is none. */
static double of_door(const char *id, const char *quantity, const pw_rating *wood,
                      const pw_rating *french)
{
  const pw_rating *r = same(id, "CE9-c") ? wood : same(id, "HB-2") ? french : NULL;
  double scale = same(id, "HB-2") ? 1.0 / PW_FOOT2 : 1.0;
  if (!r) return NAN;
  return same(quantity, "glazing area")   ? r->glass_area
         : same(quantity, "centre area")  ? r->areas.center * scale
         : same(quantity, "edge area")    ? r->areas.edge * scale
         : same(quantity, "frame area")   ? r->areas.frame * scale
         : same(quantity, "overall area") ? r->area * scale
         : same(quantity, "overall U")    ? r->u
                                          : NAN;
}

pw_status glazing_worked(const pw_check_sink *sink, pw_err *err)
{
  const pw_table *t = NULL;
  pw_rating wood, french;
  double example_1 = NAN;
  pw_status s = row_table("glazing/worked_examples", &t, err);
  if (s == PW_OK) s = door(0, &wood, err);
  if (s == PW_OK) s = door(1, &french, err);
  if (s == PW_OK) s = glazing_example_1(&example_1, err);
  for (size_t i = 0; s == PW_OK && i < t->n_row; i++) {
    if (!row_agrees(t, i)) continue;
    const char *id = row_text(t, i, "id"), *quantity = row_text(t, i, "quantity");
    double value =
        same(id, "HB-1") ? example_1 / PW_U_IP : of_door(id, quantity, &wood, &french);
    if (isnan(value)) s = textbook(id, quantity, &value, err);
    if (s == PW_OK) row_give(sink, t, i, quantity, value);
  }
  return s;
}
