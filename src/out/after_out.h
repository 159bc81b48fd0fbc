/* What `after` says of houses whose windows were done: text, CSV, JSON, picture; of several the firm's own record. */
#ifndef OUT_AFTER_OUT_H
#define OUT_AFTER_OUT_H

#include <stdio.h>

#include "job/after_of_job.h"
#include "out/units.h"

/* Promised beside measured, over the meters that have both. */
typedef struct pw_after_record {
  size_t n_house, n_meter; /* houses; meters with bills */
  size_t n; /* of them those with a promise and a saving that the bills can tell */
  size_t n_inside;
  size_t n_refused, n_unpromised;
  double promised_kwh, measured_kwh; /* sums over the n */
  double ratio; /* measured over promised, of the sums; NAN when they promise 0 */
  double bias,
      bias_se; /* mean of measured less promised, over the promised, of those that are not 0, and its standard error */
} pw_after_record;

void pw_after_record_of(const pw_after_house house[], size_t n, pw_after_record *record);

/* A promised figure in the meter's unit: 10, 50, 90 %. */
void pw_after_promise(const pw_after_house *house, pw_fuel fuel, double unit[3]);

enum { PW_AFTER_TEXT = 400 };
/* Why a meter tells nothing; "" when it does. */
void pw_after_refusal_say(const pw_after_house *house, pw_fuel fuel, char text[PW_AFTER_TEXT]);

/* inside, below, below_unsure, above, above_unsure. */
const char *pw_after_verdict_word(pw_after_verdict verdict);
pw_after_verdict pw_after_verdict_of(const pw_after_house *house, pw_fuel fuel);

pw_status pw_after_text(const pw_after_house house[], size_t n, FILE *f, pw_err *err);
/* How each figure was made, with its numbers. */
pw_status pw_after_explain(const pw_after_house house[], size_t n, FILE *f, pw_err *err);
pw_status pw_after_csv(const pw_after_house house[], size_t n, FILE *f, pw_err *err);
pw_status pw_after_json(const pw_after_house house[], size_t n, FILE *f, pw_err *err);

/* Of one house: bills before and after, the model of before, promised beside measured; of several promised beside
 * measured. Status as pw_plot_write; PW_E_DATA nothing to draw. */
pw_status pw_after_picture(const pw_after_house house[], size_t n, const char *path,
                           pw_err *err);

#endif
