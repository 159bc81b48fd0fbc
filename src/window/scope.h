/* What a row of labels.csv or prices.csv holds for, and which of several rows counts for an opening. */
#ifndef WINDOW_SCOPE_H
#define WINDOW_SCOPE_H

#include <stddef.h>

#include "panewright/package.h"

/* Options by name: "grilles", "between", "tempered", "screen", ... */
typedef struct pw_option_list {
  size_t n;
  char name[PW_OPTIONS_MAX][PW_OPTION_MAX];
} pw_option_list;

/* One window as it is held against scopes. */
typedef struct pw_scope_window {
  const char *package;
  int kind; /* pw_operator */
  const pw_option_list *option;
  double size; /* m, width and height together */
} pw_scope_window;

int pw_option_has(const pw_option_list *list, const char *name);

/* Adds a name that is not there yet; a full list keeps what it has. */
void pw_option_add(pw_option_list *list, const char *name);

/* Whether the row holds for the window. */
int pw_scope_fits(const pw_scope *scope, const pw_scope_window *window);

/* Whether a says all that b says, perhaps more: whatever a fits, b fits. */
int pw_scope_within(const pw_scope *a, const pw_scope *b);

/* The narrowest of scopes that all fit one window.
 *
 * Given     scope[n]  n >= 1
 * Returned  *best     the one that is within every other; *rival when there is none or two of it
 * Status    PW_OK; PW_E_DATA scope[*best] and scope[*rival] hold alike, so none goes before
 */
pw_status pw_scope_narrowest(const pw_scope *const scope[], size_t n, size_t *best,
                             size_t *rival);

#endif
