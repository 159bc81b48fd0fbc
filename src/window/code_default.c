#include "panewright/code_default.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "panewright/table.h"
#include "panewright/units.h"

static const struct {
  const char *name, *programme;
} codes[PW_CODE_COUNT] = {
    [PW_CODE_IECC] = {"IECC default", "IECC default (unlabelled product)"},
    [PW_CODE_CALIFORNIA] = {"California default", "California default (uncertified product)"},
};

/* Body-tinted glass by the names of a build-up (glazing.h). */
static int tinted_pane(const pw_buildup_pane *pane)
{
  static const char *const tint[] = {"bronze", "gray", "green"};
  for (size_t i = 0; i < sizeof tint / sizeof tint[0]; i++)
    if (strcmp(pane->kind, tint[i]) == 0) return 1;
  return 0;
}

pw_status pw_code_default_of(pw_code code, const pw_opening *o, pw_code_values *values,
                             pw_err *err)
{
  int tinted = 0;
  for (size_t i = 0; i < o->existing_glass.n_pane; i++)
    tinted |= tinted_pane(&o->existing_glass.pane[i]);
  return pw_code_default(code, o->existing_frame, o->operator_existing,
                         o->existing_glass.n_pane, tinted, values, err);
}

const char *pw_code_name(pw_code code)
{
  return (unsigned)code < PW_CODE_COUNT ? codes[code].name : "unknown";
}

/* The row whose condition reads exactly so. */
static double find(const char *programme, const char *metric, const char *condition,
                   const char **source)
{
  const pw_table *t = pw_table_find("trade/criteria");
  if (!t) return NAN;
  int c_programme = pw_table_column(t, "programme"), c_metric = pw_table_column(t, "metric"),
      c_condition = pw_table_column(t, "condition"), c_value = pw_table_column(t, "value");
  for (size_t i = 0; i < t->n_row; i++)
    if (strcmp(pw_table_text(t, i, c_programme), programme) == 0 &&
        strcmp(pw_table_text(t, i, c_metric), metric) == 0 &&
        strcmp(pw_table_text(t, i, c_condition), condition) == 0) {
      *source = pw_table_text(t, i, pw_table_column(t, "source"));
      return pw_table_number(t, i, c_value);
    }
  return NAN;
}

static void iecc(pw_frame_kind kind, size_t n_pane, int tinted, pw_code_values *v)
{
  static const char *const frame[PW_FRAME_KIND_COUNT] = {
      "metal", "metal with thermal break", "nonmetal or metal clad", "nonmetal or metal clad",
      "nonmetal or metal clad"};
  const char *programme = codes[PW_CODE_IECC].programme, *ignored = NULL;
  char condition[96];
  snprintf(condition, sizeof condition, "%s; %s pane window/door", frame[kind],
           n_pane == 1 ? "single" : "double");
  v->u = find(programme, "U", condition, &v->source_u);
  snprintf(condition, sizeof condition, "%s glazed %s", n_pane == 1 ? "single" : "double",
           tinted ? "tinted" : "clear");
  v->shgc = find(programme, "SHGC", condition, &v->source_shgc);
  v->vt = find(programme, "VT", condition, &ignored);
}

static void california(pw_frame_kind kind, pw_operator operator_, size_t n_pane, int tinted,
                       pw_code_values *v)
{
  static const char *const frame[PW_FRAME_KIND_COUNT] = {"metal", "metal thermal break",
                                                         "nonmetal", "nonmetal", "nonmetal"};
  const char *programme = codes[PW_CODE_CALIFORNIA].programme;
  const char *product = operator_ == PW_FIXED ? "fixed" : "operable";
  const char *panes = n_pane == 1 ? "single" : "double";
  char condition[96];
  int metal_door = operator_ == PW_SLIDING_DOOR && kind == PW_FRAME_ALUMINIUM;
  snprintf(condition, sizeof condition, "%s %s %s pane", frame[kind],
           metal_door ? "doors" : product, panes);
  v->u = find(programme, "U", condition, &v->source_u);
  snprintf(condition, sizeof condition, "%s %s %s %s pane", frame[kind], product,
           tinted ? "tinted" : "clear", panes);
  v->shgc = find(programme, "SHGC", condition, &v->source_shgc);
}

pw_status pw_code_default(pw_code code, pw_frame_kind kind, pw_operator operator_,
                          size_t n_pane, int tinted, pw_code_values *values, pw_err *err)
{
  if (!((unsigned)code < PW_CODE_COUNT))
    return pw_fail(err, PW_E_DOMAIN, "code", "code %d, want 0 to %d", (int)code,
                   PW_CODE_COUNT - 1);
  if (!((unsigned)kind < PW_FRAME_KIND_COUNT))
    return pw_fail(err, PW_E_DOMAIN, "kind", "frame kind %d, want 0 to %d", (int)kind,
                   PW_FRAME_KIND_COUNT - 1);
  if (n_pane < 1) return pw_fail(err, PW_E_DOMAIN, "n_pane", "no pane, want 1 or more");
  pw_code_values v = {NAN, NAN, NAN, NULL, NULL};
  if (code == PW_CODE_IECC)
    iecc(kind, n_pane, tinted, &v);
  else
    california(kind, operator_, n_pane, tinted, &v);
  if (isfinite(v.u)) v.u *= PW_U_IP;
  *values = v;
  return PW_OK;
}
