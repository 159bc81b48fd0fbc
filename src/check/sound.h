/* Parts of the check group `sound`. */
#ifndef CHECK_SOUND_H
#define CHECK_SOUND_H

#include "check/check.h"
#include "sound/single_number.h"

/* sound_units.c: the unit model against published panes and units. */
pw_status sound_units(const pw_check_sink *sink, pw_err *err);

#endif
