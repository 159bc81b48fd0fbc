/* Which built-in place a text means: a ZIP code, a town, a station, a position. */
#ifndef CLIMATE_PLACE_FIND_H
#define CLIMATE_PLACE_FIND_H

#include "climate/month.h"

typedef struct pw_place_hit {
  size_t index; /* of pw_place_get */
  double km;    /* from what was named to the station; 0 when the station itself was named */
  char said
      [64]; /* what was named, when that is no station: "ZIP 92262", "Laguna, CA (ZIP 92651)" */
  const char *
      zone; /* code zone of the 2012 edition, of the ZIP code or else of the station; "" unknown;
                       static */
  int ca_zone; /* California's code zone, 0 none */
} pw_place_hit;

/* A place as a job names it: "92262" or "92262-1234" (a ZIP code), "39.8,-104.7", a station number, "CA zone
 * 12" (the place of that code zone), or words of its name and state ("Phoenix", "St George, UT", "Palm
 * Springs, California"); every word must begin a word of the place's. The 94 places of the first set go
 * before the others; a place of exactly that name goes before one that only has the words; a town that has
 * no station of its own is found by the ZIP codes of the first word of its name, when that is all of it.
 *
 * Status    PW_OK; PW_E_DATA none fits (the nearest spelling or the town's ZIP codes are offered) or
 *           several do (they are named); PW_E_DOMAIN a position that is none
 * Source    reference/climate2 (README.md says how each is known).
 */
pw_status pw_place_look(const char *text, pw_place_hit *hit, pw_err *err);

/* One of the places that a text still being written may become. */
typedef struct pw_place_choice {
  char write[72]; /* what to write for it: pw_place_look(write) gives hit */
  pw_place_hit hit;
} pw_place_choice;

/* Places that a text may become, at most `most` of them: what it means by itself first, then towns of that very
 * name, stations that have its words, towns whose name begins so; of three digits and more ZIP codes. Returns how
 * many; 0 where nothing begins so. Each is one that pw_place_look takes. */
size_t pw_place_like(const char *text, pw_place_choice choice[], size_t most);

#endif
