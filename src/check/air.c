/* Worked examples of air: open windows, leakage, infiltration, ducts (reference/air/worked.csv). */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "check/air_leakage.h"
#include "check/check.h"
#include "gen/reference.h"
#include "house/covering.h"
#include "house/duct.h"
#include "house/film.h"
#include "house/infiltration.h"
#include "house/leakage.h"
#include "house/open_window.h"
#include "panewright/units.h"

/* A number of "name=number name=number"; NAN where it is not there, so that the case misses. */
static double in(const pw_ref_air_worked_row *r, const char *name)
{
  size_t n = strlen(name);
  for (const char *at = r->inputs; *at; at += strcspn(at, " ")) {
    at += strspn(at, " ");
    if (strncmp(at, name, n) == 0 && at[n] == '=') return strtod(at + n + 1, NULL);
  }
  return (double)NAN;
}

static double kelvin(const pw_ref_air_worked_row *r, const char *name)
{
  return pw_k(in(r, name));
}

static double wind_handbook(const pw_ref_air_worked_row *r)
{
  return pw_open_wind(in(r, "A"), in(r, "v"), in(r, "Cv"));
}

static double stack_two(const pw_ref_air_worked_row *r)
{
  return pw_open_stack(in(r, "A"), in(r, "Cd"), in(r, "dH"), kelvin(r, "Ti"), kelvin(r, "To"));
}

static double stack_single(const pw_ref_air_worked_row *r)
{
  return pw_open_both_ways(in(r, "A"), in(r, "Cd"), in(r, "H"), kelvin(r, "Ti"),
                           kelvin(r, "To"));
}

static double gids_phaff(const pw_ref_air_worked_row *r)
{
  return pw_open_gids_phaff(in(r, "A"), in(r, "H"), in(r, "v"), in(r, "dT"));
}

static double en_single(const pw_ref_air_worked_row *r)
{
  return pw_open_en_single(in(r, "A"), in(r, "H"), in(r, "v"), in(r, "dT"), in(r, "ratio"));
}

static double en_cross(const pw_ref_air_worked_row *r)
{
  return pw_open_en_cross(in(r, "Across"), in(r, "Atot"), in(r, "H"), in(r, "v"), in(r, "dT"),
                          in(r, "Cd"), in(r, "dCp"));
}

static double warren_parkins(const pw_ref_air_worked_row *r)
{
  return pw_open_warren_parkins(in(r, "A"), in(r, "H"), in(r, "v"), kelvin(r, "Ti"),
                                kelvin(r, "To"));
}

static double cross(const pw_ref_air_worked_row *r)
{
  double cd = in(r, "Cd");
  return pw_open_cross(pw_open_in_series(cd * in(r, "A1"), cd * in(r, "A2")), in(r, "v"),
                       in(r, "dCp"));
}

static double mil_outlet(const pw_ref_air_worked_row *r)
{
  return pw_open_outlet(in(r, "A"), in(r, "Ai"));
}

/* 1.56 is 1/0.64, a discharge coefficient: the area is the cross flow turned round. */
static double mil_area(const pw_ref_air_worked_row *r)
{
  return in(r, "cfm") * 1.56 / pw_open_cross(1.0, in(r, "W"), in(r, "PD"));
}

static double hinged_cd(const pw_ref_air_worked_row *r)
{
  return pw_hinged_cd(in(r, "w"), in(r, "h"), in(r, "angle"));
}

static double hinged_area(const pw_ref_air_worked_row *r)
{
  return pw_hinged_area(in(r, "w"), in(r, "h"), in(r, "angle"));
}

static double wind_at(const pw_ref_air_worked_row *r)
{
  return in(r, "v10") * film_wind_share(in(r, "z"), in(r, "a"));
}

static double label_to_ela(const pw_ref_air_worked_row *r)
{
  double flow = in(r, "AL") * PW_FOOT * PW_FOOT2 / PW_FOOT2 / 60.0; /* m3/s a m2 */
  return 1e4 * pw_leak_area_of(flow, 75.0, in(r, "n"));
}

static double basic(const pw_ref_air_worked_row *r)
{
  const pw_leak_site site = {
      .storeys = (int)in(r, "storeys"), .shelter = (int)in(r, "shelter"), .t_in = 20.0};
  const pw_hour hour = {.t_air = (float)(20.0 - in(r, "dT")), .wind = (float)in(r, "v")};
  double flow = NAN;
  return pw_leak_flow(1e-4 * in(r, "AL"), &site, &hour, &flow, NULL) == PW_OK ? flow : NAN;
}

/* cfm of in2, F and mph: beside the handbook's inch-pound coefficients, which are rounded apart from those in SI. */
static double basic_ip(const pw_ref_air_worked_row *r)
{
  const pw_leak_site site = {
      .storeys = (int)in(r, "storeys"), .shelter = (int)in(r, "shelter"), .t_in = 20.0};
  const pw_hour hour = {.t_air = (float)(20.0 - in(r, "dT") / 1.8),
                        .wind = (float)(in(r, "v") * 5280.0 * PW_FOOT / 3600.0)};
  double flow = NAN, cubic_foot_a_minute = PW_FOOT * PW_FOOT2 / 60.0;
  pw_status s = pw_leak_flow(in(r, "AL") * PW_INCH * PW_INCH, &site, &hour, &flow, NULL);
  return s == PW_OK ? flow / cubic_foot_a_minute : NAN;
}

static double lbl(const pw_ref_air_worked_row *r)
{
  const pw_infiltration_site site = {.height = in(r, "H"),
                                     .storeys = 1,
                                     .shield = (int)in(r, "shield"),
                                     .terrain = (int)in(r, "terrain"),
                                     .level = in(r, "R"),
                                     .uneven = in(r, "X")};
  return pw_sherman_grimsrud(in(r, "A"), &site, in(r, "dT"), in(r, "v"));
}

static double aim2(const pw_ref_air_worked_row *r)
{
  const pw_infiltration_site site = {.storeys = (int)in(r, "storeys"),
                                     .shield = (int)in(r, "shelter"),
                                     .flue = in(r, "flue") > 0.0,
                                     .crawl = in(r, "crawl") > 0.0};
  return pw_aim2(in(r, "c"), &site, in(r, "dT"), in(r, "v"));
}

static double duct_de(const pw_ref_air_worked_row *r)
{
  const pw_duct d = {in(r, "as"),   in(r, "ar"),  in(r, "UAs"), in(r, "UAr"), in(r, "q"),
                     in(r, "tsup"), in(r, "tin"), in(r, "tas"), in(r, "tar")};
  return pw_duct_delivers(&d);
}

/* Most homes' coverings in summer beside the share of the sun that home rating counts through a window in use, printed to
 * two digits. */
static void coverings(const pw_check_sink *sink)
{
  const pw_ref_air_shades_row *r = &pw_ref_air_shades[pw_ref_air_shades__rating_summer];
  for (size_t n = 1; n <= 2; n++) {
    pw_glazing clear = {.unit.n_pane = n};
    pw_covered k;
    clear.shgc[0] = n == 1 ? 0.86 : 0.76; /* handbook, 3 mm clear, from memory */
    pw_covering_of(PW_COVERING_USUAL, 1, &clear, &k);
    pw_check_give_range(sink, n == 1 ? "one clear pane" : "two clear panes",
                        "sun left by usual coverings, summer", r->unit,
                        k.pass[PW_COVERING_SUMMER], r->low - 0.005, r->high + 0.005, 0,
                        r->source, r->how_known);
  }
}

static pw_status run(const pw_check_sink *sink, pw_err *err)
{
  static const struct {
    const char *name;
    double (*of)(const pw_ref_air_worked_row *);
  } method[] = {{"wind_handbook", wind_handbook},
                {"stack_two", stack_two},
                {"stack_single", stack_single},
                {"gids_phaff", gids_phaff},
                {"en_single", en_single},
                {"en_cross", en_cross},
                {"warren_parkins", warren_parkins},
                {"cross", cross},
                {"mil_outlet", mil_outlet},
                {"mil_area", mil_area},
                {"hinged_cd", hinged_cd},
                {"hinged_area", hinged_area},
                {"wind_at", wind_at},
                {"label_to_ela", label_to_ela},
                {"basic", basic},
                {"basic_ip", basic_ip},
                {"lbl", lbl},
                {"aim2", aim2},
                {"duct_de", duct_de}};
  for (size_t i = 0; i < (size_t)pw_ref_air_worked__n; i++) {
    const pw_ref_air_worked_row *r = &pw_ref_air_worked[i];
    size_t k = 0, n = sizeof method / sizeof method[0];
    while (k < n && strcmp(method[k].name, r->method) != 0)
      k++;
    if (k == n) return pw_fail(err, PW_E_DATA, "method", "air/worked: no method %s", r->method);
    pw_check_give(sink, r->method, r->quantity, r->unit, method[k].of(r), r->expected,
                  r->rel_tolerance * fabs(r->expected), r->source, r->how_known);
  }
  check_air_leakage(sink);
  coverings(sink);
  return PW_OK;
}

const pw_check_group pw_check_air = {
    "air", "open and closed windows, houses, ducts: worked examples", run};
