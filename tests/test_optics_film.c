/* Coatings: taken off their tabulated pane and put on any glass. The 6 mm tables were computed
 * elsewhere by thin-film theory and are not used by the kernel, so they test the exchange of the
 * substrate; the angular table tests the angle. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/table.h"
#include "glass/optics_impl.h"

static const char *const coat[] = {"pyr20", "pyr15", "ag1_high", "ag1", "ag2", "ag3"};
enum { N_COAT = sizeof coat / sizeof coat[0] };

static void coated(const char *kind, double mm, const char *out, const char *in,
                   const pw_spectrum *s, pw_layer *layer)
{
  pw_buildup_pane p = {.thickness = mm * 1e-3};
  pw_err err = {0};
  snprintf(p.kind, PW_NAME_MAX, "%s", kind);
  snprintf(p.coating[0], PW_NAME_MAX, "%s", out);
  snprintf(p.coating[1], PW_NAME_MAX, "%s", in);
  if (pw_layer_init(&p, NULL, 0, s, layer, &err) != PW_OK) fail_msg("%s", err.text);
}

static void spectra_meet(const char *name, int mm, double from_nm, double tolerance)
{
  pw_spectrum s;
  pw_layer layer;
  char path[64];
  pw_spectrum_init(&s);
  coated("clear", mm, "", name, &s, &layer);
  snprintf(path, sizeof path, "optics/spectral/pane_%s_clear%d", name, mm);
  const pw_table *table = pw_table_find(path);
  assert_non_null(table);
  for (size_t i = 0; i < PW_GRID; i++) {
    if (s.nm[i] < from_nm) continue; /* the glass hides the film there; solar weight 0.2 % */
    pw_assert_near(layer.normal.t[i], pw_table_number(table, i, 1), tolerance, path, "t");
    pw_assert_near(layer.normal.rf[i], pw_table_number(table, i, 2), tolerance, path,
                   "r glass");
    pw_assert_near(layer.normal.rb[i], pw_table_number(table, i, 3), tolerance, path, "r film");
  }
}

/* 3 mm gives its own table back (five printed digits). */
static void three_mm_comes_back(void **state)
{
  (void)state;
  for (size_t k = 0; k < N_COAT; k++)
    spectra_meet(coat[k], 3, 335.0, 2e-5);
}

/* 6 mm by exchange of the substrate. The tables hold means over the cells of the grid, ours are
 * values at its points: 0.0045 where glass or step change quickly (below 400 and at 800 nm), 0.002
 * beyond, at the kinks of the glass's own table. */
static void six_mm_follows_by_exchange(void **state)
{
  (void)state;
  for (size_t k = 0; k < N_COAT; k++) {
    spectra_meet(coat[k], 6, 335.0, 4.5e-3);
    spectra_meet(coat[k], 6, 810.0, 2e-3);
  }
}

/* Broad-band values of coatings_generic.csv, "computed generic stack" rows, printed to 0.001, full
 * 1 nm spectra: 0.0015. Their hemispherical emissivity is ours at 3 mm. */
static void broad_band_values_meet(void **state)
{
  (void)state;
  const pw_table *t = pw_table_find("optics/coatings_generic");
  pw_spectrum s;
  size_t rows = 0;
  pw_spectrum_init(&s);
  for (size_t r = 0; r < t->n_row; r++)
    for (size_t k = 0; k < N_COAT; k++) {
      if (strcmp(pw_table_text(t, r, 0), coat[k]) != 0) continue;
      pw_layer layer;
      coated("clear", pw_table_number(t, r, 2), "", coat[k], &s, &layer);
      const double *v[] = {layer.normal.t, layer.normal.rf, layer.normal.rb};
      for (int c = 0; c < 6; c++)
        pw_assert_near(pw_spectrum_mean(&s, c < 3 ? PW_W_SOLAR : PW_W_VISIBLE, v[c % 3]),
                       pw_table_number(t, r, 4 + c), 0.0015, coat[k], "coatings_generic.csv");
      pw_assert_near(layer.emit[1], pw_table_number(t, r, 3), 1e-9, coat[k], "emissivity");
      rows++;
    }
  assert_int_equal(rows, 12);
}

static size_t row_of(const pw_table *t, const char *pane, double mm, double degree)
{
  for (size_t r = 0; r < t->n_row; r++)
    if (strcmp(pw_table_text(t, r, 0), pane) == 0 && pw_table_number(t, r, 1) == mm &&
        pw_table_number(t, r, 2) == degree)
      return r;
  fail_msg("no row %s %g %g", pane, mm, degree);
  return 0;
}

/* Angle: 3 mm gives its table back in solar and visible value within the
 * error of the grid, 0.0008; 6 mm, whose table the kernel does not
 * read, follows within 0.002 in transmittance and 0.008 in reflectance to 80 degrees. */
static void angle_follows_the_table(void **state)
{
  (void)state;
  const pw_table *t = pw_table_find("optics/pane_angular");
  pw_spectrum s;
  double worst_t[2] = {0, 0}, worst_r[2] = {0, 0};
  pw_spectrum_init(&s);
  for (size_t k = 0; k < N_COAT; k++)
    for (size_t thick = 0; thick < 2; thick++)
      for (int a = 0; a < 9; a++) {
        double mm = thick ? 6.0 : 3.0;
        pw_layer layer;
        pw_sheet sheet;
        coated("clear", mm, "", coat[k], &s, &layer);
        pw_layer_at(&layer, &s, cos(10.0 * a * 3.14159265358979 / 180.0), PW_POL_MEAN, &sheet);
        size_t r = row_of(t, coat[k], mm, 10.0 * a);
        const double *v[] = {sheet.t, sheet.rf, sheet.rb};
        for (int c = 0; c < 6; c++) {
          double off = pw_spectrum_mean(&s, c < 3 ? PW_W_SOLAR : PW_W_VISIBLE, v[c % 3]) -
                       pw_table_number(t, r, 3 + c);
          double *worst = c % 3 == 0 ? worst_t : worst_r;
          if (fabs(off) > worst[thick]) worst[thick] = fabs(off);
        }
      }
  print_message("coated by angle: 3 mm t %.4f r %.4f; 6 mm t %.4f r %.4f\n", worst_t[0],
                worst_r[0], worst_t[1], worst_r[1]);
  assert_true(worst_t[0] <= 8e-4 && worst_r[0] <= 8e-4);
  assert_true(worst_t[1] <= 0.002 && worst_r[1] <= 0.008);
}

/* The film by itself takes energy, never gives it. */
static void films_are_passive(void **state)
{
  (void)state;
  pw_spectrum s;
  pw_spectrum_init(&s);
  for (size_t k = 0; k < N_COAT; k++) {
    pw_film of;
    pw_film_bare film;
    assert_int_equal(pw_film_find(coat[k], &s, &of, NULL), PW_OK);
    pw_film_peel(&of.pane, &of.angle, &s, 1.0, &film);
    for (size_t i = 0; i < PW_GRID; i++) {
      assert_true(film.t[0][i] == film.t[1][i]); /* straight on there is no s and p */
      assert_true(film.t[0][i] >= 0.0 && film.r_glass[i] >= 0.0 && film.r_air[i] >= 0.0);
      assert_true(film.t[0][i] + film.r_air[i] <= 1.0 + 1e-9);
      assert_true(film.t[0][i] + film.r_glass[i] <= 1.0 + 2e-3); /* printed rounding over a^2 */
    }
  }
}

/* Turning the pane round swaps the reflectances and nothing else. */
static void a_turned_pane_is_mirrored(void **state)
{
  (void)state;
  pw_spectrum s;
  pw_layer a, b;
  pw_sheet x, y;
  pw_spectrum_init(&s);
  coated("bronze", 5.0, "ag1", "pyr20", &s, &a);
  coated("bronze", 5.0, "pyr20", "ag1", &s, &b);
  for (int angle = 0; angle < 9; angle++) {
    double c = cos(0.17 * angle);
    pw_layer_at(&a, &s, c, PW_POL_MEAN, &x);
    pw_layer_at(&b, &s, c, PW_POL_MEAN, &y);
    for (size_t i = 0; i < PW_GRID; i++) {
      pw_assert_near(x.t[i], y.t[i], 1e-15, "t", "reciprocity");
      pw_assert_near(x.rf[i], y.rb[i], 1e-15, "r", "mirror");
      pw_assert_near(x.rb[i], y.rf[i], 1e-15, "r", "mirror");
    }
  }
  assert_true(a.emit[0] == b.emit[1] && a.emit[1] == b.emit[0]);
}

static void unknown_coating_is_refused(void **state)
{
  (void)state;
  pw_spectrum s;
  pw_layer layer;
  pw_err err = {0};
  pw_spectrum_init(&s);
  pw_buildup_pane p = {.thickness = 3e-3, .kind = "clear", .coating = {"", "agg2"}};
  assert_int_equal(pw_layer_init(&p, NULL, 0, &s, &layer, &err), PW_E_DATA);
  assert_string_equal(err.field, "coating");
  assert_non_null(strstr(err.text, "ag2"));
  pw_buildup_pane q = {.thickness = 6e-3, .kind = "wired", .coating = {"ag2", ""}};
  assert_int_equal(pw_layer_init(&q, NULL, 0, &s, &layer, &err), PW_E_DATA);
  assert_non_null(strstr(err.text, "wired"));
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(three_mm_comes_back),
      cmocka_unit_test(six_mm_follows_by_exchange),
      cmocka_unit_test(broad_band_values_meet),
      cmocka_unit_test(angle_follows_the_table),
      cmocka_unit_test(films_are_passive),
      cmocka_unit_test(a_turned_pane_is_mirrored),
      cmocka_unit_test(unknown_coating_is_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
