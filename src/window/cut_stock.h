/* Pieces cut from lengths of stock: the fewest lengths, and the cutting plan (one-dimensional bin packing).
 *
 * A length holds its pieces and a cut between each two: sum of pieces + kerf (pieces - 1) <= stock. So a piece
 * weighs its length + kerf, and a length holds stock + kerf.
 */
#ifndef WINDOW_CUT_STOCK_H
#define WINDOW_CUT_STOCK_H

#include <stddef.h>

#include "panewright/status.h"

/* The search looks at so many lengths and no more, so its answer is the same on each machine (here 25 ms,
 * three stock lengths within 0.1 s). */
enum { PW_CUT_LOOKS = 30000000 };

typedef struct pw_cut_plan {
  size_t n_stock;     /* lengths used */
  size_t lower_bound; /* fewer cannot hold the pieces */
  int proven;         /* 1: n_stock is lower_bound */
  double waste;       /* share of the stock bought that is in no piece */
} pw_cut_plan;

/* Given     piece[n] lengths > 0, stock, kerf >= 0, all in whole steps of one unit (1/16 in, say)
 *           looks  PW_CUT_LOOKS, or 0 for no search beyond the bounds
 * Returned  stock_of[n]  from which length each piece is cut, 0 .. n_stock - 1; lengths in falling order of what is
 *                        cut from them, equal pieces in the order given
 *           *plan
 * Status    PW_OK; PW_E_DOMAIN a piece that is not 1 .. stock (err->field "piece"), stock or kerf out of range;
 *           PW_E_NOMEM. On failure nothing is touched.
 * Notes     1) Best fit decreasing, then, where it is above the bound, an exact search for one length less, and
 *              again: least, or best found with its bound when the looks run out.
 *           2) The count does not depend on the order of the pieces.
 * Source    Martello and Toth, Knapsack Problems (1990), chapter 8: bounds L1 and L2, branching on the largest
 *           piece. From memory.
 */
pw_status pw_cut_stock(const int piece[], size_t n, int stock, int kerf, long looks,
                       size_t stock_of[], pw_cut_plan *plan, pw_err *err);

#endif
