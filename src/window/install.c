#include "panewright/install.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "gen/reference.h"
#include "panewright/tape.h"
#include "panewright/units.h"

enum { TAPE = 24 };

/* A row of reference/trade/measure.csv by its id; one that is not there ends the build. */
#define MEASURE(id) (&pw_ref_trade_measure[pw_ref_trade_measure__##id])

static double tape_up(double length, int denominator)
{
  return -pw_tape_floor(-length, denominator);
}

#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
static void
say(pw_install *p, const char *format, ...)
{
  if (p->n_line == PW_INSTALL_LINES) return;
  va_list args;
  va_start(args, format);
  vsnprintf(p->line[p->n_line++], sizeof p->line[0], format, args);
  va_end(args);
}

const char *const pw_joint_drawing[] = {
    "   outside          A                       B                         ",
    "  ------------+   |   |  +-------------+  |   |  +---------+----------",
    "   stucco     |   | s |  |  old frame, |  | s |  |  new    |  glass   ",
    "              |   | e |  |  stays      |  | e |  |  window |          ",
    "   wall       |   | a |  |             |  | a |  |         |----------",
    "  ------------+   | l |  +-------------+  | l |  +---------+          ",
    "   inside                                                             ",
    NULL};

/* The least class of ASTM C920 (measure.csv S2) that the movement wants in a joint of that width. */
static double class_for(double movement, double joint)
{
  static const double of[] = {25.0, 35.0, 50.0};
  for (size_t i = 0; i < sizeof of / sizeof of[0]; i++)
    if (movement <= 0.01 * of[i] * joint + 1e-12) return of[i];
  return 100.0;
}

/* Joint from the frame's movement: measure.md item 9. */
static void plan_joint(const pw_fit *fit, pw_frame_kind kind, pw_install *p)
{
  static const double swing_f = 50.0, joint_class = 0.25; /* +-50 F; ASTM C920 Class 25 */
  const pw_ref_trade_measure_row *row = kind == PW_FRAME_VINYL ? MEASURE(E1)
                                        : kind == PW_FRAME_FIBREGLASS
                                            ? MEASURE(E4)
                                            : MEASURE(E2); /* wood moves less than aluminium */
  double longest = fmax(fit->order_width, fit->order_height);
  p->movement = 0.5 * row->typical * swing_f * longest;
  double least = MEASURE(S3)->typical * PW_INCH;
  p->joint_wanted = tape_up(fmax(p->movement / joint_class, least), 16);
  double gap_w = 0.5 * (fit->pocket_width - fit->order_width),
         gap_h = 0.5 * (fit->pocket_height - fit->order_height);
  p->gap = fit->shape.kind == PW_SHAPE_RECTANGLE ? fmax(0.0, fmin(gap_w, gap_h)) : fit->gap;
  p->joint_width =
      p->gap > 0.0 ? fmin(p->joint_wanted, pw_tape_floor(p->gap, 16)) : p->joint_wanted;
  p->joint_class = class_for(p->movement, p->joint_width);
  p->joint_stucco = least;
  p->joint_depth =
      fmin(fmax(0.5 * p->joint_width, MEASURE(S4)->low * PW_INCH), MEASURE(S4)->high * PW_INCH);
  p->backer = tape_up(MEASURE(S5)->typical * p->joint_width, 8);
  p->bead_length = fit->opening_perimeter;
}

static void plan_paint(const pw_house_facts *house, pw_install *p)
{
  p->paintable = strcmp(house->sealant, "silicone") != 0; /* S8 */
  p->paint_stated = house->paint_wait_days > 0.0;
  p->paint_days_low = p->paint_days_high = (double)NAN;
  const pw_ref_trade_measure_row *row = strcmp(house->sealant, "polyurethane") == 0
                                            ? MEASURE(S6)
                                        : strcmp(house->sealant, "acrylic") == 0 ? MEASURE(S7)
                                                                                 : NULL;
  if (row) {
    p->paint_days_low = row->low;
    p->paint_days_high = row->high;
  }
  if (p->paint_stated) p->paint_days_low = p->paint_days_high = house->paint_wait_days;
}

static void say_cuts(const pw_opening *o, const pw_fit *fit, pw_install *p)
{
  char fin[TAPE], lip[TAPE], w[TAPE], h[TAPE];
  pw_tape_text(o->fin_width, 16, fin, sizeof fin);
  pw_tape_text(o->sill_lip, 16, lip, sizeof lip);
  int fins = o->fin_width > 0.0 && !o->fins_stay ? o->fins_cut : 0;
  int cut_lip = o->sill_lip > 0.0 && !o->lip_stay && o->sill_lip_cut;
  if (fins || cut_lip)
    say(p,
        "Cut back %s%s%s%s%s%s%s: first see what holds the old frame to the wall and where it "
        "drains; dull the edges.",
        fins == 2   ? "both side fins ("
        : fins == 1 ? "one side fin ("
                    : "",
        fins ? fin : "", fins ? " in)" : "", fins && cut_lip ? " and " : "",
        cut_lip ? "the sill lip (" : "", cut_lip ? lip : "", cut_lip ? " in)" : "");
  else
    say(p, "Cut nothing of the old frame.");
  if (o->fin_width > 0.0 && fins < 2)
    say(p, "Leave %s (%s in)%s.", fins == 1 ? "the other side fin" : "both side fins", fin,
        o->fins_stay ? ": they cannot come off" : "");
  if (o->sill_lip > 0.0 && !cut_lip)
    say(p, "Leave the sill lip (%s in)%s.", lip, o->lip_stay ? ": it cannot come off" : "");
  pw_tape_text(fit->pocket_width, 16, w, sizeof w);
  pw_tape_text(fit->pocket_height, 16, h, sizeof h);
  char ow[TAPE], oh[TAPE], lean[TAPE];
  pw_tape_text(fit->order_width, 8, ow, sizeof ow);
  pw_tape_text(fit->order_height, 8, oh, sizeof oh);
  pw_tape_text(fit->lean, 16, lean, sizeof lean);
  if (fit->shape.kind != PW_SHAPE_RECTANGLE) {
    say(p,
        "Dry fit the %s (%s in wide, %s in high in all) in its pocket; shim level and plumb%s.",
        pw_shape_name(fit->shape.kind), ow, oh,
        pw_shape_wants_template(fit->shape.kind) ? ", hold the template to both" : "");
    return;
  }
  say(p, "Dry fit %s x %s in in a pocket of %s x %s in; shim level and plumb%s%s%s.", ow, oh, w,
      h, fit->lean > 0.0625 * PW_INCH ? ", the pocket leans " : "",
      fit->lean > 0.0625 * PW_INCH ? lean : "", fit->lean > 0.0625 * PW_INCH ? " in" : "");
}

static void say_paint(const pw_house_facts *house, pw_install *p)
{
  if (!p->paintable)
    say(p, "Silicone takes no paint: match its colour.");
  else if (p->paint_stated)
    say(p, "Paint the sealant after %g days, as the job states.", p->paint_days_low);
  else if (isfinite(p->paint_days_low))
    say(p, "Paint the %s after %g to %g days, as its data sheet says.", house->sealant,
        p->paint_days_low, p->paint_days_high);
  else
    say(p, "Paint the sealant when its data sheet says so.");
}

static void say_joints(const pw_house_facts *house, pw_install *p)
{
  char j[TAPE], d[TAPE], b[TAPE], g[TAPE], w[TAPE], s[TAPE];
  pw_tape_text(p->joint_width, 16, j, sizeof j);
  pw_tape_text(p->joint_depth, 16, d, sizeof d);
  pw_tape_text(p->backer, 8, b, sizeof b);
  pw_tape_text(p->gap, 16, g, sizeof g);
  pw_tape_text(p->joint_wanted, 16, w, sizeof w);
  pw_tape_text(p->joint_stucco, 16, s, sizeof s);
  say(p,
      "Joint B, window to old frame: seal outside with %s (ASTM C920, Class %g or better): %s "
      "in "
      "wide, %s in deep, over %s in closed-cell rod, dry and %g to %g F.",
      house->sealant[0] ? house->sealant : "sealant", p->joint_class, j, d, b,
      MEASURE(S10)->low, MEASURE(S10)->high);
  if (p->gap > 0.0 && p->joint_width < p->joint_wanted - 1e-9)
    say(p, "The order leaves %s in a side; a joint of Class 25 would want %s in.", g, w);
  say(p,
      "Joint A, old frame to stucco: leave it where it is sound, else renew it %s in wide with "
      "the same.",
      s);
}

void pw_install_plan(const pw_opening *opening, const pw_fit *fit, const pw_house_facts *house,
                     pw_frame_kind kind, int safety_glass, pw_install *install)
{
  pw_install p = {0};
  plan_joint(fit, kind, &p);
  plan_paint(house, &p);
  say_cuts(opening, fit, &p);
  say_joints(house, &p);
  say(&p, "Do not disturb stucco, flashing, framing or header; keep the weeps of both frames "
          "open; do "
          "not foam hard.");
  if (safety_glass)
    say(&p, "Safety glass: see the permanent mark in each pane before setting it.");
  say_paint(house, &p);
  *install = p;
}
