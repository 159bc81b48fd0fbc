/* A frame section drawn as rectangles. SI inside (m, W, K).
 *
 * The plane is x, y; later parts paint over earlier ones. Air zones (outdoor, indoor, indoor with
 * the reduced film) are not solved: a solid face that touches one has that film. What is painted
 * by nothing, and the outer border, lets no heat through. Heat flows along x from indoors (high x)
 * to outdoors and y runs from the opening edge (y = 0) to the glass; a section drawn with the flow
 * along y, or mirrored, is recognised by its indoor faces and gives the same figures (the sight
 * line is then an x).
 *
 *   pw_section s;
 *   pw_section_init(&s);
 *   pw_section_add(&s, 0.0, 0.0, 0.02, 0.3, "pvc", NAN, NAN, 0, &err);  ...
 *   pw_section_solve(&s, &(pw_section_options){0}, &result, &err);  (conduct.h)
 *   pw_section_result_free(&result);
 *   pw_section_free(&s);
 */
#ifndef FRAME_SECTION_H
#define FRAME_SECTION_H

#include <stddef.h>

#include "frame/material.h"
#include "panewright/given.h"
#include "panewright/kinds.h"
#include "panewright/status.h"
#include "panewright/units.h"

enum { PW_SECTION_NAME_MAX = 40 };

typedef enum pw_zone {
  PW_ZONE_SOLID = 0,
  PW_ZONE_HOLLOW,
  PW_ZONE_HOLLOW_VENTED, /* slightly ventilated */
  PW_ZONE_OUTDOOR,
  PW_ZONE_INDOOR,
  PW_ZONE_INDOOR_REDUCED,
  PW_ZONE_VOID /* painted by nothing: no heat */
} pw_zone;

/* What a row is drawn for, where a job decides it. */
typedef enum pw_stands {
  PW_STANDS_NOTHING = 0,
  PW_STANDS_SPACER, /* the box between the panes: spacer, desiccant, seals */
  PW_STANDS_FILLING /* what is put behind the insert */
} pw_stands;

typedef struct pw_section_material {
  char name[PW_SECTION_NAME_MAX];
  pw_zone zone;
  pw_material_kind kind;
  double conductivity; /* W/(m K); NAN for air zones, hollows and gaps not yet set */
  double emissivity;
  int gap; /* 1..3: stands for that gap of a build-up, counted from outdoors; 0 no */
  pw_stands stands;
} pw_section_material;

typedef struct pw_section_part {
  double x0, y0, x1, y1; /* m */
  int material;          /* index into pw_section.material */
  int line;              /* in the file it was read from, 0 none */
} pw_section_part;

typedef struct pw_section {
  size_t n_part, room_part;
  pw_section_part *part; /* owned */
  size_t n_material, room_material;
  pw_section_material *material; /* owned */
  size_t *slot;                  /* owned: hash of materials; private */
  size_t n_slot;
  double sight_line;   /* m; NAN: where the outline stops being that of the glass alone */
  int sight_line_line; /* where it was read, 0 none */
} pw_section;

/* An empty section, without a sight line; nothing is allocated until a rectangle is added. */
void pw_section_init(pw_section *section);
/* Accepts NULL, a section already freed, and a zeroed struct. */
void pw_section_free(pw_section *section);

/* Adds a rectangle.
 *
 * Given     x0 < x1, y0 < y1 (m); material: a name of reference/section/materials.csv, an air zone
 *           (outdoor, indoor, indoor_reduced), a hollow (cavity, cavity_vent, or cavity_WORD, which
 *           keeps neighbours with different words apart), a gap (gap, gap1, gap2, gap3), spacer,
 *           filling or, with a conductivity, any word; conductivity NAN: of the table; emissivity NAN: of the table
 * Status    PW_OK; PW_E_DOMAIN a value (the field is named); PW_E_DATA an unknown material (the
 *           nearest known one is offered); PW_E_NOMEM
 */
pw_status pw_section_add(pw_section *section, double x0, double y0, double x1, double y1,
                         const char *material, double conductivity, double emissivity, int line,
                         pw_err *err);

/* Gives gap number `gap` (1 from outdoors) the conductance of a glass unit's gap, W/(m2 K), such as
 * pw_unit_result.gap[gap - 1].conductance. 1 when the section names that gap, else 0. The width
 * is that drawn, so that the unit's conductance is kept to the last digit. */
int pw_section_set_gap(pw_section *section, int gap, double conductance);

/* How many gaps of a build-up the section draws: the highest gap number of its rows. */
int pw_section_gaps(const pw_section *section);

/* 1 when a row of the section stands for that. */
int pw_section_stands(const pw_section *section, pw_stands stands);

/* Gives the rows `spacer` the equivalent conductivity of that spacer at the width drawn
 * (pw_catalogue_spacer_box). PW_OK also when there is no such row; as the catalogue else. */
pw_status pw_section_set_spacer(pw_section *section, pw_spacer spacer, pw_err *err);

/* Makes the rows `filling` foam, or with "air" a hollow. 1 when the section has such a row. */
int pw_section_set_filling(pw_section *section, const char *filling);

/* A copy that owns all it has. On failure *copy is empty. Status PW_OK; PW_E_NOMEM. */
pw_status pw_section_copy(const pw_section *section, pw_section *copy, pw_err *err);

/* Puts the 0.035 W/(m K) panel of ISO 10077-2 over the rectangle round all glazing (panes, gaps,
 * edge seals and spacers). PW_E_DATA when there is no glazing. */
pw_status pw_section_panel(pw_section *section, pw_err *err);

/* What can be told without solving: both air zones there and apart, something between them, sight
 * line inside. err->line is the row of the part in question. */
pw_status pw_section_check(const pw_section *section, pw_err *err);

#endif
