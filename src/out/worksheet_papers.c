/* Dates, documents, cautions, declarations, signatures. */
#include "out/message_text.h"
#include "out/worksheet_impl.h"

static const char DATES[] = "Dates", DOCUMENTS[] = "Documents to attach",
                  CAUTIONS[] = "Cautions", DECLARATIONS[] = "Declarations",
                  SIGNATURES[] = "Signatures";

static void dates(const pw_house_facts *h, pw_worksheet *w)
{
  static const char *const blank[] = {"contract signed", "ordered", "installation begun",
                                      "completed, placed in service", "application sent"};
  worksheet_add(w, DATES, "", "installation planned", PW_FIELD_TYPED,
                "criteria are judged on it", "%s", h->install_date);
  for (size_t i = 0; i < sizeof blank / sizeof blank[0]; i++)
    worksheet_add(w, DATES, "", blank[i], PW_FIELD_TYPED, "", "%s", "");
}

static void documents(const pw_program *p, pw_worksheet *w)
{
  static const char *const usual[] = {
      "final paid invoice, itemised (not a quote)",
      ("label of each window, photographed before it is taken off, or the maker's order "
       "confirmation"),
      "photos of each window before and after", "permit number and final inspection",
      "proof of payment"};
  for (size_t i = 0; i < p->n_row; i++)
    if (p->row[i].kind == PW_ROW_DOCUMENT)
      worksheet_add(w, DOCUMENTS, "", "asked by the program", PW_FIELD_DOCUMENT,
                    p->row[i].source, "%s", p->row[i].note);
  for (size_t i = 0; i < sizeof usual / sizeof usual[0]; i++)
    worksheet_add(w, DOCUMENTS, "", "usual", PW_FIELD_DOCUMENT, "", "%s", usual[i]);
}

static void cautions(const pw_compare *c, pw_worksheet *w)
{
  for (size_t i = 0; i < c->cautions.n; i++) {
    const pw_caution *k = &c->cautions.caution[i];
    if (k->state < PW_CAUTION_ASK) continue;
    char name[64], text[PW_MESSAGE_TEXT];
    snprintf(name, sizeof name, "%s, %s", pw_caution_state_name(k->state),
             k->opening >= 0 ? c->job->opening[k->opening].tag : "house");
    worksheet_add(w, CAUTIONS, "", name, PW_FIELD_COMPUTED, k->source, "%s",
                  pw_message_text(NULL, &k->finding, text, sizeof text));
  }
  worksheet_add(w, CAUTIONS, "", "", PW_FIELD_COMPUTED, "", "%s",
                pw_message_word(NULL, PW_SAY_CAUTION_CLOSING));
}

static void signatures(pw_worksheet *w)
{
  static const char *const declared[] = {
      "The home was lived in before this work; it is not new construction.",
      "Each room of these windows is heated or cooled.",
      "The windows are new, not used, and installed at the address above.",
      "No rebate was paid before for the same openings.",
      "The work complies with local code, safety glass and escape openings included.",
      "The program may inspect the work.",
      "The program may see the energy use it needs for its evaluation.",
      "All that is written here is true as far as I know."};
  static const char *const line[] = {"customer, signature", "customer, date",
                                     "contractor, signature", "contractor, date"};
  for (size_t i = 0; i < sizeof declared / sizeof declared[0]; i++)
    worksheet_add(w, DECLARATIONS, "", "declared", PW_FIELD_SIGNED, "", "%s", declared[i]);
  for (size_t i = 0; i < sizeof line / sizeof line[0]; i++)
    worksheet_add(w, SIGNATURES, "", line[i], PW_FIELD_SIGNED, "", "%s", "");
}

void worksheet_papers(const pw_worksheet_input *input, pw_worksheet *w)
{
  dates(&input->compare->job->house, w);
  documents(input->program, w);
  cautions(input->compare, w);
  signatures(w);
}
