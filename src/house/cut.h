/* Which hours of the day are lived through in quarter hours. Internal. */
#ifndef HOUSE_CUT_H
#define HOUSE_CUT_H

#include "panewright/zone.h"

enum { HOUSE_CUT = 4 }; /* steps in place of one */

/* cut[clock] 1: an hour in which the plant has to follow the clock, its set point rising (heating), falling (cooling),
 * switched on or moved in a straight line; every hour of a house with a fan by the clock, whose rooms go through
 * tens of kelvins between one switch and the next. A step of an hour gives such rooms half an hour late: Standard 140's
 * set-back peak of case 640 is 4 to 8 % off by it, the cooling peak of 650 by 5 %. All other hours: 0. */
void house_cut(const pw_house *house, unsigned char cut[24]);

#endif
