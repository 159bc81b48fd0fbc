#include "out/change_order.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/tape.h"
#include "job/measure.h"
#include "out/glass_said.h"
#include "panewright/glazing.h"
#include "panewright/units.h"

/* How a column is shown. */
typedef enum look {
  LOOK_TEXT = 0, /* as written */
  LOOK_WORD,     /* a word of ours, said in the paper's tongue */
  LOOK_LENGTH,   /* inches as the tape reads; its difference is told */
  LOOK_COUNT,
  LOOK_GLASS
} look;

static const struct {
  const char *say;
  look look;
} shown[PW_ORDER_COMPARED] = {
    [PW_ORDER_TAG] = {PW_TEXT("unit"), LOOK_TEXT},
    [PW_ORDER_QUANTITY] = {PW_TEXT("how many"), LOOK_COUNT},
    [PW_ORDER_OPERATOR] = {PW_TEXT("kind"), LOOK_WORD},
    [PW_ORDER_WIDTH] = {PW_TEXT("width, tip to tip"), LOOK_LENGTH},
    [PW_ORDER_HEIGHT] = {PW_TEXT("height, tip to tip"), LOOK_LENGTH},
    [PW_ORDER_GLASS] = {PW_TEXT("glass"), LOOK_GLASS},
    [PW_ORDER_TEMPERED] = {PW_TEXT("tempered"), LOOK_WORD},
    [PW_ORDER_MAY] = {PW_TEXT("may be made"), LOOK_WORD},
    [PW_ORDER_ROOM] = {PW_TEXT("room"), LOOK_TEXT},
    [PW_ORDER_HANDING] = {PW_TEXT("hand, seen from outside"), LOOK_WORD},
    [PW_ORDER_BASIS] = {PW_TEXT("sizes are"), LOOK_WORD},
    [PW_ORDER_SPACER] = {PW_TEXT("spacer"), LOOK_WORD},
    [PW_ORDER_LINE] = {PW_TEXT("line"), LOOK_TEXT},
    [PW_ORDER_PACKAGE] = {PW_TEXT("package"), LOOK_TEXT},
    [PW_ORDER_PATTERN] = {PW_TEXT("obscure, pattern"), LOOK_TEXT},
    [PW_ORDER_TINT] = {PW_TEXT("tint"), LOOK_WORD},
    [PW_ORDER_GRILLES] = {PW_TEXT("grilles"), LOOK_WORD},
    [PW_ORDER_GRILLE_PATTERN] = {PW_TEXT("grilles, columns x rows"), LOOK_TEXT},
    [PW_ORDER_GRILLE_BAR] = {PW_TEXT("grilles, width of a bar"), LOOK_LENGTH},
    [PW_ORDER_SCREEN] = {PW_TEXT("insect screen"), LOOK_WORD},
    [PW_ORDER_PET_PANEL] = {PW_TEXT("pet panel"), LOOK_WORD},
    [PW_ORDER_COLOUR] = {PW_TEXT("colour outside"), LOOK_TEXT},
    [PW_ORDER_HINGE] = {PW_TEXT("hinges, seen from outside"), LOOK_WORD},
    [PW_ORDER_MAKER_NOTE] = {PW_TEXT("note to the maker"), LOOK_TEXT},
    [PW_ORDER_SHAPE] = {PW_TEXT("shape"), LOOK_WORD},
    [PW_ORDER_RISE] = {PW_TEXT("rise"), LOOK_LENGTH},
    [PW_ORDER_LEG_LEFT] = {PW_TEXT("left leg"), LOOK_LENGTH},
    [PW_ORDER_LEG_RIGHT] = {PW_TEXT("right leg"), LOOK_LENGTH},
    [PW_ORDER_PEAK] = {PW_TEXT("peak from the left"), LOOK_LENGTH},
    [PW_ORDER_RADIUS] = {PW_TEXT("radius"), LOOK_LENGTH},
    [PW_ORDER_TEMPLATE] = {PW_TEXT("template"), LOOK_WORD},
    [PW_ORDER_UNIT] = {PW_TEXT("mulled unit"), LOOK_TEXT},
    [PW_ORDER_UNIT_JOINT] = {PW_TEXT("stands to the others"), LOOK_WORD},
    [PW_ORDER_MULLION] = {PW_TEXT("mullion"), LOOK_LENGTH},
    [PW_ORDER_TUBES] = {PW_TEXT("open tubes"), LOOK_WORD},
    [PW_ORDER_PRESSURE] = {PW_TEXT("design pressure, psf"), LOOK_TEXT},
    [PW_ORDER_ALTITUDE] = {PW_TEXT("altitude of the site, ft"), LOOK_TEXT},
    [PW_ORDER_PLANT] = {PW_TEXT("units sealed at, ft"), LOOK_TEXT},
    [PW_ORDER_LABEL_U] = {PW_TEXT("U-factor of the label, Btu/(h ft2 F)"), LOOK_TEXT},
    [PW_ORDER_LABEL_SHGC] = {PW_TEXT("SHGC of the label"), LOOK_TEXT},
    [PW_ORDER_CERTIFICATE] = {PW_TEXT("certificate number"), LOOK_TEXT},
};

/* Their words, which other files write. */
static const char *const words[] = {PW_TEXT("yes"),
                                    PW_TEXT("no"),
                                    PW_TEXT("YES"),
                                    PW_TEXT("none"),
                                    PW_TEXT("between"),
                                    PW_TEXT("outside"),
                                    PW_TEXT("left"),
                                    PW_TEXT("right"),
                                    PW_TEXT("top"),
                                    PW_TEXT("bronze"),
                                    PW_TEXT("gray"),
                                    PW_TEXT("green"),
                                    PW_TEXT("wanted"),
                                    PW_TEXT("beside"),
                                    PW_TEXT("over"),
                                    PW_TEXT("rectangle"),
                                    PW_TEXT("half_round"),
                                    PW_TEXT("quarter_round"),
                                    PW_TEXT("arch"),
                                    PW_TEXT("circle"),
                                    PW_TEXT("octagon"),
                                    PW_TEXT("triangle"),
                                    PW_TEXT("trapezoid"),
                                    PW_TEXT("gothic"),
                                    PW_TEXT("ask"),
                                    PW_TEXT("ask hinge side"),
                                    PW_TEXT("ask hinge side and swing"),
                                    PW_TEXT("tip to tip, clearance taken off")};

static const char *is_word(const char *text)
{
  for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
    if (strcmp(words[i], text) == 0) return words[i];
  return NULL;
}

/* ---------------------------------------------------------------- comparing */

/* Columns that every list has now, whatever its units are. */
static int always(pw_order_column c)
{
  return c <= PW_ORDER_PACKAGE || (c >= PW_ORDER_TUBES && c < PW_ORDER_COMPARED);
}

static int is_compared(const pw_change_order *p, pw_order_column c)
{
  return p->before->column[c] >= 0 || !always(c);
}

int pw_change_differs(const pw_change_order *p, int b, int a, pw_order_column c)
{
  const char *was = pw_order_at(p->before, (size_t)b, c),
             *is = pw_order_at(p->after, (size_t)a, c);
  double old = 0.0, new = 0.0;
  if (!is_compared(p, c) || strcmp(was, is) == 0) return 0;
  if (shown[c].look == LOOK_COUNT) return strtol(was, NULL, 10) != strtol(is, NULL, 10);
  if (shown[c].look != LOOK_LENGTH || pw_measure_read(was, &old, NULL) != PW_OK ||
      pw_measure_read(is, &new, NULL) != PW_OK)
    return 1;
  return fabs(old - new) > 1e-9; /* "35.5" is "35 1/2" */
}

static int is_ordered(const pw_order_file *o, int row)
{
  return row >= 0 && strcmp(pw_order_at(o, (size_t)row, PW_ORDER_MAY), "yes") == 0;
}

pw_change pw_change_of(const pw_change_order *p, int b, int a)
{
  int then = is_ordered(p->before, b), now = is_ordered(p->after, a);
  if (!then) return now ? PW_CHANGE_ADDED : PW_CHANGE_APART;
  if (!now) return a < 0 ? PW_CHANGE_WITHDRAWN : PW_CHANGE_HELD;
  for (int c = 0; c < PW_ORDER_COMPARED; c++)
    if (pw_change_differs(p, b, a, (pw_order_column)c)) return PW_CHANGE_CHANGED;
  return PW_CHANGE_NONE;
}

/* The dwelling that this order is of. */
static const char *dwelling(const pw_change_order *p)
{
  return p->after->csv.n_row ? pw_order_at(p->after, 0, PW_ORDER_DWELLING)
                             : p->paper.job->dwelling;
}

/* The k-th unit: those of the new list in its order, then those that only the old one has. 0 past the last. */
static int unit_at(const pw_change_order *p, size_t k, int *b, int *a)
{
  const size_t n = p->after->csv.n_row;
  if (k < n) {
    *a = (int)k;
    *b = pw_order_row(p->before, pw_order_at(p->after, k, PW_ORDER_DWELLING),
                      pw_order_at(p->after, k, PW_ORDER_TAG));
    return 1;
  }
  for (size_t r = 0, gone = n; r < p->before->csv.n_row; r++) {
    const char *of = pw_order_at(p->before, r, PW_ORDER_DWELLING);
    if (strcmp(of, dwelling(p)) != 0 ||
        pw_order_row(p->after, of, pw_order_at(p->before, r, PW_ORDER_TAG)) >= 0)
      continue;
    if (gone++ == k) {
      *a = -1;
      *b = (int)r;
      return 1;
    }
  }
  return 0;
}

static size_t count(const pw_change_order *p, pw_change kind)
{
  size_t n = 0;
  int a, b;
  for (size_t k = 0; unit_at(p, k, &b, &a); k++)
    n += pw_change_of(p, b, a) == kind;
  return n;
}

/* Units of a list that are ordered, in this dwelling. */
static long pieces(const pw_change_order *p, const pw_order_file *o)
{
  long n = 0;
  for (size_t r = 0; r < o->csv.n_row; r++)
    if (is_ordered(o, (int)r) && strcmp(pw_order_at(o, r, PW_ORDER_DWELLING), dwelling(p)) == 0)
      n += strtol(pw_order_at(o, r, PW_ORDER_QUANTITY), NULL, 10);
  return n;
}

/* ---------------------------------------------------------------- writing */

/* A hung window has no hand to ask for. */
static int asks_nothing(const pw_order_file *o, int row, pw_order_column c)
{
  return c == PW_ORDER_HANDING && strcmp(pw_order_at(o, (size_t)row, c), "ask") == 0 &&
         strstr(pw_order_at(o, (size_t)row, PW_ORDER_OPERATOR), "-hung") != NULL;
}

static void value(const pw_change_order *p, const pw_order_file *o, int row, pw_order_column c,
                  pw_html *h)
{
  const char *text = row < 0 ? "" : pw_order_at(o, (size_t)row, c);
  double length;
  pw_buildup glass;
  char words_[PW_TEXT_MAX];
  if (!text[0] || asks_nothing(o, row, c)) {
    pw_html_put(h, "&ndash;");
  } else if (shown[c].look == LOOK_LENGTH && pw_measure_read(text, &length, NULL) == PW_OK) {
    if (p->paper.si)
      pw_html_put(h, "%.1f mm", 1e3 * length);
    else
      pw_html_put(h, "%s in", text);
  } else if (shown[c].look == LOOK_WORD) {
    const char *word = is_word(text);
    pw_html_put(h, "<bdi>%s</bdi>",
                pw_say(h, c == PW_ORDER_OPERATOR ? text
                          : word                 ? word
                                                 : text));
  } else if (shown[c].look == LOOK_GLASS && pw_buildup_parse(text, &glass, NULL) == PW_OK) {
    pw_glass_said(h->tongue, &glass, words_, sizeof words_);
    pw_html_put(h, "%s", words_);
  } else {
    pw_html_name(h, text);
  }
}

/* New less old; nothing where one of them is missing. */
static void difference(const pw_change_order *p, int b, int a, pw_order_column c, pw_html *h)
{
  double old, new;
  char tape[32];
  if (b < 0 || a < 0) return;
  const char *was = pw_order_at(p->before, (size_t)b, c),
             *is = pw_order_at(p->after, (size_t)a, c);
  if (shown[c].look == LOOK_COUNT) {
    long d = strtol(is, NULL, 10) - strtol(was, NULL, 10);
    pw_html_put(h, "%s%d", d > 0 ? "+" : "", (int)d);
    return;
  }
  if (shown[c].look != LOOK_LENGTH || pw_measure_read(was, &old, NULL) != PW_OK ||
      pw_measure_read(is, &new, NULL) != PW_OK)
    return;
  const char *sign = new > old ? "+" : "-";
  pw_tape_text(fabs(new - old), 64, tape, sizeof tape);
  if (p->paper.si)
    pw_html_put(h, "%s%.1f mm", sign, 1e3 * fabs(new - old));
  else
    pw_html_put(h, "%s%s in (%s%.1f mm)", sign, tape, sign, 1e3 * fabs(new - old));
}

static void line(const pw_change_order *p, int b, int a, pw_order_column c, pw_html *h)
{
  fprintf(h->f, "<tr data-column=\"%d\">", (int)c);
  pw_html_put(h, "<th scope=\"row\">%s</th><td>", pw_say(h, shown[c].say));
  value(p, p->before, b, c, h);
  pw_html_put(h, "</td><td>");
  value(p, p->after, a, c, h);
  pw_html_put(h, "</td><td>");
  difference(p, b, a, c, h);
  pw_html_put(h, "</td></tr>\n");
}

static const char *const fate[PW_CHANGES] = {
    [PW_CHANGE_NONE] = PW_TEXT("AS BEFORE"),
    [PW_CHANGE_CHANGED] = PW_TEXT("CHANGED: make it as new"),
    [PW_CHANGE_ADDED] = PW_TEXT("ADDED: make it, as the new order says"),
    [PW_CHANGE_HELD] = PW_TEXT("ON HOLD: do not make it until a later order names it"),
    [PW_CHANGE_WITHDRAWN] = PW_TEXT("WITHDRAWN: do not make it"),
    [PW_CHANGE_APART] = PW_TEXT("NOT ORDERED, then or now")};

static const char *const name[PW_CHANGES] = {
    [PW_CHANGE_NONE] = "none",           [PW_CHANGE_CHANGED] = "changed",
    [PW_CHANGE_ADDED] = "added",         [PW_CHANGE_HELD] = "held",
    [PW_CHANGE_WITHDRAWN] = "withdrawn", [PW_CHANGE_APART] = "apart"};

/* What of a unit is told where one of its rows is missing or it was not ordered before. */
static int is_main(pw_order_column c)
{
  return c == PW_ORDER_QUANTITY || c == PW_ORDER_OPERATOR || c == PW_ORDER_WIDTH ||
         c == PW_ORDER_HEIGHT || c == PW_ORDER_GLASS || c == PW_ORDER_TEMPERED ||
         c == PW_ORDER_HANDING;
}

static void unit(const pw_change_order *p, int b, int a, pw_html *h)
{
  pw_change kind = pw_change_of(p, b, a);
  const pw_order_file *o = a >= 0 ? p->after : p->before;
  size_t row = (size_t)(a >= 0 ? a : b);
  const char *tag = pw_order_at(o, row, PW_ORDER_TAG);
  pw_html_put(
      h,
      "<tbody data-tag=\"%s\" data-change=\"%s\"><tr class=\"unit-row\"><th colspan=\"4\" "
      "scope=\"rowgroup\">",
      tag, name[kind]);
  pw_html_name(h, tag);
  pw_html_put(h, " ");
  pw_html_name(h, pw_order_at(o, row, PW_ORDER_ROOM));
  pw_html_put(h, ": %s</th></tr>\n", pw_say(h, fate[kind]));
  for (int c = PW_ORDER_TAG + 1; c < PW_ORDER_COMPARED; c++) {
    int whole = b < 0 || a < 0;
    if (whole ? is_main((pw_order_column)c) : pw_change_differs(p, b, a, (pw_order_column)c))
      line(p, b, a, (pw_order_column)c, h);
  }
  pw_html_put(h, "</tbody>\n");
}

static int is_told(pw_change kind) { return kind != PW_CHANGE_NONE && kind != PW_CHANGE_APART; }

static void changes(const pw_change_order *p, pw_html *h)
{
  int a, b;
  pw_html_put(h, "<h2>What changes</h2>\n");
  pw_html_wide(h, pw_say(h, "What changes"));
  pw_html_put(h, "<table class=\"change\"><thead><tr><th scope=\"col\">What</th><th "
                 "scope=\"col\">Old order</th><th scope=\"col\">New order</th><th "
                 "scope=\"col\">New less old</th></tr></thead>\n");
  for (size_t k = 0; unit_at(p, k, &b, &a); k++)
    if (is_told(pw_change_of(p, b, a))) unit(p, b, a, h);
  pw_html_put(h, "</table></div>\n");
}

/* The units of one fate in a short list. */
static void list(const pw_change_order *p, pw_change kind, pw_html *h)
{
  static const pw_order_column column[] = {PW_ORDER_QUANTITY, PW_ORDER_OPERATOR,
                                           PW_ORDER_HANDING, PW_ORDER_WIDTH, PW_ORDER_HEIGHT};
  enum { COLUMNS = sizeof column / sizeof column[0] };
  int a, b;
  if (count(p, kind) == 0) return;
  pw_html_put(h, "<h2>%s</h2>\n", pw_say(h, fate[kind]));
  pw_html_wide(h, pw_say(h, fate[kind]));
  pw_html_put(h, "<table class=\"change\"><thead><tr><th scope=\"col\">unit</th>");
  for (size_t c = 0; c < COLUMNS; c++)
    pw_html_put(h, "<th scope=\"col\">%s</th>", pw_say(h, shown[column[c]].say));
  pw_html_put(h, "</tr></thead><tbody>\n");
  for (size_t k = 0; unit_at(p, k, &b, &a); k++) {
    if (pw_change_of(p, b, a) != kind) continue;
    const pw_order_file *o = a >= 0 ? p->after : p->before;
    int row = a >= 0 ? a : b;
    const char *tag = pw_order_at(o, (size_t)row, PW_ORDER_TAG);
    pw_html_put(h, "<tr data-tag=\"%s\" data-change=\"%s\"><th scope=\"row\">", tag,
                name[kind]);
    pw_html_name(h, tag);
    pw_html_put(h, " ");
    pw_html_name(h, pw_order_at(o, (size_t)row, PW_ORDER_ROOM));
    pw_html_put(h, "</th>");
    for (size_t c = 0; c < COLUMNS; c++) {
      pw_html_put(h, "<td>");
      value(p, o, row, column[c], h);
      pw_html_put(h, "</td>");
    }
    pw_html_put(h, "</tr>\n");
  }
  pw_html_put(h, "</tbody></table></div>\n");
}

/* Which orders these are, and what is not looked at. */
static void head(const pw_change_order *p, pw_html *h)
{
  static const char blank[] = "<span class=\"line\">&nbsp;</span>";
  const pw_order_file *order[2] = {p->before, p->after};
  size_t other = 0;
  pw_html_put(h,
              "<table class=\"change versions\"><thead><tr><td></td><th "
              "scope=\"col\">Old order</th><th scope=\"col\">New order</th></tr></thead><tbody>"
              "\n<tr><th scope=\"row\">Files</th>");
  for (int k = 0; k < 2; k++) {
    pw_html_put(h, "<td>");
    if (order[k]->files[0])
      pw_html_put(h, "<b>%s</b>", order[k]->files);
    else
      fputs(k ? p->paper.version : blank, h->f);
    pw_html_put(h, "</td>");
  }
  pw_html_put(h, "</tr>\n<tr><th scope=\"row\">Printed</th>");
  for (int k = 0; k < 2; k++) {
    pw_html_put(h, "<td>");
    if (order[k]->printed[0])
      pw_html_put(h, "%s", order[k]->printed);
    else
      fputs(blank, h->f);
    pw_html_put(h, "</td>");
  }
  pw_html_put(h,
              "</tr>\n<tr><th scope=\"row\">Units ordered</th><td>%d</td><td>%d</td></tr>\n"
              "<tr><th scope=\"row\">Maker's number</th><td><span class=\"line\">&nbsp;</span>"
              "</td><td><span class=\"line\">&nbsp;</span></td></tr></tbody></table>\n",
              (int)pieces(p, p->before), (int)pieces(p, p->after));
  for (size_t r = 0; r < p->before->csv.n_row; r++)
    other += strcmp(pw_order_at(p->before, r, PW_ORDER_DWELLING), dwelling(p)) != 0;
  if (other)
    pw_html_put(h,
                "<p>%zu rows of the old order are of other dwellings: not compared here.</p>\n",
                other);
  int any = 0;
  for (int c = 0; c < PW_ORDER_COMPARED; c++) {
    if (is_compared(p, (pw_order_column)c)) continue;
    if (!any++) pw_html_put(h, "<p>The old order does not say, so it is not compared: ");
    pw_html_put(h, "%s%s", any > 1 ? ", " : "", pw_say(h, shown[c].say));
  }
  if (any) pw_html_put(h, ".</p>\n");
}

static void summary(const pw_change_order *p, pw_html *h)
{
  size_t changed = count(p, PW_CHANGE_CHANGED), added = count(p, PW_CHANGE_ADDED),
         held = count(p, PW_CHANGE_HELD), gone = count(p, PW_CHANGE_WITHDRAWN);
  if (changed + added + held + gone == 0) {
    pw_html_put(
        h, "<p class=\"basis\"><b>Nothing has changed: the old order stands as it is, unit "
           "for unit.</b></p>\n");
    return;
  }
  pw_html_put(
      h,
      "<p class=\"basis\"><b>The old order is not to be built from any more; the new one "
      "takes its place.</b> Rows changed %zu, added %zu, on hold %zu, withdrawn %zu; all "
      "others stay as they were.</p>\n",
      changed, added, held, gone);
}

static void confirm(pw_html *h)
{
  pw_html_put(
      h,
      "<section class=\"sign\"><h2>To confirm</h2>\n<table><tbody>\n"
      "<tr><th scope=\"row\">The change can be made</th><td><span class=\"tick\">yes</span> "
      "<span class=\"tick\">already cut or made: <span class=\"line\">&nbsp;</span></span></td>"
      "</tr>\n<tr><th scope=\"row\">Ships on</th><td><span class=\"line\">&nbsp;</span> "
      "cost of the change <span class=\"line\">&nbsp;</span></td></tr>\n"
      "<tr><th scope=\"row\">For the maker</th><td><span class=\"line wide-line\">&nbsp;"
      "</span> name, day <span class=\"line\">&nbsp;</span></td></tr>\n"
      "<tr><th scope=\"row\">For the firm</th><td><span class=\"line wide-line\">&nbsp;</span> "
      "name, day <span class=\"line\">&nbsp;</span></td></tr>\n</tbody></table></section>\n");
}

pw_status pw_change_order_html(const pw_change_order *p, pw_html *h, pw_err *err)
{
  static const char *const style[] = {"plots/paper.css", "plots/order.css", NULL};
  static const char foot[] = PW_TEXT("Old and new order side by side");
  size_t all = 0;
  pw_paper_begin(&p->paper, PW_TEXT("Change order"), style, foot, h);
  head(p, h);
  summary(p, h);
  for (int k = 0; k < PW_CHANGES; k++)
    if (is_told((pw_change)k)) all += count(p, (pw_change)k);
  if (all) changes(p, h);
  list(p, PW_CHANGE_NONE, h);
  list(p, PW_CHANGE_APART, h);
  pw_html_put(h,
              "<p class=\"small\">Remarks and reasons are words and are not compared; each row "
              "of the new order stands whole in order.html and order.csv.</p>\n");
  confirm(h);
  return pw_paper_end(h, err);
}
