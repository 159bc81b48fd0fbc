/* What one opening has over its package, in figures: hand sums of bars, tints, colours; that it changes that
 * opening's figures only. Words of the columns: test_option_words.c. */
#include "support.h"

#include <math.h>
#include <string.h>

#include "job/job_open.h"
#include "panewright/glazing.h"
#include "panewright/units.h"
#include "study/compare.h"
#include "window/grille.h"
#include "window/opening_package.h"
#include "window/options.h"

static pw_open_job open_job;
static pw_compare plain;

static void compared(pw_compare *c)
{
  pw_err err = {0};
  pw_compare_options o = pw_job_options(&open_job, PW_YEAR_QUICK);
  if (pw_compare_run(&open_job.job, open_job.weather, &o, NULL, c, &err) != PW_OK)
    fail_msg("%s", err.text);
}

static int set_up(void **state)
{
  pw_err err = {0};
  (void)state;
  if (pw_job_open("examples/harrow_bend", &open_job, &err) != PW_OK) {
    print_error("%s\n", err.text);
    return -1;
  }
  compared(&plain);
  return 0;
}

static int tear_down(void **state)
{
  (void)state;
  pw_compare_free(&plain);
  pw_job_close(&open_job);
  return 0;
}

static const char low_e[] = "3mm clear coat ag2@2 / 12.7mm argon 90% / 3mm clear";

/* Bit by bit: a grille of one cell, tint clear, tempered, hinge, note and pet panel change no figure. */
static void what_changes_nothing_changes_no_bit(void **state)
{
  (void)state;
  pw_options save = open_job.job.opening[0].option;
  const pw_options same[] = {{.grille = {PW_GRILLE_BETWEEN, 1, 1, 0.02}},
                             {.tint = PW_TINT_NONE},
                             {.tempered = 1, .pet_panel = 1, .maker_note = "call"}};
  for (size_t k = 0; k < sizeof same / sizeof same[0]; k++) {
    pw_compare c;
    open_job.job.opening[0].option = same[k];
    compared(&c);
    for (size_t i = 0; i < c.n_opening * c.n_package; i++) {
      assert_memory_equal(&c.rated.package[0][i].rating.u, &plain.rated.package[0][i].rating.u,
                          sizeof(double));
      assert_memory_equal(&c.rated.package[0][i].rating.areas,
                          &plain.rated.package[0][i].rating.areas, sizeof(pw_parts));
      assert_memory_equal(&c.rated.package[0][i].rating.ua,
                          &plain.rated.package[0][i].rating.ua, sizeof(pw_parts));
      assert_true(c.rated.package[0][i].rating.shgc == plain.rated.package[0][i].rating.shgc);
    }
    for (size_t p = 0; p < c.n_package; p++)
      assert_true(c.lived.package_set[p].year.heating_kwh ==
                  plain.lived.package_set[p].year.heating_kwh);
    pw_compare_free(&c);
  }
  open_job.job.opening[0].option = save;
}

/* One upright bar in a fixed lite w x h, by hand: it covers bar h; beside it lie two bands of 63.5 mm, h long.
 * Light and VT by area; heat (u_bar - u_c) bar h + (u_edge - u_c) 2 x 0.0635 h. */
static void one_bar_is_summed_by_hand(void **state)
{
  (void)state;
  const pw_grille g = {PW_GRILLE_BETWEEN, 2, 1, 0.75 * PW_INCH};
  pw_options save = open_job.job.opening[0].option;
  pw_compare c;
  open_job.job.opening[0].option = (pw_options){.grille = g};
  compared(&c);
  for (size_t p = 0; p < c.n_package; p++) {
    const pw_rating *r = &c.rated.package[p][0].rating, *r0 = &plain.rated.package[p][0].rating;
    const pw_glazing *glass = pw_compare_glass(c.job, &c.fitted, (int)p, 0);
    const pw_lite *lite = &c.fitted.fit[p][0].insert.lite[0];
    pw_grille_heat heat;
    assert_int_equal(c.fitted.fit[p][0].insert.n_lite, 1);
    assert_int_equal(pw_grille_heat_of(&glass->unit, 0.5, &g, 0.3, 0.0635, &heat, NULL), PW_OK);
    double bar = g.bar * lite->height, band = 2.0 * 0.0635 * lite->height;
    double more = (heat.u_bar - glass->u_winter) * bar + (heat.u_edge - glass->u_winter) * band;
    pw_assert_near(r->bars_area, bar, 1e-12, "bar, m2", "by hand");
    pw_assert_near(r->glass_area, r0->glass_area - bar, 1e-12, "glass", "by hand");
    pw_assert_near(r->vt, r0->vt * (1.0 - bar / r0->glass_area), 1e-12, "VT", "by hand");
    pw_assert_near((r->u - r0->u) * r->area, more, 1e-9, "W/K more", "by hand");
    pw_assert_near((r->u_psi - r0->u_psi) * r->area, more, 1e-9, "W/K more, psi form",
                   "by hand");
    pw_assert_near(c.rated.package[p][0].light_kept,
                   plain.rated.package[p][0].light_kept * (1.0 - bar / r0->glass_area), 1e-12,
                   "light kept", "by hand");
    double sum =
        r->areas.center + r->areas.edge + r->areas.frame + r->areas.divider + r->areas.retained;
    pw_assert_near(sum, r->area, 1e-12 * r->area, "areas", "the opening");
    sum = r->ua.center + r->ua.edge + r->ua.frame + r->ua.divider + r->ua.retained;
    pw_assert_near(sum, r->u * r->area, 1e-9, "parts of UA", "U A");
    double lost = glass->shgc[0] * bar / r->area; /* less what the bar hands on */
    assert_true(r->shgc > r0->shgc - lost && r->shgc < r0->shgc - 0.6 * lost);
    assert_true(more > 0.0);
  }
  pw_compare_free(&c);
  open_job.job.opening[0].option = save;
}

/* 3 x 2 cells: of the sides that stand at bars there are 2 rows x 4, of those that lie 6; eight corners of two bars
 * are cut by the mitre, b^2 each. */
static void three_by_two_is_summed_by_hand(void **state)
{
  (void)state;
  const pw_grille g = {PW_GRILLE_BETWEEN, 3, 2, 0.75 * PW_INCH};
  pw_options save = open_job.job.opening[0].option;
  pw_compare c;
  open_job.job.opening[0].option = (pw_options){.grille = g};
  compared(&c);
  const pw_rating *r = &c.rated.package[1][0].rating, *r0 = &plain.rated.package[1][0].rating;
  const pw_glazing *glass = pw_compare_glass(c.job, &c.fitted, 1, 0);
  const pw_lite *lite = &c.fitted.fit[1][0].insert.lite[0];
  pw_grille_heat heat;
  assert_int_equal(pw_grille_heat_of(&glass->unit, 0.5, &g, 0.3, 0.0635, &heat, NULL), PW_OK);
  double w = (lite->width - 2 * g.bar) / 3, h = (lite->height - g.bar) / 2, b = 0.0635;
  double bars = 2 * g.bar * lite->height + g.bar * lite->width - 2 * g.bar * g.bar;
  double band = 8 * b * h + 6 * b * w - 8 * b * b;
  double more = (heat.u_bar - glass->u_winter) * bars + (heat.u_edge - glass->u_winter) * band;
  pw_assert_near(r->bars_area, bars, 1e-12, "bars", "by hand");
  pw_assert_near(r->areas.center, 6 * (w - 2 * b) * (h - 2 * b), 1e-12, "centres", "by hand");
  pw_assert_near((r->u - r0->u) * r->area, more, 1e-9, "W/K more", "by hand");
  pw_compare_free(&c);
  open_job.job.opening[0].option = save;
}

/* A tint is the package with that glass written out; its pane is absorbing: less light and sun, the same U. */
static void a_tint_is_its_glass_written_out(void **state)
{
  (void)state;
  static const char *const text[] = {"3mm bronze coat ag2@2 / 12.7mm argon 90% / 3mm clear",
                                     "3mm gray coat ag2@2 / 12.7mm argon 90% / 3mm clear",
                                     "3mm green coat ag2@2 / 12.7mm argon 90% / 3mm obscure"};
  for (int t = 0; t < 3; t++) {
    pw_buildup base, want;
    pw_glazing g, clear;
    pw_options o = {.tint = (pw_tint)(PW_TINT_BRONZE + t)};
    if (t == 2) memcpy(o.pattern, "rain", 5);
    assert_int_equal(pw_buildup_parse(low_e, &base, NULL), PW_OK);
    assert_int_equal(pw_buildup_parse(text[t], &want, NULL), PW_OK);
    assert_int_equal(pw_glazing_build(&base, &clear, NULL), PW_OK);
    assert_int_equal(pw_options_glass(&o, &base, NULL), PW_OK);
    assert_memory_equal(&base, &want, sizeof base);
    assert_int_equal(pw_glazing_build(&base, &g, NULL), PW_OK);
    assert_true(g.shgc[0] < clear.shgc[0] && g.light.tau_v[0] < clear.light.tau_v[0]);
    pw_assert_near(g.u_winter, clear.u_winter, 1e-9, "U", "no sun, the same panes");
    pw_assert_near(g.unit.pane[0].emit[1], clear.unit.pane[0].emit[1], 0.0, "coating", "kept");
  }
  const pw_buildup untouched = {.n_pane = 1, .pane = {{.thickness = 3e-3, .kind = "acrylic"}}};
  pw_buildup b = untouched;
  assert_int_equal(pw_options_glass(&(pw_options){.tint = PW_TINT_GRAY}, &b, NULL), PW_E_DATA);
  assert_memory_equal(&b, &untouched, sizeof b);
}

/* SHGC of an opaque part is alpha U / (h_out D), D 1.2, h_out 30 (NFRC 200 as rating.h): from 0.3 to 0.95. */
static void a_dark_frame_takes_more_sun(void **state)
{
  (void)state;
  pw_options save = open_job.job.opening[1].option;
  pw_compare c;
  double low = 0, high = 0, alpha = pw_colour_absorptance("Black", &low, &high);
  assert_true(alpha == 0.95 && low < alpha && alpha < high);
  assert_true(pw_colour_absorptance("no such colour", NULL, NULL) == 0.0);
  open_job.job.opening[1].option = (pw_options){.colour = "black", .absorptance = alpha};
  compared(&c);
  for (size_t p = 0; p < 2; p++) { /* vinyl: 0.3 */
    const pw_rating *r = &c.rated.package[p][1].rating, *r0 = &plain.rated.package[p][1].rating;
    double more = (alpha - 0.3) * (r0->ua.frame + r0->ua.divider) / (30.0 * 1.2) / r0->area;
    pw_assert_near(r->shgc - r0->shgc, more, 1e-9, "SHGC more", "by hand");
    assert_true(r->u == r0->u && r->vt == r0->vt);
  }
  pw_compare_free(&c);
  open_job.job.opening[1].option = save;
}

/* Chance options on one opening: no bit of any other opening's rating moves, nor of the windows there now. */
static void options_touch_their_opening_only(void **state)
{
  (void)state;
  uint32_t seed = 11;
  for (int k = 0; k < 24; k++) {
    unsigned v[6];
    for (int i = 0; i < 6; i++) {
      seed = seed * 1664525u + 1013904223u;
      v[i] = seed >> 16;
    }
    size_t at = v[0] % open_job.job.n_opening;
    pw_options save = open_job.job.opening[at].option;
    pw_options o = {.grille = {(pw_grille_place)(1 + v[1] % 2), 1 + (int)(v[2] % 3),
                               1 + (int)(v[3] % 3), 0.019},
                    .tint = (pw_tint)(v[4] % PW_TINT_COUNT),
                    .absorptance = v[5] % 2 ? 0.9 : 0.0};
    pw_compare c;
    open_job.job.opening[at].option = o;
    compared(&c);
    for (size_t i = 0; i < c.n_opening; i++) {
      assert_true(c.rated.existing[i].rating.u == plain.rated.existing[i].rating.u &&
                  c.rated.existing[i].rating.shgc == plain.rated.existing[i].rating.shgc);
      for (size_t p = 0; p < c.n_package; p++) {
        const pw_rating *r = &c.rated.package[p][i].rating,
                        *r0 = &plain.rated.package[p][i].rating;
        int same = r->u == r0->u && r->shgc == r0->shgc && r->vt == r0->vt &&
                   r->glass_area == r0->glass_area;
        if (i != at && !same) fail_msg("%s moved", c.job->opening[i].tag);
        if (i == at && o.tint != PW_TINT_NONE && same) fail_msg("a tint did nothing");
        assert_true(r->u >= r0->u * (1.0 - 1e-12));             /* bars are never credited */
        const pw_clear *way = &c.fitted.fit[p][i].clear_insert; /* escape: as it was */
        assert_memory_equal(way, &plain.fitted.fit[p][i].clear_insert, sizeof *way);
      }
    }
    pw_compare_free(&c);
    open_job.job.opening[at].option = save;
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(what_changes_nothing_changes_no_bit),
      cmocka_unit_test(one_bar_is_summed_by_hand),
      cmocka_unit_test(three_by_two_is_summed_by_hand),
      cmocka_unit_test(a_tint_is_its_glass_written_out),
      cmocka_unit_test(a_dark_frame_takes_more_sun),
      cmocka_unit_test(options_touch_their_opening_only),
  };
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
