/* Usual values of frames, spacers and the retained ring where no section of them was computed. Every
 * value comes with its origin and source. */
#ifndef FRAME_CATALOGUE_H
#define FRAME_CATALOGUE_H

#include <stddef.h>

#include "panewright/given.h"
#include "panewright/kinds.h"
#include "panewright/status.h"

enum { PW_CATALOGUE_PANES = 4 }; /* panes of a unit; as many as PW_PANES_MAX */

/* U of a frame over its projected area, W/(m2 K).
 *
 * Given     kind, operator_ (a fixed window, or any that opens), n_pane (above 3 as 3), spacer
 *           (metal and stainless alike: the table knows metal and insulated only)
 * Returned  *u
 * Status    PW_OK; PW_E_DOMAIN an unknown kind, spacer or no pane
 * Notes     Vinyl is read from the row "wood / vinyl", which leaves metal-reinforced vinyl out.
 * Source    reference/glazing/handbook_frame_u.csv (from memory; consistent with the handbook's
 *           whole-product rows within 0.012 Btu/(h ft2 F)).
 */
pw_status pw_catalogue_frame_u(pw_frame_kind kind, pw_operator operator_, size_t n_pane,
                               pw_spacer spacer, pw_given *u, pw_err *err);

/* U of the edge of glass, the band of 63.5 mm inside the sight line, W/(m2 K).
 *
 * Given     spacer, n_pane (1: the edge is as the centre), u_center
 * Returned  *u
 * Status    PW_OK; PW_E_DOMAIN u_center out of 0.1 to 8, an unknown spacer, no pane
 * Source    Metal: U = 1.266 + 0.842 U_cg - 0.027 U_cg^2, which meets the handbook's edge column.
 *           Others: their share of its excess over U_cg, reference/frame/spacer_edge.csv.
 */
pw_status pw_catalogue_edge_u(pw_spacer spacer, size_t n_pane, double u_center, pw_given *u,
                              pw_err *err);

/* Linear transmittance of spacer and edge by ISO 10077-1:2006 tables E.1, E.2 (from memory), W/(m K).
 * Given  low_e 1 when a gap has a coating. Wood, vinyl and fibreglass share a row; stainless and
 *        insulating spacers are "thermally improved". A single pane has 0. */
pw_status pw_catalogue_psi(pw_frame_kind kind, pw_spacer spacer, size_t n_pane, int low_e,
                           pw_given *psi, pw_err *err);

/* Equivalent conductivity of the box between two panes (spacer, desiccant and seals, 11 mm high), of
 * a gap of that width (m, 0.005 to 0.021), W/(m K); straight between the rows.
 * Source  reference/frame/spacer_box.csv, computed from reference/frame/spacer_*.csv. */
pw_status pw_catalogue_spacer_box(pw_spacer spacer, double width, pw_given *conductivity,
                                  pw_err *err);

/* Heat through one metre of the retained ring (clearance, fins or lip left around the insert), W/(m
 * K), for its width (m) and filling ("air", else foam), straight between the rows of the table.
 * Status  PW_OK; PW_E_DOMAIN a width beyond those of the sections
 * Source  reference/frame/retained_ring.csv, from own sections. */
pw_status pw_catalogue_ring(const char *filling, double width, pw_given *conductance,
                            pw_err *err);

/* Heat through one metre of old aluminium face of that width (m) that stays beside the pocket, W/(m K):
 * 0 is nothing, straight between the rows of the table.
 * Status  PW_OK; PW_E_DOMAIN a width beyond the table, an unknown cover
 * Source  reference/frame/retained_face.csv, from own sections (reference/frame/retained_*.csv). */
pw_status pw_catalogue_retained(pw_cover cover, double width, pw_given *conductance,
                                pw_err *err);

/* The coldest indoor point of a frame that is not drawn, from the centre of its glass:
 *   1 - f = base + slope (1 - f_centre),  f = (T - T_out)/(T_in - T_out)
 * and by how much own sections lie below and above it. Aluminium takes a row of its own, every other
 * frame that of vinyl inserts (no own sections of wood or of a thermal break).
 * Given  meeting 1 for a meeting rail; spacer as the package has it
 * Source reference/frame/coldest.csv, from own sections. */
typedef struct pw_cold_relation {
  double base, slope, below, above;
} pw_cold_relation;
pw_status pw_catalogue_coldest(pw_frame_kind kind, int meeting, pw_spacer spacer,
                               pw_cold_relation *relation, pw_err *err);

/* Words for tables: "aluminium", "aluminium with thermal break", ... Never NULL. */
const char *pw_frame_kind_name(pw_frame_kind kind);

#endif
