#include <math.h>
#include <string.h>

#include "out/airing_out.h"
#include "out/caution_out.h"
#include "out/climate_text.h"
#include "out/clip.h"
#include "out/code_out.h"
#include "out/compare_out.h"
#include "out/compare_sound_out.h"
#include "out/covering_out.h"
#include "out/duct_out.h"
#include "out/fit_out.h"
#include "out/grid.h"
#include "out/job_title.h"
#include "out/message_text.h"
#include "out/opening_facts.h"
#include "out/option_out.h"
#include "out/phases_out.h"
#include "out/price_out.h"
#include "out/range_out.h"
#include "out/result.h"
#include "out/section_said.h"
#include "out/text_stream.h"
#include "out/tight_out.h"
#include "out/unit_out.h"
#include "out/wrap.h"
#include "panewright/units.h"
#include "window/code_default.h"

const char pw_no_heating[] = "The house has no heating: it floats below heat_set, no heat is "
                             "billed and none is saved;\n"
                             "what new windows keep warm is comfort.\n";

void pw_no_cooling(const pw_compare *c, const pw_unit_set *units, FILE *f)
{
  fprintf(f,
          "The house has no cooling: it floats above cool_set, its windows %s; \"warm h\" are "
          "the hours a\nyear with room air above %.0f %s. What new windows take off them is "
          "comfort, not money.\n",
          c->lived.house.airing.hours ? "opened" : "shut",
          pw_show_temperature(units, pw_k(c->lived.house.warm_c)), units->temperature);
}

static pw_status print(pw_grid *grid, const char *title, FILE *f, pw_err *err)
{
  fprintf(f, "\n%s\n", title);
  pw_status status = pw_grid_print(grid, f, PW_TEXT, err);
  pw_grid_free(grid);
  return status;
}

/* Each window of each opening: U, SHGC, VT, glass kept. */
static pw_status by_opening(const pw_compare *c, const pw_unit_set *units, FILE *f, pw_err *err)
{
  static const char *const header[] = {"<opening",   "<room",      "opening",     "<window",
                                       "U",          "SHGC",       "VT",          "glass",
                                       "glass kept", "light kept", "sweats above"};
  static const pw_window_result told[] = {PW_WINDOW_U,          PW_WINDOW_SHGC,
                                          PW_WINDOW_VT,         PW_WINDOW_GLASS_AREA,
                                          PW_WINDOW_GLASS_KEPT, PW_WINDOW_LIGHT_KEPT};
  pw_grid *g = pw_grid_new(sizeof header / sizeof header[0], header);
  int marked = 0;
  for (size_t i = 0; i < c->n_opening; i++) {
    const pw_opening *o = &c->job->opening[i];
    for (int s = -1; s < (int)c->n_package; s++) {
      const pw_compare_window *w = pw_compare_window_of(&c->rated, s, i);
      if (s >= 0 && !pw_compare_replaces(c->job, i)) break; /* the same in every set */
      double rh = pw_compare_first_to_sweat(&w->sweat);
      pw_grid_cell(g, "%s", s < 0 ? o->tag : "");
      pw_grid_cell(g, "%s", s < 0 ? pw_clip(o->room, 9).text : "");
      if (s < 0)
        pw_figure_cell(g, PW_FIGURE_AREA, units, w->rating.area);
      else
        pw_grid_cell(g, "%s", "");
      pw_clipped name = pw_window_name(c, s, i, 8);
      marked |= name.text[0] == '=';
      pw_grid_cell(g, "%s", name.text);
      for (size_t k = 0; k < sizeof told / sizeof told[0]; k++)
        pw_figure_cell(g, pw_window_result_of(told[k])->kind, units,
                       pw_window_value(told[k], w, NULL));
      pw_grid_cell(g, "%.0f %%", 100.0 * fmin(rh, 1.0));
    }
  }
  char title[200];
  snprintf(title, sizeof title,
           "Opening by opening, whole openings (U in %s, areas in %s; sweating at %.0f %s out)",
           units->u, units->area, pw_show_temperature(units, c->rated.t_design_out),
           units->temperature);
  pw_status status = print(g, title, f, err);
  if (marked)
    fputs("= stands before what an opening has of its own in place of the column's.\n", f);
  pw_option_text(c->job, units->si, 0, f);
  return status;
}

static void parts_row(pw_grid *g, const char *name, const pw_parts *p, double scale,
                      int decimals)
{
  double v[] = {p->center, p->edge, p->frame, p->divider, p->retained};
  double sum = 0.0;
  pw_grid_cell(g, "%s", pw_clip(name, 20).text);
  for (size_t i = 0; i < 5; i++) {
    pw_grid_number(g, v[i] * scale, decimals);
    sum += v[i] * scale;
  }
  pw_grid_number(g, sum, decimals);
}

static pw_status heat_path(const pw_compare *c, const pw_unit_set *units, FILE *f, pw_err *err)
{
  const char *header[] = {
      "<window", "middle", "rim", "frame and sash", "meeting rail", "old frame left in", "all"};
  if (pw_option_has_bars(c->job)) header[4] = "rails and bars";
  pw_grid *g = pw_grid_new(7, header);
  for (int s = -1; s < (int)c->n_package; s++)
    parts_row(g, pw_compare_set_of(c, s).rated->name, &pw_compare_set_of(c, s).rated->ua,
              pw_show_ua(units, 1.0), 1);
  char title[120];
  snprintf(title, sizeof title, "Where the heat goes: all openings, %s", units->ua);
  return print(g, title, f, err);
}

/* Whether any frame of the package is drawn. */
static int drawn(const pw_compare *c, size_t p)
{
  for (size_t i = 0; i < c->n_opening; i++)
    if (c->rated.package[p][i].rating.u_frame.origin == PW_ORIGIN_COMPUTED) return 1;
  return 0;
}

/* One choice at a time, on the last package. */
static pw_status choices(const pw_compare *c, const pw_unit_set *units, FILE *f, pw_err *err)
{
  static const char *const header[] = {"<choice", "heat", "against", "glass"};
  pw_compare_choice choice[PW_COMPARE_CHOICES];
  size_t n = 0, p = c->n_package - 1;
  pw_status status = pw_compare_choices(c, p, choice, &n, err);
  if (status != PW_OK || n == 0) return status; /* 0: nothing is replaced */
  pw_grid *g = pw_grid_new(4, header);
  for (size_t i = 0; i < n; i++) {
    pw_grid_cell(g, "%s", pw_message_word(NULL, choice[i].says));
    pw_grid_number(g, pw_show_ua(units, choice[i].ua), 1);
    if (i == 0)
      pw_grid_cell(g, "%s", "");
    else
      pw_grid_cell(g, "%+.1f %%", 100.0 * (choice[i].ua / choice[0].ua - 1.0));
    pw_grid_number(g, pw_show_area(units, choice[i].glass_area), 1);
  }
  char title[240];
  snprintf(title, sizeof title,
           "What each choice does, package %s: heat of all openings in %s, glass in %s",
           c->rated.package_set[p].name, units->ua, units->area);
  status = print(g, title, f, err);
  fprintf(f,
          "Judge by the heat of the same openings, never by frame U: a cut fin narrows the "
          "frame, its\n"
          "U rises, and glass takes its place.\n%s",
          drawn(c, p)
              ? "Frames by their drawn sections; what these fix is no choice and left out.\n"
              : "Frames by catalogue values; the ring's by own sections.\n");
  return status;
}

/* tight: the job says how the old sashes leak, so that tightness has a table of its own. */
static pw_status house(const pw_compare *c, int tight, const pw_unit_set *units, FILE *f,
                       pw_err *err)
{
  const char *const header[] = {"<windows", "U",
                                "SHGC",     "glass",
                                "heat kWh", c->billed.rates.cools ? "cool kWh" : "warm h",
                                "bill",     "saved",
                                "price",    "payback"};
  const pw_result told[] = {PW_RESULT_U, PW_RESULT_SHGC, PW_RESULT_GLASS_KEPT,
                            PW_RESULT_HEATING,
                            c->billed.rates.cools ? PW_RESULT_COOLING : PW_RESULT_HOURS_WARM};
  pw_grid *g = pw_grid_new(sizeof header / sizeof header[0], header);
  for (int s = -2; s < (int)c->n_package; s++) {
    /* the existing set first */
    const pw_compare_set set = pw_compare_set_of(c, s >= 0    ? s
                                                    : s == -2 ? PW_SET_EXISTING
                                                              : PW_SET_MINIMUM);
    pw_grid_cell(g, "%s", pw_clip(set.rated->name, 16).text);
    for (size_t k = 0; k < sizeof told / sizeof told[0]; k++)
      pw_figure_cell(g, pw_result_of(told[k])->kind, units, pw_result_value(told[k], set));
    pw_grid_dollars(g, set.billed->bill.cost_year);
    if (s == -2)
      pw_grid_cell(g, "%s", "");
    else
      pw_grid_dollars(g, set.billed->saving.cost_year);
    if (set.billed->price > 0.0 && s >= 0) {
      pw_grid_dollars(g, set.billed->price);
      if (isfinite(set.billed->worth.simple_payback))
        pw_grid_cell(g, "%.0f years%s", set.billed->worth.simple_payback,
                     set.billed->worth.notes & PW_WORTH_BEYOND_LIFE ? " *" : "");
      else
        pw_grid_cell(g, "never");
    } else {
      pw_grid_cell(g, "%s", s >= 0 && pw_compare_n_replaced(c->job) == 0 ? "$0" : "");
      pw_grid_cell(g, "%s", "");
    }
  }
  char title[120];
  snprintf(
      title, sizeof title,
      "The house for a year: heating and cooling (U in %s; $ a year, saved against existing)",
      units->u);
  pw_status status = print(g, title, f, err);
  for (size_t p = 0; p < c->n_package; p++)
    if (c->billed.package_set[p].price > 0.0 &&
        (c->billed.package_set[p].worth.notes & PW_WORTH_BEYOND_LIFE)) {
      fprintf(f, "* longer than the window is expected to live\n");
      break;
    }
  fprintf(f,
          "\"code minimum\" is a new window that just meets %s %s, climate zone %d; the local\n"
          "edition governs.\n",
          c->rated.minimum.name, c->rated.minimum.edition, c->rated.minimum.zone);
  fprintf(f,
          "The windows there now have about %.0f years left (%s);\n"
          "no spared replacement is counted.\n",
          c->billed.residual_life.value, c->billed.residual_life.source);
  if (!c->billed.rates.heats) fputs(pw_no_heating, f);
  if (c->billed.rates.heats && !c->billed.rates.heats_by_duct &&
      c->job->house.duct_efficiency.value < 1.0)
    fprintf(f, "duct_efficiency acts on the cooling alone: a %s has no ducts.\n",
            c->job->house.heating_kind);
  pw_duct_text(c, f);
  if (!c->billed.rates.cools) pw_no_cooling(c, units, f);
  for (size_t p = 0; !tight && p < c->n_package; p++)
    if (c->lived.package_set[p].joints_known)
      fprintf(
          f,
          "Air through the joints of %.30s at its label value: about %.0f kWh of heat a year,\n"
          "counted apart; nobody measured the old joints, so no saving is claimed from them.\n",
          c->rated.package_set[p].name, c->lived.package_set[p].joints.heat_kwh);
  return status;
}

static void upper_check(const pw_compare *c, const pw_unit_set *units, FILE *f)
{
  pw_code_values v;
  size_t first = pw_compare_first(c->job);
  const pw_opening *o = &c->job->opening[first];
  if (pw_code_default_of(PW_CODE_IECC, o, &v, NULL) != PW_OK) return;
  fprintf(f,
          "Upper check: a code gives a window without label like %s U %.2f, SHGC %.2f; "
          "computed here\n"
          "U %.2f, SHGC %.2f. The computed value is the base of every saving.\n",
          o->tag, pw_show_u(units, v.u), v.shgc,
          pw_show_u(units, c->rated.existing[first].rating.u),
          c->rated.existing[first].rating.shgc);
}

static void assumptions(const pw_compare *c, const pw_compare_frame *frame, FILE *f)
{
  fprintf(f, "\nTaken for granted in the house model\n");
  for (size_t i = 0; i < c->lived.house_notes.n_assumed; i++) {
    const pw_house_assumed *a = &c->lived.house_notes.assumed[i];
    char lead[60], text[PW_MESSAGE_TEXT + 200], value[PW_MESSAGE_TEXT];
    snprintf(lead, sizeof lead, "  %s: ", pw_message_word(NULL, a->item));
    snprintf(text, sizeof text, "%s (%s)",
             pw_message_text(NULL, &a->value, value, sizeof value), a->source);
    pw_wrap(f, lead, text, 100);
  }
  if (c->billed.rates.notes & (PW_BILL_STATE_AVERAGE | PW_BILL_NATIONAL))
    fprintf(f, "  energy prices: state or national averages of their year, not this bill's\n");
  if (frame->notes) pw_notes_text(frame->notes, f);
}

void pw_compare_heading(const pw_compare *c, const pw_compare_frame *frame, FILE *f)
{
  fprintf(f, "%s", pw_job_title(c->job).text);
  if (c->job->house.customer[0]) fprintf(f, ", %s", c->job->house.customer);
  fputc('\n', f);
  pw_wrap(f, "Climate: ", pw_climate_text(NULL, frame->climate, (char[PW_CLIMATE_TEXT]){""}),
          100);
  pw_wrap(f, "Year: ", frame->method, 100);
  pw_facts_text(c->job, f);
}

pw_status pw_compare_text(const pw_compare *c, const pw_compare_frame *frame,
                          const pw_unit_set *units, FILE *f, pw_err *err)
{
  pw_notes_head(frame->notes, f);
  pw_caution_banner(c->job, c->fitted.fit[0], &c->fitted.cautions, f);
  pw_compare_heading(c, frame, f);
  pw_status status = by_opening(c, units, f, err);
  if (status == PW_OK) status = pw_units_text(c, units, f, err);
  if (status == PW_OK) status = heat_path(c, units, f, err);
  if (status == PW_OK) status = choices(c, units, f, err);
  if (status == PW_OK) status = pw_code_text(c, units, f, err);
  if (status == PW_OK) {
    int tight = frame->tight && frame->tight->told;
    status = house(c, tight, units, f, err);
    if (status == PW_OK) status = pw_covering_text(c, f, err);
    if (status == PW_OK) status = pw_airing_text(c, frame->airing, units, f, err);
    if (status == PW_OK && tight) status = pw_tight_text(c, frame->tight, units, f, err);
  }
  if (status == PW_OK) status = pw_price_parts_text(c, f, err);
  if (status == PW_OK && frame->phases) status = pw_phases_text(c, frame->phases, f, err);
  if (status != PW_OK) return status;
  if (frame->sound) status = pw_compare_sound_text(c, frame->sound, f, err);
  if (status == PW_OK && frame->range) status = pw_range_text(c, frame->range, units, f, err);
  if (status != PW_OK) return status;
  if (frame->rebate) pw_rebate_text(c, frame->rebate, f);
  pw_claims_text(c, frame->range, f);
  upper_check(c, units, f);
  pw_findings_text(c->job, c->fitted.fit[0], f);
  pw_section_said_text(c, f);
  pw_caution_text(c->job, &c->fitted.cautions, frame->all, f);
  assumptions(c, frame, f);
  fprintf(f, "\nComputed as installed in these openings; not a certified rating. Label values, "
             "where a\n"
             "package has them, are what paperwork uses.\n");
  return pw_text_written(f, "the comparison", err);
}
