/* One place of an order without the whole order. Internal. */
#ifndef BASE_SELECT_H
#define BASE_SELECT_H

#include <stddef.h>

/* The k-th smallest, from 0, of v[n], n above k and no NAN among them, by parting about a middle value; reorders v.
 * Source: Hoare 1961. */
double pw_select(double v[], size_t n, size_t k);

#endif
