#include "out/promise_out.h"
#include "out/text_stream.h"

#include <math.h>
#include <string.h>

#include "out/grid.h"
#include "out/result.h"
#include "panewright/rates.h"

typedef struct list {
  const pw_promised *of;
  pw_promise_row *row;
  size_t n;
  pw_date date;
  const char *version;
} list;

static void add(list *l, const char *what, const char *package, const pw_band *b)
{
  pw_promise_row *r = &l->row[l->n++];
  *r = (pw_promise_row){.date = l->date, .p10 = b->p10, .p50 = b->p50, .p90 = b->p90};
  snprintf(r->version, sizeof r->version, "%.8s", l->version);
  pw_promise_figure(what, package, l->of->compare->job->dwelling, r->figure);
}

static void add_result(list *l, pw_result result, const char *package, const pw_range_set *s)
{
  add(l, pw_result_of(result)->ranged, package, pw_result_band(result, s));
}

/* By meter: where electricity heats, one meter counts both. */
static void add_fuels(list *l, const char *package, const pw_range_set *s)
{
  const pw_rates *rates = &l->of->compare->billed.rates;
  int heats = rates->heats, one = heats && rates->heating_fuel == PW_FUEL_ELECTRICITY;
  char what[32];
  if (heats) {
    pw_promise_fuel_figure(rates->heating_fuel, what);
    add(l, what, package, one ? &s->saving_normal_kwh : &s->saving_heating_fuel_kwh);
  }
  if (rates->cools && !one) {
    pw_promise_fuel_figure(PW_FUEL_ELECTRICITY, what);
    add(l, what, package, &s->saving_cooling_kwh);
  }
}

size_t pw_promise_rows(const pw_promised *promised, pw_date date, const char *version,
                       pw_promise_row row[PW_PROMISE_ROWS])
{
  const pw_compare *c = promised->compare;
  list l = {promised, row, 0, date, version};
  for (size_t p = 0; p < c->n_package && l.n + 4 <= PW_PROMISE_ROWS; p++) {
    const pw_range_set *s = &promised->range->package[p];
    const char *name = c->rated.package_set[p].name;
    add_result(&l, PW_RESULT_SAVING, name, s);
    add_fuels(&l, name, s);
    if (c->billed.package_set[p].price > 0.0) add_result(&l, PW_RESULT_PAYBACK, name, s);
  }
  return l.n;
}

static void number(double v, char text[32])
{
  text[0] = '\0';
  if (isfinite(v)) snprintf(text, 32, "%.7g", v);
}

int pw_promise_same(const pw_promise_row *a, const pw_promise_row *b)
{
  const double *const x[2][3] = {{&a->p10, &a->p50, &a->p90}, {&b->p10, &b->p50, &b->p90}};
  if (strcmp(a->version, b->version) != 0 || strcmp(a->figure, b->figure) != 0) return 0;
  for (int k = 0; k < 3; k++) {
    char text[2][32];
    number(*x[0][k], text[0]);
    number(*x[1][k], text[1]);
    if (strcmp(text[0], text[1]) != 0) return 0;
  }
  return 1;
}

pw_status pw_promise_write(const pw_promise_row row[], size_t n, int header, FILE *f,
                           pw_err *err)
{
  if (header) fputs("date,version,figure,p10,p50,p90\n", f);
  for (size_t i = 0; i < n; i++) {
    const double v[3] = {row[i].p10, row[i].p50, row[i].p90};
    char day[11];
    pw_date_write(row[i].date, day);
    fprintf(f, "%s,%s,", day, row[i].version);
    pw_csv_cell(f, row[i].figure);
    for (int k = 0; k < 3; k++) {
      char text[32];
      number(v[k], text);
      fprintf(f, ",%s", text);
    }
    fputc('\n', f);
  }
  return pw_text_written(f, "promise.csv", err);
}
