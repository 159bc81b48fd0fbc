/* An allocator under test, in the place of the C library's: counts, fails where it is told to, and tells by which way an allocation
 * came (six callers deep). strike_all lets each allocation of a study fail: of those that come by one way the first alone, the last with
 * all after it. A file that includes this begins with _GNU_SOURCE (dladdr). */
#ifndef TESTS_FAILING_MEMORY_H
#define TESTS_FAILING_MEMORY_H

#include "support.h"

#include <dlfcn.h>
#include <execinfo.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
#define WATCHED 1 /* the sanitizers have an allocator of their own */
#else
#define WATCHED 0

/* ---------------------------------------------------------------- the allocator */

void *__libc_malloc(size_t n);
void *__libc_calloc(size_t n, size_t size);
void *__libc_realloc(void *p, size_t n);
void *__libc_memalign(size_t align, size_t n);
void __libc_free(void *p);

enum { DEEP = 6, WAYS = 1 << 14 };

static struct {
  int on, ways_on, inside, after; /* after: all from `strike` on fail */
  long in_gsl;                    /* of those struck, GSL's own */
  size_t n, strike, struck;
  long live;
  struct {
    unsigned long way;
    size_t first, last;
  } way[WAYS];
} at;

static void remember(size_t number)
{
  void *from[DEEP + 3];
  at.inside = 1;
  int n = backtrace(from, DEEP + 3);
  at.inside = 0;
  unsigned long h = 1469598103934665603ul;
  for (int i = 2; i < n; i++)
    h = (h ^ (unsigned long)from[i]) * 1099511628211ul;
  size_t k = h % WAYS;
  while (at.way[k].way && at.way[k].way != h)
    k = (k + 1) % WAYS;
  if (!at.way[k].way) at.way[k].first = number;
  at.way[k].way = h;
  at.way[k].last = number;
}

static int from_gsl(void *caller)
{
  Dl_info whose;
  at.inside = 1;
  int found = dladdr(caller, &whose) && whose.dli_fname && strstr(whose.dli_fname, "libgsl");
  at.inside = 0;
  return found;
}

static int struck(void *caller)
{
  if (!at.on || at.inside) return 0;
  at.n++;
  if (at.ways_on) remember(at.n);
  int bad = at.strike && (at.n == at.strike || (at.after && at.n > at.strike));
  at.struck += (size_t)bad;
  if (bad) at.in_gsl += from_gsl(caller);
  return bad;
}

static void *counted(void *p)
{
  if (p && !at.inside) at.live++;
  return p;
}

void *malloc(size_t n)
{
  return struck(__builtin_return_address(0)) ? NULL : counted(__libc_malloc(n));
}
void *calloc(size_t n, size_t size)
{
  return struck(__builtin_return_address(0)) ? NULL : counted(__libc_calloc(n, size));
}
void *aligned_alloc(size_t align, size_t n)
{
  return struck(__builtin_return_address(0)) ? NULL : counted(__libc_memalign(align, n));
}
void *realloc(void *p, size_t n)
{
  if (struck(__builtin_return_address(0))) return NULL;
  void *q = __libc_realloc(p, n);
  return p ? q : counted(q);
}
void free(void *p)
{
  if (p && !at.inside) at.live--;
  __libc_free(p);
}

/* ---------------------------------------------------------------- a study, struck */

/* A study: its status and a figure that tells its result. Leaves nothing behind. */
typedef pw_status (*study)(void *desk, double *figure, pw_err *err);

static pw_status once(study made, void *desk, size_t strike, int after, double *figure,
                      pw_err *err)
{
  *err = (pw_err){0};
  *figure = (double)NAN;
  at.n = at.struck = 0;
  at.in_gsl = 0;
  at.strike = strike;
  at.after = after;
  at.on = 1;
  pw_status s = made(desk, figure, err);
  at.on = 0;
  return s;
}

/* An allocation that fails, alone or with all after it. */
typedef struct strike {
  size_t number;
  int after;
} strike;

static int rising(const void *a, const void *b)
{
  const strike *x = a, *y = b;
  if (x->number != y->number) return x->number < y->number ? -1 : 1;
  return x->after - y->after;
}

static void strike_all(const char *name, study made, void *desk)
{
  pw_err err;
  double want, got;
  if (once(made, desk, 0, 0, &want, &err) != PW_OK) /* what is kept for good is made now */
    fail_msg("%s: %s", name, err.text);
  memset(at.way, 0, sizeof at.way);
  at.ways_on = 1;
  assert_int_equal(once(made, desk, 0, 0, &got, &err), PW_OK);
  at.ways_on = 0;
  assert_true(got == want);
  static strike list[2 * WAYS];
  size_t n = 0, all = at.n, refused = 0;
  for (size_t k = 0; k < WAYS; k++) {
    if (!at.way[k].way) continue;
    list[n++] = (strike){at.way[k].first, 0};
    list[n++] = (strike){at.way[k].last, 1};
  }
  qsort(list, n, sizeof *list, rising);
  assert_true(n > 0);
  for (size_t k = 0; k < n; k++) {
    const char *how = list[k].after ? ", and all after it" : "";
    long live = at.live;
    pw_status s = once(made, desk, list[k].number, list[k].after, &got, &err);
    if (at.struck == 0) fail_msg("%s: allocation %zu was not met again", name, list[k].number);
    /* GSL 2.7 forgets what it had when a part of a matrix, vector (1) or eigenvalue workspace (4) fails. */
    if (at.live < live || at.live > live + 4 * at.in_gsl)
      fail_msg("%s: allocation %zu fails%s: %ld left (%s)", name, list[k].number, how,
               at.live - live, err.text);
    if (!(s == PW_E_NOMEM && err.code == PW_E_NOMEM) && !(s == PW_OK && got == want))
      fail_msg("%s: allocation %zu fails%s: status %d, %s; %g for %g", name, list[k].number,
               how, (int)s, err.text, got, want);
    refused += s == PW_E_NOMEM;
  }
  print_message("%s: %zu allocations, %zu of %zu runs refused\n", name, all, refused, n);
  assert_true(refused > 0);
}
#endif

#endif
