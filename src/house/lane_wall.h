/* What walls remember, LANES of them side by side. Included after LANES is defined. Internal. */
#include "house/lanes.h"
#include "house/wall.h"

/* A wall of one step width: pw_wall's rows by mode. Where a house has fewer modes, all of one are 0. The values of the
 * modes are counted from where the faces now pull them (lead times their temperatures): so only the faces of the step
 * before drive them, and past holds what leads. */
typedef struct lane_mode {
  vd keep, drive[2], recall[2];
} lane_mode;

typedef struct lane_wall {
  vd direct[2][2], past[2][2];
  lane_mode mode[PW_MODES_MAX];
  vd lead[PW_MODES_MAX][2];
} lane_wall;

static inline void lane_put_wall(lane_wall *to, size_t l, const pw_wall *w)
{
  double past[2][2];
  memcpy(past, w->past, sizeof past);
  for (size_t k = 0; k < w->n_mode; k++) {
    lane_mode *m = &to->mode[k];
    v_put(&m->keep, l, w->keep[k]);
    for (int i = 0; i < 2; i++) {
      v_put(&m->drive[i], l, w->keep[k] * w->drive[i][k] + w->drive_past[i][k]);
      v_put(&m->recall[i], l, w->recall[i][k]);
      v_put(&to->lead[k][i], l, w->drive[i][k]);
      for (int j = 0; j < 2; j++)
        past[i][j] += w->recall[i][k] * w->drive[j][k];
    }
  }
  for (int i = 0; i < 2; i++)
    for (int j = 0; j < 2; j++) {
      v_put(&to->direct[i][j], l, w->direct[i][j]);
      v_put(&to->past[i][j], l, past[i][j]);
    }
}

/* What pw_wall's state of a mode is above its value, the faces being at these temperatures. */
static inline vd lane_leads(const lane_wall *w, size_t mode, const vd face[2])
{
  return w->lead[mode][0] * face[0] + w->lead[mode][1] * face[1];
}

/* pw_wall_recall, and what of pw_wall_step does not need the faces to come. */
static inline void lane_recall(const lane_wall *w, size_t n, const vd before[2], vd value[],
                               vd flux[2])
{
  const vd out = before[0], in = before[1];
  vd a = w->past[0][0] * out + w->past[0][1] * in, b = w->past[1][0] * out + w->past[1][1] * in;
  for (size_t k = 0; k < n; k++) {
    const lane_mode *m = &w->mode[k];
    const vd v = value[k];
    a += m->recall[0] * v;
    b += m->recall[1] * v;
    value[k] = m->keep * v + (m->drive[0] * out + m->drive[1] * in);
  }
  flux[0] = a;
  flux[1] = b;
}
