#include "out/document.h"

#include <string.h>
#include <strings.h>

#include "out/pdf.h"
#include "out/safe_file.h"
#include "out/whole.h"

pw_document_kind pw_document_kind_of(const char *path)
{
  static const struct {
    const char *ending;
    pw_document_kind kind;
  } known[] = {{".html", PW_DOCUMENT_HTML},
               {".htm", PW_DOCUMENT_HTML},
               {".pdf", PW_DOCUMENT_PDF},
               {".csv", PW_DOCUMENT_CSV}};
  const char *dot = strrchr(path, '.');
  for (size_t i = 0; dot && i < sizeof known / sizeof known[0]; i++)
    if (strcasecmp(dot, known[i].ending) == 0) return known[i].kind;
  return PW_DOCUMENT_OTHER;
}

pw_status pw_document_write(const char *path, const char *text, size_t size, const char *page,
                            pw_err *err)
{
  pw_document_kind kind = pw_document_kind_of(path);
  if (kind == PW_DOCUMENT_OTHER)
    return pw_fail(err, PW_E_DATA, "output", "%s: want a name that ends in .html, .pdf or .csv",
                   path);
  if (kind == PW_DOCUMENT_PDF) return pw_pdf_write(text, size, page, path, err);
  if (kind == PW_DOCUMENT_HTML && !pw_whole(PW_WHOLE_HTML, text, size))
    return pw_fail(err, PW_E_IO, NULL, "%.200s: the document did not come out whole", path);
  return pw_safe_put(path, text, size, err);
}
