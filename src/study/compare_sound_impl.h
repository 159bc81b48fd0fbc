/* What the parts of the sound study share. Internal. */
#ifndef STUDY_COMPARE_SOUND_IMPL_H
#define STUDY_COMPARE_SOUND_IMPL_H

#include "study/compare_sound.h"

enum { SOUND_DIMS = 18, SOUND_PLACES = 5, SOUND_WIDTHS = 32 };

/* One draw; [0] old windows, [1] new ones. */
typedef struct sound_draw {
  size_t set;      /* row of unit_sets: the same for both */
  double laminate; /* 0 to 1, see leaf.h */
  double old_crack, fixed_share, new_window, new_label;
  double gape[2], depth;
  double frame[2], frame_most;
  double miss[2];
  double wall;
} sound_draw;

void sound_draw_of(const double u[SOUND_DIMS], sound_draw *draw);

/* A glass: Rw + C and Rw + Ctr by set and place of its laminates, and its spectrum, set safe. */
typedef struct sound_glass {
  double rw_ctr[3][SOUND_PLACES][2];
  pw_thirds safe;
} sound_glass;

typedef struct sound_slit_table {
  double narrow, wide, depth; /* m */
  double tau[2][SOUND_WIDTHS];
} sound_slit_table;
void sound_slits(sound_slit_table *table);

typedef struct sound_window {
  int old;
  double area, glass_area, times;
  double label; /* m3/(s m2) at 75 Pa, NAN none */
  pw_joint_lengths joints;
  const sound_glass *glass;
} sound_window;

/* Area times weighted tau of an opening, m2; ctr 0: of spectrum 1, 1: of spectrum 2. */
double sound_through(const sound_window *window, const sound_draw *draw,
                     const sound_slit_table *slits, int ctr);

typedef struct sound_study {
  size_t n_window;
  sound_glass *glass;   /* existing by opening, then packages */
  sound_window *window; /* [(p + 1) * n_opening + i], existing first */
  sound_draw *draw;
  sound_slit_table slits;
  double *through[2]; /* [draw * n_window + window] */
  double *value;      /* room for a band */
} sound_study;

/* compare_sound_rooms.c */
pw_status sound_rooms(const pw_compare *compare, sound_study *study, pw_compare_sound *out,
                      pw_err *err);

#endif
