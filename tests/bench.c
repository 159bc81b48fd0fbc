/* Speed of each part, in processor time, with what it is held against. Usage: bench [--json] [NAME...]
 * where NAME is the beginning of a part. Ends with 1 when a stated bound is missed. */
#include "bench.h"

#include <gsl/gsl_errno.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>

#include "bench_counters.h"
#include "out/grid.h"
#include "out/json.h"

/* One a line. */
// clang-format off
static const struct {
  const char *name;
  void (*run)(bench *b);
} parts[] = {
    {"start", bench_start},
    {"glass", bench_glass},
    {"optics", bench_optics},
    {"sound", bench_sound},
    {"climate", bench_climate},
    {"range", bench_range},
    {"rank", bench_rank},
    {"batch", bench_batch},
    {"house", bench_house},
    {"section", bench_section},
    {"bills", bench_bills},
    {"lanes", bench_lanes},
};
// clang-format on

struct bench {
  pw_grid *grid;
  json_t *list; /* NULL: text */
  int missed;
};

static double peak_mb(void)
{
  struct rusage u;
  getrusage(RUSAGE_SELF, &u);
  return (double)u.ru_maxrss / 1024.0;
}

/* A time in the unit that reads well. */
static void time_text(double s, char text[24])
{
  if (s <= 0.0)
    snprintf(text, 24, "-");
  else if (s < 1e-3)
    snprintf(text, 24, "%.3g us", s * 1e6);
  else if (s < 1.0)
    snprintf(text, 24, "%.3g ms", s * 1e3);
  else
    snprintf(text, 24, "%.3g s", s);
}

/* Instructions a cycle of the best round measured last; NAN where the machine does not count them. */
static double per_cycle = (double)NAN;

void bench_give(bench *b, const bench_row *row)
{
  double each = row->count > 0.0 ? row->cpu / row->count : 0.0;
  int over = row->bound > 0.0 && each > row->bound;
  b->missed |= over;
  if (b->list) {
    json_t *o = json_object();
    pw_json_set_text(o, "name", row->name);
    pw_json_set_text(o, "item", row->item);
    pw_json_set(o, "count", row->count);
    pw_json_set(o, "cpu_s", row->cpu);
    pw_json_set(o, "item_s", each);
    pw_json_set(o, "items_per_s", each > 0.0 ? 1.0 / each : 0.0);
    pw_json_set(o, "instructions_per_cycle", per_cycle);
    pw_json_set(o, "peak_memory_mb", peak_mb());
    pw_json_set(o, "bound_s", row->bound);
    pw_json_set(o, "peer_s", row->peer);
    pw_json_set_text(o, "held_against", row->held);
    json_object_set_new(o, "ok", json_boolean(!over));
    json_array_append_new(b->list, o);
    return;
  }
  char cpu[24], one[24], bound[24];
  time_text(row->cpu, cpu);
  time_text(each, one);
  time_text(row->bound > 0.0 ? row->bound : row->peer, bound);
  pw_grid_cell(b->grid, "%s", row->name);
  pw_grid_cell(b->grid, "%.0f", row->count);
  pw_grid_cell(b->grid, "%s", cpu);
  pw_grid_cell(b->grid, "%s a %s", one, row->item);
  pw_grid_cell(b->grid, "%.3g", each > 0.0 ? 1.0 / each : 0.0);
  pw_grid_cell(b->grid, isfinite(per_cycle) ? "%.2f" : "-", per_cycle);
  pw_grid_cell(b->grid, "%.0f", peak_mb());
  pw_grid_cell(b->grid, "%s", bound);
  pw_grid_cell(b->grid, "%s", row->held);
  pw_grid_cell(b->grid, "%s", row->bound <= 0.0 ? "" : over ? "over" : "ok");
}

static double now(void) { return (double)clock() / CLOCKS_PER_SEC; }

double bench_cpu(void (*work)(void *data), void *data)
{
  double best = 1e9;
  for (int round = 0; round < 5; round++) {
    double start = now(), spent = 0.0;
    size_t calls = 0;
    const counters from = counters_now();
    do {
      work(data);
      calls++;
      spent = now() - start;
    } while (spent < 0.04);
    if (spent / (double)calls >= best) continue;
    best = spent / (double)calls;
    per_cycle = counters_per_cycle(from, counters_now());
  }
  return best;
}

void bench_run(bench *b, const char *name, const char *item, double count,
               void (*work)(void *data), void *data, double bound, const char *held)
{
  const bench_row row = {name, item, count, bench_cpu(work, data), bound, 0.0, held};
  bench_give(b, &row);
}

static int wanted(const char *name, int argc, char **argv)
{
  int any = 0;
  for (int i = 1; i < argc; i++) {
    if (argv[i][0] == '-') continue;
    any = 1;
    if (strncmp(name, argv[i], strlen(argv[i])) == 0) return 1;
  }
  return !any;
}

int main(int argc, char **argv)
{
  static const char *const header[] = {"<what",    "count",     "CPU", "time",
                                       "a second", "ins/cycle", "MB",  "bound or peer",
                                       "<which",   "<"};
  bench b = {0};
  pw_err err = {0};
  gsl_set_error_handler_off();
  for (int i = 1; i < argc; i++)
    if (strcmp(argv[i], "--json") == 0 && !b.list) b.list = json_array();
  b.grid = pw_grid_new(sizeof header / sizeof header[0], header);
  for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
    if (wanted(parts[i].name, argc, argv)) {
      per_cycle = (double)NAN;
      parts[i].run(&b);
    }
  pw_status s = b.list ? pw_json_print(b.list, stdout, &err)
                       : pw_grid_print(b.grid, stdout, PW_TEXT, &err);
  pw_grid_free(b.grid);
  if (s != PW_OK) fprintf(stderr, "bench: %s\n", err.text);
  return s != PW_OK || b.missed;
}
