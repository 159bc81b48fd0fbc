/* What a house's bills say: text, CSV, JSON, picture; and any bills as rows of bills.csv. */
#ifndef OUT_BILLS_OUT_H
#define OUT_BILLS_OUT_H

#include <jansson.h>
#include <stdio.h>

#include "job/bills_file.h"
#include "meter/meter_use.h"
#include "out/units.h"

enum { PW_BILL_TEXT = 320 };

typedef struct pw_bills_report {
  const pw_bills *bills;
  pw_meter_use use[PW_FUEL_COUNT]; /* of fuels that have bills */
  int has_weather;
  char weather[120]; /* what it is, for print */
  char normal[160];  /* whose normal year; "" none */
  const pw_notes *notes;
} pw_bills_report;

pw_status pw_bills_text(const pw_bills_report *r, const pw_unit_set *units, FILE *f,
                        pw_err *err);
pw_status pw_bills_csv(const pw_bills_report *r, FILE *f, pw_err *err);
pw_status pw_bills_json(const pw_bills_report *r, FILE *f, pw_err *err);

/* One picture for the fuel whose normal year is the larger in kWh, or the one asked for. */
pw_status pw_bills_picture(const pw_bills_report *r, const pw_unit_set *units, pw_fuel fuel,
                           const char *path, pw_err *err);

/* What is odd in the bills, a line each, and as a JSON array; part: which bills they are, a key of each, or NULL. */
void pw_bill_findings_text(const pw_meter_use *use, const char *unit, FILE *f);
json_t *pw_bill_findings_json(const pw_meter_use *use, const char *unit, const char *part);

/* The bills as rows of bills.csv. */
pw_status pw_bills_list(const pw_bills *bills, FILE *f, pw_err *err);

/* bills_said.c: words. */
const char *pw_bill_finding_word(pw_bill_finding_kind kind);
void pw_bill_finding_say(const pw_bill_finding *finding, const char *unit,
                         char text[PW_BILL_TEXT]);
/* "" when they are not refused. */
void pw_bill_refusal_say(const pw_bills_report *r, pw_fuel fuel, char text[PW_BILL_TEXT]);
void pw_bill_day(int day, char text[11]);

#endif
