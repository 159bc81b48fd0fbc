/* What stays or comes later, and the phases of the job. */
#include "out/opening_facts.h"
#include "out/phases_out.h"
#include "out/sheet_impl.h"

void sheet_facts(const pw_sheet *sheet, pw_html *h)
{
  const pw_job *job = sheet->compare->job;
  char line[PW_FACTS_LINE];
  int any = 0, open = 0;
  for (size_t k = 0; any >= 0; k++) {
    if ((any = pw_facts_line(job, k, h->tongue, 0, line)) <= 0) continue;
    if (!open++) fputs("<ul class=\"remarks\">\n", h->f);
    pw_html_put(h, "<li><bdi>%s</bdi></li>\n", line);
  }
  if (open) fputs("</ul>\n", h->f);
}

static void cell(const pw_sheet *sheet, pw_html *h, pw_figure kind, double value, size_t k,
                 size_t p, const char *key)
{
  fputs("<td>", h->f);
  pw_figure_put(h, sheet->units, kind, value, "phases.%zu.packages.%zu.%s", k, p, key);
  fputs("</td>", h->f);
}

static void price_cells(const pw_sheet *sheet, pw_html *h, size_t k)
{
  const pw_compare_phases *phases = sheet->frame->phases;
  for (size_t p = 0; p < sheet->compare->n_package; p++)
    if (phases->step[p][k].price > 0.0)
      cell(sheet, h, PW_FIGURE_MONEY, pw_phase_told(phases, k, p, 0), k, p, "price_told");
    else
      fputs("<td>-</td>", h->f);
}

void sheet_phases(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  const pw_compare_phases *phases = sheet->frame->phases;
  const char *title = pw_say(h, PW_TEXT("Phase by phase"));
  if (!phases || phases->n_phase < 2) return;
  pw_html_put(h, "<h3>%s</h3>\n", title);
  pw_html_wide(h, title);
  pw_html_put(h,
              "<table class=\"bands\"><thead><tr><th scope=\"col\">What each phase costs and "
              "saves against the windows there now, $</th>");
  sheet_package_heads(sheet, h);
  fputs("</tr></thead>\n", h->f);
  for (size_t k = 0; k < phases->n_phase; k++) {
    int n = phases->n_window[k];
    pw_html_put(
        h,
        pw_tongue_count(h->tongue,
                        "<tbody style=\"break-inside: avoid\"><tr><th scope=\"row\">Phase "
                        "%d<small>%d window, price</small></th>",
                        "<tbody style=\"break-inside: avoid\"><tr><th scope=\"row\">Phase "
                        "%d<small>%d windows, price</small></th>",
                        n),
        phases->number[k], n);
    price_cells(sheet, h, k);
    pw_html_put(h, "</tr>\n<tr><th scope=\"row\"><small>saved a year</small></th>");
    for (size_t p = 0; p < c->n_package; p++)
      cell(sheet, h, PW_FIGURE_MONEY, pw_phase_told(phases, k, p, 1), k, p, "saving_told");
    fputs("</tr></tbody>\n", h->f);
  }
  fputs("</table></div>\n", h->f);
  pw_html_put(h,
              "<p class=\"small\">A phase saves what the house cost after the one before less "
              "what it costs after it: the phases add up to the whole.");
  if (phases->paid_once)
    pw_html_put(h, " What is paid once for the job, as a permit, stands in the first.");
  fputs("</p>\n", h->f);
}
