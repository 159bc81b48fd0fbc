/* Houses in a file: every case of examples/std140 is whole, and what is wrong is told in one line. */
#include "support.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "job/house_file.h"
#include "job/text_file.h"

static void every_case_is_a_house(void **state)
{
  pw_house_file *f = *state;
  size_t n = 0;
  for (unsigned i = 0; i < pw_text_file_count; i++) {
    char name[64];
    if (sscanf(pw_text_files[i].path, "examples/std140/%31[^.].csv", name) != 1) continue;
    char full[80];
    pw_err err = {0};
    snprintf(full, sizeof full, "std140/%s", name);
    if (pw_house_file_builtin(full, f, &err) != PW_OK) fail_msg("%s: %s", name, err.text);
    assert_int_equal(f->house.n_part, 6);
    assert_true(f->n_memory > 20 && f->n_read > 20);
    double wall = 0.0, glass = 0.0;
    for (size_t p = 0; p < f->house.n_part; p++)
      if (f->house.part[p].tilt_deg == 90.0) wall += f->house.part[p].area;
    for (size_t w = 0; w < f->n_window; w++)
      glass += f->window[w].area_glass * (f->window[w].count > 0 ? f->window[w].count : 1);
    pw_assert_near(glass, 12.0, 1e-9, name, "STD140.md: 12 m2 of glass");
    pw_assert_near(wall + glass, 2.7 * 28.0, 1e-9, name, "STD140.md: box 8 x 6 x 2.7 m");
    n++;
  }
  assert_int_equal(n, 26);
}

static void later_rows_replace_the_base(void **state)
{
  pw_house_file *f = *state;
  assert_int_equal(pw_house_file_builtin("std140/640", f, NULL), PW_OK);
  assert_true(f->house.heat_set_c[23] == 10.0 && f->house.heat_set_c[0] == 10.0 &&
              f->house.heat_set_c[6] == 10.0 && f->house.heat_set_c[7] == 15.0 &&
              f->house.heat_set_c[8] == 20.0 && f->house.heat_set_c[22] == 20.0);
  assert_int_equal(pw_house_file_builtin("std140/950FF", f, NULL), PW_OK);
  assert_true(isnan(f->house.heat_set_c[3]) && isnan(f->house.cool_set_c[12]));
  pw_assert_near(f->house.vent_changes[18] * 129.6, 1703.16, 0.01, "vent", "1703.16 m3/h");
  assert_true(f->house.vent_changes[12] == 0.0);
  pw_assert_near(f->house.part[0].layers.layer[2].density, 1400.0, 1e-9, "block", "900.csv");
}

/* A file with one bad row after a good start, read from disk. */
static void refuse(pw_house_file *f, const char *row, const char *said)
{
  char folder[] = "/tmp/pw_house_XXXXXX", name[64];
  assert_non_null(mkdtemp(folder));
  snprintf(name, sizeof name, "%s/house.csv", folder);
  FILE *out = fopen(name, "w");
  assert_non_null(out);
  fprintf(out,
          "item,of,value,how_known,note\n"
          "floor_area_m2,,50,read,\nvolume_m3,,120,read,\n"
          "conductivity_w_mk,board,0.16,read,\npart,wall,air,read,\narea_m2,wall,40,read,\n"
          "layers,wall,board 12 mm,read,\n%s\n",
          row);
  fclose(out);
  pw_err err = {0};
  pw_status s = pw_house_file_read(name, f, &err);
  unlink(name);
  rmdir(folder);
  if (!said) {
    if (s != PW_OK) fail_msg("%s", err.text);
    return;
  }
  assert_int_not_equal(s, PW_OK);
  const char *at = strstr(err.text, said);
  if (!at || isdigit((unsigned char)at[strlen(said)]) || at[strlen(said)] == '.')
    fail_msg("said '%s', want '%s' in it", err.text, said);
  assert_null(strchr(err.text, '\n'));
}

static void tells_what_is_wrong(void **state)
{
  pw_house_file *f = *state;
  refuse(f, "", NULL);
  refuse(f, "arae_m2,wall,3,read,", "did you mean area_m2");
  refuse(f, "area_m2,wall,-3,read,", "wall area_m2: '-3' is out of range; want 0 to 100000");
  refuse(f, "area_m2,wall,nan,read,", "'nan'");
  refuse(f, "beam_falls_here,wall,1,read,", NULL);
  refuse(f, "beam_falls_here,wall,2,read,", "want a whole number from 0 to 1");
  refuse(f, "beam_falls_here,wall,0.5,read,", "'0.5' is not taken; want a whole number");
  refuse(f, "area_m2,roof,3,read,", "no part 'roof' declared");
  refuse(f, "part,roof,sky,read,", "air, ground, room");
  refuse(f, "layers,wall,bord 12 mm,read,", "no material 'bord'");
  refuse(f, "layers,wall,board 12 in,read,", "such as 12 mm");
  refuse(f, "heat_set_c,25-3,20,read,", "hours of the day");
  refuse(f, "heat_set_c,4294967319-7,20,read,", "hours of the day"); /* 23 in 32 bits */
  refuse(f, "roughness,wall,velvet,read,", "medium, stucco");
  refuse(f, "window,w1,pair,read,", "no glass 'pair'");
  refuse(f, "base,,nowhere,read,", "nowhere.csv");
  pw_err err = {0};
  assert_int_equal(pw_house_file_builtin("std140/601", f, &err), PW_E_MISSING);
  assert_int_equal(pw_house_file_read("/no/such/house.csv", f, &err), PW_E_MISSING);
}

static int set_up(void **state)
{
  *state = calloc(1, sizeof(pw_house_file));
  return *state ? 0 : 1;
}

static int tear_down(void **state)
{
  free(*state);
  return 0;
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {cmocka_unit_test(every_case_is_a_house),
                                     cmocka_unit_test(later_rows_replace_the_base),
                                     cmocka_unit_test(tells_what_is_wrong)};
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
