/* Existing windows, new windows, sizes, areas by orientation. */
#include <math.h>
#include <string.h>

#include "base/tape.h"
#include "out/section_said.h"
#include "out/shape_out.h"
#include "out/sheet_impl.h"
#include "out/worksheet_impl.h"
#include "panewright/units.h"
#include "window/code_default.h"
#include "window/opening_label.h"
#include "window/opening_package.h"

static const char OLD[] = PW_TEXT("Existing windows"),
                  NEW_LABEL[] = PW_TEXT("New windows, by the certified label"),
                  NEW_COMPUTED[] =
                      PW_TEXT("New windows, computed as installed (not for the form)"),
                  SIZE[] = PW_TEXT("Sizes"), SIDE[] = PW_TEXT("Area by orientation"),
                  CHANGE[] = PW_TEXT("Change of area");

static const char *const octant[8] = {"N", "NE", "E", "SE", "S", "SW", "W", "NW"};

static int octant_of(double facing_deg)
{
  int o = (int)lround(facing_deg / 45.0) % 8;
  return o < 0 ? o + 8 : o;
}

/* A figure of one window, of the set there now (below 0) or a package. */
static void window_figure(const pw_compare *c, int set, size_t i, pw_window_result result,
                          const char *name, pw_worksheet *w)
{
  const pw_window_form *form = pw_window_result_of(result);
  char key[48];
  sheet_window_key(set, i, key);
  worksheet_figure(w, set < 0 ? OLD : NEW_COMPUTED, c->job->opening[i].tag, name, form->kind,
                   pw_window_value(result, pw_compare_window_of(&c->rated, set, i), NULL),
                   "%s.%s", key, form->key);
}

/* Of all of them. */
static void glass_figure(const pw_compare *c, int set, const char *name, pw_worksheet *w)
{
  const pw_result_form *form = pw_result_of(PW_RESULT_GLASS_AREA);
  char key[32];
  sheet_set_key(set, key);
  worksheet_figure(w, CHANGE, "", name, form->kind,
                   pw_result_value(PW_RESULT_GLASS_AREA, pw_compare_set_of(c, set)), "%s.%s",
                   key, form->key);
}

/* ---------------------------------------------------------------- existing */

static void code_fields(const pw_opening *o, pw_code code, size_t i, pw_worksheet *w)
{
  pw_code_values v;
  char name[64];
  pw_status status = pw_code_default_of(code, o, &v, NULL);
  int keyed = code == PW_CODE_IECC; /* the JSON holds this one */
  for (int sun = 0; sun < 2; sun++) {
    double value = status != PW_OK ? (double)NAN : sun ? v.shgc : v.u;
    const pw_window_form *form = pw_window_result_of(sun ? PW_WINDOW_SHGC : PW_WINDOW_U);
    snprintf(name, sizeof name, "%s, %s", sun ? "SHGC" : "U",
             pw_tongue_say(w->tongue, pw_code_name(code)));
    if (keyed && status == PW_OK && isfinite(value)) {
      worksheet_figure(w, OLD, o->tag, name, form->kind, value,
                       "openings.%zu.existing.code_default.%s", i, form->key);
    } else {
      char text[32];
      pw_figure_text(form->kind, pw_units(0), value, text);
      worksheet_add(w, OLD, o->tag, name, PW_FIELD_COMPUTED, "", "%s", text);
    }
  }
}

/* The usual gate of programs: single pane in any frame, or double pane in metal. */
static const char *gate(const pw_opening *o)
{
  int metal = o->existing_frame == PW_FRAME_ALUMINIUM ||
              o->existing_frame == PW_FRAME_ALUMINIUM_BREAK ||
              o->existing_frame == PW_FRAME_STEEL;
  if (o->existing_glass.n_pane == 1) return PW_TEXT("yes, single pane");
  return o->existing_glass.n_pane == 2 && metal ? PW_TEXT("yes, double pane in metal")
                                                : PW_TEXT("no");
}

static void existing(const pw_compare *c, size_t i, pw_worksheet *w)
{
  static const char *const frame[PW_FRAME_KIND_COUNT] = {
      PW_TEXT("aluminium"), PW_TEXT("aluminium, broken"), PW_TEXT("wood"),
      PW_TEXT("vinyl"),     PW_TEXT("fibreglass"),        PW_TEXT("steel")};
  const pw_opening *o = &c->job->opening[i];
  worksheet_add(w, OLD, o->tag, PW_TEXT("room"), PW_FIELD_TYPED, "", "%s", o->room);
  worksheet_add(w, OLD, o->tag, PW_TEXT("faces"), PW_FIELD_TYPED, "", "%s",
                octant[octant_of(o->facing_deg)]);
  worksheet_add(w, OLD, o->tag, PW_TEXT("count"), PW_FIELD_TYPED, "", "%d", o->quantity);
  worksheet_add(w, OLD, o->tag, PW_TEXT("panes"), PW_FIELD_TYPED, "", "%zu",
                o->existing_glass.n_pane);
  worksheet_add(w, OLD, o->tag, PW_TEXT("frame"), PW_FIELD_TYPED, "", "%s",
                frame[o->existing_frame]);
  window_figure(c, PW_SET_EXISTING, i, PW_WINDOW_U, PW_TEXT("U, calculated"), w);
  window_figure(c, PW_SET_EXISTING, i, PW_WINDOW_SHGC, PW_TEXT("SHGC, calculated"), w);
  code_fields(o, PW_CODE_IECC, i, w);
  if (strcmp(c->job->house.state, "CA") == 0) code_fields(o, PW_CODE_CALIFORNIA, i, w);
  worksheet_add(w, OLD, o->tag, PW_TEXT("single pane, or double in metal"), PW_FIELD_COMPUTED,
                "", "%s", gate(o));
  worksheet_add(w, OLD, o->tag, PW_TEXT("storm"), PW_FIELD_TYPED, "", "%s", "");
  worksheet_add(w, OLD, o->tag, PW_TEXT("room conditioned"), PW_FIELD_TYPED, "", "%s",
                o->unconditioned ? PW_TEXT("no") : PW_TEXT("yes"));
  worksheet_add(w, OLD, o->tag, PW_TEXT("photo no."), PW_FIELD_DOCUMENT, "", "%s", "");
}

/* ---------------------------------------------------------------- new */

/* A label value as the label prints it; blank without one. */
static void label_field(pw_worksheet *w, const char *mark, const char *name, pw_figure kind,
                        double value)
{
  char text[32] = "";
  if (isfinite(value)) pw_figure_text(kind, pw_units(0), value, text);
  worksheet_add(w, NEW_LABEL, mark, name, PW_FIELD_LABEL, "", "%s", text);
}

static void by_label(const pw_worksheet_input *input, size_t i, pw_worksheet *w)
{
  const pw_opening *o = &input->compare->job->opening[i];
  const pw_job *job = input->compare->job;
  pw_label_row k;
  if (pw_opening_label(job, input->package, o, &k, NULL) != PW_OK) return;
  worksheet_add(w, NEW_LABEL, o->tag, PW_TEXT("operator"), PW_FIELD_TYPED, "", "%s",
                pw_operator_name(o->operator_insert));
  worksheet_add(w, NEW_LABEL, o->tag, PW_TEXT("count"), PW_FIELD_TYPED, "", "%d", o->quantity);
  if (job->n_label > 0 && k.line == 0)
    worksheet_add(w, NEW_LABEL, o->tag, PW_TEXT("label of its kind"), PW_FIELD_TYPED, "", "%s",
                  pw_label_is_known(&k) ? PW_TEXT("none; the label of the package stands here")
                                        : PW_TEXT("none: the label is missing"));
  worksheet_add(w, NEW_LABEL, o->tag, PW_TEXT("maker"), PW_FIELD_LABEL, "", "%s",
                job->house.maker);
  worksheet_add(w, NEW_LABEL, o->tag, PW_TEXT("product line, model"), PW_FIELD_LABEL, "", "%s",
                job->house.model);
  worksheet_add(w, NEW_LABEL, o->tag, PW_TEXT("certificate (CPD) no."), PW_FIELD_LABEL, "",
                "%s", k.certificate);
  label_field(w, o->tag, PW_TEXT("U-factor"), PW_FIGURE_U, k.u.value);
  label_field(w, o->tag, "SHGC", PW_FIGURE_RATIO, k.shgc.value);
  label_field(w, o->tag, "VT", PW_FIGURE_RATIO, k.vt.value);
  char leak[32] = "";
  if (isfinite(k.air_leakage.value))
    snprintf(leak, sizeof leak, "%.1f", k.air_leakage.value / (PW_FOOT / 60.0));
  worksheet_add(w, NEW_LABEL, o->tag, PW_TEXT("air leakage, cfm/ft2"), PW_FIELD_LABEL, "", "%s",
                leak);
  worksheet_add(w, NEW_LABEL, o->tag, PW_TEXT("condensation rating"), PW_FIELD_LABEL, "", "%s",
                "");
}

static void as_installed(const pw_worksheet_input *input, size_t i, pw_worksheet *w)
{
  static const struct {
    pw_window_result result;
    const char *name;
  } told[] = {{PW_WINDOW_U, "U"}, {PW_WINDOW_SHGC, "SHGC"}, {PW_WINDOW_VT, "VT"}};
  for (size_t k = 0; k < sizeof told / sizeof told[0]; k++)
    window_figure(input->compare, (int)input->package, i, told[k].result, told[k].name, w);
}

/* What the solver says of drawn sections: a value that is not the drawing's must not pass for it. */
static void said_of_sections(const pw_compare *c, pw_worksheet *w)
{
  char line[PW_TEXT_MAX];
  if (pw_section_said(c, 1, line))
    worksheet_add(
        w, NEW_COMPUTED, "", PW_TEXT("drawn frame"), PW_FIELD_COMPUTED, "", "%s",
        PW_TEXT("wider or narrower than the frame line: the heat of the whole opening "
                "is kept, glass for frame"));
}

/* ---------------------------------------------------------------- sizes */

static void sizes(const pw_worksheet_input *input, size_t i, pw_worksheet *w)
{
  const pw_opening *o = &input->compare->job->opening[i];
  const pw_fit *fit = &input->compare->fitted.fit[input->package][i];
  const struct {
    const char *name;
    double length;
  } side[] = {{PW_TEXT("unit width, in"), fit->order_width},
              {PW_TEXT("unit height, in"), fit->order_height},
              {PW_TEXT("opening width, in"), fit->opening_width},
              {PW_TEXT("opening height, in"), fit->opening_height}};
  for (size_t k = 0; k < sizeof side / sizeof side[0]; k++) {
    char text[32];
    pw_tape_text(side[k].length, 16, text, sizeof text);
    worksheet_add(w, SIZE, o->tag, side[k].name, PW_FIELD_COMPUTED, "", "%s", text);
  }
  if (o->shape != PW_SHAPE_RECTANGLE) {
    char text[240];
    pw_shape_words(w->tongue, fit, 0, text, sizeof text);
    worksheet_add(w, SIZE, o->tag, PW_TEXT("shape"), PW_FIELD_COMPUTED, "", "%s", text);
  }
  worksheet_add(w, SIZE, o->tag, PW_TEXT("count"), PW_FIELD_COMPUTED, "", "%d", o->quantity);
  worksheet_add(w, SIZE, o->tag, PW_TEXT("unit area each, ft2"), PW_FIELD_COMPUTED, "", "%.2f",
                fit->order_area / PW_FOOT2);
  worksheet_add(w, SIZE, o->tag, PW_TEXT("opening area each, ft2"), PW_FIELD_COMPUTED, "",
                "%.2f", fit->opening_area / PW_FOOT2);
}

static void orientation(const pw_worksheet_input *input, pw_worksheet *w)
{
  const pw_compare *c = input->compare;
  for (int side = 0; side <= 8; side++) { /* the last is the sum */
    const char *mark = side < 8 ? octant[side] : pw_tongue_say(w->tongue, PW_TEXT("all"));
    double unit = 0.0, opening = 0.0;
    int count = 0;
    for (size_t i = 0; i < c->n_opening; i++) {
      const pw_opening *o = &c->job->opening[i];
      const pw_fit *fit = &c->fitted.fit[input->package][i];
      if (!w->only[i] || (side < 8 && octant_of(o->facing_deg) != side)) continue;
      count += o->quantity;
      unit += o->quantity * fit->order_area;
      opening += o->quantity * fit->opening_area;
    }
    worksheet_add(w, SIDE, mark, PW_TEXT("count"), PW_FIELD_COMPUTED, "", "%d", count);
    worksheet_add(w, SIDE, mark, PW_TEXT("unit area, ft2"), PW_FIELD_COMPUTED, "", "%.1f",
                  unit / PW_FOOT2);
    worksheet_add(w, SIDE, mark, PW_TEXT("opening area, ft2"), PW_FIELD_COMPUTED, "", "%.1f",
                  opening / PW_FOOT2);
  }
}

static void change(const pw_worksheet_input *input, pw_worksheet *w)
{
  const pw_compare *c = input->compare;
  int grows = 0;
  for (size_t i = 0; i < c->n_opening; i++) {
    const pw_fit *fit = &c->fitted.fit[input->package][i];
    if (!w->only[i]) continue;
    if (fit->insert.glass_area > fit->existing.glass_area ||
        fit->order_area > fit->opening_area)
      grows = 1;
  }
  glass_figure(c, PW_SET_EXISTING, PW_TEXT("glass there now, ft2"), w);
  glass_figure(c, (int)input->package, PW_TEXT("glass of the new windows, ft2"), w);
  worksheet_add(w, CHANGE, "", PW_TEXT("does any window grow?"), PW_FIELD_COMPUTED,
                PW_TEXT("some programs do not allow it"), "%s",
                grows ? PW_TEXT("yes") : PW_TEXT("no"));
}

/* Windows of the house that the claim does not count, and why. */
static void left_out(const pw_worksheet_input *input, pw_worksheet *w)
{
  for (size_t i = 0; i < input->compare->n_opening; i++) {
    const pw_opening *o = &input->compare->job->opening[i];
    if (w->only[i]) continue;
    const char *why = o->standing == PW_DONE    ? PW_TEXT("replaced in an earlier phase")
                      : o->standing == PW_LATER ? PW_TEXT("replaced in a later phase")
                      : o->standing == PW_STAYS ? PW_TEXT("the old window stays")
                      : w->conditioned && o->unconditioned
                          ? PW_TEXT("its room is neither heated nor cooled")
                          : PW_TEXT("no label of its own package or glass "
                                    "meets the program");
    worksheet_add(w, PW_TEXT("Windows that are not in this claim"), o->tag, PW_TEXT("why"),
                  PW_FIELD_COMPUTED, "", "%s", why);
  }
}

void worksheet_windows(const pw_worksheet_input *input, pw_worksheet *w)
{
  size_t n = input->compare->n_opening;
  for (size_t i = 0; i < n; i++)
    if (w->only[i]) existing(input->compare, i, w);
  for (size_t i = 0; i < n; i++)
    if (w->only[i]) by_label(input, i, w);
  for (size_t i = 0; i < n; i++)
    if (w->only[i]) as_installed(input, i, w);
  said_of_sections(input->compare, w);
  for (size_t i = 0; i < n; i++)
    if (w->only[i]) sizes(input, i, w);
  orientation(input, w);
  change(input, w);
  left_out(input, w);
}
