/* Fitting by the rules of the trade: order sizes, lean, square class and opening areas of the two
 * sample jobs, what the cautions find on them, and the table of glass lost by cutting less. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "check/check.h"
#include "check/table_rows.h"
#include "check/trade_sample.h"
#include "panewright/units.h"
#include "window/caution.h"
#include "window/frame_line.h"
#include "window/install.h"

static const char rule_source[] = "tables trade/samples by measure item 5";
static const char loss_source[] = "notes on trade, measure item 7";

static double square_code(const char *word)
{
  for (int s = PW_SQUARE_UNKNOWN; s <= PW_SQUARE_STOP; s++)
    if (strcmp(word, pw_square_name((pw_square)s)) == 0) return s;
  return (double)NAN;
}

static void sample_rows(const trade_sample *s, const pw_check_sink *sink)
{
  const pw_table *t = s->expected;
  for (size_t i = 0; i < s->job.n_opening; i++) {
    const pw_fit *f = &s->fit[i];
    const struct {
      const char *column, *unit;
      double ours, tolerance;
    } row[] = {
        {"min_width", "in", f->width_min / PW_INCH, 1e-9},
        {"min_height", "in", f->height_min / PW_INCH, 1e-9},
        {"diag_diff", "in", f->diagonal_difference / PW_INCH, 1e-9},
        {"lean", "in", f->lean / PW_INCH, 5.1e-4}, /* printed to 0.001 */
        {"pocket_width_after_fins", "in", f->pocket_width / PW_INCH, 1e-9},
        {"pocket_height_after_lip", "in", f->pocket_height / PW_INCH, 1e-9},
        {"order_width", "in", f->order_width / PW_INCH, 1e-9},
        {"order_height", "in", f->order_height / PW_INCH, 1e-9},
        {"opening_area_ft2", "ft2", f->opening_area / PW_FOOT2, 5.1e-4},
    };
    for (size_t k = 0; k < sizeof row / sizeof row[0]; k++) {
      pw_check_give(sink, s->opening[i].tag, row[k].column, row[k].unit, row[k].ours,
                    row_number(t, i, row[k].column), row[k].tolerance, rule_source, "computed");
    }
    pw_check_give(sink, s->opening[i].tag, "square_class", "1 ok, 2 adjust, 3 remeasure",
                  f->square, square_code(row_text(t, i, "square_class")), 0.0, rule_source,
                  "computed");
  }
}

/* Sizes of the table are of the pocket with fins (1/2 in) and lip (9/16 in) off. */
static pw_opening bare_pocket(pw_operator kind, double width, double height, int fins, int lip)
{
  pw_opening o = {.operator_existing = kind,
                  .operator_insert = kind,
                  .fin_width = 0.5 * PW_INCH,
                  .fins_cut = 2 * fins,
                  .sill_lip = 0.5625 * PW_INCH,
                  .sill_lip_cut = lip,
                  .sill_height = PW_NOT_GIVEN,
                  .frame_face = pw_existing_frame_face(kind),
                  .sash_face = pw_existing_sash_face(),
                  .meeting_face = pw_existing_meeting_face()};
  for (int i = 0; i < 3; i++) {
    o.width[i] = (width - 1.0) * PW_INCH;
    o.height[i] = (height - 0.5625) * PW_INCH;
  }
  return o;
}

static pw_status loss_rows(const pw_check_sink *sink, pw_err *err)
{
  static const struct {
    const char *id;
    pw_operator kind;
    double width, height, glass_ft2, percent[3]; /* kept, fins cut, fins and lip cut */
  } row[] = {
      {"slider 71 1/2 x 47 1/2", PW_SLIDER, 71.5, 47.5, 20.7, {-13.5, -12.2, -10.8}},
      {"slider 35 1/2 x 35 1/2", PW_SLIDER, 35.5, 35.5, 7.0, {-22.6, -19.8, -18.0}},
      {"fixed 59 1/2 x 59 1/2", PW_FIXED, 59.5, 59.5, 23.0, {-9.1, -7.5, -6.4}},
  };
  static const char *const what[3] = {"glass lost, fins and lip kept", "glass lost, fins cut",
                                      "glass lost, fins and lip cut"};
  pw_frame_line line[32];
  size_t n = 0;
  for (; n < pw_frame_line_count() && n < 32; n++)
    pw_frame_line_builtin(n, &line[n]);
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    for (int k = 0; k < 3; k++) {
      pw_opening o = bare_pocket(row[i].kind, row[i].width, row[i].height, k > 0, k > 1);
      pw_fit f;
      pw_status status =
          pw_fit_opening(&o, pw_frame_line_pick(line, n, "vinyl", row[i].kind), &f, err);
      if (status != PW_OK) return status;
      /* printed to 0.1 */
      if (k == 0)
        pw_check_give(sink, row[i].id, "old glass area", "ft2",
                      f.existing.glass_area / PW_FOOT2, row[i].glass_ft2, 0.051, loss_source,
                      "computed");
      pw_check_give(sink, row[i].id, what[k], "%", 100.0 * (f.glass_kept - 1.0),
                    row[i].percent[k], 0.051, loss_source, "computed");
    }
  return PW_OK;
}

/* Which rules are found on which opening: trade/README.md "Sample flags to expect". B06 is a sliding
 * door like A8 and takes the same rule; everything not listed must stay silent. */
static int expected_flag(const char *mark, const char *id)
{
  static const char *const flag[][2] = {{"A1", "SG1"},  {"A5", "EG1"},  {"A5", "EG4"},
                                        {"A5", "EG5"},  {"A8", "SG6"},  {"B05", "SG5"},
                                        {"B06", "SG6"}, {"B09", "FP1"}, {"B10", "SG7"},
                                        {"B12", "EG1"}, {"B12", "EG4"}, {"B13", "SG8"}};
  for (size_t i = 0; i < sizeof flag / sizeof flag[0]; i++)
    if (strcmp(flag[i][0], mark) == 0 && strcmp(flag[i][1], id) == 0) return 1;
  return 0;
}

static int flagged(const pw_cautions *list, int opening, const char *id)
{
  for (size_t i = 0; i < list->n; i++)
    if (list->caution[i].opening == opening && list->caution[i].state >= PW_CAUTION_FLAG &&
        strcmp(list->caution[i].id, id) == 0)
      return 1;
  return 0;
}

static pw_status flag_rows(const trade_sample *s, const char *name, const pw_check_sink *sink,
                           pw_err *err)
{
  static const char *const id[] = {"EG1", "EG3", "EG4", "EG5", "FP1",
                                   "SG1", "SG5", "SG6", "SG7", "SG8"};
  static const char source[] = "notes on trade: sample flags by table trade/safety";
  pw_cautions list;
  pw_status status = pw_cautions_find(&s->job, s->fit, &list, err);
  if (status != PW_OK) return status;
  for (size_t o = 0; o < s->job.n_opening; o++)
    for (size_t k = 0; k < sizeof id / sizeof id[0]; k++) {
      pw_check_give(sink, s->opening[o].tag, id[k], "1 found", flagged(&list, (int)o, id[k]),
                    expected_flag(s->opening[o].tag, id[k]), 0.0, source, "read");
    }
  int a = strcmp(name, "job_a_08") == 0;
  const pw_check_row site[] = {
      {name, "LP1 lead paint", "1 found", flagged(&list, PW_CAUTION_WHOLE_JOB, "LP1"), a, 0, 0,
       0, source, "read", 0},
      {name, "FI1 fire zone", "1 found", flagged(&list, PW_CAUTION_WHOLE_JOB, "FI1"), !a, 0, 0,
       0, source, "read", 0}};
  for (size_t i = 0; i < sizeof site / sizeof site[0]; i++)
    sink->row(sink->context, &site[i]);
  pw_cautions_free(&list);
  return PW_OK;
}

static double measure_typical(const char *id)
{
  const pw_table *t = pw_table_find("trade/measure");
  for (size_t r = 0; t && r < t->n_row; r++)
    if (strcmp(pw_table_text(t, r, 0), id) == 0) return row_number(t, r, "typical");
  return (double)NAN;
}

/* The built-in sight lines and the clearance are measure.csv's typical values; a 60 in vinyl frame
 * moves 0.22 in over 100 F in all (row E1, printed to 0.01), which is four times the +- at each end
 * over +-50 F. */
static pw_status measure_rows(const pw_check_sink *sink, pw_err *err)
{
  pw_frame_line line[32];
  size_t n = 0;
  for (; n < pw_frame_line_count() && n < 32; n++)
    pw_frame_line_builtin(n, &line[n]);
  const pw_frame_line *fixed = pw_frame_line_pick(line, n, "vinyl", PW_FIXED);
  const pw_frame_line *moves = pw_frame_line_pick(line, n, "vinyl", PW_SLIDER);
  if (!fixed || !moves) return pw_fail(err, PW_E_MISSING, NULL, "no built-in frame line vinyl");
  const pw_fit sixty = {.order_width = 60.0 * PW_INCH, .order_height = 40.0 * PW_INCH};
  const pw_house_facts house = {.sealant = "polyurethane"};
  const pw_opening none = {0};
  pw_install install;
  pw_install_plan(&none, &sixty, &house, PW_FRAME_VINYL, 0, &install);
  const struct {
    const char *id, *quantity;
    double ours, want, tolerance;
  } row[] = {
      {"F1", "insert, fixed face", fixed->frame_face, measure_typical("F1"), 1e-9},
      {"F2", "insert, moving face", moves->sash_face, measure_typical("F2"), 1e-9},
      {"F3", "insert, meeting rail", moves->meeting_face, measure_typical("F3"), 1e-9},
      {"F4", "old sash face", pw_existing_sash_face(), measure_typical("F4"), 1e-9},
      {"F5", "old fixed face", pw_existing_frame_face(PW_FIXED), measure_typical("F5"), 1e-9},
      {"F11", "glass bite", moves->bite_max, measure_typical("F11"), 1e-9},
      {"M9", "clearance", moves->clearance, measure_typical("M9"), 1e-9},
      {"E1", "60 in of vinyl over 100 F", 4.0 * install.movement, 0.22, 5.1e-3},
      {"S3", "sealant joint, 60 in of vinyl", install.joint_wanted, 0.25, 1e-9},
  };
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_check_give(sink, row[i].id, row[i].quantity, "in", row[i].ours / PW_INCH, row[i].want,
                  row[i].tolerance, "table trade/measure", "memory (common practice)");
  }
  return PW_OK;
}

static pw_status run(const pw_check_sink *sink, pw_err *err)
{
  static const char *const name[] = {"job_a_08", "job_b_14"};
  for (size_t i = 0; i < sizeof name / sizeof name[0]; i++) {
    trade_sample s;
    pw_status status = trade_sample_read(name[i], &s, err);
    if (status != PW_OK) return status;
    sample_rows(&s, sink);
    status = flag_rows(&s, name[i], sink, err);
    if (status != PW_OK) return status;
  }
  pw_status status = loss_rows(sink, err);
  return status == PW_OK ? measure_rows(sink, err) : status;
}

extern const pw_check_group pw_check_trade;
const pw_check_group pw_check_trade = {
    "trade", "order sizes, squareness and glass kept by the rules of the trade", run};
