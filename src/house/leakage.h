/* Air that passes a window's joints, from its test value: counted apart, never inside the saving of
 * the glass. */
#ifndef HOUSE_LEAKAGE_H
#define HOUSE_LEAKAGE_H

#include "panewright/weather.h"

/* What the flow depends on besides the hour. */
typedef struct pw_leak_site {
  int storeys; /* 1..3; 0 means 1 */
  int shelter; /* 1 open .. 5 surrounded; 0 means 3 */
  double t_in; /* C, indoors; 0 means 20 */
} pw_leak_site;

/* Effective leakage area at 4 Pa, m2, of a flow (m3/s) at dp Pa.
 *   V(4) = V (4 / dp)^n,  A = V(4) / sqrt(2 * 4 / rho), air of 1.2 kg/m3
 * Source: power law and the reference pressure by ASHRAE handbook practice (from memory); METHODS.md section 8. */
double pw_leak_area_of(double flow, double dp, double n);

/* The same of a flow at 75 Pa, n 0.65: a window's test. */
double pw_leak_area(double flow_75);

/* Natural flow through that area in one hour, m3/s: A_L sqrt(Cs |dT| + Cw v^2), v at the mast.
 * Status  PW_E_DOMAIN storeys, shelter, area, or an hour's value
 * Source  Handbook basic model; coefficients as METHODS.md section 8 prints them (from memory). */
pw_status pw_leak_flow(double area, const pw_leak_site *site, const pw_hour *hour, double *flow,
                       pw_err *err);

typedef struct pw_leak_year {
  double flow_mean;   /* m3/s */
  double heat_kwh;    /* sensible heat carried out in hours colder than t_in, at that t_in */
  double changes_1_h; /* air changes of the given volume */
} pw_leak_year;

/* The year of it. volume m3, of the house (0: no air changes are told). */
pw_status pw_leak_of_year(double flow_75, const pw_leak_site *site, const pw_weather *weather,
                          double volume, pw_leak_year *year, pw_err *err);

#endif
