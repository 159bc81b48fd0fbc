#include "job/order_file.h"

#include <stdio.h>
#include <string.h>

#include "base/date.h"
#include "job/measure.h"
#include "job/number.h"

/* Of each column: its name, whether it must be there, what a list without it means. */
static const struct {
  const char *name, *without;
  int required;
} known[PW_ORDER_KNOWN] = {
    [PW_ORDER_TAG] = {"tag", "", 1},
    [PW_ORDER_QUANTITY] = {"quantity", "", 1},
    [PW_ORDER_OPERATOR] = {"operator", "", 1},
    [PW_ORDER_WIDTH] = {"width_in", "", 1},
    [PW_ORDER_HEIGHT] = {"height_in", "", 1},
    [PW_ORDER_GLASS] = {"glass", "", 1},
    [PW_ORDER_TEMPERED] = {"tempered", "", 1},
    [PW_ORDER_MAY] = {"may_order", "", 1},
    [PW_ORDER_ROOM] = {"room", "", 0},
    [PW_ORDER_HANDING] = {"handing_from_outside", "", 0},
    [PW_ORDER_BASIS] = {"size_basis", "", 0},
    [PW_ORDER_SPACER] = {"spacer", "", 0},
    [PW_ORDER_LINE] = {"frame_line", "", 0},
    [PW_ORDER_PACKAGE] = {"package", "", 0},
    [PW_ORDER_PATTERN] = {"pattern", "none", 0},
    [PW_ORDER_TINT] = {"tint", "none", 0},
    [PW_ORDER_GRILLES] = {"grilles", "none", 0},
    [PW_ORDER_GRILLE_PATTERN] = {"grille_pattern", "", 0},
    [PW_ORDER_GRILLE_BAR] = {"grille_bar_in", "", 0},
    [PW_ORDER_SCREEN] = {"screen", "no", 0},
    [PW_ORDER_PET_PANEL] = {"pet_panel", "no", 0},
    [PW_ORDER_COLOUR] = {"colour", "", 0},
    [PW_ORDER_HINGE] = {"hinge", "", 0},
    [PW_ORDER_MAKER_NOTE] = {"maker_note", "", 0},
    [PW_ORDER_SHAPE] = {"shape", "rectangle", 0},
    [PW_ORDER_RISE] = {"rise_in", "", 0},
    [PW_ORDER_LEG_LEFT] = {"leg_left_in", "", 0},
    [PW_ORDER_LEG_RIGHT] = {"leg_right_in", "", 0},
    [PW_ORDER_PEAK] = {"peak_at_in", "", 0},
    [PW_ORDER_RADIUS] = {"radius_in", "", 0},
    [PW_ORDER_TEMPLATE] = {"template", "no", 0},
    [PW_ORDER_UNIT] = {"unit", "", 0},
    [PW_ORDER_UNIT_JOINT] = {"unit_joint", "", 0},
    [PW_ORDER_MULLION] = {"mullion_face_in", "", 0},
    [PW_ORDER_TUBES] = {"open_tubes", "", 0},
    [PW_ORDER_PRESSURE] = {"design_pressure_psf", "", 0},
    [PW_ORDER_ALTITUDE] = {"altitude_ft", "", 0},
    [PW_ORDER_PLANT] = {"plant_altitude_ft", "", 0},
    [PW_ORDER_LABEL_U] = {"label_u_btu_h_ft2_f", "", 0},
    [PW_ORDER_LABEL_SHGC] = {"label_shgc", "", 0},
    [PW_ORDER_CERTIFICATE] = {"certificate", "", 0},
    [PW_ORDER_DWELLING] = {"dwelling", "", 0},
    [PW_ORDER_PRINTED] = {"printed", "", 0},
    [PW_ORDER_FILES] = {"files", "", 0},
};

/* Other columns of a list, which say the same again or nothing that is built by. */
static const char *const other[] = {
    "width_mm", "height_mm",   "why",       "remarks",     "install_note",  "action",
    "phase",    "own_package", "own_glass", "conditioned", "tempered_asked"};
enum { OTHER = sizeof other / sizeof other[0] };

const char *pw_order_at(const pw_order_file *o, size_t row, pw_order_column c)
{
  if (o->column[c] < 0) return known[c].without;
  const char *text = pw_csv_at(&o->csv, row, o->column[c]);
  /* what a spreadsheet would have run as a formula was written with an apostrophe before it */
  return text[0] == '\'' && text[1] && strchr("=+-@", text[1]) ? text + 1 : text;
}

int pw_order_row(const pw_order_file *o, const char *dwelling, const char *tag)
{
  for (size_t r = 0; r < o->csv.n_row; r++)
    if (strcmp(pw_order_at(o, r, PW_ORDER_TAG), tag) == 0 &&
        strcmp(pw_order_at(o, r, PW_ORDER_DWELLING), dwelling) == 0)
      return (int)r;
  return -1;
}

static pw_status refuse(const pw_order_file *o, size_t r, pw_order_column c, const char *want,
                        pw_err *err)
{
  return pw_fail_at(err, PW_E_DATA, o->csv.name, o->csv.line[r + 1],
                    o->column[c] < 0 ? 1 : o->column[c] + 1, "%s: found '%.40s', want %s",
                    known[c].name, pw_order_at(o, r, c), want);
}

static int is_one_of(const char *text, const char *a, const char *b)
{
  return strcmp(text, a) == 0 || strcmp(text, b) == 0;
}

static pw_status check_row(pw_order_file *o, size_t r, pw_err *err)
{
  static const pw_order_column size[] = {PW_ORDER_WIDTH, PW_ORDER_HEIGHT};
  static const pw_unit_word plain[] = {{"", 1.0, 0.0}};
  const char *tag = pw_order_at(o, r, PW_ORDER_TAG);
  pw_given count;
  double length;
  pw_date day;
  if (!tag[0]) return refuse(o, r, PW_ORDER_TAG, "a tag in every row", err);
  int first = pw_order_row(o, pw_order_at(o, r, PW_ORDER_DWELLING), tag);
  if (first < (int)r)
    return pw_fail_at(
        err, PW_E_DATA, o->csv.name, o->csv.line[r + 1], o->column[PW_ORDER_TAG] + 1,
        "the tag '%.40s' stands twice (first in line %d)", tag, o->csv.line[first + 1]);
  if (pw_number_read(pw_order_at(o, r, PW_ORDER_QUANTITY), plain, 1, 1.0, 999.0, &count, NULL,
                     NULL) != PW_OK ||
      count.value != (double)(int)count.value || count.spread > 0.0)
    return refuse(o, r, PW_ORDER_QUANTITY, "a whole number from 1 to 999", err);
  for (size_t k = 0; k < 2; k++)
    if (pw_measure_read(pw_order_at(o, r, size[k]), &length, NULL) != PW_OK || !(length > 0.0))
      return refuse(o, r, size[k], "a length as the tape reads, such as 35 1/2", err);
  if (!is_one_of(pw_order_at(o, r, PW_ORDER_TEMPERED), "YES", "no"))
    return refuse(o, r, PW_ORDER_TEMPERED, "YES or no", err);
  if (!is_one_of(pw_order_at(o, r, PW_ORDER_MAY), "yes", "no"))
    return refuse(o, r, PW_ORDER_MAY, "yes or no", err);
  if (pw_date_read(pw_order_at(o, r, PW_ORDER_PRINTED), &day, NULL) != PW_OK)
    return refuse(o, r, PW_ORDER_PRINTED, "a day as 2026-11-29", err);
  const char *files = pw_order_at(o, r, PW_ORDER_FILES);
  if (o->column[PW_ORDER_FILES] >= 0 &&
      (strlen(files) != PW_VERSION_MAX - 1 || files[strspn(files, "0123456789abcdef")]))
    return refuse(o, r, PW_ORDER_FILES, "the eight digits of the state of the files", err);
  if (strcmp(files, pw_order_at(o, 0, PW_ORDER_FILES)) != 0)
    return refuse(o, r, PW_ORDER_FILES, "one state of the files in all rows", err);
  return PW_OK;
}

static pw_status take(pw_order_file *o, pw_err *err)
{
  pw_csv_column column[PW_ORDER_KNOWN + OTHER];
  int index[PW_ORDER_KNOWN + OTHER];
  pw_notes notes = {0};
  for (size_t c = 0; c < PW_ORDER_KNOWN; c++)
    column[c] = (pw_csv_column){known[c].name, known[c].required};
  for (size_t c = 0; c < OTHER; c++)
    column[PW_ORDER_KNOWN + c] = (pw_csv_column){other[c], 0};
  o->csv.is_order = 1;
  pw_status status = pw_csv_bind(&o->csv, column, PW_ORDER_KNOWN + OTHER, index, &notes, err);
  pw_notes_free(&notes);
  if (status == PW_OK) memcpy(o->column, index, sizeof o->column);
  for (size_t r = 0; status == PW_OK && r < o->csv.n_row; r++)
    status = check_row(o, r, err);
  if (status == PW_OK && o->csv.n_row > 0) {
    snprintf(o->printed, sizeof o->printed, "%s", pw_order_at(o, 0, PW_ORDER_PRINTED));
    snprintf(o->files, sizeof o->files, "%s", pw_order_at(o, 0, PW_ORDER_FILES));
  }
  if (status != PW_OK) pw_order_free(o);
  return status;
}

pw_status pw_order_read(const char *path, pw_order_file *order, pw_err *err)
{
  return pw_order_parse(path, NULL, 0, order, err);
}

pw_status pw_order_parse(const char *name, const char *text, size_t size, pw_order_file *order,
                         pw_err *err)
{
  *order = (pw_order_file){0};
  pw_status status = pw_csv_open(name, text, size, &order->csv, err);
  return status == PW_OK ? take(order, err) : status;
}

void pw_order_free(pw_order_file *order)
{
  pw_csv_free(&order->csv);
  *order = (pw_order_file){0};
}
