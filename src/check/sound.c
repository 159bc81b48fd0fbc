/* Sound: single numbers, one leaf, slits, composites and closed forms as printed; the unit model is in
 * sound_units.c. */
#include "check/sound.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "check/table_rows.h"
#include "gen/reference.h"
#include "house/facade_sound.h"
#include "job/curve_file.h"
#include "sound/leaf.h"
#include "sound/sound_unit.h"
#include "window/opening_sound.h"

/* The spectrum of a case by the form that `panewright sound --curve` reads. */
static pw_status spectrum_of(const pw_ref_sound_rating_cases_row *c, pw_thirds *r, pw_err *err)
{
  char text[1024] = "band_hz,r_db\n";
  const char *at = c->r_db;
  int first = pw_third_of(c->first_hz);
  size_t n = strlen(text);
  pw_notes notes = {0};
  pw_curve curve;
  for (int i = 0; i < (int)c->n_band && n + 40 < sizeof text; i++) {
    at += strspn(at, " ");
    size_t word = strcspn(at, " ");
    n += (size_t)snprintf(text + n, sizeof text - n, "%g,%.*s\n", pw_third_hz(first + i),
                          (int)word, at);
    at += word;
  }
  pw_status s = pw_curve_file_parse(c->case_, text, n, &notes, &curve, err);
  pw_notes_free(&notes);
  if (s == PW_OK) *r = curve.thirds;
  return s;
}

/* "c_50_3150_tenths" and the like: the terms of a range. */
static double term(const char *q, const pw_single_number *n)
{
  static const char *const range[PW_TERM_RANGES] = {"", "_50_3150", "_50_5000", "_100_5000"};
  char name[40];
  for (size_t k = 0; k < PW_TERM_RANGES; k++) {
    const struct {
      const char *stem, *end;
      double v;
    } all[] = {{"c", "", n->c[k]},
               {"ctr", "", n->ctr[k]},
               {"c", "_tenths", n->c_tenths[k]},
               {"ctr", "_tenths", n->ctr_tenths[k]}};
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
      snprintf(name, sizeof name, "%s%s%s", all[i].stem, range[k], all[i].end);
      if (strcmp(q, name) == 0) return all[i].v;
    }
  }
  return (double)NAN;
}

static double quantity(const char *q, const pw_thirds *r, const pw_single_number *n)
{
  double sum = 0.0, plain = pw_stc_plain(r, 1, &sum);
  if (strcmp(q, "rw") == 0) return n->rw;
  if (strcmp(q, "rw_tenths") == 0) return n->rw_tenths;
  if (strcmp(q, "rw_sum") == 0) return n->rw_sum;
  if (strcmp(q, "stc") == 0) return n->stc;
  if (strcmp(q, "stc_unrounded") == 0) return plain;
  if (strcmp(q, "stc_sum_unrounded") == 0) return sum;
  if (strcmp(q, "stc_without_8") == 0) return pw_stc_plain(r, 0, &sum);
  if (strcmp(q, "oitc") == 0) return n->oitc;
  return term(q, n);
}

static pw_status ratings(const pw_check_sink *sink, pw_err *err)
{
  for (size_t i = 0; i < (size_t)pw_ref_sound_rating_cases__n; i++) {
    const pw_ref_sound_rating_cases_row *c = &pw_ref_sound_rating_cases[i];
    pw_thirds r;
    pw_single_number n;
    pw_status s = spectrum_of(c, &r, err);
    if (s == PW_OK) s = pw_single_number_of(&r, &n, err);
    if (s != PW_OK) return s;
    pw_check_give(sink, c->case_, c->quantity, c->unit, quantity(c->quantity, &r, &n), c->value,
                  c->tolerance + 1e-9, c->source, c->how_known);
  }
  return PW_OK;
}

/* Octave spectra with a published rating: the rating is from thirds, 1 dB apart is the rule's own
 * uncertainty. */
static pw_status octaves(const pw_check_sink *sink, pw_err *err)
{
  for (size_t i = 0; i < (size_t)pw_ref_sound_glass_octaves__n; i++) {
    const pw_ref_sound_glass_octaves_row *g = &pw_ref_sound_glass_octaves[i];
    const double r[5] = {g->r_125, g->r_250, g->r_500, g->r_1000, g->r_2000};
    pw_single_number n;
    if (isnan(g->rw)) continue;
    pw_status s = pw_single_number_octaves(r, &n, err);
    if (s != PW_OK) return s;
    pw_check_give(sink, g->id, "Rw from the octaves printed", "dB", n.rw, g->rw, 1.0, g->source,
                  g->how_known);
  }
  return PW_OK;
}

static pw_status annex_l(const pw_check_sink *sink, pw_err *err)
{
  for (size_t i = 0; i < (size_t)pw_ref_sound_annex_l__n; i++) {
    const pw_ref_sound_annex_l_row *a = &pw_ref_sound_annex_l[i];
    double ours;
    if (a->quantity == pw_ref_sound_annex_l__quantity_sigma) {
      ours = pw_leaf_sigma(a->f_hz, a->fc_hz, a->l1_m, a->l2_m, a->c);
    } else if (a->quantity == pw_ref_sound_annex_l__quantity_sigma_f) {
      ours = pw_leaf_sigma_forced(a->f_hz, a->l1_m, a->l2_m, a->c);
    } else {
      double eta[PW_THIRDS];
      pw_thirds r;
      const pw_leaf_annex_b in = {a->l1_m, a->l2_m, a->rho, a->c};
      const pw_leaf leaf = {a->m_kg_m2, a->fc_hz * PW_SOUND_C * PW_SOUND_C / (a->c * a->c), 0};
      for (size_t k = 0; k < PW_THIRDS; k++)
        eta[k] = a->eta;
      pw_status s = pw_leaf_iso_12354(&leaf, eta, &in, &r, err);
      if (s != PW_OK) return s;
      ours = r.db[pw_third_of(a->f_hz)];
    }
    /* Printed to 0.1 dB: half a digit beside the 0.1 dB asked for. */
    double hair = a->quantity == pw_ref_sound_annex_l__quantity_r ? 0.01 : 1e-9;
    pw_check_give(sink, a->id, "one leaf, ISO 12354-1 annex B", a->unit, ours, a->value,
                  a->tolerance + hair, a->source, a->how_known);
  }
  return PW_OK;
}

static pw_thirds flat(double db)
{
  pw_thirds r;
  for (int i = 0; i < PW_THIRDS; i++)
    r.db[i] = db;
  return r;
}

/* Two parts side by side, or a window with a slit, by the composite of a whole opening. */
static double composite(const pw_ref_sound_paths_row *p, const pw_slit *slit, int two)
{
  pw_thirds first = flat(p->r_db), rest = flat(p->rest_db), out;
  const pw_sound_part part[2] = {{p->area_m2, &first}, {1.0 - p->area_m2, &rest}};
  const pw_sound_joint joint = {p->length_m * p->width_m, *slit};
  pw_status s = pw_sound_composite(part, two ? 2 : 1, &joint, two ? 0 : 1,
                                   two ? 1.0 : p->area_m2, &out, NULL);
  return s == PW_OK ? out.db[two ? 0 : pw_third_of(p->f_hz)] : (double)NAN;
}

static double path_of(const pw_ref_sound_paths_row *p)
{
  pw_slit slit = {p->width_m, p->depth_m, !(p->edge > 0.0), !(p->diffuse > 0.0), 0};
  pw_leaf leaf;
  switch (p->kind) {
  case pw_ref_sound_paths__kind_slit:
    return -10.0 * log10(pw_slit_tau(&slit, p->f_hz, PW_SOUND_C));
  case pw_ref_sound_paths__kind_leak:
    return composite(p, &slit, 0);
  case pw_ref_sound_paths__kind_two:
    return composite(p, &slit, 1);
  case pw_ref_sound_paths__kind_room:
    return pw_facade_level(p->rest_db, pw_facade_d2m(p->r_db, 0.0, p->volume_m3, p->area_m2),
                           0.5);
  case pw_ref_sound_paths__kind_resonance:
    return pw_sound_resonance(2500.0 * p->depth_m, 2500.0 * p->depth_m, p->width_m);
  default:
    return pw_leaf_sheet(p->depth_m, pw_ref_sound_leaf__glass, &leaf, NULL) == PW_OK
               ? leaf.fc
               : (double)NAN;
  }
}

static void paths(const pw_check_sink *sink)
{
  static const char *const what[] = {"slit, R of its own area", "window with a slit",
                                     "two parts side by side",  "resonance across a gap",
                                     "coincidence of a pane",   "level in a room"};
  for (size_t i = 0; i < (size_t)pw_ref_sound_paths__n; i++) {
    const pw_ref_sound_paths_row *p = &pw_ref_sound_paths[i];
    pw_check_give(sink, p->id, what[p->kind], p->unit, path_of(p), p->value, p->tolerance,
                  p->source, p->how_known);
  }
}

static pw_status run(const pw_check_sink *sink, pw_err *err)
{
  pw_status s = ratings(sink, err);
  if (s == PW_OK) s = octaves(sink, err);
  if (s == PW_OK) s = annex_l(sink, err);
  if (s == PW_OK) paths(sink);
  return s == PW_OK ? sound_units(sink, err) : s;
}

extern const pw_check_group pw_check_sound;
const pw_check_group pw_check_sound = {
    "sound", "sound: single numbers, one leaf, slits, glass units against published tables",
    run};
