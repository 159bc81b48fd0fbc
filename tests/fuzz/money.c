/* Bills, usage feeds, tariffs, programs. */
#include <math.h>
#include <stdlib.h>

#include "fuzz.h"
#include "job/program_file.h"
#include "job/tariff_file.h"
#include "job/usage_feed.h"
#include "meter/meter_use.h"

/* What was read goes on into the regression. */
static void use(pw_status status, pw_bills *bills, pw_notes *notes, const pw_err *err)
{
  fuzz_said(status, err);
  for (int f = 0; status == PW_OK && f < PW_FUEL_COUNT; f++) {
    pw_meter_use made;
    const pw_bills_fuel *b = &bills->fuel[f];
    if (b->n && pw_meter_use_of((pw_fuel)f, b->row, b->n, NULL, NULL, PW_BILL_NO_DAY, &made,
                                NULL) == PW_OK)
      pw_meter_use_free(&made);
  }
  pw_bills_free(bills);
  fuzz_notes(notes);
}

void fuzz_bills(const char *text, size_t size)
{
  pw_bills bills = {0};
  pw_notes notes = {0};
  pw_err err = {0};
  use(pw_bills_parse("fuzz.csv", text, size, &bills, &notes, &err), &bills, &notes, &err);
}

void fuzz_feed(const char *text, size_t size)
{
  static const pw_feed_options options[] = {
      {NAN, NULL, 0}, {-7.0, NULL, 1}, {NAN, "therm", 0}, {-5.0, "kWh", 2}};
  pw_bills bills = {0};
  pw_notes notes = {0};
  pw_err err = {0};
  pw_feed_fits(text, size);
  use(pw_feed_parse("fuzz.xml", text, size, &options[size % 4], &bills, &notes, &err), &bills,
      &notes, &err);
}

void fuzz_tariff(const char *text, size_t size)
{
  pw_tariff_file tariff;
  pw_notes notes = {0};
  pw_err err = {0};
  fuzz_said(pw_tariff_parse("fuzz.csv", text, size, &tariff, &notes, &err), &err);
  fuzz_notes(&notes);
}

void fuzz_program(const char *text, size_t size)
{
  static const pw_label label = {1.5, 0.3, 0.5, 0.001};
  static const pw_claim claim = {10.0, 14.0, 9000.0, 5000.0, 0.0};
  pw_program program;
  pw_program_result result;
  pw_amount amount;
  pw_notes notes = {0};
  pw_err err = {0};
  pw_status status = pw_program_parse("fuzz.csv", text, size, &program, &notes, &err);
  fuzz_said(status, &err);
  if (status == PW_OK) {
    const char *zone = pw_program_zone(&program, 0);
    if (!zone) zone = "";
    if (pw_program_judge(&program, zone, &label, 20260601, &result, &err) == PW_OK)
      pw_program_amount(&program, zone, 20260601, &result, &claim, &amount, &err);
    pw_program_free(&program);
  }
  fuzz_notes(&notes);
}
