#include "study/rank_sound.h"

#include <string.h>

#include "base/hash.h"
#include "window/glass_sound.h"

static uint64_t key_of(const pw_buildup *b)
{
  uint64_t h = PW_HASH_START;
  for (size_t i = 0; i < b->n_pane; i++) {
    h = pw_hash_mix(h, &b->pane[i].thickness, sizeof b->pane[i].thickness);
    h = pw_hash_mix(h, b->pane[i].kind, strlen(b->pane[i].kind) + 1);
    if (i + 1 < b->n_pane) h = pw_hash_mix(h, &b->gap[i].thickness, sizeof b->gap[i].thickness);
  }
  return h ? h : 1;
}

pw_status rank_sound_of(rank_sound *m, const pw_buildup *glass, const rank_sound_slot **out,
                        pw_err *err)
{
  uint64_t key = key_of(glass);
  rank_sound_slot *slot = &m->slot[(size_t)(key ^ (key >> 32)) % RANK_SOUND_SLOTS];
  *out = slot;
  if (slot->key == key) return PW_OK;
  pw_thirds r;
  pw_status status = pw_glass_sound(glass, NULL, 0.5, &r, NULL, err);
  if (status == PW_OK) status = pw_single_number_of(&r, &slot->number, err);
  slot->key = status == PW_OK ? key : 0;
  slot->rw_ctr = pw_rw_ctr(&r);
  return status;
}
