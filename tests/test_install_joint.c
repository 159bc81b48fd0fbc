/* window/install: the joint by hand from reference/trade/measure.csv (S2 to S5, E1, E2, E4) and measure.md item 9; what is said, in its order. */
#include "support.h"

#include <math.h>
#include <string.h>

#include "panewright/units.h"
#include "window/install.h"

/* Half of the expansion over 50 F of the longest side: PVC 3.6e-5 / F, aluminium and wood 1.3e-5, fibreglass 5e-6. Class 25 wants four times
 * that, at least 1/4 in, up to a sixteenth; the gap is half of pocket less order, the lesser way; the joint is never wider, down to
 * a sixteenth; its class is the least that bears the movement; depth half the width, 1/8 to 1/2 in; rod 1.33 times, up to an eighth. In. */
static void the_joint_by_hand(void **state)
{
  (void)state;
  static const struct {
    pw_frame_kind kind;
    double width, height, pocket_w, pocket_h;
    double movement, wanted, gap, joint, class, depth, backer;
  } row[] = {
      {PW_FRAME_VINYL, 60, 40, 60.5, 40.75, 0.054, 0.25, 0.25, 0.25, 25, 0.125, 0.375},
      {PW_FRAME_VINYL, 40, 60, 40.75, 60.5, 0.054, 0.25, 0.25, 0.25, 25, 0.125, 0.375},
      {PW_FRAME_VINYL, 100, 40, 102, 42, 0.09, 0.375, 1.0, 0.375, 25, 0.1875, 0.5},
      {PW_FRAME_VINYL, 100, 40, 100.6, 42, 0.09, 0.375, 0.3, 0.25, 50, 0.125, 0.375},
      {PW_FRAME_VINYL, 100, 40, 100.25, 42, 0.09, 0.375, 0.125, 0.125, 100, 0.125, 0.25},
      {PW_FRAME_VINYL, 100, 40, 99.0, 42, 0.09, 0.375, 0.0, 0.375, 25, 0.1875, 0.5},
      {PW_FRAME_VINYL, 300, 40, 306, 46, 0.27, 1.125, 3.0, 1.125, 25, 0.5, 1.5},
      {PW_FRAME_FIBREGLASS, 60, 40, 61, 41, 0.0075, 0.25, 0.5, 0.25, 25, 0.125, 0.375},
      {PW_FRAME_WOOD, 60, 40, 61, 41, 0.0195, 0.25, 0.5, 0.25, 25, 0.125, 0.375},
      {PW_FRAME_ALUMINIUM, 250, 40, 252, 42, 0.08125, 0.375, 1.0, 0.375, 25, 0.1875, 0.5}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    const pw_fit fit = {.order_width = row[i].width * PW_INCH,
                        .order_height = row[i].height * PW_INCH,
                        .pocket_width = row[i].pocket_w * PW_INCH,
                        .pocket_height = row[i].pocket_h * PW_INCH,
                        .opening_perimeter = 7.5};
    const pw_house_facts house = {0};
    pw_opening o;
    pw_install p;
    pw_opening_init(&o);
    pw_install_plan(&o, &fit, &house, row[i].kind, 0, &p);
    pw_assert_near(p.movement / PW_INCH, row[i].movement, 1e-9, "movement", "by hand");
    pw_assert_near(p.joint_wanted / PW_INCH, row[i].wanted, 1e-9, "wanted", "by hand");
    pw_assert_near(p.gap / PW_INCH, row[i].gap, 1e-9, "gap", "by hand");
    pw_assert_near(p.joint_width / PW_INCH, row[i].joint, 1e-9, "joint", "by hand");
    pw_assert_near(p.joint_class, row[i].class, 0.0, "class", "measure.csv S2");
    pw_assert_near(p.joint_depth / PW_INCH, row[i].depth, 1e-9, "depth", "measure.csv S4");
    pw_assert_near(p.backer / PW_INCH, row[i].backer, 1e-9, "rod", "measure.csv S5");
    pw_assert_near(p.joint_stucco / PW_INCH, 0.25, 1e-9, "to the stucco", "measure.csv S3");
    pw_assert_near(p.bead_length, 7.5, 0.0, "bead", "round the opening");
    int narrow = 0;
    for (size_t k = 0; k < p.n_line; k++)
      narrow += p.line[k].number == PW_SAY_JOINT_NARROW;
    assert_int_equal(narrow, row[i].gap > 0.0 && row[i].joint < row[i].wanted);
  }
  const pw_fit arch = {.shape.kind = PW_SHAPE_ARCH, .gap = 0.2 * PW_INCH, .order_width = 1.0};
  pw_opening o;
  pw_install p;
  pw_opening_init(&o);
  pw_install_plan(&o, &arch, &(pw_house_facts){0}, PW_FRAME_WOOD, 0, &p);
  pw_assert_near(p.gap / PW_INCH, 0.2, 1e-9, "gap of a shape", "the fit's own");
}

/* S6 to S8: polyurethane 3 to 10 days, acrylic 0.02 to 1, silicone never; what the job states goes before. */
static void paint_waits(void **state)
{
  (void)state;
  static const struct {
    const char *sealant;
    double stated, low, high;
    int paintable;
  } row[] = {{"polyurethane", 0.0, 3.0, 10.0, 1}, {"acrylic", 0.0, 0.02, 1.0, 1},
             {"hybrid", 0.0, NAN, NAN, 1},        {"silicone", 0.0, NAN, NAN, 0},
             {"polyurethane", 5.0, 5.0, 5.0, 1},  {"", 2.0, 2.0, 2.0, 1}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_house_facts house = {.paint_wait_days = row[i].stated};
    pw_install p = {0};
    strcpy(house.sealant, row[i].sealant);
    pw_paint_wait(&house, &p);
    assert_int_equal(p.paintable, row[i].paintable);
    assert_int_equal(p.paint_stated, row[i].stated > 0.0);
    if (isnan(row[i].low))
      assert_true(isnan(p.paint_days_low) && isnan(p.paint_days_high));
    else {
      pw_assert_near(p.paint_days_low, row[i].low, 0.0, row[i].sealant, "measure.csv");
      pw_assert_near(p.paint_days_high, row[i].high, 0.0, row[i].sealant, "measure.csv");
    }
  }
}

/* What is cut and what is left, by what is there, what may come off and what is chosen; 0: no such sentence. */
static void cuts_are_said(void **state)
{
  (void)state;
  static const struct {
    double fin, lip;
    int fins_cut, lip_cut, fins_stay, lip_stay;
    pw_message_number says[3];
  } row[] = {
      {0, 0, 2, 1, 0, 0, {PW_SAY_CUT_NOTHING}},
      {1, 1, 2, 1, 0, 0, {PW_SAY_CUT_FINS_LIP}},
      {1, 1, 1, 1, 0, 0, {PW_SAY_CUT_FIN_LIP, PW_SAY_LEAVE_FIN}},
      {1, 1, 2, 0, 0, 0, {PW_SAY_CUT_FINS, PW_SAY_LEAVE_LIP}},
      {1, 1, 2, 1, 0, 1, {PW_SAY_CUT_FINS, PW_SAY_LEAVE_LIP_STAYS}},
      {1, 0, 1, 0, 0, 0, {PW_SAY_CUT_FIN, PW_SAY_LEAVE_FIN}},
      {1, 1, 2, 1, 1, 0, {PW_SAY_CUT_LIP, PW_SAY_LEAVE_FINS_STAY}},
      {1, 0, 0, 0, 0, 0, {PW_SAY_CUT_NOTHING, PW_SAY_LEAVE_FINS}},
      {1, 1, 0, 0, 1, 1, {PW_SAY_CUT_NOTHING, PW_SAY_LEAVE_FINS_STAY, PW_SAY_LEAVE_LIP_STAYS}}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    const pw_fit fit = {
        .order_width = 1.0, .order_height = 1.0, .pocket_width = 1.01, .pocket_height = 1.01};
    pw_opening o;
    pw_install p;
    pw_opening_init(&o);
    o.fin_width = 0.01 * row[i].fin;
    o.sill_lip = 0.01 * row[i].lip;
    o.fins_cut = row[i].fins_cut;
    o.sill_lip_cut = row[i].lip_cut;
    o.fins_stay = row[i].fins_stay;
    o.lip_stay = row[i].lip_stay;
    pw_install_plan(&o, &fit, &(pw_house_facts){0}, PW_FRAME_VINYL, 1, &p);
    size_t n = 0;
    for (; n < 3 && row[i].says[n]; n++)
      if (p.line[n].number != row[i].says[n]) fail_msg("row %zu: %s", i, pw_said(&p.line[n]));
    static const pw_message_number then[] = {
        PW_SAY_DRY_FIT,     PW_SAY_JOINT_B_ANY, PW_SAY_JOINT_NARROW, PW_SAY_JOINT_A,
        PW_SAY_LEAVE_ALONE, PW_SAY_SEE_MARK,    PW_SAY_PAINT_ASK};
    for (size_t k = 0; k < sizeof then / sizeof then[0]; k++)
      if (p.line[n + k].number != then[k]) fail_msg("row %zu: %s", i, pw_said(&p.line[n + k]));
    assert_int_equal(p.n_line, n + sizeof then / sizeof then[0]);
  }
}

/* A lean of more than a sixteenth is told at the dry fit; a shape is set by its template. */
static void the_dry_fit_tells_the_lean(void **state)
{
  (void)state;
  static const struct {
    double lean;
    pw_shape_kind shape;
    pw_message_number says;
  } row[] = {{0.0624, PW_SHAPE_RECTANGLE, PW_SAY_DRY_FIT},
             {0.0626, PW_SHAPE_RECTANGLE, PW_SAY_DRY_FIT_LEANS},
             {0.5, PW_SHAPE_ARCH, PW_SAY_DRY_FIT_TEMPLATE},
             {0.5, PW_SHAPE_TRAPEZOID, PW_SAY_DRY_FIT_SHAPE}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    const pw_fit fit = {
        .lean = row[i].lean * PW_INCH, .shape.kind = row[i].shape, .order_width = 1.0};
    pw_opening o;
    pw_install p;
    pw_opening_init(&o);
    pw_install_plan(&o, &fit, &(pw_house_facts){0}, PW_FRAME_VINYL, 0, &p);
    if (p.line[1].number != row[i].says) fail_msg("row %zu: %s", i, pw_said(&p.line[1]));
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_joint_by_hand),
      cmocka_unit_test(paint_waits),
      cmocka_unit_test(cuts_are_said),
      cmocka_unit_test(the_dry_fit_tells_the_lean),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
