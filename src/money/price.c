#include "money/price.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "money/worth.h"
#include "panewright/fit.h"
#include "panewright/units.h"
#include "window/opening_label.h"
#include "window/opening_package.h"

/* ---------------------------------------------------------------- rows */

double pw_united_size(const pw_opening *opening)
{
  const double hair = 1e-6; /* in: what the way through metres has added */
  const pw_shape_size z = pw_fit_measured(opening);
  return (ceil(z.width / PW_INCH - hair) + ceil(z.height / PW_INCH - hair)) * PW_INCH;
}

/* The narrowest row of an item that fits the window; NULL none. */
static pw_status row_for(const pw_job *job, const pw_scope_window *window, const char *item,
                         const char *tag, const pw_price_row **found, pw_err *err)
{
  const pw_scope *scope[PW_PRICES_MAX];
  const pw_price_row *row[PW_PRICES_MAX];
  size_t n = 0, best = 0, rival = 0;
  *found = NULL;
  for (size_t i = 0; i < job->n_price && n < PW_PRICES_MAX; i++) {
    const pw_price_row *r = &job->price[i];
    if (strcmp(r->item, item) != 0 || !pw_scope_fits(&r->scope, window)) continue;
    row[n] = r;
    scope[n++] = &r->scope;
  }
  if (n == 0) return PW_OK;
  if (pw_scope_narrowest(scope, n, &best, &rival) != PW_OK) {
    int a = row[best]->line, b = row[rival]->line;
    return pw_fail_at(
        err, PW_E_DATA, job->prices_name, a > b ? a : b, 0,
        "%s, package %s: lines %d and %d fit alike%s%s; want one that says all that "
        "the other says and more",
        tag, window->package, a < b ? a : b, a > b ? a : b, item[0] ? " for " : "", item);
  }
  *found = row[best];
  return PW_OK;
}

/* $ of one window by a row: one of the two prices is enough. */
static pw_given by_row(const pw_price_row *row, double area)
{
  return (pw_given){.value = pw_given_or(&row->per_opening, 0.0) +
                             area * pw_given_or(&row->per_area, 0.0),
                    .spread = row->per_opening.spread + area * row->per_area.spread,
                    .origin = PW_ORIGIN_STATED,
                    .source = "prices.csv",
                    .line = row->line};
}

static const pw_package *package_of(const pw_job *job, size_t column, const pw_opening *opening)
{
  return &job->package[pw_opening_package_row(opening, column)];
}

static pw_status row_of_opening(const pw_job *job, size_t column, const pw_opening *opening,
                                const char *item, const pw_price_row **row, pw_err *err)
{
  pw_option_list option;
  pw_option_list_of(opening, &option);
  const pw_scope_window window = {package_of(job, column, opening)->name,
                                  (int)opening->operator_insert, &option,
                                  pw_united_size(opening)};
  return row_for(job, &window, item, opening->tag, row, err);
}

pw_status pw_price_of_window(const pw_job *job, size_t column, const pw_opening *opening,
                             double area, pw_given *price, pw_err *err)
{
  const pw_price_row *row = NULL;
  if (pw_given_is(&opening->price)) {
    *price = opening->price;
    price->source = "openings.csv";
    return PW_OK;
  }
  pw_status status = row_of_opening(job, column, opening, "", &row, err);
  if (status != PW_OK) return status;
  if (row) {
    *price = by_row(row, area);
    return PW_OK;
  }
  const pw_package *package = package_of(job, column, opening);
  const pw_given *one = &package->price_per_opening, *m2 = &package->price_per_area;
  *price = (pw_given){.value = pw_given_or(one, 0.0) + area * pw_given_or(m2, 0.0),
                      .spread = one->spread + area * m2->spread,
                      .origin = pw_given_is(one) ? one->origin : m2->origin,
                      .source = "packages.csv",
                      .line = one->line > 0 ? one->line : m2->line};
  return PW_OK;
}

pw_status pw_price_of_item(const pw_job *job, size_t column, const pw_opening *opening,
                           double area, const char *item, pw_given *price, pw_err *err)
{
  const pw_price_row *row = NULL;
  *price = (pw_given){0};
  pw_status status = row_of_opening(job, column, opening, item, &row, err);
  if (status == PW_OK && row) *price = by_row(row, area);
  return status;
}

/* ---------------------------------------------------------------- sums */

int pw_price_is_of_job(const pw_job *job, const char *item)
{
  static const char *const of_job[] = {"permit", "disposal", "discount", "tax"};
  for (size_t i = 0; i < sizeof of_job / sizeof of_job[0]; i++)
    if (strcmp(item, of_job[i]) == 0) return 1;
  for (size_t i = 0; i < job->n_price; i++)
    if (strcmp(job->price[i].item, item) == 0 && pw_given_is(&job->price[i].per_job)) return 1;
  return 0;
}

/* The part of an item, made when it is not there yet; NULL when there is no room. */
static pw_price_part *part_of(pw_price *p, const char *item)
{
  for (size_t i = 0; i < p->n_part; i++)
    if (strcmp(p->part[i].item, item) == 0) return &p->part[i];
  if (p->n_part == PW_PRICE_PARTS_MAX) return NULL;
  pw_price_part *part = &p->part[p->n_part++];
  *part = (pw_price_part){0};
  snprintf(part->item, sizeof part->item, "%s", item);
  return part;
}

static pw_status add(pw_price *p, const char *item, double times, const pw_given *price,
                     pw_err *err)
{
  pw_price_part *part = part_of(p, item);
  if (!part)
    return pw_fail(err, PW_E_SHAPE, "prices", "more than %d parts of a price",
                   PW_PRICE_PARTS_MAX);
  if (!(isfinite(price->value) && price->value >= 0.0))
    return pw_fail(err, PW_E_DOMAIN, "price", "$%g for %s, want 0 or more", price->value, item);
  part->count += times;
  part->value += (times > 0.0 ? times : 1.0) * price->value;
  part->spread += (times > 0.0 ? times : 1.0) * price->spread;
  return PW_OK;
}

/* An option by its own name or, without such a row, its general one. */
static pw_status add_option(const pw_job *job, size_t column, const pw_opening *o, double area,
                            double times, const pw_option_name *name, pw_price *p, pw_err *err)
{
  const char *const item[] = {name->own, name->general};
  for (size_t k = 0; k < 2; k++) {
    pw_given price;
    if (!item[k][0] || pw_price_is_of_job(job, item[k])) continue;
    pw_status status = pw_price_of_item(job, column, o, area, item[k], &price, err);
    if (status != PW_OK) return status;
    if (pw_given_is(&price)) return add(p, item[k], times, &price, err);
  }
  return PW_OK;
}

/* Windows and their options. */
static pw_status add_opening(const pw_job *job, size_t column, const pw_opening *o, double area,
                             double times, pw_price *p, pw_err *err)
{
  pw_given price;
  pw_option_name name[PW_OPTIONS_MAX];
  pw_status status = pw_price_of_window(job, column, o, area, &price, err);
  if (status == PW_OK) status = add(p, "windows", times, &price, err);
  if (status == PW_OK && !pw_given_is(&price)) p->unpriced += (int)times;
  if (status == PW_OK && pw_given_is(&o->price_options))
    return add(p, "options", times, &o->price_options, err);
  size_t n = pw_option_names(o, name);
  for (size_t k = 0; status == PW_OK && k < n; k++)
    status = add_option(job, column, o, area, times, &name[k], p, err);
  return status;
}

/* An item of the job for all its windows and once. */
static pw_status add_item(const pw_job *job, size_t column, const double area[],
                          const int counts[], const char *item, pw_price *p, pw_err *err)
{
  static const pw_option_list none = {0};
  pw_status status = PW_OK;
  pw_given price;
  for (size_t i = 0; status == PW_OK && i < job->n_opening; i++) {
    double times = counts ? counts[i] : job->opening[i].quantity;
    if (!(times > 0.0)) continue;
    status = pw_price_of_item(job, column, &job->opening[i], area[i], item, &price, err);
    if (status == PW_OK && price.value > 0.0) status = add(p, item, times, &price, err);
  }
  const pw_price_row *row = NULL;
  const pw_scope_window all = {job->package[column].name, -1, &none,
                               -1.0}; /* no kind, no size */
  if (status == PW_OK) status = row_for(job, &all, item, "the job", &row, err);
  if (status == PW_OK && row && pw_given_is(&row->per_job))
    status = add(p, item, 0.0, &row->per_job, err);
  return status;
}

/* The row of tax or discount for a package: a share, or dollars. */
static pw_status rate(const pw_job *job, size_t column, const char *item, double base,
                      pw_given *share, pw_given *dollars, pw_err *err)
{
  static const pw_option_list none = {0};
  const pw_price_row *row = NULL;
  const pw_scope_window all = {job->package[column].name, -1, &none,
                               -1.0}; /* no kind, no size */
  *share = *dollars = (pw_given){0};
  pw_status status = row_for(job, &all, item, "the job", &row, err);
  if (status != PW_OK || !row) return status;
  *share = row->share;
  *dollars = row->per_job;
  if (dollars->value > base) dollars->value = base;
  return PW_OK;
}

/* Discount and tax, and the sum. */
static pw_status finish(const pw_job *job, size_t column, pw_price *p, double base,
                        double base_spread, double other, double other_spread, pw_err *err)
{
  pw_given off, off_dollars, tax, tax_dollars;
  pw_status status = rate(job, column, "discount", base, &off, &off_dollars, err);
  if (status == PW_OK) status = rate(job, column, "tax", base, &tax, &tax_dollars, err);
  if (status != PW_OK) return status;
  double less = off.value * base + off_dollars.value, taxed = base - less;
  double spread = (1.0 - off.value) * base_spread + off.spread * base + off_dollars.spread;
  double levy = tax.value * taxed + tax_dollars.value;
  double levy_spread = tax.value * spread + tax.spread * taxed + tax_dollars.spread;
  pw_price_part *part;
  if (less > 0.0 && (part = part_of(p, "discount")) != NULL) {
    part->value = -less;
    part->spread = off.value * base_spread + off.spread * base + off_dollars.spread;
  }
  if (levy > 0.0 && (part = part_of(p, "tax")) != NULL) {
    part->value = levy;
    part->spread = levy_spread;
  }
  p->value = taxed + levy + other;
  p->spread = spread + levy_spread + other_spread;
  return PW_OK;
}

/* As packages.csv alone prices a job: windows and area of one package in the order of the job, then the
 * packages in theirs, so that the prices of phases add up to the whole but for the last digits. */
static pw_status by_package(const pw_job *job, size_t column, const double area[],
                            const int counts[], pw_price *p, pw_err *err)
{
  for (size_t row = 0; row < job->n_package; row++) {
    const pw_package *package = &job->package[row];
    double n = 0.0, sum = 0.0, value = 0.0;
    for (size_t i = 0; i < job->n_opening; i++) {
      double times = counts ? counts[i] : job->opening[i].quantity;
      if (!(times > 0.0) || pw_opening_package_row(&job->opening[i], column) != row) continue;
      n += times;
      sum += times * area[i];
    }
    if (!(n > 0.0)) continue;
    pw_status status =
        pw_installed_price(pw_given_or(&package->price_per_opening, 0.0),
                           pw_given_or(&package->price_per_area, 0.0), n, sum, &value, err);
    if (status != PW_OK) return status;
    p->value += value;
    p->spread += n * package->price_per_opening.spread + sum * package->price_per_area.spread;
    p->n_opening += n;
    p->area += sum;
  }
  return PW_OK;
}

static int has_tables(const pw_job *job)
{
  if (job->n_price > 0) return 1;
  for (size_t i = 0; i < job->n_opening; i++)
    if (pw_given_is(&job->opening[i].price) || pw_given_is(&job->opening[i].price_options))
      return 1;
  return 0;
}

pw_status pw_price_of(const pw_job *job, size_t column, const double area[], const int counts[],
                      pw_price *price, pw_err *err)
{
  pw_price p = {0};
  pw_status status = PW_OK;
  if (!has_tables(job)) {
    status = by_package(job, column, area, counts, &p, err);
    if (status == PW_OK) *price = p;
    return status;
  }
  p.by_table = 1;
  for (size_t i = 0; status == PW_OK && i < job->n_opening; i++) {
    double times = counts ? counts[i] : job->opening[i].quantity;
    if (!(times > 0.0)) continue;
    p.n_opening += times;
    p.area += times * area[i];
    status = add_opening(job, column, &job->opening[i], area[i], times, &p, err);
  }
  if (status == PW_OK && !(p.n_opening > 0.0)) { /* no work, no permit */
    *price = p;
    return PW_OK;
  }
  double base = 0.0, base_spread = 0.0, other = 0.0, other_spread = 0.0;
  size_t n_base = p.n_part;
  for (size_t k = 0; k < n_base; k++) {
    base += p.part[k].value;
    base_spread += p.part[k].spread;
  }
  for (size_t r = 0; status == PW_OK && r < job->n_price; r++) {
    const char *item = job->price[r].item;
    size_t first = 0;
    while (strcmp(job->price[first].item, item) != 0)
      first++;
    if (first < r || !item[0] || !pw_price_is_of_job(job, item) || strcmp(item, "tax") == 0 ||
        strcmp(item, "discount") == 0)
      continue;
    status = add_item(job, column, area, counts, item, &p, err);
  }
  for (size_t k = n_base; k < p.n_part; k++) {
    other += p.part[k].value;
    other_spread += p.part[k].spread;
  }
  if (status == PW_OK)
    status = finish(job, column, &p, base, base_spread, other, other_spread, err);
  if (status == PW_OK && p.unpriced) p.value = p.spread = 0.0;
  if (status == PW_OK) *price = p;
  return status;
}
