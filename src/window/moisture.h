/* Damp air and cold glass: saturation, dew point, and the indoor humidity at which a window sweats. */
#ifndef WINDOW_MOISTURE_H
#define WINDOW_MOISTURE_H

#include "panewright/rating.h"
#include "panewright/unit.h"

/* Saturation pressure of water vapour over water, below 0 C over ice, Pa.
 *
 * Given     t, K, 203.15 to 373.15
 * Returned  *p
 * Status    PW_OK; PW_E_DOMAIN
 * Notes     Within 0.16 % of published values from 0 to 30 C, 0.4 % to 50 C; over ice 0.25 % to
 *           -10 C, 0.6 % to -20 C, 2 % to -40 C (measured against reference/climate/psychro.csv).
 * Source    ISO 13788:2012 Annex E (constants from memory).
 */
pw_status pw_saturation_pressure(double t, double *p, pw_err *err);

/* Temperature at which vapour of pressure p (Pa, 1 to 1e5) saturates, K; the inverse of the above. */
pw_status pw_saturation_temperature(double p, double *t, pw_err *err);

/* Dew point (below 0 C: frost point), K, of air at t (K) and relative humidity rh (above 0 to 1). */
pw_status pw_dew_point(double t, double rh, double *t_dew, pw_err *err);

/* kg of vapour a kg of dry air at t, rh and pressure (Pa). Source: 0.621945 p_v/(p - p_v). */
pw_status pw_humidity_ratio(double t, double rh, double pressure, double *ratio, pw_err *err);

/* Relative humidity of room air at t_in at which a surface of that temperature begins to sweat,
 * 0 to 1; 1 when the surface is not colder than the air. */
pw_status pw_sweat_humidity(double t_surface, double t_in, double *rh, pw_err *err);

typedef struct pw_sweat_spot {
  double t;  /* K, indoor surface */
  double rh; /* room humidity, 0..1, at which it begins to sweat */
} pw_sweat_spot;

typedef struct pw_sweat {
  pw_sweat_spot center, edge, frame, retained; /* retained: t NAN when there is no ring */
  pw_sweat_spot coldest; /* of the indoor face around the glass, points and means alike */
  pw_sweat_spot meeting; /* of the meeting rail; t NAN when there is none */
  double coldest_rh
      [2];     /* coldest.rh by the least and the greatest of own sections; equal where all
                            of the frame is drawn and solved */
  double h_in; /* W/(m2 K), film used for edge and frame */
} pw_sweat;

/* When each part of a window begins to sweat.
 *
 * Given     unit (centre by its heat balance), rating (edge, frame and ring by their U), t_in,
 *           t_out (K), wind (m/s), h_in (film for edge and frame; 0 means 1/0.13 = 7.69)
 * Returned  *sweat
 * Status    PW_OK; PW_E_DOMAIN; as pw_unit_solve
 * Notes     1) T_si = T_in - U/h_in (T_in - T_out). A metal frame has more surface than its
 *              projection; its surface cannot be colder than a bare sheet between the films
 *              h_in and 25 W/(m2 K), so U/h_in is not taken above 25/(h_in + 25).
 *           2) center, edge, frame and retained are means of a part; coldest and meeting are points:
 *              of the solved sections where the window is drawn, else by the relation of own
 *              sections (rating.h, pw_coldest), whose spread coldest_rh gives; then never
 *              warmer than the means. What sweats first is the least of all (pw_compare_first_to_sweat).
 */
pw_status pw_sweat_window(const pw_unit *unit, const pw_rating *rating, double t_in,
                          double t_out, double wind, double h_in, pw_sweat *sweat, pw_err *err);

#endif
