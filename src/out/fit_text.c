#include <string.h>

#include "base/tape.h"
#include "out/caution_out.h"
#include "out/clip.h"
#include "out/fit_out.h"
#include "out/grid.h"
#include "out/job_title.h"
#include "out/message_text.h"
#include "out/opening_facts.h"
#include "out/option_out.h"
#include "out/shape_out.h"
#include "out/text_stream.h"
#include "out/unit_out.h"
#include "out/units.h"
#include "out/wrap.h"

enum { WIDE = 100, CELL = 48 };

/* "60 x 47 5/8", or mm. */
static void size_cell(pw_grid *g, double width, double height, int denominator, int si)
{
  char w[CELL], h[CELL];
  pw_tape_text(width, denominator, w, sizeof w);
  pw_tape_text(height, denominator, h, sizeof h);
  if (!(width > 0.0 && height > 0.0))
    pw_grid_cell(g, "-");
  else if (si)
    pw_grid_cell(g, "%.0f x %.0f", width * 1e3, height * 1e3);
  else
    pw_grid_cell(g, "%s x %s", w, h);
}

static void length_cell(pw_grid *g, double length, int si)
{
  char t[CELL];
  pw_tape_text(length, 16, t, sizeof t);
  if (si)
    pw_grid_cell(g, "%.1f", length * 1e3);
  else
    pw_grid_cell(g, "%s", t);
}

static void height_cell(pw_grid *g, double height, int si)
{
  char t[CELL];
  pw_tape_text(height, 8, t, sizeof t);
  if (si)
    pw_grid_cell(g, "%.0f", height * 1e3);
  else
    pw_grid_cell(g, "%s", t);
}

static void area_cell(pw_grid *g, double area, int si)
{
  pw_grid_number(g, pw_show_area(pw_units(si), area), si ? 2 : 1);
}

static void percent_cell(pw_grid *g, double share) { pw_grid_number(g, 100.0 * share, 1); }

static pw_status print(pw_grid *g, const char *title, FILE *f, pw_err *err)
{
  fputc('\n', f);
  pw_wrap(f, "", title, WIDE);
  pw_status status = pw_grid_print(g, f, PW_TEXT, err);
  pw_grid_free(g);
  return status;
}

static pw_status sizes(const pw_fit_report *r, int si, FILE *f, pw_err *err)
{
  static const char *const header[] = {"<tag", "<room",   "<kind", "pocket", "order",
                                       "lean", "<square", "glass", "kept %"};
  pw_grid *g = pw_grid_new(sizeof header / sizeof header[0], header);
  for (size_t i = 0; i < r->job->n_opening; i++) {
    const pw_opening *o = &r->job->opening[i];
    if (o->standing != PW_REPLACED) continue;
    const pw_fit *fit = &r->fit[i];
    pw_grid_cell(g, "%s", o->tag);
    if (o->quantity > 1)
      pw_grid_cell(g, "%s x%d", pw_clip(o->room, 6).text, o->quantity);
    else
      pw_grid_cell(g, "%s", pw_clip(o->room, 9).text);
    pw_grid_cell(g, "%s",
                 pw_operator_is_door(o->operator_insert)
                     ? "door"
                     : pw_operator_name(o->operator_insert));
    size_cell(g, fit->pocket_width, fit->pocket_height, 16, si);
    size_cell(g, fit->order_width, fit->order_height, 8, si);
    length_cell(g, fit->lean, si);
    pw_grid_cell(g, "%s", pw_square_name(pw_fit_square(fit)));
    area_cell(g, fit->insert.glass_area, si);
    percent_cell(g, fit->glass_kept);
  }
  return print(
      g,
      si ? "Sizes (mm, m2): pocket after the job's cuts, size to order, new glass, glass kept"
         : "Sizes (in, ft2): pocket after the job's cuts, size to order, new glass, glass kept",
      f, err);
}

/* The glass kept for one way of cutting, or "-" where it does not exist. */
static void choice_cell(pw_grid *g, const pw_fit *fit, int fins, int lip)
{
  for (size_t i = 0; i < fit->n_choice; i++)
    if (fit->choice[i].fins_cut == fins && fit->choice[i].lip_cut == lip) {
      if (fit->choice[i].order_width > 0.0)
        percent_cell(g, fit->choice[i].glass_kept);
      else
        pw_grid_cell(g, "no fit");
      return;
    }
  pw_grid_cell(g, "-");
}

static const char *fins_word(const pw_opening *o)
{
  if (!(o->fin_width > 0.0)) return "none";
  if (o->fins_stay) return "stay";
  return o->fins_cut == 2 ? "both cut" : o->fins_cut == 1 ? "one cut" : "left";
}

static const char *lip_word(const pw_opening *o)
{
  if (!(o->sill_lip > 0.0)) return "none";
  if (o->lip_stay) return "stays";
  return o->sill_lip_cut ? "cut" : "left";
}

static pw_status cuts(const pw_fit_report *r, int si, FILE *f, pw_err *err)
{
  static const char *const header[] = {"<tag",    "old glass", "<fins",    "width +",
                                       "glass +", "<lip",      "height +", "glass +",
                                       "none %",  "lip %",     "fins %",   "both %"};
  pw_grid *g = pw_grid_new(sizeof header / sizeof header[0], header);
  for (size_t i = 0; i < r->job->n_opening; i++) {
    const pw_opening *o = &r->job->opening[i];
    if (o->standing != PW_REPLACED) continue;
    const pw_fit *fit = &r->fit[i];
    pw_grid_cell(g, "%s", o->tag);
    area_cell(g, fit->existing.glass_area, si);
    pw_grid_cell(g, "%s", fins_word(o));
    length_cell(g, fit->fins_width_gain, si);
    area_cell(g, fit->fins_glass_gain, si);
    pw_grid_cell(g, "%s", lip_word(o));
    length_cell(g, fit->lip_height_gain, si);
    area_cell(g, fit->lip_glass_gain, si);
    choice_cell(g, fit, 0, 0);
    choice_cell(g, fit, 0, 1);
    choice_cell(g, fit, 2, 0);
    choice_cell(g, fit, 2, 1);
  }
  return print(g,
               "What cutting both fins, and the lip, buys against leaving it; glass kept when "
               "none, lip, fins, "
               "both are cut",
               f, err);
}

static pw_status clear_openings(const pw_fit_report *r, int si, FILE *f, pw_err *err)
{
  static const char *const header[] = {"<tag",      "<use", "clear old", "area",   "bottom",
                                       "clear new", "area", "bottom",    "<escape"};
  static const char *const use[] = {"", "bedroom", "bath", "stair"};
  pw_grid *g = pw_grid_new(sizeof header / sizeof header[0], header);
  for (size_t i = 0; i < r->job->n_opening; i++) {
    const pw_opening *o = &r->job->opening[i];
    if (o->standing != PW_REPLACED) continue;
    const pw_clear *clear[2] = {&r->fit[i].clear_existing, &r->fit[i].clear_insert};
    pw_grid_cell(g, "%s", o->tag);
    pw_grid_cell(g, "%s", (unsigned)o->use < PW_USE_COUNT ? use[o->use] : "");
    for (int k = 0; k < 2; k++) {
      size_cell(g, clear[k]->width, clear[k]->height, 8, si);
      area_cell(g, clear[k]->area, si);
      if (clear[k]->bottom >= 0.0)
        height_cell(g, clear[k]->bottom, si);
      else
        pw_grid_cell(g, "?");
    }
    pw_grid_cell(g, "%s",
                 o->use != PW_USE_BEDROOM                       ? ""
                 : pw_caution_escape_fails(r->cautions, (int)i) ? "FAILS"
                                                                : "passes");
  }
  return print(
      g,
      "Clear opening when open (about), and its bottom above the floor; low allowances old, "
      "high new",
      f, err);
}

/* Length without the blanks at the end. */
static int trimmed(const char *line)
{
  size_t n = strlen(line);
  while (n && line[n - 1] == ' ')
    n--;
  return (int)n;
}

static void install_notes(const pw_fit_report *r, FILE *f)
{
  fputs("\nInstall notes\n", f);
  for (size_t k = 0; pw_joint_drawing[k]; k++)
    fprintf(f, "  %.*s\n", trimmed(pw_joint_drawing[k]), pw_joint_drawing[k]);
  fputs("  A: joint of old frame to stucco. B: joint of window to old frame. Not to scale.\n",
        f);
  char text[PW_MESSAGE_TEXT];
  for (size_t i = 0; i < r->job->n_opening; i++) {
    if (r->job->opening[i].standing != PW_REPLACED) continue;
    fprintf(f, " %s %s\n", r->job->opening[i].tag, r->job->opening[i].room);
    for (size_t k = 0; k < r->install[i].n_line; k++)
      pw_wrap(f, "  - ", pw_message_text(NULL, &r->install[i].line[k], text, sizeof text),
              WIDE);
  }
}

void pw_findings_text(const pw_job *job, const pw_fit fit[], FILE *f)
{
  int any = 0;
  for (size_t i = 0; i < job->n_opening; i++)
    for (size_t k = 0; k < fit[i].n_finding; k++) {
      char lead[PW_TAG_MAX + 16], text[PW_MESSAGE_TEXT];
      if (!any) fputs("\nReadings to look at again\n", f);
      any = 1;
      pw_tag_lead(lead, sizeof lead, "  ", job->opening[i].tag, 8);
      pw_wrap(f, lead, pw_message_text(NULL, &fit[i].finding[k].says, text, sizeof text), WIDE);
    }
}

/* The rows that may not be ordered yet, each with its reasons. */
static void not_yet(const pw_fit_report *r, FILE *f)
{
  int any = 0;
  for (size_t i = 0; i < r->job->n_opening; i++) {
    char lead[PW_TAG_MAX + 16], text[PW_MESSAGE_TEXT];
    if (r->check[i].may_order || r->job->opening[i].standing != PW_REPLACED) continue;
    if (!any++) fputs("\nNot to be ordered yet\n", f);
    for (size_t k = 0; k < r->check[i].n; k++) {
      pw_tag_lead(lead, sizeof lead, "  ", r->job->opening[i].tag, 8);
      pw_wrap(f, lead, pw_message_text(NULL, r->check[i].why[k], text, sizeof text), WIDE);
    }
  }
}

/* Which openings are one opening in the wall. */
static void units_said(const pw_fit_report *r, FILE *f)
{
  int any = 0;
  for (size_t i = 0; i < r->job->n_opening; i++) {
    char lead[PW_TAG_MAX + 16], text[240];
    pw_unit_words(NULL, r->job, i, 0, text, sizeof text);
    if (!text[0]) continue;
    if (!any++) fputs("\nUnits of several openings\n", f);
    pw_tag_lead(lead, sizeof lead, "  ", r->job->opening[i].tag, 8);
    pw_wrap(f, lead, text, WIDE);
  }
}

pw_status pw_fit_text(const pw_fit_report *r, int si, int all, FILE *f, pw_err *err)
{
  char title[800];
  const pw_package *package = &r->job->package[r->column];
  pw_notes_head(r->notes, f);
  snprintf(title, sizeof title, "%s: fit of package %s (%s, frame line %s)",
           pw_job_title(r->job).text, package->name, package->glass_text, package->frame_line);
  pw_wrap(f, "", title, WIDE);
  pw_facts_text(r->job, f);
  if (r->cautions->n_fail) fputc('\n', f);
  pw_caution_banner(r->job, r->fit, r->cautions, f);
  pw_status status = sizes(r, si, f, err);
  if (status == PW_OK) pw_shapes_text(r->job, r->fit, si, f);
  if (status == PW_OK) units_said(r, f);
  if (status == PW_OK) status = cuts(r, si, f, err);
  if (status == PW_OK) status = clear_openings(r, si, f, err);
  if (status != PW_OK) return status;
  pw_option_text(r->job, si, 1, f);
  not_yet(r, f);
  pw_findings_text(r->job, r->fit, f);
  pw_caution_text(r->job, r->cautions, all, f);
  if (all) install_notes(r, f);
  pw_notes_text(r->notes, f);
  return pw_text_written(f, "the fit", err);
}
