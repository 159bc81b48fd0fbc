/* Conversions against reference/glazing/METHODS.md E. */
#include "panewright/units.h"
#include "check/check.h"

static pw_status run(const pw_check_sink *sink, pw_err *err)
{
  (void)err;
  static const char source[] = "notes on glazing E";
  const pw_check_row row[] = {
      {"u_ip", "1 Btu/(h ft2 F)", "W/m2K", PW_U_IP, 5.678263, 5e-7, 0, 0, source, "read", 0},
      {"psi_ip", "1 W/mK in Btu/(h ft F)", "Btu/hftF", PW_FOOT / PW_BTU * 3600.0 / 1.8,
       0.577789, 5e-7, 0, 0, source, "read", 0},
      {"flux_ip", "1 W/m2 in Btu/(h ft2)", "Btu/hft2", PW_FOOT2 / PW_BTU * 3600.0, 0.316998,
       5e-7, 0, 0, source, "read", 0},
      {"t_f", "-18 C in F", "F", pw_f(pw_k(-18.0)), -0.4, 1e-9, 0, 0, source, "read", 0},
  };
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    sink->row(sink->context, &row[i]);
  return PW_OK;
}

extern const pw_check_group pw_check_units;
const pw_check_group pw_check_units = {"units", "conversions between SI and inch-pound", run};
