/* A document as PDF, through a converter of HTML that has to be installed beside the program. */
#ifndef OUT_PDF_H
#define OUT_PDF_H

#include <stddef.h>

#include "panewright/status.h"

/* Writes html[size] as a PDF file, whole or not at all.
 *
 * Given     page   "letter" or "a4"; the document itself names no size, so that a browser prints it
 *                  on either
 * Status    PW_OK; PW_E_DATA another page; PW_E_LACK the converter is not installed (the line says what to do);
 *           PW_E_CREATE; PW_E_IO it failed, with its first words
 */
pw_status pw_pdf_write(const char *html, size_t size, const char *page, const char *path,
                       pw_err *err);

#endif
