/* What stands before a face: shades kept by facade, and opaque parts under eaves. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "house/site.h"

static int same_shade(const pw_shade *a, const pw_shade *b)
{
  if (a->width != b->width || a->height != b->height || a->reveal != b->reveal ||
      a->overhang_depth != b->overhang_depth || a->overhang_gap != b->overhang_gap)
    return 0;
  for (int side = 0; side < 2; side++)
    if (a->overhang_run[side] != b->overhang_run[side] ||
        a->fin_depth[side] != b->fin_depth[side] || a->fin_gap[side] != b->fin_gap[side])
      return 0;
  return 1;
}

void site_shade_room(pw_year_workspace *ws, size_t n)
{
  if (ws->n_shade + n <= SITE_SHADES) return;
  for (size_t i = 0; i < ws->n_shade; i++)
    free(ws->shade[i]);
  ws->n_shade = 0;
}

pw_status site_shade_of(pw_year_workspace *ws, const pw_shade *key, const site_facade *facade,
                        const site_shade **out, pw_err *err)
{
  for (size_t i = 0; i < ws->n_shade; i++)
    if (ws->shade[i]->facade == facade && same_shade(&ws->shade[i]->key, key)) {
      *out = ws->shade[i];
      return PW_OK;
    }
  if (ws->n_shade == SITE_SHADES)
    return pw_fail(err, PW_E_SHAPE, "shade", "no room for the shade of a window");
  site_shade *s = malloc(sizeof *s);
  if (!s) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the shade of a window");
  s->key = *key;
  s->facade = facade;
  pw_status status = pw_shade_factors(key, &s->factor, err);
  if (status == PW_OK) status = pw_shade_year(key, &facade->key, &ws->sky->sun, s->sunlit, err);
  if (status != PW_OK) {
    free(s);
    return status;
  }
  ws->shade[ws->n_shade++] = s;
  *out = s;
  return PW_OK;
}

static void fill(const pw_year_workspace *ws, const site_facade *f, const site_shade *shade,
                 float sun[PW_HOURS])
{
  const pw_facade_year *y = &f->year;
  float dome = (float)shade->factor.dome, band = (float)shade->factor.horizon;
  float ground = (float)shade->factor.ground;
  memset(sun, 0, PW_HOURS * sizeof *sun);
  for (size_t n = 0; n < ws->sky->sun.n; n++) {
    int i = ws->sky->sun.hour[n];
    float sky = y->circumsolar[i] * shade->sunlit[i] + y->dome[i] * dome + y->horizon[i] * band;
    sun[i] = y->beam[i] * shade->sunlit[i] + (sky > 0.0f ? sky : 0.0f) + y->ground[i] * ground;
  }
}

pw_status site_part_of(pw_year_workspace *ws, size_t l, size_t i, const pw_house_part *part,
                       double albedo, const float **sun, pw_err *err)
{
  const site_facade *f;
  const site_shade *shade;
  *sun = NULL;
  if (part->outside != PW_OUTSIDE_AIR) return PW_OK;
  pw_status s = site_facade_of(ws, part->facing_deg, part->tilt_deg, albedo, &f, err);
  if (s != PW_OK) return s;
  *sun = f->all;
  if (!(part->overhang_depth > 0.0 && part->height > 0.0)) return PW_OK;
  pw_shade key = {0};
  key.height = part->height;
  key.width = fmax(part->area / part->height, 0.1);
  key.overhang_depth = part->overhang_depth;
  key.overhang_gap = part->overhang_gap;
  key.overhang_run[0] = key.overhang_run[1] = INFINITY;
  site_shade_room(ws, 1);
  s = site_shade_of(ws, &key, f, &shade, err);
  if (s != PW_OK) return s;
  site_part **own = &ws->part[l][i];
  if (!*own) *own = malloc(sizeof **own);
  if (!*own) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the sun on a wall");
  fill(ws, f, shade, (*own)->sun);
  *sun = (*own)->sun;
  return PW_OK;
}
