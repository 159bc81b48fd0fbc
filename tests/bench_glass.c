/* Heat balance of glass units: the bound is 3 microseconds a solve on one core. */
#include "bench.h"

#include <stdio.h>

#include "panewright/unit.h"

enum { SOLVES = 2000 };

typedef struct job {
  pw_unit unit;
  const pw_env *env;
  const double *absorbed;
  double sum; /* so that no solve can be left out */
  int en673, failed;
} job;

/* Outdoor temperature and wind differ in each solve, as in the hours of a year. */
static void solve(void *data)
{
  job *j = data;
  pw_unit_result r;
  for (int i = 0; i < SOLVES; i++) {
    pw_env env = *j->env;
    env.t_out += 1e-2 * (i % 500);
    env.wind += 1e-3 * (i % 700);
    if (j->en673)
      j->failed |= pw_unit_en673(&j->unit, &r, NULL) != PW_OK;
    else
      j->failed |= pw_unit_balance(&j->unit, &env, j->absorbed, &r, NULL) != PW_OK;
    j->sum += r.q_in;
  }
}

static pw_unit unit_of(size_t panes, double argon)
{
  pw_unit unit = {.n_pane = panes};
  for (size_t i = 0; i < panes; i++) {
    unit.pane[i].thickness = 0.003;
    unit.pane[i].emit[0] = i > 0 ? 0.05 : 0.0;
    if (i + 1 == panes) break;
    unit.gap[i].thickness = 0.0127;
    unit.gap[i].mix.share[PW_ARGON] = argon;
    unit.gap[i].mix.share[PW_AIR] = 1.0 - argon;
  }
  return unit;
}

void bench_glass(bench *b)
{
  static const double sunny[] = {0.1, 0.05, 0.05, 0.02};
  static const struct {
    const char *name;
    size_t panes;
    double argon;
    int summer, en673;
  } row[] = {
      {"heat balance, single pane, winter", 1, 0.0, 0, 0},
      {"heat balance, double with air, winter", 2, 0.0, 0, 0},
      {"heat balance, double with 90 % argon, winter", 2, 0.9, 0, 0},
      {"heat balance, double with 90 % argon, sun", 2, 0.9, 1, 0},
      {"heat balance, triple with 90 % argon, winter", 3, 0.9, 0, 0},
      {"heat balance, four panes with 90 % argon, sun", 4, 0.9, 1, 0},
      {"EN 673, triple with 90 % argon", 3, 0.9, 0, 1},
  };
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    job j = {.unit = unit_of(row[i].panes, row[i].argon), .en673 = row[i].en673};
    j.env = row[i].summer ? &pw_env_summer : &pw_env_winter;
    j.absorbed = row[i].summer ? sunny : NULL;
    bench_run(b, row[i].name, "solve", SOLVES, solve, &j, 3e-6, "bound, one core");
    if (j.failed || !(j.sum != 0.0)) fprintf(stderr, "bench: %s failed\n", row[i].name);
  }
}
