/* Panes behind each other, all inter-reflections, at each wavelength. */
#include <string.h>

#include "glass/optics.h"

/* Between two perfect mirrors 1 - r q is 0, and so is the light that gets there: 0 / tiny, not
 * 0 / 0. Far below the last digit of any other case. */
static const double tiny = 1e-300;

/* The first panes as one, seen from behind: reflectance grows pane by pane. */
static void mirror(const pw_sheet *const sheet[], size_t n, double out[PW_LANE])
{
  double q[PW_LANE] = {0};
  for (size_t k = 0; k < n; k++) {
    const double *t = sheet[k]->t, *rf = sheet[k]->rf, *rb = sheet[k]->rb;
    for (size_t i = 0; i < PW_LANE; i++)
      q[i] = rb[i] + t[i] * t[i] * q[i] / (1.0 - rf[i] * q[i] + tiny);
  }
  memcpy(out, q, sizeof q);
}

void pw_stack_solve(const pw_sheet *const sheet[], size_t n, pw_sheet *system,
                    double absorbed[][PW_LANE])
{
  double q[PW_PANES_MAX + 1][PW_LANE], flow[PW_LANE];
  memset(q[n], 0, sizeof q[n]); /* the room gives nothing back */
  for (size_t k = n; k-- > 0;) {
    const double *t = sheet[k]->t, *rf = sheet[k]->rf, *rb = sheet[k]->rb;
    const double *behind = q[k + 1];
    double *here = q[k];
    for (size_t i = 0; i < PW_LANE; i++)
      here[i] = rf[i] + t[i] * t[i] * behind[i] / (1.0 - rb[i] * behind[i] + tiny);
  }
  for (size_t i = 0; i < PW_LANE; i++)
    flow[i] = 1.0;
  for (size_t k = 0; k < n; k++) {
    const double *t = sheet[k]->t, *rf = sheet[k]->rf, *rb = sheet[k]->rb;
    const double *behind = q[k + 1];
    double unused[PW_LANE], *taken = absorbed ? absorbed[k] : unused;
    for (size_t i = 0; i < PW_LANE; i++) {
      double next = flow[i] * t[i] / (1.0 - rb[i] * behind[i] + tiny);
      taken[i] = flow[i] * (1.0 - rf[i] - t[i]) + next * behind[i] * (1.0 - rb[i] - t[i]);
      flow[i] = next;
    }
  }
  mirror(sheet, n, system->rb);
  memcpy(system->t, flow, sizeof flow);
  memcpy(system->rf, q[0], sizeof q[0]);
}

static void half_sum(double a[PW_LANE], const double b[PW_LANE])
{
  for (size_t i = 0; i < PW_LANE; i++)
    a[i] = 0.5 * (a[i] + b[i]);
}

static void one_pol(const pw_layer *const layer[], size_t n, const pw_spectrum *spectrum,
                    double cosine, pw_pol pol, pw_sheet *system, double absorbed[][PW_LANE])
{
  pw_sheet sheet[PW_PANES_MAX];
  const pw_sheet *list[PW_PANES_MAX] = {0};
  for (size_t k = 0; k < n; k++) {
    pw_layer_at(layer[k], spectrum, cosine, pol, &sheet[k]);
    list[k] = &sheet[k];
  }
  pw_stack_solve(list, n, system, absorbed);
}

void pw_stack_at(const pw_layer *const layer[], size_t n, const pw_spectrum *spectrum,
                 double cosine, pw_pol pol, pw_sheet *system, double absorbed[][PW_LANE])
{
  if (pol != PW_POL_APART) {
    one_pol(layer, n, spectrum, cosine, pol, system, absorbed);
    return;
  }
  pw_sheet other;
  double taken[PW_PANES_MAX][PW_LANE];
  one_pol(layer, n, spectrum, cosine, PW_POL_S, system, absorbed);
  one_pol(layer, n, spectrum, cosine, PW_POL_P, &other, absorbed ? taken : NULL);
  half_sum(system->t, other.t);
  half_sum(system->rf, other.rf);
  half_sum(system->rb, other.rb);
  for (size_t k = 0; absorbed && k < n; k++)
    half_sum(absorbed[k], taken[k]);
}
