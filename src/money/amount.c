#include <math.h>
#include <string.h>

#include "money/program.h"
#include "money/program_impl.h"
#include "panewright/units.h"

/* Half a cent goes up; the hair takes off what binary fractions have lost. */
static double cents(double dollars) { return floor(dollars * 100.0 + 0.5 + 1e-7) / 100.0; }

static void add_line(pw_amount *amount, double value, pw_message says)
{
  if (amount->n_line == PW_LINES_MAX) return;
  amount->line[amount->n_line].says = says;
  amount->line[amount->n_line++].value = value;
}

/* $ of a row by its basis, and the arithmetic. */
static double row_dollars(const pw_program_row *row, const pw_claim *claim, pw_message *says)
{
  switch (row->basis) {
  case PW_BASIS_AREA:
    *says = PW_SAYS(PW_SAY_AMOUNT_AREA, PW_SI(claim->area), PW_SI(row->value));
    return cents(claim->area * row->value);
  case PW_BASIS_OPENING:
    *says =
        PW_SAYS(PW_SAY_AMOUNT_OPENINGS, PW_INT(lround(claim->n_opening)), PW_SI(row->value));
    return cents(claim->n_opening * row->value);
  case PW_BASIS_COST:
    *says = PW_SAYS(PW_SAY_AMOUNT_COST, PW_SI(row->value), PW_SI(claim->cost));
    return cents(row->value * claim->cost);
  case PW_BASIS_PRODUCT_COST:
    if (!(claim->product_cost > 0.0)) {
      *says = PW_SAYS(PW_SAY_AMOUNT_PRODUCT_UNKNOWN, PW_SI(row->value));
      return 0.0;
    }
    *says = PW_SAYS(PW_SAY_AMOUNT_PRODUCT, PW_SI(row->value), PW_SI(claim->product_cost));
    return cents(row->value * claim->product_cost);
  default:
    *says = PW_SAYS(PW_SAY_AMOUNT_FIXED, PW_SI(row->value));
    return cents(row->value);
  }
}

static pw_status check(const pw_claim *c, pw_err *err)
{
  const struct {
    const char *field;
    double value;
  } row[] = {{"n_opening", c->n_opening},
             {"area", c->area},
             {"cost", c->cost},
             {"product_cost", c->product_cost},
             {"earlier", c->earlier}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    if (!(row[i].value >= 0.0 && isfinite(row[i].value)))
      return pw_fail(err, PW_E_DOMAIN, row[i].field, "%g, want 0 or more", row[i].value);
  return PW_OK;
}

/* Rows of one kind that count for the group met, each with its dollars. */
static void walk(const pw_program *program, pw_row_kind kind, const char *zone, pw_date date,
                 const char *group, const pw_claim *claim, pw_amount *amount)
{
  for (size_t i = 0; i < program->n_row; i++) {
    const pw_program_row *row = &program->row[i];
    if (row->kind != kind || !program_row_holds(row, zone, date)) continue;
    if (!program_group_always(row->group) && strcmp(row->group, group) != 0) continue;
    pw_message says;
    double dollars = row_dollars(row, claim, &says);
    if (kind == PW_ROW_AMOUNT) {
      amount->total = cents(amount->total + dollars);
      add_line(amount, dollars, says);
    } else if (row->basis == PW_BASIS_PRODUCT_COST && !(claim->product_cost > 0.0)) {
      amount->total = 0.0;
      says.led_by = PW_SAY_CAP;
      add_line(amount, 0.0, says);
    } else {
      int reached = amount->total > dollars;
      amount->total = fmin(amount->total, dollars);
      says.led_by = reached ? PW_SAY_CAP : PW_SAY_CAP_NOT_REACHED;
      add_line(amount, amount->total, says);
    }
  }
}

pw_status pw_program_amount(const pw_program *program, const char *zone, pw_date date,
                            const pw_program_result *result, const pw_claim *claim,
                            pw_amount *amount, pw_err *err)
{
  pw_status s = program_zone_check(program, &zone, err);
  if (s == PW_OK) s = check(claim, err);
  if (s != PW_OK) return s;
  pw_amount a = {0};
  if (result->verdict != PW_VERDICT_MEETS) {
    add_line(&a, 0.0, result->says);
    *amount = a;
    return PW_OK;
  }
  walk(program, PW_ROW_AMOUNT, zone, date, result->group, claim, &a);
  if (a.n_line == 0) add_line(&a, 0.0, PW_SAYS_PLAIN(PW_SAY_AMOUNT_NONE));
  walk(program, PW_ROW_CAP, zone, date, result->group, claim, &a);
  double left = fmax(0.0, cents(claim->cost - claim->earlier));
  if (a.total > left) {
    a.total = left;
    add_line(&a, left,
             PW_SAYS(PW_SAY_AMOUNT_COST_LEFT, PW_SI(claim->cost), PW_SI(claim->earlier)));
  }
  *amount = a;
  return PW_OK;
}
