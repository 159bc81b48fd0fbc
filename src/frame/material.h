/* Solids of a frame section: conductivity at design conditions, long-wave emissivity, kind. */
#ifndef FRAME_MATERIAL_H
#define FRAME_MATERIAL_H

#include <stddef.h>

typedef enum pw_material_kind {
  PW_MATERIAL_OTHER = 0,
  PW_MATERIAL_METAL,
  PW_MATERIAL_BREAK,      /* thermal breaks between metal halves */
  PW_MATERIAL_GLASS,      /* panes */
  PW_MATERIAL_GLASS_EDGE, /* spacers, edge seals, desiccants */
  PW_MATERIAL_GLASS_GAP,  /* the gas between panes, as one conductor */
  PW_MATERIAL_PANEL       /* stands for the glazing in the panel method */
} pw_material_kind;

typedef struct pw_material {
  const char *name;    /* static */
  double conductivity; /* W/(m K) */
  double emissivity;   /* hemispherical, long wave */
  pw_material_kind kind;
  const char *source; /* static; how it is known stands in the table */
} pw_material;

/* The material of that name in reference/section/materials.csv: 1 and *material filled, else 0. */
int pw_material_find(const char *name, pw_material *material);

/* The known name nearest to a mistyped one, or NULL. extra[n_extra] are further words allowed. */
const char *pw_material_nearest(const char *name, const char *const extra[], size_t n_extra);

#endif
