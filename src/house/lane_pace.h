/* Hours lived through in HOUSE_CUT steps in place of one: walls keep what they remember and change their step. Included
 * after LANES is defined. Internal. */
#include "house/cut.h"
#include "house/lane_room.h"

/* Walls for the steps that are not being taken, and their faces on the way from one width to the other. */
typedef struct lane_pace {
  double step;
  const lane_wall *other[PW_PARTS_MAX]; /* of the width that is not being taken */
  lane_wall wall[PW_PARTS_MAX];         /* of short steps */
  vd face[PW_PARTS_MAX][2]; /* K: means of the step before the last; of short steps, summed */
} lane_pace;

/* The short steps' walls of a lane. */
static inline void lane_put_pace(lane_pace *to, size_t l, const room *r)
{
  to->step = r->step / HOUSE_CUT;
  for (size_t i = 0; i < r->n_part; i++) {
    to->other[i] = &to->wall[i];
    lane_put_wall(&to->wall[i], l, r->part[i].wall_cut);
  }
}

/* To the other width, where p->face is what the last step of it had. A mode has one state for both: both walls keep the
 * same modes (pw_wall_init_cut). */
static inline void lane_swap_pace(lane_room *r, lane_pace *p)
{
  const double step = r->step;
  r->step = p->step;
  p->step = step;
  for (size_t i = 0; i < r->n_part; i++) {
    lane_part *part = &r->part[i];
    const lane_wall *was = part->wall, *now = p->other[i];
    for (size_t k = 0; k < part->n_mode; k++)
      part->value[k] += lane_leads(was, k, part->was) - lane_leads(now, k, p->face[i]);
    part->was[0] = p->face[i][0];
    part->was[1] = p->face[i][1];
    part->wall = now;
    p->other[i] = was;
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
  lane_swap_pace(r, p);
}

/* To long steps: the mean over the short ones of the last long one, which were added. */
static inline void lane_slow(lane_room *r, lane_pace *p)
{
  for (size_t i = 0; i < r->n_part; i++)
    for (int side = 0; side < 2; side++)
      p->face[i][side] *= 1.0 / HOUSE_CUT;
  lane_swap_pace(r, p);
}

static inline void lane_no_faces(const lane_room *r, lane_pace *p)
{
  for (size_t i = 0; i < r->n_part; i++)
    p->face[i][0] = p->face[i][1] = v_all(0.0);
}
