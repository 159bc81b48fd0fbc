/* A house as one heated zone: its opaque parts, air, gains and set points. */
#ifndef PANEWRIGHT_ZONE_H
#define PANEWRIGHT_ZONE_H

#include <stddef.h>

#include "panewright/weather.h"

enum { PW_PARTS_MAX = 24 };

/* How the job says it. */
typedef enum pw_airing_habit {
  PW_AIRING_BLANK = 0, /* with cooling never, without it always */
  PW_AIRING_NEVER,
  PW_AIRING_EVENINGS, /* and nights */
  PW_AIRING_ALWAYS,   /* whenever it helps */
  PW_AIRING_HABITS
} pw_airing_habit;

/* The rule of a house. Windows stand open in an hour of the clock allowed, while with them shut the rooms would be warmer
 * than down_to_c and than outdoors by over_out, and it is not too damp outside; they are drawn to so far that the rooms do
 * not cool below down_to_c and the air is not changed more often than most_changes. Where there is cooling, they are shut
 * and it runs once the air alone would not hold its set point. */
typedef struct pw_airing {
  unsigned hours;      /* bit h: from h to h + 1 o'clock; 0: never */
  double share;        /* of the openable area, whole windows, that stands open; 0..1 */
  double flow;         /* times the flow of the equations; their scatter */
  double down_to_c;    /* C of room air */
  double over_out;     /* K */
  double dew_most_c;   /* C, dew point outdoors above which they are shut */
  double most_changes; /* 1/h */
} pw_airing;

/* Flow through all that stands open in a house: flow^2 = wind v^2 + stack dT + still, m3/s; v m/s at the mast, 10 m. */
typedef struct pw_airing_flow {
  double wind, stack, still;
  int cross; /* 1: on two walls and by EN 16798-7; 0: by de Gids and Phaff */
} pw_airing_flow;

enum { PW_LAYERS_MAX = 10 };

typedef struct pw_wall_layer {
  double thickness;    /* m; 0: a bare resistance */
  double conductivity; /* W/(m K); with thickness 0 not used */
  double density;      /* kg/m3; 0: no heat stored */
  double heat;         /* J/(kg K) */
  double resistance;   /* m2 K/W, used when thickness is 0 */
} pw_wall_layer;

typedef struct pw_wall_layers {
  size_t n_layer;                     /* 1..PW_LAYERS_MAX */
  pw_wall_layer layer[PW_LAYERS_MAX]; /* outdoors to indoors */
} pw_wall_layers;

/* What is on the far side of an opaque part. */
typedef enum pw_outside {
  PW_OUTSIDE_AIR = 0, /* weather: wind, sun, sky */
  PW_OUTSIDE_GROUND,  /* held at ground_c */
  PW_OUTSIDE_SAME     /* the same room: partition or furniture, no net flow */
} pw_outside;

/* Outside face for wind. Source: roughness classes of Walton, NBSIR 83-2655 (1983). */
typedef enum pw_rough {
  PW_ROUGH_MEDIUM = 0, /* factor 1.52: concrete, siding */
  PW_ROUGH_STUCCO,     /* very rough, 2.17 */
  PW_ROUGH_BRICK,      /* rough, 1.67: also shingles */
  PW_ROUGH_PLASTER,    /* medium smooth, 1.13: clear pine */
  PW_ROUGH_PAINT,      /* smooth, 1.11 */
  PW_ROUGH_GLASS       /* very smooth, 1.00 */
} pw_rough;

/* Convection that published forms differ on. Which holds at one house is not known: the first of each is what
 * a comparison is made by, the others are what a range draws beside it (table model_forms, with their
 * sources). Each acts on glass, on frames and on opaque faces of the detailed balance; the simple and monthly
 * methods take it for glass and frames, their opaque parts have the fixed films of ISO 13790. */
typedef enum pw_film_out {
  PW_FILM_OUT_FIELD =
      0, /* glass by the field correlation at the site's wind, walls as rough plates */
  PW_FILM_OUT_SHELTERED, /* the same at the wind before the wall */
  PW_FILM_OUT_LEE,  /* ISO 15099: straight in the wind along the face, windward and leeward */
  PW_FILM_OUT_PLAIN /* ISO 6946: 4 + 4 v, v before the wall */
} pw_film_out;

typedef enum pw_film_in {
  PW_FILM_IN_STILL = 0, /* free convection of still air; glass by ISO 15099 */
  PW_FILM_IN_FIXED,     /* constants of ISO 6946 and EN 673 */
  PW_FILM_IN_ROOM,      /* correlation of heated plates of room size */
  PW_FILM_IN_HEATED /* rooms with a convective heater, while a face is colder than the air */
} pw_film_in;

/* Ground under a slab: what its temperature follows. */
typedef enum pw_ground_form {
  PW_GROUND_YEAR = 0, /* the year's mean of the air outdoors */
  PW_GROUND_PERIODIC, /* and a share of the month's swing, a month late: ISO 13370 */
  PW_GROUND_PERIMETER /* the month's air outdoors, as loss by perimeter has it */
} pw_ground_form;

typedef struct pw_house_part {
  char name[24];
  pw_wall_layers layers; /* outdoors to indoors; no surface films */
  double area;           /* m2, holes for windows taken off */
  double tilt_deg;       /* of the outward normal: 0 roof, 90 wall, 180 floor over air */
  double facing_deg;
  pw_outside outside;
  pw_rough rough;
  double absorptance;    /* solar, outer face */
  double emittance;      /* long-wave, outer face; 0 means 0.9 */
  double absorptance_in; /* solar, inner face; 0 means 0.6 */
  double emittance_in;   /* long-wave, inner face; 0 means 0.9 */
  int floor;             /* 1: beam sun falls here first */
  double height;         /* m of a wall under an overhang; 0: no overhang counted */
  double overhang_depth, overhang_gap; /* m, of eaves: out, and up from the wall's head */
} pw_house_part;

/* Copy and change freely: a study varies these numbers run by run. */
typedef struct pw_house {
  size_t n_part;
  pw_house_part part[PW_PARTS_MAX];
  double floor_area;  /* m2, heated */
  double volume;      /* m3 of air */
  double air_changes; /* 1/h, leakage and wanted air, at outdoor pressure */
  const float *
      air_shape; /* [PW_HOURS] each hour's share of air_changes, mean 1 (infiltration.h); NULL: one rate;
                             borrowed, must outlive the house */
  double vent_changes[24]; /* 1/h more in each hour of the day (night ventilation) */
  pw_airing airing;        /* when people open the windows; all 0: never */
  double gain_w;           /* W, internal, sensible */
  double gain_radiant;     /* share of it radiant */
  double heat_set_c[24];   /* C by hour of the day; NAN: heating off */
  double heat_ramp_k
      [24]; /* K that heat_set_c, its mean, rises by through the hour, in a straight line; 0 holds it */
  double cool_set_c[24];         /* C; NAN: cooling off, the house floats */
  double warm_c;                 /* C; hours of room air above it are counted; 0: not asked */
  double heat_radiant;           /* share of heating given as radiation; 0 warm air */
  double heat_max_w, cool_max_w; /* W; 0: as much as is wanted */
  double ground_c[12];           /* C below the floor, by month */
  double air_store;              /* air plus light contents against air alone; 0 means 1 */
  double albedo;                 /* of the ground before the house; 0: the weather file's
                                    by hour (snow), 0.2 where it has none */
  double height;                 /* m, mid-height of walls for the wind there; 0 means 1.5 */
  double terrain; /* wind profile exponent at the house: 0.14 open, 0.22 suburb; 0 means 0.22 */
  pw_film_out film_out;
  pw_film_in film_in;
  double mass_area;  /* m2, A_m of the simple methods; 0: 2.5 floor areas (light) */
  double mass_store; /* J/K, C_m of the simple methods; 0: 110 kJ/K a m2 of floor (light) */
} pw_house;

/* W/(m2 K) of a part with the surface films of ISO 6946. */
double pw_house_part_u(const pw_house_part *part);

/* W/K through the opaque parts, films as above; the part
 * over the ground apart (either pointer may be NULL). */
void pw_house_ua(const pw_house *house, double *to_air, double *to_ground);

/* Temperature of the ground under the house's slab by month, C, by a form (table model_forms). The share of the
 * swing under ISO 13370 is that of the part over the ground, taken as square; a house without one has none. */
void pw_house_ground(const pw_house *house, const pw_weather *weather, pw_ground_form form,
                     double ground_c[12]);

/* Every value in range? Names the field that is not. */
pw_status pw_house_check(const pw_house *house, pw_err *err);

#endif
