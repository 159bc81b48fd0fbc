#include "window/fit_impl.h"

#include <math.h>

#include "base/own_math.h"
#include "panewright/units.h"

/* measure.csv M3, M4, M5, M7: limits of the trade for diagonals and spread. */
static const double square_ok = 0.125 * PW_INCH, square_adjust = 0.25 * PW_INCH,
                    square_stop = 0.5 * PW_INCH, spread_ok = 0.125 * PW_INCH;
/* Common practice, no source: readings so far apart are no readings of one opening; fins and lips of old
 * frames are about 1/2 in (measure.csv F7, F8); only a door stands that low. */
static const double spread_stop = 0.5 * PW_INCH, fin_most = 1.25 * PW_INCH,
                    sill_least = 4.0 * PW_INCH;
/* A diagonal may miss its rectangle by this much before it is called impossible: six readings to
 * 1/16 in and a slack tape. */
static const double diagonal_slack = 0.25 * PW_INCH, one_diagonal_slack = 0.5 * PW_INCH;
static const double hair = 1e-3 * PW_INCH; /* keeps limits inclusive after conversion */

fit_readings fit_read_three(const double reading[3])
{
  double v[3];
  size_t n = 0;
  for (int i = 0; i < 3; i++)
    if (reading[i] > 0.0) v[n++] = reading[i];
  for (size_t i = 1; i < n; i++)
    for (size_t j = i; j > 0 && v[j] < v[j - 1]; j--) {
      double t = v[j];
      v[j] = v[j - 1];
      v[j - 1] = t;
    }
  if (n == 0) return (fit_readings){0};
  double middle = n == 3 ? v[1] : 0.5 * (v[0] + v[n - 1]);
  return (fit_readings){n, v[0], middle, v[n - 1] - v[0]};
}

void fit_find(pw_fit *fit, pw_finding_kind kind, pw_message says)
{
  if (fit->n_finding == PW_FINDINGS_MAX) return;
  fit->finding[fit->n_finding++] = (pw_finding){.kind = kind, .says = says};
}

/* The length that comes of exchanging two neighbouring digits of the whole inches (or, for a
 * length in whole millimetres, of those) and that lies within slack of want; 0 when none does. */
static double exchanged(double length, double want, double slack)
{
  static const double unit[2] = {PW_INCH, 1e-3}, power[] = {1.0, 10.0, 100.0, 1e3, 1e4};
  for (int u = 0; u < 2; u++) {
    double whole = floor(length / unit[u] + 1e-6), rest = length / unit[u] - whole;
    if (u == 1 && fabs(rest) > 1e-3) continue;
    for (size_t k = 0; k < sizeof power / sizeof power[0] && power[k] * 10.0 <= whole; k++) {
      double p = power[k];
      double low = fmod(floor(whole / p), 10.0), high = fmod(floor(whole / (10.0 * p)), 10.0);
      if (low == high) continue;
      double other = (whole + (low - high) * 9.0 * p + rest) * unit[u];
      if (fabs(other - want) <= slack) return other;
    }
  }
  return 0.0;
}

/* The other of three readings that agree with one another while reading i does not: their mean,
 * or 0. */
static double agreed_by_others(const double reading[3], int i)
{
  double a = reading[(i + 1) % 3], b = reading[(i + 2) % 3], mean = 0.5 * (a + b);
  if (!(a > 0.0 && b > 0.0 && reading[i] > 0.0)) return 0.0;
  if (fabs(a - b) > 4.0 * spread_ok || fabs(reading[i] - mean) <= 4.0 * spread_ok) return 0.0;
  return mean;
}

void fit_judge_spread(double spread, int upright, pw_fit *fit)
{
  if (spread <= spread_ok + hair) return;
  if (spread > spread_stop + hair)
    fit_find(fit, PW_FINDING_APART, PW_SAYS(PW_SAY_APART, FIT_SIDE(upright), PW_SI(spread)));
  else
    fit_find(fit, PW_FINDING_SPREAD, PW_SAYS(PW_SAY_SPREAD, FIT_SIDE(upright), PW_SI(spread)));
}

/* Readings that grow evenly by more than a hand are of no rectangle: a trapezoid, a triangle. */
static void judge_evenly(const double reading[3], int upright, pw_fit *fit)
{
  static const double a_hand = 4.0 * PW_INCH, even = 0.5 * PW_INCH;
  double a = reading[0], b = reading[1], c = reading[2];
  if (!(a > 0.0 && b > 0.0 && c > 0.0) || fabs(a - c) < a_hand) return;
  if (fabs(b - 0.5 * (a + c)) > even) return;
  fit_find(fit, PW_FINDING_NO_SUCH,
           PW_SAYS(upright ? PW_SAY_EVENLY_UP : PW_SAY_EVENLY_ACROSS, PW_SI(a), PW_SI(c)));
}

static void judge_one_side(const pw_opening *o, int upright, pw_fit *fit)
{
  static const char *const name[2][3] = {{"width_bottom", "width_middle", "width_top"},
                                         {"height_left", "height_middle", "height_right"}};
  const double *reading = upright ? o->height : o->width;
  const double *across = upright ? o->width : o->height;
  fit_readings mine = fit_read_three(reading), other = fit_read_three(across);
  for (int i = 0; i < 3; i++) {
    double mean = agreed_by_others(reading, i);
    if (!(mean > 0.0)) continue;
    double right = exchanged(reading[i], mean, 2.0 * spread_ok);
    if (right > 0.0)
      fit_find(
          fit, PW_FINDING_TRANSPOSED,
          PW_SAYS(PW_SAY_DIGITS, PW_COLUMN(name[upright][i]), PW_SI(reading[i]), PW_SI(right)));
    else if (fabs(reading[i] - other.middle) <= 4.0 * spread_ok)
      fit_find(fit, PW_FINDING_SWAPPED,
               PW_SAYS(PW_SAY_OTHER_SIDE, PW_COLUMN(name[upright][i]), PW_SI(reading[i]),
                       PW_WORD(upright ? PW_SAY_WIDTHS : PW_SAY_HEIGHTS)));
  }
  fit_judge_spread(mine.spread, upright, fit);
  judge_evenly(reading, upright, fit);
  if (mine.n < 3)
    fit_find(fit, PW_FINDING_ONE_READING,
             PW_SAYS(PW_SAY_FEW_READINGS, PW_INT(mine.n), FIT_SIDE(upright)));
}

/* Kinds that have a usual shape: a slider is not built far higher than wide. */
static void judge_shape(const pw_opening *o, double width, double height, pw_fit *fit)
{
  pw_operator k = o->operator_existing;
  int lying = k == PW_SLIDER || k == PW_FLANKER;
  int hung = k == PW_SINGLE_HUNG || k == PW_DOUBLE_HUNG;
  int odd = (lying && height > 1.5 * width) || (hung && width > 1.25 * height);
  int lying_door = k == PW_SLIDING_DOOR && height < 1.83 && width > height;
  if (odd)
    fit_find(fit, PW_FINDING_SHAPE,
             PW_SAYS(PW_SAY_UNUSUAL, PW_INT(k), PW_SI(width), PW_SI(height)));
  if (lying_door)
    fit_find(fit, PW_FINDING_SWAPPED, PW_SAYS(PW_SAY_LYING_DOOR, PW_SI(width), PW_SI(height)));
}

/* Explains diagonals that fit no parallelogram of these sides; returns 1 when they do not fit. */
static int judge_impossible(const pw_opening *o, fit_readings w, fit_readings h, pw_fit *fit)
{
  double want = pw_hypot(w.middle, h.middle), mean = 0.0;
  int n = 0;
  for (int i = 0; i < 2; i++)
    if (o->diagonal[i] > 0.0) {
      mean += o->diagonal[i] * o->diagonal[i];
      n++;
    }
  mean = sqrt(mean / n); /* D1^2 + D2^2 = 2 (W^2 + H^2) in any parallelogram */
  double slack = (n == 2 ? diagonal_slack : one_diagonal_slack) + fmin(w.spread, spread_ok) +
                 fmin(h.spread, spread_ok);
  int apart = n == 2 && fabs(o->diagonal[0] - o->diagonal[1]) > 4.0 * PW_INCH;
  if (fabs(mean - want) <= slack && !apart) return 0;

  static const char *const name[2] = {"diagonal_1", "diagonal_2"};
  for (int i = 0; i < 2; i++) {
    double d = o->diagonal[i], right = 0.0;
    if (d > 0.0 && fabs(d - want) > slack) right = exchanged(d, want, slack);
    if (!(right > 0.0)) continue;
    fit_find(fit, PW_FINDING_TRANSPOSED,
             PW_SAYS(PW_SAY_DIGITS, PW_COLUMN(name[i]), PW_SI(d), PW_SI(right)));
  }
  for (int side = 0; side < 2; side++) {
    double mine = side ? h.middle : w.middle, other = side ? w.middle : h.middle;
    double square = mean * mean - other * other;
    double right = square > 0.0 ? exchanged(mine, sqrt(square), 2.0 * slack) : 0.0;
    if (!(right > 0.0) || apart) continue;
    fit_find(fit, PW_FINDING_TRANSPOSED,
             PW_SAYS(PW_SAY_SIDE_DIGITS, FIT_SIDE(side), PW_SI(mine), PW_SI(right)));
  }
  fit_find(
      fit, PW_FINDING_DIAGONAL,
      PW_SAYS(PW_SAY_IMPOSSIBLE, PW_SI(w.middle), PW_SI(h.middle), PW_SI(mean), PW_SI(want)));
  return 1;
}

void fit_judge_difference(double d, pw_fit *fit)
{
  fit->diagonal_difference = d;
  if (d <= square_ok + hair) {
    fit->square = PW_SQUARE_OK;
  } else if (d <= square_adjust + hair) {
    fit->square = PW_SQUARE_ADJUST;
    fit_find(fit, PW_FINDING_ADJUST, PW_SAYS(PW_SAY_ADJUST, PW_SI(d)));
  } else if (d <= square_stop + hair) {
    fit->square = PW_SQUARE_REMEASURE;
    fit_find(fit, PW_FINDING_REMEASURE, PW_SAYS(PW_SAY_REMEASURE, PW_SI(d)));
  } else {
    fit->square = PW_SQUARE_STOP;
    fit_find(fit, PW_FINDING_STOP, PW_SAYS(PW_SAY_STOP, PW_SI(d)));
  }
}

static void judge_square(const pw_opening *o, fit_readings w, pw_fit *fit)
{
  double d1 = o->diagonal[0], d2 = o->diagonal[1];
  double across = o->width[1] > 0.0 ? o->width[1] : w.middle; /* M12: the middle reading */
  fit->lean = fabs(d1 * d1 - d2 * d2) / (4.0 * across);       /* measure.md item 3 */
  fit_judge_difference(fabs(d1 - d2), fit);
}

/* What is too large or too low to be what it is called. */
void fit_judge_parts(const pw_opening *o, pw_fit *fit)
{
  const struct {
    const char *name;
    double size;
  } part[] = {{"fin_width", o->fin_width}, {"sill_lip", o->sill_lip}};
  for (int i = 0; i < 2; i++) {
    if (part[i].size <= fin_most + hair) continue;
    fit_find(fit, PW_FINDING_FIN,
             PW_SAYS(PW_SAY_FIN, PW_COLUMN(part[i].name), PW_SI(part[i].size)));
  }
  if (pw_operator_is_door(o->operator_existing) || o->sidelite ||
      !pw_is_given(o->sill_height) || o->sill_height >= sill_least - hair)
    return;
  fit_find(fit, PW_FINDING_SILL, PW_SAYS(PW_SAY_SILL, PW_SI(o->sill_height)));
}

int pw_finding_blocks(pw_finding_kind kind) { return kind >= PW_FINDING_REMEASURE; }

pw_square pw_fit_square(const pw_fit *fit)
{
  if (fit->square != PW_SQUARE_OK && fit->square != PW_SQUARE_ADJUST) return fit->square;
  for (size_t k = 0; k < fit->n_finding; k++)
    if (pw_finding_blocks(fit->finding[k].kind)) return PW_SQUARE_REMEASURE;
  return fit->square;
}

void fit_judge(const pw_opening *o, pw_fit *fit)
{
  fit_readings w = fit_read_three(o->width), h = fit_read_three(o->height);
  judge_one_side(o, 0, fit);
  judge_one_side(o, 1, fit);
  judge_shape(o, w.middle, h.middle, fit);
  fit_judge_parts(o, fit);
  int n = (o->diagonal[0] > 0.0) + (o->diagonal[1] > 0.0);
  int impossible = n > 0 && judge_impossible(o, w, h, fit);
  if (n == 2)
    judge_square(o, w, fit);
  else if (w.spread > spread_ok + hair || h.spread > spread_ok + hair)
    fit_find(fit, PW_FINDING_UNSQUARE,
             PW_SAYS_PLAIN(n ? PW_SAY_UNSQUARE_ONE : PW_SAY_UNSQUARE_NONE));
  else
    fit_find(fit, PW_FINDING_NO_DIAGONAL,
             PW_SAYS_PLAIN(n ? PW_SAY_ONE_DIAGONAL : PW_SAY_NO_DIAGONAL));
  if (impossible) fit->lean = 0.0; /* not believed, and so said */
}
