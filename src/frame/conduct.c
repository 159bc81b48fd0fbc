/* The driver: paint, settle the hollows on a coarse grid, split what widens the bracket, repeat. */
#include "frame/conduct.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/own_math.h"
#include "frame/frame_impl.h"

static const double TOLERANCE = 0.002; /* width of the bracket over the value */
static const size_t CELLS_MAX = 2000000;
static const double SETTLED = 5e-4; /* relative change of a hollow, at the end */
/* Of the tolerance, when cells are dealt out: half, so that temperatures, which have no bounds, gain too. */
static const double AIM = 0.5;
enum { PASSES_MAX = 14, ROUNDS_MAX = 12, PARTS_MAX = 32 };

typedef struct run {
  const pw_section *section;
  pw_section_options o;
  frame_plane plane;
  frame_grid grid;
  frame_factor *factor_v, *factor_e;
  frame_solution volumes, elements;
  double change; /* of the hollows, last */
} run;

static void drop_solutions(run *r)
{
  frame_solution_free(&r->volumes);
  frame_solution_free(&r->elements);
}

static pw_status solve_elements(run *r, pw_err *err)
{
  frame_solution_free(&r->elements);
  return frame_elements(&r->grid, r->factor_e, &r->elements, err);
}

static pw_status solve_volumes(run *r, pw_err *err)
{
  frame_solution_free(&r->volumes);
  return frame_volumes(&r->grid, r->factor_v, &r->volumes, err);
}

/* Elements on this grid until the hollows change by no more than that; what they hold then belongs to
 * the solution. */
static pw_status settle(run *r, double enough, pw_err *err)
{
  pw_status status = PW_OK;
  for (int k = 0; k < ROUNDS_MAX && status == PW_OK; k++) {
    status = solve_elements(r, err);
    if (status == PW_OK)
      status = frame_update_hollows(&r->plane, &r->grid, r->elements.theta, &r->o, enough,
                                    &r->change, err);
    if (r->change <= enough) break;
  }
  if (status == PW_OK) status = frame_elements_bound(&r->grid, &r->elements, err);
  return status;
}

/* Parts of each strip so that what remains, at n parts share / n^2, is least for the number of
 * lines: n goes with the cube root of the share. */
static void deal(const double *share, size_t n, double c, unsigned char *parts)
{
  for (size_t k = 0; k < n; k++) {
    double want = share[k] > 0.0 ? c * pw_root3(share[k]) : 1.0;
    parts[k] = (unsigned char)(want < 1.5          ? 1
                               : want >= PARTS_MAX ? PARTS_MAX
                                                   : floor(want + 0.5));
  }
}

static double left_after(const double *share, const unsigned char *parts, size_t n)
{
  double left = 0.0;
  for (size_t k = 0; k < n; k++)
    left += share[k] / ((double)parts[k] * parts[k]);
  return left;
}

static size_t total(const unsigned char *parts, size_t n)
{
  size_t sum = 0;
  for (size_t k = 0; k < n; k++)
    sum += parts[k];
  return sum;
}

/* Chooses the parts that bring the gap to `want`; returns the cells they make. */
static size_t choose(const frame_grid *g, const double *share_x, const double *share_y,
                     double want, unsigned char *parts_x, unsigned char *parts_y)
{
  double low = 0.0, high = 1.0;
  for (int up = 0, step = 0; step < 60; step++) {
    double c = up ? 0.5 * (low + high) : high;
    deal(share_x, g->n_x, c, parts_x);
    deal(share_y, g->n_y, c, parts_y);
    double left = left_after(share_x, parts_x, g->n_x) + left_after(share_y, parts_y, g->n_y);
    if (left <= want) {
      high = c;
      up = 1;
    } else if (!up) {
      low = high;
      high *= 2.0;
      if (high > 1e12) break;
    } else {
      low = c;
    }
  }
  deal(share_x, g->n_x, high, parts_x);
  deal(share_y, g->n_y, high, parts_y);
  return total(parts_x, g->n_x) * total(parts_y, g->n_y);
}

static double value_of(const run *r)
{
  return frame_weigh(r->elements.bound, r->volumes.bound);
}

static double width_of(const run *r)
{
  return (r->elements.bound - r->volumes.bound) / value_of(r);
}

/* Splits what widens the bracket until the aim is left, or `least` times what there is; *stop when the cells are used up. */
static pw_status refine(run *r, double least, int *stop, pw_err *err)
{
  frame_grid *g = &r->grid, finer;
  double *share = malloc((g->n_x + g->n_y) * sizeof *share);
  unsigned char *parts = malloc(g->n_x + g->n_y);
  if (!share || !parts) {
    free(share);
    free(parts);
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a grid");
  }
  frame_gap(g, &r->volumes, &r->elements, share, share + g->n_x);
  const double want = fmax(AIM * r->o.tolerance / width_of(r), least);
  size_t cells = choose(g, share, share + g->n_x, want * (r->elements.bound - r->volumes.bound),
                        parts, parts + g->n_x);
  pw_status status = PW_OK;
  *stop = cells > r->o.cells_max || cells <= g->n_x * g->n_y;
  if (!*stop) {
    status = frame_grid_split(g, parts, parts + g->n_x, &finer, err);
    if (status == PW_OK) {
      frame_grid_free(g);
      *g = finer;
      drop_solutions(r);
      frame_factor_forget(r->factor_v);
      frame_factor_forget(r->factor_e);
    }
  }
  free(share);
  free(parts);
  return status;
}

static pw_status iterate(run *r, pw_section_result *result, pw_err *err)
{
  pw_status status = frame_grid_first(&r->plane, &r->grid, err);
  for (int pass = 1; status == PW_OK; pass++) {
    result->passes = pass;
    status = settle(r, SETTLED, err);
    if (status == PW_OK) status = solve_volumes(r, err);
    if (status != PW_OK) break;
    if (width_of(r) <= r->o.tolerance) break;
    int stop = pass == PASSES_MAX;
    /* singular corners gain less than n^2: far from the aim, go there in two steps */
    if (!stop) status = refine(r, pass < 3 ? 0.1 : 0.02, &stop, err);
    if (stop) {
      result->notes |= PW_SECTION_COARSE;
      break;
    }
  }
  return status;
}

static pw_status check_options(const pw_section_options *o, pw_err *err)
{
  const pw_films *f = o->films;
  if (!(o->t_in > 150.0 && o->t_in < 400.0 && o->t_out > 150.0 && o->t_out < 400.0 &&
        fabs(o->t_in - o->t_out) > 0.01))
    return pw_fail(
        err, PW_E_DOMAIN, "t_in",
        "%g C indoors and %g C outdoors, want two different temperatures from -120 to "
        "120 C",
        o->t_in - 273.15, o->t_out - 273.15);
  if (!(o->tolerance >= 1e-7 && o->tolerance <= 0.5))
    return pw_fail(err, PW_E_DOMAIN, "tolerance", "tolerance %g, want 1e-7 to 0.5",
                   o->tolerance);
  if (f)
    if (!(f->outdoor >= 0.0 && f->indoor >= 0.0 && f->reduced >= 0.0 && f->outdoor < 100.0 &&
          f->indoor < 100.0 && f->reduced < 100.0))
      return pw_fail(err, PW_E_DOMAIN, "films",
                     "film resistances %g %g %g m2K/W, want 0 to 100", f->indoor, f->reduced,
                     f->outdoor);
  if (o->hollow != PW_HOLLOW_ISO10077 && o->hollow != PW_HOLLOW_ISO15099)
    return pw_fail(err, PW_E_DOMAIN, "hollow", "no such hollow method");
  return PW_OK;
}

static void collect(const run *r, pw_section_result *result)
{
  result->low = r->volumes.bound;
  result->high = r->elements.bound;
  result->l2d = value_of(r);
  result->residual = fmax(r->volumes.residual, r->elements.residual);
  result->n_cell = r->volumes.n;
  result->n_hollow = r->plane.n_hollow;
  size_t v = frame_factor_bytes(r->factor_v), e = frame_factor_bytes(r->factor_e);
  result->bytes = v + e;
  frame_gauge(r->section, &r->o, &r->grid, &r->volumes, &r->elements, result);
}

pw_status pw_section_solve(const pw_section *section, const pw_section_options *options,
                           pw_section_result *result, pw_err *err)
{
  run r = {.section = section, .o = *options};
  *result = (pw_section_result){0};
  if (r.o.t_in == 0.0 && r.o.t_out == 0.0) {
    r.o.t_out = 273.15;
    r.o.t_in = 293.15;
  }
  if (r.o.tolerance == 0.0) r.o.tolerance = TOLERANCE;
  if (r.o.cells_max == 0) r.o.cells_max = CELLS_MAX;
  pw_status status = check_options(&r.o, err);
  if (status != PW_OK) return status;
  status = frame_plane_make(section, &r.o, &r.plane, err);
  if (status != PW_OK) return status;
  status = frame_gaps_set(section, &r.plane, err);
  if (status == PW_OK) status = frame_factor_new(&r.factor_v, err);
  if (status == PW_OK) status = frame_factor_new(&r.factor_e, err);
  if (status == PW_OK) status = iterate(&r, result, err);
  if (status == PW_OK) collect(&r, result);
  if (status == PW_OK && r.o.keep_field)
    status = frame_field(&r.o, &r.grid, &r.volumes, &r.elements, &result->field, err);
  if (status != PW_OK) pw_section_result_free(result);
  drop_solutions(&r);
  frame_factor_free(r.factor_v);
  frame_factor_free(r.factor_e);
  frame_grid_free(&r.grid);
  frame_plane_free(&r.plane);
  return status;
}

void pw_section_result_free(pw_section_result *result)
{
  if (!result) return;
  pw_section_field *f = &result->field;
  free(f->x);
  free(f->y);
  free(f->material);
  free(f->t);
  free(f->flux_x);
  free(f->flux_y);
  free(f->stream);
  *result = (pw_section_result){0};
}

double pw_section_psi(const pw_section_result *glass, const pw_section_result *panel)
{
  return glass->l2d - panel->u_panel_frame * panel->b_frame - glass->u_glass * glass->b_glass;
}
