/* Each package's labels held against the energy code in force where the house stands. */
#ifndef STUDY_CODE_CHECK_H
#define STUDY_CODE_CHECK_H

#include "study/compare.h"
#include "window/opening_label.h"

typedef enum pw_code_state {
  PW_CODE_NO_LIMIT = 0, /* none is known, or the code sets none */
  PW_CODE_MET,
  PW_CODE_MET_ON_AVERAGE, /* of a package: its openings do by their mean, weighed by area */
  PW_CODE_NO_LABEL,       /* a label value that decides is missing */
  PW_CODE_NOT_MET
} pw_code_state;

/* One opening under one package. */
typedef struct pw_code_opening {
  pw_code_state state;
  pw_label_row label;
  pw_program_result result; /* criterion by criterion; rows borrowed from the limits */
} pw_code_opening;

/* One package: windows are counted by quantity. */
typedef struct pw_code_package {
  pw_code_state state;
  int n_met, n_not, n_unlabelled;
  double mean_u, mean_shgc; /* of all labels by area; NAN when one is missing */
  int n_kind; /* kinds of window that have a label of no kind's own; makers certify each apart */
} pw_code_package;

/* Given     compare, package, opening
 * Returned  *check: by the label of that opening, never by a computed value
 * Status    PW_OK; PW_E_DATA two rows of labels.csv fit alike
 */
pw_status pw_code_check_opening(const pw_compare *compare, size_t package, size_t opening,
                                pw_code_opening *check, pw_err *err);

/* The same for all openings of a package. Where the model code holds, openings that miss a limit are
 * carried by the others when the mean of all labels, weighed by area, meets it.
 * Source: IECC R402.3.1 and R402.3.2 (reference/trade/criteria.csv, iecc_replacement; memory). */
pw_status pw_code_check_package(const pw_compare *compare, size_t package,
                                pw_code_package *check, pw_err *err);

/* "met", "met on average", "label missing", "not met", "no limit". Never NULL. */
const char *pw_code_state_name(pw_code_state state);

#endif
