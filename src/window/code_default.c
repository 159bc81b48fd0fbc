#include "window/code_default.h"

#include <math.h>
#include <string.h>

#include "gen/reference.h"
#include "panewright/lites.h"
#include "panewright/units.h"

static const char *const code_name[PW_CODE_COUNT] = {
    [PW_CODE_IECC] = "IECC default", [PW_CODE_CALIFORNIA] = "California default"};

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
  return (unsigned)code < PW_CODE_COUNT ? code_name[code] : "unknown";
}

/* Frames as the code tables group them. */
typedef enum frame_group { METAL, BREAK, OTHER, N_GROUP } frame_group;

static frame_group group_of(pw_frame_kind kind)
{
  return kind == PW_FRAME_ALUMINIUM || kind == PW_FRAME_STEEL ? METAL
         : kind == PW_FRAME_ALUMINIUM_BREAK                   ? BREAK
                                                              : OTHER;
}

/* Rows of reference/trade/criteria.csv by their ids; one that is not there ends the build. */
#define IECC(id) pw_ref_trade_criteria__iecc_default_##id
#define CALIFORNIA(id) pw_ref_trade_criteria__california_default_##id
enum { NO_ROW = -1 };

static double value_of(int row, const char **source)
{
  if (row == NO_ROW) return (double)NAN;
  if (source) *source = pw_ref_trade_criteria[row].source;
  return pw_ref_trade_criteria[row].value;
}

/* [double glazed][...] */
static void iecc(frame_group frame, int many, int tinted, pw_code_values *v)
{
  static const int u[2][N_GROUP] = {
      {IECC(U_metal_single), IECC(U_break_single), IECC(U_other_single)},
      {IECC(U_metal_double), IECC(U_break_double), IECC(U_other_double)}};
  static const int shgc[2][2] = {{IECC(SHGC_single_clear), IECC(SHGC_single_tinted)},
                                 {IECC(SHGC_double_clear), IECC(SHGC_double_tinted)}};
  static const int vt[2][2] = {{IECC(VT_single_clear), IECC(VT_single_tinted)},
                               {IECC(VT_double_clear), IECC(VT_double_tinted)}};
  v->u = value_of(u[many][frame], &v->source_u);
  v->shgc = value_of(shgc[many][tinted], &v->source_shgc);
  v->vt = value_of(vt[many][tinted], NULL);
}

/* [double glazed][operable][frame]; the table has no row for thermally broken single or tinted. */
static void california(pw_frame_kind kind, pw_operator operator_, int many, int tinted,
                       pw_code_values *v)
{
  static const int u[2][2][N_GROUP] = {
      {{CALIFORNIA(U_metal_fixed_single), NO_ROW, CALIFORNIA(U_other_fixed_single)},
       {CALIFORNIA(U_metal_operable_single), NO_ROW, CALIFORNIA(U_other_operable_single)}},
      {{CALIFORNIA(U_metal_fixed_double), CALIFORNIA(U_break_fixed_double),
        CALIFORNIA(U_other_fixed_double)},
       {CALIFORNIA(U_metal_operable_double), CALIFORNIA(U_break_operable_double),
        CALIFORNIA(U_other_operable_double)}}};
  static const int clear[2][2][N_GROUP] = {
      {{CALIFORNIA(SHGC_metal_fixed_clear_single), NO_ROW,
        CALIFORNIA(SHGC_other_fixed_clear_single)},
       {CALIFORNIA(SHGC_metal_operable_clear_single), NO_ROW,
        CALIFORNIA(SHGC_other_operable_clear_single)}},
      {{CALIFORNIA(SHGC_metal_fixed_clear_double), CALIFORNIA(SHGC_break_fixed_clear_double),
        CALIFORNIA(SHGC_other_fixed_clear_double)},
       {CALIFORNIA(SHGC_metal_operable_clear_double),
        CALIFORNIA(SHGC_break_operable_clear_double),
        CALIFORNIA(SHGC_other_operable_clear_double)}}};
  static const int tint[2][2][N_GROUP] = {
      {{CALIFORNIA(SHGC_metal_fixed_tinted_single), NO_ROW,
        CALIFORNIA(SHGC_other_fixed_tinted_single)},
       {CALIFORNIA(SHGC_metal_operable_tinted_single), NO_ROW,
        CALIFORNIA(SHGC_other_operable_tinted_single)}},
      {{CALIFORNIA(SHGC_metal_fixed_tinted_double), NO_ROW,
        CALIFORNIA(SHGC_other_fixed_tinted_double)},
       {CALIFORNIA(SHGC_metal_operable_tinted_double), NO_ROW,
        CALIFORNIA(SHGC_other_operable_tinted_double)}}};
  static const int door[2] = {CALIFORNIA(U_metal_doors_single),
                              CALIFORNIA(U_metal_doors_double)};
  int opens = operator_ != PW_FIXED;
  frame_group frame = group_of(kind);
  int metal_door = pw_operator_is_door(operator_) && frame == METAL;
  v->u = value_of(metal_door ? door[many] : u[many][opens][frame], &v->source_u);
  v->shgc =
      value_of(tinted ? tint[many][opens][frame] : clear[many][opens][frame], &v->source_shgc);
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
    iecc(group_of(kind), n_pane > 1, tinted != 0, &v);
  else
    california(kind, operator_, n_pane > 1, tinted != 0, &v);
  if (isfinite(v.u)) v.u *= PW_U_IP;
  *values = v;
  return PW_OK;
}
