/* What a comparison with its range promises, as rows of promise.csv. */
#ifndef OUT_PROMISE_OUT_H
#define OUT_PROMISE_OUT_H

#include <stdio.h>

#include "job/promise_file.h"
#include "study/range.h"

/* A promise is of one house: its comparison and the range of it. */
typedef struct pw_promised {
  const pw_compare *compare;
  const pw_range *range;
} pw_promised;

enum { PW_PROMISE_ROWS = 32 }; /* of one house at most */

/* Rows of one house. Returns how many. */
size_t pw_promise_rows(const pw_promised *promised, pw_date date, const char *version,
                       pw_promise_row row[PW_PROMISE_ROWS]);

/* Writes rows to a CSV, led by the header where header is 1. */
pw_status pw_promise_write(const pw_promise_row row[], size_t n, int header, FILE *f,
                           pw_err *err);

/* Whether two rows read alike in the file, the day aside. */
int pw_promise_same(const pw_promise_row *a, const pw_promise_row *b);

#endif
