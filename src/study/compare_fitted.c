/* The comparison, first stage: the glass of every window, each build-up once, which window stands where, openings
 * fitted, cautions of the job. */
#include <stdlib.h>
#include <string.h>

#include "glass/same.h"
#include "study/compare_impl.h"
#include "window/fit_job.h"
#include "window/opening_package.h"

static pw_status existing_glass(const pw_job *job, size_t i, pw_glazing built[], pw_err *err)
{
  const pw_opening *o = &job->opening[i];
  pw_package done;
  const pw_buildup *glass = &o->existing_glass;
  if (o->standing == PW_DONE) {
    pw_opening_package(job, 0, o, &done);
    glass = &done.glass;
  }
  for (size_t k = 0; k < i; k++) {
    const pw_opening *same = &job->opening[k];
    if (o->standing == PW_DONE || same->standing == PW_DONE ||
        strcmp(same->existing_glass_text, o->existing_glass_text) != 0)
      continue;
    built[i] = built[k];
    return PW_OK;
  }
  return pw_compare_blame(pw_glazing_build(glass, &built[i], err), err, "opening", o->tag);
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
static pw_status list_glass(const pw_job *job, pw_compare_fitted *f, pw_err *err)
{
  size_t np = job->n_package, n = job->n_opening;
  pw_buildup *seen = calloc(np + np * n, sizeof *seen);
  size_t *at = calloc(np * n, sizeof *at);
  f->package_buildup = seen;
  f->glass_at[0] = at;
  if (!seen || !at) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the glass");
  for (size_t p = 0; p < np; p++) {
    seen[p] = job->package[p].glass;
    f->glass_at[p] = at + p * n;
  }
  f->n_glass = np;
  for (size_t p = 0; p < np; p++)
    for (size_t i = 0; i < n; i++) {
      const pw_opening *o = &job->opening[i];
      pw_package k;
      size_t row = pw_opening_package_row(o, p);
      pw_opening_package(job, p, o, &k);
      int plain = buildup_same(&k.glass, &seen[row]);
      at[p * n + i] = plain ? row : seen_at(seen, &f->n_glass, &k.glass);
    }
  return PW_OK;
}

static pw_status package_glass(const pw_job *job, pw_compare_fitted *f, pw_err *err)
{
  pw_glazing *built = calloc(f->n_glass, sizeof *built);
  f->package_glass = built;
  if (!built) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the glass");
  for (size_t k = 0; k < f->n_glass; k++) {
    pw_status status = pw_glazing_build(&f->package_buildup[k], &built[k], err);
    if (status == PW_OK) continue;
    if (k < job->n_package)
      return pw_compare_blame(status, err, "package", job->package[k].name);
    size_t at = 0;
    while (f->glass_at[0][at] != k)
      at++;
    return pw_compare_blame(status, err, "opening", job->opening[at % job->n_opening].tag);
  }
  return PW_OK;
}

static pw_status build_glass(const pw_job *job, pw_compare_fitted *f, pw_err *err)
{
  pw_glazing *built = calloc(job->n_opening, sizeof *built);
  f->existing_glass = built;
  if (!built) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the comparison");
  pw_status status = PW_OK;
  for (size_t i = 0; status == PW_OK && i < job->n_opening; i++)
    status = existing_glass(job, i, built, err);
  if (status == PW_OK) status = list_glass(job, f, err);
  return status == PW_OK ? package_glass(job, f, err) : status;
}

pw_status pw_compare_make_fitted(const pw_job *job, pw_compare_fitted *f, pw_err *err)
{
  size_t n = job->n_opening;
  pw_fit *fit = calloc(n * job->n_package, sizeof *fit);
  if (!fit) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the comparison");
  for (size_t p = 0; p < job->n_package; p++)
    f->fit[p] = fit + p * n;
  pw_status status = build_glass(job, f, err);
  for (size_t p = 0; status == PW_OK && p < job->n_package; p++)
    status = pw_fit_job(job, p, fit + p * n, err);
  return status == PW_OK ? pw_cautions_find(job, f->fit[0], &f->cautions, err) : status;
}

void pw_compare_fitted_free(pw_compare_fitted *f)
{
  free((void *)f->existing_glass);
  free((void *)f->package_glass);
  free((void *)f->package_buildup);
  free((void *)f->glass_at[0]);
  free((void *)f->fit[0]);
  pw_cautions_free(&f->cautions);
}

int pw_compare_replaces(const pw_job *job, size_t opening)
{
  return job->opening[opening].standing == PW_REPLACED;
}

const pw_glazing *pw_compare_glass(const pw_job *job, const pw_compare_fitted *f, int package,
                                   size_t opening)
{
  if (package < 0 || !pw_compare_replaces(job, opening)) return &f->existing_glass[opening];
  return &f->package_glass[f->glass_at[package][opening]];
}

size_t pw_compare_n_replaced(const pw_job *job)
{
  size_t n = 0;
  for (size_t i = 0; i < job->n_opening; i++)
    n += (size_t)pw_compare_replaces(job, i);
  return n;
}

size_t pw_compare_first(const pw_job *job)
{
  for (size_t i = 0; i < job->n_opening; i++)
    if (pw_compare_replaces(job, i)) return i;
  return 0;
}

int pw_compare_is_old(const pw_job *job, int package, size_t opening)
{
  pw_standing standing = job->opening[opening].standing;
  return standing == PW_STAYS || standing == PW_LATER ||
         (standing == PW_REPLACED && package < 0);
}

int pw_compare_is_stuck(const pw_job *job, int package, size_t opening)
{
  return job->opening[opening].sash_leak == PW_SASH_STUCK &&
         pw_compare_is_old(job, package, opening);
}

const pw_lites *pw_compare_lites(const pw_job *job, const pw_compare_fitted *f, int package,
                                 size_t opening)
{
  const pw_fit *fit = &f->fit[package < 0 ? 0 : package][opening];
  return pw_compare_is_old(job, package, opening) ? &fit->existing : &fit->insert;
}
