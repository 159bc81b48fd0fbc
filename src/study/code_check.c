#include "study/code_check.h"

#include <math.h>

const char *pw_code_state_name(pw_code_state state)
{
  static const char *const name[] = {"no limit", "met", "met on average", "label missing",
                                     "not met"};
  return (unsigned)state < sizeof name / sizeof name[0] ? name[state] : "";
}

/* A label against the limits. */
static pw_status hold(const pw_code_limits *limits, const pw_label *label,
                      pw_program_result *result, pw_code_state *state, pw_err *err)
{
  *result = (pw_program_result){0};
  *state = PW_CODE_NO_LIMIT;
  if (limits->n_row == 0) return PW_OK;
  /* the rows are only read; a program of a file owns its rows, so the pointer is not const */
  pw_program_row row[PW_CODE_LIMITS_MAX];
  for (size_t i = 0; i < limits->n_row; i++)
    row[i] = limits->row[i];
  const pw_program code = {.n_row = limits->n_row, .row = row};
  pw_status status = pw_program_judge(&code, "", label, 0, result, err);
  for (size_t i = 0; i < result->n_criterion; i++)
    result->criterion[i].row = &limits->row[result->criterion[i].row - row];
  *state = result->verdict == PW_VERDICT_MEETS   ? PW_CODE_MET
           : result->verdict == PW_VERDICT_FAILS ? PW_CODE_NOT_MET
                                                 : PW_CODE_NO_LABEL;
  return status;
}

/* Whether the code looks at an opening: it gets a new window, in a room that is heated or cooled. */
static int pw_code_concerns(const pw_compare *c, size_t i)
{
  return pw_compare_replaces(c->job, i) && !c->job->opening[i].unconditioned;
}

pw_status pw_code_check_opening(const pw_compare *c, size_t p, size_t i, pw_code_opening *check,
                                pw_err *err)
{
  pw_status status = pw_opening_label(c->job, p, &c->job->opening[i], &check->label, err);
  if (status != PW_OK) return status;
  check->state = PW_CODE_NO_LIMIT;
  check->result = (pw_program_result){0};
  if (!pw_code_concerns(c, i)) return PW_OK;
  const pw_label label = pw_label_of(&check->label);
  return hold(&c->rated.code, &label, &check->result, &check->state, err);
}

pw_status pw_code_check_package(const pw_compare *c, size_t p, pw_code_package *check,
                                pw_err *err)
{
  pw_code_package sum = {.state = PW_CODE_MET};
  double area = 0.0;
  unsigned char kind[PW_OPERATOR_COUNT] = {0};
  for (size_t i = 0; i < c->n_opening; i++) {
    pw_code_opening one;
    if (!pw_code_concerns(c, i)) continue;
    pw_status status = pw_code_check_opening(c, p, i, &one, err);
    if (status != PW_OK) return status;
    int times = c->job->opening[i].quantity;
    double here = (double)times * c->rated.existing[i].rating.area;
    area += here;
    sum.mean_u += here * one.label.u.value;
    sum.mean_shgc += here * one.label.shgc.value;
    sum.n_met += one.state == PW_CODE_MET ? times : 0;
    sum.n_not += one.state == PW_CODE_NOT_MET ? times : 0;
    sum.n_unlabelled += one.state == PW_CODE_NO_LABEL ? times : 0;
    if (one.label.scope.kind == 0 && pw_label_is_known(&one.label))
      kind[c->job->opening[i].operator_insert] = 1;
    if (one.state == PW_CODE_NO_LIMIT) sum.state = PW_CODE_NO_LIMIT;
  }
  for (size_t k = 0; k < PW_OPERATOR_COUNT; k++)
    sum.n_kind += kind[k];
  if (!(area > 0.0)) sum.state = PW_CODE_NO_LIMIT;
  sum.mean_u = area > 0.0 ? sum.mean_u / area : (double)NAN;
  sum.mean_shgc = area > 0.0 ? sum.mean_shgc / area : (double)NAN;
  if (sum.n_unlabelled) sum.state = PW_CODE_NO_LABEL;
  if (sum.n_not) {
    pw_program_result result;
    const pw_label mean = {sum.mean_u, sum.mean_shgc, (double)NAN, (double)NAN};
    pw_code_state all = PW_CODE_NOT_MET;
    pw_status status = hold(&c->rated.code, &mean, &result, &all, err);
    if (status != PW_OK) return status;
    int carried = c->rated.code.code == PW_CODE_IECC && all == PW_CODE_MET;
    sum.state = carried ? PW_CODE_MET_ON_AVERAGE : PW_CODE_NOT_MET;
  }
  *check = sum;
  return PW_OK;
}
