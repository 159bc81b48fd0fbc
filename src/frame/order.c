/* Elimination order of a grid: nested dissection (George 1973) by straight lines, which a tensor
 * grid gives away without a graph search. Where only the four side neighbours couple (volumes) the
 * lines are diagonals: a diagonal parts a square with half as many points as it takes along the
 * sides, so that the factor is smaller. Where all eight couple (elements) they run along the grid.
 */
#include <stdlib.h>
#include <string.h>

#include "frame/frame_impl.h"

enum { LEAF = 9 }; /* points that are left in one piece */

typedef struct point {
  int a, b; /* coordinates across the two families of lines */
  int number;
} point;

typedef struct dissection {
  point *work;
  int *count[2]; /* points by line, of both families */
  int *order;
  size_t n;
} dissection;

/* The line with the fewest points that leaves at least a quarter on either side; -1 none. */
static int best_line(const int *count, int lines, int total, double *score)
{
  int best = -1, before = 0;
  *score = 1e300;
  for (int k = 0; k < lines; before += count[k], k++) {
    int after = total - before - count[k], least = before < after ? before : after;
    if (4 * least < total - count[k]) continue;
    double skew = (double)(before - after) / total;
    double s = count[k] * (1.0 + skew * skew) + 1e-6 * skew * skew;
    if (s < *score) {
      *score = s;
      best = k;
    }
  }
  return best;
}

static void limits(const point *p, size_t n, int low[2], int high[2])
{
  low[0] = high[0] = p[0].a;
  low[1] = high[1] = p[0].b;
  for (size_t k = 1; k < n; k++) {
    low[0] = p[k].a < low[0] ? p[k].a : low[0];
    high[0] = p[k].a > high[0] ? p[k].a : high[0];
    low[1] = p[k].b < low[1] ? p[k].b : low[1];
    high[1] = p[k].b > high[1] ? p[k].b : high[1];
  }
}

/* Before the line, after it, on it: each part keeps its order. Returns the first two sizes. */
static void part(point *p, size_t n, int family, int at, point *work, size_t size[2])
{
  size_t left = 0, right = 0, on = 0;
  for (size_t k = 0; k < n; k++) {
    int c = family ? p[k].b : p[k].a;
    if (c < at)
      p[left++] = p[k]; /* never ahead of k */
    else if (c > at)
      work[right++] = p[k];
    else
      work[n - 1 - on++] = p[k];
  }
  memcpy(p + left, work, right * sizeof *p);
  for (size_t k = 0; k < on; k++)
    p[left + right + k] = work[n - 1 - k];
  size[0] = left;
  size[1] = right;
}

static void take(dissection *d, const point *p, size_t n)
{
  for (size_t k = 0; k < n; k++)
    d->order[d->n++] = p[k].number;
}

/* Depth is some twice the logarithm of n: every cut leaves a quarter at least. */
static void dissect(dissection *d, point *p, size_t n) // NOLINT(misc-no-recursion)
{
  if (n <= LEAF) {
    take(d, p, n);
    return;
  }
  int low[2], high[2], line[2];
  double score[2];
  limits(p, n, low, high);
  for (int f = 0; f < 2; f++)
    memset(d->count[f], 0, (size_t)(high[f] - low[f] + 1) * sizeof(int));
  for (size_t k = 0; k < n; k++) {
    d->count[0][p[k].a - low[0]]++;
    d->count[1][p[k].b - low[1]]++;
  }
  for (int f = 0; f < 2; f++)
    line[f] = best_line(d->count[f], high[f] - low[f] + 1, (int)n, &score[f]);
  int family = score[1] < score[0];
  if (line[family] < 0) {
    take(d, p, n);
    return;
  }
  size_t size[2];
  part(p, n, family, line[family] + low[family], d->work, size);
  dissect(d, p, size[0]);
  dissect(d, p + size[0], size[1]);
  take(d, p + size[0] + size[1], n - size[0] - size[1]);
}

pw_status frame_order(const int *number, size_t n_x, size_t n_y, int diagonal, int *order,
                      pw_err *err)
{
  size_t n = 0, most = n_x + n_y;
  for (size_t k = 0; k < n_x * n_y; k++)
    n += number[k] >= 0;
  point *p = calloc(2 * n + 1, sizeof *p);
  int *count = malloc(2 * most * sizeof *count);
  if (!p || !count) {
    free(p);
    free(count);
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory to order %zu unknowns", n);
  }
  size_t m = 0;
  for (size_t j = 0; j < n_y; j++)
    for (size_t i = 0; i < n_x; i++) {
      int k = number[j * n_x + i];
      if (k < 0) continue;
      int a = (int)(diagonal ? i + j : i), b = (int)(diagonal ? i + n_y - j : j);
      p[m++] = (point){a, b, k};
    }
  dissection d = {.work = p + n, .count = {count, count + most}, .order = order};
  dissect(&d, p, n);
  free(p);
  free(count);
  return PW_OK;
}
