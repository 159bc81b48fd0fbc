/* sound/leaf: plates and laminates by hand, and the radiation of a plate by ISO 12354-1:2017 annex B (from memory), worked out apart from
 * the program from its printed formulas. Published cases of whole leaves: check group sound. */
#include "support.h"

#include <math.h>

#include "gen/reference.h"
#include "sound/leaf.h"

/* B.3: f11 = c^2 / (4 fc) (1/l1^2 + 1/l2^2). Up to fc / 2 free waves radiate by 1 / sqrt(1 - fc/f) above fc, below it by the edges and corners
 * (delta 1, delta 2, the corners only up to fc / 2), and under f11 at most by 4 l1 l2 (f/c)^2; a plate whose f11 lies above fc / 2 by
 * sqrt(2 pi f (l1 + l2) / (16 c)) where neither other is less. Never above 2. */
static void radiation_by_every_branch(void **state)
{
  (void)state;
  static const struct {
    double f, fc, l1, l2, want;
  } row[] = {{100, 3000, 1.5, 1.25, 0.00943176}, /* f11 10.6 */
             {1400, 3000, 1.5, 1.25, 0.0493015}, {1600, 3000, 1.5, 1.25, 0.0620365},
             {2900, 3000, 1.5, 1.25, 2.0},       {3000, 3000, 1.5, 1.25, 2.0},
             {3150, 3000, 1.5, 1.25, 2.0},       {6300, 3000, 1.5, 1.25, 1.381699},
             {20, 800, 0.6, 0.9, 0.007343879}, /* f11 147.5: under it 4 l1 l2 (f/c)^2 */
             {145, 800, 0.6, 0.9, 0.1762473},    {200, 800, 0.6, 0.9, 0.2017149},
             {399, 800, 0.6, 0.9, 0.3901996},    {401, 800, 0.6, 0.9, 0.3934526},
             {100, 545, 1.0, 0.5, 0.1699972}, /* f11 269.8, just under fc / 2 */
             {260, 545, 1.0, 0.5, 0.5800579},    {300, 545, 1.0, 0.5, 0.7433109},
             {300, 540, 1.0, 0.5, 0.7177763}, /* 272.3, just above */
             {300, 540, 0.5, 1.0, 0.7177763},    {200, 250, 0.8, 0.5, 0.543991}, /* 654 */
             {50, 250, 0.8, 0.5, 0.0339994},     {260, 250, 0.8, 0.5, 0.622073},
             {1000, 250, 0.8, 0.5, 1.1547005},   {4000, 250, 0.8, 0.5, 1.0327956}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    pw_assert_near(pw_leaf_sigma(row[i].f, row[i].fc, row[i].l1, row[i].l2, 343.0), row[i].want,
                   2e-6 * row[i].want + 1e-9, "sigma", "ISO 12354-1 B.3");
  pw_assert_near(pw_leaf_sigma(100, 3000, 1.5, 1.25, 340.0), 0.009323458, 1e-8, "colder air",
                 "ISO 12354-1 B.3");
}

/* B.2, either side first, and the most. */
static void forced_waves(void **state)
{
  (void)state;
  static const struct {
    double f, l1, l2, want;
  } row[] = {{100, 1.5, 1.25, 0.5468},
             {100, 1.25, 1.5, 0.5468},
             {500, 1.25, 1.5, 1.34545},
             {2000, 2.0, 0.5, 1.78135},
             {20000, 3.0, 3.0, 2.0}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    pw_assert_near(pw_leaf_sigma_forced(row[i].f, row[i].l1, row[i].l2, 343.0), row[i].want,
                   1e-5, "forced", "ISO 12354-1 B.2");
}

static pw_leaf laminate(double a, double b, size_t kind, double at)
{
  pw_leaf l;
  assert_int_equal(pw_leaf_laminate((const double[]){a, b}, 0.76e-3, kind, at, &l, NULL),
                   PW_OK);
  return l;
}

/* Glass as fc t = 11.9 m Hz (leaf.csv, its source). A laminate of two plies t weighs 2500 2 t and 1070 of interlayer; bends between its plies
 * lying loose (a quarter of the solid pane of 2 t) and the solid one, and fc goes with the root of mass over stiffness. */
static void plates_and_laminates(void **state)
{
  (void)state;
  pw_leaf four, six;
  assert_int_equal(pw_leaf_sheet(4e-3, pw_ref_sound_leaf__glass, &four, NULL), PW_OK);
  assert_int_equal(pw_leaf_sheet(6e-3, pw_ref_sound_leaf__glass, &six, NULL), PW_OK);
  pw_assert_near(four.fc, 11.9 / 4e-3, 10.0, "fc of 4 mm", "leaf.csv");
  pw_assert_near(four.mass, 10.0, 1e-12, "mass", "2500 kg/m3");
  pw_assert_near(six.fc / four.fc, 4.0 / 6.0, 1e-9, "fc t", "constant");
  const double heavier = sqrt((15.0 + 1070.0 * 0.76e-3) / 15.0);
  static const struct {
    double at, standard, acoustic; /* stiffness, share of the solid pane's */
    double eta_standard, eta_acoustic;
  } row[] = {{0.0, 0.5, 0.25, 0.2, 0.5},
             {1.0, 1.0, 0.8, 0.05, 0.2},
             {0.5, 0.7071068, 0.4472136, 0.1, 0.3162278}}; /* geometric middle */
  for (size_t i = 0; i < 3; i++)
    for (size_t k = 0; k < 2; k++) {
      const pw_leaf l = laminate(3e-3, 3e-3, k, row[i].at);
      double share = k ? row[i].acoustic : row[i].standard;
      pw_assert_near(l.mass, 15.8132, 1e-9, "mass", "by hand");
      pw_assert_near(l.fc, six.fc * heavier / sqrt(share), 1e-4 * l.fc, "fc", "by hand");
      pw_assert_near(l.eta, k ? row[i].eta_acoustic : row[i].eta_standard, 1e-6, "loss",
                     "interlayer.csv");
    }
  /* 2 and 4 mm: loose they have (8 + 64) / 216 of the solid, a third, and the soft end is no looser */
  pw_assert_near(laminate(2e-3, 4e-3, 1, 0.0).fc, six.fc * heavier * sqrt(3.0), 1.0, "fc",
                 "plies lying loose");
}

static void what_is_no_leaf_is_refused(void **state)
{
  (void)state;
  pw_leaf l;
  pw_err err = {0};
  static const double sheet[] = {0.49e-3, 50.1e-3}, ply[] = {0.49e-3, 25.1e-3},
                      film[] = {0.09e-3, 10.1e-3};
  for (int i = 0; i < 2; i++) {
    assert_int_equal(pw_leaf_sheet(sheet[i], 0, &l, &err), PW_E_DOMAIN);
    for (int k = 0; k < 2; k++) {
      double two[2] = {3e-3, 3e-3};
      two[k] = ply[i];
      assert_int_equal(pw_leaf_laminate(two, 0.76e-3, 0, 0.5, &l, &err), PW_E_DOMAIN);
    }
    assert_int_equal(pw_leaf_laminate((const double[]){3e-3, 3e-3}, film[i], 0, 0.5, &l, &err),
                     PW_E_DOMAIN);
    assert_int_equal(
        pw_leaf_laminate((const double[]){3e-3, 3e-3}, 0.76e-3, 0, i ? 1.01 : -0.01, &l, &err),
        PW_E_DOMAIN);
  }
  assert_int_equal(pw_leaf_sheet(3e-3, pw_ref_sound_leaf__n, &l, &err), PW_E_DOMAIN);
  assert_int_equal(pw_leaf_laminate((const double[]){3e-3, 3e-3}, 0.76e-3,
                                    pw_ref_sound_interlayer__n, 0.5, &l, &err),
                   PW_E_DOMAIN);
  assert_int_equal(pw_leaf_sheet(0.5e-3, 0, &l, &err), PW_OK);
  assert_int_equal(pw_leaf_sheet(50e-3, 0, &l, &err), PW_OK);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(radiation_by_every_branch),
      cmocka_unit_test(forced_waves),
      cmocka_unit_test(plates_and_laminates),
      cmocka_unit_test(what_is_no_leaf_is_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
