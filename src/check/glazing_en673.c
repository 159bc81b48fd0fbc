/* Tables made with EN 673: U of units, air spaces, windows of ISO 10077-1. The emissivity column of
 * those tables is the normal one and a fill is 90 % gas (METHODS.md B, METHODS-EXTRA.md). */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "check/glazing.h"
#include "check/table_rows.h"
#include "panewright/rating.h"
#include "panewright/unit.h"

static pw_gas gas_of(const char *word)
{
  for (int g = 0; g < PW_GAS_COUNT; g++)
    if (strcmp(pw_gas_name((pw_gas)g), word) == 0) return (pw_gas)g;
  return PW_AIR;
}

/* A unit of equal panes and gaps. Its coated panes have the film towards the gap next to it, one
 * film a gap; bare glass has normal 0.89. */
static pw_status unit_u(size_t panes, double glass_mm, double gap_mm, pw_gas gas, double fill,
                        double emit, size_t coated, double *u, pw_err *err)
{
  pw_unit unit = {.n_pane = panes};
  pw_unit_result r;
  double film = 0.0, bare = 0.0;
  pw_status s = pw_emissivity_corrected(emit, &film, err);
  if (s == PW_OK) s = pw_emissivity_corrected(0.89, &bare, err);
  if (s != PW_OK) return s;
  for (size_t i = 0; i < panes; i++) {
    unit.pane[i] = (pw_pane){glass_mm * 1e-3, 0.0, {bare, bare}};
    if (i + 1 == panes) break;
    unit.gap[i].thickness = gap_mm * 1e-3;
    unit.gap[i].mix.share[PW_AIR] = 1.0 - fill;
    unit.gap[i].mix.share[gas] += fill;
  }
  for (size_t i = 0; i < coated && i < 2; i++) /* surfaces 3, then 2 or 5 */
    unit.pane[i == 0 ? 1 : panes == 2 ? 0 : 2].emit[i == 0 || panes > 2 ? 0 : 1] = film;
  s = pw_unit_en673(&unit, &r, err);
  if (s == PW_OK) *u = r.u;
  return s;
}

static pw_status ug_table(const pw_check_sink *sink, pw_err *err)
{
  const pw_table *t = NULL;
  double exact = 0.0, u = 0.0;
  pw_status s = row_table("glazing/iso10077_ug", &t, err);
  for (size_t i = 0; s == PW_OK && i < t->n_row; i++) {
    s = unit_u((size_t)row_number(t, i, "panes"), row_number(t, i, "glass_mm"),
               row_number(t, i, "gap_mm"), gas_of(row_text(t, i, "gas")),
               row_number(t, i, "fill"), row_number(t, i, "eps_coating_max"),
               (size_t)row_number(t, i, "coated_panes"), &u, err);
    if (s != PW_OK) return s;
    row_give(sink, t, i, "U of a unit, EN 673", u);
    if (fabs(round(u * 10.0) - row_number(t, i, "value") * 10.0) < 1e-6) exact += 1.0;
  }
  if (s == PW_OK)
    row_tally(sink, "ug_digit", "Ug cells equal to the printed digit, of 160", exact, 150.0,
              160.0, "ISO 10077-1:2006 table C.2");
  return s;
}

static pw_status ug_xenon(const pw_check_sink *sink, pw_err *err)
{
  const pw_table *t = NULL;
  double u = 0.0;
  pw_status s = row_table("glazing/iso10077_ug_xenon", &t, err);
  for (size_t i = 0; s == PW_OK && i < t->n_row; i++) {
    const char *build = row_text(t, i, "build_mm");
    size_t panes = row_begins(t, i, "kind", "triple") ? 3 : 2;
    const char *gap = strchr(build, '-');
    size_t coated = row_begins(t, i, "coating", "two")   ? 2u
                    : row_begins(t, i, "coating", "one") ? 1u
                                                         : 0u;
    s = unit_u(panes, strtod(build, NULL), gap ? strtod(gap + 1, NULL) : NAN, PW_XENON, 0.9,
               row_number(t, i, "eps_normal"), coated, &u, err);
    if (s == PW_OK) row_give(sink, t, i, "U of a unit with xenon, EN 673", u);
  }
  return s;
}

static pw_status ug_other(const pw_check_sink *sink, pw_err *err)
{
  const pw_table *t = NULL;
  double u = 0.0;
  pw_status s = row_table("glazing/ug_other_published", &t, err);
  for (size_t i = 0; s == PW_OK && i < t->n_row; i++) {
    if (!row_agrees(t, i)) continue;
    const char *build = row_text(t, i, "build_mm"), *gap = strchr(build, '-');
    int argon = row_begins(t, i, "gas", "argon");
    s = unit_u(2, strtod(build, NULL), gap ? strtod(gap + 1, NULL) : NAN,
               argon ? PW_ARGON : PW_AIR, argon ? 0.9 : 1.0, 0.01, 1, &u, err);
    if (s == PW_OK) row_give(sink, t, i, "U of a unit, emissivity 0.01, EN 673", u);
  }
  return s;
}

/* Resistance of an air space, one face with the given emissivity, the other bare. */
static pw_status air_space(const pw_check_sink *sink, pw_err *err)
{
  const pw_table *t = NULL;
  pw_status s = row_table("glazing/iso10077_air_space", &t, err);
  for (size_t i = 0; s == PW_OK && i < t->n_row; i++) {
    pw_unit unit = {.n_pane = 2};
    pw_unit_result r;
    double e = 0.0;
    s = pw_emissivity_corrected(row_number(t, i, "eps_normal"), &e, err);
    unit.pane[0].thickness = unit.pane[1].thickness = 0.004;
    unit.pane[1].emit[0] = e;
    unit.gap[0].thickness = row_number(t, i, "space_mm") * 1e-3;
    if (s == PW_OK) s = pw_unit_en673(&unit, &r, err);
    if (s == PW_OK)
      row_give(sink, t, i, "resistance of an air space", 1.0 / r.gap[0].conductance);
  }
  return s;
}

/* psi by edition, frame and coating, from iso10077_psi.csv; typical spacer. */
static double psi_of(const char *edition, double u_frame, int single, int coated)
{
  const pw_table *t = pw_table_find("glazing/iso10077_psi");
  const char *frame = u_frame < 2.8   ? "wood or PVC"
                      : u_frame < 5.0 ? "metal with thermal break"
                                      : "metal without thermal break";
  for (size_t i = 0; t && !single && i < t->n_row; i++)
    if (row_begins(t, i, "source", edition) && row_begins(t, i, "spacer", "typical") &&
        row_begins(t, i, "frame", frame) &&
        row_begins(t, i, "glazing", coated ? "double (1 pane" : "double/triple"))
      return row_number(t, i, "value");
  return single ? 0.0 : NAN;
}

/* U_w of a 1.23 x 1.48 m light by pw_rating_u_psi. A double with Ug up to 2.5, a triple up to 1.7
 * counts as coated, which the table does not print; no other bounds meet it. */
pw_status glazing_uw(const pw_check_sink *sink, pw_err *err)
{
  const double width = 1.23, height = 1.48;
  const pw_table *t = NULL;
  pw_status s = row_table("glazing/iso10077_uw", &t, err);
  for (size_t i = 0; s == PW_OK && i < t->n_row; i++) {
    if (!row_agrees(t, i)) continue;
    double share = row_number(t, i, "frame_share"), panes = row_number(t, i, "panes");
    double ug = row_number(t, i, "Ug"), uf = row_number(t, i, "Uf"), u = 0.0;
    /* frame of width x all round: (w - 2x)(h - 2x) = (1 - share) w h */
    double b = 0.5 * (width + height);
    double x = 0.5 * (b - sqrt(b * b - share * width * height));
    const pw_rating_lite lite = {width - 2.0 * x, height - 2.0 * x, {0}};
    const pw_rating_part part = {PW_PART_FRAME, width * height - lite.width * lite.height, uf,
                                 0, 0};
    const pw_rating_input in = {.width = width,
                                .height = height,
                                .lite = &lite,
                                .n_lite = 1,
                                .part = &part,
                                .n_part = 1};
    int old = row_begins(t, i, "source", "EN ISO 10077-1:2000");
    double psi = psi_of(old ? "ISO 10077-1:2000" : "ISO 10077-1:2006", uf, panes == 1.0,
                        ug <= (panes == 2.0 ? 2.55 : 1.75));
    s = pw_rating_u_psi(&in, ug, psi, &u, err);
    if (s == PW_OK) row_give(sink, t, i, "U of a window, psi form", u);
  }
  return s;
}

/* Metal frame without break, the sheet between both films: ISO 10077-1 Annex D. */
static pw_status frame_uf(const pw_check_sink *sink, pw_err *err)
{
  const pw_table *t = NULL;
  double rsi = NAN, rse = NAN;
  pw_status s = row_table("glazing/iso10077_uf", &t, err);
  for (size_t i = 0; s == PW_OK && i < t->n_row; i++) {
    if (row_begins(t, i, "quantity", "Rsi")) rsi = row_number(t, i, "value");
    if (row_begins(t, i, "quantity", "Rse")) rse = row_number(t, i, "value");
  }
  for (size_t i = 0; s == PW_OK && i < t->n_row; i++)
    if (row_agrees(t, i))
      row_give(sink, t, i, "U of a metal frame without break", 1.0 / (rsi + rse));
  return s;
}

pw_status glazing_en673(const pw_check_sink *sink, pw_err *err)
{
  pw_status s = ug_table(sink, err);
  if (s == PW_OK) s = ug_xenon(sink, err);
  if (s == PW_OK) s = ug_other(sink, err);
  if (s == PW_OK) s = air_space(sink, err);
  if (s == PW_OK) s = frame_uf(sink, err);
  return s;
}
