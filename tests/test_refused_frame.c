/* What src/frame refuses, field by field, that each bound itself is taken, and its seldom branches; by hand beside each. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "frame/catalogue.h"
#include "frame/conduct.h"

/* ---------------------------------------------------------------- hollows */

static pw_status hollow_of(const void *in, pw_err *err)
{
  const double no = (double)NAN;
  for (int method = PW_HOLLOW_ISO10077; method <= (int)PW_HOLLOW_ISO15099; method++) {
    double k = no;
    pw_status s = pw_hollow_conductivity(in, (pw_hollow_method)method, &k, err);
    if (s != PW_OK) return s;
    assert_true(isfinite(k) && k > 0.0);
  }
  return PW_OK;
}

static void a_hollow(void **state)
{
  (void)state;
  const pw_hollow good = {0.02, 0.02, 5.0, 283.0, {0.9, 0.9}, 0};
  const pw_span span[] = {{"depth", offsetof(pw_hollow, depth), "(d)", 0.0, 100.0},
                          {"breadth", offsetof(pw_hollow, breadth), "(d)", 0.0, 100.0},
                          {"dt", offsetof(pw_hollow, dt), "d)", 0.0, 200.0},
                          {"t_mean", offsetof(pw_hollow, t_mean), "(d)", 150.0, 450.0},
                          {"emit", offsetof(pw_hollow, emit[0]), "(d", 0.0, 1.0},
                          {"emit", offsetof(pw_hollow, emit[1]), "(d", 0.0, 1.0}};
  pw_assert_spans(&good, sizeof good, span, sizeof span / sizeof span[0], hollow_of);
}

/* ---------------------------------------------------------------- catalogue */

typedef struct entry {
  int kind, spacer, cover;
  size_t n_pane;
  double u_center, width;
} entry;

static pw_status frame_u(const void *in, pw_err *err)
{
  const entry *e = in;
  pw_given u, psi;
  pw_status s = pw_catalogue_frame_u((pw_frame_kind)e->kind, PW_FIXED, e->n_pane,
                                     (pw_spacer)e->spacer, &u, err);
  pw_status other =
      pw_catalogue_psi((pw_frame_kind)e->kind, (pw_spacer)e->spacer, e->n_pane, 1, &psi, NULL);
  assert_int_equal(s, other);
  if (s == PW_OK) assert_true(isfinite(u.value + psi.value) && u.value > 0.0);
  return s;
}

static pw_status edge_u(const void *in, pw_err *err)
{
  const entry *e = in;
  pw_given u;
  pw_status s = pw_catalogue_edge_u((pw_spacer)e->spacer, e->n_pane, e->u_center, &u, err);
  if (s == PW_OK) assert_true(isfinite(u.value) && u.value >= e->u_center);
  return s;
}

static pw_status retained(const void *in, pw_err *err)
{
  const entry *e = in;
  pw_given c;
  pw_status s = pw_catalogue_retained((pw_cover)e->cover, e->width, &c, err);
  if (s == PW_OK) assert_true(isfinite(c.value) && c.value >= 0.0);
  return s;
}

static pw_status coldest(const void *in, pw_err *err)
{
  const entry *e = in;
  pw_cold_relation c;
  pw_status s = pw_catalogue_coldest((pw_frame_kind)e->kind, 0, (pw_spacer)e->spacer, &c, err);
  if (s == PW_OK) assert_true(isfinite(c.base + c.slope + c.below + c.above));
  return s;
}

static pw_status spacer_box(const void *in, pw_err *err)
{
  const entry *e = in;
  pw_given k;
  pw_status s = pw_catalogue_spacer_box((pw_spacer)e->spacer, e->width, &k, err);
  if (s == PW_OK) assert_true(isfinite(k.value) && k.value > 0.0);
  return s;
}

#define AT(field) offsetof(entry, field)

static void usual_values(void **state)
{
  (void)state;
  const entry good = {PW_FRAME_VINYL, PW_SPACER_METAL, PW_COVER_BARE, 2, 2.7, 0.016};
  const pw_span kind = {"kind", AT(kind), "i", 0, PW_FRAME_KIND_COUNT - 1},
                spacer = {"spacer", AT(spacer), "i", 0, PW_SPACER_COUNT - 1},
                center = {"u_center", AT(u_center), "d", 0.1, 8.0},
                cover = {"cover", AT(cover), "i", 0, PW_COVER_COUNT - 1};
  pw_assert_spans(&good, sizeof good, &kind, 1, frame_u);
  pw_assert_spans(&good, sizeof good, &spacer, 1, frame_u);
  pw_assert_spans(&good, sizeof good, &spacer, 1, edge_u);
  pw_assert_spans(&good, sizeof good, &center, 1, edge_u);
  pw_assert_spans(&good, sizeof good, &cover, 1, retained);
  pw_assert_spans(&good, sizeof good, &kind, 1, coldest);
  pw_assert_spans(&good, sizeof good, &spacer, 1, coldest);
  pw_assert_spans(&good, sizeof good, &spacer, 1, spacer_box);
  pw_err err;
  entry bad = good;
  const size_t panes[] = {0, PW_CATALOGUE_PANES + 1};
  for (size_t i = 0; i < 2; i++) {
    bad.n_pane = panes[i];
    assert_int_equal(frame_u(&bad, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, "n_pane");
  }
  bad = good;
  const double width[] = {-0.001, 0.001, 1.0, (double)NAN, INFINITY};
  for (size_t i = 0; i < sizeof width / sizeof width[0]; i++) {
    bad.width = width[i];
    assert_int_equal(spacer_box(&bad, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, "width");
    if (i == 1) continue; /* a face of 1 mm lies between nothing and the first row */
    assert_int_equal(retained(&bad, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, "width");
  }
  bad.width = 0.0; /* no old face stays: nothing passes */
  pw_given none;
  assert_int_equal(pw_catalogue_retained(PW_COVER_WOOD, 0.0, &none, NULL), PW_OK);
  assert_true(none.value == 0.0);
  assert_string_equal(pw_frame_kind_name(PW_FRAME_KIND_COUNT), "unknown");
}

/* The handbook's line meets the centre at 1.266 + 0.842 u - 0.027 u^2 = u, u = 4.52 W/(m2 K): a centre above it has no worse edge. */
static void glass_worse_than_its_edge_has_no_excess(void **state)
{
  (void)state;
  pw_given u;
  assert_int_equal(pw_catalogue_edge_u(PW_SPACER_METAL, 2, 4.5, &u, NULL), PW_OK);
  pw_assert_near(u.value, 1.266 + 0.842 * 4.5 - 0.027 * 4.5 * 4.5, 1e-9, "edge",
                 "handbook line");
  assert_int_equal(pw_catalogue_edge_u(PW_SPACER_METAL, 2, 5.0, &u, NULL), PW_OK);
  pw_assert_near(u.value, 5.0, 1e-12, "edge", "as the centre");
}

/* What is not called air is foam. */
static void a_ring_of_no_word_is_of_foam(void **state)
{
  (void)state;
  pw_given air, foam, none;
  pw_err err;
  assert_int_equal(pw_catalogue_ring("air", 0.010, &air, NULL), PW_OK);
  assert_int_equal(pw_catalogue_ring("foam", 0.010, &foam, NULL), PW_OK);
  assert_int_equal(pw_catalogue_ring(NULL, 0.010, &none, NULL), PW_OK);
  assert_true(none.value == foam.value && air.value > foam.value);
  assert_int_equal(pw_catalogue_ring("foam", 5.0, &none, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "width");
  assert_true(none.value == foam.value);
}

/* ---------------------------------------------------------------- rectangles */

static pw_status add(pw_section *s, double x0, double y0, double x1, double y1,
                     const char *material, double k, pw_err *err)
{
  return pw_section_add(s, x0, y0, x1, y1, material, k, (double)NAN, 0, err);
}

static void a_rectangle(void **state)
{
  (void)state;
  const double no = (double)NAN, past = nextafter(100.0, 200.0);
  const struct {
    double x0, y0, x1, y1, k, emissivity;
    const char *material, *field; /* field NULL: taken */
    pw_status status;
  } row[] = {
      {-100, -100, 100, 100, no, no, "glass", NULL, PW_OK},
      {-past, 0, 1, 1, no, no, "glass", "x0", PW_E_DOMAIN},
      {0, -past, 1, 1, no, no, "glass", "y0", PW_E_DOMAIN},
      {0, 0, past, 1, no, no, "glass", "x1", PW_E_DOMAIN},
      {0, 0, 1, past, no, no, "glass", "y1", PW_E_DOMAIN},
      {no, 0, 1, 1, no, no, "glass", "x0", PW_E_DOMAIN},
      {0, 0, 1, INFINITY, no, no, "glass", "y1", PW_E_DOMAIN},
      {1, 0, 1, 1, no, no, "glass", "x1", PW_E_DOMAIN},
      {0, 1, 1, 1, no, no, "glass", "y1", PW_E_DOMAIN},
      {0, 0, 1, 1, no, no, "", "material", PW_E_DATA},
      {0, 0, 1, 1, no, no, "a_name_that_has_more_letters_than_any_name_of_a_material_may_have",
       "material", PW_E_DATA},
      {0, 0, 1, 1, no, no, "glas", "material", PW_E_DATA},
      {0, 0, 1, 1, 1e-4, no, "own", NULL, PW_OK},
      {0, 0, 1, 1, 1e4, no, "own", NULL, PW_OK},
      {0, 0, 1, 1, 0.99e-4, no, "own", "conductivity_w_mk", PW_E_DOMAIN},
      {0, 0, 1, 1, 1.01e4, no, "own", "conductivity_w_mk", PW_E_DOMAIN},
      {0, 0, 1, 1, INFINITY, no, "own", "conductivity_w_mk", PW_E_DOMAIN},
      {0, 0, 1, 1, -1.0, no, "glass", "conductivity_w_mk", PW_E_DOMAIN},
      {0, 0, 1, 1, 0.03, no, "outdoor", "conductivity_w_mk", PW_E_DATA},
      {0, 0, 1, 1, 0.2, 0.01, "own", NULL, PW_OK},
      {0, 0, 1, 1, 0.2, 1.0, "own", NULL, PW_OK},
      {0, 0, 1, 1, 0.2, 0.009, "own", "emissivity", PW_E_DOMAIN},
      {0, 0, 1, 1, 0.2, 1.01, "own", "emissivity", PW_E_DOMAIN},
      {0, 0, 1, 1, 0.2, INFINITY, "own", "emissivity", PW_E_DOMAIN},
  };
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_section s;
    pw_err err = {.field = NULL};
    pw_section_init(&s);
    pw_status got = pw_section_add(&s, row[i].x0, row[i].y0, row[i].x1, row[i].y1,
                                   row[i].material, row[i].k, row[i].emissivity, 0, &err);
    if (got != row[i].status) fail_msg("row %zu: status %d, %s", i, (int)got, err.text);
    if (row[i].field) assert_string_equal(err.field, row[i].field);
    assert_int_equal(s.n_part, got == PW_OK);
    pw_section_free(&s);
  }
  pw_section_free(NULL);
  pw_section_result_free(NULL);
}

/* Words of section.h: a hollow, vented or with a word of its own, a gap of three, and what looks like one and is none. */
static void words_that_stand_for_something(void **state)
{
  (void)state;
  static const struct {
    const char *word;
    int taken, gap;
    pw_zone zone;
  } row[] = {{"cavity", 1, 0, PW_ZONE_HOLLOW},
             {"cavity_left", 1, 0, PW_ZONE_HOLLOW},
             {"cavity_vent", 1, 0, PW_ZONE_HOLLOW_VENTED},
             {"cavity_vent_left", 1, 0, PW_ZONE_HOLLOW_VENTED},
             {"cavity_ventral", 1, 0, PW_ZONE_HOLLOW}, /* its own word, not a vent */
             {"cavity2", 0, 0, PW_ZONE_SOLID},
             {"gap", 1, 1, PW_ZONE_SOLID},
             {"gap1", 1, 1, PW_ZONE_SOLID},
             {"gap3", 1, 3, PW_ZONE_SOLID},
             {"gap0", 0, 0, PW_ZONE_SOLID},
             {"gap4", 0, 0, PW_ZONE_SOLID},
             {"gap12", 0, 0, PW_ZONE_SOLID},
             {"gapx", 0, 0, PW_ZONE_SOLID}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_section s;
    pw_section_init(&s);
    pw_status got = add(&s, 0, 0, 1, 1, row[i].word, (double)NAN, NULL);
    if ((got == PW_OK) != row[i].taken) fail_msg("%s: status %d", row[i].word, (int)got);
    if (row[i].taken) {
      assert_int_equal(s.material[0].gap, row[i].gap);
      assert_int_equal(s.material[0].zone, row[i].zone);
    }
    pw_section_free(&s);
  }
  pw_section s; /* `panel` is that of the panel method only with its conductivity */
  pw_section_init(&s);
  assert_int_equal(add(&s, 0, 0, 1, 1, "panel", 0.035, NULL), PW_OK);
  assert_int_equal(add(&s, 1, 0, 2, 1, "panel", 0.040, NULL), PW_OK);
  assert_int_equal(s.material[0].kind, PW_MATERIAL_PANEL);
  assert_int_equal(s.material[1].kind, PW_MATERIAL_OTHER);
  pw_section_free(&s);
}

/* Materials are told apart by name, conductivity and emissivity, however many they are. */
static void as_many_materials_as_are_drawn(void **state)
{
  (void)state;
  enum { MANY = 300 };
  pw_section s, twin;
  char name[24];
  pw_section_init(&s);
  for (int round = 0; round < 2; round++) {
    for (int i = 0; i < MANY; i++) {
      snprintf(name, sizeof name, "material_%d", i);
      assert_int_equal(add(&s, i, 0, i + 1, 1, "glass", (double)NAN, NULL) == PW_OK, i < 100);
      assert_int_equal(add(&s, 0, round, 1, 1 + round, name, 0.2, NULL), PW_OK);
    }
    assert_int_equal(s.n_material, MANY + 1);
  }
  assert_int_equal(add(&s, 0, 0, 1, 1, "material_7", 0.3, NULL),
                   PW_OK); /* another conductivity */
  assert_int_equal(s.n_material, MANY + 2);
  assert_int_equal(pw_section_add(&s, 0, 0, 1, 1, "material_7", 0.2, 0.5, 0, NULL),
                   PW_OK); /* and emissivity */
  assert_int_equal(s.n_material, MANY + 3);
  assert_int_equal(pw_section_copy(&s, &twin, NULL), PW_OK);
  pw_section_free(&s);
  assert_int_equal(add(&twin, 0, 0, 1, 1, "material_299", 0.2, NULL), PW_OK); /* still known */
  assert_int_equal(twin.n_material, MANY + 3);
  pw_section_free(&twin);
  assert_int_equal(pw_section_copy(&s, &twin, NULL), PW_OK); /* of an empty one */
  assert_true(twin.n_part == 0 && twin.n_material == 0);
  pw_section_free(&twin);
}

/* ---------------------------------------------------------------- what a package decides */

/* A spacer drawn alone counts its width along x; one beside glass that lies (panes thin along y) along y. */
static void a_spacer_goes_by_the_glass_beside_it(void **state)
{
  (void)state;
  pw_section s;
  pw_given wide, tall;
  pw_err err;
  assert_int_equal(pw_catalogue_spacer_box(PW_SPACER_METAL, 0.016, &wide, NULL), PW_OK);
  assert_int_equal(pw_catalogue_spacer_box(PW_SPACER_METAL, 0.011, &tall, NULL), PW_OK);
  pw_section_init(&s);
  assert_int_equal(add(&s, 0, 0, 0.016, 0.011, "spacer", (double)NAN, NULL), PW_OK);
  assert_int_equal(pw_section_set_spacer(&s, PW_SPACER_METAL, NULL), PW_OK);
  pw_assert_near(s.material[0].conductivity, wide.value, 0.0, "16 mm", "catalogue");
  assert_int_equal(add(&s, 0, 0.011, 0.2, 0.015, "glass", (double)NAN, NULL), PW_OK);
  assert_int_equal(pw_section_set_spacer(&s, PW_SPACER_METAL, NULL), PW_OK);
  pw_assert_near(s.material[0].conductivity, tall.value, 0.0, "11 mm", "catalogue");
  assert_int_equal(pw_section_set_spacer(&s, PW_SPACER_COUNT, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "spacer");
  assert_int_equal(pw_section_set_gap(&s, 1, 6.0), 0); /* it draws none */
  pw_section g;                                        /* a gap tells as glass does */
  pw_section_init(&g);
  assert_int_equal(add(&g, 0, 0.011, 0.2, 0.027, "gap", (double)NAN, NULL), PW_OK);
  assert_int_equal(add(&g, 0, 0, 0.016, 0.011, "spacer", (double)NAN, NULL), PW_OK);
  assert_int_equal(pw_section_set_spacer(&g, PW_SPACER_METAL, NULL), PW_OK);
  pw_assert_near(g.material[1].conductivity, tall.value, 0.0, "11 mm", "catalogue");
  pw_section_free(&g);
  assert_int_equal(pw_section_set_filling(&s, "air"), 0);
  pw_section_free(&s);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_hollow),
      cmocka_unit_test(usual_values),
      cmocka_unit_test(glass_worse_than_its_edge_has_no_excess),
      cmocka_unit_test(a_ring_of_no_word_is_of_foam),
      cmocka_unit_test(a_rectangle),
      cmocka_unit_test(words_that_stand_for_something),
      cmocka_unit_test(as_many_materials_as_are_drawn),
      cmocka_unit_test(a_spacer_goes_by_the_glass_beside_it),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
