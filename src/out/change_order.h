/* A change order: an order sent earlier and the job as it is now side by side, unit by unit, by the columns of order.csv that
 * a maker builds by. */
#ifndef OUT_CHANGE_ORDER_H
#define OUT_CHANGE_ORDER_H

#include "job/order_file.h"
#include "out/paper.h"

typedef enum pw_change {
  PW_CHANGE_NONE = 0,
  PW_CHANGE_CHANGED,
  PW_CHANGE_ADDED,     /* ordered now; not there or not ordered before */
  PW_CHANGE_HELD,      /* was ordered, may not be made now */
  PW_CHANGE_WITHDRAWN, /* was ordered, is not there any more */
  PW_CHANGE_APART,     /* ordered neither then nor now */
  PW_CHANGES
} pw_change;

typedef struct pw_change_order {
  pw_paper paper; /* its place is left out */
  const pw_order_file *before, *after;
} pw_change_order;

/* What became of a unit: its rows in both lists, below 0 where it is not. */
pw_change pw_change_of(const pw_change_order *change, int row_before, int row_after);

/* Whether a column says something else now. A column that the old list does not have and that every list has now is not
 * compared. */
int pw_change_differs(const pw_change_order *change, int row_before, int row_after,
                      pw_order_column column);

/* Writes the whole document. Status PW_OK; PW_E_IO the stream failed. */
pw_status pw_change_order_html(const pw_change_order *change, pw_html *h, pw_err *err);

#endif
