/* Rebate and code criteria: rows with dates, held against the values of the certified label. */
#ifndef MONEY_PROGRAM_H
#define MONEY_PROGRAM_H

#include <stddef.h>

#include "base/date.h"
#include "panewright/message.h"
#include "panewright/package.h"
#include "panewright/status.h"

typedef enum pw_metric {
  PW_METRIC_U = 0,
  PW_METRIC_SHGC,
  PW_METRIC_VT,
  PW_METRIC_AIR_LEAKAGE,
  PW_METRIC_COUNT
} pw_metric;

typedef enum pw_op { PW_OP_LE = 0, PW_OP_GE, PW_OP_EQ, PW_OP_COUNT } pw_op;

typedef enum pw_row_kind {
  PW_ROW_CRITERION = 0,
  PW_ROW_AMOUNT,    /* pays value per basis */
  PW_ROW_CAP,       /* no more than value per basis */
  PW_ROW_DOCUMENT,  /* a paper to attach: text in note */
  PW_ROW_CONDITION, /* a rule in words that a person must judge: text in note */
  PW_ROW_ROOMS /* which rooms' openings are claimed: conditioned; without such a row all are */
} pw_row_kind;

/* What an amount or a cap counts. */
typedef enum pw_basis {
  PW_BASIS_FIXED = 0,    /* $ */
  PW_BASIS_AREA,         /* $/ft2 of opening; value kept in $/m2 */
  PW_BASIS_OPENING,      /* $ an opening */
  PW_BASIS_COST,         /* share of the installed cost */
  PW_BASIS_PRODUCT_COST, /* share of the cost of the product, no labour */
  PW_BASIS_COUNT
} pw_basis;

typedef struct pw_program_row {
  pw_row_kind kind;
  char program[64], edition[32];
  char zone[48];  /* "all" or "" for any */
  char group[32]; /* criteria of one group hold together, groups are alternatives;
                     "" or "always" holds beside every group. An amount with a group is paid when
                     that group is the best one met */
  pw_metric metric;
  pw_op op;
  double
      value; /* criterion: in its printed unit; amount and cap: $ by basis (area: $/m2), or share */
  char unit[24];
  double step; /* criterion: last digit of the label in that unit, such as 0.01 */
  double si;   /* criterion: SI value of one unit */
  pw_basis basis;
  int conditioned;  /* rooms: 1 only those that are heated or cooled */
  pw_date from, to; /* 0 open ended */
  char source[160], note[PW_TEXT_MAX];
  int line;
} pw_program_row;

/* A program file. rows are owned by whoever filled the struct (job/program_file.h frees them). */
typedef struct pw_program {
  size_t n_row;
  pw_program_row *row;
  char file[160];
} pw_program;

/* Label values of one window, SI; NAN when the job has none. */
typedef struct pw_label {
  double u, shgc, vt, air_leakage; /* W/(m2 K), -, -, m3/(s m2) at 75 Pa */
} pw_label;

/* What the job copied from the certified label (opening_label.h); never a computed value. */
pw_label pw_label_of(const pw_label_row *row);

/* The unit's SI value and the label's last digit; PW_E_DOMAIN for a unit that the metric has not.
 * Known: U Btu/h-ft2-F (0.01), W/m2K (0.01); SHGC and VT "-" or "" (0.01); air leakage cfm/ft2
 * (0.1). Source: reference/trade/rebate_form.md (whole-window U 0.01, SHGC 0.01); air leakage digit
 * from memory of NFRC 400. */
pw_status pw_metric_unit(pw_metric metric, const char *unit, double *si, double *step,
                         pw_err *err);
const char *pw_metric_name(pw_metric metric);
const char *pw_op_sign(pw_op op);

typedef enum pw_verdict {
  PW_VERDICT_MEETS = 0,
  PW_VERDICT_FAILS,
  PW_VERDICT_NO_LABEL, /* a label value that decides is missing */
  PW_VERDICT_ENDED,    /* the install date is after every row of the zone */
  PW_VERDICT_EARLY,    /* before every row */
  PW_VERDICT_NO_DATE   /* rows carry dates and the job has none: judged on the newest rows */
} pw_verdict;

enum { PW_RESULTS_MAX = 64, PW_LINES_MAX = 12 };

typedef struct pw_criterion_result {
  const pw_program_row *row; /* borrowed from the program */
  double label;              /* in the row's unit, rounded as a label prints it; NAN none */
  double margin; /* room left: limit - label for <=, label - limit for >=; 0 met on = */
  int holds;     /* 1 yes, 0 no, -1 no label value */
} pw_criterion_result;

typedef struct pw_program_result {
  pw_verdict verdict;
  char group[32]; /* the group met, or the one nearest to it */
  size_t n_criterion;
  pw_criterion_result criterion[PW_RESULTS_MAX];
  pw_message says; /* one line */
  pw_message
      counted; /* of a whole job, when only some windows count; PW_SAY_NOTHING otherwise */
} pw_program_result;

/* Refuses a program that has not begun or has ended (result->verdict): PW_E_DOMAIN, else PW_OK. */
pw_status pw_program_open(const pw_program *program, const pw_program_result *result,
                          pw_err *err);

/* Holds a program against a label.
 *
 * Given     program; zone as in its rows ("" when it has one zone only); label; date placed in
 *           service, 0 unknown
 * Returned  *result. A criterion looks at the label value as printed: rounded to the label's last
 *           digit, then <= or >= with equality passing. Never at a computed value.
 * Status    PW_OK, also when it fails or ended (see verdict); PW_E_DOMAIN an unknown zone (the
 *           message lists the known ones); PW_E_SHAPE no rows or too many
 */
pw_status pw_program_judge(const pw_program *program, const char *zone, const pw_label *label,
                           pw_date date, pw_program_result *result, pw_err *err);

/* Several zones in a file: the i-th different one, or NULL ("all" is none). */
const char *pw_program_zone(const pw_program *program, size_t i);

/* The program's own spelling of a zone, whatever its letter case; the name itself where it has none such. */
const char *pw_program_zone_named(const pw_program *program, const char *name);

/* Whether the program looks only at conditioned rooms: by its rows that hold in the zone on the date (0: any). */
int pw_program_conditioned(const pw_program *program, const char *zone, pw_date date);

/* What a job brings to the amounts. */
typedef struct pw_claim {
  double n_opening; /* openings that get the package */
  double area;      /* m2 of opening */
  double cost;      /* $ installed */
  double
      product_cost; /* $ without labour; 0 unknown: product-cost rows pay nothing, and say so */
  double earlier;   /* $ of other programs, taken off the cost before the last cap */
} pw_claim;

typedef struct pw_amount {
  double total; /* $ */
  size_t n_line;
  struct {
    pw_message says; /* the arithmetic, as "84.2 ft2 x $3.00/ft2" */
    double value;    /* $ of the line; a cap line holds what is left after it */
  } line[PW_LINES_MAX];
} pw_amount;

/* Amount by the rows in force, arithmetic line by line; 0 unless the verdict is MEETS (then the one
 * line says why). Each line is rounded to cents; a total never exceeds cost less earlier.
 * Status PW_OK; PW_E_DOMAIN negative or not finite claim. */
pw_status pw_program_amount(const pw_program *program, const char *zone, pw_date date,
                            const pw_program_result *result, const pw_claim *claim,
                            pw_amount *amount, pw_err *err);

#endif
