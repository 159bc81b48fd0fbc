/* Program, customer, home, contractor. */
#include <math.h>
#include <string.h>

#include "out/job_title.h"
#include "out/worksheet_impl.h"
#include "panewright/units.h"

static const char PROGRAM[] = PW_TEXT("Program"), CUSTOMER[] = PW_TEXT("Customer"),
                  HOME[] = PW_TEXT("Home"), CONTRACTOR[] = PW_TEXT("Contractor");

static void typed(pw_worksheet *w, const char *block, const char *name, const char *value)
{
  worksheet_add(w, block, "", name, PW_FIELD_TYPED, "", "%s", value);
}

/* Rows of one kind in the zone, each as a field. */
static void rule_rows(const pw_worksheet_input *input, pw_worksheet *w, pw_row_kind kind,
                      const char *name)
{
  const pw_program *p = input->program;
  for (size_t i = 0; i < p->n_row; i++)
    if (p->row[i].kind == kind)
      worksheet_add(w, PROGRAM, "", name, PW_FIELD_TYPED, p->row[i].source, "%s",
                    p->row[i].note);
}

static void basis_rows(const pw_worksheet_input *input, pw_worksheet *w)
{
  static const char *const per[PW_BASIS_COUNT] = {
      PW_TEXT("in all"), PW_TEXT("per ft2"), PW_TEXT("per opening"),
      PW_TEXT("of the installed cost"), PW_TEXT("of the product's cost, no labour")};
  const pw_program *p = input->program;
  for (size_t i = 0; i < p->n_row; i++) {
    const pw_program_row *row = &p->row[i];
    if (row->kind != PW_ROW_AMOUNT && row->kind != PW_ROW_CAP) continue;
    const char *name = row->kind == PW_ROW_CAP ? PW_TEXT("cap") : PW_TEXT("rebate basis");
    const char *group = row->group;
    if (row->basis == PW_BASIS_COST || row->basis == PW_BASIS_PRODUCT_COST)
      worksheet_add(w, PROGRAM, "", name, PW_FIELD_TYPED, group, "%g %% %s", 100.0 * row->value,
                    pw_tongue_say(w->tongue, per[row->basis]));
    else
      worksheet_add(w, PROGRAM, "", name, PW_FIELD_TYPED, group, "$%.2f %s",
                    row->basis == PW_BASIS_AREA ? row->value * PW_FOOT2 : row->value,
                    pw_tongue_say(w->tongue, per[row->basis]));
  }
}

static void program(const pw_worksheet_input *input, pw_worksheet *w)
{
  const pw_program *p = input->program;
  const char *edition =
      w->result.n_criterion ? w->result.criterion[0].row->edition : p->row[0].edition;
  typed(w, PROGRAM, PW_TEXT("name"), p->row[0].program);
  worksheet_add(w, PROGRAM, "", PW_TEXT("edition"), PW_FIELD_TYPED,
                PW_TEXT("ask the program which edition holds"), "%s", edition);
  if (input->zone[0]) typed(w, PROGRAM, PW_TEXT("zone"), input->zone);
  typed(w, PROGRAM, PW_TEXT("form no."), "");
  typed(w, PROGRAM, PW_TEXT("deadline to apply"), "");
  basis_rows(input, w);
  rule_rows(input, w, PW_ROW_CONDITION, PW_TEXT("rule to check by hand"));
}

static void home(const pw_house_facts *h, const pw_rates *r, pw_worksheet *w)
{
  typed(w, HOME, PW_TEXT("type of home"), "");
  if (h->year_built)
    worksheet_add(w, HOME, "", PW_TEXT("year built"), PW_FIELD_TYPED, "", "%d", h->year_built);
  else
    typed(w, HOME, PW_TEXT("year built"), "");
  worksheet_add(w, HOME, "", PW_TEXT("stories"), PW_FIELD_TYPED, "", "%d", h->storeys);
  worksheet_add(w, HOME, "", PW_TEXT("conditioned floor area, ft2"), PW_FIELD_TYPED, "", "%.0f",
                h->floor_area.value / PW_FOOT2);
  worksheet_add(w, HOME, "", PW_TEXT("primary heating"), PW_FIELD_TYPED, "", "%s, %s",
                pw_tongue_say(w->tongue, h->heating_kind),
                pw_tongue_say(w->tongue, pw_fuel_name(h->heating_fuel)));
  int stated = r->heating_efficiency.origin != PW_ORIGIN_ASSUMED &&
               r->heating_efficiency.origin != PW_ORIGIN_TABLE;
  if (stated)
    worksheet_add(w, HOME, "", PW_TEXT("heating efficiency"), PW_FIELD_TYPED,
                  PW_TEXT("seasonal, as given"), "%.2f", r->heating_efficiency.value);
  else
    worksheet_add(w, HOME, "", PW_TEXT("heating efficiency"), PW_FIELD_TYPED,
                  PW_TEXT("not in the job; read it off the plate"), "%s", "");
  typed(w, HOME, PW_TEXT("cooling"), h->cooling_kind);
}

void worksheet_people(const pw_worksheet_input *input, pw_worksheet *w)
{
  const pw_job *job = input->compare->job;
  const pw_firm *firm = &job->firm;
  const pw_house_facts *h = &job->house;
  const char *const customer[][2] = {{PW_TEXT("phone"), h->customer_phone},
                                     {PW_TEXT("mail"), h->customer_mail},
                                     {PW_TEXT("utility"), h->utility},
                                     {PW_TEXT("account no."), h->account},
                                     {PW_TEXT("owner or renter"), ""},
                                     {PW_TEXT("payee"), h->payee},
                                     {PW_TEXT("tax form of the payee (landlord)"), ""}};
  const char *const contractor[][2] = {{PW_TEXT("licence no. and class"), firm->licence},
                                       {PW_TEXT("address"), firm->address},
                                       {PW_TEXT("phone"), firm->phone},
                                       {PW_TEXT("program number"), firm->program_number}};
  program(input, w);
  typed(w, CUSTOMER, PW_TEXT("job"), pw_job_title(input->compare->job).text);
  typed(w, CUSTOMER, PW_TEXT("name"), h->customer);
  typed(w, CUSTOMER, PW_TEXT("service address"), h->place_label);
  for (size_t i = 0; i < sizeof customer / sizeof customer[0]; i++)
    typed(w, CUSTOMER, customer[i][0], customer[i][1]);
  home(h, &input->compare->billed.rates, w);
  typed(w, CONTRACTOR, PW_TEXT("firm"), h->contractor);
  for (size_t i = 0; i < sizeof contractor / sizeof contractor[0]; i++)
    typed(w, CONTRACTOR, contractor[i][0], contractor[i][1]);
  worksheet_add(
      w, CONTRACTOR, "", PW_TEXT("lead-safe certification no."), PW_FIELD_TYPED,
      h->year_built && h->year_built < 1978 ? PW_TEXT("built before 1978: must be given") : "",
      "%s", h->lead_certificate);
  typed(w, CONTRACTOR, PW_TEXT("insurance valid until"), firm->insurance);
}
