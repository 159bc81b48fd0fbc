/* Sound by third octaves, 50 to 5000 Hz: a sound reduction index, a level, or a level difference. */
#ifndef SOUND_THIRDS_H
#define SOUND_THIRDS_H

#include <math.h>

enum { PW_THIRDS = 21 };

typedef struct pw_thirds {
  double db[PW_THIRDS]; /* NAN where nothing is known of a band */
} pw_thirds;

/* Share of the sound's power that a reduction of so many dB lets through. */
static inline double pw_sound_tau(double db) { return pow(10.0, -db / 10.0); }

/* Nominal centre of band i (ISO 266), Hz; NAN beyond the last. */
double pw_third_hz(int i);

/* The band whose nominal centre is hz, or -1. */
int pw_third_of(double hz);

#endif
