/* What to check before and after the work, by opening: escape, falls, lead, safety glass, water,
 * altitude. Every rule is a row of reference/trade/safety.csv, which holds its limit, source and who
 * decides. The program points out; it never approves. */
#ifndef WINDOW_CAUTION_H
#define WINDOW_CAUTION_H

#include <stddef.h>

#include "panewright/fit.h"
#include "panewright/message.h"
#include "panewright/status.h"
#include "panewright/survey.h"

/* In order of alarm. */
typedef enum pw_caution_state {
  PW_CAUTION_CLEAR = 0, /* looked at, nothing found */
  PW_CAUTION_REMIND,    /* holds for every such job: a checklist line */
  PW_CAUTION_ASK,       /* the job does not say; find out */
  PW_CAUTION_FLAG,      /* found on this job */
  PW_CAUTION_FAIL       /* a life-safety limit is not met as computed */
} pw_caution_state;

enum { PW_CAUTION_WHOLE_JOB = -1 };

typedef struct pw_caution {
  const char *id;                         /* of safety.csv, such as "EG1" */
  const char *topic, *source, *how_known; /* of that row; static */
  const char *defer_to;                   /* who decides; static */
  int rank;                               /* 1 life safety .. 6 law and paper, for display */
  int opening;                            /* index, or PW_CAUTION_WHOLE_JOB */
  pw_caution_state state;
  pw_message finding; /* one plain line, figures of this job in it */
  int agreed; /* 1: of the escape opening, and the job holds the building official's word on it */
} pw_caution;

typedef struct pw_cautions {
  pw_caution *caution; /* owned; by rank, then opening, then id; clear ones are left out */
  size_t n;
  size_t n_fail, n_flag, n_ask; /* tallies by state */
} pw_cautions;

/* Under every list of cautions stands PW_SAY_CAUTION_CLOSING. */

/* Runs every rule over a job and its fits.
 *
 * Given     job; fit[job->n_opening] of the insert as it would be ordered
 * Returned  *list  to be freed by pw_cautions_free
 * Status    PW_OK; PW_E_NOMEM
 * Source    reference/trade/safety.csv, SAFETY.md.
 */
pw_status pw_cautions_find(const pw_job *job, const pw_fit fit[], pw_cautions *list,
                           pw_err *err);
void pw_cautions_free(pw_cautions *list);

/* Whether any rule of the escape opening fails for that opening. */
int pw_caution_escape_fails(const pw_cautions *list, int opening);

/* Whether one fails and the job holds no official's word on it: such an opening is neither offered nor ordered. */
int pw_caution_escape_open(const pw_cautions *list, int opening);

/* Whether safety glass is called for in that opening (the order list's tempered mark). */
int pw_caution_safety_glass(const pw_cautions *list, int opening);

/* "clear", "remind", "ask", "flag", "FAIL". */
const char *pw_caution_state_name(pw_caution_state state);

#endif
