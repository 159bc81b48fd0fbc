/* Windows: what is refused and by which name, what stands at each bound, names of numbers that no enum has. Bounds: the
 * headers. */
#include "refused_by.h"
#include <math.h>

#include "panewright/fit.h"
#include "panewright/lites.h"
#include "panewright/shape.h"
#include "panewright/units.h"
#include "window/caution.h"
#include "window/code_default.h"
#include "window/cut_stock.h"
#include "window/fit_job.h"
#include "window/glass_sound.h"
#include "window/grille.h"
#include "window/materials.h"
#include "window/opening_sound.h"
#include "window/options.h"

#define N(a) (sizeof(a) / sizeof(a)[0])

/* ---------------------------------------------------------------- lites and shapes */

typedef struct cut {
  double width, height, frame, sash, meeting;
} cut;

static pw_status ask_lites(const void *subject, pw_err *err)
{
  const cut *c = subject;
  pw_lites w;
  return pw_lites_cut(PW_SLIDER, "XO", c->width, c->height, c->frame, c->sash, c->meeting, &w,
                      err);
}

static void lites_refused(void **state)
{
  (void)state;
  static const cut c = {1.2, 1.0, 0.05, 0.06, 0.04};
  static const struct {
    size_t offset;
    double value;
    const char *field; /* "" taken */
  } row[] = {
      {offsetof(cut, width), 0.0, "width"},
      {offsetof(cut, width), NAN, "width"},
      {offsetof(cut, width), 100.0, "width"},
      {offsetof(cut, width), 99.9, ""},
      {offsetof(cut, height), 0.0, "width"},
      {offsetof(cut, height), NAN, "width"},
      {offsetof(cut, height), 100.0, "width"},
      {offsetof(cut, height), 99.9, ""},
      {offsetof(cut, frame), -1e-9, "frame_face"},
      {offsetof(cut, frame), NAN, "frame_face"},
      {offsetof(cut, sash), -1e-9, "frame_face"},
      {offsetof(cut, sash), NAN, "frame_face"},
      {offsetof(cut, meeting), -1e-9, "frame_face"},
      {offsetof(cut, meeting), NAN, "frame_face"},
      {offsetof(cut, frame), 0.0, ""},
      {offsetof(cut, sash), 0.0, ""},
      {offsetof(cut, meeting), 0.0, ""},
      {offsetof(cut, frame), INFINITY, "frame_face"},
      {offsetof(cut, sash), INFINITY, "sash_face"},
      {offsetof(cut, sash), 0.5, "sash_face"}, /* half the height: no glass */
      {offsetof(cut, frame), 0.5, "frame_face"},
  };
  for (size_t i = 0; i < N(row); i++) {
    cut one = c;
    pw_err err = {0};
    memcpy((char *)&one + row[i].offset, &row[i].value, sizeof row[i].value);
    refused(ask_lites(&one, &err), row[i].field[0] ? PW_E_DOMAIN : PW_OK, &err, row[i].field);
  }
  for (int k = -1; k <= (int)PW_OPERATOR_COUNT; k += 1 + PW_OPERATOR_COUNT) {
    pw_lites w;
    pw_err err = {0};
    refused(pw_lites_cut((pw_operator)k, "", 1.0, 1.0, 0.05, 0.05, 0.05, &w, &err), PW_E_DOMAIN,
            &err, "operator");
    assert_int_equal(pw_operator_lites((pw_operator)k, ""), 0);
    assert_string_equal(pw_operator_name((pw_operator)k), "any");
  }
}

static void shaped_lites_refused(void **state)
{
  (void)state;
  const pw_shape_size z = {.kind = PW_SHAPE_CIRCLE, .width = 1.0, .height = 1.0};
  pw_bounds circle, none = {.kind = PW_SHAPE_CIRCLE};
  pw_lites w;
  pw_err err = {0};
  assert_int_equal(pw_shape_make(&z, &circle, NULL), PW_OK);
  assert_int_equal(pw_lites_shaped(PW_FIXED, &circle, 0.05, &w, &err), PW_OK);
  static const struct {
    int kind;
    double face;
    const char *field;
  } row[] = {{-1, 0.05, "operator"},
             {PW_OPERATOR_COUNT, 0.05, "operator"},
             {PW_SLIDER, 0.05, "operator"},
             {PW_FIXED, -1e-9, "frame_face"},
             {PW_FIXED, NAN, "frame_face"},
             {PW_FIXED, 0.5, "frame_face"}, /* nothing is left of the glass */
             {PW_AWNING, 0.5, "sash_face"},
             {PW_FIXED, INFINITY, "frame_face"}};
  for (size_t i = 0; i < N(row); i++)
    refused(pw_lites_shaped((pw_operator)row[i].kind, &circle, row[i].face, &w, &err),
            PW_E_DOMAIN, &err, row[i].field);
  refused(pw_lites_shaped(PW_FIXED, &none, 0.05, &w, &err), PW_E_DOMAIN, &err, "shape");
}

/* Each measure that a shape wants, and just beyond what it may be; sizes in m. */
static void shapes_refused(void **state)
{
  (void)state;
  static const struct {
    pw_shape_size z;
    const char *field; /* "" taken */
  } row[] = {
      {{PW_SHAPE_RECTANGLE, 1e-3, 1, 0, 0, 0, 0, 0}, "width_bottom"},
      {{PW_SHAPE_RECTANGLE, 100, 1, 0, 0, 0, 0, 0}, "width_bottom"},
      {{PW_SHAPE_RECTANGLE, NAN, 1, 0, 0, 0, 0, 0}, "width_bottom"},
      {{PW_SHAPE_RECTANGLE, 1, 1e-3, 0, 0, 0, 0, 0}, "height_middle"},
      {{PW_SHAPE_RECTANGLE, 1, 100, 0, 0, 0, 0, 0}, "height_middle"},
      {{PW_SHAPE_RECTANGLE, 1, NAN, 0, 0, 0, 0, 0}, "height_middle"},
      {{PW_SHAPE_RECTANGLE, 0.0011, 99.9, 0, 0, 0, 0, 0}, ""},
      {{PW_SHAPE_TRAPEZOID, 1, 0, 0, -1e-9, 1, 0, 0}, "leg_left"},
      {{PW_SHAPE_TRAPEZOID, 1, 0, 0, 1, -1e-9, 0, 0}, "leg_left"},
      {{PW_SHAPE_TRAPEZOID, 1, 0, 0, NAN, 1, 0, 0}, "leg_left"},
      {{PW_SHAPE_TRAPEZOID, 1, 0, 0, 0, 0, 0, 0}, "leg_left"},
      {{PW_SHAPE_TRAPEZOID, 1, 0, 0, 1, 100, 0, 0}, "leg_left"},
      {{PW_SHAPE_TRAPEZOID, 1, 0, 0, INFINITY, 1, 0, 0}, "leg_left"},
      {{PW_SHAPE_TRAPEZOID, 1, 0, 0, 0, 1, 0, 0}, ""},
      {{PW_SHAPE_TRIANGLE, 1, 1, 0, 0, 0, 1.001, 0}, "peak_at"},
      {{PW_SHAPE_TRIANGLE, 1, 1, 0, 0, 0, NAN, 0}, "peak_at"},
      {{PW_SHAPE_TRIANGLE, 1, 1, 0, 0, 0, 1, 0}, ""},
      {{PW_SHAPE_OCTAGON, 1, 1.1, 0, 0, 0, 0, 0},
       "leg_left"}, /* regular, yet higher than wide */
      {{PW_SHAPE_OCTAGON, 1, 1, 0, 1.001, 0, 0, 0}, "leg_left"},
      {{PW_SHAPE_OCTAGON, 1, 2, 0, 1, 0, 0, 0}, "leg_left"}, /* a level side of no length */
      {{PW_SHAPE_OCTAGON, 1, 2, 0, 1.01, 0, 0, 0}, ""},
      {{PW_SHAPE_ARCH, 1, 1, 0, 0, 0, 0, 0}, "rise"},
      {{PW_SHAPE_ARCH, 1, 1, NAN, 0, 0, 0, 0}, "rise"},
      {{PW_SHAPE_ARCH, 1, 0.4, 0.401, 0, 0, 0, 0}, "rise"},
      {{PW_SHAPE_ARCH, 1, 1, 0.501, 0, 0, 0, 0}, "rise"},
      {{PW_SHAPE_ARCH, 1, 1, 0.5, 0, 0, 0, 0}, ""},
      {{PW_SHAPE_GOTHIC, 1, 1, 0.499, 0, 0, 0, 0}, "rise"},
      {{PW_SHAPE_GOTHIC, 1, 1, 0.5, 0, 0, 0, 0}, ""},
      {{PW_SHAPE_QUARTER_ROUND, 1, 1, 0, 0, 0, -1, 0}, "peak_at"},
      {{PW_SHAPE_QUARTER_ROUND, 1, 1, 0, 0, 0, NAN, 0}, "peak_at"},
      {{PW_SHAPE_QUARTER_ROUND, 1, 1, 0, 0, 1, 0, 0}, "leg_left"},
      {{PW_SHAPE_QUARTER_ROUND, 1, 1.02, 0, 0, 0, 0, 0}, "width"},
      {{PW_SHAPE_COUNT, 1, 1, 0, 0, 0, 0, 0}, "shape"},
      {{(pw_shape_kind)-1, 1, 1, 0, 0, 0, 0, 0}, "shape"},
  };
  for (size_t i = 0; i < N(row); i++) {
    pw_bounds s;
    pw_err err = {0};
    pw_status status = pw_shape_make(&row[i].z, &s, &err);
    if (status != (row[i].field[0] ? PW_E_DOMAIN : PW_OK)) fail_msg("row %zu: %s", i, err.text);
    refused(status, status, &err, row[i].field);
  }
}

/* ---------------------------------------------------------------- fit */

static pw_status fit(const pw_opening *o, pw_err *err)
{
  pw_frame_line line;
  pw_fit f;
  if (pw_frame_line_named("vinyl", o->operator_insert, &line, err) != PW_OK)
    fail_msg("%s", err->text);
  return pw_fit_opening(o, &line, &f, err);
}

static pw_opening measured(pw_shape_kind shape)
{
  pw_opening o;
  pw_opening_init(&o);
  o.shape = shape;
  o.width[1] = o.height[1] = 1.0;
  return o;
}

static void openings_refused(void **state)
{
  (void)state;
  const double inch = PW_INCH, foot = PW_FOOT;
  const struct {
    size_t offset;
    double value;
    const char *field; /* "" taken */
  } row[] = {
      {offsetof(pw_opening, width[1]), 3.99 * inch, "width_middle"},
      {offsetof(pw_opening, width[1]), 20.01 * foot, "width_middle"},
      {offsetof(pw_opening, width[1]), 20.0 * foot, ""},
      {offsetof(pw_opening, width[1]), NAN, "width_middle"},
      {offsetof(pw_opening, height[1]), 0.0, "width_middle"}, /* 0: not measured */
      {offsetof(pw_opening, width[0]), INFINITY, "width_bottom"},
      {offsetof(pw_opening, height[2]), -1.0, "height_right"},
      {offsetof(pw_opening, diagonal[0]), 30.01 * foot, "diagonal_1"},
      {offsetof(pw_opening, diagonal[1]), 3.99 * inch, "diagonal_2"},
      {offsetof(pw_opening, fin_width), -1e-9, "fin_width"},
      {offsetof(pw_opening, fin_width), 0.5, "fin_width"},
      {offsetof(pw_opening, fin_width), NAN, "fin_width"},
      {offsetof(pw_opening, fin_width), 0.02, ""},
      {offsetof(pw_opening, sill_lip), -1e-9, "sill_lip"},
      {offsetof(pw_opening, sill_lip), 1.0, "sill_lip"},
      {offsetof(pw_opening, sill_lip), NAN, "sill_lip"},
      {offsetof(pw_opening, sill_lip), 0.02, ""},
      {offsetof(pw_opening, sill_height), INFINITY, "sill_height"},
      {offsetof(pw_opening, sill_height), -INFINITY, "sill_height"},
      {offsetof(pw_opening, mullion_area), -1e-9, "mullion_area"},
      {offsetof(pw_opening, mullion_area), INFINITY, "mullion_area"},
      {offsetof(pw_opening, mullion_area), NAN, "mullion_area"},
      {offsetof(pw_opening, retained_face), -1e-9, "retained_face"},
      {offsetof(pw_opening, retained_face), 4.0 * inch, "retained_face"},
      {offsetof(pw_opening, retained_face), NAN, "retained_face"},
      {offsetof(pw_opening, retained_face), 3.99 * inch, ""},
      {offsetof(pw_opening, frame_face), 0.0, "frame_face"},
      {offsetof(pw_opening, frame_face), -1e-9, "frame_face"},
      {offsetof(pw_opening, frame_face), INFINITY, "frame_face"},
  };
  for (size_t i = 0; i < N(row); i++) {
    pw_opening o = measured(PW_SHAPE_RECTANGLE);
    pw_err err = {0};
    memcpy((char *)&o + row[i].offset, &row[i].value, sizeof row[i].value);
    pw_status s = fit(&o, &err);
    if (s != (row[i].field[0] ? PW_E_DOMAIN : PW_OK)) fail_msg("row %zu: %s", i, err.text);
    refused(s, s, &err, row[i].field);
  }
  pw_opening o = measured(PW_SHAPE_RECTANGLE);
  pw_fit f;
  pw_err err = {0};
  refused(pw_fit_opening(&o, NULL, &f, &err), PW_E_SHAPE, &err, "frame_line");
  for (int fins = -1; fins <= 3; fins++) {
    o.fins_cut = fins;
    refused(fit(&o, &err), fins < 0 || fins > 2 ? PW_E_DOMAIN : PW_OK, &err,
            fins < 0 || fins > 2 ? "fins_cut"
            : err.field          ? err.field
                                 : "");
  }
}

static void shaped_openings_refused(void **state)
{
  (void)state;
  pw_err err = {0};
  pw_opening o = measured(PW_SHAPE_CIRCLE);
  o.option.grille = (pw_grille){PW_GRILLE_BETWEEN, 2, 3, 0.016};
  refused(fit(&o, &err), PW_E_DOMAIN, &err, "grilles");
  o.option.grille = (pw_grille){PW_GRILLE_BETWEEN, 1, 1, 0.0}; /* no bars in it */
  o.fins_cut = 1;
  refused(fit(&o, &err), PW_E_DOMAIN, &err, "fins_cut");
  o.fins_cut = 2;
  o.sill_lip = 0.01;
  refused(fit(&o, &err), PW_E_DOMAIN, &err, "sill_lip");
  o = measured(PW_SHAPE_OCTAGON);
  o.sill_lip = 0.01;
  refused(fit(&o, &err), PW_E_DOMAIN, &err, "sill_lip");
  o = measured(PW_SHAPE_TRIANGLE);
  o.fin_width = 0.01;
  refused(fit(&o, &err), PW_E_DOMAIN, &err, "fin_width");
  o = measured(PW_SHAPE_ARCH); /* its rise is not known */
  refused(fit(&o, &err), PW_E_DOMAIN, &err, "rise");
}

/* Of a job the opening is named, and a package whose frame line there is not. */
static void jobs_refused(void **state)
{
  (void)state;
  static pw_frame_line line;
  pw_opening o = measured(PW_SHAPE_RECTANGLE);
  pw_package package;
  pw_fit f;
  pw_err err = {0};
  pw_package_init(&package);
  assert_int_equal(pw_frame_line_named("vinyl", PW_FIXED, &line, &err), PW_OK);
  memcpy(o.tag, "B7", sizeof "B7");
  pw_job job = {.n_opening = 1, .n_package = 1, .n_frame_line = 1};
  job.opening = &o;
  job.package = &package;
  job.frame_line = &line;
  assert_int_equal(pw_fit_job(&job, 0, &f, &err), PW_OK);
  o.sill_lip = 2.0;
  refused(pw_fit_job(&job, 0, &f, &err), PW_E_DOMAIN, &err, "sill_lip");
  assert_non_null(strstr(err.text, "opening B7: "));
  assert_int_equal(pw_fit_job(&job, 0, &f, NULL), PW_E_DOMAIN);
  o.sill_lip = 0.0;
  job.n_frame_line = 0;
  refused(pw_fit_job(&job, 0, &f, &err), PW_E_DATA, &err, "frame_line");
  job.n_frame_line = 1;
  pw_install install = {0};
  pw_materials_job sum;
  assert_int_equal(pw_fit_job(&job, 0, &f, &err), PW_OK);
  o.quantity = PW_MATERIALS_UNITS + 1;
  refused(pw_materials_of_job(&job, 0, &f, &install, &sum, &err), PW_E_DOMAIN, &err,
          "quantity");
  pw_opening two[2] = {o, o};
  const pw_fit fits[2] = {f, f};
  const pw_install plans[2] = {install, install};
  two[0].quantity = 2;
  two[1].quantity = -1; /* not one window in all */
  job.opening = two;
  job.n_opening = 2;
  refused(pw_materials_of_job(&job, 0, fits, plans, &sum, &err), PW_E_DOMAIN, &err, "quantity");
  pw_materials_free(NULL);
  pw_cautions_free(NULL);
}

/* ---------------------------------------------------------------- the rest */

static void code_defaults_refused(void **state)
{
  (void)state;
  static const struct {
    int code, kind;
    size_t n_pane;
    const char *field; /* "" taken */
  } row[] = {{-1, 0, 1, "code"},
             {PW_CODE_COUNT, 0, 1, "code"},
             {PW_CODE_IECC, -1, 1, "kind"},
             {PW_CODE_IECC, PW_FRAME_KIND_COUNT, 1, "kind"},
             {PW_CODE_IECC, PW_FRAME_STEEL, 0, "n_pane"},
             {PW_CODE_IECC, PW_FRAME_STEEL, 1, ""},
             {PW_CODE_CALIFORNIA, PW_FRAME_STEEL, 3, ""}};
  for (size_t i = 0; i < N(row); i++) {
    pw_code_values v;
    pw_err err = {0};
    refused(pw_code_default((pw_code)row[i].code, (pw_frame_kind)row[i].kind, PW_FIXED,
                            row[i].n_pane, 0, &v, &err),
            row[i].field[0] ? PW_E_DOMAIN : PW_OK, &err, row[i].field);
  }
}

/* A metal door has a row of its own in the Californian table, another door or another metal window that of its frame. */
static void a_metal_door_is_no_metal_window(void **state)
{
  (void)state;
  pw_code_values door, window, wood;
  assert_int_equal(pw_code_default(PW_CODE_CALIFORNIA, PW_FRAME_ALUMINIUM, PW_SLIDING_DOOR, 2,
                                   0, &door, NULL),
                   PW_OK);
  assert_int_equal(
      pw_code_default(PW_CODE_CALIFORNIA, PW_FRAME_STEEL, PW_SLIDER, 2, 0, &window, NULL),
      PW_OK);
  assert_int_equal(
      pw_code_default(PW_CODE_CALIFORNIA, PW_FRAME_WOOD, PW_HINGED_DOOR, 2, 0, &wood, NULL),
      PW_OK);
  /* 0.77, 0.79, 0.58 Btu/(h ft2 F): California Energy Code Table 110.6-A, as in criteria.csv. */
  pw_assert_near(door.u / PW_U_IP, 0.77, 1e-12, "metal door", "criteria.csv");
  pw_assert_near(window.u / PW_U_IP, 0.79, 1e-12, "metal, opens", "criteria.csv");
  pw_assert_near(wood.u / PW_U_IP, 0.58, 1e-12, "other, opens", "criteria.csv");
}

static void glass_without_a_leaf_refused(void **state)
{
  (void)state;
  pw_buildup b = {0};
  pw_thirds r;
  unsigned notes = 77;
  pw_err err = {0};
  refused(pw_glass_sound(&b, NULL, 0.5, &r, &notes, &err), PW_E_SHAPE, &err, "n_pane");
  b.n_pane = PW_PANES_MAX + 1;
  refused(pw_glass_sound(&b, NULL, 0.5, &r, &notes, &err), PW_E_SHAPE, &err, "n_pane");
  assert_int_equal(pw_buildup_parse("6.4mm laminated", &b, NULL), PW_OK);
  b.pane[0].thickness = 7.5e-3; /* 6.4, 6.8, 8.4 mm are known: none within 0.35 */
  refused(pw_glass_sound(&b, NULL, 0.5, &r, &notes, &err), PW_E_DOMAIN, &err, "thickness");
  assert_int_equal(notes, 77);
  b.pane[0].thickness = 6.4e-3;
  assert_int_equal(pw_glass_sound(&b, NULL, 0.5, &r, NULL, &err), PW_OK); /* notes not asked */
}

static void cuts_refused(void **state)
{
  (void)state;
  static const struct {
    int piece, stock, kerf;
    const char *field; /* "" taken */
  } row[] = {{1, 0, 0, "stock"},   {1, 1000001, 0, "stock"}, {1, 1000000, 0, ""},
             {1, 10, -1, "stock"}, {1, 10, 11, "stock"},     {1, 10, 10, ""},
             {0, 10, 1, "piece"},  {11, 10, 1, "piece"},     {10, 10, 1, ""}};
  for (size_t i = 0; i < N(row); i++) {
    size_t place[1];
    pw_cut_plan plan;
    pw_err err = {0};
    refused(pw_cut_stock(&row[i].piece, 1, row[i].stock, row[i].kerf, 1000, place, &plan, &err),
            row[i].field[0] ? PW_E_DOMAIN : PW_OK, &err, row[i].field);
  }
}

static void sound_without_area_refused(void **state)
{
  (void)state;
  pw_thirds r = {{0}}, out;
  pw_sound_part part = {1.0, &r};
  pw_err err = {0};
  refused(pw_sound_composite(&part, 0, NULL, 0, 1.0, &out, &err), PW_E_SHAPE, &err, "part");
  const double never[] = {0.0, -1.0, (double)NAN, INFINITY};
  for (size_t i = 0; i < N(never); i++)
    refused(pw_sound_composite(&part, 1, NULL, 0, never[i], &out, &err), PW_E_DOMAIN, &err,
            "area");
  part.area = -1e-9;
  refused(pw_sound_composite(&part, 1, NULL, 0, 1.0, &out, &err), PW_E_DOMAIN, &err, "part");
  part.area = (double)NAN;
  refused(pw_sound_composite(&part, 1, NULL, 0, 1.0, &out, &err), PW_E_DOMAIN, &err, "part");
  part.area = INFINITY;
  refused(pw_sound_composite(&part, 1, NULL, 0, 1.0, &out, &err), PW_E_DOMAIN, &err, "part");
}

/* A number beyond its enum has a word all the same. */
static void numbers_without_a_name(void **state)
{
  (void)state;
  for (int k = -9; k <= 99; k += 108) {
    assert_string_equal(pw_shape_name((pw_shape_kind)k), "unknown");
    assert_string_equal(pw_square_name((pw_square)k), "unknown");
    assert_string_equal(pw_code_name((pw_code)k), "unknown");
    assert_string_equal(pw_caution_state_name((pw_caution_state)k), "?");
    assert_string_equal(pw_tint_name((pw_tint)k), "none");
    assert_string_equal(pw_grille_name((pw_grille_place)k), "none");
    assert_string_equal(pw_hinge_name((pw_hinge)k), "");
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(lites_refused),
      cmocka_unit_test(shaped_lites_refused),
      cmocka_unit_test(shapes_refused),
      cmocka_unit_test(openings_refused),
      cmocka_unit_test(shaped_openings_refused),
      cmocka_unit_test(jobs_refused),
      cmocka_unit_test(code_defaults_refused),
      cmocka_unit_test(a_metal_door_is_no_metal_window),
      cmocka_unit_test(glass_without_a_leaf_refused),
      cmocka_unit_test(cuts_refused),
      cmocka_unit_test(sound_without_area_refused),
      cmocka_unit_test(numbers_without_a_name),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
