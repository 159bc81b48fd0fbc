/* Measured spectra: what is read, and each refusal with its line. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/table.h"
#include "job/spectrum_file.h"

typedef struct page {
  char text[65536];
  size_t used;
} page;

#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
static void
say(page *p, const char *format, ...)
{
  va_list args;
  va_start(args, format);
  p->used += (size_t)vsnprintf(p->text + p->used, sizeof p->text - p->used, format, args);
  va_end(args);
}

static pw_status parse(const page *p, const char *name, pw_measured *m, pw_err *err)
{
  pw_notes notes = {0};
  pw_status s = pw_spectrum_file_parse(name, p->text, p->used, &notes, m, err);
  pw_notes_free(&notes);
  return s;
}

/* The tabulated double-silver pane, written out and read back, is the coating on that pane. */
static void a_tabulated_pane_comes_back(void **state)
{
  (void)state;
  const pw_table *t = pw_table_find("optics/spectral/pane_ag2_clear3");
  page p = {{0}, 0};
  pw_measured m;
  pw_err err = {0};
  say(&p,
      "# a note\nwavelength_nm,through,back_out,back_in,thickness_mm,emissivity_in,angular\n");
  for (size_t r = 0; r < t->n_row; r++)
    say(&p, "%g,%g,%g,%g%s\n", pw_table_number(t, r, 0), pw_table_number(t, r, 1),
        pw_table_number(t, r, 2), pw_table_number(t, r, 3), r ? ",,," : ",3,0.038,ag2");
  if (parse(&p, "Mine.csv", &m, &err) != PW_OK) fail_msg("%s", err.text);
  assert_string_equal(m.name, "mine");
  assert_string_equal(m.angular, "ag2");
  assert_true(m.thickness == 3e-3 && m.emit[0] == 0.0 && m.emit[1] == 0.038);
  pw_buildup b = {.n_pane = 1, .pane = {{.thickness = 3e-3, .kind = "mine"}}};
  pw_buildup c = {.n_pane = 1, .pane = {{.thickness = 3e-3, .kind = "clear"}}};
  snprintf(c.pane[0].coating[1], PW_NAME_MAX, "ag2");
  pw_glazing own, known;
  assert_int_equal(pw_glazing_build_with(&b, &m, 1, &own, &err), PW_OK);
  assert_int_equal(pw_glazing_build(&c, &known, &err), PW_OK);
  pw_assert_near(own.light.tau_e[0], known.light.tau_e[0], 1e-4, "t", "the same pane");
  pw_assert_near(own.light.tau_v[6], known.light.tau_v[6], 0.01, "vt at 60", "the same pane");
  pw_assert_near(own.u_winter, known.u_winter, 1e-9, "U", "the same emissivity");
  b.pane[0].thickness = 6e-3;
  assert_int_equal(pw_glazing_build_with(&b, &m, 1, &own, &err), PW_E_DOMAIN);
}

/* A coated pane whose far infrared nobody knows is no bare glass: refused, and every way out that the
 * message names works. Before, its U was that of uncoated glass: 2.7 for 1.7 W/(m2 K). */
static void an_unknown_film_is_refused(void **state)
{
  (void)state;
  static const struct {
    const char *column, *first, *far;
    double emit[2], want[2]; /* of the build-up; of the unit, 0 refused */
  } row[] = {{"", "", "", {0, 0}, {0, 0}},
             {",angular", ",ag2", "", {0, 0}, {0, 0}},
             {",emissivity_out", ",0.84", "", {0, 0}, {0, 0}},
             {",emissivity_in", ",0.038", "", {0, 0}, {0.0, 0.038}},
             {",emissivity_out,emissivity_in", ",0.84,0.84", "", {0, 0}, {0.84, 0.84}},
             {"", "", "", {0, 0.05}, {0, 0.05}},
             /* 1 - 0.95 and 1 - 0.10, corrected 1.18 and 0.94 (EN 673 Annex A) */
             {"",
              "",
              "5000,0,0.10,0.95\n7000,0,0.10,0.95\n9000,0,0.10,0.95\n11000,0,0.10,0.95\n"
              "13000,0,0.10,0.95\n15000,0,0.10,0.95\n17000,0,0.10,0.95\n19000,0,0.10,0.95\n"
              "21000,0,0.10,0.95\n23000,0,0.10,0.95\n25000,0,0.10,0.95\n50000,0,0.10,0.95\n",
              {0, 0},
              {0.90 * 0.94, 0.05 * 1.18}}};
  const pw_table *t = pw_table_find("optics/spectral/pane_ag2_clear3");
  for (size_t k = 0; k < sizeof row / sizeof row[0]; k++) {
    page p = {{0}, 0};
    pw_measured m;
    pw_err err = {0};
    pw_glazing g;
    int wide = (int)strlen(row[k].column) > 0;
    say(&p, "wavelength_nm,through,back_out,back_in%s\n", row[k].column);
    for (size_t r = 0; r < t->n_row; r++)
      say(&p, "%g,%g,%g,%g%s\n", pw_table_number(t, r, 0), pw_table_number(t, r, 1),
          pw_table_number(t, r, 2), pw_table_number(t, r, 3),
          r      ? wide ? strrchr(row[k].column, ',') == row[k].column ? "," : ",," : ""
          : wide ? row[k].first
                 : "");
    say(&p, "%s", row[k].far);
    if (parse(&p, "film.csv", &m, &err) != PW_OK) fail_msg("%s", err.text);
    pw_buildup b = {.n_pane = 1, .pane = {{.thickness = 3e-3, .kind = "film"}}};
    memcpy(b.pane[0].emit, row[k].emit, sizeof b.pane[0].emit);
    pw_status s = pw_glazing_build_with(&b, &m, 1, &g, &err);
    if (row[k].want[1] == 0.0) {
      assert_int_equal(s, PW_E_DATA);
      assert_string_equal(err.field, "emissivity");
      continue;
    }
    if (s != PW_OK) fail_msg("%zu: %s", k, err.text);
    for (int side = 0; side < 2; side++)
      pw_assert_near(g.unit.pane[0].emit[side], row[k].want[side], 1e-9, "emissivity",
                     "as given");
  }
}

/* A good file of 5 nm and 50 nm steps with one thing changed. */
typedef struct fault {
  const char *what;    /* must stand in the message */
  const char *instead; /* of the row at nm */
  int nm;
  int line; /* 0: not looked at */
} fault;

static pw_status with_fault(const fault *f, pw_err *err)
{
  page p = {{0}, 0};
  pw_measured m;
  memset(&m, 7, sizeof m);
  say(&p, "wavelength_nm,through,back_out,back_in\r\n");
  for (int nm = 300; nm <= 2500; nm += nm < 800 ? 5 : 50) {
    if (f && f->nm == nm)
      say(&p, "%s", f->instead);
    else
      say(&p, "%d,0.8,0.08,0.08\r\n", nm);
  }
  pw_status s = parse(&p, "pane.csv", &m, err);
  if (s != PW_OK) assert_int_equal(((unsigned char *)&m)[0], 7);
  return s;
}

static void faults_are_refused_with_their_line(void **state)
{
  (void)state;
  static const fault fault_row[] = {{"not above 1", "400,0.95,0.08,0.08\n", 400, 22},
                                    {"rise", "350,0.8,0.08,0.08\n", 400, 22},
                                    {"once", "395,0.8,0.08,0.08\n", 400, 22},
                                    {"micrometres", "0.300,0.8,0.08,0.08\n", 300, 2},
                                    {"per cent", "400,80,8,8\n", 400, 22},
                                    {"0 to 1", "400,-0.1,0.08,0.08\n", 400, 22},
                                    {"0 to 1", "400,nan,0.08,0.08\n", 400, 22},
                                    {"0 to 1", "400,0.8,,0.08\n", 400, 22},
                                    {"0 to 1", "400,0.8,0.08,1e400\n", 400, 22},
                                    {"nanometres", "4OO,0.8,0.08,0.08\n", 400, 22},
                                    {"gap", "430,0.8,0.08,0.08\n", 400, 22}};
  pw_err err = {0};
  assert_int_equal(with_fault(NULL, &err), PW_OK);
  for (size_t i = 0; i < sizeof fault_row / sizeof fault_row[0]; i++) {
    const fault *f = &fault_row[i];
    memset(&err, 0, sizeof err);
    assert_int_equal(with_fault(f, &err), PW_E_DATA);
    if (!strstr(err.text, f->what)) fail_msg("'%s' lacks '%s'", err.text, f->what);
    assert_int_equal(err.line, f->line);
    assert_true(strncmp(err.text, "pane.csv:", 9) == 0 && !strchr(err.text, '\n'));
  }
}

/* One row of broad-band values instead: solar and visible come back. */
static void broad_band_row_is_read(void **state)
{
  (void)state;
  page p = {{0}, 0};
  pw_measured m;
  pw_err err = {0};
  say(&p, "Sun_through,sun_back_out,sun_back_in,light_through,light_back_out,light_back_in,"
          "thickness_mm\n0.60,0.07,0.06,0.80,0.08,0.07,"
          "5\n");
  if (parse(&p, "sheet.csv", &m, &err) != PW_OK) fail_msg("%s", err.text);
  pw_buildup b = {.n_pane = 1, .pane = {{.thickness = 5e-3, .kind = "sheet"}}};
  pw_glazing g;
  assert_int_equal(pw_glazing_build_with(&b, &m, 1, &g, &err), PW_OK);
  pw_assert_near(g.light.tau_e[0], 0.60, 1e-3, "t", "the row");
  pw_assert_near(g.light.tau_v[0], 0.80, 1e-3, "vt", "the row");
  static const struct {
    const char *text, *what;
  } bad[] = {{"sun_through,sun_back_out,sun_back_in,light_through,light_back_out\n0.6,0.07,0."
              "06,0.8,0.08\n",
              "light_back_in"},
             {"sun_through,sun_back_out,sun_back_in,light_through,light_back_out,light_back_"
              "in\n0.9,0.07,0.06,0.2,0.08,0.08\n",
              "contradict"},
             {"sun_through,sun_back_out,sun_back_in,light_through,light_back_out,light_back_"
              "in\n60,0.07,0.06,0.2,0.08,0.08\n",
              "sheet.csv:2:1"},
             {"sun_through,sun_back_out,sun_back_in,light_through,light_back_out,light_back_"
              "in\n.6,.07,.06,.8,.08,.08\n.6,.1,.1,.8,.1,.1\n",
              "one row"}};
  for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
    page q = {{0}, 0};
    say(&q, "%s", bad[i].text);
    pw_status s = parse(&q, "sheet.csv", &m, &err);
    assert_true(s == PW_E_DATA || s == PW_E_DOMAIN);
    if (!strstr(err.text, bad[i].what)) fail_msg("'%s' lacks '%s'", err.text, bad[i].what);
  }
}

static void short_and_odd_files_are_refused(void **state)
{
  (void)state;
  static const struct {
    const char *name, *text, *what;
  } row[] = {
      {"p.csv", "wavelength_nm,through,back_out\n400,0.8,0.08\n", "back_in"},
      {"p.csv", "wavelength_nm,through,back_out,back_ni\n400,0.8,0.08,0.08\n", "back_in"},
      {"p.csv", "wavelength_nm,through,back_out,back_in\n", "rows"},
      {"p.csv",
       "wavelength_nm,through,back_out,back_in\n400,0.8,0.08,0.08\n410,0.8,0.08,0.08\n", "320"},
      {"p.csv",
       "wavelength_nm,through,back_out,back_in\n310,0.8,0.08,0.08\n320,0.8,0.08,0.08\n",
       "2100"},
      {"my pane.csv", "wavelength_nm,through,back_out,back_in\n310,0.8,0.08,0.08\n", "name"}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    page p = {{0}, 0};
    pw_measured m;
    pw_err err = {0};
    say(&p, "%s", row[i].text);
    pw_status s = parse(&p, row[i].name, &m, &err);
    assert_true(s == PW_E_DATA || s == PW_E_MISSING);
    if (!strstr(err.text, row[i].what)) fail_msg("'%s' lacks '%s'", err.text, row[i].what);
  }
  pw_measured m;
  pw_err err = {0};
  assert_int_equal(pw_spectrum_file_read("/nowhere/x.csv", NULL, &m, &err), PW_E_MISSING);
}

/* 3000 files with bytes changed at random: each is read or refused in one line, nothing else. */
static void odd_bytes_do_no_harm(void **state)
{
  (void)state;
  static const char byte[] = "0123456789.,\n\r\"-eE x#\377";
  static page good, p;
  uint32_t seed = 12345;
  size_t read = 0;
  say(&good, "wavelength_nm,through,back_out,back_in,thickness_mm,angular\n");
  for (int nm = 300; nm <= 2500; nm += nm < 800 ? 20 : 100)
    say(&good, "%d,0.8,0.08,0.08%s\n", nm, nm == 300 ? ",4," : "");
  for (int trial = 0; trial < 3000; trial++) {
    pw_measured m;
    pw_err err = {0};
    p = good;
    for (int k = 0; k < 1 + trial % 4; k++) {
      seed = seed * 1664525u + 1013904223u;
      p.text[(seed >> 8) % p.used] = byte[(seed >> 3) % sizeof byte]; /* its NUL too */
    }
    if (parse(&p, "odd.csv", &m, &err) == PW_OK)
      read++;
    else
      assert_true(err.text[0] && !strchr(err.text, '\n'));
  }
  assert_true(read > 100 && read < 2900);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_tabulated_pane_comes_back),
      cmocka_unit_test(an_unknown_film_is_refused),
      cmocka_unit_test(faults_are_refused_with_their_line),
      cmocka_unit_test(broad_band_row_is_read),
      cmocka_unit_test(short_and_odd_files_are_refused),
      cmocka_unit_test(odd_bytes_do_no_harm),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
