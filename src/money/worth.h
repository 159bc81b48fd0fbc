/* What an outlay for windows is worth: payback, net present worth, internal rate, year by year. */
#ifndef MONEY_WORTH_H
#define MONEY_WORTH_H

#include <stddef.h>

#include "panewright/given.h"
#include "panewright/kinds.h"
#include "panewright/status.h"

enum { PW_YEARS_MAX = 60, PW_YEARS_DEFAULT = 25 };

/* Net present worth of cash[0..n-1] at the ends of years 0..n-1.
 *
 *   sum cash[i] / (1 + rate)^i
 *
 * Status    PW_OK; PW_E_DOMAIN rate at or below -1 (-100 %) or not finite, PW_E_SHAPE n is 0
 * Source    NIST Handbook 135, end-of-year convention (from memory).
 */
pw_status pw_net_present_worth(double rate, const double cash[], size_t n, double *worth,
                               pw_err *err);

typedef enum pw_irr_kind {
  PW_IRR_ONE = 0, /* the one rate */
  PW_IRR_NONE,    /* no rate between -99 % and +1000 % brings the worth to 0 */
  PW_IRR_SEVERAL /* more than one; the rate nearest to 0 is returned: judge by the worth instead */
} pw_irr_kind;

typedef struct pw_irr {
  pw_irr_kind kind;
  double rate; /* NAN when none */
  int roots;
  int iterations;
} pw_irr;

/* Internal rate: every change of sign of the worth over ln(1 + rate) is bracketed, then Brent.
 *
 * Status    PW_OK (also when there is none: see kind); PW_E_SHAPE n below 2; PW_E_DOMAIN not finite
 * Notes     roots closer than 0.005 in ln(1 + rate) to each other may be missed.
 */
pw_status pw_internal_rate(const double cash[], size_t n, pw_irr *irr, pw_err *err);

/* Installed price of a package: $ an opening times openings + $/m2 times opening area.
 * Status PW_OK; PW_E_DOMAIN a negative price, count or area. */
pw_status pw_installed_price(double per_opening, double per_area, double n_opening, double area,
                             double *price, pw_err *err);

/* Expected life by frame kind, years, with source (reference/trade/money.csv life_window_*). */
pw_given pw_window_life(pw_frame_kind kind);

/* Years left of a window: life less age, never below 0; year_built 0 or after today gives the half
 * of its life, flagged assumed. */
pw_given pw_residual_life(pw_frame_kind kind, int year_built, int year_now);

typedef struct pw_invest {
  double price;       /* $ installed */
  double incentive;   /* $ rebates and credits, taken off at once */
  double saving_year; /* $ of the first year at today's prices; may be below 0 */
  double escalation;  /* real, of energy prices, share a year */
  double discount;    /* real, share a year */
  double horizon;     /* years shown; 0 means 25 */
  double life;        /* of the new window, years; 0 means 30 (vinyl) */
  double residual;    /* years the existing window would still serve; used with avoided */
  double avoided;     /* $ of the like-for-like replacement then spared; 0 none */
  int without_rate;   /* 1: leave the internal rate out (studies of many draws) */
} pw_invest;

enum {
  PW_WORTH_BEYOND_LIFE = 1u,    /* simple payback longer than the window lives */
  PW_WORTH_NO_PAYBACK = 2u,     /* the savings never return the outlay */
  PW_WORTH_NO_RATE = 4u,        /* no internal rate */
  PW_WORTH_SEVERAL_RATES = 8u,  /* more than one */
  PW_WORTH_ENDS_WITH_LIFE = 16u /* life ends inside the horizon: no saving after it */
};

typedef struct pw_worth {
  double outlay;             /* price less incentive, >= 0 */
  double simple_payback;     /* years, outlay over first-year saving; INFINITY never */
  double discounted_payback; /* years, within the life; INFINITY never */
  double net_present_worth;  /* $, over min(horizon, life) */
  pw_irr internal_rate;
  size_t n_year; /* cash[0..n_year] */
  double cash[PW_YEARS_MAX + 1], cumulative[PW_YEARS_MAX + 1], discounted[PW_YEARS_MAX + 1];
  unsigned notes;
} pw_worth;

/* Worth of a package.
 *
 *   cash[0] = -(price - incentive);  cash[i] = saving (1 + escalation)^i, + avoided in the
 *   year the existing window would have ended;  discounted[] is the running sum at the discount
 *
 * Given     invest, real terms throughout (NIST Handbook 135: real rate with real escalation; the
 *           saving is at the prices of the base date, so that year 1 is the first to escalate, as in
 *           the handbook's UPV* = sum (1+e)^t / (1+d)^t)
 * Returned  *worth. A year that the life ends in counts by its share.
 * Status    PW_OK; PW_E_DOMAIN negative price or incentive, discount or escalation at or below
 *           -100 %, horizon above 60 years; the field is named
 */
pw_status pw_worth_of(const pw_invest *invest, pw_worth *worth, pw_err *err);

#endif
