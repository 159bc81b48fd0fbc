/* What may be chosen, what it is, what it costs, what it is likely to save. */
#include <math.h>
#include <string.h>

#include "out/offer_impl.h"
#include "out/saving_said.h"
#include "out/sheet_impl.h"
#include "study/code_check.h"
#include "window/opening_package.h"

static const char *const frame_word[PW_FRAME_KIND_COUNT] = {
    [PW_FRAME_ALUMINIUM] = PW_TEXT("aluminum"),
    [PW_FRAME_ALUMINIUM_BREAK] = PW_TEXT("aluminum with a thermal break"),
    [PW_FRAME_WOOD] = PW_TEXT("wood"),
    [PW_FRAME_VINYL] = PW_TEXT("vinyl"),
    [PW_FRAME_FIBREGLASS] = PW_TEXT("fiberglass"),
    [PW_FRAME_STEEL] = PW_TEXT("steel")};

static const char *const code_word[] = {
    [PW_CODE_NO_LIMIT] = PW_TEXT("no limit known"),
    [PW_CODE_MET] = PW_TEXT("met by the labels"),
    [PW_CODE_MET_ON_AVERAGE] =
        PW_TEXT("met on average: ask whether the building department takes that"),
    [PW_CODE_NO_LABEL] = PW_TEXT("labels not yet entered: see them before signing"),
    [PW_CODE_NOT_MET] = PW_TEXT("not met by the labels: cannot be installed here")};

static const pw_package *package_of(const pw_offer *o, size_t k)
{
  return &o->compare->job->package[o->package[k]];
}

static pw_code_state code_of(const pw_offer *o, size_t k)
{
  pw_code_package code;
  return pw_code_check_package(o->compare, o->package[k], &code, NULL) == PW_OK
             ? code.state
             : PW_CODE_NO_LIMIT;
}

/* The frame of a package, as the first window that gets it has it. */
static const char *frame_of(const pw_offer *o, size_t package)
{
  const pw_job *job = o->compare->job;
  for (size_t i = 0; i < job->n_opening; i++) {
    const pw_opening *w = &job->opening[i];
    if (!offer_has(o, i) || pw_opening_package_row(w, package) != package) continue;
    const pw_frame_line *line = pw_opening_line(job, package, w);
    return line && (unsigned)line->kind < PW_FRAME_KIND_COUNT ? frame_word[line->kind] : "";
  }
  return "";
}

static void choice_row(const pw_offer *o, pw_html *h)
{
  if (o->n_package < 2) return;
  pw_html_put(h, "<tr><th scope=\"row\">Your choice: one box</th>");
  for (size_t k = 0; k < o->n_package; k++)
    if (code_of(o, k) == PW_CODE_NOT_MET)
      pw_html_put(h, "<td>-</td>");
    else
      pw_html_put(h, "<td><span class=\"tick\">&nbsp;</span></td>");
  pw_html_put(h, "</tr>\n");
}

static void what_rows(const pw_offer *o, pw_html *h)
{
  const pw_compare *c = o->compare;
  const pw_sheet sheet = offer_sheet(o);
  pw_html_put(h, "<tr><th scope=\"row\">Frame, glass</th>");
  for (size_t k = 0; k < o->n_package; k++) {
    const pw_package *p = package_of(o, k);
    const char *kind = frame_of(o, o->package[k]);
    if (p->glass.n_pane == 1)
      pw_html_put(h, "<td>%s, one pane</td>", pw_say(h, kind));
    else if (p->glass.n_pane == 2)
      pw_html_put(h, "<td>%s, two panes</td>", pw_say(h, kind));
    else
      pw_html_put(h, "<td>%s, three panes or more</td>", pw_say(h, kind));
  }
  pw_html_put(h, "</tr>\n<tr><th scope=\"row\">Glass that you keep<small>the new frame stands "
                 "inside the old one</small></th>");
  for (size_t k = 0; k < o->n_package; k++) {
    pw_html_put(h, "<td>");
    sheet_value(&sheet, h, PW_RESULT_GLASS_KEPT, (int)o->package[k]);
    pw_html_put(h, "</td>");
  }
  pw_html_put(h, "</tr>\n");
  if (!c->rated.code.known || c->rated.code.n_row == 0) return;
  pw_html_put(h, "<tr><th scope=\"row\">Energy code here<small>the building department "
                 "decides</small></th>");
  for (size_t k = 0; k < o->n_package; k++)
    pw_html_put(h, "<td>%s</td>", pw_say(h, code_word[code_of(o, k)]));
  pw_html_put(h, "</tr>\n");
}

static const pw_price *parts_of(const pw_offer *o, size_t k)
{
  return &o->compare->billed.package_set[o->package[k]].parts;
}

/* The n-th different item of the packages' prices, NULL past the last. */
static const char *item(const pw_offer *o, size_t n)
{
  const char *seen[PW_OFFER_PACKAGES_MAX * PW_PRICE_PARTS_MAX];
  size_t n_seen = 0;
  for (size_t k = 0; k < o->n_package; k++)
    for (size_t i = 0; i < parts_of(o, k)->n_part; i++) {
      const char *name = parts_of(o, k)->part[i].item;
      size_t s = 0;
      while (s < n_seen && strcmp(seen[s], name) != 0)
        s++;
      if (s < n_seen) continue;
      if (n_seen == n) return name;
      seen[n_seen++] = name;
    }
  return NULL;
}

static void part_cell(const pw_offer *o, size_t k, const char *name, pw_html *h)
{
  const pw_price *price = parts_of(o, k);
  pw_html_put(h, "<td>");
  for (size_t i = 0; price->by_table && i < price->n_part; i++)
    if (strcmp(price->part[i].item, name) == 0)
      pw_figure_put(h, pw_units(o->paper.si), PW_FIGURE_MONEY, price->part[i].value,
                    "house.packages.%zu.price_parts.%zu.value", o->package[k], i);
  pw_html_put(h, "</td>");
}

static double whole(double dollars)
{
  return pw_figure_rounded(PW_FIGURE_MONEY, pw_units(0), dollars);
}

/* What the parts in whole dollars lack of the price in whole dollars. */
static double rounding(const pw_price *price)
{
  double sum = 0.0;
  for (size_t i = 0; i < price->n_part; i++)
    sum += whole(price->part[i].value);
  return price->by_table ? whole(price->value) - sum : 0.0;
}

static void part_rows(const pw_offer *o, pw_html *h)
{
  int any = 0, rounded = 0;
  for (size_t k = 0; k < o->n_package; k++) {
    any |= parts_of(o, k)->by_table && parts_of(o, k)->value > 0.0;
    rounded |= fabs(rounding(parts_of(o, k))) > 0.5;
  }
  for (size_t n = 0; any && item(o, n); n++) {
    pw_html_put(h, "<tr><th scope=\"row\"><bdi>%s</bdi></th>", pw_say(h, item(o, n)));
    for (size_t k = 0; k < o->n_package; k++)
      part_cell(o, k, item(o, n), h);
    pw_html_put(h, "</tr>\n");
  }
  if (!any || !rounded) return;
  pw_html_put(h, "<tr><th scope=\"row\">to whole dollars</th>");
  for (size_t k = 0; k < o->n_package; k++) {
    double v = rounding(parts_of(o, k));
    pw_html_put(h, "<td>");
    if (fabs(v) > 0.5) pw_html_put(h, "%s$%.0f", v < 0.0 ? "-" : "", fabs(v));
    pw_html_put(h, "</td>");
  }
  pw_html_put(h, "</tr>\n");
}

static int taxed(const pw_offer *o)
{
  for (size_t k = 0; k < o->n_package; k++)
    for (size_t i = 0; i < parts_of(o, k)->n_part; i++)
      if (strcmp(parts_of(o, k)->part[i].item, "tax") == 0) return 1;
  return 0;
}

static void price_row(const pw_offer *o, pw_html *h)
{
  const pw_sheet sheet = offer_sheet(o);
  if (taxed(o))
    pw_html_put(
        h, "<tr class=\"sum\"><th scope=\"row\">Price, installed, with tax<small>no rebate "
           "is taken off</small></th>");
  else
    pw_html_put(h, "<tr class=\"sum\"><th scope=\"row\">Price, installed<small>no tax stands "
                   "apart; no rebate is taken off</small></th>");
  for (size_t k = 0; k < o->n_package; k++) {
    const pw_billed_set *set = &o->compare->billed.package_set[o->package[k]];
    pw_html_put(h, "<td>");
    if (set->price > 0.0)
      sheet_value(&sheet, h, PW_RESULT_PRICE, (int)o->package[k]);
    else
      pw_html_put(h, "$ <span class=\"line\">&nbsp;</span>");
    pw_html_put(h, "</td>");
  }
  pw_html_put(h, "</tr>\n");
}

void offer_price(const pw_offer *o, pw_html *h)
{
  const pw_sheet sheet = offer_sheet(o);
  int saves = pw_saving_any(&sheet, o->package, o->n_package);
  pw_html_put(h, "<h2>1. What is offered</h2>\n<table class=\"choice\"><thead><tr><th "
                 "scope=\"col\">Package</th>");
  for (size_t k = 0; k < o->n_package; k++) {
    pw_html_put(h, "<th scope=\"col\">");
    pw_html_name(h, package_of(o, k)->name);
    pw_html_put(h, "</th>");
  }
  pw_html_put(h, "</tr></thead><tbody>\n");
  choice_row(o, h);
  what_rows(o, h);
  part_rows(o, h);
  price_row(o, h);
  if (saves) pw_saving_rows(&sheet, o->package, o->n_package, h);
  pw_html_put(h, "</tbody></table>\n");
  if (saves) pw_saving_note(&sheet, o->package, o->n_package, h);
  const pw_house_facts *f = &o->compare->job->house;
  pw_html_put(h, "<p>Maker and model: ");
  if (f->maker[0] || f->model[0])
    pw_html_put(h, "<bdi>%s%s%s</bdi>", f->maker, f->maker[0] && f->model[0] ? " " : "",
                f->model);
  else
    pw_html_put(h, "<span class=\"line wide-line\">&nbsp;</span>");
  pw_html_put(h, "</p>\n");
}
