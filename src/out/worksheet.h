/* The rebate worksheet: what a program's form asks for, field by field, each with where its value
 * may come from. A value that only the certified label may give is taken from the label or left
 * blank, never computed.
 *
 * Source    reference/trade/rebate_form.md
 */
#ifndef OUT_WORKSHEET_H
#define OUT_WORKSHEET_H

#include <stdio.h>

#include "money/program.h"
#include "out/figure.h"
#include "out/paper.h"
#include "study/compare.h"

/* Who gives a field its value. */
typedef enum pw_field_origin {
  PW_FIELD_LABEL = 0, /* the certified label alone */
  PW_FIELD_COMPUTED,  /* this program may */
  PW_FIELD_TYPED,     /* the job, or a pen */
  PW_FIELD_DOCUMENT,  /* a paper to attach */
  PW_FIELD_SIGNED     /* a person, by hand */
} pw_field_origin;

typedef struct pw_field {
  const char *block;     /* heading it stands under; static */
  char mark[PW_TAG_MAX]; /* window or line it belongs to; "" the whole job */
  char name[96];
  pw_field_origin origin;
  char value[PW_TEXT_MAX]; /* "" blank */
  char note[240];
  int struck;     /* 1: a declaration that the note contradicts */
  pw_figure kind; /* of a computed figure, with its key; see out/figure.h */
  char key[112];  /* "" when it is none */
} pw_field;

typedef struct pw_worksheet {
  const pw_tongue *tongue;
  pw_field *field; /* owned */
  size_t n, room;
  int lost;                 /* 1: out of memory, some are missing */
  pw_program_result result; /* rows borrowed from the program */
  pw_amount amount;
  unsigned char only[PW_WINDOWS_MAX]; /* openings that the claim counts */
  int conditioned;                    /* 1: it looks at conditioned rooms alone */
} pw_worksheet;

/* What the form counts as the size of a window. */
typedef enum pw_size_basis {
  PW_SIZE_OPENING = 0, /* in the wall, as pw_rebate_of counts */
  PW_SIZE_UNIT         /* as ordered */
} pw_size_basis;

typedef struct pw_worksheet_input {
  const pw_compare *compare;
  size_t package;
  const pw_program *program;
  const char *zone; /* "" when the program has one zone only */
  pw_size_basis basis;
  pw_paper paper; /* what stands on every paper; for the document alone */
  const pw_tongue
      *tongue; /* of names, notes and our own values; NULL: English, as a CSV wants */
} pw_worksheet_input;

/* Fills the fields.
 *
 * Returned  *worksheet, to be freed by pw_worksheet_free
 * Status    PW_OK, also when the criteria fail or the program ended (see result); PW_E_DOMAIN an
 *           unknown zone or a date that is none; PW_E_SHAPE the program; PW_E_NOMEM
 */
pw_status pw_worksheet_build(const pw_worksheet_input *input, pw_worksheet *worksheet,
                             pw_err *err);
void pw_worksheet_free(pw_worksheet *worksheet); /* NULL and a zeroed struct are fine */

/* The whole document; or a row a field, cells that a spreadsheet would run neutralised. */
pw_status pw_worksheet_html(const pw_worksheet_input *input, const pw_worksheet *worksheet,
                            pw_html *h, pw_err *err);
pw_status pw_worksheet_csv(const pw_worksheet *worksheet, FILE *f, pw_err *err);

#endif
