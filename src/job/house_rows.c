/* Rows of a house file: one table of items says where each value goes. */
#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include "base/nearest.h"
#include "base/text.h"
#include "job/field.h"
#include "job/house_file_impl.h"

/* Whose value an item is. The last three come to be by it. */
typedef enum owner {
  OF_FILE = 0,
  OF_HOUSE,
  OF_HOURS,  /* of the house, by the clock */
  OF_MONTHS, /* of the house, one for all */
  OF_PART,
  OF_LAYERS, /* of a part, as text */
  OF_WINDOW,
  OF_MATERIAL,
  OF_PANE,
  OF_NEW_PART,
  OF_NEW_WINDOW, /* its glass, as text */
  OF_NEW_GLASS   /* its build-up, as text */
} owner;

typedef struct item {
  owner of;
  job_field field;
} item;

static const job_word outside[] = {
    {"air", PW_OUTSIDE_AIR}, {"ground", PW_OUTSIDE_GROUND}, {"room", PW_OUTSIDE_SAME}};
static const job_word rough[] = {{"medium", PW_ROUGH_MEDIUM}, {"stucco", PW_ROUGH_STUCCO},
                                 {"brick", PW_ROUGH_BRICK},   {"plaster", PW_ROUGH_PLASTER},
                                 {"paint", PW_ROUGH_PAINT},   {"glass", PW_ROUGH_GLASS}};

#define RANGED(as, type, column, member, least, most)                                          \
  {                                                                                            \
    .name = column, .kind = as, .offset = offsetof(type, member), .low = least, .high = most   \
  }
#define NUMBER(type, column, member, least, most)                                              \
  RANGED(JOB_NUMBER, type, column, member, least, most)
#define INTEGER(type, column, member, least, most)                                             \
  RANGED(JOB_INTEGER, type, column, member, least, most)
#define PLAIN_TEXT(column, room)                                                               \
  {                                                                                            \
    .name = column, .kind = JOB_TEXT, .size = room                                             \
  }
static const item items[] = {
    {OF_FILE, JOB_TEXT_AT(pw_house_file, "name", name, "", NULL)},
    {OF_NEW_PART,
     JOB_WORD_AT(pw_house_part, "part", outside, outside, JOB_COUNT(outside), NULL, NULL)},
    {OF_NEW_WINDOW, PLAIN_TEXT("window", sizeof((house_maker *)0)->glass_of[0])},
    {OF_NEW_GLASS, PLAIN_TEXT("glass", HOUSE_TEXT)},
    {OF_LAYERS, PLAIN_TEXT("layers", HOUSE_TEXT)},
    {OF_PART,
     JOB_WORD_AT(pw_house_part, "roughness", rough, rough, JOB_COUNT(rough), NULL, NULL)},
    {OF_PANE, JOB_TEXT_AT(house_pane, "pane_angular", angular, NULL, NULL)},
    {OF_MONTHS, {.name = "ground_c", .kind = JOB_NUMBER, .low = -40.0, .high = 50.0}},
    {OF_HOUSE, NUMBER(pw_house, "floor_area_m2", floor_area, 1.0, 1e6)},
    {OF_HOUSE, NUMBER(pw_house, "volume_m3", volume, 1.0, 1e7)},
    {OF_HOUSE, NUMBER(pw_house, "air_changes_1_h", air_changes, 0.0, 100.0)},
    {OF_HOUSE, NUMBER(pw_house, "gain_w", gain_w, 0.0, 1e7)},
    {OF_HOUSE, NUMBER(pw_house, "gain_radiant", gain_radiant, 0.0, 1.0)},
    {OF_HOUSE, NUMBER(pw_house, "heat_radiant", heat_radiant, 0.0, 1.0)},
    {OF_HOUSE, NUMBER(pw_house, "heat_max_w", heat_max_w, 0.0, 1e9)},
    {OF_HOUSE, NUMBER(pw_house, "cool_max_w", cool_max_w, 0.0, 1e9)},
    {OF_HOUSE, NUMBER(pw_house, "air_store", air_store, 0.0, 100.0)},
    {OF_HOUSE, NUMBER(pw_house, "albedo", albedo, 0.0, 1.0)},
    {OF_HOUSE, NUMBER(pw_house, "wind_height_m", height, 0.0, 100.0)},
    {OF_HOUSE, NUMBER(pw_house, "wind_exponent", terrain, 0.0, 0.6)},
    {OF_HOUSE, NUMBER(pw_house, "mass_area_m2", mass_area, 0.0, 1e7)},
    {OF_HOUSE, NUMBER(pw_house, "mass_store_j_k", mass_store, 0.0, 1e12)},
    {OF_HOURS, NUMBER(pw_house, "heat_set_c", heat_set_c, -50.0, 60.0)},
    {OF_HOURS, NUMBER(pw_house, "heat_ramp_k", heat_ramp_k, -50.0, 50.0)},
    {OF_HOURS, NUMBER(pw_house, "cool_set_c", cool_set_c, -50.0, 100.0)},
    {OF_HOURS, NUMBER(pw_house, "vent_changes_1_h", vent_changes, 0.0, 1000.0)},
    {OF_PART, NUMBER(pw_house_part, "area_m2", area, 0.0, 1e5)},
    {OF_PART, NUMBER(pw_house_part, "tilt_deg", tilt_deg, 0.0, 180.0)},
    {OF_PART, NUMBER(pw_house_part, "facing_deg", facing_deg, -360.0, 720.0)},
    {OF_PART, NUMBER(pw_house_part, "absorptance", absorptance, 0.0, 1.0)},
    {OF_PART, NUMBER(pw_house_part, "emittance", emittance, 0.0, 1.0)},
    {OF_PART, NUMBER(pw_house_part, "absorptance_in", absorptance_in, 0.0, 1.0)},
    {OF_PART, NUMBER(pw_house_part, "emittance_in", emittance_in, 0.0, 1.0)},
    {OF_PART, INTEGER(pw_house_part, "beam_falls_here", floor, 0.0, 1.0)},
    {OF_PART, NUMBER(pw_house_part, "wall_height_m", height, 0.0, 100.0)},
    {OF_PART, NUMBER(pw_house_part, "eaves_depth_m", overhang_depth, 0.0, 20.0)},
    {OF_PART, NUMBER(pw_house_part, "eaves_gap_m", overhang_gap, 0.0, 20.0)},
    {OF_WINDOW, NUMBER(pw_house_window, "glass_area_m2", area_glass, 1e-4, 1e4)},
    {OF_WINDOW, NUMBER(pw_house_window, "glass_height_m", height, 0.01, 30.0)},
    {OF_WINDOW, NUMBER(pw_house_window, "glass_width_m", width, 0.01, 100.0)},
    {OF_WINDOW, NUMBER(pw_house_window, "looks_deg", facing_deg, -360.0, 720.0)},
    {OF_WINDOW, NUMBER(pw_house_window, "frame_ua_w_k", ua_other, 0.0, 1e5)},
    {OF_WINDOW, NUMBER(pw_house_window, "frame_solar_m2", solar_other, 0.0, 1e4)},
    {OF_WINDOW, NUMBER(pw_house_window, "overhang_depth_m", overhang_depth, 0.0, 20.0)},
    {OF_WINDOW, NUMBER(pw_house_window, "overhang_gap_m", overhang_gap, 0.0, 20.0)},
    {OF_WINDOW, NUMBER(pw_house_window, "fin_depth_m", fin_depth, 0.0, 20.0)},
    {OF_WINDOW, NUMBER(pw_house_window, "reveal_depth_m", reveal_depth, 0.0, 20.0)},
    {OF_WINDOW, INTEGER(pw_house_window, "count", count, 1.0, 1000.0)},
    {OF_MATERIAL, NUMBER(house_material, "conductivity_w_mk", conductivity, 1e-4, 500.0)},
    {OF_MATERIAL, NUMBER(house_material, "density_kg_m3", density, 0.0, 25000.0)},
    {OF_MATERIAL, NUMBER(house_material, "heat_j_kgk", heat, 0.0, 10000.0)},
    {OF_MATERIAL, NUMBER(house_material, "resistance_m2k_w", resistance, 1e-4, 1000.0)},
    {OF_PANE, NUMBER(house_pane, "pane_t_solar", bands.tau_e, 0.0, 1.0)},
    {OF_PANE, NUMBER(house_pane, "pane_r_solar_out", bands.rho_e_out, 0.0, 1.0)},
    {OF_PANE, NUMBER(house_pane, "pane_r_solar_in", bands.rho_e_in, 0.0, 1.0)},
    {OF_PANE, NUMBER(house_pane, "pane_t_visible", bands.tau_v, 0.0, 1.0)},
    {OF_PANE, NUMBER(house_pane, "pane_r_visible_out", bands.rho_v_out, 0.0, 1.0)},
    {OF_PANE, NUMBER(house_pane, "pane_r_visible_in", bands.rho_v_in, 0.0, 1.0)},
    {OF_PANE, NUMBER(house_pane, "pane_t_uv", bands.tau_uv, 0.0, 1.0)},
    {OF_PANE, NUMBER(house_pane, "pane_emit_out", emit[0], 0.0, 1.0)},
    {OF_PANE, NUMBER(house_pane, "pane_emit_in", emit[1], 0.0, 1.0)},
};
#undef PLAIN_TEXT
#undef INTEGER
#undef NUMBER
#undef RANGED
enum { N_ITEM = JOB_COUNT(items) };

/* The entry of that name in a row of names, or n. */
static size_t find(const char *names, size_t stride, size_t n, const char *name)
{
  for (size_t i = 0; i < n; i++)
    if (strcmp(names + i * stride, name) == 0) return i;
  return n;
}

static pw_status undeclared(const house_row *row, const char *what, pw_err *err)
{
  return pw_fail_at(err, PW_E_DATA, row->file, row->line, 0,
                    "%s: no %s '%s' declared above this row", row->item, what, row->of);
}

/* A list of records that have names: name[size] is the first one's. */
typedef struct named {
  const char *what;
  char *name;
  size_t stride, size, most, *n;
} named;

/* Which one the row is of: *at; one that is not known yet is begun. */
static pw_status begun(const named *list, const house_row *row, size_t *at, pw_err *err)
{
  *at = find(list->name, list->stride, *list->n, row->of);
  if (*at < *list->n) return PW_OK;
  if (row->of[0] == '\0')
    return pw_fail_at(err, PW_E_DATA, row->file, row->line, 0, "%s without a name in 'of'",
                      list->what);
  if (*list->n == list->most)
    return pw_fail_at(err, PW_E_DATA, row->file, row->line, 0, "more than %zu of %s",
                      list->most, list->what);
  pw_text_keep(row->of, list->name + *at * list->stride, list->size);
  (*list->n)++;
  return PW_OK;
}

#define NAMED(what, names, count, most)                                                        \
  {                                                                                            \
    what, (names)[0].name, sizeof(names)[0], sizeof(names)[0].name, most, &(count)             \
  }
#define NAMES(what, names, count, most)                                                        \
  {                                                                                            \
    what, (names)[0], sizeof(names)[0], sizeof(names)[0], most, &(count)                       \
  }

/* The record an item belongs to; parts, windows and glasses are declared by an item of theirs, materials and panes come
 * to be with their first value. */
static pw_status record_of(house_maker *m, const house_row *row, owner of, void **record,
                           pw_err *err)
{
  pw_house_file *f = m->file;
  pw_house *h = &f->house;
  const named part = NAMED("parts", h->part, h->n_part, PW_PARTS_MAX);
  const named window = NAMES("windows", f->window_name, f->n_window, PW_WINDOWS_MAX);
  const named glass = NAMES("glasses", f->glass_name, f->n_glass, PW_HOUSE_GLASSES);
  const named material = NAMED("materials", m->material, m->n_material, HOUSE_MATERIALS);
  const named pane = NAMED("panes", m->pane, m->n_pane, HOUSE_PANES);
  size_t i = 0;
  pw_status s = PW_OK;
  switch (of) {
  case OF_FILE:
    *record = f;
    break;
  case OF_HOUSE:
  case OF_HOURS:
  case OF_MONTHS:
    *record = h;
    break;
  case OF_PART:
  case OF_LAYERS:
    i = find(part.name, part.stride, h->n_part, row->of);
    if (i == h->n_part) return undeclared(row, "part", err);
    *record = of == OF_PART ? (void *)&h->part[i] : m->layers[i];
    break;
  case OF_WINDOW:
    i = find(window.name, window.stride, f->n_window, row->of);
    if (i == f->n_window) return undeclared(row, "window", err);
    *record = &f->window[i];
    break;
  case OF_MATERIAL:
    s = begun(&material, row, &i, err);
    *record = &m->material[i];
    break;
  case OF_PANE:
    s = begun(&pane, row, &i, err);
    *record = &m->pane[i];
    break;
  case OF_NEW_PART: {
    const size_t had = h->n_part;
    s = begun(&part, row, &i, err);
    if (i == had && s == PW_OK) h->part[i].tilt_deg = 90.0;
    *record = &h->part[i];
    break;
  }
  case OF_NEW_WINDOW:
    s = begun(&window, row, &i, err);
    *record = m->glass_of[i];
    break;
  case OF_NEW_GLASS:
    s = begun(&glass, row, &i, err);
    *record = m->buildup[i];
    break;
  }
  return s;
}

/* "23-7" or blank for all. */
static pw_status hours_of(const house_row *row, int *from, int *to, pw_err *err)
{
  char rest;
  *from = 0;
  *to = 24;
  if (row->of[0] == '\0') return PW_OK;
  if (sscanf(row->of, "%2d-%2d%c", from, to, &rest) == 2 && *from >= 0 && *from < 24 &&
      *to >= 1 && *to <= 24 && *from != *to)
    return PW_OK;
  return pw_fail_at(
      err, PW_E_DATA, row->file, row->line, 0,
      "%s of '%s': found '%s', want hours of the day such as 23-7 in 'of', or blank", row->item,
      row->of, row->of);
}

static pw_status read_value(const house_row *row, const job_field *field, void *record,
                            pw_err *err)
{
  const job_place place = {row->file, row->line, row->column, row->of};
  return job_field_read(field, row->value, &place, record, NULL, err);
}

/* One number for the hours that the row is of, or for the months. */
static pw_status take_series(const house_row *row, const item *it, pw_house *h, pw_err *err)
{
  const int months = it->of == OF_MONTHS;
  double *to = months ? h->ground_c : (double *)(void *)((char *)h + it->field.offset);
  int from = 0, end = 12;
  double value = NAN;
  job_field plain = it->field;
  plain.offset = 0;
  pw_status s = months ? PW_OK : hours_of(row, &from, &end, err);
  if (s == PW_OK && (months || strcmp(row->value, "off") != 0))
    s = read_value(row, &plain, &value, err);
  for (int i = from; s == PW_OK && i != end; i = i + 1 == 24 && end != 24 ? 0 : i + 1)
    to[i] = value;
  return s;
}

static pw_status unknown(const house_row *row, pw_err *err)
{
  const char *known[N_ITEM + 1] = {[N_ITEM] = "base"};
  for (size_t n = 0; n < N_ITEM; n++)
    known[n] = items[n].field.name;
  const char *near = pw_nearest(row->item, known, N_ITEM + 1);
  return pw_fail_at(err, PW_E_DATA, row->file, row->line, 0, "unknown item '%s'%s%s", row->item,
                    near ? "; did you mean " : "", near ? near : "");
}

pw_status house_take_row(house_maker *m, const house_row *row, pw_err *err)
{
  const item *it = items;
  void *record = NULL;
  while (it < items + N_ITEM && strcmp(it->field.name, row->item) != 0)
    it++;
  if (it == items + N_ITEM) return unknown(row, err);
  pw_status s = record_of(m, row, it->of, &record, err);
  if (s == PW_OK && it->of == OF_FILE) /* a long name is cut */
    pw_text_keep(row->value, m->file->name, sizeof m->file->name);
  else if (s == PW_OK)
    s = it->of == OF_HOURS || it->of == OF_MONTHS ? take_series(row, it, record, err)
                                                  : read_value(row, &it->field, record, err);
  if (strcmp(row->how_known, "memory") == 0)
    m->file->n_memory++;
  else
    m->file->n_read++;
  return s;
}
