/* Many houses together: what a whole street saves, with its range.
 *
 * What no single house decides is drawn once for all of them: forms of the model and how far models lie apart,
 * weather, prices of energy, values of the product. What is a fact of a house (leakage, insulation, thermostat,
 * plant, shade, its old frames) is drawn for each house by itself. */
#ifndef STUDY_STREET_H
#define STUDY_STREET_H

#include <stddef.h>
#include <stdint.h>

#include "study/sensitivity.h"

/* Figures of a package that add up over houses. */
typedef enum pw_street_figure {
  PW_STREET_SAVING = 0, /* $ a year against the windows there now */
  PW_STREET_MINIMUM,    /* $ a year against windows that just meet the code */
  PW_STREET_FUEL,       /* kWh of energy bought, a year */
  PW_STREET_WORTH,      /* $, net present worth */
  PW_STREET_FIGURES
} pw_street_figure;

/* A house's draws, such that draw i of one house and draw i of another share what all houses share.
 *
 * Each figure has the values of the range's own draws (weighed by bills where these weigh them), put in the order
 * in which the response surface puts the joint draws: the spread of a house is that of its range, which houses are
 * high together is what the shared draws say. */
typedef struct pw_street_house {
  uint64_t key; /* of the house by its name: its own facts are drawn from it */
  size_t n_draw, n_package;
  double *cost;    /* [draw] $ a year, heating and cooling with the windows there now; owned */
  double *package; /* [package][figure][draw]; owned */
} pw_street_house;

/* Room for a house; a zeroed struct may be freed. Status PW_OK; PW_E_NOMEM. */
pw_status pw_street_house_new(pw_street_house *house, uint64_t key, size_t n_draw,
                              size_t n_package, pw_err *err);
void pw_street_house_free(pw_street_house *house);

/* A sum over houses, draw by draw, and what is told beside it. */
typedef struct pw_street_sum {
  size_t n_house, n_draw;
  double *draw;          /* [draw]; owned */
  double low, high;      /* sums of the houses' own 10 and 90 % */
  double variance_alone; /* the sum of the houses' own */
} pw_street_sum;

pw_status pw_street_sum_new(pw_street_sum *sum, size_t n_draw, pw_err *err);
void pw_street_sum_free(pw_street_sum *sum);

/* Adds a house's n_draw values. work[n_draw]. Status as pw_band_of. */
pw_status pw_street_sum_add(pw_street_sum *sum, const double value[], double work[],
                            pw_err *err);

/* The band of the sum. work[n_draw]. PW_E_SHAPE no house was added. */
pw_status pw_street_sum_band(const pw_street_sum *sum, double work[], pw_band *band,
                             pw_err *err);

#endif
