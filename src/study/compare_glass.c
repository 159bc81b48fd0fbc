/* The glass of every window of a comparison, each build-up once, and which window stands where. */
#include <stdlib.h>
#include <string.h>

#include "glass/same.h"
#include "study/compare_impl.h"
#include "window/opening_package.h"

static pw_status existing_glass(pw_compare *c, size_t i, pw_err *err)
{
  const pw_opening *o = &c->job->opening[i];
  pw_package done;
  const pw_buildup *glass = &o->existing_glass;
  if (o->standing == PW_DONE) {
    pw_opening_package(c->job, 0, o, &done);
    glass = &done.glass;
  }
  for (size_t k = 0; k < i; k++) {
    const pw_opening *same = &c->job->opening[k];
    if (o->standing == PW_DONE || same->standing == PW_DONE ||
        strcmp(same->existing_glass_text, o->existing_glass_text) != 0)
      continue;
    c->existing_glass[i] = c->existing_glass[k];
    return PW_OK;
  }
  return pw_compare_blame(pw_glazing_build(glass, &c->existing_glass[i], err), err, "opening",
                          o->tag);
}

/* The place of a build-up among those seen, which it joins when it is new. */
static size_t seen_at(pw_buildup seen[], size_t *n, const pw_buildup *glass)
{
  for (size_t k = 0; k < *n; k++)
    if (buildup_same(&seen[k], glass)) return k;
  seen[*n] = *glass;
  return (*n)++;
}

/* Glass of the packages first, in their order, then what openings have of their own. */
static pw_status list_glass(pw_compare *c, pw_err *err)
{
  const pw_job *job = c->job;
  size_t np = c->n_package;
  pw_buildup *seen = calloc(np + np * c->n_opening, sizeof *seen);
  if (!seen) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the glass");
  for (size_t p = 0; p < np; p++)
    seen[p] = job->package[p].glass;
  c->n_glass = np;
  for (size_t p = 0; p < np; p++)
    for (size_t i = 0; i < c->n_opening; i++) {
      const pw_opening *o = &job->opening[i];
      pw_package k;
      size_t row = pw_opening_package_row(o, p);
      pw_opening_package(job, p, o, &k);
      int plain = buildup_same(&k.glass, &seen[row]);
      c->glass_at[p * c->n_opening + i] = plain ? row : seen_at(seen, &c->n_glass, &k.glass);
    }
  c->package_buildup = seen;
  return PW_OK;
}

pw_status pw_compare_build_glass(pw_compare *c, pw_err *err)
{
  pw_status status = PW_OK;
  for (size_t i = 0; status == PW_OK && i < c->n_opening; i++)
    status = existing_glass(c, i, err);
  if (status == PW_OK) status = list_glass(c, err);
  if (status == PW_OK) {
    c->package_glass = calloc(c->n_glass, sizeof *c->package_glass);
    if (!c->package_glass) status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for the glass");
  }
  for (size_t k = 0; status == PW_OK && k < c->n_glass; k++) {
    status = pw_glazing_build(&c->package_buildup[k], &c->package_glass[k], err);
    if (status == PW_OK) continue;
    size_t at = 0;
    while (k >= c->n_package && c->glass_at[at] != k)
      at++;
    status =
        k < c->n_package
            ? pw_compare_blame(status, err, "package", c->job->package[k].name)
            : pw_compare_blame(status, err, "opening", c->job->opening[at % c->n_opening].tag);
  }
  return status;
}

int pw_compare_replaces(const pw_compare *c, size_t opening)
{
  return c->job->opening[opening].standing == PW_REPLACED;
}

const pw_glazing *pw_compare_glass(const pw_compare *c, int package, size_t opening)
{
  if (package < 0 || !pw_compare_replaces(c, opening)) return &c->existing_glass[opening];
  return &c->package_glass[c->glass_at[(size_t)package * c->n_opening + opening]];
}

size_t pw_compare_n_replaced(const pw_compare *c)
{
  size_t n = 0;
  for (size_t i = 0; i < c->n_opening; i++)
    n += (size_t)pw_compare_replaces(c, i);
  return n;
}

size_t pw_compare_first(const pw_compare *c)
{
  for (size_t i = 0; i < c->n_opening; i++)
    if (pw_compare_replaces(c, i)) return i;
  return 0;
}

int pw_compare_is_old(const pw_compare *c, int package, size_t opening)
{
  pw_standing standing = c->job->opening[opening].standing;
  return standing == PW_STAYS || standing == PW_LATER ||
         (standing == PW_REPLACED && package < 0);
}

const pw_lites *pw_compare_lites(const pw_compare *c, int package, size_t opening)
{
  const pw_fit *fit = pw_compare_fit(c, package < 0 ? 0 : (size_t)package, opening);
  return pw_compare_is_old(c, package, opening) ? &fit->existing : &fit->insert;
}
