/* Single numbers of a sound reduction by third octaves: Rw (C; Ctr) of ISO 717-1, STC of ASTM E413,
 * OITC of ASTM E1332. Exact rules on rounded bands, so that they meet a laboratory's figure. */
#ifndef SOUND_SINGLE_NUMBER_H
#define SOUND_SINGLE_NUMBER_H

#include "panewright/status.h"
#include "sound/thirds.h"

/* Adaptation terms by range of bands. */
typedef enum pw_term_range {
  PW_TERM_100_3150,
  PW_TERM_50_3150,
  PW_TERM_50_5000,
  PW_TERM_100_5000,
  PW_TERM_RANGES
} pw_term_range;

/* dB; NAN where a band that the number needs is missing. The numbers are whole, the tenths are of the
 * 0.1 dB form of ISO 717-1, which is for uncertainty and differences. */
typedef struct pw_single_number {
  double rw, c[PW_TERM_RANGES], ctr[PW_TERM_RANGES];
  double rw_tenths, c_tenths[PW_TERM_RANGES], ctr_tenths[PW_TERM_RANGES];
  double rw_sum;       /* of unfavourable deviations at rw */
  double stc, stc_sum; /* sum of deficiencies at stc */
  double oitc;
} pw_single_number;

/* Rates a spectrum.
 *
 * Given     r   sound reduction, dB, -100 to 200 where known
 * Returned  *out
 * Status    PW_OK; PW_E_DOMAIN a band out of range, or none known. On failure *out is untouched.
 * Notes     1) Rw from 100 to 3150 Hz, also with the enlarged ranges. R is rounded to 0.1 dB first, halves
 *              up. Unfavourable deviations sum to at most 32.0 dB at the highest shift.
 *           2) STC from 125 to 4000 Hz on whole dB (rounding from memory): deficiencies sum to at most 32
 *              and none is above 8.
 *           3) OITC from 80 to 4000 Hz on whole dB (rounding and source levels from memory).
 * Source    ISO 717-1:2020 4 and annex B; ASTM E413; ASTM E1332
 */
pw_status pw_single_number_of(const pw_thirds *r, pw_single_number *out, pw_err *err);

/* Rw, C and Ctr of ISO 717-1 from octaves 125 to 2000 Hz: for measurements of octaves only. It may
 * differ by 1 dB from the number of thirds. Other numbers of *out are NAN. */
pw_status pw_single_number_octaves(const double r[5], pw_single_number *out, pw_err *err);

/* Rw + Ctr, dB, unrounded in the bands and in itself: smooth, for differences and ranges. NAN when a
 * band from 100 to 3150 Hz is missing. */
double pw_rw_ctr(const pw_thirds *r);

/* -10 lg of the sum of 10^((L - R)/10) over the bands of C (ctr 0) or Ctr (ctr 1), 100 to 3150 Hz,
 * spectrum sum 0 dB: the A-weighted reduction of such a noise. Unrounded. */
double pw_reduction_a(const pw_thirds *r, int ctr);

/* STC as libraries that skip the rounding of bands give it, with the 8 dB rule or without: for
 * published cases that say so. */
double pw_stc_plain(const pw_thirds *r, int rule_8, double *sum);

#endif
