/* What walls remember, LANES of them side by side. Included after LANES is defined. Internal. */
#include "house/lanes.h"
#include "house/wall.h"

/* A wall's mode: pw_wall's rows of one k, and its value. Where a house has fewer, all are 0. */
typedef struct lane_mode {
  vd keep, drive[2], drive_past[2], recall[2], state;
} lane_mode;

static inline void lane_put_modes(lane_mode mode[], size_t l, const pw_wall *w)
{
  for (size_t k = 0; k < w->n_mode; k++) {
    lane_mode *m = &mode[k];
    v_put(&m->keep, l, w->keep[k]);
    for (int i = 0; i < 2; i++) {
      v_put(&m->drive[i], l, w->drive[i][k]);
      v_put(&m->drive_past[i], l, w->drive_past[i][k]);
      v_put(&m->recall[i], l, w->recall[i][k]);
    }
  }
}

/* pw_wall_recall */
static inline void lane_recall(size_t n, const lane_mode mode[], const vd past[2][2],
                               const vd before[2], vd flux[2])
{
  vd a = past[0][0] * before[0] + past[0][1] * before[1];
  vd b = past[1][0] * before[0] + past[1][1] * before[1];
  for (size_t k = 0; k < n; k++) {
    a += mode[k].recall[0] * mode[k].state;
    b += mode[k].recall[1] * mode[k].state;
  }
  flux[0] = a;
  flux[1] = b;
}

/* pw_wall_step */
static inline void lane_advance(size_t n, lane_mode mode[], const vd before[2], const vd now[2])
{
  for (size_t k = 0; k < n; k++) {
    lane_mode *m = &mode[k];
    m->state = m->keep * m->state + m->drive[0] * now[0] + m->drive[1] * now[1] +
               m->drive_past[0] * before[0] + m->drive_past[1] * before[1];
  }
}
