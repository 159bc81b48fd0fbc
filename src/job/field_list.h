/* Every column and item that the readers of a job folder know, out of the readers' own tables, and what each
 * means. */
#ifndef JOB_FIELD_LIST_H
#define JOB_FIELD_LIST_H

#include "job/field.h"

enum { JOB_FIELDS_MAX = 96, JOB_FILES = 7 };

/* A file of the folder: a column a field, or an item a row where items is 1. */
typedef struct job_field_list {
  const char *file;
  int items;
  size_t n;
  job_field field[JOB_FIELDS_MAX];
} job_field_list;

/* The files in the order in which one fills them in. */
void job_field_lists(job_field_list list[JOB_FILES]);

/* What a field means to the person who fills it in. */
typedef struct job_meaning {
  const char *name;
  const char *part; /* of the job, to show those of one part together */
  const char
      *says; /* one line, without the unit and the default, which the table of fields has */
  const char
      *words; /* of a text that takes some words only: "yes, no, cannot"; NULL: any text, or
                        the words of the field */
} job_meaning;

/* NULL: no such field. */
const job_meaning *job_meaning_of(const char *file, const char *name);

/* How many meanings stand for a file: as many as it has fields (tests/test_field_list.c). */
size_t job_meaning_count(const char *file);

/* The readers' tables; each returns how many fields it has. */
size_t job_house_fields(job_field f[]);
size_t job_openings_fields(job_field f[]);
size_t job_packages_fields(job_field f[]);
size_t job_labels_fields(job_field f[]);
size_t job_prices_fields(job_field f[]);
size_t job_firm_fields(job_field f[]);
size_t job_bills_fields(job_field f[]);

#endif
