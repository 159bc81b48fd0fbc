#include "out/saving_said.h"

#include "out/sheet_impl.h"

int pw_band_above_zero(const pw_band *b, const pw_unit_set *units)
{
  return b->p10 > 0.0 && pw_figure_rounded(PW_FIGURE_MONEY_5, units, b->p10) > 0.0;
}

static int above_zero(const pw_sheet *sheet, pw_result result, size_t p)
{
  const pw_band *b = sheet_band_of(sheet, result, (int)p);
  return b && pw_band_above_zero(b, sheet->units);
}

/* Whether a saving of the package may be said at all: its range is known, holds no zero and does not print as $0. */
static int pw_saving_allowed(const pw_sheet *sheet, size_t p)
{
  return sheet->frame->range && !sheet->frame->range->package[p].includes_zero &&
         above_zero(sheet, PW_RESULT_SAVING, p);
}

int pw_saving_any(const pw_sheet *sheet, const size_t package[], size_t n)
{
  for (size_t k = 0; k < n; k++)
    if (pw_saving_allowed(sheet, package[k])) return 1;
  return 0;
}

static void cell(const pw_sheet *sheet, pw_result result, size_t p, pw_html *h)
{
  pw_html_put(h, "<td>");
  if (pw_saving_allowed(sheet, p) && above_zero(sheet, result, p))
    sheet_band(sheet, h, result, p);
  else
    pw_html_put(h, "none is claimed: the range holds zero");
  pw_html_put(h, "</td>");
}

void pw_saving_rows(const pw_sheet *sheet, const size_t package[], size_t n, pw_html *h)
{
  pw_html_put(h, "<tr><th scope=\"row\">Saved a year on heating and cooling, likely and from - "
                 "to<small>against the windows there now</small></th>");
  for (size_t k = 0; k < n; k++)
    cell(sheet, PW_RESULT_SAVING, package[k], h);
  pw_html_put(h, "</tr>\n<tr><th scope=\"row\"><small>against new windows that just meet the "
                 "code</small></th>");
  for (size_t k = 0; k < n; k++)
    cell(sheet, PW_RESULT_SAVING_MINIMUM, package[k], h);
  pw_html_put(h, "</tr>\n");
}

void pw_saving_note(const pw_sheet *sheet, const size_t package[], size_t n, pw_html *h)
{
  int late = 0;
  for (size_t k = 0; k < n; k++)
    late |= pw_saving_allowed(sheet, package[k]) && sheet_pays_late(sheet, package[k]);
  pw_html_put(h, "<p>The saving is computed for this house, of heating and cooling alone: 8 "
                 "chances in 10 lie inside the range. Weather, thermostat, shade and prices "
                 "change it; it is no promise of a bill.</p>\n");
  if (late)
    pw_html_put(h, "<p><strong>By the saving alone a price here does not come back within the "
                   "life of the windows.</strong> Comfort, quiet and easy opening are reasons "
                   "of their own.</p>\n");
}
