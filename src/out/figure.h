/* Figures on paper: rounded by their kind, and marked with the place in the JSON output that holds
 * the value they were rounded from, so that paper and data can be held against each other. */
#ifndef OUT_FIGURE_H
#define OUT_FIGURE_H

#include "out/grid.h"
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

/* A cell of a table on a terminal: as many decimals as on paper, without commas and "$", in kWh and $ as fine; of a share
 * per cent. "-" when it is not finite, but a share. */
void pw_figure_cell(pw_grid *grid, pw_figure kind, const pw_unit_set *units, double value);

/* Money of a year on a terminal, to the nearest $5: more digits would promise what no range can hold.
 * pw_dollars_of(x).text is "-$15". */
typedef struct pw_dollars {
  char text[32];
} pw_dollars;
pw_dollars pw_dollars_of(double dollars);

/* The value as printed: what pw_figure_text rounds to, in the unit shown. */
double pw_figure_rounded(pw_figure kind, const pw_unit_set *units, double value);

/* Word of a kind, as it stands in data-kind ("u", "money5" ...). */
const char *pw_figure_name(pw_figure kind);

/* The same for a %s of pw_html_put, so that a sentence with figures in it is one format. Filled and returned. */
typedef struct pw_figure_words {
  char text[2 * PW_HTML_FIGURE];
} pw_figure_words;
#if defined(__GNUC__)
__attribute__((format(printf, 6, 7)))
#endif
const char *
pw_figure_say(const pw_html *h, pw_figure_words *words, const pw_unit_set *units,
              pw_figure kind, double value, const char *key, ...);

/* The difference of two figures as printed, so that a column subtracts on paper: value - less, each rounded by its kind;
 * the key is that of value, " less ", that of less. */
double pw_figure_less(pw_figure kind, const pw_unit_set *units, double value, double less);

/* <span class="fig" data-kind=".." data-key="..">text</span>. The key is a path into the JSON of
 * the comparison, "house.packages.0.u_w_m2k", or two such with " - " between them, or one with
 * " * 0.75" after it; or "A less B" of such (pw_figure_less). Words ("never") are in the document's tongue. */
#if defined(__GNUC__)
__attribute__((format(printf, 5, 6)))
#endif
void
pw_figure_put(pw_html *h, const pw_unit_set *units, pw_figure kind, double value,
              const char *key, ...);

#endif
