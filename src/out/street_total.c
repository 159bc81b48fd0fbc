/* What the houses of a street come to together. */
#include <stdlib.h>
#include <string.h>

#include "out/saving_said.h"
#include "out/street_out.h"

typedef struct adding {
  pw_street_total *total;
  size_t n_draw;
  double *value, *work; /* owned; [n_draw] */
} adding;

static pw_status package_named(adding *a, const char *name, pw_street_package **package,
                               pw_err *err)
{
  pw_street_total *t = a->total;
  for (size_t p = 0; p < t->n_package; p++)
    if (strcmp(t->package[p].name, name) == 0) {
      *package = &t->package[p];
      return PW_OK;
    }
  if (t->n_package == PW_STREET_PACKAGES_MAX)
    return pw_fail(err, PW_E_DATA, "package",
                   "more than %d names of packages in one street: say --package NAME",
                   PW_STREET_PACKAGES_MAX);
  *package = &t->package[t->n_package++];
  snprintf((*package)->name, sizeof(*package)->name, "%.63s", name);
  pw_status status = PW_OK;
  for (size_t k = 0; status == PW_OK && k < PW_STREET_SUMS; k++)
    status = pw_street_sum_new(&(*package)->sum[k], a->n_draw, err);
  return status;
}

static pw_status add_values(adding *a, pw_street_sum *sum, const json_t *values, pw_err *err)
{
  if (json_array_size(values) != a->n_draw)
    return pw_fail(err, PW_E_DATA, "records", "a record has not the draws that its head says");
  for (size_t i = 0; i < a->n_draw; i++)
    a->value[i] = json_number_value(json_array_get(values, i));
  return pw_street_sum_add(sum, a->value, a->work, err);
}

static pw_status add_house(void *context, json_t *record, json_t *draws, pw_err *err)
{
  adding *a = context;
  const json_t *packages = json_object_get(record, "packages");
  pw_status status = PW_OK;
  if (!draws) return PW_OK;
  for (size_t p = 0; status == PW_OK && p < json_array_size(packages); p++) {
    const json_t *o = json_array_get(packages, p);
    const json_t *figures = json_array_get(json_object_get(draws, "packages"), p);
    const char *name = json_string_value(json_object_get(o, "package"));
    pw_street_package *sum = NULL;
    status = package_named(a, name ? name : "", &sum, err);
    if (status == PW_OK)
      status = add_values(a, &sum->sum[0], json_object_get(draws, "cost"), err);
    for (size_t k = 0; status == PW_OK && k < PW_STREET_FIGURES; k++)
      status = add_values(a, &sum->sum[1 + k], json_array_get(figures, k), err);
    if (status != PW_OK) break;
    double price = json_number_value(json_object_get(o, pw_result_of(PW_RESULT_PRICE)->key));
    sum->price += price;
    sum->n_price += price > 0.0;
    sum->saving += json_number_value(json_object_get(o, pw_result_of(PW_RESULT_SAVING)->key));
  }
  return status;
}

pw_status pw_street_total_of(const pw_street *street, pw_street_total *total, pw_err *err)
{
  *total = (pw_street_total){0};
  json_int_t n = json_integer_value(json_object_get(pw_street_about(street), "draws"));
  if (n < 2 || n > 65536) return pw_fail(err, PW_E_DATA, "records", "no draws in the records");
  adding a = {.total = total, .n_draw = (size_t)n};
  a.value = calloc(a.n_draw, sizeof *a.value);
  a.work = calloc(a.n_draw, sizeof *a.work);
  pw_status status = a.value && a.work
                         ? pw_street_each(street, add_house, &a, err)
                         : pw_fail(err, PW_E_NOMEM, NULL, "no memory for the sums");
  for (size_t p = 0; status == PW_OK && p < total->n_package; p++)
    for (size_t k = 0; status == PW_OK && k < PW_STREET_SUMS; k++) {
      pw_street_package *sum = &total->package[p];
      status = pw_street_sum_band(&sum->sum[k], a.work, &sum->band[k], err);
    }
  free(a.value);
  free(a.work);
  return status;
}

int pw_street_claimed(const pw_street_package *package)
{
  return pw_band_above_zero(&package->band[1 + PW_STREET_SAVING], pw_units(0));
}

void pw_street_total_free(pw_street_total *total)
{
  for (size_t p = 0; p < total->n_package; p++)
    for (size_t k = 0; k < PW_STREET_SUMS; k++)
      pw_street_sum_free(&total->package[p].sum[k]);
  *total = (pw_street_total){0};
}
