/* --explain tightness: from each opening's sashes to the house's area, its air and the saving. */
#include <math.h>

#include "gen/reference.h"
#include "out/clip.h"
#include "out/grid.h"
#include "out/ref_row.h"
#include "out/text_stream.h"
#include "out/tight_out.h"
#include "out/wrap.h"
#include "panewright/lites.h"

enum { WIDE = 100 };

static pw_status sashes(const pw_compare *c, const pw_compare_tight *t, FILE *f, pw_err *err)
{
  static const char *const header[] = {"<opening", "<sashes", "<state", "windows",  "crack m",
                                       "low",      "usual",   "high",   "<replaced"};
  pw_grid *g = pw_grid_new(sizeof header / sizeof header[0], header);
  for (size_t i = 0; i < c->n_opening; i++) {
    const pw_opening *o = &c->job->opening[i];
    const pw_tight_opening *at = &t->opening[i];
    if (!at->counted) continue;
    pw_grid_cell(g, "%s", o->tag);
    pw_grid_cell(g, "%s",
                 pw_compare_is_old(c->job, -1, i) ? pw_operator_name(o->operator_existing)
                                                  : "insert");
    pw_grid_cell(g, "%s", at->now.usual > 0.0 ? pw_sash_state_name(o->sash_leak) : "");
    pw_grid_cell(g, "%d", o->quantity);
    pw_grid_number(g, at->crack, 2);
    pw_grid_number(g, 1e4 * at->now.low, 2);
    pw_grid_number(g, 1e4 * at->now.usual, 2);
    pw_grid_number(g, 1e4 * at->now.high, 2);
    pw_grid_cell(g, "%s", at->replaced ? "yes" : "");
  }
  pw_status status = pw_grid_print(g, f, PW_TEXT, err);
  pw_grid_free(g);
  return status;
}

static void house(const pw_compare *c, const pw_compare_tight *t, FILE *f)
{
  char text[300];
  const pw_house_facts *facts = &c->job->house;
  if (t->by_door)
    snprintf(
        text, sizeof text,
        "house before: Q %.4f m3/s at 50 Pa, A = Q (4/50)^%.2f / sqrt(2 x 4 Pa / 1.2 kg/m3) "
        "= %.1f cm2",
        facts->cfm50.value, pw_ref_air_leakage[pw_ref_air_leakage__exponent].value,
        1e4 * t->area);
  else
    snprintf(
        text, sizeof text,
        "house before: the area that passes %.3f changes an hour of %.0f m3 as the year's mean "
        "by %s = %.1f cm2",
        t->air_changes, c->lived.house.volume, pw_tight_model(t), 1e4 * t->area);
  pw_wrap(f, "  ", text, WIDE);
  snprintf(text, sizeof text,
           "sashes: %.2f cm2 by the tables; counted %.2f cm2%s, of it replaced "
           "%.2f cm2",
           1e4 * t->by_table, 1e4 * t->sashes,
           t->taped  ? " (what the tape shut)"
           : t->held ? " (held to 22 % of the house)"
                     : "",
           1e4 * t->sashes_replaced);
  pw_wrap(f, "  ", text, WIDE);
  for (size_t p = 0; p < c->n_package; p++) {
    const pw_tight_package *k = &t->package[p];
    snprintf(
        text, sizeof text,
        "%.40s: inserts and joints %.2f (%.2f to %.2f) cm2; house after %.1f - %.2f + %.2f = "
        "%.1f cm2; air %.3f x %.1f / %.1f = %.3f an hour; saved $%.2f a year (%.2f to %.2f)",
        c->rated.package_set[p].name, 1e4 * k->inserts.usual, 1e4 * k->inserts.low,
        1e4 * k->inserts.high, 1e4 * t->area, 1e4 * t->sashes_replaced, 1e4 * k->inserts.usual,
        1e4 * k->area, t->air_changes, 1e4 * k->area, 1e4 * t->area, k->air_changes,
        k->saving.cost_year, k->cost_low, k->cost_high);
    pw_wrap(f, "  ", text, WIDE);
  }
}

static void rows(FILE *f)
{
  fputs("\nWhat goes in (reference/air/leakage.csv)\n", f);
  for (size_t i = 0; i < (size_t)pw_ref_air_leakage__n; i++) {
    const pw_ref_air_leakage_row *r = &pw_ref_air_leakage[i];
    pw_ref_row_say(f, r->key, r->value, r->low, r->high, r->unit, r->source, r->how_known);
  }
}

pw_status pw_tight_explain(const pw_compare *c, const pw_compare_tight *t, FILE *f, pw_err *err)
{
  if (!t || !t->told)
    return pw_fail(err, PW_E_DATA, "explain",
                   "--explain tightness: the job says nothing of it; want sash_leak in "
                   "openings.csv, or cfm50 or infiltration in job.csv");
  fputs("tightness: what tighter windows save, apart from the glass, $ a year\n", f);
  pw_wrap(
      f, "  ",
      "saving = bill of the house with the windows there now - the same at the air after; air "
      "after = air x area after / area before; area after = before - (old sashes replaced - "
      "inserts - their joints); leakage areas at 4 Pa. Of a row's low, usual and high: usual "
      "is all of it, tight low to usual, loose usual to high, stuck low to the middle of tight",
      WIDE);
  fputs("\nSashes there now, all windows of a row, cm2\n", f);
  pw_status status = sashes(c, t, f, err);
  if (status != PW_OK) return status;
  fputs("\nThe house\n", f);
  house(c, t, f);
  rows(f);
  return pw_text_written(f, "the tightness", err);
}
