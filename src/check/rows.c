/* Rows of batch beside houses: what windows save one by one in the reference house against what they save when all of
 * that house change together, and against invented houses. No formula of ours stands on the other side: both are whole
 * years of the detailed house. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/random.h"
#include "check/check.h"
#include "climate/month.h"
#include "gen/reference.h"
#include "panewright/glazing.h"
#include "panewright/house_facts.h"
#include "study/alone.h"

enum { SIDES = 4, OLD = 2, NEW = 6, PLACES = 32, HOUSES = 100 };

static const double unit =
    1.40625; /* m2 of an opening: four of them fill a side of the reference house */
static const char source[] = "whole years of the detailed house, before and after";

typedef struct desk {
  const pw_check_sink *sink;
  pw_glazing old[OLD], new[NEW];
  pw_weather weather;
  pw_house house;
  pw_year_result year;
  pw_alone_desk *own;
  pw_year_workspace *ws;
  double ratio[2][HOUSES]; /* other houses over the reference house */
  size_t n[2];
  uint64_t seed;
  pw_year_method method;
} desk;

static pw_status glass(const char *text, pw_glazing *g, pw_err *err)
{
  pw_buildup b;
  pw_status s = pw_buildup_parse(text, &b, err);
  return s == PW_OK ? pw_glazing_build(&b, g, err) : s;
}

static pw_status glasses(desk *d, pw_err *err)
{
  static const char *const old[OLD] = {"3mm clear", "3mm clear / 6.4mm air / 3mm clear"};
  static const char *const new[NEW] = {"3mm clear / 12.7mm air / 3mm clear",
                                       "3mm clear / 12.7mm argon 90% / 3mm clear coat pyr15@3",
                                       "3mm clear coat ag1@2 / 12.7mm argon 90% / 3mm clear",
                                       "3mm clear coat ag2@2 / 12.7mm argon 90% / 3mm clear",
                                       "3mm clear coat ag3@2 / 12.7mm argon 90% / 3mm clear",
                                       "3mm bronze / 12.7mm air / 3mm clear"};
  pw_status s = PW_OK;
  for (size_t i = 0; i < OLD && s == PW_OK; i++)
    s = glass(old[i], &d->old[i], err);
  for (size_t i = 0; i < NEW && s == PW_OK; i++)
    s = glass(new[i], &d->new[i], err);
  return s;
}

/* Bare aluminium before; vinyl in the old frame after, with less glass. */
static pw_house_window window_of(const pw_glazing *g, int side, int insert, int count,
                                 double shade)
{
  double visible = (insert ? 0.74 : 0.85) * unit, frame = unit - visible;
  return (pw_house_window){.facing_deg = 90.0 * side,
                           .area_glass = visible,
                           .height = 1.1,
                           .width = visible / 1.1,
                           .glazing = g,
                           .ua_other = insert ? 3.0 * frame + 0.2 : 6.8 * frame,
                           .area_other = frame,
                           .solar_other = 0.1 * frame,
                           .shade_factor = shade,
                           .count = count};
}

/* What a change of all windows saves in a house. */
static pw_status together(desk *d, const pw_house_facts *facts, const int count[SIDES],
                          const pw_glazing *old, const pw_glazing *new, double shade,
                          pw_alone *saved, pw_err *err)
{
  pw_house_hole hole[SIDES];
  pw_house_window w[2][SIDES];
  pw_alone need[2];
  const pw_year_options year = {.method = d->method};
  for (int i = 0; i < SIDES; i++) {
    hole[i] = (pw_house_hole){90.0 * i, unit * count[i]};
    w[0][i] = window_of(old, i, 0, count[i], shade);
    w[1][i] = window_of(new, i, 1, count[i], shade);
  }
  pw_status s = pw_house_from_facts(facts, &d->weather, hole, SIDES, &d->house, NULL, err);
  for (int k = 0; k < 2 && s == PW_OK; k++) {
    s = pw_year_run(&d->house, &d->weather, w[k], SIDES, &year, d->ws, &d->year, err);
    need[k] = (pw_alone){d->year.heating_kwh, d->year.cooling_kwh};
  }
  if (s == PW_OK)
    *saved = (pw_alone){need[0].heating_kwh - need[1].heating_kwh,
                        need[0].cooling_kwh - need[1].cooling_kwh};
  return s;
}

/* The same, one by one as batch has it. */
static pw_status apart(desk *d, const pw_alone_place *place, const int count[SIDES],
                       const pw_glazing *old, const pw_glazing *new, double shade,
                       pw_alone *saved, pw_err *err)
{
  pw_status s = PW_OK;
  *saved = (pw_alone){0.0, 0.0};
  for (int i = 0; i < SIDES && s == PW_OK; i++) {
    const pw_house_window two[2] = {window_of(old, i, 0, 1, shade),
                                    window_of(new, i, 1, 1, shade)};
    pw_alone figure[2];
    s = pw_alone_years(place, two, (double[2]){unit, unit}, 2, d->own, figure, err);
    if (s != PW_OK) break;
    saved->heating_kwh += count[i] * (figure[0].heating_kwh - figure[1].heating_kwh);
    saved->cooling_kwh += count[i] * (figure[0].cooling_kwh - figure[1].cooling_kwh);
  }
  return s;
}

static pw_status open_place(desk *d, size_t index, pw_alone_place **place, pw_err *err)
{
  pw_status s = pw_place_year(index, &d->weather, err);
  if (s == PW_OK) s = pw_alone_place_new(&d->weather, PW_ALONE_DETAILED, place, err);
  return s;
}

/* A new workspace for each place: the weather is told apart by its address. */
static pw_status fresh(desk *d, pw_err *err)
{
  pw_year_workspace_free(d->ws);
  pw_alone_desk_free(d->own);
  d->ws = pw_year_workspace_new();
  d->own = pw_alone_desk_new(0);
  return d->ws && d->own ? PW_OK
                         : pw_fail(err, PW_E_NOMEM, NULL, "no memory for a year's work");
}

static void give(desk *d, const char *id, const char *quantity, double ours, double low,
                 double high)
{
  pw_check_give_range(d->sink, id, quantity, "-", ours, low, high, 0, source, "computed");
}

/* What the quicker methods make of the same changes of the reference house, beside the full balance. */
static void screening(desk *d, double saved[3][2], double off[2][2], const double all[2])
{
  const pw_ref_screening_row *row[2][2] = {
      {&pw_ref_screening[pw_ref_screening__simple_heating],
       &pw_ref_screening[pw_ref_screening__simple_cooling]},
      {&pw_ref_screening[pw_ref_screening__monthly_heating],
       &pw_ref_screening[pw_ref_screening__monthly_cooling]}};
  for (int m = 0; m < 2; m++)
    for (int k = 0; k < 2; k++)
      give(d, m ? "monthly method" : "simple method",
           k ? "cooling saved, more than by the full balance"
             : "heating saved, more than by the full balance",
           saved[m + 1][k] / saved[0][k] - 1.0, row[m][k]->bias - 0.02, row[m][k]->bias + 0.02);
  for (int m = 0; m < 2; m++)
    for (int k = 0; k < 2; k++)
      give(d, m ? "monthly method" : "simple method",
           k ? "cooling saved, rms of the difference over rms"
             : "heating saved, rms of the difference over rms",
           sqrt(off[m][k] / all[k]), row[m][k]->rms - 0.02, row[m][k]->rms + 0.02);
}

/* Places spread over the list, twelve pairs of glass: the reference house, all windows alike. */
static pw_status shares(desk *d, pw_err *err)
{
  static const int count[SIDES] = {4, 4, 4, 4};
  pw_house_facts facts = {.year_built = 1972, .storeys = 1};
  facts.internal_gain.value = 5.0;
  facts.floor_area.value = 150.0;
  double off[2] = {0.0, 0.0}, all[2] = {0.0, 0.0}, saved[3][2] = {{0.0}},
         quick_off[2][2] = {{0.0}};
  pw_status s = PW_OK;
  for (size_t i = 0; i < PLACES && s == PW_OK; i++) {
    size_t p = i * pw_place_count() / PLACES;
    pw_alone_place *place = NULL;
    s = fresh(d, err);
    if (s == PW_OK) s = open_place(d, p, &place, err);
    for (size_t k = 0; k < OLD * NEW && s == PW_OK; k++) {
      const pw_glazing *old = &d->old[k % OLD], *new = &d->new[k / OLD];
      pw_alone by[3], rows;
      for (int m = PW_YEAR_DETAILED; m <= PW_YEAR_QUICK && s == PW_OK; m++) {
        d->method = (pw_year_method)m;
        s = together(d, &facts, count, old, new, 0.0, &by[m], err);
        saved[m][0] += by[m].heating_kwh;
        saved[m][1] += by[m].cooling_kwh;
      }
      d->method = PW_YEAR_DETAILED;
      for (int m = 0; m < 2; m++) {
        quick_off[m][0] += pow(by[m + 1].heating_kwh - by[0].heating_kwh, 2.0);
        quick_off[m][1] += pow(by[m + 1].cooling_kwh - by[0].cooling_kwh, 2.0);
      }
      const pw_alone whole = by[PW_YEAR_DETAILED];
      if (s == PW_OK) s = apart(d, place, count, old, new, 0.0, &rows, err);
      if (s != PW_OK) break;
      off[0] += pow(rows.heating_kwh - whole.heating_kwh, 2.0);
      off[1] += pow(rows.cooling_kwh - whole.cooling_kwh, 2.0);
      all[0] += pow(whole.heating_kwh, 2.0);
      all[1] += pow(whole.cooling_kwh, 2.0);
    }
    pw_alone_place_free(place);
  }
  if (s != PW_OK) return s;
  give(d, "rows beside their house", "heating saved, rms of the difference over rms",
       sqrt(off[0] / all[0]), 0.0, 0.05);
  give(d, "rows beside their house", "cooling saved, rms of the difference over rms",
       sqrt(off[1] / all[1]), 0.0, 0.05);
  screening(d, saved, quick_off, all);
  return PW_OK;
}

static pw_house_facts invent(desk *d, int count[SIDES], double *shade)
{
  double size = 90.0 + 190.0 * pw_random_share(&d->seed),
         share = 0.10 + 0.12 * pw_random_share(&d->seed), part[SIDES], all = 0.0;
  *shade = 0.3 * pw_random_share(&d->seed);
  pw_house_facts f = {.storeys = pw_random_share(&d->seed) < 0.3 ? 2 : 1};
  f.year_built = (int)(1945.0 + 65.0 * pw_random_share(&d->seed));
  f.internal_gain.value = 3.0 + 5.0 * pw_random_share(&d->seed);
  f.floor_area.value = size;
  f.heat_set_c.value = 19.0 + 3.0 * pw_random_share(&d->seed);
  f.cool_set_c.value = 24.0 + 3.0 * pw_random_share(&d->seed);
  for (int i = 0; i < SIDES; i++)
    all += part[i] = 0.5 + pw_random_share(&d->seed);
  for (int i = 0; i < SIDES; i++)
    count[i] = (int)fmax(1.0, floor(part[i] / all * share * size / unit + 0.5));
  return f;
}

static int by_size(const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

static void quantiles(desk *d, int cooling, const pw_ref_alone_spread_row *row)
{
  double *r = d->ratio[cooling], last = (double)(d->n[cooling] - 1);
  qsort(r, d->n[cooling], sizeof *r, by_size);
  const struct {
    double at, want;
    const char *say;
  } q[] = {{0.1, row->low, "a tenth of the houses below"},
           {0.5, row->middle, "half of the houses below"},
           {0.9, row->high, "a tenth of the houses above"}};
  for (size_t i = 0; i < 3; i++)
    give(d, cooling ? "cooling saved in other houses" : "heating saved in other houses",
         q[i].say, r[(size_t)(q[i].at * last)], q[i].want - 0.03, q[i].want + 0.03);
}

/* A hundred invented houses: what their windows save over what batch says of them. */
static pw_status others(desk *d, pw_err *err)
{
  pw_status s = PW_OK;
  for (int j = 0; j < HOUSES && s == PW_OK; j++) {
    pw_alone_place *place = NULL;
    int count[SIDES];
    double shade;
    size_t index = (size_t)(pw_random_share(&d->seed) * (double)pw_place_count());
    size_t old = (size_t)(pw_random_share(&d->seed) * OLD),
           new = (size_t)(pw_random_share(&d->seed) * NEW);
    s = fresh(d, err);
    if (s == PW_OK) s = open_place(d, index, &place, err);
    const pw_house_facts facts = invent(d, count, &shade);
    pw_alone whole, rows;
    if (s == PW_OK)
      s = together(d, &facts, count, &d->old[old], &d->new[new], shade, &whole, err);
    if (s == PW_OK) s = apart(d, place, count, &d->old[old], &d->new[new], shade, &rows, err);
    pw_alone_place_free(place);
    if (s != PW_OK) break;
    double area = unit * (count[0] + count[1] + count[2] + count[3]);
    if (fabs(rows.heating_kwh) > 10.0 * area)
      d->ratio[0][d->n[0]++] = whole.heating_kwh / rows.heating_kwh;
    if (fabs(rows.cooling_kwh) > 10.0 * area)
      d->ratio[1][d->n[1]++] = whole.cooling_kwh / rows.cooling_kwh;
  }
  if (s != PW_OK) return s;
  quantiles(d, 0, &pw_ref_alone_spread[pw_ref_alone_spread__heating]);
  quantiles(d, 1, &pw_ref_alone_spread[pw_ref_alone_spread__cooling]);
  return PW_OK;
}

static pw_status run(const pw_check_sink *sink, pw_err *err)
{
  desk *d = calloc(1, sizeof *d);
  if (!d) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the rows");
  d->sink = sink;
  d->seed = 1;
  pw_status s = glasses(d, err);
  if (s == PW_OK) s = shares(d, err);
  if (s == PW_OK) s = others(d, err);
  pw_year_workspace_free(d->ws);
  pw_alone_desk_free(d->own);
  free(d);
  return s;
}

const pw_check_group pw_check_rows = {"rows", "rows of batch beside whole houses", run};
