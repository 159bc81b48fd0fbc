/* A street on a terminal: a row a house and package, then all together. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "out/clip.h"
#include "out/range_out.h"
#include "out/street_out.h"
#include "out/text_stream.h"
#include "out/wrap.h"

enum { BLOCK = 400 }; /* houses in a table: memory does not grow with the street */

typedef struct printing {
  const pw_unit_set *units;
  FILE *f;
  pw_grid *grid;
  size_t in_grid, folder; /* folder: bytes of the names that all begin with */
  int none_claimed, rejects;
} printing;

static pw_grid *new_grid(void)
{
  static const char *const header[] = {"<house",  "<windows", "U",       "SHGC",  "bill", "low",
                                       "typical", "high",     "of code", "price", "held"};
  return pw_grid_new(sizeof header / sizeof header[0], header);
}

static void five(pw_grid *g, double v, const char *mark)
{
  if (isfinite(v))
    pw_grid_cell(g, "%s%s", pw_dollars_of(v).text, mark);
  else
    pw_grid_cell(g, "-");
}

enum { HOUSE = 22 };

/* The end of a long name tells houses apart. */
static const char *end_of(char house[])
{
  size_t n = strlen(house), at = n > HOUSE ? n - HOUSE + 2 : 0;
  while (at > 0 && ((unsigned char)house[at] & 0xC0u) == 0x80u)
    at++; /* never within a character */
  if (at >= 2) {
    at -= 2;
    house[at] = house[at + 1] = '.';
  }
  return house + at;
}

static void set_cells(printing *p, const char *house, const char *windows, const json_t *set)
{
  pw_grid_cell(p->grid, "%s", house);
  pw_grid_cell(p->grid, "%s", pw_clip(windows, 10).text);
  pw_figure_cell(p->grid, PW_FIGURE_U, p->units, pw_street_value(set, PW_RESULT_U));
  pw_figure_cell(p->grid, PW_FIGURE_RATIO, p->units, pw_street_value(set, PW_RESULT_SHGC));
  five(p->grid, pw_street_band(set, PW_RESULT_COST).p50, "");
}

static pw_status flush(printing *p, pw_err *err)
{
  pw_status status = p->in_grid ? pw_grid_print(p->grid, p->f, PW_TEXT, err) : PW_OK;
  pw_grid_free(p->grid);
  p->grid = new_grid();
  p->in_grid = 0;
  return status;
}

static pw_status text_row(void *context, json_t *o, json_t *draws, pw_err *err)
{
  printing *p = context;
  char house[200];
  const char *dwelling = pw_street_word(o, "dwelling"),
             *job = pw_street_word(o, "job") + p->folder;
  if (!draws) return PW_OK;
  snprintf(house, sizeof house, "%.120s%s%s", job, dwelling[0] ? " " : "", dwelling);
  set_cells(p, end_of(house), "existing", json_object_get(o, "existing"));
  for (int i = 0; i < 5; i++)
    pw_grid_cell(p->grid, "%s", "");
  pw_grid_cell(p->grid, "%lld", (long long)json_integer_value(json_object_get(o, "rows_held")));
  const json_t *packages = json_object_get(o, "packages");
  for (size_t k = 0; k < json_array_size(packages); k++) {
    const json_t *set = json_array_get(packages, k);
    pw_band saved = pw_street_band(set, PW_RESULT_SAVING);
    int claimed = json_is_true(json_object_get(set, "may_be_claimed"));
    p->none_claimed |= !claimed;
    set_cells(p, "", pw_street_word(set, "package"), set);
    five(p->grid, saved.p10, "");
    five(p->grid, saved.p50, claimed ? "" : "*");
    five(p->grid, saved.p90, "");
    five(p->grid, pw_street_band(set, PW_RESULT_SAVING_MINIMUM).p50, "");
    pw_grid_dollars(p->grid, pw_street_value(set, PW_RESULT_PRICE));
    pw_grid_cell(p->grid, "%s", "");
  }
  return ++p->in_grid == BLOCK ? flush(p, err) : PW_OK;
}

static pw_status text_reject(void *context, json_t *o, json_t *draws, pw_err *err)
{
  printing *p = context;
  char text[1200];
  (void)err;
  if (draws) return PW_OK;
  if (!p->rejects++) fprintf(p->f, "\nNot in it\n");
  snprintf(text, sizeof text, "%.600s: %.400s", pw_street_word(o, "job"),
           pw_street_word(o, "rejected"));
  pw_wrap(p->f, "  ", text, 100);
  return PW_OK;
}

/* The folder that all names of houses stand in, in bytes. */
typedef struct common {
  char *name; /* owned */
  size_t n;
} common;

static pw_status in_common(void *context, json_t *o, json_t *draws, pw_err *err)
{
  common *c = context;
  const char *job = pw_street_word(o, "job"), *slash = strrchr(job, '/');
  size_t n = slash ? (size_t)(slash - job) + 1 : 0, same = 0;
  if (!draws) return PW_OK;
  if (!c->name) {
    c->name = strdup(job);
    c->n = n;
    return c->name ? PW_OK : pw_fail(err, PW_E_NOMEM, NULL, "no memory for the street");
  }
  while (same < n && same < c->n && job[same] == c->name[same])
    same++;
  while (same > 0 && job[same - 1] != '/')
    same--;
  c->n = same;
  return PW_OK;
}

static const char *const figure_said[PW_STREET_SUMS] = {
    "bill with the windows there now, $ a year", "saved on heating and cooling, $ a year",
    "the same against new windows of the code", "energy bought less, kWh a year",
    "net present worth, $"};

static void total_rows(const pw_street_package *p, pw_grid *g)
{
  for (size_t k = 0; k < PW_STREET_SUMS; k++) {
    const pw_band *b = &p->band[k];
    if (k == 1 + PW_STREET_WORTH && p->n_price == 0) continue;
    pw_grid_cell(g, "%s", k == 0 ? pw_clip(p->name, 16).text : "");
    pw_grid_cell(g, "%s", figure_said[k]);
    if (k == 1 + PW_STREET_FUEL) {
      pw_grid_number(g, 10.0 * round(b->p10 / 10.0), 0);
      pw_grid_number(g, 10.0 * round(b->p50 / 10.0), 0);
      pw_grid_number(g, 10.0 * round(b->p90 / 10.0), 0);
    } else {
      pw_band_dollars(g, b);
    }
  }
}

static void total_said(const pw_street_package *p, FILE *f)
{
  const pw_street_sum *s = &p->sum[1 + PW_STREET_SAVING];
  const pw_band *b = &p->band[1 + PW_STREET_SAVING];
  char text[600];
  size_t n = 0;
  n += (size_t)snprintf(text, sizeof text, "%s: %zu %s", p->name, s->n_house,
                        s->n_house == 1 ? "house" : "houses");
  if (p->n_price)
    n += (size_t)snprintf(text + n, sizeof text - n, ", $%.0f installed in %zu of them",
                          p->price, p->n_price);
  if (!pw_street_claimed(p))
    n += (size_t)snprintf(text + n, sizeof text - n,
                          "; the range of the saving holds zero: none is claimed");
  if (s->n_house > 1)
    snprintf(text + n, sizeof text - n,
             ". Low added to low and high to high would be %s to %s, the street is %s to %s: "
             "facts of single houses even out, what all share does not (standard deviation %s, "
             "%s if the houses shared nothing).",
             pw_dollars_of(s->low).text, pw_dollars_of(s->high).text,
             pw_dollars_of(b->p10).text, pw_dollars_of(b->p90).text, pw_dollars_of(b->sd).text,
             pw_dollars_of(sqrt(s->variance_alone)).text);
  else
    snprintf(text + n, sizeof text - n, ".");
  pw_wrap(f, "  ", text, 100);
}

static pw_status totals(const pw_street *street, const pw_street_total *t, FILE *f, pw_err *err)
{
  static const char *const header[] = {"<windows", "<figure", "low", "typical", "high"};
  pw_grid *g = pw_grid_new(sizeof header / sizeof header[0], header);
  size_t n = pw_street_houses(street);
  fprintf(f, "\n%s%zu %s together: eight of ten cases lie between low and high\n",
          n == 1 ? "" : "All ", n, n == 1 ? "house" : "houses");
  for (size_t p = 0; p < t->n_package; p++)
    total_rows(&t->package[p], g);
  pw_status status = pw_grid_print(g, f, PW_TEXT, err);
  pw_grid_free(g);
  for (size_t p = 0; p < t->n_package; p++)
    total_said(&t->package[p], f);
  pw_wrap(
      f, "  ",
      "Drawn once for all houses: forms of the model and how far models lie apart, weather, "
      "prices of energy, values of the new windows. Drawn for each house by itself: its "
      "leakage, insulation, thermostat, plant, shade, old frames, installed price.",
      100);
  return status;
}

pw_status pw_street_text(const pw_street *street, const pw_street_total *total,
                         const pw_unit_set *units, FILE *f, pw_err *err)
{
  printing p = {.units = units, .f = f, .grid = new_grid()};
  common folder = {NULL, 0};
  pw_status status = pw_street_each(street, in_common, &folder, err);
  p.folder = folder.n;
  size_t n = pw_street_houses(street);
  fprintf(f, "%zu %s", n, n == 1 ? "house" : "houses");
  if (folder.n) fprintf(f, " in %.*s", (int)folder.n, folder.name);
  fprintf(f,
          "\nU in %s; $ a year of heating and cooling, typical; saved: low, typical, high "
          "(against new\nwindows of the code: typical); held: rows that may not be ordered "
          "yet\n\n",
          units->u);
  free(folder.name);
  if (status == PW_OK) status = pw_street_each(street, text_row, &p, err);
  if (status == PW_OK) status = flush(&p, err);
  pw_grid_free(p.grid);
  if (p.none_claimed) fprintf(f, "* none is claimed: the range of that saving holds zero\n");
  if (status == PW_OK && total->n_package) status = totals(street, total, f, err);
  if (status == PW_OK) status = pw_street_each(street, text_reject, &p, err);
  fprintf(f, "\nNothing here is a certified rating; local code and licensed people decide.\n");
  return status == PW_OK ? pw_text_written(f, "the street", err) : status;
}
