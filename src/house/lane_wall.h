/* What walls remember, LANES of them side by side. Included after LANES is defined. Internal. */
#include "house/lanes.h"
#include "house/wall.h"

/* A wall's mode: pw_wall's rows of one k, with the value counted from where the faces now pull it (lead times their
 * temperatures): so only the faces of the step before drive it. Where a house has fewer, all are 0. */
typedef struct lane_mode {
  vd keep, drive[2], recall[2], value;
} lane_mode;

typedef struct lane_lead {
  vd face[2];
} lane_lead;

/* What n_mode values and the faces of the step before come to: past is pw_wall's, and what leads. */
static inline void lane_put_modes(lane_mode mode[], lane_lead lead[], vd past[4], size_t l,
                                  const pw_wall *w)
{
  double sum[2][2];
  memcpy(sum, w->past, sizeof sum);
  for (size_t k = 0; k < w->n_mode; k++) {
    lane_mode *m = &mode[k];
    v_put(&m->keep, l, w->keep[k]);
    for (int i = 0; i < 2; i++) {
      v_put(&m->drive[i], l, w->keep[k] * w->drive[i][k] + w->drive_past[i][k]);
      v_put(&m->recall[i], l, w->recall[i][k]);
      v_put(&lead[k].face[i], l, w->drive[i][k]);
      for (int j = 0; j < 2; j++)
        sum[i][j] += w->recall[i][k] * w->drive[j][k];
    }
  }
  for (int i = 0; i < 4; i++)
    v_put(&past[i], l, sum[i / 2][i % 2]);
}

/* pw_wall's state out of the values, and back, at the faces' temperatures of the last step. */
static inline void lane_to_state(size_t n, lane_mode mode[], const lane_lead lead[],
                                 const vd face[2])
{
  for (size_t k = 0; k < n; k++)
    mode[k].value += lead[k].face[0] * face[0] + lead[k].face[1] * face[1];
}

static inline void lane_of_state(size_t n, lane_mode mode[], const lane_lead lead[],
                                 const vd face[2])
{
  for (size_t k = 0; k < n; k++)
    mode[k].value -= lead[k].face[0] * face[0] + lead[k].face[1] * face[1];
}

/* pw_wall_recall, and what of pw_wall_step does not need the faces to come. */
static inline void lane_recall(size_t n, lane_mode mode[], const vd past[4], const vd before[2],
                               vd flux[2])
{
  const vd out = before[0], in = before[1];
  vd a = past[0] * out + past[1] * in, b = past[2] * out + past[3] * in;
  for (size_t k = 0; k < n; k++) {
    lane_mode *m = &mode[k];
    const vd value = m->value;
    a += m->recall[0] * value;
    b += m->recall[1] * value;
    m->value = m->keep * value + (m->drive[0] * out + m->drive[1] * in);
  }
  flux[0] = a;
  flux[1] = b;
}
