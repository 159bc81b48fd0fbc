/* What a column of packages costs on a job: windows, options, permit, disposal, discount, tax, each with its spread. */
#ifndef MONEY_PRICE_H
#define MONEY_PRICE_H

#include "panewright/survey.h"

enum { PW_PRICE_PARTS_MAX = 24 };

typedef struct pw_price_part {
  char item[PW_OPTION_MAX]; /* "windows", an option's name, "options", "permit", ... */
  double count;             /* windows that it counts, by quantity; 0: once for the job */
  double value, spread;     /* $; a discount is below 0 */
} pw_price_part;

typedef struct pw_price {
  double n_opening, area; /* windows by quantity; m2 of opening in the wall */
  double value, spread;   /* $; 0 when nothing is priced */
  int by_table;           /* 1: prices.csv or a price of an opening's own has a part in it */
  int unpriced;           /* windows that no price is for; the value is then 0 */
  size_t n_part;          /* parts add up to value; their spreads do not, see pw_price_of */
  pw_price_part part[PW_PRICE_PARTS_MAX];
} pw_price;

/* Width and height of an opening together (of the box around a shape), each the smallest reading rounded up to the whole inch, m: what
 * size bands of price lists go by (united inches; common practice, no source). */
double pw_united_size(const pw_opening *opening);

/* One window of an opening: its own price, else the narrowest row of prices.csv without an item, else the
 * package's columns.
 *
 * Given     job; column, a row of packages.csv (the opening's own package counts); opening; area, m2 of
 *           the opening
 * Returned  *price  $ of one window; line 0 and value 0 when there is none; source "prices.csv" ...
 * Status    PW_OK; PW_E_DATA two rows fit alike (their lines are named)
 */
pw_status pw_price_of_window(const pw_job *job, size_t column, const pw_opening *opening,
                             double area, pw_given *price, pw_err *err);

/* The same for an item by its name: the narrowest row with it; line 0 when there is none. */
pw_status pw_price_of_item(const pw_job *job, size_t column, const pw_opening *opening,
                           double area, const char *item, pw_given *price, pw_err *err);

/* Whether an item is of the whole job (permit, disposal, discount, tax, or any with a per_job price), and
 * no option of a window. */
int pw_price_is_of_job(const pw_job *job, const char *item);

/* All of a column.
 *
 * Given     job; column; area[n_opening], m2 of each opening; counts[n_opening]: how many windows of it
 *           get this package (NULL: each opening's quantity)
 * Returned  *price. An option's price stands under its own name (between, tint_bronze) or, without such a
 *           row, under its general one (grilles, tint). Discount is taken of windows and options; tax of these less the discount (common
 *           practice, no source: what is taxed is the state's law). Permit, disposal and the like come on
 *           top. The spread adds all half widths, for a price list errs one way.
 * Status    PW_OK; PW_E_DATA two rows fit alike; PW_E_DOMAIN a price that is none; PW_E_SHAPE over
 *           PW_PRICE_PARTS_MAX parts
 */
pw_status pw_price_of(const pw_job *job, size_t column, const double area[], const int counts[],
                      pw_price *price, pw_err *err);

#endif
