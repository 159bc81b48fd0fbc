/* What the parts of the offer and the hand-over share. */
#ifndef OUT_OFFER_IMPL_H
#define OUT_OFFER_IMPL_H

#include "out/offer.h"
#include "out/sheet.h"

/* Whether the opening is worked on by this offer. */
int offer_has(const pw_offer *offer, size_t opening);
size_t offer_count(const pw_offer *offer); /* windows by quantity */

/* The customer's pages of the same comparison, for bands and keys. */
pw_sheet offer_sheet(const pw_offer *offer);

/* The text in the document's tongue; where life is at stake in English beside it. */
void offer_both(pw_html *h, const char *text);

/* "K1 Kitchen, B2 Bedroom 2" of openings in a state, each in a bdi. Returns how many. */
size_t offer_list(const pw_offer *offer, pw_offer_state state, pw_html *h);

/* A heading and the firm's own words, or a line to write on. */
void offer_words(pw_html *h, const char *head, const char *words);

/* The parts, in their order. */
void offer_price(const pw_offer *offer, pw_html *h);
void offer_windows(const pw_offer *offer, pw_html *h);
void offer_work(const pw_offer *offer, pw_html *h);
void offer_cautions(const pw_offer *offer, pw_html *h);

#endif
