#include <string.h>

#include "base/tape.h"
#include "out/caution_out.h"
#include "out/fit_out.h"
#include "out/grid.h"
#include "out/json.h"
#include "out/message_text.h"
#include "out/opening_columns.h"
#include "out/opening_drawing.h"
#include "out/opening_said.h"
#include "window/escape.h"
#include "window/opening_package.h"

static json_t *lites_json(const pw_lites *w)
{
  json_t *o = json_object(), *lite = json_array();
  pw_json_set_text(o, "operator", pw_operator_name(w->operator_));
  pw_json_set(o, "width_m", w->width);
  pw_json_set(o, "height_m", w->height);
  pw_json_set(o, "glass_area_m2", w->glass_area);
  pw_json_set(o, "frame_area_m2", w->frame_area);
  for (size_t i = 0; i < w->n_lite; i++) {
    json_t *l = json_object();
    pw_json_set(l, "width_m", w->lite[i].width);
    pw_json_set(l, "height_m", w->lite[i].height);
    json_object_set_new(l, "moving", json_boolean(w->lite[i].moving));
    json_array_append_new(lite, l);
  }
  json_object_set_new(o, "lites", lite);
  return o;
}

static json_t *clear_json(const pw_clear *c)
{
  json_t *o = json_object();
  pw_json_set(o, "width_m", c->width);
  pw_json_set(o, "height_m", c->height);
  pw_json_set(o, "area_m2", c->area);
  if (c->bottom >= 0.0) pw_json_set(o, "bottom_m", c->bottom);
  return o;
}

static json_t *choices_json(const pw_fit *fit)
{
  json_t *all = json_array();
  for (size_t i = 0; i < fit->n_choice; i++) {
    const pw_cut_choice *c = &fit->choice[i];
    json_t *o = json_object();
    json_object_set_new(o, "fins_cut", json_integer(c->fins_cut));
    json_object_set_new(o, "sill_lip_cut", json_boolean(c->lip_cut));
    pw_json_set(o, "order_width_m", c->order_width);
    pw_json_set(o, "order_height_m", c->order_height);
    pw_json_set(o, "glass_area_m2", c->glass_area);
    pw_json_set(o, "glass_kept", c->glass_kept);
    json_array_append_new(all, o);
  }
  return all;
}

static void tape_member(json_t *o, const char *key, double length)
{
  char text[32];
  pw_tape_text(length, 8, text, sizeof text);
  pw_json_set_text(o, key, text);
}

static json_t *install_json(const pw_install *p)
{
  char text[PW_MESSAGE_TEXT];
  json_t *o = json_object(), *line = json_array();
  pw_json_set(o, "joint_window_m", p->joint_width);
  pw_json_set(o, "joint_window_gap_m", p->gap);
  pw_json_set(o, "joint_window_class", p->joint_class);
  pw_json_set(o, "joint_stucco_m", p->joint_stucco);
  pw_json_set(o, "joint_depth_m", p->joint_depth);
  pw_json_set(o, "backer_m", p->backer);
  pw_json_set(o, "bead_length_m", p->bead_length);
  for (size_t i = 0; i < p->n_line; i++)
    json_array_append_new(line,
                          json_string(pw_message_text(NULL, &p->line[i], text, sizeof text)));
  json_object_set_new(o, "lines", line);
  return o;
}

static json_t *opening_json(const pw_fit_report *r, size_t i, pw_reading as)
{
  const pw_opening *op = &r->job->opening[i];
  const pw_fit *f = &r->fit[i];
  char text[PW_MESSAGE_TEXT];
  json_t *o = json_object(), *finding = json_array();
  pw_json_set_text(o, "tag", op->tag);
  pw_json_set_text(o, "room", op->room);
  json_object_set_new(o, "quantity", json_integer(op->quantity));
  pw_facts_json(r->job, op, o);
  pw_json_set(o, "facing_deg", op->facing_deg);
  pw_json_set_text(o, "operator", pw_operator_name(op->operator_insert));
  pw_json_set(o, "width_min_m", f->width_min);
  pw_json_set(o, "height_min_m", f->height_min);
  pw_json_set(o, "pocket_width_m", f->pocket_width);
  pw_json_set(o, "pocket_height_m", f->pocket_height);
  pw_json_set(o, "opening_width_m", f->opening_width);
  pw_json_set(o, "opening_height_m", f->opening_height);
  pw_json_set(o, "opening_area_m2", f->opening_area);
  pw_json_set(o, "clearance_m", f->clearance);
  pw_json_set(o, "diagonal_difference_m", f->diagonal_difference);
  pw_json_set(o, "lean_m", f->lean);
  pw_json_set_text(o, "square", pw_square_name(pw_fit_square(f)));
  pw_json_set(o, "order_width_m", f->order_width);
  pw_json_set(o, "order_height_m", f->order_height);
  tape_member(o, "order_width_in", f->order_width);
  tape_member(o, "order_height_in", f->order_height);
  pw_json_set(o, "retained_area_m2", f->retained_area);
  pw_json_set(o, "glass_kept", f->glass_kept);
  pw_json_set(o, "fins_width_gain_m", f->fins_width_gain);
  pw_json_set(o, "fins_glass_gain_m2", f->fins_glass_gain);
  pw_json_set(o, "lip_height_gain_m", f->lip_height_gain);
  pw_json_set(o, "lip_glass_gain_m2", f->lip_glass_gain);
  if (op->shape != PW_SHAPE_RECTANGLE) json_object_set_new(o, "shape", pw_shape_json(f));
  pw_unit_json_add(r->job, i, o);
  json_object_set_new(o, "choices", choices_json(f));
  json_object_set_new(o, "existing", lites_json(&f->existing));
  json_object_set_new(o, "insert", lites_json(&f->insert));
  json_object_set_new(o, "clear_existing", clear_json(&f->clear_existing));
  json_object_set_new(o, "clear_insert", clear_json(&f->clear_insert));
  if (op->use == PW_USE_BEDROOM)
    json_object_set_new(o, "escape_passes",
                        json_boolean(!pw_caution_escape_fails(r->cautions, (int)i)));
  if (pw_caution_escape_fails(r->cautions, (int)i))
    json_object_set_new(o, "escape_remedies", pw_remedies_json(op, f));
  json_object_set_new(o, "safety_glass",
                      json_boolean(pw_caution_safety_glass(r->cautions, (int)i)));
  for (size_t k = 0; k < f->n_finding; k++)
    json_array_append_new(
        finding, json_string(pw_message_text(NULL, &f->finding[k].says, text, sizeof text)));
  json_object_set_new(o, "findings", finding);
  json_object_set_new(o, "may_order", json_boolean(r->check[i].may_order));
  json_t *why = json_array();
  for (size_t k = 0; k < r->check[i].n; k++)
    json_array_append_new(
        why, json_string(pw_message_text(NULL, r->check[i].why[k], text, sizeof text)));
  json_object_set_new(o, "why", why);
  json_object_set_new(o, "use_by_room", json_boolean(op->use_by_room));
  if (pw_option_any(op) || pw_option_screened(op)) {
    char glass[PW_TEXT_MAX];
    pw_package package;
    pw_opening_package(r->job, r->column, op, &package);
    pw_option_glass(&op->option, &package, glass, sizeof glass);
    json_object_set_new(o, "options", pw_option_json(op));
    pw_json_set_text(o, "glass", glass);
    int wanted = pw_caution_safety_glass(r->cautions, (int)i) || op->option.tempered;
    json_object_set_new(o, "tempered", json_boolean(wanted));
  }
  json_object_set_new(o, "install", install_json(&r->install[i]));
  json_object_set_new(o, "drawing", pw_opening_drawing_json(op, f));
  json_object_set_new(o, "said", pw_opening_said_json(r, i, as));
  return o;
}

/* The windows that no order of this job or phase holds. */
static json_t *not_in_order(const pw_fit_report *r)
{
  const pw_job *job = r->job;
  json_t *all = json_array();
  for (size_t i = 0; i < job->n_opening; i++) {
    const pw_opening *op = &job->opening[i];
    if (op->standing == PW_REPLACED) continue;
    json_t *o = json_object();
    pw_json_set_text(o, "tag", op->tag);
    pw_json_set_text(o, "room", op->room);
    json_object_set_new(o, "quantity", json_integer(op->quantity));
    pw_facts_json(job, op, o);
    pw_json_set(o, "facing_deg", op->facing_deg);
    json_object_set_new(o, "drawing", pw_opening_drawing_json(op, &r->fit[i]));
    json_array_append_new(all, o);
  }
  return all;
}

static json_t *house_json(const pw_fit_report *r, pw_reading as)
{
  json_t *root = json_object(), *opening = json_array();
  pw_json_set_text(root, "job", r->job->house.job);
  pw_json_set_text(root, "package", r->job->package[r->column].name);
  pw_json_set_text(root, "frame_line", r->job->package[r->column].frame_line);
  json_object_set_new(root, "escape_failures", json_integer((json_int_t)r->cautions->n_fail));
  for (size_t i = 0; i < r->job->n_opening; i++)
    if (r->job->opening[i].standing == PW_REPLACED)
      json_array_append_new(opening, opening_json(r, i, as));
  json_object_set_new(root, "openings", opening);
  if (json_array_size(opening) < r->job->n_opening)
    json_object_set_new(root, "not_in_order", not_in_order(r));
  json_object_set_new(root, "cautions", pw_caution_json(r->job, r->cautions));
  pw_json_set_text(root, "cautions_closing", pw_message_word(NULL, PW_SAY_CAUTION_CLOSING));
  json_object_set_new(root, "notes", pw_notes_json(r->notes));
  return root;
}

json_t *pw_fit_json(const pw_fit_report r[], size_t n, pw_reading as)
{
  if (n == 1) return house_json(r, as);
  json_t *root = json_object(), *all = json_array();
  pw_json_set_text(root, "job", r[0].job->house.job);
  for (size_t d = 0; d < n; d++) {
    json_t *one = house_json(&r[d], as);
    pw_json_set_text(one, "dwelling", r[d].job->dwelling);
    json_array_append_new(all, one);
  }
  json_object_set_new(root, "dwellings", all);
  return root;
}

/* What was tried where the escape opening fails, each with its outcome; else blank. */
static void remedy_cell(pw_grid *g, const pw_fit_report *r, size_t i)
{
  char all[2000] = "", one[320];
  pw_remedy remedy[PW_REMEDIES_MAX];
  size_t have = 0, n = 0;
  if (pw_caution_escape_fails(r->cautions, (int)i))
    n = pw_escape_remedies(&r->job->opening[i], &r->fit[i], remedy);
  for (size_t k = 0; k < n && have < sizeof all - sizeof one - 3; k++) {
    pw_message says = pw_remedy_says(&remedy[k]);
    pw_message_text(NULL, &says, one, sizeof one);
    have += (size_t)snprintf(all + have, sizeof all - have, "%s%s", k ? "; " : "", one);
  }
  pw_grid_cell(g, "%s", all);
}

static void csv_rows(const pw_fit_report *r, const pw_opening_columns *more, pw_grid *g)
{
  for (size_t i = 0; i < r->job->n_opening; i++) {
    const pw_opening *o = &r->job->opening[i];
    if (o->standing != PW_REPLACED) continue;
    const pw_fit *t = &r->fit[i];
    char w[32], h[32], why[PW_ORDER_WHY];
    pw_tape_text(t->order_width, 8, w, sizeof w);
    pw_tape_text(t->order_height, 8, h, sizeof h);
    pw_grid_cell(g, "%s", o->tag);
    pw_grid_cell(g, "%s", o->room);
    pw_grid_cell(g, "%d", o->quantity);
    pw_grid_cell(g, "%s", pw_operator_name(o->operator_insert));
    pw_grid_number(g, t->opening_area, 6);
    pw_grid_number(g, t->pocket_width, 6);
    pw_grid_number(g, t->pocket_height, 6);
    pw_grid_number(g, t->order_width, 6);
    pw_grid_number(g, t->order_height, 6);
    pw_grid_cell(g, "%s", w);
    pw_grid_cell(g, "%s", h);
    pw_grid_number(g, t->lean, 6);
    pw_grid_cell(g, "%s", pw_square_name(pw_fit_square(t)));
    pw_grid_number(g, t->existing.glass_area, 6);
    pw_grid_number(g, t->insert.glass_area, 6);
    pw_grid_number(g, t->glass_kept, 6);
    pw_grid_number(g, t->retained_area, 6);
    pw_grid_number(g, t->clear_existing.area, 6);
    pw_grid_number(g, t->clear_insert.area, 6);
    pw_grid_cell(g, "%s",
                 o->use != PW_USE_BEDROOM                       ? ""
                 : pw_caution_escape_fails(r->cautions, (int)i) ? "FAILS"
                                                                : "passes");
    pw_grid_cell(g, "%s", pw_caution_safety_glass(r->cautions, (int)i) ? "yes" : "no");
    pw_grid_cell(g, "%zu", t->n_finding);
    pw_grid_cell(g, "%s", r->check[i].may_order ? "yes" : "no");
    pw_order_why(&r->check[i], why, sizeof why);
    pw_grid_cell(g, "%s", why);
    remedy_cell(g, r, i);
    pw_opening_columns_cells(more, r->job, i, t, g);
  }
}

pw_status pw_fit_csv(const pw_fit_report r[], size_t n, FILE *f, pw_err *err)
{
  static const char *const usual[] = {"tag",
                                      "room",
                                      "quantity",
                                      "operator",
                                      "opening_area_m2",
                                      "pocket_width_m",
                                      "pocket_height_m",
                                      "order_width_m",
                                      "order_height_m",
                                      "order_width_in",
                                      "order_height_in",
                                      "lean_m",
                                      "square",
                                      "glass_existing_m2",
                                      "glass_insert_m2",
                                      "glass_kept",
                                      "retained_area_m2",
                                      "clear_existing_m2",
                                      "clear_insert_m2",
                                      "escape",
                                      "safety_glass",
                                      "findings",
                                      "may_order",
                                      "why",
                                      "escape_remedies"};
  enum { USUAL = sizeof usual / sizeof usual[0] };
  const char *header[USUAL + PW_OPENING_COLUMNS];
  memcpy(header, usual, sizeof usual);
  pw_opening_columns more = {0};
  for (size_t d = 0; d < n; d++)
    pw_opening_columns_add(&more, r[d].job);
  pw_grid *g =
      pw_grid_new(USUAL + pw_opening_columns_headers(&more, r[0].job, header + USUAL), header);
  for (size_t d = 0; d < n; d++)
    csv_rows(&r[d], &more, g);
  pw_status status = pw_grid_print(g, f, PW_CSV, err);
  pw_grid_free(g);
  return status;
}
