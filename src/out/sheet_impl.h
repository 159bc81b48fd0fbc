/* What the parts of the sheet share. */
#ifndef OUT_SHEET_IMPL_H
#define OUT_SHEET_IMPL_H

#include "out/html.h"
#include "out/result.h"
#include "out/sheet.h"

/* How a set of windows, by number as pw_compare_set_of, is called in a heading: our words, or a package's name. */
void sheet_set_name(const pw_sheet *sheet, pw_html *h, int set);

/* A word of a file as a customer reads it: without underscores. */
void sheet_plain(const char *text, char plain[], size_t size);

/* Where a figure comes from, in plain words. */
const char *sheet_origin(pw_origin origin);

/* Where the JSON holds a set: "house.packages.2". */
void sheet_set_key(int set, char key[32]);

void sheet_window_key(int set, size_t opening, char key[48]);

/* A figure of the set, of a window in it: put, or as words for a sentence. */
const char *sheet_say(const pw_sheet *sheet, const pw_html *h, pw_figure_words *words,
                      pw_result result, int set);
const char *sheet_window_say(const pw_sheet *sheet, const pw_html *h, pw_figure_words *words,
                             pw_window_result result, int set, size_t opening);
void sheet_value(const pw_sheet *sheet, pw_html *h, pw_result result, int set);

/* Figures with a range. */

/* Likely, low and high of a package's figure, or the value and the words that its range was not
 * computed. */
void sheet_band(const pw_sheet *sheet, pw_html *h, pw_result result, size_t package);

/* A row of a table of sets with the low and high of the existing windows and of each package; nothing
 * without a range. code: 1 where the table has a column of the code, which has none. */
void sheet_band_row(const pw_sheet *sheet, pw_html *h, pw_result result, int code);

/* The band itself of a set (not the code's), NULL when there is no range. */
const pw_band *sheet_band_of(const pw_sheet *sheet, pw_result result, int set);

/* Whether the likely payback is longer than the window is expected to live. */
int sheet_pays_late(const pw_sheet *sheet, size_t package);

/* The table of saving, code, price and payback by package (page 1). */
void sheet_money_table(const pw_sheet *sheet, pw_html *h);
int sheet_is_priced(const pw_sheet *sheet); /* any package has a price */

/* Until when prices hold, where the firm says for how many days. */
void sheet_validity(const pw_sheet *sheet, pw_html *h);

/* A heading a package. */
void sheet_package_heads(const pw_sheet *sheet, pw_html *h);

/* Head of a table of sets and a row of it, with another note than the figure's own (NULL: its own); the best package of a
 * row is marked. */
void sheet_measure_head(const pw_sheet *sheet, pw_html *h, const char *corner);
void sheet_measure_row(const pw_sheet *sheet, pw_html *h, pw_result result, const char *note);

/* A picture with its text (PW_TEXT) and caption (said); id is unlike every other in the document. The plot is freed. */
pw_status sheet_figure(pw_html *h, pw_plot *plot, int width, int height, const char *id,
                       const char *alt, const char *caption, pw_err *err);

/* Windows that stay, come later, have a package of their own; prices and savings by phase. Nothing where
 * there are none. */
void sheet_facts(const pw_sheet *sheet, pw_html *h);
void sheet_phases(const pw_sheet *sheet, pw_html *h);

/* What opened windows do before and after. Nothing where they stay shut. */
void sheet_airing(const pw_sheet *sheet, pw_html *h);

/* What tighter windows save, and its cautions. Nothing where it is not told. */
void sheet_tight(const pw_sheet *sheet, pw_html *h);

/* Whether savings are held to what the house pays: a sum of a year, or bills that weigh the draws. */
int sheet_held_to_bill(const pw_sheet *sheet);

/* What the house's own bills did to the range. Nothing without both. */
void sheet_bills(const pw_sheet *sheet, pw_html *h);
/* The same of the one bill of a year that the job gives; whether it fits the house is a remark of the year. */
void sheet_bill_year(const pw_sheet *sheet, pw_html *h);

/* What the money was figured with, beside the claim it belongs to. */
void sheet_assumptions(const pw_sheet *sheet, pw_html *h);

/* The packages by their build-up. */
void sheet_packages(const pw_sheet *sheet, pw_html *h);

/* What is taken for granted, a list. */
void sheet_granted(const pw_sheet *sheet, pw_html *h);

/* Which windows first. */
pw_status sheet_first(const pw_sheet *sheet, pw_html *h, pw_err *err);

/* The four parts. */
pw_status sheet_answer(const pw_sheet *sheet, pw_html *h, pw_err *err);
pw_status sheet_openings(const pw_sheet *sheet, pw_html *h, pw_err *err);
pw_status sheet_year(const pw_sheet *sheet, pw_html *h, pw_err *err);
pw_status sheet_basis(const pw_sheet *sheet, pw_html *h, pw_err *err);

#endif
