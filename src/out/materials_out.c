#include "out/materials_out.h"

#include <stdio.h>
#include <string.h>

#include "out/grid.h"
#include "out/length.h"
#include "out/materials_rows.h"
#include "panewright/units.h"

const char *pw_side_of_opening(int side)
{
  static const char *const name[] = {
      [PW_LEFT] = PW_TEXT("left"),
      [PW_RIGHT] = PW_TEXT("right"),
      [PW_BOTTOM] = PW_TEXT("sill"),
      [PW_TOP] = PW_TEXT("head"),
  };
  return name[side];
}

static void known(const pw_material_row *r, pw_html *h)
{
  pw_html_put(h, "%s", pw_say(h, r->source));
  if (r->how_known[0] == 'm') pw_html_put(h, " (from memory)");
}

static void amounts(const pw_materials_paper *p, pw_html *h)
{
  pw_material_row row[PW_MATERIAL_ROWS];
  size_t n =
      pw_materials_rows(p->sum, p->paper.job->house.sealant, p->paper.si, h->tongue, row);
  pw_html_put(h, "<h2>What to buy</h2>\n<table class=\"buy\"><thead><tr><th "
                 "scope=\"col\">item</th><th scope=\"col\">size</th><th "
                 "scope=\"col\">wanted</th><th "
                 "scope=\"col\">buy</th><th scope=\"col\">how it is reckoned, and by "
                 "what</th></tr></thead><tbody>\n");
  for (size_t i = 0; i < n; i++) {
    const pw_material_row *r = &row[i];
    char wanted[32];
    snprintf(wanted, sizeof wanted, "%.*f", r->decimals, r->quantity);
    pw_html_put(h,
                "<tr><th scope=\"row\">%s</th><td>%s</td><td>%s&nbsp;%s</td><td "
                "class=\"bought\">%s</td><td class=\"why\">%s%s <span class=\"source\">",
                pw_say(h, r->item), r->size, wanted, pw_say(h, r->unit), r->buy, r->rule,
                r->rule[strlen(r->rule) - 1] == '.' ? "" : "."); /* of "pulg." */
    known(r, h);
    pw_html_put(h, "</span></td></tr>\n");
  }
  pw_html_put(h, "</tbody></table>\n");
}

static pw_reading reading(const pw_materials_paper *p, const pw_html *h)
{
  return (pw_reading){p->paper.si, h->tongue};
}

/* ---------------------------------------------------------------- trim */

static void stocks(const pw_materials_paper *p, pw_html *h)
{
  const pw_materials_job *s = p->sum;
  const pw_reading as = reading(p, h);
  pw_html_put(h, "<p class=\"stocks\">");
  for (size_t k = 0; k < PW_STOCKS; k++) {
    const pw_trim_stock *t = &s->stock[k];
    const pw_amount_said of = pw_stock_of(as, t->length);
    const char *length = of.text;
    if (k) pw_html_put(h, "; ");
    if (!t->fits)
      pw_html_put(h, "from %s: too short for a piece", length);
    else if (t->plan.proven)
      pw_html_put(h, "from %s: %zu lengths, least there is, %.0f %% left over", length,
                  t->plan.n_stock, 100.0 * t->plan.waste);
    else
      pw_html_put(h, "from %s: %zu lengths, best found (at least %zu), %.0f %% left over",
                  length, t->plan.n_stock, t->plan.lower_bound, 100.0 * t->plan.waste);
  }
  pw_html_put(h, ". The plan is of %s: least is bought.</p>\n",
              pw_stock_of(as, s->stock[s->stock_chosen].length).text);
}

static void piece(const pw_materials_paper *p, const pw_trim_piece *t, pw_html *h)
{
  const pw_reading as = reading(p, h);
  pw_html_put(h, "<span class=\"cut\"><b>%s</b> ", pw_length_of(as, t->length, 16).text);
  pw_html_name(h, p->paper.job->opening[t->opening].tag);
  pw_html_put(h, " %s</span> ", pw_say(h, pw_side_of_opening(t->side)));
}

static void plan(const pw_materials_paper *p, pw_html *h)
{
  const pw_materials_job *s = p->sum;
  const pw_trim_stock *stock = &s->stock[s->stock_chosen];
  const pw_reading as = reading(p, h);
  const double kerf = pw_materials_kerf();
  const size_t n = s->n_piece - s->n_long;
  pw_html_put(h, "<h2>Cutting plan of the inside trim</h2>\n");
  if (n) stocks(p, h);
  pw_html_put(h,
              "<p class=\"small\">Cut in this order, each to its length; saw %s a cut. Every "
              "piece has its allowance: scribe it on the wall. Left and right as seen from "
              "outside.</p>\n<table class=\"plan\"><thead><tr><th scope=\"col\">length</th><th "
              "scope=\"col\">pieces</th><th scope=\"col\">left over</th></tr></thead><tbody>\n",
              pw_length_of(as, kerf, 16).text);
  for (size_t b = 0; b < stock->plan.n_stock; b++) {
    double left = stock->length + kerf;
    pw_html_put(h, "<tr><th scope=\"row\">%zu</th><td>", b + 1);
    for (size_t i = 0; i < n; i++)
      if (s->stock_of[i] == b) {
        piece(p, &s->piece[i], h);
        left -= s->piece[i].length + kerf;
      }
    pw_html_put(h, "</td><td>%s</td></tr>\n",
                pw_length_of(as, left > 0.0 ? left : 0.0, 16).text);
  }
  for (size_t i = n; i < s->n_piece; i++) {
    pw_html_put(h, "<tr><th scope=\"row\">%s</th><td>", pw_say(h, "by itself"));
    piece(p, &s->piece[i], h);
    pw_html_put(h, "</td><td></td></tr>\n");
  }
  pw_html_put(h, "</tbody></table>\n");
}

/* ---------------------------------------------------------------- by opening */

static void opening_row(const pw_materials_paper *p, size_t i, pw_html *h)
{
  const pw_opening *o = &p->paper.job->opening[i];
  const pw_materials *m = &p->sum->opening[i];
  const pw_reading as = reading(p, h);
  pw_html_put(h, "<tr><th scope=\"row\">");
  pw_html_name(h, o->tag);
  pw_html_put(h, " ");
  pw_html_name(h, o->room);
  pw_html_put(h, "</th><td>%d</td><td>%s x %s</td><td>%s</td><td>%s</td><td>%s</td>",
              p->sum->units[i], pw_length_of(as, m->seal_width, 16).text,
              pw_length_of(as, m->seal_depth, 32).text,
              pw_length_of(as, m->seal_length, 1).text, pw_volume_of(as, m->seal_volume).text,
              m->rod_length > 0.0 ? pw_length_of(as, m->rod, 8).text : "-");
  pw_html_put(h, "<td>%s</td><td>%s</td><td>%s</td><td>%d</td><td>%d-%d</td></tr>\n",
              m->foam_volume > 0.0 ? pw_foam_of(as, m->foam_volume).text : "-",
              pw_length_of(as, m->caulk_length, 1).text, pw_volume_of(as, m->caulk_volume).text,
              m->shims, m->screws_low, m->screws_high);
}

static void by_opening(const pw_materials_paper *p, pw_html *h)
{
  pw_html_put(
      h, "<h2>By opening, one window each</h2>\n<table class=\"each\"><thead><tr><th "
         "scope=\"col\">opening</th><th scope=\"col\">windows</th><th scope=\"col\">outside "
         "joint</th><th scope=\"col\">run</th><th scope=\"col\">sealant</th><th "
         "scope=\"col\">rod</th><th scope=\"col\">foam</th><th scope=\"col\">inside "
         "joint</th><th scope=\"col\">caulk</th><th scope=\"col\">shims</th><th "
         "scope=\"col\">screws</th></tr></thead><tbody>\n");
  for (size_t i = 0; i < p->sum->n_opening; i++)
    if (p->sum->units[i]) opening_row(p, i, h);
  pw_html_put(h, "</tbody></table>\n<p class=\"small\">Without waste; what is bought has it. "
                 "Old window and wall are as the tape found them: look before you buy.</p>\n");
}

/* Windows that nobody may order yet are counted, and said. */
static void not_yet(const pw_materials_paper *p, pw_html *h)
{
  size_t n = 0;
  for (size_t i = 0; i < p->sum->n_opening; i++)
    if (p->sum->units[i] && !p->check[i].may_order) n++;
  if (n == 0) return;
  pw_html_put(h, "<p class=\"alarm\">Counted here, but not cleared for order yet:");
  for (size_t i = 0; i < p->sum->n_opening; i++)
    if (p->sum->units[i] && !p->check[i].may_order) {
      pw_html_put(h, " ");
      pw_html_name(h, p->paper.job->opening[i].tag);
    }
  pw_html_put(h, ". Ask the office before you buy for them.</p>\n");
}

pw_status pw_materials_html(const pw_materials_paper *p, pw_html *h, pw_err *err)
{
  static const char *const style[] = {"plots/paper.css", "plots/materials.css", NULL};
  static const char foot[] =
      PW_TEXT("Amounts by rule of trade from the measures taken: not a maker's list");
  pw_paper_begin(&p->paper, PW_TEXT("Materials of the job"), style, foot, h);
  pw_html_put(h, "<p>Package <b>");
  pw_html_name(h, p->paper.job->package[p->column].name);
  pw_html_put(h, "</b>; %zu windows.</p>\n", p->sum->n_unit);
  if (p->sum->n_unit == 0) {
    pw_html_put(h, "<p>No window of this job is replaced: nothing to buy.</p>\n");
    return pw_paper_end(h, err);
  }
  not_yet(p, h);
  amounts(p, h);
  by_opening(p, h);
  if (p->sum->n_piece) plan(p, h);
  return pw_paper_end(h, err);
}

pw_status pw_materials_csv(const pw_materials_paper *p, FILE *f, pw_err *err)
{
  static const char *const header[] = {"item", "size", "quantity", "unit",
                                       "buy",  "rule", "source"};
  pw_material_row row[PW_MATERIAL_ROWS];
  size_t n = pw_materials_rows(p->sum, p->paper.job->house.sealant, p->paper.si, NULL, row);
  pw_grid *g = pw_grid_new(sizeof header / sizeof header[0], header);
  for (size_t i = 0; i < n; i++) {
    pw_grid_cell(g, "%s", row[i].item);
    pw_grid_cell(g, "%s", row[i].size);
    pw_grid_number(g, row[i].quantity, row[i].decimals);
    pw_grid_cell(g, "%s", row[i].unit);
    pw_grid_cell(g, "%s", row[i].buy);
    pw_grid_cell(g, "%s", row[i].rule);
    pw_grid_cell(g, "%s%s", row[i].source, row[i].how_known[0] == 'm' ? " (from memory)" : "");
  }
  pw_status status = pw_grid_print(g, f, PW_CSV, err);
  pw_grid_free(g);
  return status;
}
