/* src/glass where it is seldom: build-ups at the ends of what can be read and said, films on the outdoor face, panes of the caller's
 * own, glass that lets nothing or everything through. Closed forms and symmetries; no snapshot. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "glass/optics_impl.h"
#include "panewright/glazing.h"

/* ---------------------------------------------------------------- words */

static void build_ups_at_the_ends_of_what_is_read(void **state)
{
  (void)state;
  static const struct {
    const char *text;
    double mm; /* of the first pane; 0: refused */
    const char *says;
  } row[] = {
      {"3.00000000000000000mm clear", 3.0, ""},
      {"0003mm clear", 3.0, ""},
      {"1234567890123456789mm clear", 0.0, "thickness of a pane"},
      {"3.00000000000000000000001mm clear", 0.0, "thickness of a pane"},
      {"1/1234567890123456789 in clear", 0.0, "thickness of a pane"},
      {"1 1/1234567890123456789 in clear", 0.0, "thickness of a pane"},
      {"0.00000000000000000000001mm clear", 0.0, "thickness of a pane"},
      {"1 1234567890123456789/2 in clear", 0.0, "thickness of a pane"},
      {"1/0 in clear", 0.0, "thickness of a pane"},
      {"1 1 in clear", 0.0, "thickness of a pane"},
      {"1 3/ in clear", 0.0, "thickness of a pane"},
      {"0 1/4 in clear", 6.35, ""},
      {"3mm claritythatisfarlongerthananyknownkindofglass", 0.0,
       "found 'claritythatisfarlongerthananyknownkindof', want"}, /* 40 letters of it */
      {"3mm clear coat ag2ag2ag2ag2ag2ag2ag2ag2ag2ag2ag2@2", 0.0, "a coating"},
      {"3mm clear emit 0.1@"
       "99999999999999999999",
       0.0, "1 or 2"},
  };
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_buildup b;
    pw_err err = {0};
    pw_status s = pw_buildup_parse(row[i].text, &b, &err);
    if ((s == PW_OK) != (row[i].mm > 0.0))
      fail_msg("%s: status %d, %s", row[i].text, (int)s, err.text);
    if (s == PW_OK)
      pw_assert_near(b.pane[0].thickness, row[i].mm * 1e-3, 1e-12, row[i].text, "by hand");
    else if (!strstr(err.text, row[i].says))
      fail_msg("%s: %s", row[i].text, err.text);
  }
}

/* A column beyond a million is said as a million. */
static void a_text_without_end_has_a_last_column(void **state)
{
  (void)state;
  enum { BLANKS = 1000010 };
  char *text = malloc(BLANKS + 10);
  assert_non_null(text);
  memset(text, ' ', BLANKS);
  strcpy(text + BLANKS, "clear");
  pw_buildup b;
  pw_err err = {0};
  assert_int_equal(pw_buildup_parse(text, &b, &err), PW_E_DATA);
  assert_int_equal(err.column, 1000000);
  assert_non_null(strstr(err.text, "found 'clear'"));
  free(text);
}

/* A hundred panes of the caller's own: the list that is offered is cut, a name spelt nearly right is offered alone. */
static void many_own_panes_are_offered_in_part(void **state)
{
  (void)state;
  enum { OWN = 100 };
  static char name[OWN][PW_NAME_MAX];
  static const char *own[OWN];
  static pw_measured measured[OWN];
  for (int i = 0; i < OWN; i++) {
    snprintf(name[i], PW_NAME_MAX, "pane_number_%03d", i);
    own[i] = name[i];
    snprintf(measured[i].name, PW_NAME_MAX, "pane_number_%03d", i);
  }
  pw_buildup b;
  pw_err err = {0};
  assert_int_equal(pw_buildup_parse_own("3mm xyzzy", own, OWN, &b, &err), PW_E_DATA);
  assert_non_null(strstr(err.text, "pane_number_000, pane_number_001"));
  assert_non_null(strstr(err.text, ", ..."));
  assert_null(strstr(err.text, "pane_number_030"));
  assert_int_equal(pw_buildup_parse_own("3mm pane_nubmer_007", own, OWN, &b, &err), PW_E_DATA);
  assert_non_null(strstr(err.text, "did you mean 'pane_number_007'?"));
  assert_int_equal(pw_buildup_parse_own("3mm pane_number_007", own, OWN, &b, &err), PW_OK);
  pw_layers layers;
  snprintf(b.pane[0].kind, PW_NAME_MAX, "pane_nubmer_007");
  assert_int_equal(pw_layers_init(&b, measured, OWN, &layers, &err), PW_E_DATA);
  assert_string_equal(err.field, "kind");
  assert_non_null(strstr(err.text, "did you mean pane_number_007"));
  snprintf(b.pane[0].kind, PW_NAME_MAX, "xyzzy");
  assert_int_equal(pw_layers_init(&b, measured, OWN, &layers, &err), PW_E_DATA);
  assert_non_null(strstr(err.text, "tables panes"));
}

static void a_build_up_is_said_when_it_can_be(void **state)
{
  (void)state;
  char text[200];
  pw_err err;
  pw_buildup b = {.n_pane = 0};
  assert_int_equal(pw_buildup_print(&b, text, sizeof text, &err), PW_E_SHAPE);
  assert_string_equal(err.field, "n_pane");
  b.n_pane = PW_PANES_MAX + 1;
  assert_int_equal(pw_buildup_print(&b, text, sizeof text, &err), PW_E_SHAPE);
  b = (pw_buildup){.n_pane = 1, .pane = {{.thickness = 10e-3}}};
  assert_int_equal(pw_buildup_print(&b, text, 0, &err), PW_E_SHAPE);
  assert_string_equal(err.field, "size");
  assert_int_equal(pw_buildup_print(&b, text, sizeof text, &err), PW_OK);
  assert_string_equal(text, "10mm clear"); /* no kind is clear glass */
  const double wrong[] = {(double)NAN, INFINITY, 1e-30, 1e30, -3e-3};
  for (size_t i = 0; i < sizeof wrong / sizeof wrong[0];
       i++) { /* no digits that can be read back */
    b.pane[0].thickness = wrong[i];
    assert_int_equal(pw_buildup_print(&b, text, sizeof text, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, "buildup");
  }
}

/* ---------------------------------------------------------------- colour, black glass */

/* The white point of D65 is x 0.3127, y 0.3290: dark or bright it has no hue. L*a*b* is straight below (6/29)^3 = 0.00886. */
static void nearly_nothing_through_is_gray(void **state)
{
  (void)state;
  assert_string_equal(pw_colour_word(0.3127, 0.3290, 0.005), "neutral gray");
  assert_string_equal(pw_colour_word(0.3127, 0.3290, 0.9), "neutral");
  assert_string_equal(pw_colour_word(0.3127, 0.3290, 0.0), "none");
  assert_string_equal(pw_colour_word(0.3127, 0.0, 0.5), "none");
  assert_string_equal(pw_colour_word((double)NAN, (double)NAN, (double)NAN), "none");
}

static pw_spectrum grid;

static void pane_of(double t, double rf, double rb, pw_measured *m)
{
  *m = (pw_measured){.name = "own"};
  for (size_t i = 0; i < PW_LANE; i++) {
    m->normal.t[i] = t;
    m->normal.rf[i] = rf;
    m->normal.rb[i] = rb;
  }
}

static void a_black_pane_has_no_colour(void **state)
{
  (void)state;
  pw_measured m;
  pw_layer layer;
  const pw_layer *list[] = {&layer};
  pw_light light;
  pane_of(0.0, 0.04, 0.2, &m);
  assert_int_equal(pw_layer_measured(&m, &grid, &layer, NULL), PW_OK);
  assert_int_equal(pw_light_build(list, 1, &grid, PW_POL_MEAN, &light, NULL), PW_OK);
  for (size_t a = 0; a < PW_ANGLES; a++)
    pw_assert_near(light.tau_v[a], 0.0, 1e-12, "through", "nothing");
  assert_true(light.cie_x == 0.0 && light.cie_y == 0.0);
  assert_string_equal(pw_colour_word(light.cie_x, light.cie_y, light.tau_v[0]), "none");
}

/* Values at the ends: a pane that is not there (t 1, r 0) is a slab of index 1 without depth; nearly nothing through is told by t alone;
 * more through than its faces let (a rounding) is glass without depth. */
static void slabs_at_the_ends(void **state)
{
  (void)state;
  double n = 0.0, depth = 1.0;
  pw_slab_from_measured(1.0, 0.0, &n, &depth);
  pw_assert_near(n, 1.0, 1e-12, "index", "no pane");
  pw_assert_near(depth, 0.0, 1e-12, "depth", "no pane");
  pw_slab_from_measured(5e-4, 0.0426, &n,
                        &depth); /* one face of index 1.52: 0.0426; a = t / (1 - 0.0426)^2 */
  pw_assert_near(depth, -log(5e-4 / (0.9574 * 0.9574)), 1e-3, "depth", "by hand");
  pw_slab_from_measured(0.9, 0.0, &n, &depth); /* nothing reflects: t is the glass alone */
  pw_assert_near(depth, -log(0.9), 1e-9, "depth", "by hand");
  pw_assert_near(n, 1.0, 1e-9, "index", "no face");
  pw_slab_from_measured(0.93, 0.08, &n, &depth); /* 1.01 in all */
  pw_assert_near(depth, 0.0, 1e-12, "depth", "no less than none");
  pw_slab_from_measured(
      0.3, 0.01, &n,
      &depth); /* reflects less than its own face would with so much behind: still a slab */
  assert_true(isfinite(n) && n >= 1.0 && depth > 0.0 && isfinite(depth));
}

/* ---------------------------------------------------------------- films outdoors */

/* A pane turned about passes the same (reciprocity) and shows its other face. A measured one finds its film where the emissivity is
 * lower. */
static void a_measured_pane_turned_about_is_its_mirror(void **state)
{
  (void)state;
  pw_buildup_pane p = {.thickness = 3e-3, .kind = "clear", .coating = {"", "ag2"}};
  pw_layer known, in, out;
  assert_int_equal(pw_layer_init(&p, NULL, 0, &grid, &known, NULL), PW_OK);
  pw_measured m = {.name = "own", .emit = {0.0, 0.04}, .angular = "ag2"}, turned = m;
  m.normal = known.normal;
  memcpy(turned.normal.t, known.normal.t, sizeof turned.normal.t);
  memcpy(turned.normal.rf, known.normal.rb, sizeof turned.normal.rf);
  memcpy(turned.normal.rb, known.normal.rf, sizeof turned.normal.rb);
  turned.emit[0] = 0.04, turned.emit[1] = 0.0;
  assert_int_equal(pw_layer_measured(&m, &grid, &in, NULL), PW_OK);
  assert_int_equal(pw_layer_measured(&turned, &grid, &out, NULL), PW_OK);
  for (double degree = 0.0; degree <= 90.0; degree += 7.5) {
    pw_sheet a, b;
    double cosine = fmax(cos(degree * 3.14159265358979 / 180.0), 1e-9);
    pw_layer_at(&in, &grid, cosine, PW_POL_MEAN, &a);
    pw_layer_at(&out, &grid, cosine, PW_POL_MEAN, &b);
    for (size_t i = 0; i < PW_GRID; i++) {
      pw_assert_near(b.t[i], a.t[i], 1e-12, "through", "reciprocity");
      pw_assert_near(b.rf[i], a.rb[i], 1e-12, "front", "the other's back");
      pw_assert_near(b.rb[i], a.rf[i], 1e-12, "back", "the other's front");
    }
  }
  /* alike on both sides and yet of a class: it follows the class, not its own index */
  pane_of(0.5, 0.2, 0.2, &m);
  snprintf(m.angular, sizeof m.angular, "ag2");
  assert_int_equal(pw_layer_measured(&m, &grid, &in, NULL), PW_OK);
  assert_int_equal(in.fresnel, 0);
  m.angular[0] = '\0';
  assert_int_equal(pw_layer_measured(&m, &grid, &in, NULL), PW_OK);
  assert_int_equal(in.fresnel, 1);
}

static void no_film_is_no_film(void **state)
{
  (void)state;
  pw_buildup_pane p = {.thickness = 3e-3, .kind = "clear"};
  pw_layer bare, same;
  assert_int_equal(pw_layer_init(&p, NULL, 0, &grid, &bare, NULL), PW_OK);
  same = bare;
  assert_int_equal(pw_layer_coat(&same, &grid, NULL, "", NULL), PW_OK);
  assert_int_equal(pw_layer_coat(&same, &grid, "", NULL, NULL), PW_OK);
  assert_memory_equal(&same, &bare, sizeof bare);
}

/* Between the nineteen angles straight; beyond them the last. */
static void a_class_ends_at_grazing(void **state)
{
  (void)state;
  double v[PW_CLASS_ANGLES];
  for (size_t i = 0; i < PW_CLASS_ANGLES; i++)
    v[i] = 2.0 * (double)i;
  static const double row[][2] = {{-5.0, 0.0},  {0.0, 0.0},   {2.5, 1.0},
                                  {89.0, 35.6}, {90.0, 36.0}, {95.0, 36.0}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    pw_assert_near(pw_at_class_angle(v, row[i][0]), row[i][1], 1e-12, "degrees",
                   "2 each 5 degrees");
}

/* ---------------------------------------------------------------- stacks, own panes */

/* What the panes take is not asked for: the rest is the same to the last bit. */
static void a_stack_without_shares_is_the_same(void **state)
{
  (void)state;
  pw_buildup b;
  pw_layers layers;
  assert_int_equal(pw_buildup_parse("6mm bronze / 12mm air / 3mm clear coat ag2@3", &b, NULL),
                   PW_OK);
  assert_int_equal(pw_layers_init(&b, NULL, 0, &layers, NULL), PW_OK);
  pw_sheet with, without;
  double taken[PW_PANES_MAX][PW_LANE];
  pw_stack_at(layers.list, 2, &grid, 0.5, PW_POL_APART, &with, taken);
  pw_stack_at(layers.list, 2, &grid, 0.5, PW_POL_APART, &without, NULL);
  assert_memory_equal(&with, &without, sizeof with);
  for (size_t i = 0; i < PW_GRID; i++)
    pw_assert_near(with.t[i] + with.rf[i] + taken[0][i] + taken[1][i], 1.0, 1e-12, "shares",
                   "energy");
}

/* Whether the far infrared of an own pane has to be told: bare glass reflects the same on both sides, some 0.08; no bare glass emits less
 * than 0.8, so one low value tells where the film is. */
static void emissivity_is_asked_for_where_a_film_may_be(void **state)
{
  (void)state;
  static const struct {
    double rf, rb, emit[2], stated[2];
    const char *angular;
    int asked;
  } row[] = {{0.08, 0.08, {0, 0}, {0, 0}, "", 0},    {0.08, 0.12, {0, 0}, {0, 0}, "", 1},
             {0.20, 0.20, {0, 0}, {0, 0}, "", 1},    {0.149, 0.1505, {0, 0}, {0, 0}, "", 1},
             {0.08, 0.08, {0, 0}, {0, 0}, "ag2", 1}, {0.08, 0.12, {0.84, 0}, {0, 0}, "", 1},
             {0.08, 0.12, {0, 0.84}, {0, 0}, "", 1}, {0.08, 0.12, {0.84, 0.84}, {0, 0}, "", 0},
             {0.08, 0.12, {0.1, 0}, {0, 0}, "", 0},  {0.08, 0.12, {0, 0.1}, {0, 0}, "", 0},
             {0.08, 0.12, {0, 0}, {0, 0.05}, "", 0}, {0.08, 0.12, {0, 0}, {0.05, 0}, "", 0}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_measured m;
    pw_layer layer;
    pw_err err = {0};
    pw_buildup_pane p = {.thickness = 3e-3, .kind = "own"};
    pane_of(0.5, row[i].rf, row[i].rb, &m);
    memcpy(m.emit, row[i].emit, sizeof m.emit);
    memcpy(p.emit, row[i].stated, sizeof p.emit);
    snprintf(m.angular, sizeof m.angular, "%s", row[i].angular);
    pw_status s = pw_layer_init(&p, &m, 1, &grid, &layer, &err);
    if (s != (row[i].asked ? PW_E_DATA : PW_OK)) fail_msg("row %zu: status %d", i, (int)s);
    if (row[i].asked) assert_string_equal(err.field, "emissivity");
  }
  pw_measured m;
  pw_layer layer;
  pw_err err = {0};
  pw_buildup_pane p = {.thickness = 3e-3, .kind = "own", .coating = {"", "ag2"}};
  pane_of(0.8, 0.08, 0.08, &m);
  assert_int_equal(pw_layer_init(&p, &m, 1, &grid, &layer, &err),
                   PW_E_DATA); /* known as a whole */
  assert_string_equal(err.field, "coating");
  p.coating[1][0] = '\0';
  m.thickness = 4e-3; /* its spectra are for 4 mm */
  assert_int_equal(pw_layer_init(&p, &m, 1, &grid, &layer, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "thickness");
}

/* A curve on the grid is flat beyond its ends and straight between. */
static void one_point_is_a_flat_curve(void **state)
{
  (void)state;
  const double nm = 555.0, v = 0.7;
  double out[PW_LANE];
  pw_spectrum_resample(&grid, &nm, &v, 1, out);
  for (size_t i = 0; i < PW_LANE; i++)
    pw_assert_near(out[i], 0.7, 0.0, "flat", "one point");
}

int main(void)
{
  pw_test_begin();
  pw_spectrum_init(&grid);
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(build_ups_at_the_ends_of_what_is_read),
      cmocka_unit_test(a_text_without_end_has_a_last_column),
      cmocka_unit_test(many_own_panes_are_offered_in_part),
      cmocka_unit_test(a_build_up_is_said_when_it_can_be),
      cmocka_unit_test(nearly_nothing_through_is_gray),
      cmocka_unit_test(a_black_pane_has_no_colour),
      cmocka_unit_test(slabs_at_the_ends),
      cmocka_unit_test(a_measured_pane_turned_about_is_its_mirror),
      cmocka_unit_test(no_film_is_no_film),
      cmocka_unit_test(a_class_ends_at_grazing),
      cmocka_unit_test(a_stack_without_shares_is_the_same),
      cmocka_unit_test(emissivity_is_asked_for_where_a_film_may_be),
      cmocka_unit_test(one_point_is_a_flat_curve),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
