#include "out/duct_out.h"
#include "out/text_stream.h"

#include "gen/reference.h"
#include "out/json.h"
#include "out/ref_row.h"
#include "out/wrap.h"
#include "panewright/units.h"

enum { WIDE = 100 };

static const char *const season_name[] = {"heating", "cooling"};

/* Whether the plant of a season blows through the ducts. */
static int serves(const pw_compare *c, int k)
{
  return k ? c->billed.rates.cools_by_duct : c->billed.rates.heats_by_duct;
}

void pw_duct_text(const pw_compare *c, FILE *f)
{
  const pw_duct_place place = (pw_duct_place)c->job->house.ducts;
  char text[400];
  if (place == PW_DUCTS_BLANK) return;
  int n = snprintf(text, sizeof text, "Ducts (%s):", pw_duct_place_name(place));
  for (int k = 0; k < 2; k++)
    if (serves(c, k))
      n += snprintf(text + n, sizeof text - (size_t)n, "%s %.0f %% of the %s",
                    k && serves(c, 0) ? " and" : "", 100.0 * c->lived.duct[k].delivers,
                    k ? "cold" : "heat");
  snprintf(text + n, sizeof text - (size_t)n,
           " reaches the rooms in its season, by the form of ASHRAE 152 with numbers from "
           "memory; a test of the ducts would tell.");
  pw_wrap(f, "", text, WIDE);
}

json_t *pw_duct_json(const pw_compare *c)
{
  json_t *o = json_object();
  pw_json_set_text(o, "place", pw_duct_place_name((pw_duct_place)c->job->house.ducts));
  for (int k = 0; k < 2; k++) {
    const pw_duct_season *s = &c->lived.duct[k];
    if (!serves(c, k)) continue;
    json_t *one = json_object();
    pw_json_set(one, "delivers", s->delivers);
    pw_json_set(one, "season_outdoors_c", s->t_out);
    pw_json_set(one, "around_ducts_c", s->duct.t_round_supply);
    json_object_set_new(o, season_name[k], one);
  }
  return o;
}

pw_status pw_duct_explain(const pw_compare *c, const pw_unit_set *units, FILE *f, pw_err *err)
{
  char text[500];
  if (c->job->house.ducts == PW_DUCTS_BLANK)
    return pw_fail(err, PW_E_DATA, "explain",
                   "--explain ducts: the job does not say where they lie; want ducts attic, "
                   "attic_sealed, crawl, basement or inside in job.csv");
  fputs("ducts: the share of heat and cold that reaches the rooms\n", f);
  pw_wrap(f, "  ",
          "DE = as Bs - as Bs (1 - ar Br) dtr/dte - as (1 - Bs) dts/dte, B = exp(-UA / (rho c "
          "q)); as, ar tight shares, dt room less what is around the ducts, dte supply less "
          "room; ASHRAE 152, heating form, from memory; of ducts inside the house nothing is "
          "lost",
          WIDE);
  for (int k = 0; k < 2; k++) {
    const pw_duct_season *s = &c->lived.duct[k];
    const pw_duct *d = &s->duct;
    if (!serves(c, k)) continue;
    snprintf(text, sizeof text,
             "%s: outdoors %.1f %s in its degree-hours' mean, %.1f %s around the ducts, rooms "
             "%.1f %s, supply %.1f %s; as %.3f, ar %.3f, UA %.1f and %.1f W/K, q %.3f m3/s: DE "
             "%.3f",
             season_name[k], pw_show_temperature(units, pw_k(s->t_out)), units->temperature,
             pw_show_temperature(units, pw_k(d->t_round_supply)), units->temperature,
             pw_show_temperature(units, pw_k(d->t_room)), units->temperature,
             pw_show_temperature(units, pw_k(d->t_supply)), units->temperature, d->tight_supply,
             d->tight_return, d->ua_supply, d->ua_return, d->flow, s->delivers);
    pw_wrap(f, "  ", text, WIDE);
  }
  fputs("\nWhat goes in (reference/air/ducts.csv)\n", f);
  for (size_t i = 0; i < (size_t)pw_ref_air_ducts__n; i++) {
    const pw_ref_air_ducts_row *r = &pw_ref_air_ducts[i];
    pw_ref_row_say(f, r->key, r->value, r->low, r->high, r->unit, r->source, r->how_known);
  }
  return pw_text_written(f, "the ducts", err);
}
