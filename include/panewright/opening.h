/* An opening as it is measured, and what it has over its package. SI; a value whose unit is not plain SI says so. */
#ifndef PANEWRIGHT_OPENING_H
#define PANEWRIGHT_OPENING_H

#include "panewright/given.h"
#include "panewright/glazing.h"
#include "panewright/kinds.h"

enum { PW_TAG_MAX = 24, PW_DWELLING_MAX = 24, PW_PHASES_MAX = 6 };

typedef struct pw_options {
  int tempered;              /* 1: wanted whatever the rules ask; 0: as they ask */
  char pattern[PW_NAME_MAX]; /* of a pane that cannot be seen through; "" none */
  pw_tint tint;
  pw_grille grille;
  int pet_panel;
  char colour[PW_NAME_MAX]; /* of the frame outside, as written; "" the frame line's */
  double absorptance;       /* solar, of that colour; not given: the frame line's */
  pw_hinge hinge;
  char maker_note[PW_TEXT_MAX]; /* to the maker alone, on no customer's paper */
  int tint_column, pattern_column, grilles_column; /* in openings.csv, for refusals */
} pw_options;

/* One row of openings.csv. Readings are of the clear pocket between the interior side fins and above the sill lip.
 * Begin with pw_opening_init: PW_NOT_GIVEN is in every number that need not be known. */
typedef struct pw_opening {
  char tag[PW_TAG_MAX], room[48], note[PW_TEXT_MAX];
  int quantity;
  double facing_deg; /* 0 north, 90 east: the way one looks when looking out */
  pw_operator operator_existing, operator_insert; /* insert: same unless stated */
  double glass_share; /* of a hinged door's leaf and frame; not given: by its faces */
  char config[8];   /* lites from outside, X moves, O fixed: "XO", "OX", "XOX"; "" not stated */
  double width[3];  /* m: bottom, middle, top; at least one is given */
  double height[3]; /* m: left, middle, right; as width */
  double diagonal[2]; /* m */
  pw_shape_kind shape;
  double rise, leg_left, leg_right; /* m, of a shape that is no rectangle */
  double peak_at;                   /* m from the left */
  char unit[PW_TAG_MAX]; /* openings of one unit are one opening in the wall; "" alone */
  pw_unit_joint
      unit_joint;      /* how it joins its unit; blank in the one row that the others join */
  double mullion_face; /* m, what stands between it and its neighbour */
  double mullion_area; /* m2, of that mullion, counted with this opening; see mulled.h */
  pw_frame_kind existing_frame;
  pw_buildup existing_glass;
  char existing_glass_text[PW_TEXT_MAX];
  char existing_section[PW_TEXT_MAX]; /* section file, "" none */
  double frame_face, sash_face,
      meeting_face; /* m, existing sight lines a side, above 0; not given: the usual of its kind */
  pw_sash_state sash_leak;
  double
      retained_face; /* m, old frame a side that stays behind the bare pocket and is counted in
                           the opening; 0 none */
  pw_cover retained_cover;
  double fin_width;                    /* m, one interior side fin; 0 none */
  int fins_cut;                        /* 0..2 */
  int fins_stay;                       /* 1: the fins cannot come off and bound the opening */
  double sill_lip;                     /* m; 0 none */
  int sill_lip_cut;                    /* 0 or 1 */
  int lip_stay;                        /* 1: the lip cannot come off and bounds the opening */
  double overhang_depth, overhang_gap; /* m; gap from the head up to the overhang */
  double reveal_depth;                 /* m, set back of the glass behind the stucco face */
  double sill_height;                  /* m, clear opening bottom above the floor */
  double drop_outside;                 /* m, sill above the ground outside */
  int grade_floor;                     /* 1: escape opening at grade */
  pw_use use;
  int use_by_room; /* 1: use is not given and read off the room's name: a sleeping room */
  int use_asks;    /* 1: use is not given and the room's name may be of a sleeping room */
  int sidelite; /* 1: fixed glass beside a door; a low sill is right, and near_door 0 unless given */
  double near_door;    /* m from the glass to a door's edge; not given: not near one */
  double near_water;   /* m to tub or shower; not given: not near */
  double near_walk;    /* m to a walking surface; not given: not near */
  int covering;        /* pw_covering, inside the window; blank: the house's */
  int covering_of_all; /* 1: it is the house's */
  int screen;          /* 1: an insect screen covers the moving part */
  double shade_factor; /* share of sun taken by trees and walls, 0..1 */
  double room_volume;  /* m3 of its room */
  double wall_rw;      /* dB, Rw of the wall around it */
  double vent_dne;     /* dB, D_n,e of an air vent in that wall; not given: none */
  pw_standing standing;
  int phase;                      /* 1 ..; 0 means 1 */
  char package[48];               /* its own package, whatever the column; "" the column's */
  size_t own_package;             /* 1 + its row of packages.csv; 0 none */
  int package_column;             /* where it stands in openings.csv, for refusals */
  pw_buildup glass;               /* of its insert, when glass_text is not "" */
  char glass_text[PW_TEXT_MAX];   /* "" the package's glass */
  int unconditioned;              /* 1: its room is outside the energy of the house */
  char dwelling[PW_DWELLING_MAX]; /* "" the one house */
  pw_options option;              /* over its package */
  char official_word
      [160]; /* who of the building department agreed to its escape opening, and when; "" nobody */
  pw_given price;         /* $ of one such window, installed; not given: by the tables */
  pw_given price_options; /* $ of all its options; not given: by the tables */
  int line;               /* in openings.csv */
} pw_opening;

/* One fixed aluminium window of which nothing is known: numbers PW_NOT_GIVEN, flags 0, quantity 1, glass of one 3 mm
 * pane. A zeroed pw_opening is none: pw_fit_opening refuses its faces. */
void pw_opening_init(pw_opening *opening);

/* The faces of the window that is there. */
enum { PW_FACE_FRAME = 0, PW_FACE_SASH, PW_FACE_MEETING, PW_OPENING_FACES };
typedef struct pw_opening_face {
  const char *name; /* its column */
  double width;     /* m: as given, else the usual of its kind */
  int given;
  int used; /* 1: a window of this kind has it */
} pw_opening_face;
void pw_opening_faces(const pw_opening *opening, pw_opening_face face[PW_OPENING_FACES]);

#endif
