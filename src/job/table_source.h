/* The source text of the reference tables, compiled in packed; for a person to read, not for a kernel. */
#ifndef JOB_TABLE_SOURCE_H
#define JOB_TABLE_SOURCE_H

#include <stddef.h>

#include "job/csv.h"

typedef struct pw_table_source {
  const char *name; /* path below reference/ without ".csv" */
  size_t size, packed;
  const unsigned char *data; /* zlib, packed bytes */
} pw_table_source;

extern const pw_table_source pw_table_sources[]; /* in the order of their names */
extern const size_t pw_table_source_count;

/* Unpacks one table and reads it.
 *
 * Status    PW_OK; PW_E_MISSING no table of that name (offers the nearest); PW_E_NOMEM; PW_E_DATA the
 *           packed text is damaged. On failure *csv is zeroed.
 */
pw_status pw_table_source_read(const char *name, pw_csv *csv, pw_err *err);

#endif
