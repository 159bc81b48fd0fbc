/* Which windows first: ranked by what a dollar spent on each saves. */
#include <math.h>

#include "out/sheet_impl.h"
#include "study/first_window.h"

/* What the parts of a package's windows are brought to, so that they add up to the saving that the sheet tells of it. */
static double scale(const pw_sheet *sheet, size_t p, const pw_first_window first[], size_t n)
{
  const pw_band *b = sheet_band_of(sheet, PW_RESULT_SAVING, (int)p);
  double told = b ? b->p50 : sheet->compare->billed.package_set[p].saving.cost_year, sum = 0.0;
  for (size_t k = 0; k < n; k++)
    sum += first[k].saving;
  return sum > 0.0 && told > 0.0 ? told / sum : 1.0;
}

static void money(const pw_sheet *sheet, pw_html *h, pw_window_result result, double value,
                  size_t i, size_t p, double factor)
{
  const pw_window_form *form = pw_window_result_of(result);
  fputs("<td>", h->f);
  if (fabs(factor - 1.0) < 1e-9) /* a last digit is the library's */
    pw_figure_put(h, sheet->units, form->kind, value, "openings.%zu.packages.%zu.%s", i, p,
                  form->key);
  else
    pw_figure_put(h, sheet->units, form->kind, factor * value,
                  "openings.%zu.packages.%zu.%s * %.9g", i, p, form->key, factor);
  fputs("</td>", h->f);
}

/* One package's windows in the order of the job, and what they are scaled by. */
typedef struct column {
  pw_first_window first[PW_WINDOWS_MAX];
  double scale;
} column;

static void cells(const pw_sheet *sheet, pw_html *h, const column *col, size_t k, size_t p)
{
  const pw_first_window *w = &col[p].first[k];
  money(sheet, h, PW_WINDOW_SAVING, w->saving, w->opening, p, col[p].scale);
  if (!sheet_is_priced(sheet)) return;
  if (w->price > 0.0)
    money(sheet, h, PW_WINDOW_PRICE, w->price, w->opening, p, 1.0);
  else
    fputs("<td></td>", h->f);
}

static void heads(const pw_sheet *sheet, pw_html *h, size_t by)
{
  const pw_compare *c = sheet->compare;
  int priced = sheet_is_priced(sheet);
  pw_html_put(h, "<thead><tr><th scope=\"col\" rowspan=\"2\">windows</th>");
  if (priced)
    pw_html_put(h,
                "<th scope=\"col\" rowspan=\"2\">saved a year for each $1,000 paid, "
                "<bdi>%s</bdi></th>",
                c->rated.package_set[by].name);
  for (size_t p = 0; p < c->n_package; p++) {
    pw_html_put(h, priced ? "<th scope=\"colgroup\" colspan=\"2\">" : "<th scope=\"col\">");
    pw_html_name(h, c->rated.package_set[p].name);
    fputs("</th>", h->f);
  }
  fputs("</tr>\n<tr>", h->f);
  for (size_t p = 0; p < c->n_package; p++) {
    pw_html_put(h, "<th scope=\"col\">saved a year</th>");
    if (priced) pw_html_put(h, "<th scope=\"col\">price</th>");
  }
  fputs("</tr></thead>\n<tbody>\n", h->f);
}

/* Where an opening stands in the order of the job. */
static size_t place_of(const column *col, size_t n, size_t opening)
{
  size_t k = 0;
  while (k + 1 < n && col->first[k].opening != opening)
    k++;
  return k;
}

static void rows(const pw_sheet *sheet, pw_html *h, const column *col, size_t n, size_t by)
{
  const pw_compare *c = sheet->compare;
  column best = col[by];
  pw_first_windows_sort(best.first, n);
  for (size_t k = 0; k < n; k++) {
    const pw_first_window *w = &best.first[k];
    const pw_opening *o = &c->job->opening[w->opening];
    pw_html_put(h, "<tr><th scope=\"row\">%zu. <bdi>%s</bdi> <bdi>%s</bdi>", k + 1, o->tag,
                o->room);
    if (o->quantity > 1) pw_html_put(h, ", %d alike", o->quantity);
    fputs("</th>", h->f);
    if (w->price > 0.0)
      money(sheet, h, PW_WINDOW_SAVING, w->saving, w->opening, by,
            best.scale * 1000.0 / w->price);
    else if (sheet_is_priced(sheet))
      fputs("<td></td>", h->f);
    for (size_t p = 0; p < c->n_package; p++)
      cells(sheet, h, col, place_of(&col[p], n, w->opening), p);
    fputs("</tr>\n", h->f);
  }
}

pw_status sheet_first(const pw_sheet *sheet, pw_html *h, pw_err *err)
{
  const pw_compare *c = sheet->compare;
  column col[PW_COMPARE_PACKAGES_MAX];
  const char *title = pw_say(h, PW_TEXT("Which windows first?"));
  size_t n = 0, by = 0;
  pw_status status = pw_first_package(c, &by, err);
  for (size_t p = 0; status == PW_OK && p < c->n_package; p++) {
    status = pw_first_windows(c, p, col[p].first, &n, err);
    if (status == PW_OK) col[p].scale = scale(sheet, p, col[p].first, n);
  }
  if (status != PW_OK || n == 0) return status;
  pw_html_put(h, "<h3>%s</h3>\n", title);
  if (sheet_is_priced(sheet))
    pw_html_put(
        h,
        "<p class=\"small\">Ranked by what a dollar spent on <bdi>%s</bdi> saves. Saved: "
        "the window's part of the likely saving of the house against the windows there "
        "now, $ a year. Price: what the job costs less without it, $.</p>\n",
        c->rated.package_set[by].name);
  else
    pw_html_put(h,
                "<p class=\"small\">Ranked by what each saves; the job gives no price. Saved: "
                "the window's part of the likely saving of the house against the windows "
                "there now, $ a year.</p>\n");
  pw_html_wide(h, title);
  fputs("<table class=\"sets first\">", h->f);
  heads(sheet, h, by);
  rows(sheet, h, col, n, by);
  fputs("</tbody></table></div>\n", h->f);
  return PW_OK;
}
