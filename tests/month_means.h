/* Months out of the hours of a weather year, for tests of years that are made of months. */
#ifndef TESTS_MONTH_MEANS_H
#define TESTS_MONTH_MEANS_H

#include <string.h>

#include "climate/sky.h"
#include "panewright/units.h"

typedef struct month_means {
  double t_mean, t_dew; /* C */
  double wind;          /* m/s */
  double sky_loss;      /* K, air less sky temperature */
  double ghi;           /* kWh/m2 of the month */
  int hours;
} month_means;

/* month[12] of that year; sky_loss by pw_sky_temperature. */
static void month_means_of(const pw_weather *w, month_means month[12])
{
  memset(month, 0, 12 * sizeof *month);
  for (int m = 0; m < 12; m++) {
    int from = pw_month_start[m] * 24, n = pw_month_days[m] * 24;
    month_means *s = &month[m];
    for (int i = from; i < from + n; i++) {
      const pw_hour *h = &w->hour[i];
      s->t_mean += (double)h->t_air / n;
      s->t_dew += (double)h->t_dew / n;
      s->wind += (double)h->wind / n;
      s->sky_loss +=
          (pw_k((double)h->t_air) - pw_sky_temperature(h, i % 24, PW_CLEAR_BERDAHL)) / n;
      s->ghi += (double)h->ghi / 1000.0;
    }
    s->hours = n;
  }
}

#endif
