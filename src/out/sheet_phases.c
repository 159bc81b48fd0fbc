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
    if ((any = pw_facts_line(job, k, line)) <= 0) continue;
    if (!open++) pw_html_put(h, "<ul class=\"remarks\">\n");
    pw_html_put(h, "<li><bdi>%s</bdi></li>\n", line);
  }
  if (open) pw_html_put(h, "</ul>\n");
}

static void cell(const pw_sheet *sheet, pw_html *h, pw_figure kind, double value, size_t k,
                 size_t p, const char *key)
{
  pw_html_put(h, "<td>");
  pw_figure_put(h, sheet->units, kind, value, "phases.%zu.packages.%zu.%s", k, p, key);
  pw_html_put(h, "</td>");
}

void sheet_phases(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  const pw_compare_phases *phases = sheet->frame->phases;
  if (!phases || phases->n_phase < 2) return;
  pw_html_put(h, "<h2>Phase by phase</h2>\n");
  pw_html_wide(h, "Phase by phase");
  pw_html_put(h,
              "<table class=\"bands\"><thead><tr><th scope=\"col\">What each phase costs and "
              "saves</th>");
  sheet_package_heads(sheet, h);
  pw_html_put(h, "</tr></thead>\n");
  for (size_t k = 0; k < phases->n_phase; k++) {
    pw_html_put(h,
                "<tbody style=\"break-inside: avoid\"><tr><th scope=\"row\">Phase %d<small>%d "
                "window%s, price</small></th>",
                phases->number[k], phases->n_window[k], phases->n_window[k] == 1 ? "" : "s");
    for (size_t p = 0; p < c->n_package; p++)
      if (phases->step[p][k].price > 0.0)
        cell(sheet, h, PW_FIGURE_MONEY, pw_phase_told(phases, k, p, 0), k, p, "price_told");
      else
        pw_html_put(h, "<td>-</td>");
    pw_html_put(h, "</tr>\n<tr><th scope=\"row\"><small>saved a year</small></th>");
    for (size_t p = 0; p < c->n_package; p++)
      cell(sheet, h, PW_FIGURE_MONEY, pw_phase_told(phases, k, p, 1), k, p, "saving_told");
    pw_html_put(h, "</tr></tbody>\n");
  }
  pw_html_put(h,
              "</table></div>\n<p class=\"small\">A phase saves what the house cost after the "
              "one before less what it costs after it: the phases add up to the whole.%s</p>\n",
              phases->paid_once
                  ? " What is paid once for the job, as a permit, stands in the first."
                  : "");
}
