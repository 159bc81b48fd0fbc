/* Shared by caution.c and the rules. */
#ifndef WINDOW_CAUTION_IMPL_H
#define WINDOW_CAUTION_IMPL_H

#include "gen/reference.h"
#include "window/caution.h"

/* A row of reference/trade/safety.csv by its id; one that is not there ends the build. */
#define SAFETY(id) pw_ref_trade_safety[pw_ref_trade_safety__##id]

/* What a rule looks at: the job and, for a rule of one opening, that opening and its fit. */
typedef struct caution_case {
  const pw_job *job;
  const pw_opening *opening; /* NULL for a rule of the whole job */
  const pw_fit *fit;
  const pw_fit *all; /* fits of all openings */
} caution_case;

/* Judges one case; *finding is set unless the answer is PW_CAUTION_CLEAR. */
typedef pw_caution_state caution_judge(const caution_case *c, pw_message *finding);

typedef struct caution_rule {
  int row;       /* of safety.csv */
  int rank;      /* SAFETY.md "Order of severity" */
  int whole_job; /* 1: once a job; 0: once an opening */
  caution_judge *judge;
} caution_rule;

extern const caution_rule caution_rules[];
extern const size_t caution_rule_count;

/* What a clear opening lacks as a way out of a sleeping room, PW_LACKS_ bits of escape.h; an unknown bottom lacks
 * nothing. */
unsigned escape_lacks(const pw_opening *opening, const pw_clear *clear);

/* A window that stays: the case as it is today, and what becomes of a rule's answer. */
void caution_as_it_is(const pw_opening *opening, const pw_fit *fit, pw_opening *stays,
                      pw_fit *as_it_is);
pw_caution_state caution_of_staying(const caution_case *c, const char *id,
                                    pw_caution_state state, pw_message *finding);

/* Rules of the escape opening stand in caution_escape.c, of falls and of safety glass in
 * caution_people.c, the others in caution_house.c; both are listed in caution.c. */
caution_judge caution_escape_area, caution_escape_grade, caution_escape_height,
    caution_escape_width, caution_escape_sill, caution_escape_exception, caution_escape_use,
    caution_escape_missing, caution_escape_named, caution_escape_doubt, caution_fall,
    caution_fall_escape, caution_pane_low, caution_by_door, caution_door, caution_by_water,
    caution_stairs, caution_mark;
caution_judge caution_combustion, caution_alarms, caution_lead, caution_lead_minor,
    caution_asbestos, caution_structure, caution_wind, caution_debris, caution_weeps,
    caution_leak, caution_fire, caution_altitude, caution_tubes, caution_thermal,
    caution_reflection, caution_light, caution_contract, caution_approval;

#endif
