/* The sound of a glass build-up: its panes as leaves, its spectrum, what to know about it. */
#ifndef WINDOW_GLASS_SOUND_H
#define WINDOW_GLASS_SOUND_H

#include "panewright/glazing.h"
#include "sound/sound_unit.h"

/* Computed, but doubtful. */
enum {
  PW_SOUND_LAMINATE = 1, /* loss and stiffness of an interlayer are from memory */
  PW_SOUND_TRIPLE = 2,   /* three panes or more: not validated */
  PW_SOUND_WIDE = 4,     /* a gap above 20 mm: up to 12 dB low */
  PW_SOUND_GAS = 8,      /* another gas than air: counted as air */
  PW_SOUND_OWN = 16,     /* a pane of the caller's own, or figured glass: as plain glass */
  PW_SOUND_PLASTIC = 32  /* a sheet of plastic: constants from memory */
};

/* One leaf a pane, by its row of reference/panes.csv; a pane that is not there counts as plain glass.
 *
 * Given     at   0 to 1, place between low and high of an interlayer (leaf.h); 0.5 the middle
 * Returned  leaf[n_pane], gap[n_pane - 1] (m), *notes
 * Status    PW_OK; PW_E_SHAPE n_pane; PW_E_DOMAIN a thickness, or a laminate of unknown plies
 */
pw_status pw_glass_leaves(const pw_buildup *buildup, double at, pw_leaf leaf[PW_LEAVES_MAX],
                          double gap[PW_LEAVES_MAX - 1], unsigned *notes, pw_err *err);

/* Its sound reduction under a parameter set (NULL: safe). notes may be NULL. */
pw_status pw_glass_sound(const pw_buildup *buildup, const pw_sound_set *set, double at,
                         pw_thirds *out, unsigned *notes, pw_err *err);

#endif
