#include "job/batch_rows.h"

#include <csv.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "base/windows1252.h"
#include "job/batch_store.h"
#include "job/words.h"
#include "panewright/glazing.h"
#include "panewright/lites.h"
#include "panewright/units.h"
#include "window/frame_line.h"

enum { COLUMNS_MAX = 32, LINES_MAX = 40, CELLS_MAX = PW_CSV_COLUMNS_MAX };

static const char file_name[] = "row"; /* what messages call the input */

struct pw_batch_reader {
  job_field field[COLUMNS_MAX];
  int index[COLUMNS_MAX];
  size_t n_field, n_line;
  pw_frame_line line[LINES_MAX];
  batch_places *places;
  pw_batch_energy energy;
  int lanes;
};

/* The record of a row. */
typedef struct row {
  pw_opening o;
  pw_package p;
  char place[64], insert[24];
} row;

struct pw_batch_hand {
  pw_batch_reader *reader;
  batch_glasses *glasses;
  pw_alone_desk *desk; /* by the detailed method only */
  struct csv_parser parser;
  char text[PW_BATCH_LINE_MAX + CELLS_MAX]; /* the cells, one after another, NUL ended */
  const char *cell[CELLS_MAX];
  size_t n_text, n_cell;
  int held;
  int too_many, windows1252; /* windows1252: the row read last was no UTF-8 text */
  row row;
};

#define AT(member) .offset = offsetof(row, member)
#define TEXT(column, member, default_) JOB_TEXT_AT(row, column, member, default_, NULL)
#define WORD(column, member, words, count, default_)                                           \
  JOB_WORD_AT(row, column, member, words, count, default_, NULL)
#define LENGTH(column, member, least, most, default_)                                          \
  {                                                                                            \
    .name = column, .kind = JOB_LENGTH, AT(member), .low = least, .high = most,                \
    .blank = default_                                                                          \
  }

enum { ID = 0, PLACE, EXISTING_GLASS = 11, GLASS = 19 };

static size_t columns(job_field f[])
{
  static const pw_unit_word share[] = {{"", 1.0, 0.0}, {"%", 0.01, 0.0}};
  static const job_word filling[] = {{"foam", 0}, {"air", 1}, {"none", 1}};
  const double small = 4.0 * PW_INCH, large = 20.0 * PW_FOOT, fin = 6.0 * PW_INCH;
  const job_field table[] = {
      TEXT("id", o.tag, NULL),
      TEXT("place", place, NULL),
      {.name = "facing", .kind = JOB_BEARING, AT(o.facing_deg)},
      WORD("operator", o.operator_existing, job_operator_word, job_operator_words, NULL),
      TEXT("operator_insert", insert, ""),
      LENGTH("width", o.width[1], small, large, NULL),
      LENGTH("height", o.height[1], small, large, NULL),
      WORD("existing_frame", o.existing_frame, job_frame_word, job_frame_words, "aluminium"),
      LENGTH("frame_face", o.frame_face, 0.0, 2.0 * small, ""),
      LENGTH("sash_face", o.sash_face, 0.0, 2.0 * small, ""),
      LENGTH("meeting_face", o.meeting_face, 0.0, 2.0 * small, ""),
      TEXT("existing_glass", o.existing_glass_text, "3mm clear"),
      LENGTH("fin_width", o.fin_width, 0.0, fin, "0"),
      {.name = "fins_cut", .kind = JOB_INTEGER, AT(o.fins_cut), .high = 2, .blank = "0"},
      LENGTH("sill_lip", o.sill_lip, 0.0, fin, "0"),
      {.name = "sill_lip_cut", .kind = JOB_FLAG, AT(o.sill_lip_cut), .blank = "no"},
      LENGTH("overhang_depth", o.overhang_depth, 0.0, large, "0"),
      LENGTH("overhang_gap", o.overhang_gap, 0.0, large, "0"),
      {.name = "screen", .kind = JOB_FLAG, AT(o.screen), .blank = "no"},
      TEXT("glass", p.glass_text, NULL),
      WORD("spacer", p.spacer, job_spacer_word, job_spacer_words, "metal"),
      TEXT("frame_line", p.frame_line, "vinyl"),
      {.name = "filling",
       .kind = JOB_CHOICE,
       AT(p.filling),
       .size = sizeof((row *)0)->p.filling,
       .word = filling,
       .n_word = JOB_COUNT(filling),
       .blank = "foam"},
      {.name = "shade_factor",
       .kind = JOB_NUMBER,
       AT(o.shade_factor),
       .high = 1.0,
       .unit = share,
       .n_unit = JOB_COUNT(share),
       .blank = "0"},
  };
  memcpy(f, table, sizeof table);
  return JOB_COUNT(table);
}

pw_status pw_batch_reader_new(const char *header, pw_batch_energy energy,
                              pw_batch_reader **reader, pw_notes *notes, pw_err *err)
{
  pw_csv csv;
  pw_status status = pw_csv_parse("header", header, strlen(header), &csv, err);
  if (status != PW_OK) return status;
  pw_batch_reader *r = calloc(1, sizeof *r);
  if (!r) status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for the batch");
  if (status == PW_OK) {
    r->energy = energy;
    r->n_field = columns(r->field);
    r->n_line = pw_frame_line_count();
    if (r->n_line > LINES_MAX) r->n_line = LINES_MAX;
    for (size_t i = 0; i < r->n_line; i++)
      pw_frame_line_builtin(i, &r->line[i]);
    status = job_fields_bind(r->field, r->n_field, &csv, r->index, notes, err);
  }
  if (status == PW_OK) {
    r->places = batch_places_new(energy == PW_BATCH_DETAILED ? PW_ALONE_DETAILED
                                 : energy == PW_BATCH_HOURLY ? PW_ALONE_HOURLY
                                                             : PW_ALONE_MONTHLY);
    if (!r->places) status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for the batch");
  }
  pw_csv_free(&csv);
  if (status == PW_OK)
    *reader = r;
  else
    pw_batch_reader_free(r);
  return status;
}

void pw_batch_reader_free(pw_batch_reader *reader)
{
  if (!reader) return;
  batch_places_free(reader->places);
  free(reader);
}

void pw_batch_reader_set_lanes(pw_batch_reader *reader, int lanes) { reader->lanes = lanes; }

pw_alone_desk *pw_batch_desk(const pw_batch_hand *hand) { return hand->desk; }

void pw_batch_hold(pw_batch_hand *hand, int held) { hand->held = held; }

pw_batch_hand *pw_batch_hand_new(pw_batch_reader *reader)
{
  pw_batch_hand *h = calloc(1, sizeof *h);
  if (!h) return NULL;
  h->reader = reader;
  h->glasses = batch_glasses_new();
  int detailed = reader->energy == PW_BATCH_DETAILED;
  if (detailed) h->desk = pw_alone_desk_new(reader->lanes);
  if (h->glasses && (h->desk || !detailed) &&
      csv_init(&h->parser, CSV_STRICT | CSV_STRICT_FINI) == 0)
    return h;
  batch_glasses_free(h->glasses);
  pw_alone_desk_free(h->desk);
  free(h);
  return NULL;
}

void pw_batch_hand_free(pw_batch_hand *hand)
{
  if (!hand) return;
  csv_free(&hand->parser);
  batch_glasses_free(hand->glasses);
  pw_alone_desk_free(hand->desk);
  free(hand);
}

int pw_batch_is_blank(const char *line, size_t size)
{
  size_t n = 0;
  while (n < size && (line[n] == ' ' || line[n] == '\t' || line[n] == '\r' || line[n] == ','))
    n++;
  return n == size || (line[0] == '#' && (size == 1 || line[1] == ' '));
}

static void take_cell(void *data, size_t size, void *context)
{
  pw_batch_hand *h = context;
  if (h->n_cell == CELLS_MAX || h->n_text + size + 1 > sizeof h->text) {
    h->too_many = 1;
    return;
  }
  char *to = h->text + h->n_text;
  if (size) memcpy(to, data, size);
  to[size] = '\0';
  h->cell[h->n_cell++] = to;
  h->n_text += size + 1;
}

static void end_row(int mark, void *context)
{
  (void)mark;
  (void)context;
}

/* A refusal at a column of the input (from 1; 0 unknown). */
static pw_status refuse(long number, int column, const char *text, pw_err *err)
{
  int line = number < 2147483647 ? (int)number : 2147483647;
  pw_fail(err, PW_E_DATA, NULL, "%s", text);
  if (err) {
    err->line = line;
    err->column = column;
  }
  return PW_E_DATA;
}

/* Most rows have plain letters only, and are told so at the speed of memory. */
static int has_high_byte(const char *line, size_t size)
{
  unsigned char all = 0;
  for (size_t i = 0; i < size; i++)
    all |= (unsigned char)line[i];
  return all >= 0x80;
}

/* A row that is no UTF-8 text, as windows-1252; NULL where it is not, or has bytes that page lacks (bad: which, size where
 * there was no memory). By itself: what a row
 * means does not hang on its neighbours. */
static char *from_windows1252(const char *line, size_t size, size_t *new_size, size_t *bad)
{
  *bad = 0;
  if (!has_high_byte(line, size) || !pw_csv_is_bytewise(line, size)) return NULL;
  return pw_windows1252_to_utf8(line, size, new_size, bad);
}

static pw_status split(pw_batch_hand *h, const char *line, size_t size, long number,
                       pw_err *err)
{
  h->n_cell = h->n_text = 0;
  h->too_many = h->windows1252 = 0;
  if (size > PW_BATCH_LINE_MAX)
    return refuse(number, 0, "a line of more than 16384 bytes", err);
  if (memchr(line, '\0', size)) return refuse(number, 0, "a zero byte", err);
  size_t bad_byte, as_read = size;
  char *utf8 = from_windows1252(line, as_read, &size, &bad_byte);
  if (!utf8 && bad_byte == as_read && as_read)
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the batch");
  h->windows1252 = utf8 != NULL;
  size_t done = csv_parse(&h->parser, utf8 ? utf8 : line, size, take_cell, end_row, h);
  int bad = done != size || csv_fini(&h->parser, take_cell, end_row, h) != 0;
  int lacks = bad && pw_csv_fault(&h->parser) == PW_E_NOMEM;
  free(utf8);
  if (bad) {
    csv_free(&h->parser);
    if (csv_init(&h->parser, CSV_STRICT | CSV_STRICT_FINI) != 0 || lacks)
      return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the batch");
    return refuse(number, 0, "a quote is not closed in its line, or stands inside a cell", err);
  }
  if (h->too_many) return refuse(number, 0, "more cells than a row can have", err);
  return PW_OK;
}

/* The plain reason, without the place that job_field_read puts before it. */
static pw_status read_cells(pw_batch_hand *h, long number, pw_err *err)
{
  const pw_batch_reader *r = h->reader;
  for (size_t i = 0; i < r->n_field; i++) {
    int at = r->index[i];
    const char *text = at >= 0 && (size_t)at < h->n_cell ? h->cell[at] : "";
    job_place place = {file_name, 0, at + 1, ""};
    pw_err why = {0};
    pw_status status = job_field_read(&r->field[i], text, &place, &h->row, NULL, &why);
    if (status == PW_OK) continue;
    const char *plain = strncmp(why.text, "row: ", 5) == 0 ? why.text + 5 : why.text;
    return refuse(number, at + 1, plain, err);
  }
  return PW_OK;
}

static pw_status at_field(const pw_batch_hand *h, long number, size_t field, const char *why,
                          pw_status code, pw_err *err)
{
  if (code == PW_E_NOMEM) return pw_fail(err, code, NULL, "%s", why); /* no fault of the row */
  char text[sizeof err->text];
  snprintf(text, sizeof text, "%s: %.300s", h->reader->field[field].name, why);
  return refuse(number, h->reader->index[field] + 1, text, err);
}

static pw_status finish(pw_batch_hand *h, long number, pw_batch_item *item, double *away_km,
                        pw_err *err)
{
  pw_batch_reader *r = h->reader;
  row *w = &h->row;
  pw_err why = {0};
  const char *near = NULL;
  enum { OPERATOR_INSERT = 4, FRAME_LINE = 21 };
  w->o.operator_insert = w->o.operator_existing;
  if (w->insert[0]) {
    int kind = job_word_find(job_operator_word, job_operator_words, w->insert, &near);
    if (kind < 0)
      return at_field(h, number, OPERATOR_INSERT, "no such operator", PW_E_DATA, err);
    w->o.operator_insert = (pw_operator)kind;
  }
  item->line = pw_frame_line_pick(r->line, r->n_line, w->p.frame_line, w->o.operator_insert);
  if (!item->line) return at_field(h, number, FRAME_LINE, "no such frame line", PW_E_DATA, err);
  pw_status status =
      batch_glass_of(h->glasses, w->o.existing_glass_text, &item->existing, &why);
  if (status != PW_OK) return at_field(h, number, EXISTING_GLASS, why.text, status, err);
  status = batch_glass_of(h->glasses, w->p.glass_text, &item->insert, &why);
  if (status != PW_OK) return at_field(h, number, GLASS, why.text, status, err);
  status = batch_place_of(r->places, h->glasses, w->place, &item->place, away_km, &why);
  if (status != PW_OK) return at_field(h, number, PLACE, why.text, status, err);
  item->opening = &w->o;
  item->package = &w->p;
  item->desk = h->desk;
  item->without_energy = r->energy == PW_BATCH_NO_ENERGY;
  return PW_OK;
}

int pw_batch_was_windows1252(const pw_batch_hand *hand) { return hand->windows1252; }

pw_status pw_batch_read(pw_batch_hand *h, const char *line, size_t size, long number,
                        pw_batch_item *item, const char **id, double *away_km, pw_err *err)
{
  *id = "";
  if (!h->held) batch_glasses_tidy(h->glasses);
  while (size && (line[size - 1] == '\r' || line[size - 1] == '\n'))
    size--;
  pw_status status = split(h, line, size, number, err);
  if (status != PW_OK) return status;
  memset(&h->row, 0, sizeof h->row);
  pw_opening *o = &h->row.o;
  pw_opening_init(o);
  pw_package_init(&h->row.p);
  int at = h->reader->index[ID];
  if ((size_t)at < h->n_cell) {
    pw_text_clean(h->text + (h->cell[at] - h->text)); /* it goes into the results */
    *id = h->cell[at];
  }
  status = read_cells(h, number, err);
  return status == PW_OK ? finish(h, number, item, away_km, err) : status;
}
