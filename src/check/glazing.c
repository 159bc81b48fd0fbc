/* Glass units and whole windows against the tables of reference/glazing/. */
#include "check/glazing.h"

typedef pw_status (*glazing_part)(const pw_check_sink *sink, pw_err *err);

static pw_status run(const pw_check_sink *sink, pw_err *err)
{
  static const glazing_part part[] = {glazing_gas,      glazing_en673,    glazing_uw,
                                      glazing_handbook, glazing_textbook, glazing_worked,
                                      glazing_edge};
  pw_status s = PW_OK;
  for (size_t i = 0; i < sizeof part / sizeof part[0] && s == PW_OK; i++)
    s = part[i](sink, err);
  return s;
}

extern const pw_check_group pw_check_glazing;
const pw_check_group pw_check_glazing = {
    "glazing", "glass units, edges and whole windows: gas, EN 673, handbook, textbooks", run};
