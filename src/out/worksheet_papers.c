/* Dates, documents, cautions, declarations, signatures. */
#include <stdio.h>

#include "base/date.h"
#include "out/alarm.h"
#include "out/message_text.h"
#include "out/worksheet_impl.h"
#include "study/code_check.h"

static const char DATES[] = PW_TEXT("Dates"), DOCUMENTS[] = PW_TEXT("Documents to attach"),
                  CAUTIONS[] = PW_TEXT("Cautions"), DECLARATIONS[] = PW_TEXT("Declarations"),
                  SIGNATURES[] = PW_TEXT("Signatures");

static void dates(const pw_house_facts *h, pw_worksheet *w)
{
  static const char *const blank[] = {
      PW_TEXT("contract signed"), PW_TEXT("ordered"), PW_TEXT("installation begun"),
      PW_TEXT("completed, placed in service"), PW_TEXT("application sent")};
  worksheet_add(w, DATES, "", PW_TEXT("installation planned"), PW_FIELD_TYPED,
                PW_TEXT("criteria are judged on it"), "%s", h->install_date);
  for (size_t i = 0; i < sizeof blank / sizeof blank[0]; i++)
    worksheet_add(w, DATES, "", blank[i], PW_FIELD_TYPED, "", "%s", "");
}

static void documents(const pw_program *p, pw_worksheet *w)
{
  static const char *const usual[] = {
      PW_TEXT("final paid invoice, itemised (not a quote)"),
      (PW_TEXT(
          "label of each window, photographed before it is taken off, or the maker's order "
          "confirmation")),
      PW_TEXT("photos of each window before and after"),
      PW_TEXT("permit number and final inspection"), PW_TEXT("proof of payment")};
  for (size_t i = 0; i < p->n_row; i++)
    if (p->row[i].kind == PW_ROW_DOCUMENT)
      worksheet_add(w, DOCUMENTS, "", PW_TEXT("asked by the program"), PW_FIELD_DOCUMENT,
                    p->row[i].source, "%s", p->row[i].note);
  for (size_t i = 0; i < sizeof usual / sizeof usual[0]; i++)
    worksheet_add(w, DOCUMENTS, "", PW_TEXT("usual"), PW_FIELD_DOCUMENT, "", "%s", usual[i]);
}

/* What the red box does not hold already. */
static void cautions(const pw_compare *c, pw_worksheet *w)
{
  static const char *const state[] = {
      [PW_CAUTION_ASK] = PW_TEXT("find out"),
      [PW_CAUTION_FLAG] = PW_TEXT("take care"),
      [PW_CAUTION_FAIL] = PW_TEXT("not met"),
  };
  for (size_t i = 0; i < c->fitted.cautions.n; i++) {
    const pw_caution *k = &c->fitted.cautions.caution[i];
    if (k->state < PW_CAUTION_ASK || pw_alarm_holds(c, k)) continue;
    char name[96], text[PW_MESSAGE_TEXT];
    snprintf(name, sizeof name, "%s, %s", pw_tongue_say(w->tongue, state[k->state]),
             k->opening >= 0 ? c->job->opening[k->opening].tag
                             : pw_tongue_say(w->tongue, PW_TEXT("house")));
    worksheet_add(w, CAUTIONS, "", name, PW_FIELD_COMPUTED, k->source, "%s",
                  pw_message_text(w->tongue, &k->finding, text, sizeof text));
  }
  worksheet_add(w, CAUTIONS, "", "", PW_FIELD_COMPUTED, "", "%s",
                pw_message_word(w->tongue, PW_SAY_CAUTION_CLOSING));
}

/* ---------------------------------------------------------------- declarations */

enum { WHY = 240 };

/* What contradicts a declaration, "" nothing. */
typedef void against(const pw_worksheet_input *input, const pw_tongue *tongue, char why[WHY]);

/* The code: a failed limit of life safety, then the energy code by the labels. */
static void not_to_code(const pw_worksheet_input *input, const pw_tongue *tongue, char why[WHY])
{
  const pw_compare *c = input->compare;
  char where[120] = "";
  size_t n = 0;
  for (size_t i = 0; i < c->n_opening && n < sizeof where; i++)
    for (size_t k = 0; k < c->fitted.cautions.n; k++) {
      const pw_caution *found = &c->fitted.cautions.caution[k];
      if (found->state != PW_CAUTION_FAIL || found->opening != (int)i) continue;
      n += (size_t)snprintf(where + n, sizeof where - n, "%s%s", n ? ", " : "",
                            c->job->opening[i].tag);
      break;
    }
  pw_code_package code;
  if (where[0])
    pw_tongue_put(tongue, why, WHY, "struck: a safety limit is not met in %s", where);
  else if (pw_code_check_package(c, input->package, &code, NULL) == PW_OK &&
           code.state == PW_CODE_NOT_MET)
    pw_tongue_put(tongue, why, WHY,
                  "struck: by their labels the windows do not meet the energy code");
}

static void not_lived_in(const pw_worksheet_input *input, const pw_tongue *tongue,
                         char why[WHY])
{
  const pw_house_facts *h = &input->compare->job->house;
  pw_date date = 0;
  if (pw_date_read(h->install_date, &date, NULL) != PW_OK || date == 0) return;
  if (h->year_built && h->year_built >= (int)(date / 10000))
    pw_tongue_put(tongue, why, WHY, "struck: built %d, which is the year of the work or later",
                  h->year_built);
}

static void not_conditioned(const pw_worksheet_input *input, const pw_tongue *tongue,
                            char why[WHY])
{
  const pw_rates *r = &input->compare->billed.rates;
  if (!r->heats && !r->cools)
    pw_tongue_put(tongue, why, WHY, "struck: the job gives neither heating nor cooling");
}

static void signatures(const pw_worksheet_input *input, pw_worksheet *w)
{
  static const struct {
    const char *say;
    against *against;
  } declared[] = {
      {PW_TEXT("The home was lived in before this work; it is not new construction."),
       not_lived_in},
      {PW_TEXT("Each room of these windows is heated or cooled."), not_conditioned},
      {PW_TEXT("The windows are new, not used, and installed at the address above."), NULL},
      {PW_TEXT("No rebate was paid before for the same openings."), NULL},
      {PW_TEXT("The work complies with local code, safety glass and escape openings included."),
       not_to_code},
      {PW_TEXT("The program may inspect the work."), NULL},
      {PW_TEXT("The program may see the energy use it needs for its evaluation."), NULL},
      {PW_TEXT("All that is written here is true as far as I know."), NULL}};
  static const char *const line[] = {PW_TEXT("customer, signature"), PW_TEXT("customer, date"),
                                     PW_TEXT("contractor, signature"),
                                     PW_TEXT("contractor, date")};
  for (size_t i = 0; i < sizeof declared / sizeof declared[0]; i++) {
    char why[WHY] = "";
    if (declared[i].against) declared[i].against(input, w->tongue, why);
    worksheet_add(w, DECLARATIONS, "", PW_TEXT("declared"), PW_FIELD_SIGNED, why, "%s",
                  declared[i].say);
    if (why[0] && !w->lost) w->field[w->n - 1].struck = 1;
  }
  for (size_t i = 0; i < sizeof line / sizeof line[0]; i++)
    worksheet_add(w, SIGNATURES, "", line[i], PW_FIELD_SIGNED, "", "%s", "");
}

void worksheet_papers(const pw_worksheet_input *input, pw_worksheet *w)
{
  dates(&input->compare->job->house, w);
  documents(input->program, w);
  cautions(input->compare, w);
  signatures(input, w);
}
