/* The last step of a house file: layers of materials, glasses of panes, and the check of it all. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "job/house_file_impl.h"
#include "panewright/glazing.h"

static const house_material *material_of(const house_maker *m, const char *name)
{
  for (size_t i = 0; i < m->n_material; i++)
    if (strcmp(m->material[i].name, name) == 0) return &m->material[i];
  return NULL;
}

/* One layer: "siding 9 mm", or a bare resistance by its name. */
static pw_status make_layer(const house_maker *m, const char *part, char *text,
                            pw_wall_layer *layer, pw_err *err)
{
  while (*text == ' ')
    text++;
  size_t n = strlen(text);
  while (n > 0 && text[n - 1] == ' ')
    text[--n] = '\0';
  char *space = strchr(text, ' '), unit[8] = "";
  double thickness = 0.0;
  char rest;
  if (space) {
    *space = '\0';
    if (sscanf(space + 1, "%lf %7s %c", &thickness, unit, &rest) != 2 ||
        strcmp(unit, "mm") != 0 || !(thickness > 0.0))
      return pw_fail(err, PW_E_DATA, "layers",
                     "layers of '%s': after %s found '%s', want a thickness such as 12 mm",
                     part, text, space + 1);
  }
  const house_material *k = material_of(m, text);
  if (!k)
    return pw_fail(err, PW_E_DATA, "layers", "layers of '%s': no material '%s'", part, text);
  if (space && !(k->conductivity > 0.0))
    return pw_fail(err, PW_E_DATA, "layers", "material '%s' has no conductivity_w_mk", text);
  *layer =
      (pw_wall_layer){thickness * 1e-3, k->conductivity, k->density, k->heat, k->resistance};
  return PW_OK;
}

static pw_status make_layers(house_maker *m, size_t i, pw_err *err)
{
  pw_house_part *p = &m->file->house.part[i];
  char text[HOUSE_TEXT], *next = text;
  memcpy(text, m->layers[i], sizeof text);
  p->layers.n_layer = 0;
  while (next) {
    char *slash = strchr(next, '/');
    if (slash) *slash = '\0';
    if (p->layers.n_layer == PW_LAYERS_MAX)
      return pw_fail(err, PW_E_DATA, "layers", "layers of '%s': more than %d", p->name,
                     PW_LAYERS_MAX);
    pw_status s = make_layer(m, p->name, next, &p->layers.layer[p->layers.n_layer++], err);
    if (s != PW_OK) return s;
    next = slash ? slash + 1 : NULL;
  }
  return PW_OK;
}

static pw_status make_panes(const house_maker *m, pw_measured own[], pw_err *err)
{
  pw_spectrum spectrum;
  pw_status s = PW_OK;
  pw_spectrum_init(&spectrum);
  for (size_t i = 0; s == PW_OK && i < m->n_pane; i++) {
    const house_pane *p = &m->pane[i];
    memset(&own[i], 0, sizeof own[i]);
    memcpy(own[i].name, p->name, sizeof own[i].name);
    memcpy(own[i].angular, p->angular, sizeof own[i].angular);
    own[i].emit[0] = p->emit[0];
    own[i].emit[1] = p->emit[1];
    s = pw_measured_from_bands(&p->bands, &spectrum, &own[i], err);
  }
  return s;
}

static pw_status make_glass(house_maker *m, pw_err *err)
{
  pw_measured *own = calloc(HOUSE_PANES, sizeof *own);
  if (!own) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for panes");
  const char *kind[HOUSE_PANES];
  for (size_t i = 0; i < m->n_pane; i++)
    kind[i] = m->pane[i].name;
  pw_status s = make_panes(m, own, err);
  for (size_t i = 0; s == PW_OK && i < m->file->n_glass; i++) {
    pw_buildup b;
    s = pw_buildup_parse_own(m->buildup[i], kind, m->n_pane, &b, err);
    if (s == PW_OK) s = pw_glazing_build_with(&b, own, m->n_pane, &m->file->glass[i], err);
  }
  free(own);
  return s;
}

static pw_status join_windows(house_maker *m, pw_err *err)
{
  pw_house_file *f = m->file;
  for (size_t w = 0; w < f->n_window; w++) {
    for (size_t g = 0; g < f->n_glass; g++)
      if (strcmp(f->glass_name[g], m->glass_of[w]) == 0) f->window[w].glazing = &f->glass[g];
    if (!f->window[w].glazing)
      return pw_fail(err, PW_E_DATA, "window", "window '%s': no glass '%s'", f->window_name[w],
                     m->glass_of[w]);
  }
  return PW_OK;
}

pw_status house_finish(house_maker *m, pw_err *err)
{
  pw_status s = PW_OK;
  for (size_t i = 0; s == PW_OK && i < m->file->house.n_part; i++)
    s = make_layers(m, i, err);
  if (s == PW_OK) s = make_glass(m, err);
  if (s == PW_OK) s = join_windows(m, err);
  if (s == PW_OK) s = pw_house_check(&m->file->house, err);
  return s;
}
