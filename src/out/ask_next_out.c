#include "out/ask_next_out.h"

#include "out/grid.h"
#include "out/json.h"

pw_status pw_ask_next_text(const pw_compare *c, const pw_range *r, size_t p, FILE *f,
                           pw_err *err)
{
  static const char *const header[] = {"<fact", "narrower by", "<where it goes"};
  pw_ask ask[PW_ASK_NEXT];
  size_t n = pw_ask_next(r, p, ask);
  if (n == 0) return PW_OK;
  pw_grid *g = pw_grid_new(sizeof header / sizeof header[0], header);
  for (size_t k = 0; k < n; k++) {
    pw_grid_cell(g, "%s", ask[k].question);
    pw_grid_cell(g, "%.0f %%", 100.0 * ask[k].narrows);
    pw_grid_cell(g, "%s", ask[k].where);
  }
  fprintf(
      f, "\nWhat to ask next: each, known for sure, would narrow the range of %.40s by about\n",
      c->rated.package_set[p].name);
  pw_status status = pw_grid_print(g, f, PW_TEXT, err);
  pw_grid_free(g);
  return status;
}

json_t *pw_ask_next_json(const pw_range *r, size_t p)
{
  pw_ask ask[PW_ASK_NEXT];
  size_t n = pw_ask_next(r, p, ask);
  json_t *list = json_array();
  for (size_t k = 0; k < n; k++) {
    json_t *o = json_object();
    pw_json_set_text(o, "question", ask[k].question);
    pw_json_set_text(o, "where", ask[k].where);
    pw_json_set_text(o, "input", r->input[ask[k].input].name);
    pw_json_set(o, "narrows", ask[k].narrows);
    json_array_append_new(list, o);
  }
  return list;
}
