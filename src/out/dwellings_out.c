#include "out/dwellings_out.h"
#include "out/text_stream.h"

#include <math.h>

#include "out/clip.h"
#include "out/grid.h"
#include "out/json.h"
#include "out/result.h"

void pw_dwelling_head(const char *name, FILE *f)
{
  fprintf(f, "======== Dwelling %s ========\n\n", name);
}

static void row(pw_grid *g, const char *dwelling, const char *windows, const pw_together_set *s,
                int existing)
{
  pw_grid_cell(g, "%s", pw_clip(dwelling, 16).text);
  pw_grid_cell(g, "%s", pw_clip(windows, 16).text);
  pw_grid_number(g, s->heating_kwh, 0);
  pw_grid_number(g, s->cooling_kwh, 0);
  pw_grid_dollars(g, s->cost);
  if (existing) {
    for (int k = 0; k < 3; k++)
      pw_grid_cell(g, "%s", "");
    return;
  }
  pw_grid_dollars(g, s->saving);
  pw_grid_dollars(g, s->price > 0.0 ? s->price : (double)NAN);
  pw_grid_payback(g, s->payback);
}

static void rows(pw_grid *g, const char *name, const pw_compare *c, const pw_together *sum)
{
  row(g, name, c->rated.existing_set.name, &sum->existing, 1);
  for (size_t p = 0; p < sum->n_package; p++)
    row(g, "", c->rated.package_set[p].name, &sum->package[p], 0);
}

/* Whether prices.csv has what is paid once a job: each dwelling's price then holds it. */
static int paid_once(const pw_job *job)
{
  for (size_t i = 0; i < job->n_price; i++)
    if (pw_given_is(&job->price[i].per_job)) return 1;
  return 0;
}

pw_status pw_dwellings_text(const pw_compare *const compare[], size_t n, FILE *f, pw_err *err)
{
  static const char *const header[] = {"<dwelling", "<windows", "heat kWh", "cool kWh",
                                       "bill",      "saved",    "price",    "payback"};
  pw_grid *g = pw_grid_new(sizeof header / sizeof header[0], header);
  pw_together sum;
  for (size_t d = 0; d < n; d++) {
    pw_together_of(&compare[d], 1, &sum);
    rows(g, compare[d]->job->dwelling, compare[d], &sum);
  }
  pw_together_of(compare, n, &sum);
  rows(g, "together", compare[0], &sum);
  fprintf(f,
          "======== All %zu dwellings ========\n\n"
          "Each dwelling for a year, and the whole job: %.0f windows replaced\n",
          n, sum.n_window);
  pw_status status = pw_grid_print(g, f, PW_TEXT, err);
  pw_grid_free(g);
  fputs(
      "Each is a house of its own; a range of the sum is not told, since ranges do not add.\n",
      f);
  if (paid_once(compare[0]->job))
    fputs("What prices.csv has once a job (a permit, a fixed discount) stands in each "
          "dwelling's price and so\n"
          "in the sum once for each: where one serves all, give it to one or take it off.\n",
          f);
  return status == PW_OK ? pw_text_written(f, "the dwellings", err) : status;
}

static json_t *set_json(const char *name, const pw_together_set *s, int existing)
{
  json_t *o = json_object();
  if (name) pw_json_set_text(o, "package", name);
  pw_result_set(o, PW_RESULT_HEATING, s->heating_kwh);
  pw_result_set(o, PW_RESULT_COOLING, s->cooling_kwh);
  pw_result_set(o, PW_RESULT_COST, s->cost);
  pw_result_set(o, PW_RESULT_CO2, s->co2_kg);
  if (existing) return o;
  pw_result_set(o, PW_RESULT_SAVING, s->saving);
  pw_result_set(o, PW_RESULT_SAVING_CO2, s->saving_co2_kg);
  if (s->price > 0.0) {
    pw_result_set(o, PW_RESULT_PRICE, s->price);
    pw_json_set(o, "incentive", s->incentive);
    pw_result_set(o, PW_RESULT_PAYBACK, s->payback);
  }
  return o;
}

json_t *pw_dwellings_json(const pw_compare *const compare[], json_t *const each[], size_t n)
{
  json_t *root = json_object(), *all = json_array(), *together = json_object();
  json_t *packages = json_array();
  pw_together sum;
  pw_together_of(compare, n, &sum);
  pw_json_set_text(root, "job", compare[0]->job->house.job);
  for (size_t d = 0; d < n; d++) {
    pw_json_set_text(each[d], "dwelling", compare[d]->job->dwelling);
    json_array_append_new(all, each[d]);
  }
  json_object_set_new(root, "dwellings", all);
  pw_json_set(together, "windows", sum.n_window);
  json_object_set_new(together, "existing", set_json(NULL, &sum.existing, 1));
  for (size_t p = 0; p < sum.n_package; p++)
    json_array_append_new(packages,
                          set_json(compare[0]->rated.package_set[p].name, &sum.package[p], 0));
  json_object_set_new(together, "packages", packages);
  json_object_set_new(together, "job_prices_in_each", json_boolean(paid_once(compare[0]->job)));
  json_object_set_new(root, "together", together);
  return root;
}
