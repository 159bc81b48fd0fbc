/* Section files: what is taken, what is refused and how that is said. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "frame/conduct.h"
#include "job/section_file.h"

static const char head[] = "x0,y0,x1,y1,material,note,conductivity_w_mk\n";
static const char good[] = "-40,0,0,200,outdoor,,\n20,0,60,200,indoor,,\n0,0,20,200,pvc,,\n";

static pw_status parse(const char *text, pw_section *s, pw_err *err)
{
  *err = (pw_err){0};
  return pw_section_parse("s.csv", text, strlen(text), 0, s, err);
}

/* One refusal: the rows below the head and the good rows, and what the line must say. */
static void refused(const char *rows, const char *says)
{
  char text[2048];
  pw_section s;
  pw_err err;
  snprintf(text, sizeof text, "%s%s%s", head, good, rows);
  pw_status status = parse(text, &s, &err);
  if (status == PW_OK) fail_msg("taken: %s", rows);
  if (!strstr(err.text, says)) fail_msg("'%s' does not say '%s'", err.text, says);
  assert_null(strchr(err.text, '\n'));
  assert_int_equal(s.n_part, 0);
  assert_null(s.part);
}

static void bad_rows_name_line_column_and_what_is_wanted(void **state)
{
  (void)state;
  refused("0,0,5,5,alumnium,,\n", "s.csv:5:5: no material 'alumnium'");
  refused("0,0,5,5,alumnium,,\n", "did you mean aluminium?");
  refused("0,0,5,5,unobtainium,,\n", "conductivity_w_mk");
  refused("0,0,5,5,pvc,,0\n", "s.csv:5:7: conductivity 0, want 0.0001 to 10000");
  refused("0,0,5,5,pvc,,-1\n", "conductivity -1");
  refused("0,0,5,5,pvc,,nan\n", "s.csv:5:7: conductivity_w_mk 'nan', want a number");
  refused("0,0,5,5,pvc,,inf\n", "'inf'");
  refused("0,0,x,5,pvc,,\n", "s.csv:5:3: x1 'x', want a number in mm");
  refused("0,,5,5,pvc,,\n", "s.csv:5:2: y0 is missing");
  refused("5,0,5,5,pvc,,\n", "s.csv:5:3: x1 5 mm is not above x0 5 mm");
  refused("0,5,5,1,pvc,,\n", "s.csv:5:4: y1 1 mm is not above y0 5 mm");
  refused(",500,,,sightline,,\n", "s.csv:5: the sight line at 500 mm is outside the section");
  refused(",50,,,sightline,,\n,60,,,sightline,,\n", "s.csv:6: a second sight line");
  refused(",,,,sightline,,\n", "s.csv:5:2: a sight line needs its y0");
  refused("0,0,5,5,indoor,,0.2\n", "indoor takes no conductivity");
  refused("0,0,5,5,a_material_with_a_name_that_no_one_would_type,,1\n", "at most 39 letters");
  refused("-10,0,10,200,indoor,,\n", "the indoor zone overlaps the outdoor zone of line 2");
}

static void whole_refused(const char *text, const char *says)
{
  pw_section s;
  pw_err err;
  if (parse(text, &s, &err) == PW_OK) fail_msg("taken: %s", text);
  if (!strstr(err.text, says)) fail_msg("'%s' does not say '%s'", err.text, says);
  assert_null(s.part);
}

static void a_section_without_two_sides_is_refused(void **state)
{
  (void)state;
  whole_refused("", "the file is empty");
  whole_refused("# only notes\n", "the file is empty");
  whole_refused("x0,y0,x1,y1,material\n", "no rectangles");
  whole_refused("x0,y0,x1,material\n0,0,1,pvc\n", "no column 'y1'");
  whole_refused("x0,y0,x1,y1,materail\n", "did you mean material?");
  whole_refused("x0,y0,x1,y1,material,x0\n", "column x0 twice");
  whole_refused("x0,y0,x1,y1,material\n20,0,60,200,indoor\n0,0,20,200,pvc\n",
                "no outdoor side");
  whole_refused("x0,y0,x1,y1,material\n-40,0,0,200,outdoor\n0,0,20,200,pvc\n",
                "no indoor side");
  whole_refused("x0,y0,x1,y1,material\n-40,0,0,200,outdoor\n0,0,60,200,indoor\n"
                "-80,0,-40,200,pvc\n",
                "nothing is painted between indoors and outdoors");
  whole_refused("x0,y0,x1,y1,material\n-40,0,0,200,outdoor\n20,0,60,200,indoor\n",
                "nothing is painted between indoors and outdoors");
  whole_refused("x0,y0,x1,y1,material\n-40,0,0,200,outdoor\n60,0,90,200,indoor\n"
                "0,0,20,200,pvc\n40,0,60,200,pvc\n",
                "nothing is painted between indoors and outdoors: no solid reaches");
  whole_refused("x0,y0,x1,y1,material\n-40,0,0,200,outdoor\n60,0,90,200,indoor\n"
                "0,0,20,200,pvc\n",
                "no indoor side: no solid face touches");
}

/* The good section written in other units than mm. */
static void a_slip_of_unit_is_said(void **state)
{
  (void)state;
  whole_refused("x0,y0,x1,y1,material\n-0.04,0,0,0.2,outdoor\n0.02,0,0.06,0.2,indoor\n"
                "0,0,0.02,0.2,pvc\n",
                "look like metres");
  whole_refused("x0,y0,x1,y1,material\n-1.5,0,0,7.9,outdoor\n0.8,0,2.4,7.9,indoor\n"
                "0,0,0.8,7.9,pvc\n",
                "look like inches");
  const char small[] =
      "x0,y0,x1,y1,material\n-4,0,0,20,outdoor\n2,0,6,20,indoor\n0,0,2,20,pvc\n";
  pw_section s;
  pw_err err;
  assert_int_equal(pw_section_parse("s.csv", small, strlen(small), 1, &s, &err), PW_OK);
  pw_section_free(&s);
}

/* 1 / (0.04 + 0.02 / 0.17 + 0.13) times 0.2 m. Any order of columns, a byte-order mark, CRLF, quotes,
 * notes, further columns. */
static void odd_but_right_files_are_taken(void **state)
{
  (void)state;
  static const char text[] = "\xef\xbb\xbf# a note, with a comma\r\n"
                             "material,x0,y0,x1,y1,drawn by\r\n"
                             "\"outdoor\",-40,0,0,200,me\r\n"
                             "indoor,20,0,60,200,\"a, b\"\r\n"
                             "\r\n# more\r\n"
                             "pvc, 0 ,0,2e1,200";
  pw_section s;
  pw_err err = {0};
  if (parse(text, &s, &err) != PW_OK) fail_msg("%s", err.text);
  pw_section_result r;
  assert_int_equal(pw_section_solve(&s, &(pw_section_options){0}, &r, &err), PW_OK);
  double want = 0.2 / (0.04 + 0.02 / 0.17 + 0.13);
  pw_assert_near(r.l2d, want, 1e-10, "l2d", "layers in series");
  pw_section_result_free(&r);
  pw_section_free(&s);
  assert_int_equal(pw_section_read("/nowhere/s.csv", 0, &s, &err), PW_E_MISSING);
  assert_int_equal(pw_section_read("/", 0, &s, &err), PW_E_MISSING);
}

/* A gap without a number waits for a build-up; with the conductance of its unit it is that of the
 * layers in series: 0.04 + 0.006 / 1.0 + 1 / 2.5 + 0.13. */
static void a_gap_takes_its_conductance_from_the_unit(void **state)
{
  (void)state;
  char text[512];
  snprintf(text, sizeof text, "%s%s", head,
           "-40,0,0,200,outdoor,,\n18,0,60,200,indoor,,\n0,0,3,200,glass,,\n"
           "3,0,15,200,gap1,,\n15,0,18,200,glass,,\n");
  pw_section s;
  pw_err err = {0};
  pw_section_result r;
  if (parse(text, &s, &err) != PW_OK) fail_msg("%s", err.text);
  assert_int_equal(pw_section_solve(&s, &(pw_section_options){0}, &r, &err), PW_E_DATA);
  assert_non_null(strstr(err.text, "gap1"));
  assert_int_equal(pw_section_set_gap(&s, 2, 2.5), 0);
  assert_int_equal(pw_section_set_gap(&s, 1, 2.5), 1);
  assert_int_equal(pw_section_solve(&s, &(pw_section_options){0}, &r, &err), PW_OK);
  double want = 0.2 / (0.04 + 0.006 + 1.0 / 2.5 + 0.13);
  pw_assert_near(r.l2d, want, 1e-10, "l2d", "layers in series");
  pw_section_free(&s);
}

/* 1e6 rectangles on a lattice are read and painted; with as many different edges they are refused in
 * one line, and soon. */
static void a_million_rectangles_are_no_trouble(void **state)
{
  (void)state;
  enum { SIDE = 1000 };
  size_t room = 64u * SIDE * SIDE, n = 0;
  char *text = malloc(room);
  assert_non_null(text);
  n += (size_t)snprintf(text, room, "%s%s", head, good);
  for (int j = 0; j < SIDE; j++)
    for (int i = 0; i < SIDE; i++)
      n += (size_t)snprintf(text + n, room - n, "%g,%g,%g,%g,pvc,,\n", 0.02 * i, 0.2 * j,
                            0.02 * (i + 1), 0.2 * (j + 1));
  pw_section s;
  pw_err err = {0};
  if (pw_section_parse("big.csv", text, n, 0, &s, &err) != PW_OK) fail_msg("%s", err.text);
  assert_int_equal(s.n_part, SIDE * SIDE + 3);
  pw_section_result r;
  assert_int_equal(pw_section_solve(&s, &(pw_section_options){0}, &r, &err), PW_OK);
  assert_true(r.n_cell < 1000); /* lines without effect are gone */
  pw_section_free(&s);
  n = (size_t)snprintf(text, room, "%s%s", head, good);
  for (int i = 0; i < 20000; i++)
    n += (size_t)snprintf(text + n, room - n, "%.5f,%.5f,%.5f,%.5f,pvc,,\n", 1e-3 * i, 1e-2 * i,
                          1e-3 * i + 0.0005, 1e-2 * i + 0.005);
  assert_int_equal(pw_section_parse("big.csv", text, n, 0, &s, &err), PW_E_SHAPE);
  assert_non_null(strstr(err.text, "may have at most"));
  free(text);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(bad_rows_name_line_column_and_what_is_wanted),
      cmocka_unit_test(a_section_without_two_sides_is_refused),
      cmocka_unit_test(a_slip_of_unit_is_said),
      cmocka_unit_test(odd_but_right_files_are_taken),
      cmocka_unit_test(a_gap_takes_its_conductance_from_the_unit),
      cmocka_unit_test(a_million_rectangles_are_no_trouble),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
