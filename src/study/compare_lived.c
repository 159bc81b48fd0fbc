/* Which windows the house year counts: those of rooms that the house heats or cools. */
#include <string.h>

#include "study/compare_impl.h"

size_t pw_compare_lived(const pw_compare *c, pw_house_window window[])
{
  size_t n = 0;
  for (size_t i = 0; i < c->n_opening; i++)
    if (!c->job->opening[i].unconditioned) window[n++] = window[i];
  return n;
}

void pw_compare_put_back(const pw_compare *c, pw_year_result *year)
{
  size_t n = year->n_window;
  for (size_t i = c->n_opening; i-- > 0;)
    if (c->job->opening[i].unconditioned)
      memset(&year->window[i], 0, sizeof year->window[i]);
    else if (n > 0)
      year->window[i] = year->window[--n];
  year->n_window = c->n_opening;
}

int pw_compare_hourly(const pw_compare *c)
{
  for (size_t f = 0; f < PW_FUEL_COUNT; f++)
    if (c->rates.tariff[f]) return 1;
  return 0;
}
