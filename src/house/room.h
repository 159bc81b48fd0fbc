/* The zone at work: every surface of a house and its windows, one step at a time. Internal.
 *
 * Each surface is reduced to two numbers towards the room, what it takes per K of its inner face and
 * what it gives of itself (wall: conduction and what it remembers; glass: the chain of panes). Then
 * room air and the mean radiant temperature are two unknowns, solved at once, and the faces follow.
 */
#ifndef HOUSE_ROOM_H
#define HOUSE_ROOM_H

#include "house/film.h"
#include "house/pane.h"
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
  pw_wall wall;
  double state[PW_MODES_MAX]; /* K */
  double t_out;               /* K, outer face */
  double was[2], was_out;     /* K, faces in the step before */
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
  pane_window window[PW_WINDOWS_MAX];
  double t_in[ROOM_FACES]; /* K, inner faces; between steps: guessed for the next */
  double t_air, t_star;    /* K, the same */
  double was_in[ROOM_FACES], was_air, was_star; /* K, as the last step left them */
  double size[ROOM_FACES];                      /* m, of the plane, for the indoor film */
  double thin;                                  /* air density over that at sea level */
  pw_film_in film_in;
  double air_heat; /* J/K of the air and light contents at 1 kg/m3 */
} room;

/* What drives a step. */
typedef struct room_drive {
  double t_out, t_sky, t_ground; /* K */
  double wind_glass;             /* W/(m2 K), forced part on smooth glass */
  double wind_root;           /* root of the wind at the wall, m/s; straight forms: the film */
  double density;             /* kg/m3 of air */
  double flow;                /* m3/s of outdoor air */
  double gain_air, gain_star; /* W, to the air and as radiation */
  double beam, diffuse;       /* W of sun let in */
  double frame_ua;            /* W/K of frames at this hour's wind */
  double frame_sun;           /* W, sun that frames hand inward */
  double frame_t;             /* K, what frames see outdoors */
  double heat_set, cool_set;  /* K; NAN off */
  double heat_max, cool_max;  /* W */
  double heat_radiant;
  const float *part_sun;                 /* W/m2 on the outer face of each part */
  const float *pane_sun[PW_WINDOWS_MAX]; /* W/m2 absorbed in each pane */
} room_drive;

/* What came of it. */
typedef struct room_flow {
  double heat, cool;            /* W, both positive */
  double air, frame, gain;      /* W into the room: air exchange, frames' conduction, gains */
  double sun_out;               /* W let in that leaves again through glass */
  double opaque;                /* W into the outer faces of opaque parts, sun included */
  double glass_out;             /* W into the outer faces of glass by film, sun left out */
  double stored;                /* J taken up by the air */
  double glass[PW_WINDOWS_MAX]; /* W/m2 from glass to room by film; sun passed not in it */
  double glass_sun[PW_WINDOWS_MAX];  /* W/m2 of absorbed sun handed inward */
  double glass_back[PW_WINDOWS_MAX]; /* W/m2 of sun let in that glass absorbs from inside */
} room_flow;

/* Fills shares and solar distribution. The units of r->window[] must be set. thin: air
 * density over that at sea level. Status PW_E_CONVERGE when one
 * face is more than all others together can see. */
pw_status room_faces(room *r, const pw_house *house, const pw_house_window window[], size_t n,
                     double thin, pw_err *err);

/* Sets every temperature from a steady guess. */
void room_start(room *r, double t_in, double t_out, double t_ground);

void room_step(room *r, const room_drive *d, room_flow *flow);

/* J in the walls, above 0 K. */
double room_content(const room *r);

#endif
