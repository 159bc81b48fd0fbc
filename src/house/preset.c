#include "house/preset.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/nearest.h"
#include "panewright/units.h"

enum { PRESET_LAYERS = 4, PRESETS_MAX = 64, YEAR_UNKNOWN = 1972 };

/* A layer of a row of house_materials; with wood_share above 0 wood crosses it: conductivities,
 * densities and heats side by side by area. */
static pw_wall_layer layer_of(int material, double mm, double wood_share)
{
  const pw_ref_house_materials_row *m = &pw_ref_house_materials[material];
  double k = m->conductivity, rho = m->density, c = m->heat;
  if (isfinite(m->resistance) && wood_share <= 0.0)
    return (pw_wall_layer){.resistance = m->resistance};
  if (isfinite(
          m->resistance)) { /* an air space between studs: as one body of that resistance */
    k = mm / 1000.0 / m->resistance;
    rho = 1.2;
    c = PW_AIR_HEAT;
  }
  return (pw_wall_layer){.thickness = mm / 1000.0,
                         .conductivity = (1.0 - wood_share) * k +
                                         wood_share * 0.12, /* softwood, house_materials.csv */
                         .density = (1.0 - wood_share) * rho + wood_share * 510.0,
                         .heat = ((1.0 - wood_share) * rho * c + wood_share * 510.0 * 1380.0) /
                                 ((1.0 - wood_share) * rho + wood_share * 510.0)};
}

static void fill(const pw_ref_house_presets_row *row, pw_preset *preset)
{
  const int material[PRESET_LAYERS] = {row->m1, row->m2, row->m3, row->m4};
  const double mm[PRESET_LAYERS] = {row->mm1, row->mm2, row->mm3, row->mm4};
  *preset = (pw_preset){.name = row->name,
                        .source = row->source,
                        .how_known = row->how_known,
                        .absorptance = row->absorptance,
                        .value = row->value};
  pw_wall_layers *layers = &preset->layers;
  for (int i = 0; i < PRESET_LAYERS; i++)
    if (material[i] >= 0)
      layers->layer[layers->n_layer++] =
          layer_of(material[i], mm[i], i + 1 == row->mix ? row->wood_share : 0.0);
  /* Roofs end in plasterboard below the ceiling joists; four columns hold the rest. */
  if (row->part == pw_ref_house_presets__part_roof)
    layers->layer[layers->n_layer++] =
        layer_of(pw_ref_house_materials__plasterboard, 12.7, 0.0);
}

pw_status pw_preset_find(unsigned part, const char *name, int year, pw_preset *preset,
                         pw_err *err)
{
  static const char *const part_word[] = {"wall", "roof", "floor", "air_changes"};
  const char *known[PRESETS_MAX];
  char all[300] = "";
  size_t n = 0;
  if (year == 0) year = YEAR_UNKNOWN;
  for (size_t r = 0; r < pw_ref_house_presets__n && n < PRESETS_MAX; r++) {
    const pw_ref_house_presets_row *row = &pw_ref_house_presets[r];
    if (row->part != part) continue;
    known[n] = row->name;
    size_t used = strlen(all);
    snprintf(all + used, sizeof all - used, "%s%s", n ? ", " : "", known[n]);
    if (name[0] ? strcmp(known[n], name) == 0
                : year >= row->year_from && year <= row->year_to) {
      fill(row, preset);
      return PW_OK;
    }
    n++;
  }
  const char *near = pw_nearest(name, known, n);
  return pw_fail(err, PW_E_DATA, part_word[part],
                 "job.csv: %s '%.40s' is not known%s%s; accepted: %s", part_word[part], name,
                 near ? "; did you mean " : "", near ? near : "", all);
}
