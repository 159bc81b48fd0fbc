/* Air through open windows, by the published equations. Areas are clear openings, m2; flows m3/s; temperatures
 * K; wind m/s at the wall unless said. Known from memory where reference/air/METHODS.md says so. */
#ifndef HOUSE_OPEN_WINDOW_H
#define HOUSE_OPEN_WINDOW_H

/* Wind square on or oblique: Cv A v. Handbook, ventilation; Cv 0.5 to 0.6 square on, 0.25 to 0.35 oblique. */
double pw_open_wind(double area, double v, double cv);

/* Stack between a low and a high opening: Cd A sqrt(2 g dH dT / Ti), dH from the lower to the neutral level. */
double pw_open_stack(double area, double cd, double rise, double t_in, double t_out);

/* One opening of height H, air both ways: (Cd A / 3) sqrt(g H dT / Tm). Exact integral of the orifice law. */
double pw_open_both_ways(double area, double cd, double height, double t_in, double t_out);

/* One side: (A / 2) sqrt(0.001 v^2 + 0.0035 H dT + 0.01), v of the airport. de Gids and Phaff 1982. */
double pw_open_gids_phaff(double area, double height, double v, double dt);

/* One side: ratio (A / 2) sqrt(max(0.001 v^2, 0.0035 H dT)); ratio of air densities. EN 16798-7:2017. */
double pw_open_en_single(double area, double height, double v, double dt, double ratio);

/* Two sides: root of squares of Cd A_cross v sqrt(dCp) and (A_all / 2) sqrt(0.0035 H dT). EN 16798-7:2017. */
double pw_open_en_cross(double cross, double all, double height, double v, double dt, double cd,
                        double dcp);

/* The larger of 0.2 A sqrt(g H dT / Tm) and 0.025 A v. Warren and Parkins 1984. */
double pw_open_warren_parkins(double area, double height, double v, double t_in, double t_out);

/* Openings one behind the other, each Cd A: 1 / sqrt(1/a^2 + 1/b^2); flow through them A v sqrt(dCp). */
double pw_open_in_series(double a, double b);
double pw_open_cross(double effective, double v, double dcp);

/* What an inlet wants as outlet for an effective area: A Ai / sqrt(Ai^2 - A^2). MIL-HDBK-1011/2. */
double pw_open_outlet(double effective, double inlet);

/* Hinged above or below by an angle in degrees, width and height of the sash: Cd on the clear area, and the
 * geometric area 2 w h sin(a/2) + h^2 sin a, at most w h. BB101 (as an open model cites it); geometry. */
double pw_hinged_cd(double width, double height, double angle_deg);
double pw_hinged_area(double width, double height, double angle_deg);

#endif
