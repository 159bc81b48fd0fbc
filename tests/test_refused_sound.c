/* What src/sound refuses, field by field, with the bounds themselves taken; and its seldom branches, by hand beside each. */
#include "support.h"

#include <math.h>
#include <string.h>

#include "gen/reference.h"
#include "sound/single_number.h"
#include "sound/slit.h"
#include "sound/sound_unit.h"

static int finite_bands(const pw_thirds *r)
{
  for (int i = 0; i < PW_THIRDS; i++)
    if (!isfinite(r->db[i])) return 0;
  return 1;
}

/* ---------------------------------------------------------------- leaves */

typedef struct sheet {
  double thickness;
} sheet;

static pw_status leaf_sheet(const void *in, pw_err *err)
{
  pw_leaf leaf;
  pw_status s = pw_leaf_sheet(((const sheet *)in)->thickness, 0, &leaf, err);
  if (s == PW_OK) assert_true(isfinite(leaf.mass + leaf.fc + leaf.eta));
  return s;
}

typedef struct laminate {
  double ply[2], interlayer, at;
} laminate;

static pw_status leaf_laminate(const void *in, pw_err *err)
{
  const laminate *l = in;
  pw_leaf leaf;
  pw_status s = pw_leaf_laminate(l->ply, l->interlayer, 0, l->at, &leaf, err);
  if (s == PW_OK) assert_true(isfinite(leaf.mass + leaf.fc + leaf.eta));
  return s;
}

static void sheets_and_laminates(void **state)
{
  (void)state;
  const sheet pane = {4e-3};
  const pw_span thickness = {"thickness", offsetof(sheet, thickness), "d", 0.5e-3, 50e-3};
  pw_assert_spans(&pane, sizeof pane, &thickness, 1, leaf_sheet);
  const laminate good = {{3e-3, 3e-3}, 0.76e-3, 0.5};
  const pw_span span[] = {{"ply", offsetof(laminate, ply[0]), "d", 0.5e-3, 25e-3},
                          {"ply", offsetof(laminate, ply[1]), "d", 0.5e-3, 25e-3},
                          {"interlayer", offsetof(laminate, interlayer), "d", 0.1e-3, 10e-3},
                          {"interlayer", offsetof(laminate, at), "d", 0.0, 1.0}};
  pw_assert_spans(&good, sizeof good, span, sizeof span / sizeof span[0], leaf_laminate);
  pw_leaf leaf;
  pw_err err;
  assert_int_equal(pw_leaf_laminate(good.ply, good.interlayer,
                                    (size_t)pw_ref_sound_interlayer__n, 0.5, &leaf, &err),
                   PW_E_DOMAIN);
  assert_string_equal(err.field, "interlayer");
}

typedef struct annex_b {
  pw_leaf leaf;
  pw_leaf_annex_b in;
  double eta[PW_THIRDS];
} annex_b;

static pw_status leaf_iso_12354(const void *in, pw_err *err)
{
  const annex_b *b = in;
  pw_thirds r;
  pw_status s = pw_leaf_iso_12354(&b->leaf, b->eta, &b->in, &r, err);
  if (s == PW_OK) assert_true(finite_bands(&r));
  return s;
}

static void a_leaf_by_annex_b(void **state)
{
  (void)state;
  annex_b good = {{10.0, 3000.0, 0.01}, {1.25, 1.5, 1.21, 340.0}, {0.0}};
  for (int i = 0; i < PW_THIRDS; i++)
    good.eta[i] = 0.05;
  const pw_span span[] = {{"leaf", offsetof(annex_b, in.l1), "(d", 0.0, 100.0},
                          {"leaf", offsetof(annex_b, in.l2), "(d", 0.0, 100.0},
                          {"leaf", offsetof(annex_b, in.rho), "(d", 0.0, 100.0},
                          {"leaf", offsetof(annex_b, in.c), "(d", 0.0, 1e4},
                          {"leaf", offsetof(annex_b, leaf.mass), "(d", 0.0, 1000.0},
                          {"leaf", offsetof(annex_b, leaf.fc), "(d", 0.0, 1e6},
                          {"eta", offsetof(annex_b, eta[7]), "(d", 0.0, 10.0}};
  pw_assert_spans(&good, sizeof good, span, sizeof span / sizeof span[0], leaf_iso_12354);
}

/* ISO 12354-1 annex B, c 343 m/s, fc 3000 Hz. A pane 0.2 m square: f11 = c^2/(4 fc) 2/0.2^2 = 490 Hz is below fc/2; at 200 Hz the
 * factor is no more than 4 * 0.2^2 (200/343)^2 = 0.0544 (B.3 alone 0.158). A pane 0.05 m square: f11 = 7843 Hz, above fc/2;
 * at 500 Hz it is 4 * 0.05^2 (500/343)^2 = 0.02125, below sqrt(2 pi f (l1 + l2)/(16 c)) = 0.239. */
static void small_panes_radiate_little(void **state)
{
  (void)state;
  pw_assert_near(pw_leaf_sigma(200.0, 3000.0, 0.2, 0.2, 343.0), 0.0544, 1e-4, "0.2 m",
                 "by hand");
  pw_assert_near(pw_leaf_sigma(500.0, 3000.0, 0.05, 0.05, 343.0), 0.02125, 1e-5, "0.05 m",
                 "by hand");
}

/* ---------------------------------------------------------------- units */

typedef struct pair {
  pw_leaf leaf[2];
  double gap;
  pw_sound_set set;
} pair;

static pw_status unit_of_two(const void *in, pw_err *err)
{
  const pair *p = in;
  pw_thirds r;
  pw_status s = pw_sound_unit(p->leaf, &p->gap, 2, &p->set, &r, err);
  if (s == PW_OK) assert_true(finite_bands(&r));
  return s;
}

static void a_unit_of_two_panes(void **state)
{
  (void)state;
  const pair good = {{{10.0, 3000.0, 0.01}, {15.0, 2000.0, 0.01}},
                     0.016,
                     pw_sound_set_of(pw_ref_sound_unit_sets__central)};
  const pw_span span[] = {{"leaf", offsetof(pair, leaf[0].mass), "(d", 0.1, 1000.0},
                          {"leaf", offsetof(pair, leaf[1].fc), "(d", 1.0, 1e6},
                          {"leaf", offsetof(pair, leaf[1].eta), "d)", 0.0, 10.0},
                          {"gap", offsetof(pair, gap), "d", 1e-3, 0.3},
                          {"set", offsetof(pair, set.eta_mount), "d", 0.0, 10.0},
                          {"set", offsetof(pair, set.h), "d", 0.0, 1.0},
                          {"set", offsetof(pair, set.k_db), "d", -100.0, 100.0}};
  pw_assert_spans(&good, sizeof good, span, sizeof span / sizeof span[0], unit_of_two);
  pair wide = good;
  pw_err err;
  wide.set.theta = 1.58; /* over a right angle */
  assert_int_equal(unit_of_two(&wide, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "set");
  wide.set.theta = 1.57;
  assert_int_equal(unit_of_two(&wide, &err), PW_OK);
}

/* Six panes are the most; no set, and one of zeros, is the safe row; a row that is not there is the first. */
static void counts_and_sets(void **state)
{
  (void)state;
  pw_leaf leaf[PW_LEAVES_MAX + 1];
  double gap[PW_LEAVES_MAX];
  pw_thirds r, safe, zero;
  pw_err err;
  for (size_t i = 0; i < PW_LEAVES_MAX + 1; i++)
    leaf[i] = (pw_leaf){10.0, 3000.0, 0.01};
  for (size_t i = 0; i < PW_LEAVES_MAX; i++)
    gap[i] = 0.012;
  assert_int_equal(pw_sound_unit(leaf, gap, PW_LEAVES_MAX, NULL, &r, &err), PW_OK);
  assert_true(finite_bands(&r));
  assert_int_equal(pw_sound_unit(leaf, gap, PW_LEAVES_MAX + 1, NULL, &r, &err), PW_E_SHAPE);
  assert_string_equal(err.field, "n");
  const pw_sound_set none = {0}, row = pw_sound_set_of(pw_ref_sound_unit_sets__safe);
  assert_int_equal(pw_sound_unit(leaf, gap, 2, NULL, &r, NULL), PW_OK);
  assert_int_equal(pw_sound_unit(leaf, gap, 2, &none, &zero, NULL), PW_OK);
  assert_int_equal(pw_sound_unit(leaf, gap, 2, &row, &safe, NULL), PW_OK);
  assert_memory_equal(&r, &safe, sizeof r);
  assert_memory_equal(&zero, &safe, sizeof r);
  const pw_sound_set first = pw_sound_set_of(0), beyond = pw_sound_set_of(999);
  assert_memory_equal(&first, &beyond, sizeof first);
}

/* ---------------------------------------------------------------- numbers, slits, bands */

static pw_status number_of(const void *in, pw_err *err)
{
  pw_single_number n;
  pw_status s = pw_single_number_of(in, &n, err);
  if (s == PW_OK) assert_true(isnan(n.rw) || (isfinite(n.rw) && isfinite(n.c[0] + n.ctr[0])));
  return s;
}

static void bands_out_of_range(void **state)
{
  (void)state;
  pw_thirds flat;
  pw_err err;
  pw_single_number n;
  for (int i = 0; i < PW_THIRDS; i++)
    flat.db[i] = 30.0;
  const double wrong[] = {nextafter(-100.0, -200.0), nextafter(200.0, 300.0), INFINITY,
                          -INFINITY};
  for (size_t i = 0; i < 4; i++) {
    pw_thirds r = flat;
    r.db[5] = wrong[i];
    assert_int_equal(number_of(&r, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, "r");
  }
  flat.db[5] = -100.0;
  assert_int_equal(number_of(&flat, &err), PW_OK);
  flat.db[5] = 200.0;
  assert_int_equal(number_of(&flat, &err), PW_OK);
  double octave[5] = {20, 25, 30, 35, 300};
  assert_int_equal(pw_single_number_octaves(octave, &n, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "r");
  octave[4] = (double)NAN; /* one that is not known: no number, and no refusal */
  assert_int_equal(pw_single_number_octaves(octave, &n, &err), PW_OK);
  assert_true(isnan(n.rw) && isnan(n.c[0]));
}

/* No class of STC holds a spectrum without end. */
static void a_wall_without_end_has_no_class(void **state)
{
  (void)state;
  double sum = 0.0;
  pw_thirds r;
  for (int i = 0; i < PW_THIRDS; i++)
    r.db[i] = INFINITY;
  assert_true(isnan(pw_stc_plain(&r, 1, &sum)) && isnan(sum));
  r.db[8] = -INFINITY;
  assert_true(isnan(pw_stc_plain(&r, 1, &sum)));
}

/* The header's formula: m is 4 for sound that falls straight, 8 from all sides, and stands before all else. */
static void sound_that_falls_straight_passes_half_as_much(void **state)
{
  (void)state;
  pw_slit all = {.width = 1e-3, .depth = 0.05}, straight = all;
  straight.normal = 1;
  for (double f = 100.0; f < 5000.0; f *= 2.0)
    pw_assert_near(2.0 * pw_slit_tau(&straight, f, 343.0) / pw_slit_tau(&all, f, 343.0), 1.0,
                   1e-12, "straight over all sides", "m 4 and 8");
}

/* ISO 266: bands from 50 to 5000 Hz are the 21 of 50, 63, 80, 100, .. 5000. */
static void bands_beyond_are_none(void **state)
{
  (void)state;
  assert_true(pw_third_hz(0) == 50.0 && pw_third_hz(PW_THIRDS - 1) == 5000.0);
  assert_true(isnan(pw_third_hz(-1)) && isnan(pw_third_hz(PW_THIRDS)));
  assert_int_equal(pw_third_of(1000.0), 13);
  assert_int_equal(pw_third_of(999.0), -1);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(sheets_and_laminates),
      cmocka_unit_test(a_leaf_by_annex_b),
      cmocka_unit_test(small_panes_radiate_little),
      cmocka_unit_test(a_unit_of_two_panes),
      cmocka_unit_test(counts_and_sets),
      cmocka_unit_test(bands_out_of_range),
      cmocka_unit_test(a_wall_without_end_has_no_class),
      cmocka_unit_test(sound_that_falls_straight_passes_half_as_much),
      cmocka_unit_test(bands_beyond_are_none),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
