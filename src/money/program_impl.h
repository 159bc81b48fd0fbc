/* What criteria and amounts of a program share. */
#ifndef MONEY_PROGRAM_IMPL_H
#define MONEY_PROGRAM_IMPL_H

#include "money/program.h"

/* Whether a row counts for a zone on a date (0: any date). */
int program_row_holds(const pw_program_row *row, const char *zone, pw_date date);

/* Whether a group's name means "beside every group". */
int program_group_always(const char *group);

/* Puts the one zone of a program in the place of "". Refuses an unknown zone. */
pw_status program_zone_check(const pw_program *program, const char **zone, pw_err *err);

#endif
