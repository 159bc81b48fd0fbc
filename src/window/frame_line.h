/* Frame lines of inserts: the built-in ones and the choice among those at hand. */
#ifndef WINDOW_FRAME_LINE_H
#define WINDOW_FRAME_LINE_H

#include <stddef.h>

#include "panewright/package.h"
#include "panewright/status.h"

/* Number of built-in rows, and row i (reference/frame_lines.csv). i below the count. */
size_t pw_frame_line_count(void);
void pw_frame_line_builtin(size_t i, pw_frame_line *line);

/* The row of line[n] with that name for that operator, else the name's row for any operator, else
 * NULL. Borrowed from line. */
const pw_frame_line *pw_frame_line_pick(const pw_frame_line line[], size_t n, const char *name,
                                        pw_operator operator_);

/* The usual sight lines of an existing window, where the job does not give them.
 * Source  measure.csv F4, F5; the meeting rail follows from the glass areas printed in measure.md
 *         item 7 (computed). */
double pw_existing_frame_face(pw_operator operator_);
double pw_existing_sash_face(void);
double pw_existing_door_face(void); /* of a hinged door */
double pw_existing_meeting_face(void);

#endif
