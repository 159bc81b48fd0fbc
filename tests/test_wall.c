/* Layered walls against closed forms: steady state, step response of a slab, daily admittance of
 * multilayer walls by transmission matrices; energy; refusals. */
#include "support.h"

#include <complex.h>
#include <math.h>
#include <string.h>

#include "house/wall.h"
#include "panewright/units.h"

static const pw_wall_layers light_wall = {
    3, {{0.009, 0.14, 530, 900, 0}, {0.066, 0.04, 12, 840, 0}, {0.012, 0.16, 950, 840, 0}}};
static const pw_wall_layers heavy_wall = {
    3, {{0.009, 0.14, 530, 900, 0}, {0.0615, 0.04, 10, 1400, 0}, {0.1, 0.51, 1400, 1000, 0}}};
static const pw_wall_layers heavy_floor = {
    2, {{1.007, 0.04, 0, 0, 0}, {0.08, 1.13, 1400, 1000, 0}}};
static const pw_wall_layers light_floor = {
    2, {{1.003, 0.04, 0, 0, 0}, {0.025, 0.14, 650, 1200, 0}}};
static const pw_wall_layers concrete = {1, {{0.2, 1.7, 2400, 900, 0}}};

static void steady_flow_is_u_times_difference(void **state)
{
  (void)state;
  const pw_wall_layers *wall[] = {&light_wall, &heavy_wall, &heavy_floor, &concrete};
  for (size_t i = 0; i < 4; i++) {
    pw_wall w;
    double z[PW_MODES_MAX], t[2] = {263.15, 293.15}, flux[2];
    assert_int_equal(pw_wall_init(wall[i], 1800.0, &w, NULL), PW_OK);
    pw_wall_steady(&w, t, z);
    pw_wall_recall(&w, z, t, flux);
    double r = 0.0;
    for (size_t k = 0; k < wall[i]->n_layer; k++)
      r += wall[i]->layer[k].thickness / wall[i]->layer[k].conductivity;
    double in = flux[1] + w.direct[1][0] * t[0] + w.direct[1][1] * t[1];
    double out = flux[0] + w.direct[0][0] * t[0] + w.direct[0][1] * t[1];
    pw_assert_near(in, 30.0 / r, 1e-8, "steady flow in", "dT / R");
    pw_assert_near(out, -30.0 / r, 1e-8, "steady flow out", "dT / R");
    pw_assert_near(w.u, 1.0 / r, 1e-12, "u", "1 / R");
  }
}

/* Layers that store nothing: no memory, each face takes what the other gives; u of 0.2 and 0.3 m2 K/W is 2. */
static void a_wall_without_mass_is_a_resistance(void **state)
{
  (void)state;
  const pw_wall_layers two = {2, {{.resistance = 0.2}, {.resistance = 0.3}}};
  pw_wall w;
  double z[PW_MODES_MAX] = {0}, t[2] = {10.0, 20.0}, flux[2];
  assert_int_equal(pw_wall_init(&two, 3600.0, &w, NULL), PW_OK);
  pw_assert_near(w.u, 2.0, 1e-12, "u", "by hand");
  pw_wall_recall(&w, z, t, flux);
  assert_true(flux[0] == 0.0 && flux[1] == 0.0);
  pw_assert_near(w.direct[1][0] * t[0] + w.direct[1][1] * t[1], 20.0, 1e-12, "in", "2 x 10 K");
  pw_assert_near(w.direct[0][0] * t[0] + w.direct[0][1] * t[1], -20.0, 1e-12, "out",
                 "2 x 10 K");
}

/* A slab at 0, both faces put to 1 K at time 0: flux into one face (Carslaw & Jaeger 1959, 3.3)
 *   q = (4 k / L) sum over odd n of exp(-n2 pi2 a t / L2) */
static void slab_takes_a_step_as_the_series_says(void **state)
{
  (void)state;
  const pw_wall_layer *l = &concrete.layer[0];
  double a = l->conductivity / (l->density * l->heat), step = 1800.0;
  pw_wall w;
  double z[PW_MODES_MAX] = {0}, before[2] = {0, 0}, now[2] = {1, 1}, flux[2], heat = 0.0;
  assert_int_equal(pw_wall_init(&concrete, step, &w, NULL), PW_OK);
  for (int k = 1; k <= 48; k++) {
    /* the first step runs from 0 to 1 K about its mean of 1 K; so take the state as the closed form
       of a jump would: the face was at 1 K already */
    pw_wall_recall(&w, z, now, flux);
    double q = flux[0] + w.direct[0][0] + w.direct[0][1];
    pw_wall_step(&w, now, now, z);
    heat += 2.0 * q * step;
    if (k < 4) continue;
    double mean = 0.0;
    for (int n = 1; n < 200; n += 2) {
      double r = n * n * PW_PI * PW_PI * a / (l->thickness * l->thickness);
      mean += 4.0 * l->conductivity / l->thickness / (r * step) *
              (exp(-r * step * (k - 1)) - exp(-r * step * k));
    }
    pw_assert_near(q, mean, 0.025 * mean + 1e-3, "flux after a step", "series, slab");
  }
  pw_assert_near(heat, pw_wall_content(&w, z), 1e-6, "heat taken up", "sum of the flux");
  (void)before;
}

/* Self and cross admittance of a wall at angular frequency w by transmission matrices. Source:
 * ISO 13786 clause 6 (method; clause from memory). */
static void transmission(const pw_wall_layers *l, double w, double complex m[2][2])
{
  m[0][0] = m[1][1] = 1.0;
  m[0][1] = m[1][0] = 0.0;
  for (size_t i = 0; i < l->n_layer; i++) {
    const pw_wall_layer *x = &l->layer[i];
    double complex a[2][2];
    if (x->density * x->heat > 0.0) {
      double complex p = csqrt(I * w * x->density * x->heat / x->conductivity);
      a[0][0] = a[1][1] = ccosh(p * x->thickness);
      a[0][1] = -csinh(p * x->thickness) / (p * x->conductivity);
      a[1][0] = -csinh(p * x->thickness) * p * x->conductivity;
    } else {
      a[0][0] = a[1][1] = 1.0;
      a[0][1] = -x->thickness / x->conductivity;
      a[1][0] = 0.0;
    }
    double complex r[2][2];
    for (int j = 0; j < 2; j++)
      for (int k = 0; k < 2; k++)
        r[j][k] = a[j][0] * m[0][k] + a[j][1] * m[1][k];
    memcpy(m, r, sizeof r);
  }
}

/* Flux into both sides when the inner face swings by 1 K a period and the outer is held. */
static void swing(const pw_wall *w, double period, double complex out[2])
{
  int n = (int)(period / w->step), rounds = 40;
  double z[PW_MODES_MAX] = {0}, before[2] = {0, 0}, flux[2];
  out[0] = out[1] = 0.0;
  for (int i = 0; i < n * rounds; i++) {
    /* the mean of the swing over the step */
    double x = 2.0 * PW_PI / n, now[2] = {0.0, (sin(x * (i + 1)) - sin(x * i)) / x};
    pw_wall_recall(w, z, before, flux);
    for (int j = 0; j < 2; j++)
      flux[j] += w->direct[j][1] * now[1];
    pw_wall_step(w, before, now, z);
    memcpy(before, now, sizeof now);
    if (i >= n * (rounds - 1))
      for (int j = 0; j < 2; j++)
        out[j] += 2.0 / n * flux[j] * cexp(-I * x * (i + 0.5));
  }
  double lull =
      sin(PW_PI / n) / (PW_PI / n); /* a mean over a step is that much less than its peak */
  out[0] /= lull;
  out[1] /= lull;
}

static void daily_admittance_meets_the_matrices(void **state)
{
  (void)state;
  static const struct {
    const char *name;
    const pw_wall_layers *layers;
  } row[] = {{"light wall", &light_wall},
             {"heavy wall", &heavy_wall},
             {"light floor", &light_floor},
             {"heavy floor", &heavy_floor},
             {"concrete", &concrete}};
  static const double hours[] = {24.0, 12.0};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    for (int k = 0; k < 2; k++) {
      double complex m[2][2], ours[2];
      pw_wall w;
      transmission(row[i].layers, 2.0 * PW_PI / (hours[k] * 3600.0), m);
      /* t_in = a t_out + b q_out with t_out = 0; q out of the inner face is d q_out */
      double complex through = 1.0 / m[0][1], self = -m[1][1] / m[0][1];
      assert_int_equal(pw_wall_init(row[i].layers, 1800.0, &w, NULL), PW_OK);
      swing(&w, hours[k] * 3600.0, ours);
      print_message("%s %g h: admittance %.4f, closed form %.4f; phase %.2f, %.2f deg\n",
                    row[i].name, hours[k], cabs(ours[1]), cabs(self),
                    carg(ours[1]) * 180.0 / PW_PI, carg(self) * 180.0 / PW_PI);
      pw_assert_near(cabs(ours[1] - self), 0.0, 0.015 * cabs(self), row[i].name,
                     "transmission matrices: admittance");
      pw_assert_near(cabs(ours[0] - through), 0.0, 0.015 * cabs(self), row[i].name,
                     "transmission matrices: through");
    }
}

/* What flows in and does not flow out is stored, at any step and any course of the faces. */
static void what_stays_is_stored(void **state)
{
  (void)state;
  const pw_wall_layers *wall[] = {&light_wall, &heavy_wall, &light_floor, &concrete};
  for (size_t i = 0; i < 4; i++)
    for (double step = 300.0; step < 8000.0; step *= 2.0) {
      pw_wall w;
      double z[PW_MODES_MAX], before[2] = {280.0, 290.0}, flux[2], heat = 0.0;
      assert_int_equal(pw_wall_init(wall[i], step, &w, NULL), PW_OK);
      pw_wall_steady(&w, before, z);
      double first = pw_wall_content(&w, z);
      for (int k = 0; k < 500; k++) {
        double now[2] = {280.0 + 15.0 * sin(0.3 * k), 290.0 + (k % 7 < 3 ? 6.0 : -2.0)};
        pw_wall_recall(&w, z, before, flux);
        for (int j = 0; j < 2; j++)
          heat += step * (flux[j] + w.direct[j][0] * now[0] + w.direct[j][1] * now[1]);
        pw_wall_step(&w, before, now, z);
        memcpy(before, now, sizeof now);
      }
      pw_assert_near(pw_wall_content(&w, z) - first, heat, 1e-8 * first, "heat stored",
                     "conservation of energy");
    }
}

static void refuses_layers_that_cannot_be(void **state)
{
  (void)state;
  pw_err err = {0};
  pw_wall w;
  pw_wall_layers l = light_wall;
  l.layer[1].conductivity = NAN;
  assert_int_equal(pw_wall_init(&l, 3600.0, &w, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "conductivity");
  l = light_wall;
  l.layer[0].thickness = -0.1;
  assert_int_equal(pw_wall_init(&l, 3600.0, &w, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "thickness");
  l = light_wall;
  l.layer[0].thickness = 0.0;
  assert_int_equal(pw_wall_init(&l, 3600.0, &w, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "resistance");
  l.n_layer = 0;
  assert_int_equal(pw_wall_init(&l, 3600.0, &w, &err), PW_E_SHAPE);
  assert_int_equal(pw_wall_init(&light_wall, 0.0, &w, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "step");
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {cmocka_unit_test(steady_flow_is_u_times_difference),
                                     cmocka_unit_test(a_wall_without_mass_is_a_resistance),
                                     cmocka_unit_test(slab_takes_a_step_as_the_series_says),
                                     cmocka_unit_test(daily_admittance_meets_the_matrices),
                                     cmocka_unit_test(what_stays_is_stored),
                                     cmocka_unit_test(refuses_layers_that_cannot_be)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
