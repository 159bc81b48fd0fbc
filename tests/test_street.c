/* A fictional street of twelve houses (tests/street), every kind, shape, action and option at least once. The
 * orders as written are in each folder's order.csv (tests/cli/street.case); here each size is held against a
 * closed form of its own, written from the readings alone. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "job/dwelling.h"
#include "job/job_open.h"
#include "panewright/units.h"
#include "window/fit_job.h"

static const char *const house[] = {"01_sliders",   "02_swings", "03_doors",   "04_rounds",
                                    "05_edges",     "06_bay",    "07_options", "08_phases",
                                    "09_two_homes", "10_garage", "11_frames",  "12_held"};
enum { HOUSES = sizeof house / sizeof house[0], OPENINGS_MAX = 16 };

static const double gap =
    0.1875 * PW_INCH; /* a side: half of the 3/8 in that a window is made smaller */

/* Down to 1/8 in. */
static double eighth(double v) { return floor(v / PW_INCH * 8.0 + 1e-6) / 8.0 * PW_INCH; }

/* Area and the order's width and height from the readings. Circles and lines by school geometry: a parallel
 * line at distance d, a circle of radius r - d. */
typedef struct wanted {
  double area, width, height;
} wanted;

static double segment(double r, double sagitta)
{
  return r * r * acos((r - sagitta) / r) -
         (r - sagitta) * sqrt(2.0 * r * sagitta - sagitta * sagitta);
}

/* A triangle shrinks towards its incentre. */
static wanted triangle(double w, double h, double peak)
{
  double p = w + hypot(peak, h) + hypot(w - peak, h), area = 0.5 * w * h;
  double less = 1.0 - gap / (2.0 * area / p);
  return (wanted){area, w * less, h * less};
}

static wanted trapezoid(double w, double left, double right)
{
  double m = fabs(right - left) / w, low = fmin(left, right);
  /* its top line comes down by gap sqrt(1 + m^2), seen at the higher leg, which stands gap inward */
  double high = low + m * (w - gap) - gap * sqrt(1.0 + m * m) - gap;
  return (wanted){0.5 * w * (left + right), w - 2.0 * gap, high};
}

static wanted gothic(double w, double h, double rise)
{
  double r = (rise * rise + 0.25 * w * w) / w,
         lean = r - 0.5 * w; /* centres on the spring line */
  double half = 0.5 * r * r * acos(lean / r) - 0.5 * lean * rise, less = r - gap;
  double apex = h - rise + sqrt(less * less - lean * lean);
  return (wanted){2.0 * half + w * (h - rise), w - 2.0 * gap, apex - gap};
}

static wanted rectangle(const pw_opening *o, const double in[3])
{
  double w = o->width[0], h = o->height[0];
  for (int k = 1; k < 3; k++) {
    w = o->width[k] > 0.0 ? fmin(w, o->width[k]) : w;
    h = o->height[k] > 0.0 ? fmin(h, o->height[k]) : h;
  }
  double bare_w = w + (o->fins_stay ? 0.0 : 2.0 * o->fin_width);
  double bare_h = h + (o->lip_stay ? 0.0 : o->sill_lip);
  return (wanted){bare_w * bare_h + in[0], w + o->fins_cut * o->fin_width - 2.0 * gap,
                  h + (o->sill_lip_cut ? o->sill_lip : 0.0) - 2.0 * gap};
}

static wanted want_of(const pw_opening *o, double mullion)
{
  const double w = o->width[0], h = o->height[1], r = 0.5 * w, in[3] = {mullion, 0.0, 0.0};
  switch (o->shape) {
  case PW_SHAPE_CIRCLE:
    return (wanted){PW_PI * r * r, w - 2.0 * gap, w - 2.0 * gap};
  case PW_SHAPE_HALF_ROUND: { /* the chord at gap above the base */
    double less = r - gap;
    return (wanted){0.5 * PW_PI * r * r, 2.0 * sqrt(less * less - gap * gap), r - 2.0 * gap};
  }
  case PW_SHAPE_QUARTER_ROUND: {
    double less = w - gap, side = sqrt(less * less - gap * gap) - gap;
    return (wanted){0.25 * PW_PI * w * w, side, side};
  }
  case PW_SHAPE_ARCH: {
    double big = (0.25 * w * w + o->rise * o->rise) / (2.0 * o->rise);
    return (wanted){w * (h - o->rise) + segment(big, o->rise), w - 2.0 * gap, h - 2.0 * gap};
  }
  case PW_SHAPE_OCTAGON: { /* corners cut at 45 degrees */
    double cut = 0.5 * (h - o->leg_left);
    return (wanted){w * h - 2.0 * cut * cut, w - 2.0 * gap, h - 2.0 * gap};
  }
  case PW_SHAPE_TRIANGLE:
    return triangle(w, h, pw_is_given(o->peak_at) ? o->peak_at : r);
  case PW_SHAPE_TRAPEZOID:
    return trapezoid(w, o->leg_left, o->leg_right);
  case PW_SHAPE_GOTHIC:
    return gothic(w, h, o->rise);
  default:
    return rectangle(o, in);
  }
}

/* What the street has met. */
typedef struct met {
  int n, held, kind[PW_OPERATOR_COUNT], insert[PW_OPERATOR_COUNT], shape[PW_SHAPE_COUNT];
  int frame[PW_FRAME_KIND_COUNT], phase[4], keep, own_package, own_glass, garage, dwelling,
      unit;
  int over, beside, tempered, pattern, tint[4], grille[3], screen, pet, colour, hinge[4], note;
  int sidelite, price, price_options, label, glass_share, lites[5];
} met;

static void meet(met *m, const pw_opening *o)
{
  m->n++;
  m->kind[o->operator_existing]++;
  m->insert[o->operator_insert]++;
  m->shape[o->shape]++;
  m->frame[o->existing_frame]++;
  m->phase[o->phase > 1 ? o->phase : 1]++;
  m->keep += o->standing == PW_STAYS;
  m->own_package += o->own_package > 0;
  m->own_glass += o->glass_text[0] != '\0';
  m->garage += o->unconditioned;
  m->dwelling += o->dwelling[0] != '\0';
  m->unit += o->unit[0] != '\0';
  m->over += o->unit_joint == PW_JOINT_OVER;
  m->beside += o->unit_joint == PW_JOINT_BESIDE;
  m->tempered += o->option.tempered;
  m->pattern += o->option.pattern[0] != '\0';
  m->tint[o->option.tint]++;
  m->grille[o->option.grille.place]++;
  m->screen += o->screen;
  m->pet += o->option.pet_panel;
  m->colour += o->option.colour[0] != '\0';
  m->hinge[o->option.hinge]++;
  m->note += o->option.maker_note[0] != '\0';
  m->sidelite += o->sidelite;
  m->glass_share += o->glass_share > 0.0;
  m->lites[strlen(o->config)]++;
}

static void check_one(const char *name, const pw_opening *o, const pw_fit *f)
{
  char what[64];
  if (o->standing == PW_STAYS) return;
  wanted w = want_of(o, f->mullion_area);
  snprintf(what, sizeof what, "%s %s", name, o->tag);
  pw_assert_near(f->opening_area, w.area, 3e-8 * w.area, what, "area, closed form");
  pw_assert_near(f->order_width, eighth(w.width), 1e-9, what, "width to order, closed form");
  pw_assert_near(f->order_height, eighth(w.height), 1e-9, what, "height to order, closed form");
  pw_assert_near(f->existing.glass_area + f->existing_frame_area, f->opening_area, 1e-9, what,
                 "glass and frame make up the opening");
}

static void walk(const char *name, const char *dwelling, met *m)
{
  char dir[96];
  pw_open_job open;
  pw_fit fit[OPENINGS_MAX];
  pw_err err = {0};
  snprintf(dir, sizeof dir, "tests/street/%s", name);
  if (pw_job_open_dwelling(dir, dwelling, &open, &err) != PW_OK) fail_msg("%s", err.text);
  assert_in_range(open.job.n_opening, 1, OPENINGS_MAX);
  if (pw_fit_job(&open.job, 0, fit, &err) != PW_OK) fail_msg("%s: %s", name, err.text);
  for (size_t i = 0; i < open.job.n_opening; i++) {
    meet(m, &open.job.opening[i]);
    check_one(name, &open.job.opening[i], &fit[i]);
  }
  m->label += (int)open.job.n_label;
  m->price += (int)open.job.n_price;
  pw_job_close(&open);
}

#define MEETS(list)                                                                            \
  for (size_t k = 0; k < sizeof(list) / sizeof(list)[0]; k++)                                  \
    if (!(list)[k]) fail_msg(#list "[%zu] stands nowhere in the street", k)

static void every_size_by_closed_form(void **state)
{
  (void)state;
  met m = {0};
  for (int h = 0; h < HOUSES; h++) {
    char dir[96];
    pw_dwellings list;
    pw_err err = {0};
    snprintf(dir, sizeof dir, "tests/street/%s", house[h]);
    assert_int_equal(pw_dwellings_list(dir, &list, &err), PW_OK);
    for (size_t d = 0; d < list.n; d++)
      walk(house[h], list.name[d], &m);
    if (list.n == 0) walk(house[h], NULL, &m);
  }
  assert_in_range(m.n, 50, 90);
  MEETS(m.kind);
  m.insert[PW_JALOUSIE] = 1; /* there now only */
  MEETS(m.insert);
  MEETS(m.shape);
  MEETS(m.frame);
  m.phase[0] = 1;
  MEETS(m.phase);
  MEETS(m.tint);
  MEETS(m.grille);
  MEETS(m.hinge);
  m.lites[1] = 1;
  MEETS(m.lites);
  const int each[] = {m.keep,   m.own_package, m.own_glass,  m.garage,   m.dwelling,
                      m.unit,   m.over,        m.beside,     m.tempered, m.pattern,
                      m.screen, m.pet,         m.colour,     m.note,     m.sidelite,
                      m.label,  m.price,       m.glass_share};
  MEETS(each);
}

int main(void)
{
  const struct CMUnitTest tests[] = {cmocka_unit_test(every_size_by_closed_form)};
  pw_test_begin();
  return cmocka_run_group_tests(tests, NULL, NULL);
}
