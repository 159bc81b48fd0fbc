/* What src/glass refuses, field by field, and that each bound itself is taken with a finite result. The bounds are those of the headers. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "glass/optics.h"
#include "panewright/glazing.h"

/* ---------------------------------------------------------------- gases */

typedef struct gas_case {
  pw_mix mix;
  double t, pressure;
} gas_case;

static void assert_finite_gas(const pw_gas_state *g)
{
  assert_true(isfinite(g->conductivity + g->viscosity + g->heat + g->density));
}

static pw_status gas_iso(const void *in, pw_err *err)
{
  const gas_case *c = in;
  pw_gas_state g;
  pw_status s = pw_gas_iso15099(&c->mix, c->t, c->pressure, &g, err);
  if (s == PW_OK) assert_finite_gas(&g);
  return s;
}

static pw_status gas_en(const void *in, pw_err *err)
{
  const gas_case *c = in;
  pw_gas_state g;
  pw_status s = pw_gas_en673(&c->mix, c->t, &g, err);
  if (s == PW_OK) assert_finite_gas(&g);
  return s;
}

static void a_gas(void **state)
{
  (void)state;
  const gas_case good = {{{0.1, 0.9}}, 283.15, 101325.0};
  const pw_span span[] = {{"t", offsetof(gas_case, t), "d", 173.15, 373.15},
                          {"pressure", offsetof(gas_case, pressure), "d", 3e4, 1.2e5}};
  pw_assert_spans(&good, sizeof good, span, 2, gas_iso);
  pw_assert_spans(&good, sizeof good, span, 1, gas_en);
  pw_err err;
  gas_case bad = good;
  bad.mix.share[PW_XENON] = (double)NAN;
  assert_int_equal(gas_iso(&bad, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "mix.share[xenon]");
  assert_int_equal(gas_en(&bad, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "mix.share[xenon]");
  bad.mix.share[PW_XENON] = 0.1; /* 110 % in all */
  assert_int_equal(gas_en(&bad, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "mix.share");
  assert_string_equal(pw_gas_name(PW_GAS_COUNT), "unknown");
  assert_string_equal(pw_gas_name(PW_SF6), "sf6");
}

/* ---------------------------------------------------------------- units */

typedef struct unit_case {
  pw_unit unit;
  pw_env env;
  double absorbed[PW_PANES_MAX], tau_e;
} unit_case;

static void assert_finite_unit(const pw_unit_result *r, size_t n)
{
  assert_true(isfinite(r->q_in + r->q_out));
  for (size_t i = 0; i < 2 * n; i++)
    assert_true(isfinite(r->t[i]));
}

static pw_status unit_iso(const void *in, pw_err *err)
{
  const unit_case *c = in;
  pw_unit_result r;
  pw_status s = pw_unit_solve(&c->unit, &c->env, c->absorbed, &r, err);
  if (s == PW_OK) assert_finite_unit(&r, c->unit.n_pane);
  return s;
}

static pw_status unit_en(const void *in, pw_err *err)
{
  const unit_case *c = in;
  pw_unit_result r;
  pw_status s = pw_unit_en673(&c->unit, &r, err);
  if (s == PW_OK) assert_true(isfinite(r.u));
  return s;
}

static pw_status unit_shgc(const void *in, pw_err *err)
{
  const unit_case *c = in;
  double shgc = 0.0;
  pw_status s = pw_unit_shgc(&c->unit, &c->env, c->tau_e, c->absorbed, &shgc, err);
  if (s == PW_OK) assert_true(isfinite(shgc));
  return s;
}

/* Two panes of four that are there, so that a larger count is good too. */
static unit_case good_unit(void)
{
  unit_case c = {.unit = {.n_pane = 2, .height = 1.0},
                 .env = {.t_out = 300.0,
                         .t_in = 297.0,
                         .t_rad_out = 295.0,
                         .t_rad_in = 297.0,
                         .h_c_out = 15.0,
                         .h_c_in = 3.0,
                         .wind = 3.0,
                         .sun = 700.0,
                         .pressure = 1e5},
                 .absorbed = {0.1, 0.1},
                 .tau_e = 0.6};
  for (size_t i = 0; i < PW_PANES_MAX; i++) {
    c.unit.pane[i] = (pw_pane){4e-3, 1.0, {0.84, 0.84}};
    if (i + 1 < PW_PANES_MAX) c.unit.gap[i].thickness = 0.016;
  }
  return c;
}

static void a_unit_and_what_it_stands_between(void **state)
{
  (void)state;
#define AT(field) offsetof(unit_case, field)
  const unit_case good = good_unit();
  const pw_span unit[] = {{"n_pane", AT(unit.n_pane), "n", 1, PW_PANES_MAX},
                          {"pane.thickness", AT(unit.pane[1].thickness), "d", 0.5e-3, 50e-3},
                          {"pane.conductivity", AT(unit.pane[0].conductivity), "d", 0.02, 3.0},
                          {"pane.emit", AT(unit.pane[0].emit[0]), "d", 1e-3, 1.0},
                          {"pane.emit", AT(unit.pane[1].emit[1]), "d", 1e-3, 1.0},
                          {"gap.thickness", AT(unit.gap[0].thickness), "d", 1e-3, 0.3},
                          {"height", AT(unit.height), "d", 0.05, 20.0}};
  const pw_span env[] = {{"t_out", AT(env.t_out), "d", 173.15, 373.15},
                         {"t_in", AT(env.t_in), "d", 173.15, 373.15},
                         {"t_rad_out", AT(env.t_rad_out), "d", 150.0, 373.15},
                         {"t_rad_in", AT(env.t_rad_in), "d", 150.0, 373.15},
                         {"h_c_out", AT(env.h_c_out), "d", 0.1, 500.0},
                         {"h_c_in", AT(env.h_c_in), "d", 0.1, 500.0},
                         {"wind", AT(env.wind), "d", 0.0, 100.0},
                         {"pressure", AT(env.pressure), "d", 3e4, 1.2e5}};
  const pw_span sun[] = {{"sun", AT(env.sun), "d", 0.0, 1500.0}};
  const pw_span shgc[] = {{"tau_e", AT(tau_e), "d", 0.0, 1.0}};
  pw_assert_spans(&good, sizeof good, unit, sizeof unit / sizeof unit[0], unit_iso);
  pw_assert_spans(&good, sizeof good, unit, sizeof unit / sizeof unit[0], unit_en);
  pw_assert_spans(&good, sizeof good, env, sizeof env / sizeof env[0], unit_iso);
  pw_assert_spans(&good, sizeof good, env, sizeof env / sizeof env[0], unit_shgc);
  pw_assert_spans(&good, sizeof good, sun, 1, unit_iso);
  pw_assert_spans(&good, sizeof good, shgc, 1, unit_shgc);
  unit_case bad = good;
  pw_err err;
  const double share[] = {-1e-9, (double)NAN, INFINITY, 0.91};
  for (size_t i = 0; i < sizeof share / sizeof share[0]; i++) {
    bad.absorbed[1] = share[i];
    assert_int_equal(unit_iso(&bad, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, "absorbed");
  }
  bad = good;
  bad.unit.gap[0].mix.share[PW_ARGON] = 2.0;
  assert_int_equal(unit_en(&bad, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "mix.share[argon]");
}

/* What is not given (0) is the default that unit.h states: by hand the same unit with it written out. */
static void what_is_not_given_is_the_default(void **state)
{
  (void)state;
  unit_case told = good_unit(), left = told;
  pw_unit_result a, b;
  told.unit.height = 1.0, left.unit.height = 0.0;
  told.env.pressure = 101325.0, left.env.pressure = 0.0;
  told.env.t_rad_out = told.env.t_out, left.env.t_rad_out = 0.0;
  told.env.t_rad_in = told.env.t_in, left.env.t_rad_in = 0.0;
  told.env.h_c_out = 4.0 + 4.0 * told.env.wind, left.env.h_c_out = 0.0;
  for (size_t i = 0; i < 2; i++) {
    left.unit.pane[i].conductivity = 0.0;
    left.unit.pane[i].emit[0] = left.unit.pane[i].emit[1] = 0.0;
  }
  assert_int_equal(pw_unit_solve(&told.unit, &told.env, told.absorbed, &a, NULL), PW_OK);
  assert_int_equal(pw_unit_solve(&left.unit, &left.env, left.absorbed, &b, NULL), PW_OK);
  pw_assert_near(b.u, a.u, 1e-9, "u", "defaults written out");
  pw_assert_near(b.q_in, a.q_in, 1e-8, "q", "defaults written out");
  pw_glazing g = {.unit = told.unit, .light = {.n_pane = 2}}, h = {.unit = left.unit};
  g.light.tau_e[0] = 0.6, g.light.absorbed[0][0] = 0.1, g.light.absorbed[1][0] = 0.05;
  h.light = g.light;
  for (size_t i = 0; i < 2; i++)
    g.unit.pane[i].emit[0] = g.unit.pane[i].emit[1] = 0.837; /* bare glass by EN 673 */
  double x = 0.0, y = 1.0;
  assert_int_equal(pw_glazing_g_en410(&g, 0, &x, NULL), PW_OK);
  assert_int_equal(pw_glazing_g_en410(&h, 0, &y, NULL), PW_OK);
  pw_assert_near(y, x, 1e-12, "g", "defaults written out");
  pw_err err;
  g.unit.n_pane = 0;
  assert_int_equal(pw_glazing_g_en410(&g, 0, &y, &err), PW_E_SHAPE);
  assert_string_equal(err.field, "n_pane");
  pw_assert_near(y, x, 1e-12, "g", "untouched");
}

/* ---------------------------------------------------------------- emissivity */

static void far_infrared_wants_its_span(void **state)
{
  (void)state;
  static const double good[] = {5500.0, 12000.0, 25000.0}, late[] = {5501.0, 12000.0, 25000.0},
                      early[] = {5500.0, 12000.0, 24999.0},
                      none[] = {(double)NAN, 1e4, 25000.0};
  static const double zero[3], tenth[] = {0.9, 0.9, 0.9}, less[] = {-0.1, -0.1, -0.1},
                               no[] = {0.9, (double)NAN, 0.9};
  double e = 77.0;
  pw_err err;
  const double *bad[] = {late, early, none};
  for (size_t i = 0; i < 3; i++) {
    assert_int_equal(pw_emissivity_measured(bad[i], zero, tenth, 3, &e, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, "wavelength_nm");
  }
  assert_int_equal(pw_emissivity_measured(good, zero, tenth, 1, &e, &err), PW_E_DOMAIN);
  assert_int_equal(pw_emissivity_measured(good, zero, no, 3, &e, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "normal");
  assert_true(e == 77.0);
  /* reflects 0.9 everywhere: normal 0.1, by EN 12898 times 1.14; more than black counts as black, times 0.94 */
  assert_int_equal(pw_emissivity_measured(good, zero, tenth, 3, &e, NULL), PW_OK);
  pw_assert_near(e, 0.114, 1e-12, "emissivity", "0.1 times 1.14");
  assert_int_equal(pw_emissivity_measured(good, zero, less, 3, &e, NULL), PW_OK);
  pw_assert_near(e, 0.94, 1e-12, "emissivity", "1 times 0.94");
  /* from 0 at the first point straight to 1 at the last, 25 um, which stands beyond: the ordinates hold the mean by hand */
  static const double two[] = {5500.0, 25000.0}, rising[] = {0.0, 1.0};
  size_t n = 0;
  const double *um = pw_emissivity_ordinates(&n);
  double r = 0.0;
  for (size_t i = 0; i < n; i++)
    r += (um[i] < 25.0 ? (um[i] - 5.5) / 19.5 : 1.0) / (double)n;
  double want = 0.0;
  assert_int_equal(pw_emissivity_corrected(1.0 - r, &want, NULL), PW_OK);
  assert_int_equal(pw_emissivity_measured(two, zero, rising, 2, &e, NULL), PW_OK);
  pw_assert_near(e, want, 1e-12, "emissivity", "straight line by hand");
}

/* ---------------------------------------------------------------- panes */

static pw_spectrum grid; /* of the panes below */

typedef struct thickness {
  pw_buildup_pane pane;
} thickness;

static pw_status pane_of(const void *in, pw_err *err)
{
  pw_layer layer;
  return pw_layer_init(&((const thickness *)in)->pane, NULL, 0, &grid, &layer, err);
}

static pw_status slab_of(const void *in, pw_err *err)
{
  double n[PW_LANE], kappa[PW_LANE];
  pw_layer layer;
  for (size_t i = 0; i < PW_LANE; i++)
    n[i] = 1.5, kappa[i] = 1.0;
  return pw_layer_glass(n, kappa, ((const thickness *)in)->pane.thickness, &layer, err);
}

static void a_pane_by_thickness(void **state)
{
  (void)state;
  const thickness good = {{.thickness = 3e-3, .kind = "clear"}};
  const pw_span span = {"thickness", offsetof(thickness, pane.thickness), "d", 0.5e-3, 50e-3};
  pw_assert_spans(&good, sizeof good, &span, 1, pane_of);
  pw_assert_spans(&good, sizeof good, &span, 1, slab_of);
}

/* One wavelength of a measured pane that cannot be. */
static void a_measured_pane_that_cannot_be(void **state)
{
  (void)state;
  static const double wrong[][3] = {{-0.01, 0.1, 0.1}, {0.6, -0.01, 0.1}, {0.6, 0.1, -0.01},
                                    {0.95, 0.06, 0.0}, {0.95, 0.0, 0.06}, {NAN, 0.1, 0.1},
                                    {0.6, NAN, 0.1},   {0.6, 0.1, NAN},   {INFINITY, 0.1, 0.1}};
  pw_measured m = {.name = "odd"};
  pw_layer layer;
  pw_err err;
  for (size_t i = 0; i < PW_LANE; i++)
    m.normal.t[i] = 0.9,
    m.normal.rf[i] = m.normal.rb[i] = 0.1; /* all of the light is told of */
  assert_int_equal(pw_layer_measured(&m, &grid, &layer, NULL), PW_OK);
  for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
    pw_measured bad = m;
    bad.normal.t[40] = wrong[i][0], bad.normal.rf[40] = wrong[i][1],
    bad.normal.rb[40] = wrong[i][2];
    assert_int_equal(pw_layer_measured(&bad, &grid, &layer, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, "pane");
  }
}

/* Solar values that the visible ones leave no room for; each alone. In the sun of the grid some 0.5 lies beyond 780 nm. */
static void bands_that_contradict(void **state)
{
  (void)state;
  const pw_bands good = {0.6, 0.1, 0.1, 0.7, 0.1, 0.1, 0.3};
  pw_bands bad[] = {good, good, good, good, good, good};
  pw_measured m = {.name = "odd"};
  pw_err err;
  assert_int_equal(pw_measured_from_bands(&good, &grid, &m, NULL), PW_OK);
  bad[0].tau_e = 0.2;     /* less than light alone brings */
  bad[1].rho_v_out = 0.3; /* light alone reflects more than the sun in all */
  bad[2].rho_v_in = 0.3;
  bad[3].rho_e_out = 0.4; /* what is left reflects and passes more than falls on it */
  bad[4].rho_e_in = 0.4;
  bad[5].tau_v = (double)NAN;
  bad[3].rho_v_out = bad[4].rho_v_in = 0.0;
  for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
    assert_int_equal(pw_measured_from_bands(&bad[i], &grid, &m, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, "pane");
  }
}

static void glass_that_no_table_has(void **state)
{
  (void)state;
  static const struct {
    const char *table;
    double visible, infrared;
  } row[] = {{"no/such", 1.0, 1.0},
             {"glazing/gas", 1.0, 1.0}, /* a table, of another form */
             {"optics/spectral/nk_glass_clear", 0.0, 1.0},
             {"optics/spectral/nk_glass_clear", 1.0, (double)NAN}};
  double n[PW_LANE], kappa[PW_LANE];
  pw_err err;
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    assert_int_equal(
        pw_spectrum_glass(&grid, row[i].table, row[i].visible, row[i].infrared, n, kappa, &err),
        PW_E_DATA);
    assert_string_equal(err.field, "kind");
  }
}

static void a_glazing_that_does_not_settle_says_so(void **state)
{
  (void)state;
  pw_layers layers;
  pw_glazing g;
  pw_err err;
  pw_buildup b = {.n_pane = PW_PANES_MAX + 1};
  assert_int_equal(pw_layers_init(&b, NULL, 0, &layers, &err), PW_E_SHAPE);
  assert_string_equal(err.field, "n_pane");
  assert_int_equal(pw_buildup_parse("3mm clear / 12mm air / 3mm clear", &b, NULL), PW_OK);
  assert_int_equal(pw_glazing_build(&b, &g, NULL), PW_OK);
  pw_glazing bad = g;
  bad.unit.pane[0].thickness = 0.0;
  assert_int_equal(pw_glazing_sun(&bad, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "pane.thickness");
  assert_int_equal(pw_glazing_heat(&bad, &err), PW_E_DOMAIN);
  bad = g;
  bad.light.absorbed[0][3] = 1.5; /* more than falls on it */
  assert_int_equal(pw_glazing_sun(&bad, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "absorbed");
}

int main(void)
{
  pw_test_begin();
  pw_spectrum_init(&grid);
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_gas),
      cmocka_unit_test(a_unit_and_what_it_stands_between),
      cmocka_unit_test(what_is_not_given_is_the_default),
      cmocka_unit_test(far_infrared_wants_its_span),
      cmocka_unit_test(a_pane_by_thickness),
      cmocka_unit_test(a_measured_pane_that_cannot_be),
      cmocka_unit_test(bands_that_contradict),
      cmocka_unit_test(glass_that_no_table_has),
      cmocka_unit_test(a_glazing_that_does_not_settle_says_so),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
