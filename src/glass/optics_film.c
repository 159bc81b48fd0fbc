/* Coatings: the 3 mm clear pane on which each is tabulated, and what that pane does with the angle. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/nearest.h"
#include "base/own_math.h"
#include "base/table.h"
#include "gen/reference.h"
#include "glass/optics_impl.h"
#include "panewright/units.h"

static const char *const film_name[] = {"pyr20", "pyr15", "ag1_high", "ag1", "ag2", "ag3"};
enum { N_FILM = sizeof film_name / sizeof film_name[0], STEP_DEG = 5 };
static const double substrate_mm = 3.0;

double pw_band_middle(double nm)
{
  double up = (nm - 430.0) / 50.0, down = (700.0 - nm) / 60.0;
  double v = up < down ? up : down;
  return v < 0.0 ? 0.0 : v > 1.0 ? 1.0 : v;
}

const char *const *pw_coating_names(size_t *n)
{
  *n = N_FILM;
  return film_name;
}

static pw_status known(const char *name, pw_err *err)
{
  for (size_t i = 0; i < N_FILM; i++)
    if (strcmp(name, film_name[i]) == 0) return PW_OK;
  const char *near = pw_nearest(name, film_name, N_FILM);
  return pw_fail(err, PW_E_DATA, "coating",
                 "no coating '%s'%s%s (pyr20, pyr15, ag1_high, ag1, ag2, ag3)", name,
                 near ? "; did you mean " : "", near ? near : "");
}

/* Tabulated pane at normal incidence: t, rf the glass side, rb the film side. */
static pw_status tabulated(const char *name, const pw_spectrum *s, pw_sheet *pane, pw_err *err)
{
  char path[80];
  snprintf(path, sizeof path, "optics/spectral/pane_%s_clear3", name);
  const pw_table *table = pw_table_find(path);
  if (!table || table->n_row != PW_GRID || table->n_col != 4)
    return pw_fail(err, PW_E_DATA, "coating", "no spectra in %s", path);
  for (size_t i = 0; i < PW_LANE; i++) {
    size_t row = i < PW_GRID ? i : PW_GRID - 1;
    if (fabs(pw_table_number(table, row, 0) - s->nm[i]) > 1e-6)
      return pw_fail(err, PW_E_DATA, "coating", "%s is not on the shared grid", path);
    pane->t[i] = pw_table_number(table, row, 1);
    pane->rf[i] = pw_table_number(table, row, 2);
    pane->rb[i] = pw_table_number(table, row, 3);
  }
  return PW_OK;
}

/* ---- the angle ---- */

/* One class of pane_angular.csv at 0, 5 .. 85 degrees. */
typedef struct angular {
  double tau_e[18], rg_sol[18], rho_e_out[18], tau_v[18], rg_vis[18], rho_v_out[18];
} angular;

static pw_status read_angular(const char *name, angular *a, pw_err *err)
{
  size_t found = 0;
  for (size_t row = 0; row < pw_ref_optics_pane_angular__n && found < 18; row++) {
    const pw_ref_optics_pane_angular_row *r = &pw_ref_optics_pane_angular[row];
    if (r->mm != substrate_mm || r->angle_deg != STEP_DEG * (double)found ||
        strcmp(r->pane, name) != 0)
      continue;
    a->tau_e[found] = r->Tsol;
    a->rg_sol[found] = r->Rsol_glass_side;
    a->rho_e_out[found] = r->Rsol_film_side;
    a->tau_v[found] = r->Tvis;
    a->rg_vis[found] = r->Rvis_glass_side;
    a->rho_v_out[found++] = r->Rvis_film_side;
  }
  if (found == 18) return PW_OK;
  return pw_fail(err, PW_E_DATA, "coating", "no angular dependence of '%s'", name);
}

/* The two things a class is known by at an angle, solar and visible value, as they follow from a
 * curve v: its part in the middle of the visible band and its part beside it. */
typedef struct parts {
  double solar[2], visible[2];
} parts;

static parts sum_parts(const pw_spectrum *s, const double v[PW_LANE])
{
  parts p = {{0.0, 0.0}, {0.0, 0.0}};
  for (size_t i = 0; i < PW_GRID; i++) {
    double middle = pw_band_middle(s->nm[i]);
    p.solar[0] += s->w[PW_W_SOLAR][i] * v[i] * middle;
    p.solar[1] += s->w[PW_W_SOLAR][i] * v[i] * (1.0 - middle);
    p.visible[0] += s->w[PW_W_VISIBLE][i] * v[i] * middle;
    p.visible[1] += s->w[PW_W_VISIBLE][i] * v[i] * (1.0 - middle);
  }
  return p;
}

/* The two numbers, one a band, that give both values. */
static void solve_bands(const parts *p, double solar, double visible, double *middle,
                        double *beside)
{
  double d = p->solar[0] * p->visible[1] - p->solar[1] * p->visible[0];
  *middle = (solar * p->visible[1] - visible * p->solar[1]) / d;
  *beside = (p->solar[0] * visible - p->visible[0] * solar) / d;
}

/* What the film adds to the rise of one side's bare reflectance, in both bands; solar and visible
 * are by how much that side's values grow. */
static void side_angle(const pw_spectrum *s, const double r0[PW_LANE],
                       const double bare_rise[PW_LANE], double solar, double visible,
                       double *middle, double *beside)
{
  double left[PW_LANE], bare[PW_LANE];
  for (size_t i = 0; i < PW_LANE; i++) {
    left[i] = 1.0 - r0[i];
    bare[i] = left[i] * bare_rise[i];
  }
  parts p = sum_parts(s, left);
  solve_bands(&p, solar - pw_spectrum_mean(s, PW_W_SOLAR, bare),
              visible - pw_spectrum_mean(s, PW_W_VISIBLE, bare), middle, beside);
}

/* How the film's light is shared by s and p: table film_polarisation. */
static pw_status read_shares(const char *name, pw_film_angle *f, pw_err *err)
{
  size_t found = 0;
  for (size_t r = 0; r < pw_ref_optics_film_polarisation__n && found < 18; r++) {
    const pw_ref_optics_film_polarisation_row *row = &pw_ref_optics_film_polarisation[r];
    if (strcmp(row->coating, name) != 0 || row->angle_deg != STEP_DEG * (double)found) continue;
    f->p_share[0][found] = row->p_middle;
    f->p_share[1][found++] = row->p_rest;
  }
  if (found == 18) return PW_OK;
  return pw_fail(err, PW_E_DATA, "coating", "no shares of s and p of '%s'", name);
}

static void last_angle(pw_film_angle *f)
{
  for (size_t b = 0; b < 2; b++) { /* at 90 degrees all reflects; the factor is carried on */
    f->t[b][18] = f->t[b][17];
    f->p_share[b][18] = f->p_share[b][17];
    f->r_glass[b][18] = f->r_film[b][18] = 0.0;
  }
}

static void film_angle(const pw_spectrum *s, const pw_film_pane *own, const angular *c,
                       pw_film_angle *f)
{
  const pw_sheet *pane = &own->normal;
  f->used = 1;
  for (size_t j = 0; j < 18; j++) {
    double t[PW_LANE], r[PW_LANE], up[PW_LANE];
    pw_slab_at(own->n, own->depth, pw_cos(pw_rad(STEP_DEG * (double)j)), PW_POL_MEAN, t, r);
    for (size_t i = 0; i < PW_LANE; i++) {
      t[i] *= pane->t[i] / own->bare_t0[i];
      up[i] = (r[i] - own->bare_r0[i]) / (1.0 - own->bare_r0[i]);
    }
    parts p = sum_parts(s, t);
    solve_bands(&p, pw_spectrum_mean(s, PW_W_SOLAR, pane->t) * (c->tau_e[j] / c->tau_e[0]),
                pw_spectrum_mean(s, PW_W_VISIBLE, pane->t) * (c->tau_v[j] / c->tau_v[0]),
                &f->t[0][j], &f->t[1][j]);
    side_angle(s, pane->rf, up, c->rg_sol[j] - c->rg_sol[0], c->rg_vis[j] - c->rg_vis[0],
               &f->r_glass[0][j], &f->r_glass[1][j]);
    side_angle(s, pane->rb, up, c->rho_e_out[j] - c->rho_e_out[0],
               c->rho_v_out[j] - c->rho_v_out[0], &f->r_film[0][j], &f->r_film[1][j]);
  }
  last_angle(f);
}

/* Not a number where the table has none; a unit refuses that. */
static double emissivity(const char *name)
{
  double e = (double)NAN;
  for (size_t row = 0; row < pw_ref_optics_coatings_generic__n; row++) {
    const pw_ref_optics_coatings_generic_row *r = &pw_ref_optics_coatings_generic[row];
    if (r->substrate_mm == substrate_mm && strcmp(r->class, name) == 0) e = r->emissivity;
  }
  return e;
}

pw_status pw_film_find(const char *name, const pw_spectrum *spectrum, pw_film *film,
                       pw_err *err)
{
  double kappa[PW_LANE];
  pw_layer glass;
  angular own;
  pw_film_pane *pane = &film->pane;
  pw_status status = known(name, err);
  if (status == PW_OK) status = tabulated(name, spectrum, &pane->normal, err);
  if (status == PW_OK)
    status = pw_spectrum_glass(spectrum, "optics/spectral/nk_glass_clear", 1.0, 1.0, pane->n,
                               kappa, err);
  if (status == PW_OK)
    status = pw_layer_glass(pane->n, kappa, substrate_mm * 1e-3, &glass, err);
  if (status == PW_OK) status = read_angular(name, &own, err);
  memset(&film->angle, 0, sizeof film->angle);
  if (status == PW_OK) status = read_shares(name, &film->angle, err);
  if (status != PW_OK) return status;
  film->emissivity = emissivity(name);
  memcpy(pane->depth, glass.depth, sizeof pane->depth);
  memcpy(pane->bare_t0, glass.bare_t0, sizeof pane->bare_t0);
  memcpy(pane->bare_r0, glass.bare_r0, sizeof pane->bare_r0);
  film_angle(spectrum, pane, &own, &film->angle);
  return PW_OK;
}
