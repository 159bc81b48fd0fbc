#include <math.h>
#include <string.h>

#include "gen/reference.h"
#include "out/clip.h"
#include "out/compare_sound_out.h"
#include "out/grid.h"
#include "out/label_group.h"
#include "out/opening_facts.h"
#include "out/sound_report.h"
#include "out/text_stream.h"
#include "out/wrap.h"
#include "window/glass_sound.h"

/* "-1 to 3 dB": 10 and 90 % of a change. */
static const char *pw_sound_band_text(const pw_band *band, char text[32])
{
  double low = floor(band->p10 + 0.5), high = floor(band->p90 + 0.5);
  snprintf(text, 32, "%.0f to %.0f dB", low + 0.0, high + 0.0); /* no -0 */
  return text;
}

const char *pw_sound_noise_text(const pw_compare_sound *sound)
{
  return pw_ref_sound_noise[sound->noise].what;
}

static void window_row(pw_grid *g, const char *tag, const char *room, const char *name,
                       const pw_opening_sound *o, int package)
{
  static const char *const heard[] = {"may", "no", "yes"};
  int louder = package && o->change.p90 < -0.5;
  char text[32];
  pw_grid_cell(g, "%s", tag);
  pw_grid_cell(g, "%s", pw_clip(room, 9).text);
  pw_grid_cell(g, "%s", pw_clip(name, 8).text);
  pw_grid_cell(g, "%s", pw_sound_rw_text(&o->number, text));
  pw_grid_number(g, o->number.stc, 0);
  pw_grid_number(g, o->number.oitc, 0);
  pw_grid_cell(g, "%s", package ? pw_sound_band_text(&o->change, text) : "");
  pw_grid_cell(g, "%s", louder ? "louder" : package ? heard[o->heard] : "");
}

static pw_status openings(const pw_compare *c, const pw_compare_sound *s, FILE *f, pw_err *err)
{
  static const char *const header[] = {"<opening", "<room", "<window",    "Rw (C; Ctr)",
                                       "STC",      "OITC",  "quieter by", "heard"};
  pw_grid *g = pw_grid_new(8, header);
  for (size_t i = 0; i < c->n_opening; i++) {
    const pw_opening *o = &c->job->opening[i];
    window_row(g, o->tag, o->room, pw_window_name(c, -1, i, 8).text, &s->existing[i], 0);
    for (size_t p = 0; p < c->n_package && pw_compare_replaces(c->job, i); p++)
      window_row(g, "", "", pw_window_name(c, (int)p, i, 8).text,
                 &s->package[p * c->n_opening + i], 1);
  }
  fputs("\nSound of whole openings, dB (frame and joints included; quieter by: change of Rw + "
        "Ctr, "
        "8 in 10)\n",
        f);
  pw_status status = pw_grid_print(g, f, PW_TEXT, err);
  pw_grid_free(g);
  return status;
}

/* A line a room: what each package changes and, where the room is described, how many dB stay outside
 * and what comes in. */
static void rooms(const pw_compare *c, const pw_compare_sound *s, FILE *f)
{
  fprintf(f, "\nIn the rooms, %s (EN 12354-3: openings, wall and vent together), dB quieter\n",
          pw_sound_noise_text(s));
  for (size_t r = 0; r < s->n_room; r++) {
    const pw_room_sound *room = &s->room[r];
    char lead[60], line[900] = "", band[32];
    snprintf(lead, sizeof lead, "  %.40s: ", room->name);
    for (size_t p = 0, n = 0; p <= c->n_package; p++) {
      if (p == 0 && !room->complete) continue;
      const char *name = p ? c->rated.package_set[p - 1].name : "existing";
      n += (size_t)snprintf(line + n, sizeof line - n, "%s%.30s", n ? "; " : "", name);
      if (p)
        n += (size_t)snprintf(line + n, sizeof line - n, " %s",
                              pw_sound_band_text(&room->change[p - 1], band));
      if (room->complete)
        n += (size_t)snprintf(line + n, sizeof line - n, "%s difference %.0f dB", p ? "," : "",
                              room->level_difference[p]);
      if (isfinite(room->level_indoors[p]))
        n += (size_t)snprintf(line + n, sizeof line - n, ", about %.0f dB(A) indoors",
                              room->level_indoors[p]);
    }
    pw_wrap(f, lead, line, 100);
  }
}

/* A label's or laboratory's numbers, apart from ours. */
static void label(const char *name, const pw_label_group *g, FILE *f)
{
  const pw_label_row *k = &g->label;
  int rw = k->rw.value > 0.0, stc = k->stc.value > 0.0;
  if (!rw && !stc && !(k->oitc.value > 0.0)) return;
  char lead[120], text[200];
  int n = 0;
  snprintf(lead, sizeof lead, "  %.40s%s%.30s, label or laboratory: ", name, g->all ? "" : " ",
           g->all ? "" : g->tags);
  if (rw) n = snprintf(text, sizeof text, "Rw %.0f", k->rw.value);
  if (rw && pw_given_is(&k->ctr))
    n += snprintf(text + n, sizeof text - (size_t)n, " (Ctr %.0f)", k->ctr.value);
  if (stc)
    n += snprintf(text + n, sizeof text - (size_t)n, "%sSTC %.0f", n ? ", " : "", k->stc.value);
  if (k->oitc.value > 0.0)
    n += snprintf(text + n, sizeof text - (size_t)n, "%sOITC %.0f", n ? ", " : "",
                  k->oitc.value);
  snprintf(text + n, sizeof text - (size_t)n,
           " dB; it goes before what is computed and stays apart from it");
  pw_wrap(f, lead, text, 100);
}

static void verdicts(const pw_compare *c, const pw_compare_sound *s, FILE *f)
{
  char text[32];
  fputs("All openings together\n", f);
  for (size_t p = 0; p < c->n_package; p++) {
    pw_label_group group;
    for (size_t i = 0; pw_label_group_next(c, p, &i, &group);)
      label(c->rated.package_set[p].name, &group, f);
    fprintf(f, "  %.40s: %s, %s quieter%s\n", c->rated.package_set[p].name,
            pw_heard_text(s->heard[p]), pw_sound_band_text(&s->change[p], text),
            s->change[p].p10 < -0.5 ? " (below 0: louder than now)" : "");
  }
}

/* The new window by itself, where EN 14351-1 has a row for it. */
static void alone(const pw_compare *c, const pw_compare_sound *s, FILE *f)
{
  double low = INFINITY, high = -INFINITY;
  for (size_t k = 0; k < c->n_package * c->n_opening; k++)
    if (isfinite(s->package[k].window_rw)) {
      low = fmin(low, s->package[k].window_rw);
      high = fmax(high, s->package[k].window_rw);
    }
  if (!(low <= high)) return;
  char text[300];
  snprintf(text, sizeof text,
           "New windows by themselves: Rw %.0f%s%.0f dB by EN 14351-1 annex B from their glass "
           "(table from memory), if of air class 3, sliding 2. It does not cover a window in a "
           "retained aluminium frame: nothing above rests on it.",
           low, low < high ? " to " : "; ", high);
  if (low == high)
    snprintf(
        text, sizeof text,
        "New windows by themselves: Rw %.0f dB by EN 14351-1 annex B from their glass "
        "(table from memory), if of air class 3, sliding 2. It does not cover a window in a "
        "retained aluminium frame: nothing above rests on it.",
        low);
  pw_wrap(f, "", text, 100);
}

static void defaults(const pw_compare_sound *s, FILE *f)
{
  char text[300];
  double wall = 0.0;
  for (size_t r = 0; r < s->n_room; r++)
    if (!s->room[r].complete) wall = s->room[r].wall_rw;
  if (!s->defaults) return;
  snprintf(text, sizeof text,
           "Rooms without room_volume or wall_rw take %.0f m3, a wall of Rw %.0f dB (stucco on "
           "studs) +- %.0f dB, no vent: only differences are told.",
           pw_ref_sound_joints[pw_ref_sound_joints__room_volume].low, wall,
           pw_ref_sound_joints[pw_ref_sound_joints__wall_miss].high);
  pw_wrap(f, "", text, 100);
}

static void notes(const pw_compare_sound *s, FILE *f)
{
  static const struct {
    unsigned bit;
    const char *text;
  } known[] = {{PW_SOUND_LAMINATE,
                "Laminates are unsure: trade pages give acoustic ones 4 to 8 dB "
                "more; ask for a test report."},
               {PW_SOUND_TRIPLE, "Three panes: same method, held against no published unit."},
               {PW_SOUND_WIDE, "A gap above 20 mm may be up to 12 dB better than computed."}};
  pw_wrap(
      f, "",
      "3 dB is just noticed, 10 dB is heard as half as loud. Rw, STC and OITC are of the set "
      "that is safe for a promise, joints in the middle of what they may be. A sash that "
      "rattles or shows daylight leaks more than the data behind these figures, and gains "
      "more. Figures are computed, no certified rating.",
      100);
  for (size_t i = 0; i < sizeof known / sizeof known[0]; i++)
    if (s->notes & known[i].bit) pw_wrap(f, "", known[i].text, 100);
}

pw_status pw_compare_sound_text(const pw_compare *c, const pw_compare_sound *s, FILE *f,
                                pw_err *err)
{
  pw_status status = openings(c, s, f, err);
  if (status != PW_OK) return status;
  verdicts(c, s, f);
  rooms(c, s, f);
  defaults(s, f);
  alone(c, s, f);
  notes(s, f);
  return pw_text_written(f, "the sound", err);
}

static void input(size_t row, FILE *f)
{
  const pw_ref_sound_joints_row *j = &pw_ref_sound_joints[row];
  char text[700], unit[24];
  snprintf(unit, sizeof unit, "%s%s", j->unit[0] == '-' ? "" : " ",
           j->unit[0] == '-' ? "" : j->unit);
  fprintf(f, "  %s: %.3g .. %.3g%s\n", j->what, j->low, j->high, unit);
  snprintf(text, sizeof text, "%.500s (%.60s)", j->source, j->how_known);
  pw_wrap(f, "      ", text, 100);
}

pw_status pw_compare_sound_explain(const pw_compare *c, const pw_compare_sound *s, FILE *f,
                                   pw_err *err)
{
  char text[32];
  fputs("sound: change of Rw + Ctr of all openings together, dB\n", f);
  pw_wrap(
      f, "  ",
      "change = 10 lg (sum S tau of the windows there now / sum S tau of the package); S tau "
      "of an opening = glass + frame + joints, each area times its tau weighted by spectrum 2 "
      "of ISO 717-1; glass by layered impedance with a spacer path, joints by Gomperts with "
      "friction, open area from the flow at 75 Pa",
      100);
  fputs("\n", f);
  for (size_t p = 0; p < c->n_package; p++)
    fprintf(f, "  %.40s: 10, 50, 90 %%: %.1f, %.1f, %.1f dB; %s\n",
            c->rated.package_set[p].name, s->change[p].p10, s->change[p].p50, s->change[p].p90,
            pw_heard_text(s->heard[p]));
  fprintf(f, "  first opening, %s: glass Rw (C; Ctr) %s",
          c->job->opening[pw_compare_first(c->job)].tag,
          pw_sound_rw_text(&s->existing[pw_compare_first(c->job)].glass, text));
  fprintf(f, ", whole opening %s dB (set safe)\n",
          pw_sound_rw_text(&s->existing[pw_compare_first(c->job)].number, text));
  for (size_t p = 0; p < c->n_package; p++) {
    const pw_opening_sound *o = &s->package[p * c->n_opening];
    fprintf(f, "    %.40s: glass %s", c->rated.package_set[p].name,
            pw_sound_rw_text(&o->glass, text));
    fprintf(f, ", whole opening %s dB\n", pw_sound_rw_text(&o->number, text));
  }
  fprintf(f, "\nWhat goes in, %d draws, the same for old and new\n", (int)PW_SOUND_DRAWS);
  fputs("  parameter set: safe, central or laboratory, one for both windows\n", f);
  for (size_t i = 0; i < (size_t)pw_ref_sound_unit_sets__n; i++) {
    char line[300];
    snprintf(line, sizeof line, "%s: %s (%s)", pw_ref_sound_unit_sets[i].id,
             pw_ref_sound_unit_sets[i].source, pw_ref_sound_unit_sets[i].how_known);
    pw_wrap(f, "      ", line, 100);
  }
  if (s->notes & PW_SOUND_LAMINATE)
    fputs("  loss and stiffness of interlayers: reference/sound/interlayer.csv, from memory\n",
          f);
  for (size_t i = 0; i < (size_t)pw_ref_sound_joints__n; i++)
    input(i, f);
  return pw_text_written(f, "the explanation", err);
}
