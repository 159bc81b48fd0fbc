/* Rows of a section that stand for what a job decides: gaps of the glass, its spacer, the filling. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "frame/catalogue.h"
#include "frame/section.h"

/* The foam of a filling row is this row of section/materials.csv. */
static const char foam[] = "pu_foam";

int pw_section_set_gap(pw_section *section, int gap, double conductance)
{
  int found = 0;
  for (size_t i = 0; i < section->n_part; i++) {
    const pw_section_part *p = &section->part[i];
    pw_section_material *m = &section->material[p->material];
    if (m->gap != gap || m->zone != PW_ZONE_SOLID) continue;
    double width = fmin(p->x1 - p->x0, p->y1 - p->y0); /* a gap is tall and thin */
    m->conductivity = conductance * width;             /* ISO 10077-2 6.2: k = s / R_gap */
    found = 1;
  }
  return found;
}

int pw_section_gaps(const pw_section *section)
{
  int n = 0;
  for (size_t i = 0; i < section->n_material; i++)
    if (section->material[i].gap > n) n = section->material[i].gap;
  return n;
}

int pw_section_stands(const pw_section *section, pw_stands stands)
{
  for (size_t i = 0; i < section->n_material; i++)
    if (section->material[i].stands == stands) return 1;
  return 0;
}

/* 1 when panes and gaps are thin along x, as the first of them drawn. */
static int thin_along_x(const pw_section *s)
{
  for (size_t i = 0; i < s->n_part; i++) {
    const pw_section_part *p = &s->part[i];
    const pw_section_material *m = &s->material[p->material];
    if (m->gap || m->kind == PW_MATERIAL_GLASS) return p->x1 - p->x0 < p->y1 - p->y0;
  }
  return 1;
}

pw_status pw_section_set_spacer(pw_section *section, pw_spacer spacer, pw_err *err)
{
  for (size_t i = 0; i < section->n_part; i++) {
    const pw_section_part *p = &section->part[i];
    pw_section_material *m = &section->material[p->material];
    if (m->stands != PW_STANDS_SPACER) continue;
    pw_given k;
    double width = thin_along_x(section) ? p->x1 - p->x0 : p->y1 - p->y0;
    pw_status status = pw_catalogue_spacer_box(spacer, width, &k, err);
    if (status != PW_OK) return status;
    m->conductivity = k.value;
  }
  return PW_OK;
}

int pw_section_set_filling(pw_section *section, const char *filling)
{
  int found = 0, air = strcmp(filling, "air") == 0;
  pw_material solid = {.conductivity = NAN};
  if (!air && !pw_material_find(foam, &solid)) return 0;
  for (size_t i = 0; i < section->n_material; i++) {
    pw_section_material *m = &section->material[i];
    if (m->stands != PW_STANDS_FILLING) continue;
    m->zone = air ? PW_ZONE_HOLLOW : PW_ZONE_SOLID;
    m->conductivity = solid.conductivity;
    found = 1;
  }
  return found;
}

pw_status pw_section_copy(const pw_section *section, pw_section *copy, pw_err *err)
{
  pw_section c = *section;
  c.part = malloc((c.n_part + 1) * sizeof *c.part);
  c.material = malloc((c.n_material + 1) * sizeof *c.material);
  c.slot = malloc((c.n_slot + 1) * sizeof *c.slot);
  c.room_part = c.n_part + 1;
  c.room_material = c.n_material + 1;
  if (!c.part || !c.material || !c.slot) {
    pw_section_free(&c);
    pw_section_init(copy);
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a section");
  }
  if (c.n_part) memcpy(c.part, section->part, c.n_part * sizeof *c.part);
  if (c.n_material) memcpy(c.material, section->material, c.n_material * sizeof *c.material);
  if (c.n_slot) memcpy(c.slot, section->slot, c.n_slot * sizeof *c.slot);
  *copy = c;
  return PW_OK;
}
