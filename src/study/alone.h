/* The year of one window by itself: what it adds to the heating and cooling of a reference house. For
 * studies of many windows whose houses are not known; a job's own house is lived in by year.h.
 *
 * The reference house is the one that a job gets which states no more than year_built 1972 and 150 m2
 * (house_facts.h), with glass of 15 % of its floor, a quarter on each side: two clear panes in bare
 * aluminium, half-way between what is taken out and what is put in. By the detailed method (year.h) the
 * window stands in that house beside this glass, in the wall that looks most its way; so windows
 * saved one by one sum to what they save together (tests/test_alone.c), and batch and the sheet tell the same.
 *
 * The quicker methods, for screening. A room of that house: its window is 15 % of its floor; per m2 of floor everything else is that of
 * the house that a job gets which states no more than year_built 1972 (house_facts.h): envelope,
 * leakage, gains, light mass, 21 C and 25 C. It is the one-mass room of ISO 13790, hour by hour or
 * month by month. Sun on its opaque parts and their loss to the sky are left out, as they are the
 * same with and without the window.
 *
 * The figure. Need with the window less need with the hole closed (no
 * loss and no sun through it). A sunny window may well have a heating figure below 0.
 */
#ifndef STUDY_ALONE_H
#define STUDY_ALONE_H

#include "panewright/weather.h"
#include "panewright/year.h"

typedef enum pw_alone_method {
  PW_ALONE_HOURLY = 0,
  PW_ALONE_MONTHLY,
  PW_ALONE_DETAILED, /* the reference house itself */
  PW_ALONE_METHOD_COUNT
} pw_alone_method;

/* A place made ready for any number of windows: temperatures, sun and sky of its hours, or sums of
 * them by month, facade and angle. Read only once made: threads may share it. 190 kB. */
typedef struct pw_alone_place pw_alone_place;

/* Status    PW_OK; PW_E_NOMEM; as pw_sky_of_year and pw_house_from_facts */
pw_status pw_alone_place_new(const pw_weather *weather, pw_alone_method method,
                             pw_alone_place **place, pw_err *err);
void pw_alone_place_free(pw_alone_place *place);

/* The room's air in winter and the night on which sweating is judged (1st percentile of the year's
 * hours), K. */
double pw_alone_t_in(const pw_alone_place *place);
double pw_alone_design_night(const pw_alone_place *place);

/* A thread's own room for the detailed method; it keeps what was prepared for eight places. */
typedef struct pw_alone_desk pw_alone_desk;
pw_alone_desk *pw_alone_desk_new(int lanes); /* lanes: as in pw_year_options. NULL: no memory */
void pw_alone_desk_free(pw_alone_desk *desk);

typedef struct pw_alone {
  double heating_kwh, cooling_kwh; /* a year, useful heat and cold, of one window */
} pw_alone;

pw_alone_method pw_alone_method_of(const pw_alone_place *place);

/* What a saving of the reference house is in other houses: eight in ten lie between. Source: table alone_spread. */
void pw_alone_in_other_houses(const pw_alone *saved, pw_alone *low, pw_alone *high);

/* Windows two by two, such as the existing one and its insert, of any openings; the figures of one do not depend on
 * the others nor on how many stand beside it, bit by bit. The detailed method lives in all of them side by side.
 *
 * Given     desk (detailed method; NULL: one for this call); place; n, even, at most PW_ALONE_BESIDE; window[n] (its glazing, ua_other,
 *           solar_other, overhang, screen and shade factor count; reveal, fins and count do not); area[n], m2 of the
 *           opening, above 0
 * Returned  figure[n]
 * Status    PW_OK; PW_E_DOMAIN a size out of range, a wall that is not upright
 * Notes     1) Heat: U of the rating, constant. Sun: SHGC by angle, as the glazing has it.
 *           2) An overhang is taken as endless. Monthly: sun is known every 10 degrees of facing and
 *              linear between; the shade of an overhang at ten slopes of the sun, linear between.
 * Source    ISO 13790:2008 7.2.2 and Annex C, or 12.2.1 (clauses from memory); 15 % window to
 *           floor: the reference home of the IECC's performance path (from memory).
 */
enum { PW_ALONE_BESIDE = 8 };
pw_status pw_alone_years(const pw_alone_place *place, const pw_house_window window[],
                         const double area[], size_t n, pw_alone_desk *desk, pw_alone figure[],
                         pw_err *err);

#endif
