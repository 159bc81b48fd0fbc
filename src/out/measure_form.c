#include "out/measure_form.h"

#include "out/calendar.h"
#include "out/html.h"
#include "out/job_title.h"
#include "out/measure_drawing.h"
#include "panewright/lites.h"

/* A reading: its letter in the drawing and what it is called. */
typedef struct reading {
  const char *letter, *say;
} reading;

/* In the order in which they are taken: the pocket, then what stands round it. */
static const reading of_pocket[] = {
    {"W1", "width, bottom"},    {"W2", "width, middle"},  {"W3", "width, top"},
    {"H1", "height, left"},     {"H2", "height, middle"}, {"H3", "height, right"},
    {"D1", "from bottom left"}, {"D2", "from top left"},
};
static const reading around[] = {
    {"F", "one side fin"},         {"L", "sill past the stucco"}, {"R", "reveal to the glass"},
    {"S", "sill above the floor"}, {"G", "sill above ground"},
};

/* What is measured of an outline that is no rectangle. */
static const reading of_shape[] = {
    {"", "rise"}, {"", "left leg"}, {"", "right leg"}, {"", "peak from left"}};

#define COUNT(a) (sizeof(a) / sizeof(a)[0])

/* What is easily forgotten: a question and its answers, each with a box before it. "..." is a line to write on. */
static const struct {
  const char *ask, *answer[8];
} question[] = {
    {"Use of the room",
     {"bedroom (escape)", "bath, by tub or shower", "stair", "other ...", NULL}},
    {"Opens (seen from outside; arrow on the drawing)",
     {"fixed", "slides: left", "right", "hung", "hinged: left", "right", "top", NULL}},
    {"Glass", {"by a door", "tempered mark seen", "obscure", "tinted", "double pane", NULL}},
    {"Grilles", {"none", "between panes", "outside", "columns x rows ...", NULL}},
    {"Screen", {"none", "half", "whole", NULL}},
    {"Fins and lip", {"fins may come off", "must stay", "lip may come off", "must stay", NULL}},
    {"In the way",
     {"alarm contact", "power or lamp", "blind or drape", "plant, tree", "railing, bars",
      NULL}},
    {"Before the work",
     {"paint from before 1978: lead-safe work", "ladder work", "rot or loose frame", NULL}},
};

static void boxes(const pw_measure_form *form, pw_html *h)
{
  if (form->si)
    pw_html_put(h, "<td class=\"write\"><span>&nbsp;</span> mm</td>");
  else
    pw_html_put(h, "<td class=\"write\"><span>&nbsp;</span> in</td>"
                   "<td class=\"write\"><span>&nbsp;</span>/16</td>");
}

static void reading_row(const pw_measure_form *form, const reading *r, pw_html *h)
{
  pw_html_put(h, "<tr><th scope=\"row\"><b>%s</b> %s</th>", r->letter, r->say);
  boxes(form, h);
  pw_html_put(h, "</tr>\n");
}

/* Rows from..to of the readings as a table. */
static void table(const pw_measure_form *form, const reading r[], size_t n, pw_html *h)
{
  pw_html_put(h,
              "<table class=\"readings\"><thead><tr><th scope=\"col\">reading</th>"
              "<th scope=\"col\" colspan=\"%d\">by tape</th></tr></thead><tbody>\n",
              form->si ? 1 : 2);
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

static void questions(pw_html *h)
{
  pw_html_put(h, "<ul class=\"ask\">\n");
  for (size_t i = 0; i < COUNT(question); i++) {
    pw_html_put(h, "<li><b>%s</b><br>", question[i].ask);
    for (const char *const *a = question[i].answer; *a; a++)
      pw_html_put(h, "<span class=\"tick\">%s</span> ", *a);
    pw_html_put(h, "</li>\n");
  }
  pw_html_put(h, "<li><b>Note</b><div class=\"rule\">&nbsp;</div></li>\n</ul>\n");
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
  pw_html_put(
      h, "</h2>\n<p>Faces %s; %s%s%s%s; count %d%s.</p>\n", pw_side_word(o->facing_deg),
      pw_operator_name(o->operator_existing), o->config[0] ? " " : "", o->config,
      o->shape == PW_SHAPE_RECTANGLE ? "" : ", no rectangle: its measures stand at the right",
      o->quantity, o->standing == PW_STAYS ? "; stays as it is" : "");
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

static void top(const pw_measure_form *form, pw_html *h)
{
  char date[11];
  pw_date_write(form->date, date);
  pw_html_put(h, "<header><h1>Measuring form</h1>\n<p>");
  if (form->blank == 0) {
    pw_html_name(h, pw_job_title(form->job).text);
    pw_html_put(h, ". Files %s, printed %s. ", form->version, date);
  } else {
    pw_html_put(h, "Job <span class=\"line wide-line\">&nbsp;</span> ");
  }
  pw_html_put(
      h,
      "Measured by <span class=\"line\">&nbsp;</span> on <span "
      "class=\"line\">&nbsp;</span></p>\n"
      "<p class=\"small\">Measure the clear pocket: between the side fins and above the "
      "sill lip, where the tape meets the frame, not the glass. Read down, never up, to "
      "the %s. Left and right are as seen from outside; measuring from the room, turn them "
      "round. Three widths or heights that differ by more than %s: measure again.</p>"
      "</header>\n",
      form->si ? "millimetre" : "sixteenth", form->si ? "3 mm" : "1/8 in");
}

pw_status pw_measure_form_html(const pw_measure_form *form, pw_html *h, pw_err *err)
{
  static const char *const style[] = {"plots/paper.css", "plots/measure.css", NULL};
  char title[200];
  snprintf(title, sizeof title, "Measuring form%s%s", form->blank ? "" : ": ",
           form->blank ? "" : pw_job_title(form->job).text);
  pw_html_begin(h, title, style);
  pw_html_put(h, "<main>\n");
  top(form, h);
  size_t n = form->blank ? form->blank : form->job->n_opening;
  for (size_t i = 0; i < n; i++)
    block(form, form->blank ? NULL : &form->job->opening[i], i + 1, h);
  pw_html_put(h, "</main>\n");
  pw_html_end(h);
  if (ferror(h->f)) return pw_fail(err, PW_E_IO, NULL, "cannot write the measuring form");
  return PW_OK;
}
