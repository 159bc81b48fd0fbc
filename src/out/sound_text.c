/* The sound of a build-up or of a curve in tables for the terminal, or its spectrum as CSV. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "out/grid.h"
#include "out/sound_report.h"

const char *pw_sound_rw_text(const pw_single_number *n, char text[32])
{
  if (!isfinite(n->rw)) return "-";
  snprintf(text, 32, "%.0f (%.0f; %.0f)", n->rw, n->c[0], n->ctr[0]);
  return text;
}

/* "30.2 (-2.3; -3.4)" of the 0.1 dB form, for a range of bands. */
static void tenths(const pw_single_number *n, size_t k, char text[40])
{
  if (isfinite(n->c_tenths[k]))
    snprintf(text, 40, "%.1f (%.1f; %.1f)", n->rw_tenths, n->c_tenths[k], n->ctr_tenths[k]);
  else
    snprintf(text, 40, "-");
}

static pw_status numbers(const pw_sound_report *r, FILE *f, pw_err *err)
{
  const char *header[] = {r->measured ? "<" : "<set", "Rw (C; Ctr)", "to 0.1 dB", "STC",
                          "OITC"};
  pw_grid *g = pw_grid_new(5, header);
  for (size_t i = 0; i < r->n_curve; i++) {
    const pw_single_number *n = &r->curve[i].number;
    char text[40];
    pw_grid_cell(g, "%s", r->curve[i].name);
    pw_grid_cell(g, "%s", pw_sound_rw_text(n, text));
    tenths(n, PW_TERM_100_3150, text);
    pw_grid_cell(g, "%s", text);
    pw_grid_number(g, n->stc, 0);
    pw_grid_number(g, n->oitc, 0);
  }
  pw_status s = pw_grid_print(g, f, PW_TEXT, err);
  pw_grid_free(g);
  return s;
}

/* Adaptation terms of the enlarged ranges, where the bands are there. */
static void enlarged(const pw_sound_report *r, FILE *f)
{
  static const char *const name[PW_TERM_RANGES] = {"100-3150", "50-3150", "50-5000",
                                                   "100-5000"};
  const pw_single_number *n = &r->curve[r->lead].number;
  int any = 0;
  for (size_t k = 1; k < PW_TERM_RANGES; k++) {
    if (!isfinite(n->c[k])) continue;
    fprintf(f, "%sC%s %.0f, Ctr%s %.0f", any ? "; " : "enlarged ranges: ", name[k], n->c[k],
            name[k], n->ctr[k]);
    any = 1;
  }
  if (any) fputs(" dB\n", f);
}

static pw_status spectrum(const pw_sound_report *r, FILE *f, pw_format format, pw_err *err)
{
  const char *header[PW_SOUND_SETS + 2] = {format == PW_CSV ? "band_hz" : "Hz"};
  char key[PW_SOUND_SETS + 1][24];
  for (size_t i = 0; i < r->n_curve; i++) {
    snprintf(key[i], sizeof key[i], format == PW_CSV ? "%s_r_db" : "%s", r->curve[i].name);
    header[i + 1] = r->measured ? (format == PW_CSV ? "r_db" : "R") : key[i];
  }
  pw_grid *g = pw_grid_new(r->n_curve + 1, header);
  for (int b = 0; b < (r->octaves ? 5 : PW_THIRDS); b++) {
    pw_grid_cell(g, "%g", r->octaves ? 125.0 * (double)(1 << b) : pw_third_hz(b));
    for (size_t i = 0; i < r->n_curve; i++)
      pw_grid_number(g, r->octaves ? r->octave[b] : r->curve[i].r.db[b], 1);
  }
  pw_status s = pw_grid_print(g, f, format, err);
  pw_grid_free(g);
  return s;
}

pw_status pw_sound_text(const pw_sound_report *r, FILE *f, pw_err *err)
{
  fprintf(f, "%s\n\n", r->text);
  pw_status s = numbers(r, f, err);
  enlarged(r, f);
  for (size_t i = 0; i < r->n_pane; i++)
    fprintf(f, "%s%.0f", i ? ", " : "coincidence of the panes: ", r->critical[i]);
  if (r->n_pane) fputs(" Hz", f);
  for (size_t i = 0; i < r->n_gap; i++)
    fprintf(f, "%s%.0f", i ? ", " : "; resonance across the gap: ", r->resonance[i]);
  if (r->n_gap) fputs(" Hz", f);
  fprintf(f, "%s\nSound reduction R by %s, dB\n", r->n_pane ? "\n" : "",
          r->octaves ? "octaves" : "third octaves");
  if (s == PW_OK) s = spectrum(r, f, PW_TEXT, err);
  for (size_t i = 0; i < r->n_note; i++)
    fprintf(f, "%snote: %s\n", i ? "" : "\n", r->note[i]);
  return s;
}

pw_status pw_sound_csv(const pw_sound_report *r, FILE *f, pw_err *err)
{
  return spectrum(r, f, PW_CSV, err);
}
