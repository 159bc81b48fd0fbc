/* Documents as PDF, through a converter of HTML that has to be installed beside the program. */
#ifndef OUT_PDF_H
#define OUT_PDF_H

#include <stddef.h>

#include "panewright/status.h"

typedef struct pw_pdf {
  const char *path; /* where it is meant to go, for what is said */
  const char *
      page; /* "letter" or "a4"; the document itself names no size, so that a browser prints it on either */
  const char *html;
  size_t html_size;
  char *made; /* the PDF; owned, free() */
  size_t size;
} pw_pdf;

/* Makes n PDFs in one run of the converter where it lets us, all whole or none.
 *
 * Returned  made, size of each; NULL, 0 on a failure
 * Status    PW_OK; PW_E_DATA another page; PW_E_LACK the converter is not installed (the line says what to do);
 *           PW_E_CREATE; PW_E_IO it failed, with its first words; PW_E_NOMEM
 */
pw_status pw_pdf_make(pw_pdf pdf[], size_t n, pw_err *err);

/* Makes one and puts it at path (out/safe_file.h). */
pw_status pw_pdf_write(const char *html, size_t size, const char *page, const char *path,
                       pw_err *err);

#endif
