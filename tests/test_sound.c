/* Sound of panes and units, and the single numbers. Every rating row and printed element stands in
 * `panewright check --group sound`; here are what that group cannot say: properties, refusals, and the
 * rules one at a time. */
#include "support.h"

#include <math.h>
#include <string.h>

#include "gen/reference.h"
#include "sound/single_number.h"
#include "sound/slit.h"
#include "window/glass_sound.h"

enum { SAFE = pw_ref_sound_unit_sets__safe, LABORATORY = pw_ref_sound_unit_sets__laboratory };

static pw_thirds level(double db)
{
  pw_thirds r;
  for (int i = 0; i < PW_THIRDS; i++)
    r.db[i] = db;
  return r;
}

static pw_leaf glass(double mm)
{
  pw_leaf leaf;
  assert_int_equal(pw_leaf_sheet(mm * 1e-3, pw_ref_sound_leaf__glass, &leaf, NULL), PW_OK);
  return leaf;
}

static pw_thirds unit(double mm1, double gap_mm, double mm2, size_t row)
{
  pw_leaf leaf[2] = {glass(mm1), glass(mm2)};
  double gap = gap_mm * 1e-3;
  pw_sound_set set = pw_sound_set_of(row);
  pw_thirds r;
  assert_int_equal(pw_sound_unit(leaf, &gap, 2, &set, &r, NULL), PW_OK);
  return r;
}

/* A curve 2 dB above the reference in every band: deviations of a further shift of 2 dB sum to 32.0, the
 * last that is allowed (ISO 717-1 4.4), so the rating is 52 + 2 + 2. One tenth lower anywhere: 53 + 2. */
static void the_last_tenth_of_32_counts(void **state)
{
  (void)state;
  pw_thirds r = level((double)NAN);
  pw_single_number n;
  for (int i = 3; i <= 18; i++)
    r.db[i] = pw_ref_sound_bands[i].rw_reference + 2.0;
  assert_int_equal(pw_single_number_of(&r, &n, NULL), PW_OK);
  pw_assert_near(n.rw, 56.0, 1e-9, "Rw", "ISO 717-1 4.4");
  pw_assert_near(n.rw_sum, 32.0, 1e-9, "sum", "ISO 717-1 4.4");
  r.db[9] -= 0.1;
  assert_int_equal(pw_single_number_of(&r, &n, NULL), PW_OK);
  pw_assert_near(n.rw, 55.0, 1e-9, "Rw, a tenth lower", "ISO 717-1 4.4");
  pw_assert_near(n.rw_tenths, 55.9, 1e-9, "the same in tenths", "ISO 717-1 annex on 0.1 dB");
}

/* Halves go up before anything is summed: 0.05 more in a band is a tenth more. */
static void bands_are_rounded_first(void **state)
{
  (void)state;
  pw_thirds r = level(30.0);
  pw_single_number n;
  r.db[18] = 30.05; /* below the reference there */
  assert_int_equal(pw_single_number_of(&r, &n, NULL), PW_OK);
  double whole = n.rw_sum;
  r.db[18] = 30.1;
  assert_int_equal(pw_single_number_of(&r, &n, NULL), PW_OK);
  pw_assert_near(n.rw_sum, whole, 1e-9, "sum of 30.05 and of 30.1", "ISO 717-1 4.1");
}

/* ASTM E413: a hole of 1 band is held by the 8 dB rule, not by the sum. */
static void one_hole_is_held_by_8_db(void **state)
{
  (void)state;
  pw_thirds r = level(60.0);
  double with = 0.0, without = 0.0, sum = 0.0;
  r.db[17] = 20.0; /* 2500 Hz: contour 4 above the class */
  with = pw_stc_plain(&r, 1, &sum);
  pw_assert_near(with, 20.0 + 8.0 - 4.0, 1e-9, "STC of a hole", "ASTM E413");
  without = pw_stc_plain(&r, 0, &sum);
  pw_assert_near(without, 20.0 + 32.0 - 4.0, 1e-9, "and without the rule", "ASTM E413");
}

static void a_missing_band_is_never_guessed(void **state)
{
  (void)state;
  pw_thirds r = level(30.0);
  pw_single_number n;
  r.db[2] = (double)NAN; /* 80 Hz */
  assert_int_equal(pw_single_number_of(&r, &n, NULL), PW_OK);
  assert_true(isnan(n.oitc));
  assert_true(isnan(n.c[PW_TERM_50_3150]) && isnan(n.ctr_tenths[PW_TERM_50_5000]));
  assert_true(isfinite(n.c[PW_TERM_100_5000]) && isfinite(n.rw) && isfinite(n.stc));
  r = level(30.0);
  r.db[18] = (double)NAN; /* 3150 Hz */
  assert_int_equal(pw_single_number_of(&r, &n, NULL), PW_OK);
  assert_true(isnan(n.rw) && isnan(n.c[0]) && isnan(n.stc) && isnan(n.oitc));
  assert_true(isnan(pw_rw_ctr(&r)));
}

/* Levels add: 5 dB more in every band is 5 dB more of everything, and terms stay. */
static void a_shift_shifts_the_numbers(void **state)
{
  (void)state;
  pw_thirds a = unit(3, 12, 5, SAFE), b = a;
  pw_single_number x, y;
  for (int i = 0; i < PW_THIRDS; i++) {
    a.db[i] = round(a.db[i]);
    b.db[i] = a.db[i] + 5.0;
  }
  assert_int_equal(pw_single_number_of(&a, &x, NULL), PW_OK);
  assert_int_equal(pw_single_number_of(&b, &y, NULL), PW_OK);
  pw_assert_near(y.rw - x.rw, 5.0, 1e-9, "Rw", "shift");
  pw_assert_near(y.stc - x.stc, 5.0, 1e-9, "STC", "shift");
  pw_assert_near(y.oitc - x.oitc, 5.0, 1e-9, "OITC", "shift");
  for (int k = 0; k < PW_TERM_RANGES; k++)
    pw_assert_near(y.ctr[k], x.ctr[k], 1e-9, "Ctr", "shift");
  pw_assert_near(pw_rw_ctr(&b) - pw_rw_ctr(&a), 5.0, 1e-9, "Rw + Ctr", "shift");
}

/* A spectrum of equal R passes its noise as a whole: the source sums to 0 dB (ISO 717-1 table 4). */
static void spectra_sum_to_nothing(void **state)
{
  (void)state;
  pw_thirds r = level(30.0);
  pw_assert_near(pw_reduction_a(&r, 0), 30.0, 0.06, "X_A1 of a flat 30", "ISO 717-1 table 4");
  pw_assert_near(pw_reduction_a(&r, 1), 30.0, 0.06, "X_A2 of a flat 30", "ISO 717-1 table 4");
}

/* Mass law of a thin leaf far below coincidence: doubling the mass or the frequency gives 6 dB. */
static void mass_law_holds_below_coincidence(void **state)
{
  (void)state;
  pw_sound_set set = pw_sound_set_of(SAFE);
  pw_leaf thin = {10.0, 50000.0, 0.01}, thick = {20.0, 50000.0, 0.01};
  pw_thirds a, b;
  assert_int_equal(pw_sound_unit(&thin, NULL, 1, &set, &a, NULL), PW_OK);
  assert_int_equal(pw_sound_unit(&thick, NULL, 1, &set, &b, NULL), PW_OK);
  pw_assert_near(b.db[10] - a.db[10], 6.02, 0.25, "twice the mass, 500 Hz", "mass law");
  pw_assert_near(a.db[13] - a.db[10], 6.02, 0.25, "an octave above 500 Hz", "mass law");
  /* Field incidence, normal mass law less about 5 dB (Sharp; Bies, Hansen, Howard 5e). */
  double x = 3.14159265 * 500.0 * 10.0 / (PW_SOUND_RHO * PW_SOUND_C);
  pw_assert_near(a.db[10], 10.0 * log10(1.0 + x * x) - 5.0, 0.8, "10 kg/m2 at 500 Hz",
                 "field incidence mass law");
}

/* Measured 6 mm pane, Hopkins, Sound Insulation (2007) fig. 4.8, read off a plot (reading 0.5 dB). */
static void a_measured_pane(void **state)
{
  (void)state;
  static const struct {
    double hz, r;
  } row[] = {{250, 25.0}, {500, 28.5}, {1000, 33.0}};
  pw_leaf leaf = glass(6);
  pw_sound_set set = pw_sound_set_of(SAFE);
  pw_thirds r;
  assert_int_equal(pw_sound_unit(&leaf, NULL, 1, &set, &r, NULL), PW_OK);
  for (size_t i = 0; i < 3; i++)
    pw_assert_near(r.db[pw_third_of(row[i].hz)], row[i].r, 2.0, "6 mm glass",
                   "Hopkins fig. 4.8, read");
}

/* Outdoors and indoors may be swapped, and a gap that closes gives the panes' mass together. */
static void a_unit_may_be_turned(void **state)
{
  (void)state;
  for (size_t set = 0; set < 3; set++) {
    pw_thirds a = unit(3, 12, 6, set), b = unit(6, 12, 3, set);
    for (int i = 0; i < PW_THIRDS; i++)
      pw_assert_near(a.db[i], b.db[i], 1e-6, "turned", "reciprocity");
  }
  pw_leaf both = {15.0, 1e5, 0.0}, pane[2] = {glass(3), glass(3)};
  pw_sound_set tight = pw_sound_set_of(SAFE);
  tight.k_db = 80.0; /* no spacer path */
  double gap = 1e-3;
  pw_thirds narrow, one;
  assert_int_equal(pw_sound_unit(pane, &gap, 2, &tight, &narrow, NULL), PW_OK);
  assert_int_equal(pw_sound_unit(&both, NULL, 1, NULL, &one, NULL), PW_OK);
  pw_assert_near(narrow.db[3], one.db[3], 0.35, "3-1-3 at 100 Hz", "mass law of both");
}

/* The dip of a unit lies at its resonance, that of a pane at coincidence. */
static void dips_lie_where_they_must(void **state)
{
  (void)state;
  pw_thirds r = unit(4, 12, 4, SAFE);
  int low = 3; /* the first band whose neighbours both lie higher */
  while (low < 13 && !(r.db[low] < r.db[low - 1] && r.db[low] < r.db[low + 1]))
    low++;
  pw_assert_near(low, pw_third_of(315), 1.0, "band of the resonance of 4-12-4",
                 "245 Hz, oblique");
  pw_leaf six = glass(6);
  assert_int_equal(pw_sound_unit(&six, NULL, 1, NULL, &r, NULL), PW_OK);
  int dip = 12;
  for (int i = 12; i < 20; i++)
    if (r.db[i] < r.db[dip]) dip = i;
  pw_assert_near(dip, pw_third_of(2000), 1.0, "band of coincidence of 6 mm", "1988 Hz");
}

/* 3 mm single to a sealed 3-12-3: 0 to +3 dB in Rw by the glass alone, in every set (reference). */
static void plain_double_glass_gains_little(void **state)
{
  (void)state;
  for (size_t row = 0; row < 3; row++) {
    pw_leaf leaf = glass(3);
    pw_sound_set set = pw_sound_set_of(row);
    pw_thirds old, new = unit(3, 12, 3, row);
    pw_single_number a, b;
    assert_int_equal(pw_sound_unit(&leaf, NULL, 1, &set, &old, NULL), PW_OK);
    assert_int_equal(pw_single_number_of(&old, &a, NULL), PW_OK);
    assert_int_equal(pw_single_number_of(&new, &b, NULL), PW_OK);
    assert_in_range((int)(b.rw - a.rw + 10.0), 9, 13);
  }
}

/* More damping in the interlayer, more mass: never less. Unequal panes beat equal ones of that mass. */
static void what_helps_helps(void **state)
{
  (void)state;
  const double ply[2] = {3e-3, 3e-3};
  pw_leaf standard, acoustic;
  assert_int_equal(
      pw_leaf_laminate(ply, 0.76e-3, pw_ref_sound_interlayer__standard, 0.5, &standard, NULL),
      PW_OK);
  assert_int_equal(
      pw_leaf_laminate(ply, 0.76e-3, pw_ref_sound_interlayer__acoustic, 0.5, &acoustic, NULL),
      PW_OK);
  pw_assert_near(standard.mass, 2500.0 * 6e-3 + 1070.0 * 0.76e-3, 1e-9, "mass", "plies");
  assert_true(acoustic.eta > standard.eta && acoustic.fc > standard.fc);
  pw_leaf soft_end, stiff_end; /* a softer interlayer damps more and bends more easily */
  assert_int_equal(pw_leaf_laminate(ply, 0.76e-3, 0, 0.0, &soft_end, NULL), PW_OK);
  assert_int_equal(pw_leaf_laminate(ply, 0.76e-3, 0, 1.0, &stiff_end, NULL), PW_OK);
  assert_true(soft_end.eta > stiff_end.eta && soft_end.fc > stiff_end.fc);
  assert_true(standard.fc >= glass(6).fc && acoustic.fc <= glass(3).fc * 1.05);
  pw_thirds plain, lam, soft, equal = unit(4, 12, 4, SAFE), unlike = unit(3, 12, 5, SAFE);
  pw_leaf six = glass(6);
  assert_int_equal(pw_sound_unit(&six, NULL, 1, NULL, &plain, NULL), PW_OK);
  assert_int_equal(pw_sound_unit(&standard, NULL, 1, NULL, &lam, NULL), PW_OK);
  assert_int_equal(pw_sound_unit(&acoustic, NULL, 1, NULL, &soft, NULL), PW_OK);
  assert_true(pw_rw_ctr(&lam) > pw_rw_ctr(&plain));
  assert_true(pw_rw_ctr(&soft) > pw_rw_ctr(&lam));
  assert_true(pw_rw_ctr(&unlike) >= pw_rw_ctr(&equal));
}

/* The build-up's panes as leaves: rows of panes.csv, doubts told. */
static void a_build_up_becomes_leaves(void **state)
{
  (void)state;
  pw_buildup b = {.n_pane = 3,
                  .pane = {{.thickness = 3e-3, .kind = "clear"},
                           {.thickness = 6.8e-3, .kind = "acoustic"},
                           {.thickness = 6e-3, .kind = "acrylic"}}};
  b.gap[0].thickness = 0.012;
  b.gap[1].thickness = 0.05;
  b.gap[0].mix.share[PW_ARGON] = 1.0;
  pw_leaf leaf[PW_LEAVES_MAX];
  double gap[PW_LEAVES_MAX - 1];
  unsigned notes = 0;
  assert_int_equal(pw_glass_leaves(&b, 0.5, leaf, gap, &notes, NULL), PW_OK);
  assert_int_equal(notes, PW_SOUND_LAMINATE | PW_SOUND_TRIPLE | PW_SOUND_WIDE | PW_SOUND_GAS |
                              PW_SOUND_PLASTIC);
  pw_assert_near(leaf[0].mass, 7.5, 1e-9, "3 mm glass", "2500 kg/m3");
  pw_assert_near(leaf[2].mass, 7.14, 1e-9, "6 mm acrylic", "1190 kg/m3");
  memcpy(b.pane[1].kind, "laminated", sizeof "laminated");
  b.pane[1].thickness = 7.4e-3;
  pw_err err = {0};
  assert_int_equal(pw_glass_leaves(&b, 0.5, leaf, gap, &notes, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "thickness");
}

/* A slit passes all below its resonance but for its ends: at low K and short depth tau goes to that of
 * a thin slit, above 1; the resonance lies at depth + 2 e w = half a wave (Gomperts). */
static void slits_resonate(void **state)
{
  (void)state;
  pw_slit s = {0.001, 0.05, 0, 0, 0};
  double best = 0.0, at = 0.0;
  for (double f = 1500.0; f < 4000.0; f += 2.0)
    if (pw_slit_tau(&s, f, 343.0) > best) {
      best = pw_slit_tau(&s, f, 343.0);
      at = f;
    }
  double k = 2.0 * 3.14159265 * at / 343.0,
         e = (log(8.0 / (k * s.width)) - 0.57722) / 3.14159265;
  pw_assert_near(s.depth + 2.0 * e * s.width, 343.0 / at / 2.0, 2e-4, "half a wave",
                 "Gomperts");
  assert_true(best > 1.0);
  pw_slit middle = {0.001, 0.05, 1, 0, 0};
  assert_true(pw_slit_tau(&middle, 500.0, 343.0) < pw_slit_tau(&s, 500.0, 343.0));
}

static void bad_values_are_refused(void **state)
{
  (void)state;
  pw_err err = {0};
  pw_leaf leaf = {7.5, 4000.0, 0.0}, pair[2] = {leaf, leaf};
  pw_thirds r = level(1.0), kept = r, none = level((double)NAN), wild = level(300.0);
  pw_single_number n;
  double gap = 0.0005;
  assert_int_equal(pw_sound_unit(&leaf, NULL, 0, NULL, &r, &err), PW_E_SHAPE);
  assert_int_equal(pw_sound_unit(pair, &gap, 2, NULL, &r, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "gap");
  gap = (double)NAN;
  assert_int_equal(pw_sound_unit(pair, &gap, 2, NULL, &r, &err), PW_E_DOMAIN);
  leaf.eta = (double)NAN;
  assert_int_equal(pw_sound_unit(&leaf, NULL, 1, NULL, &r, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "leaf");
  assert_memory_equal(&r, &kept, sizeof r);
  assert_int_equal(pw_single_number_of(&none, &n, &err), PW_E_DOMAIN);
  assert_int_equal(pw_single_number_of(&wild, &n, &err), PW_E_DOMAIN);
  assert_int_equal(pw_leaf_sheet(0.06, 0, &leaf, &err), PW_E_DOMAIN);
  assert_int_equal(pw_leaf_sheet(0.003, 99, &leaf, &err), PW_E_DOMAIN);
  const double thin[2] = {3e-3, 0.0};
  assert_int_equal(pw_leaf_laminate(thin, 0.76e-3, 0, 0.5, &leaf, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "ply");
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_last_tenth_of_32_counts),
      cmocka_unit_test(bands_are_rounded_first),
      cmocka_unit_test(one_hole_is_held_by_8_db),
      cmocka_unit_test(a_missing_band_is_never_guessed),
      cmocka_unit_test(a_shift_shifts_the_numbers),
      cmocka_unit_test(spectra_sum_to_nothing),
      cmocka_unit_test(mass_law_holds_below_coincidence),
      cmocka_unit_test(a_measured_pane),
      cmocka_unit_test(a_unit_may_be_turned),
      cmocka_unit_test(dips_lie_where_they_must),
      cmocka_unit_test(plain_double_glass_gains_little),
      cmocka_unit_test(what_helps_helps),
      cmocka_unit_test(a_build_up_becomes_leaves),
      cmocka_unit_test(slits_resonate),
      cmocka_unit_test(bad_values_are_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
