#include "out/opening_said.h"

#include <stdio.h>

#include "base/tape.h"
#include "out/figure.h"
#include "out/json.h"
#include "out/message_text.h"

enum { SENTENCE = PW_MESSAGE_TEXT + 80 };

/* "48 1/8 x 47 5/8 in" or "1222 x 1210 mm". */
static void size_text(pw_reading as, double width, double height, char text[], size_t size)
{
  char w[24], h[24];
  if (as.si) {
    snprintf(text, size, "%.0f x %.0f mm", width * 1e3, height * 1e3);
    return;
  }
  pw_tape_text(width, 16, w, sizeof w);
  pw_tape_text(height, 16, h, sizeof h);
  pw_tongue_put(as.tongue, text, size, "%s x %s in", w, h);
}

static void area_text(pw_reading as, double area, char text[], size_t size)
{
  char figure[32];
  pw_figure_text(PW_FIGURE_AREA, pw_units(as.si), area, figure);
  if (as.si)
    snprintf(text, size, "%s m2", figure);
  else
    pw_tongue_put(as.tongue, text, size, "%s ft2", figure);
}

static json_t *messages(const pw_tongue *tongue, const pw_message *const list[], size_t n)
{
  char text[PW_MESSAGE_TEXT];
  json_t *all = json_array();
  for (size_t k = 0; k < n; k++)
    json_array_append_new(all,
                          json_string(pw_message_text(tongue, list[k], text, sizeof text)));
  return all;
}

/* The finding that holds the order up, the worst of them; NULL when none does. */
static const pw_message *worst(const pw_fit *fit)
{
  const pw_finding *found = NULL;
  for (size_t k = 0; k < fit->n_finding; k++)
    if (pw_finding_blocks(fit->finding[k].kind) &&
        (!found || fit->finding[k].kind > found->kind))
      found = &fit->finding[k];
  return found ? &found->says : NULL;
}

static void verdict(const pw_fit_report *r, size_t i, pw_reading as, json_t *o)
{
  const pw_fit *f = &r->fit[i];
  const pw_order_check *check = &r->check[i];
  const pw_message *found = worst(f);
  char what[PW_MESSAGE_TEXT], text[SENTENCE], kept[32];
  const char *state = "fits";
  if (found) {
    state = "measure_again";
    pw_message_text(as.tongue, found, what, sizeof what);
    pw_tongue_put(as.tongue, text, sizeof text, "Measure again: %s.", what);
  } else if (pw_caution_escape_fails(r->cautions, (int)i) && check->n > 0) {
    state = "escape_fails";
    pw_message_text(as.tongue, check->why[0], what, sizeof what);
    pw_tongue_put(as.tongue, text, sizeof text, "Escape FAILS: %s.", what);
  } else if (!check->may_order && check->n > 0) {
    state = "not_yet";
    pw_message_text(as.tongue, check->why[0], what, sizeof what);
    pw_tongue_put(as.tongue, text, sizeof text, "Not to be ordered yet: %s.", what);
  } else {
    size_text(as, f->order_width, f->order_height, what, sizeof what);
    pw_figure_text(PW_FIGURE_SHARE, pw_units(as.si), f->glass_kept, kept);
    pw_tongue_put(as.tongue, text, sizeof text, "Fits: order %s; %s of the glass stays.", what,
                  kept);
  }
  pw_json_set_text(o, "state", state);
  pw_json_set_text(o, "verdict", text);
}

/* What cutting fins or lip buys, or null. */
static void gain(json_t *o, const char *key, double length, double glass, const char *format,
                 pw_reading as)
{
  char more[40], text[SENTENCE];
  if (length <= 0.0) {
    json_object_set_new(o, key, json_null());
    return;
  }
  pw_amount_said by = pw_length_of(as, length, 16);
  area_text(as, glass, more, sizeof more);
  snprintf(text, sizeof text, pw_tongue_say(as.tongue, format), by.text, more);
  pw_json_set_text(o, key, text);
}

json_t *pw_opening_said_json(const pw_fit_report *r, size_t i, pw_reading as)
{
  const pw_opening *op = &r->job->opening[i];
  const pw_fit *f = &r->fit[i];
  const pw_message *finding[PW_FINDINGS_MAX];
  char text[SENTENCE];
  json_t *o = json_object();
  verdict(r, i, as, o);
  size_text(as, f->order_width, f->order_height, text, sizeof text);
  pw_json_set_text(o, "order", text);
  size_text(as, f->pocket_width, f->pocket_height, text, sizeof text);
  pw_json_set_text(o, "pocket", text);
  area_text(as, f->insert.glass_area, text, sizeof text);
  pw_json_set_text(o, "glass", text);
  pw_figure_text(PW_FIGURE_SHARE, pw_units(as.si), f->glass_kept, text);
  pw_json_set_text(o, "glass_kept", text);
  if (pw_is_given(op->sill_height))
    pw_json_set_text(o, "sill", pw_length_of(as, op->sill_height, 16).text);
  else
    json_object_set_new(o, "sill", json_null());
  gain(o, "fins", f->fins_width_gain, f->fins_glass_gain, PW_TEXT("%s wider, %s more glass"),
       as);
  gain(o, "lip", f->lip_height_gain, f->lip_glass_gain, PW_TEXT("%s higher, %s more glass"),
       as);
  for (size_t k = 0; k < f->n_finding; k++)
    finding[k] = &f->finding[k].says;
  json_object_set_new(o, "findings", messages(as.tongue, finding, f->n_finding));
  json_object_set_new(o, "why", messages(as.tongue, r->check[i].why, r->check[i].n));
  return o;
}
