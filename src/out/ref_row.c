#include "out/ref_row.h"

#include "out/wrap.h"

void pw_ref_row_say(FILE *f, const char *key, double value, double low, double high,
                    const char *unit, const char *source, const char *how_known)
{
  char text[500];
  snprintf(text, sizeof text, "%s: %g (%g to %g) %s; %s (%s)", key, value, low, high, unit,
           source, how_known);
  pw_wrap(f, "  ", text, 100);
}
