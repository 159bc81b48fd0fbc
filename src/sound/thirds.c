#include "sound/thirds.h"

#include <math.h>

#include "gen/reference.h"

_Static_assert((int)pw_ref_sound_bands__n == (int)PW_THIRDS, "a row a third octave");

double pw_third_hz(int i)
{
  return i >= 0 && i < PW_THIRDS ? pw_ref_sound_bands[i].band_hz : (double)NAN;
}

int pw_third_of(double hz)
{
  for (int i = 0; i < PW_THIRDS; i++)
    if (hz == pw_ref_sound_bands[i].band_hz) return i;
  return -1;
}
