/* window/caution: each rule at, just inside and just outside its limit. Limits are those of
 * reference/trade/safety.csv (its source column names the clause); what is found on the two sample
 * jobs is the group `trade` of the checks. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/table.h"
#include "out/message_text.h"
#include "panewright/units.h"
#include "window/caution.h"

typedef struct setting {
  pw_opening opening;
  pw_fit fit;
  pw_job job;
} setting;

static void set(setting *s)
{
  memset(s, 0, sizeof *s);
  s->opening = (pw_opening){.tag = "T",
                            .quantity = 1,
                            .operator_existing = PW_SLIDER,
                            .operator_insert = PW_SLIDER,
                            .sill_height = 30.0 * PW_INCH,
                            .drop_outside = 18.0 * PW_INCH,
                            .near_door = PW_NOT_GIVEN,
                            .near_water = PW_NOT_GIVEN,
                            .near_walk = PW_NOT_GIVEN};
  s->fit = (pw_fit){.square = PW_SQUARE_OK,
                    .clear_existing = {0.8, 1.2, 0.96, 30.0 * PW_INCH},
                    .clear_insert = {0.7, 1.1, 0.77, 31.0 * PW_INCH},
                    .existing = {.glass_area = 1.0},
                    .insert = {.n_lite = 1,
                               .lite = {{.x = 0.05, .width = 0.6, .height = 1.0, .moving = 1}},
                               .glass_area = 0.9}};
  s->job.house = (pw_house_facts){.year_built = 1999,
                                  .storeys = 1,
                                  .elevation = {.value = 100.0},
                                  .plant_elevation = {.value = 100.0},
                                  .wind_pressure = 1000.0};
  s->job.n_opening = 1;
}

/* The state of one rule, PW_CAUTION_CLEAR when it is not listed. */
static pw_caution_state ask(setting *s, const char *id, char finding[320])
{
  pw_cautions list;
  pw_caution_state state = PW_CAUTION_CLEAR;
  size_t n[PW_CAUTION_FAIL + 1] = {0}; /* the tallies are how many there are of each */
  s->job.opening = &s->opening;
  assert_int_equal(pw_cautions_find(&s->job, &s->fit, &list, NULL), PW_OK);
  for (size_t i = 0; i < list.n; i++) {
    n[list.caution[i].state]++;
    if (strcmp(list.caution[i].id, id) != 0) continue;
    state = list.caution[i].state;
    if (finding) snprintf(finding, 320, "%s", pw_said(&list.caution[i].finding));
  }
  assert_true(list.n_fail == n[PW_CAUTION_FAIL] && list.n_flag == n[PW_CAUTION_FLAG]);
  assert_true(list.n_ask == n[PW_CAUTION_ASK]);
  pw_cautions_free(&list);
  return state;
}

#define assert_state(s, id, want) assert_int_equal(ask(s, id, NULL), want)

/* safety.csv EG1 5.7 ft2, EG2 5.0 ft2, EG3 24 in, EG4 20 in, EG5 44 in. */
static void the_escape_opening_fails_just_below_its_limits(void **state)
{
  (void)state;
  setting s;
  set(&s);
  s.fit.clear_insert =
      (pw_clear){20.0 * PW_INCH, 24.0 * PW_INCH, 5.7 * PW_FOOT2 + 1e-9, 44.0 * PW_INCH};
  assert_state(&s, "EG1", PW_CAUTION_CLEAR); /* no bedroom */
  s.opening.use = PW_USE_BEDROOM;
  assert_state(&s, "EG1", PW_CAUTION_CLEAR);
  assert_state(&s, "EG3", PW_CAUTION_CLEAR);
  assert_state(&s, "EG4", PW_CAUTION_CLEAR);
  assert_state(&s, "EG5", PW_CAUTION_CLEAR);
  assert_state(&s, "EG6", PW_CAUTION_CLEAR);
  assert_state(&s, "EG7", PW_CAUTION_REMIND);
  s.fit.clear_insert.area = 5.69 * PW_FOOT2;
  assert_state(&s, "EG1", PW_CAUTION_FAIL);
  assert_state(&s, "EG2", PW_CAUTION_CLEAR);
  assert_state(&s, "EG6", PW_CAUTION_FLAG);
  s.opening.grade_floor = 1;
  assert_state(&s, "EG1", PW_CAUTION_CLEAR);
  assert_state(&s, "EG2", PW_CAUTION_CLEAR);
  s.fit.clear_insert.area = 4.99 * PW_FOOT2;
  assert_state(&s, "EG2", PW_CAUTION_FAIL);
  s.fit.clear_insert.height = 23.9 * PW_INCH;
  assert_state(&s, "EG3", PW_CAUTION_FAIL);
  s.fit.clear_insert.width = 19.9 * PW_INCH;
  assert_state(&s, "EG4", PW_CAUTION_FAIL);
  s.fit.clear_insert.bottom = 44.1 * PW_INCH;
  assert_state(&s, "EG5", PW_CAUTION_FAIL);
  s.fit.clear_insert.bottom = -1.0;
  assert_state(&s, "EG5", PW_CAUTION_ASK);
}

static void a_failed_escape_prints_old_and_new_and_names_the_exception(void **state)
{
  (void)state;
  setting s;
  char text[320] = "";
  set(&s);
  s.opening.use = PW_USE_BEDROOM;
  s.fit.clear_insert =
      (pw_clear){15.0 * PW_INCH, 32.0 * PW_INCH, 480.0 / 144.0 * PW_FOOT2, 0.9};
  s.fit.clear_existing =
      (pw_clear){16.0 * PW_INCH, 33.0 * PW_INCH, 528.0 / 144.0 * PW_FOOT2, 0.9};
  assert_int_equal(ask(&s, "EG1", text), PW_CAUTION_FAIL);
  assert_non_null(strstr(text, "new about 15 x 32 in = 3.3 ft2, old about 16 x 33 = 3.7 ft2"));
  assert_int_equal(ask(&s, "EG6", text), PW_CAUTION_FLAG);
  assert_non_null(strstr(text, "building official decides"));
  assert_int_equal(ask(&s, "EG8", text), PW_CAUTION_FLAG);
  /* 5.7 x 144 / 15 = 54.72 and / 32 = 25.65, to 1/8 in. */
  assert_non_null(strstr(text, "54 3/4 in clear height"));
  assert_non_null(strstr(text, "25 5/8 in width"));
  pw_cautions list;
  assert_int_equal(pw_cautions_find(&s.job, &s.fit, &list, NULL), PW_OK);
  assert_true(pw_caution_escape_fails(&list, 0));
  assert_true(list.n_fail >= 2);
  for (size_t i = 1; i < list.n; i++)
    assert_true(list.caution[i - 1].rank <= list.caution[i].rank);
  pw_cautions_free(&list);
  pw_cautions_free(&list);
}

/* safety.csv FP1: over 72 in above the ground and under 24 in above the floor, both. */
static void the_fall_rule_wants_both_heights(void **state)
{
  (void)state;
  setting s;
  set(&s);
  s.opening.drop_outside = 72.5 * PW_INCH;
  s.fit.clear_existing.bottom = s.fit.clear_insert.bottom = 23.5 * PW_INCH;
  assert_state(&s, "FP1", PW_CAUTION_FLAG);
  assert_state(&s, "FP2", PW_CAUTION_CLEAR);
  s.opening.use = PW_USE_BEDROOM;
  assert_state(&s, "FP2", PW_CAUTION_FLAG);
  s.opening.drop_outside = 72.0 * PW_INCH;
  assert_state(&s, "FP1", PW_CAUTION_CLEAR);
  s.opening.drop_outside = 73.0 * PW_INCH;
  s.fit.clear_existing.bottom = s.fit.clear_insert.bottom = 24.0 * PW_INCH;
  assert_state(&s, "FP1", PW_CAUTION_CLEAR);
  s.fit.clear_existing.bottom = s.fit.clear_insert.bottom = -1.0;
  assert_state(&s, "FP1", PW_CAUTION_ASK);
  s.opening.operator_insert = PW_FIXED;
  assert_state(&s, "FP1", PW_CAUTION_CLEAR);
}

/* safety.csv SG1..SG4: all four of area over 9 ft2, bottom under 18, top over 36, walk within 36. */
static void the_low_pane_rule_wants_all_four(void **state)
{
  (void)state;
  setting s;
  set(&s);
  s.opening.operator_insert = PW_FIXED;
  s.opening.sill_height = 17.9 * PW_INCH; /* the lite begins at the sill here */
  s.opening.near_walk = 36.0 * PW_INCH;
  s.fit.insert.lite[0].width = 9.1 * PW_FOOT2 / 1.0;
  s.fit.insert.lite[0].height = 1.0;
  assert_state(&s, "SG1", PW_CAUTION_FLAG);
  assert_state(&s, "SG9", PW_CAUTION_REMIND);
  s.opening.sill_height = 18.0 * PW_INCH;
  assert_state(&s, "SG1", PW_CAUTION_CLEAR);
  assert_state(&s, "SG9", PW_CAUTION_CLEAR);
  s.opening.sill_height = PW_NOT_GIVEN;
  assert_state(&s, "SG1", PW_CAUTION_ASK);
  s.opening.sill_height = 10.0 * PW_INCH;
  s.opening.near_walk = 36.5 * PW_INCH;
  assert_state(&s, "SG1", PW_CAUTION_CLEAR);
  s.opening.near_walk = 0.0;
  s.fit.insert.lite[0].width = 8.9 * PW_FOOT2;
  assert_state(&s, "SG1", PW_CAUTION_CLEAR);
  s.fit.insert.lite[0].height = 25.0 * PW_INCH; /* top at 35 in */
  s.fit.insert.lite[0].width = 9.1 * PW_FOOT2 / (25.0 * PW_INCH);
  assert_state(&s, "SG1", PW_CAUTION_CLEAR);
}

static void glass_by_doors_water_and_stairs_is_flagged_within_reach(void **state)
{
  (void)state;
  setting s;
  set(&s);
  s.opening.near_door = 24.0 * PW_INCH; /* SG5 */
  assert_state(&s, "SG5", PW_CAUTION_FLAG);
  s.opening.near_door = 24.5 * PW_INCH;
  assert_state(&s, "SG5", PW_CAUTION_CLEAR);
  s.opening.near_water = 60.0 * PW_INCH; /* SG7 */
  assert_state(&s, "SG7", PW_CAUTION_FLAG);
  s.opening.sill_height = 60.0 * PW_INCH;
  assert_state(&s, "SG7", PW_CAUTION_CLEAR);
  s.opening.sill_height = PW_NOT_GIVEN; /* unknown: the safe side */
  assert_state(&s, "SG7", PW_CAUTION_FLAG);
  set(&s);
  s.opening.use = PW_USE_STAIR; /* SG8: under 36 in */
  s.opening.sill_height = 35.9 * PW_INCH;
  assert_state(&s, "SG8", PW_CAUTION_FLAG);
  s.opening.sill_height = 36.0 * PW_INCH;
  assert_state(&s, "SG8", PW_CAUTION_CLEAR);
  s.opening.operator_insert = PW_SLIDING_DOOR; /* SG6 */
  assert_state(&s, "SG6", PW_CAUTION_FLAG);
}

/* The clauses say "over", "under" and "within": a pane of 9 ft2, glass up to 36 in, a lower edge at 60 in are free, a walk at
 * 36 in counts (IRC R308.4; safety.csv SG1 to SG5). */
static void at_the_limit_itself(void **state)
{
  (void)state;
  setting s;
  set(&s);
  s.opening.operator_insert = PW_FIXED;
  s.opening.sill_height = 0.0;
  s.opening.near_walk = 36.0 * PW_INCH;
  s.fit.insert.lite[0] = (pw_lite){.width = 9.0 * PW_FOOT2, .height = 1.0};
  assert_state(&s, "SG1", PW_CAUTION_CLEAR);
  s.fit.insert.lite[0].width = 9.001 * PW_FOOT2;
  assert_state(&s, "SG1", PW_CAUTION_FLAG);
  s.fit.insert.lite[0] = (pw_lite){.width = 2.0, .height = 36.0 * PW_INCH};
  assert_state(&s, "SG1", PW_CAUTION_CLEAR);
  s.fit.insert.lite[0].height = 36.1 * PW_INCH;
  assert_state(&s, "SG1", PW_CAUTION_FLAG);
  s.opening.sill_height = PW_NOT_GIVEN;
  assert_state(&s, "SG1", PW_CAUTION_ASK);
  s.opening.option.tempered = 1; /* whatever the answer, it is safety glass */
  assert_state(&s, "SG1", PW_CAUTION_CLEAR);
  assert_state(&s, "SG9", PW_CAUTION_REMIND);
  set(&s);
  s.opening.near_door = 24.0 * PW_INCH;
  s.opening.sill_height = 60.0 * PW_INCH;
  assert_state(&s, "SG5", PW_CAUTION_CLEAR);
  s.opening.sill_height = 59.9 * PW_INCH;
  assert_state(&s, "SG5", PW_CAUTION_FLAG);
  s.opening.operator_insert = PW_SLIDING_DOOR; /* SG6 holds there */
  assert_state(&s, "SG5", PW_CAUTION_CLEAR);
  s.opening.near_water = 60.1 * PW_INCH;
  s.opening.sill_height = 10.0 * PW_INCH;
  assert_state(&s, "SG7", PW_CAUTION_CLEAR);
}

/* The glass of an insert: the lower edge of the old clear opening, the joint under it, the lip cut away; by hand. */
static void glass_stands_where_the_insert_stands(void **state)
{
  (void)state;
  setting s;
  char text[320] = "";
  set(&s);
  s.opening.near_door = 12.0 * PW_INCH;
  s.opening.sill_height = 40.0 * PW_INCH;
  s.opening.sill_lip = 1.0 * PW_INCH;
  s.opening.retained_face = 0.5 * PW_INCH;
  s.fit.retained_width[PW_BOTTOM] = 2.0 * PW_INCH;
  s.fit.insert.lite[0].y = 3.0 * PW_INCH;
  assert_int_equal(ask(&s, "SG5", text), PW_CAUTION_FLAG);
  assert_non_null(strstr(text, "12 in from a door, glass bottom at 43 1/2 in (under 60)"));
  s.opening.lip_stay = 1;
  assert_int_equal(ask(&s, "SG5", text), PW_CAUTION_FLAG);
  assert_non_null(strstr(text, "glass bottom at 44 1/2 in"));
}

/* FP1 with one height not given: asked where the other one speaks for a fall, and of which column. */
static void an_unknown_height_is_asked_for(void **state)
{
  (void)state;
  setting s;
  char text[320] = "";
  set(&s);
  s.fit.clear_existing.bottom = s.fit.clear_insert.bottom = 10.0 * PW_INCH;
  s.opening.drop_outside = PW_NOT_GIVEN;
  assert_state(&s, "FP1", PW_CAUTION_CLEAR); /* one storey */
  s.job.house.storeys = 2;
  assert_int_equal(ask(&s, "FP1", text), PW_CAUTION_ASK);
  assert_non_null(strstr(text, "drop_outside"));
  s.fit.clear_existing.bottom = s.fit.clear_insert.bottom = 30.0 * PW_INCH;
  assert_state(&s, "FP1", PW_CAUTION_CLEAR);
  s.opening.drop_outside = 100.0 * PW_INCH;
  s.fit.clear_existing.bottom = -1.0;
  assert_int_equal(ask(&s, "FP1", text), PW_CAUTION_ASK);
  assert_non_null(strstr(text, "sill_height"));
  s.fit.clear_existing.bottom = 0.0; /* to the floor */
  assert_state(&s, "FP1", PW_CAUTION_FLAG);
  s.opening.operator_insert = PW_SLIDING_DOOR;
  assert_state(&s, "FP1", PW_CAUTION_CLEAR);
}

static void years_heights_and_glass_at_their_limits(void **state)
{
  (void)state;
  setting s;
  char text[320] = "";
  set(&s);
  s.job.house.year_built = 1978;
  assert_state(&s, "LP2", PW_CAUTION_CLEAR);
  s.job.house.year_built = 1977;
  assert_int_equal(ask(&s, "LP1", text), PW_CAUTION_FLAG);
  assert_non_null(strstr(text, "built 1977, before 1978"));
  s.job.house.year_built = 1989; /* AS1: before about the 1980s, the decade over */
  assert_state(&s, "AS1", PW_CAUTION_FLAG);
  s.job.house.year_built = 1990;
  assert_state(&s, "AS1", PW_CAUTION_CLEAR);
  s.job.house.year_built = 0;
  assert_state(&s, "LP2", PW_CAUTION_CLEAR);
  assert_state(&s, "AS1", PW_CAUTION_ASK);
  s.job.house.plant_elevation.value = 0.0;
  s.job.house.elevation.value = 2000.0 * PW_FOOT; /* AL1: more than 2000 ft */
  assert_state(&s, "AL1", PW_CAUTION_CLEAR);
  s.job.house.elevation.value = 3000.0 * PW_FOOT; /* 0.5 psi a thousand feet: SAFETY.md */
  assert_int_equal(ask(&s, "AL1", text), PW_CAUTION_FLAG);
  assert_non_null(
      strstr(text, "3000 ft off the plant's height (ask above 2000): about 1.5 psi"));
  s.job.house.plant_elevation.value = 5001.0 * PW_FOOT; /* the other way round */
  assert_state(&s, "AL1", PW_CAUTION_FLAG);
  s.job.house.plant_elevation.value = (double)NAN;
  assert_state(&s, "AL1", PW_CAUTION_ASK);
  s.job.house.elevation.value = 2000.0 * PW_FOOT;
  assert_state(&s, "AL1", PW_CAUTION_CLEAR);
  assert_int_equal(ask(&s, "VN1", text), PW_CAUTION_REMIND);
  assert_non_null(strstr(text, "glass falls by 10 % in all")); /* 0.9 of 1.0 m2 */
  s.opening.standing = PW_STAYS;
  assert_state(&s, "VN1", PW_CAUTION_CLEAR);
  s.opening.standing = PW_REPLACED;
  s.fit.insert.glass_area = 1.0;
  assert_state(&s, "VN1", PW_CAUTION_CLEAR);
}

/* TS1, TS2, AL2: tint is flagged, in words of its own under a shade; a coating is a reminder under a shade, and for what it
 * throws back. */
static void glass_that_takes_sun_is_named(void **state)
{
  (void)state;
  setting s;
  char text[320] = "";
  pw_package package = {.name = "P", .glass = {.n_pane = 2}};
  set(&s);
  s.job.package = &package;
  s.job.n_package = 1;
  strcpy(package.glass.pane[0].kind, "clear");
  assert_state(&s, "TS1", PW_CAUTION_CLEAR);
  assert_state(&s, "TS2", PW_CAUTION_CLEAR);
  assert_state(&s, "AL2", PW_CAUTION_CLEAR);
  strcpy(package.glass.pane[1].coating[0], "ag2");
  assert_state(&s, "TS1", PW_CAUTION_CLEAR);
  assert_state(&s, "TS2", PW_CAUTION_REMIND);
  s.opening.overhang_depth = 0.5;
  assert_state(&s, "TS1", PW_CAUTION_REMIND);
  s.opening.overhang_depth = 0.0;
  s.opening.shade_factor = 0.2;
  assert_state(&s, "TS1", PW_CAUTION_REMIND);
  strcpy(package.glass.pane[0].kind, "gray");
  assert_int_equal(ask(&s, "TS1", text), PW_CAUTION_FLAG);
  assert_non_null(strstr(text, "tinted glass under partial shade"));
  s.opening.shade_factor = 0.0;
  assert_int_equal(ask(&s, "TS1", text), PW_CAUTION_FLAG);
  assert_non_null(strstr(text, "tinted glass:"));
  strcpy(package.glass.pane[1].coating[0], "");
  assert_state(&s, "TS2", PW_CAUTION_CLEAR);
  strcpy(package.glass.pane[0].kind, "clear");
  s.opening.option.tint = PW_TINT_NONE + 1;
  assert_state(&s, "TS1", PW_CAUTION_FLAG);
  s.opening.standing = PW_STAYS; /* the old pane was there before */
  assert_state(&s, "TS1", PW_CAUTION_CLEAR);
  package.open_tubes = 1;
  assert_int_equal(ask(&s, "AL2", text), PW_CAUTION_FLAG);
  assert_non_null(strstr(text, "package P has open tubes"));
}

static void house_facts_flag_ask_or_stay_silent(void **state)
{
  (void)state;
  setting s;
  set(&s);
  static const struct {
    const char *id;
    size_t offset;
  } fact[] = {{"CO1", offsetof(setting, job.house.open_combustion)},
              {"WL2", offsetof(setting, job.house.coastal)},
              {"FI1", offsetof(setting, job.house.wildfire)},
              {"WA2", offsetof(setting, job.house.leak_history)}};
  for (size_t i = 0; i < sizeof fact / sizeof fact[0]; i++) {
    int *v = (int *)(void *)((char *)&s + fact[i].offset);
    *v = 1;
    assert_state(&s, fact[i].id, PW_CAUTION_FLAG);
    *v = -1;
    assert_state(&s, fact[i].id, PW_CAUTION_ASK);
    *v = 0;
    assert_state(&s, fact[i].id, PW_CAUTION_CLEAR);
  }
  assert_state(&s, "LP1", PW_CAUTION_CLEAR);
  s.job.house.year_built = 1978;
  assert_state(&s, "LP1", PW_CAUTION_CLEAR); /* before 1978: safety.csv LP1 */
  s.job.house.year_built = 1977;
  assert_state(&s, "LP1", PW_CAUTION_FLAG);
  assert_state(&s, "LP2", PW_CAUTION_REMIND);
  assert_state(&s, "AS1", PW_CAUTION_FLAG);
  strcpy(s.job.house.lead_certificate, "X-1");
  assert_state(&s, "LP1", PW_CAUTION_REMIND);
  s.job.house.year_built = 0;
  assert_state(&s, "LP1", PW_CAUTION_ASK);
  s.job.house.elevation.value = 100.0 + 2001.0 * PW_FOOT; /* AL1: 2000 ft */
  assert_state(&s, "AL1", PW_CAUTION_FLAG);
  s.job.house.elevation.value = 100.0 + 1999.0 * PW_FOOT;
  assert_state(&s, "AL1", PW_CAUTION_CLEAR);
  s.job.house.elevation.value = (double)NAN;
  assert_state(&s, "AL1", PW_CAUTION_ASK);
  s.job.house.wind_pressure = (double)NAN;
  assert_state(&s, "WL1", PW_CAUTION_ASK);
  s.fit.square = PW_SQUARE_STOP;
  assert_state(&s, "ST1", PW_CAUTION_FLAG);
}

/* Every rule that can speak has its row: source and who decides are never blank. */
static void every_caution_names_its_source_and_who_decides(void **state)
{
  (void)state;
  setting s;
  set(&s);
  s.opening.use = PW_USE_BEDROOM;
  s.fit.clear_insert.area = 0.1;
  s.job.house.year_built = 1950;
  s.job.opening = &s.opening;
  pw_cautions list;
  assert_int_equal(pw_cautions_find(&s.job, &s.fit, &list, NULL), PW_OK);
  assert_true(list.n > 8);
  for (size_t i = 0; i < list.n; i++) {
    assert_true(list.caution[i].source[0] && list.caution[i].defer_to[0]);
    assert_true(list.caution[i].finding.number && list.caution[i].topic[0]);
  }
  pw_cautions_free(&list);
  assert_non_null(strstr(pw_message_word(NULL, PW_SAY_CAUTION_CLOSING), "building official"));
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_escape_opening_fails_just_below_its_limits),
      cmocka_unit_test(a_failed_escape_prints_old_and_new_and_names_the_exception),
      cmocka_unit_test(the_fall_rule_wants_both_heights),
      cmocka_unit_test(the_low_pane_rule_wants_all_four),
      cmocka_unit_test(glass_by_doors_water_and_stairs_is_flagged_within_reach),
      cmocka_unit_test(at_the_limit_itself),
      cmocka_unit_test(glass_stands_where_the_insert_stands),
      cmocka_unit_test(an_unknown_height_is_asked_for),
      cmocka_unit_test(years_heights_and_glass_at_their_limits),
      cmocka_unit_test(glass_that_takes_sun_is_named),
      cmocka_unit_test(house_facts_flag_ask_or_stay_silent),
      cmocka_unit_test(every_caution_names_its_source_and_who_decides),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
