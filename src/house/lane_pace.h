/* Hours lived through in HOUSE_CUT steps in place of one: walls keep what they remember and change their step. Included
 * after LANES is defined. Internal. */
#include "house/cut.h"
#include "house/lane_room.h"

/* Walls for the steps that are not being taken, and their faces on the way from one width to the other. */
typedef struct lane_pace {
  double step;
  vd direct[PW_PARTS_MAX][2][2], past[PW_PARTS_MAX][4];
  lane_mode mode[PW_PARTS_MAX][PW_MODES_MAX]; /* their value is not used */
  lane_lead lead[PW_PARTS_MAX][PW_MODES_MAX];
  vd face[PW_PARTS_MAX][2]; /* K: means of the step before the last; of short steps, summed */
} lane_pace;

/* The short steps' walls of a lane. */
static inline void lane_put_pace(lane_pace *to, size_t l, const room *r)
{
  to->step = r->step / HOUSE_CUT;
  for (size_t i = 0; i < r->n_part; i++) {
    const pw_wall *w = r->part[i].wall_cut;
    for (int k = 0; k < 4; k++)
      v_put(&to->direct[i][k / 2][k % 2], l, w->direct[k / 2][k % 2]);
    lane_put_modes(to->mode[i], to->lead[i], to->past[i], l, w);
  }
}

static inline void swap(vd *a, vd *b)
{
  const vd t = *a;
  *a = *b;
  *b = t;
}

/* A mode has one state for both widths: both walls keep the same modes (pw_wall_init_cut). Faces: was[][2] of each part,
 * K, of the last step as the other width has it. */
static inline void lane_swap_pace(lane_room *r, lane_pace *p, vd was[][2])
{
  const double step = r->step;
  r->step = p->step;
  p->step = step;
  for (size_t i = 0; i < r->n_part; i++) {
    lane_part *part = &r->part[i];
    lane_to_state(part->n_mode, part->mode, part->lead, part->was);
    for (int k = 0; k < 4; k++) {
      swap(&part->direct[k / 2][k % 2], &p->direct[i][k / 2][k % 2]);
      swap(&part->past[k], &p->past[i][k]);
    }
    for (size_t k = 0; k < part->n_mode; k++) {
      const lane_mode m = part->mode[k];
      part->mode[k] = p->mode[i][k];
      part->mode[k].value = m.value;
      p->mode[i][k] = m;
      for (int side = 0; side < 2; side++)
        swap(&part->lead[k].face[side], &p->lead[i][k].face[side]);
    }
    for (int side = 0; side < 2; side++)
      part->was[side] = was[i][side];
    lane_of_state(part->n_mode, part->mode, part->lead, part->was);
  }
}

static inline void lane_keep_faces(const lane_room *r, lane_pace *p)
{
  for (size_t i = 0; i < r->n_part; i++)
    for (int side = 0; side < 2; side++)
      p->face[i][side] = r->part[i].was[side];
}

static inline void lane_add_faces(const lane_room *r, lane_pace *p)
{
  for (size_t i = 0; i < r->n_part; i++)
    for (int side = 0; side < 2; side++)
      p->face[i][side] += r->part[i].was[side];
}

/* To short steps: a face ran straight through the long one (wall.h), so its mean over the last short part of it is
 * known. lane_keep_faces was called before that step. */
static inline void lane_quicken(lane_room *r, lane_pace *p)
{
  const double ahead = 0.5 - 0.5 / HOUSE_CUT;
  for (size_t i = 0; i < r->n_part; i++)
    for (int side = 0; side < 2; side++) {
      const vd was = r->part[i].was[side];
      p->face[i][side] = was + ahead * (was - p->face[i][side]);
    }
  lane_swap_pace(r, p, p->face);
}

/* To long steps: the mean over the short ones of the last long one, which were added. */
static inline void lane_slow(lane_room *r, lane_pace *p)
{
  for (size_t i = 0; i < r->n_part; i++)
    for (int side = 0; side < 2; side++)
      p->face[i][side] *= 1.0 / HOUSE_CUT;
  lane_swap_pace(r, p, p->face);
}

static inline void lane_no_faces(const lane_room *r, lane_pace *p)
{
  for (size_t i = 0; i < r->n_part; i++)
    p->face[i][0] = p->face[i][1] = v_all(0.0);
}
