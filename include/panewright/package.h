/* A package on offer, the frame line of its maker, and rows of labels and prices that hold for some windows. */
#ifndef PANEWRIGHT_PACKAGE_H
#define PANEWRIGHT_PACKAGE_H

#include "panewright/given.h"
#include "panewright/glazing.h"
#include "panewright/kinds.h"
#include "panewright/opening.h"
#include "panewright/status.h"

/* One row of frame_lines.csv (else built in). */
typedef struct pw_frame_line {
  char name[PW_NAME_MAX];
  pw_frame_kind kind;
  pw_operator operator_; /* PW_OPERATOR_COUNT: any operator without a row of its own */
  double frame_face;     /* m, visible frame a side where a lite is fixed */
  double sash_face;      /* m, frame plus sash a side where a lite moves */
  double meeting_face;   /* m, meeting rail or stile */
  pw_given frame_u;      /* W/(m2 K); not given: from the catalogue by kind */
  char section_sill[PW_TEXT_MAX], section_head[PW_TEXT_MAX], section_jamb[PW_TEXT_MAX],
      section_meeting[PW_TEXT_MAX]; /* section files, "" none */
  int sections_hold_ring; /* 1: sill, head and jamb are drawn with the retained frame round them */
  double clearance;       /* m in all, width and height alike; not given: 3/8 in */
  double bite_max;        /* m, glass hidden in the sash */
  double absorptance;     /* solar, of the outer face; not given: 0.3 */
  int line;
} pw_frame_line;

/* A line for any operator, its numbers PW_NOT_GIVEN; pw_frame_line_builtin gives the usual ones. */
void pw_frame_line_init(pw_frame_line *line);

/* The built-in line of that name ("vinyl", ...) for an operator. PW_E_DATA there is none. */
pw_status pw_frame_line_named(const char *name, pw_operator operator_, pw_frame_line *line,
                              pw_err *err);

/* One row of packages.csv. */
typedef struct pw_package {
  char name[48];
  pw_buildup glass;
  char glass_text[PW_TEXT_MAX];
  pw_spacer spacer;
  char frame_line[PW_NAME_MAX];
  pw_given label_u, label_shgc, label_vt,
      label_air_leakage; /* label_u in W/(m2 K), air leakage in m3/(s m2) at 75 Pa */
  pw_given label_rw, label_ctr, label_stc, label_oitc; /* dB, of a laboratory or label */
  char certificate[64];
  pw_given price_per_opening, price_per_area; /* $, $/m2 */
  char filling[16];                           /* behind the insert: "foam" or "air" */
  int open_tubes;                             /* 1: capillary tubes left open, no gas stays */
  char note[PW_TEXT_MAX];
  int line;
} pw_package;

/* Nothing given, no glass (pw_buildup_parse reads it), frame line "vinyl", foam behind the insert. A zeroed
 * pw_package has no glass and is refused. */
void pw_package_init(pw_package *package);

enum { PW_LABELS_MAX = 256, PW_PRICES_MAX = 256 };

enum { PW_OPTION_MAX = 40, PW_OPTIONS_MAX = 16, PW_SCOPE_OPTIONS_MAX = 6 };

/* A zeroed scope holds for every window. */
typedef struct pw_scope {
  char package[48]; /* "" every package */
  int kind;         /* 1 + its pw_operator; 0 every kind */
  size_t n_option;  /* all of them must be there; "none": no grilles */
  char option[PW_SCOPE_OPTIONS_MAX][PW_OPTION_MAX];
  double size_from, size_to; /* m, both ends inside; size_to 0: every size */
} pw_scope;

/* One row of labels.csv: the label of a package's windows of one kind or with some options. */
typedef struct pw_label_row {
  pw_scope scope;
  pw_given u, shgc, vt, air_leakage; /* as pw_package's label_u .. */
  pw_given rw, ctr, stc, oitc;       /* dB */
  char certificate[64];
  int line; /* 0: not of labels.csv */
} pw_label_row;

void pw_label_row_init(pw_label_row *row); /* nothing given, for every window */

/* One row of prices.csv. */
typedef struct pw_price_row {
  pw_scope scope;
  char item[PW_OPTION_MAX]; /* "" the window itself; else an option, permit, disposal, ... */
  pw_given per_opening, per_area, per_job; /* $, $/m2, $ */
  pw_given share;                          /* of tax and discount: 0..1 */
  int line;
} pw_price_row;

#endif
