#include "money/program.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/nearest.h"
#include "money/program_impl.h"
#include "panewright/units.h"

/* ---------------------------------------------------------------- words, units */

static const char *const metric_name[PW_METRIC_COUNT] = {"U", "SHGC", "VT", "air_leakage"};

const char *pw_metric_name(pw_metric metric)
{
  return (int)metric >= 0 && metric < PW_METRIC_COUNT ? metric_name[metric] : "";
}

const char *pw_op_sign(pw_op op)
{
  static const char *const sign[PW_OP_COUNT] = {"<=", ">=", "="};
  return (int)op >= 0 && op < PW_OP_COUNT ? sign[op] : "";
}

pw_status pw_metric_unit(pw_metric metric, const char *unit, double *si, double *step,
                         pw_err *err)
{
  static const struct {
    pw_metric metric;
    const char *unit;
    double si, step;
  } row[] = {
      {PW_METRIC_U, "Btu/h-ft2-F", PW_U_IP, 0.01},
      {PW_METRIC_U, "W/m2K", 1.0, 0.01},
      {PW_METRIC_SHGC, "-", 1.0, 0.01},
      {PW_METRIC_SHGC, "", 1.0, 0.01},
      {PW_METRIC_VT, "-", 1.0, 0.01},
      {PW_METRIC_VT, "", 1.0, 0.01},
      /* 1 cfm/ft2 = 1 ft/min */
      {PW_METRIC_AIR_LEAKAGE, "cfm/ft2", PW_FOOT / 60.0, 0.1},
  };
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    if (row[i].metric == metric && strcmp(row[i].unit, unit) == 0) {
      *si = row[i].si;
      *step = row[i].step;
      return PW_OK;
    }
  return pw_fail(err, PW_E_DOMAIN, "unit", "'%.24s' is no unit of %s, want %s", unit,
                 pw_metric_name(metric),
                 metric == PW_METRIC_U             ? "Btu/h-ft2-F or W/m2K"
                 : metric == PW_METRIC_AIR_LEAKAGE ? "cfm/ft2"
                                                   : "-");
}

pw_label pw_label_of(const pw_label_row *row)
{
  return (pw_label){row->u.value, row->shgc.value, row->vt.value, row->air_leakage.value};
}

/* ---------------------------------------------------------------- zones */

static int any_zone(const pw_program_row *row)
{
  return !row->zone[0] || strcmp(row->zone, "all") == 0;
}

const char *pw_program_zone(const pw_program *program, size_t i)
{
  for (size_t r = 0, n = 0; r < program->n_row; r++) {
    const pw_program_row *row = &program->row[r];
    int seen = any_zone(row);
    for (size_t k = 0; !seen && k < r; k++)
      seen = strcmp(program->row[k].zone, row->zone) == 0;
    if (!seen && n++ == i) return row->zone;
  }
  return NULL;
}

const char *pw_program_zone_named(const pw_program *program, const char *name)
{
  const char *own;
  for (size_t i = 0; (own = pw_program_zone(program, i)) != NULL; i++)
    if (pw_edit_distance(own, name) == 0) return own;
  return name;
}

pw_status program_zone_check(const pw_program *program, const char **zone, pw_err *err)
{
  char list[240] = "";
  const char *name = pw_program_zone(program, 0);
  if (!(*zone)[0] && name && !pw_program_zone(program, 1)) *zone = name;
  *zone = pw_program_zone_named(program, *zone);
  for (size_t i = 0; (name = pw_program_zone(program, i)) != NULL; i++) {
    if (strcmp(name, *zone) == 0) return PW_OK;
    size_t n = strlen(list);
    snprintf(list + n, sizeof list - n, "%s%s", i ? ", " : "", name);
  }
  if (!list[0]) return PW_OK;
  if (!(*zone)[0])
    return pw_fail(err, PW_E_DOMAIN, "zone", "the program has zones, want one of: %s", list);
  return pw_fail(err, PW_E_DOMAIN, "zone", "'%.40s' is no zone of the program, want one of: %s",
                 *zone, list);
}

static int in_force(const pw_program_row *row, pw_date date)
{
  return (!row->from || date >= row->from) && (!row->to || date <= row->to);
}

int program_row_holds(const pw_program_row *row, const char *zone, pw_date date)
{
  int here = any_zone(row) || strcmp(row->zone, zone) == 0;
  return here && (!date || in_force(row, date));
}

int pw_program_conditioned(const pw_program *program, const char *zone, pw_date date)
{
  const char *own = zone;
  program_zone_check(program, &own,
                     NULL); /* one that is none holds for rows of any zone alone */
  for (size_t i = 0; i < program->n_row; i++) {
    const pw_program_row *row = &program->row[i];
    if (row->kind == PW_ROW_ROOMS && row->conditioned && program_row_holds(row, own, date))
      return 1;
  }
  return 0;
}

/* ---------------------------------------------------------------- in force */

/* Whether a row decides when a program is open: criteria and amounts do, papers do not. */
static int opens(const pw_program_row *row, const char *zone)
{
  return (row->kind == PW_ROW_CRITERION || row->kind == PW_ROW_AMOUNT) &&
         program_row_holds(row, zone, 0);
}

/* The date to judge on when the job has none: the newest at which a row of the zone begins. */
static pw_date program_newest(const pw_program *program, const char *zone)
{
  pw_date newest = 0, last_to = 0;
  for (size_t i = 0; i < program->n_row; i++) {
    const pw_program_row *row = &program->row[i];
    if (!opens(row, zone)) continue;
    if (row->from > newest) newest = row->from;
    if (row->to > last_to) last_to = row->to;
  }
  return newest ? newest : last_to;
}

/* Sets the verdict when no criterion or amount of the zone is in force on the date. */
static void judge_date(const pw_program *program, const char *zone, pw_date date,
                       pw_program_result *result)
{
  pw_date last_to = 0, first_from = 0;
  int dated = 0, force = 0;
  for (size_t i = 0; i < program->n_row; i++) {
    const pw_program_row *row = &program->row[i];
    if (!opens(row, zone)) continue;
    dated |= row->from || row->to;
    force |= date && in_force(row, date);
    if (row->to > last_to) last_to = row->to;
    if (row->from && (!first_from || row->from < first_from)) first_from = row->from;
  }
  if (!date && dated) result->verdict = PW_VERDICT_NO_DATE;
  if (!date || force) return;
  int early = first_from && date < first_from;
  result->verdict = early ? PW_VERDICT_EARLY : PW_VERDICT_ENDED;
  result->says = PW_SAYS(early ? PW_SAY_PROGRAM_BEGINS : PW_SAY_PROGRAM_ENDED, PW_OWN,
                         PW_INT(early ? first_from : last_to), PW_INT(date));
  pw_message_own(&result->says, program->row[0].program);
}

/* ---------------------------------------------------------------- criteria */

/* The label value in the row's unit, rounded to its last digit; a hair of 1e-9 steps takes off what
 * the way through SI has added. */
static double printed(const pw_program_row *row, const pw_label *label)
{
  const double si[PW_METRIC_COUNT] = {label->u, label->shgc, label->vt, label->air_leakage};
  double steps = si[row->metric] / row->si / row->step;
  return floor(steps + 0.5 + 1e-9) * row->step;
}

static pw_criterion_result hold(const pw_program_row *row, const pw_label *label)
{
  pw_criterion_result c = {.row = row, .label = printed(row, label), .holds = -1};
  if (isnan(c.label)) {
    c.margin = (double)NAN;
    return c;
  }
  double room = row->op == PW_OP_LE   ? row->value - c.label
                : row->op == PW_OP_GE ? c.label - row->value
                                      : -fabs(c.label - row->value);
  if (fabs(room) < 1e-6 * row->step) room = 0.0;
  c.margin = room;
  c.holds = room >= 0.0;
  return c;
}

int program_group_always(const char *group)
{
  return !group[0] || strcmp(group, "always") == 0;
}

/* 1 all criteria of a group hold, 0 one fails, -1 one lacks its label value and none fails. */
static int group_state(const pw_program_result *result, const char *group)
{
  int state = 1;
  for (size_t i = 0; i < result->n_criterion; i++) {
    const pw_criterion_result *c = &result->criterion[i];
    if (!program_group_always(c->row->group) && strcmp(c->row->group, group) != 0) continue;
    if (c->holds == 0) return 0;
    if (c->holds < 0) state = -1;
  }
  return state;
}

/* The least room in a group, in steps of the label; for the nearest group when none holds. */
static double group_room(const pw_program_result *result, const char *group)
{
  double least = INFINITY;
  for (size_t i = 0; i < result->n_criterion; i++) {
    const pw_criterion_result *c = &result->criterion[i];
    if (!program_group_always(c->row->group) && strcmp(c->row->group, group) != 0) continue;
    if (c->holds >= 0) least = fmin(least, c->margin / c->row->step);
  }
  return least;
}

/* Groups stand in the file from the first wanted to the last (the highest amount first): the first
 * one met is taken; without one the one nearest to being met. */
static void choose_group(pw_program_result *result)
{
  int best = -2, only_always = 1;
  double room = -INFINITY;
  for (size_t i = 0; i < result->n_criterion; i++) {
    const char *group = result->criterion[i].row->group;
    if (program_group_always(group)) continue;
    only_always = 0;
    int state = group_state(result, group), rank = state == 1 ? 2 : state == -1 ? 1 : 0;
    double r = group_room(result, group);
    if (rank > best || (rank == best && rank < 2 && r > room)) {
      best = rank;
      room = r;
      snprintf(result->group, sizeof result->group, "%s", group);
    }
  }
  if (only_always)
    best = group_state(result, "") == 1 ? 2 : group_state(result, "") < 0 ? 1 : 0;
  pw_verdict found = best == 2   ? PW_VERDICT_MEETS
                     : best == 1 ? PW_VERDICT_NO_LABEL
                                 : PW_VERDICT_FAILS;
  if (found != PW_VERDICT_MEETS || result->verdict != PW_VERDICT_NO_DATE)
    result->verdict = found;
}

static void say(pw_program_result *result)
{
  static const pw_message_number words[][2] = {
      [PW_VERDICT_MEETS] = {PW_SAY_PROGRAM_MEETS, PW_SAY_PROGRAM_MEETS_GROUP},
      [PW_VERDICT_FAILS] = {PW_SAY_PROGRAM_FAILS, PW_SAY_PROGRAM_FAILS_GROUP},
      [PW_VERDICT_NO_LABEL] = {PW_SAY_PROGRAM_NO_LABEL, PW_SAY_PROGRAM_NO_LABEL_GROUP},
      [PW_VERDICT_NO_DATE] = {PW_SAY_PROGRAM_NO_DATE, PW_SAY_PROGRAM_NO_DATE_GROUP},
  };
  if (result->verdict == PW_VERDICT_ENDED || result->verdict == PW_VERDICT_EARLY) return;
  if (!result->group[0]) {
    result->says = PW_SAYS_PLAIN(words[result->verdict][0]);
    return;
  }
  result->says = PW_SAYS(words[result->verdict][1], PW_OWN);
  pw_message_own(&result->says, result->group);
}

pw_status pw_program_open(const pw_program *program, const pw_program_result *result,
                          pw_err *err)
{
  int early = result->verdict == PW_VERDICT_EARLY;
  if (!early && result->verdict != PW_VERDICT_ENDED) return PW_OK;
  char edge[11], at[11];
  pw_date_write(result->says.arg[1].count, edge);
  pw_date_write(result->says.arg[2].count, at);
  return pw_fail(err, PW_E_DOMAIN, "program",
                 "%.100s: %s %s %s and the install date is %s: no amount", program->file,
                 program->row[0].program, early ? "begins" : "ended", edge, at);
}

pw_status pw_program_judge(const pw_program *program, const char *zone, const pw_label *label,
                           pw_date date, pw_program_result *result, pw_err *err)
{
  if (program->n_row == 0) return pw_fail(err, PW_E_SHAPE, "program", "no rows");
  pw_status s = program_zone_check(program, &zone, err);
  if (s != PW_OK) return s;
  pw_program_result r = {.verdict = PW_VERDICT_FAILS};
  judge_date(program, zone, date, &r);
  pw_date at = date ? date : program_newest(program, zone);
  int closed = r.verdict == PW_VERDICT_ENDED || r.verdict == PW_VERDICT_EARLY;
  for (size_t i = 0; i < program->n_row && !closed; i++) {
    const pw_program_row *row = &program->row[i];
    if (row->kind != PW_ROW_CRITERION || !program_row_holds(row, zone, at)) continue;
    if (r.n_criterion == PW_RESULTS_MAX)
      return pw_fail(err, PW_E_SHAPE, "program", "more than %d criteria in force",
                     PW_RESULTS_MAX);
    r.criterion[r.n_criterion++] = hold(row, label);
  }
  if (!closed) choose_group(&r);
  say(&r);
  *result = r;
  return PW_OK;
}
