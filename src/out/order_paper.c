#include "out/order_paper.h"

#include "out/message_text.h"

#include <math.h>
#include <string.h>

#include "base/tape.h"
#include "out/glass_said.h"
#include "out/option_out.h"
#include "out/shape_out.h"
#include "out/unit_drawing.h"
#include "out/unit_out.h"
#include "out/units.h"
#include "panewright/units.h"
#include "window/opening_label.h"
#include "window/opening_package.h"

enum { TAPE = 32, WORDS = 240 };

static int ordered(const pw_fit_report *r, size_t i)
{
  return r->job->opening[i].standing == PW_REPLACED && r->check[i].may_order;
}

static int held(const pw_fit_report *r, size_t i)
{
  return r->job->opening[i].standing == PW_REPLACED && !r->check[i].may_order;
}

static size_t count(const pw_fit_report *r, int (*is)(const pw_fit_report *r, size_t i))
{
  size_t n = 0;
  for (size_t i = 0; i < r->job->n_opening; i++)
    n += is(r, i) != 0;
  return n;
}

/* ---------------------------------------------------------------- head */

/* A fact, or a line to write it on. */
static void fact(pw_html *h, const char *name, const char *value)
{
  pw_html_put(h, "<tr><th scope=\"row\">%s</th><td>", pw_say(h, name));
  if (value[0])
    pw_html_name(h, value);
  else
    pw_html_put(h, "<span class=\"line\">&nbsp;</span>");
  pw_html_put(h, "</td></tr>\n");
}

static void pressure(const pw_order_paper *p, pw_html *h)
{
  double v = p->paper.job->house.wind_pressure;
  char text[WORDS] = "";
  if (isfinite(v) && p->paper.si)
    pw_tongue_put(h->tongue, text, sizeof text, "at least %.0f Pa, each unit", ceil(v - 1e-6));
  else if (isfinite(v))
    pw_tongue_put(h->tongue, text, sizeof text, "at least %.5g psf, each unit",
                  round(10.0 * v / PW_PSF) / 10.0);
  fact(h, PW_TEXT("Design pressure"), text);
}

static void height(const pw_order_paper *p, const char *name, double v, pw_html *h)
{
  char text[WORDS] = "";
  if (isfinite(v) && p->paper.si)
    pw_tongue_put(h->tongue, text, sizeof text, "%.0f m above the sea", v);
  else if (isfinite(v))
    pw_tongue_put(h->tongue, text, sizeof text, "%.0f ft above the sea", v / PW_FOOT);
  fact(h, name, text);
}

static void head(const pw_order_paper *p, pw_html *h)
{
  const pw_house_facts *house = &p->paper.job->house;
  char ship[sizeof house->contractor + sizeof p->paper.job->firm.address + 2] = "";
  if (p->paper.job->firm.address[0])
    snprintf(ship, sizeof ship, "%s, %s", house->contractor, p->paper.job->firm.address);
  pw_html_put(h, "<div class=\"facts\"><div><table class=\"fact\"><tbody>\n");
  fact(h, PW_TEXT("To"), house->maker);
  fact(h, PW_TEXT("Product line"), house->model);
  fact(h, PW_TEXT("Order number"), "");
  fact(h, PW_TEXT("Ship to"), ship);
  fact(h, PW_TEXT("Wanted there by"), "");
  pw_html_put(h, "</tbody></table></div>\n<div><table class=\"fact\"><tbody>\n");
  pressure(p, h);
  height(p, PW_TEXT("Altitude of the site"), house->elevation.value, h);
  height(p, PW_TEXT("Units sealed at"), house->plant_elevation.value, h);
  fact(h, PW_TEXT("Work planned for"), house->install_date);
  pw_html_put(h, "</tbody></table></div></div>\n");
  pw_html_put(
      h, "<p class=\"basis\"><b>Sizes are tip to tip of the new frame, clearance already taken "
         "off: make them as they stand, take nothing off.</b> Width first. Left and right, X "
         "(moves) and O (fixed) are as seen from outside; an arrow is the way a lite slides, "
         "dashed lines meet at the hinges (black). Glass is named from outside in, surface 1 "
         "outdoors. Where a row names no colour: the line's standard one. Sealed units for the "
         "altitude above: the maker says how (open tubes only where the row says so).</p>\n");
}

/* ---------------------------------------------------------------- questions */

static void questions(const pw_fit_report *r, pw_html *h)
{
  int any = 0;
  for (size_t i = 0; i < r->job->n_opening; i++) {
    const pw_order_question *q;
    if (!ordered(r, i)) continue;
    for (size_t k = 0; (q = pw_order_question_of(r, i, k)) != NULL; k++) {
      if (!any++)
        pw_html_put(h, "<section class=\"ask\"><h2>To be answered before these are "
                       "made</h2>\n<ul>\n");
      pw_html_put(h, "<li><b>");
      pw_html_name(h, r->job->opening[i].tag);
      pw_html_put(h, "</b>: %s: ", pw_say(h, q->ask));
      for (size_t a = 0; a < 4 && q->answer[a]; a++)
        pw_html_put(h, "<span class=\"tick\">%s</span> ", pw_say(h, q->answer[a]));
      pw_html_put(h, "</li>\n");
    }
  }
  if (any) pw_html_put(h, "</ul></section>\n");
}

/* ---------------------------------------------------------------- a row */

/* How it opens, in words; the drawing says the same. */
static const char *opens(const pw_opening *o)
{
  switch (o->operator_insert) {
  case PW_FIXED:
    return PW_TEXT("does not open");
  case PW_SINGLE_HUNG:
    return PW_TEXT("the lower sash slides up");
  case PW_DOUBLE_HUNG:
    return PW_TEXT("both sashes slide");
  case PW_AWNING:
    return PW_TEXT("hinged above, opens out");
  case PW_HOPPER:
    return PW_TEXT("hinged below, opens in");
  case PW_CASEMENT:
  case PW_HINGED_DOOR:
    return o->option.hinge == PW_HINGE_LEFT    ? PW_TEXT("hinges left")
           : o->option.hinge == PW_HINGE_RIGHT ? PW_TEXT("hinges right")
           : o->option.hinge == PW_HINGE_TOP   ? PW_TEXT("hinges above")
                                               : PW_TEXT("hinge side: see the question above");
  default:
    return "";
  }
}

static void kind(const pw_fit_report *r, size_t i, pw_html *h)
{
  const pw_opening *o = &r->job->opening[i];
  const char *how = opens(o), *name = pw_say(h, pw_operator_name(o->operator_insert));
  int letters = o->operator_insert == PW_SLIDER || o->operator_insert == PW_SLIDING_DOOR ||
                o->operator_insert == PW_FLANKER;
  const char *config = letters ? o->config : "";
  char alt[WORDS];
  pw_tongue_put(h->tongue, alt, sizeof alt, "%s %s %s, seen from outside", name, config,
                pw_say(h, how));
  pw_html_put(h, "<td class=\"draw\">");
  pw_unit_drawing(o, &r->fit[i], alt, h);
  pw_html_put(h, "<b data-col=\"operator\">%s</b> ", name);
  if (config[0]) pw_html_put(h, "<b data-col=\"config\">%s</b>", config);
  if (how[0]) pw_html_put(h, "<br>%s", pw_say(h, how));
  pw_html_put(h, "</td>");
}

static void size(const pw_order_paper *p, const pw_fit *f, pw_html *h)
{
  char wide[TAPE], high[TAPE];
  pw_tape_text(f->order_width, 8, wide, sizeof wide);
  pw_tape_text(f->order_height, 8, high, sizeof high);
  const char *first = p->paper.si ? "class=\"small\"" : "class=\"big\"";
  pw_html_put(h, "<td class=\"size\">");
  fprintf(h->f, "<span %s>", first);
  pw_html_put(h,
              "<span data-col=\"width_in\">%s</span> &times; <span "
              "data-col=\"height_in\">%s</span> in</span><br>",
              wide, high);
  fprintf(h->f, "<span %s>", p->paper.si ? "class=\"big\"" : "class=\"small\"");
  pw_html_put(h,
              "<span data-col=\"width_mm\">%.1f</span> &times; <span "
              "data-col=\"height_mm\">%.1f</span> mm</span></td>",
              1e3 * f->order_width, 1e3 * f->order_height);
}

/* What the label must say: the buyer was told by it. */
static pw_status label(const pw_order_paper *p, size_t i, pw_html *h, pw_err *err)
{
  const pw_job *job = p->report->job;
  const pw_unit_set *units = pw_units(p->paper.si);
  pw_label_row l;
  pw_status status = pw_opening_label(job, p->report->column, &job->opening[i], &l, err);
  if (status != PW_OK || !pw_label_is_known(&l)) return status;
  pw_html_put(h, "<br>label:");
  if (isfinite(l.u.value) && p->paper.si)
    pw_html_put(h, " U %.2f %s", pw_show_u(units, l.u.value), units->u);
  else if (isfinite(l.u.value))
    pw_html_put(h, " U <span data-col=\"label_u_btu_h_ft2_f\">%.2f</span>",
                pw_show_u(units, l.u.value));
  if (isfinite(l.shgc.value))
    pw_html_put(h, " SHGC <span data-col=\"label_shgc\">%.2f</span>", l.shgc.value);
  if (l.certificate[0])
    pw_html_put(h, " certificate <bdi data-col=\"certificate\">%s</bdi>", l.certificate);
  return PW_OK;
}

static void glass(const pw_fit_report *r, size_t i, const pw_package *package, pw_html *h)
{
  char part[WORDS];
  pw_html_put(h, "<td class=\"left\">");
  for (size_t k = 0; pw_glass_part(h->tongue, &package->glass, k, part, sizeof part); k++)
    pw_html_put(h, "%s<br>", part);
  pw_html_put(h, "spacer: <span data-col=\"spacer\">%s</span>",
              pw_say(h, pw_spacer_name(package->spacer)));
  if (package->open_tubes) pw_html_put(h, "<br><b>open tubes</b>");
  if (pw_order_tempered(r, i))
    pw_html_put(h, "<br><b>TEMPERED: <span data-col=\"tempered\">YES</span></b>, every pane, "
                   "each with its lasting mark");
  else
    pw_html_put(h, "<br>tempered: <span data-col=\"tempered\">no</span>");
}

static void options(const pw_order_paper *p, const pw_opening *o, const pw_package *package,
                    pw_html *h)
{
  const pw_options *op = &o->option;
  const pw_grille *g = &op->grille;
  char bar[TAPE];
  pw_tape_text(g->bar, 16, bar, sizeof bar);
  pw_html_put(h, "line: <span data-col=\"frame_line\">%s</span><br>", package->frame_line);
  if (op->colour[0])
    pw_html_put(h, "colour outside: <b data-col=\"colour\">%s</b><br>", op->colour);
  if (op->tint != PW_TINT_NONE)
    pw_html_put(h, "tint: <b data-col=\"tint\">%s</b><br>", pw_say(h, pw_tint_name(op->tint)));
  if (op->pattern[0])
    pw_html_put(h, "obscure, pattern: <b data-col=\"pattern\">%s</b><br>", op->pattern);
  else
    pw_html_put(h, "obscure: none<br>");
  if (g->place == PW_GRILLE_NONE) {
    pw_html_put(h, "grilles: none<br>");
  } else {
    pw_html_put(h,
                "grilles: <b data-col=\"grilles\">%s</b>, <b data-col=\"grille_pattern\">"
                "%dx%d</b> (columns x rows) each lite, bars ",
                pw_say(h, pw_grille_name(g->place)), g->cols, g->rows);
    if (p->paper.si)
      pw_html_put(h, "%.0f mm<br>", 1e3 * g->bar);
    else
      pw_html_put(h, "<b data-col=\"grille_bar_in\">%s</b> in<br>", bar);
  }
  pw_html_put(h, "screen: <span data-col=\"screen\">%s</span>",
              o->screen ? pw_say(h, "yes") : pw_say(h, "no"));
  if (op->pet_panel) pw_html_put(h, "<br><b>pet panel</b>");
}

static void notes(const pw_order_paper *p, size_t i, pw_html *h)
{
  const pw_fit_report *r = p->report;
  const pw_opening *o = &r->job->opening[i];
  char text[WORDS];
  if (o->shape != PW_SHAPE_RECTANGLE) {
    pw_shape_words_plain(h->tongue, &r->fit[i], p->paper.si, text, sizeof text);
    pw_html_put(h, "<br><b>%s</b>", text);
    if (!p->paper.si) pw_html_put(h, " (in)");
  }
  pw_unit_words(h->tongue, r->job, i, p->paper.si, text, sizeof text);
  if (text[0]) pw_html_put(h, "<br><bdi>%s</bdi>", text);
  if (o->option.maker_note[0])
    pw_html_put(h, "<br>note: <bdi data-col=\"maker_note\">%s</bdi>", o->option.maker_note);
}

static pw_status row(const pw_order_paper *p, size_t i, pw_html *h, pw_err *err)
{
  const pw_fit_report *r = p->report;
  const pw_opening *o = &r->job->opening[i];
  pw_package package;
  pw_opening_package(r->job, r->column, o, &package);
  pw_html_put(h, "<tr data-tag=\"%s\"><th scope=\"row\"><b>", o->tag);
  pw_html_name(h, o->tag);
  pw_html_put(h, "</b><br>");
  pw_html_name(h, o->room);
  pw_html_put(h, "</th><td class=\"big\" data-col=\"quantity\">%d</td>", o->quantity);
  kind(r, i, h);
  size(p, &r->fit[i], h);
  glass(r, i, &package, h);
  pw_status status = label(p, i, h, err);
  pw_html_put(h, "</td><td class=\"left\">");
  options(p, o, &package, h);
  notes(p, i, h);
  pw_html_put(h, "</td></tr>\n");
  return status;
}

static pw_status rows(const pw_order_paper *p, pw_html *h, pw_err *err)
{
  pw_status status = PW_OK;
  if (count(p->report, ordered) == 0) {
    pw_html_put(h, "<p><b>No unit is ordered by this paper.</b></p>\n");
    return PW_OK;
  }
  pw_html_put(h, "<h2>Units ordered</h2>\n");
  pw_html_wide(h, pw_say(h, "Units ordered"));
  pw_html_put(h, "<table class=\"units\"><thead><tr><th scope=\"col\">Unit</th>"
                 "<th scope=\"col\">How many</th><th scope=\"col\">Seen from outside</th>"
                 "<th scope=\"col\">Width &times; height, tip to tip</th>"
                 "<th scope=\"col\" class=\"left\">Glass, from outside in</th>"
                 "<th scope=\"col\" class=\"left\">With it</th></tr></thead>\n<tbody>\n");
  for (size_t i = 0; status == PW_OK && i < p->report->job->n_opening; i++)
    if (ordered(p->report, i)) status = row(p, i, h, err);
  pw_html_put(h, "</tbody></table></div>\n");
  return status;
}

/* ---------------------------------------------------------------- sums */

/* A kind of glass: which row names it, how many units and of what size. */
typedef struct sum {
  size_t first;
  int units;
  double area;
} sum;

/* Whether two rows get the same glass. */
static int same_glass(const pw_fit_report *r, size_t a, size_t b)
{
  char text[2][PW_TEXT_MAX];
  pw_package package;
  const size_t of[2] = {a, b};
  for (int k = 0; k < 2; k++) {
    pw_opening_package(r->job, r->column, &r->job->opening[of[k]], &package);
    pw_glass_said(NULL, &package.glass, text[k], PW_TEXT_MAX);
  }
  return strcmp(text[0], text[1]) == 0 && pw_order_tempered(r, a) == pw_order_tempered(r, b);
}

static sum sum_of(const pw_fit_report *r, size_t first, int all)
{
  sum s = {first, 0, 0.0};
  for (size_t i = 0; i < r->job->n_opening; i++) {
    if (!ordered(r, i) || !(all || same_glass(r, first, i))) continue;
    s.units += r->job->opening[i].quantity;
    s.area += r->job->opening[i].quantity * r->fit[i].order_width * r->fit[i].order_height;
  }
  return s;
}

static void sum_cells(const pw_order_paper *p, const sum *s, pw_html *h)
{
  pw_html_put(h, "<td data-col=\"units\">%d</td><td data-col=\"area\">%.2f</td></tr>\n",
              s->units, p->paper.si ? s->area : s->area / PW_FOOT2);
}

/* A kind of glass is told where its first row stands. */
static int is_first(const pw_fit_report *r, size_t i)
{
  for (size_t k = 0; k < i; k++)
    if (ordered(r, k) && same_glass(r, k, i)) return 0;
  return ordered(r, i);
}

static void sums(const pw_order_paper *p, pw_html *h)
{
  const pw_fit_report *r = p->report;
  char text[PW_TEXT_MAX];
  pw_package package;
  if (count(r, ordered) == 0) return;
  pw_html_put(h, "<section><h2>Sums</h2>\n<table class=\"sums\"><thead><tr><th "
                 "scope=\"col\">Glass</th><th scope=\"col\">Tempered</th><th "
                 "scope=\"col\">Units</th>");
  pw_html_put(h, p->paper.si ? PW_TEXT("<th scope=\"col\">Width &times; height, m2</th>")
                             : PW_TEXT("<th scope=\"col\">Width &times; height, ft2</th>"));
  pw_html_put(h, "</tr></thead>\n<tbody>\n");
  for (size_t i = 0; i < r->job->n_opening; i++) {
    if (!is_first(r, i)) continue;
    const sum s = sum_of(r, i, 0);
    pw_opening_package(r->job, r->column, &r->job->opening[i], &package);
    pw_glass_said(h->tongue, &package.glass, text, sizeof text);
    pw_html_put(h, "<tr><th scope=\"row\">%s</th><td>%s</td>", text,
                pw_order_tempered(r, i) ? pw_say(h, "YES") : pw_say(h, "no"));
    sum_cells(p, &s, h);
  }
  const sum all = sum_of(r, 0, 1);
  pw_html_put(h, "<tr class=\"all\"><th scope=\"row\">All units ordered</th><td></td>");
  sum_cells(p, &all, h);
  pw_html_put(h, "</tbody></table></section>\n");
}

/* ---------------------------------------------------------------- held */

static void held_rows(const pw_fit_report *r, pw_html *h)
{
  if (count(r, held) == 0) return;
  pw_html_put(h,
              "<section class=\"held\"><h2>Not ordered yet: do not make</h2>\n<p>Their sizes "
              "or glass may still change; they are in no sum above. An order of their own "
              "follows.</p>\n<table><thead><tr><th "
              "scope=\"col\">Unit</th><th scope=\"col\">Kind</th><th scope=\"col\">How "
              "many</th><th scope=\"col\" class=\"left\">Why</th></tr></thead>\n<tbody>\n");
  for (size_t i = 0; i < r->job->n_opening; i++) {
    const pw_opening *o = &r->job->opening[i];
    if (!held(r, i)) continue;
    pw_html_put(h, "<tr data-held=\"%s\"><th scope=\"row\"><b>", o->tag);
    pw_html_name(h, o->tag);
    pw_html_put(h, "</b> ");
    pw_html_name(h, o->room);
    pw_html_put(h, "</th><td>%s</td><td data-col=\"quantity\">%d</td><td class=\"left\">",
                pw_say(h, pw_operator_name(o->operator_insert)), o->quantity);
    for (size_t k = 0; k < r->check[i].n; k++) {
      char why[PW_MESSAGE_TEXT];
      pw_html_put(h, "%s<span data-col=\"why\">%s</span>", k ? "; " : "",
                  pw_message_text(h->tongue, r->check[i].why[k], why, sizeof why));
    }
    pw_html_put(h, "</td></tr>\n");
  }
  pw_html_put(h, "</tbody></table></section>\n");
}

static void confirm(pw_html *h)
{
  pw_html_put(
      h,
      "<section class=\"sign\"><h2>To confirm</h2>\n<p>The maker reads the sizes, hands and "
      "glass above, answers what is open and sends this page back; nothing is made before "
      "that.</p>\n<table><tbody>\n"
      "<tr><th scope=\"row\">Sizes, hands and glass as above</th><td><span "
      "class=\"tick\">yes</span> <span class=\"tick\">but for <span "
      "class=\"line\">&nbsp;</span></span></td></tr>\n"
      "<tr><th scope=\"row\">Ships on</th><td><span class=\"line\">&nbsp;</span> maker's "
      "number <span class=\"line\">&nbsp;</span></td></tr>\n"
      "<tr><th scope=\"row\">For the maker</th><td><span class=\"line wide-line\">&nbsp;"
      "</span> name, day <span class=\"line\">&nbsp;</span></td></tr>\n"
      "<tr><th scope=\"row\">For the firm</th><td><span class=\"line wide-line\">&nbsp;</span> "
      "name, day <span class=\"line\">&nbsp;</span></td></tr>\n</tbody></table></section>\n");
}

pw_status pw_order_paper_html(const pw_order_paper *p, pw_html *h, pw_err *err)
{
  static const char *const style[] = {"plots/paper.css", "plots/order.css", NULL};
  static const char foot[] = PW_TEXT("Tip to tip, seen from outside; made as confirmed");
  pw_paper_begin(&p->paper, PW_TEXT("Order to the maker"), style, foot, h);
  head(p, h);
  questions(p->report, h);
  pw_status status = rows(p, h, err);
  if (status != PW_OK) return status;
  sums(p, h);
  held_rows(p->report, h);
  confirm(h);
  return pw_paper_end(h, err);
}
