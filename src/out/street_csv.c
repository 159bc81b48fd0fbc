/* A street as CSV: a row a house and package, then a row a package of all together. */
#include <math.h>

#include "out/grid.h"
#include "out/street_out.h"
#include "out/text_stream.h"

/* What is told of the existing windows and of a package; with a range it is three columns. */
typedef struct column {
  pw_result result;
  int band;
} column;

static const column of_existing[] = {
    {PW_RESULT_U, 0}, {PW_RESULT_SHGC, 0}, {PW_RESULT_COST, 0}, {PW_RESULT_COST, 1}};
static const column of_package[] = {{PW_RESULT_U, 0},
                                    {PW_RESULT_SHGC, 0},
                                    {PW_RESULT_COST, 0},
                                    {PW_RESULT_SAVING, 0},
                                    {PW_RESULT_PRICE, 0},
                                    {PW_RESULT_SAVING, 1},
                                    {PW_RESULT_SAVING_MINIMUM, 1},
                                    {PW_RESULT_SAVING_ENERGY, 1},
                                    {PW_RESULT_SAVING_FUEL, 1},
                                    {PW_RESULT_PAYBACK, 1},
                                    {PW_RESULT_WORTH, 1},
                                    {PW_RESULT_COST, 1}};
enum {
  N_EXISTING = sizeof of_existing / sizeof of_existing[0],
  N_PACKAGE = sizeof of_package / sizeof of_package[0]
};

static void csv_headers(const column c[], size_t n, const char *before, FILE *f)
{
  for (size_t i = 0; i < n; i++) {
    const pw_result_form *form = pw_result_of(c[i].result);
    const char *key = c[i].band ? form->ranged : form->key;
    if (c[i].band)
      fprintf(f, ",%s%s_p10,%s%s_p50,%s%s_p90", before, key, before, key, before, key);
    else
      fprintf(f, ",%s%s", before, key);
  }
}

static void csv_number(double v, FILE *f)
{
  if (isfinite(v))
    fprintf(f, ",%.12g", v);
  else
    fputc(',', f);
}

static void csv_band(const pw_band *b, FILE *f)
{
  csv_number(b->p10, f);
  csv_number(b->p50, f);
  csv_number(b->p90, f);
}

static void csv_cells(const column c[], size_t n, const json_t *set, FILE *f)
{
  for (size_t i = 0; i < n; i++) {
    pw_band b = c[i].band ? pw_street_band(set, c[i].result) : (pw_band){0};
    if (c[i].band)
      csv_band(&b, f);
    else
      csv_number(pw_street_value(set, c[i].result), f);
  }
}

static void csv_text(const char *text, FILE *f)
{
  fputc(',', f);
  pw_csv_cell(f, text);
}

static void csv_count(const json_t *o, const char *key, FILE *f)
{
  fprintf(f, ",%lld", (long long)json_integer_value(json_object_get(o, key)));
}

static pw_status csv_row(void *context, json_t *o, json_t *draws, pw_err *err)
{
  FILE *f = context;
  const json_t *packages = json_object_get(o, "packages");
  const json_t *cautions = json_object_get(o, "cautions");
  (void)err;
  if (!draws) return PW_OK;
  for (size_t p = 0; p < json_array_size(packages); p++) {
    const json_t *set = json_array_get(packages, p);
    pw_csv_cell(f, pw_street_word(o, "job"));
    csv_text(pw_street_word(o, "dwelling"), f);
    csv_text(pw_street_word(o, "title"), f);
    csv_text(pw_street_word(o, "files"), f);
    fputs(",1", f);
    csv_count(o, "openings", f);
    fprintf(f, ",%zu", json_array_size(json_object_get(o, "findings")));
    csv_count(o, "rows_held", f);
    csv_count(cautions, "fail", f);
    csv_count(cautions, "flag", f);
    csv_count(cautions, "ask", f);
    csv_cells(of_existing, N_EXISTING, json_object_get(o, "existing"), f);
    csv_text(pw_street_word(set, "package"), f);
    csv_cells(of_package, N_PACKAGE, set, f);
    fputs(json_is_true(json_object_get(set, "may_be_claimed")) ? ",yes" : ",no", f);
    csv_text(pw_street_word(set, "claim"), f);
    fputc('\n', f);
  }
  return PW_OK;
}

/* The sums under the columns that add up; the others are blank. */
static void csv_total(const pw_street_package *p, FILE *f)
{
  fprintf(f, "all houses,,,,%zu,,,,,,,,,", p->sum[0].n_house);
  csv_number((double)NAN, f);
  csv_band(&p->band[0], f);
  csv_text(p->name, f);
  fputs(",,,", f);
  csv_number(p->saving, f);
  csv_number(p->n_price ? p->price : (double)NAN, f);
  csv_band(&p->band[1 + PW_STREET_SAVING], f);
  csv_band(&p->band[1 + PW_STREET_MINIMUM], f);
  fputs(",,,", f);
  csv_band(&p->band[1 + PW_STREET_FUEL], f);
  fputs(",,,", f);
  if (p->n_price)
    csv_band(&p->band[1 + PW_STREET_WORTH], f);
  else
    fputs(",,,", f);
  fputs(",,,", f);
  fputs(pw_street_claimed(p) ? ",yes,\n" : ",no,\n", f);
}

pw_status pw_street_csv(const pw_street *street, const pw_street_total *total, FILE *f,
                        pw_err *err)
{
  fputs("job,dwelling,title,files,houses,openings,findings,rows_held,cautions_fail,"
        "cautions_flag,cautions_ask",
        f);
  csv_headers(of_existing, N_EXISTING, "existing_", f);
  fputs(",package", f);
  csv_headers(of_package, N_PACKAGE, "", f);
  fputs(",may_be_claimed,claim\n", f);
  pw_status status = pw_street_each(street, csv_row, f, err);
  for (size_t p = 0; status == PW_OK && p < total->n_package; p++)
    csv_total(&total->package[p], f);
  return status == PW_OK ? pw_text_written(f, "the street", err) : status;
}
