/* What a job folder holds, as the readers of job/ fill it and the kernels take it: the house, the
 * openings as measured, the packages on offer, the frame lines. Types only.
 *
 * SI throughout (m, W, K; money in dollars); a value whose unit is not plain SI says so.
 */
#ifndef PANEWRIGHT_SURVEY_H
#define PANEWRIGHT_SURVEY_H

#include <stddef.h>

#include "panewright/covering.h"
#include "panewright/glazing.h"
#include "panewright/scope.h"

enum { PW_TEXT_MAX = 320, PW_TAG_MAX = 24, PW_DWELLING_MAX = 24, PW_PHASES_MAX = 6 };

/* Where a value comes from; decides its default spread and what --explain prints. */
typedef enum pw_origin {
  PW_ORIGIN_ASSUMED = 0, /* stated default */
  PW_ORIGIN_TABLE,       /* handbook or published table */
  PW_ORIGIN_STATED,      /* given in the job without further proof */
  PW_ORIGIN_MEASURED,    /* tape or instrument */
  PW_ORIGIN_LABEL,       /* certified label */
  PW_ORIGIN_COMPUTED
} pw_origin;

/* A number with its provenance. */
typedef struct pw_given {
  double value;
  double spread; /* half width of the range the user gave ("12.5 +- 0.5", "12 .. 14"); 0 none */
  pw_origin origin;
  const char *source; /* static text, or NULL */
  int line;           /* in the file it was read from, 0 none */
} pw_given;

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

typedef struct pw_options {
  int tempered;              /* 1: wanted whatever the rules ask; 0: as they ask */
  char pattern[PW_NAME_MAX]; /* of a pane that cannot be seen through; "" none */
  pw_tint tint;
  pw_grille grille;
  int pet_panel;
  char colour[PW_NAME_MAX]; /* of the frame outside, as written; "" the frame line's */
  double absorptance;       /* solar, of that colour; 0 the frame line's */
  pw_hinge hinge;
  char maker_note[PW_TEXT_MAX]; /* to the maker alone, on no customer's paper */
  int tint_column, pattern_column, grilles_column; /* in openings.csv, for refusals */
} pw_options;

/* One row of openings.csv. Readings are of the clear pocket between the interior side fins and above
 * the sill lip. */
typedef struct pw_opening {
  char tag[PW_TAG_MAX], room[48], note[PW_TEXT_MAX];
  int quantity;
  double facing_deg; /* 0 north, 90 east: the way one looks when looking out */
  pw_operator operator_existing, operator_insert; /* insert: same unless stated */
  double glass_share; /* of a hinged door's leaf and frame; 0: by its faces */
  char config[8];   /* lites from outside, X moves, O fixed: "XO", "OX", "XOX"; "" not stated */
  double width[3];  /* m: bottom, middle, top; 0 not measured, at least one is */
  double height[3]; /* m: left, middle, right; as width */
  double diagonal[2]; /* m; 0 not measured */
  pw_shape_kind shape;
  double rise, leg_left, leg_right; /* m, of a shape that is no rectangle; 0 not measured */
  double peak_at;                   /* m from the left; below 0 not measured */
  char unit[PW_TAG_MAX]; /* openings of one unit are one opening in the wall; "" alone */
  pw_unit_joint
      unit_joint;      /* how it joins its unit; blank in the one row that the others join */
  double mullion_face; /* m, what stands between it and its neighbour */
  double mullion_area; /* m2, of that mullion, counted with this opening; see mulled.h */
  pw_frame_kind existing_frame;
  pw_buildup existing_glass;
  char existing_glass_text[PW_TEXT_MAX];
  char existing_section[PW_TEXT_MAX];         /* section file, "" none */
  double frame_face, sash_face, meeting_face; /* m, existing sight lines a side; see fit.h */
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
  double sill_height;  /* m, clear opening bottom above the floor; below 0 unknown */
  double drop_outside; /* m, sill above the ground outside; below 0 unknown */
  int grade_floor;     /* 1: escape opening at grade */
  pw_use use;
  int use_by_room; /* 1: use is not given and read off the room's name: a sleeping room */
  int use_asks;    /* 1: use is not given and the room's name may be of a sleeping room */
  int sidelite; /* 1: fixed glass beside a door; a low sill is right, and near_door 0 unless given */
  double near_door;    /* m from the glass to a door's edge; below 0 not near one */
  double near_water;   /* m to tub or shower; below 0 not near */
  double near_walk;    /* m to a walking surface; below 0 not near */
  int covering;        /* pw_covering, inside the window; blank: the house's */
  int covering_of_all; /* 1: it is the house's */
  int screen;          /* 1: an insect screen covers the moving part */
  double shade_factor; /* share of sun taken by trees and walls, 0..1 */
  double room_volume;  /* m3 of its room; 0 unknown */
  double wall_rw;      /* dB, Rw of the wall around it; 0 unknown */
  double vent_dne;     /* dB, D_n,e of an air vent in that wall; 0 none */
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
  pw_given price;         /* $ of one such window, installed; line 0: by the tables */
  pw_given price_options; /* $ of all its options; line 0: by the tables */
  int line;               /* in openings.csv */
} pw_opening;

/* One row of frame_lines.csv (else built in). */
typedef struct pw_frame_line {
  char name[PW_NAME_MAX];
  pw_frame_kind kind;
  pw_operator operator_; /* PW_OPERATOR_COUNT: any operator without a row of its own */
  double frame_face;     /* m, visible frame a side where a lite is fixed */
  double sash_face;      /* m, frame plus sash a side where a lite moves */
  double meeting_face;   /* m, meeting rail or stile */
  pw_given frame_u;      /* W/(m2 K); value 0: from the catalogue by kind */
  char section_sill[PW_TEXT_MAX], section_head[PW_TEXT_MAX], section_jamb[PW_TEXT_MAX],
      section_meeting[PW_TEXT_MAX]; /* section files, "" none */
  int sections_hold_ring; /* 1: sill, head and jamb are drawn with the retained frame round them */
  double clearance;       /* m in all, width and height alike; 0 means 3/8 in */
  double bite_max;        /* m, glass hidden in the sash */
  double absorptance;     /* solar, of the outer face; 0 means 0.3 */
  int line;
} pw_frame_line;

/* One row of packages.csv. */
typedef struct pw_package {
  char name[48];
  pw_buildup glass;
  char glass_text[PW_TEXT_MAX];
  pw_spacer spacer;
  char frame_line[PW_NAME_MAX];
  pw_given label_u, label_shgc, label_vt,
      label_air_leakage; /* value NAN when not given; label_u in
                                       W/(m2 K), air leakage in m3/(s m2) at 75 Pa */
  pw_given label_rw, label_ctr, label_stc,
      label_oitc; /* dB, of a laboratory or label; given when label_rw or label_stc is above 0 */
  char certificate[64];
  pw_given price_per_opening, price_per_area; /* $, $/m2 */
  char filling[16];                           /* behind the insert: "foam" or "air" */
  int open_tubes;                             /* 1: capillary tubes left open, no gas stays */
  char note[PW_TEXT_MAX];
  int line;
} pw_package;

enum { PW_LABELS_MAX = 256, PW_PRICES_MAX = 256 };

/* One row of labels.csv: the label of a package's windows of one kind or with some options. */
typedef struct pw_label_row {
  pw_scope scope;
  pw_given u, shgc, vt, air_leakage; /* as pw_package's label_u ..; value NAN when not given */
  pw_given rw, ctr, stc, oitc;       /* dB; given when rw or stc is above 0 */
  char certificate[64];
  int line; /* 0: not of labels.csv */
} pw_label_row;

/* One row of prices.csv. A price is given when its line is above 0. */
typedef struct pw_price_row {
  pw_scope scope;
  char item[PW_OPTION_MAX]; /* "" the window itself; else an option, permit, disposal, ... */
  pw_given per_opening, per_area, per_job; /* $, $/m2, $ */
  pw_given share;                          /* of tax and discount: 0..1 */
  int line;
} pw_price_row;

/* What a firm promises and asks for on an offer, in its own words; "" and 0 not given: a line to fill in. */
typedef struct pw_offer_terms {
  char schedule[PW_TEXT_MAX], deposit[PW_TEXT_MAX], terms[PW_TEXT_MAX],
      warranty_work[PW_TEXT_MAX], warranty_product[PW_TEXT_MAX];
  double valid_days; /* the offer stands so long */
} pw_offer_terms;

/* firm.csv: what a firm writes on every paper. "" not given. */
typedef struct pw_firm {
  char firm[96], address[96], phone[40], mail[64], licence[48], program_number[48],
      insurance[40], lead_certificate[48], account[48], payee[96], maker[64], model[64];
  pw_offer_terms offer;
  int translation_reviewed; /* 1: a person who knows has read the Spanish words */
} pw_firm;

typedef enum pw_fuel {
  PW_FUEL_ELECTRICITY = 0,
  PW_FUEL_GAS,
  PW_FUEL_OIL,
  PW_FUEL_PROPANE,
  PW_FUEL_COUNT
} pw_fuel;

/* A glass whose number of gaps is not that of a drawn section. */
typedef enum pw_section_mismatch {
  PW_MISMATCH_REFUSE = 0,
  PW_MISMATCH_CATALOGUE /* catalogue values stand in, and every paper says so */
} pw_section_mismatch;

/* Whether the weather is brought to the job's elevation. */
typedef enum pw_height_rule {
  PW_HEIGHT_MADE = 0, /* years made from normals are, hourly files are not */
  PW_HEIGHT_YES,
  PW_HEIGHT_NO
} pw_height_rule;

/* job.csv */
typedef struct pw_house_facts {
  pw_section_mismatch section_mismatch;
  char job[64], customer[96], place_label[96], contractor[96], note[PW_TEXT_MAX];
  char climate[PW_TEXT_MAX]; /* built-in place, "lat,lon", or an hourly file */
  int climate_line;          /* of job.csv, for refusals; 0 unknown */
  char state[4];             /* two letters, for prices; "" unknown */
  int year_built;            /* 0 unknown */
  int storeys;
  pw_given floor_area;                /* m2 */
  pw_given ceiling_height;            /* m */
  char wall[32], roof[32], floor[32]; /* preset names; "" means by year built */
  pw_given envelope_ua; /* W/K of everything but windows and air; value 0: from presets */
  pw_given air_changes; /* 1/h natural mean; value 0: from presets */
  int infiltration;     /* pw_infiltration: how air_changes goes by the hour; 0 one rate */
  int covering;         /* pw_covering: of all windows that do not say their own */
  int airing;           /* pw_airing_habit: when the windows are opened */
  pw_given cfm50;       /* m3/s of a blower door at 50 Pa; value 0: none */
  pw_given cfm50_taped; /* the same with the windows taped over */
  char mass[16];        /* light, medium, heavy; "" means light */
  pw_fuel heating_fuel;
  char heating_kind[24];       /* none, furnace, boiler, heat_pump, resistance */
  pw_given heating_efficiency; /* seasonal, useful heat over fuel; heat pump: COP */
  char cooling_kind[24];       /* none, central, heat_pump, room */
  pw_given cooling_cop;        /* seasonal */
  pw_given duct_efficiency;    /* 1 none */
  int ducts;                   /* pw_duct_place, where no duct_efficiency is stated */
  pw_given heat_set_c, cool_set_c, setback_k; /* C, C, K */
  pw_given internal_gain;                     /* W/m2 of floor */
  pw_given price[PW_FUEL_COUNT];              /* $/kWh of fuel; value 0: state average */
  char tariff[PW_TEXT_MAX];                   /* tariff file, "" flat prices */
  pw_given bill_year;            /* $ of heating and cooling a year; value 0 unknown */
  pw_given escalation, discount; /* real, share a year */
  pw_given horizon_years, window_life_years;
  pw_given elevation, plant_elevation; /* m; NAN unknown */
  pw_height_rule correct_height;       /* of the weather to elevation */
  char install_date[12];               /* yyyy-mm-dd or "" */
  int open_combustion;                 /* 1: an appliance draws room air; -1 unknown */
  int coastal, wildfire, leak_history; /* 1 when the job says so; -1 unknown */
  double wind_pressure;                /* Pa, required design pressure; NAN unknown */
  char sealant[24];                    /* polyurethane, hybrid, silicone, acrylic */
  double paint_wait_days;              /* 0: not stated */
  char lead_certificate[48];           /* firm's number, "" none */
  int noise;                           /* row of reference/sound/noise.csv */
  double noise_db_2m;                  /* dB(A), its level 2 m before the facade; 0 unknown */
  char code_zone[48]; /* climate zone or county of the energy code; "" by place */
  int code_zone_line, code_edition_line; /* of job.csv, for refusals; 0 unknown */
  int code_edition;                      /* of the energy code; 0 not said */
  char customer_phone[40], customer_mail[64], utility[64], account[48], payee[96], maker[64],
      model[64];        /* "" not given; firm.csv may give the last four */
  pw_offer_terms offer; /* goes before the firm's, item by item */
  char installed[48];   /* the package that was built in; "" not said */
  char prices_file[PW_TEXT_MAX], firm_file[PW_TEXT_MAX]; /* shared ones; "" none */
  char language[8],
      crew_language[8]; /* of the customer's papers and the crew's: "en", "es"; "" not said */
} pw_house_facts;

/* A whole job. Arrays are owned by whoever filled the struct (job/survey.h frees them). */
typedef struct pw_job {
  pw_house_facts house;
  char dwelling[PW_DWELLING_MAX]; /* which of several on one job; "" the one house, or all */
  size_t n_opening, n_package, n_frame_line, n_label, n_price;
  pw_opening *opening;
  pw_package *package;
  pw_frame_line *frame_line;
  pw_label_row *label;  /* labels.csv, NULL none */
  pw_price_row *price;  /* prices.csv, NULL none */
  char prices_name[32]; /* that file's name, for messages */
  pw_firm firm;
} pw_job;

#endif
