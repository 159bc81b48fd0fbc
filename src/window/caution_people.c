/* Rules about people: falls, glass that breaks; the way out stands in caution_escape.c. */
#include <math.h>

#include "panewright/lites.h"
#include "panewright/units.h"
#include "window/caution_impl.h"

/* Glass edges of an insert above the floor; 0 when the sill height is unknown. */
static int caution_glass_heights(const caution_case *c, double *bottom, double *top)
{
  const pw_lites *w = &c->fit->insert;
  if (!pw_is_given(c->opening->sill_height)) return 0;
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

pw_caution_state caution_fall(const caution_case *c, pw_message *finding)
{
  double drop = c->opening->drop_outside;
  if (!pw_operator_opens(c->opening->operator_insert) ||
      pw_operator_is_door(c->opening->operator_insert))
    return PW_CAUTION_CLEAR;
  int high = drop > SAFETY(FP1).limit * PW_INCH,
      low = lowest(c) >= 0.0 && lowest(c) < SAFETY(FP1).limit_2 * PW_INCH;
  int unknown_high = !pw_is_given(drop) && c->job->house.storeys > 1,
      unknown_low = lowest(c) < 0.0;
  if (high && low) {
    *finding = PW_SAYS(PW_SAY_FALL, PW_SI(drop), PW_SI(lowest(c)));
    return PW_CAUTION_FLAG;
  }
  if ((high && unknown_low) || (unknown_high && low)) {
    *finding = PW_SAYS(PW_SAY_FALL_ASK, PW_COLUMN(high ? "sill_height" : "drop_outside"));
    return PW_CAUTION_ASK;
  }
  return PW_CAUTION_CLEAR;
}

pw_caution_state caution_fall_escape(const caution_case *c, pw_message *finding)
{
  pw_message unused;
  if (!sleeping(c) || caution_fall(c, &unused) != PW_CAUTION_FLAG) return PW_CAUTION_CLEAR;
  *finding = PW_SAYS_PLAIN(PW_SAY_FALL_ESCAPE);
  return PW_CAUTION_FLAG;
}

/* All four at once: area, low bottom, high top, walk beside. */
pw_caution_state caution_pane_low(const caution_case *c, pw_message *finding)
{
  double largest = 0.0, bottom = 0.0, top = 0.0, walk = c->opening->near_walk;
  if (pw_operator_is_door(c->opening->operator_insert)) return PW_CAUTION_CLEAR; /* SG6 holds */
  for (size_t i = 0; i < c->fit->insert.n_lite; i++)
    largest = fmax(largest, pw_lite_area(&c->fit->insert.lite[i]));
  if (!(largest > SAFETY(SG1).limit * PW_FOOT2) || !pw_is_given(walk) ||
      walk > SAFETY(SG4).limit * PW_INCH)
    return PW_CAUTION_CLEAR;
  if (!caution_glass_heights(c, &bottom, &top)) {
    if (c->opening->option.tempered) return PW_CAUTION_CLEAR; /* whatever the answer */
    *finding = PW_SAYS(PW_SAY_LOW_PANE_ASK, PW_SI(largest));
    return PW_CAUTION_ASK;
  }
  if (!(bottom < SAFETY(SG2).limit * PW_INCH && top > SAFETY(SG3).limit * PW_INCH))
    return PW_CAUTION_CLEAR;
  *finding = PW_SAYS(PW_SAY_LOW_PANE, PW_SI(largest), PW_SI(bottom), PW_SI(top), PW_SI(walk));
  return PW_CAUTION_FLAG;
}

/* Glass near something, its bottom under a height; an unknown height is taken as under it. */
static pw_caution_state near_thing(const caution_case *c, double distance, double within,
                                   double under, pw_message_number what, pw_message *finding)
{
  double bottom = 0.0, top = 0.0;
  if (!(distance <= within)) return PW_CAUTION_CLEAR;
  int known = caution_glass_heights(c, &bottom, &top);
  if (known && bottom >= under) return PW_CAUTION_CLEAR;
  *finding = known
                 ? PW_SAYS(PW_SAY_GLASS_NEAR, PW_SI(distance), PW_WORD(what), PW_SI(bottom),
                           PW_SI(under))
                 : PW_SAYS(PW_SAY_GLASS_NEAR_ASK, PW_SI(distance), PW_WORD(what), PW_SI(under));
  return PW_CAUTION_FLAG;
}

pw_caution_state caution_by_door(const caution_case *c, pw_message *finding)
{
  if (pw_operator_is_door(c->opening->operator_insert)) return PW_CAUTION_CLEAR; /* SG6 holds */
  return near_thing(c, c->opening->near_door, SAFETY(SG5).limit * PW_INCH, 60.0 * PW_INCH,
                    PW_SAY_A_DOOR, finding);
}

pw_caution_state caution_door(const caution_case *c, pw_message *finding)
{
  if (!pw_operator_is_door(c->opening->operator_insert)) return PW_CAUTION_CLEAR;
  *finding = PW_SAYS_PLAIN(PW_SAY_GLASS_IN_DOOR);
  return PW_CAUTION_FLAG;
}

pw_caution_state caution_by_water(const caution_case *c, pw_message *finding)
{
  return near_thing(c, c->opening->near_water, SAFETY(SG7).limit * PW_INCH,
                    SAFETY(SG7).limit * PW_INCH, PW_SAY_A_TUB, finding);
}

pw_caution_state caution_stairs(const caution_case *c, pw_message *finding)
{
  if (c->opening->use != PW_USE_STAIR) return PW_CAUTION_CLEAR;
  return near_thing(c, 0.0, 1.0, SAFETY(SG8).limit * PW_INCH, PW_SAY_THE_STAIR, finding);
}

pw_caution_state caution_mark(const caution_case *c, pw_message *finding)
{
  caution_judge *const rule[] = {caution_pane_low, caution_by_door, caution_door,
                                 caution_by_water, caution_stairs};
  pw_message unused;
  for (size_t i = 0; i < sizeof rule / sizeof rule[0]; i++)
    if (rule[i](c, &unused) == PW_CAUTION_FLAG) {
      *finding = PW_SAYS_PLAIN(PW_SAY_SAFETY_MARK);
      return PW_CAUTION_REMIND;
    }
  if (!c->opening->option.tempered) return PW_CAUTION_CLEAR;
  *finding = PW_SAYS_PLAIN(PW_SAY_SAFETY_MARK_ORDERED);
  return PW_CAUTION_REMIND;
}
