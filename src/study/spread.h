/* How wide an input may lie, by its provenance, and a value of it at a given chance. */
#ifndef STUDY_SPREAD_H
#define STUDY_SPREAD_H

#include "panewright/status.h"
#include "panewright/survey.h"

typedef enum pw_shape {
  PW_SHAPE_FIXED = 0,
  PW_SHAPE_UNIFORM,
  PW_SHAPE_TRIANGULAR, /* peak at mode */
  PW_SHAPE_NORMAL, /* around mode, standard deviation (high - low) / 4, cut at low and high */
  PW_SHAPE_CHOICE, /* one of the whole numbers low .. high, each as likely; mode is the usual one */
  PW_SHAPE_SOME /* low in some, evenly low .. high in the others, so many that the mean is mode */
} pw_shape;

typedef struct pw_spread {
  pw_shape shape;
  double low, mode, high; /* fixed: mode only */
  const char *source;     /* static text, or NULL */
  const char *how_known;
} pw_spread;

/* Refuses low > mode or mode > high ("upside down"), or values that are not finite. */
pw_status pw_spread_check(const pw_spread *spread, pw_err *err);

/* Inverse distribution: the value below which a share p of the spread lies; p in (0, 1). */
double pw_spread_at(const pw_spread *spread, double p);

/* Spread of an input.
 *
 * Given     key     row of reference/spreads.csv, such as "frame_u" or "set_point"
 *           given   value and provenance; a spread of its own (> 0) wins: uniform over
 *                   value -+ spread
 * Returned  *spread around the value; the row of the key for the value's origin, else the row of
 *           the key for any origin
 * Status    PW_OK; PW_E_DOMAIN unknown key, negative spread, value not finite
 */
pw_status pw_spread_of(const char *key, const pw_given *given, pw_spread *spread, pw_err *err);

/* Lowest, highest and mean annual result, MWh, of a case such as "600" in table climate/std140_2020_ranges.
 * 1; 0 when it is not there. */
int pw_standard140_case(int cooling, const char *id, double *low, double *high, double *mean);

/* How far good models of one house lie apart: the half width of the results of Standard 140-2020
 * for annual heating (0) or cooling (1), over their mean, averaged over the window cases; as a
 * factor around 1. Source: reference/climate/std140_2020_ranges.csv. */
pw_status pw_spread_of_model(int cooling, pw_spread *spread, pw_err *err);

/* How far they lie apart on what a change of windows does: a factor around 1 on the difference of
 * two needs, in place of the factor above (which acts on a need). From the steps 670 to 600 (single to
 * double) and 600 to 660 (to low-e), a result being taken as high in both cases or low in both.
 * Source as above. */
pw_status pw_spread_of_effect(int cooling, pw_spread *spread, pw_err *err);

#endif
