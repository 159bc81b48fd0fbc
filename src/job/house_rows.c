/* Rows of a house file: one table of items says where each value goes. */
#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/nearest.h"
#include "base/text.h"
#include "job/house_file_impl.h"

typedef enum owner { OF_HOUSE = 0, OF_HOURS, OF_PART, OF_WINDOW, OF_MATERIAL, OF_PANE } owner;

typedef struct item {
  const char *name;
  owner of;
  size_t offset;
  double low, high;
  int is_int;
} item;

#define AT(type, field) offsetof(type, field)
static const item items[] = {
    {"floor_area_m2", OF_HOUSE, AT(pw_house, floor_area), 1.0, 1e6, 0},
    {"volume_m3", OF_HOUSE, AT(pw_house, volume), 1.0, 1e7, 0},
    {"air_changes_1_h", OF_HOUSE, AT(pw_house, air_changes), 0.0, 100.0, 0},
    {"gain_w", OF_HOUSE, AT(pw_house, gain_w), 0.0, 1e7, 0},
    {"gain_radiant", OF_HOUSE, AT(pw_house, gain_radiant), 0.0, 1.0, 0},
    {"heat_radiant", OF_HOUSE, AT(pw_house, heat_radiant), 0.0, 1.0, 0},
    {"heat_max_w", OF_HOUSE, AT(pw_house, heat_max_w), 0.0, 1e9, 0},
    {"cool_max_w", OF_HOUSE, AT(pw_house, cool_max_w), 0.0, 1e9, 0},
    {"air_store", OF_HOUSE, AT(pw_house, air_store), 0.0, 100.0, 0},
    {"albedo", OF_HOUSE, AT(pw_house, albedo), 0.0, 1.0, 0},
    {"wind_height_m", OF_HOUSE, AT(pw_house, height), 0.0, 100.0, 0},
    {"wind_exponent", OF_HOUSE, AT(pw_house, terrain), 0.0, 0.6, 0},
    {"mass_area_m2", OF_HOUSE, AT(pw_house, mass_area), 0.0, 1e7, 0},
    {"mass_store_j_k", OF_HOUSE, AT(pw_house, mass_store), 0.0, 1e12, 0},
    {"heat_set_c", OF_HOURS, AT(pw_house, heat_set_c), -50.0, 60.0, 0},
    {"heat_ramp_k", OF_HOURS, AT(pw_house, heat_ramp_k), -50.0, 50.0, 0},
    {"cool_set_c", OF_HOURS, AT(pw_house, cool_set_c), -50.0, 100.0, 0},
    {"vent_changes_1_h", OF_HOURS, AT(pw_house, vent_changes), 0.0, 1000.0, 0},
    {"area_m2", OF_PART, AT(pw_house_part, area), 0.0, 1e5, 0},
    {"tilt_deg", OF_PART, AT(pw_house_part, tilt_deg), 0.0, 180.0, 0},
    {"facing_deg", OF_PART, AT(pw_house_part, facing_deg), -360.0, 720.0, 0},
    {"absorptance", OF_PART, AT(pw_house_part, absorptance), 0.0, 1.0, 0},
    {"emittance", OF_PART, AT(pw_house_part, emittance), 0.0, 1.0, 0},
    {"absorptance_in", OF_PART, AT(pw_house_part, absorptance_in), 0.0, 1.0, 0},
    {"emittance_in", OF_PART, AT(pw_house_part, emittance_in), 0.0, 1.0, 0},
    {"beam_falls_here", OF_PART, AT(pw_house_part, floor), 0.0, 1.0, 1},
    {"wall_height_m", OF_PART, AT(pw_house_part, height), 0.0, 100.0, 0},
    {"eaves_depth_m", OF_PART, AT(pw_house_part, overhang_depth), 0.0, 20.0, 0},
    {"eaves_gap_m", OF_PART, AT(pw_house_part, overhang_gap), 0.0, 20.0, 0},
    {"glass_area_m2", OF_WINDOW, AT(pw_house_window, area_glass), 1e-4, 1e4, 0},
    {"glass_height_m", OF_WINDOW, AT(pw_house_window, height), 0.01, 30.0, 0},
    {"glass_width_m", OF_WINDOW, AT(pw_house_window, width), 0.01, 100.0, 0},
    {"looks_deg", OF_WINDOW, AT(pw_house_window, facing_deg), -360.0, 720.0, 0},
    {"frame_ua_w_k", OF_WINDOW, AT(pw_house_window, ua_other), 0.0, 1e5, 0},
    {"frame_solar_m2", OF_WINDOW, AT(pw_house_window, solar_other), 0.0, 1e4, 0},
    {"overhang_depth_m", OF_WINDOW, AT(pw_house_window, overhang_depth), 0.0, 20.0, 0},
    {"overhang_gap_m", OF_WINDOW, AT(pw_house_window, overhang_gap), 0.0, 20.0, 0},
    {"fin_depth_m", OF_WINDOW, AT(pw_house_window, fin_depth), 0.0, 20.0, 0},
    {"reveal_depth_m", OF_WINDOW, AT(pw_house_window, reveal_depth), 0.0, 20.0, 0},
    {"count", OF_WINDOW, AT(pw_house_window, count), 1.0, 1000.0, 1},
    {"conductivity_w_mk", OF_MATERIAL, AT(house_material, conductivity), 1e-4, 500.0, 0},
    {"density_kg_m3", OF_MATERIAL, AT(house_material, density), 0.0, 25000.0, 0},
    {"heat_j_kgk", OF_MATERIAL, AT(house_material, heat), 0.0, 10000.0, 0},
    {"resistance_m2k_w", OF_MATERIAL, AT(house_material, resistance), 1e-4, 1000.0, 0},
    {"pane_t_solar", OF_PANE, AT(house_pane, bands.tau_e), 0.0, 1.0, 0},
    {"pane_r_solar_out", OF_PANE, AT(house_pane, bands.rho_e_out), 0.0, 1.0, 0},
    {"pane_r_solar_in", OF_PANE, AT(house_pane, bands.rho_e_in), 0.0, 1.0, 0},
    {"pane_t_visible", OF_PANE, AT(house_pane, bands.tau_v), 0.0, 1.0, 0},
    {"pane_r_visible_out", OF_PANE, AT(house_pane, bands.rho_v_out), 0.0, 1.0, 0},
    {"pane_r_visible_in", OF_PANE, AT(house_pane, bands.rho_v_in), 0.0, 1.0, 0},
    {"pane_t_uv", OF_PANE, AT(house_pane, bands.tau_uv), 0.0, 1.0, 0},
    {"pane_emit_out", OF_PANE, AT(house_pane, emit[0]), 0.0, 1.0, 0},
    {"pane_emit_in", OF_PANE, AT(house_pane, emit[1]), 0.0, 1.0, 0},
};
#undef AT
enum { N_ITEM = sizeof items / sizeof items[0] };
static const char *const text_items[] = {"name",         "part",     "window",
                                         "glass",        "layers",   "roughness",
                                         "pane_angular", "ground_c", "base"};

static pw_status refuse(const house_row *row, pw_err *err, const char *what,
                        const char *accepted)
{
  return pw_fail_at(err, PW_E_DATA, row->file, row->line, 0, "%s of '%s': found '%s', want %s",
                    row->item, row->of, what, accepted);
}

static int read_number(const char *text, double *value)
{
  char *end;
  *value = strtod(text, &end);
  return end != text && *end == '\0' && isfinite(*value);
}

static pw_status number_of(const house_row *row, double low, double high, double *value,
                           pw_err *err)
{
  char range[64];
  if (read_number(row->value, value) && *value >= low && *value <= high) return PW_OK;
  snprintf(range, sizeof range, "a number %g to %g", low, high);
  return refuse(row, err, row->value, range);
}

/* The entry of that name in a row of names, or n. */
static size_t find(const char *names, size_t stride, size_t n, const char *name)
{
  for (size_t i = 0; i < n; i++)
    if (strcmp(names + i * stride, name) == 0) return i;
  return n;
}

static pw_status room_for(size_t *n, size_t max, const char *what, const house_row *row,
                          pw_err *err)
{
  if (row->of[0] == '\0')
    return pw_fail_at(err, PW_E_DATA, row->file, row->line, 0, "%s without a name in 'of'",
                      what);
  if (*n == max)
    return pw_fail_at(err, PW_E_DATA, row->file, row->line, 0, "more than %zu of %s", max,
                      what);
  (*n)++;
  return PW_OK;
}

static pw_status undeclared(const house_row *row, const char *what, pw_err *err)
{
  return pw_fail_at(err, PW_E_DATA, row->file, row->line, 0,
                    "%s: no %s '%s' declared above this row", row->item, what, row->of);
}

/* The record an item belongs to; materials and panes come to be with their first value. */
static pw_status record_of(house_maker *m, const house_row *row, owner of, void **record,
                           pw_err *err)
{
  pw_house *h = &m->file->house;
  size_t i;
  pw_status s = PW_OK;
  switch (of) {
  case OF_PART:
    i = find(h->part[0].name, sizeof h->part[0], h->n_part, row->of);
    if (i == h->n_part) return undeclared(row, "part", err);
    *record = &h->part[i];
    return PW_OK;
  case OF_WINDOW:
    i = find(m->file->window_name[0], sizeof m->file->window_name[0], m->file->n_window,
             row->of);
    if (i == m->file->n_window) return undeclared(row, "window", err);
    *record = &m->file->window[i];
    return PW_OK;
  case OF_MATERIAL:
    i = find(m->material[0].name, sizeof m->material[0], m->n_material, row->of);
    if (i == m->n_material)
      s = room_for(&m->n_material, HOUSE_MATERIALS, "materials", row, err);
    if (s == PW_OK) pw_text_keep(row->of, m->material[i].name, sizeof m->material[i].name);
    *record = &m->material[i];
    return s;
  case OF_PANE:
    i = find(m->pane[0].name, sizeof m->pane[0], m->n_pane, row->of);
    if (i == m->n_pane) s = room_for(&m->n_pane, HOUSE_PANES, "panes", row, err);
    if (s == PW_OK) pw_text_keep(row->of, m->pane[i].name, sizeof m->pane[i].name);
    *record = &m->pane[i];
    return s;
  case OF_HOUSE:
  case OF_HOURS:
    break;
  }
  *record = h;
  return PW_OK;
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
  return refuse(row, err, row->of, "hours of the day such as 23-7 in 'of', or blank");
}

static pw_status take_hours(const house_row *row, const item *it, pw_house *h, pw_err *err)
{
  int from, to;
  double value = NAN, *set = (double *)(void *)((char *)h + it->offset);
  pw_status s = hours_of(row, &from, &to, err);
  if (s == PW_OK && strcmp(row->value, "off") != 0)
    s = number_of(row, it->low, it->high, &value, err);
  for (int i = from; s == PW_OK && i != to; i = i + 1 == 24 && to != 24 ? 0 : i + 1)
    set[i] = value;
  return s;
}

static pw_status take_number(house_maker *m, const house_row *row, const item *it, pw_err *err)
{
  void *record = NULL;
  double value;
  pw_status s = record_of(m, row, it->of, &record, err);
  if (s != PW_OK) return s;
  if (it->of == OF_HOURS) return take_hours(row, it, record, err);
  s = number_of(row, it->low, it->high, &value, err);
  if (s != PW_OK) return s;
  char *place = (char *)record + it->offset;
  if (it->is_int)
    *(int *)(void *)place = (int)value;
  else
    *(double *)(void *)place = value;
  return PW_OK;
}

static pw_status take_part(house_maker *m, const house_row *row, pw_err *err)
{
  static const char *const word[] = {"air", "ground", "room"}; /* as in pw_outside */
  pw_house *h = &m->file->house;
  size_t i = find(h->part[0].name, sizeof h->part[0], h->n_part, row->of), k = 0;
  while (k < 3 && strcmp(row->value, word[k]) != 0)
    k++;
  if (k == 3) return refuse(row, err, row->value, "what lies behind it: air, ground or room");
  if (i == h->n_part) {
    pw_status s = room_for(&h->n_part, PW_PARTS_MAX, "parts", row, err);
    if (s != PW_OK) return s;
    pw_text_keep(row->of, h->part[i].name, sizeof h->part[i].name);
    h->part[i].tilt_deg = 90.0;
  }
  h->part[i].outside = (pw_outside)k;
  return PW_OK;
}

static pw_status take_window(house_maker *m, const house_row *row, pw_err *err)
{
  pw_house_file *f = m->file;
  size_t i = find(f->window_name[0], sizeof f->window_name[0], f->n_window, row->of);
  if (i == f->n_window) {
    pw_status s = room_for(&f->n_window, PW_WINDOWS_MAX, "windows", row, err);
    if (s != PW_OK) return s;
    pw_text_keep(row->of, f->window_name[i], sizeof f->window_name[i]);
  }
  pw_text_keep(row->value, m->glass_of[i], sizeof m->glass_of[i]);
  return PW_OK;
}

static pw_status take_glass(house_maker *m, const house_row *row, pw_err *err)
{
  pw_house_file *f = m->file;
  size_t i = find(f->glass_name[0], sizeof f->glass_name[0], f->n_glass, row->of);
  if (i == f->n_glass) {
    pw_status s = room_for(&f->n_glass, PW_HOUSE_GLASSES, "glasses", row, err);
    if (s != PW_OK) return s;
    pw_text_keep(row->of, f->glass_name[i], sizeof f->glass_name[i]);
  }
  pw_text_keep(row->value, m->buildup[i], sizeof m->buildup[i]);
  return PW_OK;
}

static pw_status take_roughness(house_maker *m, const house_row *row, pw_err *err)
{
  static const char *const word[] = {"medium", "stucco", "brick", "plaster", "paint", "glass"};
  void *part = NULL;
  pw_status s = record_of(m, row, OF_PART, &part, err);
  if (s != PW_OK) return s;
  for (int k = 0; k < 6; k++)
    if (strcmp(row->value, word[k]) == 0) {
      ((pw_house_part *)part)->rough = (pw_rough)k;
      return PW_OK;
    }
  return refuse(row, err, row->value, "medium, stucco, brick, plaster, paint or glass");
}

static pw_status take_ground(house_maker *m, const house_row *row, pw_err *err)
{
  double t;
  pw_status s = number_of(row, -40.0, 50.0, &t, err);
  for (int i = 0; s == PW_OK && i < 12; i++)
    m->file->house.ground_c[i] = t;
  return s;
}

static pw_status take_text(house_maker *m, const house_row *row, int *known, pw_err *err)
{
  void *record = NULL;
  pw_status s = PW_OK;
  *known = 1;
  if (strcmp(row->item, "name") == 0) {
    pw_text_keep(row->value, m->file->name, sizeof m->file->name);
  } else if (strcmp(row->item, "part") == 0) {
    s = take_part(m, row, err);
  } else if (strcmp(row->item, "window") == 0) {
    s = take_window(m, row, err);
  } else if (strcmp(row->item, "glass") == 0) {
    s = take_glass(m, row, err);
  } else if (strcmp(row->item, "roughness") == 0) {
    s = take_roughness(m, row, err);
  } else if (strcmp(row->item, "ground_c") == 0) {
    s = take_ground(m, row, err);
  } else if (strcmp(row->item, "layers") == 0) {
    s = record_of(m, row, OF_PART, &record, err);
    if (s == PW_OK) {
      size_t i = (size_t)((pw_house_part *)record - m->file->house.part);
      pw_text_keep(row->value, m->layers[i], sizeof m->layers[i]);
    }
  } else if (strcmp(row->item, "pane_angular") == 0) {
    s = record_of(m, row, OF_PANE, &record, err);
    if (s == PW_OK) pw_text_keep(row->value, ((house_pane *)record)->angular, PW_NAME_MAX);
  } else {
    *known = 0;
  }
  return s;
}

static pw_status unknown(const house_row *row, pw_err *err)
{
  const char *known[N_ITEM + sizeof text_items / sizeof text_items[0]];
  size_t n = 0;
  for (; n < N_ITEM; n++)
    known[n] = items[n].name;
  for (size_t i = 0; i < sizeof text_items / sizeof text_items[0]; i++)
    known[n++] = text_items[i];
  const char *near = pw_nearest(row->item, known, n);
  return pw_fail_at(err, PW_E_DATA, row->file, row->line, 0, "unknown item '%s'%s%s", row->item,
                    near ? "; did you mean " : "", near ? near : "");
}

pw_status house_take_row(house_maker *m, const house_row *row, pw_err *err)
{
  int known;
  pw_status s = take_text(m, row, &known, err);
  if (s != PW_OK) return s;
  for (size_t i = 0; !known && i < N_ITEM; i++) {
    if (strcmp(items[i].name, row->item) != 0) continue;
    s = take_number(m, row, &items[i], err);
    known = 1;
  }
  if (!known) return unknown(row, err);
  if (strcmp(row->how_known, "memory") == 0)
    m->file->n_memory++;
  else
    m->file->n_read++;
  return s;
}
