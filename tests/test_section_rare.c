/* src/frame where it is seldom: sections that are no sections, islands, sight lines outside, probes beside the body, a grid used up. By
 * hand or by symmetry. All lengths in mm. */
#include "support.h"

#include <math.h>
#include <string.h>

#include "frame/conduct.h"

typedef struct box {
  double x0, y0, x1, y1;
  const char *material;
  double k; /* 0: of the table */
} box;

enum { BOXES = 8 };

static void draw(pw_section *s, const box b[BOXES])
{
  pw_section_init(s);
  for (int i = 0; i < BOXES && b[i].material; i++) {
    pw_err err = {0};
    if (pw_section_add(s, 1e-3 * b[i].x0, 1e-3 * b[i].y0, 1e-3 * b[i].x1, 1e-3 * b[i].y1,
                       b[i].material, b[i].k > 0.0 ? b[i].k : (double)NAN, (double)NAN, i + 1,
                       &err) != PW_OK)
      fail_msg("%s: %s", b[i].material, err.text);
  }
}

#define OUT                                                                                    \
  {                                                                                            \
    -50, 0, 0, 100, "outdoor", 0                                                               \
  }
#define SLAB                                                                                   \
  {                                                                                            \
    0, 0, 20, 100, "slab", 0.04                                                                \
  }
#define IN                                                                                     \
  {                                                                                            \
    20, 0, 70, 100, "indoor", 0                                                                \
  }

/* ---------------------------------------------------------------- what is no section */

static void what_cannot_carry_heat_is_refused(void **state)
{
  (void)state;
  static const struct {
    box b[BOXES];
    const char *says;
    int line;
    pw_status status;
  } row[] = {
      {{{0, 0, 0, 0, NULL, 0}}, "no rectangles", 0, PW_E_DATA},
      {{{0, 0, 1e-6, 1e-6, "slab", 0.04}}, "different x", 0, PW_E_SHAPE},
      {{{0, 0, 1e-6, 100, "slab", 0.04}}, "different x", 0, PW_E_SHAPE},
      {{{0, 0, 100, 1e-6, "slab", 0.04}}, "different y", 0, PW_E_SHAPE},
      {{SLAB, IN}, "no outdoor side", 0, PW_E_DATA},
      {{OUT, SLAB}, "no indoor side", 0, PW_E_DATA},
      {{OUT, IN}, "no solid at all", 0, PW_E_DATA},
      {{{-50, 0, 0, 100, "outdoor", 0},
        {0, 0, 70, 100, "indoor", 0},
        {90, 0, 99, 9, "slab", 0.04}},
       "zones touch",
       0,
       PW_E_DATA},
      {{OUT, {70, 0, 99, 100, "indoor", 0}, {0, 0, 20, 100, "slab", 0.04}},
       "no solid face touches the indoor zone",
       0,
       PW_E_DATA},
      {{OUT, {70, 0, 99, 100, "indoor", 0}, SLAB, {60, 0, 70, 100, "slab", 0.04}},
       "no solid reaches from the one",
       0,
       PW_E_DATA},
      {{OUT, IN, SLAB, {-60, 50, -40, 150, "indoor", 0}},
       "the indoor zone overlaps the outdoor",
       4,
       PW_E_DATA},
      {{OUT, IN, SLAB, {60, 50, 80, 150, "outdoor", 0}},
       "the outdoor zone overlaps the indoor",
       4,
       PW_E_DATA},
      {{OUT, IN, SLAB, {-50, 0, 0, 100, "indoor", 0}},
       "the indoor zone overlaps the outdoor",
       4,
       PW_E_DATA},
      {{OUT, IN, SLAB, {-60, 10, -10, 90, "indoor", 0}}, "overlaps", 4, PW_E_DATA},
      {{OUT, IN, SLAB, {-40, 10, 5, 90, "indoor", 0}}, "overlaps", 4, PW_E_DATA},
      {{OUT, IN, SLAB, {-40, -10, -10, 90, "indoor", 0}}, "overlaps", 4, PW_E_DATA},
      {{OUT, IN, SLAB, {-40, 10, -10, 110, "indoor", 0}}, "overlaps", 4, PW_E_DATA},
  };
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_section s;
    pw_section_result r;
    pw_frame_face face;
    pw_err err = {0};
    draw(&s, row[i].b);
    assert_int_equal(pw_section_check(&s, NULL), row[i].status);
    assert_int_equal(pw_section_face(&s, &face, NULL), row[i].status);
    assert_int_equal(pw_section_solve(&s, &(pw_section_options){0}, &r, &err), row[i].status);
    if (!strstr(err.text, row[i].says) || err.line != row[i].line)
      fail_msg("row %zu: line %d: %s", i, err.line, err.text);
    pw_section_free(&s);
  }
}

/* A room cut out of an all-round outdoors is no overlap. A slab right round it, 20 mm of 0.04: the section is taken. */
static void a_room_within_outdoors_is_taken(void **state)
{
  (void)state;
  static const box b[BOXES] = {{-100, -100, 200, 200, "outdoor", 0},
                               {0, 0, 100, 100, "slab", 0.04},
                               {20, 20, 80, 80, "indoor", 0}};
  pw_section s;
  pw_err err = {0};
  draw(&s, b);
  if (pw_section_check(&s, &err) != PW_OK) fail_msg("%s", err.text);
  pw_section_free(&s);
}

/* ---------------------------------------------------------------- islands, probes, grids */

/* 0.1 m of slab between films: 0.1 / (0.04 + 0.5 + 0.13); a stray block beside it carries nothing and is told of. */
static void an_island_changes_nothing_and_is_told(void **state)
{
  (void)state;
  static const box b[BOXES] = {OUT, SLAB, IN, {0, 300, 20, 320, "slab", 0.04}};
  pw_section s;
  pw_section_result r;
  pw_err err = {0};
  draw(&s, b);
  if (pw_section_solve(&s, &(pw_section_options){0}, &r, &err) != PW_OK)
    fail_msg("%s", err.text);
  pw_assert_near(r.l2d, 0.1 / 0.67, 1e-9, "l2d", "by hand");
  assert_true(r.notes & PW_SECTION_ISLAND);
  pw_section_result_free(&r);
  pw_section_free(&s);
}

/* Through the slab the temperature is straight: at the depth x from outdoors 20 (0.04 + x / 0.04) / 0.67 K above outdoors. */
static void probes_are_told_on_the_body_alone(void **state)
{
  (void)state;
  static const box b[BOXES] = {OUT, SLAB, IN};
  /* within, on its faces, a hair beside an edge of the grid, in the air, above, below, beyond all */
  const double probe[][2] = {{5, 50},   {0, 50},  {20, 100}, {20 - 0.8e-4, 30}, {0.5e-4, 30},
                             {-10, 50}, {30, 50}, {10, -10}, {10, 110},         {1e4, 1e4}};
  enum { N = sizeof probe / sizeof probe[0], ON = 5 };
  double at[2 * N], t[N];
  for (size_t i = 0; i < N; i++) {
    at[2 * i] = 1e-3 * probe[i][0];
    at[2 * i + 1] = 1e-3 * probe[i][1];
  }
  pw_section s;
  pw_section_result r;
  draw(&s, b);
  const pw_section_options o = {.probe = at, .n_probe = N, .t_probe = t};
  assert_int_equal(pw_section_solve(&s, &o, &r, NULL), PW_OK);
  for (size_t i = 0; i < N; i++)
    if (i < ON)
      pw_assert_near(t[i], 273.15 + 20.0 * (0.04 + at[2 * i] / 0.04) / 0.67, 1e-6, "K",
                     "by hand");
    else
      assert_true(isnan(t[i]));
  pw_section_result_free(&r);
  pw_section_free(&s);
}

/* With few cells the bracket stays wide, and says so; it still holds the value of a fine grid. */
static void a_grid_used_up_is_told(void **state)
{
  (void)state;
  static const box b[BOXES] = {{-50, 0, 0, 100, "outdoor", 0},
                               {0, 0, 20, 100, "slab", 0.04},
                               {20, 0, 70, 100, "indoor", 0},
                               {5, 40, 15, 60, "metal", 160.0}};
  pw_section s;
  pw_section_result rough, fine;
  draw(&s, b);
  const pw_section_options few = {.tolerance = 1e-6, .cells_max = 30},
                           many = {.tolerance = 1e-4};
  assert_int_equal(pw_section_solve(&s, &few, &rough, NULL), PW_OK);
  assert_int_equal(pw_section_solve(&s, &many, &fine, NULL), PW_OK);
  assert_true(rough.notes & PW_SECTION_COARSE);
  assert_false(fine.notes & PW_SECTION_COARSE);
  assert_true(rough.high - rough.low > 1e-6 * rough.l2d);
  assert_true(rough.low <= fine.high && fine.low <= rough.high);
  pw_section_result_free(&rough);
  pw_section_result_free(&fine);
  pw_section_free(&s);
}

/* ---------------------------------------------------------------- options */

typedef struct options {
  pw_section_options o;
  pw_films films;
} options;

static pw_status solve_with(const void *in, pw_err *err)
{
  static const box b[BOXES] = {OUT, SLAB, IN};
  options with = *(const options *)in;
  with.o.films = &with.films;
  pw_section s;
  pw_section_result r;
  draw(&s, b);
  pw_status status = pw_section_solve(&s, &with.o, &r, err);
  if (status == PW_OK) { /* 0.1 m over outdoor film, 0.5 m2 K/W, indoor film */
    pw_assert_near(r.l2d, 0.1 / (with.films.outdoor + 0.5 + with.films.indoor), 1e-9, "l2d",
                   "by hand");
    pw_section_result_free(&r);
  }
  pw_section_free(&s);
  return status;
}

static void options_field_by_field(void **state)
{
  (void)state;
  const options good = {{.t_in = 293.15, .t_out = 273.15, .tolerance = 0.01},
                        {0.04, 0.13, 0.2}};
  const pw_span span[] = {{"t_in", offsetof(options, o.t_in), "(d)", 150.0, 400.0},
                          {"t_in", offsetof(options, o.t_out), "(d)", 150.0, 400.0},
                          {"tolerance", offsetof(options, o.tolerance), "d", 1e-7, 0.5},
                          {"films", offsetof(options, films.outdoor), "d)", 0.0, 100.0},
                          {"films", offsetof(options, films.indoor), "d)", 0.0, 100.0},
                          {"films", offsetof(options, films.reduced), "d)", 0.0, 100.0}};
  pw_assert_spans(&good, sizeof good, span, sizeof span / sizeof span[0], solve_with);
  pw_err err;
  options half = good;
  half.o.t_in = 0.0; /* only both left out are 20 and 0 C */
  assert_int_equal(solve_with(&half, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "t_in");
  half = good;
  half.o.t_out = 0.0;
  assert_int_equal(solve_with(&half, &err), PW_E_DOMAIN);
  half.o.t_in = 0.0;
  assert_int_equal(solve_with(&half, &err), PW_OK);
}

/* ---------------------------------------------------------------- sight lines */

/* One lite above the frame, or one at each end; a sight line outside is refused by its line, one in range taken as it stands. */
static void a_sight_line_lies_within(void **state)
{
  (void)state;
  static const box one[BOXES] = {{-50, 0, 8, 240, "outdoor", 0},
                                 {12, 0, 70, 240, "indoor", 0},
                                 {0, 0, 40, 40, "pvc", 0},
                                 {8, 30, 12, 240, "glass", 0}};
  static const box two[BOXES] = {{-50, -200, 8, 240, "outdoor", 0},
                                 {12, -200, 70, 240, "indoor", 0},
                                 {0, 0, 40, 40, "pvc", 0},
                                 {8, -200, 12, 10, "glass", 0},
                                 {8, 30, 12, 240, "glass", 0}};
  const struct {
    const box *b;
    double mm;
    int taken;
    double frame; /* mm wide */
  } row[] = {{one, 40, 1, 40}, {one, 55, 1, 55},  {one, 0, 0, 0},   {one, 240, 0, 0},
             {one, 300, 0, 0}, {one, -10, 0, 0},  {two, 42, 1, 42}, {two, -3, 1, 43},
             {two, 20, 0, 0},  {two, -200, 0, 0}, {two, 240, 0, 0}, {two, 400, 0, 0}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_section s;
    pw_section_result r;
    pw_err err = {0};
    draw(&s, row[i].b);
    s.sight_line = 1e-3 * row[i].mm;
    s.sight_line_line = 77;
    pw_status status = pw_section_solve(&s, &(pw_section_options){.tolerance = 0.5}, &r, &err);
    if ((status == PW_OK) != row[i].taken)
      fail_msg("row %zu: status %d %s", i, (int)status, err.text);
    if (status == PW_OK) {
      assert_false(r.notes & PW_SECTION_SIGHT);
      pw_assert_near(1e3 * r.b_frame, row[i].frame, 1e-9, "mm of frame", "drawn");
      pw_section_result_free(&r);
    } else {
      assert_int_equal(status, PW_E_DATA);
      assert_string_equal(err.field, "sightline");
      assert_int_equal(err.line, 77);
    }
    pw_section_free(&s);
  }
}

/* A frame lying on its side (heat along y), or the other way round, that fills the drawing to its edge: the face is told as of the one
 * that stands. */
static void a_face_is_told_whichever_way_the_heat_goes(void **state)
{
  (void)state;
  for (int way = 0; way < 8; way++) {
    const int turned = way & 1, flipped = way & 2, metal = way & 4;
    const char *solid = metal ? "aluminium" : "pvc";
    const box b[BOXES] = {OUT, {0, 0, 20, 40, solid, 0},       {8, 40, 12, 100, "glass", 0},
                          IN,  {12, 40, 20, 100, "indoor", 0}, {0, 40, 8, 100, "outdoor", 0}};
    box t[BOXES];
    pw_section s;
    pw_frame_face face = PW_FACE_METAL_BREAK;
    pw_err err = {0};
    memcpy(t, b, sizeof t);
    for (int i = 0; flipped && t[i].material; i++)
      t[i].y0 = 100.0 - b[i].y1, t[i].y1 = 100.0 - b[i].y0;
    for (int i = 0; turned && t[i].material; i++)
      t[i] = (box){t[i].y0, t[i].x0, t[i].y1, t[i].x1, t[i].material, t[i].k};
    draw(&s, t);
    if (pw_section_face(&s, &face, &err) != PW_OK) fail_msg("%s", err.text);
    assert_int_equal(face, metal ? PW_FACE_METAL : PW_FACE_OTHER);
    pw_section_free(&s);
  }
}

static const box lite[BOXES] = {{-50, 0, 8, 240, "outdoor", 0},
                                {12, 0, 70, 240, "indoor", 0},
                                {0, 0, 40, 40, "pvc", 0},
                                {8, 30, 12, 240, "glass", 0}};

/* The sight line not given is where the look from either side stops being that of the glass: also where only its inner skin is another
 * material of the same thickness, up to 60 mm here. */
static void another_skin_ends_the_glass(void **state)
{
  (void)state;
  static const box b[BOXES] = {{-50, 0, 8, 240, "outdoor", 0}, {12, 0, 70, 240, "indoor", 0},
                               {0, 0, 40, 40, "pvc", 0},       {8, 30, 10, 240, "glass", 0},
                               {10, 30, 12, 60, "pvc", 0},     {10, 60, 12, 240, "glass", 0}};
  pw_section s;
  pw_section_result r;
  draw(&s, b);
  assert_int_equal(pw_section_solve(&s, &(pw_section_options){.tolerance = 0.5}, &r, NULL),
                   PW_OK);
  assert_true(r.notes & PW_SECTION_SIGHT);
  pw_assert_near(1e3 * r.sight_line, 60.0, 1e-9, "mm", "drawn");
  pw_section_result_free(&r);
  pw_section_free(&s);
}

/* A drawing that lies wholly below 0 is one that was drawn elsewhere: moved along by 500 mm it gives the same frame. */
static void a_drawing_may_lie_below_zero(void **state)
{
  (void)state;
  pw_section here, there;
  pw_section_result a, b;
  box moved[BOXES];
  memcpy(moved, lite, sizeof moved);
  for (int i = 0; moved[i].material; i++)
    moved[i].y0 -= 500.0, moved[i].y1 -= 500.0;
  draw(&here, lite);
  draw(&there, moved);
  const pw_section_options o = {.tolerance = 0.05};
  assert_int_equal(pw_section_solve(&here, &o, &a, NULL), PW_OK);
  assert_int_equal(pw_section_solve(&there, &o, &b, NULL), PW_OK);
  assert_false(b.notes & PW_SECTION_BELOW);
  pw_assert_near(b.l2d, a.l2d, 1e-7, "l2d", "moved");
  pw_assert_near(b.b_frame, a.b_frame, 1e-9, "frame", "moved");
  pw_assert_near(b.u_frame, a.u_frame, 1e-6, "U of the frame", "moved");
  pw_section_result_free(&a);
  pw_section_result_free(&b);
  pw_section_free(&here);
  pw_section_free(&there);
}

/* Glass alone from end to end has no sight line; its U is that of its films: 1 / (0.04 + 0.004 + 0.13) for 4 mm of 1 W/(m K). Where the
 * glass reaches beyond the room its end has no film to be told by: not a number, unless the job tells it. */
static void glass_at_its_end(void **state)
{
  (void)state;
  static const box bare[BOXES] = {
      {-50, 0, 0, 240, "outdoor", 0}, {0, 0, 4, 240, "glass", 0}, {4, 0, 50, 240, "indoor", 0}};
  static const box beyond[BOXES] = {{-50, 0, 8, 240, "outdoor", 0},
                                    {12, 0, 70, 200, "indoor", 0},
                                    {0, 0, 40, 40, "pvc", 0},
                                    {8, 30, 12, 240, "glass", 0}};
  pw_section s;
  pw_section_result r;
  draw(&s, bare);
  assert_int_equal(pw_section_solve(&s, &(pw_section_options){0}, &r, NULL), PW_OK);
  assert_true(isnan(r.sight_line) && isnan(r.u_frame));
  pw_assert_near(r.u_glass, 1.0 / (0.04 + 0.004 + 0.13), 1e-6, "U of the glass", "by hand");
  pw_section_result_free(&r);
  pw_section_free(&s);
  draw(&s, beyond);
  assert_int_equal(pw_section_solve(&s, &(pw_section_options){.tolerance = 0.5}, &r, NULL),
                   PW_OK);
  assert_true(isnan(r.u_glass) && r.l2d > 0.0);
  pw_section_result_free(&r);
  assert_int_equal(
      pw_section_solve(&s, &(pw_section_options){.tolerance = 0.5, .u_glass = 2.7}, &r, NULL),
      PW_OK);
  assert_true(r.u_glass == 2.7);
  pw_section_result_free(&r);
  pw_section_free(&s);
}

/* The panel method is for one lite: with panels at both ends there is no U of the frame by it (conduct.h, note 3). */
static void two_panels_have_no_panel_method(void **state)
{
  (void)state;
  static const box two[BOXES] = {{-50, -200, 8, 240, "outdoor", 0},
                                 {12, -200, 70, 240, "indoor", 0},
                                 {0, 0, 40, 40, "pvc", 0},
                                 {8, -200, 12, 10, "insulation_panel", 0},
                                 {8, 30, 12, 240, "insulation_panel", 0}};
  box one[BOXES];
  memcpy(one, lite, sizeof one);
  one[3].material = "insulation_panel";
  for (int k = 0; k < 2; k++) {
    pw_section s;
    pw_section_result r;
    draw(&s, k ? two : one);
    assert_int_equal(pw_section_solve(&s, &(pw_section_options){.tolerance = 0.5}, &r, NULL),
                     PW_OK);
    assert_int_equal(isnan(r.u_panel_frame), k);
    assert_int_equal(isnan(r.other_sight_line), !k);
    pw_section_result_free(&r);
    pw_section_free(&s);
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(what_cannot_carry_heat_is_refused),
      cmocka_unit_test(a_room_within_outdoors_is_taken),
      cmocka_unit_test(an_island_changes_nothing_and_is_told),
      cmocka_unit_test(probes_are_told_on_the_body_alone),
      cmocka_unit_test(a_grid_used_up_is_told),
      cmocka_unit_test(options_field_by_field),
      cmocka_unit_test(a_sight_line_lies_within),
      cmocka_unit_test(a_face_is_told_whichever_way_the_heat_goes),
      cmocka_unit_test(another_skin_ends_the_glass),
      cmocka_unit_test(a_drawing_may_lie_below_zero),
      cmocka_unit_test(glass_at_its_end),
      cmocka_unit_test(two_panels_have_no_panel_method),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
