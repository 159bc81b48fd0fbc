#include "out/offer.h"

#include <math.h>

#include "out/offer_impl.h"

int offer_has(const pw_offer *of, size_t i)
{
  return of->line[i].state == PW_OFFERED || of->line[i].state == PW_OFFERED_BY_WORD;
}

size_t offer_count(const pw_offer *of)
{
  size_t n = 0;
  for (size_t i = 0; i < of->compare->n_opening; i++)
    if (offer_has(of, i)) n += (size_t)of->compare->job->opening[i].quantity;
  return n;
}

pw_sheet offer_sheet(const pw_offer *of)
{
  return (pw_sheet){of->compare, of->frame, pw_units(of->paper.si), of->paper};
}

void offer_both(pw_html *h, const char *text)
{
  pw_html_put(h, "%s", pw_say(h, text));
  if (h->tongue) pw_html_put(h, " <span class=\"also\" lang=\"en\">%s</span>", text);
}

size_t offer_list(const pw_offer *of, pw_offer_state state, pw_html *h)
{
  size_t n = 0;
  for (size_t i = 0; i < of->compare->n_opening; i++) {
    if (of->line[i].state != state) continue;
    pw_html_put(h, "%s<bdi>%s</bdi> ", n++ ? ", " : "", of->compare->job->opening[i].tag);
    pw_html_name(h, of->compare->job->opening[i].room);
  }
  return n;
}

void offer_words(pw_html *h, const char *head, const char *words)
{
  pw_html_put(h, "<tr><th scope=\"row\">%s</th><td>", pw_say(h, head));
  if (words[0])
    pw_html_put(h, "<bdi>%s</bdi>", words);
  else
    pw_html_put(h, "<div class=\"rule\">&nbsp;</div>");
  pw_html_put(h, "</td></tr>\n");
}

/* ---------------------------------------------------------------- head */

static int for_signature(const pw_offer *of, const pw_html *h)
{
  return !h->tongue || of->compare->job->firm.translation_reviewed;
}

static void valid_until(const pw_offer *of, pw_html *h)
{
  double days = of->compare->job->house.offer.valid_days;
  char date[11];
  if (days > 0.0) {
    pw_date_write(pw_date_of_day(pw_date_day(of->paper.date) + (int)floor(days)), date);
    pw_html_put(h, "This offer stands until <b>%s</b>.", date);
  } else {
    pw_html_put(h, "This offer stands until <span class=\"line\">&nbsp;</span>.");
  }
}

static void left_out(const pw_offer *of, pw_html *h)
{
  size_t n = 0;
  for (size_t i = 0; i < of->compare->n_opening; i++)
    n += of->line[i].state == PW_NOT_OFFERED;
  if (n == 0) return;
  pw_html_put(
      h, "<div class=\"alarm\" role=\"alert\"><p class=\"alarm-head\">Not in this offer: ");
  offer_list(of, PW_NOT_OFFERED, h);
  pw_html_put(h, "</p>\n<p>");
  offer_both(
      h, PW_TEXT("As computed, a new window there would be too small a way out in a fire. It "
                 "is offered only when the building official's word is entered, or another "
                 "kind of window is chosen. The window there now stays."));
  pw_html_put(h,
              " The customer's pages may count it; price and saving here do not.</p></div>\n");
}

static void top(const pw_offer *of, pw_html *h)
{
  static const char *const style[] = {"plots/paper.css", "plots/offer.css", NULL};
  const pw_house_facts *f = &of->compare->job->house;
  pw_paper_begin(&of->paper, PW_TEXT("Offer"), style,
                 PW_TEXT("Offer: price and work as written here; not a certified rating"), h);
  if (!for_signature(of, h))
    pw_html_put(h, "<p class=\"stop\"><b>Not for signature: nobody has reviewed this "
                   "translation.</b></p>\n");
  pw_html_put(h, "<p>For: ");
  if (f->customer[0])
    pw_html_name(h, f->customer);
  else
    pw_html_put(h, "<span class=\"line wide-line\">&nbsp;</span>");
  if (f->customer_phone[0]) pw_html_put(h, ", <bdi>%s</bdi>", f->customer_phone);
  pw_html_put(h, ". ");
  valid_until(of, h);
  pw_html_put(h, "</p>\n");
  left_out(of, h);
}

/* ---------------------------------------------------------------- terms, notices, names */

static void terms(const pw_offer *of, pw_html *h)
{
  const pw_offer_terms *t = &of->compare->job->house.offer;
  pw_html_put(h, "<h2>5. Terms, in the firm's words</h2>\n<table class=\"terms\"><tbody>\n");
  offer_words(h, PW_TEXT("Schedule"), t->schedule);
  offer_words(h, PW_TEXT("Deposit and payments"), t->deposit);
  offer_words(h, PW_TEXT("Warranty on the work"), t->warranty_work);
  offer_words(h, PW_TEXT("Warranty on the windows"), t->warranty_product);
  offer_words(h, PW_TEXT("Other terms"), t->terms);
  pw_html_put(h, "</tbody></table>\n");
}

static void notices(const pw_offer *of, pw_html *h)
{
  int year = of->compare->job->house.year_built;
  pw_html_put(h, "<h2>7. Notices that the law asks for: the firm attaches them</h2>\n<ul "
                 "class=\"boxes\">\n");
  pw_html_put(
      h, "<li><span class=\"tick\">&nbsp;</span>Sale at home: the right to cancel within three "
         "business days (16 CFR 429). This contract and two copies of the notice of "
         "cancellation are in the language in which the sale was talked through; the right "
         "is also said aloud.</li>\n");
  if (h->tongue)
    pw_html_put(
        h, "<li><span class=\"tick\">&nbsp;</span>Spanish notices are the agency's own text, "
           "not a translation of ours: attached here.</li>\n");
  pw_html_put(
      h, "<li><span class=\"tick\">&nbsp;</span>What the state asks of a contractor: licence, "
         "limit of the deposit, liens, further rights to cancel.</li>\n");
  if (year < 1978)
    pw_html_put(
        h, "<li><span class=\"tick\">&nbsp;</span>Lead pamphlet (40 CFR 745.84): handed over "
           "and its receipt signed before the work, or mailed seven days before. Date: "
           "<span class=\"line\">&nbsp;</span></li>\n");
  pw_html_put(h, "</ul>\n<p class=\"small\">Nothing here is legal advice.</p>\n");
}

static void signer(const char *who, pw_html *h)
{
  pw_html_put(
      h,
      "<div class=\"signer\"><div class=\"rule\">&nbsp;</div><p class=\"small\">%s: name, "
      "signature, date</p></div>\n",
      pw_say(h, who));
}

static void signatures(const pw_offer *of, pw_html *h)
{
  pw_html_put(h, "<section class=\"sign\"><h2>8. Signatures</h2>\n");
  if (!for_signature(of, h)) {
    pw_html_put(
        h, "<p class=\"stop\">This paper is signed once someone who knows has reviewed it. A "
           "sale talked through in Spanish wants its contract in Spanish (16 CFR 429.1).</p>"
           "</section>\n");
    return;
  }
  pw_html_put(h, "<p class=\"attach\">Place for the statement of the right to cancel, in the "
                 "words of the rule and in bold type of 10 points or more.</p>\n");
  if (of->n_package > 1)
    pw_html_put(h, "<p>Signed for the package whose box is marked in part 1.</p>\n");
  pw_html_put(h, "<div class=\"signers\">\n");
  signer(PW_TEXT("Buyer"), h);
  signer(PW_TEXT("Second owner"), h);
  signer(PW_TEXT("For the firm"), h);
  pw_html_put(h, "</div></section>\n");
}

pw_status pw_offer_html(const pw_offer *of, pw_html *h, pw_err *err)
{
  top(of, h);
  if (offer_count(of) == 0) {
    pw_html_put(h, "<p>There is nothing to offer: no window of this job is replaced.</p>\n");
    return pw_paper_end(h, err);
  }
  offer_price(of, h);
  offer_windows(of, h);
  offer_work(of, h);
  terms(of, h);
  offer_cautions(of, h);
  notices(of, h);
  signatures(of, h);
  return pw_paper_end(h, err);
}
