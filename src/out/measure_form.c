#include "out/measure_form.h"

#include "out/calendar.h"
#include "out/measure_drawing.h"
#include "panewright/lites.h"

/* A reading: its letter in the drawing and what it is called. */
typedef struct reading {
  const char *letter, *say;
} reading;

/* In the order in which they are taken: the pocket, then what stands round it. */
static const reading of_pocket[] = {
    {"W1", PW_TEXT("width, bottom")},    {"W2", PW_TEXT("width, middle")},
    {"W3", PW_TEXT("width, top")},       {"H1", PW_TEXT("height, left")},
    {"H2", PW_TEXT("height, middle")},   {"H3", PW_TEXT("height, right")},
    {"D1", PW_TEXT("from bottom left")}, {"D2", PW_TEXT("from top left")},
};
static const reading around[] = {
    {"F", PW_TEXT("one side fin")},        {"L", PW_TEXT("sill past the stucco")},
    {"R", PW_TEXT("reveal to the glass")}, {"S", PW_TEXT("sill above the floor")},
    {"G", PW_TEXT("sill above ground")},
};

/* What is measured of an outline that is no rectangle. */
static const reading of_shape[] = {{"", PW_TEXT("rise")},
                                   {"", PW_TEXT("left leg")},
                                   {"", PW_TEXT("right leg")},
                                   {"", PW_TEXT("peak from left")}};

#define COUNT(a) (sizeof(a) / sizeof(a)[0])

/* What is easily forgotten: a question and its answers, each with a box before it. "..." is a line to write on. */
static const struct {
  const char *ask, *answer[8];
} question[] = {
    {PW_TEXT("Use of the room"),
     {PW_TEXT("bedroom (escape)"), PW_TEXT("bath, by tub or shower"), PW_TEXT("stair"),
      PW_TEXT("other ..."), NULL}},
    {PW_TEXT("Opens (seen from outside; arrow on the drawing)"),
     {PW_TEXT("fixed"), PW_TEXT("slides: left"), PW_TEXT("right"), PW_TEXT("hung"),
      PW_TEXT("hinged: left"), PW_TEXT("right"), PW_TEXT("top"), NULL}},
    {PW_TEXT("Glass"),
     {PW_TEXT("by a door"), PW_TEXT("tempered mark seen"), PW_TEXT("obscure"),
      PW_TEXT("tinted"), PW_TEXT("double pane"), NULL}},
    {PW_TEXT("Grilles"),
     {PW_TEXT("none"), PW_TEXT("between panes"), PW_TEXT("outside"),
      PW_TEXT("columns x rows ..."), NULL}},
    {PW_TEXT("Screen"), {PW_TEXT("none"), PW_TEXT("half"), PW_TEXT("whole"), NULL}},
    {PW_TEXT("Fins and lip"),
     {PW_TEXT("fins may come off"), PW_TEXT("must stay"), PW_TEXT("lip may come off"),
      PW_TEXT("must stay"), NULL}},
    {PW_TEXT("In the way"),
     {PW_TEXT("alarm contact"), PW_TEXT("power or lamp"), PW_TEXT("blind or drape"),
      PW_TEXT("plant, tree"), PW_TEXT("railing, bars"), NULL}},
    {PW_TEXT("Before the work"),
     {PW_TEXT("paint from before 1978: lead-safe work"), PW_TEXT("ladder work"),
      PW_TEXT("rot or loose frame"), NULL}},
};

static void boxes(const pw_measure_form *form, pw_html *h)
{
  if (form->paper.si)
    pw_html_put(h, "<td class=\"write\"><span>&nbsp;</span> mm</td>");
  else
    pw_html_put(h, "<td class=\"write\"><span>&nbsp;</span> in</td>"
                   "<td class=\"write\"><span>&nbsp;</span>/16</td>");
}

static void reading_row(const pw_measure_form *form, const reading *r, pw_html *h)
{
  pw_html_put(h, "<tr><th scope=\"row\">");
  if (r->letter[0]) pw_html_put(h, "<b>%s</b> ", r->letter);
  pw_html_put(h, "%s</th>", pw_say(h, r->say));
  boxes(form, h);
  pw_html_put(h, "</tr>\n");
}

/* Rows from..to of the readings as a table. */
static void table(const pw_measure_form *form, const reading r[], size_t n, pw_html *h)
{
  pw_html_put(h,
              "<table class=\"readings\"><thead><tr><th scope=\"col\">reading</th>"
              "<th scope=\"col\" colspan=\"%d\">by tape</th></tr></thead><tbody>\n",
              form->paper.si ? 1 : 2);
  for (size_t i = 0; i < n; i++)
    reading_row(form, &r[i], h);
  pw_html_put(h, "</tbody></table>\n");
}

/* The pocket beside the drawing, the rest in the third column. */
static void readings(const pw_measure_form *form, const pw_opening *o, pw_html *h)
{
  pw_html_put(h, "<div>\n");
  table(form, of_pocket, COUNT(of_pocket), h);
  pw_html_put(h, "</div><div>\n");
  table(form, around, COUNT(around), h);
  if (o && o->shape != PW_SHAPE_RECTANGLE)
    table(form, of_shape, COUNT(of_shape), h);
  else
    pw_html_put(h,
                "<p class=\"small\">No rectangle? Draw it on the back, with its rise, legs and "
                "peak, left and right as seen from outside.</p>\n");
  pw_html_put(h, "</div>\n");
}

static void ask(size_t i, pw_html *h)
{
  pw_html_put(h, "<li><b>%s</b><br>", pw_say(h, question[i].ask));
  for (const char *const *a = question[i].answer; *a; a++)
    pw_html_put(h, "<span class=\"tick\">%s</span> ", pw_say(h, *a));
  pw_html_put(h, "</li>\n");
}

/* Two lists side by side, the note under the shorter: a converter lays out columns of CSS many times over. */
static void questions(pw_html *h)
{
  size_t half = COUNT(question) / 2 + 1;
  pw_html_put(h, "<div class=\"asked\"><ul class=\"ask\">\n");
  for (size_t i = 0; i < half; i++)
    ask(i, h);
  pw_html_put(h, "</ul><ul class=\"ask\">\n");
  for (size_t i = half; i < COUNT(question); i++)
    ask(i, h);
  pw_html_put(h, "<li><b>Note</b><div class=\"rule\">&nbsp;</div></li>\n</ul></div>\n");
}

static void head(const pw_opening *o, size_t number, pw_html *h)
{
  if (!o) {
    pw_html_put(
        h, "<h2>Opening <span class=\"line\">&nbsp;</span> room <span class=\"line wide-line\">"
           "</span> faces <span class=\"line\">&nbsp;</span> count <span "
           "class=\"line\">&nbsp;</span>"
           "</h2>\n");
    return;
  }
  pw_html_put(h, "<h2>%zu. Opening ", number);
  pw_html_name(h, o->tag);
  pw_html_put(h, ": ");
  pw_html_name(h, o->room);
  pw_html_put(h, "</h2>\n<p>Faces %s; %s%s%s%s; count %d%s.</p>\n",
              pw_say(h, pw_side_word(o->facing_deg)),
              pw_say(h, pw_operator_name(o->operator_existing)), o->config[0] ? " " : "",
              o->config,
              o->shape == PW_SHAPE_RECTANGLE
                  ? ""
                  : pw_say(h, ", no rectangle: its measures stand at the right"),
              o->quantity, o->standing == PW_STAYS ? pw_say(h, "; stays as it is") : "");
}

static void block(const pw_measure_form *form, const pw_opening *o, size_t number, pw_html *h)
{
  pw_html_put(h, "<section class=\"opening\">\n");
  head(o, number, h);
  pw_html_put(h, "<div class=\"beside\"><div>\n");
  pw_measure_drawing(h);
  pw_html_put(h, "</div>\n");
  readings(form, o, h);
  pw_html_put(h, "</div>\n");
  questions(h);
  pw_html_put(h, "</section>\n");
}

/* A form that is filled in has the head of every paper; a blank one names no job. */
static void top(const pw_measure_form *form, pw_html *h)
{
  static const char *const style[] = {"plots/paper.css", "plots/measure.css", NULL};
  static const char title[] = PW_TEXT("Measuring form");
  static const char foot[] =
      PW_TEXT("Readings taken on site: check against the order before it goes out");
  if (form->blank == 0) {
    pw_paper_begin(&form->paper, title, style, foot, h);
  } else {
    pw_html_begin(h, pw_say(h, title), style, foot);
    pw_html_put(h, "<main>\n<header><h1>%s</h1></header>\n<p>", pw_say(h, title));
    pw_html_put(h, "Job <span class=\"line wide-line\">&nbsp;</span></p>\n");
  }
  pw_html_put(h, "<p>Measured by <span class=\"line\">&nbsp;</span> on <span "
                 "class=\"line\">&nbsp;</span></p>\n");
  pw_html_put(
      h,
      "<p class=\"small\">Measure the clear pocket: between the side fins and above the "
      "sill lip, where the tape meets the frame, not the glass. Read down, never up, to "
      "the %s. Left and right are as seen from outside; measuring from the room, turn "
      "them round. Three widths or heights that differ by more than %s: measure "
      "again.</p>\n",
      form->paper.si ? pw_say(h, "millimetre") : pw_say(h, "sixteenth"),
      form->paper.si ? "3 mm" : pw_say(h, "1/8 in"));
}

pw_status pw_measure_form_html(const pw_measure_form *form, pw_html *h, pw_err *err)
{
  top(form, h);
  size_t n = form->blank ? form->blank : form->paper.job->n_opening;
  for (size_t i = 0; i < n; i++)
    block(form, form->blank ? NULL : &form->paper.job->opening[i], i + 1, h);
  return pw_paper_end(h, err);
}
