/* study/frames: what a solved section becomes in a window, with sections whose solution is put into the book by hand, so that none
 * is solved: which side takes which, the rule for a drawn width that is not the job's, what is said, what is asked of a drawing. */
#include "support.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "frame/conduct.h"
#include "panewright/unit.h"
#include "study/frames.h"

enum {
  LEAVES = 0,
  FIXED,
  SINGLE,
  SECTIONS
}; /* leaves spacer and filling to the job; fixes both; no gap */

typedef struct fixture {
  pw_named_section section[SECTIONS];
  pw_section_material material[SECTIONS][3];
  pw_glazing pair, one;
  pw_frame_book book;
  double gap; /* W/(m2 K) of the pair's */
} fixture;

static pw_glazing glazing(size_t panes)
{
  pw_buildup b;
  pw_glazing g;
  assert_int_equal(
      pw_buildup_parse(panes > 1 ? "3mm clear / 12.7mm air / 3mm clear" : "3mm clear", &b,
                       NULL),
      PW_OK);
  assert_int_equal(pw_glazing_build(&b, &g, NULL), PW_OK);
  return g;
}

static int set_up(void **state)
{
  fixture *f = calloc(1, sizeof *f);
  pw_unit_result unit;
  if (!f) return -1;
  f->pair = glazing(2);
  f->one = glazing(1);
  if (pw_unit_solve(&f->pair.unit, &pw_env_winter, NULL, &unit, NULL) != PW_OK) return -1;
  f->gap = unit.gap[0].conductance;
  static const char *const name[] = {"drawn/leaves.csv", "drawn/fixed.csv", "single.csv"};
  for (int i = 0; i < SECTIONS; i++) {
    strcpy(f->section[i].name, name[i]);
    f->section[i].section.material = f->material[i];
    f->section[i].section.n_material = 3;
    if (i != SINGLE) f->material[i][0].gap = 1;
    if (i != FIXED) {
      f->material[i][1].stands = PW_STANDS_SPACER;
      f->material[i][2].stands = PW_STANDS_FILLING;
    }
  }
  f->book = (pw_frame_book){.section = f->section, .n_section = SECTIONS};
  f->book.solved = calloc(PW_FRAMES_SOLVED_MAX, sizeof *f->book.solved);
  *state = f;
  return f->book.solved ? 0 : -1;
}

static int tear_down(void **state)
{
  fixture *f = *state;
  pw_frame_book_free(&f->book);
  pw_frame_book_free(&f->book); /* a second call is accepted */
  free(f);
  return 0;
}

static void solved(fixture *f, size_t section, int spacer, int air, double u, double b)
{
  f->book.solved[f->book.n_solved++] = (pw_frame_solved){
      .section = section,
      .given = {.gap = {section == SINGLE ? 0.0 : f->gap}, .spacer = spacer, .air = air},
      .u_frame = u,
      .u_edge = u + 0.5,
      .u_glass = 2.0,
      .b_frame = b,
      .f_rsi = 0.1 * u};
}

static const char *said(const fixture *f, size_t i)
{
  return i < f->book.n_remark ? pw_said(&f->book.remark[i]) : "";
}

/* Two lites beside a meeting rail of 45 mm: sill 60 mm along 1.0 m and 90 mm along 0.5 m, in the mean 70 (105 / 1.5); head 50; jambs 80
 * along 1.2 m and 40 along 0.6, 66.667 (120 / 1.8). */
static pw_fit fit_of(void)
{
  pw_lites l = {.n_lite = 2, .n_meeting = 1, .meeting_width = 0.045};
  l.lite[0] = (pw_lite){.width = 1.0, .height = 1.2, .face = {0.08, 0.0, 0.06, 0.05}};
  l.lite[1] = (pw_lite){.width = 0.5, .height = 0.6, .face = {0.0, 0.04, 0.09, 0.05}};
  pw_fit fit = {.existing = l, .insert = l};
  return fit;
}

static pw_status insert(fixture *f, const pw_frame_line *line, const pw_fit *fit,
                        const pw_glazing *glass, pw_frame_values *v, pw_err *err)
{
  const pw_package package = {
      .name = "better", .spacer = PW_SPACER_STAINLESS, .filling = "foam"};
  return pw_frames_insert(&f->book, line, &package, fit, glass, v, err);
}

/* Heat of the opening kept where the drawn width is over 3 mm off (frames.h, note 3): U' b' = U b + U_glass (b' - b), by hand:
 * sill 3.0 of 60 mm at 70: (0.18 + 0.02) / 0.07 = 2.857143; head 50 at 50 and jamb 64 at 66.667 keep U 3.0; meeting rail 40 at 45:
 * (0.12 + 0.01) / 0.045 = 2.888889. */
static void each_side_takes_its_section_at_its_width(void **state)
{
  fixture *f = *state;
  const pw_fit fit = fit_of();
  pw_frame_line line = {.name = "vinyl"};
  pw_frame_values v;
  static const double b[PW_SIDE_COUNT] = {0.060, 0.050, 0.064, 0.040},
                      want[PW_SIDE_COUNT] = {2.857143, 3.0, 3.0, 2.888889};
  for (int side = 0; side < PW_SIDE_COUNT; side++) {
    char *const name[] = {line.section_sill, line.section_head, line.section_jamb,
                          line.section_meeting};
    for (int k = 0; k < PW_SIDE_COUNT; k++)
      strcpy(name[k], k == side ? "drawn/leaves.csv" : "");
    f->book.n_solved = f->book.n_remark = 0;
    solved(f, LEAVES, PW_SPACER_INSULATING, 0, 9.0, b[side]); /* another spacer's: not this */
    solved(f, LEAVES, PW_SPACER_STAINLESS, 1, 8.0, b[side]);
    solved(f, FIXED, PW_SPACER_STAINLESS, 0, 7.0, b[side]);
    solved(f, LEAVES, PW_SPACER_STAINLESS, 0, 3.0, b[side]);
    assert_int_equal(insert(f, &line, &fit, &f->pair, &v, NULL), PW_OK);
    assert_int_equal(f->book.n_solved, 4);
    for (int k = 0; k < PW_SIDE_COUNT; k++) {
      pw_assert_near(v.side[k].u_frame, k == side ? want[k] : 0.0, 1e-6, "frame U", "by hand");
      pw_assert_near(v.side[k].u_edge, k == side ? 3.5 : 0.0, 0.0, "edge U", "as solved");
      pw_assert_near(v.side[k].f_rsi, k == side ? 0.3 : 0.0, 1e-12, "f_Rsi", "as solved");
    }
    assert_non_null(v.source);
    assert_int_equal(f->book.n_remark, want[side] != 3.0);
    if (side == PW_SIDE_SILL) {
      assert_non_null(strstr(said(f, 0), "leaves.csv is drawn"));
      assert_non_null(strstr(said(f, 0), "(60 mm) wide, the sill of frame line vinyl has"));
      assert_non_null(strstr(said(f, 0), "(70 mm): the heat"));
    }
  }
}

/* A width that is 3 mm off is what a tape can tell, more is not; narrower than drawn takes glass away from the heat, down to none. */
static void three_millimetres_are_the_tape(void **state)
{
  fixture *f = *state;
  const pw_fit fit = fit_of();
  pw_frame_line line = {.name = "vinyl", .section_head = "drawn/leaves.csv"};
  static const struct {
    double b, u, want;
  } row[] = {{0.0529, 3.0, 3.0},
             {0.0471, 3.0, 3.0},
             {0.0535, 3.0, (3.0 * 0.0535 - 2.0 * 0.0035) / 0.05},
             {0.0465, 3.0, (3.0 * 0.0465 + 2.0 * 0.0035) / 0.05},
             {0.2000, 1.0, 0.0}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_frame_values v;
    f->book.n_solved = f->book.n_remark = 0;
    solved(f, LEAVES, PW_SPACER_STAINLESS, 0, row[i].u, row[i].b);
    assert_int_equal(insert(f, &line, &fit, &f->pair, &v, NULL), PW_OK);
    pw_assert_near(v.side[PW_SIDE_HEAD].u_frame, row[i].want, 1e-9, "frame U", "by hand");
    assert_int_equal(f->book.n_remark, i > 1);
    assert_int_equal(insert(f, &line, NULL, &f->pair, &v, NULL),
                     PW_OK); /* no widths: as drawn */
    pw_assert_near(v.side[PW_SIDE_HEAD].u_frame, row[i].u, 0.0, "frame U", "as solved");
  }
}

/* A section drawn with the ring: face and ring are held against it, jambs by the mean of both, what stays beyond left out. Sill 70 +
 * 20 - 5 = 85, head 50 + 12 - 5 = 57, jamb 66.667 + (30 + 10) / 2 - 5 = 81.667; a meeting rail has none. */
static void the_ring_is_part_of_the_drawing(void **state)
{
  fixture *f = *state;
  pw_fit fit = fit_of();
  fit.retained_face = 0.005;
  fit.retained_width[PW_LEFT] = 0.030;
  fit.retained_width[PW_RIGHT] = 0.010;
  fit.retained_width[PW_BOTTOM] = 0.020;
  fit.retained_width[PW_TOP] = 0.012;
  static const double job[PW_SIDE_COUNT] = {0.085, 0.057, 0.0816667, 0.045};
  pw_frame_line line = {.name = "vinyl",
                        .section_sill = "drawn/leaves.csv",
                        .section_head = "drawn/leaves.csv",
                        .section_jamb = "drawn/leaves.csv",
                        .section_meeting = "drawn/leaves.csv",
                        .sections_hold_ring = 1};
  pw_frame_values v;
  solved(f, LEAVES, PW_SPACER_STAINLESS, 0, 3.0, 0.1);
  assert_int_equal(insert(f, &line, &fit, &f->pair, &v, NULL), PW_OK);
  assert_int_equal(v.with_ring, 1);
  for (int k = 0; k < PW_SIDE_COUNT; k++)
    pw_assert_near(v.side[k].u_frame, (0.3 - 2.0 * (0.1 - job[k])) / job[k], 1e-4, "frame U",
                   "by hand");
  assert_int_equal(f->book.n_remark, 4);
  assert_non_null(strstr(said(f, 0), "with its ring"));
  assert_null(strstr(said(f, 3), "with its ring")); /* the meeting rail */
  assert_true(pw_frames_hold_ring(&line));
  line.section_sill[0] = line.section_head[0] = line.section_jamb[0] = '\0';
  assert_false(pw_frames_hold_ring(&line)); /* a meeting rail alone holds none */
  strcpy(line.section_jamb, "drawn/leaves.csv");
  line.sections_hold_ring = 0;
  assert_false(pw_frames_hold_ring(&line));
}

/* The existing section stands for sill, head and jamb, with spacer and filling as drawn, and says nothing of a package's. */
static void the_existing_section_stands_for_three_sides(void **state)
{
  fixture *f = *state;
  const pw_fit fit = fit_of();
  pw_opening o;
  pw_frame_values v;
  pw_opening_init(&o);
  strcpy(o.tag, "A1");
  assert_int_equal(pw_frames_existing(&f->book, &o, &fit, &f->pair, &v, NULL), PW_OK);
  assert_true(v.source == NULL && v.side[0].u_frame == 0.0); /* none is named */
  strcpy(o.existing_section, "drawn/fixed.csv");
  solved(f, FIXED, -1, -1, 3.0, 0.060);
  assert_int_equal(pw_frames_existing(&f->book, &o, &fit, &f->pair, &v, NULL), PW_OK);
  pw_assert_near(v.side[PW_SIDE_SILL].u_frame, 0.2 / 0.07, 1e-9, "sill", "by hand");
  pw_assert_near(v.side[PW_SIDE_HEAD].u_frame, 0.16 / 0.05, 1e-9, "head", "by hand");
  pw_assert_near(v.side[PW_SIDE_JAMB].u_frame, (0.18 + 2.0 * 0.0066667) / 0.0666667, 1e-5,
                 "jamb", "by hand");
  pw_assert_near(v.side[PW_SIDE_MEETING].u_frame, 0.0, 0.0, "meeting rail", "none");
  assert_int_equal(f->book.n_remark, 3);
  assert_non_null(strstr(said(f, 0), "the sill of opening A1"));
  f->book.solved[0].u_frame = f->book.solved[0].u_edge = (double)NAN; /* no band of its own */
  assert_int_equal(pw_frames_existing(&f->book, &o, &fit, &f->pair, &v, NULL), PW_OK);
  pw_assert_near(v.side[0].u_frame, 0.0, 0.0, "frame U", "the catalogue");
  pw_assert_near(v.side[0].u_edge, 0.0, 0.0, "edge U", "the catalogue");
}

/* What a drawing fixes is said once; what begins below 0 too; a glass of another number of gaps is refused, or the catalogue's and said. */
static void what_a_drawing_fixes_is_said(void **state)
{
  fixture *f = *state;
  pw_fit fit = fit_of();
  fit.insert.n_meeting = 0; /* then no meeting rail is asked for */
  pw_frame_line line = {
      .name = "vinyl", .section_head = "drawn/fixed.csv", .section_meeting = "drawn/fixed.csv"};
  pw_frame_values v;
  pw_err err = {0};
  solved(f, FIXED, -1, -1, 3.0, 0.050);
  f->book.solved[0].notes = PW_SECTION_BELOW;
  assert_int_equal(insert(f, &line, &fit, &f->pair, &v, NULL), PW_OK);
  pw_assert_near(v.side[PW_SIDE_HEAD].u_frame, 3.0, 0.0, "head", "as solved");
  pw_assert_near(v.side[PW_SIDE_MEETING].u_frame, 0.0, 0.0, "meeting rail",
                 "the window has none");
  assert_int_equal(f->book.n_remark, 2);
  assert_non_null(strstr(said(f, 0), "fixed.csv begins below 0"));
  assert_non_null(strstr(said(f, 1), "fixed.csv fixes the spacer as drawn"));
  assert_int_equal(insert(f, &line, &fit, &f->pair, &v, NULL), PW_OK);
  assert_int_equal(f->book.n_remark, 2); /* once each */
  line.sections_hold_ring = 1;
  assert_int_equal(insert(f, &line, &fit, &f->pair, &v, NULL), PW_OK);
  assert_non_null(strstr(said(f, 2), "fixes the spacer and the filling"));
  f->material[FIXED][1].stands = PW_STANDS_SPACER;
  solved(f, FIXED, PW_SPACER_STAINLESS, -1, 3.0, 0.050);
  assert_int_equal(insert(f, &line, &fit, &f->pair, &v, NULL), PW_OK);
  assert_non_null(strstr(said(f, 3), "fixes the filling behind"));
  assert_int_equal(f->book.n_remark, 4);

  assert_int_equal(insert(f, &line, &fit, &f->one, &v, &err), PW_E_DATA);
  assert_non_null(strstr(err.text, "drawn with 1 gap, the glass of package better has 0"));
  f->book.mismatch = PW_MISMATCH_CATALOGUE;
  assert_int_equal(insert(f, &line, &fit, &f->one, &v, NULL), PW_OK);
  pw_assert_near(v.side[PW_SIDE_HEAD].u_frame, 0.0, 0.0, "head", "the catalogue");
  assert_non_null(strstr(said(f, 4), "with 1 gap, the glass of package better has 0"));
  f->material[FIXED][0].gap = 3;
  assert_int_equal(insert(f, &line, &fit, &f->pair, &v, NULL), PW_OK);
  assert_non_null(strstr(said(f, 5), "with 3 gaps, the glass of package better has 1"));
  strcpy(line.section_head, "drawn/unread.csv");
  assert_int_equal(insert(f, &line, &fit, &f->pair, &v, &err), PW_E_MISSING);
}

/* 23 remarks stand, then one that says there are more. */
static void remarks_beyond_the_room_are_counted(void **state)
{
  fixture *f = *state;
  pw_fit fit = fit_of();
  pw_frame_line line = {.name = "vinyl", .section_head = "drawn/leaves.csv"};
  pw_frame_values v;
  solved(f, LEAVES, PW_SPACER_STAINLESS, 0, 3.0, 0.1);
  for (int i = 0; i < PW_FRAME_REMARKS_MAX + 3; i++) {
    fit.insert.lite[0].face[PW_TOP] = fit.insert.lite[1].face[PW_TOP] = 0.02 + 0.001 * i;
    assert_int_equal(insert(f, &line, &fit, &f->pair, &v, NULL), PW_OK);
    assert_int_equal(f->book.n_remark,
                     i + 1 < PW_FRAME_REMARKS_MAX ? i + 1 : PW_FRAME_REMARKS_MAX);
  }
  assert_non_null(strstr(said(f, PW_FRAME_REMARKS_MAX - 2), "the heat of the whole opening"));
  assert_non_null(strstr(said(f, PW_FRAME_REMARKS_MAX - 1), "More remarks"));
}

/* A line fixes what none of its drawn sections leaves open; one without any fixes nothing. */
static void what_a_line_fixes(void **state)
{
  fixture *f = *state;
  pw_frame_line line = {.name = "vinyl"};
  assert_false(pw_frames_fix(&f->book, &line, PW_STANDS_SPACER));
  strcpy(line.section_meeting, "drawn/fixed.csv");
  assert_true(pw_frames_fix(&f->book, &line, PW_STANDS_SPACER));
  assert_true(pw_frames_fix(&f->book, &line, PW_STANDS_FILLING));
  strcpy(line.section_sill, "drawn/leaves.csv");
  assert_false(pw_frames_fix(&f->book, &line, PW_STANDS_SPACER));
  strcpy(line.section_sill, "drawn/unread.csv");
  assert_true(pw_frames_fix(&f->book, &line, PW_STANDS_SPACER));
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test_setup_teardown(each_side_takes_its_section_at_its_width, set_up,
                                      tear_down),
      cmocka_unit_test_setup_teardown(three_millimetres_are_the_tape, set_up, tear_down),
      cmocka_unit_test_setup_teardown(the_ring_is_part_of_the_drawing, set_up, tear_down),
      cmocka_unit_test_setup_teardown(the_existing_section_stands_for_three_sides, set_up,
                                      tear_down),
      cmocka_unit_test_setup_teardown(what_a_drawing_fixes_is_said, set_up, tear_down),
      cmocka_unit_test_setup_teardown(remarks_beyond_the_room_are_counted, set_up, tear_down),
      cmocka_unit_test_setup_teardown(what_a_line_fixes, set_up, tear_down),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
