/* job/: the folder as a whole, and every way in which a file may be bad. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "job/csv.h"
#include "job/survey.h"
#include "panewright/units.h"

static char folder[64];

static void path_of(const char *name, char path[128])
{
  snprintf(path, 128, "%s/%s", folder, name);
}

static void put(const char *name, const char *text, size_t size)
{
  char path[128];
  path_of(name, path);
  FILE *f = fopen(path, "wb");
  assert_non_null(f);
  assert_int_equal(fwrite(text, 1, size, f), size);
  fclose(f);
}

static const char good_job[] = "item,value,note\njob,T,\nclimate,\"Phoenix, AZ\",\n";
static const char good_packages[] = "package,glass,price_per_area\n"
                                    "good,3mm clear / 12.7mm air / 3mm clear,24 $/ft2\n";
#define HEAD                                                                                   \
  "tag,facing,operator,width_bottom,width_middle,width_top,height_left,height_middle,height_"  \
  "right"
static const char good_openings[] =
    HEAD "\nA1,S,slider,47 1/2,47 1/2,47 1/2,35 1/2,35 1/2,35 1/2\n";

static void put_good(void)
{
  char path[128];
  put("job.csv", good_job, sizeof good_job - 1);
  put("packages.csv", good_packages, sizeof good_packages - 1);
  put("openings.csv", good_openings, sizeof good_openings - 1);
  path_of("frame_lines.csv", path);
  unlink(path);
}

static int make_folder(void **state)
{
  (void)state;
  snprintf(folder, sizeof folder, "/tmp/pw_survey_XXXXXX");
  return mkdtemp(folder) ? 0 : -1;
}

static int drop_folder(void **state)
{
  static const char *const name[] = {"job.csv", "openings.csv", "packages.csv",
                                     "frame_lines.csv"};
  char path[128];
  (void)state;
  for (int i = 0; i < 4; i++) {
    path_of(name[i], path);
    unlink(path);
  }
  return rmdir(folder);
}

static void the_example_is_read_whole(void **state)
{
  (void)state;
  pw_job job;
  pw_notes notes = {0};
  pw_err err = {0};
  if (pw_job_read("examples/harrow_bend", &job, &notes, &err) != PW_OK)
    fail_msg("%s", err.text);
  assert_int_equal(job.n_opening, 11);
  assert_int_equal(job.n_package, 3);
  assert_int_equal(job.house.year_built, 1972);
  pw_assert_near(job.house.floor_area.value, 1620 * PW_FOOT2, 1e-9, "floor area", "job.csv");
  pw_assert_near(job.house.floor_area.spread, 40 * PW_FOOT2, 1e-9, "its spread", "job.csv");
  pw_assert_near(job.house.heating_efficiency.value, 0.80, 1e-12, "80 % AFUE", "job.csv");
  pw_assert_near(job.house.heating_efficiency.spread, 0.04, 1e-12, "+- 4 %", "job.csv");
  pw_assert_near(job.house.cooling_cop.value, 10 * 0.293, 2e-3, "10 SEER",
                 "money.csv seer_to_cop");
  pw_assert_near(job.house.heat_set_c.value, 21.111, 1e-3, "70 F", "F to C");
  pw_assert_near(job.house.price[PW_FUEL_GAS].value, 1.05 / 29.307107, 1e-9, "1.05 $/therm",
                 "terms.md: 1 therm is 29.3 kWh");
  pw_assert_near(job.house.wind_pressure, 25 * 47.880259, 1e-4, "25 psf",
                 "lbf/ft2 by definition");
  const pw_opening *o = &job.opening[0];
  assert_string_equal(o->tag, "L1");
  pw_assert_near(o->facing_deg, 180.0, 0.0, "S", "openings.csv");
  pw_assert_near(o->width[1], 71.4375 * PW_INCH, 1e-15, "71 7/16", "openings.csv");
  pw_assert_near(o->near_walk, 0.0, 0.0, "near_walk", "openings.csv");
  assert_true(isnan(o->near_water));
  assert_int_equal(job.opening[2].lip_stay, 1);
  assert_int_equal(job.opening[3].operator_existing, PW_FLANKER);
  assert_string_equal(job.opening[3].config, "XOX");
  assert_int_equal(job.opening[10].quantity, 2);
  assert_int_equal(job.package[1].glass.n_pane, 2);
  assert_true(isnan(job.package[1].label_u.value));
  assert_true(notes.n > 0 && !notes.lost);
  for (size_t i = 0; i < notes.n; i++)
    assert_int_equal(notes.note[i].kind, PW_NOTE_DEFAULT);
  pw_notes_free(&notes);
  pw_job_free(&job);
  pw_job_free(&job);
}

static pw_status read_folder(pw_notes *notes, pw_err *err)
{
  pw_job job;
  pw_status status = pw_job_read(folder, &job, notes, err);
  pw_job_free(&job);
  return status;
}

static void every_default_is_noted(void **state)
{
  (void)state;
  put_good();
  pw_notes notes = {0};
  pw_err err = {0};
  if (read_folder(&notes, &err) != PW_OK) fail_msg("%s", err.text);
  static const char *const want[] = {
      "openings.csv: quantity not given, taken as 1 (1 row: A1)",
      "openings.csv: existing_glass not given, taken as 3mm clear (single clear) (1 row: A1)",
      "openings.csv: sash_face not given, taken as 1 1/2 in (usual old sight line) (1 row: A1)",
      "openings.csv: sill_height not given, taken as unknown; the cautions ask (1 row: A1)",
      "job.csv: heating_efficiency not given, taken as 0.80 AFUE (existing furnace, table "
      "money, "
      "memory)",
      "packages.csv: spacer not given, taken as metal (the coldest edge) (1 row: good)"};
  for (size_t w = 0; w < sizeof want / sizeof want[0]; w++) {
    int there = 0;
    for (size_t i = 0; i < notes.n && !there; i++) {
      char line[512];
      pw_notes_line(&notes.note[i], line, sizeof line);
      there = strcmp(line, want[w]) == 0;
    }
    if (!there) fail_msg("not noted: %s", want[w]);
  }
  pw_notes_free(&notes);
}

/* Each bad file: one line that holds what is said here, the right code, nothing kept. */
static void bad_files_are_refused_in_one_clear_line(void **state)
{
  (void)state;
  static const struct {
    const char *file, *text;
    pw_status code;
    const char *says;
  } row[] = {
      {"openings.csv", "", PW_E_MISSING, "openings.csv: the file is empty"},
      {"openings.csv", "# only a note\n\n", PW_E_MISSING, "openings.csv: the file is empty"},
      {"openings.csv", HEAD "\n", PW_E_DATA, "openings.csv:1: no measured opening"},
      {"openings.csv", "tag,facing,operator\nA,S,slider\n", PW_E_DATA,
       "no column width_bottom"},
      {"openings.csv", "tga,facing,operator,width_top,height_left\n", PW_E_DATA,
       "openings.csv:1:1: no column is named 'tga'; did you mean tag?"},
      {"openings.csv", "facing,operator,width_top,height_left\n", PW_E_DATA,
       "the column tag is missing"},
      {"openings.csv", "tag,tag,facing,operator,width_top,height_left\n", PW_E_DATA,
       "openings.csv:1:2: column tag stands twice"},
      {"openings.csv", "tag,facing,operator,width_mid,height_left\n", PW_E_DATA,
       "did you mean width_middle?"},
      {"openings.csv", HEAD "\nA,S,slider,47,47,47,35,35,35\nA,S,slider,47,47,47,35,35,35\n",
       PW_E_DATA, "openings.csv:3:1: the tag A stands already in line 2"},
      {"openings.csv", HEAD "\nA,front,slider,47,47,47,35,35,35\n", PW_E_DATA,
       "openings.csv:2:2: A facing: 'front' is no facing"},
      {"openings.csv", HEAD "\nA,S,slidr,47,47,47,35,35,35\n", PW_E_DATA,
       "openings.csv:2:3: A operator: 'slidr' is not known; did you mean slider?"},
      {"openings.csv", HEAD "\nA,S,slider,nan,47,47,35,35,35\n", PW_E_DATA,
       "openings.csv:2:4: A width_bottom: 'nan' is no length"},
      {"openings.csv", HEAD "\nA,S,slider,inf,47,47,35,35,35\n", PW_E_DATA,
       "'inf' is no length"},
      {"openings.csv", HEAD "\nA,S,slider,-47,47,47,35,35,35\n", PW_E_DATA,
       "'-47' is no length"},
      {"openings.csv", HEAD "\nA,S,slider,470,47,47,35,35,35\n", PW_E_DATA,
       "'470' is out of range; want 4 to 240 in"},
      {"openings.csv", HEAD "\nA,S,slider,1,47,47,35,35,35\n", PW_E_DATA, "want 4 to 240 in"},
      {"openings.csv", HEAD ",near_water\nA,S,slider,47,47,47,35,35,35,1201\n", PW_E_DATA,
       "near_water: '1201' is out of range; want 0 to 1200 in"},
      {"openings.csv", HEAD ",fin_width\nA,S,slider,47,47,47,35,35,35,24\n", PW_E_DATA,
       "openings.csv:2:10: A fin_width: two fins of that width are wider than the opening"},
      {"openings.csv", HEAD ",fins_cut\nA,S,slider,47,47,47,35,35,35,3\n", PW_E_DATA,
       "fins_cut: want 0, 1, 2 or cannot"},
      {"openings.csv", HEAD ",config\nA,S,slider,47,47,47,35,35,35,XOXO\n", PW_E_DATA,
       "config: want a letter a lite"},
      {"openings.csv", HEAD ",existing_glass\nA,S,slider,47,47,47,35,35,35,3mm claer\n",
       PW_E_DATA, "openings.csv:2:10: A existing_glass:"},
      {"openings.csv", HEAD "\nA,S,slider,47,47,47,35,35,35,extra,cells\n", PW_E_DATA,
       "openings.csv:2:10: A: more cells than the header's 9"},
      {"openings.csv", HEAD "\nA,S,slider,\"47,47,47,35,35,35\n", PW_E_DATA, "never closed"},
      {"openings.csv", HEAD "\n,S,slider,47,47,47,35,35,35\n", PW_E_DATA,
       "tag: the cell is blank"},
      {"openings.csv", HEAD "\nA,S,slider,7,7,7,7,7,7\n", PW_E_DATA, "leaves no glass"},
      {"openings.csv", HEAD ",shade\nA,S,slider,47,47,47,35,35,35,150 %\n", PW_E_DATA,
       "'150 %' is out of range"},
      {"openings.csv", "tag;facing;operator\nA;S;slider\n", PW_E_DATA,
       "cells are parted by ';'"},
      {"openings.csv", "tag\tfacing\toperator\nA\tS\tslider\n", PW_E_DATA,
       "cells are parted by tabs, want ','"},
      {"openings.csv", HEAD ",room\nA,S,slider,47,47,47,35,35,35,Caf\x8D\n", PW_E_DATA,
       "openings.csv:2:33: byte 33 of the line is no UTF-8"},
      {"openings.csv", "\xFF\xFEt\0a\0", PW_E_DATA, "UTF-16"},
      {"job.csv", "item,value\njob,T\n", PW_E_DATA, "the item climate is missing"},
      {"job.csv", "item,value\nclimate,Phoenix\nclimat,Tucson\n", PW_E_DATA,
       "job.csv:3:1: no item is named 'climat'; did you mean climate?"},
      {"job.csv", "item,value\nclimate,Phoenix\njob,a\njob,b\n", PW_E_DATA,
       "the item job stands twice (first in line 3)"},
      {"job.csv", "item,value\nclimate,Phoenix\nfloor_area,NaN ft2\n", PW_E_DATA,
       "job.csv:3:2: floor_area: 'NaN ft2' is no number"},
      {"job.csv", "item,value\nclimate,Phoenix\nfloor_area,14 .. 12\n", PW_E_DATA,
       "upside down"},
      {"job.csv", "item,value\nclimate,Phoenix\nprice_gas,-1\n", PW_E_DATA, "out of range"},
      {"job.csv", "item,value\nclimate,Phoenix\nprice_gas,dear\n", PW_E_DATA,
       "'dear' is no number; want one in $/therm"},
      {"job.csv", "item,value\nclimate,Phoenix\nstate,xx\n", PW_E_DATA,
       "job.csv:3:2: state: 'xx' is no state; want two letters or the name"},
      {"job.csv", "item,value\nclimate,Phoenix\ncooling_efficiency,13 SEAR\n", PW_E_DATA,
       "the unit is not known here; want SEER, SEER2, EER, COP"},
      {"job.csv", "item,value\nclimate,Phoenix\nheating,heat_pump\nheating_fuel,gas\n",
       PW_E_DATA, "runs on electricity"},
      {"job.csv", "item,value\nclimate,Phoenix\nheat_set,80 F\n", PW_E_DATA,
       "want it above heat_set"},
      {"job.csv", "item,value\nclimate,Phoenix\ninstall_date,2026-02-30\n", PW_E_DATA,
       "is no date"},
      {"packages.csv", "package,glass\na,3mm clear\na,3mm clear\n", PW_E_DATA,
       "stands already in line 2"},
      {"packages.csv", "package,glass,frame_line\na,3mm clear,vynil\n", PW_E_DATA,
       "no frame line is named 'vynil'; did you mean vinyl?"},
      {"packages.csv", "package,glass,label_u\na,3mm clear,28\n", PW_E_DATA, "out of range"},
      {"packages.csv", "package,glass\n", PW_E_DATA, "no package in the file"},
      {"frame_lines.csv", "frame_line,frame_face,sash_face\nx,20 in,3\n", PW_E_DATA,
       "out of range"},
  };
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_err err = {0};
    put_good();
    size_t size = row[i].text[0] == '\xFF' ? 6 : strlen(row[i].text);
    put(row[i].file, row[i].text, size);
    pw_status got = read_folder(NULL, &err);
    if (got != row[i].code || !strstr(err.text, row[i].says))
      fail_msg("%zu: status %d '%s'; want %d with '%s'", i, (int)got, err.text,
               (int)row[i].code, row[i].says);
    assert_null(strchr(err.text, '\n'));
  }
}

/* Either price is a price, each in its unit (by hand: $24 a ft2 is 24 / 0.09290304 a m2); a label wants its certificate; a name
 * stands once; open tubes lose the gas. */
static void packages_are_warned_of_what_they_lack(void **state)
{
  (void)state;
  static const char text[] =
      "package,glass,price_per_opening,price_per_area,label_u,certificate,open_tubes\n"
      "both,3mm clear / 12.7mm argon 90% / 3mm clear,$400,24 $/ft2,,,\n"
      "by_opening,3mm clear / 12.7mm air / 3mm clear,$400,,0.30,CPD-1,\n"
      "by_area,3mm clear / 12.7mm air / 3mm clear,,50 $/m2,0.30,,\n"
      "neither,3mm clear / 12.7mm argon 90% / 3mm clear,,,,,yes\n";
  static const char *const want[] = {"by_area has label values but no certificate number",
                                     "neither: open tubes lose the gas, reckoned with air",
                                     "neither has no price; no payback can be reckoned"};
  pw_job job = {0};
  pw_notes notes = {0};
  pw_err err = {0};
  char path[128];
  size_t found = 0;
  put("packages.csv", text, sizeof text - 1);
  path_of("packages.csv", path);
  if (pw_packages_read(path, &job, &notes, &err) != PW_OK) fail_msg("%s", err.text);
  assert_int_equal(job.n_package, 4);
  pw_assert_near(job.package[0].price_per_opening.value, 400.0, 1e-9, "$400", "as it stands");
  pw_assert_near(job.package[0].price_per_area.value, 24.0 / 0.09290304, 1e-9, "$24 a ft2",
                 "by hand");
  pw_assert_near(job.package[2].price_per_area.value, 50.0, 1e-9, "$50 a m2", "as it stands");
  assert_false(pw_given_is(&job.package[1].price_per_area));
  assert_int_equal(job.package[1].label_u.origin, PW_ORIGIN_LABEL);
  assert_true(job.package[0].glass.gap[0].mix.share[PW_ARGON] > 0.8);
  assert_true(job.package[3].glass.gap[0].mix.share[PW_ARGON] == 0.0);
  for (size_t i = 0; i < notes.n; i++)
    for (size_t k = 0; k < 3; k++)
      found += strstr(notes.note[i].value, want[k]) != NULL;
  assert_int_equal(found, 3);
  for (size_t i = 0; i < notes.n; i++) {
    assert_null(strstr(notes.note[i].value, "both "));
    assert_null(strstr(notes.note[i].value, "by_opening has"));
    assert_null(strstr(notes.note[i].value, "by_area has no price"));
  }
  pw_notes_free(&notes);
  free(job.package);
}

static void missing_files_and_folders_are_told_apart(void **state)
{
  (void)state;
  pw_job job;
  pw_err err = {0};
  assert_int_equal(pw_job_read("/nonexistent/x", &job, NULL, &err), PW_E_MISSING);
  assert_int_equal(job.n_opening, 0);
  assert_int_equal(pw_job_read("README.md", &job, NULL, &err), PW_E_MISSING);
  put_good();
  char path[128];
  path_of("packages.csv", path);
  unlink(path);
  assert_int_equal(read_folder(NULL, &err), PW_E_MISSING);
  assert_non_null(strstr(err.text, "packages.csv"));
}

static void spreadsheets_are_read_as_they_come(void **state)
{
  (void)state;
  static const char text[] =
      "\xEF\xBB\xBF"
      "Tag,Facing,OPERATOR,Width Bottom,width-middle,width_top,height_left,"
      "height_middle,height_right,note,trim,\r\n"
      "\"# a note, quoted by a spreadsheet\",,,,,,,,,,,\r\n"
      "\r\n"
      "A1,270,HS,\"4'-2 3/8\"\"\",50 3/8,1279.5 mm,35 1/2,35 1/2\",35.5,\"kitchen, "
      "north\r\nside\",red,\r\n"
      ",,,,,,,,,,,\r\n"
      "A2,nw,PW,,,,35 1/2,35 1/2,35 1/2,not measured yet,,\r\n";
  put_good();
  put("openings.csv", text, sizeof text - 1);
  pw_job job;
  pw_notes notes = {0};
  pw_err err = {0};
  if (pw_job_read(folder, &job, &notes, &err) != PW_OK) fail_msg("%s", err.text);
  assert_int_equal(job.n_opening, 1);
  pw_assert_near(job.opening[0].width[0], 50.375 * PW_INCH, 1e-15, "quoted feet", "definition");
  pw_assert_near(job.opening[0].width[2], 1.2795, 1e-12, "mm", "definition");
  pw_assert_near(job.opening[0].height[1], 35.5 * PW_INCH, 1e-15, "bare inch mark",
                 "definition");
  pw_assert_near(job.opening[0].facing_deg, 270.0, 0.0, "270", "definition");
  assert_string_equal(job.opening[0].note, "kitchen, north  side");
  assert_int_equal(job.opening[0].line, 4);
  int trim = 0, left_out = 0;
  for (size_t i = 0; i < notes.n; i++) {
    trim |= strstr(notes.note[i].value, "column 'trim' is not known") != NULL;
    left_out |= strstr(notes.note[i].value, "A2 has no width") != NULL;
  }
  assert_true(trim && left_out);
  pw_notes_free(&notes);
  pw_job_free(&job);
}

static void a_line_of_ten_megabytes_is_one_line_of_refusal(void **state)
{
  (void)state;
  size_t size = 10u << 20;
  char *text = malloc(size);
  assert_non_null(text);
  memset(text, 'x', size);
  pw_csv csv;
  pw_err err = {0};
  assert_int_equal(pw_csv_parse("big.csv", text, size, &csv, &err), PW_E_DATA);
  assert_non_null(
      strstr(err.text, "big.csv:1:1: a line of 10485760 bytes, want at most 65536"));
  memset(text, ',', size);
  assert_int_equal(pw_csv_parse("big.csv", text, size, &csv, &err), PW_E_DATA);
  for (size_t i = 0; i < size; i++) /* an open quote over many short lines */
    text[i] = i == 0 ? '"' : i % 100 == 99 ? '\n' : 'x';
  assert_int_equal(pw_csv_parse("big.csv", text, size, &csv, &err), PW_E_DATA);
  assert_non_null(strstr(err.text, "big.csv:1:1: a cell of more than 65536 bytes"));
  free(text);
}

static void a_long_text_is_refused_not_cut(void **state)
{
  (void)state;
  char text[1024];
  char tag[301];
  memset(tag, 'T', 300);
  tag[300] = '\0';
  put_good();
  snprintf(text, sizeof text, HEAD "\n%s,S,slider,47,47,47,35,35,35\n", tag);
  put("openings.csv", text, strlen(text));
  pw_err err = {0};
  assert_int_equal(read_folder(NULL, &err), PW_E_DATA);
  assert_non_null(strstr(err.text, "a text of 300 bytes, want at most 23"));
}

static void efficiencies_carry_their_unit_words(void **state)
{
  (void)state;
  /* Source: trade/money.csv seer_to_cop 0.293, ratio_SEER2_per_SEER 0.95, ratio_HSPF2 0.85. */
  static const struct {
    const char *heating, *kind, *cooling;
    double heat, cool;
  } row[] = {{"80 AFUE", "furnace", "13 SEER", 0.80, 13 * 0.293},
             {"0.80 AFUE", "furnace", "14.3 SEER2", 0.80, 14.3 / 0.95 * 0.293},
             {"80 % AFUE", "boiler", "11.2 EER", 0.80, 11.2 * 0.293},
             {"8.2 HSPF", "heat_pump", "3.5 COP", 8.2 * 0.293, 3.5},
             {"7.5 HSPF2", "heat_pump", "13", 7.5 / 0.85 * 0.293, 13 * 0.293},
             {"", "resistance", "", 1.0, 13 * 0.293}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    char text[400];
    snprintf(text, sizeof text,
             "item,value\nclimate,Phoenix\nheating,%s\nheating_efficiency,%s\ncooling_"
             "efficiency,%s\n",
             row[i].kind, row[i].heating, row[i].cooling);
    put("job.csv", text, strlen(text));
    char path[128];
    path_of("job.csv", path);
    pw_job job = {0};
    pw_err err = {0};
    if (pw_house_read(path, &job, NULL, &err) != PW_OK) fail_msg("%s", err.text);
    pw_assert_near(job.house.heating_efficiency.value, row[i].heat, 2e-3, row[i].heating,
                   "money.csv");
    pw_assert_near(job.house.cooling_cop.value, row[i].cool, 3e-3, row[i].cooling, "money.csv");
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_example_is_read_whole),
      cmocka_unit_test(every_default_is_noted),
      cmocka_unit_test(bad_files_are_refused_in_one_clear_line),
      cmocka_unit_test(packages_are_warned_of_what_they_lack),
      cmocka_unit_test(missing_files_and_folders_are_told_apart),
      cmocka_unit_test(spreadsheets_are_read_as_they_come),
      cmocka_unit_test(a_line_of_ten_megabytes_is_one_line_of_refusal),
      cmocka_unit_test(a_long_text_is_refused_not_cut),
      cmocka_unit_test(efficiencies_carry_their_unit_words),
  };
  return cmocka_run_group_tests(tests, make_folder, drop_folder);
}
