/* climate/month_days and month_air: the temperatures of a made month's days, and the hours of its air, beside hand computations
 * from the relations and the constants of reference/climate/made_year.csv. */
#include "support.h"

#include <math.h>
#include <stdlib.h>

#include "climate/month_impl.h"

static int rising(const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

/* ---------------------------------------------------------------- temperatures of hand-made days
 *
 * Normal scores of 30 days, (i + 1/2) / 30 (normal table): the coldest day -2.128045, the fifteenth -0.041789. */
static const double z_top = 2.128045, z_mid = 0.041789;

static month_draws shared_draws;

/* A June whose days have so much sun outside the air (Wh/m2), all alike; NULL for draws: its own. Static. */
static const month_day *june_with(pw_month_normal normal, double outside, double sunset,
                                  const month_draws *draws)
{
  static month_day day[MONTH_YEAR_DAYS];
  pw_place place = {.site = {"x", 40.0, -105.0, -7.0, 1600.0}};
  for (int i = 0; i < MONTH_YEAR_DAYS; i++)
    day[i] = (month_day){.outside = outside, .sunset = sunset};
  place.month[5] = normal;
  month_plan(&place, 5, draws, day);
  return &day[pw_month_start[5]];
}

typedef struct means {
  double t[30]; /* from cold to warm */
  double sum, swing;
} means;

static means means_of(pw_month_normal normal)
{
  means m = {.sum = 0.0};
  month_draw(&shared_draws);
  const month_day *d = june_with(normal, 0.0, 1.5, &shared_draws);
  for (int i = 0; i < 30; i++) {
    m.t[i] = d[i].t_mean;
    m.sum += d[i].t_mean / 30.0;
    m.swing += d[i].t_swing / 30.0;
  }
  qsort(m.t, 30, sizeof m.t[0], rising);
  return m;
}

/* A month around mid by its mean daily range and how far its extremes run past it. */
static pw_month_normal around(double mid, double range, double up, double down)
{
  return (pw_month_normal){.t_mean = mid,
                           .t_day_max = mid + 0.5 * range,
                           .t_day_min = mid - 0.5 * range,
                           .t_highest = mid + 0.5 * range + up,
                           .t_lowest = mid - 0.5 * range - down};
}

/* Daily means spread by half the reach ((up + down) / 2) and lean by -0.24 + 0.86 (up - down) / reach, held to 0.8 (constants of
 * reference/climate/made_year.csv). Of Cornish & Fisher 1938 to the skewness, t = deviation (z + skew / 6 (z^2 - 1)), by hand:
 * warmest less coldest day is 2 deviation z_top, their sum less that of the two in the middle 2 deviation skew / 6 (z_top^2 - z_mid^2),
 * z_top^2 - z_mid^2 = 4.526829. Up 6, down 4: deviation 2.5, skew 0.104. */
static void daily_means_spread_and_lean_as_the_extremes_do(void **state)
{
  (void)state;
  static const struct {
    double range, up, down, deviation, skew;
  } row[] = {{10.0, 6.0, 4.0, 2.5, 0.104},
             {10.0, 4.0, 4.0, 2.0, -0.24},
             {30.0, 9.0, 1.0, 2.5, 0.8},
             {30.0, 1.0, 9.0, 2.5, -0.8}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    const means m = means_of(around(20.0, row[i].range, row[i].up, row[i].down));
    pw_assert_near(m.sum, 20.0, 1e-9, "mean of the month", "kept");
    pw_assert_near(m.t[29] - m.t[0], 2.0 * row[i].deviation * z_top, 1e-5, "spread", "by hand");
    pw_assert_near(m.t[29] + m.t[0] - m.t[14] - m.t[15],
                   row[i].deviation * row[i].skew / 3.0 * 4.526829, 1e-5, "lean", "by hand");
    pw_assert_near(m.t[15] - m.t[14], 2.0 * row[i].deviation * z_mid, 1e-5, "middle",
                   "by hand");
  }
  /* extremes within the mean daily ones: no reach, days alike, 0.80 of the range */
  const means still = means_of(around(20.0, 10.0, -1.0, -1.0));
  pw_assert_near(still.t[0], 20.0, 1e-12, "coldest", "no reach");
  pw_assert_near(still.t[29], 20.0, 1e-12, "warmest", "no reach");
  pw_assert_near(still.swing, 8.0, 1e-9, "swing", "0.80 of 10 K");
}

/* Degree days from daily extremes (65 F is 18.333 C): their sum is 1.8 times what the days' means are away from it. No lean where
 * up - down is 0.24 / 0.86 of the reach, 6 K here: deviation 3 without degree days, and between 1.5 and 6 with them. */
static void degree_days_set_the_spread(void **state)
{
  (void)state;
  const double up = 6.0 + 0.5 * 0.24 / 0.86 * 6.0, down = 12.0 - up;
  static const double mid[] = {18.333, 20.333, 17.333};
  for (size_t i = 0; i < 3; i++) {
    pw_month_normal n = around(mid[i], 20.0, up, down);
    double away = 0.0;
    n.hdd65 = 130.0;
    n.cdd65 = 10.0;
    const means m = means_of(n);
    for (int k = 0; k < 30; k++)
      away += 1.8 * fabs(m.t[k] - 18.333);
    pw_assert_near(away, 140.0, 0.02, "heating and cooling degree days", "the month's");
    n.cdd65 = 9.99; /* of too few days to tell */
    pw_assert_near(means_of(n).t[29] - means_of(n).t[0], 2.0 * 3.0 * z_top, 1e-5,
                   "few cooling degree days", "by the reach");
    n.cdd65 = 130.0;
    n.hdd65 = 9.99;
    pw_assert_near(means_of(n).t[29] - means_of(n).t[0], 2.0 * 3.0 * z_top, 1e-5,
                   "few heating degree days", "by the reach");
  }
  pw_month_normal n = around(18.333, 80.0, up, down); /* so wide that no day is cut */
  n.hdd65 = n.cdd65 = 10.0;
  pw_assert_near(means_of(n).t[29] - means_of(n).t[0], 2.0 * 1.5 * z_top, 1e-3, "least",
                 "half of 3");
  n.hdd65 = n.cdd65 = 500.0;
  pw_assert_near(means_of(n).t[29] - means_of(n).t[0], 2.0 * 6.0 * z_top, 1e-3, "most",
                 "twice 3");
}

/* No day's hours run past what the month has seen: the degree days ask for a deviation of 2 K, the extremes leave the days
 * 0.5 (1 - 0.7636) 10 + up above the mean and as much + down below. Where more is cut, days touch. */
static void days_stay_within_the_extremes(void **state)
{
  (void)state;
  static const struct {
    double up, down;
    int warm; /* which side touches */
  } row[] = {{2.0, 2.0, 0}, {1.0, 3.0, 1}};
  for (size_t i = 0; i < 2; i++) {
    pw_month_normal n = around(20.0, 10.0, row[i].up, row[i].down);
    n.hdd65 = n.cdd65 = 100.0;
    const means m = means_of(n);
    double high = 20.0 + 1.182 + row[i].up, low = 20.0 - 1.182 - row[i].down;
    pw_assert_near(m.swing, 7.636, 1e-9, "swing", "0.80 - 0.182 0.2, by hand");
    pw_assert_near(m.sum, 20.0, 1e-9, "mean", "kept");
    assert_true(m.t[29] <= high + 1e-5 && m.t[0] >= low - 1e-5);
    if (row[i].warm)
      pw_assert_near(m.t[29], high, 1e-5, "warmest day", "touches");
    else
      pw_assert_near(m.t[0], low, 1e-5, "coldest day", "touches");
  }
}

/* Mean swing over the mean daily range: 0.80 + 0.456 clearness - 0.182 reach / range, held between 0.3 and 1 (made_year.csv); by
 * the day's own clearness 0.65 of its relative change, never below 0.2 of a mean day. */
static void the_swing_follows_reach_and_clearness(void **state)
{
  (void)state;
  static const struct {
    double k, range, reach, share;
  } row[] = {{0.0, 10.0, 5.0, 0.709},  {0.0, 1.0, 9.0, 0.3},  {0.0, 0.4, 2.0, 0.80},
             {0.4, 10.0, 5.0, 0.8914}, {0.7, 10.0, 2.0, 1.0}, {0.06, 10.0, 5.0, 0.73636}};
  month_draw(&shared_draws);
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_month_normal n = around(20.0, row[i].range, row[i].reach, row[i].reach);
    double sum = 0.0;
    n.ghi = row[i].k * 10.0;
    n.dhi = 0.5 * n.ghi;
    const month_day *d = june_with(n, 10e3, 1.9, &shared_draws);
    for (int k = 0; k < 30; k++) {
      double kd = d[k].ghi / 10e3,
             own = row[i].k > 0.0 ? 1.0 + 0.65 * (kd / row[i].k - 1.0) : 1.0;
      sum += d[k].t_swing / 30.0;
      pw_assert_near(d[k].t_swing / d[0].t_swing,
                     fmax(own, 0.2) /
                         (row[i].k > 0.0
                              ? fmax(1.0 + 0.65 * (d[0].ghi / 10e3 / row[i].k - 1.0), 0.2)
                              : 1.0),
                     1e-9, "swing of a day over another's", "made_year.csv, by hand");
    }
    pw_assert_near(sum, row[i].share * row[i].range, 1e-9, "mean swing", "by hand");
  }
}

/* Days alike have the month's mean and the whole of its mean daily range. */
static void days_alike_are_the_normals(void **state)
{
  (void)state;
  pw_month_normal n = around(20.0, 10.0, 5.0, 5.0);
  n.ghi = 6.0;
  n.dhi = 2.0;
  const month_day *d = june_with(n, 10e3, 1.9, NULL);
  for (int i = 0; i < 30; i += 29) {
    pw_assert_near(d[i].t_mean, 20.0, 0.0, "mean", "normal");
    pw_assert_near(d[i].t_swing, 10.0, 0.0, "swing", "normal");
    pw_assert_near(d[i].ghi, 6000.0, 1e-9, "global", "normal");
    pw_assert_near(d[i].dhi, 2000.0, 1e-9, "diffuse", "normal");
  }
}

/* ---------------------------------------------------------------- draws */

static double lag_one(const double x[], int n)
{
  double with = 0.0, square = 0.0;
  for (int i = 1; i < n; i++) {
    with += x[i] * x[i - 1];
    square += x[i] * x[i];
  }
  return with / square;
}

/* What is new in a score is uniform with variance 1 - memory^2, so never beyond sqrt(3 (1 - memory^2)), and nearly reaches that;
 * memory from made_year.csv: 0.28, 0.69, 0.84. */
static void scores_remember_as_much_as_told(void **state)
{
  (void)state;
  month_draw(&shared_draws);
  const struct {
    const double *x;
    int n;
    double memory, most, within;
  } row[] = {{shared_draws.clear, MONTH_YEAR_DAYS, 0.28, 1.66277, 0.1},
             {shared_draws.warm, MONTH_YEAR_DAYS, 0.69, 1.25368, 0.1},
             {shared_draws.wind, PW_HOURS, 0.84, 0.93978, 0.02}};
  for (size_t r = 0; r < 3; r++) {
    double most = 0.0, mean = 0.0, square = 0.0;
    for (int i = 0; i < row[r].n; i++) {
      mean += row[r].x[i] / row[r].n;
      square += row[r].x[i] * row[r].x[i] / row[r].n;
      if (i > 0) most = fmax(most, fabs(row[r].x[i] - row[r].memory * row[r].x[i - 1]));
    }
    pw_assert_near(mean, 0.0, 0.3, "mean", "0");
    pw_assert_near(square, 1.0, 0.2, "variance", "1");
    pw_assert_near(lag_one(row[r].x, row[r].n), row[r].memory, row[r].within, "memory",
                   "made_year.csv");
    assert_true(most <= row[r].most + 1e-5);
    assert_true(most > 0.97 * row[r].most);
  }
}

/* Warmth goes with clearness by -0.494 + 0.081 for each kWh/m2 outside the air, at most 0.8, whatever the draws share by chance
 * (here much: a day's warmth is led by its clearness). Between normal scores of both; ranks of 30 days blur it by some 0.05. */
static void warmth_goes_with_clearness(void **state)
{
  (void)state;
  static const struct {
    double outside_kwh, by;
  } row[] = {{1.0, -0.413}, {6.1, 0.0}, {11.0, 0.397}, {20.0, 0.8}};
  month_draw(&shared_draws);
  for (int i = 0; i < MONTH_YEAR_DAYS; i++)
    shared_draws.warm[i] += shared_draws.clear[i];
  for (size_t r = 0; r < sizeof row / sizeof row[0]; r++) {
    pw_month_normal n = around(20.0, 10.0, 4.2, 4.2);
    double x = 0.0, y = 0.0, xy = 0.0, xx = 0.0, yy = 0.0;
    n.ghi = 0.4 * row[r].outside_kwh;
    n.dhi = 0.2 * row[r].outside_kwh;
    const month_day *d = june_with(n, 1e3 * row[r].outside_kwh, 1.9, &shared_draws);
    for (int i = 0; i < 30; i++) {
      x += d[i].ghi / d[i].outside / 30.0;
      y += d[i].t_mean / 30.0;
    }
    for (int i = 0; i < 30; i++) {
      double a = d[i].ghi / d[i].outside - x, b = d[i].t_mean - y;
      xy += a * b;
      xx += a * a;
      yy += b * b;
    }
    pw_assert_near(xy / sqrt(xx * yy), row[r].by, 0.08, "correlation", "made_year.csv");
  }
}

/* ---------------------------------------------------------------- hours of the air */

static pw_hour *july_air(pw_month_normal normal, const month_day year[MONTH_YEAR_DAYS],
                         const month_draws *draws)
{
  static pw_hour hour[PW_HOURS];
  pw_place place = {.site = {"x", 40.0, -105.0, -7.0, 1600.0}};
  place.month[6] = normal;
  month_air_hours(&place, 6, year, draws, hour);
  return &hour[24 * pw_month_start[6]];
}

/* The year with all days alike at 20 C. Static. */
static month_day *even_year(double noon_h, double swing)
{
  static month_day year[MONTH_YEAR_DAYS];
  for (int i = 0; i < MONTH_YEAR_DAYS; i++)
    year[i] = (month_day){.noon_h = noon_h, .t_mean = 20.0, .t_swing = swing};
  return year;
}

/* Erbs, Klein & Beckman 1983 (from memory), their sum of four cosines added up by hand for four hours of the sun, each counted at
 * its middle: the coldest is three in the morning, the warmest a quarter to three in the afternoon. */
static const struct {
  int hour;
  double curve;
} erbs_day[] = {{3, -0.411620}, {6, -0.402498}, {12, 0.432751}, {15, 0.506666}};

/* Days alike, 10 K from top to bottom: each hour is the mean and ten times the curve, by the sun and not the clock. */
static void a_day_has_the_curve_of_its_paper(void **state)
{
  (void)state;
  const pw_month_normal n = {.t_mean = 20.0, .t_dew = 10.0, .wind = 3.0};
  for (int late = 0; late < 2; late++) {
    const pw_hour *h = july_air(n, even_year(12.0 + late, 10.0), NULL);
    for (size_t k = 0; k < 4; k++)
      for (int day = 0; day < 31; day += 30)
        pw_assert_near((double)h[24 * day + erbs_day[k].hour + late].t_air,
                       20.0 + 10.0 * erbs_day[k].curve, 2e-5, "hour",
                       "Erbs, Klein & Beckman 1983");
    pw_assert_near((double)h[100].wind, 3.0, 1e-6, "wind", "its mean");
    pw_assert_near((double)h[100].t_dew, 10.0, 1e-6, "dew point", "normal");
  }
}

/* The wind's curve: half an hour behind, -0.390239 at three and 0.522139 at fifteen hours after midnight, times 0.33 + 0.27 global
 * (kWh/m2 a day) over wind (at least 0.5 m/s), at most 1.3 (made_year.csv). What the curve does not spread is Weibull: its
 * shape is deviation^-1.086 (Justus et al. 1978), of deviation^2 = (0.94 sqrt(wind))^(-2 / 1.086) - 0.112355 pull^2, at least 0.04
 * (0.112355: mean square of the curve, half the sum of its squared amplitudes). An hour at the normal score s has
 * (-ln Q(s) / ln 2)^(1 / shape) of one at 0; Q(1) = 0.158655, Q beyond 3 counts as 0.001 and 0.999. Wind 25 has the least
 * deviation, 0.2. By hand for four months. */
static void wind_has_a_curve_and_a_spread(void **state)
{
  (void)state;
  static const struct {
    double wind, ghi, pull, one, five, less;
  } row[] = {{4.05, 6.0, 0.73, 1.58313, 2.9485, 0.0461379},
             {2, 12.0, 1.3, 1.81415, 4.06288, 0.0185338},
             {0.3, 1.0, 0.87, 4.20951, 29.4606, 6.61055e-05},
             {25, 8.0, 0.4164, 1.18544, 1.49241, 0.320121}};
  static month_draws draws;
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    const pw_month_normal n = {
        .t_mean = 20.0, .t_dew = 10.0, .wind = row[i].wind, .ghi = row[i].ghi};
    month_day *year = even_year(13.0, 0.0);
    year[pw_month_start[6] + 15].noon_h = 12.0; /* the middle of the month says for all */
    const pw_hour *h = july_air(n, year, &draws);
    pw_assert_near((double)h[3].wind, row[i].wind * (1.0 - 0.390239 * row[i].pull),
                   1e-5 * row[i].wind, "at three", "by hand");
    pw_assert_near((double)h[24 * 30 + 15].wind, row[i].wind * (1.0 + 0.522139 * row[i].pull),
                   1e-5 * row[i].wind, "at fifteen", "by hand");
    month_draws gusty = draws;
    int from = 24 * pw_month_start[6];
    gusty.wind[from + 15] = 1.0;
    gusty.wind[from + 24 + 15] = 5.0;
    gusty.wind[from + 48 + 15] = -5.0;
    h = july_air(n, year, &gusty);
    double still = (double)h[72 + 15].wind, sum = 0.0;
    pw_assert_near((double)h[15].wind / still, row[i].one, 1e-5 * row[i].one, "score 1",
                   "by hand");
    pw_assert_near((double)h[24 + 15].wind / still, row[i].five, 1e-5 * row[i].five, "score 5",
                   "by hand");
    pw_assert_near((double)h[48 + 15].wind / still, row[i].less, 1e-5 * row[i].less, "score -5",
                   "by hand");
    for (int k = 0; k < 31 * 24; k++)
      sum += (double)h[k].wind / (31 * 24);
    pw_assert_near(sum, row[i].wind, 1e-5 * row[i].wind, "mean", "the month's");
  }
}

/* One day 8 K warmer than all others. Straight lines from noon to noon keep means when noon is 1/8 of the second difference
 * higher: 30 at its noon, 19 at its neighbours', 20 elsewhere. Hours at their middles, by hand; the dew point goes with the day's
 * mean and not above the air. */
static void days_run_into_each_other(void **state)
{
  (void)state;
  static month_draws draws;
  static const struct {
    int day, hour;
    double t;
  } row[] = {{10, 12, 30.0 - 11.0 * 0.5 / 24.0},
             {10, 11, 30.0 - 11.0 * 0.5 / 24.0},
             {10, 23, 30.0 - 11.0 * 11.5 / 24.0},
             {9, 12, 19.0 + 11.0 * 0.5 / 24.0},
             {9, 0, 19.0 + 11.5 / 24.0},
             {11, 0, 19.0 + 11.0 * 11.5 / 24.0},
             {11, 23, 19.0 + 11.5 / 24.0},
             {8, 13, 20.0 - 1.5 / 24.0},
             {20, 5, 20.0}};
  const double mean = 20.0 + 8.0 / 31.0;
  pw_month_normal n = {.t_mean = mean, .t_dew = 10.0, .wind = 3.0, .ghi = 6.0};
  month_day *year = even_year(12.0, 0.0);
  year[pw_month_start[6] + 10].t_mean = 28.0;
  const pw_hour *h = july_air(n, year, &draws);
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    pw_assert_near((double)h[24 * row[i].day + row[i].hour].t_air, row[i].t, 1e-5, "air",
                   "by hand");
  pw_assert_near((double)h[24 * 10 + 5].t_dew, 10.0 + 28.0 - mean, 1e-5, "dew point",
                 "with the day");
  pw_assert_near((double)h[24 * 11 + 5].t_dew, 10.0 + 20.0 - mean, 1e-5, "dew point",
                 "with the day");
  n.t_dew = 25.0;
  h = july_air(n, year, &draws);
  pw_assert_near((double)h[24 * 10 + 12].t_dew, row[0].t, 1e-5, "dew point",
                 "not above the air");
  n.t_mean = mean + 1.0;
  h = july_air(n, year, &draws);
  pw_assert_near((double)h[24 * 20 + 5].t_air, 21.0, 1e-5, "air",
                 "brought to the month's mean");
  n.t_mean = mean;
  h = july_air(n, year, NULL); /* without memory each day has its own */
  pw_assert_near((double)h[24 * 10].t_air, 28.0, 1e-5, "air", "its day's");
  pw_assert_near((double)h[24 * 11].t_air, 20.0, 1e-5, "air", "its day's");
}

/* The last day of the year runs into the first: 31 December 8 K warmer. */
static void the_year_is_a_ring(void **state)
{
  (void)state;
  static month_draws draws;
  static pw_hour hour[PW_HOURS];
  pw_place place = {.site = {"x", 40.0, -105.0, -7.0, 1600.0}};
  month_day *year = even_year(12.0, 0.0);
  year[364].t_mean = 28.0;
  /* means of the hours: 3/4 of a day's noon and 1/8 of each neighbour's */
  place.month[0] = (pw_month_normal){.t_mean = 20.0 + (0.5 - 0.125) / 31.0, .wind = 3.0};
  place.month[11] =
      (pw_month_normal){.t_mean = 20.0 + (7.25 + 0.5 - 0.125) / 31.0, .wind = 3.0};
  month_air_hours(&place, 0, year, &draws, hour);
  month_air_hours(&place, 11, year, &draws, hour);
  pw_assert_near((double)hour[0].t_air, 19.0 + 11.0 * 11.5 / 24.0, 1e-5, "1 January",
                 "by hand");
  pw_assert_near((double)hour[23].t_air, 19.0 + 11.5 / 24.0, 1e-5, "1 January, late",
                 "by hand");
  pw_assert_near((double)hour[PW_HOURS - 1].t_air, 30.0 - 11.0 * 11.5 / 24.0, 1e-5,
                 "31 December", "by hand");
  pw_assert_near((double)hour[PW_HOURS - 24].t_air, 30.0 - 11.0 * 11.5 / 24.0, 1e-5,
                 "31 December, early", "by hand");
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(daily_means_spread_and_lean_as_the_extremes_do),
      cmocka_unit_test(degree_days_set_the_spread),
      cmocka_unit_test(days_stay_within_the_extremes),
      cmocka_unit_test(the_swing_follows_reach_and_clearness),
      cmocka_unit_test(days_alike_are_the_normals),
      cmocka_unit_test(scores_remember_as_much_as_told),
      cmocka_unit_test(warmth_goes_with_clearness),
      cmocka_unit_test(a_day_has_the_curve_of_its_paper),
      cmocka_unit_test(wind_has_a_curve_and_a_spread),
      cmocka_unit_test(days_run_into_each_other),
      cmocka_unit_test(the_year_is_a_ring),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
