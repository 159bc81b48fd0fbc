/* Numbers in the units that the reader asked for. */
#ifndef OUT_UNITS_H
#define OUT_UNITS_H

/* One set of units with the words to print beside a number. */
typedef struct pw_unit_set {
  int si;
  const char *u, *ua, *area, *temperature, *energy, *length;
} pw_unit_set;

const pw_unit_set *pw_units(int si);

double pw_show_u(const pw_unit_set *units, double u);           /* from W/(m2 K) */
double pw_show_ua(const pw_unit_set *units, double ua);         /* from W/K */
double pw_show_area(const pw_unit_set *units, double area);     /* from m2 */
double pw_show_temperature(const pw_unit_set *units, double k); /* from K */

#endif
