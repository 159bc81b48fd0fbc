/* The plan of the crew and the amounts of materials at their ends: each cut, kind of frame and sealant, what has no size, lists
 * that are full; a cutting plan of equal lengths. Rules are trade/measure.csv and trade/materials.csv, sums by hand. */
#include "support.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "panewright/fit.h"
#include "panewright/units.h"
#include "window/cut_stock.h"
#include "window/install.h"
#include "window/materials.h"

/* A fixed window of 36 x 48 in with a fin of 1/2 and a lip of 5/8. */
static void begin(pw_opening *o, pw_fit *fit)
{
  pw_frame_line line;
  pw_err err = {0};
  pw_opening_init(o);
  for (int i = 0; i < 3; i++) {
    o->width[i] = 36.0 * PW_INCH;
    o->height[i] = 48.0 * PW_INCH;
  }
  o->fin_width = 0.5 * PW_INCH;
  o->sill_lip = 0.625 * PW_INCH;
  if (pw_frame_line_named("vinyl", PW_FIXED, &line, &err) != PW_OK ||
      pw_fit_opening(o, &line, fit, &err) != PW_OK)
    fail_msg("%s", err.text);
}

static int says(const pw_install *p, pw_message_number number)
{
  for (size_t i = 0; i < p->n_line; i++)
    if (p->line[i].number == number) return 1;
  return 0;
}

/* What is cut is said in one sentence, what stays in one of its own each. */
static void each_cut_is_said(void **state)
{
  (void)state;
  static const struct {
    int fins_cut, fins_stay, lip_cut, lip_stay;
    pw_message_number cut, fins, lip; /* 0: nothing stays */
  } row[] = {
      {0, 0, 0, 0, PW_SAY_CUT_NOTHING, PW_SAY_LEAVE_FINS, PW_SAY_LEAVE_LIP},
      {1, 0, 0, 0, PW_SAY_CUT_FIN, PW_SAY_LEAVE_FIN, PW_SAY_LEAVE_LIP},
      {2, 0, 0, 0, PW_SAY_CUT_FINS, 0, PW_SAY_LEAVE_LIP},
      {0, 0, 1, 0, PW_SAY_CUT_LIP, PW_SAY_LEAVE_FINS, 0},
      {1, 0, 1, 0, PW_SAY_CUT_FIN_LIP, PW_SAY_LEAVE_FIN, 0},
      {2, 0, 1, 0, PW_SAY_CUT_FINS_LIP, 0, 0},
      {2, 1, 1, 1, PW_SAY_CUT_NOTHING, PW_SAY_LEAVE_FINS_STAY, PW_SAY_LEAVE_LIP_STAYS},
  };
  static const pw_message_number leave[] = {PW_SAY_LEAVE_FINS, PW_SAY_LEAVE_FIN,
                                            PW_SAY_LEAVE_FINS_STAY, PW_SAY_LEAVE_LIP,
                                            PW_SAY_LEAVE_LIP_STAYS};
  const pw_house_facts house = {.paint_wait_days = PW_NOT_GIVEN};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_opening o;
    pw_fit fit;
    pw_install p;
    begin(&o, &fit);
    o.fins_cut = row[i].fins_cut;
    o.fins_stay = row[i].fins_stay;
    o.sill_lip_cut = row[i].lip_cut;
    o.lip_stay = row[i].lip_stay;
    pw_install_plan(&o, &fit, &house, PW_FRAME_VINYL, 1, &p);
    assert_int_equal(p.line[0].number, row[i].cut);
    for (size_t k = 0; k < sizeof leave / sizeof leave[0]; k++)
      assert_int_equal(says(&p, leave[k]), leave[k] == row[i].fins || leave[k] == row[i].lip);
    assert_true(says(&p, PW_SAY_SEE_MARK));
    assert_true(p.n_line <= PW_INSTALL_LINES);
  }
}

/* Half of 50 F x 47.625 in x the coefficient of E1, E2, E4 a side: 3.6e-5, 1.3e-5, 5e-6 /F. Wood moves less than aluminium
 * and takes its row. */
static void frames_move_by_their_kind(void **state)
{
  (void)state;
  static const struct {
    pw_frame_kind kind;
    double coefficient;
  } row[] = {{PW_FRAME_VINYL, 3.6e-5},
             {PW_FRAME_ALUMINIUM, 1.3e-5},
             {PW_FRAME_WOOD, 1.3e-5},
             {PW_FRAME_FIBREGLASS, 5e-6}};
  const pw_house_facts house = {.paint_wait_days = PW_NOT_GIVEN};
  pw_opening o;
  pw_fit fit;
  begin(&o, &fit);
  pw_assert_near(fit.order_height, 47.625 * PW_INCH, 1e-12, "order", "48 less 3/8");
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_install p;
    pw_install_plan(&o, &fit, &house, row[i].kind, 0, &p);
    pw_assert_near(p.movement, 0.5 * row[i].coefficient * 50.0 * 47.625 * PW_INCH, 1e-12,
                   "movement", "by hand");
    assert_false(says(&p, PW_SAY_SEE_MARK));
  }
}

/* S6 3 to 10 days, S7 1/2 to 24 hours, S8 never; a wait that the job states; a sealant that nobody names. */
static void paint_waits_by_the_sealant(void **state)
{
  (void)state;
  static const struct {
    const char *sealant;
    double stated;
    pw_message_number say;
    double low, high; /* NAN: not known */
  } row[] = {
      {"polyurethane", NAN, PW_SAY_PAINT_SHEET, 3.0, 10.0},
      {"acrylic", NAN, PW_SAY_PAINT_SHEET, 0.02, 1.0},
      {"acrylic", 2.0, PW_SAY_PAINT_STATED, 2.0, 2.0},
      {"silicone", NAN, PW_SAY_PAINT_NEVER, NAN, NAN},
      {"hybrid", NAN, PW_SAY_PAINT_ASK, NAN, NAN},
      {"", NAN, PW_SAY_PAINT_ASK, NAN, NAN},
  };
  pw_opening o;
  pw_fit fit;
  begin(&o, &fit);
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_house_facts house = {.paint_wait_days = row[i].stated};
    pw_install p;
    memcpy(house.sealant, row[i].sealant, strlen(row[i].sealant) + 1);
    pw_install_plan(&o, &fit, &house, PW_FRAME_VINYL, 0, &p);
    assert_int_equal(p.line[p.n_line - 1].number, row[i].say);
    assert_true(says(&p, row[i].sealant[0] ? PW_SAY_JOINT_B : PW_SAY_JOINT_B_ANY));
    if (isnan(row[i].low)) {
      assert_true(isnan(p.paint_days_low) && isnan(p.paint_days_high));
    } else {
      pw_assert_near(p.paint_days_low, row[i].low, 1e-12, "low", "measure.csv");
      pw_assert_near(p.paint_days_high, row[i].high, 1e-12, "high", "measure.csv");
    }
  }
}

/* ---------------------------------------------------------------- materials */

static void materials(const pw_opening *o, const pw_fit *fit, const pw_install *p,
                      pw_frame_kind kind, pw_materials *m)
{
  pw_package package;
  pw_package_init(&package);
  package.glass.n_pane = 2;
  package.glass.pane[0].thickness = package.glass.pane[1].thickness = 0.003;
  pw_materials_of(o, fit, p, &package, kind, m);
}

/* Run of a fixed frame, 2 (35.625 + 47.625) in = 13.875 ft, in lb a foot of MA17 .. MA20. */
static void frames_weigh_by_their_kind(void **state)
{
  (void)state;
  static const struct {
    pw_frame_kind kind;
    double low, typical, high;
  } row[] = {{PW_FRAME_VINYL, 0.7, 1.0, 1.5},
             {PW_FRAME_WOOD, 1.0, 1.5, 2.2},
             {PW_FRAME_FIBREGLASS, 0.7, 1.0, 1.5},
             {PW_FRAME_ALUMINIUM, 0.5, 0.8, 1.2},
             {PW_FRAME_STEEL, 0.5, 0.8, 1.2}};
  const pw_install none = {0};
  pw_opening o;
  pw_fit fit;
  begin(&o, &fit);
  pw_assert_near(fit.order_width, 35.625 * PW_INCH, 1e-12, "order", "36 less 3/8");
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_materials m;
    materials(&o, &fit, &none, row[i].kind, &m);
    pw_assert_near((m.mass_low - m.glass_mass) / PW_POUND, 13.875 * row[i].low, 1e-9, "low",
                   "MA17..20");
    pw_assert_near((m.mass - m.glass_mass) / PW_POUND, 13.875 * row[i].typical, 1e-9, "mass",
                   "MA17..20");
    pw_assert_near((m.mass_high - m.glass_mass) / PW_POUND, 13.875 * row[i].high, 1e-9, "high",
                   "MA17..20");
    assert_true(m.seal_length == 0.0 && m.tape == 0.0); /* no joint is planned */
  }
}

/* What has no size takes nothing; a shape whose measures are missing no trim and no shims. */
static void nothing_takes_nothing(void **state)
{
  (void)state;
  const pw_install none = {0};
  pw_opening o;
  pw_fit fit = {.order_width = 0.0};
  pw_materials m;
  pw_opening_init(&o);
  materials(&o, &fit, &none, PW_FRAME_VINYL, &m);
  assert_true(m.n_trim == 0 && m.caulk_length == 0.0 && m.foam_volume == 0.0 && m.shims == 0);
  fit.shape.kind = PW_SHAPE_CIRCLE;
  fit.order_height = 1.0; /* as if it were known: the outline is not */
  materials(&o, &fit, &none, PW_FRAME_VINYL, &m);
  assert_true(m.n_trim == 0 && m.trim_curved == 0.0);
  for (int k = 0; k < 3; k++)
    assert_int_equal(m.n_shim[k], 0);
}

/* A side of 9.2 m, every 0.4 m from 0.1: 23 spans, 24 places, all that there is room for; a longer one stops there. */
static void shims_stop_at_their_room(void **state)
{
  (void)state;
  double place[PW_SHIMS_MAX];
  assert_int_equal(pw_shim_places(9.4, 0.1, 0.4, NULL, 0, place), 24);
  pw_assert_near(place[23], 9.3, 1e-12, "last", "by hand");
  assert_int_equal(pw_shim_places(20.0, 0.1, 0.4, NULL, 0, place), 24);
  assert_int_equal(pw_shim_places(0.0, 0.1, 0.4, NULL, 0, place), 0);
  assert_int_equal(pw_shim_places((double)NAN, 0.1, 0.4, NULL, 0, place), 0);
}

/* 2 cartridges and a hair of rounding are 2, more than that 3. */
static void whole_numbers_are_bought(void **state)
{
  (void)state;
  pw_assert_near(pw_materials_whole(2.0 + 1e-9), 2.0, 0.0, "whole", "by hand");
  pw_assert_near(pw_materials_whole(2.001), 3.0, 0.0, "whole", "by hand");
  pw_assert_near(pw_materials_whole(0.0), 0.0, 0.0, "whole", "by hand");
}

enum { WINDOWS = 70 };

/* The job of so many like windows, their joints as install says. */
static void job_of(const pw_install install[], size_t n, pw_materials_job *sum)
{
  static pw_opening opening[WINDOWS];
  static pw_fit fit[WINDOWS];
  pw_package package;
  pw_frame_line line;
  pw_err err = {0};
  pw_package_init(&package);
  package.glass.n_pane = 1;
  assert_int_equal(pw_frame_line_named("vinyl", PW_FIXED, &line, NULL), PW_OK);
  for (size_t i = 0; i < n; i++)
    begin(&opening[i], &fit[i]);
  pw_job job = {.n_opening = n, .n_package = 1, .n_frame_line = 1};
  job.opening = opening;
  job.package = &package;
  job.frame_line = &line;
  if (pw_materials_of_job(&job, 0, fit, install, sum, &err) != PW_OK) fail_msg("%s", err.text);
}

static pw_install joint(double width, double depth, double class_, double rod)
{
  return (pw_install){.joint_width = width * PW_INCH,
                      .joint_depth = depth * PW_INCH,
                      .joint_class = class_,
                      .backer = rod * PW_INCH,
                      .bead_length = 168.0 * PW_INCH};
}

/* Joints stand in rising width, depth, class, rods in rising width; like ones are added up: by hand from six windows. */
static void joints_and_rods_in_order(void **state)
{
  (void)state;
  const pw_install p[] = {joint(0.375, 0.25, 25, 0.5),  joint(0.25, 0.25, 50, 0.375),
                          joint(0.25, 0.125, 25, 0.25), joint(0.25, 0.25, 25, 0.375),
                          joint(0.375, 0.25, 25, 0.5),  joint(0.0, 0.0, 0, 0.0)};
  static const double want[4][4] = {{0.25, 0.125, 25, 168},
                                    {0.25, 0.25, 25, 168},
                                    {0.25, 0.25, 50, 168},
                                    {0.375, 0.25, 25, 336}};
  static const double rod[3][2] = {{0.25, 168}, {0.375, 336}, {0.5, 336}};
  pw_materials_job s;
  job_of(p, 6, &s);
  assert_int_equal(s.n_joint, 4);
  for (size_t i = 0; i < 4; i++) {
    pw_assert_near(s.joint[i].width / PW_INCH, want[i][0], 1e-9, "width", "by hand");
    pw_assert_near(s.joint[i].depth / PW_INCH, want[i][1], 1e-9, "depth", "by hand");
    pw_assert_near(s.joint[i].class_, want[i][2], 0.0, "class", "by hand");
    pw_assert_near(s.joint[i].length / PW_INCH, want[i][3], 1e-9, "length", "by hand");
  }
  assert_int_equal(s.n_rod, 3);
  for (size_t i = 0; i < 3; i++) {
    pw_assert_near(s.rod[i] / PW_INCH, rod[i][0], 1e-9, "rod", "by hand");
    pw_assert_near(s.rod_length[i] / PW_INCH, rod[i][1], 1e-9, "rod length", "by hand");
  }
  pw_materials_free(&s);
}

/* More sizes than there are rows for: those beyond are left out of the rows, not of the sums. */
static void rows_of_sizes_that_are_full(void **state)
{
  (void)state;
  pw_install p[WINDOWS];
  pw_materials_job s;
  for (size_t i = 0; i < WINDOWS; i++) {
    double width = 0.25 + 0.0625 * (double)i;
    p[i] = joint(width, 0.25, 25.0, 1.25 * width);
  }
  job_of(p, WINDOWS, &s);
  assert_int_equal(s.n_joint, PW_JOINTS_MAX);
  assert_int_equal(s.n_rod, PW_RODS_MAX);
  pw_assert_near(s.seal_length / PW_INCH, 168.0 * WINDOWS, 1e-6, "sealant", "by hand");
  pw_materials_free(&s);
}

/* Four pieces of 40 in two lengths of 100 with a cut of 5: 2 x 40 + 5 each; equal lengths keep the order of their pieces. */
static void equal_lengths_keep_their_order(void **state)
{
  (void)state;
  static const int piece[4] = {40, 40, 40, 40};
  size_t place[4];
  pw_cut_plan plan;
  assert_int_equal(pw_cut_stock(piece, 4, 100, 5, 1000, place, &plan, NULL), PW_OK);
  assert_int_equal(plan.n_stock, 2);
  assert_true(plan.proven);
  static const size_t want[4] = {0, 0, 1, 1};
  for (size_t i = 0; i < 4; i++)
    assert_int_equal(place[i], want[i]);
  pw_assert_near(plan.waste, 0.2, 1e-12, "waste", "160 of 200 in");
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(each_cut_is_said),
      cmocka_unit_test(frames_move_by_their_kind),
      cmocka_unit_test(paint_waits_by_the_sealant),
      cmocka_unit_test(frames_weigh_by_their_kind),
      cmocka_unit_test(nothing_takes_nothing),
      cmocka_unit_test(shims_stop_at_their_room),
      cmocka_unit_test(whole_numbers_are_bought),
      cmocka_unit_test(joints_and_rods_in_order),
      cmocka_unit_test(rows_of_sizes_that_are_full),
      cmocka_unit_test(equal_lengths_keep_their_order),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
