/* window/rating_opening: sill, head and jambs each by their own section's U, by hand. A sill of its own height and a lip that
 * stays make bottom and top unlike. */
#include "example_fixture.h"

#include "panewright/rating.h"
#include "window/frame_line.h"
#include "window/opening_package.h"

static const double u_frame[PW_SIDE_COUNT] = {
    [PW_SIDE_SILL] = 2.0, [PW_SIDE_HEAD] = 5.0, [PW_SIDE_JAMB] = 3.0, [PW_SIDE_MEETING] = 4.0};
static const double u_edge[PW_SIDE_COUNT] = {
    [PW_SIDE_SILL] = 1.5, [PW_SIDE_HEAD] = 2.5, [PW_SIDE_JAMB] = 2.0, [PW_SIDE_MEETING] = 3.0};

static pw_frame_values drawn(int with_ring)
{
  pw_frame_values v = {.with_ring = with_ring};
  for (int s = 0; s < PW_SIDE_COUNT; s++) {
    v.side[s].u_frame = u_frame[s];
    v.side[s].u_edge = u_edge[s];
  }
  return v;
}

static pw_rating rate(const fixture *f, const pw_fit *fit, size_t i, int with_ring)
{
  const pw_compare *c = &f->whole;
  pw_rating r;
  pw_err err = {0};
  pw_package package;
  const pw_frame_values v = drawn(with_ring);
  pw_opening_package(c->job, 0, &c->job->opening[i], &package);
  if (pw_rating_insert(fit, &package, pw_opening_line(c->job, 0, &c->job->opening[i]),
                       pw_compare_glass(c->job, &c->fitted, 0, i), &v, &r, &err) != PW_OK)
    fail_msg("%s", err.text);
  return r;
}

/* Strips along each lite, their corners halved: sill b (w + (l + r) / 2), head t (the same), jambs (l + r) (h + (b + t) / 2); the
 * frame's own area divided by them. */
static void strips_of_the_frame_have_their_own_u(void **state)
{
  const fixture *f = *state;
  for (size_t i = 0; i < OPENINGS; i++) {
    pw_fit fit = f->whole.fitted.fit[0][i];
    if (fit.shape.kind != PW_SHAPE_RECTANGLE) continue;
    double sill = 0.0, head = 0.0, jamb = 0.0;
    for (size_t k = 0; k < fit.insert.n_lite; k++) {
      pw_lite *l = &fit.insert.lite[k];
      if (l->face[PW_BOTTOM] > 0.0) l->face[PW_BOTTOM] += 0.02;
      double across = l->width + 0.5 * (l->face[PW_LEFT] + l->face[PW_RIGHT]);
      sill += l->face[PW_BOTTOM] * across;
      head += l->face[PW_TOP] * across;
      jamb += (l->face[PW_LEFT] + l->face[PW_RIGHT]) *
              (l->height + 0.5 * (l->face[PW_BOTTOM] + l->face[PW_TOP]));
    }
    const pw_rating r = rate(f, &fit, i, 1);
    pw_assert_near(r.ua.frame / r.areas.frame,
                   (2.0 * sill + 5.0 * head + 3.0 * jamb) / (sill + head + jamb), 1e-9,
                   f->whole.job->opening[i].tag, "strips by hand");
    assert_true(sill > head);
  }
}

/* The ring between insert and opening where the sections cover it: width by length of each side, the frame's U of that side. */
static void the_ring_takes_the_u_of_its_side(void **state)
{
  const fixture *f = *state;
  size_t unlike = 0;
  for (size_t i = 0; i < OPENINGS; i++) {
    pw_fit fit = f->whole.fitted.fit[0][i];
    if (fit.shape.kind != PW_SHAPE_RECTANGLE || fit.retained_face > 0.0) continue;
    const double *w = fit.retained_width;
    double across = fit.opening_width, up = fit.opening_height;
    double ua = 2.0 * across * w[PW_BOTTOM] + 5.0 * across * w[PW_TOP] +
                3.0 * up * (w[PW_LEFT] + w[PW_RIGHT]);
    double weight = across * (w[PW_BOTTOM] + w[PW_TOP]) + up * (w[PW_LEFT] + w[PW_RIGHT]);
    const pw_rating r = rate(f, &fit, i, 1);
    pw_assert_near(r.u_retained.value, ua / weight, 1e-9, f->whole.job->opening[i].tag,
                   "by hand");
    unlike += w[PW_BOTTOM] != w[PW_TOP];
  }
  assert_true(unlike > 0);
}

/* The edge of a lite lies in mitred bands of 63.5 mm: across less one band, up less one band. Where two lites meet there is the
 * meeting rail's edge. */
static void edges_lie_beside_their_own_side(void **state)
{
  const fixture *f = *state;
  const double band = 0.0635;
  int hung = 0;
  for (size_t i = 0; i < OPENINGS; i++) {
    pw_fit fit = f->whole.fitted.fit[0][i];
    double ua = 0.0;
    if (fit.shape.kind != PW_SHAPE_RECTANGLE) continue;
    for (size_t k = 0; k < fit.insert.n_lite; k++) {
      pw_lite *l = &fit.insert.lite[k];
      fit.insert.frame_area +=
          0.05 * (double)k * l->height; /* a sash not as wide as the one below */
      l->width -= 0.05 * (double)k;
      hung += fit.insert.n_meeting > 0 && !fit.insert.meeting_upright && k > 0;
      for (int s = 0; s < 4; s++) {
        int side = s == PW_BOTTOM ? PW_SIDE_SILL : s == PW_TOP ? PW_SIDE_HEAD : PW_SIDE_JAMB;
        if (fit.insert.n_meeting > 0 && l->face[s] == 0.0) side = PW_SIDE_MEETING;
        double along = s == PW_BOTTOM || s == PW_TOP ? l->width : l->height;
        ua += u_edge[side] * band * (along - band);
      }
    }
    const pw_rating r = rate(f, &fit, i, 1);
    pw_assert_near(r.ua.edge, ua, 1e-9, f->whole.job->opening[i].tag, "mitred bands by hand");
  }
  assert_true(hung > 0);
}

/* The psi form: what is left of U A when glass by EN 673, frame and ring are taken off is psi along the edge of the daylight. ISO 10077-1:2006
 * tables E.1 and E.2 (from memory), wood or PVC: 0.06 W/(m K) at uncoated panes and 0.08 where one is low-e, beside a metal spacer; 0.05 and
 * 0.06 beside an improved one; single panes have none. */
static void psi_goes_by_coating_and_spacer(void **state)
{
  const fixture *f = *state;
  static const struct {
    const char *glass;
    pw_spacer spacer;
    double psi;
  } row[] = {{"3mm clear / 12.7mm air / 3mm clear", PW_SPACER_METAL, 0.06},
             {"3mm clear emit 0.1@2 / 12.7mm air / 3mm clear", PW_SPACER_METAL, 0.08},
             {"3mm clear / 12.7mm air / 3mm clear emit 0.3@3", PW_SPACER_METAL, 0.08},
             {"3mm clear / 12.7mm air / 3mm clear", PW_SPACER_INSULATING, 0.05},
             {"3mm clear / 12.7mm air / 3mm clear emit 0.2@4", PW_SPACER_INSULATING, 0.06},
             {"3mm clear", PW_SPACER_METAL, 0.0}};
  const pw_compare *c = &f->whole;
  const pw_frame_values v = drawn(1);
  const pw_fit *fit = &c->fitted.fit[0][L1];
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_frame_line line = *pw_opening_line(c->job, 0, &c->job->opening[L1]);
    pw_package package = c->job->package[0];
    pw_buildup b;
    pw_glazing g;
    pw_unit_result en;
    pw_rating r;
    pw_err err = {0};
    line.kind = PW_FRAME_VINYL;
    package.spacer = row[i].spacer;
    if (pw_buildup_parse(row[i].glass, &b, &err) != PW_OK ||
        pw_glazing_build(&b, &g, &err) != PW_OK || pw_unit_en673(&g.unit, &en, &err) != PW_OK ||
        pw_rating_insert(fit, &package, &line, &g, &v, &r, &err) != PW_OK)
      fail_msg("%s", err.text);
    double left =
        r.u_psi * r.area - en.u * r.glass_area - r.ua.frame - r.ua.divider - r.ua.retained;
    pw_assert_near(left / fit->insert.glass_perimeter, row[i].psi, 1e-9, row[i].glass,
                   "ISO 10077-1 annex E");
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(strips_of_the_frame_have_their_own_u),
      cmocka_unit_test(the_ring_takes_the_u_of_its_side),
      cmocka_unit_test(edges_lie_beside_their_own_side),
      cmocka_unit_test(psi_goes_by_coating_and_spacer),
  };
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
