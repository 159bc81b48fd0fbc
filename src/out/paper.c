#include "out/paper.h"
#include "out/text_stream.h"

#include "out/job_title.h"

/* The firm with what the buyer, the maker or a clerk may call it by. */
static void firm(const pw_job *job, pw_html *h)
{
  const pw_firm *k = &job->firm;
  if (!job->house.contractor[0]) return;
  pw_html_put(h, "<p class=\"firm\"><b>");
  pw_html_name(h, job->house.contractor);
  pw_html_put(h, "</b>");
  const char *const part[] = {k->address, k->phone, k->mail};
  for (size_t i = 0; i < sizeof part / sizeof part[0]; i++)
    if (part[i][0]) {
      pw_html_put(h, " &middot; ");
      pw_html_name(h, part[i]);
    }
  if (k->licence[0]) pw_html_put(h, " &middot; licence <bdi>%s</bdi>", k->licence);
  pw_html_put(h, "</p>\n");
}

void pw_paper_begin(const pw_paper *p, const char *title, const char *const style[],
                    const char *foot, pw_html *h)
{
  char date[11], whole[240];
  pw_date_write(p->date, date);
  snprintf(whole, sizeof whole, "%s: %s", pw_say(h, title), pw_job_title(p->job).text);
  pw_html_begin(h, whole, style, foot ? foot : pw_html_foot);
  pw_html_put(h, "<main>\n<header>\n");
  firm(p->job, h);
  pw_html_put(h, "<h1>%s</h1>\n<p><span class=\"job\">", pw_say(h, title));
  pw_html_name(h, pw_job_title(p->job).text);
  if (p->job->house.place_label[0] && !p->no_place) {
    pw_html_put(h, ", ");
    pw_html_name(h, p->job->house.place_label);
  }
  pw_html_put(h, ". Files %s, printed %s.</span>", p->version, date);
  if (h->tongue && !p->job->firm.translation_reviewed)
    pw_html_put(h, " <em>%s.</em>", pw_say(h, "translation not reviewed by an expert"));
  pw_html_put(h, "</p>\n</header>\n");
}

pw_status pw_paper_end(pw_html *h, pw_err *err)
{
  pw_html_put(h, "</main>\n");
  pw_html_end(h);
  return pw_text_written(h->f, "the paper", err);
}
