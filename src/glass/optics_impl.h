/* What the files of glass/optics share among themselves. */
#ifndef GLASS_OPTICS_IMPL_H
#define GLASS_OPTICS_IMPL_H

#include "glass/optics.h"

/* Transmittance and reflectance of a plain slab at one angle; pol MEAN, S or P. */
void pw_slab_at(const double n[PW_LANE], const double depth[PW_LANE], double cosine, pw_pol pol,
                double t[PW_LANE], double r[PW_LANE]);

/* Index and optical depth of the slab that has transmittance t and reflectance r at normal
 * incidence (t + r <= 1); an opaque one gets a depth of 60. */
void pw_slab_from_measured(double t, double r, double *n, double *depth);

/* A coating: the pane on which it is tabulated, and what that pane does with the angle. */
typedef struct pw_film {
  pw_film_pane pane;
  pw_film_angle angle;
  double emissivity; /* hemispherical */
} pw_film;

/* PW_E_DATA: no such coating, the nearest is offered. */
pw_status pw_film_find(const char *name, const pw_spectrum *spectrum, pw_film *film,
                       pw_err *err);

/* A coating by itself at one angle: transmittance between glass and air for s and p (at the
 * wavelengths of the pane's glass), reflectance seen from the glass and from the air, means of s and p. */
typedef struct pw_film_bare {
  double t[2][PW_LANE], r_glass[PW_LANE], r_air[PW_LANE];
} pw_film_bare;

/* The film taken off its pane: at normal incidence for a cosine of 1. */
void pw_film_peel(const pw_film_pane *pane, const pw_film_angle *angle,
                  const pw_spectrum *spectrum, double cosine, pw_film_bare *film);

/* A slab with a film, or none (NULL), on its outdoor and its indoor face. */
void pw_film_put(const double n[PW_LANE], const double depth[PW_LANE], double cosine,
                 const pw_film_bare *const film[2], pw_sheet *sheet);

/* A pane known at normal incidence brought to an angle by the class of its films; n, depth, bare_t0
 * and bare_r0 are of the slab it follows. */
void pw_class_at(const pw_film_pane *pane, const pw_film_angle *outdoor,
                 const pw_film_angle *indoor, const pw_spectrum *spectrum, double cosine,
                 pw_sheet *sheet);

/* Linear between the 5 degree steps of a class. */
double pw_at_class_angle(const double v[PW_CLASS_ANGLES], double degree);

/* How much a wavelength belongs to the middle of the visible band (1 from 480 to 640 nm, 0 below
 * 430 and above 700). A coating's angular dependence is known by a solar and a visible value; it is
 * given to the middle and to the rest apart. */
double pw_band_middle(double nm);

#endif
