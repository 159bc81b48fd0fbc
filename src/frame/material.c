#include "panewright/material.h"

#include <math.h>
#include <string.h>

#include "panewright/nearest.h"
#include "panewright/table.h"

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

static const pw_table *materials(void) { return pw_table_find("section/materials"); }

int pw_material_at(size_t i, pw_material *material)
{
  const pw_table *t = materials();
  if (!t || i >= t->n_row) return 0;
  const char *name = pw_table_text(t, i, pw_table_column(t, "material"));
  *material = (pw_material){
      .name = name,
      .conductivity = pw_table_number(t, i, pw_table_column(t, "conductivity_w_mk")),
      .emissivity = pw_table_number(t, i, pw_table_column(t, "emissivity")),
      .kind = kind_of(name, pw_table_text(t, i, pw_table_column(t, "group"))),
      .source = pw_table_text(t, i, pw_table_column(t, "source")),
  };
  return 1;
}

int pw_material_find(const char *name, pw_material *material)
{
  const pw_table *t = materials();
  int column = pw_table_column(t, "material");
  for (size_t i = 0; t && i < t->n_row; i++)
    if (strcmp(pw_table_text(t, i, column), name) == 0) return pw_material_at(i, material);
  return 0;
}

const char *pw_material_nearest(const char *name, const char *const extra[], size_t n_extra)
{
  const char *known[WORDS_MAX];
  size_t n = 0;
  const pw_table *t = materials();
  int column = pw_table_column(t, "material");
  for (size_t i = 0; t && i < t->n_row && n < WORDS_MAX; i++)
    known[n++] = pw_table_text(t, i, column);
  for (size_t i = 0; i < n_extra && n < WORDS_MAX; i++)
    known[n++] = extra[i];
  return pw_nearest(name, known, n);
}
