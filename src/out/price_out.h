/* What a price is made of, where prices.csv or an opening's own price has a part in it. */
#ifndef OUT_PRICE_OUT_H
#define OUT_PRICE_OUT_H

#include <jansson.h>
#include <stdio.h>

#include "study/compare.h"

/* A table, a row an item and a column a package; nothing where packages.csv alone gives the prices. */
pw_status pw_price_parts_text(const pw_compare *compare, FILE *f, pw_err *err);

/* [{"item", "windows", "value", "spread"}] (new reference); the values add up to "price". */
json_t *pw_price_parts_json(const pw_price *price);

/* One window of an opening under a package, its options apart (new reference); NULL where packages.csv alone
 * gives the prices, or the window stays. */
json_t *pw_price_opening_json(const pw_compare *compare, size_t package, size_t opening);

/* "windows $7400, screen $320, tax $610": for a line on a paper. */
void pw_price_parts_line(const pw_price *price, char text[400]);

#endif
