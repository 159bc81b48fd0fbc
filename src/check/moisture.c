/* Saturation, dew point, humidity ratio and pressure against climate/psychro.csv. We use the fit of
 * ISO 13788; rows made with another formula differ by that fit's own error, so each kind has the
 * tolerance that was measured between the fits, said here. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "check/table_rows.h"
#include "panewright/units.h"
#include "panewright/weather.h"
#include "window/moisture.h"

/* Allowed share of the value: the fit itself to print rounding. Else what was measured between the
 * fits: 0.16 % up to 30 C and 0.4 % to 50 C (this one is made for building temperatures), and over
 * ice 0.25 % to -10 C, 0.6 % to -20, 1.1 % to -30, 2 % to -40; 0.25 % from the Magnus form. */
static double saturation_share(double t_c, const char *formula)
{
  if (strncmp(formula, "ISO 13788", 9) == 0) return 1e-6;
  if (strncmp(formula, "WMO", 3) == 0 && t_c >= -15.0) return 2.5e-3;
  if (t_c < -35.0) return 2e-2;
  if (t_c < -25.0) return 1.1e-2;
  if (t_c < -15.0) return 6e-3;
  if (t_c < 0.0) return 2.5e-3;
  return t_c <= 30.0 ? 1.6e-3 : 4e-3;
}

static double ours_of(const pw_table *t, size_t i, const char *kind)
{
  double v = NAN, kelvin = pw_k(row_number(t, i, "t_C")),
         rh = row_number(t, i, "rh_pct") / 100.0;
  pw_status s = PW_OK;
  if (strncmp(kind, "psat", 4) == 0) {
    s = pw_saturation_pressure(kelvin, &v, NULL);
  } else if (strncmp(kind, "dew_point", 9) == 0) {
    s = pw_dew_point(kelvin, rh, &v, NULL);
    v = pw_c(v);
  } else if (strcmp(kind, "humidity_ratio") == 0) {
    s = pw_humidity_ratio(kelvin, rh, row_number(t, i, "p_Pa"), &v, NULL);
  } else if (strcmp(kind, "pressure_at_altitude") == 0) {
    const char *at = strstr(row_text(t, i, "unit"), "at ");
    v = at ? pw_standard_pressure(strtod(at + 3, NULL)) : NAN;
  }
  return s == PW_OK ? v : NAN;
}

static double tolerance_of(const pw_table *t, size_t i, const char *kind, double want)
{
  const char *formula = row_text(t, i, "formula");
  if (strncmp(kind, "psat", 4) == 0)
    return saturation_share(row_number(t, i, "t_C"), formula) * want;
  if (strcmp(kind, "humidity_ratio") == 0) return 3e-3 * want;
  if (strcmp(kind, "pressure_at_altitude") == 0) return 2e-5 * want;
  /* Dew points: 0.04 K between fits over water; Magnus over water below 0 C names another thing
   * (dew on liquid), 0.9 K off the frost point. */
  if (strncmp(formula, "Magnus", 6) == 0 && want < 0.0) return 0.9;
  return 0.04;
}

static pw_status run(const pw_check_sink *sink, pw_err *err)
{
  const pw_table *t = NULL;
  pw_status s = row_table("climate/psychro", &t, err);
  for (size_t i = 0; s == PW_OK && i < t->n_row; i++) {
    const char *kind = row_text(t, i, "kind");
    double want = row_number(t, i, "expected");
    pw_check_give(sink, row_text(t, i, "id"), kind, row_text(t, i, "unit"), ours_of(t, i, kind),
                  want, tolerance_of(t, i, kind, want), row_text(t, i, "formula"),
                  row_text(t, i, "how_known"));
  }
  return s;
}

extern const pw_check_group pw_check_moisture;
const pw_check_group pw_check_moisture = {
    "moisture", "saturation pressure, dew point, humidity ratio, pressure with height", run};
