/* Reads a glass build-up as the trade says it, outdoors to indoors, and says it back.
 *
 *   3mm clear / 12.7mm argon 90% / 3mm clear coat ag2@3
 *   1/8 in clear emit 0.10@2 / 1/2 in air / 1/8 in clear
 *   3 mm clear / 10 mm argon 60% krypton 30% / 3 mm clear
 *
 * Panes and gaps alternate, parts apart by "/". A thickness is decimal or a trade fraction
 * (1/2, 1 1/4, 1-1/4), in mm, cm, in or ". A "/" is a fraction bar only inside a thickness and
 * between two digits; everywhere else it separates parts, so blanks around it are optional.
 * After a pane stand any number of `coat NAME@SURFACE` and `emit E@SURFACE`; surfaces are
 * numbered 1..2n from outdoors. A gas without a share is pure; shares that sum below 100 % are
 * filled up with air. Letters may be of either case.
 */
#ifndef PANEWRIGHT_BUILDUP_H
#define PANEWRIGHT_BUILDUP_H

#include <stddef.h>

#include "panewright/glazing.h"

/* Given     text      one line, ends with NUL
 * Returned  *buildup
 * Status    PW_OK; PW_E_DATA otherwise: err names the column (from 1; also in err->column), what
 *           was found there, what is accepted and the nearest known word. On failure *buildup is
 *           untouched.
 */
pw_status pw_buildup_parse(const char *text, pw_buildup *buildup, pw_err *err);

/* As pw_buildup_parse, with names of panes known beside those of the table (measured ones). */
pw_status pw_buildup_parse_own(const char *text, const char *const own[], size_t n_own,
                               pw_buildup *buildup, pw_err *err);

/* The same in words (mm, shares in %), such that parsing it gives the build-up back.
 *
 * Given     buildup, size of text
 * Returned  text, always terminated
 * Status    PW_OK; PW_E_SHAPE n_pane out of range or text too small (it then holds what fits)
 */
pw_status pw_buildup_print(const pw_buildup *buildup, char *text, size_t size, pw_err *err);

#endif
