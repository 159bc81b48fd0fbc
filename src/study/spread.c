#include "study/spread.h"

#include <gsl/gsl_cdf.h>
#include <math.h>
#include <string.h>

#include "gen/reference.h"

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
  if (spread->shape == PW_SHAPE_SOME &&
      !(spread->mode - spread->low <= 0.5 * (spread->high - spread->low)))
    return pw_fail(err, PW_E_DOMAIN, "spread", "a mean of %g, want %g at most: half way",
                   spread->mode, 0.5 * (spread->low + spread->high));
  return PW_OK;
}

/* Mean = low + share (high - low) / 2. */
static double some_at(const pw_spread *s, double p)
{
  double share = 2.0 * (s->mode - s->low) / (s->high - s->low);
  if (!(p > 1.0 - share)) return s->low;
  return s->low + (p - (1.0 - share)) / share * (s->high - s->low);
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
  case PW_SHAPE_CHOICE:
    return fmin(spread->high, spread->low + floor(p * (spread->high - spread->low + 1.0)));
  case PW_SHAPE_UNIFORM:
    return spread->low + p * (spread->high - spread->low);
  case PW_SHAPE_TRIANGULAR:
    return triangular_at(spread, p);
  case PW_SHAPE_SOME:
    return some_at(spread, p);
  default:
    return normal_at(spread, p);
  }
}

/* The words of origin and shape stand in schema.csv in the order of their enums, "any" last. */
_Static_assert((int)pw_ref_spreads__origin_assumed == PW_ORIGIN_ASSUMED &&
                   (int)pw_ref_spreads__origin_measured == PW_ORIGIN_MEASURED &&
                   (int)pw_ref_spreads__origin_computed == PW_ORIGIN_COMPUTED,
               "spreads: enums of the schema");

/* The row of a key for an origin, else for any; NULL none. */
static const pw_ref_spreads_row *row_of(const char *key, pw_origin origin)
{
  const pw_ref_spreads_row *any = NULL;
  for (size_t r = 0; r < pw_ref_spreads__n; r++) {
    const pw_ref_spreads_row *row = &pw_ref_spreads[r];
    if (strcmp(row->key, key) != 0) continue;
    if (row->origin == (unsigned)origin) return row;
    if (row->origin == pw_ref_spreads__origin_any) any = row;
  }
  return any;
}

static pw_shape shape_of(unsigned shape)
{
  return shape == pw_ref_spreads__shape_uniform  ? PW_SHAPE_UNIFORM
         : shape == pw_ref_spreads__shape_normal ? PW_SHAPE_NORMAL
         : shape == pw_ref_spreads__shape_some   ? PW_SHAPE_SOME
                                                 : PW_SHAPE_TRIANGULAR;
}

pw_status pw_spread_of(const char *key, const pw_given *given, pw_spread *spread, pw_err *err)
{
  static const char of_job[] = "range given in the job";
  double v = given->value;
  if (!isfinite(v)) return pw_fail(err, PW_E_DOMAIN, "spread", "%s has no value", key);
  if (!(given->spread >= 0.0 && isfinite(given->spread)))
    return pw_fail(err, PW_E_DOMAIN, "spread", "%s +- %g, want a width of 0 or more", key,
                   given->spread);
  const pw_ref_spreads_row *row = row_of(key, given->origin);
  if (!row) return pw_fail(err, PW_E_DOMAIN, "spread", "no spread is known for '%.40s'", key);
  if (given->spread > 0.0) {
    *spread =
        (pw_spread){PW_SHAPE_UNIFORM, v - given->spread, v, v + given->spread, of_job, "given"};
    return PW_OK;
  }
  int factor = row->scale == pw_ref_spreads__scale_factor;
  double a = factor ? v * row->low : v + row->low, b = factor ? v * row->high : v + row->high;
  *spread =
      (pw_spread){shape_of(row->shape), fmin(a, b), v, fmax(a, b), row->source, row->how_known};
  return pw_spread_check(spread, err);
}

/* Mean range of six normal values is 2.534 standard deviations (control chart constant d2). */
static const double half_range_sd = 2.534 / 2.0;

int pw_standard140_case(int cooling, const char *id, double *low, double *high, double *mean)
{
  const char *want = cooling ? "annual sensible cooling load" : "annual heating load";
  for (size_t r = 0; r < pw_ref_climate_std140_2020_ranges__n; r++) {
    const pw_ref_climate_std140_2020_ranges_row *row = &pw_ref_climate_std140_2020_ranges[r];
    if (strcmp(row->quantity, want) != 0 || strcmp(row->period, "year") != 0 ||
        strcmp(row->case_, id) != 0)
      continue;
    *low = row->min;
    *high = row->max;
    *mean = row->mean;
    return 1;
  }
  return 0;
}

/* Standard deviation of the factor common to a model's results. */
static double model_sd(int cooling)
{
  static const char *const cases[] = {"600", "610", "620", "630", "660", "670",
                                      "680", "900", "910", "920", "930"};
  double sum = 0.0, n = 0.0, low, high, mean;
  for (size_t c = 0; c < sizeof cases / sizeof cases[0]; c++)
    if (pw_standard140_case(cooling, cases[c], &low, &high, &mean)) {
      sum += 0.5 * (high - low) / mean;
      n += 1.0;
    }
  return n > 0.0 ? sum / n / half_range_sd : (double)NAN;
}

pw_status pw_spread_of_model(int cooling, pw_spread *spread, pw_err *err)
{
  static const char source[] =
      "half width of the results of Standard 140-2020 over their mean, "
      "window cases, as standard deviation over 1.27 (six results)";
  double sd = model_sd(cooling);
  if (!isfinite(sd)) return pw_fail(err, PW_E_DATA, "spread", "no results of Standard 140");
  *spread =
      (pw_spread){PW_SHAPE_NORMAL, 1.0 - 2.0 * sd, 1.0, 1.0 + 2.0 * sd, source, "computed"};
  return PW_OK;
}

pw_status pw_spread_of_effect(int cooling, pw_spread *spread, pw_err *err)
{
  static const char source[] = "results of Standard 140-2020 for 670 to 600 and 600 to 660, "
                               "high in both cases or low in "
                               "both";
  static const char *const step[][2] = {{"670", "600"}, {"600", "660"}};
  double sum = 0.0;
  for (size_t i = 0; i < 2; i++) {
    double low[2], high[2], mean[2];
    for (size_t k = 0; k < 2; k++)
      if (!pw_standard140_case(cooling, step[i][k], &low[k], &high[k], &mean[k]))
        return pw_fail(err, PW_E_DATA, "spread", "no results of Standard 140 case %s",
                       step[i][k]);
    double highest = high[0] - high[1], lowest = low[0] - low[1];
    sum += 0.5 * fabs(highest - lowest) / fabs(mean[0] - mean[1]);
  }
  double sd = sum / 2.0 / half_range_sd;
  *spread =
      (pw_spread){PW_SHAPE_NORMAL, 1.0 - 2.0 * sd, 1.0, 1.0 + 2.0 * sd, source, "computed"};
  return PW_OK;
}
