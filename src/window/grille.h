/* Bars that divide the glass: what they cover, and the heat and sun that pass at them.
 *
 * Geometry. The bars cut every lite into cols x rows cells of one size; each cell has its own edge band,
 * beside the frame or beside a bar, so no area is counted twice.
 *
 * Heat between the panes. A metal bar of depth d in a gap s is of one temperature and leaves a slice of gas
 * of (s - d)/2 on either side; the panes carry heat along themselves to it. Two fins, one a pane, coupled by
 * the gap beside the bar and by the slices at it, are solved in closed form; what passes over the bar is the
 * divider's, what passes over the band beside it the divider edge's.
 */
#ifndef WINDOW_GRILLE_H
#define WINDOW_GRILLE_H

#include "panewright/lites.h"
#include "panewright/unit.h"

enum { PW_GRILLE_MAX = 8 }; /* cells a side of one lite */
#define PW_GRILLE_GAP 6e-3  /* m, the least gap that a bar fits into */

/* One lite's cells. */
typedef struct pw_grille_cells {
  size_t cols, rows;
  double width, height; /* m, of a cell */
  double bar_area;      /* m2, of the lite less its cells */
} pw_grille_cells;

/* Whether there are bars at all: a grille of 1 x 1 has none. */
int pw_grille_has_bars(const pw_grille *grille);

/* Whether bars can lie between the panes of a unit: its outermost gap is at least PW_GRILLE_GAP. */
int pw_grille_fits(const pw_unit *unit);

/* Given     grille; width, height of a lite's daylight, m
 * Returned  *cells; one cell and no bar where the grille has none
 * Status    PW_OK; PW_E_DOMAIN the bars leave no glass, more than PW_GRILLE_MAX cells a side, or a bar
 *           of no width (err->field names the column) */
pw_status pw_grille_cut(const pw_grille *grille, double width, double height,
                        pw_grille_cells *cells, pw_err *err);

/* Bars of all lites of a window, m2. Status as pw_grille_cut; PW_E_DOMAIN (field grilles) where a lite is no
 * rectangle: the glass is not the sum of their boxes. */
pw_status pw_grille_area(const pw_grille *grille, const pw_lites *lites, double *area,
                         pw_err *err);

/* What passes at the bars, rating conditions, per area as seen. */
typedef struct pw_grille_heat {
  double u_glass;        /* W/(m2 K), of the unit without bars */
  double u_bar;          /* W/(m2 K), over the bar */
  double u_edge;         /* W/(m2 K), over the band beside it, glass and all */
  double u_bar_range[2]; /* by the usual depths of such bars (options/bars.csv) */
  double sun;            /* share of the sun on the bar that gets into the room */
} pw_grille_heat;

/* Given     glazing's unit; net: share of the sun that passes on from the pane before the bar (1 for bars
 *           outside); grille; absorptance of the bar; band beside the bar, m
 * Returned  *heat; for bars outside u_bar and u_edge are those of the glass: the bar's own resistance is
 *           left out, on the careful side
 * Status    PW_OK; PW_E_DATA bars between need two panes and a gap of 6 mm; PW_E_DOMAIN; as the balance
 * Notes     1) With the slices as good as the gap, u_bar = u_edge = U of the glass, exactly; a bar that would hold
 *              heat back (a screen in a gap without coating) counts as that.
 *           2) Heat into the panes equals heat out of them over bar and band together.
 *           3) The metal is taken as a perfect conductor, its ends at the frame are not seen.
 * Source    Areas and bands: NFRC 100, ISO 15099:2003 4.1 (divider and divider edge; clauses from memory).
 *           The values there come from a plane solution of the drawn bar; this is that of two fins, within
 *           1.5 % of the own drawings in tests/test_grille.c, and 8 % of what the bar adds. EN 14351-1 table J.1 (from memory) rounds up to 0.1 for
 *           one cross and 0.2 for more.
 */
pw_status pw_grille_heat_of(const pw_unit *unit, double net, const pw_grille *grille,
                            double absorptance, double band, pw_grille_heat *heat, pw_err *err);

/* The closed form itself, per m of bar, between rooms of 0 and 1.
 *
 * Given     film[2] W/(m2 K) from the outer and the inner fin to its room; kt[2] W/K, conductivity times
 *           thickness of the fins; gap and slice, W/(m2 K) beside the bar and at it; thick, of the gas before
 *           the bar, m, whose field reaches 2 ln 2 / pi of it beside the bar (0: not at all); half the bar's
 *           width and the band, m, above 0
 * Returned  flow[0] over half the bar, flow[1] over the band, W/(m K), out of the inner room;
 *           out the sum into the outer one (the same as flow[0] + flow[1]) */
void pw_grille_fins(const double film[2], const double kt[2], double gap, double slice,
                    double thick, double half, double band, double flow[2], double *out);

#endif
