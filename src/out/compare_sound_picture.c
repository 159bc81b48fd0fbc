/* Picture of the change of sound by opening and package. */
#include <math.h>
#include <stdio.h>

#include "out/compare_out.h"
#include "out/compare_sound_out.h"
#include "out/job_title.h"
#include "out/plot.h"

enum { PACKAGES = 4 }; /* as in the other pictures */

pw_status pw_compare_sound_picture(const pw_compare *c, const pw_compare_sound *s,
                                   const char *dir, pw_err *err)
{
  size_t k = c->n_package < PACKAGES ? c->n_package : PACKAGES;
  double low = -3.0, high = 3.0;
  char title[120];
  pw_plot *p = pw_plot_new("plots/sound_change.gp");
  pw_compare_names(p, c, NULL);
  snprintf(title, sizeof title, "How much quieter each opening gets: %.70s",
           pw_job_title(c->job).text);
  pw_plot_text(p, "title", title);
  pw_plot_block(p, "C");
  for (size_t i = 0; i < c->n_opening; i++)
    for (size_t q = 0; q < k; q++) {
      const pw_band *b = &s->package[q * c->n_opening + i].change;
      double at = (double)i + 1.0 + 0.2 * ((double)q - 0.5 * (double)(k - 1));
      pw_plot_row(p, "fffff", at, b->p10, b->p50, b->p90, (double)(q + 1));
      low = fmin(low, b->p10);
      high = fmax(high, b->p90);
    }
  pw_plot_end_block(p);
  pw_plot_block(p, "X");
  for (size_t i = 0; i < c->n_opening; i++)
    pw_plot_row(p, "fs", (double)i + 1.0, c->job->opening[i].tag);
  pw_plot_end_block(p);
  pw_plot_number(p, "n", (double)c->n_opening);
  pw_plot_number(p, "low", floor(low) - 1.0);
  pw_plot_number(p, "high", ceil(high) + 1.0);
  pw_status status = pw_plot_write_both(p, dir, "sound", 900, 430, err);
  pw_plot_free(p);
  return status;
}
