#include "panewright/caution.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "panewright/table.h"
#include "window/caution_impl.h"

const char *const pw_caution_closing =
    "Local adopted code, the building official and licensed people decide.";

/* Ranks: 1 life safety, 2 health, 3 injury, 4 structure and water, 5 product life, 6 law and paper
 * (SAFETY.md); wind and fire stand with structure, light with paper. */
const caution_rule caution_rules[] = {
    {"CO1", 1, 1, caution_combustion},
    {"CO2", 1, 1, caution_alarms},
    {"EG1", 1, 0, caution_escape_area},
    {"EG2", 1, 0, caution_escape_grade},
    {"EG3", 1, 0, caution_escape_height},
    {"EG4", 1, 0, caution_escape_width},
    {"EG5", 1, 0, caution_escape_sill},
    {"EG8", 1, 0, caution_escape_missing},
    {"EG6", 1, 0, caution_escape_exception},
    {"EG7", 1, 0, caution_escape_use},
    {"FP1", 1, 0, caution_fall},
    {"FP2", 1, 0, caution_fall_escape},
    {"LP1", 2, 1, caution_lead},
    {"LP2", 2, 1, caution_lead_minor},
    {"AS1", 2, 1, caution_asbestos},
    {"SG1", 3, 0, caution_pane_low},
    {"SG5", 3, 0, caution_by_door},
    {"SG6", 3, 0, caution_door},
    {"SG7", 3, 0, caution_by_water},
    {"SG8", 3, 0, caution_stairs},
    {"SG9", 3, 0, caution_mark},
    {"ST1", 4, 0, caution_structure},
    {"WL1", 4, 1, caution_wind},
    {"WL2", 4, 1, caution_debris},
    {"WA1", 4, 1, caution_weeps},
    {"WA2", 4, 1, caution_leak},
    {"FI1", 4, 1, caution_fire},
    {"AL1", 5, 1, caution_altitude},
    {"AL2", 5, 1, caution_tubes},
    {"TS1", 5, 1, caution_thermal},
    {"TS2", 5, 1, caution_reflection},
    {"VN1", 6, 1, caution_light},
    {"SC1", 6, 1, caution_contract},
    {"HS1", 6, 1, caution_approval},
};
const size_t caution_rule_count = sizeof caution_rules / sizeof caution_rules[0];

enum { RANKS = 6 };

static size_t row_of(const pw_table *table, const char *id)
{
  size_t r = 0;
  while (table && r < table->n_row && strcmp(pw_table_text(table, r, 0), id) != 0)
    r++;
  return r;
}

double caution_limit(const char *id, int part)
{
  const pw_table *table = pw_table_find("trade/safety");
  const char *text = pw_table_text(table, row_of(table, id), pw_table_column(table, "limit"));
  for (; part > 0; part--) {
    text = strchr(text, '/');
    if (!text) return (double)NAN;
    text++;
  }
  char *end = NULL;
  double v = strtod(text, &end);
  return end == text ? (double)NAN : v;
}

static pw_status add(pw_cautions *list, size_t *room, const caution_rule *rule, int opening,
                     pw_caution_state state, const char *finding, pw_err *err)
{
  if (list->n == *room) {
    size_t more = *room ? 2 * *room : 64;
    pw_caution *c = realloc(list->caution, more * sizeof *c);
    if (!c) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the cautions");
    list->caution = c;
    *room = more;
  }
  const pw_table *table = pw_table_find("trade/safety");
  size_t row = row_of(table, rule->id);
  pw_caution *c = &list->caution[list->n++];
  *c = (pw_caution){.id = rule->id,
                    .topic = pw_table_text(table, row, pw_table_column(table, "topic")),
                    .source = pw_table_text(table, row, pw_table_column(table, "source")),
                    .how_known = pw_table_text(table, row, pw_table_column(table, "how_known")),
                    .defer_to = pw_table_text(table, row, pw_table_column(table, "defer_to")),
                    .rank = rule->rank,
                    .opening = opening,
                    .state = state};
  memcpy(c->finding, finding, sizeof c->finding);
  list->n_fail += state == PW_CAUTION_FAIL;
  list->n_flag += state == PW_CAUTION_FLAG;
  list->n_ask += state == PW_CAUTION_ASK;
  return PW_OK;
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
        char finding[sizeof((pw_caution *)0)->finding] = "";
        pw_caution_state state = rule->judge(&c, finding, sizeof finding);
        if (state != PW_CAUTION_CLEAR) status = add(list, &room, rule, o, state, finding, err);
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

int pw_caution_safety_glass(const pw_cautions *list, int opening)
{
  return holds(list, opening, "SG", PW_CAUTION_FLAG);
}

const char *pw_caution_state_name(pw_caution_state state)
{
  static const char *const name[] = {"clear", "remind", "ask", "flag", "FAIL"};
  return (unsigned)state < sizeof name / sizeof name[0] ? name[state] : "?";
}
