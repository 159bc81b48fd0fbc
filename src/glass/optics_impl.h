/* What the files of glass/optics share among themselves. */
#ifndef GLASS_OPTICS_IMPL_H
#define GLASS_OPTICS_IMPL_H

#include "panewright/optics.h"

/* Transmittance and reflectance of a plain slab at one angle; pol MEAN, S or P. */
void pw_slab_at(const double n[PW_LANE], const double depth[PW_LANE], double cosine, pw_pol pol,
                double t[PW_LANE], double r[PW_LANE]);

/* Index and optical depth of the slab that has transmittance t and reflectance r at normal
 * incidence (t + r <= 1); an opaque one gets a depth of 60. */
void pw_slab_from_measured(double t, double r, double *n, double *depth);

/* A coating by itself, normal incidence: transmittance, reflectance from the glass and the air. */
typedef struct pw_film {
  double t[PW_LANE], r_glass[PW_LANE], r_air[PW_LANE];
  double emissivity; /* hemispherical */
  pw_film_angle angle;
} pw_film;

/* PW_E_DATA: no such coating, the nearest is offered. */
pw_status pw_film_find(const char *name, const pw_spectrum *spectrum, pw_film *film,
                       pw_err *err);

/* How much a wavelength belongs to the middle of the visible band (1 from 480 to 640 nm, 0 below
 * 430 and above 700). A coating's angular dependence is known by a solar and a visible value; it is
 * given to the middle and to the rest apart. */
double pw_band_middle(double nm);

#endif
