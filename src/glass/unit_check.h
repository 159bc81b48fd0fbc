/* What a unit and its surroundings may be; each refusal names its field. */
#ifndef GLASS_UNIT_CHECK_H
#define GLASS_UNIT_CHECK_H

#include "panewright/unit.h"

pw_status unit_check(const pw_unit *unit, pw_err *err);
pw_status env_check(const pw_env *env, pw_err *err);
pw_status absorbed_check(size_t n_pane, const double absorbed[], pw_err *err);

#endif
