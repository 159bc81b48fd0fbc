/* How rows of a house file become a house. Internal. */
#ifndef JOB_HOUSE_FILE_IMPL_H
#define JOB_HOUSE_FILE_IMPL_H

#include "glass/optics.h"
#include "job/house_file.h"

enum { HOUSE_MATERIALS = 40, HOUSE_PANES = 8, HOUSE_TEXT = 256 };

typedef struct house_row {
  const char *file;
  int line, column; /* of the value */
  const char *item, *of, *value, *how_known;
} house_row;

typedef struct house_material {
  char name[32];
  double conductivity, density, heat, resistance;
} house_material;

typedef struct house_pane {
  char name[PW_NAME_MAX];
  pw_bands bands;
  double emit[2];
  char angular[PW_NAME_MAX];
} house_pane;

/* What is known while rows come in; texts are resolved at the end, so that rows may stand in any
 * order after the one that declares their part. */
typedef struct house_maker {
  pw_house_file *file;
  size_t n_material, n_pane;
  house_material material[HOUSE_MATERIALS];
  house_pane pane[HOUSE_PANES];
  char layers[PW_PARTS_MAX][HOUSE_TEXT];
  char buildup[PW_HOUSE_GLASSES][HOUSE_TEXT];
  char glass_of[PW_WINDOWS_MAX][32];
} house_maker;

pw_status house_take_row(house_maker *m, const house_row *row, pw_err *err);

/* Layers, panes and glasses put together, the whole checked. */
pw_status house_finish(house_maker *m, pw_err *err);

#endif
