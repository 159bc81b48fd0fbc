/* One opening as the crew sees it from outside, to scale: old frame, what comes off, the unit in its pocket, shims, gaps. */
#ifndef OUT_CREW_DRAWING_H
#define OUT_CREW_DRAWING_H

#include "out/html.h"
#include "out/length.h"
#include "window/materials.h"

/* Dashed: comes off; black: stays; wedges: shims; arrows: a lite that moves. */
void pw_crew_drawing(const pw_opening *opening, const pw_fit *fit,
                     const pw_materials *materials, pw_reading as, pw_html *h);

/* The gap between unit and pocket a side, m, in the order of lites.h; of a shape the least all round. */
void pw_crew_gap(const pw_fit *fit, double gap[4]);

/* Fins that come off (0..2) and whether the lip does, by what the opening has and what may come off. */
int pw_crew_fins_off(const pw_opening *opening);
int pw_crew_lip_off(const pw_opening *opening);

#endif
