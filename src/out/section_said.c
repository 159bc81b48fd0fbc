#include "out/section_said.h"

#include <math.h>

#include "out/message_text.h"
#include "out/wrap.h"

/* Windows whose coldest point hangs on the relation, and the widest room humidity it leaves open. */
static size_t by_relation(const pw_compare *c, double *spread)
{
  size_t n = 0;
  *spread = 0.0;
  for (size_t k = 0; k < c->n_opening * (c->n_package + 1); k++) {
    const pw_compare_window *w =
        pw_compare_window_of(&c->rated, (int)(k / c->n_opening) - 1, k % c->n_opening);
    if (w->rating.cold.all_drawn) continue;
    *spread = fmax(*spread, w->sweat.coldest_rh[1] - w->sweat.coldest_rh[0]);
    n++;
  }
  return n;
}

const char *pw_section_said(const pw_compare *c, size_t k, char line[PW_TEXT_MAX])
{
  double spread;
  size_t all = c->n_opening * (c->n_package + 1), n = by_relation(c, &spread);
  if (k > c->rated.frames.n_remark) return NULL;
  if (k > 0) return pw_message_text(NULL, &c->rated.frames.remark[k - 1], line, PW_TEXT_MAX);
  if (n == 0)
    snprintf(line, PW_TEXT_MAX,
             "Sweating is judged at the coldest indoor point of the solved sections.");
  else
    snprintf(
        line, PW_TEXT_MAX,
        "Sweating is judged at the coldest indoor point: of %s, from the middle of the glass "
        "by a relation of own sections that spread over %.0f points of room humidity at most "
        "(other profiles may differ).",
        n == all ? "every window" : "windows not wholly drawn", 100.0 * spread);
  return line;
}

void pw_section_said_text(const pw_compare *c, FILE *f)
{
  char line[PW_TEXT_MAX];
  const char *text;
  fputs("\nFrames and sweating\n", f);
  for (size_t k = 0; (text = pw_section_said(c, k, line)) != NULL; k++)
    pw_wrap(f, "  ", text, 100);
}

json_t *pw_section_said_json(const pw_compare *c)
{
  json_t *list = json_array();
  char line[PW_TEXT_MAX];
  const char *text;
  for (size_t k = 0; (text = pw_section_said(c, k, line)) != NULL; k++)
    json_array_append_new(list, json_string(text));
  return list;
}
