#include "window/install.h"

#include <math.h>
#include <string.h>

#include "base/tape.h"
#include "gen/reference.h"
#include "panewright/units.h"

/* A row of reference/trade/measure.csv by its id; one that is not there ends the build. */
#define MEASURE(id) (&pw_ref_trade_measure[pw_ref_trade_measure__##id])

static double tape_up(double length, int denominator)
{
  return -pw_tape_floor(-length, denominator);
}

static void say(pw_install *p, pw_message line)
{
  if (p->n_line < PW_INSTALL_LINES) p->line[p->n_line++] = line;
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

void pw_paint_wait(const pw_house_facts *house, pw_install *p)
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

static void say_cuts(const pw_opening *o, pw_install *p)
{
  int fins = o->fin_width > 0.0 && !o->fins_stay ? o->fins_cut : 0;
  int lip = o->sill_lip > 0.0 && !o->lip_stay && o->sill_lip_cut;
  if (fins && lip)
    say(p, PW_SAYS(fins == 2 ? PW_SAY_CUT_FINS_LIP : PW_SAY_CUT_FIN_LIP, PW_SI(o->fin_width),
                   PW_SI(o->sill_lip)));
  else if (fins)
    say(p, PW_SAYS(fins == 2 ? PW_SAY_CUT_FINS : PW_SAY_CUT_FIN, PW_SI(o->fin_width)));
  else if (lip)
    say(p, PW_SAYS(PW_SAY_CUT_LIP, PW_SI(o->sill_lip)));
  else
    say(p, PW_SAYS_PLAIN(PW_SAY_CUT_NOTHING));
  if (o->fin_width > 0.0 && fins < 2)
    say(p, PW_SAYS(o->fins_stay ? PW_SAY_LEAVE_FINS_STAY
                   : fins == 1  ? PW_SAY_LEAVE_FIN
                                : PW_SAY_LEAVE_FINS,
                   PW_SI(o->fin_width)));
  if (o->sill_lip > 0.0 && !lip)
    say(p,
        PW_SAYS(o->lip_stay ? PW_SAY_LEAVE_LIP_STAYS : PW_SAY_LEAVE_LIP, PW_SI(o->sill_lip)));
}

static void say_set(const pw_fit *fit, pw_install *p)
{
  pw_shape_kind shape = fit->shape.kind;
  if (shape != PW_SHAPE_RECTANGLE)
    say(p,
        PW_SAYS(pw_shape_wants_template(shape) ? PW_SAY_DRY_FIT_TEMPLATE : PW_SAY_DRY_FIT_SHAPE,
                PW_INT(shape), PW_SI(fit->order_width), PW_SI(fit->order_height)));
  else if (fit->lean > 0.0625 * PW_INCH)
    say(p, PW_SAYS(PW_SAY_DRY_FIT_LEANS, PW_SI(fit->order_width), PW_SI(fit->order_height),
                   PW_SI(fit->pocket_width), PW_SI(fit->pocket_height), PW_SI(fit->lean)));
  else
    say(p, PW_SAYS(PW_SAY_DRY_FIT, PW_SI(fit->order_width), PW_SI(fit->order_height),
                   PW_SI(fit->pocket_width), PW_SI(fit->pocket_height)));
}

/* A sentence that names the job's sealant. */
static pw_message of_sealant(pw_message m, const pw_house_facts *house)
{
  pw_message_own(&m, house->sealant);
  return m;
}

static void say_paint(const pw_house_facts *house, pw_install *p)
{
  if (!p->paintable)
    say(p, PW_SAYS_PLAIN(PW_SAY_PAINT_NEVER));
  else if (p->paint_stated)
    say(p, PW_SAYS(PW_SAY_PAINT_STATED, PW_SI(p->paint_days_low)));
  else if (isfinite(p->paint_days_low))
    say(p, of_sealant(PW_SAYS(PW_SAY_PAINT_SHEET, PW_OWN, PW_SI(p->paint_days_low),
                              PW_SI(p->paint_days_high)),
                      house));
  else
    say(p, PW_SAYS_PLAIN(PW_SAY_PAINT_ASK));
}

static void say_joints(const pw_house_facts *house, pw_install *p)
{
#define JOINT                                                                                  \
  PW_SI(p->joint_class), PW_SI(p->joint_width), PW_SI(p->joint_depth), PW_SI(p->backer),       \
      PW_SI(pw_k_from_f(MEASURE(S10)->low)), PW_SI(pw_k_from_f(MEASURE(S10)->high))
  say(p, house->sealant[0] ? of_sealant(PW_SAYS(PW_SAY_JOINT_B, PW_OWN, JOINT), house)
                           : PW_SAYS(PW_SAY_JOINT_B_ANY, JOINT));
#undef JOINT
  if (p->gap > 0.0 && p->joint_width < p->joint_wanted - 1e-9)
    say(p, PW_SAYS(PW_SAY_JOINT_NARROW, PW_SI(p->gap), PW_SI(p->joint_wanted)));
  say(p, PW_SAYS(PW_SAY_JOINT_A, PW_SI(p->joint_stucco)));
}

void pw_install_plan(const pw_opening *opening, const pw_fit *fit, const pw_house_facts *house,
                     pw_frame_kind kind, int safety_glass, pw_install *install)
{
  pw_install p = {0};
  plan_joint(fit, kind, &p);
  pw_paint_wait(house, &p);
  say_cuts(opening, &p);
  say_set(fit, &p);
  say_joints(house, &p);
  say(&p, PW_SAYS_PLAIN(PW_SAY_LEAVE_ALONE));
  if (safety_glass) say(&p, PW_SAYS_PLAIN(PW_SAY_SEE_MARK));
  say_paint(house, &p);
  *install = p;
}
