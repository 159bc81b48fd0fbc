/* What published forms do to the years of a comparison, lived once each: a surface of second order follows a film
 * that is 5 % or 70 % thicker, but not four formulas in a row, so it is fitted to what they leave. */
#include <stdlib.h>
#include <string.h>

#include "study/range_impl.h"

static size_t outputs(const range_case *rc) { return rc->n_set * RANGE_MONTHS; }

static size_t levels(const range_case *rc, pw_form_kind kind)
{
  return (size_t)rc->input[IN_FORM + kind].spread.high + 1;
}

static size_t usual(const range_case *rc, pw_form_kind kind)
{
  return (size_t)rc->input[IN_FORM + kind].spread.mode;
}

/* A year with everything in the middle of its spread and these places of the forms, and where it belongs. */
typedef struct form_run {
  size_t place[PW_FORM_KINDS];
  double *year;
} form_run;

enum { RUNS_MAX = RANGE_FORMS_MAX * (RANGE_FORMS_MAX + PW_FORM_KINDS) };
typedef struct form_runs {
  const range_case *rc;
  size_t n;
  form_run run[RUNS_MAX];
} form_runs;

static void chances(const void *context, size_t k, double u[])
{
  const form_runs *r = context;
  const range_case *rc = r->rc;
  for (size_t i = 0; i < rc->n_in; i++) {
    const size_t form = rc->which[i] - IN_FORM; /* wraps where it is none */
    u[i] = form < PW_FORM_KINDS
               ? ((double)r->run[k].place[form] + 0.5) / (double)levels(rc, (pw_form_kind)form)
               : 0.5;
  }
}

/* The films together, for each thins out what the other does; the others one by one. The year in which all are the usual
 * ones is lived once. */
static void list_runs(const range_case *rc, range_forms *f, form_runs *r)
{
  form_run usually = {.year = NULL};
  for (int k = 0; k < PW_FORM_KINDS; k++)
    usually.place[k] = usual(rc, (pw_form_kind)k);
  for (size_t o = 0; o < levels(rc, PW_FORM_FILM_OUT); o++)
    for (size_t i = 0; i < levels(rc, PW_FORM_FILM_IN); i++) {
      form_run *run = &r->run[r->n++];
      *run = usually;
      run->place[PW_FORM_FILM_OUT] = o;
      run->place[PW_FORM_FILM_IN] = i;
      run->year = f->film[o][i];
    }
  for (int k = PW_FORM_SKY_LIGHT; k < PW_FORM_KINDS; k++)
    for (size_t i = 0; i < levels(rc, (pw_form_kind)k); i++) {
      if (i == usually.place[k]) continue;
      form_run *run = &r->run[r->n++];
      *run = usually;
      run->place[k] = i;
      run->year = f->other[k][i];
    }
}

/* Gives each year its place, the usual one wherever nothing else is. */
static void take_years(const range_case *rc, const form_runs *r, const double y[],
                       range_forms *f)
{
  const size_t size = outputs(rc) * sizeof *y;
  for (size_t k = 0; k < r->n; k++)
    memcpy(r->run[k].year, y + k * outputs(rc), size);
  memcpy(f->usual, f->film[usual(rc, PW_FORM_FILM_OUT)][usual(rc, PW_FORM_FILM_IN)], size);
  for (int k = PW_FORM_SKY_LIGHT; k < PW_FORM_KINDS; k++)
    memcpy(f->other[k][usual(rc, (pw_form_kind)k)], f->usual, size);
  f->n_year = r->n * rc->n_set;
}

pw_status range_forms_of(const range_case *rc, int n_thread, range_forms **out, pw_err *err)
{
  range_forms *f = calloc(1, sizeof *f);
  form_runs *r = calloc(1, sizeof *r);
  pw_status s = f && r ? PW_OK : pw_fail(err, PW_E_NOMEM, "draws", "no memory for the forms");
  if (s == PW_OK) {
    r->rc = rc;
    list_runs(rc, f, r);
    pw_range_plan plan = range_years_plan(rc, r->n, n_thread);
    plan.point = chances;
    plan.point_context = r;
    pw_range_result years;
    s = pw_range_run(&plan, &years, err);
    if (s == PW_OK) take_years(rc, r, years.y, f);
    if (s == PW_OK) pw_range_free(&years);
  }
  free(r);
  if (s == PW_OK)
    *out = f;
  else
    free(f);
  return s;
}

void range_forms_free(range_forms *forms) { free(forms); }

void range_forms_add(const range_case *rc, const range_forms *f, const double v[IN_COUNT],
                     double sign, double year[])
{
  size_t place[PW_FORM_KINDS];
  for (int k = 0; k < PW_FORM_KINDS; k++)
    place[k] = (size_t)v[IN_FORM + k];
  const double *film = f->film[place[PW_FORM_FILM_OUT]][place[PW_FORM_FILM_IN]];
  for (size_t i = 0; i < outputs(rc); i++) {
    double all = film[i];
    for (int k = PW_FORM_SKY_LIGHT; k < PW_FORM_KINDS; k++)
      all += f->other[k][place[k]][i] - f->usual[i];
    year[i] += sign * all;
  }
}
