#include "panewright/house_facts.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "house/airing.h"
#include "house/ground.h"
#include "house/preset.h"
#include "panewright/units.h"

/* What stands inside: as much partition as floor, both faces in the room, and furniture. Common
 * practice, no source; the mass spread of the range study covers it. */
static const double partition_share = 1.0;  /* m2 of wall a m2 of floor */
static const double furniture_share = 0.35; /* m2 of 40 mm wood a m2 of floor */
static const double gain_usual = 5.0;   /* W/m2, dwelling mean of ISO 13790 annex G, memory */
static const double gain_radiant = 0.6; /* Standard 140, public specification */

static const double facade_deg[4] = {0.0, 90.0, 180.0, 270.0};

static void note(pw_house_notes *notes, pw_message_number item, const char *source,
                 pw_message value)
{
  if (notes->n_assumed == PW_HOUSE_ASSUMED_MAX) return;
  notes->assumed[notes->n_assumed++] = (pw_house_assumed){item, value, source};
}

static void note_preset(pw_house_notes *notes, pw_message_number item, const pw_preset *preset)
{
  pw_message value = PW_SAYS(PW_SAY_OF_PRESET, PW_OWN);
  pw_message_own(&value, preset->name);
  note(notes, item, preset->source, value);
}

static pw_house_part *add_part(pw_house *house, const char *name, const pw_wall_layers *layers,
                               double area)
{
  pw_house_part *p = &house->part[house->n_part++];
  *p = (pw_house_part){.layers = *layers, .area = area, .tilt_deg = 90.0, .emittance = 0.9};
  snprintf(p->name, sizeof p->name, "%s", name);
  return p;
}

/* The facade that a hole faces best. */
static size_t facade_of(double facing_deg)
{
  double turned = fmod(fmod(facing_deg + 45.0, 360.0) + 360.0, 360.0);
  return (size_t)(turned / 90.0) % 4;
}

static pw_status walls(const pw_house_facts *f, const pw_house_hole holes[], size_t n_hole,
                       double side, double wall_height, pw_house *house, pw_house_notes *notes,
                       pw_err *err)
{
  pw_preset preset;
  pw_status status =
      pw_preset_find(pw_ref_house_presets__part_wall, f->wall, f->year_built, &preset, err);
  if (status != PW_OK) return status;
  if (!f->wall[0]) note_preset(notes, PW_SAY_ASSUMED_WALL, &preset);
  double hole[4] = {0};
  for (size_t i = 0; i < n_hole; i++)
    hole[facade_of(holes[i].facing_deg)] += holes[i].area;
  static const char *const name[] = {"wall N", "wall E", "wall S", "wall W"};
  for (size_t i = 0; i < 4; i++) {
    double area = side * wall_height - hole[i];
    if (!(area > 0.0))
      return pw_fail(err, PW_E_DOMAIN, "openings",
                     "%.1f m2 of openings face %.0f degrees, the wall there has %.1f m2: check "
                     "floor_area, storeys and facing",
                     hole[i], facade_deg[i], side * wall_height);
    pw_house_part *p = add_part(house, name[i], &preset.layers, area);
    p->facing_deg = facade_deg[i];
    p->rough = PW_ROUGH_STUCCO;
    p->absorptance = preset.absorptance;
  }
  return PW_OK;
}

static pw_status roof(const pw_house_facts *f, double footprint, pw_house *house,
                      pw_house_notes *notes, pw_err *err)
{
  pw_preset preset;
  pw_status status =
      pw_preset_find(pw_ref_house_presets__part_roof, f->roof, f->year_built, &preset, err);
  if (status != PW_OK) return status;
  if (!f->roof[0]) note_preset(notes, PW_SAY_ASSUMED_ROOF, &preset);
  pw_house_part *p = add_part(house, "roof", &preset.layers, footprint);
  p->tilt_deg = 0.0;
  p->rough = PW_ROUGH_BRICK;
  p->absorptance = preset.absorptance;
  return PW_OK;
}

static pw_status ground_floor(const pw_house_facts *f, const pw_weather *weather,
                              double footprint, pw_house *house, pw_house_notes *notes,
                              pw_err *err)
{
  pw_preset preset;
  pw_status status =
      pw_preset_find(pw_ref_house_presets__part_floor, f->floor, f->year_built, &preset, err);
  if (status != PW_OK) return status;
  if (!f->floor[0]) note_preset(notes, PW_SAY_ASSUMED_FLOOR, &preset);
  int slab = strcmp(preset.name, "slab") == 0;
  pw_wall_layers layers = {.n_layer = preset.layers.n_layer + 1};
  /* Under an open floor the crawl space: about half an air change of still air, R 0.2 (assumed). */
  layers.layer[0] = (pw_wall_layer){
      .resistance =
          slab ? ground_soil_resistance(sqrt(footprint), pw_wall_resistance(&preset.layers))
               : 0.2};
  memcpy(&layers.layer[1], preset.layers.layer, preset.layers.n_layer * sizeof layers.layer[0]);
  pw_house_part *p = add_part(house, "floor", &layers, footprint);
  p->tilt_deg = 180.0;
  p->outside = slab ? PW_OUTSIDE_GROUND : PW_OUTSIDE_AIR;
  p->floor = 1;
  pw_house_ground(house, weather, PW_GROUND_YEAR, house->ground_c);
  return PW_OK;
}

static void contents(double floor_area, double footprint, pw_house *house)
{
  static const pw_wall_layers partition = {
      .n_layer = 3,
      .layer = {{.thickness = 0.0127, .conductivity = 0.16, .density = 950.0, .heat = 840.0},
                {.resistance = 0.16},
                {.thickness = 0.0127, .conductivity = 0.16, .density = 950.0, .heat = 840.0}}};
  static const pw_wall_layers furniture = {
      .n_layer = 1,
      .layer = {{.thickness = 0.04, .conductivity = 0.12, .density = 510.0, .heat = 1380.0}}};
  add_part(house, "partitions", &partition, partition_share * floor_area)->outside =
      PW_OUTSIDE_SAME;
  pw_house_part *p = add_part(house, "furniture", &furniture, furniture_share * floor_area);
  p->outside = PW_OUTSIDE_SAME;
  if (floor_area > 1.01 * footprint) { /* floors between storeys */
    static const pw_wall_layers deck = {
        .n_layer = 3,
        .layer = {
            {.thickness = 0.0127, .conductivity = 0.16, .density = 950.0, .heat = 840.0},
            {.resistance = 0.18},
            {.thickness = 0.019, .conductivity = 0.12, .density = 540.0, .heat = 1210.0}}};
    p = add_part(house, "floors between", &deck, floor_area - footprint);
    p->outside = PW_OUTSIDE_SAME;
  }
}

/* A stated envelope UA: the resistance of every part to outdoors is scaled alike, through a bare
 * layer in the middle, or, where parts must become better conductors, through their cavities. */
static pw_status scale_envelope(double ua, pw_house *house, pw_err *err)
{
  double low = -0.9, high = 50.0, now = 0.0, ground = 0.0;
  pw_house trial;
  for (int i = 0; i < 60; i++) { /* bisection in the factor on each part's resistance */
    double k = 0.5 * (low + high);
    trial = *house;
    for (size_t p = 0; p < trial.n_part; p++) {
      pw_house_part *part = &trial.part[p]; /* what stands inside comes later */
      size_t widest = 0;
      for (size_t l = 0; l < part->layers.n_layer; l++)
        if (pw_wall_layer_resistance(&part->layers.layer[l]) >
            pw_wall_layer_resistance(&part->layers.layer[widest]))
          widest = l;
      pw_wall_layer *layer = &part->layers.layer[widest];
      if (layer->thickness > 0.0)
        layer->conductivity /= 1.0 + k;
      else
        layer->resistance *= 1.0 + k;
    }
    pw_house_ua(&trial, &now, &ground);
    if (now + ground > ua)
      low = k;
    else
      high = k;
  }
  if (fabs(now + ground - ua) > 0.01 * ua)
    return pw_fail(err, PW_E_DOMAIN, "envelope_ua",
                   "job.csv: envelope_ua %.0f W/K cannot be met by this house (nearest %.0f)",
                   ua, now + ground);
  *house = trial;
  return PW_OK;
}

int pw_house_is_night(int hour) { return hour < 6 || hour >= 22; }

static void set_points(const pw_house_facts *f, pw_house *house)
{
  double heat = pw_positive_or(&f->heat_set_c, 21.0),
         cool = pw_positive_or(&f->cool_set_c, 25.0);
  double back = pw_given_or(&f->setback_k, 0.0);
  for (int h = 0; h < 24; h++) {
    house->heat_set_c[h] = pw_house_is_night(h) ? heat - back : heat;
    if (strcmp(f->heating_kind, "none") == 0) house->heat_set_c[h] = (double)NAN; /* floats */
    house->cool_set_c[h] = strcmp(f->cooling_kind, "none") == 0 ? (double)NAN : cool;
  }
  house->warm_c = cool;
  pw_airing_of((pw_airing_habit)f->airing, heat, house->cool_set_c[0], &house->airing);
}

static pw_status air_changes(const pw_house_facts *f, pw_house *house, pw_house_notes *notes,
                             pw_err *err)
{
  house->air_changes = f->air_changes.value;
  if (f->air_changes.value > 0.0) return PW_OK;
  pw_preset preset;
  pw_status status =
      pw_preset_find(pw_ref_house_presets__part_air_changes, "", f->year_built, &preset, err);
  if (status != PW_OK) return status;
  house->air_changes = preset.value;
  note(notes, PW_SAY_ASSUMED_AIR, preset.source, PW_SAYS(PW_SAY_OF_AIR, PW_SI(preset.value)));
  return PW_OK;
}

/* ISO 13790 table 12: A_m and C_m by class (from memory). */
static void mass_class(const char *mass, pw_house *house)
{
  static const struct {
    const char *name;
    double area, store; /* m2 and J/K a m2 of floor */
  } row[] = {
      {"", 2.5, 110e3}, {"light", 2.5, 110e3}, {"medium", 2.5, 165e3}, {"heavy", 3.0, 260e3}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    if (strcmp(mass, row[i].name) == 0) {
      house->mass_area = row[i].area * house->floor_area;
      house->mass_store = row[i].store * house->floor_area;
    }
}

void pw_house_init(pw_house_facts *house)
{
  *house = (pw_house_facts){.storeys = 1,
                            .elevation.value = PW_NOT_GIVEN,
                            .plant_elevation.value = PW_NOT_GIVEN,
                            .wind_pressure = PW_NOT_GIVEN,
                            .paint_wait_days = PW_NOT_GIVEN,
                            .noise_db_2m = PW_NOT_GIVEN,
                            .open_combustion = -1,
                            .coastal = -1,
                            .wildfire = -1,
                            .leak_history = -1};
}

pw_status pw_house_from_facts(const pw_house_facts *facts, const pw_weather *weather,
                              const pw_house_hole holes[], size_t n_hole, pw_house *house,
                              pw_house_notes *notes, pw_err *err)
{
  pw_house h = {0};
  pw_house_notes n = {0};
  if (facts->storeys < 1)
    return pw_fail(err, PW_E_DOMAIN, "storeys", "%d storeys, want 1 or more (pw_house_init)",
                   facts->storeys);
  double storeys = facts->storeys;
  h.floor_area = pw_positive_or(&facts->floor_area, 150.0);
  double ceiling = pw_positive_or(&facts->ceiling_height, 2.44);
  double footprint = h.floor_area / storeys, side = sqrt(footprint);
  h.volume = h.floor_area * ceiling;
  h.height = 0.5 * storeys * ceiling;
  note(&n, PW_SAY_ASSUMED_PLAN, "assumed", PW_SAYS(PW_SAY_OF_PLAN, PW_SI(side)));
  pw_status status = walls(facts, holes, n_hole, side, storeys * ceiling, &h, &n, err);
  if (status == PW_OK) status = roof(facts, footprint, &h, &n, err);
  if (status == PW_OK) status = ground_floor(facts, weather, footprint, &h, &n, err);
  if (status == PW_OK) status = air_changes(facts, &h, &n, err);
  if (status == PW_OK && facts->envelope_ua.value > 0.0)
    status = scale_envelope(facts->envelope_ua.value, &h, err);
  if (status != PW_OK) return status;
  contents(h.floor_area, footprint, &h);
  note(&n, PW_SAY_ASSUMED_CONTENTS, "common practice, no source",
       PW_SAYS_PLAIN(PW_SAY_OF_CONTENTS));
  h.gain_w = pw_given_or(&facts->internal_gain, gain_usual) * h.floor_area;
  h.gain_radiant = gain_radiant;
  note(&n, PW_SAY_ASSUMED_RADIANT, "Standard 140, public specification",
       PW_SAYS(PW_SAY_OF_RADIANT, PW_SI(gain_radiant)));
  set_points(facts, &h);
  if (h.airing.hours)
    note(
        &n, PW_SAY_ASSUMED_AIRING, "table air/airing; most of it from memory",
        PW_SAYS(h.airing.hours & 1u << 12 ? PW_SAY_OF_AIRING_ALWAYS : PW_SAY_OF_AIRING_EVENINGS,
                PW_SI(h.airing.share)));
  mass_class(facts->mass, &h);
  status = pw_house_check(&h, err);
  if (status != PW_OK) return status;
  *house = h;
  if (notes) *notes = n;
  return PW_OK;
}
