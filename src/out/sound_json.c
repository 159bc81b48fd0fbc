/* The sound of a build-up or of a curve as JSON, dB. */
#include <math.h>
#include <stdio.h>

#include "out/json.h"
#include "out/sound_report.h"

static void why(json_t *o, const char *key, double v, const char *text)
{
  if (!isfinite(v)) pw_json_set_text(o, key, text);
}

/* Rw and its terms in one rounding; tenths: "" or "_tenths". */
static void rounded(json_t *o, const char *tenths, double rw, const double c[PW_TERM_RANGES],
                    const double ctr[PW_TERM_RANGES])
{
  static const char *const range[PW_TERM_RANGES] = {"", "_50_3150", "_50_5000", "_100_5000"};
  char key[40];
  snprintf(key, sizeof key, "rw%s_db", tenths);
  pw_json_set(o, key, rw);
  for (size_t k = 0; k < PW_TERM_RANGES; k++) {
    snprintf(key, sizeof key, "c%s%s_db", range[k], tenths);
    pw_json_set(o, key, c[k]);
    snprintf(key, sizeof key, "ctr%s%s_db", range[k], tenths);
    pw_json_set(o, key, ctr[k]);
  }
}

void pw_sound_json_numbers(json_t *o, const pw_single_number *n)
{
  rounded(o, "", n->rw, n->c, n->ctr);
  rounded(o, "_tenths", n->rw_tenths, n->c_tenths, n->ctr_tenths);
  pw_json_set(o, "rw_deviations_db", n->rw_sum);
  pw_json_set(o, "stc_db", n->stc);
  pw_json_set(o, "stc_deficiencies_db", n->stc_sum);
  pw_json_set(o, "oitc_db", n->oitc);
  why(o, "rw_why", n->rw, "not every band from 100 to 3150 Hz is known");
  why(o, "stc_why", n->stc, "not every third octave from 125 to 4000 Hz is known");
  why(o, "oitc_why", n->oitc,
      "not every third octave from 80 to 4000 Hz is known; most published spectra begin at 100 "
      "Hz, and no value is guessed");
}

static json_t *spectrum(const pw_thirds *r) { return pw_json_array(r->db, PW_THIRDS); }

pw_status pw_sound_json(const pw_sound_report *r, FILE *f, pw_err *err)
{
  json_t *root = json_object(), *notes = json_array();
  double band[PW_THIRDS];
  for (int i = 0; i < PW_THIRDS; i++)
    band[i] = pw_third_hz(i);
  pw_json_set_text(root, r->measured ? "curve" : "build_up", r->text);
  if (!r->measured) pw_json_set_text(root, "set", r->curve[r->lead].name);
  if (r->measured) pw_json_set_text(root, "bands", r->octaves ? "octaves" : "third octaves");
  pw_sound_json_numbers(root, &r->curve[r->lead].number);
  if (r->octaves) {
    json_object_set_new(root, "octave_r_db", pw_json_array(r->octave, 5));
  } else {
    json_object_set_new(root, "band_hz", pw_json_array(band, PW_THIRDS));
    json_object_set_new(root, "r_db", spectrum(&r->curve[r->lead].r));
  }
  if (!r->measured) {
    json_t *sets = json_object();
    for (size_t i = 0; i < r->n_curve; i++) {
      json_t *o = json_object();
      pw_sound_json_numbers(o, &r->curve[i].number);
      json_object_set_new(o, "r_db", spectrum(&r->curve[i].r));
      json_object_set_new(sets, r->curve[i].name, o);
    }
    json_object_set_new(root, "sets", sets);
    json_object_set_new(root, "critical_frequency_hz", pw_json_array(r->critical, r->n_pane));
    json_object_set_new(root, "resonance_hz", pw_json_array(r->resonance, r->n_gap));
  }
  for (size_t i = 0; i < r->n_note; i++)
    json_array_append_new(notes, json_string(r->note[i]));
  json_object_set_new(root, "notes", notes);
  return pw_json_print(root, f, err);
}
