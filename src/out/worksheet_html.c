#include <string.h>

#include "out/alarm.h"
#include "out/html.h"
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
  static const char *const blank[] = {[PW_FIELD_COMPUTED] = "-",
                                      [PW_FIELD_TYPED] = "<span class=\"line\">&nbsp;</span>",
                                      [PW_FIELD_DOCUMENT] =
                                          "<span class=\"line\">&nbsp;</span>",
                                      [PW_FIELD_SIGNED] = "<span class=\"line\">&nbsp;</span>"};
  if (!field->value[0] && field->origin == PW_FIELD_LABEL)
    pw_html_put(h, "<span class=\"open\">from label</span>");
  else if (!field->value[0])
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
    if (field->struck) {
      pw_html_put(h, "<li class=\"struck\"><s>%s</s> <strong>%s</strong></li>\n", field->value,
                  field->note);
      continue;
    }
    pw_html_put(h, "<li><bdi>%s</bdi>", field->value);
    if (strcmp(field->name, pw_say(h, "usual")) != 0 &&
        strcmp(field->name, pw_say(h, "declared")) != 0)
      pw_html_put(h, " <small>%s</small>", field->name);
    fputs("</li>\n", h->f);
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
    pw_html_put(h, "<tr><th scope=\"row\"><bdi>%s</bdi></th>",
                mark[0] ? mark : pw_say(h, PW_TEXT("all of them")));
    for (size_t k = 0; k < n; k++) {
      fputs("<td>", h->f);
      if (i < to && strcmp(w->field[i].mark, mark) == 0 &&
          strcmp(w->field[i].name, name[k]) == 0)
        put_value(&w->field[i++], h);
      fputs("</td>", h->f);
    }
    fputs("</tr>\n", h->f);
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
  } verdict[] = {[PW_VERDICT_MEETS] = {PW_TEXT("Meets the criteria"), "pass"},
                 [PW_VERDICT_FAILS] = {PW_TEXT("Does not meet the criteria"), "fail"},
                 [PW_VERDICT_NO_LABEL] = {PW_TEXT("Open: label values are missing"), "wait"},
                 [PW_VERDICT_ENDED] = {PW_TEXT("The program has ended"), "fail"},
                 [PW_VERDICT_EARLY] = {PW_TEXT("The program has not begun"), "fail"},
                 [PW_VERDICT_NO_DATE] = {PW_TEXT("Open: no install date"), "wait"}};
  pw_html_put(h, "<p><bdi>%s</bdi>; package <bdi>%s</bdi></p>\n",
              input->program->row[0].program,
              input->compare->rated.package_set[input->package].name);
  char text[PW_MESSAGE_TEXT];
  pw_html_put(h,
              "<p class=\"verdict %s\"><strong>%s.</strong> <bdi>%s</bdi>. Amount <span "
              "class=\"fig\">$%.2f</span>.</p>\n",
              verdict[w->result.verdict].style, pw_say(h, verdict[w->result.verdict].word),
              pw_program_said(h->tongue, &w->result, text), w->amount.total);
  pw_html_put(
      h, "<p>Values of new windows come from the certified label alone; where the job holds "
         "none, the field says <span class=\"open\">from label</span> and stays open. A label "
         "rates the maker's product at a standard size; a computed value is of this opening "
         "with the old frame in it, so the two differ, and a computed one never stands in "
         "the place of a label. Ask the program which edition of its rules holds.</p>\n");
}

static void put_block(const pw_worksheet *w, size_t from, size_t to, pw_html *h)
{
  pw_html_put(h, "<section>\n<h2>%s</h2>\n", w->field[from].block);
  if (w->field[from].mark[0])
    put_table(w, from, to, h);
  else if (is_list(&w->field[from]))
    put_list(w, from, to, h);
  else
    put_pairs(w, from, to, h);
  fputs("</section>\n", h->f);
}

pw_status pw_worksheet_html(const pw_worksheet_input *input, const pw_worksheet *w, pw_html *h,
                            pw_err *err)
{
  static const char *const style[] = {"plots/paper.css", "plots/worksheet.css", NULL};
  int together = 0;
  pw_paper_begin(&input->paper, PW_TEXT("Rebate worksheet"), style, NULL, h);
  head(input, w, h);
  pw_alarm_html(input->compare, h);
  for (size_t i = 0, end; i < w->n; i = end) {
    end = block_end(w, i);
    /* what is signed and the signatures stand on one page: the last two blocks */
    if (!together && w->field[i].origin == PW_FIELD_SIGNED) {
      fputs("<div class=\"together\">\n", h->f);
      together = 1;
    }
    put_block(w, i, end, h);
  }
  if (together) fputs("</div>\n", h->f);
  return pw_paper_end(h, err);
}
