/* What codes put down for a window without a label. They are bounds on the bad side: shown beside a
 * computed value as an upper check, never as the base of a saving, which they would overstate. */
#ifndef WINDOW_CODE_DEFAULT_H
#define WINDOW_CODE_DEFAULT_H

#include "panewright/status.h"
#include "panewright/survey.h"

typedef enum pw_code { PW_CODE_IECC = 0, PW_CODE_CALIFORNIA, PW_CODE_COUNT } pw_code;

typedef struct pw_code_values {
  double u;        /* W/(m2 K); NAN when the table has no row */
  double shgc, vt; /* NAN when the table has no row */
  const char *source_u, *source_shgc;
} pw_code_values;

/* Given     code, frame kind, operator_, n_pane (above 2 as 2), tinted 0 or 1
 * Returned  *values
 * Status    PW_OK; PW_E_DOMAIN an unknown code or kind, no pane
 * Source    reference/trade/criteria.csv: IECC tables R303.1.3(1) and (3), California Energy Code
 *           tables 110.6-A and B (values from memory there).
 */
pw_status pw_code_default(pw_code code, pw_frame_kind kind, pw_operator operator_,
                          size_t n_pane, int tinted, pw_code_values *values, pw_err *err);

/* The same for the window of an opening as measured; any body-tinted pane makes it tinted. */
pw_status pw_code_default_of(pw_code code, const pw_opening *opening, pw_code_values *values,
                             pw_err *err);

/* "IECC default", "California default". Never NULL. */
const char *pw_code_name(pw_code code);

#endif
