#include "study/compare_unit.h"

#include <math.h>
#include <string.h>

pw_mulled_figures pw_mulled_of(const pw_compare *c, int package, const char *unit)
{
  pw_mulled_figures f = {0};
  double facing = 0.0;
  for (size_t i = 0; i < c->n_opening && unit[0]; i++) {
    const pw_opening *o = &c->job->opening[i];
    if (strcmp(o->unit, unit) != 0) continue;
    const pw_rating *r = pw_compare_rating(&c->rated, package, i);
    if (f.n_opening++ == 0) facing = o->facing_deg;
    f.bay |= fabs(o->facing_deg - facing) > 1e-6;
    f.area += r->area;
    f.mullion += o->mullion_area;
    f.u += r->u * r->area;
    f.shgc += r->shgc * r->area;
    f.vt += r->vt * r->area;
  }
  if (f.n_opening == 0) return f;
  f.u /= f.area;
  f.shgc /= f.area;
  f.vt /= f.area;
  return f;
}
