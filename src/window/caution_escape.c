/* The way out of a sleeping room. */
#include <stdio.h>

#include "panewright/tape.h"
#include "panewright/units.h"
#include "window/caution_impl.h"

enum { TAPE = 24 };

static void tape(double length, char text[TAPE]) { pw_tape_text(length, 8, text, TAPE); }

static int sleeping(const caution_case *c) { return c->opening->use == PW_USE_BEDROOM; }

/* Both clear openings in words: "new 15 x 32 1/8 in = 3.3 ft2, now 16 1/4 x 33 1/2 = 3.8". */
static void both(const caution_case *c, char text[], size_t size)
{
  const pw_clear *n = &c->fit->clear_insert, *o = &c->fit->clear_existing;
  char nw[TAPE], nh[TAPE], ow[TAPE], oh[TAPE];
  tape(n->width, nw);
  tape(n->height, nh);
  tape(o->width, ow);
  tape(o->height, oh);
  snprintf(text, size,
           "clear opening new about %s x %s in = %.1f ft2, old about %s x %s = %.1f ft2", nw,
           nh, n->area / PW_FOOT2, ow, oh, o->area / PW_FOOT2);
}

static pw_caution_state area(const caution_case *c, double want, char finding[], size_t size)
{
  double have = c->fit->clear_insert.area / PW_FOOT2;
  if (have >= want) return PW_CAUTION_CLEAR;
  char text[160];
  both(c, text, sizeof text);
  snprintf(finding, size, "escape opening too small: %s; wants %.1f ft2, short by %.1f", text,
           want, want - have);
  return PW_CAUTION_FAIL;
}

pw_caution_state caution_escape_area(const caution_case *c, char finding[], size_t size)
{
  return sleeping(c) && !c->opening->grade_floor ? area(c, SAFETY(EG1).limit, finding, size)
                                                 : PW_CAUTION_CLEAR;
}

pw_caution_state caution_escape_grade(const caution_case *c, char finding[], size_t size)
{
  return sleeping(c) && c->opening->grade_floor ? area(c, SAFETY(EG2).limit, finding, size)
                                                : PW_CAUTION_CLEAR;
}

static pw_caution_state least(const caution_case *c, const char *what, double want, double have,
                              double old, char finding[], size_t size)
{
  if (!sleeping(c) || have >= want) return PW_CAUTION_CLEAR;
  char h[TAPE], w[TAPE], o[TAPE];
  tape(have, h);
  tape(want, w);
  tape(old, o);
  snprintf(finding, size, "escape opening: clear %s new about %s in, old about %s; wants %s",
           what, h, o, w);
  return PW_CAUTION_FAIL;
}

pw_caution_state caution_escape_height(const caution_case *c, char finding[], size_t size)
{
  return least(c, "height", SAFETY(EG3).limit * PW_INCH, c->fit->clear_insert.height,
               c->fit->clear_existing.height, finding, size);
}

pw_caution_state caution_escape_width(const caution_case *c, char finding[], size_t size)
{
  return least(c, "width", SAFETY(EG4).limit * PW_INCH, c->fit->clear_insert.width,
               c->fit->clear_existing.width, finding, size);
}

pw_caution_state caution_escape_sill(const caution_case *c, char finding[], size_t size)
{
  double most = SAFETY(EG5).limit * PW_INCH, have = c->fit->clear_insert.bottom;
  if (!sleeping(c)) return PW_CAUTION_CLEAR;
  if (have < 0.0) {
    snprintf(finding, size,
             "escape opening: height of its bottom above the floor is not given");
    return PW_CAUTION_ASK;
  }
  if (have <= most) return PW_CAUTION_CLEAR;
  char h[TAPE], w[TAPE], o[TAPE];
  tape(have, h);
  tape(most, w);
  tape(c->fit->clear_existing.bottom, o);
  snprintf(finding, size,
           "escape opening: its bottom stands about %s in above the floor (old %s); at most %s",
           h, o, w);
  return PW_CAUTION_FAIL;
}

/* Whether any limit fails, the room being taken for a sleeping room. */
static int any_escape_fails(const caution_case *c)
{
  return escape_lacks(c->opening, &c->fit->clear_insert) != 0;
}

/* What would do: the other measure that brings the area, at the clear size that is there. */
pw_caution_state caution_escape_missing(const caution_case *c, char finding[], size_t size)
{
  const pw_clear *n = &c->fit->clear_insert;
  double want = (c->opening->grade_floor ? SAFETY(EG2).limit : SAFETY(EG1).limit) * PW_FOOT2;
  if (!sleeping(c) || n->area >= want || !(n->width > 0.0 && n->height > 0.0))
    return PW_CAUTION_CLEAR;
  char w[TAPE], h[TAPE], need_h[TAPE], need_w[TAPE];
  tape(n->width, w);
  tape(n->height, h);
  tape(want / n->width, need_h);
  tape(want / n->height, need_w);
  snprintf(finding, size,
           "would need %s in clear height at %s in width, or %s in width at %s in height",
           need_h, w, need_w, h);
  return PW_CAUTION_FLAG;
}

pw_caution_state caution_escape_exception(const caution_case *c, char finding[], size_t size)
{
  if (!sleeping(c) || !any_escape_fails(c)) return PW_CAUTION_CLEAR;
  int smaller = c->fit->clear_insert.area < c->fit->clear_existing.area;
  snprintf(
      finding, size,
      "a replacement exception may apply where local code keeps it: largest standard size that "
      "fits, same operation or an equal or larger opening%s; the building official decides",
      smaller ? " (this one is smaller than the old)" : "");
  return PW_CAUTION_FLAG;
}

pw_caution_state caution_escape_use(const caution_case *c, char finding[], size_t size)
{
  if (!sleeping(c)) return PW_CAUTION_CLEAR;
  char text[160];
  both(c, text, sizeof text);
  snprintf(finding, size, "must open from inside without key or tool; %s", text);
  return PW_CAUTION_REMIND;
}

pw_caution_state caution_escape_named(const caution_case *c, char finding[], size_t size)
{
  if (!sleeping(c) || !c->opening->use_by_room) return PW_CAUTION_CLEAR;
  snprintf(finding, size,
           "'%s' reads like a sleeping room and counts as one: give use to say otherwise",
           c->opening->room);
  return PW_CAUTION_FLAG;
}

pw_caution_state caution_escape_doubt(const caution_case *c, char finding[], size_t size)
{
  if (!c->opening->use_asks) return PW_CAUTION_CLEAR;
  char text[160];
  both(c, text, sizeof text);
  snprintf(finding, size,
           "does anyone sleep in '%s'? Give use. As a sleeping room its escape opening %s; %s",
           c->opening->room, any_escape_fails(c) ? "would FAIL" : "would pass as computed",
           text);
  return PW_CAUTION_ASK;
}
