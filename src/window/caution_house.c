/* Rules about the house and the product: air, lead, structure, water, wind, fire, altitude. */
#include <math.h>
#include <string.h>

#include "panewright/units.h"
#include "window/caution_impl.h"

/* A fact that the job answers with yes (1), no (0) or not at all (-1). */
static pw_caution_state answer(int fact, pw_message_number yes, pw_message_number ask,
                               pw_message *finding)
{
  if (fact == 0) return PW_CAUTION_CLEAR;
  *finding = PW_SAYS_PLAIN(fact > 0 ? yes : ask);
  return fact > 0 ? PW_CAUTION_FLAG : PW_CAUTION_ASK;
}

static pw_caution_state remind(pw_message_number say, pw_message *finding)
{
  *finding = PW_SAYS_PLAIN(say);
  return PW_CAUTION_REMIND;
}

pw_caution_state caution_combustion(const caution_case *c, pw_message *finding)
{
  return answer(c->job->house.open_combustion, PW_SAY_COMBUSTION, PW_SAY_COMBUSTION_ASK,
                finding);
}

pw_caution_state caution_alarms(const caution_case *c, pw_message *finding)
{
  (void)c;
  return remind(PW_SAY_ALARMS, finding);
}

pw_caution_state caution_lead(const caution_case *c, pw_message *finding)
{
  int year = c->job->house.year_built, limit = (int)SAFETY(LP1).limit;
  if (year >= limit) return PW_CAUTION_CLEAR;
  if (year <= 0) {
    *finding = PW_SAYS(PW_SAY_LEAD_ASK, PW_INT(limit));
    return PW_CAUTION_ASK;
  }
  if (c->job->house.lead_certificate[0]) {
    *finding = PW_SAYS(PW_SAY_LEAD_CERTIFIED, PW_INT(year), PW_INT(limit), PW_OWN);
    pw_message_own(finding, c->job->house.lead_certificate);
    return PW_CAUTION_REMIND;
  }
  *finding = PW_SAYS(PW_SAY_LEAD, PW_INT(year), PW_INT(limit));
  return PW_CAUTION_FLAG;
}

pw_caution_state caution_lead_minor(const caution_case *c, pw_message *finding)
{
  int year = c->job->house.year_built;
  if (year <= 0 || year >= (int)SAFETY(LP1).limit) return PW_CAUTION_CLEAR;
  return remind(PW_SAY_LEAD_MINOR, finding);
}

pw_caution_state caution_asbestos(const caution_case *c, pw_message *finding)
{
  enum {
    COMMON_UNTIL = 1989
  }; /* "common before about 1980s" in safety.csv AS1, the decade over */
  int year = c->job->house.year_built;
  if (year > COMMON_UNTIL) return PW_CAUTION_CLEAR;
  *finding = PW_SAYS_PLAIN(year > 0 ? PW_SAY_ASBESTOS : PW_SAY_ASBESTOS_ASK);
  return year > 0 ? PW_CAUTION_FLAG : PW_CAUTION_ASK;
}

pw_caution_state caution_structure(const caution_case *c, pw_message *finding)
{
  double apart = c->fit->diagonal_difference;
  if (c->fit->square == PW_SQUARE_STOP) {
    *finding = PW_SAYS(PW_SAY_STRUCTURE, PW_SI(apart));
    return PW_CAUTION_FLAG;
  }
  if (c->fit->square == PW_SQUARE_REMEASURE) {
    *finding = PW_SAYS(PW_SAY_STRUCTURE_ASK, PW_SI(apart));
    return PW_CAUTION_ASK;
  }
  return PW_CAUTION_CLEAR;
}

pw_caution_state caution_wind(const caution_case *c, pw_message *finding)
{
  double p = c->job->house.wind_pressure;
  if (!isfinite(p)) {
    *finding = PW_SAYS_PLAIN(PW_SAY_WIND_ASK);
    return PW_CAUTION_ASK;
  }
  *finding = PW_SAYS(PW_SAY_WIND, PW_SI(p));
  return PW_CAUTION_REMIND;
}

pw_caution_state caution_debris(const caution_case *c, pw_message *finding)
{
  return answer(c->job->house.coastal, PW_SAY_DEBRIS, PW_SAY_DEBRIS_ASK, finding);
}

pw_caution_state caution_weeps(const caution_case *c, pw_message *finding)
{
  (void)c;
  return remind(PW_SAY_WEEPS, finding);
}

pw_caution_state caution_leak(const caution_case *c, pw_message *finding)
{
  return answer(c->job->house.leak_history, PW_SAY_LEAK, PW_SAY_LEAK_ASK, finding);
}

pw_caution_state caution_fire(const caution_case *c, pw_message *finding)
{
  return answer(c->job->house.wildfire, PW_SAY_WILDFIRE, PW_SAY_WILDFIRE_ASK, finding);
}

pw_caution_state caution_altitude(const caution_case *c, pw_message *finding)
{
  static const double pa_per_foot = 0.5e-3 * PW_PSI; /* SAFETY.md, standard atmosphere */
  double here = c->job->house.elevation.value, plant = c->job->house.plant_elevation.value;
  double limit = SAFETY(AL1).limit;
  if (isfinite(here) && isfinite(plant)) {
    double feet = fabs(here - plant) / PW_FOOT;
    if (feet <= limit) return PW_CAUTION_CLEAR;
    *finding = PW_SAYS(PW_SAY_ALTITUDE, PW_SI(feet * PW_FOOT), PW_SI(limit * PW_FOOT),
                       PW_SI(feet * pa_per_foot));
    return PW_CAUTION_FLAG;
  }
  if (isfinite(here) && here / PW_FOOT <= limit) return PW_CAUTION_CLEAR;
  *finding = PW_SAYS(PW_SAY_ALTITUDE_ASK, PW_SI(limit * PW_FOOT));
  return PW_CAUTION_ASK;
}

pw_caution_state caution_tubes(const caution_case *c, pw_message *finding)
{
  for (size_t i = 0; i < c->job->n_package; i++)
    if (c->job->package[i].open_tubes) {
      *finding = PW_SAYS(PW_SAY_TUBES, PW_OWN);
      pw_message_own(finding, c->job->package[i].name);
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

pw_caution_state caution_thermal(const caution_case *c, pw_message *finding)
{
  int glass = absorbing(c->job), shaded = 0;
  for (size_t i = 0; i < c->job->n_opening; i++)
    shaded |= c->job->opening[i].overhang_depth > 0.0 || c->job->opening[i].shade_factor > 0.0;
  if (glass & 1) {
    *finding = PW_SAYS_PLAIN(shaded ? PW_SAY_TINTED_SHADED : PW_SAY_TINTED);
    return PW_CAUTION_FLAG;
  }
  if (!(glass && shaded)) return PW_CAUTION_CLEAR;
  return remind(PW_SAY_COATED_SHADED, finding);
}

pw_caution_state caution_reflection(const caution_case *c, pw_message *finding)
{
  if (!(absorbing(c->job) & 2)) return PW_CAUTION_CLEAR;
  return remind(PW_SAY_REFLECTION, finding);
}

pw_caution_state caution_light(const caution_case *c, pw_message *finding)
{
  double before = 0.0, after = 0.0;
  for (size_t i = 0; i < c->job->n_opening; i++) {
    before += c->job->opening[i].quantity * c->all[i].existing.glass_area;
    const pw_lites *then =
        c->job->opening[i].standing == PW_REPLACED ? &c->all[i].insert : &c->all[i].existing;
    after += c->job->opening[i].quantity * then->glass_area;
  }
  if (!(after < before)) return PW_CAUTION_CLEAR;
  *finding = PW_SAYS(PW_SAY_LESS_GLASS, PW_SI(1.0 - after / before));
  return PW_CAUTION_REMIND;
}

pw_caution_state caution_contract(const caution_case *c, pw_message *finding)
{
  (void)c;
  return remind(PW_SAY_RIGHT_TO_CANCEL, finding);
}

pw_caution_state caution_approval(const caution_case *c, pw_message *finding)
{
  (void)c;
  return remind(PW_SAY_APPROVAL, finding);
}
