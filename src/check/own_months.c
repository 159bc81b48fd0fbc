#include "check/own_months.h"

#include <math.h>
#include <string.h>

static void add_day(const pw_hour hour[24], int n_day, pw_month_normal *n)
{
  double high = -INFINITY, low = INFINITY, part = 1.0 / (24.0 * n_day);
  for (int k = 0; k < 24; k++) {
    const pw_hour *h = &hour[k];
    high = fmax(high, (double)h->t_air);
    low = fmin(low, (double)h->t_air);
    n->t_mean += part * (double)h->t_air;
    n->t_dew += part * (double)h->t_dew;
    n->wind += part * (double)h->wind;
    n->ghi += 24e-3 * part * (double)h->ghi;
    n->dni += 24e-3 * part * (double)h->dni;
    n->dhi += 24e-3 * part * (double)h->dhi;
  }
  double above = 1.8 * 0.5 * (high + low) + 32.0 - 65.0; /* F */
  n->t_day_max += high / n_day;
  n->t_day_min += low / n_day;
  n->t_highest = fmax(n->t_highest, high);
  n->t_lowest = fmin(n->t_lowest, low);
  n->hdd65 += fmax(-above, 0.0);
  n->cdd65 += fmax(above, 0.0);
}

void pw_check_own_months(const pw_weather *weather, pw_place *place)
{
  memset(place, 0, sizeof *place);
  place->site = weather->site;
  for (int m = 0; m < 12; m++) {
    pw_month_normal *n = &place->month[m];
    n->t_highest = -INFINITY;
    n->t_lowest = INFINITY;
    for (int d = pw_month_start[m]; d < pw_month_start[m] + pw_month_days[m]; d++)
      add_day(&weather->hour[24 * d], pw_month_days[m], n);
  }
}
