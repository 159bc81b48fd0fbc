#include <string.h>

#include "out/alarm.h"
#include "out/html.h"
#include "out/job_title.h"
#include "out/range_out.h"
#include "out/worksheet.h"

enum { COLUMNS_MAX = 24 };

/* One past the last field of the block that begins at i. */
static size_t block_end(const pw_worksheet *w, size_t i)
{
  size_t end = i;
  while (end < w->n && w->field[end].block == w->field[i].block)
    end++;
  return end;
}

static void put_value(const pw_field *field, pw_html *h)
{
  static const char *const blank[] = {
      [PW_FIELD_LABEL] = "<span class=\"open\">from label</span>",
      [PW_FIELD_COMPUTED] = "-",
      [PW_FIELD_TYPED] = "<span class=\"line\">&nbsp;</span>",
      [PW_FIELD_DOCUMENT] = "<span class=\"line\">&nbsp;</span>",
      [PW_FIELD_SIGNED] = "<span class=\"line\">&nbsp;</span>"};
  if (!field->value[0])
    fputs(blank[field->origin], h->f);
  else if (field->key[0])
    pw_html_put(h, "<span class=\"fig\" data-kind=\"%s\" data-key=\"%s\">%s</span>",
                pw_figure_name(field->kind), field->key, field->value);
  else
    pw_html_name(h, field->value);
}

/* ---------------------------------------------------------------- forms of a block */

static void put_list(const pw_worksheet *w, size_t from, size_t to, pw_html *h)
{
  pw_html_put(h, "<ul class=\"check\">\n");
  for (size_t i = from; i < to; i++) {
    const pw_field *field = &w->field[i];
    pw_html_put(h, "<li><bdi>%s</bdi>", field->value);
    if (strcmp(field->name, "usual") != 0 && strcmp(field->name, "declared") != 0)
      pw_html_put(h, " <small>%s</small>", field->name);
    pw_html_put(h, "</li>\n");
  }
  pw_html_put(h, "</ul>\n");
}

static void put_pairs(const pw_worksheet *w, size_t from, size_t to, pw_html *h)
{
  pw_html_put(h, "<table class=\"pairs\"><tbody>\n");
  for (size_t i = from; i < to; i++) {
    const pw_field *field = &w->field[i];
    if (field->name[0])
      pw_html_put(h, "<tr><th scope=\"row\">%s</th><td>", field->name);
    else /* no head rather than an empty one */
      pw_html_put(h, "<tr><td colspan=\"2\">");
    put_value(field, h);
    if (field->note[0]) pw_html_put(h, " <small><bdi>%s</bdi></small>", field->note);
    pw_html_put(h, "</td></tr>\n");
  }
  pw_html_put(h, "</tbody></table>\n");
}

/* Names of a block in the order in which they first come. */
static size_t columns(const pw_worksheet *w, size_t from, size_t to,
                      const char *name[COLUMNS_MAX])
{
  size_t n = 0;
  for (size_t i = from; i < to; i++) {
    size_t k = 0;
    while (k < n && strcmp(name[k], w->field[i].name) != 0)
      k++;
    if (k == n && n < COLUMNS_MAX) name[n++] = w->field[i].name;
  }
  return n;
}

/* A row a mark, a column a name. */
static void put_table(const pw_worksheet *w, size_t from, size_t to, pw_html *h)
{
  const char *name[COLUMNS_MAX];
  size_t n = columns(w, from, to, name);
  pw_html_wide(h, w->field[from].block);
  pw_html_put(h, "<table class=\"marks\"><thead><tr><th scope=\"col\">mark</th>");
  for (size_t k = 0; k < n; k++)
    pw_html_put(h, "<th scope=\"col\">%s</th>", name[k]);
  pw_html_put(h, "</tr></thead>\n<tbody>\n");
  for (size_t i = from; i < to;) {
    const char *mark = w->field[i].mark;
    pw_html_put(h, "<tr><th scope=\"row\"><bdi>%s</bdi></th>", mark);
    for (size_t k = 0; k < n; k++) {
      pw_html_put(h, "<td>");
      if (i < to && strcmp(w->field[i].mark, mark) == 0 &&
          strcmp(w->field[i].name, name[k]) == 0)
        put_value(&w->field[i++], h);
      pw_html_put(h, "</td>");
    }
    pw_html_put(h, "</tr>\n");
  }
  pw_html_put(h, "</tbody></table></div>\n");
}

static int is_list(const pw_field *field)
{
  return field->value[0] &&
         (field->origin == PW_FIELD_DOCUMENT || field->origin == PW_FIELD_SIGNED);
}

/* ---------------------------------------------------------------- document */

static void head(const pw_worksheet_input *input, const pw_worksheet *w, pw_html *h)
{
  static const struct {
    const char *word, *style;
  } verdict[] = {[PW_VERDICT_MEETS] = {"Meets the criteria", "pass"},
                 [PW_VERDICT_FAILS] = {"Does not meet the criteria", "fail"},
                 [PW_VERDICT_NO_LABEL] = {"Open: label values are missing", "wait"},
                 [PW_VERDICT_ENDED] = {"The program has ended", "fail"},
                 [PW_VERDICT_EARLY] = {"The program has not begun", "fail"},
                 [PW_VERDICT_NO_DATE] = {"Open: no install date", "wait"}};
  const pw_compare *c = input->compare;
  pw_html_put(h,
              "<header><h1>Rebate worksheet</h1>\n<p><bdi>%s</bdi>; job <bdi>%s</bdi>; package "
              "<bdi>%s</bdi></p></header>\n",
              input->program->row[0].program, pw_job_title(c->job).text,
              c->package_set[input->package].name);
  char text[PW_MESSAGE_TEXT];
  pw_html_put(h,
              "<p class=\"verdict %s\"><strong>%s.</strong> <bdi>%s</bdi>. Amount <span "
              "class=\"fig\">$%.2f</span>.</p>\n",
              verdict[w->result.verdict].style, verdict[w->result.verdict].word,
              pw_program_said(h->tongue, &w->result, text), w->amount.total);
  pw_html_put(
      h, "<p>Values of new windows come from the certified label alone; where the job holds "
         "none, the field says <span class=\"open\">from label</span> and stays open. A label "
         "rates the maker's product at a standard size; a computed value is of this opening "
         "with the old frame in it, so the two differ, and a computed one never stands in "
         "the place of a label. Ask the program which edition of its rules holds.</p>\n");
}

pw_status pw_worksheet_html(const pw_worksheet_input *input, const pw_worksheet *w, pw_html *h,
                            pw_err *err)
{
  static const char *const style[] = {"plots/paper.css", "plots/worksheet.css", NULL};
  char title[200];
  snprintf(title, sizeof title, "Rebate worksheet: %.60s, %.60s",
           input->program->row[0].program, pw_job_title(input->compare->job).text);
  pw_html_begin(h, title, style, pw_html_foot);
  pw_html_put(h, "<main>\n");
  head(input, w, h);
  pw_alarm_html(input->compare, h);
  for (size_t i = 0; i < w->n;) {
    size_t end = block_end(w, i);
    pw_html_put(h, "<section>\n<h2>%s</h2>\n", w->field[i].block);
    if (w->field[i].mark[0])
      put_table(w, i, end, h);
    else if (is_list(&w->field[i]))
      put_list(w, i, end, h);
    else
      put_pairs(w, i, end, h);
    pw_html_put(h, "</section>\n");
    i = end;
  }
  pw_html_put(h, "</main>\n");
  pw_html_end(h);
  return ferror(h->f) ? pw_fail(err, PW_E_IO, NULL, "cannot write the worksheet") : PW_OK;
}
