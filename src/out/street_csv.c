/* A street as CSV: a row a house and package, then a row a package of all together. */
#include <math.h>

#include "out/grid.h"
#include "out/street_out.h"
#include "out/text_stream.h"

/* Columns of the existing windows, of a package; a band is three. */
typedef struct column {
  const char *key, *header;
  int band;
} column;

static const column of_existing[] = {{"u_w_m2k", "existing_u_w_m2k", 0},
                                     {"shgc", "existing_shgc", 0},
                                     {"cost", "existing_cost", 0},
                                     {"cost_year", "existing_cost_year", 1}};
static const column of_package[] = {
    {"u_w_m2k", "u_w_m2k", 0},
    {"shgc", "shgc", 0},
    {"cost", "cost", 0},
    {"saving", "saving", 0},
    {"price", "price", 0},
    {"saving_cost_year", "saving_cost_year", 1},
    {"saving_over_code_minimum_year", "saving_over_code_minimum_year", 1},
    {"saving_energy_kwh_year", "saving_energy_kwh_year", 1},
    {"saving_fuel_kwh_year", "saving_fuel_kwh_year", 1},
    {"payback_years", "payback_years", 1},
    {"net_present_worth", "net_present_worth", 1},
    {"cost_year", "cost_year", 1}};
enum {
  N_EXISTING = sizeof of_existing / sizeof of_existing[0],
  N_PACKAGE = sizeof of_package / sizeof of_package[0]
};

static void csv_headers(const column c[], size_t n, FILE *f)
{
  for (size_t i = 0; i < n; i++)
    if (c[i].band)
      fprintf(f, ",%s_p10,%s_p50,%s_p90", c[i].header, c[i].header, c[i].header);
    else
      fprintf(f, ",%s", c[i].header);
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
    pw_band b = c[i].band ? pw_street_band(set, c[i].key) : (pw_band){0};
    if (c[i].band)
      csv_band(&b, f);
    else
      csv_number(pw_street_number(set, c[i].key), f);
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
  csv_headers(of_existing, N_EXISTING, f);
  fputs(",package", f);
  csv_headers(of_package, N_PACKAGE, f);
  fputs(",may_be_claimed,claim\n", f);
  pw_status status = pw_street_each(street, csv_row, f, err);
  for (size_t p = 0; status == PW_OK && p < total->n_package; p++)
    csv_total(&total->package[p], f);
  return status == PW_OK ? pw_text_written(f, "the street", err) : status;
}
