/* The certified label of an opening's new window: the one place where a label is looked up. */
#ifndef WINDOW_OPENING_LABEL_H
#define WINDOW_OPENING_LABEL_H

#include "panewright/survey.h"
#include "window/scope.h"

/* One option of an opening as files of labels and prices may name it: "between" or "grilles",
 * "tint_bronze" or "tint". */
typedef struct pw_option_name {
  char own[PW_OPTION_MAX],
      general[PW_OPTION_MAX]; /* general "" where there is only the one name */
} pw_option_name;

/* What the opening has (options.h), each once. Returns the count. */
size_t pw_option_names(const pw_opening *opening, pw_option_name name[PW_OPTIONS_MAX]);

/* All those names in one list, and "glass" where the opening has a glass of its own: what scopes ask. */
void pw_option_list_of(const pw_opening *opening, pw_option_list *list);

/* Given     job; column, a row of packages.csv; opening (its own package and glass count)
 * Returned  *label: the narrowest row of labels.csv that fits, else the label columns of packages.csv
 *           (line 0). A row is one label: what it leaves blank is missing and not taken from another, but
 *           for the laboratory's sound numbers, which stand in packages.csv when the row has none.
 * Status    PW_OK, also when no value is known (NAN, certificate ""); PW_E_DATA two rows fit alike; their
 *           lines are named
 * Notes     A label belongs to a glass: where glass, tint or pattern are the opening's own, a row counts
 *           only when its options name that (glass, tint, tint_bronze, obscure).
 */
pw_status pw_opening_label(const pw_job *job, size_t column, const pw_opening *opening,
                           pw_label_row *label, pw_err *err);

/* Whether any value of the label or its number is known. */
int pw_label_is_known(const pw_label_row *label);

#endif
