#include "out/units.h"

#include "panewright/units.h"

const pw_unit_set *pw_units(int si)
{
  static const pw_unit_set set[] = {
      {0, "Btu/h-ft2-F", "Btu/h-F", "ft2", "F", "kWh", "in"},
      {1, "W/m2K", "W/K", "m2", "C", "kWh", "mm"},
  };
  return &set[si ? 1 : 0];
}

double pw_show_u(const pw_unit_set *units, double u) { return units->si ? u : u / PW_U_IP; }

double pw_show_ua(const pw_unit_set *units, double ua)
{
  return units->si ? ua : ua / PW_U_IP / PW_FOOT2;
}

double pw_show_area(const pw_unit_set *units, double area)
{
  return units->si ? area : area / PW_FOOT2;
}

double pw_show_temperature(const pw_unit_set *units, double k)
{
  return units->si ? pw_c(k) : pw_f(k);
}
