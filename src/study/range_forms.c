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

/* A year with everything in the middle of its spread and these places of the forms. */
static pw_status live(const range_case *rc, range_room *room, const size_t place[PW_FORM_KINDS],
                      range_forms *f, double y[], pw_err *err)
{
  double u[IN_COUNT];
  for (size_t k = 0; k < rc->n_in; k++) {
    const size_t form = rc->which[k] - IN_FORM; /* wraps where it is none */
    u[k] = form < PW_FORM_KINDS
               ? ((double)place[form] + 0.5) / (double)levels(rc, (pw_form_kind)form)
               : 0.5;
  }
  f->n_year += rc->n_set;
  return range_year(rc, room, u, y, err);
}

/* The films together, for each thins out what the other does; the others one by one. The year in which all are the usual
 * ones is lived once. */
static pw_status live_all(const range_case *rc, range_room *room, range_forms *f, pw_err *err)
{
  size_t place[PW_FORM_KINDS];
  for (int k = 0; k < PW_FORM_KINDS; k++)
    place[k] = usual(rc, (pw_form_kind)k);
  const size_t out = place[PW_FORM_FILM_OUT], in = place[PW_FORM_FILM_IN];
  pw_status s = PW_OK;
  for (size_t o = 0; s == PW_OK && o < levels(rc, PW_FORM_FILM_OUT); o++)
    for (size_t i = 0; s == PW_OK && i < levels(rc, PW_FORM_FILM_IN); i++) {
      place[PW_FORM_FILM_OUT] = o;
      place[PW_FORM_FILM_IN] = i;
      s = live(rc, room, place, f, f->film[o][i], err);
    }
  place[PW_FORM_FILM_OUT] = out;
  place[PW_FORM_FILM_IN] = in;
  memcpy(f->usual, f->film[out][in], sizeof f->usual);
  for (int k = PW_FORM_SKY_LIGHT; s == PW_OK && k < PW_FORM_KINDS; k++) {
    const size_t as_ever = place[k];
    for (size_t i = 0; s == PW_OK && i < levels(rc, (pw_form_kind)k); i++) {
      place[k] = i;
      if (i == as_ever)
        memcpy(f->other[k][i], f->usual, sizeof f->usual);
      else
        s = live(rc, room, place, f, f->other[k][i], err);
    }
    place[k] = as_ever;
  }
  return s;
}

pw_status range_forms_of(const range_case *rc, range_forms **out, pw_err *err)
{
  range_forms *f = calloc(1, sizeof *f);
  range_room *room = range_room_new(rc);
  pw_status s =
      f && room ? PW_OK : pw_fail(err, PW_E_NOMEM, "draws", "no memory for the forms");
  if (s == PW_OK) s = live_all(rc, room, f, err);
  range_room_free(room);
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
