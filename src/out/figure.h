/* Figures on paper: rounded by their kind, and marked with the place in the JSON output that holds
 * the value they were rounded from, so that paper and data can be held against each other. */
#ifndef OUT_FIGURE_H
#define OUT_FIGURE_H

#include "out/html.h"
#include "out/units.h"

typedef enum pw_figure {
  PW_FIGURE_U = 0,        /* from W/(m2 K); 2 decimals */
  PW_FIGURE_UA,           /* from W/K; whole */
  PW_FIGURE_RATIO,        /* 2 decimals */
  PW_FIGURE_SHARE,        /* from a share of 1; whole per cent */
  PW_FIGURE_MONEY_5,      /* $, to the nearest 5 */
  PW_FIGURE_MONEY,        /* $, whole */
  PW_FIGURE_CENTS,        /* $, to the cent */
  PW_FIGURE_KWH,          /* to the nearest 10 */
  PW_FIGURE_AREA,         /* from m2; 1 decimal (ft2), 2 (m2) */
  PW_FIGURE_TEMPERATURE,  /* from K; whole */
  PW_FIGURE_YEARS,        /* whole; "never" when infinite */
  PW_FIGURE_HOURS,        /* to the nearest 10 */
  PW_FIGURE_MASS,         /* kg, to the nearest 10; lb in inch units */
  PW_FIGURE_PERCENT_RATE, /* share a year; 1 decimal per cent */
  PW_FIGURE_DB,           /* dB, whole */
  PW_FIGURE_COUNT
} pw_figure;

/* Text of a value; "-" when it is not finite. Thousands are set off by commas. */
void pw_figure_text(pw_figure kind, const pw_unit_set *units, double value, char text[32]);

/* The value as printed: what pw_figure_text rounds to, in the unit shown. */
double pw_figure_rounded(pw_figure kind, const pw_unit_set *units, double value);

/* Word of a kind, as it stands in data-kind ("u", "money5" ...). */
const char *pw_figure_name(pw_figure kind);

/* <span class="fig" data-kind=".." data-key="..">text</span>. The key is a path into the JSON of
 * the comparison, "house.packages.0.u_w_m2k", or two such with " - " between them, or one with
 * " * 0.75" after it. */
#if defined(__GNUC__)
__attribute__((format(printf, 5, 6)))
#endif
void
pw_figure_put(pw_html *h, const pw_unit_set *units, pw_figure kind, double value,
              const char *key, ...);

#endif
