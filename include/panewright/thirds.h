/* Sound by third octaves, 50 to 5000 Hz: a sound reduction index, a level, or a level difference. */
#ifndef PANEWRIGHT_THIRDS_H
#define PANEWRIGHT_THIRDS_H

enum { PW_THIRDS = 21 };

typedef struct pw_thirds {
  double db[PW_THIRDS]; /* NAN where nothing is known of a band */
} pw_thirds;

/* Nominal centre of band i (ISO 266), Hz; NAN beyond the last. */
double pw_third_hz(int i);

/* The band whose nominal centre is hz, or -1. */
int pw_third_of(double hz);

#endif
