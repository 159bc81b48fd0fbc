/* The order list: what the maker needs and what the buyer must see before he sends it. */
#include <math.h>
#include <string.h>

#include "base/tape.h"
#include "out/fit_out.h"
#include "out/grid.h"
#include "out/message_text.h"
#include "out/opening_columns.h"
#include "out/safe_file.h"
#include "out/text_stream.h"
#include "panewright/units.h"
#include "window/opening_label.h"
#include "window/opening_package.h"

enum { REMARKS = 1000 };

static void append(char text[REMARKS], const char *more)
{
  size_t n = strlen(text);
  if (more[0]) snprintf(text + n, REMARKS - n, "%s%s", n ? "; " : "", more);
}

const char *pw_spacer_name(pw_spacer spacer)
{
  static const char *const name[PW_SPACER_COUNT] = {PW_TEXT("metal"), PW_TEXT("stainless"),
                                                    PW_TEXT("insulating")};
  return (unsigned)spacer < PW_SPACER_COUNT ? name[spacer] : "";
}

int pw_order_tempered(const pw_fit_report *r, size_t i)
{
  return pw_caution_safety_glass(r->cautions, (int)i) || r->job->opening[i].option.tempered;
}

/* Which side it opens to, as seen from outside: "left", "XO", "ask hinge side"; "" nothing to say. */
static const char *pw_order_handing(const pw_opening *o)
{
  if (o->option.hinge != PW_HINGE_ASK) return pw_hinge_name(o->option.hinge);
  if (o->operator_insert == PW_FIXED || o->operator_insert == PW_AWNING ||
      o->operator_insert == PW_HOPPER)
    return "";
  if (o->operator_insert == PW_HINGED_DOOR) return "ask hinge side and swing";
  if (o->operator_insert == PW_CASEMENT) return "ask hinge side";
  return o->config[0] ? o->config : "ask";
}

static void remarks(const pw_fit_report *r, const pw_package *package, size_t i, int to_maker,
                    char text[REMARKS])
{
  const pw_opening *o = &r->job->opening[i];
  const pw_fit *fit = &r->fit[i];
  char one[PW_MESSAGE_TEXT];
  text[0] = '\0';
  if (pw_caution_escape_open(r->cautions, (int)i))
    append(text, "ESCAPE OPENING FAILS: do not order before the building official has agreed");
  else if (pw_caution_escape_fails(r->cautions, (int)i)) {
    append(text, "escape opening falls short as computed; the official's word:");
    append(text, o->official_word);
  }
  if (fit->square >= PW_SQUARE_REMEASURE)
    append(text, "OUT OF SQUARE: measure again before ordering");
  for (size_t k = 0; k < fit->n_finding; k++)
    if (fit->finding[k].kind >= PW_FINDING_SPREAD)
      append(text, pw_message_text(NULL, &fit->finding[k].says, one, sizeof one));
  if (o->shape != PW_SHAPE_RECTANGLE) {
    char shape[240];
    pw_shape_words(NULL, fit, 0, shape, sizeof shape);
    append(text, shape);
  }
  if (o->unit[0]) {
    char unit[240];
    pw_unit_words(NULL, r->job, i, 0, unit, sizeof unit);
    append(text, unit);
  }
  if (fit->lean_governs) append(text, "width set by the lean of the pocket");
  if (pw_option_opens_view(o, package))
    append(text, "the old glass cannot be seen through, this one can: ask, or give a pattern");
  if (package->open_tubes) append(text, "open tubes");
  if (!to_maker) append(text, o->note);
}

void pw_order_why(const pw_order_check *check, char text[], size_t size)
{
  size_t n = 0;
  char one[PW_MESSAGE_TEXT];
  text[0] = '\0';
  for (size_t k = 0; k < check->n; k++) {
    pw_message_text(NULL, check->why[k], one, sizeof one);
    if (n + strlen(one) + 3 > size) return; /* whole reasons only */
    n += (size_t)snprintf(text + n, size - n, "%s%s", n ? "; " : "", one);
  }
}

static void install_note(const pw_install *p, char text[REMARKS])
{
  char one[PW_MESSAGE_TEXT];
  size_t n = 0;
  text[0] = '\0';
  for (size_t k = 0; k < p->n_line; k++) {
    pw_message_text(NULL, &p->line[k], one, sizeof one);
    if (n + strlen(one) + 2 < REMARKS)
      n += (size_t)snprintf(text + n, REMARKS - n, "%s%s", n ? " " : "", one);
  }
}

enum { MAKER_COLUMNS = 9 };

static pw_grid *order_head(const pw_job *job, const pw_opening_columns *more, int to_maker)
{
  static const char *const of_maker[MAKER_COLUMNS] = {"label_u_btu_h_ft2_f",
                                                      "label_shgc",
                                                      "certificate",
                                                      "open_tubes",
                                                      "design_pressure_psf",
                                                      "altitude_ft",
                                                      "plant_altitude_ft",
                                                      "printed",
                                                      "files"};
  static const char *const usual[] = {
      "tag",       "room",      "quantity",   "operator",    "handing_from_outside",
      "width_in",  "height_in", "width_mm",   "height_mm",   "size_basis",
      "glass",     "spacer",    "frame_line", "tempered",    "package",
      "may_order", "why",       "remarks",    "install_note"};
  enum { USUAL = sizeof usual / sizeof usual[0] };
  const char *header[USUAL + PW_OPENING_COLUMNS + MAKER_COLUMNS];
  memcpy(header, usual, sizeof usual);
  size_t n = to_maker ? USUAL - 1 : USUAL; /* install_note is the last */
  n += pw_opening_columns_headers(more, job, header + n);
  if (to_maker) {
    memcpy(header + n, of_maker, sizeof of_maker);
    n += MAKER_COLUMNS;
  }
  return pw_grid_new(n, header);
}

/* A value of the job in so many of a unit, to a tenth; "" when it is not known. */
static void known_cell(pw_grid *g, double v, double unit)
{
  if (isfinite(v))
    pw_grid_cell(g, "%.5g", round(10.0 * v / unit) / 10.0);
  else
    pw_grid_cell(g, "%s", "");
}

static void label_cell(pw_grid *g, double v)
{
  if (isfinite(v))
    pw_grid_number(g, v, 2);
  else
    pw_grid_cell(g, "%s", "");
}

static pw_status maker_cells(const pw_fit_report *r, size_t i, const pw_package *package,
                             const pw_order_maker *maker, pw_grid *g, pw_err *err)
{
  const pw_job *job = r->job;
  pw_label_row label;
  char date[11];
  pw_status status = pw_opening_label(job, r->column, &job->opening[i], &label, err);
  if (status != PW_OK) return status;
  label_cell(g, label.u.value / PW_U_IP);
  label_cell(g, label.shgc.value);
  pw_grid_cell(g, "%s", label.certificate);
  pw_date_write(maker->date, date);
  pw_grid_cell(g, "%s", package->open_tubes ? "yes" : "no");
  known_cell(g, job->house.wind_pressure, PW_PSF);
  known_cell(g, job->house.elevation.value, PW_FOOT);
  known_cell(g, job->house.plant_elevation.value, PW_FOOT);
  pw_grid_cell(g, "%s", date);
  pw_grid_cell(g, "%s", maker->version);
  return PW_OK;
}

static pw_status order_rows(const pw_fit_report *r, const pw_opening_columns *more,
                            const pw_order_maker *maker, pw_grid *g, pw_err *err)
{
  pw_status status = PW_OK;
  for (size_t i = 0; status == PW_OK && i < r->job->n_opening; i++) {
    const pw_opening *o = &r->job->opening[i];
    char w[32], h[32], text[REMARKS], why[PW_ORDER_WHY], glass[PW_TEXT_MAX];
    pw_package package;
    if (o->standing != PW_REPLACED) continue; /* it stays, or has been replaced */
    pw_opening_package(r->job, r->column, o, &package);
    pw_option_glass(&o->option, &package, glass, sizeof glass);
    pw_tape_text(r->fit[i].order_width, 8, w, sizeof w);
    pw_tape_text(r->fit[i].order_height, 8, h, sizeof h);
    pw_grid_cell(g, "%s", o->tag);
    pw_grid_cell(g, "%s", o->room);
    pw_grid_cell(g, "%d", o->quantity);
    pw_grid_cell(g, "%s", pw_operator_name(o->operator_insert));
    pw_grid_cell(g, "%s", pw_order_handing(o));
    pw_grid_cell(g, "%s", w);
    pw_grid_cell(g, "%s", h);
    pw_grid_number(g, r->fit[i].order_width * 1e3, 1);
    pw_grid_number(g, r->fit[i].order_height * 1e3, 1);
    pw_grid_cell(g, "tip to tip, clearance taken off");
    pw_grid_cell(g, "%s", glass);
    pw_grid_cell(g, "%s", pw_spacer_name(package.spacer));
    pw_grid_cell(g, "%s", package.frame_line);
    pw_grid_cell(g, "%s", pw_order_tempered(r, i) ? "YES" : "no");
    pw_grid_cell(g, "%s", package.name);
    pw_grid_cell(g, "%s", r->check[i].may_order ? "yes" : "no");
    pw_order_why(&r->check[i], why, sizeof why);
    pw_grid_cell(g, "%s", why);
    remarks(r, &package, i, maker != NULL, text);
    pw_grid_cell(g, "%s", text);
    if (!maker) {
      install_note(&r->install[i], text);
      pw_grid_cell(g, "%s", text);
    }
    pw_opening_columns_cells(more, r->job, i, &r->fit[i], g);
    if (maker) status = maker_cells(r, i, &package, maker, g, err);
  }
  return status;
}

pw_status pw_order_text(const pw_fit_report r[], size_t n, const pw_order_maker *maker,
                        char **text, size_t *size, pw_err *err)
{
  *text = NULL;
  *size = 0;
  pw_text_stream s;
  if (!pw_text_stream_open(&s))
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the order list");
  pw_opening_columns more = {0};
  for (size_t d = 0; d < n; d++)
    pw_opening_columns_add(&more, r[d].job);
  pw_grid *g = order_head(r[0].job, &more, maker != NULL);
  pw_status status = PW_OK;
  for (size_t d = 0; status == PW_OK && d < n; d++)
    status = order_rows(&r[d], &more, maker, g, err);
  if (status == PW_OK) status = pw_grid_print(g, s.f, PW_CSV, err);
  pw_grid_free(g);
  if (!pw_text_stream_close(&s) && status == PW_OK)
    status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for the order list");
  if (status != PW_OK) {
    free(s.text);
    return status;
  }
  *text = s.text;
  *size = s.size;
  return PW_OK;
}

pw_status pw_order_write(const pw_fit_report r[], size_t n, const char *path, pw_err *err)
{
  char *text;
  size_t size;
  pw_status status = pw_order_text(r, n, NULL, &text, &size, err);
  if (status == PW_OK) status = pw_safe_put(path, text, size, err);
  free(text);
  return status;
}
