#include "house/sash_leak.h"

#include <math.h>

#include "gen/reference.h"
#include "house/leakage.h"

#define ROW(name) (&pw_ref_air_leakage[pw_ref_air_leakage__##name])

static const double cm2 = 1e-4;
static const double pi = 3.14159265358979323846;

double pw_sash_crack(const pw_lites *w)
{
  const double rail = 0.5 * w->meeting_width;
  double crack = 0.0;
  for (size_t i = 0; i < w->n_lite; i++) {
    const pw_lite *l = &w->lite[i];
    if (!l->moving) continue;
    if (l->round.perimeter >
        0.0) { /* Steiner: a convex outline moved out by d is 2 pi d longer */
      crack += l->round.perimeter + 2.0 * pi * 0.5 * l->face[PW_LEFT];
      continue;
    }
    double reach[4];
    for (int k = 0; k < 4; k++)
      reach[k] = l->face[k] > 0.0 ? 0.5 * l->face[k] : rail;
    double across = l->width + reach[PW_LEFT] + reach[PW_RIGHT];
    double up = l->height + reach[PW_BOTTOM] + reach[PW_TOP];
    crack += 2.0 * (across + up);
    /* The rail it shares with a moving neighbour is counted there. */
    if (i > 0 && w->lite[i - 1].moving) crack -= w->meeting_upright ? up : across;
  }
  return crack;
}

/* The row of a kind and what it is told by: metres of crack, square metres, louvres, doors. */
static const pw_ref_air_leakage_row *row_of(const pw_lites *w, pw_frame_kind frame,
                                            double *times)
{
  const int wood = frame == PW_FRAME_WOOD;
  const int plastic = frame == PW_FRAME_VINYL || frame == PW_FRAME_FIBREGLASS;
  *times = pw_sash_crack(w);
  switch (w->operator_) {
  case PW_SLIDER:
  case PW_FLANKER:
    return wood      ? ROW(single_slider_wood)
           : plastic ? ROW(single_slider_stripped)
                     : ROW(single_slider_aluminium);
  case PW_SINGLE_HUNG:
    return ROW(single_hung_stripped);
  case PW_DOUBLE_HUNG:
    return wood || frame == PW_FRAME_STEEL ? ROW(double_hung_plain) : ROW(double_hung_stripped);
  case PW_CASEMENT:
    return ROW(casement);
  case PW_AWNING:
  case PW_HOPPER:
    *times = w->width * w->height;
    return ROW(awning);
  case PW_JALOUSIE:
    *times = w->height / ROW(jalousie_louvre)->value;
    return ROW(jalousie);
  case PW_SLIDING_DOOR:
    *times = 1.0;
    return ROW(sliding_door);
  default:
    return ROW(lumped);
  }
}

static double between(double a, double b) { return sqrt(a * b); }

pw_leak_span pw_sash_leak(const pw_lites *w, pw_frame_kind frame, pw_sash_state state)
{
  double times = 0.0;
  if (!pw_operator_opens(w->operator_)) return (pw_leak_span){0};
  const pw_ref_air_leakage_row *r = row_of(w, frame, &times);
  pw_leak_span s = {r->low, r->value, r->high};
  double middle = between(r->low, r->value);
  if (state == PW_SASH_TIGHT) s = (pw_leak_span){r->low, middle, r->value};
  if (state == PW_SASH_LOOSE) s = (pw_leak_span){r->value, between(r->value, r->high), r->high};
  if (state == PW_SASH_STUCK) s = (pw_leak_span){r->low, between(r->low, middle), middle};
  return (pw_leak_span){cm2 * times * s.low, cm2 * times * s.usual, cm2 * times * s.high};
}

pw_leak_span pw_insert_leak(double label, double area)
{
  static const double test = 75.0; /* Pa */
  const pw_ref_air_leakage_row *n = ROW(exponent), *site = ROW(on_site);
  if (isfinite(label)) {
    double flow = label * area;
    return (pw_leak_span){site->low * pw_leak_area_of(flow, test, n->high),
                          site->value * pw_leak_area_of(flow, test, n->value),
                          site->high * pw_leak_area_of(flow, test, n->low)};
  }
  return (pw_leak_span){cm2 * area * ROW(label_005)->low, cm2 * area * ROW(label_03)->value,
                        cm2 * area * ROW(label_03)->high * site->high};
}

pw_leak_span pw_joint_leak(double area, int foamed)
{
  const pw_ref_air_leakage_row *r = foamed ? ROW(joint_foamed) : ROW(joint_open);
  return (pw_leak_span){cm2 * area * r->low, cm2 * area * r->value, cm2 * area * r->high};
}

double pw_house_leak_area(double flow_50)
{
  return pw_leak_area_of(flow_50, 50.0, ROW(exponent)->value);
}

const char *pw_sash_state_name(pw_sash_state state)
{
  static const char *const name[PW_SASH_STATES] = {"usual", "tight", "usual", "loose", "stuck"};
  return (unsigned)state < PW_SASH_STATES ? name[state] : name[0];
}
