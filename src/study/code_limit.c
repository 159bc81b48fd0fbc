#include "study/code_limit.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "gen/reference.h"
#include "panewright/units.h"

#define SMALL_ALTERATION (75.0 * PW_FOOT2) /* m2; criteria california_small_U */
#define HIGH (4000.0 * PW_FOOT)            /* m; criteria iecc2021_U_high */

enum { NO_ROW = -1, ZONES = 9, NEWEST_SURE = 2021 };

/* ---------------------------------------------------------------- the model code */

#define R(metric, year, zone) pw_ref_trade_criteria__iecc##year##_##metric##_zone##zone
#define EARLY(metric, year) /* by zone 0..8; 0 came in 2021 */                                 \
  {                                                                                            \
    NO_ROW, R(metric, year, 1), R(metric, year, 2), R(metric, year, 3), R(metric, year, 4),    \
        R(metric, year, 5), R(metric, year, 6), R(metric, year, 7), R(metric, year, 7)         \
  }
#define LATE(metric, year)                                                                     \
  {                                                                                            \
    R(metric, year, 0), R(metric, year, 1), R(metric, year, 2), R(metric, year, 3),            \
        R(metric, year, 4), R(metric, year, 5), R(metric, year, 6), R(metric, year, 7),        \
        R(metric, year, 7)                                                                     \
  }

static const struct {
  int edition, u[ZONES], shgc[ZONES];
} model[] = {
    {2009, EARLY(U, 2009), EARLY(SHGC, 2009)}, {2012, EARLY(U, 2012), EARLY(SHGC, 2012)},
    {2015, EARLY(U, 2015), EARLY(SHGC, 2015)}, {2018, EARLY(U, 2018), EARLY(SHGC, 2018)},
    {2021, LATE(U, 2021), LATE(SHGC, 2021)},   {2024, LATE(U, 2024), LATE(SHGC, 2024)},
};

/* ---------------------------------------------------------------- California */

#define C(id) pw_ref_trade_criteria__california##id
static const struct {
  int edition, u, shgc;
} california[] = {{2016, C(2016_U), C(2016_SHGC)},
                  {2019, C(2019_U), C(2019_SHGC)},
                  {2022, C(2022_U), C(2022_SHGC)},
                  {2025, C(2025_U_alteration), C(2025_SHGC)}};

enum {
  N_MODEL = sizeof model / sizeof model[0],
  N_CALIFORNIA = sizeof california / sizeof california[0]
};

int pw_code_edition(pw_code code, size_t i)
{
  if (code == PW_CODE_CALIFORNIA) return i < N_CALIFORNIA ? california[i].edition : 0;
  return i < N_MODEL ? model[i].edition : 0;
}

const char *pw_code_title(pw_code code)
{
  return code == PW_CODE_CALIFORNIA ? "California's energy code" : "the model energy code";
}

/* Whether a zone stands in a list as the table prints it: "all 16", "2,4,6-16". */
static int listed(const char *list, int zone)
{
  if (strncmp(list, "all", 3) == 0) return 1;
  while (*list) {
    char *end = NULL;
    long low = strtol(list, &end, 10), high = low;
    if (end == list) return 0;
    if (*end == '-') high = strtol(end + 1, &end, 10);
    if (zone >= low && zone <= high) return 1;
    list = end + (*end == ',');
  }
  return 0;
}

/* ---------------------------------------------------------------- rows */

static void add(pw_code_limits *l, int index, pw_metric metric)
{
  if (index == NO_ROW) return;
  const pw_ref_trade_criteria_row *from = &pw_ref_trade_criteria[index];
  if (!isfinite(from->value)) return; /* no requirement */
  pw_program_row *row = &l->row[l->n_row];
  *row = (pw_program_row){.kind = PW_ROW_CRITERION, .metric = metric, .op = PW_OP_LE};
  if (pw_metric_unit(metric, from->unit, &row->si, &row->step, NULL) != PW_OK) return;
  row->value = from->value;
  snprintf(row->program, sizeof row->program, "%s", pw_code_title(l->code));
  snprintf(row->edition, sizeof row->edition, "%d", l->edition);
  snprintf(row->unit, sizeof row->unit, "%s", from->unit);
  snprintf(row->source, sizeof row->source, "%s", from->source);
  snprintf(row->note, sizeof row->note, "%s", from->how_known);
  if (l->n_row++ == 0) {
    l->source = from->source;
    l->how_known = from->how_known;
  }
}

double pw_code_limit_of(const pw_code_limits *limits, pw_metric metric)
{
  for (size_t i = 0; i < limits->n_row; i++)
    if (limits->row[i].metric == metric) return limits->row[i].value * limits->row[i].si;
  return (double)NAN;
}

static void of_zone(pw_code_limits *l, const char *zone)
{
  l->zone = PW_SAYS(PW_SAY_CODE_ZONE, PW_OWN);
  pw_message_own(&l->zone, zone);
}

static pw_status no_edition(const pw_code_place *place, pw_code code, pw_err *err)
{
  char list[80] = "";
  for (size_t i = 0; pw_code_edition(code, i); i++) {
    size_t n = strlen(list);
    snprintf(list + n, sizeof list - n, "%s%d", i ? ", " : "", pw_code_edition(code, i));
  }
  return pw_fail(err, PW_E_DOMAIN, "code_edition", "%d is no edition of %s here, want %s",
                 place->edition, pw_code_title(code), list);
}

static pw_status of_california(const pw_code_place *place, pw_code_limits *l, pw_err *err)
{
  size_t k = N_CALIFORNIA - 1;
  l->code = PW_CODE_CALIFORNIA;
  for (size_t i = 0; i < N_CALIFORNIA; i++) {
    pw_date from = 0, to = 0;
    const pw_ref_trade_criteria_row *row = &pw_ref_trade_criteria[california[i].u];
    pw_status status = pw_date_read(row->effective_from, &from, err);
    if (status == PW_OK && row->effective_to[0])
      status = pw_date_read(row->effective_to, &to, err);
    if (status != PW_OK) return status;
    int asked = place->edition == california[i].edition;
    int now = !place->edition && place->date >= from && (!to || place->date <= to);
    if (asked || now) k = i;
  }
  l->edition = california[k].edition;
  if (place->edition && place->edition != l->edition) return no_edition(place, l->code, err);
  if (!place->ca_zone) {
    l->says = PW_SAYS_PLAIN(PW_SAY_CODE_CALIFORNIA_UNKNOWN);
    return PW_OK;
  }
  l->known = 1;
  char zone[16];
  snprintf(zone, sizeof zone, "CA %d", place->ca_zone);
  of_zone(l, zone);
  int small = l->edition == 2019 || l->edition == 2022;
  small = small && place->area > 0.0 && place->area <= SMALL_ALTERATION;
  int shgc = small ? C(_small_SHGC) : california[k].shgc;
  add(l, small ? C(_small_U) : california[k].u, PW_METRIC_U);
  if (listed(pw_ref_trade_criteria[shgc].zone, place->ca_zone)) add(l, shgc, PW_METRIC_SHGC);
  add(l, C(_air_leakage), PW_METRIC_AIR_LEAKAGE);
  l->says = PW_SAYS_PLAIN(place->edition || place->date ? PW_SAY_CODE_CALIFORNIA
                                                        : PW_SAY_CODE_CALIFORNIA_NEWEST);
  if (small) l->says.led_by = PW_SAY_CODE_SMALL;
  return PW_OK;
}

static pw_status of_model(const pw_code_place *place, pw_code_limits *l, pw_err *err)
{
  size_t k = 0;
  l->code = PW_CODE_IECC;
  l->edition = place->edition ? place->edition : NEWEST_SURE;
  while (k < N_MODEL && model[k].edition != l->edition)
    k++;
  if (k == N_MODEL) return no_edition(place, l->code, err);
  int zone = place->zone[0] - '0', marine = place->zone[1] == 'C';
  if (!(zone >= 0 && zone < ZONES)) {
    l->says = PW_SAYS_PLAIN(PW_SAY_CODE_MODEL_UNKNOWN);
    return PW_OK;
  }
  l->known = 1;
  of_zone(l, place->zone);
  int row = zone == 4 && marine ? 5 : zone; /* "5 and Marine 4" */
  int high = l->edition == 2021 && row >= 5 && place->elevation > HIGH;
  add(l, high ? pw_ref_trade_criteria__iecc2021_U_high : model[k].u[row], PW_METRIC_U);
  add(l, model[k].shgc[row], PW_METRIC_SHGC);
  l->says = PW_SAYS_PLAIN(place->edition ? PW_SAY_CODE_MODEL : PW_SAY_CODE_MODEL_ASK);
  if (high) l->says.led_by = PW_SAY_CODE_HIGH;
  return PW_OK;
}

pw_status pw_code_limits_find(const pw_code_place *place, pw_code_limits *limits, pw_err *err)
{
  pw_code_limits l = {0};
  pw_status status =
      place->california ? of_california(place, &l, err) : of_model(place, &l, err);
  if (status == PW_OK) *limits = l;
  return status;
}
