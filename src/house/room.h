/* A house as its year needs it: faces, films, shares of sun and of long-wave exchange. What lives in it, one
 * house or several side by side, is lane_room.h. Internal. */
#ifndef HOUSE_ROOM_H
#define HOUSE_ROOM_H

#include "house/film.h"
#include "house/pane.h"
#include "house/wall.h"
#include "panewright/year.h"

enum { ROOM_FACES = PW_PARTS_MAX + PW_WINDOWS_MAX };

/* How an outer face sees the world by long-wave, and its wind. */
typedef struct room_outer {
  film_tilt tilt;
  double plate; /* W/(m2 K), forced part at 1 m/s; glass has its own */
  double free;  /* share of free convection that counts beside it: 0 where the form holds it */
  double sky, near; /* emittance times view: of the sky's temperature; of air and ground */
} room_outer;

typedef struct room_part {
  pw_outside outside;
  double absorptance;
  room_outer outer;
  const pw_wall *wall,
      *wall_cut; /* of the workspace: for the usual step, and for a cut hour's */
} room_part;

typedef struct room {
  size_t n_part, n_window, n; /* faces: parts first, then glass */
  double step;                /* s */
  double area[ROOM_FACES];    /* m2, inner face */
  double share[ROOM_FACES];   /* long-wave exchange factor with the star point */
  film_tilt tilt[ROOM_FACES];
  double beam[ROOM_FACES];      /* W/m2 absorbed inside for 1 W of beam let in */
  double diffuse[ROOM_FACES];   /* the same for diffuse */
  double beam_out, diffuse_out; /* share that leaves again through glass */
  room_part part[PW_PARTS_MAX];
  room_outer glass_outer;
  const pane_unit *unit[PW_WINDOWS_MAX]; /* of the workspace */
  film_law law[ROOM_FACES][2];           /* of the indoor form, [1] lively; STILL: none */
  pw_film_in film_in;
  double air_heat; /* J/K of the air and light contents at 1 kg/m3 */
} room;

/* Fills shares and solar distribution. The units and walls of r must be set. thin: air
 * density over that at sea level. Status PW_E_CONVERGE when one
 * face is more than all others together can see. */
pw_status room_faces(room *r, const pw_house *house, const pw_house_window window[], size_t n,
                     double thin, pw_err *err);

#endif
