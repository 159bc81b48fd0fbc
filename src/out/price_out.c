#include "out/price_out.h"

#include <math.h>
#include <string.h>

#include "out/clip.h"
#include "out/grid.h"
#include "out/json.h"

static const pw_price_part *part_named(const pw_price *price, const char *item)
{
  for (size_t k = 0; k < price->n_part; k++)
    if (strcmp(price->part[k].item, item) == 0) return &price->part[k];
  return NULL;
}

static void money(double value, char text[32])
{
  snprintf(text, 32, "%s$%.2f", value < 0.0 ? "-" : "", fabs(value));
}

static void cell(pw_grid *g, double value, double spread)
{
  char text[32];
  money(value, text);
  if (spread > 0.0)
    pw_grid_cell(g, "%s +- %.2f", text, spread);
  else
    pw_grid_cell(g, "%s", text);
}

static void item_row(pw_grid *g, const pw_compare *c, const char *item)
{
  double count = 0.0;
  for (size_t p = 0; p < c->n_package; p++) {
    const pw_price_part *part = part_named(&c->billed.package_set[p].parts, item);
    if (part) count = fmax(count, part->count);
  }
  if (count > 0.0)
    pw_grid_cell(g, "%s (%.0f)", item, count);
  else
    pw_grid_cell(g, "%s", item);
  for (size_t p = 0; p < c->n_package; p++) {
    const pw_price_part *part = part_named(&c->billed.package_set[p].parts, item);
    if (part)
      cell(g, part->value, part->spread);
    else
      pw_grid_cell(g, "%s", "");
  }
}

pw_status pw_price_parts_text(const pw_compare *c, FILE *f, pw_err *err)
{
  const char *header[1 + PW_COMPARE_PACKAGES_MAX] = {"<item (windows)"};
  int by_table = 0;
  for (size_t p = 0; p < c->n_package; p++) {
    by_table |= c->billed.package_set[p].parts.by_table;
    header[1 + p] = c->rated.package_set[p].name;
  }
  if (!by_table) return PW_OK;
  pw_grid *g = pw_grid_new(1 + c->n_package, header);
  for (size_t p = 0; p < c->n_package; p++) {
    const pw_price *price = &c->billed.package_set[p].parts;
    for (size_t k = 0; k < price->n_part; k++) {
      int seen = 0;
      for (size_t q = 0; !seen && q < p; q++)
        seen = part_named(&c->billed.package_set[q].parts, price->part[k].item) != NULL;
      if (!seen) item_row(g, c, price->part[k].item);
    }
  }
  pw_grid_cell(g, "price");
  for (size_t p = 0; p < c->n_package; p++)
    cell(g, c->billed.package_set[p].parts.value, c->billed.package_set[p].parts.spread);
  fputs("\nWhat each price is made of, $ (+- half the range that the lists give)\n", f);
  pw_status status = pw_grid_print(g, f, PW_TEXT, err);
  pw_grid_free(g);
  fputs("Discount is of windows and options, tax of these less the discount; what is taxed is "
        "the "
        "state's law.\n",
        f);
  for (size_t p = 0; p < c->n_package; p++)
    if (c->billed.package_set[p].parts.unpriced)
      fprintf(f, "%s: %d windows have no price, so the job has none.\n",
              c->rated.package_set[p].name, c->billed.package_set[p].parts.unpriced);
  return status;
}

json_t *pw_price_parts_json(const pw_price *price)
{
  json_t *list = json_array();
  for (size_t k = 0; k < price->n_part; k++) {
    const pw_price_part *part = &price->part[k];
    json_t *o = json_object();
    pw_json_set_text(o, "item", part->item);
    if (part->count > 0.0) pw_json_set(o, "windows", part->count);
    pw_json_set(o, "value", part->value);
    pw_json_set(o, "spread", part->spread);
    json_array_append_new(list, o);
  }
  return list;
}

json_t *pw_price_opening_json(const pw_compare *c, size_t p, size_t i)
{
  const pw_opening *o = &c->job->opening[i];
  pw_given price;
  if (!c->billed.package_set[p].parts.by_table || !pw_compare_replaces(c->job, i) ||
      pw_price_of_window(c->job, p, o, c->rated.existing[i].rating.area, &price, NULL) !=
          PW_OK ||
      !(price.line > 0))
    return NULL;
  json_t *one = json_object();
  pw_json_set(one, "value", price.value);
  pw_json_set(one, "spread", price.spread);
  pw_json_set_text(one, "file",
                   strcmp(price.source, "prices.csv") == 0 ? c->job->prices_name
                                                           : price.source);
  json_object_set_new(one, "line", json_integer(price.line));
  return one;
}

void pw_price_parts_line(const pw_price *price, char text[400])
{
  size_t n = 0;
  text[0] = '\0';
  for (size_t k = 0; price->by_table && k < price->n_part && n < 400; k++) {
    char value[32];
    money(price->part[k].value, value);
    n += (size_t)snprintf(text + n, 400 - n, "%s%s %s", k ? ", " : "", price->part[k].item,
                          value);
  }
}
