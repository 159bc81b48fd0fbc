/* Leakage of windows: labels by the power law, a measured window beside the handbook's span (reference/air/leakage.csv). */
#include "check/air_leakage.h"

#include <math.h>

#include "gen/reference.h"
#include "house/leakage.h"
#include "house/sash_leak.h"
#include "panewright/units.h"

#define ROW(name) (&pw_ref_air_leakage[pw_ref_air_leakage__##name])

/* cm2/m2 of a label in cfm/ft2. */
static double of_label(double cfm_ft2, double n)
{
  return 1e4 * pw_leak_area_of(cfm_ft2 * PW_FOOT / 60.0, 75.0, n);
}

static void labels(const pw_check_sink *sink)
{
  const struct {
    const char *id;
    double label;
    const pw_ref_air_leakage_row *row;
  } row[] = {{"label 0.3", 0.3, ROW(label_03)},
             {"label 0.1", 0.1, ROW(label_01)},
             {"label 0.05", 0.05, ROW(label_005)}};
  const pw_ref_air_leakage_row *n = ROW(exponent);
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    const pw_ref_air_leakage_row *r = row[i].row;
    const struct {
      const char *quantity;
      double n, want;
    } at[] = {{"leakage area, n 0.65", n->value, r->value},
              {"leakage area, n 0.70", n->high, r->low},
              {"leakage area, n 0.60", n->low, r->high}};
    for (size_t k = 0; k < 3; k++) /* printed to two or three digits */
      pw_check_give(sink, row[i].id, at[k].quantity, r->unit, of_label(row[i].label, at[k].n),
                    at[k].want, 0.006 * at[k].want, r->source, r->how_known);
  }
}

/* A slider of 1 m of crack: its daylight 0.25 x 0.25 m in faces of nothing. */
static pw_leak_span slider(pw_sash_state state)
{
  const pw_lites w = {.operator_ = PW_SLIDER,
                      .n_lite = 1,
                      .lite = {{.width = 0.25, .height = 0.25, .moving = 1}}};
  return pw_sash_leak(&w, PW_FRAME_ALUMINIUM, state);
}

/* An independent study's windows have to lie in what we take for such ones. */
static void measured(const pw_check_sink *sink)
{
  const struct {
    const char *id;
    const pw_ref_air_leakage_row *row;
    pw_sash_state state;
  } row[] = {{"worn window", ROW(worn_window), PW_SASH_LOOSE},
             {"weatherstripped window", ROW(stripped_window), PW_SASH_TIGHT}};
  for (size_t i = 0; i < 2; i++) {
    const pw_leak_span s = slider(row[i].state);
    double area = 1e4 * pw_leak_area_of(row[i].row->value / 3600.0, 9.8, ROW(exponent)->value);
    pw_check_give_range(sink, row[i].id, "measured, within the slider's span of its state",
                        "cm2/m", area, 1e4 * s.low, 1e4 * s.high, 0, row[i].row->source,
                        row[i].row->how_known);
  }
}

void check_air_leakage(const pw_check_sink *sink)
{
  labels(sink);
  measured(sink);
}
