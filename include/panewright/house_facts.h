/* From the facts a contractor can give to the layers and numbers of a house. */
#ifndef PANEWRIGHT_HOUSE_FACTS_H
#define PANEWRIGHT_HOUSE_FACTS_H

#include "panewright/message.h"
#include "panewright/survey.h"
#include "panewright/weather.h"
#include "panewright/zone.h"

enum { PW_HOUSE_ASSUMED_MAX = 32 };

/* One value the facts did not give. */
typedef struct pw_house_assumed {
  pw_message_number item;
  pw_message value;
  const char *source; /* of the preset row, or "assumed" */
} pw_house_assumed;

/* A hole in the wall: the whole opening, all of a kind. */
typedef struct pw_house_hole {
  double facing_deg;
  double area; /* m2 in all */
} pw_house_hole;

typedef struct pw_house_notes {
  size_t n_assumed;
  pw_house_assumed assumed[PW_HOUSE_ASSUMED_MAX];
} pw_house_notes;

/* 1 in the hours 22 to 6, when a set-back holds. hour: 0..23 that begins. */
int pw_house_is_night(int hour);

/* Given     facts; weather of the place (annual mean for the ground); holes[n], taken off the wall
 *           that faces them best
 * Returned  *house, *notes (may be NULL): every default used
 * Status    PW_OK; PW_E_DATA an unknown preset name (the nearest is offered); PW_E_DOMAIN a value,
 *           or more opening than wall
 * Notes     Presets stand in reference/house_presets.csv by vintage and part, each with its source
 *           or the word assumed. A stated envelope_ua scales the insulation of all parts alike.
 */
pw_status pw_house_from_facts(const pw_house_facts *facts, const pw_weather *weather,
                              const pw_house_hole holes[], size_t n_hole, pw_house *house,
                              pw_house_notes *notes, pw_err *err);

#endif
