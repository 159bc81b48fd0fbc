/* Mulled units: openings that are one opening in the wall, with mullions between. Also bays and bows, whose
 * lights face each their own way, and transoms, where one stands over the rest.
 *
 * A mullion is counted once, with the row that joins: its area enters the opening of that row, before and
 * after, as frame. So the unit is the sum of its openings, in whatever order the rows stand, and
 *   U_unit = sum U_i A_i / sum A_i
 */
#ifndef WINDOW_MULLED_H
#define WINDOW_MULLED_H

#include <stddef.h>

#include "panewright/status.h"
#include "panewright/survey.h"

/* Sets unit_joint where it is blank (the first such row of a unit is the one that the others join, a later
 * one stands beside) and mullion_area:
 *   mullion_face x the height of the row that joins beside, its width when it stands over
 *
 * Status  PW_OK; PW_E_DOMAIN a unit of other quantities, or whose rows all join; err->line is a row's
 * Source  common practice, no source: a mullion runs along the side of the unit that it holds. */
pw_status pw_mulled_join(pw_opening opening[], size_t n, pw_err *err);

#endif
