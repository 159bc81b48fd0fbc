/* Sections that stand in the reference tables. */
#ifndef CHECK_SECTION_TABLE_H
#define CHECK_SECTION_TABLE_H

#include "frame/section.h"

/* Builds the section of table "section/NAME" (mm, columns as a section file). PW_E_MISSING when there
 * is no such table. */
pw_status pw_section_of_table(const char *name, pw_section *section, pw_err *err);

/* Makes a section longer by `by` (m, below 0 shorter) along an axis (0 x, 1 y) at a coordinate: what
 * lies beyond it moves, what crosses it is stretched. A part that would vanish is an error. */
pw_status pw_section_stretch(pw_section *section, int axis, double at, double by, pw_err *err);

#endif
