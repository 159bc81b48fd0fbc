/* What a book of sections says of its drawings: which cannot be read, which fix what a package sets, and that each remark stands once. */
#include "support.h"

#include <stdio.h>
#include <string.h>

#include "job/section_file.h"
#include "study/frames.h"

enum { LEAVES = 0, STAINLESS, AIR, INSERT, SINGLE, SECTIONS };

static const char *const file[SECTIONS] = {
    [LEAVES] = "both_jamb_fins_foam",
    [STAINLESS] = "both_jamb_fins_foam_stainless", /* its spacer drawn as it is */
    [AIR] = "both_jamb_fins_air",                  /* no row of filling */
    [INSERT] = "insert_jamb",
    [SINGLE] = "old_jamb_fixed_fins_cut"};

typedef struct fixture {
  pw_named_section section[SECTIONS];
  pw_glazing pane, unit;
} fixture;

static fixture f;

static int set_up(void **state)
{
  (void)state;
  pw_buildup b;
  pw_err err = {0};
  for (size_t i = 0; i < SECTIONS; i++) {
    char path[128];
    snprintf(path, sizeof path, "examples/sections/%s.csv", file[i]);
    snprintf(f.section[i].name, sizeof f.section[i].name, "somewhere/%s.csv", file[i]);
    if (pw_section_read(path, 0, &f.section[i].section, &err) != PW_OK) return -1;
  }
  if (pw_buildup_parse("3mm clear", &b, &err) != PW_OK ||
      pw_glazing_build(&b, &f.pane, &err) != PW_OK ||
      pw_buildup_parse("3mm clear / 12.7mm air / 3mm clear", &b, &err) != PW_OK ||
      pw_glazing_build(&b, &f.unit, &err) != PW_OK)
    return -1;
  return 0;
}

static int tear_down(void **state)
{
  (void)state;
  for (size_t i = 0; i < SECTIONS; i++)
    pw_section_free(&f.section[i].section);
  return 0;
}

static pw_frame_book a_book(pw_section_mismatch mismatch)
{
  return (pw_frame_book){
      .section = f.section, .n_section = SECTIONS, .tolerance = 0.05, .mismatch = mismatch};
}

static pw_frame_line a_line(int jamb, int with_ring)
{
  pw_frame_line line;
  pw_frame_line_init(&line);
  strcpy(line.name, "drawn");
  if (jamb >= 0) strcpy(line.section_jamb, f.section[jamb].name);
  line.sections_hold_ring = with_ring;
  return line;
}

static pw_frame_values insert(pw_frame_book *book, const pw_frame_line *line,
                              const char *filling, pw_spacer spacer)
{
  pw_package package;
  pw_frame_values v;
  pw_err err = {0};
  pw_package_init(&package);
  strcpy(package.name, "P");
  strcpy(package.filling, filling);
  package.spacer = spacer;
  if (pw_frames_insert(book, line, &package, NULL, &f.unit, &v, &err) != PW_OK)
    fail_msg("%s", err.text);
  return v;
}

/* What the drawing leaves open moves the value, what it fixes does not and is said, by the file's own name and once. */
static void what_a_drawing_fixes(void **state)
{
  (void)state;
  static const struct {
    int jamb, with_ring, spacer_moves, filling_moves;
    const char *said;
  } row[] = {{LEAVES, 1, 1, 1, NULL},
             {STAINLESS, 1, 0, 1, "both_jamb_fins_foam_stainless.csv"},
             {AIR, 1, 1, 0, "both_jamb_fins_air.csv"},
             {INSERT, 1, 1, 0, "insert_jamb.csv"},
             {INSERT, 0, 1, 0, NULL}}; /* without the ring there is no filling to draw */
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_frame_book book = a_book(PW_MISMATCH_REFUSE);
    const pw_frame_line line = a_line(row[i].jamb, row[i].with_ring);
    double metal = insert(&book, &line, "foam", PW_SPACER_METAL).side[PW_SIDE_JAMB].u_edge,
           warm = insert(&book, &line, "foam", PW_SPACER_INSULATING).side[PW_SIDE_JAMB].u_edge,
           foam = insert(&book, &line, "foam", PW_SPACER_METAL).side[PW_SIDE_JAMB].u_frame,
           air = insert(&book, &line, "air", PW_SPACER_METAL).side[PW_SIDE_JAMB].u_frame;
    assert_true(metal > 0.0 && foam > 0.0);
    assert_int_equal(metal > warm, row[i].spacer_moves);
    assert_int_equal(air != foam, row[i].filling_moves);
    assert_int_equal(pw_frames_fix(&book, &line, PW_STANDS_SPACER), !row[i].spacer_moves);
    assert_int_equal(pw_frames_fix(&book, &line, PW_STANDS_FILLING), !row[i].filling_moves);
    assert_int_equal(pw_frames_hold_ring(&line), row[i].with_ring);
    assert_int_equal(book.n_remark, row[i].said ? 1 : 0);
    if (row[i].said) {
      const char *said = pw_said(&book.remark[0]);
      if (!strstr(said, row[i].said) || strstr(said, "somewhere")) fail_msg("%s", said);
    }
    /* asked again with the same glass, nothing is solved anew */
    size_t solved = book.n_solved;
    insert(&book, &line, "foam", PW_SPACER_METAL);
    assert_int_equal(book.n_solved, solved);
    pw_frame_book_free(&book);
  }
  pw_frame_book book = a_book(PW_MISMATCH_REFUSE);
  const pw_frame_line plain = a_line(-1, 1);
  assert_int_equal(pw_frames_fix(&book, &plain, PW_STANDS_SPACER), 0);
  assert_int_equal(pw_frames_hold_ring(&plain), 0);
  pw_frame_values v = insert(&book, &plain, "foam", PW_SPACER_METAL);
  pw_assert_near(v.side[PW_SIDE_JAMB].u_frame, 0.0, 0.0, "undrawn", "frames.h");
  for (int side = PW_SIDE_SILL; side <= PW_SIDE_HEAD;
       side++) { /* any drawn side holds the ring */
    pw_frame_line one = a_line(-1, 1);
    strcpy(side == PW_SIDE_SILL ? one.section_sill : one.section_head, f.section[LEAVES].name);
    assert_int_equal(pw_frames_hold_ring(&one), 1);
  }
  pw_frame_book_free(NULL);
}

static pw_opening drawn(const char *name, const char *tag)
{
  pw_opening o;
  pw_opening_init(&o);
  strcpy(o.tag, tag);
  strcpy(o.existing_section, name);
  return o;
}

static void what_is_refused(void **state)
{
  (void)state;
  pw_frame_book book = a_book(PW_MISMATCH_REFUSE);
  pw_frame_values v;
  pw_err err = {0};
  pw_opening o = drawn("nowhere.csv", "A");
  assert_int_equal(pw_frames_existing(&book, &o, NULL, &f.pane, &v, &err), PW_E_MISSING);
  assert_non_null(strstr(err.text, "nowhere.csv"));
  /* single glass in a drawing with a gap, and the other way round; one gap and several in words */
  o = drawn(f.section[INSERT].name, "A");
  assert_int_equal(pw_frames_existing(&book, &o, NULL, &f.pane, &v, &err), PW_E_DATA);
  assert_non_null(strstr(err.text, "drawn with 1 gap, the glass of opening A has 0"));
  o = drawn(f.section[SINGLE].name, "A");
  assert_int_equal(pw_frames_existing(&book, &o, NULL, &f.unit, &v, &err), PW_E_DATA);
  assert_non_null(strstr(err.text, "drawn with 0 gaps, the glass of opening A has 1"));
  pw_package package;
  pw_package_init(&package);
  strcpy(package.name, "P");
  const pw_frame_line line = a_line(SINGLE, 0);
  assert_int_equal(pw_frames_insert(&book, &line, &package, NULL, &f.unit, &v, &err),
                   PW_E_DATA);
  assert_non_null(strstr(err.text, "package P"));
  pw_frame_book_free(&book);
  /* A solve that is refused names its section: a tolerance that no grid meets. */
  book = a_book(PW_MISMATCH_REFUSE);
  book.tolerance = NAN;
  o = drawn(f.section[SINGLE].name, "A");
  pw_status s = pw_frames_existing(&book, &o, NULL, &f.pane, &v, &err);
  assert_int_equal(s, PW_OK); /* not above 0: the usual one */
  pw_frame_book_free(&book);
}

/* Taken from the catalogue instead, it is said once for each window; what finds no room any more is counted in the last. */
static void remarks_have_their_room(void **state)
{
  (void)state;
  pw_frame_book book = a_book(PW_MISMATCH_CATALOGUE);
  pw_frame_values v;
  for (int i = 0; i < 2 * PW_FRAME_REMARKS_MAX; i++) {
    char tag[8];
    snprintf(tag, sizeof tag, "A%d", i);
    const pw_opening o = drawn(f.section[i % 2 ? INSERT : SINGLE].name, tag);
    const size_t had = book.n_remark;
    for (int again = 0; again < 2; again++)
      assert_int_equal(pw_frames_existing(&book, &o, NULL, i % 2 ? &f.pane : &f.unit, &v, NULL),
                       PW_OK);
    assert_int_equal(book.n_remark, had < PW_FRAME_REMARKS_MAX ? had + 1 : had);
    pw_assert_near(v.side[PW_SIDE_JAMB].u_frame, 0.0, 0.0, "by the catalogue", "frames.h");
  }
  assert_int_equal(book.n_remark, PW_FRAME_REMARKS_MAX);
  assert_int_equal(book.remark[PW_FRAME_REMARKS_MAX - 1].number, PW_SAY_FRAME_MORE);
  pw_frame_book_free(&book);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(what_a_drawing_fixes),
      cmocka_unit_test(what_is_refused),
      cmocka_unit_test(remarks_have_their_room),
  };
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
