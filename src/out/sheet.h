/* The customer's sheet: one HTML document of four parts that a household reads in two minutes and
 * keeps. Pictures stand in the line, style in the head; nothing is loaded and nothing runs. */
#ifndef OUT_SHEET_H
#define OUT_SHEET_H

#include "out/html.h"

#include "out/compare_out.h"
#include "out/paper.h"
typedef struct pw_sheet {
  const pw_compare *compare;
  const pw_compare_frame *frame; /* without a range the sheet says so at every saving */
  const pw_unit_set *units;
  pw_paper paper; /* what stands on every paper */
} pw_sheet;

/* Writes the whole document.
 *
 * Status    PW_OK; PW_E_LACK no gnuplot; PW_E_IO a picture or the file failed; PW_E_NOMEM
 * Notes     1) Every computed figure carries its place in pw_compare_json (out/figure.h).
 *           2) Savings are of heating and cooling, to the nearest $5, with their range, beside the
 *              windows there now and beside new ones that just meet the code. Without a bill in the
 *              job a range is never narrower than a quarter either side of the middle.
 * Source    reference/trade/JOB.md "Honest savings claims", terms.md.
 */
pw_status pw_sheet_html(const pw_sheet *sheet, pw_html *h, pw_err *err);

#endif
