/* Which limits of the energy code a new window's label must meet, by place and date. */
#ifndef STUDY_CODE_LIMIT_H
#define STUDY_CODE_LIMIT_H

#include "money/program.h"
#include "panewright/message.h"
#include "window/code_default.h"

/* Where and when a job stands for the energy code; a zeroed one is nowhere. */
typedef struct pw_code_place {
  char zone[4];     /* climate zone "1A" .. "8", the letter may be missing; "" unknown */
  int california;   /* 1: California's own code holds there */
  int ca_zone;      /* 1..16; 0 unknown */
  char from[96];    /* how the zone is known, for print */
  int edition;      /* as the job says; 0 not said */
  pw_date date;     /* of the permit; 0 unknown */
  double elevation; /* m; 0 or NAN unknown */
  double area;      /* m2 of openings that get new windows in this job */
} pw_code_place;

enum { PW_CODE_LIMITS_MAX = 3 };

/* The limits as criteria that a label is held against (pw_program_judge): at most one a metric. */
typedef struct pw_code_limits {
  int known; /* 0: none is compiled for the place; text says whom to ask */
  pw_code code;
  int edition;
  pw_message zone; /* "climate zone 4B", "climate zone 12 of California" */
  size_t n_row;    /* of row; 0 with known 1: the code sets no limit there */
  pw_program_row row[PW_CODE_LIMITS_MAX];
  const char *source, *how_known; /* static, of the first row */
  pw_message says;                /* what else has to be said of them, or why none is known */
} pw_code_limits;

/* Given     place
 * Returned  *limits: the model code of the edition that the job says, else of 2021; in California its own
 *           code of the edition said, else of the one in force on the date, else of the newest
 * Status    PW_OK, also when none is known; PW_E_DOMAIN an edition that is not compiled (the message
 *           lists those that are)
 * Notes     1) No table says which edition a state or city has adopted: the local one governs, and the
 *              text says so. Nor has any compiled edition a limit by kind of window: one for all.
 *           2) A window put into an opening with its own frame, sash and glass must meet the table of
 *              new ones (R503.1.1.1); California has rows for alterations and for little ones.
 *           3) The footnote for heights above 4000 ft goes by the job's elevation, not the station's.
 * Source    reference/trade/criteria.csv with how_known of each.
 */
pw_status pw_code_limits_find(const pw_code_place *place, pw_code_limits *limits, pw_err *err);

/* The editions compiled for a code, oldest first; 0 past the last. */
int pw_code_edition(pw_code code, size_t i);

/* "the model energy code", "California's energy code". Never NULL. */
const char *pw_code_title(pw_code code);

/* The limit of a metric, SI; NAN when there is none. */
double pw_code_limit_of(const pw_code_limits *limits, pw_metric metric);

#endif
