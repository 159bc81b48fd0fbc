/* Parts of the check group `glazing`. */
#ifndef CHECK_GLAZING_H
#define CHECK_GLAZING_H

#include "check/check.h"

pw_status glazing_gas(const pw_check_sink *sink, pw_err *err);
pw_status glazing_en673(const pw_check_sink *sink, pw_err *err);
pw_status glazing_uw(const pw_check_sink *sink, pw_err *err);
pw_status glazing_handbook(const pw_check_sink *sink, pw_err *err);
pw_status glazing_textbook(const pw_check_sink *sink, pw_err *err);
pw_status glazing_worked(const pw_check_sink *sink, pw_err *err);
pw_status glazing_edge(const pw_check_sink *sink, pw_err *err);

/* Whole U of the handbook's example 1, W/(m2 K). */
pw_status glazing_example_1(double *u, pw_err *err);

#endif
