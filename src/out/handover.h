/* The hand-over: what was put in, how to live with it, what to keep. */
#ifndef OUT_HANDOVER_H
#define OUT_HANDOVER_H

#include "out/offer.h"

/* Writes the whole document for one package: offer as pw_offer_html wants it, with n_package 1.
 *
 * Status    PW_OK; PW_E_IO the stream failed
 * Notes     1) The day before which the sealant is not painted is install_date and the longest wait of
 *              the sealant (install.h), counted in whole days up; lines to fill in where one is not known.
 *           2) Label values are those of labels.csv and packages.csv; none is computed.
 */
pw_status pw_handover_html(const pw_offer *offer, pw_html *h, pw_err *err);

/* That day, 0 when the date is not known, the sealant takes no paint or nobody says when. */
pw_date pw_paint_not_before(const pw_house_facts *house, double *days);

#endif
