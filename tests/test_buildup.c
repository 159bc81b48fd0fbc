/* Glass build-ups in words: what is read, what is refused and how that is said, and the way back.
 * Expected sizes follow from 1 in = 25.4 mm exactly (reference/glazing/METHODS.md E). */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "glass/same.h"
#include "panewright/glazing.h"

static const char exact[] = "1 in = 25.4 mm";

static pw_buildup must_parse(const char *text)
{
  pw_buildup b = {0};
  pw_err err = {0};
  if (pw_buildup_parse(text, &b, &err) != PW_OK) fail_msg("'%s': %s", text, err.text);
  return b;
}

static void a_low_e_argon_unit_is_read(void **state)
{
  (void)state;
  pw_buildup b = must_parse("3mm clear / 12.7mm argon 90% / 3mm clear coat ag2@3");
  assert_int_equal(b.n_pane, 2);
  pw_assert_near(b.pane[0].thickness, 0.003, 1e-15, "pane", exact);
  pw_assert_near(b.gap[0].thickness, 0.0127, 1e-15, "gap", exact);
  pw_assert_near(b.gap[0].mix.share[PW_ARGON], 0.9, 1e-15, "argon", "as written");
  pw_assert_near(b.gap[0].mix.share[PW_AIR], 0.1, 1e-15, "the rest is air", "as written");
  assert_string_equal(b.pane[0].kind, "clear");
  assert_string_equal(b.pane[0].coating[0], "");
  assert_string_equal(b.pane[1].coating[0], "ag2");
  assert_string_equal(b.pane[1].coating[1], "");
}

static void inches_fractions_and_slashes_are_told_apart(void **state)
{
  (void)state;
  static const char *const same[] = {
      "1/8 in clear emit 0.10@2 / 1/2 in air / 1/8in clear",
      "1/8 IN clear emit 0.10@2/1/2 in AIR/1/8 in Clear",
      "  1/8\" clear   emit .1 @ 2 / 0.5 inch air / 3.175mm clear  ",
      "0.3175cm clear emit 0.1@2/12.7mm air/0.125 inches clear",
  };
  for (size_t i = 0; i < sizeof same / sizeof same[0]; i++) {
    pw_buildup b = must_parse(same[i]);
    assert_int_equal(b.n_pane, 2);
    pw_assert_near(b.pane[0].thickness, 0.003175, 1e-15, same[i], exact);
    pw_assert_near(b.gap[0].thickness, 0.0127, 1e-15, same[i], exact);
    pw_assert_near(b.pane[1].thickness, 0.003175, 1e-15, same[i], exact);
    pw_assert_near(b.pane[0].emit[1], 0.1, 1e-15, same[i], "as written");
    pw_assert_near(b.gap[0].mix.share[PW_AIR], 1.0, 0.0, same[i], "as written");
  }
  pw_buildup wide = must_parse("3mm clear / 1 1/4 in air / 3mm clear");
  pw_assert_near(wide.gap[0].thickness, 0.03175, 1e-15, "1 1/4 in", exact);
  wide = must_parse("3mm clear / 1-1/4 in air / 3mm clear");
  pw_assert_near(wide.gap[0].thickness, 0.03175, 1e-15, "1-1/4 in", exact);
}

static void mixtures_and_several_surfaces_are_read(void **state)
{
  (void)state;
  pw_buildup b =
      must_parse("3mm clear coat ag2@2 emit 0.03@2 emit 0.2@1/10mm argon 60% krypton "
                 "30%/3mm lowiron/10mm xenon/6mm gray coat pyr20@6");
  assert_int_equal(b.n_pane, 3);
  pw_assert_near(b.gap[0].mix.share[PW_KRYPTON], 0.3, 1e-15, "krypton", "as written");
  pw_assert_near(b.gap[0].mix.share[PW_AIR], 0.1, 1e-12, "air", "as written");
  pw_assert_near(b.gap[1].mix.share[PW_XENON], 1.0, 0.0, "xenon", "as written");
  pw_assert_near(b.pane[0].emit[0], 0.2, 1e-15, "surface 1", "as written");
  pw_assert_near(b.pane[0].emit[1], 0.03, 1e-15, "surface 2", "as written");
  assert_string_equal(b.pane[2].coating[1], "pyr20");
}

static void a_fault_names_column_found_and_accepted(void **state)
{
  (void)state;
  static const struct {
    const char *text;
    int column;
    const char *says;
  } row[] = {
      {"", 1, "thickness of a pane"},
      {"3 clear", 3, "found 'clear', want mm, cm or in"},
      {"3mm claer", 5, "did you mean 'clear'?"},
      {"3mm velvet", 5, "clear, lowiron, bronze, gray, green"},
      {"3mm clear / 12mm argonn / 3mm clear", 18, "did you mean 'argon'?"},
      {"3mm clear / 12mm 90% / 3mm clear", 18, "air, argon"},
      {"3mm clear / 12mm argon 90 / 3mm clear", 27, "want '%'"},
      {"3mm clear / 12mm argon 190% / 3mm clear", 24, "0.01 to 100 %"},
      {"3mm clear / 12mm argon 60% krypton 50% / 3mm clear", 28, "100 % at most"},
      {"3mm clear / 12mm argon argon / 3mm clear", 24, "each gas once"},
      {"3mm clear / 12mm air", 21, "a pane after the gap"},
      {"3mm clear / 12mm air /", 23, "thickness of a pane"},
      {"3mm clear coat ag9@2", 16, "did you mean 'ag1'?"},
      {"3mm clear coat ag2@3", 20, "1 or 2"},
      {"3mm clear coat ag2", 19, "'@'"},
      {"3mm clear coat ag2@2 coat ag1@2", 27, "one coating a surface"},
      {"3mm clear emit 1.5@2", 16, "0.001 to 1"},
      {"3mm clear emit nan@2", 16, "0.001 to 1"},
      {"3mm clear emti 0.1@2", 11, "did you mean 'emit'?"},
      {"3mm clear emit 0.1@2 emit 0.2@2", 27, "one emissivity a surface"},
      {"0mm clear", 1, "0.5 to 50 mm"},
      {"300mm clear", 1, "0.5 to 50 mm"},
      {"3mm clear / 1mm air / 3mm clear", 13, "2 to 200 mm"},
      {"1/0 in clear", 3, "thickness"},
      {"1 / 2 in clear", 3, "mm, cm or in"},
      {"1.2.3 mm clear", 1, "thickness"},
      {"3mm clear, 12mm air", 10, "coat, emit"},
      {"3mm clear/6mm air/3mm clear/6mm air/3mm clear/6mm air/3mm clear/6mm air/3mm clear", 64,
       "at most 4 panes"},
  };
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_buildup b, before;
    memset(&b, 0x5a, sizeof b);
    before = b;
    pw_err err = {0};
    assert_int_equal(pw_buildup_parse(row[i].text, &b, &err), PW_E_DATA);
    assert_int_equal(pw_buildup_parse(row[i].text, &b, NULL), PW_E_DATA);
    assert_memory_equal(&b, &before, sizeof b);
    if (err.column != row[i].column || !strstr(err.text, row[i].says))
      fail_msg("'%s' gave column %d: %s; want column %d and \"%s\"", row[i].text, err.column,
               err.text, row[i].column, row[i].says);
  }
}

static void assert_same(const pw_buildup *a, const pw_buildup *b)
{
  assert_int_equal(a->n_pane, b->n_pane);
  for (size_t i = 0; i < b->n_pane; i++) {
    pw_assert_near(a->pane[i].thickness, b->pane[i].thickness, 1e-16, "pane",
                   "print and parse");
    assert_memory_equal(a->pane[i].kind, b->pane[i].kind, PW_NAME_MAX);
    assert_memory_equal(a->pane[i].coating, b->pane[i].coating, sizeof a->pane[i].coating);
    for (int side = 0; side < 2; side++)
      pw_assert_near(a->pane[i].emit[side], b->pane[i].emit[side], 1e-15, "emissivity",
                     "print and parse");
    if (i + 1 == b->n_pane) break;
    pw_assert_near(a->gap[i].thickness, b->gap[i].thickness, 1e-16, "gap", "print and parse");
    for (int gas = 0; gas < PW_GAS_COUNT; gas++)
      pw_assert_near(a->gap[i].mix.share[gas], b->gap[i].mix.share[gas], 1e-15, "share",
                     "print and parse");
  }
}

static void what_is_printed_reads_back_the_same(void **state)
{
  (void)state;
  static const struct {
    const char *text, *printed;
  } row[] = {
      {"1/8 in clear", "3.175mm clear"},
      {"3mm clear / 1/2 in argon 90% / 3mm clear coat ag2@3",
       "3mm clear / 12.7mm argon 90% / 3mm clear coat ag2@3"},
      {"3mm bronze emit .84@1 coat ag1_high@2/3/16 in krypton/5.7mm clear",
       "3mm bronze emit 0.84@1 coat ag1_high@2 / 4.7625mm krypton / 5.7mm clear"},
      {"3mm clear/7mm argon 33.3% xenon 11%/3mm clear/6mm air 100%/3mm green",
       "3mm clear / 7mm argon 33.3% xenon 11% / 3mm clear / 6mm air / 3mm green"},
  };
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    char text[320];
    pw_buildup b = must_parse(row[i].text);
    assert_int_equal(pw_buildup_print(&b, text, sizeof text, NULL), PW_OK);
    assert_string_equal(text, row[i].printed);
    pw_buildup again = must_parse(text);
    assert_same(&again, &b);
  }
  char tight[8];
  pw_buildup b = must_parse(row[1].text);
  pw_err err;
  char want[64];
  snprintf(want, sizeof want, "8 bytes, want %zu for", strlen(row[1].printed) + 1);
  assert_int_equal(pw_buildup_print(&b, tight, sizeof tight, &err), PW_E_SHAPE);
  assert_string_equal(tight, "3mm cle");
  assert_non_null(strstr(err.text, want));
  b.n_pane = 0;
  assert_int_equal(pw_buildup_print(&b, tight, sizeof tight, NULL), PW_E_SHAPE);
}

/* Texts made by cutting and altering good ones never crash, and what is accepted reads back. */
static void altered_texts_are_refused_or_read_whole(void **state)
{
  (void)state;
  static const char seed[] =
      "3mm clear emit 0.10@2/1/2 in argon 60% xenon 5.5%/1 1/8\" clear coat "
      "ag1_high@4";
  static const char letter[] = "0123456789./%@\"- \tacegimnrx\x01\xff";
  uint32_t random = 12345;
  size_t accepted = 0;
  for (int round = 0; round < 20000; round++) {
    char text[sizeof seed + 1];
    memcpy(text, seed, sizeof seed);
    for (int k = 0; k < 1 + round % 4; k++) {
      random = random * 1664525u + 1013904223u;
      text[(random >> 8) % (sizeof seed - 1)] = letter[(random >> 20) % (sizeof letter - 1)];
    }
    if (round % 7 == 0) text[(random >> 4) % sizeof seed] = 0;
    pw_buildup b = {0}, again = {0};
    pw_err err = {0};
    if (pw_buildup_parse(text, &b, &err) != PW_OK) {
      assert_in_range(err.column, 1, sizeof seed + 1);
      continue;
    }
    accepted++;
    char printed[400];
    assert_int_equal(pw_buildup_print(&b, printed, sizeof printed, NULL), PW_OK);
    assert_int_equal(pw_buildup_parse(printed, &again, &err), PW_OK);
    assert_same(&again, &b);
  }
  assert_true(accepted > 100);
}

/* By definition: each value is asked, what lies behind the end of a name is none, 0 is -0. */
static void alike_is_by_value(void **state)
{
  static const char text[] =
      "3mm clear / 12.7mm argon 90% / 3mm clear coat ag2@3 / 9mm air / 3mm clear";
  (void)state;
  const pw_buildup a = must_parse(text);
  pw_buildup b = a;
  assert_true(buildup_same(&a, &b));
  b.pane[0].kind[PW_NAME_MAX - 1] = 'x';
  b.pane[1].coating[0][PW_NAME_MAX - 1] = 'x';
  b.pane[1].emit[1] = -0.0;
  b.gap[0].mix.share[PW_XENON] = -0.0;
  assert_true(buildup_same(&a, &b));
  double *const value[] = {&b.pane[2].thickness, &b.pane[2].emit[0], &b.pane[0].emit[1],
                           &b.gap[1].thickness, &b.gap[1].mix.share[PW_KRYPTON]};
  for (size_t i = 0; i < sizeof value / sizeof value[0]; i++) {
    b = a;
    *value[i] += 0.001;
    assert_false(buildup_same(&a, &b));
  }
  char *const name[] = {b.pane[2].kind, b.pane[1].coating[0], b.pane[0].coating[1]};
  for (size_t i = 0; i < sizeof name / sizeof name[0]; i++) {
    b = a;
    strcat(name[i], "2");
    assert_false(buildup_same(&a, &b));
  }
  b = a;
  b.n_pane = 2;
  assert_false(buildup_same(&a, &b));
}

static void units_are_alike_by_value(void **state)
{
  const pw_unit a = {.n_pane = 2,
                     .pane = {{.thickness = 0.003}, {.thickness = 0.004, .emit = {0.1, 0.0}}},
                     .gap = {{.thickness = 0.012}},
                     .height = 1.0};
  pw_unit b = a;
  double *const value[] = {&b.pane[0].thickness, &b.pane[1].conductivity, &b.pane[1].emit[0],
                           &b.pane[0].emit[1],   &b.gap[0].thickness,     &b.height};
  (void)state;
  b.pane[1].emit[1] = -0.0;
  b.pane[2].thickness = 7.0; /* there is none */
  assert_true(unit_same(&a, &b));
  for (size_t i = 0; i < sizeof value / sizeof value[0]; i++) {
    b = a;
    *value[i] += 0.001;
    assert_false(unit_same(&a, &b));
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(alike_is_by_value),
      cmocka_unit_test(units_are_alike_by_value),
      cmocka_unit_test(a_low_e_argon_unit_is_read),
      cmocka_unit_test(inches_fractions_and_slashes_are_told_apart),
      cmocka_unit_test(mixtures_and_several_surfaces_are_read),
      cmocka_unit_test(a_fault_names_column_found_and_accepted),
      cmocka_unit_test(what_is_printed_reads_back_the_same),
      cmocka_unit_test(altered_texts_are_refused_or_read_whole),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
