/* What new windows do for sound in each opening, each room and the house, and how surely: a step beside
 * the comparison of heat, made from it. */
#ifndef STUDY_COMPARE_SOUND_H
#define STUDY_COMPARE_SOUND_H

#include "sound/single_number.h"
#include "study/compare.h"
#include "study/sensitivity.h"
#include "window/opening_sound.h"

enum { PW_SOUND_DRAWS = 256 };

/* Judged on the change of Rw + Ctr: 10 % and 90 % of the draws beside 3 dB, which is just noticed. */
typedef enum pw_heard { PW_HEARD_MAY = 0, PW_HEARD_NOT, PW_HEARD_YES } pw_heard;
pw_heard pw_heard_of(const pw_band *change);

/* "you would hear it", "you would not hear it", "you may hear it". */
const char *pw_heard_text(pw_heard heard);

/* One window in its whole opening, frame, joints and retained frame included. */
typedef struct pw_opening_sound {
  pw_single_number number; /* set safe, joints in the middle of what they may be */
  pw_single_number glass;  /* of its glass alone, set safe */
  pw_band change;          /* dB of Rw + Ctr against the existing window; of packages */
  pw_heard heard;
  double window_rw,
      window_rw_ctr; /* of the insert by itself, EN 14351-1 annex B; NAN outside it */
} pw_opening_sound;

/* Openings of one room name. */
typedef struct pw_room_sound {
  char name[48];
  size_t n_opening, opening[PW_WINDOWS_MAX];
  double volume, wall_rw, vent_dne; /* m3, dB, dB (NAN no vent), as given or by default */
  int complete; /* 1: room_volume and wall_rw are given, so that levels are told */
  double level_difference
      [1 + PW_COMPARE_PACKAGES_MAX]; /* D_2m,nT for the noise of the job, A-weighted,
                                                            dB; existing first; middle of the draws */
  double level_indoors[1 + PW_COMPARE_PACKAGES_MAX]; /* dB(A), NAN without noise_db_2m */
  pw_band
      change[PW_COMPARE_PACKAGES_MAX]; /* dB less in the room than with the existing windows */
} pw_room_sound;

typedef struct pw_compare_sound {
  size_t n_opening, n_package, n_room;
  pw_opening_sound *existing;              /* [n_opening], owned */
  pw_opening_sound *package;               /* [p * n_opening + i], owned */
  pw_room_sound *room;                     /* [n_room], owned */
  pw_band change[PW_COMPARE_PACKAGES_MAX]; /* all openings together */
  pw_heard heard[PW_COMPARE_PACKAGES_MAX];
  unsigned notes; /* of the glass, PW_SOUND_LAMINATE ... */
  size_t noise;   /* row of reference/sound/noise.csv */
  int defaults;   /* 1: a room was not described in full */
} pw_compare_sound;

/* Sound of a finished comparison.
 *
 * Given     compare (its job, glass, fits, ratings)
 * Returned  *sound, to be freed by pw_compare_sound_free
 * Status    PW_OK; PW_E_NOMEM; as pw_glass_sound. On failure *sound is zeroed.
 * Notes     1) PW_SOUND_DRAWS scrambled draws, the same for all windows: one parameter set for both
 *              sides of a comparison, loss of laminates, joints old and new, frames, what the model
 *              misses (reference/sound/joints.csv).
 *           2) R of parts adds as energy, so a weighted mean of tau stands for the spectrum in the
 *              draws: exact.
 *           3) A label of sound stays beside these figures, never in them: it is another method.
 */
pw_status pw_compare_sound_of(const pw_compare *compare, pw_compare_sound *sound, pw_err *err);
void pw_compare_sound_free(pw_compare_sound *sound);

#endif
