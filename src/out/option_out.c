#include "out/option_out.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/tape.h"
#include "out/caution_out.h"
#include "out/json.h"
#include "out/wrap.h"
#include "panewright/glazing.h"
#include "window/grille.h"
#include "window/opening_package.h"

enum { WIDE = 100, TAPE = 24 };

int pw_option_any(const pw_opening *o)
{
  const pw_options *p = &o->option;
  if (o->standing == PW_STAYS) return 0;
  return p->tempered || p->pattern[0] || p->tint != PW_TINT_NONE ||
         p->grille.place != PW_GRILLE_NONE || p->pet_panel || p->colour[0] ||
         p->hinge != PW_HINGE_ASK || p->maker_note[0];
}

int pw_option_screened(const pw_opening *o) { return o->screen && o->standing != PW_STAYS; }

static void add(const pw_tongue *tongue, char text[], size_t size, const char *format, ...)
    __attribute__((format(printf, 4, 5)));
static void add(const pw_tongue *tongue, char text[], size_t size, const char *format, ...)
{
  size_t n = strlen(text);
  va_list args;
  if (n + 3 >= size) return;
  if (n) n += (size_t)snprintf(text + n, size - n, ", ");
  va_start(args, format);
  vsnprintf(text + n, size - n, pw_tongue_say(tongue, format), args);
  va_end(args);
}

static void length(double v, int si, char text[TAPE])
{
  char tape[TAPE];
  pw_tape_text(v, 16, tape, sizeof tape);
  if (si)
    snprintf(text, TAPE, "%.0f mm", 1e3 * v);
  else
    snprintf(text, TAPE, "%.20s in", tape);
}

void pw_option_words(const pw_tongue *t, const pw_opening *o, int si, char text[], size_t size)
{
  static const char *const tint[PW_TINT_COUNT] = {"", PW_TEXT("bronze tint"),
                                                  PW_TEXT("gray tint"), PW_TEXT("green tint")};
  static const char *const hinge[PW_HINGE_COUNT] = {"", PW_TEXT("hinge left from outside"),
                                                    PW_TEXT("hinge right from outside"),
                                                    PW_TEXT("hinge top")};
  const pw_options *p = &o->option;
  const pw_grille *g = &p->grille;
  char bar[TAPE];
  text[0] = '\0';
  length(g->bar, si, bar);
  if (g->place != PW_GRILLE_NONE)
    add(t, text, size,
        g->place == PW_GRILLE_BETWEEN
            ? PW_TEXT("grilles between the panes %d x %d each lite (bars %s)")
            : PW_TEXT("grilles outside %d x %d each lite (bars %s)"),
        g->cols, g->rows, bar);
  if (p->tint != PW_TINT_NONE) add(t, text, size, "%s", pw_tongue_say(t, tint[p->tint]));
  if (p->pattern[0]) add(t, text, size, PW_TEXT("pattern %s"), p->pattern);
  if (p->tempered) add(t, text, size, PW_TEXT("tempered"));
  if (p->colour[0]) add(t, text, size, PW_TEXT("colour %s"), p->colour);
  if (p->hinge != PW_HINGE_ASK) add(t, text, size, "%s", pw_tongue_say(t, hinge[p->hinge]));
  if (o->screen) add(t, text, size, PW_TEXT("insect screen"));
  if (p->pet_panel) add(t, text, size, PW_TEXT("pet panel"));
}

int pw_option_used(const pw_job *job)
{
  for (size_t i = 0; i < job->n_opening; i++)
    if (pw_option_any(&job->opening[i]) || pw_option_screened(&job->opening[i])) return 1;
  return 0;
}

int pw_option_has_bars(const pw_job *job)
{
  for (size_t i = 0; i < job->n_opening; i++)
    if (pw_grille_has_bars(&job->opening[i].option.grille)) return 1;
  return 0;
}

size_t pw_option_headers(int any, const char *header[])
{
  static const char *const name[PW_OPTION_HEADERS] = {
      "tempered_asked", "pattern",   "tint",   "grilles", "grille_pattern", "grille_bar_in",
      "screen",         "pet_panel", "colour", "hinge",   "maker_note"};
  if (!any) return 0;
  memcpy(header, name, sizeof name);
  return PW_OPTION_HEADERS;
}

void pw_option_cells(int any, const pw_opening *o, pw_grid *grid)
{
  const pw_options *p = &o->option;
  const pw_grille *g = &p->grille;
  char bar[TAPE] = "", cells[TAPE] = "";
  if (!any) return;
  if (g->place != PW_GRILLE_NONE) {
    pw_tape_text(g->bar, 16, bar, sizeof bar);
    snprintf(cells, sizeof cells, "%dx%d", g->cols, g->rows);
  }
  const char *const cell[PW_OPTION_HEADERS] = {p->tempered ? "yes" : "rule",
                                               p->pattern[0] ? p->pattern : "none",
                                               pw_tint_name(p->tint),
                                               pw_grille_name(g->place),
                                               cells,
                                               bar,
                                               o->screen ? "yes" : "no",
                                               p->pet_panel ? "yes" : "no",
                                               p->colour,
                                               pw_hinge_name(p->hinge),
                                               p->maker_note};
  for (size_t i = 0; i < PW_OPTION_HEADERS; i++)
    pw_grid_cell(grid, "%s", cell[i]);
}

void pw_option_glass(const pw_options *option, const pw_package *package, char text[],
                     size_t size)
{
  if (!pw_options_change_glass(option) ||
      pw_buildup_print(&package->glass, text, size, NULL) != PW_OK)
    snprintf(text, size, "%s", package->glass_text);
}

/* Kinds of panes.csv that cannot be seen through. */
static int is_dim(const pw_buildup *glass)
{
  static const char *const kind[] = {"obscure", "frosted", "laminated_white"};
  for (size_t i = 0; i < glass->n_pane; i++)
    for (size_t k = 0; k < sizeof kind / sizeof kind[0]; k++)
      if (strcmp(glass->pane[i].kind, kind[k]) == 0) return 1;
  return 0;
}

int pw_option_opens_view(const pw_opening *o, const pw_package *package)
{
  return is_dim(&o->existing_glass) && !is_dim(&package->glass);
}

json_t *pw_option_json(const pw_opening *o)
{
  const pw_options *p = &o->option;
  char name[PW_OPTION_NAMES_MAX][PW_OPTION_NAME_MAX];
  size_t n = pw_opening_options(o, name);
  json_t *j = json_object(), *names = json_array();
  for (size_t i = 0; i < n; i++)
    json_array_append_new(names, json_string(name[i]));
  json_object_set_new(j, "names", names);
  pw_json_set_text(j, "tempered", p->tempered ? "yes" : "rule");
  pw_json_set_text(j, "pattern", p->pattern[0] ? p->pattern : "none");
  pw_json_set_text(j, "tint", pw_tint_name(p->tint));
  pw_json_set_text(j, "grilles", pw_grille_name(p->grille.place));
  if (p->grille.place != PW_GRILLE_NONE) {
    json_object_set_new(j, "grille_columns", json_integer(p->grille.cols));
    json_object_set_new(j, "grille_rows", json_integer(p->grille.rows));
    pw_json_set(j, "grille_bar_m", p->grille.bar);
  }
  json_object_set_new(j, "screen", json_boolean(o->screen));
  json_object_set_new(j, "pet_panel", json_boolean(p->pet_panel));
  pw_json_set_text(j, "colour", p->colour);
  if (p->absorptance > 0.0) pw_json_set(j, "colour_absorptance", p->absorptance);
  pw_json_set_text(j, "hinge", pw_hinge_name(p->hinge));
  pw_json_set_text(j, "maker_note", p->maker_note);
  return j;
}

void pw_option_text(const pw_job *job, int si, int maker, FILE *f)
{
  int any = 0;
  for (size_t i = 0; i < job->n_opening; i++) {
    const pw_opening *o = &job->opening[i];
    char lead[PW_TAG_MAX + 16], text[900];
    int note = maker && o->option.maker_note[0];
    if (!pw_option_any(o)) continue;
    pw_option_words(NULL, o, si, text, 400);
    if (o->option.pet_panel)
      add(NULL, text, sizeof text, "its area is not taken off the glass");
    if (note) add(NULL, text, sizeof text, "note to the maker: %s", o->option.maker_note);
    if (!text[0]) continue;
    if (!any++) fputs("\nOver the package\n", f);
    pw_tag_lead(lead, sizeof lead, "  ", o->tag, 8);
    pw_wrap(f, lead, text, WIDE);
  }
}

/* The bars of one opening with one package. */
static pw_status bars(const pw_compare *c, size_t p, size_t i, const pw_unit_set *units,
                      FILE *f, pw_err *err)
{
  const pw_rating *r = &c->rated.package[p][i].rating;
  const pw_fit *fit = &c->fitted.fit[p][i];
  const pw_glazing *glass = pw_compare_glass(c->job, &c->fitted, (int)p, i);
  const pw_grille *g = &fit->grille;
  pw_grille_heat h;
  if (!(r->bars_area > 0.0)) return PW_OK;
  /* net and absorptance change the sun alone, which is not told here */
  pw_status s = pw_grille_heat_of(&glass->unit, 1.0, g, 0.3, PW_EDGE_BAND, &h, err);
  if (s != PW_OK) return s;
  char lead[PW_TAG_MAX + 16], text[400];
  pw_tag_lead(lead, sizeof lead, "  ", c->job->opening[i].tag, 8);
  snprintf(text, sizeof text,
           "%.40s: bars %s, %.2f %s = %.1f %% of the glass's light and sun; U of the bars %.2f "
           "(%.2f .. %.2f by their "
           "depth), of the band beside them %.2f, of the glass %.2f %s",
           c->rated.package_set[p].name, pw_grille_name(g->place),
           pw_show_area(units, r->bars_area), units->area,
           100.0 * r->bars_area / (r->bars_area + r->glass_area), pw_show_u(units, h.u_bar),
           pw_show_u(units, h.u_bar_range[0]), pw_show_u(units, h.u_bar_range[1]),
           pw_show_u(units, h.u_edge), pw_show_u(units, glass->u_winter), units->u);
  pw_wrap(f, lead, text, WIDE);
  return PW_OK;
}

/* What is taken for patterns and colours, with its range. */
static void taken(const pw_job *job, FILE *f)
{
  int any = 0;
  for (size_t i = 0; i < job->n_opening; i++) {
    const pw_options *p = &job->opening[i].option;
    char lead[PW_TAG_MAX + 16], text[300] = "";
    double low = 0.0, high = 0.0;
    if (!pw_option_any(&job->opening[i])) continue;
    if (p->pattern[0])
      add(NULL, text, sizeof text,
          "pattern %s: light and sun of figured glass, %.2f either way (assumed)", p->pattern,
          pw_pattern_spread(p->pattern));
    if (p->absorptance > 0.0 && pw_colour_absorptance(p->colour, &low, &high) > 0.0)
      add(NULL, text, sizeof text, "colour %s: absorptance %.2f, %.2f .. %.2f (from memory)",
          p->colour, p->absorptance, low, high);
    if (!text[0]) continue;
    if (!any++) fputs("\nPatterns and colours\n", f);
    pw_tag_lead(lead, sizeof lead, "  ", job->opening[i].tag, 8);
    pw_wrap(f, lead, text, WIDE);
  }
}

pw_status pw_option_explain(const pw_compare *c, const pw_unit_set *units, FILE *f, pw_err *err)
{
  pw_status s = PW_OK;
  taken(c->job, f);
  if (!pw_option_has_bars(c->job)) return PW_OK;
  fputs("\nGlazing bars\n", f);
  pw_wrap(
      f, "  ",
      "Areas and bands of 63.5 mm (2.5 in) as NFRC 100 and ISO 15099 count dividers (clauses "
      "from memory). "
      "Heat between the panes: metal of one temperature in the outer gap, the panes as two "
      "fins, within 8 % of "
      "what an own drawn bar adds; usual depth 1/4 in (3/16 .. 3/8), common practice. EN "
      "14351-1 "
      "table J.1 (from memory) would add at most 0.1 W/(m2 K) for one cross and 0.2 for more. "
      "A bar is never credited; bars outside leave the heat as it is.",
      WIDE);
  for (size_t i = 0; s == PW_OK && i < c->n_opening; i++)
    for (size_t p = 0; s == PW_OK && p < c->n_package; p++)
      s = bars(c, p, i, units, f, err);
  return s;
}
