/* What the installer does at one opening: what to cut, the sealant joint, what to leave alone. */
#ifndef WINDOW_INSTALL_H
#define WINDOW_INSTALL_H

#include <stddef.h>

#include "panewright/fit.h"
#include "panewright/message.h"

enum { PW_INSTALL_LINES = 10 };

typedef struct pw_install {
  double movement; /* m, +- at each end of the longest side, 50 F about the day's temperature */
  double joint_wanted; /* m, what that movement wants of Class 25, to 1/16 in up */
  double gap; /* m, what the order size leaves a side between window and old frame; 0 unknown */
  double joint_width; /* m, window to old frame: joint_wanted, never more than the gap */
  double
      joint_class; /* sealant class that the movement wants in that joint: 25, 35, 50 or 100 */
  double joint_stucco; /* m, old frame to stucco; stays as it is where it is sound */
  double joint_depth;  /* m */
  double backer;       /* m, diameter of the closed-cell rod, to 1/8 in up */
  double bead_length;  /* m, round the opening */
  int paintable;       /* 0: this sealant takes no paint */
  int paint_stated;    /* 1: the job states the wait */
  double paint_days_low, paint_days_high; /* NAN when neither the job nor a source says */
  size_t n_line;
  pw_message line[PW_INSTALL_LINES]; /* plain sentences, in the order of the work */
} pw_install;

/* Given     opening and its fit; house (sealant, paint wait); kind of the insert's frame;
 *           safety_glass 1 when a caution calls for it
 * Returned  *install
 * Notes     1) Joint of Class 25 >= movement / class and at least 1/4 in, but never wider than the gap; a
 *              narrower one wants a higher class. Depth half the width, 1/8 to 1/2 in; rod 1.33 x.
 *           2) Names of the joints: pw_joint_drawing.
 * Source    reference/trade/measure.csv S1..S10, W1, E1, E2, E4 and measure.md item 9.
 */
void pw_install_plan(const pw_opening *opening, const pw_fit *fit, const pw_house_facts *house,
                     pw_frame_kind kind, int safety_glass, pw_install *install);

/* Of it only when the sealant may be painted: paintable, paint_stated, paint_days_low and _high.
 *
 * Source    reference/trade/measure.csv S6..S8; what the job states goes before. */
void pw_paint_wait(const pw_house_facts *house, pw_install *install);

/* The drawing of names: a section through a jamb, line by line, ended by NULL. One figure stands under
 * each joint, as pw_install has it. */
extern const char *const pw_joint_drawing[];

#endif
