/* A rebate or code program as a CSV file of our own: one row a criterion, amount, cap, paper or rule.
 *
 *   program,edition,zone,row,group,metric,op,value,unit,from,to,source,note
 *
 * row        criterion, amount, cap, document, condition
 * group      criteria of one group hold together; groups are alternatives, the best paid first;
 *            blank or "always" holds beside every group
 * metric     u, shgc, vt, air_leakage (criteria only); op <=, >= or =
 * unit       criterion: Btu/h-ft2-F, W/m2K, cfm/ft2, or blank; amount and cap: $, $/ft2,
 *            $/opening, % of cost, % of product cost
 * from, to   yyyy-mm-dd, the first and last day placed in service; blank: open
 */
#ifndef JOB_PROGRAM_FILE_H
#define JOB_PROGRAM_FILE_H

#include "job/notes.h"
#include "money/program.h"

/* Status    PW_OK, *program to be freed; PW_E_MISSING; PW_E_DATA file, line, column, found, wanted;
 *           PW_E_NOMEM. On failure *program is zeroed. */
pw_status pw_program_read(const char *path, pw_program *program, pw_notes *notes, pw_err *err);
pw_status pw_program_parse(const char *name, const char *text, size_t size, pw_program *program,
                           pw_notes *notes, pw_err *err);
void pw_program_free(pw_program *program); /* NULL and a zeroed struct are fine */

#endif
