/* Picture of a sound reduction: the curve, the other sets around it, the shifted reference of Rw. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/table.h"
#include "out/plot.h"
#include "out/sound_report.h"

pw_status pw_sound_picture(const pw_sound_report *r, const char *path, pw_err *err)
{
  const pw_sound_curve *lead = &r->curve[r->lead];
  const pw_table *bands = pw_table_find("sound/bands");
  int col = bands ? pw_table_column(bands, "rw_reference") : -1;
  char title[140], text[32];
  if (r->octaves)
    return pw_fail(err, PW_E_DATA, "plot",
                   "a curve of octaves is not drawn: want third octaves");
  pw_plot *p = pw_plot_new("plots/sound.gp");
  snprintf(title, sizeof title, "%.120s%s", r->text, strlen(r->text) > 120 ? " ..." : "");
  pw_plot_text(p, "what", title);
  pw_plot_text(p, "lead", r->measured ? "measured" : lead->name);
  pw_plot_text(p, "rw", pw_sound_rw_text(&lead->number, text));
  snprintf(title, sizeof title, isfinite(lead->number.stc) ? ", STC %.0f" : "",
           lead->number.stc);
  pw_plot_text(p, "stc", title);
  pw_plot_number(p, "sets", r->measured ? 0.0 : 1.0);
  pw_plot_block(p, "R");
  for (int b = 0; b < PW_THIRDS; b++) {
    double low = lead->r.db[b], high = low;
    double reference = pw_table_number(bands, (size_t)b, col) + lead->number.rw - 52.0;
    for (size_t i = 0; !r->measured && i < PW_SOUND_SETS; i++) {
      low = fmin(low, r->curve[i].r.db[b]);
      high = fmax(high, r->curve[i].r.db[b]);
    }
    pw_plot_row(p, "fffff", (double)b, lead->r.db[b], low, high, reference);
  }
  pw_plot_end_block(p);
  pw_status s = pw_plot_write(p, path, 900, 560, err);
  pw_plot_free(p);
  return s;
}
