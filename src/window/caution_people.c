/* Rules about people: falls, glass that breaks; the way out stands in caution_escape.c. */
#include <math.h>
#include <stdio.h>

#include "panewright/lites.h"
#include "panewright/tape.h"
#include "panewright/units.h"
#include "window/caution_impl.h"

enum { TAPE = 24 };

static void tape(double length, char text[TAPE]) { pw_tape_text(length, 8, text, TAPE); }

int caution_glass_heights(const caution_case *c, double *bottom, double *top)
{
  const pw_lites *w = &c->fit->insert;
  if (c->opening->sill_height < 0.0) return 0;
  /* The insert's lower edge: the old clear opening's bottom, less a lip cut, plus the joint. */
  double lower = c->opening->sill_height + c->fit->retained_width[PW_BOTTOM] -
                 c->opening->retained_face -
                 (c->opening->lip_stay ? 0.0 : c->opening->sill_lip);
  *bottom = (double)INFINITY;
  *top = 0.0;
  for (size_t i = 0; i < w->n_lite; i++) {
    *bottom = fmin(*bottom, lower + w->lite[i].y);
    *top = fmax(*top, lower + w->lite[i].y + w->lite[i].height);
  }
  return 1;
}

static int sleeping(const caution_case *c) { return c->opening->use == PW_USE_BEDROOM; }

/* Lowest clear opening under either window. */
static double lowest(const caution_case *c)
{
  return fmin(c->fit->clear_existing.bottom, c->fit->clear_insert.bottom);
}

pw_caution_state caution_fall(const caution_case *c, char finding[], size_t size)
{
  double drop = c->opening->drop_outside;
  if (!pw_operator_opens(c->opening->operator_insert) ||
      pw_operator_is_door(c->opening->operator_insert))
    return PW_CAUTION_CLEAR;
  int high = drop > SAFETY(FP1).limit * PW_INCH,
      low = lowest(c) >= 0.0 && lowest(c) < SAFETY(FP1).limit_2 * PW_INCH;
  int unknown_high = drop < 0.0 && c->job->house.storeys > 1, unknown_low = lowest(c) < 0.0;
  char d[TAPE], b[TAPE];
  tape(drop, d);
  tape(lowest(c), b);
  if (high && low) {
    snprintf(finding, size,
             "fall: opens %s in above the ground with its clear bottom %s in above the floor "
             "(limits "
             "72 and 24): guard, 4 in stop or opening control device",
             d, b);
    return PW_CAUTION_FLAG;
  }
  if ((high && unknown_low) || (unknown_high && low)) {
    snprintf(finding, size, "fall: give %s to know whether a guard is wanted",
             high ? "sill_height" : "drop_outside");
    return PW_CAUTION_ASK;
  }
  return PW_CAUTION_CLEAR;
}

pw_caution_state caution_fall_escape(const caution_case *c, char finding[], size_t size)
{
  char unused[320];
  if (!sleeping(c) || caution_fall(c, unused, sizeof unused) != PW_CAUTION_FLAG)
    return PW_CAUTION_CLEAR;
  snprintf(finding, size,
           "fall guard and escape in one: only an opening control device that releases "
           "to the full clear opening will do");
  return PW_CAUTION_FLAG;
}

/* All four at once: area, low bottom, high top, walk beside. */
pw_caution_state caution_pane_low(const caution_case *c, char finding[], size_t size)
{
  double largest = 0.0, bottom = 0.0, top = 0.0, walk = c->opening->near_walk;
  if (pw_operator_is_door(c->opening->operator_insert)) return PW_CAUTION_CLEAR; /* SG6 holds */
  for (size_t i = 0; i < c->fit->insert.n_lite; i++)
    largest = fmax(largest, pw_lite_area(&c->fit->insert.lite[i]));
  if (!(largest > SAFETY(SG1).limit * PW_FOOT2) || walk < 0.0 ||
      walk > SAFETY(SG4).limit * PW_INCH)
    return PW_CAUTION_CLEAR;
  if (!caution_glass_heights(c, &bottom, &top)) {
    if (c->opening->option.tempered) return PW_CAUTION_CLEAR; /* whatever the answer */
    snprintf(finding, size,
             "a pane of %.1f ft2 beside a walk: give sill_height to know whether safety "
             "glass is wanted",
             largest / PW_FOOT2);
    return PW_CAUTION_ASK;
  }
  if (!(bottom < SAFETY(SG2).limit * PW_INCH && top > SAFETY(SG3).limit * PW_INCH))
    return PW_CAUTION_CLEAR;
  char b[TAPE], t[TAPE], w[TAPE];
  tape(bottom, b);
  tape(top, t);
  tape(walk, w);
  snprintf(finding, size,
           "safety glass: pane %.1f ft2 (over 9), glass from %s in (under 18) to %s in (over "
           "36), walk "
           "at %s in (within 36)",
           largest / PW_FOOT2, b, t, w);
  return PW_CAUTION_FLAG;
}

/* Glass near something, its bottom under a height; an unknown height is taken as under it. */
static pw_caution_state near_thing(const caution_case *c, double distance, double within,
                                   double under, const char *what, char finding[], size_t size)
{
  double bottom = 0.0, top = 0.0;
  if (distance < 0.0 || distance > within) return PW_CAUTION_CLEAR;
  int known = caution_glass_heights(c, &bottom, &top);
  if (known && bottom >= under) return PW_CAUTION_CLEAR;
  char d[TAPE], b[TAPE], u[TAPE];
  tape(distance, d);
  tape(bottom, b);
  tape(under, u);
  if (known)
    snprintf(finding, size, "safety glass: %s in from %s, glass bottom at %s in (under %s)", d,
             what, b, u);
  else
    snprintf(finding, size,
             "safety glass: %s in from %s, height of the glass not given (%s in frees it)", d,
             what, u);
  return PW_CAUTION_FLAG;
}

pw_caution_state caution_by_door(const caution_case *c, char finding[], size_t size)
{
  if (pw_operator_is_door(c->opening->operator_insert)) return PW_CAUTION_CLEAR; /* SG6 holds */
  return near_thing(c, c->opening->near_door, SAFETY(SG5).limit * PW_INCH, 60.0 * PW_INCH,
                    "a door", finding, size);
}

pw_caution_state caution_door(const caution_case *c, char finding[], size_t size)
{
  if (!pw_operator_is_door(c->opening->operator_insert)) return PW_CAUTION_CLEAR;
  snprintf(finding, size, "safety glass in every lite of a door, fixed or moving");
  return PW_CAUTION_FLAG;
}

pw_caution_state caution_by_water(const caution_case *c, char finding[], size_t size)
{
  return near_thing(c, c->opening->near_water, SAFETY(SG7).limit * PW_INCH,
                    SAFETY(SG7).limit * PW_INCH, "a tub or shower", finding, size);
}

pw_caution_state caution_stairs(const caution_case *c, char finding[], size_t size)
{
  if (c->opening->use != PW_USE_STAIR) return PW_CAUTION_CLEAR;
  return near_thing(c, 0.0, 1.0, SAFETY(SG8).limit * PW_INCH, "the stair", finding, size);
}

pw_caution_state caution_mark(const caution_case *c, char finding[], size_t size)
{
  caution_judge *const rule[] = {caution_pane_low, caution_by_door, caution_door,
                                 caution_by_water, caution_stairs};
  char unused[320];
  for (size_t i = 0; i < sizeof rule / sizeof rule[0]; i++)
    if (rule[i](c, unused, sizeof unused) == PW_CAUTION_FLAG) {
      snprintf(finding, size,
               "photograph the permanent safety mark of each pane after setting it");
      return PW_CAUTION_REMIND;
    }
  if (!c->opening->option.tempered) return PW_CAUTION_CLEAR;
  snprintf(finding, size, "ordered tempered: photograph its permanent mark after setting it");
  return PW_CAUTION_REMIND;
}
