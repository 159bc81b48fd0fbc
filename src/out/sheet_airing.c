/* What opened windows do, in the customer's words. */
#include <math.h>

#include "out/sheet_impl.h"

void sheet_airing(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  pw_figure_words now, then, opens, opened;
  if (!c->lived.house.airing.hours || !isfinite(c->lived.existing_set.year.hours_open)) return;
  pw_html_put(h, "<h3>With the windows opened</h3>\n<ul class=\"remarks\">\n");
  for (size_t p = 0; p < c->n_package; p++) {
    int set = (int)p;
    if (c->billed.rates.cools)
      pw_html_put(h,
                  "<li><bdi>%s</bdi>: %s %s can be opened, where %s can now; the cooling above "
                  "counts the air that comes in by it.</li>\n",
                  c->rated.package_set[p].name,
                  sheet_say(sheet, h, &opens, PW_RESULT_OPEN_AREA, set), sheet->units->area,
                  sheet_say(sheet, h, &opened, PW_RESULT_OPEN_AREA, PW_SET_EXISTING));
    else
      pw_html_put(
          h,
          "<li><bdi>%s</bdi>: %s hours a year too warm, where it is %s now; %s %s can be "
          "opened, where %s can now.</li>\n",
          c->rated.package_set[p].name, sheet_say(sheet, h, &then, PW_RESULT_HOURS_WARM, set),
          sheet_say(sheet, h, &now, PW_RESULT_HOURS_WARM, PW_SET_EXISTING),
          sheet_say(sheet, h, &opens, PW_RESULT_OPEN_AREA, set), sheet->units->area,
          sheet_say(sheet, h, &opened, PW_RESULT_OPEN_AREA, PW_SET_EXISTING));
  }
  const pw_compare_airing *span = sheet->frame->airing;
  pw_figure_words few, many;
  if (!c->billed.rates.cools && span && span->told)
    pw_html_put(
        h,
        "<li>With the windows there now, people who open little have %s such hours, people "
        "who open much %s.</li>\n",
        pw_figure_say(h, &few, sheet->units, PW_FIGURE_HOURS,
                      span->existing[PW_AIRING_LITTLE].hours_warm,
                      "airing.existing.opened_little.hours_above_cool_set"),
        pw_figure_say(h, &many, sheet->units, PW_FIGURE_HOURS,
                      span->existing[PW_AIRING_MUCH].hours_warm,
                      "airing.existing.opened_much.hours_above_cool_set"));
  pw_html_put(h, "</ul>\n<p class=\"small\">A fifth of what opens is taken to stand open while "
                 "that cools the rooms and it is not damp outside. People differ more than the "
                 "weather does.</p>\n");
}
