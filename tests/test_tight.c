/* Tightness: leakage areas of sashes against closed forms and the handbook's way to count a crack; the saving against the
 * same house told another way (air_changes), and against zero; over jobs of chance in
 * test_tight_jobs. Most numbers of the tables are from
 * memory; check --group air holds them against what was read. */
#include "example_fixture.h"

#include <jansson.h>

#include "house/infiltration.h"
#include "house/leakage.h"
#include "out/compare_out.h"
#include "out/message_text.h"
#include "out/sheet.h"
#include "out/tight_out.h"
#include "paper_read.h"
#include "study/compare_tight.h"

static pw_compare_tight *tight_of(fixture *f, const pw_compare *c,
                                  const pw_compare_options *options)
{
  pw_compare_tight *t = malloc(sizeof *t);
  pw_err err = {0};
  assert_non_null(t);
  if (pw_compare_tight_of(c, f->open.weather, options, NULL, t, &err) != PW_OK)
    fail_msg("%s", err.text);
  return t;
}

/* A run of the example with its tightness; both to be freed. */
typedef struct both {
  pw_compare *c;
  pw_compare_tight *t;
} both;

static both run_both(fixture *f)
{
  pw_compare *c = run(f, &quick);
  return (both){c, tight_of(f, c, &quick)};
}

static void drop(both *b)
{
  forget(b->c);
  free(b->t);
}

static void back(fixture *f)
{
  pw_house_facts *h = &f->open.job.house;
  as_read(f);
  h->cfm50 = h->cfm50_taped = h->air_changes = (pw_given){0};
  h->infiltration = PW_INFILTRATION_CONSTANT;
}

static void every_sash(fixture *f, pw_sash_state state)
{
  for (size_t i = 0; i < f->open.job.n_opening; i++)
    f->open.job.opening[i].sash_leak = state;
}

/* ---------------------------------------------------------------- one window */

/* Handbook, crack length (from memory): double-hung 3 w + 2 h; a slider's one sash w + 2 h, a casement 2 w + 2 h; by hand with
 * faces: half of 1.2 m less a face of 0.06 and half a rail of 0.04 is 0.52, its joint 0.03 and 0.02 further: 0.57; upright
 * 0.88 + 0.06 = 0.94; 2 x 1.51 = 3.02. */
static void cracks_are_counted_as_the_handbook_does(void **state)
{
  static const struct {
    pw_operator kind;
    const char *config;
    double face, rail, want;
  } row[] = {{PW_DOUBLE_HUNG, "", 0.0, 0.0, 3 * 1.2 + 2 * 1.0},
             {PW_SINGLE_HUNG, "", 0.0, 0.0, 2 * 1.2 + 1.0},
             {PW_SLIDER, "XO", 0.0, 0.0, 1.2 + 2 * 1.0},
             {PW_SLIDER, "XX", 0.0, 0.0, 2 * 1.2 + 3 * 1.0},
             {PW_SLIDER, "XOX", 0.0, 0.0, 2 * (0.8 + 2 * 1.0)},
             {PW_CASEMENT, "", 0.0, 0.0, 2 * 1.2 + 2 * 1.0},
             {PW_FIXED, "", 0.0, 0.0, 0.0},
             {PW_SLIDER, "XO", 0.06, 0.04, 3.02},
             {PW_DOUBLE_HUNG, "", 0.06, 0.04, 3 * 1.14 + 2 * 0.94}};
  (void)state;
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_lites w;
    assert_int_equal(pw_lites_cut(row[i].kind, row[i].config, 1.2, 1.0, row[i].face,
                                  row[i].face, row[i].rail, &w, NULL),
                     PW_OK);
    pw_assert_near(pw_sash_crack(&w), row[i].want, 1e-12, pw_operator_name(row[i].kind),
                   "handbook, or by hand");
  }
  /* A porthole of 0.5 m daylight in a face of 0.06: its joint is a circle of 0.56. */
  const pw_lites round = {
      .operator_ = PW_CASEMENT,
      .n_lite = 1,
      .lite = {{.moving = 1, .face = {0.06}, .round = {.perimeter = 0.5 * 3.14159265358979}}}};
  pw_assert_near(pw_sash_crack(&round), 0.56 * 3.14159265358979, 1e-9, "circle", "closed form");
}

/* The wood slider's row, 0.44 (0.27 to 0.99) cm2 a metre; the middle of a part by the root of the product. */
static void a_state_is_a_part_of_its_row(void **state)
{
  pw_lites w;
  (void)state;
  assert_int_equal(pw_lites_cut(PW_SLIDER, "XO", 2.0, 1.0, 0, 0, 0, &w, NULL), PW_OK);
  const pw_leak_span usual = pw_sash_leak(&w, PW_FRAME_WOOD, PW_SASH_BLANK),
                     loose = pw_sash_leak(&w, PW_FRAME_WOOD, PW_SASH_LOOSE);
  pw_assert_near(usual.usual, 4.0 * 0.44e-4, 1e-15, "usual", "leakage.csv");
  pw_assert_near(usual.low, 4.0 * 0.27e-4, 1e-15, "low", "leakage.csv");
  pw_assert_near(loose.usual, 4.0 * 0.66e-4, 1e-15, "loose", "root of 0.44 x 0.99 = 0.66");
  for (int k = 0; k < PW_OPERATOR_COUNT; k++)
    for (int f = 0; f < PW_FRAME_KIND_COUNT; f++) {
      static const pw_sash_state up[] = {PW_SASH_STUCK, PW_SASH_TIGHT, PW_SASH_USUAL,
                                         PW_SASH_LOOSE};
      assert_int_equal(pw_lites_cut((pw_operator)k, "", 1.5, 1.2, 0.05, 0.05, 0.04, &w, NULL),
                       PW_OK);
      double last = 0.0;
      for (size_t s = 0; s < 4; s++) {
        const pw_leak_span a = pw_sash_leak(&w, (pw_frame_kind)f, up[s]);
        assert_true(a.low <= a.usual && a.usual <= a.high);
        assert_true(k == PW_FIXED ? a.high == 0.0 : a.usual > last);
        last = a.usual;
      }
    }
}

/* By hand: 0.1 cfm/ft2 is 0.000508 m3/(s m2); x (4/75)^0.65 = 0.148782 over sqrt(8/1.2) = 2.581989: 0.29272
 * cm2 a m2. */
static void inserts_by_their_label(void **state)
{
  (void)state;
  const pw_leak_span one = pw_insert_leak(0.000508, 2.0), none = pw_insert_leak(NAN, 2.0);
  pw_assert_near(one.usual, 2.0 * 0.29272e-4, 1e-9, "label", "hand");
  assert_true(one.low < one.usual && one.high > 2.0 * one.usual);
  pw_assert_near(none.usual, 2.0 * 0.88e-4, 1e-12, "no label", "0.3 cfm/ft2, the code's limit");
  assert_true(none.low < one.low);
  assert_true(pw_joint_leak(1.0, 1).high < pw_joint_leak(1.0, 0).low);
}

/* ---------------------------------------------------------------- the house */

static void a_job_that_says_nothing_is_told_nothing(void **state)
{
  fixture *f = *state;
  both b = run_both(f);
  assert_false(b.t->told);
  const pw_compare_frame frame = {.method = "", .tight = b.t};
  json_t *j = pw_compare_json(b.c, &frame);
  assert_null(json_object_get(j, "tightness"));
  json_decref(j);
  drop(&b);
}

/* 2400 cfm: 2400 x 4.719474e-4 = 1.132674 m3/s, x 0.193646 / 2.581989 = 0.084949 m2. The same house told by its rate, before and
 * after, costs what the tightness says: another way through the whole program. */
static void one_area_before_and_one_after(void **state)
{
  fixture *f = *state;
  f->open.job.house.cfm50.value = 2400.0 * 4.719474e-4;
  both b = run_both(f);
  const pw_compare_tight *t = b.t;
  pw_assert_near(t->area, 0.084949, 1e-6, "area", "hand");
  double sum = 0.0;
  for (size_t i = 0; i < OPENINGS; i++)
    sum += t->opening[i].now.usual;
  same(t->sashes, sum, "sashes");
  assert_true(!t->held && t->sashes_replaced <= t->sashes);
  for (size_t p = 0; p < b.c->n_package; p++) {
    const pw_tight_package *k = &t->package[p];
    same(k->area, t->area - t->sashes_replaced + k->inserts.usual, "area after");
    same(k->air_changes / t->air_changes, k->area / t->area, "air goes as the area");
    const double rate[2] = {t->air_changes, k->air_changes};
    double cost[2], need[2];
    for (int i = 0; i < 2; i++) {
      f->open.job.house.cfm50.value = 0.0;
      f->open.job.house.air_changes.value = rate[i];
      pw_compare *c = run(f, &quick);
      cost[i] = c->billed.existing_set.bill.cost_year;
      need[i] = c->lived.existing_set.year.heating_kwh + c->lived.existing_set.year.cooling_kwh;
      forget(c);
    }
    pw_assert_near(k->saving.cost_computed, cost[0] - cost[1], 1e-6, "saved", "by the rates");
    pw_assert_near(k->saving.need_kwh, need[0] - need[1], 1e-5, "need", "by the rates");
    assert_true(k->saving.cost_computed > 0.0);
    assert_true(k->cost_low <= k->saving.cost_year && k->saving.cost_year <= k->cost_high);
    /* Wider than what the sashes' state alone leaves open. */
    assert_true(k->cost_high - k->cost_low > k->saving.cost_year);
    assert_true(k->need_low <= k->saving.need_kwh && k->saving.need_kwh <= k->need_high);
  }
  drop(&b);
  back(f);
}

/* The mean rate by a blower door is the model's own year through that area: pw_infiltration_year by hand. */
static void a_blower_door_gives_the_rate(void **state)
{
  fixture *f = *state;
  f->open.job.house.cfm50.value = 1.0;
  for (int m = 0; m < PW_INFILTRATION_COUNT; m++) {
    f->open.job.house.infiltration = m;
    pw_compare *c = run(f, &quick);
    double h = c->lived.house.volume / c->lived.house.floor_area;
    const pw_infiltration_site site = {.height = h,
                                       .storeys = 1,
                                       .shield = 3,
                                       .terrain = 3,
                                       .level = 0.5,
                                       .flue = f->open.job.house.open_combustion == 1};
    double mean =
        pw_infiltration_year(m == 0 ? PW_INFILTRATION_SHERMAN_GRIMSRUD : (pw_infiltration)m,
                             &site, f->open.weather, pw_c(c->rated.t_in), NULL);
    same(c->lived.house.air_changes,
         3600.0 * mean * pw_leak_area_of(1.0, 50.0, 0.65) / c->lived.house.volume, "rate");
    f->open.job.house.air_changes.value = 0.37; /* a rate that is given goes before */
    pw_compare *given = run(f, &quick);
    assert_true(given->lived.house.air_changes == 0.37);
    forget(given);
    f->open.job.house.air_changes.value = 0.0;
    forget(c);
  }
  back(f);
}

static void looser_sashes_save_more_and_change_nothing_else(void **state)
{
  static const pw_sash_state up[] = {PW_SASH_STUCK, PW_SASH_TIGHT, PW_SASH_USUAL,
                                     PW_SASH_LOOSE};
  fixture *f = *state;
  double last = -1e9, last_high = -1e9;
  for (size_t s = 0; s < 4; s++) {
    every_sash(f, up[s]);
    both b = run_both(f);
    alike(b.c, &f->whole); /* the glass's saving is what it was */
    const pw_tight_package *k = &b.t->package[0];
    assert_true(b.t->told && k->saving.cost_computed > last && k->cost_high > last_high);
    last = k->saving.cost_computed;
    last_high = k->cost_high;
    drop(&b);
  }
  back(f);
}

/* One slider is replaced; its insert's label is such that label and joint leak what the old sashes do. */
static void an_insert_that_leaks_as_the_old_one_saves_nothing(void **state)
{
  fixture *f = *state;
  pw_package *package = &f->open.job.package[0];
  const pw_given label = package->label_air_leakage;
  for (size_t i = 0; i < OPENINGS; i++)
    if (i != K1) f->open.job.opening[i].standing = PW_STAYS;
  f->open.job.opening[K1].sash_leak = PW_SASH_LOOSE;
  both b = run_both(f);
  double area = pw_compare_rating(&b.c->rated, 0, K1)->area;
  double want = b.t->opening[K1].now.usual / f->open.job.opening[K1].quantity;
  assert_true(want > 0.3e-4 * area);
  drop(&b);
  package->label_air_leakage.value =
      (want - 0.3e-4 * area) / pw_leak_area_of(1.0, 75.0, 0.65) / area;
  b = run_both(f);
  pw_assert_near(b.t->package[0].saving.cost_computed, 0.0, 1e-7, "saved", "nothing changes");
  pw_assert_near(b.t->package[0].area, b.t->area, 1e-15, "area", "nothing changes");
  assert_true(b.t->package[0].cost_low < 0.0 && b.t->package[0].cost_high > 0.0);
  drop(&b);
  package->label_air_leakage.value *= 2.0; /* and one that leaks more costs */
  b = run_both(f);
  assert_true(b.t->package[0].saving.cost_computed < 0.0);
  drop(&b);
  package->label_air_leakage = label;
  back(f);
}

static void the_cap_holds_unless_the_tape_says_more(void **state)
{
  fixture *f = *state;
  every_sash(f, PW_SASH_LOOSE);
  f->open.job.house.cfm50.value = 0.2;
  both b = run_both(f);
  assert_true(b.t->held && b.t->held_draws > 0.5);
  same(b.t->sashes, 0.22 * b.t->area, "22 %");
  double part = b.t->sashes_replaced / b.t->sashes;
  drop(&b);
  f->open.job.house.cfm50_taped.value = 0.12;
  b = run_both(f);
  assert_true(b.t->taped && !b.t->held && b.t->held_draws == 0.0);
  same(b.t->sashes, pw_leak_area_of(0.08, 50.0, 0.65), "what the tape shut");
  same(b.t->sashes / b.t->area, 0.4, "0.08 of 0.2");
  same(b.t->sashes_replaced / b.t->sashes, part, "shared as the tables share");
  drop(&b);
  back(f);
}

/* Nothing there now that opens, or nothing replaced: nothing saved. */
static void what_stays_saves_nothing(void **state)
{
  fixture *f = *state;
  every_sash(f, PW_SASH_LOOSE);
  for (size_t i = 0; i < OPENINGS; i++)
    f->open.job.opening[i].standing = PW_STAYS;
  both b = run_both(f);
  assert_true(b.t->sashes > 0.0 && b.t->sashes_replaced == 0.0);
  for (size_t p = 0; p < b.c->n_package; p++)
    assert_true(b.t->package[p].saving.cost_computed == 0.0 &&
                b.t->package[p].cost_high == 0.0);
  assert_int_equal(b.t->n_caution, 0);
  drop(&b);
  back(f);
}

/* A rate that falls under 0.35 an hour (ASHRAE 62-1989, from memory) is a flag, else a reminder; open combustion flags, unknown
 * asks, none says nothing. */
static void two_cautions_follow(void **state)
{
  fixture *f = *state;
  int was = f->open.job.house.open_combustion;
  static const struct {
    double rate;
    int open;
    size_t n;
    pw_caution_state burns, damp;
  } row[] = {{0.36, 1, 2, PW_CAUTION_FLAG, PW_CAUTION_FLAG},
             {0.36, -1, 2, PW_CAUTION_ASK, PW_CAUTION_FLAG},
             {0.80, 0, 1, PW_CAUTION_CLEAR, PW_CAUTION_REMIND}};
  every_sash(f, PW_SASH_LOOSE);
  for (size_t i = 0; i < 3; i++) {
    f->open.job.house.air_changes.value = row[i].rate;
    f->open.job.house.open_combustion = row[i].open;
    both b = run_both(f);
    assert_int_equal(b.t->n_caution, row[i].n);
    if (row[i].n == 2) assert_int_equal(b.t->caution[0].state, row[i].burns);
    assert_int_equal(b.t->caution[row[i].n - 1].state, row[i].damp);
    char said[32], text[PW_MESSAGE_TEXT];
    pw_message_text(NULL, &b.t->caution[row[i].n - 1].finding, text, sizeof text);
    snprintf(said, sizeof said, "from %.2f to ", row[i].rate);
    assert_non_null(strstr(text, said));
    assert_true(strlen(b.t->caution[0].defer_to) > 0);
    drop(&b);
  }
  f->open.job.house.open_combustion = was;
  back(f);
}

/* ---------------------------------------------------------------- text = JSON = sheet */

static double at(const json_t *o, size_t p, const char *key)
{
  const json_t *packages = json_object_get(json_object_get(o, "tightness"), "packages");
  const json_t *v = json_object_get(json_array_get(packages, p), key);
  assert_true(json_is_number(v));
  return json_number_value(v);
}

/* The package's row in the text: its numbers by their places. */
static void text_row(const char *text, const char *name, double v[8])
{
  const char *at_table = strstr(text, "\nTightness:");
  char begin[64];
  assert_non_null(at_table);
  snprintf(begin, sizeof begin, "\n%s ", name);
  const char *row = strstr(at_table, begin);
  assert_non_null(row);
  row += strlen(begin);
  for (int i = 0; i < 8; i++) {
    char *end;
    int minus = 0;
    row += strspn(row, " ");
    if (*row == '-') minus = 1, row++;
    row += strspn(row, "$");
    v[i] = strtod(row, &end) * (minus ? -1.0 : 1.0);
    assert_true(end != row);
    row = end;
  }
}

static void three_papers_say_the_same(void **state)
{
  fixture *f = *state;
  static const pw_compare_options detailed = {.method = PW_YEAR_DETAILED};
  every_sash(f, PW_SASH_LOOSE);
  pw_compare *c = run(f, &detailed); /* a sheet is of hours */
  both b = {c, tight_of(f, c, &detailed)};
  const pw_compare_frame frame = {.method = "monthly", .notes = &f->open.notes, .tight = b.t};
  json_t *j = pw_compare_json(b.c, &frame);
  pw_err err = {0};
  for (int si = 0; si < 2; si++) {
    char *text;
    size_t size;
    FILE *out = open_memstream(&text, &size);
    assert_int_equal(pw_compare_text(b.c, &frame, pw_units(si), out, &err), PW_OK);
    fclose(out);
    assert_null(strstr(text, "so no saving is claimed from them"));
    for (size_t p = 0; p < b.c->n_package; p++) {
      double v[8], square = si ? 1.0 : 2.54 * 2.54;
      text_row(text, b.c->rated.package_set[p].name, v);
      pw_assert_near(v[0], at(j, p, "sashes_cm2") / square, 0.051, "sashes", "JSON");
      pw_assert_near(v[1], at(j, p, "leakage_area_cm2") / square, 0.051, "house", "JSON");
      pw_assert_near(v[2], at(j, p, "air_changes_1_h"), 0.00051, "air", "JSON");
      pw_assert_near(v[3], at(j, p, "heating_kwh"), 0.51, "heat", "JSON");
      pw_assert_near(v[4], at(j, p, "cooling_kwh"), 0.51, "cool", "JSON");
      pw_assert_near(v[5], at(j, p, "saving"), 0.51, "saved", "JSON");
      pw_assert_near(v[6], at(j, p, "saving_low"), 0.51, "at least", "JSON");
      pw_assert_near(v[7], at(j, p, "saving_high"), 0.51, "at most", "JSON");
    }
    free(text);
    pw_html h = {open_memstream(&text, &size), NULL};
    const pw_sheet sheet = {
        .compare = b.c,
        .frame = &frame,
        .units = pw_units(si),
        .paper = {.job = b.c->job, .version = "0123abcd", .date = 20261129}};
    if (pw_sheet_html(&sheet, &h, &err) != PW_OK) fail_msg("%s", err.text);
    fclose(h.f);
    if (!si) paper_figures_match(text, j); /* reads inches */
    paper_cells_are_keyed(text, "bands");
    const char *mine = strstr(text, "Tighter windows, apart from their glass");
    assert_non_null(mine);
    for (size_t i = 0; i < b.t->n_caution; i++)
      assert_non_null(strstr(mine, b.t->caution[i].source));
    free(text);
  }
  json_decref(j);
  drop(&b);
  back(f);
}

/* Two windows in one row are two rows of one. */
static void a_quantity_is_as_many_rows(void **state)
{
  fixture *f = *state;
  every_sash(f, PW_SASH_LOOSE);
  for (size_t i = 0; i < OPENINGS; i++)
    f->open.job.opening[i].standing = i == K1 || i == K2 ? PW_REPLACED : PW_STAYS;
  f->open.job.opening[K2] = f->open.job.opening[K1];
  both two = run_both(f);
  f->open.job.opening[K1].quantity *= 2;
  f->open.job.n_opening--;
  memmove(&f->open.job.opening[K2], &f->open.job.opening[K2 + 1],
          (OPENINGS - K2 - 1) * sizeof(pw_opening));
  both once = run_both(f);
  same(once.t->sashes, two.t->sashes, "sashes");
  same(once.t->package[0].area, two.t->package[0].area, "area after");
  pw_assert_near(once.t->package[0].saving.cost_year, two.t->package[0].saving.cost_year, 1e-6,
                 "saved", "a quantity");
  f->open.job.n_opening++;
  drop(&once);
  drop(&two);
  back(f);
}

/* The draws that the band is made of: their ten and ninety per cent are its ends (a bill given, so nothing is put aside). */
static void draws_are_those_of_the_band(void **state)
{
  fixture *f = *state;
  pw_err err = {0};
  every_sash(f, PW_SASH_LOOSE);
  f->open.job.house.bill_year = (pw_given){.value = 2500.0, .origin = PW_ORIGIN_STATED};
  both b = run_both(f);
  pw_tight_drawn *d = malloc(sizeof *d);
  double need[PW_TIGHT_DRAWS], sort[2 * PW_TIGHT_DRAWS];
  pw_band band;
  assert_non_null(d);
  assert_int_equal(pw_compare_tight_draws(b.c, f->open.weather, &quick, NULL, b.t, d, &err),
                   PW_OK);
  for (size_t p = 0; p < b.c->n_package; p++) {
    for (size_t i = 0; i < PW_TIGHT_DRAWS; i++) {
      need[i] = d->kwh[p][0][i] + d->kwh[p][1][i];
      assert_true(d->area[p][i] > -1.0 && d->area[p][i] <= b.t->share_most);
    }
    assert_int_equal(pw_band_of(need, 1, PW_TIGHT_DRAWS, NULL, sort, &band, NULL), PW_OK);
    same(band.p10, b.t->package[p].need_low, "low");
    same(band.p90, b.t->package[p].need_high, "high");
  }
  free(d);
  drop(&b);
  back(f);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(cracks_are_counted_as_the_handbook_does),
      cmocka_unit_test(a_state_is_a_part_of_its_row),
      cmocka_unit_test(inserts_by_their_label),
      cmocka_unit_test(a_job_that_says_nothing_is_told_nothing),
      cmocka_unit_test(one_area_before_and_one_after),
      cmocka_unit_test(a_blower_door_gives_the_rate),
      cmocka_unit_test(looser_sashes_save_more_and_change_nothing_else),
      cmocka_unit_test(an_insert_that_leaks_as_the_old_one_saves_nothing),
      cmocka_unit_test(the_cap_holds_unless_the_tape_says_more),
      cmocka_unit_test(what_stays_saves_nothing),
      cmocka_unit_test(two_cautions_follow),
      cmocka_unit_test(three_papers_say_the_same),
      cmocka_unit_test(a_quantity_is_as_many_rows),
      cmocka_unit_test(draws_are_those_of_the_band),
  };
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
