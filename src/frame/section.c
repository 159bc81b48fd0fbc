#include "frame/section.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/hash.h"

static const double EMIT_DEFAULT = 0.9; /* ISO 10077-2, surfaces other than bare metal */
static const double PANEL = 0.035;      /* W/(m K), ISO 10077-2:2012 Annex C */
static const double SIZE_MAX_M = 100.0; /* no coordinate beyond this */

void pw_section_init(pw_section *section) { *section = (pw_section){.sight_line = NAN}; }

void pw_section_free(pw_section *section)
{
  if (!section) return;
  free(section->part);
  free(section->material);
  free(section->slot);
  pw_section_init(section);
}

/* Air zones, hollows and gaps by their words; 0 when the word is none of them. */
static int word_zone(const char *word, pw_section_material *m)
{
  static const struct {
    const char *word;
    pw_zone zone;
  } air[] = {{"outdoor", PW_ZONE_OUTDOOR},
             {"indoor", PW_ZONE_INDOOR},
             {"indoor_reduced", PW_ZONE_INDOOR_REDUCED}};
  for (size_t i = 0; i < sizeof air / sizeof air[0]; i++)
    if (strcmp(word, air[i].word) == 0) {
      m->zone = air[i].zone;
      return 1;
    }
  if (strncmp(word, "cavity", 6) == 0 && (word[6] == '\0' || word[6] == '_')) {
    int vented = strncmp(word, "cavity_vent", 11) == 0 && (word[11] == '\0' || word[11] == '_');
    m->zone = vented ? PW_ZONE_HOLLOW_VENTED : PW_ZONE_HOLLOW;
    return 1;
  }
  if (strncmp(word, "gap", 3) == 0 &&
      (word[3] == '\0' || (word[3] >= '1' && word[3] <= '3' && word[4] == '\0'))) {
    m->kind = PW_MATERIAL_GLASS_GAP;
    m->gap = word[3] ? word[3] - '0' : 1;
    return 1;
  }
  if (strcmp(word, "spacer") == 0) {
    m->kind = PW_MATERIAL_GLASS_EDGE;
    m->stands = PW_STANDS_SPACER;
    return 1;
  }
  if (strcmp(word, "filling") == 0) {
    m->stands = PW_STANDS_FILLING;
    return 1;
  }
  return 0;
}

static pw_status unknown_material(const char *word, pw_err *err)
{
  static const char *const words[] = {"outdoor", "indoor",      "indoor_reduced",
                                      "cavity",  "cavity_vent", "gap",
                                      "spacer",  "filling",     "sightline"};
  const char *near = pw_material_nearest(word, words, sizeof words / sizeof words[0]);
  if (near)
    return pw_fail(err, PW_E_DATA, "material",
                   "no material '%s' and no conductivity given; did you mean %s?", word, near);
  return pw_fail(err, PW_E_DATA, "material",
                 "no material '%s'; give conductivity_w_mk, or a name of `panewright tables "
                 "section/materials`",
                 word);
}

static pw_status make_material(const char *word, double conductivity, double emissivity,
                               pw_section_material *m, pw_err *err)
{
  *m = (pw_section_material){.conductivity = conductivity, .emissivity = EMIT_DEFAULT};
  if (word[0] == '\0') return pw_fail(err, PW_E_DATA, "material", "the material is missing");
  if (strlen(word) >= PW_SECTION_NAME_MAX)
    return pw_fail(err, PW_E_DATA, "material",
                   "'%.20s...': a material name has at most %d letters", word,
                   PW_SECTION_NAME_MAX - 1);
  strcpy(m->name, word);
  pw_material known;
  int plain = !word_zone(word, m);
  if (plain && pw_material_find(word, &known)) {
    m->kind = known.kind;
    m->emissivity = known.emissivity;
    if (isnan(conductivity)) m->conductivity = known.conductivity;
  } else if (plain && isnan(conductivity)) {
    return unknown_material(word, err);
  } else if (plain && strcmp(word, "panel") == 0 && conductivity == PANEL) {
    m->kind = PW_MATERIAL_PANEL;
  }
  if (!plain && !m->gap && !m->stands && !isnan(conductivity))
    return pw_fail(err, PW_E_DATA, "conductivity_w_mk",
                   "%s takes no conductivity (found %g); use another material name", word,
                   conductivity);
  if (!isnan(m->conductivity) && !(m->conductivity >= 1e-4 && m->conductivity <= 1e4))
    return pw_fail(err, PW_E_DOMAIN, "conductivity_w_mk",
                   "conductivity %g, want 0.0001 to 10000", conductivity);
  if (!isnan(emissivity)) m->emissivity = emissivity;
  if (!(m->emissivity >= 0.01 && m->emissivity <= 1.0))
    return pw_fail(err, PW_E_DOMAIN, "emissivity", "emissivity %g, want 0.01 to 1", emissivity);
  return PW_OK;
}

static size_t hash(const pw_section_material *m)
{
  uint64_t h = pw_hash_mix(PW_HASH_START, m->name, strlen(m->name));
  const double value[2] = {isnan(m->conductivity) ? -1.0 : m->conductivity, m->emissivity};
  h = pw_hash_mix(h, value, sizeof value);
  return (size_t)(h ^ (h >> 29));
}

static int same(const pw_section_material *a, const pw_section_material *b)
{
  int k =
      (isnan(a->conductivity) && isnan(b->conductivity)) || a->conductivity == b->conductivity;
  return k && a->emissivity == b->emissivity && strcmp(a->name, b->name) == 0;
}

static int grow_slots(pw_section *s)
{
  size_t n = s->n_slot ? 2 * s->n_slot : 64;
  size_t *slot = calloc(n, sizeof *slot);
  if (!slot) return 0;
  for (size_t i = 0; i < s->n_material; i++) {
    size_t at = hash(&s->material[i]) & (n - 1);
    while (slot[at])
      at = (at + 1) & (n - 1);
    slot[at] = i + 1;
  }
  free(s->slot);
  s->slot = slot;
  s->n_slot = n;
  return 1;
}

/* The index of m in the section's list, added when new; -1 without memory. */
static int intern(pw_section *s, const pw_section_material *m)
{
  if (2 * (s->n_material + 1) > s->n_slot && !grow_slots(s)) return -1;
  size_t at = hash(m) & (s->n_slot - 1);
  for (; s->slot[at]; at = (at + 1) & (s->n_slot - 1))
    if (same(&s->material[s->slot[at] - 1], m)) return (int)(s->slot[at] - 1);
  if (s->n_material == s->room_material) {
    size_t room = s->room_material ? 2 * s->room_material : 16;
    pw_section_material *grown = realloc(s->material, room * sizeof *grown);
    if (!grown) return -1;
    s->material = grown;
    s->room_material = room;
  }
  s->material[s->n_material] = *m;
  s->slot[at] = ++s->n_material;
  return (int)(s->n_material - 1);
}

static pw_status add_part(pw_section *s, const pw_section_part *part, pw_err *err)
{
  if (s->n_part == s->room_part) {
    size_t room = s->room_part ? 2 * s->room_part : 64;
    pw_section_part *grown = realloc(s->part, room * sizeof *grown);
    if (!grown) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu rectangles", room);
    s->part = grown;
    s->room_part = room;
  }
  s->part[s->n_part++] = *part;
  return PW_OK;
}

pw_status pw_section_add(pw_section *section, double x0, double y0, double x1, double y1,
                         const char *material, double conductivity, double emissivity, int line,
                         pw_err *err)
{
  const double at[4] = {x0, y0, x1, y1};
  static const char *const name[4] = {"x0", "y0", "x1", "y1"};
  for (int i = 0; i < 4; i++)
    if (!(fabs(at[i]) <= SIZE_MAX_M))
      return pw_fail(err, PW_E_DOMAIN, name[i], "%s %g m, want within %g m of 0", name[i],
                     at[i], SIZE_MAX_M);
  if (!(x1 > x0))
    return pw_fail(err, PW_E_DOMAIN, "x1", "x1 %g mm is not above x0 %g mm", 1e3 * x1,
                   1e3 * x0);
  if (!(y1 > y0))
    return pw_fail(err, PW_E_DOMAIN, "y1", "y1 %g mm is not above y0 %g mm", 1e3 * y1,
                   1e3 * y0);
  pw_section_material m;
  pw_status status = make_material(material, conductivity, emissivity, &m, err);
  if (status != PW_OK) return status;
  int index = intern(section, &m);
  if (index < 0) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for materials");
  return add_part(section, &(pw_section_part){x0, y0, x1, y1, index, line}, err);
}

pw_status pw_section_panel(pw_section *section, pw_err *err)
{
  double x0 = INFINITY, y0 = INFINITY, x1 = -INFINITY, y1 = -INFINITY;
  for (size_t i = 0; i < section->n_part; i++) {
    const pw_section_part *p = &section->part[i];
    pw_material_kind kind = section->material[p->material].kind;
    if (kind != PW_MATERIAL_GLASS && kind != PW_MATERIAL_GLASS_GAP) continue;
    x0 = fmin(x0, p->x0);
    y0 = fmin(y0, p->y0);
    x1 = fmax(x1, p->x1);
    y1 = fmax(y1, p->y1);
  }
  if (!(x1 > x0))
    return pw_fail(err, PW_E_DATA, "panel",
                   "no glass is drawn that a panel could take the place of");
  return pw_section_add(section, x0, y0, x1, y1, "insulation_panel", NAN, NAN, 0, err);
}
