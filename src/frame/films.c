/* Surface films of a section, and which of them the rating procedure wants. */
#include <math.h>

#include "base/own_math.h"
#include "frame/frame_impl.h"
#include "panewright/units.h"

const pw_films pw_films_iso10077 = {.outdoor = 0.04, .indoor = 0.13, .reduced = 0.20};

pw_films pw_films_rating(pw_frame_face face, double t_out, double t_in)
{
  /* NFRC 100 convection, from memory: reference/section/METHODS.md 2. */
  static const double h_c_in[] = {3.29, 3.00, 2.44}, h_c_out = 26.0, e = 0.9;
  double h_in = h_c_in[face] + 4.0 * e * PW_SIGMA * pw_power(t_in - 4.0, 3.0);
  double h_out = h_c_out + 4.0 * e * PW_SIGMA * pw_power(t_out, 3.0);
  return (pw_films){.outdoor = 1.0 / h_out, .indoor = 1.0 / h_in, .reduced = 1.0 / h_in};
}

/* Length of a plane cell's edges that face indoor air. */
static double indoor_length(const frame_plane *p, size_t i, size_t j)
{
  const int *c = p->cell + j * p->n_x + i;
  double h_x = p->x[i + 1] - p->x[i], h_y = p->y[j + 1] - p->y[j], sum = 0.0;
  if (i > 0 && frame_is_indoor(&p->region[c[-1]])) sum += h_y;
  if (i + 1 < p->n_x && frame_is_indoor(&p->region[c[1]])) sum += h_y;
  if (j > 0 && frame_is_indoor(&p->region[*(c - p->n_x)])) sum += h_x;
  if (j + 1 < p->n_y && frame_is_indoor(&p->region[c[p->n_x]])) sum += h_x;
  return sum;
}

pw_status pw_section_face(const pw_section *section, pw_frame_face *face, pw_err *err)
{
  frame_plane p;
  pw_status status = frame_plane_make(section, &(pw_section_options){0}, &p, err);
  if (status != PW_OK) return status;
  double metal = 0.0, all = 0.0;
  int broken = 0;
  for (size_t j = 0; j < p.n_y; j++)
    for (size_t i = 0; i < p.n_x; i++) {
      const frame_region *r = &p.region[p.cell[j * p.n_x + i]];
      if (r->zone != PW_ZONE_SOLID) continue;
      pw_material_kind kind = section->material[r->material].kind;
      broken |= kind == PW_MATERIAL_BREAK;
      double s = p.axis == FRAME_X ? 0.5 * (p.y[j] + p.y[j + 1]) : 0.5 * (p.x[i] + p.x[i + 1]);
      if (!isnan(p.sight) && p.up * (s - p.sight) > 0.0)
        continue; /* the sight line is a line of the plane */
      double length = indoor_length(&p, i, j);
      all += length;
      if (kind == PW_MATERIAL_METAL) metal += length;
    }
  frame_plane_free(&p);
  *face = !(metal > 0.5 * all) ? PW_FACE_OTHER : broken ? PW_FACE_METAL_BREAK : PW_FACE_METAL;
  return PW_OK;
}
