/* firm.csv: what a firm writes on every paper, an item a row; shared by jobs through job.csv's firm_file. */
#include <stdio.h>
#include <string.h>

#include "job/field.h"
#include "job/field_list.h"
#include "job/survey.h"
#include "job/unknown.h"

#define ITEM(item, member) JOB_TEXT_AT(pw_firm, item, member, "", NULL)

static const pw_unit_word days[] = {{"days", 1, 0}, {"day", 1, 0}};

static const job_field item[] = {
    ITEM("firm", firm),
    ITEM("address", address),
    ITEM("phone", phone),
    ITEM("mail", mail),
    ITEM("licence", licence),
    ITEM("program_number", program_number),
    ITEM("insurance", insurance),
    ITEM("lead_certificate", lead_certificate),
    ITEM("account", account),
    ITEM("payee", payee),
    ITEM("maker", maker),
    ITEM("model", model),
    ITEM("schedule", offer.schedule),
    ITEM("deposit", offer.deposit),
    ITEM("terms", offer.terms),
    ITEM("warranty_work", offer.warranty_work),
    ITEM("warranty_product", offer.warranty_product),
    {.name = "offer_valid_days",
     .kind = JOB_NUMBER,
     .offset = offsetof(pw_firm, offer.valid_days),
     .low = 1.0,
     .high = 366.0,
     .blank = "",
     .unit = days,
     .n_unit = JOB_COUNT(days)},
    {.name = "translation_reviewed",
     .kind = JOB_FLAG,
     .offset = offsetof(pw_firm, translation_reviewed),
     .blank = ""},
};
enum { ITEMS = JOB_COUNT(item) };

static pw_status read_item(const pw_csv *csv, const int col[], size_t r, int line_of[],
                           pw_firm *firm, pw_notes *notes, pw_err *err)
{
  job_word known[ITEMS];
  const char *names[ITEMS], *name = pw_csv_at(csv, r, col[0]), *near = NULL;
  job_place place = {csv->name, csv->line[r + 1], col[1] + 1, ""};
  for (size_t i = 0; i < ITEMS; i++) {
    known[i] = (job_word){item[i].name, (int)i};
    names[i] = item[i].name;
  }
  int i = job_word_find(known, ITEMS, name, &near);
  if (i < 0 && near)
    return pw_fail_at(err, PW_E_DATA, csv->name, place.line, col[0] + 1,
                      "no item is named '%.40s'; did you mean %s?", name, near);
  if (i < 0) {
    job_unknown_at at = {csv->name, place.line, col[0] + 1, "item", 0};
    return job_unknown_name(name, names, ITEMS, &at, notes, err);
  }
  if (line_of[i])
    return pw_fail_at(err, PW_E_DATA, csv->name, place.line, col[0] + 1,
                      "the item %s stands twice (first in line %d)", item[i].name, line_of[i]);
  line_of[i] = place.line;
  return job_field_read(&item[i], pw_csv_at(csv, r, col[1]), &place, firm, notes, err);
}

static void default_text(char *to, size_t size, const char *from)
{
  if (!to[0]) snprintf(to, size, "%s", from);
}

/* What the job leaves open is the firm's. */
static void fill_house(const pw_firm *firm, pw_house_facts *h)
{
  default_text(h->contractor, sizeof h->contractor, firm->firm);
  default_text(h->lead_certificate, sizeof h->lead_certificate, firm->lead_certificate);
  default_text(h->account, sizeof h->account, firm->account);
  default_text(h->payee, sizeof h->payee, firm->payee);
  default_text(h->maker, sizeof h->maker, firm->maker);
  default_text(h->model, sizeof h->model, firm->model);
  const pw_offer_terms *t = &firm->offer;
  default_text(h->offer.schedule, sizeof h->offer.schedule, t->schedule);
  default_text(h->offer.deposit, sizeof h->offer.deposit, t->deposit);
  default_text(h->offer.terms, sizeof h->offer.terms, t->terms);
  default_text(h->offer.warranty_work, sizeof h->offer.warranty_work, t->warranty_work);
  default_text(h->offer.warranty_product, sizeof h->offer.warranty_product,
               t->warranty_product);
  if (!(h->offer.valid_days > 0.0)) h->offer.valid_days = t->valid_days;
}

static pw_status take(pw_csv *csv, pw_job *job, pw_notes *notes, pw_err *err)
{
  static const pw_csv_column column[] = {{"item", 1}, {"value", 1}, {"note", 0}};
  int col[JOB_COUNT(column)], line_of[ITEMS] = {0};
  pw_firm firm = {0};
  pw_status status = pw_csv_bind(csv, column, JOB_COUNT(column), col, notes, err);
  for (size_t r = 0; status == PW_OK && r < csv->n_row; r++)
    status = read_item(csv, col, r, line_of, &firm, notes, err);
  pw_csv_free(csv);
  if (status != PW_OK) return status;
  job->firm = firm;
  fill_house(&firm, &job->house);
  return PW_OK;
}

pw_status pw_firm_parse(const char *name, const char *text, size_t size, pw_job *job,
                        pw_notes *notes, pw_err *err)
{
  pw_csv csv;
  job->firm = (pw_firm){0};
  pw_status status = pw_csv_open(name, text, size, &csv, err);
  return status == PW_OK ? take(&csv, job, notes, err) : status;
}

pw_status pw_firm_read(const char *path, pw_job *job, pw_notes *notes, pw_err *err)
{
  job->firm = (pw_firm){0};
  return path ? pw_firm_parse(path, NULL, 0, job, notes, err) : PW_OK;
}

size_t job_firm_fields(job_field f[])
{
  memcpy(f, item, sizeof item);
  return ITEMS;
}
