#include "out/alarm.h"

#include <string.h>

#include "out/html.h"
#include "out/remedy_list.h"
#include "window/escape.h"

static int of_escape(const pw_caution *k) { return strncmp(k->id, "EG", 2) == 0; }

/* Worth its place in the box: what fails, and the exception that may still hold (EG6). */
static int for_the_box(const pw_caution *k)
{
  return of_escape(k) && (k->state == PW_CAUTION_FAIL || strcmp(k->id, "EG6") == 0);
}

static void remedies(const pw_opening *o, const pw_fit *fit, pw_html *h)
{
  pw_remedy_list list;
  pw_remedy_list_of(h->tongue, o, fit, &list);
  pw_html_put(h, "<p>%s</p>\n<ul>\n", list.lead);
  for (size_t i = 0; i < list.n; i++)
    pw_html_put(h, "<li>%s</li>\n", list.line[i]);
  pw_html_put(h, "</ul>\n");
}

static void alarm_of_opening(const pw_compare *c, int i, pw_html *h)
{
  const pw_opening *o = &c->job->opening[i];
  char text[PW_MESSAGE_TEXT];
  pw_html_put(h,
              "<div class=\"alarm\" role=\"alert\"><p class=\"alarm-head\">Stop: escape window "
              "too small in <bdi>%s</bdi>, opening <bdi>%s</bdi></p>\n<p>%s</p>\n",
              o->room, o->tag, pw_message_word(h->tongue, PW_SAY_ESCAPE_WORDS));
  if (h->tongue) { /* a life hangs on it: in the tongue of whoever else reads it, too */
    fputs("<p lang=\"en\"><strong>Stop: escape window too small.</strong> ", h->f);
    pw_html_text(h, pw_message_word(NULL, PW_SAY_ESCAPE_WORDS));
    fputs("</p>\n", h->f);
  }
  remedies(o, &c->fitted.fit[0][i], h);
  pw_html_put(h, "<p>The figures:</p>\n<ul>\n");
  for (size_t k = 0; k < c->fitted.cautions.n; k++) {
    const pw_caution *caution = &c->fitted.cautions.caution[k];
    if (caution->opening == i && for_the_box(caution))
      pw_html_put(h, "<li>%s</li>\n",
                  pw_message_text(h->tongue, &caution->finding, text, sizeof text));
  }
  pw_html_put(h, "</ul>");
  if (o->official_word[0])
    pw_html_put(h, "<p>The building official's word, as the job says: <bdi>%s</bdi></p>",
                o->official_word);
  pw_html_put(h, "<p>%s</p></div>\n", pw_message_word(h->tongue, PW_SAY_CAUTION_CLOSING));
}

int pw_alarm_holds(const pw_compare *c, const pw_caution *k)
{
  if (!of_escape(k)) return k->state == PW_CAUTION_FAIL;
  return for_the_box(k) && pw_caution_escape_fails(&c->fitted.cautions, k->opening);
}

void pw_alarm_html(const pw_compare *c, pw_html *h)
{
  for (size_t i = 0; i < c->n_opening; i++)
    if (pw_caution_escape_fails(&c->fitted.cautions, (int)i)) alarm_of_opening(c, (int)i, h);
  int others = 0;
  char text[PW_MESSAGE_TEXT];
  for (size_t k = 0; k < c->fitted.cautions.n; k++) {
    const pw_caution *caution = &c->fitted.cautions.caution[k];
    if (caution->state != PW_CAUTION_FAIL || of_escape(caution)) continue;
    if (!others++)
      pw_html_put(h,
                  "<div class=\"alarm\" role=\"alert\"><p class=\"alarm-head\">Stop: a safety "
                  "limit is not met</p><ul>\n");
    pw_html_put(h, "<li>%s</li>\n",
                pw_message_text(h->tongue, &caution->finding, text, sizeof text));
  }
  if (others)
    pw_html_put(h, "</ul><p>%s</p></div>\n",
                pw_message_word(h->tongue, PW_SAY_CAUTION_CLOSING));
}
