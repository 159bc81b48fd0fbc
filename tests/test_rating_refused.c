/* Ratings, damp air and bars: what is refused and by which name, what stands at each bound, what is taken where nothing is
 * said. Bounds: the headers. */
#include "refused_by.h"
#include "support.h"

#include <math.h>
#include <string.h>

#include "panewright/rating.h"
#include "window/grille.h"
#include "window/moisture.h"

#define N(a) (sizeof(a) / sizeof(a)[0])

/* ---------------------------------------------------------------- rating */

/* A shape's areas are its own, so that sizes may be moved alone: 1 m2 of glass, 1 m2 of frame. */
typedef struct rated {
  pw_rating_input input;
  pw_rating_lite lite;
  pw_lite_round round;
  pw_rating_part part;
  double u_glass, psi;
} rated;

static const rated plain = {
    .input =
        {.width = 1.0, .height = 2.0, .area = 2.0, .u_center = 2.0, .shgc = 0.5, .vt = 0.5},
    .lite = {1.0, 1.0, {2.0, 2.0, 2.0, 2.0}},
    .round = {1.0, 4.0, 0.5, {0.125, 0.125, 0.125, 0.125}, {0.25, 0.25, 0.25, 0.25}},
    .part = {PW_PART_FRAME, 1.0, 3.0, 0.5, 1.2},
    .u_glass = 2.0,
    .psi = 0.05};

static void join(rated *r)
{
  r->input.lite = &r->lite;
  r->input.round = &r->round;
  r->input.part = &r->part;
  r->input.n_lite = r->input.n_part = 1;
}

static pw_status ask_rating(const void *subject, pw_err *err)
{
  rated r = *(const rated *)subject;
  pw_rating rating;
  join(&r);
  return pw_rating_window(&r.input, &rating, err);
}

static pw_status ask_psi(const void *subject, pw_err *err)
{
  rated r = *(const rated *)subject;
  double u;
  join(&r);
  return pw_rating_u_psi(&r.input, r.u_glass, r.psi, &u, err);
}

#define IN(name, low, high)                                                                    \
  {                                                                                            \
#name, offsetof(rated, input.name), "d", low, high                                         \
  }
static const pw_span both_forms[] = {
    IN(width, 0.01, 20.0),
    IN(height, 0.01, 20.0),
    IN(u_center, 0.0, 20.0),
    IN(shgc, 0.0, 1.0),
    IN(vt, 0.0, 1.0),
    IN(band, 0.0, 1.0),
    {"lite.width", offsetof(rated, lite.width), "d", 1e-3, 20.0},
    {"lite.height", offsetof(rated, lite.height), "d", 1e-3, 20.0},
    {"lite.u_edge", offsetof(rated, lite.u_edge[0]), "d", 0.0, 30.0},
    {"lite.u_edge", offsetof(rated, lite.u_edge[3]), "d", 0.0, 30.0},
    {"lite.round", offsetof(rated, round.perimeter), "d", 0.0, 1600.0},
    {"lite.round", offsetof(rated, round.center), "d", 0.0, 400.0},
    {"lite.round", offsetof(rated, round.edge[0]), "d", 0.0, 400.0},
    {"lite.round", offsetof(rated, round.edge[3]), "d", 0.0, 400.0},
    {"part.u", offsetof(rated, part.u), "d", 0.0, 100.0},
    {"part.absorptance", offsetof(rated, part.absorptance), "d", 0.0, 1.0},
};
#undef IN

static void numbers_of_a_rating(void **state)
{
  (void)state;
  pw_assert_spans(&plain, sizeof plain, both_forms, N(both_forms), ask_rating);
  pw_assert_spans(&plain, sizeof plain, both_forms, N(both_forms), ask_psi);
  static const pw_span of_psi[] = {
      {"u_glass", offsetof(rated, u_glass), "d", 0.0, 20.0},
      {"psi", offsetof(rated, psi), "d", -0.5, 2.0},
  };
  pw_assert_spans(&plain, sizeof plain, of_psi, N(of_psi), ask_psi);
}

/* 0 is the default of these two, what lies between is none; areas must fill the opening, so their bounds are met apart;
 * a kind of part that there is not; no light at all. */
static void shapes_of_a_rating(void **state)
{
  (void)state;
  static const struct {
    size_t offset;
    double value;
    pw_status want;
    const char *field;
  } row[] = {
      {offsetof(rated, input.h_out), 0.0, PW_OK, ""},
      {offsetof(rated, input.h_out), 1.0, PW_OK, ""},
      {offsetof(rated, input.h_out), 200.0, PW_OK, ""},
      {offsetof(rated, input.h_out), 0.999, PW_E_DOMAIN, "h_out"},
      {offsetof(rated, input.h_out), 200.001, PW_E_DOMAIN, "h_out"},
      {offsetof(rated, input.h_out), NAN, PW_E_DOMAIN, "h_out"},
      {offsetof(rated, part.developed), 0.0, PW_OK, ""},
      {offsetof(rated, part.developed), 1.0, PW_OK, ""},
      {offsetof(rated, part.developed), 20.0, PW_OK, ""},
      {offsetof(rated, part.developed), 0.999, PW_E_DOMAIN, "part.developed"},
      {offsetof(rated, part.developed), 20.001, PW_E_DOMAIN, "part.developed"},
      {offsetof(rated, part.developed), -INFINITY, PW_E_DOMAIN, "part.developed"},
      {offsetof(rated, part.area), -1e-9, PW_E_DOMAIN, "part.area"},
      {offsetof(rated, part.area), 400.001, PW_E_DOMAIN, "part.area"},
      {offsetof(rated, part.area), INFINITY, PW_E_DOMAIN, "part.area"},
      {offsetof(rated, part.area), NAN, PW_E_DOMAIN, "part.area"},
      {offsetof(rated, part.area), 1.0 + 1e-8, PW_E_SHAPE, "part.area"},
      {offsetof(rated, part.area), 1.0 - 1e-8, PW_E_SHAPE, "part.area"},
      {offsetof(rated, part.area), 1.0 + 1e-9, PW_OK, ""},
  };
  for (size_t i = 0; i < N(row); i++) {
    rated r = plain;
    pw_err err = {0};
    memcpy((char *)&r + row[i].offset, &row[i].value, sizeof row[i].value);
    refused(ask_rating(&r, &err), row[i].want, &err, row[i].field);
  }
  rated r = plain;
  pw_err err = {0};
  pw_rating rating = {.u = -7.0};
  join(&r);
  r.input.n_lite = 0;
  refused(pw_rating_window(&r.input, &rating, &err), PW_E_SHAPE, &err, "n_lite");
  r.input.n_lite = 1;
  for (int kind = -1; kind <= 3; kind += 4) {
    r.part.kind = (pw_part_kind)kind;
    refused(pw_rating_window(&r.input, &rating, &err), PW_E_DOMAIN, &err, "part.kind");
  }
  assert_true(rating.u == -7.0); /* untouched */
}

/* By hand: glass 1 m2 of SHGC 0.5, frame 1 m2 of U 3, absorptance 0.5, developed 1.2. Film 30, as by default:
 * 0.5 x 3 / (30 x 1.2) = 1/24 of the frame, (0.5 + 1/24) / 2 of all; film 15: 1/12. Glass alone has no opaque part. */
static void what_a_rating_takes_by_itself(void **state)
{
  (void)state;
  rated r = plain;
  pw_rating rating;
  join(&r);
  assert_int_equal(pw_rating_window(&r.input, &rating, NULL), PW_OK);
  pw_assert_near(rating.shgc, 0.5 * (0.5 + 1.0 / 24.0), 1e-12, "SHGC", "by hand");
  r.input.h_out = 15.0;
  assert_int_equal(pw_rating_window(&r.input, &rating, NULL), PW_OK);
  pw_assert_near(rating.shgc, 0.5 * (0.5 + 1.0 / 12.0), 1e-12, "SHGC", "by hand");
  r.input.area = 1.0;
  r.input.n_part = 0;
  assert_int_equal(pw_rating_window(&r.input, &rating, NULL), PW_OK);
  assert_true(rating.shgc_opaque == 0.0 && rating.u_frame.value == 0.0);
}

/* ---------------------------------------------------------------- moisture */

typedef struct air {
  double t, rh, pressure, p, t_surface;
} air;
static const air room = {293.15, 0.5, 101325.0, 1000.0, 283.15};

static pw_status ask_pressure(const void *a, pw_err *err)
{
  double v;
  return pw_saturation_pressure(((const air *)a)->t, &v, err);
}
static pw_status ask_temperature(const void *a, pw_err *err)
{
  double v;
  return pw_saturation_temperature(((const air *)a)->p, &v, err);
}
static pw_status ask_dew(const void *a, pw_err *err)
{
  double v;
  return pw_dew_point(((const air *)a)->t, ((const air *)a)->rh, &v, err);
}
static pw_status ask_ratio(const void *subject, pw_err *err)
{
  const air *a = subject;
  double v;
  return pw_humidity_ratio(a->t, a->rh, a->pressure, &v, err);
}
static pw_status ask_sweat(const void *subject, pw_err *err)
{
  const air *a = subject;
  double v;
  return pw_sweat_humidity(a->t_surface, a->t, &v, err);
}

static void numbers_of_damp_air(void **state)
{
  (void)state;
  static const pw_span t = {"t", offsetof(air, t), "d", 203.15, 373.15},
                       p = {"p", offsetof(air, p), "d", 0.2, 1.1e5},
                       damp[] = {{"rh", offsetof(air, rh), "d", 1e-3, 1.0},
                                 {"pressure", offsetof(air, pressure), "d", 2e4, 1.2e5}},
                       face[] = {{"t_surface", offsetof(air, t_surface), "d", 203.15, 373.15},
                                 {"t_in", offsetof(air, t), "d", 203.15, 373.15}};
  pw_assert_spans(&room, sizeof room, &t, 1, ask_pressure);
  pw_assert_spans(&room, sizeof room, &p, 1, ask_temperature);
  pw_assert_spans(&room, sizeof room, damp, 1, ask_dew);
  pw_assert_spans(&room, sizeof room, damp, 2, ask_ratio);
  pw_assert_spans(&room, sizeof room, face, 2, ask_sweat);
  /* At 90 C vapour has 701 hPa (steam tables, from memory): more than 0.9 of 760 hPa, less of 790. */
  air hot = {363.15, 1.0, 76000.0, 0.0, 0.0};
  pw_err err = {0};
  refused(ask_dew(&(air){.t = 203.0, .rh = 0.5}, &err), PW_E_DOMAIN, &err, "t");
  refused(ask_ratio(&(air){.t = 374.0, .rh = 0.5}, &err), PW_E_DOMAIN, &err, "t");
  refused(ask_ratio(&hot, &err), PW_E_DOMAIN, &err, "pressure");
  hot.pressure = 79000.0;
  assert_int_equal(ask_ratio(&hot, &err), PW_OK);
}

/* ---------------------------------------------------------------- bars */

static void bars_refused(void **state)
{
  (void)state;
  static const struct {
    int cols, rows;
    double bar, width, height;
    const char *field; /* "" taken */
  } row[] = {
      {1, 1, 0.016, 0.6, 0.6, ""},
      {8, 8, 0.016, 0.6, 0.6, ""},
      {0, 1, 0.016, 0.6, 0.6, "grille_pattern"},
      {9, 1, 0.016, 0.6, 0.6, "grille_pattern"},
      {1, 0, 0.016, 0.6, 0.6, "grille_pattern"},
      {1, 9, 0.016, 0.6, 0.6, "grille_pattern"},
      {2, 2, 0.0, 0.6, 0.6, "grille_bar"},
      {2, 2, -0.01, 0.6, 0.6, "grille_bar"},
      {2, 2, NAN, 0.6, 0.6, "grille_bar"},
      {2, 2, INFINITY, 0.6, 0.6, "grille_pattern"}, /* no glass beside it */
      {3, 1, 0.3, 0.6, 0.6, "grille_pattern"},      /* two bars take it all */
      {1, 3, 0.3, 0.6, 0.6, "grille_pattern"},
      {1, 3, 0.3, 0.6, 0.601, ""},
      {2, 2, 0.016, NAN, 0.6, "grille_pattern"},
      {2, 2, 0.016, 0.6, NAN, "grille_pattern"},
  };
  for (size_t i = 0; i < N(row); i++) {
    pw_grille g = {PW_GRILLE_OUTSIDE, row[i].cols, row[i].rows, row[i].bar};
    pw_grille_cells c;
    pw_err err = {0};
    pw_status s = pw_grille_cut(&g, row[i].width, row[i].height, &c, &err);
    refused(s, row[i].field[0] ? PW_E_DOMAIN : PW_OK, &err, row[i].field);
  }
}

typedef struct heated {
  double net, absorptance, band;
  pw_grille grille;
} heated;

static pw_status ask_heat(const void *subject, pw_err *err)
{
  const heated *h = subject;
  pw_glazing glass;
  pw_buildup made;
  pw_grille_heat heat;
  assert_int_equal(pw_buildup_parse("3mm clear / 12mm air / 3mm clear", &made, NULL), PW_OK);
  assert_int_equal(pw_glazing_build(&made, &glass, NULL), PW_OK);
  return pw_grille_heat_of(&glass.unit, h->net, &h->grille, h->absorptance, h->band, &heat,
                           err);
}

static void heat_of_bars_refused(void **state)
{
  (void)state;
  static const heated h = {0.8, 0.3, 0.0635, {PW_GRILLE_BETWEEN, 2, 2, 0.016}};
  static const pw_span field[] = {
      {"absorptance", offsetof(heated, absorptance), "d", 0.0, 1.0},
      {"net", offsetof(heated, net), "d", 0.0, 1.0},
      {"band", offsetof(heated, band), "d", 1e-4, 1.0},
      {"grille_bar", offsetof(heated, grille.bar), "d", 1e-4, 0.5},
  };
  pw_assert_spans(&h, sizeof h, field, N(field), ask_heat);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(numbers_of_a_rating),
      cmocka_unit_test(shapes_of_a_rating),
      cmocka_unit_test(what_a_rating_takes_by_itself),
      cmocka_unit_test(numbers_of_damp_air),
      cmocka_unit_test(bars_refused),
      cmocka_unit_test(heat_of_bars_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
