#include "out/unit_out.h"

#include <string.h>

#include "base/tape.h"
#include "out/figure.h"
#include "out/json.h"

enum { TAPE = 24 };

int pw_job_has_units(const pw_job *job)
{
  for (size_t i = 0; i < job->n_opening; i++)
    if (job->opening[i].unit[0]) return 1;
  return 0;
}

/* Whether the others of its unit join it. */
static int leads(const pw_job *job, size_t i)
{
  return job->opening[i].unit[0] && job->opening[i].unit_joint == PW_JOINT_BLANK;
}

static const char *joint_word(const pw_opening *o)
{
  return o->unit_joint == PW_JOINT_OVER ? "over" : "beside";
}

size_t pw_unit_headers(int any, const char *header[])
{
  static const char *const more[PW_UNIT_COLUMNS] = {"unit", "unit_joint", "mullion_face_in"};
  if (!any) return 0;
  memcpy(header, more, sizeof more);
  return PW_UNIT_COLUMNS;
}

void pw_unit_cells(int any, const pw_job *job, size_t i, pw_grid *grid)
{
  const pw_opening *o = &job->opening[i];
  char tape[TAPE] = "";
  if (!any) return;
  int joined = o->unit[0] && !leads(job, i);
  if (joined) pw_tape_text(o->mullion_face, 16, tape, sizeof tape);
  pw_grid_cell(grid, "%s", o->unit);
  pw_grid_cell(grid, "%s", joined ? joint_word(o) : "");
  pw_grid_cell(grid, "%s", tape);
}

void pw_unit_words(const pw_tongue *tongue, const pw_job *job, size_t i, int si, char text[],
                   size_t size)
{
  const pw_opening *o = &job->opening[i];
  text[0] = '\0';
  if (!o->unit[0]) return;
  int any = 0;
  size_t n = (size_t)pw_tongue_put(tongue, text, size, "mulled unit %s: with", o->unit);
  for (size_t k = 0; k < job->n_opening && n < size; k++)
    if (k != i && strcmp(job->opening[k].unit, o->unit) == 0)
      n += (size_t)snprintf(text + n, size - n, "%s %s", any++ ? "," : "", job->opening[k].tag);
  if (!any)
    n = (size_t)pw_tongue_put(tongue, text, size, "unit %s: no other opening has it", o->unit);
  if (leads(job, i) || n >= size) return;
  char tape[TAPE];
  pw_tape_text(o->mullion_face, 16, tape, sizeof tape);
  if (si) snprintf(tape, sizeof tape, "%.0f", 1e3 * o->mullion_face);
  const char *form = o->unit_joint == PW_JOINT_OVER ? si ? PW_TEXT("; over them, mullion %s mm")
                                                         : PW_TEXT("; over them, mullion %s in")
                     : si ? PW_TEXT("; beside them, mullion %s mm")
                                                    : PW_TEXT("; beside them, mullion %s in");
  pw_tongue_put(tongue, text + n, size - n, form, tape);
}

void pw_unit_json_add(const pw_job *job, size_t i, json_t *object)
{
  const pw_opening *o = &job->opening[i];
  if (!o->unit[0]) return;
  pw_json_set_text(object, "unit", o->unit);
  if (leads(job, i)) return;
  pw_json_set_text(object, "unit_joint", joint_word(o));
  pw_json_set(object, "mullion_face_m", o->mullion_face);
  pw_json_set(object, "mullion_area_m2", o->mullion_area);
}

static json_t *figures_json(const char *name, const pw_mulled_figures *m)
{
  json_t *o = json_object();
  if (name) pw_json_set_text(o, "package", name);
  pw_json_set(o, "u_w_m2k", m->u);
  pw_json_set(o, "shgc", m->shgc);
  pw_json_set(o, "vt", m->vt);
  return o;
}

json_t *pw_units_json(const pw_compare *c)
{
  if (!pw_job_has_units(c->job)) return NULL;
  json_t *all = json_array();
  for (size_t i = 0; i < c->n_opening; i++) {
    const char *unit = c->job->opening[i].unit;
    if (!leads(c->job, i)) continue;
    json_t *o = json_object(), *tags = json_array(), *packages = json_array();
    pw_mulled_figures m = pw_mulled_of(c, -1, unit);
    pw_json_set_text(o, "unit", unit);
    for (size_t k = 0; k < c->n_opening; k++)
      if (strcmp(c->job->opening[k].unit, unit) == 0)
        json_array_append_new(tags, json_string(c->job->opening[k].tag));
    json_object_set_new(o, "openings", tags);
    json_object_set_new(o, "bay", json_boolean(m.bay));
    pw_json_set(o, "area_m2", m.area);
    pw_json_set(o, "mullion_area_m2", m.mullion);
    json_object_set_new(o, "existing", figures_json(NULL, &m));
    for (size_t p = 0; p < c->n_package; p++) {
      m = pw_mulled_of(c, (int)p, unit);
      json_array_append_new(packages, figures_json(c->rated.package_set[p].name, &m));
    }
    json_object_set_new(o, "packages", packages);
    json_array_append_new(all, o);
  }
  return all;
}

pw_status pw_units_text(const pw_compare *c, const pw_unit_set *units, FILE *f, pw_err *err)
{
  static const char *const header[] = {"<unit",   "<kind", "area", "mullion",
                                       "<window", "U",     "SHGC", "VT"};
  if (!pw_job_has_units(c->job)) return PW_OK;
  pw_grid *g = pw_grid_new(sizeof header / sizeof header[0], header);
  for (size_t i = 0; i < c->n_opening; i++) {
    if (!leads(c->job, i)) continue;
    for (int s = -1; s < (int)c->n_package; s++) {
      pw_mulled_figures m = pw_mulled_of(c, s, c->job->opening[i].unit);
      pw_grid_cell(g, "%s", s < 0 ? c->job->opening[i].unit : "");
      pw_grid_cell(g, "%s", s >= 0 ? "" : m.bay ? "bay or bow" : "mulled");
      for (int k = 0; k < 2; k++)
        if (s < 0)
          pw_figure_cell(g, PW_FIGURE_AREA, units, k ? m.mullion : m.area);
        else
          pw_grid_cell(g, "%s", "");
      pw_grid_cell(g, "%s", s < 0 ? "existing" : c->rated.package_set[s].name);
      pw_figure_cell(g, PW_FIGURE_U, units, m.u);
      pw_figure_cell(g, PW_FIGURE_RATIO, units, m.shgc);
      pw_figure_cell(g, PW_FIGURE_RATIO, units, m.vt);
    }
  }
  fprintf(f, "\nUnits of several openings, each as one window (U in %s, areas in %s)\n",
          units->u, units->area);
  pw_status status = pw_grid_print(g, f, PW_TEXT, err);
  pw_grid_free(g);
  return status;
}
