/* Sound through an open slit, such as the joint of a sash. */
#ifndef SOUND_SLIT_H
#define SOUND_SLIT_H

typedef struct pw_slit {
  double width, depth; /* m; depth along the way of the sound */
  int mid;      /* 1: in the middle of a wall, 0: in the corner of a rebate or at an edge */
  int normal;   /* 1: sound falls straight, 0: from all sides */
  int friction; /* 1: less what the air rubs on its faces, see note 2 */
} pw_slit;

/* Transmission coefficient over the slit's own area; above 1 at its resonances.
 *
 *   tau = m K cos^2(Ke) / (2 n^2 (sin^2(KX + 2Ke)/cos^2(Ke) + K^2/(2 n^2) (1 + cos KX cos(KX + 2Ke))))
 *   K = 2 pi f w/c, X = d/w, e = (ln(8/K) - 0.57722)/pi, m 8 (all sides) or 4, n 1 (mid) or 0.5
 *
 * Given     f Hz, c m/s, width and depth above 0
 * Notes     1) Without friction: below a width of about 0.5 mm a real slit lets less through.
 *           2) With it tau is taken times |1 - tanh(s)/s|^2, s = w/2 sqrt(i 2 pi f rho/mu): the share of
 *              its mass that air between two plates moves as if it were free. Flow between plates as in
 *              textbooks; that factor on Gomperts is our own and held against no measurement.
 * Source    Gomperts, as in Hopkins, Sound Insulation (2007) eq. 4.99
 */
double pw_slit_tau(const pw_slit *slit, double f, double c);

#endif
