/* The offer: what is done for which price, what is not, what the buyer must know, the place to sign. */
#ifndef OUT_OFFER_H
#define OUT_OFFER_H

#include "out/compare_out.h"
#include "out/paper.h"
#include "window/offer_check.h"

typedef struct pw_offer {
  pw_paper paper;
  const pw_compare *compare; /* of the job in which what is not offered stays */
  const pw_compare_frame *frame;
  size_t package[PW_OFFER_PACKAGES_MAX], n_package; /* more than one: to choose from */
  const pw_offer_line *line;                        /* [compare->n_opening] */
} pw_offer;

/* Writes the whole document.
 *
 * Status    PW_OK; PW_E_IO the stream failed
 * Notes     1) Figures carry their place in pw_compare_json of that comparison (out/figure.h).
 *           2) In another tongue that no person has read there is no place to sign.
 *           3) Notices that law asks for are named; their words are the firm's to attach.
 * Source    16 CFR 429.1 (right to cancel a sale at home), 40 CFR 745.84 (lead pamphlet): both from memory.
 */
pw_status pw_offer_html(const pw_offer *offer, pw_html *h, pw_err *err);

#endif
