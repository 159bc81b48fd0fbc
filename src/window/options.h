/* What one opening has over its package: grilles, tint, pattern, temper, screen, pet panel, colour, hinge.
 *
 *   grilles     light and sun are less by the area of the bars; heat by grille.h
 *   tint        the outer pane becomes the tinted one of the same thickness, its coating kept
 *   pattern     the pane without a coating becomes one that cannot be seen through
 *   tempered    marks the order and answers the question for safety glass
 *   colour      the sun that the frame takes (absorptance)
 *   screen, pet panel, hinge, note to the maker: the order only (a screen's sun is in the year)
 */
#ifndef WINDOW_OPTIONS_H
#define WINDOW_OPTIONS_H

#include <stddef.h>

#include "panewright/survey.h"

enum { PW_OPTION_NAMES_MAX = 8, PW_OPTION_NAME_MAX = PW_NAME_MAX + 8 };

/* The names of what an opening has, as files of prices and labels call them: grilles_between,
 * grilles_outside, tempered, obscure, tint_bronze, tint_gray, tint_green, screen, pet_panel,
 * colour_NAME (the colour as written, in lower case, '_' between words). In this order. Returns the count. */
size_t pw_opening_options(const pw_opening *opening,
                          char name[PW_OPTION_NAMES_MAX][PW_OPTION_NAME_MAX]);

/* Words of the columns; never NULL. */
const char *pw_tint_name(pw_tint tint);            /* "none", "bronze", "gray", "green" */
const char *pw_grille_name(pw_grille_place place); /* "none", "between", "outside" */
const char *pw_hinge_name(pw_hinge hinge);         /* "", "left", "right", "top" */

/* The glass of an opening with its tint and pattern.
 *
 * Given     option; glass of the package
 * Returned  *glass changed in place; the same where there is neither
 * Status    PW_OK; PW_E_DATA  the outer pane has no tinted kind, or no pane is free for the pattern at its
 *           thickness; err->field is "tint" or "pattern", the text says what can be had. On failure *glass is
 *           untouched.
 * Notes     1) Tinted glass is a substrate of reference/panes.csv with optical constants: any thickness, any
 *              coating. A coating keeps what it does on clear glass (optics_film).
 *           2) A pattern that is not a row of panes.csv has the light of figured glass ("obscure").
 */
pw_status pw_options_glass(const pw_options *option, pw_buildup *glass, pw_err *err);

/* Whether the glass is another than the package's. */
int pw_options_change_glass(const pw_options *option);

/* Whether a glass takes them all: as pw_options_glass, and bars between the panes need a gap to lie in
 * (err->field "grilles"). */
pw_status pw_options_suit(const pw_options *option, const pw_buildup *glass, pw_err *err);

/* Half the range of light and sun of a pattern (options/patterns.csv; one that is not named there: of the widest). */
double pw_pattern_spread(const char *pattern);

/* The solar absorptance of a frame colour of reference/options/colours.csv; 0 when it has none of that name.
 * low, high (may be NULL): its usual range. */
double pw_colour_absorptance(const char *name, double *low, double *high);

#endif
