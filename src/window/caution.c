#include "window/caution.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "window/caution_impl.h"

/* Ranks: 1 life safety, 2 health, 3 injury, 4 structure and water, 5 product life, 6 law and paper
 * (SAFETY.md); wind and fire stand with structure, light with paper. */
const caution_rule caution_rules[] = {
    {pw_ref_trade_safety__CO1, 1, 1, caution_combustion},
    {pw_ref_trade_safety__CO2, 1, 1, caution_alarms},
    {pw_ref_trade_safety__EG1, 1, 0, caution_escape_area},
    {pw_ref_trade_safety__EG2, 1, 0, caution_escape_grade},
    {pw_ref_trade_safety__EG3, 1, 0, caution_escape_height},
    {pw_ref_trade_safety__EG4, 1, 0, caution_escape_width},
    {pw_ref_trade_safety__EG5, 1, 0, caution_escape_sill},
    {pw_ref_trade_safety__EG8, 1, 0, caution_escape_missing},
    {pw_ref_trade_safety__EG6, 1, 0, caution_escape_exception},
    {pw_ref_trade_safety__EG7, 1, 0, caution_escape_use},
    {pw_ref_trade_safety__EG9, 1, 0, caution_escape_named},
    {pw_ref_trade_safety__EG10, 1, 0, caution_escape_doubt},
    {pw_ref_trade_safety__FP1, 1, 0, caution_fall},
    {pw_ref_trade_safety__FP2, 1, 0, caution_fall_escape},
    {pw_ref_trade_safety__LP1, 2, 1, caution_lead},
    {pw_ref_trade_safety__LP2, 2, 1, caution_lead_minor},
    {pw_ref_trade_safety__AS1, 2, 1, caution_asbestos},
    {pw_ref_trade_safety__SG1, 3, 0, caution_pane_low},
    {pw_ref_trade_safety__SG5, 3, 0, caution_by_door},
    {pw_ref_trade_safety__SG6, 3, 0, caution_door},
    {pw_ref_trade_safety__SG7, 3, 0, caution_by_water},
    {pw_ref_trade_safety__SG8, 3, 0, caution_stairs},
    {pw_ref_trade_safety__SG9, 3, 0, caution_mark},
    {pw_ref_trade_safety__ST1, 4, 0, caution_structure},
    {pw_ref_trade_safety__WL1, 4, 1, caution_wind},
    {pw_ref_trade_safety__WL2, 4, 1, caution_debris},
    {pw_ref_trade_safety__WA1, 4, 1, caution_weeps},
    {pw_ref_trade_safety__WA2, 4, 1, caution_leak},
    {pw_ref_trade_safety__FI1, 4, 1, caution_fire},
    {pw_ref_trade_safety__AL1, 5, 1, caution_altitude},
    {pw_ref_trade_safety__AL2, 5, 1, caution_tubes},
    {pw_ref_trade_safety__TS1, 5, 1, caution_thermal},
    {pw_ref_trade_safety__TS2, 5, 1, caution_reflection},
    {pw_ref_trade_safety__VN1, 6, 1, caution_light},
    {pw_ref_trade_safety__SC1, 6, 1, caution_contract},
    {pw_ref_trade_safety__HS1, 6, 1, caution_approval},
};
const size_t caution_rule_count = sizeof caution_rules / sizeof caution_rules[0];

enum { RANKS = 6 };

static pw_status add(pw_cautions *list, size_t *room, const caution_rule *rule, int opening,
                     pw_caution_state state, int agreed, const pw_message *finding, pw_err *err)
{
  if (list->n == *room) {
    size_t more = *room ? 2 * *room : 64;
    pw_caution *c = realloc(list->caution, more * sizeof *c);
    if (!c) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the cautions");
    list->caution = c;
    *room = more;
  }
  const pw_ref_trade_safety_row *row = &pw_ref_trade_safety[rule->row];
  pw_caution *c = &list->caution[list->n++];
  *c = (pw_caution){.id = row->id,
                    .topic = row->topic,
                    .source = row->source,
                    .how_known = row->how_known,
                    .defer_to = row->defer_to,
                    .rank = rule->rank,
                    .opening = opening,
                    .state = state,
                    .agreed = agreed,
                    .finding = *finding};
  list->n_fail += state == PW_CAUTION_FAIL;
  list->n_flag += state == PW_CAUTION_FLAG;
  list->n_ask += state == PW_CAUTION_ASK;
  return PW_OK;
}

static int of_escape(const caution_rule *rule)
{
  return strncmp(pw_ref_trade_safety[rule->row].id, "EG", 2) == 0;
}

static pw_caution_state judge(const caution_case *c, const caution_rule *rule,
                              pw_message *finding)
{
  if (rule->whole_job || c->opening->standing == PW_REPLACED) return rule->judge(c, finding);
  pw_opening stays;
  pw_fit as_it_is;
  caution_as_it_is(c->opening, c->fit, &stays, &as_it_is);
  const caution_case today = {
      .job = c->job, .opening = &stays, .fit = &as_it_is, .all = c->all};
  pw_caution_state state = rule->judge(&today, finding);
  return caution_of_staying(&today, pw_ref_trade_safety[rule->row].id, state, finding);
}

pw_status pw_cautions_find(const pw_job *job, const pw_fit fit[], pw_cautions *list,
                           pw_err *err)
{
  size_t room = 0;
  pw_status status = PW_OK;
  memset(list, 0, sizeof *list);
  for (int rank = 1; rank <= RANKS; rank++)
    for (int o = PW_CAUTION_WHOLE_JOB; o < (int)job->n_opening; o++)
      for (size_t i = 0; i < caution_rule_count && status == PW_OK; i++) {
        const caution_rule *rule = &caution_rules[i];
        if (rule->rank != rank || rule->whole_job != (o == PW_CAUTION_WHOLE_JOB)) continue;
        caution_case c = {.job = job, .all = fit};
        if (o >= 0) {
          c.opening = &job->opening[o];
          c.fit = &fit[o];
        }
        pw_message finding = {0};
        pw_caution_state state = judge(&c, rule, &finding);
        int agreed = c.opening && of_escape(rule) && c.opening->official_word[0];
        if (state != PW_CAUTION_CLEAR)
          status = add(list, &room, rule, o, state, agreed, &finding, err);
      }
  if (status != PW_OK) pw_cautions_free(list);
  return status;
}

void pw_cautions_free(pw_cautions *list)
{
  if (!list) return;
  free(list->caution);
  memset(list, 0, sizeof *list);
}

static int holds(const pw_cautions *list, int opening, const char *prefix,
                 pw_caution_state least)
{
  for (size_t i = 0; i < list->n; i++)
    if (list->caution[i].opening == opening && list->caution[i].state >= least &&
        strncmp(list->caution[i].id, prefix, strlen(prefix)) == 0)
      return 1;
  return 0;
}

int pw_caution_escape_fails(const pw_cautions *list, int opening)
{
  return holds(list, opening, "EG", PW_CAUTION_FAIL);
}

int pw_caution_escape_open(const pw_cautions *list, int opening)
{
  for (size_t i = 0; i < list->n; i++) {
    const pw_caution *c = &list->caution[i];
    if (c->opening == opening && c->state == PW_CAUTION_FAIL && !c->agreed &&
        strncmp(c->id, "EG", 2) == 0)
      return 1;
  }
  return 0;
}

int pw_caution_safety_glass(const pw_cautions *list, int opening)
{
  return holds(list, opening, "SG", PW_CAUTION_FLAG);
}

const char *pw_caution_state_name(pw_caution_state state)
{
  static const char *const name[] = {"clear", "remind", "ask", "flag", "FAIL"};
  return (unsigned)state < sizeof name / sizeof name[0] ? name[state] : "?";
}
