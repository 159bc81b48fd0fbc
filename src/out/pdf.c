#include "out/pdf.h"

#include <string.h>
#include <sys/stat.h>

#include "out/safe_file.h"
#include "out/subprocess.h"

pw_status pw_pdf_write(const char *html, size_t size, const char *page, const char *path,
                       pw_err *err)
{
  static const char *const sheet[] = {"data:text/css,@page{size:letter}",
                                      "data:text/css,@page{size:A4}"};
  int a4 = strcmp(page, "a4") == 0;
  if (!a4 && strcmp(page, "letter") != 0)
    return pw_fail(err, PW_E_DATA, "paper", "--paper %s: want letter or a4", page);
  pw_safe_file file;
  pw_status status = pw_safe_reserve(&file, path, err);
  if (status != PW_OK) return status;
  const char *const argv[] = {"weasyprint", "-q", "-e",      "utf-8", "-s",
                              sheet[a4],    "-",  file.temp, NULL};
  pw_subprocess_result made = {0};
  status = pw_subprocess_run(argv, html, size, &made, err);
  struct stat there;
  if (status == PW_E_LACK)
    status = pw_fail(err, PW_E_LACK, NULL,
                     "%s: weasyprint is not installed, so no PDF; install it (Debian: apt-get "
                     "install weasyprint), or write .html and print that",
                     path);
  else if (status == PW_OK && made.exit_status != 0)
    status = pw_fail(err, PW_E_IO, NULL, "%s: weasyprint failed: %.200s", path, made.said);
  else if (status == PW_OK && (stat(file.temp, &there) != 0 || there.st_size == 0))
    status =
        pw_fail(err, PW_E_IO, NULL, "%s: weasyprint made nothing: %.200s", path, made.said);
  pw_subprocess_free(&made);
  if (status != PW_OK) {
    pw_safe_drop(&file);
    return status;
  }
  return pw_safe_commit(&file, err);
}
