/* The proof of the meter: does a range weighed by a house's own bills hold what that house really saves?
 *
 * Usage: prove_meter [COUNT [SEED [FILE.csv [FROM]]]], houses FROM (0) to COUNT less one. Each invented house is described as a job describes it (place, size,
 * plant, set points of its own); what it is in truth is a draw of the spreads around that description. Its bills of
 * two years come from the detailed model of the truth, lived hour by hour in weather that is not the comparison's: days
 * change places within their month with their sun and wind, each month is warmer or colder, each day too; use that no
 * window program knows (hot water, plugs) stands under it, and each bill has its noise. The job as described is then
 * drawn and weighed by these bills as `compare --range` does it.
 *
 * Of four houses two are known as after a first visit: size, age, storeys, fuel; set points, ducts' losses and efficiencies
 * are left open and drawn. One gives them all: its bills can only tell what is left (told without a bar). One is heated by
 * electricity.
 *
 * Goals (issue 15): true saving inside the 10..90 % with bills in 75 to 85 % of the houses; where a fuel with a meter of
 * its own heats, the median band at most 0.7 times as wide as without bills. All-electric houses are told without a bar, too.
 * The saving is what a meter can count: energy at the weather of a normal year (METHODS section 6), of heating and cooling
 * together. $ of one year are told beside it and have no bar: a later year's weather and a price are no fact of the
 * house, so bills of the past say nothing of them, in truth or band, however good they are.
 * Ends with 1 when a goal is missed. Not in `make test`: about 7 s of a core a house. */
#include <gsl/gsl_errno.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "range_one.h"

#include "base/date.h"
#include "climate/month.h"
#include "job/job_open.h"
#include "study/range.h"
#include "study/range_bills_impl.h"

enum { YEARS = 2, DAYS = 365, MONTHS = 12, FIRST_DAY = 18628 /* 2021-01-01 */ };
enum { SAVED_ENERGY, SAVED_HEATING, SAVED_COOLING, SAVED_COST, FIGURES };
static const char *const figure_name[FIGURES] = {"kWh a year", "kWh of heating",
                                                 "kWh of cooling", "$ of one year"};

static const double PI = 3.14159265358979;
/* Invented base use, kWh a day, and its noise; own choice, no source. */
static const double BASE_GAS[2] = {8.0, 25.0}, BASE_POWER[2] = {8.0, 20.0}, NOISE = 0.05,
                    BASE_SEASON = 0.08;
/* K: of a month's mean about its normal (1.5 K is usual of a continental place, from memory), of a day about it. */
static const double MONTH_OFF = 1.5, DAY_OFF = 1.5;

typedef enum house_kind { OPEN, KNOWN, ELECTRIC, KINDS } house_kind;
static const house_kind kind_of[4] = {OPEN, OPEN, KNOWN, ELECTRIC};
static const char *const kind_name[KINDS] = {
    "a fuel with its own meter, as after a first visit",
    "a fuel with its own meter, set points, ducts and efficiencies told", "electricity"};

typedef struct house {
  house_kind kind;
  pw_open_job open;
  pw_compare compare;
  range_case rc;
  double u[2 * IN_COUNT], v[IN_COUNT];
  pw_weather *actual; /* [YEARS] */
  double t[YEARS * DAYS];
  double power[YEARS][MONTHS], heat[YEARS][MONTHS]; /* kWh of the bills */
} house;

/* What came of one house. */
typedef struct outcome {
  house_kind kind;
  int used, refused;
  double effective, truth[FIGURES];
  pw_band before[FIGURES], with[FIGURES];
} outcome;

static void must(pw_status status, const pw_err *err)
{
  if (status == PW_OK) return;
  fprintf(stderr, "prove_meter: %s\n", err->text);
  exit(70);
}

static double between(gsl_rng *r, double low, double high)
{
  return low + (high - low) * gsl_rng_uniform_pos(r);
}

/* ---------------------------------------------------------------- the house as described */

static void copy(const char *from, const char *to, int leave_open)
{
  static const char *const open[] = {"heat_set,", "cool_set,", "heating_efficiency,",
                                     "cooling_efficiency,", "duct_efficiency,"};
  char line[1000];
  FILE *in = fopen(from, "r"), *out = fopen(to, "w");
  if (!in || !out) exit(70);
  while (fgets(line, sizeof line, in)) {
    int skip = 0;
    for (size_t i = 0; leave_open && i < sizeof open / sizeof open[0]; i++)
      skip |= strncmp(line, open[i], strlen(open[i])) == 0;
    if (!skip) fputs(line, out);
  }
  if (leave_open) fputs("ducts,attic\n", out);
  fclose(in);
  if (fclose(out) != 0) exit(70);
}

/* The example as the house's kind tells it. */
static void open_as(house_kind kind, pw_open_job *open, pw_err *err)
{
  static const char *const file[] = {"job.csv", "openings.csv", "packages.csv"};
  char dir[] = "/tmp/panewright-prove-XXXXXX", from[80], to[80];
  if (!mkdtemp(dir)) exit(70);
  for (size_t i = 0; i < 3; i++) {
    snprintf(from, sizeof from, "examples/harrow_bend/%s", file[i]);
    snprintf(to, sizeof to, "%s/%s", dir, file[i]);
    copy(from, to, i == 0 && kind != KNOWN);
  }
  must(pw_job_open(dir, open, err), err);
  for (size_t i = 0; i < 3; i++) {
    snprintf(to, sizeof to, "%s/%s", dir, file[i]);
    remove(to);
  }
  rmdir(dir);
}

static void describe(house *h, gsl_rng *r, pw_err *err)
{
  static const char *const place[] = {"Phoenix, AZ",    "Albuquerque, NM", "Sacramento, CA",
                                      "Denver, CO",     "Chicago, IL",     "Atlanta, GA",
                                      "Los Angeles, CA"};
  size_t n_place = sizeof place / sizeof place[0], index;
  open_as(h->kind, &h->open, err);
  pw_house_facts *f = &h->open.job.house;
  f->bill_year.value = 0.0;
  must(pw_place_find(place[gsl_rng_uniform_int(r, n_place)], &index, NULL, err), err);
  must(pw_place_year(index, h->open.weather, err), err);
  f->floor_area.value = between(r, 95.0, 210.0);
  f->year_built = (int)between(r, 1950.0, 1989.0);
  f->floor_area.spread = 0.0;
  if (h->kind == ELECTRIC) {
    f->heating_fuel = PW_FUEL_ELECTRICITY;
    snprintf(f->heating_kind, sizeof f->heating_kind, "heat_pump");
  }
  if (h->kind == KNOWN) {
    f->heating_efficiency.value = between(r, 0.7, 0.9);
    f->heat_set_c.value = between(r, 19.0, 22.0);
    f->cool_set_c.value = between(r, 24.0, 26.5);
    f->duct_efficiency.value = between(r, 0.75, 0.9);
  }
  /* One package, one of the three. */
  size_t p = gsl_rng_uniform_int(r, h->open.job.n_package);
  pw_package keep = h->open.job.package[p];
  h->open.job.package[p] = h->open.job.package[0];
  h->open.job.package[0] = keep;
  h->open.job.n_package = 1;
  pw_compare_options o = pw_job_options(&h->open, PW_YEAR_DETAILED);
  must(pw_compare_run(&h->open.job, h->open.weather, &o, NULL, &h->compare, err), err);
  must(range_case_of(&h->compare, h->open.weather, PW_YEAR_DETAILED, 0, &h->rc, err), err);
}

/* ---------------------------------------------------------------- what it is, and its bills */

/* A year that is not the comparison's. */
static void weather_of(const pw_weather *normal, gsl_rng *r, pw_weather *to, double t[DAYS])
{
  *to = *normal;
  for (int m = 0; m < MONTHS; m++) {
    int order[31], n = pw_month_days[m];
    double off = gsl_ran_gaussian(r, MONTH_OFF), day_off = 0.0;
    for (int d = 0; d < n; d++)
      order[d] = d;
    gsl_ran_shuffle(r, order, (size_t)n, sizeof order[0]);
    for (int d = 0; d < n; d++) {
      int here = pw_month_start[m] + d, from = pw_month_start[m] + order[d];
      day_off = 0.6 * day_off + gsl_ran_gaussian(r, 0.8 * DAY_OFF);
      t[here] = 0.0;
      for (int k = 0; k < 24; k++) {
        pw_hour *hour = &to->hour[24 * here + k];
        *hour = normal->hour[24 * from + k];
        hour->t_air += (float)(off + day_off);
        hour->t_dew += (float)(off + day_off);
        t[here] += (double)hour->t_air / 24.0;
      }
    }
  }
}

static void live_truth(house *h, gsl_rng *r, outcome *out, pw_err *err)
{
  double year[RANGE_SETS * RANGE_MONTHS], f[RANGE_SETS * F_COUNT];
  double base_gas = between(r, BASE_GAS[0], BASE_GAS[1]),
         base_power = between(r, BASE_POWER[0], BASE_POWER[1]);
  range_need need;
  void *room = range_room_new(&h->rc);
  for (int i = 0; i < 2 * IN_COUNT; i++)
    h->u[i] = gsl_rng_uniform_pos(r);
  range_values(&h->rc, h->u, h->v);
  must(range_year(&h->rc, room, h->u, year, err), err);
  must(range_figures_at(&h->rc, h->v, year, f, &need, err), err);
  out->truth[SAVED_COST] = f[F_COUNT + F_SAVING];
  out->truth[SAVED_ENERGY] = f[F_COUNT + F_NORMAL_FUEL];
  out->truth[SAVED_HEATING] = f[F_COUNT + F_HEATING_FUEL];
  out->truth[SAVED_COOLING] = f[F_COUNT + F_COOLING_POWER];
  for (int y = 0; y < YEARS; y++) {
    weather_of(h->open.weather, r, &h->actual[y], h->t + y * DAYS);
    range_room_free(room); /* its sun is of the weather before */
    room = range_room_new(&h->rc);
    range_case there = h->rc;
    there.weather = &h->actual[y];
    must(range_year(&there, room, h->u, year, err), err);
    for (int m = 0; m < MONTHS; m++) {
      double days = pw_month_days[m], season = 1.0 + BASE_SEASON * cos(PI * m / 6.0);
      double heat = need.per_need[0] * h->v[IN_MODEL_HEAT] * fmax(0.0, year[m]);
      double cool = need.per_need[1] * h->v[IN_MODEL_COOL] * fmax(0.0, year[12 + m]);
      h->heat[y][m] = base_gas * days * season + heat;
      h->power[y][m] = base_power * days * season + cool + (h->kind == ELECTRIC ? heat : 0.0);
      h->heat[y][m] *= 1.0 + gsl_ran_gaussian(r, NOISE);
      h->power[y][m] *= 1.0 + gsl_ran_gaussian(r, NOISE);
    }
  }
  range_room_free(room);
}

static void add_bills(const house *h, pw_fuel fuel, const double use[YEARS][MONTHS],
                      const pw_daily *weather, const pw_normal_set *normal,
                      pw_range_bills *bills, pw_err *err)
{
  pw_bill_row row[YEARS * MONTHS];
  pw_meter_use judged;
  (void)h;
  for (int y = 0; y < YEARS; y++)
    for (int m = 0; m < MONTHS; m++) {
      int from = FIRST_DAY + y * DAYS + pw_month_start[m];
      row[y * MONTHS + m] = (pw_bill_row){from,        from + pw_month_days[m], use[y][m],
                                          (double)NAN, PW_READ_ACTUAL,          (double)NAN};
    }
  must(
      pw_meter_use_of(fuel, row, YEARS * MONTHS, weather, normal, PW_BILL_NO_DAY, &judged, err),
      err);
  must(pw_range_bills_add(bills, &judged, 1.0, weather, err), err);
  pw_meter_use_free(&judged);
}

/* ---------------------------------------------------------------- the range with them */

static void figures_of(const pw_range *range, pw_band band[FIGURES])
{
  const pw_range_set *set = &range->package[0];
  band[SAVED_COST] = set->saving_cost;
  band[SAVED_ENERGY] = set->saving_normal_kwh;
  band[SAVED_HEATING] = set->saving_heating_fuel_kwh;
  band[SAVED_COOLING] = set->saving_cooling_kwh;
}

static void weigh(house *h, uint64_t seed, outcome *out, pw_err *err)
{
  pw_daily weather = {0, FIRST_DAY, YEARS * DAYS, h->t};
  pw_normal_set normal;
  pw_range_bills bills = {0};
  pw_range range;
  pw_range_options o = {.n_draw = PW_RANGE_DRAWS,
                        .seed = seed,
                        .n_thread = 1,
                        .method = PW_RANGE_REDUCED,
                        .bands_only = 1,
                        .bills = &bills};
  must(pw_normal_set_of(&weather, &normal, err), err);
  if (h->kind != ELECTRIC)
    add_bills(h, PW_FUEL_GAS, (const double(*)[MONTHS])h->heat, &weather, &normal, &bills, err);
  add_bills(h, PW_FUEL_ELECTRICITY, (const double(*)[MONTHS])h->power, &weather, &normal,
            &bills, err);
  must(pw_range_of(&h->compare, h->open.weather, PW_YEAR_DETAILED, &o, &range, err), err);
  figures_of(&range, out->with);
  out->used = range.bills.used;
  out->refused = (int)range.bills.condition.refused;
  out->effective = range.bills.condition.effective;
  o.bills = NULL;
  must(pw_range_of(&h->compare, h->open.weather, PW_YEAR_DETAILED, &o, &range, err), err);
  figures_of(&range, out->before);
  pw_range_bills_free(&bills);
  pw_normal_set_free(&normal);
}

static void one_house(size_t i, uint64_t seed, gsl_rng *r, outcome *out)
{
  pw_err err = {0};
  house *h = calloc(1, sizeof *h);
  if (h) h->actual = calloc(YEARS, sizeof *h->actual);
  if (!h || !h->actual) exit(70);
  *out = (outcome){.kind = kind_of[i % 4]};
  h->kind = out->kind;
  gsl_rng_set(r, (unsigned long)(seed * 100003u + i));
  describe(h, r, &err);
  live_truth(h, r, out, &err);
  weigh(h, seed + i, out, &err);
  pw_compare_free(&h->compare);
  pw_job_close(&h->open);
  free(h->actual);
  free(h);
}

/* ---------------------------------------------------------------- what came of them */

static int inside(const pw_band *b, double v) { return b->p10 <= v && v <= b->p90; }

static int rising(const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

static double median(double v[], size_t n)
{
  if (n == 0) return (double)NAN;
  qsort(v, n, sizeof *v, rising);
  return n % 2 ? v[n / 2] : 0.5 * (v[n / 2 - 1] + v[n / 2]);
}

/* Returns whether the goals hold of a figure. */
static int tell(const outcome out[], size_t n, house_kind kind, int figure, double *ratio)
{
  size_t used = 0, before = 0, with = 0;
  double off = 0.0;
  for (size_t i = 0; i < n; i++) {
    const outcome *o = &out[i];
    const pw_band *b = &o->before[figure], *w = &o->with[figure];
    if (o->kind != kind || !o->used) continue;
    before += (size_t)inside(b, o->truth[figure]);
    with += (size_t)inside(w, o->truth[figure]);
    off += (o->truth[figure] - w->p50) / fmax(w->p90 - w->p10, 1e-9);
    ratio[used++] = (w->p90 - w->p10) / fmax(b->p90 - b->p10, 1e-9);
  }
  double share = 100.0 * (double)with / (double)used, width = median(ratio, used);
  printf(
      "  saved, %-15s inside 10..90 with bills %5.1f %% of %zu; truth less middle %+.2f of the "
      "band",
      figure_name[figure], share, used, off / (double)used);
  printf("; without bills %.1f %%; band at the median %.2f times as wide as without\n",
         100.0 * (double)before / (double)used, width);
  return share >= 75.0 && share <= 85.0 && width <= 0.7;
}

static void tell_refused(const outcome out[], size_t n, house_kind kind)
{
  static const char *const why[] = {"regression", "few", "tail", "far"};
  size_t count[4] = {0}, all = 0;
  for (size_t i = 0; i < n; i++) {
    if (out[i].kind != kind) continue;
    all++;
    if (!out[i].used) count[out[i].refused & 3]++;
  }
  printf("%zu houses heated by %s; bills refused of", all, kind_name[kind]);
  for (int k = 0; k < 4; k++)
    printf(" %zu (%s)%s", count[k], why[k], k < 3 ? "," : "\n");
}

static void keep(const outcome out[], size_t from, size_t n, const char *path)
{
  FILE *f = fopen(path, "w");
  if (!f) return;
  fputs("house,kind,used,refused,effective,before_p10,before_p50,before_p90", f);
  for (int k = 0; k < FIGURES; k++)
    fprintf(f, ",truth%d,with_p10_%d,with_p50_%d,with_p90_%d", k, k, k, k);
  fputc('\n', f);
  for (size_t i = from; i < n; i++) {
    const outcome *o = &out[i];
    fprintf(f, "%zu,%d,%d,%d,%.0f,%.1f,%.1f,%.1f", i, (int)o->kind, o->used, o->refused,
            o->effective, o->before[0].p10, o->before[0].p50, o->before[0].p90);
    for (int k = 0; k < FIGURES; k++)
      fprintf(f, ",%.1f,%.1f,%.1f,%.1f", o->truth[k], o->with[k].p10, o->with[k].p50,
              o->with[k].p90);
    fputc('\n', f);
  }
  fclose(f);
}

int main(int argc, char **argv)
{
  size_t n = argc > 1 ? (size_t)strtoul(argv[1], NULL, 10) : 300;
  uint64_t seed = argc > 2 ? strtoul(argv[2], NULL, 10) : 1;
  size_t from = argc > 4 ? (size_t)strtoul(argv[4], NULL, 10) : 0;
  gsl_set_error_handler_off();
  gsl_rng *r = gsl_rng_alloc(gsl_rng_mt19937);
  outcome *out = calloc(n + 1, sizeof *out);
  double *ratio = calloc(n + 1, sizeof *ratio);
  if (!r || !out || !ratio || from > n) return 70;
  for (size_t i = from; i < n; i++) {
    one_house(i, seed, r, &out[i]);
    fprintf(stderr, "\r%zu of %zu", i + 1, n);
    if (argc > 3) keep(out, from, i + 1, argv[3]);
  }
  fputc('\n', stderr);
  int held = 0;
  for (house_kind which = OPEN; which < KINDS; which++) {
    tell_refused(out + from, n - from, which);
    for (int k = 0; k < FIGURES; k++) {
      int holds = tell(out + from, n - from, which, k, ratio);
      if (which == OPEN && k == SAVED_ENERGY) held = holds;
    }
  }
  printf("goal, the first kind, energy: 75 to 85 %% inside, band at most 0.7: "
         "%s\n",
         held ? "holds" : "missed");
  gsl_rng_free(r);
  free(out);
  free(ratio);
  return !held;
}
