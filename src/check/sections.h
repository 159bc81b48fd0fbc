/* Parts of the group sections. */
#ifndef CHECK_SECTIONS_H
#define CHECK_SECTIONS_H

#include "check/check.h"
#include "panewright/glazing.h"

/* sections_cold.c: the relation of reference/frame/coldest.csv, fitted again to own sections. */
pw_status sections_cold(const pw_check_sink *sink, pw_err *err);

/* Glass of n panes 3 mm thick with gaps of that width (m), air, or argon and a low-e face. */
pw_status sections_glass(size_t n, int low_e, double gap, pw_glazing *g, pw_err *err);

#endif
