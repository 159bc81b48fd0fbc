/* Air through a closed house in one hour, by its leakage area, the temperatures and the wind: two published
 * models. */
#ifndef HOUSE_INFILTRATION_H
#define HOUSE_INFILTRATION_H

#include "panewright/weather.h"

typedef enum pw_infiltration {
  PW_INFILTRATION_CONSTANT = 0, /* one rate all year */
  PW_INFILTRATION_SHERMAN_GRIMSRUD,
  PW_INFILTRATION_AIM2,
  PW_INFILTRATION_COUNT
} pw_infiltration;

/* The house and what stands round it. */
typedef struct pw_infiltration_site {
  double height;   /* m, ceiling of the top storey above the lowest floor; Sherman-Grimsrud */
  int storeys;     /* 1..3 */
  int shield;      /* shelter by what stands round it, 1 none .. 5 very heavy */
  int terrain;     /* 1 sea .. 5 city centre; Sherman-Grimsrud */
  double level;    /* R, share of the leakage in floor and ceiling, 0..1 */
  double uneven;   /* X, ceiling less floor over the whole, -1..1 */
  int flue, crawl; /* AIM-2: an open flue; a crawl space below */
} pw_infiltration_site;

/* Stack factor, m/(s K^0.5), and wind factor of a site.
 *   fs = (1 + R/2)/3 (1 - X^2/(2 - R)^2)^1.5 sqrt(g H/T0),  fw = C' (1 - R)^(1/3) A (H/10)^B
 * Source  Sherman and Grimsrud 1980; numbers of reference/air/infiltration.csv (from memory, ratios checked) */
void pw_infiltration_factors(const pw_infiltration_site *site, double *stack, double *wind);

/* m3/s through a leakage area (m2) at dt K between in and out and wind v at the mast, m/s.
 *   Q = A sqrt(fs^2 |dT| + fw^2 v^2) */
double pw_sherman_grimsrud(double area, const pw_infiltration_site *site, double dt, double v);

/* m3/s by the coefficient c (m3/(s Pa^n)), n 0.67.
 *   Qs = c Cs dT^n, Qw = c Cw (s G v)^2n, Q = sqrt(Qs^2 + Qw^2)
 * Source  Walker and Wilson, as the handbook's enhanced model prints it (tables from memory) */
double pw_aim2(double c, const pw_infiltration_site *site, double dt, double v);

/* c of a leakage area (leakage.h): c = area / the area of a flow of 1 m3/s at 1 Pa. */
double pw_aim2_c(double area);

/* Flow of each hour of a year through 1 m2 of leakage area, m3/s, at t_in C indoors; returns its mean.
 * Given    model (of the constant rate: Sherman-Grimsrud), hour[PW_HOURS] or NULL: only the mean */
double pw_infiltration_year(pw_infiltration model, const pw_infiltration_site *site,
                            const pw_weather *weather, double t_in, float hour[]);

/* Status  PW_E_DOMAIN a class, share or height out of range (the field is named) */
pw_status pw_infiltration_check(const pw_infiltration_site *site, pw_err *err);

#endif
