/* The sound of glasses that the search meets, each solved once. Internal. */
#ifndef STUDY_RANK_SOUND_H
#define STUDY_RANK_SOUND_H

#include <stdint.h>

#include "panewright/glazing.h"
#include "sound/single_number.h"

enum { RANK_SOUND_SLOTS = 4096 };

typedef struct rank_sound_slot {
  uint64_t key;  /* of panes and gaps, 0 empty */
  double rw_ctr; /* unrounded */
  pw_single_number number;
} rank_sound_slot;

/* One thread's memory; zeroed to begin with. */
typedef struct rank_sound {
  rank_sound_slot slot[RANK_SOUND_SLOTS];
} rank_sound;

/* Sound of a glass by the set safe: coatings, tints and gases do not matter. *out points into the memory
 * until the next call. */
pw_status rank_sound_of(rank_sound *memory, const pw_buildup *glass,
                        const rank_sound_slot **out, pw_err *err);

#endif
