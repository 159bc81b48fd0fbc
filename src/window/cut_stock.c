#include "window/cut_stock.h"

#include <stdlib.h>
#include <string.h>

/* The pieces by falling weight, and one way to place them. */
typedef struct packing {
  size_t n, n_bin;
  long size;          /* of a length: stock + kerf */
  const long *weight; /* [n], falling */
  long *left;         /* [n] of each length */
  size_t *bin;        /* [n] where each piece lies */
  long looks;         /* what is left of the search */
} packing;

typedef struct ranked {
  long weight;
  size_t at;
} ranked;

static int by_weight(const void *a, const void *b)
{
  const ranked *p = a, *q = b;
  if (p->weight != q->weight) return p->weight < q->weight ? 1 : -1;
  return (p->at > q->at) - (p->at < q->at);
}

static size_t up(long sum, long size)
{
  return sum > 0 ? (size_t)((sum + size - 1) / size) : 0;
}

/* The bound L2 for one k: pieces above size - k lie alone, those above half a length each in a length of their own, and
 * what the latter leave holds but so much of the pieces from k on. */
static size_t bound_for(const packing *p, long k)
{
  size_t large = 0, half = 0;
  long left = 0, small = 0;
  for (size_t i = 0; i < p->n; i++) {
    long w = p->weight[i];
    if (w > p->size - k)
      large++;
    else if (2 * w > p->size) {
      half++;
      left += p->size - w;
    } else if (w >= k)
      small += w;
  }
  return large + half + up(small - left, p->size);
}

static size_t bound(const packing *p)
{
  size_t best = bound_for(p, 0); /* k = 0 is L1 where no piece is above half */
  for (size_t i = 0; i < p->n; i++)
    if (2 * p->weight[i] <= p->size && (i == 0 || p->weight[i] != p->weight[i - 1])) {
      size_t b = bound_for(p, p->weight[i]);
      if (b > best) best = b;
    }
  return best;
}

/* Best fit decreasing: into the fullest length that takes the piece, else a new one. */
static void best_fit(packing *p)
{
  p->n_bin = 0;
  for (size_t i = 0; i < p->n; i++) {
    size_t best = p->n_bin;
    for (size_t b = 0; b < p->n_bin; b++)
      if (p->left[b] >= p->weight[i] && (best == p->n_bin || p->left[b] < p->left[best]))
        best = b;
    if (best == p->n_bin) p->left[p->n_bin++] = p->size;
    p->left[best] -= p->weight[i];
    p->bin[i] = best;
  }
}

/* Whether a length with as much left was tried before this one, from the first that is tried on. */
static int seen(packing *p, size_t first, size_t b)
{
  p->looks -= (long)(b - first);
  for (size_t k = first; k < b; k++)
    if (p->left[k] == p->left[b]) return 1;
  return 0;
}

/* What is lost for good, since no piece that is still to be placed goes there. */
static long lost(packing *p)
{
  long sum = 0, least = p->weight[p->n - 1];
  p->looks -= (long)p->n_bin;
  for (size_t b = 0; b < p->n_bin; b++)
    if (p->left[b] < least) sum += p->left[b];
  return sum;
}

/* The first length to try for piece i: equal pieces lie in the order of their lengths. */
static size_t first_for(const packing *p, size_t i)
{
  return i > 0 && p->weight[i] == p->weight[i - 1] ? p->bin[i - 1] : 0;
}

/* Places all pieces in n_bin lengths: depth first, the largest piece first, without recursion. spare is what may be lost.
 * 1 found, 0 there is no way, -1 the looks ran out. */
static int search(packing *p, long spare)
{
  size_t i = 0, b = 0;
  for (size_t k = 0; k < p->n_bin; k++)
    p->left[k] = p->size;
  for (;;) {
    const size_t first = first_for(p, i);
    for (; b < p->n_bin; b++) {
      if (--p->looks < 0) return -1;
      if (p->left[b] < p->weight[i] || seen(p, first, b)) continue;
      p->left[b] -= p->weight[i];
      if (i + 1 == p->n || lost(p) <= spare) break;
      p->left[b] += p->weight[i];
    }
    if (b < p->n_bin) {
      p->bin[i] = b;
      if (++i == p->n) return 1;
      b = first_for(p, i);
    } else {
      if (i == 0) return 0;
      i--;
      b = p->bin[i];
      p->left[b] += p->weight[i];
      b++;
    }
  }
}

/* The best packing, in p->bin; returns the bound. */
static size_t pack(packing *p, size_t best[], pw_cut_plan *plan)
{
  long sum = 0;
  for (size_t i = 0; i < p->n; i++)
    sum += p->weight[i];
  size_t low = bound(p);
  best_fit(p);
  size_t high = p->n_bin;
  memcpy(best, p->bin, p->n * sizeof *best);
  while (low < high) {
    p->n_bin = low;
    int found = search(p, (long)low * p->size - sum);
    if (found < 0) break;
    if (found) {
      high = low;
      memcpy(best, p->bin, p->n * sizeof *best);
    } else
      low++;
  }
  plan->n_stock = high;
  plan->lower_bound = low;
  plan->proven = low == high;
  return low;
}

/* Numbers the lengths by what is cut from them, the fullest first. */
static void number(const packing *p, const ranked order[], const size_t best[], size_t n_bin,
                   ranked full[], size_t stock_of[])
{
  for (size_t b = 0; b < n_bin; b++)
    full[b] = (ranked){0, b};
  for (size_t i = 0; i < p->n; i++)
    full[best[i]].weight += p->weight[i];
  qsort(full, n_bin, sizeof *full, by_weight);
  for (size_t b = 0; b < n_bin; b++)
    p->bin[full[b].at] = b;
  for (size_t i = 0; i < p->n; i++)
    stock_of[order[i].at] = p->bin[best[i]];
}

pw_status pw_cut_stock(const int piece[], size_t n, int stock, int kerf, long looks,
                       size_t stock_of[], pw_cut_plan *plan, pw_err *err)
{
  static const int most = 1000000;
  if (!(stock > 0 && stock <= most && kerf >= 0 && kerf <= stock))
    return pw_fail(err, PW_E_DOMAIN, "stock", "stock %d, kerf %d: want 1 to %d, 0 to the stock",
                   stock, kerf, most);
  for (size_t i = 0; i < n; i++)
    if (!(piece[i] > 0 && piece[i] <= stock))
      return pw_fail(err, PW_E_DOMAIN, "piece", "piece %zu is %d: want 1 to %d", i, piece[i],
                     stock);
  *plan = (pw_cut_plan){.proven = 1};
  if (n == 0) return PW_OK;
  ranked *order = malloc(n * sizeof *order), *full = calloc(n, sizeof *full);
  long *number_of = malloc(2 * n * sizeof *number_of);
  size_t *place = malloc(2 * n * sizeof *place);
  if (order && full && number_of && place) {
    long cut = 0;
    for (size_t i = 0; i < n; i++) {
      order[i] = (ranked){piece[i] + kerf, i};
      cut += piece[i];
    }
    qsort(order, n, sizeof *order, by_weight);
    for (size_t i = 0; i < n; i++)
      number_of[i] = order[i].weight;
    packing p = {.n = n,
                 .size = (long)stock + kerf,
                 .weight = number_of,
                 .left = number_of + n,
                 .bin = place,
                 .looks = looks};
    pack(&p, place + n, plan);
    number(&p, order, place + n, plan->n_stock, full, stock_of);
    plan->waste = 1.0 - (double)cut / ((double)plan->n_stock * stock);
  } else
    n = 0;
  free(order);
  free(full);
  free(number_of);
  free(place);
  return n ? PW_OK : pw_fail(err, PW_E_NOMEM, NULL, "no memory for the cutting plan");
}
