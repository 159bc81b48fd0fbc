#include "out/rank_out.h"
#include "out/text_stream.h"

#include <string.h>

#include "out/climate_text.h"
#include "out/figure.h"
#include "out/grid.h"
#include "out/json.h"
#include "out/plot.h"
#include "out/wrap.h"
#include "panewright/glazing.h"
#include "panewright/units.h"

enum { GLASS = 320 };

static void glass_text(const pw_rank_choice *c, char text[GLASS])
{
  if (pw_buildup_print(&c->glass, text, GLASS, NULL) != PW_OK) text[GLASS - 1] = '\0';
}

/* As packages.csv and catalogue.csv call it; a single pane has none. */
static const char *spacer_of(const pw_rank_frame *frame, const pw_rank_choice *c)
{
  static const char *const word[PW_SPACER_COUNT] = {[PW_SPACER_METAL] = "metal",
                                                    [PW_SPACER_STAINLESS] = "stainless",
                                                    [PW_SPACER_INSULATING] = "insulating"};
  return c->glass.n_pane == 1 ? "none" : word[frame->parts->spacer[c->spacer].spacer];
}

/* The last column: warmth of the glass, or how quiet it is where that is the objective. */
static void head(pw_grid **g, const pw_rank *rank, const pw_unit_set *units)
{
  char warm[16];
  snprintf(warm, sizeof warm, "in %s", units->temperature);
  const char *const header[] = {"#",      "<frame line", "<spacer", "price $",
                                "life $", "heating",     "cooling", "bill $",
                                "U",      "SHGC",        "light",   rank->sound ? "dB" : warm};
  *g = pw_grid_new(sizeof header / sizeof header[0], header);
}

static void row(pw_grid *g, const pw_rank *rank, const pw_rank_frame *frame,
                const pw_unit_set *units, const char *label, const pw_rank_choice *c)
{
  pw_grid_cell(g, "%s", label);
  pw_grid_cell(g, "%s", frame->parts->line[c->line].name);
  pw_grid_cell(g, "%s", spacer_of(frame, c));
  pw_grid_number(g, c->price, 0);
  pw_grid_number(g, c->life_cost, 0);
  pw_grid_number(g, c->heating_kwh, 0);
  pw_grid_number(g, c->cooling_kwh, 0);
  pw_grid_number(g, c->bill_year, 0);
  pw_figure_cell(g, PW_FIGURE_U, units, c->u);
  pw_figure_cell(g, PW_FIGURE_RATIO, units, c->shgc);
  pw_figure_cell(g, PW_FIGURE_SHARE, units, c->light_kept);
  pw_grid_number(g, rank->sound ? c->rw + c->ctr : pw_show_temperature(units, c->t_inner), 0);
}

/* The glass by number, since a build-up is too long for a column. */
static void glasses(const pw_rank_choice c[], const char *const label[], size_t n, FILE *f)
{
  char text[GLASS];
  for (size_t i = 0; i < n; i++) {
    glass_text(&c[i], text);
    if (label)
      fprintf(f, "  %-10s %s\n", label[i], text);
    else
      fprintf(f, "  %3zu  %s\n", i + 1, text);
  }
}

static void left_out(const pw_rank_counts *k, FILE *f)
{
  const struct {
    uint64_t n;
    const char *why;
  } reason[] = {{k->thickness, "thicker than the pocket"},
                {k->weight, "heavier than the sash bears"},
                {k->light, "darker"},
                {k->tint, "more tinted"},
                {k->sound, "louder"},
                {k->program, "outside the program"}};
  fprintf(f, "%llu build-ups, %llu ranked", (unsigned long long)k->all,
          (unsigned long long)k->ranked);
  for (size_t i = 0; i < sizeof reason / sizeof reason[0]; i++)
    if (reason[i].n > 0)
      fprintf(f, "; %llu %s", (unsigned long long)reason[i].n, reason[i].why);
  fprintf(f, "\n");
}

/* The ends of the Pareto set: the first of each in its order. */
static pw_status ends(const pw_rank *r, const pw_rank_frame *frame, const pw_unit_set *units,
                      FILE *f, pw_err *err)
{
  static const char *const label[] = {"cheapest", "low heat", "low cool",
                                      "lightest", "warmest",  "quietest"};
  pw_rank_choice c[6];
  pw_grid *g;
  size_t n = r->sound ? 6 : 5;
  for (size_t k = 0; k < n; k++)
    c[k] = r->front[0];
  for (size_t i = 1; i < r->n_front; i++) {
    const pw_rank_choice *x = &r->front[i];
    if (x->heating_kwh < c[1].heating_kwh) c[1] = *x;
    if (x->cooling_kwh < c[2].cooling_kwh) c[2] = *x;
    if (x->light_kept > c[3].light_kept) c[3] = *x;
    if (x->t_inner > c[4].t_inner) c[4] = *x;
    if (r->sound && x->rw + x->ctr > c[5].rw + c[5].ctr) c[5] = *x;
  }
  fprintf(
      f,
      "\nNo other build-up is better than one of these %zu in price, heating, cooling, light "
      "and warmth of\nthe glass at once (Pareto set, --format csv lists it). Its ends:\n",
      r->n_front);
  head(&g, r, units);
  for (size_t k = 0; k < n; k++)
    row(g, r, frame, units, label[k], &c[k]);
  pw_status status = pw_grid_print(g, f, PW_TEXT, err);
  pw_grid_free(g);
  fprintf(f, "\n");
  glasses(c, label, n, f);
  return status;
}

pw_status pw_rank_text(const pw_rank *r, const pw_rank_frame *frame, const pw_unit_set *units,
                       FILE *f, pw_err *err)
{
  char number[24];
  pw_grid *g;
  fprintf(f, "Glass for %.80s\n", frame->job);
  pw_wrap(f, "", pw_climate_text(NULL, frame->climate, (char[PW_CLIMATE_TEXT]){""}), 100);
  pw_wrap(f, "", frame->method, 100);
  fprintf(f, "Catalogue: %.88s\n", frame->catalogue);
  left_out(&r->counts, f);
  if (r->stopped) fprintf(f, "Stopped early: this is the best of what was seen by then.\n");
  if (r->n_top == 0) {
    fprintf(f, "Nothing in the catalogue keeps to these limits.\n");
    return PW_OK;
  }
  fprintf(
      f,
      "\nBest by %slife cost: price and bills of the horizon (kWh and bill a year; U in %s)\n",
      r->sound ? "quiet, then by " : "", units->u);
  head(&g, r, units);
  for (size_t i = 0; i < r->n_top; i++) {
    snprintf(number, sizeof number, "%zu", i + 1);
    row(g, r, frame, units, number, &r->top[i]);
  }
  pw_status status = pw_grid_print(g, f, PW_TEXT, err);
  pw_grid_free(g);
  if (status != PW_OK) return status;
  fprintf(f, "\n");
  glasses(r->top, NULL, r->n_top, f);
  fprintf(f,
          "%s\nThe search itself uses a surface through %zu full years; left out of it one by "
          "one, they\n"
          "are missed by %.0f kWh of heating and %.0f kWh of cooling (rms). Last column: %s\n",
          r->top[0].from_year ? "\nEach of these had its own full year of the house."
                              : "\nFigures of the surface, no full years.",
          r->n_year, r->heating_error_kwh, r->cooling_error_kwh,
          r->sound
              ? "Rw + Ctr of the\nglass alone, +- 3 dB; joints and frame of the window let "
                "more through."
              : "inner glass on\nthe design night.");
  status = ends(r, frame, units, f, err);
  fprintf(f, "\nComputed, not certified: a label value is the maker's to give.\n");
  return status;
}

/* The figures of a row, with their key; NAN where the year was not run. */
enum { KEYS = 22 };
static const char *const key[KEYS] = {"price",
                                      "life_cost",
                                      "bill_year",
                                      "heating_kwh",
                                      "cooling_kwh",
                                      "u_w_m2k",
                                      "shgc",
                                      "vt",
                                      "light_kept",
                                      "inner_glass_design_night_c",
                                      "sash_weight_kg",
                                      "full_year",
                                      "surface_heating_kwh",
                                      "surface_cooling_kwh",
                                      "surface_life_cost",
                                      "thickness_mm",
                                      "number",
                                      "rw_db",
                                      "c_db",
                                      "ctr_db",
                                      "stc_db",
                                      "oitc_db"};

static void figures(const pw_rank_choice *c, double v[KEYS])
{
  double thick = 0.0;
  for (size_t i = 0; i < c->glass.n_pane; i++)
    thick += c->glass.pane[i].thickness +
             (i + 1 < c->glass.n_pane ? c->glass.gap[i].thickness : 0.0);
  const double all[KEYS] = {c->price,
                            c->life_cost,
                            c->bill_year,
                            c->heating_kwh,
                            c->cooling_kwh,
                            c->u,
                            c->shgc,
                            c->vt,
                            c->light_kept,
                            pw_c(c->t_inner),
                            c->sash_weight,
                            (double)c->from_year,
                            c->surface_heating_kwh,
                            c->surface_cooling_kwh,
                            c->surface_life_cost,
                            1e3 * thick,
                            (double)c->number,
                            c->rw,
                            c->c,
                            c->ctr,
                            c->stc,
                            c->oitc};
  memcpy(v, all, sizeof all);
}

static void csv_row(const pw_rank_frame *frame, const char *list, size_t place,
                    const pw_rank_choice *c, FILE *f)
{
  char text[GLASS];
  double v[KEYS];
  glass_text(c, text);
  figures(c, v);
  fprintf(f, "%s,%zu,", list, place);
  pw_csv_cell(f, text);
  fprintf(f, ",%s,%s", frame->parts->line[c->line].name, spacer_of(frame, c));
  for (size_t k = 0; k < KEYS; k++)
    fprintf(f, ",%.10g", v[k]);
  fputc('\n', f);
}

pw_status pw_rank_csv(const pw_rank *r, const pw_rank_frame *frame, FILE *f, pw_err *err)
{
  fprintf(f, "list,place,glass,frame_line,spacer");
  for (size_t k = 0; k < KEYS; k++)
    fprintf(f, ",%s", key[k]);
  fputc('\n', f);
  for (size_t i = 0; i < r->n_top; i++)
    csv_row(frame, "top", i + 1, &r->top[i], f);
  for (size_t i = 0; i < r->n_front && !ferror(f); i++)
    csv_row(frame, "pareto", i + 1, &r->front[i], f);
  return pw_text_written(f, "the ranking", err);
}

static json_t *choices(const pw_rank_frame *frame, const pw_rank_choice c[], size_t n)
{
  json_t *list = json_array();
  for (size_t i = 0; i < n; i++) {
    char text[GLASS];
    double v[KEYS];
    json_t *o = json_object();
    glass_text(&c[i], text);
    figures(&c[i], v);
    pw_json_set_text(o, "glass", text);
    pw_json_set_text(o, "frame_line", frame->parts->line[c[i].line].name);
    pw_json_set_text(o, "spacer", spacer_of(frame, &c[i]));
    for (size_t k = 0; k < KEYS; k++)
      pw_json_set(o, key[k], v[k]);
    json_array_append_new(list, o);
  }
  return list;
}

pw_status pw_rank_json(const pw_rank *r, const pw_rank_frame *frame, FILE *f, pw_err *err)
{
  json_t *root = json_object(), *counts = json_object();
  const pw_rank_counts *k = &r->counts;
  pw_json_set_text(root, "job", frame->job);
  pw_json_set_text(root, "climate",
                   pw_climate_text(NULL, frame->climate, (char[PW_CLIMATE_TEXT]){""}));
  pw_json_set_text(root, "method", frame->method);
  pw_json_set_text(root, "catalogue", frame->catalogue);
  pw_json_set(counts, "all", (double)k->all);
  pw_json_set(counts, "ranked", (double)k->ranked);
  pw_json_set(counts, "left_out_thickness", (double)k->thickness);
  pw_json_set(counts, "left_out_weight", (double)k->weight);
  pw_json_set(counts, "left_out_light", (double)k->light);
  pw_json_set(counts, "left_out_tint", (double)k->tint);
  pw_json_set(counts, "left_out_sound", (double)k->sound);
  pw_json_set(counts, "left_out_program", (double)k->program);
  json_object_set_new(root, "counts", counts);
  json_object_set_new(root, "stopped", json_boolean(r->stopped));
  pw_json_set(root, "surface_years", (double)r->n_year);
  pw_json_set(root, "surface_heating_error_kwh", r->heating_error_kwh);
  pw_json_set(root, "surface_cooling_error_kwh", r->cooling_error_kwh);
  json_object_set_new(root, "top", choices(frame, r->top, r->n_top));
  json_object_set_new(root, "pareto", choices(frame, r->front, r->n_front));
  return pw_json_print(root, f, err);
}

pw_status pw_rank_picture(const pw_rank *r, const pw_rank_frame *frame, const char *dir,
                          pw_err *err)
{
  enum { MOST = 1500 }; /* more points than that are a blot */
  char title[160];
  pw_plot *p = pw_plot_new("plots/rank.gp");
  size_t step = r->n_front / MOST + 1;
  int n = snprintf(title, sizeof title, "What no other build-up beats: %zu of %llu, %.60s",
                   r->n_front, (unsigned long long)r->counts.ranked, frame->job);
  if (step > 1 && n > 0 && (size_t)n < sizeof title)
    snprintf(title + n, sizeof title - (size_t)n, " (one in %zu drawn)", step);
  pw_plot_text(p, "title", title);
  pw_plot_text(p, "x_label", "price installed, thousand $");
  pw_plot_text(p, "heat_label", "heating need of the house, kWh a year");
  pw_plot_text(p, "cool_label", "cooling need of the house, kWh a year");
  pw_plot_text(p, "light_label", "light kept, %");
  pw_plot_text(p, "top_key", "least life cost");
  pw_plot_block(p, "F");
  for (size_t i = 0; i < r->n_front; i += step)
    pw_plot_row(p, "ffff", 1e-3 * r->front[i].price, r->front[i].heating_kwh,
                r->front[i].cooling_kwh, 100.0 * r->front[i].light_kept);
  pw_plot_end_block(p);
  pw_plot_block(p, "T");
  for (size_t i = 0; i < r->n_top; i++)
    pw_plot_row(p, "fff", 1e-3 * r->top[i].price, r->top[i].heating_kwh, r->top[i].cooling_kwh);
  pw_plot_end_block(p);
  pw_status status = pw_plot_folder(dir, err);
  if (status == PW_OK) status = pw_plot_write_both(p, dir, "rank", 900, 460, err);
  pw_plot_free(p);
  return status;
}
