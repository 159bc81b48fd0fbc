/* The wavelength grid that every pane shares, the weights that turn a spectrum on it into one
 * number, and the open optical constants of soda-lime glass on it. */
#ifndef GLASS_SPECTRUM_H
#define GLASS_SPECTRUM_H

#include <stddef.h>

#include "panewright/status.h"

/* 95 points, 300 to 2500 nm, stored in 96 so that a loop over them fills whole vectors; the last
 * place repeats 2500 nm and has no weight. */
enum { PW_GRID = 95, PW_LANE = 96 };

typedef enum pw_weight {
  PW_W_SOLAR = 0,    /* ASTM G173 global on a 37 degree tilt */
  PW_W_DIRECT,       /* ASTM G173 direct and circumsolar */
  PW_W_VISIBLE,      /* CIE D65 times V(lambda) */
  PW_W_UV,           /* solar, 300 to 380 nm */
  PW_W_DAMAGE,       /* solar times exp(3.6 - 12 L), L in um, 300 to 600 nm */
  PW_W_DAMAGE_SHORT, /* the same, 300 to 500 nm */
  PW_W_X,            /* CIE D65 times the colour matching functions of the 2 degree observer, */
  PW_W_Y,            /* scaled so that the sum over Y is 1 (these three do not sum to 1 each) */
  PW_W_Z,
  PW_WEIGHT_COUNT
} pw_weight;

typedef struct pw_spectrum {
  double nm[PW_LANE];
  double w[PW_WEIGHT_COUNT][PW_LANE];
} pw_spectrum;

/* Fills the grid and the weights from the compiled-in tables.
 *
 * Returned  *spectrum  each weight but X and Z sums to 1
 * Notes     The grid (5 nm to 400, 10 nm to 800, 50 nm beyond) gives solar and visible values of
 *           smooth panes within 0.0008 of a sum in 1 nm steps.
 * Source    reference/optics/spectral/weights_95.csv and cie_1931_10nm.csv.
 */
void pw_spectrum_init(pw_spectrum *spectrum);

/* The weighted mean of v over the grid. */
double pw_spectrum_mean(const pw_spectrum *spectrum, pw_weight weight, const double v[PW_LANE]);

/* A curve given at rising wavelengths, brought to the grid: linear between, flat beyond the ends.
 * n >= 1. */
void pw_spectrum_resample(const pw_spectrum *spectrum, const double nm[], const double v[],
                          size_t n, double out[PW_LANE]);

/* Optical constants of a glass.
 *
 * Given     table     a compiled-in table of wavelength_um, n, k ("optics/spectral/nk_...")
 *           scale_visible, scale_infrared  factors on k below 600 nm and above 800 nm, their
 *                     logarithm linear between (1, 1: the table as published)
 * Returned  n[], kappa[]  index; absorption coefficient 4 pi k / lambda, 1/m
 * Status    PW_OK; PW_E_DATA no such table, or not of that form
 * Notes     k is interpolated in its logarithm and so continued below the first wavelength.
 */
pw_status pw_spectrum_glass(const pw_spectrum *spectrum, const char *table,
                            double scale_visible, double scale_infrared, double n[PW_LANE],
                            double kappa[PW_LANE], pw_err *err);

#endif
