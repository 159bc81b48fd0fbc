/* A finished document put where it is wanted, in the form that the name's ending asks for. */
#ifndef OUT_DOCUMENT_H
#define OUT_DOCUMENT_H

#include <stddef.h>

#include "panewright/status.h"

typedef enum pw_document_kind {
  PW_DOCUMENT_HTML = 0, /* .html, .htm */
  PW_DOCUMENT_PDF,
  PW_DOCUMENT_CSV,
  PW_DOCUMENT_OTHER
} pw_document_kind;

pw_document_kind pw_document_kind_of(const char *path);

/* Writes text[size], whole or not at all: HTML and CSV as they are, PDF by converting HTML.
 *
 * Given     page   for PDF "letter" or "a4"
 * Status    PW_OK; PW_E_DATA an ending or a page that is not known; PW_E_LACK, PW_E_CREATE, PW_E_IO
 */
pw_status pw_document_write(const char *path, const char *text, size_t size, const char *page,
                            pw_err *err);

#endif
