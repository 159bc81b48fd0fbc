/* The sun of a made year: its path by day, the light of its hours. */
#include <math.h>

#include "base/own_math.h"
#include "climate/month_impl.h"
#include "panewright/units.h"

/* Below 2 degrees the beam would be divided by nearly nothing: it counts as diffuse there. */
static const double low_sun = 0.0349;

/* Days from one full computation of the sun to the next; straight lines between miss the declination
 * by 0.014 degrees at most. */
enum { SUN_STEP = 4 };

static pw_sun sun_of_day(const pw_site *site, int day)
{
  int m = pw_month_of_day(day);
  pw_sun sun = {0};
  pw_sun_at(pw_julian_day(2001, m + 1, day - pw_month_start[m] + 1, 12.0 - site->tz_h), 0.0,
            0.0, 0.0, 0.0, &sun, NULL);
  return sun;
}

void month_sun_path(const pw_site *site, month_day day[MONTH_YEAR_DAYS])
{
  double lat = pw_rad(site->latitude_deg);
  pw_sun from = {0}, to = sun_of_day(site, 0);
  for (int i = 0; i < MONTH_YEAR_DAYS; i++) {
    int past = i % SUN_STEP;
    if (past == 0) {
      from = to;
      to = i + SUN_STEP < MONTH_YEAR_DAYS ? sun_of_day(site, i + SUN_STEP) : from;
    }
    double share = (double)past / SUN_STEP;
    double d =
        pw_rad(from.declination_deg + share * (to.declination_deg - from.declination_deg));
    double late = from.equation_of_time_min +
                  share * (to.equation_of_time_min - from.equation_of_time_min);
    double c = -pw_tan(lat) * pw_tan(d);
    month_day *s = &day[i];
    s->declination = d;
    s->sunset = c <= -1.0 ? PW_PI : c >= 1.0 ? 0.0 : pw_acos(c);
    s->noon_h = 12.0 - late / 60.0 + site->tz_h - site->longitude_deg / 15.0;
    s->outside =
        24.0 / PW_PI * pw_sun_extraterrestrial(i + 1) *
        (pw_cos(lat) * pw_cos(d) * pw_sin(s->sunset) + s->sunset * pw_sin(lat) * pw_sin(d));
  }
}

double month_sun_up(const pw_site *site, const month_day *day, double time_h)
{
  double lat = pw_rad(site->latitude_deg), w = (time_h - day->noon_h) * (PW_PI / 12.0);
  return pw_sin(lat) * pw_sin(day->declination) +
         pw_cos(lat) * pw_cos(day->declination) * pw_cos(w);
}

/* The hours of one month, day after day. */
typedef struct sunlit {
  int n_day;
  double up[MONTH_DAYS_MAX * 24]; /* sine of the sun's height; 0 where it is too low for beam */
  double air[MONTH_DAYS_MAX * 24];  /* relative air mass */
  double even[MONTH_DAYS_MAX * 24]; /* share of the day's diffuse */
  double beam[MONTH_DAYS_MAX];      /* Wh/m2 of the day on the horizontal */
} sunlit;

/* Liu & Jordan 1960 (METHODS.md section 4): diffuse goes as the sun outside the air, here over the
 * sunlit part of the hour [from, from + 1]; not normalised. */
static double even_share(const month_day *d, double from)
{
  double ws = d->sunset;
  double w0 = fmax((from - d->noon_h) * (PW_PI / 12.0), -ws);
  double w1 = fmin((from + 1.0 - d->noon_h) * (PW_PI / 12.0), ws);
  return w1 > w0 ? fmax(pw_sin(w1) - pw_sin(w0) - (w1 - w0) * pw_cos(ws), 0.0) : 0.0;
}

static void light_up(const pw_place *p, int month, const month_day day[MONTH_YEAR_DAYS],
                     sunlit *h)
{
  h->n_day = pw_month_days[month];
  for (int i = 0; i < h->n_day; i++) {
    const month_day *d = &day[pw_month_start[month] + i];
    double sum = 0.0, high = 0.0;
    for (int k = 0; k < 24; k++) {
      double up = month_sun_up(&p->site, d, k + 0.5);
      int at = i * 24 + k, lit = up > low_sun;
      h->up[at] = lit ? up : 0.0;
      h->air[at] = lit ? pw_air_mass(90.0 - pw_asin(up) * (180.0 / PW_PI)) : 0.0;
      h->even[at] = even_share(d, k);
      sum += h->even[at];
      high = fmax(high, h->up[at]);
    }
    h->beam[i] = high > 0.0 ? d->ghi - d->dhi : 0.0;
    for (int k = 0; k < 24 && sum > 0.0; k++)
      h->even[i * 24 + k] /= sum;
  }
}

/* Beam at right angles in the hours of a day, Wh/m2: by Beer's law through the air mass, so much that
 * the day's beam on the horizontal is met. Returns its sum. */
static double beam_of_day(const sunlit *h, int i, double turbid, double dni[24])
{
  double flat = 0.0, sum = 0.0;
  for (int k = 0; k < 24; k++) {
    int at = i * 24 + k;
    dni[k] = h->up[at] > 0.0 ? pw_exp(-turbid * h->air[at]) : 0.0;
    flat += dni[k] * h->up[at];
    sum += dni[k];
  }
  double by = flat > 0.0 ? h->beam[i] / flat : 0.0;
  for (int k = 0; k < 24; k++)
    dni[k] *= by;
  return sum * by;
}

/* Extinction by air mass at which the month's normal beam is met beside its global and diffuse: the
 * more of it, the less beam comes in low, where it stands square on east and west walls. Sought from 0
 * to 2; real months show 0.03 to 0.64. */
static double turbidity(const sunlit *h, double dni_month)
{
  double low = 0.0, high = 2.0, dni[24];
  for (int round = 0; round < 12; round++) {
    double mid = 0.5 * (low + high), sum = 0.0;
    for (int i = 0; i < h->n_day; i++)
      sum += beam_of_day(h, i, mid, dni);
    if (sum > dni_month)
      low = mid;
    else
      high = mid;
  }
  return 0.5 * (low + high);
}

void month_sun_hours(const pw_place *p, int month, const month_day day[MONTH_YEAR_DAYS],
                     pw_hour hour[PW_HOURS])
{
  sunlit h;
  light_up(p, month, day, &h);
  double turbid = turbidity(&h, p->month[month].dni * 1000.0 * h.n_day);
  for (int i = 0; i < h.n_day; i++) {
    const month_day *d = &day[pw_month_start[month] + i];
    double dni[24];
    beam_of_day(&h, i, turbid, dni);
    for (int k = 0; k < 24; k++) {
      int at = i * 24 + k;
      pw_hour *o = &hour[(pw_month_start[month] + i) * 24 + k];
      double ghi = (d->ghi - h.beam[i]) * h.even[at] + dni[k] * h.up[at];
      o->dni = (float)fmin(dni[k], 1100.0);
      o->ghi = (float)ghi;
      o->dhi = (float)fmax(ghi - (double)o->dni * h.up[at], 0.0);
    }
  }
}
