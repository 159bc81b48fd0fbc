/* climate/place, place_find: which station a text means, and how far it is. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/state.h"
#include "base/table.h"
#include "climate/place_find.h"
#include "panewright/units.h"

/* Stations of the texts: reference/climate2 (computed there from positions of ZIP codes and stations). */
static void texts_find_their_station(void **state)
{
  (void)state;
  static const struct {
    const char *text, *station, *said, *zone;
    double km;
    int ca_zone;
  } row[] = {
      {"Phoenix, AZ", "722780", "", "2B", 0, 0},
      {"phoenix, arizona", "722780", "", "2B", 0, 0},
      {"Palm Springs, CA", "722868", "", "3B", 0, 15},
      {"palm springs California", "722868", "", "3B", 0, 15},
      {"St George UT", "724754", "", "3B", 0, 0},
      {"Saint George, Utah", "724754", "", "3B", 0, 0},
      {"92262", "722868", "ZIP 92262", "3B", 6, 15},
      {"92262-1234", "722868", "ZIP 92262", "3B", 6, 15},
      {"ZIP 92262", "722868", "ZIP 92262", "3B", 6, 15},
      {"85024", "722784", "ZIP 85024", "2B", 4, 0},
      {"92651", "722977", "ZIP 92651", "3B", 15, 6},
      {"Laguna Beach, CA", "722977", "Laguna Beach, CA (ZIP 92651)", "3B", 15, 6},
      {"laguna beach, california", "722977", "Laguna Beach, CA (ZIP 92651)", "3B", 15, 6},
      {"Rancho Cucamonga, CA", "722869", "Rancho Cucamonga, CA (ZIP 91701)", "3B", 25, 10},
      {"Lake Havasu City, AZ", "723805", "Lake Havasu City, AZ (ZIP 86403)", "3B", 41, 0},
      {"Mt. Shasta, CA", "725955", "Mount Shasta, CA (ZIP 96067)", "5B", 53, 16},
      {"CA zone 12", "724830", "California zone 12", "3B", 0, 12},
      {"climate zone 1, California", "725945", "California zone 1", "4C", 0, 1},
      {"722784", "722784", "", "2B", 0, 0},
      {"portland oregon", "726980", "", "4C", 0, 0},
  };
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_place_hit hit;
    pw_place place;
    pw_err err = {0};
    if (pw_place_look(row[i].text, &hit, &err) != PW_OK)
      fail_msg("%s: %s", row[i].text, err.text);
    assert_int_equal(pw_place_get(hit.index, &place, NULL), PW_OK);
    if (strcmp(place.station, row[i].station) != 0 || strcmp(hit.said, row[i].said) != 0 ||
        strcmp(hit.zone, row[i].zone) != 0 || hit.ca_zone != row[i].ca_zone)
      fail_msg("%s: %s %s '%s' %s %d", row[i].text, place.station, place.site.name, hit.said,
               hit.zone, hit.ca_zone);
    pw_assert_near(hit.km, row[i].km, 0.5, row[i].text, "climate2/zip5.csv");
  }
}

static void what_is_no_place_is_refused_with_a_way_on(void **state)
{
  (void)state;
  static const struct {
    const char *text, *says;
  } row[] = {
      {"", "want a ZIP code, a town with its state"},
      {"Atlantic Cty", "did you mean ATLANTIC CITY"},
      {"portland", "may be PORTLAND"},
      {"Laguna, CA",
       "may be Laguna Beach CA; Laguna Hills CA; Laguna Niguel CA; Laguna Woods CA"},
      {"Lakeside", "may lie in AZ, OR and more; add the state"},
      {"Charlotesville", "did you mean CHARLOTTESVILLE"},
      {"00601", "over 400 km from every built-in place"},
      {"95,0", "latitude 95"},
      {"CA zone 17", "no place 'CA zone 17'"},
  };
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_place_hit hit = {.km = -7.0};
    pw_err err = {0};
    assert_int_not_equal(pw_place_look(row[i].text, &hit, &err), PW_OK);
    if (!strstr(err.text, row[i].says)) fail_msg("%s: %s", row[i].text, err.text);
    pw_assert_near(hit.km, -7.0, 0.0, row[i].text, "untouched");
  }
}

/* A station is found by its number wherever it stands in the list; a state written out, of one word or more and with commas as people put them, is
 * its code. */
static void numbers_and_states_written_out(void **state)
{
  (void)state;
  static const struct {
    const char *out, *code;
  } row[] = {{"Albuquerque, New Mexico", "Albuquerque, NM"},
             {"Albuquerque New Mexico", "Albuquerque, NM"},
             {"Charleston, West Virginia", "Charleston, WV"},
             {"Charleston,West Virginia", "Charleston, WV"},
             {"Charleston , west virginia ,", "Charleston, WV"},
             {"Rapid City, South Dakota", "Rapid City, SD"},
             {"Boise Idaho", "Boise, ID"}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_place_hit a, b;
    pw_err err = {0};
    if (pw_place_look(row[i].code, &b, &err) != PW_OK)
      fail_msg("%s: %s", row[i].code, err.text);
    if (pw_place_look(row[i].out, &a, &err) != PW_OK) fail_msg("%s: %s", row[i].out, err.text);
    if (a.index != b.index) fail_msg("%s is not %s", row[i].out, row[i].code);
  }
  for (size_t i = 0; i < pw_place_count(); i += i < 3 || i > 1005 ? 1 : 91) {
    pw_place p;
    pw_place_hit hit;
    assert_int_equal(pw_place_get(i, &p, NULL), PW_OK);
    assert_int_equal(pw_place_look(p.station, &hit, NULL), PW_OK);
    assert_int_equal(hit.index, i);
    pw_assert_near(hit.km, 0.0, 0.0, p.station, "itself");
  }
}

/* The ZIP table stands in order, as the search by halves wants it, and finds each of its rows. */
static void every_zip_code_is_found(void **state)
{
  (void)state;
  const pw_table *t = pw_table_find("climate2/zip5");
  int zip = pw_table_column(t, "zip"), usaf = pw_table_column(t, "usaf"),
      km = pw_table_column(t, "km");
  size_t found = 0;
  assert_int_equal(t->n_row, 33791);
  for (size_t i = 0; i < t->n_row; i++) {
    const char *code = pw_table_text(t, i, zip);
    if (i > 0) assert_true(strcmp(pw_table_text(t, i - 1, zip), code) < 0);
    if (i % 37 != 0) continue;
    pw_place_hit hit;
    pw_place place;
    const char *station = pw_table_text(t, i, usaf);
    pw_status status = pw_place_look(code, &hit, NULL);
    assert_int_equal(status == PW_OK, station[0] != '\0');
    if (status != PW_OK) continue;
    assert_int_equal(pw_place_get(hit.index, &place, NULL), PW_OK);
    assert_string_equal(place.station, station);
    pw_assert_near(hit.km, pw_table_number(t, i, km), 0.0, code, "zip5.csv");
    found++;
  }
  assert_true(found > 900);
}

/* A compact row says what its CSV says: Twentynine Palms, January (monthly_climate of TMY3, computed). */
static void compact_months_come_back_whole(void **state)
{
  (void)state;
  pw_place_hit hit;
  pw_place p;
  assert_int_equal(pw_place_look("690150", &hit, NULL), PW_OK);
  assert_int_equal(pw_place_get(hit.index, &p, NULL), PW_OK);
  pw_assert_near(p.month[0].t_mean, 9.80, 1e-12, "mean", "monthly_more.csv");
  pw_assert_near(p.month[0].t_day_max, 17.26, 1e-12, "day max", "monthly_more.csv");
  pw_assert_near(p.month[0].t_dew, -1.43, 1e-12, "dew point", "monthly_more.csv");
  pw_assert_near(p.month[0].ghi, 3.344, 1e-12, "global", "monthly_more.csv");
  pw_assert_near(p.month[0].hdd65, 444.0, 1e-12, "degree days", "monthly_more.csv");
  pw_assert_near(p.site.elevation, 626.0, 0.0, "elevation", "places.csv");
  pw_assert_near(p.site.longitude_deg, -116.167, 0.0, "longitude", "places.csv");
}

static void states_by_code_and_name(void **state)
{
  (void)state;
  const char *code = "?", *near = NULL;
  assert_true(pw_state_find("new mexico", &code, NULL));
  assert_string_equal(code, "NM");
  assert_true(pw_state_find("D.C.", &code, NULL));
  assert_string_equal(code, "DC");
  assert_false(pw_state_find("Californa", &code, &near));
  assert_string_equal(near, "California");
  assert_string_equal(code, "DC");
}

/* A town with its state is never taken to another state by a word of a station's name: "Oakland, AR" once was Oakland
 * Metropolitan ARPT. The towns are those of reference/climate2/towns.csv; a station of another state may be the nearest,
 * and then the town is said. */
static void a_town_stays_in_its_state(void **state)
{
  (void)state;
  const pw_table *towns = pw_table_find("climate2/towns");
  int town = pw_table_column(towns, "town"), code = pw_table_column(towns, "state");
  size_t n = 0;
  for (size_t i = 0; i < towns->n_row; i += 29) {
    char text[120];
    pw_place_hit hit;
    pw_place place;
    snprintf(text, sizeof text, "%s, %s", pw_table_text(towns, i, town),
             pw_table_text(towns, i, code));
    if (pw_place_look(text, &hit, NULL) != PW_OK || hit.said[0]) continue;
    n++;
    assert_int_equal(pw_place_get(hit.index, &place, NULL), PW_OK);
    if (strcmp(place.state, pw_table_text(towns, i, code)) != 0)
      fail_msg("%s went to %s", text, place.site.name);
  }
  assert_true(n > 10); /* towns that have a station of their name */
  pw_place_hit hit;
  assert_int_equal(pw_place_look("Oakland, AR", &hit, NULL), PW_OK);
  assert_string_equal(hit.said, "Oakland, AR (ZIP 72661)");
}

/* What is offered is what may be written: each choice is looked up as itself, towns of reference/climate2/towns.csv
 * and ZIP codes of zip5.csv, and an offer written out offers itself first. */
static void what_a_text_may_become_can_be_written(void **state)
{
  (void)state;
  enum { MOST = 8 };
  static const char *const text[] = {"spring", "Palm", "laguna b",    "926",
                                     "92262",  "san",  "Oakland, CA", "st geo",
                                     "8502",   "a",    "Phoenix"};
  for (size_t k = 0; k < sizeof text / sizeof *text; k++) {
    pw_place_choice c[MOST], again[MOST];
    size_t n = pw_place_like(text[k], c, MOST);
    assert_true(n > 0 && n <= MOST);
    for (size_t i = 0; i < n; i++) {
      pw_place_hit hit;
      assert_int_equal(pw_place_look(c[i].write, &hit, NULL), PW_OK);
      assert_int_equal(hit.index, c[i].hit.index);
      assert_true(pw_place_like(c[i].write, again, MOST) > 0);
      assert_string_equal(again[0].write, c[i].write);
      for (size_t j = 0; j < i; j++)
        assert_string_not_equal(c[j].write, c[i].write);
    }
    assert_int_equal(pw_place_like(text[k], again, 1), 1); /* no more than asked for */
  }
  pw_place_choice c[MOST];
  assert_true(pw_place_like("laguna b", c, MOST) > 0);
  assert_string_equal(c[0].write,
                      "Laguna Beach, CA"); /* one town of that beginning in the table */
  assert_int_equal(pw_place_like("9226", c, MOST), 6); /* grep -c '^9226' zip5.csv gives 6 */
  static const char *const none[] = {"", " ", ",", "92", "zzqq", "00000000", "-"};
  for (size_t k = 0; k < sizeof none / sizeof *none; k++)
    assert_int_equal(pw_place_like(none[k], c, MOST), 0);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(texts_find_their_station),
      cmocka_unit_test(what_is_no_place_is_refused_with_a_way_on),
      cmocka_unit_test(numbers_and_states_written_out),
      cmocka_unit_test(every_zip_code_is_found),
      cmocka_unit_test(compact_months_come_back_whole),
      cmocka_unit_test(states_by_code_and_name),
      cmocka_unit_test(a_town_stays_in_its_state),
      cmocka_unit_test(what_a_text_may_become_can_be_written),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
