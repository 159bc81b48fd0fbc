/* States by their postal code or their name. */
#ifndef BASE_STATE_H
#define BASE_STATE_H

/* Given     text    "AZ", "az", "Ariz." is none, "Arizona", "N.M.", "new mexico"
 * Returned  *code   the postal code, "AZ"; near, when not NULL, the name spelt most like it, or NULL
 * Notes     1 when it is a state, else 0 and *code is untouched.
 * Source    reference/states.csv */
int pw_state_find(const char *text, const char **code, const char **near);

#endif
