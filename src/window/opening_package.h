/* The package as one opening gets it: the one place that joins what packages.csv offers with what the
 * opening asks for. Fit, rating, sections, prices, code, rebate, sound, order, sheet and explain take
 * it from here. */
#ifndef WINDOW_OPENING_PACKAGE_H
#define WINDOW_OPENING_PACKAGE_H

#include "panewright/survey.h"
#include "window/frame_line.h"

/* Which row of packages.csv an opening has in a column of the comparison: its own, else the column's. */
size_t pw_opening_package_row(const pw_opening *opening, size_t column);

/* Whether an opening holds a package or a glass of its own. */
int pw_opening_has_own(const pw_opening *opening);

/* Given     job; column, a row of packages.csv; opening
 * Returned  *package  its own package or the column's, with its own glass where it has one, its tint and
 *                     pattern (glass_text stays that of the untinted glass). Name, frame
 *                     line, spacer, filling and price stay the package's.
 * Notes     A label and its certificate belong to a glass: with a glass of its own the opening has no
 *           label value (not a number, certificate ""), until a label of that glass is given.
 */
void pw_opening_package(const pw_job *job, size_t column, const pw_opening *opening,
                        pw_package *package);

/* Whether that package's glass takes the opening's options (options.h); a job that was read has no other.
 * Status  PW_OK; PW_E_DATA, err->field names the column */
pw_status pw_opening_package_check(const pw_job *job, size_t column, const pw_opening *opening,
                                   pw_err *err);

/* The frame line of that package for the opening's insert; NULL when it has none. */
const pw_frame_line *pw_opening_line(const pw_job *job, size_t column,
                                     const pw_opening *opening);

/* The line that an opening is fitted with: a window that stays gets no insert and is measured with a
 * line of hardly any width, so that no package can be too wide for it. */
const pw_frame_line *pw_opening_fit_line(const pw_job *job, size_t column,
                                         const pw_opening *opening);

/* The phase in which an opening's window is replaced, 1 .. */
int pw_phase_of(const pw_opening *opening);

#endif
