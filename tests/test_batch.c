/* A row of a batch against the comparison of a job that holds the same window. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/random.h"
#include "climate/month.h"
#include "job/batch_example.h"
#include "job/batch_rows.h"
#include "out/batch_out.h"
#include "panewright/glazing.h"

static pw_batch_reader *reader_of(const char *header, pw_batch_energy energy)
{
  pw_batch_reader *reader = NULL;
  pw_err err = {0};
  if (pw_batch_reader_new(header, energy, &reader, NULL, &err) != PW_OK)
    fail_msg("%s", err.text);
  return reader;
}

static pw_batch_reader *example_reader(pw_batch_energy energy)
{
  char text[PW_BATCH_EXAMPLE_MAX];
  text[pw_batch_example_header(text)] = '\0';
  return reader_of(text, energy);
}

/* Every bit of a rating and of its sweating; the sources are texts and no figures. */
static void same_window(const pw_compare_window *a, const pw_compare_window *b)
{
  const pw_rating *r = &a->rating, *s = &b->rating;
  const double x[] = {r->u,
                      r->u_psi,
                      r->shgc,
                      r->vt,
                      r->area,
                      r->glass_area,
                      r->ua.center,
                      r->ua.edge,
                      r->ua.frame,
                      r->ua.divider,
                      r->ua.retained,
                      r->u_edge.value,
                      r->shgc_opaque,
                      a->sweat.center.t,
                      a->sweat.center.rh,
                      a->sweat.edge.rh,
                      a->sweat.frame.rh,
                      a->glass_kept,
                      a->light_kept};
  const double y[] = {s->u,
                      s->u_psi,
                      s->shgc,
                      s->vt,
                      s->area,
                      s->glass_area,
                      s->ua.center,
                      s->ua.edge,
                      s->ua.frame,
                      s->ua.divider,
                      s->ua.retained,
                      s->u_edge.value,
                      s->shgc_opaque,
                      b->sweat.center.t,
                      b->sweat.center.rh,
                      b->sweat.edge.rh,
                      b->sweat.frame.rh,
                      b->glass_kept,
                      b->light_kept};
  assert_memory_equal(x, y, sizeof x);
}

/* The job of one row: its opening, its package, the place's weather, the reference room's warmth. */
static void compare_row(const pw_batch_item *item, const pw_weather *weather, pw_job *job,
                        pw_compare *c)
{
  pw_opening opening = *item->opening;
  pw_package package = *item->package;
  pw_frame_line line = *item->line;
  pw_err err = {0};
  pw_batch_figures f;
  pw_alone alone;
  opening.existing_glass = (pw_buildup){0};
  assert_int_equal(pw_buildup_parse(opening.existing_glass_text, &opening.existing_glass, NULL),
                   PW_OK);
  assert_int_equal(pw_buildup_parse(package.glass_text, &package.glass, NULL), PW_OK);
  package.price_per_opening.value = package.price_per_area.value = 0.0;
  job->n_opening = job->n_package = job->n_frame_line = 1;
  job->opening = &opening;
  job->package = &package;
  job->frame_line = &line;
  const pw_compare_options options = {.method = PW_YEAR_QUICK};
  if (pw_compare_run(job, weather, &options, NULL, c, &err) != PW_OK) fail_msg("%s", err.text);
  assert_int_equal(pw_batch_solve(item, &f, NULL), PW_OK);
  same_window(&c->rated.existing[0], &f.existing.window);
  same_window(&c->rated.package[0][0], &f.insert.window);
  assert_true(c->rated.package_set[0].sweat_rh == f.insert.sweat_rh);
  for (int p = -1; p < 1; p++) {
    const pw_alone *want = p < 0 ? &f.existing.alone : &f.insert.alone;
    assert_int_equal(pw_compare_alone(c, p, 0, item->place, &alone, NULL), PW_OK);
    assert_memory_equal(&alone, want, sizeof alone);
  }
  pw_compare_free(c);
}

static void equals_the_comparison_to_the_last_bit(void **state)
{
  (void)state;
  pw_weather *weather = malloc(sizeof *weather);
  pw_compare *c = malloc(sizeof *c);
  pw_job *job = calloc(1, sizeof *job);
  job->house = (pw_house_facts){.year_built = 1972, .storeys = 1, .state = "NM"};
  strcpy(job->house.heating_kind, "furnace");
  strcpy(job->house.cooling_kind, "central");
  job->house.heating_fuel = PW_FUEL_GAS;
  job->house.heat_set_c.value = 21.0; /* as alone.h states for the reference room */
  job->house.setback_k.value = 0.0;
  for (int energy = 0; energy < 2; energy++) {
    pw_batch_reader *reader = example_reader((pw_batch_energy)energy);
    pw_batch_hand *hand = pw_batch_hand_new(reader);
    for (unsigned long i = 0; i < 40; i++) {
      char text[PW_BATCH_EXAMPLE_MAX], name[80] = "";
      size_t index = 0, n = pw_batch_example(i, text);
      pw_batch_item item;
      const char *id = NULL;
      double away = 0.0;
      pw_place place;
      pw_err err = {0};
      if (pw_batch_read(hand, text, n, 2, &item, &id, &away, &err) != PW_OK)
        fail_msg("%s", err.text);
      const char *from = strchr(text, ',') + 1; /* the place is the second cell */
      if (*from == '"')
        sscanf(from + 1, "%79[^\"]", name);
      else
        sscanf(from, "%79[^,]", name);
      assert_int_equal(pw_place_find(name, &index, NULL, NULL), PW_OK);
      assert_int_equal(pw_place_get(index, &place, NULL), PW_OK);
      assert_int_equal(pw_month_year(&place, PW_MONTH_VARIED_DAYS, weather, NULL), PW_OK);
      compare_row(&item, weather, job, c);
    }
    pw_batch_hand_free(hand);
    pw_batch_reader_free(reader);
  }
  free(weather);
  free(c);
  free(job);
}

static void every_example_is_taken(void **state)
{
  (void)state;
  pw_batch_reader *reader = example_reader(PW_BATCH_MONTHLY);
  pw_batch_hand *hand = pw_batch_hand_new(reader);
  double u_low = 9.0, u_high = 0.0;
  for (unsigned long i = 0; i < 3000; i++) {
    char text[PW_BATCH_EXAMPLE_MAX];
    size_t n = pw_batch_example(i, text);
    pw_batch_item item;
    pw_batch_figures f;
    const char *id = NULL;
    double away = 0.0;
    pw_err err = {0};
    assert_true(n < PW_BATCH_EXAMPLE_MAX && text[n - 1] == '\n');
    if (pw_batch_read(hand, text, n, 2, &item, &id, &away, &err) != PW_OK ||
        pw_batch_solve(&item, &f, &err) != PW_OK)
      fail_msg("row %lu: %s", i, err.text);
    const double u = f.insert.window.rating.u;
    assert_true(isfinite(f.insert.alone.heating_kwh) && isfinite(f.existing.alone.cooling_kwh));
    assert_true(u < f.existing.window.rating.u);
    u_low = fmin(u_low, u);
    u_high = fmax(u_high, u);
  }
  assert_true(u_high > 1.3 * u_low); /* varied */
  pw_batch_hand_free(hand);
  pw_batch_reader_free(reader);
}

/* A row that cannot be taken says where, and the next one is read as if it had not been. */
static void a_bad_row_does_not_harm_the_next(void **state)
{
  static const struct {
    const char *line;
    int column;
    const char *says;
  } bad[] = {{"a,Phoenix AZ,N,slider,40,40,\"3mm clear", 0, "quote"},
             {"a,Phoenix AZ,N,slider,40,40,3mm klear", 7, "did you mean 'clear'"},
             {"a,Phoenix AZ,N,slider,40", 6, "blank"},
             {"a,Phoenix AZ,N,slider,40,nan,3mm clear", 6, "no length"},
             {"a,Nowhere QQ,N,slider,40,40,3mm clear", 2, "no place"},
             {"a,Phoenix AZ,400,slider,40,40,3mm clear", 3, "no facing"}};
  static const char good[] = "g,Phoenix AZ,N,slider,40,40,3mm clear";
  (void)state;
  pw_batch_reader *reader =
      reader_of("id,place,facing,operator,width,height,glass\n", PW_BATCH_MONTHLY);
  pw_batch_hand *hand = pw_batch_hand_new(reader);
  pw_batch_figures first = {0}, again;
  for (size_t i = 0; i <= sizeof bad / sizeof bad[0]; i++) {
    pw_batch_item item;
    const char *id = NULL;
    double away = 0.0;
    pw_err err = {0};
    if (i > 0) {
      assert_int_equal(pw_batch_read(hand, bad[i - 1].line, strlen(bad[i - 1].line), 77, &item,
                                     &id, &away, &err),
                       PW_E_DATA);
      assert_int_equal(err.line, 77);
      assert_int_equal(err.column, bad[i - 1].column);
      assert_non_null(strstr(err.text, bad[i - 1].says));
    }
    assert_int_equal(pw_batch_read(hand, good, sizeof good - 1, 2, &item, &id, &away, &err),
                     PW_OK);
    assert_string_equal(id, "g");
    assert_int_equal(pw_batch_solve(&item, &again, NULL), PW_OK);
    if (i == 0) first = again;
    same_window(&first.insert.window, &again.insert.window);
  }
  pw_batch_hand_free(hand);
  pw_batch_reader_free(reader);
}

/* Faces that a row does not tell are those of compare and fit: a hinged door's 5 in round its glass (frame_line.c, memory),
 * (36 - 10)(80 - 10) of 36 x 80 in; it had a sash's 1 1/2 in here. */
static void a_hinged_door_has_the_faces_of_a_door(void **state)
{
  (void)state;
  static const char row[] = "D,Albuquerque,S,hinged_door,36 in,80 in,3mm clear";
  pw_batch_reader *reader =
      reader_of("id,place,facing,operator,width,height,glass", PW_BATCH_NO_ENERGY);
  pw_batch_hand *hand = pw_batch_hand_new(reader);
  pw_batch_item item;
  pw_batch_figures f;
  const char *id = NULL;
  double away = 0.0;
  assert_int_equal(pw_batch_read(hand, row, sizeof row - 1, 2, &item, &id, &away, NULL), PW_OK);
  assert_int_equal(pw_batch_solve(&item, &f, NULL), PW_OK);
  pw_assert_near(f.existing.window.rating.glass_area, 26.0 * 70.0 * PW_INCH * PW_INCH, 1e-12,
                 "glass", "hand sum");
  pw_batch_hand_free(hand);
  pw_batch_reader_free(reader);
}

/* More build-ups than the store keeps: the same row comes out the same after it was forgotten. */
static void forgotten_glass_is_made_again(void **state)
{
  (void)state;
  pw_batch_reader *reader =
      reader_of("id,place,facing,operator,width,height,glass\n", PW_BATCH_NO_ENERGY);
  pw_batch_hand *hand = pw_batch_hand_new(reader);
  double u[2] = {0};
  for (int i = 0; i <= 2100; i++) {
    char line[128];
    pw_batch_item item;
    pw_batch_figures f;
    const char *id = NULL;
    double away = 0.0;
    int size = snprintf(line, sizeof line, "a,Phoenix AZ,N,fixed,40,40,%d.%04dmm clear",
                        3 + i % 2100 / 1000, i % 2100);
    assert_int_equal(pw_batch_read(hand, line, (size_t)size, 2, &item, &id, &away, NULL),
                     PW_OK);
    if (i % 2100 != 0) continue;
    assert_int_equal(pw_batch_solve(&item, &f, NULL), PW_OK);
    assert_true(isnan(f.insert.alone.heating_kwh));
    u[i / 2100] = f.insert.window.rating.u;
  }
  assert_true(u[0] > 1.0 && u[0] == u[1]);
  pw_batch_hand_free(hand);
  pw_batch_reader_free(reader);
}

/* The fixed decimals of the output against printf, half ways aside. */
static void numbers_print_as_printf_does(void **state)
{
  (void)state;
  pw_batch_figures f = {.energy = "none"};
  uint64_t seed = 1;
  for (int i = 0; i < 2000; i++) {
    double v = (pw_random_share(&seed) - 0.5) * pow(10.0, i % 7);
    pw_lines lines = {0};
    char want[64];
    f.existing.alone.heating_kwh = v;
    pw_batch_print(&lines, "a", 0.0, &f);
    snprintf(want, sizeof want, ",%.2f,", v);
    if (strcmp(want, ",-0.00,") == 0) strcpy(want, ",0.00,");
    pw_lines_add(&lines, "", 1);
    assert_non_null(strstr(lines.text, want));
    pw_lines_free(&lines);
  }
}

int main(void)
{
  const struct CMUnitTest tests[] = {cmocka_unit_test(equals_the_comparison_to_the_last_bit),
                                     cmocka_unit_test(every_example_is_taken),
                                     cmocka_unit_test(a_bad_row_does_not_harm_the_next),
                                     cmocka_unit_test(a_hinged_door_has_the_faces_of_a_door),
                                     cmocka_unit_test(forgotten_glass_is_made_again),
                                     cmocka_unit_test(numbers_print_as_printf_does)};
  pw_test_begin();
  return cmocka_run_group_tests(tests, NULL, NULL);
}
