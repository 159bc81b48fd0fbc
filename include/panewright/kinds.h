/* Kinds of windows and of what they are made of: numbers with a name. The zero of each is its plainest. */
#ifndef PANEWRIGHT_KINDS_H
#define PANEWRIGHT_KINDS_H

enum { PW_TEXT_MAX = 320 }; /* bytes of a note or a path */

typedef enum pw_operator {
  PW_FIXED = 0,
  PW_SLIDER,      /* horizontal slider: two lites, or three or four by its config */
  PW_SINGLE_HUNG, /* lower sash moves */
  PW_DOUBLE_HUNG,
  PW_CASEMENT,
  PW_AWNING,
  PW_FLANKER,      /* picture lite between two operable flankers (slider XOX, or casements) */
  PW_SLIDING_DOOR, /* two lites, or three or four by its config */
  PW_HOPPER,       /* hinged below, opens inward */
  PW_JALOUSIE,     /* louvres of glass; there now only, not made as an insert */
  PW_HINGED_DOOR,
  PW_OPERATOR_COUNT
} pw_operator;

/* What an opening's outline is called; its geometry is in shape.h. */
typedef enum pw_shape_kind {
  PW_SHAPE_RECTANGLE = 0,
  PW_SHAPE_HALF_ROUND,
  PW_SHAPE_QUARTER_ROUND,
  PW_SHAPE_ARCH, /* segmental */
  PW_SHAPE_CIRCLE,
  PW_SHAPE_OCTAGON,
  PW_SHAPE_TRIANGLE,
  PW_SHAPE_TRAPEZOID,
  PW_SHAPE_GOTHIC,
  PW_SHAPE_COUNT
} pw_shape_kind;

/* How an opening of a mulled unit joins the rest. */
typedef enum pw_unit_joint {
  PW_JOINT_BLANK = 0,
  PW_JOINT_BESIDE,
  PW_JOINT_OVER /* a transom */
} pw_unit_joint;

/* Frames of existing windows and of inserts. */
typedef enum pw_frame_kind {
  PW_FRAME_ALUMINIUM = 0, /* no thermal break */
  PW_FRAME_ALUMINIUM_BREAK,
  PW_FRAME_WOOD,
  PW_FRAME_VINYL,
  PW_FRAME_FIBREGLASS,
  PW_FRAME_STEEL, /* there now only: old steel sash */
  PW_FRAME_KIND_COUNT
} pw_frame_kind;

typedef enum pw_spacer {
  PW_SPACER_METAL = 0, /* aluminium */
  PW_SPACER_STAINLESS,
  PW_SPACER_INSULATING, /* foam or other non-metal */
  PW_SPACER_COUNT
} pw_spacer;

/* What covers, indoors, an old aluminium face that stays. */
typedef enum pw_cover {
  PW_COVER_BARE = 0,
  PW_COVER_PVC,       /* 3 mm */
  PW_COVER_WOOD,      /* 19 mm softwood */
  PW_COVER_FOAM_TRIM, /* 15 mm foam under 3 mm of PVC trim */
  PW_COVER_COUNT
} pw_cover;

typedef enum pw_use {
  PW_USE_OTHER = 0,
  PW_USE_BEDROOM, /* a sleeping room: escape opening wanted */
  PW_USE_BATH,    /* near tub or shower */
  PW_USE_STAIR,
  PW_USE_COUNT
} pw_use;

/* Drapes and blinds inside a window (covering.h). */
typedef enum pw_covering {
  PW_COVERING_BLANK = 0, /* not counted; the blank of a job is usual */
  PW_COVERING_NONE,
  PW_COVERING_BLINDS, /* venetian, light slats */
  PW_COVERING_ROLLER, /* shade, white, opaque */
  PW_COVERING_DRAPES, /* light, closed weave */
  PW_COVERING_USUAL,  /* as a survey has them: mostly blinds, some rollers and drapes */
  PW_COVERING_COUNT
} pw_covering;

/* How the sashes of the window there now shut; sash_leak.h. */
typedef enum pw_sash_state {
  PW_SASH_BLANK = 0, /* not said: usual */
  PW_SASH_TIGHT,
  PW_SASH_USUAL,
  PW_SASH_LOOSE,
  PW_SASH_STUCK, /* painted or rusted shut */
  PW_SASH_STATES
} pw_sash_state;

/* What becomes of the window that is there. */
typedef enum pw_standing {
  PW_REPLACED = 0, /* by the insert of each package */
  PW_STAYS,        /* it stays as it is */
  PW_LATER,        /* it stays for now: a later phase replaces it */
  PW_DONE          /* replaced in an earlier phase: what stands there is own_package's insert */
} pw_standing;

/* What one opening has over its package; zero is the package as it is. options.h says what each does. */
typedef enum pw_tint {
  PW_TINT_NONE = 0, /* the package's own outer pane */
  PW_TINT_BRONZE,
  PW_TINT_GRAY,
  PW_TINT_GREEN,
  PW_TINT_COUNT
} pw_tint;

typedef enum pw_grille_place {
  PW_GRILLE_NONE = 0,
  PW_GRILLE_BETWEEN, /* in the outermost gap of the glass */
  PW_GRILLE_OUTSIDE, /* on the outer face of the outer pane */
  PW_GRILLE_COUNT
} pw_grille_place;

/* Bars that divide every lite's glass into cols x rows panes of one size. */
typedef struct pw_grille {
  pw_grille_place place;
  int cols, rows;
  double bar; /* m, as seen; above 0 where there are bars */
} pw_grille;

typedef enum pw_hinge {
  PW_HINGE_ASK = 0, /* not given */
  PW_HINGE_LEFT,    /* seen from outside */
  PW_HINGE_RIGHT,
  PW_HINGE_TOP,
  PW_HINGE_COUNT
} pw_hinge;

typedef enum pw_fuel {
  PW_FUEL_ELECTRICITY = 0,
  PW_FUEL_GAS,
  PW_FUEL_OIL,
  PW_FUEL_PROPANE,
  PW_FUEL_COUNT
} pw_fuel;

#endif
