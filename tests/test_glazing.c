/* A build-up made into a glazing: panes by name, broad-band and measured panes, SHGC. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/table.h"
#include "glass/by_angle.h"
#include "glass/optics.h"
#include "panewright/glazing.h"
#include "panewright/units.h"

static pw_glazing built(const char *text)
{
  pw_buildup b;
  pw_glazing g;
  pw_err err = {0};
  if (pw_buildup_parse(text, &b, &err) != PW_OK) fail_msg("%s: %s", text, err.text);
  if (pw_glazing_build(&b, &g, &err) != PW_OK) fail_msg("%s: %s", text, err.text);
  return g;
}

/* reference/optics/METHODS.md 5: share N of a unit source in a pane that leaves for the room by the
 * series of resistances, N = R(outdoors to the pane) / R(all): a single clear pane about 0.28, the
 * double 0.15 to 0.17 and 0.55 to 0.60, a low-e double 0.06 to 0.11 and 0.71 to 0.83. */
static double inward(const pw_glazing *g, size_t pane)
{
  pw_unit_result r;
  double absorbed[PW_PANES_MAX] = {0}, before = 0.0, all = 0.0;
  for (size_t i = 0; i < g->light.n_pane; i++)
    absorbed[i] = g->light.absorbed[i][0];
  assert_int_equal(pw_unit_solve(&g->unit, &pw_env_summer, absorbed, &r, NULL), PW_OK);
  all = 1.0 / (r.h_c_out + r.h_r_out);
  for (size_t i = 0; i < g->unit.n_pane; i++) {
    if (i == pane) before = all;
    all += i + 1 < g->unit.n_pane ? 1.0 / r.gap[i].conductance : 1.0 / (r.h_c_in + r.h_r_in);
  }
  return before / all;
}

static void inward_flow_is_as_published(void **state)
{
  (void)state;
  pw_glazing one = built("3mm clear"), two = built("3mm clear / 12.7mm air / 3mm clear");
  pw_glazing low = built("3mm clear coat ag1@2 / 12.7mm air / 3mm clear");
  pw_assert_near(inward(&one, 0), 0.28, 0.015, "single", "METHODS.md 5");
  pw_assert_near(inward(&two, 0), 0.16, 0.015, "double, outer", "METHODS.md 5");
  pw_assert_near(inward(&two, 1), 0.575, 0.03, "double, inner", "METHODS.md 5");
  pw_assert_near(inward(&low, 0), 0.085, 0.025, "low-e double, outer", "METHODS.md 5");
  pw_assert_near(inward(&low, 1), 0.77, 0.06, "low-e double, inner", "METHODS.md 5");
}

/* A film on surface 2 keeps heat out; the same on surface 3 gives up to 0.10 more (METHODS.md 5). */
static void surface_matters_for_heat_not_for_light(void **state)
{
  (void)state;
  pw_glazing two = built("3mm clear coat ag2@2 / 12.7mm argon / 3mm clear");
  pw_glazing three = built("3mm clear / 12.7mm argon / 3mm clear coat ag2@3");
  double more = three.shgc[0] - two.shgc[0];
  assert_true(more > 0.02 && more < 0.12);
  pw_assert_near(two.light.tau_v[0], three.light.tau_v[0], 1e-12, "light", "reciprocity");
  pw_assert_near(two.light.rho_e_out[3], three.light.rho_e_in[3], 1e-12, "r", "mirror");
  pw_assert_near(two.u_winter, three.u_winter, 0.02, "U", "symmetry of the gap");
}

static void stated_emissivity_outranks_the_coating(void **state)
{
  (void)state;
  pw_glazing coat = built("3mm clear / 12.7mm air / 3mm clear coat ag1@3");
  pw_glazing both = built("3mm clear / 12.7mm air / 3mm clear coat ag1@3 emit 0.5@3");
  pw_glazing emit = built("3mm clear / 12.7mm air / 3mm clear emit 0.066@3");
  assert_true(both.unit.pane[1].emit[0] == 0.5 && coat.unit.pane[1].emit[0] == 0.066);
  pw_assert_near(both.light.tau_e[0], coat.light.tau_e[0], 0.0, "t", "same coating");
  assert_true(both.u_winter > coat.u_winter);
  pw_assert_near(emit.u_winter, coat.u_winter, 1e-12, "U", "same emissivity");
  assert_true(emit.light.tau_e[0] > coat.light.tau_e[0] + 0.1); /* light of uncoated glass */
}

/* Shares close at every angle, and every value is a share. */
static void table_is_sound(void **state)
{
  (void)state;
  static const char *const text[] = {
      "3mm clear", "6mm green coat pyr15@1", "3mm clear coat ag3@2 / 12mm argon / 3mm clear",
      "3mm bronze / 8mm krypton / 2mm lowiron coat ag2@3 coat ag1@4 / 8mm krypton / 4mm float",
      "6.4mm laminated / 10mm air / 4mm frosted / 10mm air / 3mm obscure / 10mm air / 3mm "
      "gray"};
  for (size_t k = 0; k < sizeof text / sizeof text[0]; k++) {
    pw_glazing g = built(text[k]);
    const pw_light *l = &g.light;
    for (size_t a = 0; a < PW_ANGLES; a++) {
      double sum = l->tau_e[a] + l->rho_e_out[a];
      for (size_t i = 0; i < l->n_pane; i++)
        sum += l->absorbed[i][a];
      pw_assert_near(sum, 1.0, 1e-12, text[k], "conservation");
      assert_true(l->tau_v[a] >= 0.0 && l->tau_v[a] + l->rho_v_out[a] <= 1.0 + 1e-12);
      assert_true(g.shgc[a] >= l->tau_e[a] && g.shgc[a] < 1.0);
    }
    assert_true(g.shgc[9] == 0.0 && l->rho_e_out[9] == 1.0);
    assert_true(l->t_damage > 0.0 && l->t_damage < 1.0);
  }
}

/* Broad-band values come back, through two unlike bands. */
static void bands_give_their_values_back(void **state)
{
  (void)state;
  const pw_table *t = pw_table_find("panes");
  int mm = pw_table_column(t, "thickness_mm"), sol = pw_table_column(t, "sun_through");
  int vis = pw_table_column(t, "light_through"), rv = pw_table_column(t, "light_back_out");
  size_t rows = 0;
  for (size_t r = 0; r < t->n_row; r++) {
    if (pw_table_text(t, r, pw_table_column(t, "nk"))[0]) continue;
    char text[64];
    snprintf(text, sizeof text, "%gmm %s", pw_table_number(t, r, mm), pw_table_text(t, r, 0));
    pw_glazing g = built(text);
    pw_assert_near(g.light.tau_e[0], pw_table_number(t, r, sol), 1e-3, text, "panes.csv");
    pw_assert_near(g.light.tau_v[0], pw_table_number(t, r, vis), 1e-3, text, "panes.csv");
    pw_assert_near(g.light.rho_v_out[0], pw_table_number(t, r, rv), 1e-3, text, "panes.csv");
    rows++;
  }
  assert_true(rows >= 12);
}

static void contradicting_bands_are_refused(void **state)
{
  (void)state;
  pw_spectrum s;
  pw_err err = {0};
  pw_spectrum_init(&s);
  pw_measured m = {.name = "odd"};
  pw_bands too_much = {0.9, 0.08, 0.08, 0.3, 0.08, 0.08, 0.1};
  assert_int_equal(pw_measured_from_bands(&too_much, &s, &m, &err), PW_E_DOMAIN);
  assert_non_null(strstr(err.text, "contradict"));
  pw_bands nan = {(double)NAN, 0.08, 0.08, 0.3, 0.08, 0.08, 0.1};
  assert_int_equal(pw_measured_from_bands(&nan, &s, &m, &err), PW_E_DOMAIN);
  pw_bands bright = {0.5, 0.05, 0.05, 0.95, 0.2, 0.05, 0.1};
  pw_layer layer;
  assert_int_equal(pw_measured_from_bands(&bright, &s, &m, &err), PW_E_DOMAIN);
  for (size_t i = 0; i < PW_LANE; i++) {
    m.normal.t[i] = 0.6;
    m.normal.rf[i] = m.normal.rb[i] = i == 30 ? 0.5 : 0.1;
  }
  assert_int_equal(pw_layer_measured(&m, &s, &layer, &err), PW_E_DOMAIN);
  assert_non_null(strstr(err.text, "500 nm"));
}

/* A measured pane made from a slab's own spectra behaves as the slab at every angle. */
static void measured_slab_is_the_slab(void **state)
{
  (void)state;
  pw_spectrum s;
  pw_layer slab, twin;
  pw_measured m = {.name = "twin"};
  pw_light a, b;
  pw_spectrum_init(&s);
  pw_buildup_pane p = {.thickness = 6e-3, .kind = "bronze"};
  assert_int_equal(pw_layer_init(&p, NULL, 0, &s, &slab, NULL), PW_OK);
  m.normal = slab.normal;
  snprintf(p.kind, PW_NAME_MAX, "twin");
  assert_int_equal(pw_layer_init(&p, &m, 1, &s, &twin, NULL), PW_OK);
  const pw_layer *la[] = {&slab}, *lb[] = {&twin};
  assert_int_equal(pw_light_build(la, 1, &s, PW_POL_MEAN, &a, NULL), PW_OK);
  assert_int_equal(pw_light_build(lb, 1, &s, PW_POL_MEAN, &b, NULL), PW_OK);
  for (size_t i = 0; i < PW_ANGLES; i++) {
    pw_assert_near(b.tau_e[i], a.tau_e[i], 2e-4, "t", "the slab itself");
    pw_assert_near(b.rho_e_out[i], a.rho_e_out[i], 2e-4, "r", "the slab itself");
  }
}

/* A measured coated pane with its class follows the tabulated pane by angle (its base is a 4 mm
 * slab instead of 3 mm, hence 0.01). */
static void measured_coated_pane_takes_its_class(void **state)
{
  (void)state;
  pw_spectrum s;
  pw_layer known, twin;
  pw_light a, b, bare;
  pw_spectrum_init(&s);
  pw_buildup_pane p = {.thickness = 3e-3, .kind = "clear", .coating = {"", "ag2"}};
  assert_int_equal(pw_layer_init(&p, NULL, 0, &s, &known, NULL), PW_OK);
  pw_measured m = {.name = "twin", .emit = {0.0, 0.04}, .angular = "ag2"};
  m.normal = known.normal;
  pw_buildup_pane q = {.thickness = 3e-3, .kind = "twin"};
  assert_int_equal(pw_layer_init(&q, &m, 1, &s, &twin, NULL), PW_OK);
  const pw_layer *la[] = {&known}, *lb[] = {&twin};
  assert_int_equal(pw_light_build(la, 1, &s, PW_POL_MEAN, &a, NULL), PW_OK);
  assert_int_equal(pw_light_build(lb, 1, &s, PW_POL_MEAN, &b, NULL), PW_OK);
  m.angular[0] = '\0';
  assert_int_equal(pw_layer_init(&q, &m, 1, &s, &twin, NULL), PW_OK);
  assert_int_equal(pw_light_build(lb, 1, &s, PW_POL_MEAN, &bare, NULL), PW_OK);
  for (size_t i = 0; i < 9; i++) {
    pw_assert_near(b.tau_e[i], a.tau_e[i], 0.01, "t", "ag2 on 3 mm");
    pw_assert_near(b.rho_e_in[i], a.rho_e_in[i], 0.02, "r film", "ag2 on 3 mm");
    pw_assert_near(bare.tau_e[i], a.tau_e[i], 0.05, "t without a class", "METHODS.md 2");
  }
  snprintf(m.angular, PW_NAME_MAX, "ag9");
  pw_err err = {0};
  assert_int_equal(pw_layer_init(&q, &m, 1, &s, &twin, &err), PW_E_DATA);
}

static void refusals_name_the_field(void **state)
{
  (void)state;
  pw_err err = {0};
  pw_glazing g;
  memset(&g, 7, sizeof g);
  pw_buildup none = {0};
  assert_int_equal(pw_glazing_build(&none, &g, &err), PW_E_SHAPE);
  pw_buildup odd = {.n_pane = 1, .pane = {{.thickness = 3e-3, .kind = "cleer"}}};
  assert_int_equal(pw_glazing_build(&odd, &g, &err), PW_E_DATA);
  assert_string_equal(err.field, "kind");
  assert_non_null(strstr(err.text, "clear"));
  pw_buildup thin = {.n_pane = 1, .pane = {{.thickness = -3e-3, .kind = "clear"}}};
  assert_int_equal(pw_glazing_build(&thin, &g, &err), PW_E_DOMAIN);
  pw_buildup size = {.n_pane = 1, .pane = {{.thickness = 12e-3, .kind = "laminated"}}};
  assert_int_equal(pw_glazing_build(&size, &g, &err), PW_E_DOMAIN);
  assert_non_null(strstr(err.text, "6.4"));
  pw_buildup gap = {
      .n_pane = 2,
      .pane = {{.thickness = 3e-3, .kind = "clear"}, {.thickness = 3e-3, .kind = "clear"}}};
  gap.gap[0].thickness = -1.0;
  assert_int_equal(pw_glazing_build(&gap, &g, &err), PW_E_DOMAIN);
  assert_int_equal(((unsigned char *)&g)[0], 7); /* untouched throughout */
}

/* More panes never raise U or SHGC. */
static void more_panes_never_raise(void **state)
{
  (void)state;
  static const char *const text[] = {
      "4mm clear", "4mm clear / 12mm air / 4mm clear",
      "4mm clear / 12mm air / 4mm clear / 12mm air / 4mm clear",
      "4mm clear / 12mm air / 4mm clear / 12mm air / 4mm clear / 12mm air / 4mm clear"};
  pw_glazing before = built(text[0]);
  for (size_t i = 1; i < 4; i++) {
    pw_glazing g = built(text[i]);
    assert_true(g.u_winter < before.u_winter);
    for (size_t a = 0; a < PW_ANGLES; a++)
      assert_true(g.shgc[a] <= before.shgc[a] && g.light.tau_v[a] <= before.light.tau_v[a]);
    before = g;
  }
}

/* SHGC of the build is that of pw_unit_shgc, angle by angle. */
static void shgc_is_that_of_the_unit(void **state)
{
  (void)state;
  pw_glazing g = built("6mm green / 12.7mm air / 6mm clear coat ag1@3");
  for (size_t a = 0; a < PW_ANGLES; a++) {
    double shgc = 0.0;
    assert_int_equal(pw_glazing_shgc(&g, &pw_env_summer, a, &shgc, NULL), PW_OK);
    pw_assert_near(g.shgc[a], shgc, 1e-9, "SHGC", "pw_unit_shgc");
  }
}

/* EN 410:2011 (from memory), the formulas for two and three panes written out, conductances from face to
 * face: Lambda of a double from its outer to its room face; of a triple Lambda12 from the outer face to
 * the centre of the middle pane, Lambda23 from there to the room face (glass 1 W/(m K)). Gap
 * conductances by pw_unit_en673, which the group glazing holds against EN 673. */
static void g_follows_en410(void **state)
{
  static const double h_e = 23.0, h_i = 3.6 + 4.4;
  (void)state;
  double g = 0.0;
  pw_unit_result en;
  pw_glazing two = built("6mm clear / 16mm argon / 10mm clear");
  assert_int_equal(pw_unit_en673(&two.unit, &en, NULL), PW_OK);
  assert_int_equal(pw_glazing_g_en410(&two, 0, &g, NULL), PW_OK);
  double a1 = two.light.absorbed[0][0], a2 = two.light.absorbed[1][0];
  double r = 0.006 + 1.0 / en.gap[0].conductance + 0.010;
  double q = ((a1 + a2) / h_e + a2 * r) / (1.0 / h_i + 1.0 / h_e + r);
  pw_assert_near(g, two.light.tau_e[0] + q, 1e-12, "g of a double", "EN 410");
  pw_glazing three = built("4mm clear / 12mm air / 6mm gray / 16mm argon / 8mm clear");
  assert_int_equal(pw_unit_en673(&three.unit, &en, NULL), PW_OK);
  assert_int_equal(pw_glazing_g_en410(&three, 0, &g, NULL), PW_OK);
  const double a[] = {three.light.absorbed[0][0], three.light.absorbed[1][0],
                      three.light.absorbed[2][0]};
  double r12 = 0.004 + 1.0 / en.gap[0].conductance + 0.003;
  double r23 = 0.003 + 1.0 / en.gap[1].conductance + 0.008;
  q = (a[2] * r23 + (a[1] + a[2]) * r12 + (a[0] + a[1] + a[2]) / h_e) /
      (1.0 / h_i + 1.0 / h_e + r12 + r23);
  pw_assert_near(g, three.light.tau_e[0] + q, 1e-12, "g of a triple", "EN 410");
}

/* Closed form: the trapezoid on ten angles is exact for the square of the cosine over a right angle (pi/4), and that of the
 * cosine is h/2 cot(h/2), h ten degrees. Between the ten angles shares are linear in the angle, and the table over the
 * cosine begins at grazing sun and ends at upright. */
static void between_the_ten_angles_and_along_the_horizon(void **state)
{
  (void)state;
  double share[PW_ANGLES] = {0}, part = 0.0;
  for (int k = 0; k < 10; k++)
    share[k] = cos(pw_rad(10.0 * k));
  const double h = pw_rad(10.0);
  pw_assert_near(pw_band_mean(share), PW_PI / 4.0 / (0.5 * h / tan(0.5 * h)), 1e-14,
                 "mean along the horizon", "closed form");
  assert_int_equal(pw_angle_below(8.9995, &part), 8); /* never past the last */
  pw_assert_near(part, 0.9995, 1e-12, "part", "by hand");
  assert_int_equal(pw_cosine_below(0, &part), 8);
  pw_assert_near(pw_angle_share(share, 8, part), cos(pw_rad(90.0)), 1e-14, "grazing", "at 90");
  assert_int_equal(pw_cosine_below(PW_COSINES, &part), 0);
  pw_assert_near(pw_angle_share(share, 0, part), 1.0, 1e-14, "upright", "at 0");
  assert_int_equal(pw_cosine_below(PW_COSINES / 2, &part), 6); /* cos 60 */
  pw_assert_near(pw_angle_share(share, 6, part), 0.5, 1e-14, "half", "at 60");
  pw_assert_near(pw_angle_share(share, 3, 0.25), 0.75 * share[3] + 0.25 * share[4], 1e-14,
                 "a quarter on", "linear");
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(inward_flow_is_as_published),
      cmocka_unit_test(surface_matters_for_heat_not_for_light),
      cmocka_unit_test(stated_emissivity_outranks_the_coating),
      cmocka_unit_test(table_is_sound),
      cmocka_unit_test(bands_give_their_values_back),
      cmocka_unit_test(contradicting_bands_are_refused),
      cmocka_unit_test(measured_slab_is_the_slab),
      cmocka_unit_test(measured_coated_pane_takes_its_class),
      cmocka_unit_test(refusals_name_the_field),
      cmocka_unit_test(more_panes_never_raise),
      cmocka_unit_test(shgc_is_that_of_the_unit),
      cmocka_unit_test(g_follows_en410),
      cmocka_unit_test(between_the_ten_angles_and_along_the_horizon),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
