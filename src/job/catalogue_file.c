#include "job/catalogue_file.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "glass/optics.h"
#include "glass/same.h"
#include "job/words.h"
#include "panewright/glazing.h"
#include "panewright/units.h"

typedef enum part { PANE = 0, COATING, GAP, SPACER, FRAME_LINE } part;

typedef struct row {
  int part;
  char name[PW_NAME_MAX], thickness[24], gas[64], place[8], note[PW_TEXT_MAX];
  double pocket;
  pw_given per_area, per_opening, per_length;
} row;

enum { NAME = 1, THICKNESS, GAS, PLACE, POCKET, COLUMNS = 10 };

static const pw_unit_word money[] = {{"$", 1, 0}};
static const pw_unit_word per_area[] = {{"$/ft2", 1.0 / PW_FOOT2, 0}, {"$/m2", 1, 0}};
static const pw_unit_word per_length[] = {{"$/ft", 1.0 / PW_FOOT, 0}, {"$/m", 1, 0}};
static const job_word parts[] = {{"pane", PANE},
                                 {"coating", COATING},
                                 {"gap", GAP},
                                 {"spacer", SPACER},
                                 {"frame_line", FRAME_LINE}};
static const job_word places[] = {{"gap", 0}, {"any", 1}};

#define AT(member) .offset = offsetof(row, member)
#define TEXT(column, member)                                                                   \
  {                                                                                            \
    .name = column, .kind = JOB_TEXT, AT(member), .size = sizeof((row *)0)->member,            \
    .blank = ""                                                                                \
  }
#define PRICE(column, member, units)                                                           \
  {                                                                                            \
    .name = column, .kind = JOB_GIVEN, AT(member), .high = 1e5, .blank = "", .unit = units,    \
    .n_unit = JOB_COUNT(units)                                                                 \
  }

static const job_field field[COLUMNS] = {
    {.name = "part", .kind = JOB_WORD, AT(part), .word = parts, .n_word = JOB_COUNT(parts)},
    TEXT("name", name),
    TEXT("thickness", thickness),
    TEXT("gas", gas),
    {.name = "place",
     .kind = JOB_CHOICE,
     AT(place),
     .size = sizeof((row *)0)->place,
     .word = places,
     .n_word = JOB_COUNT(places),
     .blank = "gap"},
    {.name = "pocket",
     .kind = JOB_LENGTH,
     AT(pocket),
     .low = 0.1 * PW_INCH,
     .high = 6.0 * PW_INCH,
     .blank = ""},
    PRICE("price_per_area", per_area, per_area),
    PRICE("price_per_opening", per_opening, money),
    PRICE("price_per_length", per_length, per_length),
    TEXT("note", note)};

static pw_status refuse(const pw_csv *csv, size_t r, const int index[], int column,
                        const char *why, pw_err *err)
{
  return pw_fail_at(err, PW_E_DATA, csv->name, csv->line[r + 1], index[column] + 1,
                    "%s: %.280s", field[column].name, why);
}

/* A pane or a gap is read as a piece of a build-up, so that a catalogue speaks as a job does. */
static pw_status read_piece(const row *w, const pw_csv *csv, size_t r, const int index[],
                            pw_buildup *b, pw_err *err)
{
  char text[192];
  pw_err why = {0};
  if (w->part == PANE)
    snprintf(text, sizeof text, "%s %s", w->thickness, w->name);
  else
    snprintf(text, sizeof text, "3mm clear / %s %s / 3mm clear", w->thickness, w->gas);
  if (pw_buildup_parse(text, b, &why) == PW_OK && b->n_pane == (w->part == PANE ? 1u : 2u))
    return PW_OK;
  snprintf(text, sizeof text, "'%s %s': %.100s", w->thickness,
           w->part == PANE ? w->name : w->gas, why.text[0] ? why.text : "one part a row");
  return refuse(csv, r, index, w->part == PANE ? NAME : GAS, text, err);
}

static double price(const pw_given *g) { return isfinite(g->value) ? g->value : 0.0; }

static int same_text(const char *a, const char *b) { return strcmp(a, b) == 0; }

static pw_status full(const pw_csv *csv, size_t r, const int index[], int most, pw_err *err)
{
  char text[64];
  snprintf(text, sizeof text, "at most %d rows of this part", most);
  return refuse(csv, r, index, 0, text, err);
}

static pw_status add_glass(const row *w, const pw_csv *csv, size_t r, const int index[],
                           pw_rank_catalogue *c, pw_err *err)
{
  pw_buildup b;
  pw_status status = read_piece(w, csv, r, index, &b, err);
  if (status != PW_OK) return status;
  if (w->part == GAP) {
    if (c->n_gap == PW_RANK_GAPS) return full(csv, r, index, PW_RANK_GAPS, err);
    for (size_t i = 0; i < c->n_gap; i++)
      if (gap_same(&c->gap[i].gap, &b.gap[0]))
        return refuse(csv, r, index, GAS, "this gap stands already above", err);
    c->gap[c->n_gap].gap = b.gap[0];
    c->gap[c->n_gap++].per_area = price(&w->per_area);
    return PW_OK;
  }
  if (c->n_pane == PW_RANK_PANES) return full(csv, r, index, PW_RANK_PANES, err);
  if (b.pane[0].coating[0][0] || b.pane[0].coating[1][0])
    return refuse(csv, r, index, NAME, "coatings have rows of their own", err);
  for (size_t i = 0; i < c->n_pane; i++)
    if (same_text(c->pane[i].pane.kind, b.pane[0].kind) &&
        c->pane[i].pane.thickness == b.pane[0].thickness)
      return refuse(csv, r, index, NAME, "this pane stands already above", err);
  c->pane[c->n_pane].pane = b.pane[0];
  c->pane[c->n_pane++].per_area = price(&w->per_area);
  return PW_OK;
}

static pw_status add_coating(const row *w, const pw_csv *csv, size_t r, const int index[],
                             pw_rank_catalogue *c, pw_err *err)
{
  size_t n = 0;
  char text[96];
  const char *const *known = pw_coating_names(&n);
  size_t k = 0;
  while (k < n && !same_text(known[k], w->name))
    k++;
  snprintf(text, sizeof text, "'%.40s' is no coating", w->name);
  if (k == n) return refuse(csv, r, index, NAME, text, err);
  if (c->n_coating == PW_RANK_COATINGS) return full(csv, r, index, PW_RANK_COATINGS, err);
  for (size_t i = 0; i < c->n_coating; i++)
    if (same_text(c->coating[i].name, w->name))
      return refuse(csv, r, index, NAME, "this coating stands already above", err);
  memcpy(c->coating[c->n_coating].name, w->name, sizeof w->name);
  c->coating[c->n_coating].outside = same_text(w->place, "any");
  c->coating[c->n_coating++].per_area = price(&w->per_area);
  return PW_OK;
}

static pw_status add_frame(const row *w, const pw_csv *csv, size_t r, const int index[],
                           pw_rank_catalogue *c, pw_err *err)
{
  if (w->part == SPACER) {
    const char *near = NULL;
    int kind = job_word_find(job_spacer_word, job_spacer_words, w->name, &near);
    if (kind < 0)
      return refuse(csv, r, index, NAME, "want metal, stainless or insulating", err);
    for (size_t i = 0; i < c->n_spacer; i++)
      if ((int)c->spacer[i].spacer == kind)
        return refuse(csv, r, index, NAME, "this spacer stands already above", err);
    c->spacer[c->n_spacer].spacer = (pw_spacer)kind;
    c->spacer[c->n_spacer++].per_length = price(&w->per_length);
    return PW_OK;
  }
  if (c->n_line == PW_RANK_LINES) return full(csv, r, index, PW_RANK_LINES, err);
  if (!(w->pocket > 0.0))
    return refuse(csv, r, index, POCKET, "a frame line needs the thickest unit it takes", err);
  for (size_t i = 0; i < c->n_line; i++)
    if (same_text(c->line[i].name, w->name))
      return refuse(csv, r, index, NAME, "this frame line stands already above", err);
  memcpy(c->line[c->n_line].name, w->name, sizeof w->name);
  c->line[c->n_line].pocket = w->pocket;
  c->line[c->n_line].per_opening = price(&w->per_opening);
  c->line[c->n_line++].per_area = price(&w->per_area);
  return PW_OK;
}

static pw_status fill(const pw_csv *csv, pw_rank_catalogue *c, pw_notes *notes, pw_err *err)
{
  int index[COLUMNS];
  pw_status status = job_fields_bind(field, COLUMNS, csv, index, notes, err);
  for (size_t r = 0; status == PW_OK && r < csv->n_row; r++) {
    row w = {.part = -1};
    status = job_row_read(field, COLUMNS, csv, r, index, "", &w, notes, err);
    if (status != PW_OK) break;
    switch ((part)w.part) {
    case PANE:
    case GAP:
      status = add_glass(&w, csv, r, index, c, err);
      break;
    case COATING:
      status = add_coating(&w, csv, r, index, c, err);
      break;
    case SPACER:
    case FRAME_LINE:
      status = add_frame(&w, csv, r, index, c, err);
    }
  }
  if (status == PW_OK && (c->n_pane == 0 || c->n_line == 0))
    status = pw_fail_at(err, PW_E_DATA, csv->name, csv->line[0], 0, "the catalogue has no %s",
                        c->n_pane == 0 ? "pane" : "frame_line");
  return status;
}

static pw_status take(pw_status status, pw_csv *csv, pw_rank_catalogue *catalogue,
                      pw_notes *notes, pw_err *err)
{
  pw_rank_catalogue c = {0};
  if (status != PW_OK) return status;
  status = fill(csv, &c, notes, err);
  pw_csv_free(csv);
  if (status == PW_OK) *catalogue = c;
  return status;
}

pw_status pw_catalogue_read(const char *path, pw_rank_catalogue *catalogue, pw_notes *notes,
                            pw_err *err)
{
  return pw_catalogue_parse(path, NULL, 0, catalogue, notes, err);
}

pw_status pw_catalogue_parse(const char *name, const char *text, size_t size,
                             pw_rank_catalogue *catalogue, pw_notes *notes, pw_err *err)
{
  pw_csv csv;
  return take(pw_csv_open(name, text, size, &csv, err), &csv, catalogue, notes, err);
}
