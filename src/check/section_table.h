/* Sections that stand in the reference tables. */
#ifndef CHECK_SECTION_TABLE_H
#define CHECK_SECTION_TABLE_H

#include "panewright/section.h"

/* Builds the section of table "section/NAME" (mm, columns as a section file). PW_E_MISSING when there
 * is no such table. */
pw_status pw_section_of_table(const char *name, pw_section *section, pw_err *err);

#endif
