/* Two-dimensional conduction: closed forms, convergence, the bracket, symmetry. Published cases stand
 * in src/check/section.c. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/table.h"
#include "check/section_table.h"
#include "frame/conduct.h"
#include "frame/frame_impl.h"

static const char *const generic[] = {"insert_jamb_clear",
                                      "insert_jamb_fins_cut_air",
                                      "insert_jamb_fins_cut_foam",
                                      "insert_jamb_fins_kept_air",
                                      "insert_jamb_fins_kept_foam",
                                      "insert_jamb_foam_spacer",
                                      "insert_jamb_panel",
                                      "insert_jamb_stainless",
                                      "insert_jamb_wall",
                                      "insert_sill_lip_cut",
                                      "insert_sill_lip_kept",
                                      "old_head_sash_single",
                                      "old_jamb_fixed_single",
                                      "old_jamb_sash_single",
                                      "old_jamb_wall_single",
                                      "old_sill_sash_single",
                                      "vinyl_alone",
                                      "vinyl_alone_panel"};
enum { N_GENERIC = sizeof generic / sizeof generic[0] };

static void load(const char *name, pw_section *s)
{
  char path[96];
  snprintf(path, sizeof path, "generic/%s", name);
  pw_err err = {0};
  if (pw_section_of_table(path, s, &err) != PW_OK) fail_msg("%s: %s", name, err.text);
}

static pw_section_result solve(const pw_section *s, const pw_section_options *o)
{
  pw_section_result r;
  pw_err err = {0};
  if (pw_section_solve(s, o, &r, &err) != PW_OK) fail_msg("%s", err.text);
  return r;
}

static void add(pw_section *s, double x0, double y0, double x1, double y1, const char *material,
                double k)
{
  pw_err err = {0};
  if (pw_section_add(s, x0, y0, x1, y1, material, k, (double)NAN, 0, &err) != PW_OK)
    fail_msg("%s", err.text);
}

/* Layers in series: R = 0.04 + 0.0015 / 160 + 0.054 / 0.035 + 0.0015 / 160 + 0.13. Closed form. */
static void layered_slabs_are_exact(void **state)
{
  (void)state;
  pw_section s;
  pw_section_init(&s);
  add(&s, -0.1, 0.0, 0.0, 1.0, "outdoor", NAN);
  add(&s, 0.057, 0.0, 0.2, 1.0, "indoor", NAN);
  add(&s, 0.0, 0.0, 0.057, 1.0, "skin", 160.0);
  add(&s, 0.0015, 0.0, 0.0555, 1.0, "core", 0.035);
  pw_section_result r = solve(&s, &(pw_section_options){0});
  double want = 1.0 / (0.04 + 0.0015 / 160.0 + 0.054 / 0.035 + 0.0015 / 160.0 + 0.13);
  pw_assert_near(r.low, want, 1e-10 * want, "volumes", "series of layers");
  pw_assert_near(r.high, want, 1e-10 * want, "elements", "series of layers");
  pw_assert_near(r.coldest - 273.15, 20.0 - 20.0 * want * 0.13, 1e-8, "indoor face", "same");
  assert_true(isnan(r.u_frame));
  pw_section_result_free(&r);
  pw_section_free(&s);
}

/* Coupling by both schemes on a grid of `splits` halvings, hollows in the fixed form. */
static void on_grid(const pw_section *s, int splits, double bound[2], double plain[2],
                    double *gap)
{
  pw_err err = {0};
  frame_plane plane;
  frame_grid g;
  const pw_section_options o = {.t_in = 293.15, .t_out = 273.15, .fixed_hollow = 1};
  assert_int_equal(frame_plane_make(s, &o, &plane, &err), PW_OK);
  assert_int_equal(frame_grid_first(&plane, &g, &err), PW_OK);
  for (int k = 0; k < splits; k++) {
    frame_grid finer;
    unsigned char *two = malloc(g.n_x + g.n_y);
    assert_non_null(two);
    memset(two, 2, g.n_x + g.n_y);
    assert_int_equal(frame_grid_split(&g, two, two, &finer, &err), PW_OK);
    free(two);
    frame_grid_free(&g);
    g = finer;
  }
  frame_solution v, e;
  frame_factor *f_v, *f_e;
  assert_int_equal(frame_factor_new(&f_v, &err), PW_OK);
  assert_int_equal(frame_factor_new(&f_e, &err), PW_OK);
  assert_int_equal(frame_volumes(&g, f_v, &v, &err), PW_OK);
  assert_int_equal(frame_elements(&g, f_e, &e, &err), PW_OK);
  assert_int_equal(frame_elements_bound(&g, &e, &err), PW_OK);
  double *share = calloc(g.n_x + g.n_y, sizeof *share);
  assert_non_null(share);
  frame_gap(&g, &v, &e, share, share + g.n_x);
  *gap = 0.0;
  for (size_t k = 0; k < g.n_x + g.n_y; k++)
    *gap += share[k];
  plain[0] = v.q;
  plain[1] = e.q;
  bound[0] = v.bound;
  bound[1] = e.bound;
  assert_true(v.q < v.bound && v.bound < e.bound && e.bound < e.q);
  assert_true(v.residual < 1e-8 && e.residual < 1e-8);
  free(share);
  frame_solution_free(&v);
  frame_solution_free(&e);
  frame_factor_free(f_v);
  frame_factor_free(f_e);
  frame_grid_free(&g);
  frame_plane_free(&plane);
}

/* Halving the grid: the elements come down, the volumes come up, the gap of both with their bubbles is what Prager and Synge
 * say cell by cell, and the order of both without lies between 1 (a corner between 160 and 0.03 W/(m K)) and 2. The
 * bracket of the solver holds the Richardson value of three grids. */
static void the_bracket_holds_the_richardson_value(void **state)
{
  (void)state;
  for (size_t i = 0; i < N_GENERIC; i++) {
    pw_section s;
    load(generic[i], &s);
    double low[3], high[3], better[3], gap;
    for (int k = 0; k < 3; k++) {
      double bound[2], plain[2];
      on_grid(&s, k, bound, plain, &gap);
      pw_assert_near(gap, bound[1] - bound[0], 1e-9 * bound[1], generic[i], "Prager-Synge");
      low[k] = plain[0];
      high[k] = plain[1];
      better[k] = (bound[1] - bound[0]) / (plain[1] - plain[0]);
    }
    assert_true(high[0] > high[1] && high[1] > high[2]);
    assert_true(low[0] < low[1] && low[1] < low[2]);
    double order_e = log2((high[0] - high[1]) / (high[1] - high[2]));
    double order_v = log2((low[1] - low[0]) / (low[2] - low[1]));
    double ratio = (high[0] - high[1]) / (high[1] - high[2]);
    double richardson = high[2] - (high[1] - high[2]) / (ratio - 1.0);
    pw_section_result r = solve(&s, &(pw_section_options){.fixed_hollow = 1});
    print_message("%-27s order %.2f elements, %.2f volumes; %.6f <= %.6f <= %.6f, value off by "
                  "%+.1e\n",
                  generic[i], order_e, order_v, r.low, richardson, r.high,
                  r.l2d / richardson - 1.0);
    assert_true(order_e > 0.9 && order_e < 2.1 && order_v > 0.9 && order_v < 2.1);
    assert_true(better[0] < 0.5 && better[1] < 0.5 && better[2] < 0.5);
    assert_true(r.low < richardson && richardson < r.high);
    assert_true(r.high - r.low <= 0.002 * r.l2d);
    pw_assert_near(r.l2d, richardson, 2e-4 * richardson, generic[i], "Richardson");
    assert_true(r.residual < 1e-8);
    pw_section_result_free(&r);
    pw_section_free(&s);
  }
}

/* Every tighter value lies in every wider bracket before it. */
static void tightening_the_tolerance_narrows_the_bracket(void **state)
{
  (void)state;
  pw_section s;
  load("insert_jamb_fins_kept_foam", &s);
  double low = 0.0, high = INFINITY;
  static const double tolerance[] = {0.01, 0.003, 0.001, 0.0003};
  for (size_t i = 0; i < 4; i++) {
    pw_section_result r =
        solve(&s, &(pw_section_options){.tolerance = tolerance[i], .fixed_hollow = 1});
    print_message("tolerance %g: %.6f to %.6f on %zu cells\n", tolerance[i], r.low, r.high,
                  r.n_cell);
    assert_true(r.high - r.low <= tolerance[i] * r.l2d);
    assert_true(r.l2d > low && r.l2d < high); /* inside every wider bracket before it */
    assert_true(r.low < high && r.high > low);
    low = fmax(low, r.low);
    high = fmin(high, r.high);
    pw_section_result_free(&r);
  }
  pw_section_free(&s);
}

/* x and y swapped, either mirrored. */
static pw_section turned(const pw_section *s, int swap, double sign_x, double sign_y)
{
  pw_section t;
  pw_section_init(&t);
  for (size_t i = 0; i < s->n_part; i++) {
    const pw_section_part *p = &s->part[i];
    const pw_section_material *m = &s->material[p->material];
    double x0 = sign_x * p->x0, x1 = sign_x * p->x1, y0 = sign_y * p->y0, y1 = sign_y * p->y1;
    double a0 = fmin(x0, x1), a1 = fmax(x0, x1), b0 = fmin(y0, y1), b1 = fmax(y0, y1);
    if (swap)
      add(&t, b0, a0, b1, a1, m->name, NAN);
    else
      add(&t, a0, b0, a1, b1, m->name, NAN);
  }
  return t;
}

/* Outdoors may be on either side, the glass at either end, and heat may flow along y: the figures
 * are the same. Tolerance: the same grid mirrored, so rounding only. */
static void turning_a_section_changes_nothing(void **state)
{
  (void)state;
  static const char *const name[] = {"insert_jamb_fins_kept_air", "old_sill_sash_single"};
  for (size_t n = 0; n < 2; n++) {
    pw_section s;
    load(name[n], &s);
    pw_section_result want = solve(&s, &(pw_section_options){0});
    for (int turn = 1; turn < 8; turn++) {
      pw_section t = turned(&s, turn & 1, turn & 2 ? -1.0 : 1.0, turn & 4 ? -1.0 : 1.0);
      pw_section_result r = solve(&t, &(pw_section_options){0});
      assert_int_equal(r.flow_axis, turn & 1);
      pw_assert_near(r.l2d, want.l2d, 1e-9 * want.l2d, "l2d", name[n]);
      pw_assert_near(r.high - r.low, want.high - want.low, 1e-6 * want.l2d, "bracket", name[n]);
      pw_assert_near(r.u_frame, want.u_frame, 1e-7 * want.u_frame, "U_frame", name[n]);
      pw_assert_near(r.u_edge, want.u_edge, 1e-7 * want.u_edge, "U_edge", name[n]);
      pw_assert_near(r.f_rsi, want.f_rsi, 1e-8, "f_Rsi", name[n]);
      pw_section_result_free(&r);
      pw_section_free(&t);
    }
    pw_section_result_free(&want);
    pw_section_free(&s);
  }
}

/* Both bands and the rest of the glass make up the whole: the rest is one-dimensional but for what
 * the edge still does there, which 63.5 mm leave below 1 %. Band method, METHODS.md 1. */
static void bands_add_up_to_the_whole(void **state)
{
  (void)state;
  pw_section s;
  load("insert_jamb_fins_kept_foam", &s);
  pw_section_result r = solve(&s, &(pw_section_options){0});
  double rest = r.u_glass * (r.b_glass - PW_EDGE_BAND);
  pw_assert_near(r.u_frame * r.b_frame + r.u_edge * PW_EDGE_BAND + rest, r.l2d, 0.005 * r.l2d,
                 "frame + edge + rest", "band method");
  pw_section_result_free(&r);
  pw_section_free(&s);
}

/* ISO 10077-2:2012: what the rounds of hollows move is little (METHODS.md 3: 0.0002 on the wood
 * section); more air films, more conductivity, less heat and more heat. */
static void physics_goes_the_right_way(void **state)
{
  (void)state;
  pw_section s;
  load("insert_jamb_fins_kept_foam", &s);
  pw_section_result a = solve(&s, &(pw_section_options){0});
  const pw_films thick = {.outdoor = 0.08, .indoor = 0.26, .reduced = 0.40};
  pw_section_result b = solve(&s, &(pw_section_options){.films = &thick});
  assert_true(b.l2d < a.l2d);
  assert_true(a.f_rsi > 0.0 && a.f_rsi < 1.0 && b.f_rsi < 1.0);
  pw_section_result c = solve(&s, &(pw_section_options){.fixed_hollow = 1});
  assert_true(fabs(c.l2d - a.l2d) < 0.01 * a.l2d);
  pw_section air;
  load("insert_jamb_fins_kept_air", &air);
  pw_section_result d = solve(&air, &(pw_section_options){0});
  assert_true(d.l2d > a.l2d); /* air behind the insert lets more through than foam */
  pw_section_result e = solve(&air, &(pw_section_options){.hollow = PW_HOLLOW_ISO15099});
  print_message("air behind: ISO 10077-2 hollows %.4f, ISO 15099 hollows %.4f W/mK\n", d.l2d,
                e.l2d);
  pw_assert_near(e.l2d, d.l2d, 0.1 * d.l2d, "second method of hollows", "the first");
  pw_section_free(&s);
  pw_section_free(&air);
}

/* Heat does not depend on which side is warm, nor (but for the hollows) on how warm. */
static void warm_outdoors_gives_the_same_coupling(void **state)
{
  (void)state;
  pw_section s;
  load("old_jamb_sash_single", &s);
  pw_section_result a = solve(&s, &(pw_section_options){.fixed_hollow = 1});
  pw_section_result b =
      solve(&s, &(pw_section_options){.fixed_hollow = 1, .t_in = 293.15, .t_out = 308.15});
  pw_assert_near(b.l2d, a.l2d, 1e-12, "l2d", "linear");
  pw_assert_near(b.q, -15.0 * a.l2d, 1e-9, "q", "linear");
  pw_section_free(&s);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(layered_slabs_are_exact),
      cmocka_unit_test(the_bracket_holds_the_richardson_value),
      cmocka_unit_test(tightening_the_tolerance_narrows_the_bracket),
      cmocka_unit_test(turning_a_section_changes_nothing),
      cmocka_unit_test(bands_add_up_to_the_whole),
      cmocka_unit_test(physics_goes_the_right_way),
      cmocka_unit_test(warm_outdoors_gives_the_same_coupling),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
