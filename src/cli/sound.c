/* panewright sound: the sound of a glass build-up, or the single numbers of a measured curve. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/command.h"
#include "gen/reference.h"
#include "job/curve_file.h"
#include "out/sound_report.h"
#include "panewright/glazing.h"
#include "window/glass_sound.h"

_Static_assert((int)PW_SOUND_SETS == (int)pw_ref_sound_unit_sets__n, "a curve a set");

static pw_status usage(pw_err *err, const char *text)
{
  return pw_fail(err, PW_E_DOMAIN, "usage", "%s", text);
}

static void note(pw_sound_report *r, const char *text)
{
  if (r->n_note < PW_SOUND_NOTES) snprintf(r->note[r->n_note++], sizeof r->note[0], "%s", text);
}

static void notes(pw_sound_report *r, unsigned found)
{
  static const struct {
    unsigned bit;
    const char *text;
  } known[] = {
      {PW_SOUND_LAMINATE,
       "laminate: loss and stiffness of its interlayer are from memory, for 20 "
       "C; trade pages give acoustic laminates 4 to 8 dB more: ask for a test"},
      {PW_SOUND_TRIPLE, "three panes or more: same method, held against no published unit"},
      {PW_SOUND_WIDE, "a gap above 20 mm: all sets may be up to 12 dB low"},
      {PW_SOUND_GAS, "every gas is counted as air"},
      {PW_SOUND_OWN, "figured, wired or measured glass is counted as plain glass"},
      {PW_SOUND_PLASTIC, "constants of the plastic sheet are from memory"}};
  note(r, "sets are fitted to published data that differ by about 5 dB: safe for a promise, "
          "central to expect, laboratory for a sealed specimen; never compare across sets");
  note(r, "glass alone, +- 3 dB; a window's joints and frame let more through");
  for (size_t i = 0; i < sizeof known / sizeof known[0]; i++)
    if (found & known[i].bit) note(r, known[i].text);
  note(r, "OITC: its source levels are from memory; computed, no certified rating");
}

/* One leaf by ISO 12354-1 as a second opinion: pane of the test opening 1.23 x 1.48 m, loss of the
 * mount 0.024 as a measured 6 mm pane (Hopkins, Sound Insulation, fig. 4.8). */
static pw_status annex_b(const pw_leaf *leaf, pw_sound_curve *c, pw_err *err)
{
  static const pw_leaf_annex_b in = {1.48, 1.23, PW_SOUND_RHO, PW_SOUND_C};
  double eta[PW_THIRDS];
  for (int i = 0; i < PW_THIRDS; i++)
    eta[i] = leaf->eta + 0.024 + pw_leaf_eta_laboratory(leaf->mass, pw_third_hz(i));
  c->name = "iso_12354_1";
  pw_status s = pw_leaf_iso_12354(leaf, eta, &in, &c->r, err);
  return s == PW_OK ? pw_single_number_of(&c->r, &c->number, err) : s;
}

static pw_status set_of(const cli_args *args, size_t *lead, pw_err *err)
{
  const char *name = cli_get(args, "set");
  *lead = pw_ref_sound_unit_sets__safe;
  for (size_t i = 0; name && i < PW_SOUND_SETS; i++)
    if (strcmp(name, pw_ref_sound_unit_sets[i].id) == 0) {
      *lead = i;
      return PW_OK;
    }
  return name ? usage(err, "--set wants safe, central or laboratory") : PW_OK;
}

static pw_status of_build_up(const char *text, pw_sound_report *r, pw_err *err)
{
  pw_buildup b;
  pw_leaf leaf[PW_LEAVES_MAX];
  double gap[PW_LEAVES_MAX - 1];
  unsigned found = 0;
  pw_status s = pw_buildup_parse(text, &b, err);
  if (s == PW_OK) s = pw_buildup_print(&b, r->text, sizeof r->text, err);
  if (s == PW_OK) s = pw_glass_leaves(&b, 0.5, leaf, gap, &found, err);
  if (s != PW_OK) return s;
  for (size_t i = 0; s == PW_OK && i < PW_SOUND_SETS; i++) {
    pw_sound_curve *c = &r->curve[r->n_curve++];
    pw_sound_set set = pw_sound_set_of(i);
    c->name = pw_ref_sound_unit_sets[i].id;
    s = pw_sound_unit(leaf, gap, b.n_pane, &set, &c->r, err);
    if (s == PW_OK) s = pw_single_number_of(&c->r, &c->number, err);
  }
  if (s == PW_OK && b.n_pane == 1) s = annex_b(&leaf[0], &r->curve[r->n_curve++], err);
  r->n_pane = b.n_pane;
  r->n_gap = b.n_pane - 1;
  for (size_t i = 0; i < b.n_pane; i++) {
    r->critical[i] = leaf[i].fc;
    if (i < r->n_gap)
      r->resonance[i] = pw_sound_resonance(leaf[i].mass, leaf[i + 1].mass, gap[i]);
  }
  if (b.n_pane == 1)
    note(r,
         "iso_12354_1: ISO 12354-1:2017 annex B for one leaf, 1.23 x 1.48 m, a second opinion "
         "by other equations");
  notes(r, found);
  return s;
}

static pw_status of_curve(const char *path, pw_sound_report *r, pw_err *err)
{
  pw_curve curve;
  pw_notes read = {0};
  pw_status s = pw_curve_file_read(path, &read, &curve, err);
  for (size_t i = 0; s == PW_OK && i < read.n; i++) {
    char line[400];
    pw_notes_line(&read.note[i], line, sizeof line);
    fprintf(stderr, "panewright sound: %s\n", line);
  }
  pw_notes_free(&read);
  if (s != PW_OK) return s;
  const char *name = strrchr(path, '/');
  snprintf(r->text, sizeof r->text, "%s", name ? name + 1 : path);
  r->measured = 1;
  r->octaves = curve.octaves;
  r->n_curve = 1;
  r->curve[0].name = "measured";
  r->curve[0].r = curve.thirds;
  memcpy(r->octave, curve.octave, sizeof r->octave);
  if (curve.octaves) {
    note(r, "rated from octaves: a rating from third octaves may differ by 1 dB, and STC and "
            "OITC need third octaves");
    return pw_single_number_octaves(curve.octave, &r->curve[0].number, err);
  }
  s = pw_single_number_of(&curve.thirds, &r->curve[0].number, err);
  if (s == PW_OK && !isfinite(r->curve[0].number.oitc))
    note(r, "no OITC: it needs every third octave from 80 to 4000 Hz");
  else
    note(r, "OITC: its source levels are from memory");
  return s;
}

static pw_status print(const pw_sound_report *r, const cli_args *args, pw_err *err)
{
  if (args->format == PW_JSON) return pw_sound_json(r, stdout, err);
  if (args->format == PW_CSV) return pw_sound_csv(r, stdout, err);
  return pw_sound_text(r, stdout, err);
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  const char *curve = cli_get(args, "curve"), *plot = cli_get(args, "plot");
  pw_sound_report *r = calloc(1, sizeof *r);
  if (!r) {
    pw_fail(&err, PW_E_NOMEM, NULL, "no memory");
    return cli_fail(&err);
  }
  pw_status s = PW_OK;
  if (!curve == !args->n_word)
    s = usage(&err, "sound wants a build-up, or --curve FILE, not both");
  else if (curve && cli_get(args, "set"))
    s = usage(&err, "--set belongs to a build-up: a measured curve has none");
  if (s == PW_OK) s = set_of(args, &r->lead, &err);
  if (s == PW_OK) s = curve ? of_curve(curve, r, &err) : of_build_up(args->word[0], r, &err);
  if (s == PW_OK && plot) s = pw_sound_picture(r, plot, &err);
  if (s == PW_OK) s = print(r, args, &err);
  free(r);
  if (s == PW_OK) return cli_finish();
  int code = cli_fail(&err);
  return err.field && strcmp(err.field, "usage") == 0 ? EXIT_USAGE : code;
}

static const cli_option option[] = {
    {"curve", "FILE", "rate a measured spectrum instead: CSV of band_hz,r_db"},
    {"set", "safe|central|laboratory", "parameter set whose numbers stand first (safe)"},
    {"plot", "FILE", "picture, .svg, .png or .pdf"},
    CLI_FORMAT,
    CLI_HELPERS,
    CLI_END};
extern const cli_command cli_sound;
const cli_command cli_sound = {
    "sound",
    "['BUILD-UP']",
    "sound reduction of one glass unit, or Rw, STC, OITC of a measured curve",
    "Sound reduction R by third octaves 50 to 5000 Hz, Rw (C; Ctr) of ISO 717-1 with its "
    "enlarged\n"
    "ranges, STC of ASTM E413, OITC of ASTM E1332. The build-up reads as for `panewright "
    "glass`;\n"
    "laminated and acoustic are panes of two plies (`panewright tables panes`).\n"
    "A curve is a CSV of band_hz,r_db: third octaves, or octaves 125 to 2000 Hz (Rw only).",
    option,
    0,
    1,
    run};
