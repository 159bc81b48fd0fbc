/* Many houses together: what each gave, kept as lines of JSON, and the street printed from such lines alone, so that a
 * run, a resumed run and one joined of parts print the same. */
#ifndef OUT_STREET_OUT_H
#define OUT_STREET_OUT_H

#include <jansson.h>
#include <stdio.h>

#include "job/notes.h"
#include "out/batch_out.h"
#include "out/result.h"
#include "study/range.h"

/* What every house of a street has in common. */
typedef struct pw_street_run {
  const char *version; /* of the program */
  size_t n_draw;
  uint64_t seed;
  int full;
} pw_street_run;

/* One house, ready to be told. */
typedef struct pw_street_told {
  const char *name;          /* of the job, as listed */
  const char *files;         /* job/version of its folder */
  const pw_message *climate; /* job/climate_of_job.h */
  const pw_compare *compare;
  const pw_range *range;
  const pw_street_house *draws;
  const pw_notes *notes; /* of its readers: columns that none knows are told */
  int package;           /* of a street of one package: its number in this job; -1: all */
} pw_street_told;

/* The first line of a file of records: what a part must agree in to be joined. */
void pw_street_head(pw_lines *lines, const pw_street_run *run);

/* Its last line, once every job of the list has its answer. */
#define PW_STREET_END "{\"end\":true}\n"

/* A house: a line of its figures, a line of its draws. */
void pw_street_record(pw_lines *lines, const pw_street_told *house);

/* A job that could not be taken: err's text with file, line, column. */
void pw_street_reject(pw_lines *lines, const char *name, const char *files, const pw_err *err);

/* Records of one or several files, by the names of their houses. */
typedef struct pw_street pw_street;

/* Given     file[n] open for reading, and their names for messages; borrowed; whole  1: refuse a run without its end
 * Returned  *street, to be freed; a house that stands there twice with the same figures counts once
 * Status    PW_OK; PW_E_DATA no records, cut, of another version or other options, a house with two answers; PW_E_NOMEM
 */
pw_status pw_street_open(FILE *const file[], const char *const name[], size_t n, int whole,
                         pw_street **street, pw_err *err);
void pw_street_free(pw_street *street);

size_t pw_street_houses(const pw_street *street);
size_t pw_street_rejects(const pw_street *street);

/* Calls visit with each record (the object of its line) in the order of names; a return other than PW_OK ends it.
 * draws: the object of the draws, NULL for a reject. */
pw_status pw_street_each(const pw_street *street,
                         pw_status (*visit)(void *context, json_t *record, json_t *draws,
                                            pw_err *err),
                         void *context, pw_err *err);

/* Of an object in a record: a text ("" none); of a set of windows a figure (NAN none) and its range. */
const char *pw_street_word(const json_t *object, const char *key);
double pw_street_value(const json_t *set, pw_result result);
pw_band pw_street_band(const json_t *set, pw_result result);

/* What the houses come to together, one a package by its name. */
enum { PW_STREET_PACKAGES_MAX = 64, PW_STREET_SUMS = 1 + PW_STREET_FIGURES };
typedef struct pw_street_package {
  char name[64];
  double price; /* $, of the houses that have one */
  size_t n_price;
  double saving;                     /* $ a year, of the comparisons */
  pw_street_sum sum[PW_STREET_SUMS]; /* bill of the windows there now, then pw_street_figure */
  pw_band band[PW_STREET_SUMS];
} pw_street_package;

typedef struct pw_street_total {
  size_t n_package;
  pw_street_package package[PW_STREET_PACKAGES_MAX];
} pw_street_total;

/* *total is to be freed, also on failure. Status PW_OK; PW_E_DATA too many names of packages; PW_E_NOMEM. */
pw_status pw_street_total_of(const pw_street *street, pw_street_total *total, pw_err *err);
void pw_street_total_free(pw_street_total *total);

/* Whether the saving of all together may be claimed. */
int pw_street_claimed(const pw_street_package *package);

/* The street as text, rows of CSV, JSON. PW_E_IO when writing fails. */
pw_status pw_street_text(const pw_street *street, const pw_street_total *total,
                         const pw_unit_set *units, FILE *f, pw_err *err);
pw_status pw_street_csv(const pw_street *street, const pw_street_total *total, FILE *f,
                        pw_err *err);
pw_status pw_street_json(const pw_street *street, const pw_street_total *total, FILE *f,
                         pw_err *err);

/* What each house saves by a package, and all together; package NULL: the one of most houses.
 * Status as pw_plot_write; PW_E_DATA no house has it. */
pw_status pw_street_picture(const pw_street *street, const pw_street_total *total,
                            const char *package, const char *path, pw_err *err);

/* What the records say of the run: {"draws", "seed", ...}; borrowed. */
const json_t *pw_street_about(const pw_street *street);

#endif
