#include "job/curve_file.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "job/csv.h"

enum { BAND, R_DB, N_COLUMN };
static const pw_csv_column column[N_COLUMN] = {{"band_hz", 1}, {"r_db", 1}};

/* Octaves that a file may hold beside the thirds; those above 5000 Hz are no third of ours. */
static const double octave_hz[] = {63.0, 125.0, 250.0, 500.0, 1000.0, 2000.0, 4000.0, 8000.0};
enum { N_OCTAVE = sizeof octave_hz / sizeof octave_hz[0] };

static int octave_of(double hz)
{
  for (int i = 0; i < N_OCTAVE; i++)
    if (hz == octave_hz[i]) return i;
  return -1;
}

static pw_status refuse(const pw_csv *csv, const int index[], size_t row, int which,
                        const char *want, pw_err *err)
{
  return pw_fail_at(err, PW_E_DATA, csv->name, csv->line[row + 1], index[which] + 1,
                    "%s: found '%.40s', want %s", column[which].name,
                    pw_csv_at(csv, row, index[which]), want);
}

/* A plain number, or NAN for a blank cell; 0 when it is neither. */
static int number(const char *text, double *v)
{
  char *end = NULL;
  *v = (double)NAN;
  if (!text[0]) return 1;
  if (strspn(text, "0123456789+-.eE") != strlen(text)) return 0;
  *v = strtod(text, &end);
  return end != text && !*end && isfinite(*v);
}

static pw_status rows(const pw_csv *csv, const int index[], pw_curve *c,
                      double octave[N_OCTAVE], int *thirds, pw_err *err)
{
  int seen_third[PW_THIRDS] = {0}, seen_octave[N_OCTAVE] = {0};
  for (size_t i = 0; i < csv->n_row; i++) {
    double hz, r;
    if (!number(pw_csv_at(csv, i, index[BAND]), &hz) || isnan(hz))
      return refuse(csv, index, i, BAND, "a band in Hz", err);
    int third = pw_third_of(hz), o = octave_of(hz);
    if (third < 0 && o < 0)
      return refuse(csv, index, i, BAND,
                    "the nominal centre of a third octave, 50, 63, 80, 100 ... 5000", err);
    if (third >= 0 ? seen_third[third]++ : seen_octave[o]++)
      return refuse(csv, index, i, BAND, "each band once", err);
    if (!number(pw_csv_at(csv, i, index[R_DB]), &r) || r < -50.0 || r > 150.0)
      return refuse(csv, index, i, R_DB, "a sound reduction of -50 to 150 dB, or a blank", err);
    if (third >= 0) c->thirds.db[third] = r;
    if (o >= 0) octave[o] = r;
    if (!isnan(r) && o < 0) *thirds = 1;
  }
  return PW_OK;
}

static pw_status from_csv(const pw_csv *csv, pw_notes *notes, pw_curve *curve, pw_err *err)
{
  int index[N_COLUMN], thirds = 0, known = 0;
  double octave[N_OCTAVE];
  pw_curve c = {.octaves = 0};
  for (int i = 0; i < PW_THIRDS; i++)
    c.thirds.db[i] = (double)NAN;
  for (int i = 0; i < N_OCTAVE; i++)
    octave[i] = (double)NAN;
  pw_status s = pw_csv_bind(csv, column, N_COLUMN, index, notes, err);
  if (s == PW_OK) s = rows(csv, index, &c, octave, &thirds, err);
  if (s != PW_OK) return s;
  for (int i = 0; i < PW_THIRDS; i++)
    known += !isnan(c.thirds.db[i]);
  if (!known) return pw_fail(err, PW_E_DATA, "curve", "%s: no band has a value", csv->name);
  if (!thirds && known >= 4) {
    c.octaves = 1;
    for (int i = 0; i < PW_OCTAVES; i++)
      c.octave[i] = octave[i + 1];
    for (int i = 0; i < PW_THIRDS; i++)
      c.thirds.db[i] = (double)NAN;
  }
  *curve = c;
  return PW_OK;
}

pw_status pw_curve_file_parse(const char *name, const char *text, size_t size, pw_notes *notes,
                              pw_curve *curve, pw_err *err)
{
  pw_csv csv;
  pw_status s = pw_csv_open(name, text, size, &csv, err);
  if (s != PW_OK) return s;
  s = from_csv(&csv, notes, curve, err);
  pw_csv_free(&csv);
  return s;
}

pw_status pw_curve_file_read(const char *path, pw_notes *notes, pw_curve *curve, pw_err *err)
{
  return pw_curve_file_parse(path, NULL, 0, notes, curve, err);
}
