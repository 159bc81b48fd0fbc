#include "out/sheet.h"

#include "out/job_title.h"
#include "out/sheet_impl.h"

pw_status pw_sheet_html(const pw_sheet *sheet, pw_html *h, pw_err *err)
{
  static const char *const style[] = {"plots/paper.css", "plots/sheet.css", NULL};
  static pw_status (*const part[])(const pw_sheet *, pw_html *, pw_err *) = {
      sheet_answer, sheet_openings, sheet_year, sheet_basis};
  char title[200];
  snprintf(title, sizeof title, "What new windows would change: %s",
           pw_job_title(sheet->compare->job).text);
  pw_html_begin(h, title, style, pw_html_foot);
  pw_html_put(h, "<main>\n");
  pw_status status = PW_OK;
  for (size_t i = 0; status == PW_OK && i < sizeof part / sizeof part[0]; i++)
    status = part[i](sheet, h, err);
  pw_html_put(h, "</main>\n");
  pw_html_end(h);
  if (status == PW_OK && ferror(h->f))
    return pw_fail(err, PW_E_IO, NULL, "cannot write the sheet");
  return status;
}
