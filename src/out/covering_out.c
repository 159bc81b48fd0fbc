#include "out/covering_out.h"
#include "out/text_stream.h"

#include <math.h>
#include <stdlib.h>

#include "gen/reference.h"
#include "house/covering.h"
#include "out/calendar.h"
#include "out/clip.h"
#include "out/grid.h"
#include "out/json.h"
#include "out/ref_row.h"
#include "out/wrap.h"

enum { WIDE = 100, SETS = 1 + PW_COMPARE_PACKAGES_MAX };

/* By side and set, over the glass: what is left of the sun. */
typedef struct sides {
  double glass[PW_FACADES][SETS], pass[PW_FACADES][SETS][PW_COVERING_SEASONS];
} sides;

static pw_status sides_of(const pw_compare *c, sides *s, pw_err *err)
{
  pw_house_window *window = calloc(c->n_opening, sizeof *window);
  *s = (sides){0};
  if (!window) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the coverings");
  for (size_t k = 0; k <= c->n_package; k++) {
    pw_compare_windows(c->job, &c->fitted, &c->rated, (int)k - 1, window);
    for (size_t i = 0; i < c->n_opening; i++) {
      if (c->job->opening[i].unconditioned) continue;
      int side = pw_year_facade(window[i].facing_deg);
      double glass = window[i].area_glass * (double)c->job->opening[i].quantity;
      s->glass[side][k] += glass;
      for (int t = 0; t < PW_COVERING_SEASONS; t++)
        s->pass[side][k][t] += glass * window[i].covered.pass[t];
    }
  }
  for (int side = 0; side < PW_FACADES; side++)
    for (size_t k = 0; k <= c->n_package; k++)
      for (int t = 0; t < PW_COVERING_SEASONS; t++)
        s->pass[side][k][t] =
            s->glass[side][k] > 0.0 ? s->pass[side][k][t] / s->glass[side][k] : (double)NAN;
  free(window);
  return PW_OK;
}

static pw_status table(const pw_compare *c, FILE *f, pw_err *err)
{
  const char *header[1 + SETS] = {"<side", "now"};
  pw_clipped name[SETS];
  sides s;
  pw_status status = sides_of(c, &s, err);
  if (status != PW_OK) return status;
  for (size_t p = 0; p < c->n_package; p++) {
    name[p] = pw_clip(c->rated.package_set[p].name, c->n_package > 5 ? 8 : 14);
    header[2 + p] = name[p].text;
  }
  pw_grid *g = pw_grid_new(2 + c->n_package, header);
  for (int side = 0; side < PW_FACADES; side++) {
    if (!(s.glass[side][0] > 0.0)) continue;
    pw_grid_cell(g, "%s", pw_side_name[side]);
    for (size_t k = 0; k <= c->n_package; k++)
      pw_grid_cell(g, "%.0f, %.0f %%", 100.0 * s.pass[side][k][PW_COVERING_SUMMER],
                   100.0 * s.pass[side][k][PW_COVERING_WINTER]);
  }
  fputs(
      "\nDrapes and blinds as they are used: what they leave of the sun that comes through the "
      "glass, summer,\nwinter\n",
      f);
  status = pw_grid_print(g, f, PW_TEXT, err);
  pw_grid_free(g);
  return status;
}

pw_status pw_covering_text(const pw_compare *c, FILE *f, pw_err *err)
{
  char text[300];
  if (!c->lived.covered) return PW_OK;
  pw_status status = table(c, f, err);
  if (status != PW_OK) return status;
  snprintf(
      text, sizeof text,
      "The same use before and after; behind glass of low gain they hold back little. "
      "Closed ones keep heat in, too, %.0f %% of them on a winter night. A survey's use and "
      "a handbook's factors, from memory; --range draws them.",
      100.0 * pw_ref_air_shades[pw_ref_air_shades__closed_night].value);
  pw_wrap(f, "", text, WIDE);
  if (c->job->house.covering == PW_COVERING_USUAL)
    pw_wrap(
        f, "",
        "The job does not tell which: taken is what most homes have, mostly blinds. coverings "
        "none, blinds, roller or drapes in job.csv or openings.csv tells it.",
        WIDE);
  return pw_text_written(f, "the coverings", err);
}

json_t *pw_covering_json(const pw_compare *c)
{
  json_t *all = json_array();
  sides s;
  if (sides_of(c, &s, NULL) != PW_OK) {
    pw_json_lose();
    return all;
  }
  for (int side = 0; side < PW_FACADES; side++) {
    if (!(s.glass[side][0] > 0.0)) continue;
    json_t *o = json_object(), *packages = json_array();
    pw_json_set_text(o, "side", pw_side_name[side]);
    for (size_t k = 0; k <= c->n_package; k++) {
      json_t *one = json_object();
      pw_json_set(one, "sun_left_summer", s.pass[side][k][PW_COVERING_SUMMER]);
      pw_json_set(one, "sun_left_winter", s.pass[side][k][PW_COVERING_WINTER]);
      if (k == 0)
        json_object_set_new(o, "existing", one);
      else
        json_array_append_new(packages, one);
    }
    json_object_set_new(o, "packages", packages);
    json_array_append_new(all, o);
  }
  return all;
}

static pw_status openings(const pw_compare *c, FILE *f, pw_err *err)
{
  static const char *const header[] = {"<opening", "<covering", "<window", "SHGC", "summer",
                                       "winter",   "day",       "night",   "m2K/W"};
  pw_house_window *window = calloc((1 + c->n_package) * c->n_opening, sizeof *window);
  if (!window) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the coverings");
  for (size_t k = 0; k <= c->n_package; k++)
    pw_compare_windows(c->job, &c->fitted, &c->rated, (int)k - 1, window + k * c->n_opening);
  pw_grid *g = pw_grid_new(sizeof header / sizeof header[0], header);
  for (size_t i = 0; i < c->n_opening; i++)
    for (int p = -1; p < (int)c->n_package; p++) {
      const pw_opening *o = &c->job->opening[i];
      const pw_covered *k = &window[(size_t)(p + 1) * c->n_opening + i].covered;
      pw_grid_cell(g, "%s", p < 0 ? o->tag : "");
      pw_grid_cell(g, "%s%s", p < 0 ? pw_covering_name((pw_covering)o->covering) : "",
                   p < 0 && o->covering_of_all ? " (house)" : "");
      pw_grid_cell(g, "%s",
                   p < 0 ? "existing" : pw_clip(c->rated.package_set[p].name, 16).text);
      pw_grid_number(g, pw_compare_glass(c->job, &c->fitted, p, i)->shgc[0], 2);
      for (int t = 0; t < PW_COVERING_SEASONS; t++)
        pw_grid_number(g, k->pass[t], 3);
      for (int t = 0; t < PW_COVERING_TIMES; t++)
        pw_grid_number(g, k->closed[t], 3);
      pw_grid_number(g, k->resistance, 3);
    }
  pw_status status = pw_grid_print(g, f, PW_TEXT, err);
  pw_grid_free(g);
  free(window);
  return status;
}

pw_status pw_covering_explain(const pw_compare *c, FILE *f, pw_err *err)
{
  if (!c->lived.covered)
    return pw_fail(
        err, PW_E_DATA, "explain",
        "--explain coverings: the job has none; want coverings usual, blinds, roller "
        "or drapes in job.csv or openings.csv");
  fputs("coverings: what drapes and blinds leave of the sun, and the heat they keep in\n", f);
  pw_wrap(
      f, "  ",
      "sun left = 1 - covered (closed (1 - IAC closed) + half open (1 - IAC half)), covered 1 "
      "where the window itself says its covering; usual is the mean of blinds, rollers and "
      "drapes by their shares; a half open roller or drape lies before "
      "half the glass; behind glass of an SHGC under 0.40 the effect is less by (1 - "
      "low_gain) / (1 - double) of the blinds, from 0.70 to there straight. Films at the glass "
      "are times 1 - s + s / (1 + "
      "R h), s the closed share by day or, from 19 to 7 o'clock, by night; the detailed "
      "method alone",
      WIDE);
  fputc('\n', f);
  pw_status status = openings(c, f, err);
  fputs("\nWhat goes in (reference/air/shades.csv)\n", f);
  for (size_t i = 0; i < (size_t)pw_ref_air_shades__n; i++) {
    const pw_ref_air_shades_row *r = &pw_ref_air_shades[i];
    pw_ref_row_say(f, r->key, r->value, r->low, r->high, r->unit, r->source, r->how_known);
  }
  if (status != PW_OK) return status;
  return pw_text_written(f, "the coverings", err);
}
