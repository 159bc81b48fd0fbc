/* The rooms of a job: their openings together with the wall around them and a vent, EN 12354-3. */
#include <math.h>
#include <string.h>

#include "gen/reference.h"
#include "house/facade_sound.h"
#include "study/compare_sound_impl.h"

/* Weighted R of a stucco wall with studs by its octaves, and its Rw: the shape that a wall_rw is
 * put on. */
typedef struct wall_sound {
  double rw, weighted;
} wall_sound;

static pw_status stucco(int ctr, wall_sound *out, pw_err *err)
{
  const pw_ref_sound_glass_octaves_row *g =
      &pw_ref_sound_glass_octaves[pw_ref_sound_glass_octaves__R_stucco];
  const double octave[5] = {g->r_125, g->r_250, g->r_500, g->r_1000, g->r_2000};
  pw_single_number n;
  pw_thirds r;
  pw_status s = pw_single_number_octaves(octave, &n, err);
  if (s != PW_OK) return s;
  for (int b = 0; b < PW_THIRDS; b++) /* 100, 125, 160 Hz carry the octave of 125 Hz */
    r.db[b] = b < 3 ? octave[0] : (b - 3) / 3 < 5 ? octave[(b - 3) / 3] : g->r_4000;
  out->rw = n.rw;
  out->weighted = pw_reduction_a(&r, ctr);
  return PW_OK;
}

static double first_given(const pw_compare *c, const pw_room_sound *room, size_t offset)
{
  for (size_t k = 0; k < room->n_opening; k++) {
    double v;
    memcpy(&v, (const char *)&c->job->opening[room->opening[k]] + offset, sizeof v);
    if (v > 0.0) return v;
  }
  return (double)NAN;
}

/* Openings whose room has the same name stand in one room; one without a name is a room by itself. */
static void gather(const pw_compare *c, pw_compare_sound *out)
{
  for (size_t i = 0; i < c->n_opening; i++) {
    const pw_opening *o = &c->job->opening[i];
    size_t r = 0;
    while (r < out->n_room && !(o->room[0] && strcmp(out->room[r].name, o->room) == 0))
      r++;
    pw_room_sound *room = &out->room[r];
    if (r == out->n_room) {
      memcpy(room->name, o->room[0] ? o->room : o->tag,
             o->room[0] ? sizeof room->name : sizeof o->tag);
      out->n_room++;
    }
    room->opening[room->n_opening++] = i;
  }
}

/* Wall beside the openings: a facade as long as volume over depth and 2.4 m high asks for, at least a
 * fifth more than its openings. */
static double wall_area(const pw_room_sound *room, double openings)
{
  double facade = room->volume / pw_ref_sound_joints[pw_ref_sound_joints__room_depth].low;
  return fmax(facade, 1.2 * openings) - openings;
}

static double through_room(const pw_compare *c, const sound_study *s, const pw_room_sound *room,
                           size_t draw, int set, int ctr, double *openings)
{
  const double *t = &s->through[ctr][draw * s->n_window + (size_t)(set + 1) * c->n_opening];
  double sum = 0.0;
  *openings = 0.0;
  for (size_t k = 0; k < room->n_opening; k++) {
    const sound_window *w = &s->window[room->opening[k]];
    sum += w->times * t[room->opening[k]];
    *openings += w->times * w->area;
  }
  return sum;
}

static pw_status difference(const pw_compare *c, const sound_study *s, const wall_sound *wall,
                            const pw_room_sound *room, size_t draw, int set, int ctr,
                            double *d2m, pw_err *err)
{
  double openings = 0.0, r = 0.0, area = 0.0;
  double sum = through_room(c, s, room, draw, set, ctr, &openings);
  double rw = room->wall_rw + (room->complete ? 0.0 : s->draw[draw].wall);
  const pw_facade_part part[2] = {{openings, -10.0 * log10(sum / openings)},
                                  {wall_area(room, openings), wall->weighted + rw - wall->rw}};
  pw_status status = pw_facade_reduction(part, 2, &room->vent_dne,
                                         isfinite(room->vent_dne) ? 1 : 0, &r, &area, err);
  if (status == PW_OK) *d2m = pw_facade_d2m(r, 0.0, room->volume, area);
  return status;
}

static pw_status room_of(const pw_compare *c, sound_study *s, const wall_sound *wall, int ctr,
                         pw_room_sound *room, pw_err *err)
{
  double *now = s->value, *then = s->value + PW_SOUND_DRAWS,
         *work = s->value + 2 * PW_SOUND_DRAWS;
  pw_status status = PW_OK;
  pw_band level;
  for (size_t k = 0; status == PW_OK && k < PW_SOUND_DRAWS; k++)
    status = difference(c, s, wall, room, k, -1, ctr, &now[k], err);
  if (status == PW_OK) status = pw_band_of(now, 1, PW_SOUND_DRAWS, NULL, work, &level, err);
  if (status == PW_OK) room->level_difference[0] = level.p50;
  for (size_t p = 0; status == PW_OK && p < c->n_package; p++) {
    for (size_t k = 0; status == PW_OK && k < PW_SOUND_DRAWS; k++)
      status = difference(c, s, wall, room, k, (int)p, ctr, &then[k], err);
    if (status == PW_OK) status = pw_band_of(then, 1, PW_SOUND_DRAWS, NULL, work, &level, err);
    if (status != PW_OK) break;
    room->level_difference[1 + p] = level.p50;
    for (size_t k = 0; k < PW_SOUND_DRAWS; k++)
      then[k] -= now[k];
    status = pw_band_of(then, 1, PW_SOUND_DRAWS, NULL, work, &room->change[p], err);
  }
  for (size_t p = 0; p <= c->n_package; p++)
    room->level_indoors[p] =
        room->complete && c->job->house.noise_db_2m > 0.0
            ? pw_facade_level(c->job->house.noise_db_2m, room->level_difference[p], 0.5)
            : (double)NAN;
  return status;
}

pw_status sound_rooms(const pw_compare *c, sound_study *s, pw_compare_sound *out, pw_err *err)
{
  int ctr;
  wall_sound w;
  out->noise = (size_t)c->job->house.noise;
  ctr = pw_ref_sound_noise[out->noise].spectrum == pw_ref_sound_noise__spectrum_ctr;
  gather(c, out);
  pw_status status = stucco(ctr, &w, err);
  for (size_t r = 0; status == PW_OK && r < out->n_room; r++) {
    pw_room_sound *room = &out->room[r];
    room->volume = first_given(c, room, offsetof(pw_opening, room_volume));
    room->wall_rw = first_given(c, room, offsetof(pw_opening, wall_rw));
    room->vent_dne = first_given(c, room, offsetof(pw_opening, vent_dne));
    room->complete = isfinite(room->volume) && isfinite(room->wall_rw);
    if (!room->complete) out->defaults = 1;
    if (!isfinite(room->volume))
      room->volume = pw_ref_sound_joints[pw_ref_sound_joints__room_volume].low;
    if (!isfinite(room->wall_rw)) room->wall_rw = w.rw;
    status = room_of(c, s, &w, ctr, room, err);
  }
  return status;
}
