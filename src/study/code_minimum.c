#include "study/code_minimum.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "gen/reference.h"
#include "panewright/units.h"

static const char edition[] = "2021";

/* IECC Table R301.3(2), thermal criteria in F days; from memory. */
int pw_code_zone(double hdd65f, double cdd50f)
{
  if (cdd50f > 9000.0) return 1;
  if (cdd50f > 6300.0) return 2;
  if (cdd50f > 4500.0 && hdd65f <= 5400.0) return 3;
  if (hdd65f <= 3600.0) return 3; /* 3C, marine */
  if (hdd65f <= 5400.0) return 4;
  if (hdd65f <= 7200.0) return 5;
  if (hdd65f <= 9000.0) return 6;
  return hdd65f <= 12600.0 ? 7 : 8;
}

static void degree_days(const pw_weather *weather, double *hdd65f, double *cdd50f)
{
  *hdd65f = *cdd50f = 0.0;
  for (size_t day = 0; day < PW_HOURS / 24; day++) {
    double sum = 0.0;
    for (size_t h = 0; h < 24; h++)
      sum += (double)weather->hour[day * 24 + h].t_air;
    double mean_f = sum / 24.0 * 1.8 + 32.0;
    *hdd65f += fmax(0.0, 65.0 - mean_f);
    *cdd50f += fmax(0.0, mean_f - 50.0);
  }
}

/* Rows of reference/trade/criteria.csv by zone, 0 to 8; 7 and 8 share one. */
#define ROW(metric, zone) pw_ref_trade_criteria__iecc2021_##metric##_zone##zone
static const int u_row[] = {ROW(U, 0), ROW(U, 1), ROW(U, 2), ROW(U, 3), ROW(U, 4),
                            ROW(U, 5), ROW(U, 6), ROW(U, 7), ROW(U, 7)};
static const int shgc_row[] = {ROW(SHGC, 0), ROW(SHGC, 1), ROW(SHGC, 2),
                               ROW(SHGC, 3), ROW(SHGC, 4), ROW(SHGC, 5),
                               ROW(SHGC, 6), ROW(SHGC, 7), ROW(SHGC, 7)};

/* Climate zone by the thermal criteria of the model code, and the prescriptive limits for vertical
 * windows there.
 *
 * Given     weather (a typical year)
 * Returned  *minimum, by the 2021 edition
 * Status    PW_OK; PW_E_MISSING no row for that zone in reference/trade/criteria.csv
 * Notes     1) Marine, dry and moist parts of a zone are not told apart, except that zone 4 takes
 *              the row "4 except Marine". The adopted local edition governs.
 *           2) Degree-days of one typical year, not the 30-year normals.
 * Source    IECC Table R301.3(2) zone limits (from memory); Table R402.1.2, criteria.csv.
 */
static pw_status pw_code_minimum_find(const pw_weather *weather, pw_code_minimum *minimum,
                                      pw_err *err)
{
  (void)err; /* every zone has its row */
  pw_code_minimum m = {0};
  degree_days(weather, &m.hdd65f, &m.cdd50f);
  m.zone = pw_code_zone(m.hdd65f, m.cdd50f);
  const pw_ref_trade_criteria_row *u = &pw_ref_trade_criteria[u_row[m.zone]];
  m.u = u->value * PW_U_IP;
  m.shgc = pw_ref_trade_criteria[shgc_row[m.zone]].value; /* NAN: no requirement */
  m.name = pw_code_title(PW_CODE_IECC);
  memcpy(m.edition, edition, sizeof edition);
  m.source = u->source;
  m.how_known = u->how_known;
  *minimum = m;
  return PW_OK;
}

pw_status pw_code_minimum_at(const pw_code_place *place, const pw_code_limits *limits,
                             const pw_weather *weather, pw_code_minimum *minimum, pw_err *err)
{
  pw_status status = pw_code_minimum_find(weather, minimum, err);
  double u = pw_code_limit_of(limits, PW_METRIC_U);
  if (status != PW_OK || !limits->known || !isfinite(u)) return status;
  minimum->zone = limits->code == PW_CODE_CALIFORNIA ? place->ca_zone : atoi(place->zone);
  minimum->u = u;
  minimum->shgc = pw_code_limit_of(limits, PW_METRIC_SHGC);
  snprintf(minimum->edition, sizeof minimum->edition, "%d", limits->edition % 10000);
  minimum->name = pw_code_title(limits->code);
  minimum->source = limits->source;
  minimum->how_known = limits->how_known;
  return PW_OK;
}
