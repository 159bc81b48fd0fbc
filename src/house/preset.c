#include "house/preset.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "panewright/nearest.h"
#include "panewright/table.h"
#include "panewright/units.h"

enum { PRESET_LAYERS = 4, PRESETS_MAX = 64, YEAR_UNKNOWN = 1972 };

/* A layer of a material; with wood_share above 0 wood crosses it: conductivities, densities and
 * heats side by side by area. */
static pw_status layer_of(const char *material, double mm, double wood_share,
                          pw_wall_layer *layer, pw_err *err)
{
  const pw_table *t = pw_table_find("house_materials");
  int c_name = pw_table_column(t, "material");
  for (size_t r = 0; t && r < t->n_row; r++) {
    if (strcmp(pw_table_text(t, r, c_name), material) != 0) continue;
    double resistance = pw_table_number(t, r, pw_table_column(t, "resistance"));
    double k = pw_table_number(t, r, pw_table_column(t, "conductivity"));
    double rho = pw_table_number(t, r, pw_table_column(t, "density"));
    double c = pw_table_number(t, r, pw_table_column(t, "heat"));
    if (isfinite(resistance) && wood_share <= 0.0) {
      *layer = (pw_wall_layer){.resistance = resistance};
      return PW_OK;
    }
    if (isfinite(resistance)) { /* an air space between studs: as one body of that resistance */
      k = mm / 1000.0 / resistance;
      rho = 1.2;
      c = PW_AIR_HEAT;
    }
    *layer =
        (pw_wall_layer){.thickness = mm / 1000.0,
                        .conductivity = (1.0 - wood_share) * k +
                                        wood_share * 0.12, /* softwood, house_materials.csv */
                        .density = (1.0 - wood_share) * rho + wood_share * 510.0,
                        .heat = ((1.0 - wood_share) * rho * c + wood_share * 510.0 * 1380.0) /
                                ((1.0 - wood_share) * rho + wood_share * 510.0)};
    return PW_OK;
  }
  return pw_fail(err, PW_E_MISSING, "material", "the table of materials has no '%s'", material);
}

static pw_status fill(const pw_table *t, size_t r, pw_preset *preset, pw_err *err)
{
  *preset = (pw_preset){.name = pw_table_text(t, r, pw_table_column(t, "name")),
                        .source = pw_table_text(t, r, pw_table_column(t, "source")),
                        .how_known = pw_table_text(t, r, pw_table_column(t, "how_known")),
                        .absorptance = pw_table_number(t, r, pw_table_column(t, "absorptance")),
                        .value = pw_table_number(t, r, pw_table_column(t, "value"))};
  double mix = pw_table_number(t, r, pw_table_column(t, "mix"));
  double share = pw_table_number(t, r, pw_table_column(t, "wood_share"));
  for (int i = 1; i <= PRESET_LAYERS; i++) {
    char m[24], mm[24];
    snprintf(m, sizeof m, "m%d", i);
    snprintf(mm, sizeof mm, "mm%d", i);
    const char *material = pw_table_text(t, r, pw_table_column(t, m));
    if (!material[0]) continue;
    pw_status status = layer_of(material, pw_table_number(t, r, pw_table_column(t, mm)),
                                (double)i == mix ? share : 0.0,
                                &preset->layers.layer[preset->layers.n_layer], err);
    if (status != PW_OK) return status;
    preset->layers.n_layer++;
  }
  /* Roofs end in plasterboard below the ceiling joists; four columns hold the rest. */
  if (strcmp(pw_table_text(t, r, pw_table_column(t, "part")), "roof") == 0)
    return layer_of("plasterboard", 12.7, 0.0, &preset->layers.layer[preset->layers.n_layer++],
                    err);
  return PW_OK;
}

pw_status pw_preset_find(const char *part, const char *name, int year, pw_preset *preset,
                         pw_err *err)
{
  const pw_table *t = pw_table_find("house_presets");
  int c_part = pw_table_column(t, "part"), c_name = pw_table_column(t, "name");
  int c_from = pw_table_column(t, "year_from"), c_to = pw_table_column(t, "year_to");
  const char *known[PRESETS_MAX];
  char all[300] = "";
  size_t n = 0;
  if (year == 0) year = YEAR_UNKNOWN;
  for (size_t r = 0; t && r < t->n_row && n < PRESETS_MAX; r++) {
    if (strcmp(pw_table_text(t, r, c_part), part) != 0) continue;
    known[n] = pw_table_text(t, r, c_name);
    size_t used = strlen(all);
    snprintf(all + used, sizeof all - used, "%s%s", n ? ", " : "", known[n]);
    if (name[0] ? strcmp(known[n], name) == 0
                : year >= pw_table_number(t, r, c_from) && year <= pw_table_number(t, r, c_to))
      return fill(t, r, preset, err);
    n++;
  }
  const char *near = pw_nearest(name, known, n);
  return pw_fail(err, PW_E_DATA, part, "job.csv: %s '%.40s' is not known%s%s; accepted: %s",
                 part, name, near ? "; did you mean " : "", near ? near : "", all);
}
