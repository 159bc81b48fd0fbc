#include "panewright/code_minimum.h"

#include <math.h>
#include <string.h>

#include "panewright/table.h"
#include "panewright/units.h"

static const char programme[] = "IECC residential", edition[] = "2021";

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

/* The zone cell of criteria.csv that stands for a zone number. */
static const char *zone_cell(int zone)
{
  static const char *const cell[] = {
      "0", "1", "2", "3", "4 except Marine", "5 and Marine 4", "6", "7 and 8", "7 and 8"};
  return cell[zone];
}

static long find_row(const pw_table *t, const char *zone, const char *metric)
{
  int c_programme = pw_table_column(t, "programme"), c_edition = pw_table_column(t, "edition");
  int c_zone = pw_table_column(t, "zone"), c_metric = pw_table_column(t, "metric");
  for (size_t r = 0; t && r < t->n_row; r++)
    if (strcmp(pw_table_text(t, r, c_programme), programme) == 0 &&
        strcmp(pw_table_text(t, r, c_edition), edition) == 0 &&
        strcmp(pw_table_text(t, r, c_zone), zone) == 0 &&
        strcmp(pw_table_text(t, r, c_metric), metric) == 0)
      return (long)r;
  return -1;
}

pw_status pw_code_minimum_find(const pw_weather *weather, pw_code_minimum *minimum, pw_err *err)
{
  pw_code_minimum m = {0};
  degree_days(weather, &m.hdd65f, &m.cdd50f);
  m.zone = pw_code_zone(m.hdd65f, m.cdd50f);
  const pw_table *t = pw_table_find("trade/criteria");
  long u = find_row(t, zone_cell(m.zone), "U"), shgc = find_row(t, zone_cell(m.zone), "SHGC");
  int value = pw_table_column(t, "value");
  if (u < 0)
    return pw_fail(err, PW_E_MISSING, "zone",
                   "the table of criteria has no row of %s %s for zone %d", programme, edition,
                   m.zone);
  m.u = pw_table_number(t, (size_t)u, value) * PW_U_IP;
  m.shgc = shgc < 0 ? (double)NAN : pw_table_number(t, (size_t)shgc, value);
  memcpy(m.edition, edition, sizeof edition);
  m.source = pw_table_text(t, (size_t)u, pw_table_column(t, "source"));
  m.how_known = pw_table_text(t, (size_t)u, pw_table_column(t, "how_known"));
  *minimum = m;
  return PW_OK;
}
