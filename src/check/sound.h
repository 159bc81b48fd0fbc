/* Parts of the check group `sound`. */
#ifndef CHECK_SOUND_H
#define CHECK_SOUND_H

#include "check/check.h"
#include "sound/single_number.h"

/* sound_units.c: the unit model against published panes and units. */
pw_status sound_units(const pw_check_sink *sink, pw_err *err);

/* Octaves 125 to 4000 Hz from third octaves: equal energy falls on each third. */
void sound_octaves(const pw_thirds *r, double octave[6]);

#endif
