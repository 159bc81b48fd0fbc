/* The PDFs of a set, made side by side: a converter works with one core for a second on a document, and a set has nine. */
#ifndef OUT_PDF_PILE_H
#define OUT_PDF_PILE_H

#include <stddef.h>

#include "out/pdf.h"

enum { PW_PDF_PILE_MAX = 16, PW_PDF_THREADS_MAX = 8 };

typedef struct pw_pdf_pile {
  pw_pdf pdf[PW_PDF_PILE_MAX]; /* path, page, html: owned */
  size_t n;
} pw_pdf_pile;

/* Keeps a copy of html[size] for put.
 *
 * Given     path, page   of pw_pdf_write
 * Status    PW_OK; what refuses the path (out/safe_file.h); PW_E_DOMAIN the pile is full; PW_E_NOMEM
 */
pw_status pw_pdf_pile_add(pw_pdf_pile *pile, const char *path, const char *html, size_t size,
                          const char *page, pw_err *err);

/* Makes them, up to n_thread at once (at most PW_PDF_THREADS_MAX: each converter needs memory of its own), and puts
 * them in the order in which they were added.
 *
 * Status    PW_OK; PW_E_LACK and the others of pw_pdf_make, of the first that failed; nothing is put then
 */
pw_status pw_pdf_pile_put(pw_pdf_pile *pile, int n_thread, pw_err *err);

void pw_pdf_pile_free(pw_pdf_pile *pile); /* a zeroed struct is fine */

#endif
