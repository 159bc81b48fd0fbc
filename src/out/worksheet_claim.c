/* Criteria one by one, cost, rebate, the federal credit. */
#include <math.h>
#include <string.h>

#include "out/credit.h"
#include "out/range_out.h"
#include "out/sheet_impl.h"
#include "out/worksheet_impl.h"
#include "panewright/units.h"

static const char CRITERIA[] = PW_TEXT("Criteria, by label values"), COST[] = PW_TEXT("Cost"),
                  REBATE[] = PW_TEXT("Rebate"),
                  FEDERAL[] = PW_TEXT("Federal credit (26 USC 25C)");

/* Decimals of the label's last digit. */
static int decimals(double step) { return step < 0.05 ? 2 : step < 0.5 ? 1 : 0; }

/* As the form and the label say it. */
static const char *metric_word(pw_metric metric)
{
  static const char *const word[] = {[PW_METRIC_U] = PW_TEXT("U-factor"),
                                     [PW_METRIC_SHGC] = "SHGC",
                                     [PW_METRIC_VT] = "VT",
                                     [PW_METRIC_AIR_LEAKAGE] = PW_TEXT("air leakage")};
  return word[metric];
}

static void criterion(const pw_criterion_result *r, const char *mark, pw_worksheet *w)
{
  const pw_program_row *row = r->row;
  int d = decimals(row->step);
  char from[11], to[11];
  pw_date_write(row->from, from);
  pw_date_write(row->to, to);
  worksheet_add(w, CRITERIA, mark, PW_TEXT("group"), PW_FIELD_TYPED, "", "%s",
                row->group[0] ? row->group : PW_TEXT("always"));
  worksheet_add(w, CRITERIA, mark, PW_TEXT("value"), PW_FIELD_TYPED, "", "%s",
                metric_word(row->metric));
  worksheet_add(w, CRITERIA, mark, PW_TEXT("limit"), PW_FIELD_TYPED, "", "%s %.*f %s",
                pw_op_sign(row->op), d, row->value,
                strcmp(row->unit, "-") == 0 ? "" : row->unit);
  if (r->holds < 0) {
    worksheet_add(w, CRITERIA, mark, PW_TEXT("label"), PW_FIELD_LABEL, "", "%s", "");
    worksheet_add(w, CRITERIA, mark, PW_TEXT("result"), PW_FIELD_COMPUTED, "", "%s",
                  PW_TEXT("open: no label value"));
    worksheet_add(w, CRITERIA, mark, PW_TEXT("margin"), PW_FIELD_COMPUTED, "", "%s", "");
  } else {
    worksheet_add(w, CRITERIA, mark, PW_TEXT("label"), PW_FIELD_LABEL, "", "%.*f", d, r->label);
    worksheet_add(w, CRITERIA, mark, PW_TEXT("result"), PW_FIELD_COMPUTED, "", "%s",
                  r->holds ? PW_TEXT("pass") : PW_TEXT("FAIL"));
    worksheet_add(w, CRITERIA, mark, PW_TEXT("margin"), PW_FIELD_COMPUTED, "", "%+.*f", d,
                  r->margin == 0.0 ? 0.0 : r->margin);
  }
  worksheet_add(w, CRITERIA, mark, PW_TEXT("in force from"), PW_FIELD_TYPED, "", "%s", from);
  worksheet_add(w, CRITERIA, mark, PW_TEXT("to"), PW_FIELD_TYPED, "", "%s",
                to[0] ? to : PW_TEXT("open"));
  worksheet_add(w, CRITERIA, mark, PW_TEXT("source"), PW_FIELD_TYPED, "", "%s", row->source);
}

static void criteria(pw_worksheet *w)
{
  for (size_t i = 0; i < w->result.n_criterion; i++) {
    char mark[24];
    snprintf(mark, sizeof mark, "%zu", i + 1);
    criterion(&w->result.criterion[i], mark, w);
  }
}

static void cost(const pw_worksheet_input *input, pw_worksheet *w)
{
  static const char *const blank[] = {
      PW_TEXT("material"), PW_TEXT("labour"),           PW_TEXT("tax"),
      PW_TEXT("discount"), PW_TEXT("other incentives"), PW_TEXT("net cost")};
  const pw_billed_set *set = &input->compare->billed.package_set[input->package];
  for (size_t i = 0; i < sizeof blank / sizeof blank[0]; i++)
    worksheet_add(w, COST, "", blank[i], PW_FIELD_TYPED, PW_TEXT("from the paid invoice"), "%s",
                  "");
  for (size_t k = 0; set->price > 0.0 && set->parts.by_table && k < set->parts.n_part; k++) {
    char name[96];
    char item[PW_OPTION_MAX];
    sheet_plain(set->parts.part[k].item, item, sizeof item);
    pw_tongue_put(w->tongue, name, sizeof name, "%s by the offer in this job",
                  pw_tongue_say(w->tongue, item));
    worksheet_figure(w, COST, "", name, PW_FIGURE_CENTS, set->parts.part[k].value,
                     "house.packages.%zu.price_parts.%zu.value", input->package, k);
  }
  if (set->price > 0.0)
    worksheet_figure(w, COST, "", PW_TEXT("total by the offer in this job"), PW_FIGURE_CENTS,
                     set->price, "house.packages.%zu.%s", input->package,
                     pw_result_of(PW_RESULT_PRICE)->key);
  else
    worksheet_add(w, COST, "", PW_TEXT("total"), PW_FIELD_TYPED,
                  PW_TEXT("the job gives no price"), "%s", "");
}

static void rebate(const pw_worksheet_input *input, pw_worksheet *w)
{
  char text[PW_MESSAGE_TEXT];
  worksheet_add(w, REBATE, "", PW_TEXT("criteria"), PW_FIELD_COMPUTED, "", "%s",
                pw_program_said(w->tongue, &w->result, text));
  worksheet_add(w, REBATE, "", PW_TEXT("size counted"), PW_FIELD_COMPUTED,
                PW_TEXT("the program's form says which"), "%s",
                input->basis == PW_SIZE_UNIT ? PW_TEXT("the unit as ordered")
                                             : PW_TEXT("the opening in the wall"));
  for (size_t i = 0; i < w->amount.n_line; i++) {
    char name[40];
    pw_tongue_put(w->tongue, name, sizeof name, "line %zu", i + 1);
    worksheet_add(w, REBATE, "", name, PW_FIELD_COMPUTED,
                  pw_message_text(w->tongue, &w->amount.line[i].says, text, sizeof text),
                  "$%.2f", w->amount.line[i].value);
  }
  worksheet_add(w, REBATE, "", PW_TEXT("amount"), PW_FIELD_COMPUTED,
                PW_TEXT("the program decides; later invoices change it"), "$%.2f",
                w->amount.total);
}

static void federal(const pw_worksheet_input *input, pw_worksheet *w)
{
  if (pw_credit_of(&input->compare->job->house) == PW_CREDIT_BEFORE_END) {
    worksheet_add(w, FEDERAL, "", PW_TEXT("rule"), PW_FIELD_TYPED, PW_TEXT("ask a tax adviser"),
                  "%s",
                  PW_TEXT("30 per cent of the product's cost, no labour, at most $600 a year "
                          "for all windows; "
                          "Most Efficient units"));
    worksheet_add(w, FEDERAL, "", PW_TEXT("PIN of the maker, 17 characters"), PW_FIELD_LABEL,
                  "", "%s", "");
    return;
  }
  worksheet_add(w, FEDERAL, "", PW_TEXT("amount"), PW_FIELD_COMPUTED,
                PW_TEXT("ended for windows placed in service after 2025-12-31"), "%s",
                PW_TEXT("no federal window credit"));
}

void worksheet_claim(const pw_worksheet_input *input, pw_worksheet *w)
{
  criteria(w);
  cost(input, w);
  rebate(input, w);
  federal(input, w);
}
