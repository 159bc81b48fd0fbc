#include "out/pdf.h"

#include <string.h>

#include "out/safe_file.h"
#include "out/subprocess.h"
#include "out/whole.h"

pw_status pw_pdf_write(const char *html, size_t size, const char *page, const char *path,
                       pw_err *err)
{
  static const char *const sheet[] = {"data:text/css,@page{size:letter}",
                                      "data:text/css,@page{size:A4}"};
  int a4 = strcmp(page, "a4") == 0;
  if (!a4 && strcmp(page, "letter") != 0)
    return pw_fail(err, PW_E_DATA, "paper", "--paper %s: want letter or a4", page);
  pw_status status = pw_safe_check(path, err);
  if (status != PW_OK) return status;
  /* PDF/UA: tagged, with title and language, for those who have it read to them. */
  const char *const argv[] = {"weasyprint", "-q", "--pdf-variant", "pdf/ua-1", "-e",
                              "utf-8",      "-s", sheet[a4],       "-",        "-",
                              NULL};
  pw_subprocess_result made = {0};
  status = pw_subprocess_run(argv, html, size, &made, err);
  if (status == PW_E_LACK)
    status = pw_fail(err, PW_E_LACK, NULL,
                     "%s: weasyprint is not installed, so no PDF; install it (Debian: apt-get "
                     "install weasyprint), or write .html and print that",
                     path);
  else if (status == PW_OK && made.exit_status != 0)
    status = pw_fail(err, PW_E_IO, NULL, "%.100s: weasyprint failed: %.200s", path, made.said);
  else if (status == PW_OK && !pw_whole(PW_WHOLE_PDF, made.out, made.size))
    status = pw_fail(err, PW_E_IO, NULL, "%.100s: weasyprint made no whole PDF: %.200s", path,
                     made.said);
  if (status == PW_OK) status = pw_safe_put(path, made.out, made.size, err);
  pw_subprocess_free(&made);
  return status;
}
