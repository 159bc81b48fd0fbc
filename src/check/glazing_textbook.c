/* Textbook problems of one and two panes, enclosures and plates. The rows state their data in words;
 * each is worked out here in the order of its table, and a row without a case is an error. */
#include <math.h>
#include <string.h>

#include "check/glazing.h"
#include "check/table_rows.h"
#include "panewright/rating.h"
#include "panewright/units.h"

typedef struct wall {
  double h_in, h_out;  /* W/(m2 K) */
  double glass_m, k;   /* of one pane */
  double gap_m, k_gap; /* 0: one pane */
} wall;

static double resistance(const wall *w)
{
  double pane = w->glass_m / w->k;
  double inside = w->gap_m > 0.0 ? 2.0 * pane + w->gap_m / w->k_gap : pane;
  return 1.0 / w->h_in + inside + 1.0 / w->h_out;
}

static const wall cengel_single = {10.0, 40.0, 0.008, 0.78, 0.0, 0.0};
static const wall cengel_double = {10.0, 40.0, 0.004, 0.78, 0.010, 0.026};
static const wall rear_window = {30.0, 65.0, 0.004, 1.4, 0.0, 0.0};
static const wall thermopane = {10.0, 80.0, 0.007, 1.4, 0.007, 0.0245};

static double inner_c(const wall *w, double t_in, double t_out)
{
  return t_in - (t_in - t_out) / (resistance(w) * w->h_in);
}

/* Cengel 9-4: rectangular enclosure, Nu = 0.42 Ra^(1/4) Pr^0.012 (H/L)^-0.3. */
static double enclosure(int what)
{
  const double l = 0.020, height = 0.8, nu_air = 1.399e-5, pr = 0.7344, k = 0.02416;
  double ra = 9.81 * 10.0 * l * l * l * pr / (280.0 * nu_air * nu_air);
  double nu = 0.42 * pow(ra, 0.25) * pow(pr, 0.012) * pow(height / l, -0.3);
  return what == 0 ? ra : what == 1 ? nu : k * nu * height * 2.0 * 10.0 / l;
}

/* Incropera 9.2: Churchill and Chu's plate at all Ra. */
static double plate(int what)
{
  const double l = 0.71, area = 0.71 * 1.02, dt = 209.0, pr = 0.690, k = 0.0338;
  double ra = 9.8 * 0.0025 * dt * l * l * l / (38.3e-6 * 26.4e-6);
  double part = 0.387 * pow(ra, 1.0 / 6.0) / pow(1.0 + pow(0.492 / pr, 9.0 / 16.0), 8.0 / 27.0);
  double nu = (0.825 + part) * (0.825 + part), h = nu * k / l;
  return what == 0 ? ra : what == 1 ? nu : what == 2 ? h : h * area * dt;
}

static double textbook(int number)
{
  double u = 1.0 / (1.0 / 8.29 + 1.0 / 7.2 + 1.0 / 34.0);
  switch (number) {
  case 1:
    return 30.0 * 1.2 / resistance(&cengel_single);
  case 2:
    return inner_c(&cengel_single, 20.0, -10.0);
  case 3:
    return 30.0 * 1.2 / resistance(&cengel_double);
  case 4:
    return resistance(&cengel_double) / 1.2;
  case 5:
    return inner_c(&cengel_double, 20.0, -10.0);
  case 6:
  case 7:
  case 8:
    return enclosure(number - 6);
  case 9:
    return inner_c(&rear_window, 40.0, -10.0);
  case 10:
    return -10.0 + 50.0 / (resistance(&rear_window) * 65.0);
  case 11:
    return 30.0 * 0.4 / resistance(&thermopane);
  case 12: /* Holman 7-8 */
    return 9.8 / 343.0 * 60.0 * pow(1.029 / 2.043e-5, 2.0) * pow(0.015, 3.0) * 0.7;
  case 13:
    return 0.25 * 5.669e-8 * (pow(373.0, 4.0) - pow(313.0, 4.0)) / (2.0 / 0.2 - 1.0);
  case 14:
  case 15:
  case 16:
  case 17:
    return plate(number - 14);
  case 18:
    return u;
  case 19:
    return 1.18 * 24.0 * 57.0;
  case 20:
    return 72.0 - 1.18 / 1.46 * 57.0;
  default:
    return NAN;
  }
}

pw_status glazing_textbook(const pw_check_sink *sink, pw_err *err)
{
  const pw_table *t = NULL;
  pw_status s = row_table("glazing/textbook", &t, err);
  for (size_t i = 0; s == PW_OK && i < t->n_row; i++)
    if (row_agrees(t, i))
      row_give(sink, t, i, row_text(t, i, "quantity"), textbook((int)i + 1));
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

static int same(const char *a, const char *b) { return strcmp(a, b) == 0; }

/* Rows that repeat a textbook row, and what only this table has. */
static double worked(const char *id, const char *quantity, const pw_rating *wood,
                     const pw_rating *french)
{
  if (same(id, "CE3-2")) return textbook(same(quantity, "heat loss") ? 1 : 2);
  if (same(id, "CE3-3"))
    return textbook(same(quantity, "heat loss") ? 3 : same(quantity, "inner surface") ? 5 : 4);
  if (same(id, "IN3-a")) return textbook(11);
  if (same(id, "IN3-b")) return textbook(same(quantity, "inner surface") ? 9 : 10);
  if (same(id, "CE9-a"))
    return same(quantity, "Ucg") ? textbook(18) : 1.0 / (1.0 / 0.84 + 1.0 / 0.84 - 1.0);
  if (same(id, "CE9-b")) {
    if (same(quantity, "heat loss, triple")) return 0.34 * 24.0 * 57.0;
    double u = strstr(quantity, "1.17") ? 1.17 : strstr(quantity, "0.62") ? 0.62 : 0.34;
    return 72.0 - u / 1.46 * 57.0;
  }
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
    row_give(sink, t, i, quantity,
             same(id, "HB-1") ? example_1 / PW_U_IP : worked(id, quantity, &wood, &french));
  }
  return s;
}
