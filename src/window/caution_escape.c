/* The way out of a sleeping room. */
#include "panewright/units.h"
#include "window/caution_impl.h"

static int sleeping(const caution_case *c) { return c->opening->use == PW_USE_BEDROOM; }

/* Both clear openings, as six arguments: the new one, then the old. */
#define BOTH(fit)                                                                              \
  PW_SI((fit)->clear_insert.width), PW_SI((fit)->clear_insert.height),                         \
      PW_SI((fit)->clear_insert.area), PW_SI((fit)->clear_existing.width),                     \
      PW_SI((fit)->clear_existing.height), PW_SI((fit)->clear_existing.area)

static pw_caution_state area(const caution_case *c, double want, pw_message *finding)
{
  double have = c->fit->clear_insert.area;
  if (have / PW_FOOT2 >= want) return PW_CAUTION_CLEAR;
  *finding = PW_SAYS(PW_SAY_ESCAPE_AREA, BOTH(c->fit), PW_SI(want * PW_FOOT2),
                     PW_SI(want * PW_FOOT2 - have));
  return PW_CAUTION_FAIL;
}

pw_caution_state caution_escape_area(const caution_case *c, pw_message *finding)
{
  return sleeping(c) && !c->opening->grade_floor ? area(c, SAFETY(EG1).limit, finding)
                                                 : PW_CAUTION_CLEAR;
}

pw_caution_state caution_escape_grade(const caution_case *c, pw_message *finding)
{
  return sleeping(c) && c->opening->grade_floor ? area(c, SAFETY(EG2).limit, finding)
                                                : PW_CAUTION_CLEAR;
}

static pw_caution_state least(const caution_case *c, pw_message_number say, double want,
                              double have, double old, pw_message *finding)
{
  if (!sleeping(c) || have >= want) return PW_CAUTION_CLEAR;
  *finding = PW_SAYS(say, PW_SI(have), PW_SI(old), PW_SI(want));
  return PW_CAUTION_FAIL;
}

pw_caution_state caution_escape_height(const caution_case *c, pw_message *finding)
{
  return least(c, PW_SAY_ESCAPE_HEIGHT, SAFETY(EG3).limit * PW_INCH,
               c->fit->clear_insert.height, c->fit->clear_existing.height, finding);
}

pw_caution_state caution_escape_width(const caution_case *c, pw_message *finding)
{
  return least(c, PW_SAY_ESCAPE_WIDTH, SAFETY(EG4).limit * PW_INCH, c->fit->clear_insert.width,
               c->fit->clear_existing.width, finding);
}

pw_caution_state caution_escape_sill(const caution_case *c, pw_message *finding)
{
  double most = SAFETY(EG5).limit * PW_INCH, have = c->fit->clear_insert.bottom;
  if (!sleeping(c)) return PW_CAUTION_CLEAR;
  if (have < 0.0) {
    *finding = PW_SAYS_PLAIN(PW_SAY_ESCAPE_BOTTOM_ASK);
    return PW_CAUTION_ASK;
  }
  if (have <= most) return PW_CAUTION_CLEAR;
  *finding = PW_SAYS(PW_SAY_ESCAPE_BOTTOM, PW_SI(have), PW_SI(c->fit->clear_existing.bottom),
                     PW_SI(most));
  return PW_CAUTION_FAIL;
}

/* Whether any limit fails, the room being taken for a sleeping room. */
static int any_escape_fails(const caution_case *c)
{
  return escape_lacks(c->opening, &c->fit->clear_insert) != 0;
}

/* What would do: the other measure that brings the area, at the clear size that is there. */
pw_caution_state caution_escape_missing(const caution_case *c, pw_message *finding)
{
  const pw_clear *n = &c->fit->clear_insert;
  double want = (c->opening->grade_floor ? SAFETY(EG2).limit : SAFETY(EG1).limit) * PW_FOOT2;
  if (!sleeping(c) || n->area >= want || !(n->width > 0.0 && n->height > 0.0))
    return PW_CAUTION_CLEAR;
  *finding = PW_SAYS(PW_SAY_ESCAPE_MISSING, PW_SI(want / n->width), PW_SI(n->width),
                     PW_SI(want / n->height), PW_SI(n->height));
  return PW_CAUTION_FLAG;
}

pw_caution_state caution_escape_exception(const caution_case *c, pw_message *finding)
{
  if (!sleeping(c) || !any_escape_fails(c)) return PW_CAUTION_CLEAR;
  int smaller = c->fit->clear_insert.area < c->fit->clear_existing.area;
  *finding = PW_SAYS_PLAIN(smaller ? PW_SAY_ESCAPE_EXCEPTION_SMALLER : PW_SAY_ESCAPE_EXCEPTION);
  return PW_CAUTION_FLAG;
}

pw_caution_state caution_escape_use(const caution_case *c, pw_message *finding)
{
  if (!sleeping(c)) return PW_CAUTION_CLEAR;
  *finding = PW_SAYS(PW_SAY_ESCAPE_USE, BOTH(c->fit));
  return PW_CAUTION_REMIND;
}

pw_caution_state caution_escape_named(const caution_case *c, pw_message *finding)
{
  if (!sleeping(c) || !c->opening->use_by_room) return PW_CAUTION_CLEAR;
  *finding = PW_SAYS(PW_SAY_ESCAPE_NAMED, PW_OWN);
  pw_message_own(finding, c->opening->room);
  return PW_CAUTION_FLAG;
}

pw_caution_state caution_escape_doubt(const caution_case *c, pw_message *finding)
{
  if (!c->opening->use_asks) return PW_CAUTION_CLEAR;
  *finding =
      PW_SAYS(any_escape_fails(c) ? PW_SAY_ESCAPE_DOUBT_FAILS : PW_SAY_ESCAPE_DOUBT_PASSES,
              PW_OWN, BOTH(c->fit));
  pw_message_own(finding, c->opening->room);
  return PW_CAUTION_ASK;
}
