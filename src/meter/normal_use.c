#include "meter/normal_use.h"

#include <math.h>
#include <stdlib.h>

#include "base/date.h"
#include "change_variance.h"

enum { YEAR = 365 };
/* Gaps up to this many days of the year are shared out over the other days. */
enum { MISSING_MOST = 15 };

void pw_daily_free(pw_daily *daily)
{
  if (!daily) return;
  free(daily->t);
  *daily = (pw_daily){.n = 0};
}

void pw_normal_set_free(pw_normal_set *set)
{
  if (!set) return;
  free(set->t);
  free(set->weight);
  *set = (pw_normal_set){.n = 0};
}

/* 0..364, or -1 for 29 February. */
static int day_of_year(const pw_daily *d, size_t i, int *year)
{
  static const int start[12] = {0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334};
  if (d->typical) return i < YEAR ? (int)i : -1;
  pw_date date = pw_date_of_day(d->first + (int)i);
  int month = date / 100 % 100, day = date % 100;
  *year = date / 10000;
  return month == 2 && day == 29 ? -1 : start[month - 1] + day - 1;
}

pw_status pw_normal_set_of(const pw_daily *daily, pw_normal_set *set, pw_err *err)
{
  size_t count[YEAR] = {0}, missing = 0;
  pw_normal_set s = {.days = YEAR};
  *set = (pw_normal_set){.n = 0};
  s.t = malloc((daily->n + 1) * sizeof *s.t);
  s.weight = malloc((daily->n + 1) * sizeof *s.weight);
  if (!s.t || !s.weight) {
    pw_normal_set_free(&s);
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu days", daily->n);
  }
  for (int pass = 0; pass < 2; pass++)
    for (size_t i = 0; i < daily->n; i++) {
      int year = 0, day = day_of_year(daily, i, &year);
      if (day < 0 || isnan(daily->t[i])) continue;
      if (isinf(daily->t[i])) {
        pw_normal_set_free(&s);
        return pw_fail(err, PW_E_DOMAIN, "normal", "day %zu is %g C", i, daily->t[i]);
      }
      if (pass == 0) {
        count[day]++;
        if (!s.year_first) s.year_first = year;
        s.year_last = year;
        continue;
      }
      s.t[s.n] = daily->t[i];
      s.weight[s.n++] = 1.0 / (double)count[day];
    }
  for (int k = 0; k < YEAR; k++)
    if (!count[k]) missing++;
  if (missing > MISSING_MOST) {
    pw_normal_set_free(&s);
    return pw_fail(err, PW_E_DATA, "normal",
                   "%zu days of the year have no weather, want at most %d for a normal year",
                   missing, MISSING_MOST);
  }
  for (size_t i = 0; i < s.n; i++)
    s.weight[i] *= (double)YEAR / (double)(YEAR - missing);
  *set = s;
  return PW_OK;
}

void pw_normal_use_of(const pw_change_fit *fit, const pw_normal_set *normal, pw_normal_use *use)
{
  double degree_days[2] = {0.0, 0.0}, days[2] = {0.0, 0.0};
  for (size_t i = 0; i < normal->n; i++) {
    double w = normal->weight[i], t = normal->t[i];
    if (t < fit->balance[0]) {
      degree_days[0] += w * (fit->balance[0] - t);
      days[0] += w;
    }
    if (t > fit->balance[1]) {
      degree_days[1] += w * (t - fit->balance[1]);
      days[1] += w;
    }
  }
  const double g[3][PW_CHANGE_PARAMETERS] = {
      {normal->days, 0.0, 0.0, 0.0, 0.0},
      {0.0, degree_days[0], 0.0, fit->slope[0] * days[0], 0.0},
      {0.0, 0.0, degree_days[1], 0.0, -fit->slope[1] * days[1]}};
  double all[PW_CHANGE_PARAMETERS] = {0.0};
  use->part[0] = normal->days * fit->base;
  use->part[1] = fit->slope[0] * degree_days[0];
  use->part[2] = fit->slope[1] * degree_days[1];
  use->total = use->part[0] + use->part[1] + use->part[2];
  for (int k = 0; k < 3; k++) {
    use->part_se[k] = sqrt(change_variance(fit, g[k]));
    for (int a = 0; a < PW_CHANGE_PARAMETERS; a++)
      all[a] += g[k][a];
  }
  use->total_se = sqrt(change_variance(fit, all));
  use->degree_days[0] = degree_days[0];
  use->degree_days[1] = degree_days[1];
}
