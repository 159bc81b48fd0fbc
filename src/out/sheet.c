#include "out/sheet.h"

#include "out/sheet_impl.h"

pw_status pw_sheet_html(const pw_sheet *sheet, pw_html *h, pw_err *err)
{
  static const char *const style[] = {"plots/paper.css", "plots/sheet.css", NULL};
  static pw_status (*const part[])(const pw_sheet *, pw_html *, pw_err *) = {
      sheet_answer, sheet_openings, sheet_year, sheet_basis};
  pw_paper_begin(&sheet->paper, PW_TEXT("What new windows would change"), style, NULL, h);
  pw_status status = PW_OK;
  for (size_t i = 0; status == PW_OK && i < sizeof part / sizeof part[0]; i++)
    status = part[i](sheet, h, err);
  pw_status ended = pw_paper_end(h, err);
  return status == PW_OK ? ended : status;
}
