/* Sound of openings, rooms and the house: composites against closed forms, verdicts, and that text, JSON
 * and paper of one comparison carry the same figures. Printed cases: check group sound. */
#include "support.h"

#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "gen/reference.h"
#include "house/facade_sound.h"
#include "job/job_open.h"
#include "out/compare_out.h"
#include "out/compare_sound_out.h"
#include "out/sheet.h"
#include "window/glass_sound.h"

typedef struct fixture {
  pw_open_job open;
  pw_compare compare;
  pw_compare_sound sound;
  pw_compare_frame frame;
} fixture;

static void run(fixture *f)
{
  pw_compare_options options = pw_job_options(&f->open, PW_YEAR_QUICK);
  pw_err err = {0};
  pw_status s =
      pw_compare_run(&f->open.job, f->open.weather, &options, NULL, &f->compare, &err);
  if (s == PW_OK) s = pw_compare_sound_of(&f->compare, &f->sound, &err);
  if (s != PW_OK) fail_msg("%s", err.text);
  f->frame = (pw_compare_frame){.climate = f->open.climate,
                                .method = "month by month",
                                .notes = &f->open.notes,
                                .sound = &f->sound};
}

static fixture *job(void)
{
  fixture *f = calloc(1, sizeof *f);
  assert_non_null(f);
  assert_int_equal(pw_job_open("examples/harrow_bend", &f->open, NULL), PW_OK);
  return f;
}

static void done(fixture *f)
{
  pw_compare_sound_free(&f->sound);
  pw_compare_free(&f->compare);
  pw_job_close(&f->open);
  free(f);
}

static void glass(pw_buildup *b, double mm1, double gap, double mm2)
{
  *b = (pw_buildup){.n_pane = 2};
  b->pane[0].thickness = mm1 * 1e-3;
  b->pane[1].thickness = mm2 * 1e-3;
  b->gap[0].thickness = gap * 1e-3;
  memcpy(b->pane[0].kind, "clear", sizeof "clear");
  memcpy(b->pane[1].kind, "clear", sizeof "clear");
}

/* A bare hole of share p holds a composite to 10 lg (1/p): METHODS 5, 1 % 20 dB, 0.1 % 30 dB. */
static void a_hole_is_the_ceiling(void **state)
{
  (void)state;
  pw_thirds wall, hole, out;
  for (int i = 0; i < PW_THIRDS; i++) {
    wall.db[i] = 90.0;
    hole.db[i] = 0.0;
  }
  for (int k = 2; k <= 3; k++) {
    double p = pow(10.0, -k);
    const pw_sound_part part[2] = {{1.0 - p, &wall}, {p, &hole}};
    assert_int_equal(pw_sound_composite(part, 2, NULL, 0, 1.0, &out, NULL), PW_OK);
    pw_assert_near(out.db[7], 10.0 * k, 0.01, "ceiling", "10 lg (1/p)");
  }
  pw_err err = {0};
  const pw_sound_part bad = {-1.0, &wall};
  assert_int_equal(pw_sound_composite(&bad, 1, NULL, 0, 1.0, &out, &err), PW_E_DOMAIN);
  assert_int_equal(pw_sound_composite(&bad, 0, NULL, 0, 1.0, &out, &err), PW_E_SHAPE);
  assert_int_equal(pw_sound_composite(&bad, 1, NULL, 0, 0.0, &out, &err), PW_E_DOMAIN);
}

/* Friction takes from a narrow joint and leaves a wide one; flow between plates: at low frequency the
 * moved mass goes with (w^2 rho w_c / 12 mu)^2. */
static void friction_closes_narrow_joints(void **state)
{
  (void)state;
  pw_slit rough = {1e-4, 0.03, 0, 0, 1}, smooth = {1e-4, 0.03, 0, 0, 0};
  double f = 100.0, w = 2.0 * 3.14159265 * f;
  double share = 1e-8 * 1.205 * w / (12.0 * 1.81e-5);
  pw_assert_near(pw_slit_tau(&rough, f, 343.0) / pw_slit_tau(&smooth, f, 343.0), share * share,
                 0.02 * share * share, "0.1 mm at 100 Hz", "Poiseuille");
  rough.width = smooth.width = 5e-3;
  assert_true(pw_slit_tau(&rough, 1000.0, 343.0) / pw_slit_tau(&smooth, 1000.0, 343.0) > 0.93);
}

/* EN 14351-1 annex B, rows of the reference (from memory; limits read). */
static void a_window_alone_by_the_table(void **state)
{
  (void)state;
  double rw, ctr;
  pw_window_en_14351(29.0, 25.0, 1.5, &rw, &ctr);
  pw_assert_near(rw, 32.0, 1e-9, "unit Rw 29", "EN 14351-1 table B.1");
  pw_assert_near(ctr, 27.0, 1e-9, "unit Rw + Ctr 25", "EN 14351-1 table B.2");
  pw_window_en_14351(33.0, 29.0, 4.0, &rw, &ctr);
  pw_assert_near(rw, 34.0 - 2.0, 1e-9, "unit 33 of 4 m2", "EN 14351-1 tables B.1 and B.3");
  pw_window_en_14351(40.0, 36.0, 5.0, &rw, &ctr);
  pw_assert_near(rw, 38.0 - 3.0, 1e-9, "unit 40 of 5 m2", "EN 14351-1 tables B.1 and B.3");
  pw_window_en_14351(26.0, 37.0, 1.0, &rw, &ctr);
  assert_true(isnan(rw) && isnan(ctr));
}

/* Closed form of a room: 0.16 V/(T0 S); a vent of D_n,e 40 in 10 m2 passes as 1 m2 of 30 dB wall does. */
static void a_vent_passes_as_its_area(void **state)
{
  (void)state;
  const pw_facade_part wall = {10.0, 200.0};
  double vent = 40.0, r = 0.0, area = 0.0;
  assert_int_equal(pw_facade_reduction(&wall, 1, &vent, 1, &r, &area, NULL), PW_OK);
  pw_assert_near(r, 40.0, 1e-6, "R' of a vent in 10 m2", "EN 12354-3, small elements");
  pw_assert_near(pw_facade_d2m(r, 0.0, 50.0, area), 40.0 + 10.0 * log10(1.6), 1e-9, "D2m,nT",
                 "EN 12354-3");
  pw_assert_near(pw_facade_level(65.0, 40.0, 1.0), 25.0 + 10.0 * log10(2.0), 1e-9, "level",
                 "EN 12354-3");
  assert_int_equal(pw_facade_reduction(&wall, 0, NULL, 0, &r, &area, NULL), PW_E_SHAPE);
}

static void verdicts_hang_on_3_db(void **state)
{
  (void)state;
  pw_band b = {.p10 = 3.0, .p90 = 9.0};
  assert_int_equal(pw_heard_of(&b), PW_HEARD_YES);
  b.p10 = 2.99;
  assert_int_equal(pw_heard_of(&b), PW_HEARD_MAY);
  b.p90 = 3.0;
  assert_int_equal(pw_heard_of(&b), PW_HEARD_MAY);
  b.p90 = 2.99;
  assert_int_equal(pw_heard_of(&b), PW_HEARD_NOT);
}

/* The reference: 3 mm single to 3-12-3 gains -1 to 3 dB by the glass alone, unlike panes 2 to 4 more,
 * and a drop from 5 mm single is one. */
static void what_the_reference_says_of_jobs(void **state)
{
  (void)state;
  fixture *f = job();
  glass(&f->open.job.package[1].glass, 3, 12.7, 5);
  run(f);
  size_t n = f->compare.n_opening;
  double low = INFINITY, high = -INFINITY; /* all together lie between the openings */
  for (size_t i = 0; i < n; i++) {
    low = fmin(low, f->sound.package[n + i].change.p50);
    high = fmax(high, f->sound.package[n + i].change.p50);
  }
  assert_true(f->sound.change[1].p50 > low && f->sound.change[1].p50 < high);
  for (size_t i = 0; i < n; i++) {
    const pw_opening *o = &f->open.job.opening[i];
    const pw_band *plain = &f->sound.package[i].change,
                  *unlike = &f->sound.package[n + i].change;
    double mm = o->existing_glass.pane[0].thickness * 1e3;
    assert_true(plain->p10 < plain->p50 && plain->p50 < plain->p90);
    if (mm < 3.1) assert_true(plain->p10 > -1.5 && plain->p90 < 4.5);
    if (mm > 4.9) assert_true(plain->p90 < 0.5);
    assert_true(unlike->p50 > plain->p50 + 1.5 && unlike->p50 < plain->p50 + 4.0);
    pw_assert_near(f->sound.existing[i].number.rw, f->sound.existing[i].glass.rw, 2.1,
                   "whole opening and glass", "hollow frames insulate about as the glass");
  }
  done(f);
}

/* A tighter or a thicker window is never told louder in a draw's middle; a vent holds the room back. */
static void a_vent_hides_the_window(void **state)
{
  (void)state;
  fixture *f = job();
  glass(&f->open.job.package[0].glass, 6, 16, 10);
  run(f);
  double free_gain = f->sound.room[0].change[0].p50;
  done(f);
  f = job();
  glass(&f->open.job.package[0].glass, 6, 16, 10);
  for (size_t i = 0; i < f->open.job.n_opening; i++)
    f->open.job.opening[i].vent_dne = 30.0;
  run(f);
  assert_true(f->sound.room[0].change[0].p50 < 0.6 * free_gain);
  assert_true(f->sound.room[0].change[0].p50 > 0.0);
  done(f);
}

/* Packages in another order, openings in another order: the same figures of each. */
static void order_changes_nothing(void **state)
{
  (void)state;
  fixture *a = job(), *b = job();
  size_t n = a->open.job.n_opening, np = a->open.job.n_package;
  glass(&a->open.job.package[1].glass, 4, 16, 6);
  glass(&b->open.job.package[1].glass, 4, 16, 6);
  for (size_t p = 0; p < np / 2; p++) {
    pw_package k = b->open.job.package[p];
    b->open.job.package[p] = b->open.job.package[np - 1 - p];
    b->open.job.package[np - 1 - p] = k;
  }
  for (size_t i = 0; i < n / 2; i++) {
    pw_opening o = b->open.job.opening[i];
    b->open.job.opening[i] = b->open.job.opening[n - 1 - i];
    b->open.job.opening[n - 1 - i] = o;
  }
  run(a);
  run(b);
  for (size_t p = 0; p < np; p++) {
    size_t q = np - 1 - p;
    pw_assert_near(a->sound.change[p].p10, b->sound.change[q].p10, 1e-9, "p10", "order");
    pw_assert_near(a->sound.change[p].p90, b->sound.change[q].p90, 1e-9, "p90", "order");
    for (size_t i = 0; i < n; i++) {
      const pw_opening_sound *x = &a->sound.package[p * n + i];
      const pw_opening_sound *y = &b->sound.package[q * n + n - 1 - i];
      assert_true(x->change.p50 == y->change.p50 && x->number.rw == y->number.rw);
    }
  }
  done(a);
  done(b);
}

/* A glass turned outside in is the same for sound. */
static void turned_glass_is_the_same(void **state)
{
  (void)state;
  fixture *f = job();
  glass(&f->open.job.package[0].glass, 3, 12.7, 6);
  glass(&f->open.job.package[1].glass, 6, 12.7, 3);
  run(f);
  pw_assert_near(f->sound.change[0].p10, f->sound.change[1].p10, 1e-6, "turned", "reciprocity");
  pw_assert_near(f->sound.change[0].p90, f->sound.change[1].p90, 1e-6, "turned", "reciprocity");
  done(f);
}

static double real(const json_t *o, const char *path)
{
  char copy[120], *rest = NULL;
  snprintf(copy, sizeof copy, "%s", path);
  for (char *w = strtok_r(copy, ".", &rest); w && o; w = strtok_r(NULL, ".", &rest))
    o = json_is_array(o) ? json_array_get(o, (size_t)atoi(w)) : json_object_get(o, w);
  assert_non_null(o);
  return json_is_number(o) ? json_number_value(o) : (double)NAN;
}

/* The text's "1 to 5 dB quieter", the JSON's band and the paper's figure are one. */
static void text_json_and_paper_agree(void **state)
{
  (void)state;
  fixture *f = job();
  pw_err err = {0};
  glass(&f->open.job.package[1].glass, 4, 16, 6);
  run(f);
  json_t *data = pw_compare_json(&f->compare, &f->frame);
  char *text = NULL, *paper = NULL;
  size_t size = 0;
  FILE *out = open_memstream(&text, &size);
  assert_int_equal(pw_compare_text(&f->compare, &f->frame, pw_units(0), out, &err), PW_OK);
  fclose(out);
  out = open_memstream(&paper, &size);
  pw_sheet sheet = {&f->compare,
                    &f->frame,
                    pw_units(0),
                    {.job = f->compare.job, .version = "0123abcd", .date = 20261129}};
  assert_int_equal(pw_sheet_html(&sheet, &(pw_html){out, NULL}, &err), PW_OK);
  fclose(out);
  for (size_t p = 0; p < f->compare.n_package; p++) {
    char path[80], want[160];
    snprintf(path, sizeof path, "sound.packages.%zu.change_rw_ctr_db.p10", p);
    double low = floor(real(data, path) + 0.5);
    snprintf(path, sizeof path, "sound.packages.%zu.change_rw_ctr_db.p90", p);
    double high = floor(real(data, path) + 0.5);
    snprintf(want, sizeof want, "%s: %s, %.0f to %.0f dB quieter",
             f->compare.rated.package_set[p].name, pw_heard_text(f->sound.heard[p]), low + 0.0,
             high + 0.0);
    if (!strstr(text, want)) fail_msg("the text lacks: %s", want);
    snprintf(want, sizeof want, "data-key=\"%s\">%.0f</span> dB quieter", path, high + 0.0);
    if (!strstr(paper, want)) fail_msg("the paper lacks: %s", want);
  }
  pw_assert_near(real(data, "openings.0.existing.sound.rw_db"), f->sound.existing[0].number.rw,
                 1e-9, "rw_db", "the study");
  pw_assert_near(real(data, "openings.2.packages.1.sound.oitc_db"),
                 f->sound.package[f->compare.n_opening + 2].number.oitc, 1e-9, "oitc_db",
                 "the study");
  assert_true(isnan(real(data, "sound.rooms.0.windows.0.level_difference_db"))); /* defaults */
  json_decref(data);
  free(text);
  free(paper);
  done(f);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_hole_is_the_ceiling),
      cmocka_unit_test(friction_closes_narrow_joints),
      cmocka_unit_test(a_window_alone_by_the_table),
      cmocka_unit_test(a_vent_passes_as_its_area),
      cmocka_unit_test(verdicts_hang_on_3_db),
      cmocka_unit_test(what_the_reference_says_of_jobs),
      cmocka_unit_test(a_vent_hides_the_window),
      cmocka_unit_test(order_changes_nothing),
      cmocka_unit_test(turned_glass_is_the_same),
      cmocka_unit_test(text_json_and_paper_agree),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
