#include "frame/material.h"

#include <math.h>
#include <string.h>

#include "base/nearest.h"
#include "gen/reference.h"

enum { WORDS_MAX = 256 };

static pw_material_kind kind_of(const char *name, const char *group)
{
  static const struct {
    const char *group;
    pw_material_kind kind;
  } row[] = {{"metal", PW_MATERIAL_METAL},
             {"thermal break", PW_MATERIAL_BREAK},
             {"glass", PW_MATERIAL_GLASS},
             {"glass edge", PW_MATERIAL_GLASS_EDGE},
             {"glazing gap", PW_MATERIAL_GLASS_GAP}};
  if (strcmp(name, "insulation_panel") == 0) return PW_MATERIAL_PANEL;
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    if (strcmp(group, row[i].group) == 0) return row[i].kind;
  return PW_MATERIAL_OTHER;
}

int pw_material_find(const char *name, pw_material *material)
{
  for (size_t i = 0; i < pw_ref_section_materials__n; i++) {
    const pw_ref_section_materials_row *row = &pw_ref_section_materials[i];
    if (strcmp(row->material, name) != 0) continue;
    *material = (pw_material){.name = row->material,
                              .conductivity = row->conductivity_w_mk,
                              .emissivity = row->emissivity,
                              .kind = kind_of(row->material, row->group),
                              .source = row->source};
    return 1;
  }
  return 0;
}

const char *pw_material_nearest(const char *name, const char *const extra[], size_t n_extra)
{
  const char *known[WORDS_MAX];
  size_t n = 0;
  for (size_t i = 0; i < pw_ref_section_materials__n && n < WORDS_MAX; i++)
    known[n++] = pw_ref_section_materials[i].material;
  for (size_t i = 0; i < n_extra && n < WORDS_MAX; i++)
    known[n++] = extra[i];
  return pw_nearest(name, known, n);
}
