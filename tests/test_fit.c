/* window/fit and its neighbours. The published order sizes, square classes and glass losses are the
 * group `trade` of the checks; here stand properties, findings and refusals. */
#include "support.h"

#include <math.h>
#include <string.h>

#include "panewright/fit.h"
#include "panewright/units.h"
#include "window/frame_line.h"
#include "window/install.h"

static pw_frame_line vinyl(pw_operator kind)
{
  pw_frame_line line[32];
  size_t n = pw_frame_line_count();
  for (size_t i = 0; i < n && i < 32; i++)
    pw_frame_line_builtin(i, &line[i]);
  const pw_frame_line *found = pw_frame_line_pick(line, n, "vinyl", kind);
  assert_non_null(found);
  return *found;
}

static pw_opening opening(pw_operator kind, double width, double height)
{
  pw_opening o = {.tag = "T",
                  .quantity = 1,
                  .operator_existing = kind,
                  .operator_insert = kind,
                  .fin_width = 0.5 * PW_INCH,
                  .fins_cut = 2,
                  .sill_lip = 0.5625 * PW_INCH,
                  .sill_lip_cut = 1,
                  .sill_height = 30.0 * PW_INCH,
                  .frame_face = pw_existing_frame_face(kind),
                  .sash_face = pw_existing_sash_face(),
                  .meeting_face = pw_existing_meeting_face()};
  for (int i = 0; i < 3; i++) {
    o.width[i] = width * PW_INCH;
    o.height[i] = height * PW_INCH;
  }
  o.diagonal[0] = o.diagonal[1] = hypot(width, height) * PW_INCH;
  return o;
}

static int found(const pw_fit *f, pw_finding_kind kind)
{
  for (size_t i = 0; i < f->n_finding; i++)
    if (f->finding[i].kind == kind) return 1;
  return 0;
}

static pw_fit fit(const pw_opening *o)
{
  pw_frame_line line = vinyl(o->operator_insert);
  pw_fit f;
  pw_err err = {0};
  if (pw_fit_opening(o, &line, &f, &err) != PW_OK) fail_msg("%s", err.text);
  return f;
}

/* Every operator, many sizes, every way of cutting: parts of the opening sum to it to 1e-12. */
static void parts_sum_to_the_opening(void **state)
{
  (void)state;
  for (int kind = 0; kind < PW_OPERATOR_COUNT; kind++)
    for (double w = 30.0; w < 120.0; w += 17.3)
      for (int cut = 0; cut < 6; cut++) {
        pw_opening o = opening((pw_operator)kind, w, 40.0 + 0.3 * w);
        o.fins_cut = cut % 3;
        o.sill_lip_cut = cut / 3;
        o.retained_face = cut * 0.1 * PW_INCH;
        pw_fit f = fit(&o);
        double sum = f.insert.glass_area + f.insert.frame_area + f.retained_area;
        pw_assert_near(sum, f.opening_area, 1e-12, "insert, frame, ring", "areas sum");
        pw_assert_near(f.existing.glass_area + f.existing_frame_area, f.opening_area, 1e-12,
                       "existing", "areas sum");
        double ring_w = f.retained_width[PW_LEFT] + f.retained_width[PW_RIGHT] + f.order_width;
        double ring_h = f.retained_width[PW_BOTTOM] + f.retained_width[PW_TOP] + f.order_height;
        pw_assert_near(ring_w, f.opening_width, 1e-12, "ring across", "lengths sum");
        pw_assert_near(ring_h, f.opening_height, 1e-12, "ring up", "lengths sum");
        double lites = 0.0;
        for (size_t i = 0; i < f.insert.n_lite; i++) {
          const pw_lite *l = &f.insert.lite[i];
          lites += l->width * l->height;
          assert_true(l->x > 0.0 && l->y > 0.0);
          assert_true(l->x + l->width < f.order_width && l->y + l->height < f.order_height);
        }
        pw_assert_near(lites, f.insert.glass_area, 1e-15, "lites", "areas sum");
      }
}

static void the_order_fits_the_pocket_and_cutting_never_costs(void **state)
{
  (void)state;
  for (double d = 0.0; d <= 0.5; d += 0.0625) {
    pw_opening o = opening(PW_SLIDER, 47.5, 35.5);
    o.diagonal[0] += d * PW_INCH;
    pw_fit f = fit(&o);
    assert_true(f.order_width <= f.pocket_width - f.clearance + 1e-12);
    assert_true(f.order_width <= f.pocket_width - f.lean - 0.125 * PW_INCH + 1e-12);
    assert_true(f.order_height <= f.pocket_height - f.clearance + 1e-12);
    double eighths = f.order_width / PW_INCH * 8.0;
    pw_assert_near(eighths, round(eighths), 1e-9, "order in eighths", "measure.csv M8");
    assert_int_equal(f.n_choice, 4);
    assert_true(f.choice[3].glass_area > f.choice[2].glass_area);
    assert_true(f.choice[2].glass_area > f.choice[0].glass_area);
    /* Both fins of 1/2 in buy 1 in of width: measure.csv F7. */
    pw_assert_near(f.fins_width_gain / PW_INCH, 1.0, 1e-9, "fins", "measure.csv F7");
    assert_true(f.fins_glass_gain > 0.0 && f.lip_glass_gain > 0.0);
  }
}

/* A parallelogram W x H leaning by s has diagonals sqrt((W +- s)^2 + H^2): measure.csv M12. */
static void lean_is_that_of_the_parallelogram(void **state)
{
  (void)state;
  for (double s = 0.0; s < 0.6; s += 0.05) {
    pw_opening o = opening(PW_SINGLE_HUNG, 35.5, 59.5);
    o.diagonal[0] = hypot(35.5 + s, 59.5) * PW_INCH;
    o.diagonal[1] = hypot(35.5 - s, 59.5) * PW_INCH;
    pw_fit f = fit(&o);
    pw_assert_near(f.lean / PW_INCH, s, 1e-9, "lean", "measure.csv M12, closed form");
    assert_int_equal(f.lean_governs, s > 0.25 + 1e-6);
  }
}

static void square_classes_change_at_their_limits(void **state)
{
  (void)state;
  static const struct {
    double difference;
    pw_square square;
  } row[] = {{0.0, PW_SQUARE_OK},           {0.125, PW_SQUARE_OK},
             {0.1875, PW_SQUARE_ADJUST},    {0.25, PW_SQUARE_ADJUST},
             {0.3125, PW_SQUARE_REMEASURE}, {0.5, PW_SQUARE_REMEASURE},
             {0.5625, PW_SQUARE_STOP}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_opening o = opening(PW_SLIDER, 60.0, 45.0); /* 75 in across */
    o.diagonal[0] = (75.0 + row[i].difference / 2.0) * PW_INCH;
    o.diagonal[1] = (75.0 - row[i].difference / 2.0) * PW_INCH;
    pw_fit f = fit(&o);
    assert_int_equal(f.square, row[i].square); /* measure.csv M3, M4, M5 */
    assert_int_equal(found(&f, PW_FINDING_STOP), row[i].square == PW_SQUARE_STOP);
    assert_false(found(&f, PW_FINDING_DIAGONAL));
  }
}

static void sound_readings_raise_no_finding(void **state)
{
  (void)state;
  pw_opening o = opening(PW_SLIDER, 47.5, 35.5);
  assert_int_equal(fit(&o).n_finding, 0);
}

static void readings_that_cannot_all_be_true_are_pointed_out(void **state)
{
  (void)state;
  pw_opening o = opening(PW_SLIDER, 35.5, 47.5);
  o.width[2] = 53.5 * PW_INCH; /* 35 with digits exchanged */
  pw_fit f = fit(&o);
  assert_true(found(&f, PW_FINDING_TRANSPOSED));
  assert_non_null(strstr(pw_said(&f.finding[0].says), "width_top 53 1/2 in reads like 35 1/2"));
  pw_assert_near(f.order_width / PW_INCH, 36.125, 1e-9, "order from the smallest", "item 5");

  o = opening(PW_SLIDER, 35.5, 47.5);
  o.height[0] = 35.5 * PW_INCH;
  f = fit(&o);
  assert_true(found(&f, PW_FINDING_SWAPPED));

  o = opening(PW_SLIDING_DOOR, 79.5, 71.5);
  f = fit(&o);
  assert_true(found(&f, PW_FINDING_SWAPPED));

  o = opening(PW_SLIDER, 47.5, 35.5);
  o.diagonal[0] = 95.3 * PW_INCH; /* 59.3 misread */
  f = fit(&o);
  assert_true(found(&f, PW_FINDING_TRANSPOSED) && found(&f, PW_FINDING_DIAGONAL));
  pw_assert_near(f.lean, 0.0, 0.0, "lean not believed", "stated in fit.h");

  o = opening(PW_SLIDER, 47.5, 35.5);
  o.diagonal[0] = o.diagonal[1] = 60.5 * PW_INCH; /* equal, and of no such rectangle */
  f = fit(&o);
  assert_true(found(&f, PW_FINDING_DIAGONAL));

  o = opening(PW_SLIDER, 74.5, 35.5); /* all widths 47 written as 74 */
  o.diagonal[0] = o.diagonal[1] = hypot(47.5, 35.5) * PW_INCH;
  f = fit(&o);
  assert_true(found(&f, PW_FINDING_TRANSPOSED) && found(&f, PW_FINDING_DIAGONAL));

  o = opening(PW_SLIDER, 35.5, 71.5);
  assert_true(found((f = fit(&o), &f), PW_FINDING_SHAPE));

  o = opening(PW_SLIDER, 47.5, 35.5);
  o.width[0] = 47.75 * PW_INCH;
  assert_true(found((f = fit(&o), &f), PW_FINDING_SPREAD));

  o = opening(PW_SLIDER, 47.5, 35.5);
  o.diagonal[1] = 0.0;
  o.height[1] = o.height[2] = 0.0;
  f = fit(&o);
  assert_true(found(&f, PW_FINDING_NO_DIAGONAL) && found(&f, PW_FINDING_ONE_READING));
  assert_int_equal(f.square, PW_SQUARE_UNKNOWN);
}

/* SAFETY.md: slider half the width less 2 to 3 in, hung half the height less 2.5 to 3, casement
 * width less 4 to 6, height less 3; fixed nothing. */
static void clear_opening_follows_the_operator(void **state)
{
  (void)state;
  pw_opening o = opening(PW_SLIDER, 59.375, 47.4375); /* orders 60 x 47 5/8 as sample A4 */
  pw_fit f = fit(&o);
  pw_assert_near(f.clear_insert.width / PW_INCH, 27.0, 1e-9, "slider width", "SAFETY.md");
  pw_assert_near(f.clear_insert.height / PW_INCH, 44.625, 1e-9, "slider height", "SAFETY.md");
  assert_true(f.clear_existing.area > f.clear_insert.area);
  assert_true(f.clear_insert.bottom > f.clear_existing.bottom);
  o = opening(PW_FIXED, 59.375, 47.4375);
  pw_assert_near(fit(&o).clear_insert.area, 0.0, 0.0, "fixed", "SAFETY.md");
  o = opening(PW_CASEMENT, 29.5, 47.5);
  f = fit(&o);
  pw_assert_near((f.order_width - f.clear_insert.width) / PW_INCH, 6.0, 1e-9, "casement",
                 "SAFETY.md");
  pw_assert_near((f.bare_width - f.clear_existing.width) / PW_INCH, 4.0, 1e-9, "old casement",
                 "SAFETY.md");
  pw_assert_near((f.order_height - f.clear_insert.height) / PW_INCH, 3.0, 1e-9, "its height",
                 "SAFETY.md");
  o.sill_height = PW_NOT_GIVEN;
  assert_true(fit(&o).clear_insert.bottom < 0.0);
}

/* A picture lite between two quarters, whatever else is asked of the faces (trade, from memory). */
static void a_flanker_is_a_picture_between_two_quarters(void **state)
{
  (void)state;
  pw_lites w;
  assert_int_equal(pw_lites_cut(PW_FLANKER, "XOX", 4.0, 1.0, 0.0, 0.0, 0.0, &w, NULL), PW_OK);
  assert_int_equal(w.n_lite, 3);
  pw_assert_near(w.lite[0].width, 1.0, 1e-12, "left flanker", "a quarter");
  pw_assert_near(w.lite[1].width, 2.0, 1e-12, "picture", "a half");
  pw_assert_near(w.lite[2].width, 1.0, 1e-12, "right flanker", "a quarter");
  /* 0.1 m rails stand half on either side of the seam, 0.05 m frame at the ends. */
  assert_int_equal(pw_lites_cut(PW_FLANKER, "XOX", 4.0, 1.0, 0.05, 0.05, 0.1, &w, NULL), PW_OK);
  pw_assert_near(w.lite[0].width, 0.9, 1e-12, "left flanker", "by hand");
  pw_assert_near(w.lite[1].width, 1.9, 1e-12, "picture", "by hand");
}

static void refusals_name_the_column_and_leave_the_result(void **state)
{
  (void)state;
  static const struct {
    const char *field;
    size_t offset;
    double inch;
  } row[] = {{"width_top", offsetof(pw_opening, width[2]), 3.0},
             {"width_top", offsetof(pw_opening, width[2]), 300.0},
             {"height_left", offsetof(pw_opening, height[0]), -5.0},
             {"diagonal_2", offsetof(pw_opening, diagonal[1]), 500.0},
             {"fin_width", offsetof(pw_opening, fin_width), 30.0},
             {"sill_lip", offsetof(pw_opening, sill_lip), 40.0},
             {"retained_face", offsetof(pw_opening, retained_face), 5.0},
             {"sash_face", offsetof(pw_opening, sash_face), 20.0},
             {"width_bottom", offsetof(pw_opening, width[0]), INFINITY},
             {"fin_width", offsetof(pw_opening, fin_width), NAN}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_opening o = opening(PW_SLIDER, 47.5, 35.5);
    *(double *)(void *)((char *)&o + row[i].offset) = row[i].inch * PW_INCH;
    pw_frame_line line = vinyl(PW_SLIDER);
    pw_fit f = {.order_width = 7.0};
    pw_err err = {0};
    assert_int_equal(pw_fit_opening(&o, &line, &f, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, row[i].field);
    assert_true(f.order_width == 7.0);
  }
}

/* The limits themselves, 4 in and 20 ft (a diagonal 30), are taken, a hundredth of an inch past them is not; what is cut is 0 to 2 fins, of a shape both
 * or none; a shape has no bars, a triangle no fins, a circle and an octagon no lip. */
static void sizes_and_cuts_at_their_limits(void **state)
{
  (void)state;
  pw_fit f;
  pw_err err = {0};
  static const struct {
    size_t offset;
    double good, bad;
    const char *field;
  } row[] = {{offsetof(pw_opening, width[1]), 4.0, 3.99, "width_middle"},
             {offsetof(pw_opening, height[1]), 240.0, 240.01, "height_middle"},
             {offsetof(pw_opening, width[1]), 240.0, 240.01, "width_middle"},
             {offsetof(pw_opening, diagonal[0]), 360.0, 360.01, "diagonal_1"},
             {offsetof(pw_opening, fin_width), 0.0, -0.01, "fin_width"},
             {offsetof(pw_opening, fin_width), 23.7, 23.75, "fin_width"},
             {offsetof(pw_opening, sill_lip), 35.4, 35.5, "sill_lip"},
             {offsetof(pw_opening, retained_face), 3.99, 4.0, "retained_face"}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    for (int bad = 0; bad < 2; bad++) {
      pw_opening o = opening(PW_FIXED, 47.5, 35.5);
      o.width[0] = o.width[2] = o.height[0] = o.height[2] = PW_NOT_GIVEN;
      o.diagonal[0] = o.diagonal[1] = PW_NOT_GIVEN;
      *(double *)(void *)((char *)&o + row[i].offset) =
          (bad ? row[i].bad : row[i].good) * PW_INCH;
      pw_frame_line line = vinyl(PW_FIXED);
      err.field = "";
      pw_status status = pw_fit_opening(&o, &line, &f, &err);
      if (bad) assert_int_equal(status, PW_E_DOMAIN);
      if (strcmp(err.field, row[i].field) == 0 && !bad) fail_msg("row %zu: %s", i, err.text);
      if (bad) assert_string_equal(err.field, row[i].field);
    }
  for (int cut = -1; cut <= 3; cut++) {
    pw_opening o = opening(PW_SLIDER, 47.5, 35.5);
    pw_frame_line line = vinyl(PW_SLIDER);
    o.fins_cut = cut;
    int good = cut >= 0 && cut <= 2;
    assert_int_equal(pw_fit_opening(&o, &line, &f, &err), good ? PW_OK : PW_E_DOMAIN);
    if (!good) assert_string_equal(err.field, "fins_cut");
  }
  static const struct {
    pw_shape_kind shape;
    int fins_cut, bars;
    double fin, lip;
    const char *field; /* NULL: taken */
  } shape[] = {{PW_SHAPE_HALF_ROUND, 2, 0, 0.5, 0.5, NULL},
               {PW_SHAPE_HALF_ROUND, 1, 0, 0.5, 0.0, "fins_cut"},
               {PW_SHAPE_HALF_ROUND, 0, 1, 0.0, 0.0, "grilles"},
               {PW_SHAPE_TRIANGLE, 0, 0, 0.5, 0.0, "fin_width"},
               {PW_SHAPE_TRIANGLE, 0, 0, 0.0, 0.0, NULL},
               {PW_SHAPE_CIRCLE, 0, 0, 0.0, 0.5, "sill_lip"},
               {PW_SHAPE_OCTAGON, 0, 0, 0.0, 0.5, "sill_lip"},
               {PW_SHAPE_OCTAGON, 0, 0, 0.0, 0.0, NULL}};
  for (size_t i = 0; i < sizeof shape / sizeof shape[0]; i++) {
    pw_opening o = opening(PW_FIXED, 40.0, shape[i].shape == PW_SHAPE_HALF_ROUND ? 30.0 : 40.0);
    pw_frame_line line = vinyl(PW_FIXED);
    o.shape = shape[i].shape;
    o.diagonal[0] = o.diagonal[1] = o.rise = o.leg_left = o.leg_right = o.peak_at =
        PW_NOT_GIVEN;
    o.fin_width = shape[i].fin * PW_INCH;
    o.sill_lip = shape[i].lip * PW_INCH;
    o.fins_cut = shape[i].fins_cut;
    if (shape[i].bars) o.option.grille = (pw_grille){PW_GRILLE_BETWEEN, 2, 2, 0.02};
    pw_status status = pw_fit_opening(&o, &line, &f, &err);
    if (!shape[i].field && status != PW_OK) fail_msg("row %zu: %s", i, err.text);
    if (!shape[i].field) continue;
    assert_int_equal(status, PW_E_DOMAIN);
    assert_string_equal(err.field, shape[i].field);
  }
}

/* Published: measure.md item 9: 60 in of vinyl moves +-0.054 in at each end for +-50 F; Class 25
 * needs 0.22 in: use 1/4 in. measure.csv S5: rod 1.33 x the width; S4: depth half the width. */
static void the_sealant_joint_is_that_of_the_example(void **state)
{
  (void)state;
  pw_opening o = opening(PW_SLIDER, 59.375, 47.4375); /* orders 60 in wide */
  pw_fit f = fit(&o);
  pw_house_facts house = {.sealant = "polyurethane", .paint_wait_days = 7.0};
  pw_install p;
  pw_install_plan(&o, &f, &house, PW_FRAME_VINYL, 0, &p);
  pw_assert_near(f.order_width / PW_INCH, 60.0, 1e-9, "order", "sample A4");
  pw_assert_near(p.movement / PW_INCH, 0.054, 5e-4, "movement", "measure.md item 9");
  pw_assert_near(p.joint_wanted / PW_INCH, 0.25, 1e-9, "joint", "measure.md item 9");
  pw_assert_near(p.joint_depth / PW_INCH, 0.125, 1e-9, "depth", "measure.csv S4");
  pw_assert_near(p.backer / PW_INCH, 0.25, 1e-9, "rod", "measure.csv S5, next 1/8 in");
  /* The order leaves (60.375 - 60) / 2 = 3/16 in a side: the joint is no wider, and 0.054 in of movement
   * in it wants Class 35 (measure.csv S2: 0.054 / 0.1875 = 0.29). */
  pw_assert_near(p.gap / PW_INCH, 0.1875, 1e-9, "gap", "arithmetic");
  pw_assert_near(p.joint_width / PW_INCH, 0.1875, 1e-9, "joint held by the gap", "arithmetic");
  pw_assert_near(p.joint_class, 35.0, 0.0, "class", "measure.csv S2");
  assert_true(p.paint_stated && p.paint_days_low == 7.0);
  assert_non_null(
      strstr(pw_said(&p.line[0]), "both side fins (1/2 in) and the sill lip (9/16 in)"));
  o.fins_cut = 0;
  o.lip_stay = 1;
  house = (pw_house_facts){.sealant = "polyurethane"};
  f = fit(&o);
  pw_install_plan(&o, &f, &house, PW_FRAME_VINYL, 1, &p);
  assert_string_equal(pw_said(&p.line[0]), "Cut nothing of the old frame.");
  assert_non_null(strstr(pw_said(&p.line[2]), "it cannot come off"));
  pw_assert_near(p.paint_days_high, 10.0, 0.0, "paint wait", "measure.csv S6");
  strcpy(house.sealant, "silicone");
  pw_install_plan(&o, &f, &house, PW_FRAME_VINYL, 0, &p);
  assert_false(p.paintable);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(parts_sum_to_the_opening),
      cmocka_unit_test(the_order_fits_the_pocket_and_cutting_never_costs),
      cmocka_unit_test(lean_is_that_of_the_parallelogram),
      cmocka_unit_test(square_classes_change_at_their_limits),
      cmocka_unit_test(sound_readings_raise_no_finding),
      cmocka_unit_test(readings_that_cannot_all_be_true_are_pointed_out),
      cmocka_unit_test(clear_opening_follows_the_operator),
      cmocka_unit_test(a_flanker_is_a_picture_between_two_quarters),
      cmocka_unit_test(refusals_name_the_column_and_leave_the_result),
      cmocka_unit_test(sizes_and_cuts_at_their_limits),
      cmocka_unit_test(the_sealant_joint_is_that_of_the_example),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
