#include "job/section_file.h"

#include <csv.h>
#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/nearest.h"
#include "job/csv.h"
#include "job/input_text.h"

enum { X0, Y0, X1, Y1, MATERIAL, CONDUCTIVITY, EMISSIVITY, NOTE, N_KNOWN };
static const char *const known[N_KNOWN] = {
    "x0", "y0", "x1", "y1", "material", "conductivity_w_mk", "emissivity", "note"};
enum { FIELDS_MAX = 32, TEXT_MAX = 128 };

typedef struct reader {
  const char *name;
  pw_section *section;
  pw_err *err;
  pw_status status;
  int line;
  int header;         /* 1 once read */
  int place[N_KNOWN]; /* field index of a known column, -1 none */
  int n_field;        /* of this row so far */
  char text[FIELDS_MAX][TEXT_MAX];
} reader;

static void take_field(void *bytes, size_t size, void *context)
{
  reader *r = context;
  if (r->n_field < FIELDS_MAX) {
    size_t n = size < TEXT_MAX - 1 ? size : TEXT_MAX - 1;
    if (n) memcpy(r->text[r->n_field], bytes, n);
    r->text[r->n_field][n] = '\0';
  }
  r->n_field++;
}

static pw_status take_header(reader *r)
{
  for (int k = 0; k < N_KNOWN; k++)
    r->place[k] = -1;
  for (int f = 0; f < r->n_field && f < FIELDS_MAX; f++) {
    int k = 0;
    while (k < N_KNOWN && strcmp(r->text[f], known[k]) != 0)
      k++;
    if (k < N_KNOWN) {
      if (r->place[k] >= 0)
        return pw_fail_at(r->err, PW_E_DATA, r->name, r->line, f + 1, "column %s twice",
                          known[k]);
      r->place[k] = f;
      continue;
    }
    const char *near = pw_nearest(r->text[f], known, N_KNOWN);
    if (near)
      return pw_fail_at(r->err, PW_E_DATA, r->name, r->line, f + 1,
                        "no column '%s'; did you mean %s?", r->text[f], near);
  }
  for (int k = X0; k <= MATERIAL; k++)
    if (r->place[k] < 0)
      return pw_fail_at(r->err, PW_E_DATA, r->name, r->line, 0,
                        "no column '%s'; want x0,y0,x1,y1,material and, if wanted, "
                        "conductivity_w_mk, emissivity, note",
                        known[k]);
  return PW_OK;
}

static const char *cell(const reader *r, int k)
{
  int f = r->place[k];
  return f >= 0 && f < r->n_field && f < FIELDS_MAX ? r->text[f] : "";
}

/* A number, NAN for an empty cell. */
static pw_status number(reader *r, int k, double *v)
{
  const char *text = cell(r, k);
  char *end = NULL;
  *v = NAN;
  if (text[0] == '\0') return PW_OK;
  *v = strtod(text, &end);
  if (*end != '\0' || !isfinite(*v))
    return pw_fail_at(r->err, PW_E_DATA, r->name, r->line, r->place[k] + 1,
                      "%s '%s', want a number%s", known[k], text, k <= Y1 ? " in mm" : "");
  return PW_OK;
}

static pw_status take_sight_line(reader *r, double x0, double y0)
{
  if (!isnan(r->section->sight_line))
    return pw_fail_at(r->err, PW_E_DATA, r->name, r->line, 0,
                      "a second sight line; the first is "
                      "in line %d",
                      r->section->sight_line_line);
  double at = isnan(y0) ? x0 : y0;
  if (isnan(at))
    return pw_fail_at(r->err, PW_E_DATA, r->name, r->line, r->place[Y0] + 1,
                      "a sight line needs its y0 in mm");
  r->section->sight_line = 1e-3 * at;
  r->section->sight_line_line = r->line;
  return PW_OK;
}

static pw_status take_rectangle(reader *r)
{
  double v[N_KNOWN];
  for (int k = 0; k < NOTE; k++) {
    if (k == MATERIAL) continue;
    pw_status status = number(r, k, &v[k]);
    if (status != PW_OK) return status;
  }
  if (strcmp(cell(r, MATERIAL), "sightline") == 0) return take_sight_line(r, v[X0], v[Y0]);
  for (int k = X0; k <= Y1; k++)
    if (isnan(v[k]))
      return pw_fail_at(r->err, PW_E_DATA, r->name, r->line, r->place[k] + 1,
                        "%s is missing, want a number in mm", known[k]);
  pw_err why = {0};
  pw_status status =
      pw_section_add(r->section, 1e-3 * v[X0], 1e-3 * v[Y0], 1e-3 * v[X1], 1e-3 * v[Y1],
                     cell(r, MATERIAL), v[CONDUCTIVITY], v[EMISSIVITY], r->line, &why);
  if (status == PW_OK) return status;
  if (status == PW_E_NOMEM) return pw_fail(r->err, status, NULL, "%s", why.text);
  int column = 0;
  for (int k = 0; why.field && k < N_KNOWN; k++)
    if (strcmp(why.field, known[k]) == 0) column = r->place[k] + 1;
  return pw_fail_at(r->err, PW_E_DATA, r->name, r->line, column, "%s", why.text);
}

static void take_row(int end, void *context)
{
  reader *r = context;
  (void)end;
  if (r->status == PW_OK && r->n_field > 0 && !(r->n_field == 1 && r->text[0][0] == '\0')) {
    if (r->n_field > FIELDS_MAX) {
      r->status = pw_fail_at(r->err, PW_E_DATA, r->name, r->line, FIELDS_MAX,
                             "%d cells in a row, want at most %d", r->n_field, FIELDS_MAX);
    } else if (!r->header) {
      r->status = take_header(r);
      r->header = 1;
    } else {
      r->status = take_rectangle(r);
    }
  }
  r->n_field = 0;
}

/* A slip of unit shows in the size of what is drawn: frames are some 20 to 500 mm. */
static pw_status check_size(const reader *r)
{
  double x0 = INFINITY, x1 = -INFINITY, y0 = INFINITY, y1 = -INFINITY;
  const pw_section *s = r->section;
  for (size_t i = 0; i < s->n_part; i++) {
    pw_zone zone = s->material[s->part[i].material].zone;
    if (zone != PW_ZONE_SOLID && zone != PW_ZONE_HOLLOW && zone != PW_ZONE_HOLLOW_VENTED)
      continue;
    x0 = fmin(x0, s->part[i].x0);
    x1 = fmax(x1, s->part[i].x1);
    y0 = fmin(y0, s->part[i].y0);
    y1 = fmax(y1, s->part[i].y1);
  }
  if (!(x1 > x0)) return PW_OK; /* air alone: said later */
  double mm = 1e3 * fmax(x1 - x0, y1 - y0);
  const char *unit = mm <= 2.0      ? "metres"
                     : mm < 30.0    ? "inches"
                     : mm > 10000.0 ? "micrometres"
                                    : NULL;
  if (!unit) return PW_OK;
  return pw_fail_at(r->err, PW_E_DATA, r->name, 0, 0,
                    "the section is %.4g mm at its longest: its coordinates look like %s, want "
                    "millimetres (--any-size takes them as they are)",
                    mm, unit);
}

static pw_status check(const reader *r)
{
  if (!r->header)
    return pw_fail_at(r->err, PW_E_DATA, r->name, r->line, 0,
                      "the file is empty; want a header x0,y0,x1,y1,material,note");
  if (r->section->n_part == 0)
    return pw_fail_at(r->err, PW_E_DATA, r->name, r->line, 0, "no rectangles below the header");
  pw_err why = {0};
  pw_status status = pw_section_check(r->section, &why);
  if (status == PW_OK) return status;
  if (status == PW_E_NOMEM) return pw_fail(r->err, status, NULL, "%s", why.text);
  return pw_fail_at(r->err, status, r->name, why.line, 0, "%s", why.text);
}

static pw_status refused_by(struct csv_parser *parser, const reader *r)
{
  return pw_fail_at(r->err, pw_csv_fault(parser), r->name, r->line, 0, "%s",
                    csv_strerror(csv_error(parser)));
}

static pw_status parse_lines(reader *r, const char *text, size_t size)
{
  struct csv_parser parser;
  if (csv_init(&parser, CSV_APPEND_NULL) != 0)
    return pw_fail(r->err, PW_E_NOMEM, NULL, "no memory for %s", r->name);
  csv_set_delim(&parser, ',');
  const char *at = text, *end = text + size;
  if (size >= 3 && memcmp(text, "\xef\xbb\xbf", 3) == 0) at += 3;
  while (at < end && r->status == PW_OK) {
    const char *stop = memchr(at, '\n', (size_t)(end - at));
    size_t n = (size_t)((stop ? stop + 1 : end) - at);
    r->line++;
    if (*at != '#') {
      if (csv_parse(&parser, at, n, take_field, take_row, r) != n)
        r->status = refused_by(&parser, r);
    }
    at += n;
  }
  if (r->status == PW_OK && csv_fini(&parser, take_field, take_row, r) != 0)
    r->status = refused_by(&parser, r);
  csv_free(&parser);
  return r->status;
}

pw_status pw_section_parse(const char *name, const char *text, size_t size, int any_size,
                           pw_section *section, pw_err *err)
{
  pw_section_init(section);
  reader *r = calloc(1, sizeof *r);
  if (!r) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %s", name);
  *r = (reader){.name = name, .section = section, .err = err};
  pw_status status = memchr(text, '\0', size)
                         ? pw_fail_at(err, PW_E_DATA, name, 0, 0, "this is no text file")
                         : parse_lines(r, text, size);
  if (status == PW_OK && section->n_part > 0 && !any_size) status = check_size(r);
  if (status == PW_OK) status = check(r);
  if (status != PW_OK) pw_section_free(section);
  free(r);
  return status;
}

pw_status pw_section_read(const char *path, int any_size, pw_section *section, pw_err *err)
{
  pw_section_init(section);
  char *text = NULL;
  size_t size = 0;
  pw_status status = pw_input_read(path, PW_INPUT_SECTION, &text, &size, err);
  if (status == PW_OK) status = pw_section_parse(path, text, size, any_size, section, err);
  free(text);
  return status;
}
