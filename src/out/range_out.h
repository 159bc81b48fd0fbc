/* Ranges on a terminal, as JSON and as a picture; the words that go with a claim. */
#ifndef OUT_RANGE_OUT_H
#define OUT_RANGE_OUT_H

#include <jansson.h>
#include <stdio.h>

#include "out/figure.h"
#include "out/message_text.h"
#include "out/plot.h"
#include "out/units.h"
#include "study/range.h"
#include "study/rebate.h"

/* Tables: figures by package at 10, 50, 90 %, and what drives the saving of each. */
pw_status pw_range_text(const pw_compare *compare, const pw_range *range,
                        const pw_unit_set *units, FILE *f, pw_err *err);

/* Three cells of money, to the nearest $5. */
void pw_band_dollars(pw_grid *grid, const pw_band *band);

/* {p10, p50, p90} (new reference). */
json_t *pw_band_json(const pw_band *band);

/* Adds "range" and "sensitivity" to the object of package p. */
void pw_range_json(const pw_range *range, size_t p, json_t *package);

/* Adds "range" (cost_year, u_w_m2k) to the object of the existing windows. */
void pw_range_existing_json(const pw_range *range, json_t *existing);

/* The range before and with the house's own bills; nothing when there are none. */
pw_status pw_range_bills_text(const pw_compare *compare, const pw_range *range, FILE *f,
                              pw_err *err);
/* The same with the one bill of a year that the job gives. */
pw_status pw_range_bill_year_text(const pw_compare *compare, const pw_range *range, FILE *f,
                                  pw_err *err);
/* what: range->bills or range->bill_year */
json_t *pw_range_bills_json(const pw_range *range, const pw_range_conditioned *what);

/* How the draws were made: {draws, seed, reduced, ...}. */
json_t *pw_range_run_json(const pw_range *range);

/* What drives the saving of package p, ranked bars; to be freed. */
pw_plot *pw_range_picture(const pw_compare *compare, const pw_range *range, size_t p);

/* Cash of the packages over the years: sum of outlay and savings, discounted. */
pw_plot *pw_cash_picture(const pw_compare *compare);

/* The chain of a figure for every package: formula, numbers, and each input with its source and its
 * spread. range may be NULL; with one the band is printed, too. PW_E_DATA unknown figure (the nearest
 * is offered). */
pw_status pw_explain_text(const pw_compare *compare, const pw_weather *weather,
                          const pw_range *range, const char *figure, const pw_unit_set *units,
                          FILE *f, pw_err *err);

/* What a program pays for each package, line by line. */
/* What a program says of a package, in one line. */
const char *pw_program_said(const pw_tongue *tongue, const pw_program_result *result,
                            char text[PW_MESSAGE_TEXT]);

void pw_rebate_text(const pw_compare *compare, const pw_rebate rebate[], FILE *f);
json_t *pw_rebate_json(const pw_rebate *rebate);

/* What package p saves, typically, in one sentence of at most 400 bytes, in the tongue (NULL: English). range may be
 * NULL. */
void pw_claim_said(const pw_compare *compare, const pw_range *range, const pw_tongue *tongue,
                   size_t p, char text[], size_t size);

/* What may be said of the savings: typical, heating and cooling, beside the existing windows and
 * beside new ones of the code; where the range holds zero, where a payback outlives the window, what
 * the tax credit is. range may be NULL. */
void pw_claims_text(const pw_compare *compare, const pw_range *range, FILE *f);

#endif
