/* The columns and items of a job folder, printed for people and for pages that edit one. */
#ifndef OUT_FIELD_LIST_OUT_H
#define OUT_FIELD_LIST_OUT_H

#include <stdio.h>

#include "job/field_list.h"
#include "out/grid.h"
#include "out/tongue.h"
#include "panewright/status.h"

/* list[n] as aligned text, CSV or JSON {"files": [{"file", "items", "fields": [...]}]}, a field being
 * {name, part, says, kind, required, blank, why, words: [{word, also}], units, low, high, spread}:
 *   kind   text, length, number, integer, yes_no, word, facing, date
 *   blank  what a blank cell means, "" for nothing said; why: where that comes from
 *   words  those that are taken, with others of the same meaning; [] for any text
 *   units  those that a number may carry, the first being that of a bare one
 *   low, high   of lengths and numbers, in SI as the reader keeps them, else null
 *   spread 1 when the number may carry "+- x"
 * says is in the tongue (NULL: English).
 * Status PW_OK; PW_E_IO; PW_E_NOMEM */
pw_status pw_field_list_print(const job_field_list list[], size_t n, FILE *f, pw_format format,
                              const pw_tongue *tongue, pw_err *err);

#endif
