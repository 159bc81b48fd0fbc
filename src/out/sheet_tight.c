/* What tighter windows save, as a line of its own, and the two cautions that follow from it. */
#include "out/message_text.h"
#include "out/sheet_impl.h"
#include "out/tight_out.h"

static void figure(const pw_sheet *sheet, pw_html *h, double value, size_t p, const char *key)
{
  pw_figure_put(h, sheet->units, PW_FIGURE_MONEY_5, value, "tightness.packages.%zu.%s", p, key);
}

void sheet_tight(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  const pw_compare_tight *t = sheet->frame->tight;
  if (!t || !t->told) return;
  pw_html_put(h,
              "<h3>Tighter windows, apart from their glass</h3>\n"
              "<table class=\"bands\"><thead><tr><th scope=\"col\">Likely, and the range of 8 "
              "in 10</th>");
  sheet_package_heads(sheet, h);
  pw_html_put(h, "</tr></thead>\n<tbody><tr><th scope=\"row\">Less draught<small>$ a year of "
                 "heating and cooling, in no other figure here</small></th>");
  for (size_t p = 0; p < c->n_package; p++) {
    const pw_tight_package *k = &t->package[p];
    pw_html_put(h, "<td><span class=\"likely\">");
    figure(sheet, h, k->saving.cost_year, p, "saving");
    pw_html_put(h, "</span> <span class=\"band\">");
    figure(sheet, h, k->cost_low, p, "saving_low");
    pw_html_put(h, " to ");
    figure(sheet, h, k->cost_high, p, "saving_high");
    pw_html_put(h, "</span></td>");
  }
  pw_html_put(h, "</tr></tbody></table>\n<p class=\"small\">By what old sashes and new windows "
                 "leak as published, most of it from memory: the old sashes make about ");
  pw_figure_put(h, sheet->units, PW_FIGURE_SHARE, t->sashes / t->area,
                "tightness.house.sashes_share");
  pw_html_put(h, " of what the house leaks. A blower-door reading with the windows taped and "
                 "without would narrow it.</p>\n");
  if (t->n_caution == 0) return;
  pw_html_put(h, "<ul class=\"remarks\">\n");
  for (size_t i = 0; i < t->n_caution; i++) {
    const pw_caution *k = &t->caution[i];
    char text[PW_MESSAGE_TEXT];
    pw_message_text(h->tongue, &k->finding, text, sizeof text);
    pw_html_put(h, "<li>%s (%s; decides: %s)</li>\n", text, pw_say(h, k->source),
                pw_say(h, k->defer_to));
  }
  pw_html_put(h, "</ul>\n");
}
