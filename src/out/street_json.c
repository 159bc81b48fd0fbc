/* A street as JSON: a line a house, so that memory does not grow with it. */
#include <math.h>

#include "out/json.h"
#include "out/range_out.h"
#include "out/street_out.h"
#include "out/text_stream.h"

typedef struct listing {
  FILE *f;
  int rejects; /* which are wanted: 1 the rejects, 0 the houses */
  size_t n;
} listing;

static pw_status put(listing *l, json_t *o, pw_err *err)
{
  fputs(l->n++ ? ",\n    " : "\n    ", l->f);
  if (json_dumpf(o, l->f, JSON_REAL_PRECISION(12)) == 0) return PW_OK;
  pw_status status = pw_text_written(l->f, "the JSON output", err);
  return status != PW_OK ? status
                         : pw_fail(err, PW_E_NOMEM, NULL, "no memory for the JSON output");
}

static pw_status put_record(void *context, json_t *record, json_t *draws, pw_err *err)
{
  listing *l = context;
  return l->rejects == (draws == NULL) ? put(l, record, err) : PW_OK;
}

static json_t *sum_json(const pw_street_package *p)
{
  static const pw_result result[PW_STREET_SUMS] = {PW_RESULT_COST, PW_RESULT_SAVING,
                                                   PW_RESULT_SAVING_MINIMUM,
                                                   PW_RESULT_SAVING_FUEL, PW_RESULT_WORTH};
  json_t *o = json_object();
  pw_json_set_text(o, "package", p->name);
  json_object_set_new(o, "houses", json_integer((json_int_t)p->sum[0].n_house));
  pw_result_set(o, PW_RESULT_SAVING, p->saving);
  pw_result_set(o, PW_RESULT_PRICE, p->n_price ? p->price : (double)NAN);
  json_object_set_new(o, "houses_with_price", json_integer((json_int_t)p->n_price));
  json_object_set_new(o, "may_be_claimed", json_boolean(pw_street_claimed(p)));
  for (size_t k = 0; k < PW_STREET_SUMS; k++) {
    if (k == 1 + PW_STREET_WORTH && p->n_price == 0) continue;
    json_t *b = pw_band_json(&p->band[k]);
    char key[48];
    pw_json_set(b, "sd", p->band[k].sd);
    pw_json_set(b, "sd_if_nothing_were_shared", sqrt(p->sum[k].variance_alone));
    pw_json_set(b, "sum_of_p10", p->sum[k].low);
    pw_json_set(b, "sum_of_p90", p->sum[k].high);
    snprintf(key, sizeof key, "%s%s", k ? "" : "existing_", pw_result_of(result[k])->ranged);
    json_object_set_new(o, key, b);
  }
  return o;
}

pw_status pw_street_json(const pw_street *street, const pw_street_total *total, FILE *f,
                         pw_err *err)
{
  listing houses = {f, 0, 0}, rejects = {f, 1, 0}, sums = {f, 0, 0};
  fputs("{\n  \"run\": ", f);
  json_dumpf(pw_street_about(street), f, JSON_REAL_PRECISION(12));
  fputs(",\n  \"houses\": [", f);
  pw_status status = pw_street_each(street, put_record, &houses, err);
  fputs("\n  ],\n  \"rejected\": [", f);
  if (status == PW_OK) status = pw_street_each(street, put_record, &rejects, err);
  fputs("\n  ],\n  \"together\": [", f);
  for (size_t p = 0; status == PW_OK && p < total->n_package; p++) {
    json_t *o = sum_json(&total->package[p]);
    status = put(&sums, o, err);
    json_decref(o);
  }
  fputs("\n  ]\n}\n", f);
  return status == PW_OK ? pw_text_written(f, "the JSON output", err) : status;
}
