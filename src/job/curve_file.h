/* A measured sound reduction, CSV with the columns band_hz and r_db. */
#ifndef JOB_CURVE_FILE_H
#define JOB_CURVE_FILE_H

#include "job/notes.h"
#include "panewright/status.h"
#include "sound/thirds.h"

enum { PW_OCTAVES = 5 }; /* 125 to 2000 Hz */

typedef struct pw_curve {
  pw_thirds thirds;          /* NAN where the file has no row; all NAN when it is of octaves */
  int octaves;               /* 1: octave bands */
  double octave[PW_OCTAVES]; /* 125 to 2000 Hz */
} pw_curve;

/* Reads a curve. Rows of third octaves, 50 to 5000 Hz nominal, or of octaves, 63 to 8000 Hz; any order,
 * each band once, a blank r_db is a band that was not measured.
 *
 * Status    PW_OK; PW_E_MISSING, PW_E_IO, PW_E_NOMEM as pw_csv_read; PW_E_DATA with the place: no such
 *           band, a band twice, a value outside -50 to 150 dB, no row.
 * Notes     Bands spaced as octaves (125, 250, 500 ... only, at least four) make it one of octaves.
 */
pw_status pw_curve_file_read(const char *path, pw_notes *notes, pw_curve *curve, pw_err *err);

/* The same from memory; name is what messages call it. */
pw_status pw_curve_file_parse(const char *name, const char *text, size_t size, pw_notes *notes,
                              pw_curve *curve, pw_err *err);

#endif
