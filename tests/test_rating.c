/* Whole windows over their opening, the catalogue, code defaults. Published cases are in the check
 * groups `glazing` and `code_default`. */
#include "support.h"

#include <math.h>
#include <string.h>

#include "frame/catalogue.h"
#include "panewright/glazing.h"
#include "panewright/rating.h"
#include "panewright/units.h"
#include "window/code_default.h"
#include "window/frame_line.h"

static double draw(uint32_t *seed)
{
  *seed = *seed * 1664525u + 1013904223u;
  return (double)(*seed >> 8) / 16777216.0;
}

static double sum_of(const pw_parts *p)
{
  return p->center + p->edge + p->frame + p->divider + p->retained;
}

/* optics/METHODS.md 7, worked example: 1.2 x 1.5 m, frame 57 mm, U_f 10, A_s/A_f 1.2, alpha 0.3. */
static void the_whole_window_shgc_example_is_met(void **state)
{
  (void)state;
  const double face = 0.057;
  const pw_rating_lite lite = {1.2 - 2 * face, 1.5 - 2 * face, {5.9, 5.9, 5.9, 5.9}};
  const pw_rating_part part = {PW_PART_FRAME, 1.8 - lite.width * lite.height, 10.0, 0.3, 1.2};
  const pw_rating_input in = {.width = 1.2,
                              .height = 1.5,
                              .u_center = 5.9,
                              .shgc = 0.867,
                              .vt = 0.899,
                              .lite = &lite,
                              .n_lite = 1,
                              .part = &part,
                              .n_part = 1};
  pw_rating r;
  assert_int_equal(pw_rating_window(&in, &r, NULL), PW_OK);
  static const char source[] = "reference/optics/METHODS.md 7";
  pw_assert_near(r.glass_area, 1.505, 0.0006, "glass area", source);
  pw_assert_near(r.areas.frame, 0.295, 0.0006, "frame area", source);
  pw_assert_near(r.shgc_opaque, 0.083, 0.0005, "frame SHGC", source);
  pw_assert_near(r.shgc, 0.739, 0.0006, "SHGC", source);
  pw_assert_near(r.vt, 0.752, 0.0006, "VT", source);
  const pw_rating_part bare = {PW_PART_FRAME, part.area, 10.0, 0.0, 1.2};
  pw_rating_input by_default = in;
  by_default.part = &bare; /* "alpha 0.3 rating default" */
  assert_int_equal(pw_rating_window(&by_default, &r, NULL), PW_OK);
  pw_assert_near(r.shgc_opaque, 0.083, 0.0005, "frame SHGC, no colour given", source);
}

/* Random lights and parts: the parts' areas sum to the opening within 1e-12 of it, UA to U A. */
static void areas_sum_to_the_opening(void **state)
{
  (void)state;
  uint32_t seed = 5;
  for (int k = 0; k < 3000; k++) {
    pw_rating_lite lite[3];
    pw_rating_part part[4];
    double width = 0.3 + 3.0 * draw(&seed), height = 0.3 + 2.0 * draw(&seed), glass = 0.0;
    size_t n = 1 + (size_t)k % 3;
    for (size_t i = 0; i < n; i++) {
      lite[i] = (pw_rating_lite){width / (double)n * (0.1 + 0.8 * draw(&seed)),
                                 height * (0.1 + 0.8 * draw(&seed)),
                                 {1, 2, 3, 4}};
      glass += lite[i].width * lite[i].height;
    }
    double rest = width * height - glass;
    for (size_t i = 0; i < 4; i++) {
      double a = i == 3 ? rest : rest * 0.4 * draw(&seed);
      part[i] = (pw_rating_part){i == 0   ? PW_PART_DIVIDER
                                 : i == 1 ? PW_PART_RETAINED
                                          : PW_PART_FRAME,
                                 a, 1.0 + draw(&seed), 0.0, 0.0};
      rest -= a;
    }
    const pw_rating_input in = {.width = width,
                                .height = height,
                                .u_center = 1.2,
                                .shgc = 0.5,
                                .vt = 0.6,
                                .lite = lite,
                                .n_lite = n,
                                .part = part,
                                .n_part = 4};
    pw_rating r;
    pw_err err = {0};
    if (pw_rating_window(&in, &r, &err) != PW_OK) fail_msg("%s", err.text);
    pw_assert_near(sum_of(&r.areas), width * height, 1e-12 * width * height, "areas",
                   "the whole");
    pw_assert_near(sum_of(&r.ua), r.u * r.area, 1e-12 * r.area * r.u, "UA", "the whole");
    assert_true(r.u > 1.0 && r.u < 4.0 && r.shgc < 0.5 && r.vt < 0.6);
  }
}

/* The mitred band: four side lengths of a trapezoid each, closed form; a narrow light is all edge. */
static void the_edge_band_is_cut_along_its_mitre(void **state)
{
  (void)state;
  const double w = 0.8, h = 1.1, b = 0.0635;
  pw_rating_lite lite = {w, h, {1.0, 2.0, 3.0, 4.0}};
  const pw_rating_input in = {
      .width = w, .height = h, .u_center = 0.5, .lite = &lite, .n_lite = 1};
  pw_rating r;
  assert_int_equal(pw_rating_window(&in, &r, NULL), PW_OK);
  double side = 0.5 * b * (h + h - 2.0 * b), flat = 0.5 * b * (w + w - 2.0 * b);
  pw_assert_near(r.areas.edge, 2.0 * side + 2.0 * flat, 1e-13, "edge area", "trapezoids");
  pw_assert_near(r.ua.edge, side * 3.0 + flat * 7.0, 1e-13, "edge UA", "trapezoids");
  pw_assert_near(r.areas.center, (w - 2.0 * b) * (h - 2.0 * b), 1e-13, "centre area",
                 "rectangle");
  lite.width = 0.1;
  const pw_rating_input slim = {.width = 0.1, .height = h, .lite = &lite, .n_lite = 1};
  assert_int_equal(pw_rating_window(&slim, &r, NULL), PW_OK);
  pw_assert_near(r.areas.center, 0.0, 1e-15, "centre area", "narrower than two bands");
  pw_assert_near(r.areas.edge, 0.1 * h, 1e-13, "edge area", "all of it");
}

/* Both forms: with U_eg = U_cg + psi/0.0635 they differ by the four corners only, 4 b psi each. */
static void area_and_psi_forms_differ_by_the_corners(void **state)
{
  (void)state;
  const double b = 0.0635, psi = 0.06, u = 1.3;
  const pw_rating_lite lite = {0.9, 1.2, {u + psi / b, u + psi / b, u + psi / b, u + psi / b}};
  const pw_rating_part part = {PW_PART_FRAME, 1.4 * 1.1 - 0.9 * 1.2, 2.0, 0.0, 0.0};
  const pw_rating_input in = {.width = 1.1,
                              .height = 1.4,
                              .u_center = u,
                              .lite = &lite,
                              .n_lite = 1,
                              .part = &part,
                              .n_part = 1};
  pw_rating r;
  double second = 0.0;
  assert_int_equal(pw_rating_window(&in, &r, NULL), PW_OK);
  assert_int_equal(pw_rating_u_psi(&in, u, psi, &second, NULL), PW_OK);
  pw_assert_near((second - r.u) * r.area, 4.0 * b * psi, 1e-12, "W/K", "closed form");
}

static void refusals_name_the_field_and_touch_nothing(void **state)
{
  (void)state;
  pw_rating_lite lite = {0.9, 1.2, {3, 3, 3, 3}};
  pw_rating_part part = {PW_PART_FRAME, 1.4 * 1.1 - 0.9 * 1.2, 2.0, 0.0, 0.0};
  const pw_rating_input good = {.width = 1.1,
                                .height = 1.4,
                                .u_center = 1.3,
                                .shgc = 0.4,
                                .vt = 0.6,
                                .lite = &lite,
                                .n_lite = 1,
                                .part = &part,
                                .n_part = 1};
  for (int k = 0; k < 10; k++) {
    pw_rating_input in = good;
    pw_rating_lite bad_lite = lite;
    pw_rating_part bad_part = part;
    in.lite = &bad_lite;
    in.part = &bad_part;
    const char *field = "";
    switch (k) {
    case 0:
      in.n_lite = 0, field = "n_lite";
      break;
    case 1:
      bad_lite.width = NAN, field = "lite.width";
      break;
    case 2:
      bad_lite.u_edge[2] = -1.0, field = "lite.u_edge";
      break;
    case 3:
      bad_part.area += 1e-6, field = "part.area";
      break;
    case 4:
      bad_part.u = INFINITY, field = "part.u";
      break;
    case 5:
      bad_part.absorptance = 1.5, field = "part.absorptance";
      break;
    case 6:
      in.shgc = 1.2, field = "shgc";
      break;
    case 7:
      in.width = 0.0, field = "width";
      break;
    case 8:
      bad_part.developed = 0.5, field = "part.developed";
      break;
    default:
      in.h_out = -3.0, field = "h_out";
      break;
    }
    pw_rating r, before;
    memset(&r, 0x11, sizeof r);
    before = r;
    pw_err err = {0};
    assert_int_not_equal(pw_rating_window(&in, &r, &err), PW_OK);
    assert_string_equal(err.field, field);
    assert_memory_equal(&r, &before, sizeof r);
    assert_int_not_equal(pw_rating_window(&in, &r, NULL), PW_OK);
    double u = 9.0;
    assert_int_not_equal(pw_rating_u_psi(&in, 1.0, 0.1, &u, NULL), PW_OK);
    assert_true(u == 9.0);
  }
}

static pw_opening an_opening(pw_operator operator_)
{
  pw_opening o = {.operator_existing = operator_,
                  .operator_insert = operator_,
                  .quantity = 1,
                  .frame_face = 0.022,
                  .sash_face = 0.04,
                  .meeting_face = 0.045,
                  .fin_width = 0.0143,
                  .fins_cut = 1,
                  .sill_lip = 0.012,
                  .sill_lip_cut = 0};
  for (int k = 0; k < 3; k++) {
    o.width[k] = operator_ == PW_FLANKER ? 2.4 : 1.2;
    o.height[k] = 1.3;
  }
  o.diagonal[0] = o.diagonal[1] = hypot(o.width[0], 1.3);
  o.existing_frame = PW_FRAME_ALUMINIUM;
  return o;
}

static pw_glazing glazing_of(double emit, size_t panes)
{
  pw_buildup b = {.n_pane = panes};
  pw_glazing g;
  for (size_t i = 0; i < panes; i++) {
    b.pane[i].thickness = 0.003;
    memcpy(b.pane[i].kind, "clear", 6);
  }
  b.gap[0].thickness = 0.0127;
  b.gap[0].mix.share[PW_ARGON] = 0.9;
  b.gap[0].mix.share[PW_AIR] = 0.1;
  if (panes > 1) b.pane[1].emit[0] = emit;
  pw_err err = {0};
  if (pw_glazing_build(&b, &g, &err) != PW_OK) fail_msg("%s", err.text);
  return g;
}

static pw_fit fit_of(const pw_opening *o, const pw_frame_line *line)
{
  pw_fit fit;
  pw_err err = {0};
  if (pw_fit_opening(o, line, &fit, &err) != PW_OK) fail_msg("%s", err.text);
  return fit;
}

static const pw_frame_line vinyl = {.kind = PW_FRAME_VINYL,
                                    .operator_ = PW_OPERATOR_COUNT,
                                    .frame_face = 0.05,
                                    .sash_face = 0.075,
                                    .meeting_face = 0.045,
                                    .clearance = 0.009525,
                                    .bite_max = 0.013,
                                    .absorptance = 0.3};

static void existing_and_insert_share_their_opening(void **state)
{
  (void)state;
  pw_glazing single = glazing_of(0.0, 1), low_e = glazing_of(0.04, 2);
  pw_package package = {.spacer = PW_SPACER_STAINLESS, .filling = "foam"};
  for (int op = 0; op < PW_OPERATOR_COUNT; op++) {
    pw_opening o = an_opening((pw_operator)op);
    pw_fit fit = fit_of(&o, &vinyl);
    pw_rating old, new_;
    pw_err err = {0};
    if (pw_rating_existing(&o, &fit, &single, NULL, &old, &err) != PW_OK ||
        pw_rating_insert(&fit, &package, &vinyl, &low_e, NULL, &new_, &err) != PW_OK)
      fail_msg("%s: %s", pw_operator_name((pw_operator)op), err.text);
    pw_assert_near(old.area, fit.opening_area, 1e-12, "area", "the opening");
    pw_assert_near(new_.area, old.area, 0.0, "area", "the same opening");
    pw_assert_near(sum_of(&old.areas), old.area, 1e-12 * old.area, "areas", "the whole");
    pw_assert_near(sum_of(&new_.areas), new_.area, 1e-12 * new_.area, "areas", "the whole");
    pw_assert_near(new_.glass_area, fit.insert.glass_area, 1e-12, "glass", "pw_fit_opening");
    pw_assert_near(old.glass_area, fit.existing.glass_area, 1e-12, "glass", "pw_fit_opening");
    pw_assert_near(new_.areas.divider, fit.insert.meeting_area, 1e-12, "rail",
                   "pw_fit_opening");
    pw_assert_near(new_.areas.retained, fit.retained_area, 1e-9, "ring", "pw_fit_opening");
    assert_true(old.areas.retained == 0.0 && new_.areas.retained > 0.0);
    assert_true(new_.u < 0.5 * old.u && new_.shgc < old.shgc && new_.vt < old.vt);
    pw_assert_near(new_.u_psi, new_.u, 0.35 * new_.u, "psi form", "the other method");
    assert_non_null(new_.u_frame.source);
    assert_non_null(new_.u_edge.source);
    assert_int_equal(new_.u_frame.origin, PW_ORIGIN_TABLE);
  }
}

/* Values of a section replace the catalogue side by side, ring included when it says so. */
static void section_values_stand_in_for_the_catalogue(void **state)
{
  (void)state;
  pw_glazing low_e = glazing_of(0.04, 2);
  pw_package package = {.spacer = PW_SPACER_METAL, .filling = "air"};
  pw_opening o = an_opening(PW_SLIDER);
  pw_fit fit = fit_of(&o, &vinyl);
  pw_frame_values v = {.source = "sections of this job"};
  pw_rating plain, same, ring, foam;
  assert_int_equal(pw_rating_insert(&fit, &package, &vinyl, &low_e, NULL, &plain, NULL), PW_OK);
  for (int s = 0; s < PW_SIDE_COUNT; s++) {
    v.side[s].u_frame = plain.u_frame.value;
    v.side[s].u_edge = plain.u_edge.value;
  }
  assert_int_equal(pw_rating_insert(&fit, &package, &vinyl, &low_e, &v, &same, NULL), PW_OK);
  pw_assert_near(same.u, plain.u, 1e-12, "u", "the same values by another way");
  assert_string_equal(same.u_frame.source, "sections of this job");
  assert_int_equal(same.u_frame.origin, PW_ORIGIN_COMPUTED);
  v.with_ring = 1;
  assert_int_equal(pw_rating_insert(&fit, &package, &vinyl, &low_e, &v, &ring, NULL), PW_OK);
  pw_assert_near(ring.u_retained.value, plain.u_frame.value, 1e-9, "ring", "as the frame");
  assert_true(plain.ua.retained > ring.ua.retained);
  memcpy(package.filling, "foam", 5);
  assert_int_equal(pw_rating_insert(&fit, &package, &vinyl, &low_e, NULL, &foam, NULL), PW_OK);
  assert_true(foam.ua.retained < plain.ua.retained);
  double sill = v.side[PW_SIDE_SILL].u_frame;
  v.side[PW_SIDE_SILL].u_frame = sill + 1.0;
  pw_rating more;
  assert_int_equal(pw_rating_insert(&fit, &package, &vinyl, &low_e, &v, &more, NULL), PW_OK);
  double extra = more.ua.frame - ring.ua.frame; /* W/K per W/(m2 K): the sill's area in m2 */
  assert_true(extra > 0.2 * more.areas.frame / 4.0 && extra < 0.5 * more.areas.frame);
}

static void spacers_and_kinds_keep_their_order(void **state)
{
  (void)state;
  static const double u_cg[] = {0.8, 1.4, 2.0, 2.7, 3.1};
  for (size_t i = 0; i < 5; i++) {
    pw_given e[3];
    for (int s = 0; s < 3; s++)
      assert_int_equal(pw_catalogue_edge_u((pw_spacer)s, 2, u_cg[i], &e[s], NULL), PW_OK);
    assert_true(e[0].value > e[1].value && e[1].value > e[2].value && e[2].value > u_cg[i]);
  }
  pw_given u, psi;
  assert_int_equal(pw_catalogue_edge_u(PW_SPACER_METAL, 1, 5.9, &u, NULL), PW_OK);
  pw_assert_near(u.value, 5.9, 0.0, "edge", "single pane");
  /* handbook_frame_u.csv, SI rows; iso10077_psi.csv (both from memory). */
  static const struct {
    pw_frame_kind kind;
    pw_operator operator_;
    size_t panes;
    pw_spacer spacer;
    double u_frame, psi_low_e;
  } row[] = {{PW_FRAME_ALUMINIUM, PW_SLIDER, 1, PW_SPACER_METAL, 13.51, 0.0},
             {PW_FRAME_ALUMINIUM, PW_FIXED, 2, PW_SPACER_METAL, 10.22, 0.05},
             {PW_FRAME_ALUMINIUM_BREAK, PW_AWNING, 2, PW_SPACER_METAL, 5.22, 0.11},
             {PW_FRAME_ALUMINIUM_BREAK, PW_FIXED, 4, PW_SPACER_INSULATING, 5.79, 0.08},
             {PW_FRAME_VINYL, PW_DOUBLE_HUNG, 2, PW_SPACER_STAINLESS, 2.9, 0.06},
             {PW_FRAME_WOOD, PW_FIXED, 3, PW_SPACER_INSULATING, 1.99, 0.06},
             {PW_FRAME_FIBREGLASS, PW_CASEMENT, 3, PW_SPACER_METAL, 1.82, 0.08}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    assert_int_equal(pw_catalogue_frame_u(row[i].kind, row[i].operator_, row[i].panes,
                                          row[i].spacer, &u, NULL),
                     PW_OK);
    pw_assert_near(u.value, row[i].u_frame, 0.006, pw_frame_kind_name(row[i].kind),
                   "handbook_frame_u.csv");
    assert_int_equal(pw_catalogue_psi(row[i].kind, row[i].spacer, row[i].panes, 1, &psi, NULL),
                     PW_OK);
    pw_assert_near(psi.value, row[i].psi_low_e, 1e-9, pw_frame_kind_name(row[i].kind),
                   "iso10077_psi.csv");
  }
  for (int kind = 0; kind < PW_FRAME_KIND_COUNT; kind++)
    for (int op = 0; op < PW_OPERATOR_COUNT; op++)
      for (size_t panes = 1; panes <= PW_PANES_MAX; panes++)
        for (int s = 0; s < PW_SPACER_COUNT; s++) {
          assert_int_equal(pw_catalogue_frame_u((pw_frame_kind)kind, (pw_operator)op, panes,
                                                (pw_spacer)s, &u, NULL),
                           PW_OK);
          assert_true(u.value > 1.0 && u.value < 14.0);
          assert_int_equal(
              pw_catalogue_psi((pw_frame_kind)kind, (pw_spacer)s, panes, 0, &psi, NULL), PW_OK);
        }
}

static void catalogue_and_code_refuse_the_unknown(void **state)
{
  (void)state;
  pw_given g = {.value = 7.0};
  pw_code_values v = {.u = 7.0};
  pw_err err;
  assert_int_equal(
      pw_catalogue_frame_u((pw_frame_kind)99, PW_FIXED, 2, PW_SPACER_METAL, &g, &err),
      PW_E_DOMAIN);
  assert_string_equal(err.field, "kind");
  assert_int_equal(pw_catalogue_edge_u((pw_spacer)9, 2, 1.0, &g, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "spacer");
  assert_int_equal(pw_catalogue_edge_u(PW_SPACER_METAL, 2, NAN, &g, &err), PW_E_DOMAIN);
  assert_int_equal(pw_catalogue_psi(PW_FRAME_WOOD, PW_SPACER_METAL, 0, 0, &g, &err),
                   PW_E_DOMAIN);
  assert_int_equal(pw_catalogue_ring("foam", -0.01, &g, &err), PW_E_DOMAIN);
  assert_int_equal(pw_code_default((pw_code)5, PW_FRAME_WOOD, PW_FIXED, 1, 0, &v, &err),
                   PW_E_DOMAIN);
  assert_true(g.value == 7.0 && v.u == 7.0);
  assert_int_equal(
      pw_code_default(PW_CODE_CALIFORNIA, PW_FRAME_ALUMINIUM_BREAK, PW_FIXED, 1, 0, &v, &err),
      PW_OK);
  assert_true(isnan(v.u) && isnan(v.vt)); /* the table has no such row */
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_whole_window_shgc_example_is_met),
      cmocka_unit_test(areas_sum_to_the_opening),
      cmocka_unit_test(the_edge_band_is_cut_along_its_mitre),
      cmocka_unit_test(area_and_psi_forms_differ_by_the_corners),
      cmocka_unit_test(refusals_name_the_field_and_touch_nothing),
      cmocka_unit_test(existing_and_insert_share_their_opening),
      cmocka_unit_test(section_values_stand_in_for_the_catalogue),
      cmocka_unit_test(spacers_and_kinds_keep_their_order),
      cmocka_unit_test(catalogue_and_code_refuse_the_unknown),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
