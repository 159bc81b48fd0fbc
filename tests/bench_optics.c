/* Speed of light through glass. The inner loop is the stack recursion: three divisions a pane and
 * wavelength outweigh its other arithmetic and all of its memory (7 kB a pane, in the first cache), so
 * its limit is taken as the time of those divisions alone, measured here on the same arrays. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "bench.h"
#include "glass/optics.h"

enum { PANES = 3, SLOTS = 200 };

typedef struct desk {
  pw_buildup buildup;
  pw_layers layers;
  pw_fan fan[PANES];
  const pw_fan *fans[PANES];
  pw_light light;
  pw_glazing glazing;
  pw_sheet system;
  double absorbed[PW_PANES_MAX][PW_LANE];
  pw_pol pol; /* of one_angle */
  double sink;
  int failed;
} desk;

static void one_angle(void *data)
{
  desk *d = data;
  pw_light_row row;
  d->failed |= pw_light_at(d->layers.list, PANES, &d->layers.spectrum, 60.0, d->pol, &row,
                           NULL) != PW_OK;
  d->sink += row.tau_e;
}

static void whole(void *data)
{
  desk *d = data;
  d->failed |= pw_glazing_build(&d->buildup, &d->glazing, NULL) != PW_OK;
}

static void table(void *data)
{
  desk *d = data;
  d->failed |= pw_light_build(d->layers.list, PANES, &d->layers.spectrum, PW_POL_MEAN,
                              &d->light, NULL) != PW_OK;
}

static void from_fans(void *data)
{
  desk *d = data;
  d->failed |=
      pw_light_from_fans(d->fans, PANES, &d->layers.spectrum, &d->light, NULL) != PW_OK;
}

static void stack(void *data)
{
  desk *d = data;
  const pw_sheet *sheet[PANES];
  for (size_t k = 0; k < PANES; k++)
    sheet[k] = &d->fan[k].at[6];
  for (size_t i = 0; i < SLOTS; i++)
    pw_stack_solve(sheet, PANES, &d->system, d->absorbed);
  d->sink += d->system.t[40];
}

/* As many divisions as the stack has, on arrays of the same size. */
static void divisions(void *data)
{
  desk *d = data;
  for (size_t i = 0; i < SLOTS; i++)
    for (size_t k = 0; k < PANES; k++) {
      const pw_sheet *s = &d->fan[k].at[6];
      for (size_t j = 0; j < PW_LANE; j++) {
        d->system.t[j] = 0.5 / (1.0 + s->rf[j]);
        d->system.rf[j] = 0.5 / (1.0 + s->rb[j]);
        d->system.rb[j] = 0.5 / (1.0 + s->t[j]);
      }
    }
  d->sink += d->system.t[40];
}

static int lay_out(desk *d)
{
  static const struct {
    const char *kind, *out, *in;
  } pane[PANES] = {{"clear", "", "ag2"}, {"clear", "", ""}, {"clear", "ag1", ""}};
  d->buildup.n_pane = PANES;
  for (size_t k = 0; k < PANES; k++) {
    d->buildup.pane[k].thickness = 3e-3;
    snprintf(d->buildup.pane[k].kind, PW_NAME_MAX, "%s", pane[k].kind);
    snprintf(d->buildup.pane[k].coating[0], PW_NAME_MAX, "%s", pane[k].out);
    snprintf(d->buildup.pane[k].coating[1], PW_NAME_MAX, "%s", pane[k].in);
    if (k + 1 < PANES) d->buildup.gap[k].thickness = 12.7e-3;
  }
  if (pw_layers_init(&d->buildup, NULL, 0, &d->layers, NULL) != PW_OK) return 0;
  for (size_t k = 0; k < PANES; k++) {
    if (pw_fan_init(&d->layers.layer[k], &d->layers.spectrum, &d->fan[k], NULL) != PW_OK)
      return 0;
    d->fans[k] = &d->fan[k];
  }
  return 1;
}

void bench_optics(bench *b)
{
  static desk d;
  if (!lay_out(&d)) return;
  bench_run(b, "triple, two coatings: everything from its name", "unit", 1, whole, &d, 1.5e-3,
            "optics by angle, U, SHGC");
  bench_run(b, "its table of light, 10 angles and hemisphere", "table", 1, table, &d, 1.5e-3,
            "");
  bench_run(b, "the same from stored panes (search)", "table", 1, from_fans, &d, 0.0, "");
  bench_run(b, "one angle, 95 wavelengths, weighted", "angle", 1, one_angle, &d, 60e-6, "");
  d.pol = PW_POL_APART;
  bench_run(b, "one angle, s and p apart", "angle", 1, one_angle, &d, 60e-6, "");
  double limit = bench_cpu(divisions, &d), spent = bench_cpu(stack, &d);
  char held[64];
  snprintf(held, sizeof held, "its divisions alone: %.0f %% of the limit",
           100.0 * limit / spent);
  const bench_row row = {
      "stack recursion, 3 panes", "stack", SLOTS, spent, 0.0, limit / SLOTS, held};
  bench_give(b, &row);
  if (d.failed || !isfinite(d.sink)) fprintf(stderr, "bench: optics failed\n");
}
