#include "window/options.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "gen/reference.h"
#include "window/grille.h"

static const double same_thickness = 1e-6; /* m */

const char *pw_tint_name(pw_tint tint)
{
  static const char *const name[PW_TINT_COUNT] = {"none", "bronze", "gray", "green"};
  return (unsigned)tint < PW_TINT_COUNT ? name[tint] : name[0];
}

const char *pw_grille_name(pw_grille_place place)
{
  static const char *const name[PW_GRILLE_COUNT] = {"none", "between", "outside"};
  return (unsigned)place < PW_GRILLE_COUNT ? name[place] : name[0];
}

const char *pw_hinge_name(pw_hinge hinge)
{
  static const char *const name[PW_HINGE_COUNT] = {"", "left", "right", "top"};
  return (unsigned)hinge < PW_HINGE_COUNT ? name[hinge] : name[0];
}

size_t pw_opening_options(const pw_opening *o,
                          char name[PW_OPTION_NAMES_MAX][PW_OPTION_NAME_MAX])
{
  const pw_options *p = &o->option;
  size_t n = 0;
  if (p->grille.place != PW_GRILLE_NONE)
    snprintf(name[n++], PW_OPTION_NAME_MAX, "grilles_%s", pw_grille_name(p->grille.place));
  if (p->tempered) snprintf(name[n++], PW_OPTION_NAME_MAX, "tempered");
  if (p->pattern[0]) snprintf(name[n++], PW_OPTION_NAME_MAX, "obscure");
  if (p->tint != PW_TINT_NONE)
    snprintf(name[n++], PW_OPTION_NAME_MAX, "tint_%s", pw_tint_name(p->tint));
  if (o->screen) snprintf(name[n++], PW_OPTION_NAME_MAX, "screen");
  if (p->pet_panel) snprintf(name[n++], PW_OPTION_NAME_MAX, "pet_panel");
  if (p->colour[0]) {
    char colour[PW_NAME_MAX];
    pw_text_plain(p->colour, colour, sizeof colour);
    snprintf(name[n++], PW_OPTION_NAME_MAX, "colour_%s", colour);
  }
  return n;
}

double pw_colour_absorptance(const char *name, double *low, double *high)
{
  char colour[PW_NAME_MAX];
  pw_text_plain(name, colour, sizeof colour);
  for (size_t i = 0; i < pw_ref_options_colours__n; i++) {
    const pw_ref_options_colours_row *row = &pw_ref_options_colours[i];
    if (strcmp(row->name, colour) != 0) continue;
    if (low) *low = row->low;
    if (high) *high = row->high;
    return row->absorptance;
  }
  return 0.0;
}

/* ---- the glass ---- */

/* One sheet by optical constants: any thickness, takes coatings and has tinted kin. */
static int is_float(const char *kind)
{
  for (size_t i = 0; i < pw_ref_panes__n; i++)
    if (strcmp(pw_ref_panes[i].id, kind) == 0)
      return pw_ref_panes[i].nk[0] && !(pw_ref_panes[i].interlayer_mm > 0.0);
  return kind[0] == '\0'; /* clear */
}

static int known_at(const char *kind, double thickness)
{
  for (size_t i = 0; i < pw_ref_panes__n; i++)
    if (strcmp(pw_ref_panes[i].id, kind) == 0 &&
        fabs(pw_ref_panes[i].thickness_mm * 1e-3 - thickness) < same_thickness)
      return 1;
  return 0;
}

static int is_plain(const pw_buildup_pane *p)
{
  return is_float(p->kind) && !p->coating[0][0] && !p->coating[1][0] && !(p->emit[0] > 0.0) &&
         !(p->emit[1] > 0.0);
}

/* The rest of the name is blanked: build-ups are compared byte by byte. */
static void set_kind(pw_buildup_pane *pane, const char *kind)
{
  memset(pane->kind, 0, sizeof pane->kind);
  memcpy(pane->kind, kind, strlen(kind));
}

static pw_status put_tint(pw_tint tint, pw_buildup *glass, pw_err *err)
{
  pw_buildup_pane *pane = &glass->pane[0];
  if (tint == PW_TINT_NONE) return PW_OK;
  if (!is_float(pane->kind))
    return pw_fail(
        err, PW_E_DATA, "tint",
        "%s: the outer pane is %s, which has no tinted kin here; a single sheet of clear "
        "glass has, or name the whole glass in packages.csv",
        pw_tint_name(tint), pane->kind);
  set_kind(pane, pw_tint_name(tint));
  return PW_OK;
}

/* The pane of panes.csv that has the light of a pattern. */
static const char *pane_of(const char *pattern)
{
  char name[PW_NAME_MAX];
  pw_text_plain(pattern, name, sizeof name);
  for (size_t i = 0; i < pw_ref_options_patterns__n; i++)
    if (strcmp(pw_ref_options_patterns[i].name, name) == 0)
      return pw_ref_options_patterns[i].pane;
  return "obscure";
}

double pw_pattern_spread(const char *pattern)
{
  char name[PW_NAME_MAX];
  double widest = 0.0;
  pw_text_plain(pattern, name, sizeof name);
  for (size_t i = 0; i < pw_ref_options_patterns__n; i++) {
    const pw_ref_options_patterns_row *row = &pw_ref_options_patterns[i];
    if (strcmp(row->name, name) == 0) return row->light_spread;
    widest = fmax(widest, row->light_spread);
  }
  return widest;
}

static pw_status put_pattern(const pw_options *option, pw_buildup *glass, pw_err *err)
{
  const char *kind = pane_of(option->pattern);
  size_t least = option->tint != PW_TINT_NONE;
  if (!option->pattern[0]) return PW_OK;
  for (size_t i = glass->n_pane; i > least; i--) {
    pw_buildup_pane *pane = &glass->pane[i - 1];
    if (strcmp(pane->kind, kind) == 0) return PW_OK; /* the package has it */
    if (!is_plain(pane) || !known_at(kind, pane->thickness)) continue;
    set_kind(pane, kind);
    return PW_OK;
  }
  return pw_fail(
      err, PW_E_DATA, "pattern",
      "%s: no pane of the glass is free for it; want a clear pane of 3, 4 or 6 mm without a "
      "coating%s (or name the whole glass in packages.csv)",
      option->pattern, least ? ", other than the tinted one" : "");
}

pw_status pw_options_glass(const pw_options *option, pw_buildup *glass, pw_err *err)
{
  pw_buildup made = *glass;
  pw_status status = put_tint(option->tint, &made, err);
  if (status == PW_OK) status = put_pattern(option, &made, err);
  if (status == PW_OK) *glass = made;
  return status;
}

int pw_options_change_glass(const pw_options *option)
{
  return option->tint != PW_TINT_NONE || option->pattern[0] != '\0';
}

pw_status pw_options_suit(const pw_options *option, const pw_buildup *glass, pw_err *err)
{
  pw_buildup made = *glass;
  if (option->grille.place == PW_GRILLE_BETWEEN &&
      !(glass->n_pane > 1 && glass->gap[0].thickness >= PW_GRILLE_GAP))
    return pw_fail(
        err, PW_E_DATA, "grilles",
        "between: the glass has no outer gap of at least 6 mm; want none or outside");
  return pw_options_glass(option, &made, err);
}
