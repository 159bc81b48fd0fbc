/* Amounts of materials: one opening by hand, published yields of a cartridge, and what must not matter. */
#include "support.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "job/job_open.h"
#include "panewright/units.h"
#include "window/fit_job.h"
#include "window/materials.h"
#include "window/opening_package.h"

typedef struct taken {
  pw_open_job open;
  pw_fit *fit;
  pw_install *install;
  pw_materials_job sum;
} taken;

static void plan(taken *t)
{
  const pw_job *job = &t->open.job;
  pw_err err = {0};
  t->fit = calloc(job->n_opening, sizeof *t->fit);
  t->install = calloc(job->n_opening, sizeof *t->install);
  assert_true(t->fit && t->install);
  if (pw_fit_job(job, 0, t->fit, &err) != PW_OK) fail_msg("%s", err.text);
  for (size_t i = 0; i < job->n_opening; i++)
    pw_install_plan(&job->opening[i], &t->fit[i], &job->house,
                    pw_opening_line(job, 0, &job->opening[i])->kind, 0, &t->install[i]);
  if (pw_materials_of_job(job, 0, t->fit, t->install, &t->sum, &err) != PW_OK)
    fail_msg("%s", err.text);
}

static void open_job(const char *dir, taken *t)
{
  pw_err err = {0};
  *t = (taken){0};
  if (pw_job_open(dir, &t->open, &err) != PW_OK) fail_msg("%s", err.text);
}

static void forget(taken *t)
{
  pw_materials_free(&t->sum);
  free(t->fit);
  free(t->install);
  t->fit = NULL;
  t->install = NULL;
}

static size_t row_of(const pw_job *job, const char *tag)
{
  for (size_t i = 0; i < job->n_opening; i++)
    if (strcmp(job->opening[i].tag, tag) == 0) return i;
  fail_msg("no opening %s", tag);
  return 0;
}

static double inches(double length) { return length / PW_INCH; }

/* Opening L2 of the example, package good (vinyl slider XO, 3 + 3 mm), by hand, inches:
 *   pocket    47 1/2 + 2 fins of 1/2 = 48 1/2;  47 1/2 + lip 9/16 = 48 1/16
 *   order     less 3/8, to 1/8 down: 48 1/8 x 47 5/8;  gap 3/16 and 7/32 a side
 *   joint B   movement 0.5 x 3.6e-5 x 50 x 48.125 = 0.0433, /0.25 = 0.173 -> at least 1/4, gap: 3/16; 0.0433 / 0.1875
 *             = 23 %: Class 25; half of it is 3/32, at least 1/8 deep; rod 1.33 x 3/16 = 0.249 -> 1/4
 *   run       2 (48.5 + 48.0625) = 193.125 -> 194;  194 x 3/16 x 1/8 = 4.547 in3 / 1.8047 = 2.52 -> 2.6 fl oz
 *   stucco    194 x 1/4 x 1/8 = 6.0625 in3 = 3.36 -> 3.4 fl oz
 *   foam      48.5 x 48.0625 - 48.125 x 47.625 = 39.08 in2 x 1 1/2 = 58.6 -> 59 in3
 *   trim      48 1/16 + 1/2 = 48 9/16 twice, 48 1/2 + 1/2 = 49 twice;  sum 195 1/8, both edges 390 1/4 -> 391
 *   caulk     391 x (3/16)^2 / 2 = 6.873 in3 = 3.81 -> 3.9 fl oz
 *   shims     jamb 47.625: 4, lock 23.81, 43.625; spans of 19.81 in two -> 5; sill 48.125: meeting stile 24.06 -> 5
 *   glass     daylight (48.125 - 5.5 - 1.75) / 2 = 20.4375 x 42.125; with 1/2 in bite 21.4375 x 43.125 = 924.49 in2,
 *             two: 1848.98 in2 = 1.19289 m2 x 6 mm x 2500 = 17.893 kg
 *   frame     2 (48.125 + 47.625) + 42.125 + 2 (20.4375 + 42.125) = 358.75 in = 29.896 ft, 0.7, 1, 1.5 lb a foot
 *   people    39.45 + 44.84 = 84.3 lb of 51 each: 2 */
static void one_opening_by_hand(void **state)
{
  (void)state;
  taken t;
  open_job("examples/harrow_bend", &t);
  plan(&t);
  const pw_materials *m = &t.sum.opening[row_of(&t.open.job, "L2")];
  const char *hand = "hand sum above";
  pw_assert_near(inches(m->seal_width), 0.1875, 1e-9, "joint", hand);
  pw_assert_near(inches(m->seal_depth), 0.125, 1e-9, "depth", hand);
  pw_assert_near(m->seal_class, 25.0, 0.0, "class", hand);
  pw_assert_near(inches(m->seal_length), 194.0, 1e-6, "run", hand);
  pw_assert_near(m->seal_volume / PW_FLUID_OUNCE, 2.6, 1e-6, "sealant", hand);
  pw_assert_near(m->stucco_volume / PW_FLUID_OUNCE, 3.4, 1e-6, "stucco", hand);
  pw_assert_near(inches(m->rod), 0.25, 1e-9, "rod", hand);
  pw_assert_near(inches(m->rod_length), 194.0, 1e-6, "rod run", hand);
  pw_assert_near(m->foam_volume / pow(PW_INCH, 3.0), 59.0, 1e-6, "foam", hand);
  assert_int_equal(m->n_trim, 4);
  static const double trim[] = {
      [PW_LEFT] = 48.5625, [PW_RIGHT] = 48.5625, [PW_BOTTOM] = 49.0, [PW_TOP] = 49.0};
  for (size_t i = 0; i < m->n_trim; i++)
    pw_assert_near(inches(m->trim[i].length), trim[m->trim[i].side], 1e-6, "trim", hand);
  pw_assert_near(inches(m->caulk_length), 391.0, 1e-6, "caulk run", hand);
  pw_assert_near(m->caulk_volume / PW_FLUID_OUNCE, 3.9, 1e-6, "caulk", hand);
  for (int s = PW_LEFT; s <= PW_BOTTOM; s++)
    assert_int_equal(m->n_shim[s], 5);
  pw_assert_near(inches(m->shim[PW_BOTTOM][2]), 24.0625, 1e-6, "under the meeting stile", hand);
  pw_assert_near(inches(m->shim[PW_LEFT][2]), 23.8125, 1e-6, "at the lock", hand);
  assert_int_equal(m->shims, 30);
  assert_int_equal(m->screws_low, 10);
  assert_int_equal(m->screws_high, 15);
  pw_assert_near(inches(m->tape), 388.0, 1e-6, "tape", hand);
  pw_assert_near(m->glass_mass, 17.893, 1e-3, "glass", hand);
  pw_assert_near((m->mass_low - m->glass_mass) / PW_POUND, 0.7 * 29.896, 2e-3, "frame", hand);
  pw_assert_near((m->mass - m->glass_mass) / PW_POUND, 29.896, 2e-3, "frame", hand);
  pw_assert_near((m->mass_high - m->glass_mass) / PW_POUND, 1.5 * 29.896, 2e-3, "frame", hand);
  assert_int_equal(m->people, 2);
  forget(&t);
  pw_job_close(&t.open);
}

/* Table measure S9: a cartridge of 10.1 fl oz gives 24 to 25 ft (24.3) of a bead 1/4 x 1/4 in. The same without waste. */
static void a_cartridge_gives_its_published_run(void **state)
{
  (void)state;
  taken t;
  open_job("examples/harrow_bend", &t);
  plan(&t);
  const pw_opening *o = &t.open.job.opening[0];
  pw_package package;
  pw_materials m;
  pw_install square = t.install[0];
  pw_opening_package(&t.open.job, 0, o, &package);
  square.joint_width = square.joint_depth = 0.25 * PW_INCH;
  square.bead_length = 243.0 * PW_FOOT;
  pw_materials_of(o, &t.fit[0], &square, &package, PW_FRAME_VINYL, &m);
  pw_assert_near(m.seal_volume / (10.1 * PW_FLUID_OUNCE), 10.0, 0.02, "243 ft of 1/4 x 1/4 in",
                 "measure S9: 24.3 ft a cartridge");
  pw_assert_near(PW_FLUID_OUNCE / pow(PW_INCH, 3.0), 1.8047, 5e-5, "fluid ounce",
                 "NIST Handbook 44 appendix C, from memory");
  forget(&t);
  pw_job_close(&t.open);
}

/* No two places farther apart than the spacing; the fixed ones are among them; ends by the first shim's rule. */
static void shims_keep_their_spacing(void **state)
{
  (void)state;
  for (int k = 1; k < 400; k++) {
    double side = 0.013 * k, e = 0.1, spacing = 0.4, fixed[] = {0.37 * side, 0.71 * side};
    double place[PW_SHIMS_MAX];
    size_t n = pw_shim_places(side, e, spacing, fixed, 2, place);
    assert_true(n > 0);
    if (side <= 2.0 * e) {
      assert_int_equal(n, 1);
      continue;
    }
    pw_assert_near(place[0], e, 1e-12, "first", "rule");
    pw_assert_near(place[n - 1], side - e, 1e-12, "last", "rule");
    for (size_t i = 1; i < n; i++)
      assert_true(place[i] > place[i - 1] && place[i] - place[i - 1] <= spacing + 1e-9);
    for (size_t f = 0; f < 2; f++) {
      int found = fixed[f] < e || fixed[f] > side - e;
      for (size_t i = 0; i < n; i++)
        found |= fabs(place[i] - fixed[f]) < 1e-9;
      assert_true(found);
    }
  }
}

static void same_sums(const pw_materials_job *a, const pw_materials_job *b)
{
  const char *why = "the same windows";
  assert_int_equal(a->n_unit, b->n_unit);
  assert_int_equal(a->n_joint, b->n_joint);
  for (size_t k = 0; k < a->n_joint; k++) {
    pw_assert_near(a->joint[k].width, b->joint[k].width, 1e-9, "width", why);
    pw_assert_near(a->joint[k].length, b->joint[k].length, 1e-9, "length", why);
  }
  pw_assert_near(a->seal_volume, b->seal_volume, 1e-12, "sealant", why);
  pw_assert_near(a->foam_volume, b->foam_volume, 1e-12, "foam", why);
  pw_assert_near(a->trim_length, b->trim_length, 1e-9, "trim", why);
  pw_assert_near(a->caulk_volume, b->caulk_volume, 1e-12, "caulk", why);
  assert_int_equal(a->shims, b->shims);
  assert_int_equal(a->screws_high, b->screws_high);
  for (size_t k = 0; k < PW_STOCKS; k++) {
    assert_int_equal(a->stock[k].plan.n_stock, b->stock[k].plan.n_stock);
    assert_int_equal(a->stock[k].plan.lower_bound, b->stock[k].plan.lower_bound);
  }
  pw_assert_near(a->opening[a->heaviest].mass, b->opening[b->heaviest].mass, 1e-12, "heaviest",
                 why);
}

/* The openings turned round, and quantity 2 for two rows of one: the job wants the same. */
static void order_and_rows_change_nothing(void **state)
{
  (void)state;
  taken t, u;
  open_job("examples/harrow_bend", &t);
  open_job("examples/harrow_bend", &u);
  pw_job *job = &u.open.job;
  size_t n = job->n_opening;
  for (size_t i = 0; i < n / 2; i++) {
    pw_opening swap = job->opening[i];
    job->opening[i] = job->opening[n - 1 - i];
    job->opening[n - 1 - i] = swap;
  }
  plan(&t);
  plan(&u);
  same_sums(&t.sum, &u.sum);
  forget(&u);
  size_t l2 = row_of(job, "L2"), b1 = row_of(job, "B1");
  char tag[PW_TAG_MAX];
  memcpy(tag, job->opening[b1].tag, sizeof tag);
  forget(&t);
  job->opening[b1] = job->opening[l2]; /* the opening a second time */
  memcpy(job->opening[b1].tag, tag, sizeof tag);
  plan(&u);
  size_t two = row_of(&t.open.job, "L2"), gone = row_of(&t.open.job, "B1");
  t.open.job.opening[two].quantity = 2;
  t.open.job.opening[gone].standing = PW_STAYS;
  plan(&t);
  same_sums(&t.sum, &u.sum);
  assert_int_equal(t.sum.units[gone], 0);
  forget(&t);
  forget(&u);
  pw_job_close(&t.open);
  pw_job_close(&u.open);
}

/* The job is the sum of its openings; every piece of trim lies in one length of the stock chosen. */
static void the_job_is_the_sum_of_its_openings(void **state)
{
  (void)state;
  static const char *const job[] = {"examples/harrow_bend", "examples/starter",
                                    "examples/cinder_lane", "tests/street/04_rounds"};
  for (size_t j = 0; j < sizeof job / sizeof job[0]; j++) {
    taken t;
    open_job(job[j], &t);
    plan(&t);
    double seal = 0.0, foam = 0.0, trim = 0.0, bent = 0.0, joints = 0.0, shims = 0.0;
    for (size_t i = 0; i < t.sum.n_opening; i++) {
      const pw_materials *m = &t.sum.opening[i];
      double k = t.sum.units[i];
      seal += k * m->seal_volume;
      foam += k * m->foam_volume;
      joints += k * m->seal_length;
      shims += k * m->shims;
      bent += k * m->trim_curved;
      for (size_t p = 0; p < m->n_trim; p++)
        trim += k * m->trim[p].length;
    }
    pw_assert_near(t.sum.seal_volume, seal, 1e-12, "sealant", job[j]);
    pw_assert_near(t.sum.foam_volume, foam, 1e-12, "foam", job[j]);
    pw_assert_near(t.sum.trim_length, trim, 1e-9, "trim", job[j]);
    pw_assert_near(t.sum.trim_curved, bent, 1e-9, "bent trim", job[j]);
    pw_assert_near(t.sum.shims, shims, 0.0, "shims", job[j]);
    for (size_t k = 0; k < t.sum.n_joint; k++)
      joints -= t.sum.joint[k].length;
    pw_assert_near(joints, 0.0, 1e-9, "joints by size", job[j]);
    const pw_trim_stock *s = &t.sum.stock[t.sum.stock_chosen];
    for (size_t b = 0; b < s->plan.n_stock; b++) {
      double cut = -pw_materials_kerf();
      for (size_t i = 0; i < t.sum.n_piece - t.sum.n_long; i++)
        if (t.sum.stock_of[i] == b) cut += t.sum.piece[i].length + pw_materials_kerf();
      assert_true(cut > 0.0 && cut <= s->length + 1e-9);
    }
    forget(&t);
    pw_job_close(&t.open);
  }
}

/* A half round of 40 1/2 in has one straight side and an arc: trim is bent along the arc only, foam goes by the gap. */
static void a_shape_has_bent_trim(void **state)
{
  (void)state;
  taken t;
  int seen = 0, straight = 0;
  open_job("tests/street/04_rounds", &t);
  plan(&t);
  for (size_t i = 0; i < t.open.job.n_opening; i++) {
    const pw_opening *o = &t.open.job.opening[i];
    const pw_materials *m = &t.sum.opening[i];
    if (o->shape == PW_SHAPE_CIRCLE) {
      seen = 1;
      double round = PW_PI * t.fit[i].opening_width;
      assert_int_equal(m->n_trim, 0);
      assert_int_equal(m->n_shim[PW_BOTTOM], 0);
      pw_assert_near(m->trim_curved, round, 1.01 * PW_INCH, "bent trim", "pi d, inch up");
      assert_true(m->trim_curved >= round - 1e-9);
    }
    if (o->shape == PW_SHAPE_HALF_ROUND || o->shape == PW_SHAPE_ARCH ||
        o->shape == PW_SHAPE_TRAPEZOID) { /* the level base stands on shims as long as it is */
      assert_true(m->n_shim[PW_BOTTOM] > 1);
      pw_assert_near(m->shim[PW_BOTTOM][0] + m->shim[PW_BOTTOM][m->n_shim[PW_BOTTOM] - 1],
                     t.fit[i].order_width, 1e-9, o->tag, "as far from both ends");
      straight++;
    }
    if (o->shape != PW_SHAPE_RECTANGLE)
      assert_true(m->trim_curved > 0.0 || m->n_trim > 2 || o->shape == PW_SHAPE_OCTAGON);
  }
  assert_true(seen && straight > 0);
  forget(&t);
  pw_job_close(&t.open);
}

/* A joint that the least rod sold does not go into takes none. */
static void a_narrow_joint_takes_no_rod(void **state)
{
  (void)state;
  taken t;
  open_job("examples/harrow_bend", &t);
  plan(&t);
  pw_package package;
  pw_materials m;
  pw_install p = t.install[0];
  pw_opening_package(&t.open.job, 0, &t.open.job.opening[0], &package);
  p.joint_width = 0.125 * PW_INCH;
  p.backer = 0.25 * PW_INCH;
  pw_materials_of(&t.open.job.opening[0], &t.fit[0], &p, &package, PW_FRAME_VINYL, &m);
  pw_assert_near(m.rod_length, 0.0, 0.0, "rod", "1/4 in is twice the joint, S5 allows 1.5");
  memcpy(package.filling, "air", 4);
  pw_materials_of(&t.open.job.opening[0], &t.fit[0], &p, &package, PW_FRAME_VINYL, &m);
  pw_assert_near(m.foam_volume, 0.0, 0.0, "foam", "the package leaves air");
  forget(&t);
  pw_job_close(&t.open);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest test[] = {
      cmocka_unit_test(one_opening_by_hand),
      cmocka_unit_test(a_cartridge_gives_its_published_run),
      cmocka_unit_test(shims_keep_their_spacing),
      cmocka_unit_test(order_and_rows_change_nothing),
      cmocka_unit_test(the_job_is_the_sum_of_its_openings),
      cmocka_unit_test(a_shape_has_bent_trim),
      cmocka_unit_test(a_narrow_joint_takes_no_rod),
  };
  return cmocka_run_group_tests(test, NULL, NULL);
}
