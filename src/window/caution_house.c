/* Rules about the house and the product: air, lead, structure, water, wind, fire, altitude. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "panewright/tape.h"
#include "panewright/units.h"
#include "window/caution_impl.h"

/* A fact that the job answers with yes (1), no (0) or not at all (-1). */
static pw_caution_state answer(int fact, const char *yes, const char *ask, char finding[],
                               size_t size)
{
  if (fact == 0) return PW_CAUTION_CLEAR;
  snprintf(finding, size, "%s", fact > 0 ? yes : ask);
  return fact > 0 ? PW_CAUTION_FLAG : PW_CAUTION_ASK;
}

static pw_caution_state remind(const char *text, char finding[], size_t size)
{
  snprintf(finding, size, "%s", text);
  return PW_CAUTION_REMIND;
}

pw_caution_state caution_combustion(const caution_case *c, char finding[], size_t size)
{
  return answer(
      c->job->house.open_combustion,
      "an appliance draws room air: have its venting and carbon monoxide checked after "
      "the house is tightened",
      "does a furnace, water heater or fireplace draw room air? tightening may starve it",
      finding, size);
}

pw_caution_state caution_alarms(const caution_case *c, char finding[], size_t size)
{
  (void)c;
  return remind("with a permit, smoke and carbon monoxide alarms may be wanted", finding, size);
}

pw_caution_state caution_lead(const caution_case *c, char finding[], size_t size)
{
  int year = c->job->house.year_built, limit = (int)SAFETY(LP1).limit;
  if (year >= limit) return PW_CAUTION_CLEAR;
  if (year <= 0) {
    snprintf(finding, size,
             "year built not given: before %d lead-safe work by a certified firm is "
             "the rule",
             limit);
    return PW_CAUTION_ASK;
  }
  if (c->job->house.lead_certificate[0]) {
    snprintf(
        finding, size,
        "built %d, before %d: lead-safe practices, pamphlet before the start, records for 3 "
        "years; firm's certificate %s",
        year, limit, c->job->house.lead_certificate);
    return PW_CAUTION_REMIND;
  }
  snprintf(finding, size,
           "built %d, before %d: only a certified firm may disturb the paint; its certificate "
           "number "
           "is not given, so the job is not ready to start",
           year, limit);
  return PW_CAUTION_FLAG;
}

pw_caution_state caution_lead_minor(const caution_case *c, char finding[], size_t size)
{
  int year = c->job->house.year_built;
  if (year <= 0 || year >= (int)SAFETY(LP1).limit) return PW_CAUTION_CLEAR;
  return remind("replacing a window is never minor work under the lead rule", finding, size);
}

pw_caution_state caution_asbestos(const caution_case *c, char finding[], size_t size)
{
  enum {
    COMMON_UNTIL = 1989
  }; /* "common before about 1980s" in safety.csv AS1, the decade over */
  int year = c->job->house.year_built;
  if (year > COMMON_UNTIL) return PW_CAUTION_CLEAR;
  snprintf(
      finding, size,
      "stucco, putty and caulk %s may hold asbestos: test before cutting, grinding or sanding",
      year > 0 ? "of that age" : "of unknown age");
  return year > 0 ? PW_CAUTION_FLAG : PW_CAUTION_ASK;
}

pw_caution_state caution_structure(const caution_case *c, char finding[], size_t size)
{
  char d[24];
  pw_tape_text(c->fit->diagonal_difference, 16, d, sizeof d);
  if (c->fit->square == PW_SQUARE_STOP) {
    snprintf(finding, size,
             "out of square by %s in: have the header and framing looked at before "
             "anything is ordered",
             d);
    return PW_CAUTION_FLAG;
  }
  if (c->fit->square == PW_SQUARE_REMEASURE) {
    snprintf(finding, size,
             "out of square by %s in: look for a sagging head, cracked stucco, rot", d);
    return PW_CAUTION_ASK;
  }
  return PW_CAUTION_CLEAR;
}

pw_caution_state caution_wind(const caution_case *c, char finding[], size_t size)
{
  static const double psf = 47.88025898; /* Pa in 1 lbf/ft2 */
  double p = c->job->house.wind_pressure;
  if (!isfinite(p)) {
    snprintf(finding, size,
             "required design pressure not given: ask the permit office, then the label");
    return PW_CAUTION_ASK;
  }
  snprintf(finding, size,
           "the unit's rated design pressure must reach %.0f psf; anchors as its maker "
           "says",
           p / psf);
  return PW_CAUTION_REMIND;
}

pw_caution_state caution_debris(const caution_case *c, char finding[], size_t size)
{
  return answer(c->job->house.coastal, "coast: impact glazing or shutters may be wanted",
                "is the site in a mapped region of wind-borne debris?", finding, size);
}

pw_caution_state caution_weeps(const caution_case *c, char finding[], size_t size)
{
  (void)c;
  return remind("weeps of the old and the new frame stay open; seal head corners; photograph",
                finding, size);
}

pw_caution_state caution_leak(const caution_case *c, char finding[], size_t size)
{
  return answer(
      c->job->house.leak_history,
      "water has come in before: an insert does not mend failed flashing; find out first",
      "has water come in at any window before?", finding, size);
}

pw_caution_state caution_fire(const caution_case *c, char finding[], size_t size)
{
  return answer(
      c->job->house.wildfire,
      "wildfire zone: insulating glass with a tempered pane, or a rated unit, may be wanted",
      "is the site in a mapped wildfire zone?", finding, size);
}

pw_caution_state caution_altitude(const caution_case *c, char finding[], size_t size)
{
  static const double psi_per_foot = 0.5e-3; /* SAFETY.md, standard atmosphere */
  double here = c->job->house.elevation.value, plant = c->job->house.plant_elevation.value;
  double limit = SAFETY(AL1).limit;
  if (isfinite(here) && isfinite(plant)) {
    double feet = fabs(here - plant) / PW_FOOT;
    if (feet <= limit) return PW_CAUTION_CLEAR;
    snprintf(finding, size,
             "the site lies %.0f ft off the plant's height (ask above %.0f): about %.1f psi "
             "bows the "
             "glass; ask for a unit built for the altitude",
             feet, limit, feet * psi_per_foot);
    return PW_CAUTION_FLAG;
  }
  if (isfinite(here) && here / PW_FOOT <= limit) return PW_CAUTION_CLEAR;
  snprintf(finding, size,
           "give elevation and plant_elevation: sealed units bow when they differ by "
           "more than about %.0f ft",
           limit);
  return PW_CAUTION_ASK;
}

pw_caution_state caution_tubes(const caution_case *c, char finding[], size_t size)
{
  for (size_t i = 0; i < c->job->n_package; i++)
    if (c->job->package[i].open_tubes) {
      snprintf(finding, size, "package %s has open tubes: its gas is lost, reckoned with air",
               c->job->package[i].name);
      return PW_CAUTION_FLAG;
    }
  return PW_CAUTION_CLEAR;
}

/* Whether any package's outer panes are tinted (1) or coated (2). */
static int absorbs(const pw_buildup *glass)
{
  static const char *const tint[] = {"bronze", "gray", "green"};
  int found = 0;
  for (size_t i = 0; i < glass->n_pane; i++) {
    const pw_buildup_pane *pane = &glass->pane[i];
    for (size_t t = 0; t < sizeof tint / sizeof tint[0]; t++)
      if (strncmp(pane->kind, tint[t], strlen(tint[t])) == 0) found |= 1;
    if (pane->coating[0][0] || pane->coating[1][0]) found |= 2;
  }
  return found;
}

static int absorbing(const pw_job *job)
{
  int found = 0;
  for (size_t p = 0; p < job->n_package; p++)
    found |= absorbs(&job->package[p].glass);
  for (size_t i = 0; i < job->n_opening; i++)
    if (job->opening[i].standing != PW_STAYS)
      found |= absorbs(&job->opening[i].glass) | (job->opening[i].option.tint != PW_TINT_NONE);
  return found;
}

pw_caution_state caution_thermal(const caution_case *c, char finding[], size_t size)
{
  int glass = absorbing(c->job), shaded = 0;
  for (size_t i = 0; i < c->job->n_opening; i++)
    shaded |= c->job->opening[i].overhang_depth > 0.0 || c->job->opening[i].shade_factor > 0.0;
  if (glass & 1) {
    snprintf(finding, size,
             "tinted glass%s: ask the glass maker about thermal stress; no film or "
             "close drapes",
             shaded ? " under partial shade" : "");
    return PW_CAUTION_FLAG;
  }
  if (!(glass && shaded)) return PW_CAUTION_CLEAR;
  return remind(
      "coated glass under partial shade: no film or close drapes without the maker's word",
      finding, size);
}

pw_caution_state caution_reflection(const caution_case *c, char finding[], size_t size)
{
  if (!(absorbing(c->job) & 2)) return PW_CAUTION_CLEAR;
  return remind("coated glass may throw hot spots on vinyl siding or turf: look where it faces",
                finding, size);
}

pw_caution_state caution_light(const caution_case *c, char finding[], size_t size)
{
  double before = 0.0, after = 0.0;
  for (size_t i = 0; i < c->job->n_opening; i++) {
    before += c->job->opening[i].quantity * c->all[i].existing.glass_area;
    const pw_lites *then =
        c->job->opening[i].standing == PW_REPLACED ? &c->all[i].insert : &c->all[i].existing;
    after += c->job->opening[i].quantity * then->glass_area;
  }
  if (!(after < before)) return PW_CAUTION_CLEAR;
  snprintf(finding, size,
           "glass falls by %.0f %% in all: check that each room keeps glass of 8 %% and "
           "opening of 4 "
           "%% of its floor",
           100.0 * (1.0 - after / before));
  return PW_CAUTION_REMIND;
}

pw_caution_state caution_contract(const caution_case *c, char finding[], size_t size)
{
  (void)c;
  return remind("a sale made at the home carries a 3 business day right to cancel", finding,
                size);
}

pw_caution_state caution_approval(const caution_case *c, char finding[], size_t size)
{
  (void)c;
  return remind("owners' association, historic district, security bars: written approval first",
                finding, size);
}
