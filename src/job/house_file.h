/* A whole house in one CSV file: parts, layers, windows, set points, each value marked as read or
 * from memory. For the cases of examples/std140, and for a house of the user's own.
 *
 * Columns: item, of, value, how_known, note. `of` names the part, window, pane, glass or material an
 * item belongs to, or the hours of the day ("23-7") of a set point; blank for the house and for all
 * hours. A row `base,,600` takes everything from that file first; later rows replace. Layers read
 * outdoors to indoors, as in "siding 9 mm / quilt 66 mm / plasterboard 12 mm". examples/std140/600.csv
 * uses every kind of row but the shades.
 */
#ifndef JOB_HOUSE_FILE_H
#define JOB_HOUSE_FILE_H

#include "panewright/year.h"

enum { PW_HOUSE_GLASSES = 8 };

typedef struct pw_house_file {
  char name[96];
  pw_house house;
  size_t n_window, n_glass;
  pw_house_window window[PW_WINDOWS_MAX]; /* glazing points into this struct: do not copy it */
  char window_name[PW_WINDOWS_MAX][32];
  pw_glazing glass[PW_HOUSE_GLASSES];
  char glass_name[PW_HOUSE_GLASSES][32];
  size_t n_read, n_memory; /* values marked read (or computed), and from memory */
} pw_house_file;

/* Status    PW_OK; PW_E_MISSING; PW_E_DATA with file, line, what was found and what is accepted */
pw_status pw_house_file_read(const char *path, pw_house_file *file, pw_err *err);

/* A compiled-in one, such as "std140/600" of examples/. */
pw_status pw_house_file_builtin(const char *name, pw_house_file *file, pw_err *err);

/* From memory; name is for messages. Bases are looked for among the compiled-in ones. */
pw_status pw_house_file_parse(const char *name, const char *text, size_t size,
                              pw_house_file *file, pw_err *err);

#endif
