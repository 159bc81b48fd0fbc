#include "panewright/spread.h"

#include <gsl/gsl_cdf.h>
#include <math.h>
#include <string.h>

#include "panewright/table.h"

pw_status pw_spread_check(const pw_spread *spread, pw_err *err)
{
  if (!isfinite(spread->mode))
    return pw_fail(err, PW_E_DOMAIN, "spread", "the value is not finite");
  if (spread->shape == PW_SHAPE_FIXED) return PW_OK;
  if (!(isfinite(spread->low) && isfinite(spread->high) && spread->low <= spread->high))
    return pw_fail(err, PW_E_DOMAIN, "spread", "upside down: %g .. %g, want low .. high",
                   spread->low, spread->high);
  if (!(spread->low <= spread->mode && spread->mode <= spread->high))
    return pw_fail(err, PW_E_DOMAIN, "spread", "%g lies outside %g .. %g", spread->mode,
                   spread->low, spread->high);
  return PW_OK;
}

static double normal_sd(const pw_spread *s) { return 0.25 * (s->high - s->low); }

/* Closed form: the density rises straight to the mode and falls straight from it. */
static double triangular_at(const pw_spread *s, double p)
{
  double width = s->high - s->low, left = s->mode - s->low, right = s->high - s->mode;
  if (p * width <= left) return s->low + sqrt(p * width * left);
  return s->high - sqrt((1.0 - p) * width * right);
}

static double normal_at(const pw_spread *s, double p)
{
  double sd = normal_sd(s);
  double below = gsl_cdf_ugaussian_P((s->low - s->mode) / sd);
  double above = gsl_cdf_ugaussian_P((s->high - s->mode) / sd);
  double z = gsl_cdf_ugaussian_Pinv(below + p * (above - below));
  return fmin(s->high, fmax(s->low, s->mode + sd * z));
}

double pw_spread_at(const pw_spread *spread, double p)
{
  if (spread->shape == PW_SHAPE_FIXED || spread->high <= spread->low) return spread->mode;
  switch (spread->shape) {
  case PW_SHAPE_UNIFORM:
    return spread->low + p * (spread->high - spread->low);
  case PW_SHAPE_TRIANGULAR:
    return triangular_at(spread, p);
  default:
    return normal_at(spread, p);
  }
}

double pw_spread_mean(const pw_spread *spread)
{
  if (spread->shape == PW_SHAPE_FIXED || spread->high <= spread->low) return spread->mode;
  if (spread->shape == PW_SHAPE_UNIFORM) return 0.5 * (spread->low + spread->high);
  if (spread->shape == PW_SHAPE_TRIANGULAR)
    return (spread->low + spread->mode + spread->high) / 3.0;
  double sd = normal_sd(spread);
  double a = (spread->low - spread->mode) / sd, b = (spread->high - spread->mode) / sd;
  double density = (exp(-0.5 * a * a) - exp(-0.5 * b * b)) / sqrt(2.0 * acos(-1.0));
  return spread->mode + sd * density / (gsl_cdf_ugaussian_P(b) - gsl_cdf_ugaussian_P(a));
}

/* The row of a key for an origin, else for any; -1 none. */
static long row_of(const pw_table *t, const char *key, pw_origin origin)
{
  static const char *const name[] = {"assumed",  "table", "stated",
                                     "measured", "label", "computed"};
  const char *want = (size_t)origin < sizeof name / sizeof name[0] ? name[origin] : "";
  int key_col = pw_table_column(t, "key"), origin_col = pw_table_column(t, "origin");
  long any = -1;
  for (size_t r = 0; t && r < t->n_row; r++) {
    if (strcmp(pw_table_text(t, r, key_col), key) != 0) continue;
    const char *have = pw_table_text(t, r, origin_col);
    if (strcmp(have, want) == 0) return (long)r;
    if (strcmp(have, "any") == 0) any = (long)r;
  }
  return any;
}

static pw_shape shape_of(const char *word)
{
  if (strcmp(word, "uniform") == 0) return PW_SHAPE_UNIFORM;
  return strcmp(word, "normal") == 0 ? PW_SHAPE_NORMAL : PW_SHAPE_TRIANGULAR;
}

pw_status pw_spread_of(const char *key, const pw_given *given, pw_spread *spread, pw_err *err)
{
  static const char of_job[] = "range given in the job";
  double v = given->value;
  if (!isfinite(v)) return pw_fail(err, PW_E_DOMAIN, "spread", "%s has no value", key);
  if (!(given->spread >= 0.0 && isfinite(given->spread)))
    return pw_fail(err, PW_E_DOMAIN, "spread", "%s +- %g, want a width of 0 or more", key,
                   given->spread);
  const pw_table *t = pw_table_find("spreads");
  long r = row_of(t, key, given->origin);
  if (r < 0) return pw_fail(err, PW_E_DOMAIN, "spread", "no spread is known for '%.40s'", key);
  if (given->spread > 0.0) {
    *spread =
        (pw_spread){PW_SHAPE_UNIFORM, v - given->spread, v, v + given->spread, of_job, "given"};
    return PW_OK;
  }
  size_t row = (size_t)r;
  int factor = strcmp(pw_table_text(t, row, pw_table_column(t, "scale")), "factor") == 0;
  double low = pw_table_number(t, row, pw_table_column(t, "low"));
  double high = pw_table_number(t, row, pw_table_column(t, "high"));
  double a = factor ? v * low : v + low, b = factor ? v * high : v + high;
  *spread = (pw_spread){shape_of(pw_table_text(t, row, pw_table_column(t, "shape"))),
                        fmin(a, b),
                        v,
                        fmax(a, b),
                        pw_table_text(t, row, pw_table_column(t, "source")),
                        pw_table_text(t, row, pw_table_column(t, "how_known"))};
  return pw_spread_check(spread, err);
}

pw_status pw_spread_of_model(int cooling, pw_spread *spread, pw_err *err)
{
  static const char source[] =
      "half width of the results of Standard 140-2020 over their mean, "
      "window cases, as standard deviation over 1.27 (six results)";
  static const char *const cases[] = {"600", "610", "620", "630", "660", "670",
                                      "680", "900", "910", "920", "930"};
  /* Mean range of six normal values is 2.534 standard deviations (control chart constant d2). */
  const double half_range_sd = 2.534 / 2.0;
  const pw_table *t = pw_table_find("climate/std140_2020_ranges");
  int id = pw_table_column(t, "case"), what = pw_table_column(t, "quantity");
  int period = pw_table_column(t, "period");
  const char *want = cooling ? "annual sensible cooling load" : "annual heating load";
  double sum = 0.0;
  size_t n = 0;
  for (size_t r = 0; t && r < t->n_row; r++) {
    if (strcmp(pw_table_text(t, r, what), want) != 0) continue;
    if (strcmp(pw_table_text(t, r, period), "year") != 0) continue;
    for (size_t c = 0; c < sizeof cases / sizeof cases[0]; c++) {
      if (strcmp(pw_table_text(t, r, id), cases[c]) != 0) continue;
      double low = pw_table_number(t, r, pw_table_column(t, "min"));
      double high = pw_table_number(t, r, pw_table_column(t, "max"));
      sum += 0.5 * (high - low) / pw_table_number(t, r, pw_table_column(t, "mean"));
      n++;
    }
  }
  if (n == 0) return pw_fail(err, PW_E_DATA, "spread", "no row '%s'", want);
  double half = 2.0 * sum / (double)n / half_range_sd; /* two standard deviations */
  *spread = (pw_spread){PW_SHAPE_NORMAL, 1.0 - half, 1.0, 1.0 + half, source, "computed"};
  return PW_OK;
}
