#include "out/section_picture.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "out/plot.h"
#include "panewright/units.h"

/* Tones are told apart by lightness first, so that a grey print still reads. */
static const unsigned air_tone[2] = {0xdfeaf5, 0xfbeede}, hollow_tone = 0xffffff;
static const unsigned kind_tone[] = {
    [PW_MATERIAL_METAL] = 0x59636d, [PW_MATERIAL_BREAK] = 0xa67fa0,
    [PW_MATERIAL_GLASS] = 0x9cc7d8, [PW_MATERIAL_GLASS_GAP] = 0xeef6fa,
    [PW_MATERIAL_PANEL] = 0xf2e3b3,
};
static const unsigned other_tone[] = {0xe4ded0, 0xe0bd74, 0xb5805a, 0xa9b97c,
                                      0xc9a39c, 0x8c9a93, 0xb9b0d0, 0xd3c6a5};
static const unsigned edge_tone[] = {0x7a5c3e, 0xa88a68, 0x54402b, 0xcdb798};
enum { N_EDGE = sizeof edge_tone / sizeof edge_tone[0] };
enum { N_OTHER = sizeof other_tone / sizeof other_tone[0], TUBES = 24 };
static const double ABOVE_SIGHT = 0.085, MARGIN = 0.012; /* m, glass shown and air shown */

/* Section coordinates to the paper: outdoors left, glass up, mm. */
typedef struct view {
  const pw_section *section;
  const pw_section_field *f;
  int swap;
  double sign_u, sign_v;
  double u0, u1, v0, v1; /* mm, window */
  double label;          /* mm, height at which isotherms are named */
  int si;
  pw_plot *plot;
} view;

static void to_paper(const view *w, double x, double y, double *u, double *v)
{
  *u = 1e3 * w->sign_u * (w->swap ? y : x);
  *v = 1e3 * w->sign_v * (w->swap ? x : y);
}

static unsigned tone(const pw_section *s, int material)
{
  if (material < 0) return 0xffffff;
  const pw_section_material *m = &s->material[material];
  if (m->zone == PW_ZONE_OUTDOOR) return air_tone[0];
  if (m->zone == PW_ZONE_INDOOR || m->zone == PW_ZONE_INDOOR_REDUCED) return air_tone[1];
  if (m->zone != PW_ZONE_SOLID) return hollow_tone;
  int rank = 0;
  for (int i = 0; i < material; i++)
    rank += s->material[i].zone == PW_ZONE_SOLID && s->material[i].kind == m->kind;
  if (m->kind == PW_MATERIAL_GLASS_EDGE) return edge_tone[rank % N_EDGE];
  return m->kind == PW_MATERIAL_OTHER ? other_tone[rank % N_OTHER] : kind_tone[m->kind];
}

static int body_cell(const view *w, size_t c)
{
  int m = w->f->material[c];
  if (m < 0) return 0;
  pw_zone z = w->section->material[m].zone;
  return z == PW_ZONE_SOLID || z == PW_ZONE_HOLLOW || z == PW_ZONE_HOLLOW_VENTED;
}

/* Which way round, and the part worth showing. */
static void aim(view *w, const pw_section_result *r)
{
  const pw_section_field *f = w->f;
  double in = 0.0, out = 0.0, n_in = 0.0, n_out = 0.0;
  w->swap = r->flow_axis == 1;
  for (size_t c = 0; c < f->n_x * f->n_y; c++) {
    if (f->material[c] < 0) continue;
    pw_zone z = w->section->material[f->material[c]].zone;
    size_t i = c % f->n_x, j = c / f->n_x;
    double at = w->swap ? 0.5 * (f->y[j] + f->y[j + 1]) : 0.5 * (f->x[i] + f->x[i + 1]);
    double area = (f->x[i + 1] - f->x[i]) * (f->y[j + 1] - f->y[j]);
    if (z == PW_ZONE_OUTDOOR) {
      out += area * at;
      n_out += area;
    } else if (z == PW_ZONE_INDOOR || z == PW_ZONE_INDOOR_REDUCED) {
      in += area * at;
      n_in += area;
    }
  }
  w->sign_u = in / n_in > out / n_out ? 1.0 : -1.0;
  w->sign_v = r->glass_end < r->sight_line ? -1.0 : 1.0;
  w->u0 = w->v0 = INFINITY;
  w->u1 = w->v1 = -INFINITY;
  for (size_t c = 0; c < f->n_x * f->n_y; c++) {
    if (!body_cell(w, c)) continue;
    for (size_t e = 0; e < 4; e++) {
      double u, v;
      to_paper(w, f->x[c % f->n_x + (e & 1)], f->y[c / f->n_x + (e >> 1)], &u, &v);
      w->u0 = fmin(w->u0, u);
      w->u1 = fmax(w->u1, u);
      w->v0 = fmin(w->v0, v);
      w->v1 = fmax(w->v1, v);
    }
  }
  w->u0 -= 1e3 * MARGIN;
  w->u1 += 1e3 * MARGIN;
  if (!isnan(r->sight_line))
    w->v1 = fmin(w->v1, 1e3 * (w->sign_v * r->sight_line + ABOVE_SIGHT));
  if (!isnan(r->other_sight_line))
    w->v0 = fmax(w->v0, 1e3 * (w->sign_v * r->other_sight_line - ABOVE_SIGHT));
  w->label = isnan(r->sight_line)
                 ? 0.5 * (w->v0 + w->v1)
                 : 1e3 * w->sign_v * (0.4 * r->sight_line + 0.6 * r->frame_start);
}

/* Cells of one material, joined along rows and then over equal rows, as filled boxes. */
static void put_boxes(const view *w)
{
  const pw_section_field *f = w->f;
  typedef struct run {
    size_t i0, i1, j0;
    int material;
  } run;
  run *open = malloc((f->n_x + 1) * sizeof *open), *now = malloc((f->n_x + 1) * sizeof *now);
  size_t n_open = 0;
  pw_plot_block(w->plot, "M");
  for (size_t j = 0; open && now && j <= f->n_y; j++) {
    size_t n_now = 0;
    for (size_t i = 0; j < f->n_y && i < f->n_x;) {
      run r = {i, i, j, f->material[j * f->n_x + i]};
      while (i < f->n_x && f->material[j * f->n_x + i] == r.material)
        i++;
      r.i1 = i;
      now[n_now++] = r;
    }
    for (size_t k = 0; k < n_open; k++) {
      size_t m = 0;
      while (m < n_now && !(now[m].i0 == open[k].i0 && now[m].i1 == open[k].i1 &&
                            now[m].material == open[k].material))
        m++;
      if (m < n_now) {
        now[m].j0 = open[k].j0;
        continue;
      }
      double u0, v0, u1, v1;
      to_paper(w, f->x[open[k].i0], f->y[open[k].j0], &u0, &v0);
      to_paper(w, f->x[open[k].i1], f->y[j], &u1, &v1);
      pw_plot_row(w->plot, "fffff", fmin(u0, u1), fmin(v0, v1), fmax(u0, u1), fmax(v0, v1),
                  (double)tone(w->section, open[k].material));
    }
    run *swap = open;
    open = now;
    now = swap;
    n_open = n_now;
  }
  pw_plot_end_block(w->plot);
  free(open);
  free(now);
}

static void put_segment(const view *w, double xa, double ya, double xb, double yb, double value)
{
  double ua, va, ub, vb;
  to_paper(w, xa, ya, &ua, &va);
  to_paper(w, xb, yb, &ub, &vb);
  if (fmin(va, vb) > w->v1 || fmax(va, vb) < w->v0 || fmax(ua, ub) < w->u0) return;
  pw_plot_row(w->plot, "fffff", ua, va, ub - ua, vb - va, value);
}

/* Lines where the material changes. */
static void put_outlines(const view *w)
{
  const pw_section_field *f = w->f;
  pw_plot_block(w->plot, "O");
  pw_plot_row(w->plot, "fffff", NAN, NAN, NAN, NAN, 0.0);
  for (size_t j = 0; j < f->n_y; j++)
    for (size_t i = 0; i < f->n_x; i++) {
      int here = f->material[j * f->n_x + i];
      if (i + 1 < f->n_x && f->material[j * f->n_x + i + 1] != here)
        put_segment(w, f->x[i + 1], f->y[j], f->x[i + 1], f->y[j + 1], 0.0);
      if (j + 1 < f->n_y && f->material[(j + 1) * f->n_x + i] != here)
        put_segment(w, f->x[i], f->y[j + 1], f->x[i + 1], f->y[j + 1], 0.0);
    }
  pw_plot_end_block(w->plot);
}

/* Where the edge from value a at p to value b at q meets the level; 1 when it does. */
static int meets(double level, double a, double b, double p, double q, double *at)
{
  if ((a < level) == (b < level)) return 0;
  *at = p + (q - p) * (level - a) / (b - a);
  return 1;
}

/* Segments of one level in one cell of node values (marching squares). */
static size_t cell_level(const view *w, const double *value, double level, size_t i, size_t j,
                         double x[4], double y[4])
{
  const pw_section_field *f = w->f;
  size_t m = f->n_x + 1, n = 0;
  const double *v = value + j * m + i;
  double at, x0 = f->x[i], x1 = f->x[i + 1], y0 = f->y[j], y1 = f->y[j + 1];
  if (!(isfinite(v[0]) && isfinite(v[1]) && isfinite(v[m]) && isfinite(v[m + 1]))) return 0;
  if (meets(level, v[0], v[1], x0, x1, &at)) x[n] = at, y[n++] = y0;
  if (meets(level, v[1], v[m + 1], y0, y1, &at)) x[n] = x1, y[n++] = at;
  if (meets(level, v[m], v[m + 1], x0, x1, &at)) x[n] = at, y[n++] = y1;
  if (meets(level, v[0], v[m], y0, y1, &at)) x[n] = x0, y[n++] = at;
  return n;
}

static void put_level(const view *w, const double *value, double level, double shown)
{
  double x[4], y[4];
  for (size_t j = 0; j < w->f->n_y; j++)
    for (size_t i = 0; i < w->f->n_x; i++) {
      if (!body_cell(w, j * w->f->n_x + i)) continue;
      size_t n = cell_level(w, value, level, i, j, x, y);
      for (size_t k = 0; k + 1 < n; k += 2)
        put_segment(w, x[k], y[k], x[k + 1], y[k + 1], shown);
    }
}

static void range_of(const view *w, const double *value, double *low, double *high)
{
  *low = INFINITY;
  *high = -INFINITY;
  for (size_t k = 0; k < (w->f->n_x + 1) * (w->f->n_y + 1); k++) {
    if (!isfinite(value[k])) continue;
    *low = fmin(*low, value[k]);
    *high = fmax(*high, value[k]);
  }
}

static void put_flow_lines(const view *w, const pw_section_result *r)
{
  double low, high, tube = fabs(r->q) / TUBES;
  range_of(w, w->f->stream, &low, &high);
  pw_plot_block(w->plot, "F");
  pw_plot_row(w->plot, "fffff", NAN, NAN, NAN, NAN, 0.0);
  double level = low + 0.5 * tube;
  while (tube > 0.0 && level < high && high - low < 99.0 * tube) {
    put_level(w, w->f->stream, level, 0.0);
    level += tube;
  }
  pw_plot_end_block(w->plot);
}

/* A step of 1, 2 or 5 times a power of ten that gives some 16 lines. */
static double round_step(double span)
{
  double want = span / 16.0, ten = pow(10.0, floor(log10(want)));
  double lead = want / ten;
  return ten * (lead < 1.5 ? 1.0 : lead < 3.5 ? 2.0 : lead < 7.5 ? 5.0 : 10.0);
}

/* A temperature as the picture shows it, and back. */
static double shown(const view *w, double kelvin)
{
  return w->si ? pw_c(kelvin) : pw_f(kelvin);
}

static double kelvin(const view *w, double degree)
{
  return pw_k(w->si ? degree : (degree - 32.0) / 1.8);
}

/* A label on a level: where it crosses the middle of the shown part, near the glass. */
static void put_level_label(const view *w, double level)
{
  double x[4], y[4], best = INFINITY, u_best = NAN, v_best = NAN;
  for (size_t j = 0; j < w->f->n_y; j++)
    for (size_t i = 0; i < w->f->n_x; i++) {
      if (!body_cell(w, j * w->f->n_x + i)) continue;
      if (cell_level(w, w->f->t, kelvin(w, level), i, j, x, y) < 2) continue;
      double u, v;
      to_paper(w, x[0], y[0], &u, &v);
      double off = fabs(v - w->label);
      if (off < best) {
        best = off;
        u_best = u;
        v_best = v;
      }
    }
  char text[32];
  snprintf(text, sizeof text, "%g", level);
  if (isfinite(best)) pw_plot_row(w->plot, "sff", text, u_best, v_best);
}

static void put_isotherms(const view *w)
{
  double low, high;
  range_of(w, w->f->t, &low, &high);
  low = shown(w, low);
  high = shown(w, high);
  double step = round_step(fmax(high - low, 1e-3));
  pw_plot_block(w->plot, "I");
  pw_plot_row(w->plot, "fffff", NAN, NAN, NAN, NAN, 0.0);
  double k = ceil(low / step);
  while (k * step < high) {
    put_level(w, w->f->t, kelvin(w, k * step), k * step);
    k += 1.0;
  }
  pw_plot_end_block(w->plot);
  pw_plot_block(w->plot, "T");
  pw_plot_row(w->plot, "sff", "", NAN, NAN);
  k = ceil(low / (4.0 * step));
  while (k * 4.0 * step < high) {
    put_level_label(w, 4.0 * k * step);
    k += 1.0;
  }
  pw_plot_end_block(w->plot);
  pw_plot_number(w->plot, "t_low", low);
  pw_plot_number(w->plot, "t_high", high);
  pw_plot_number(w->plot, "t_step", step);
}

static void put_legend(const view *w)
{
  const pw_section *s = w->section;
  int n = 0;
  pw_plot_block(w->plot, "L");
  for (size_t i = 0; i < s->n_material; i++) {
    const pw_section_material *m = &s->material[i];
    size_t c = 0;
    while (c < w->f->n_x * w->f->n_y && w->f->material[c] != (int)i)
      c++;
    if (c == w->f->n_x * w->f->n_y || n >= 28) continue;
    char text[96];
    if (isfinite(m->conductivity))
      snprintf(text, sizeof text, "%s  %.3g", m->name,
               w->si ? m->conductivity : m->conductivity / (PW_U_IP * PW_FOOT));
    else
      snprintf(text, sizeof text, "%s", m->name);
    pw_plot_row(w->plot, "sff", text, (double)n, (double)tone(s, (int)i));
    n++;
  }
  pw_plot_end_block(w->plot);
}

pw_status pw_section_picture(const pw_section *section, const pw_section_result *result,
                             const pw_section_caption *caption, int si, const char *path,
                             pw_err *err)
{
  view w = {.section = section,
            .f = &result->field,
            .si = si,
            .plot = pw_plot_new("plots/section.gp")};
  if (!w.plot) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a picture");
  aim(&w, result);
  put_boxes(&w);
  put_outlines(&w);
  put_flow_lines(&w, result);
  put_isotherms(&w);
  pw_plot_block(w.plot, "D");
  pw_plot_row(w.plot, "fffff", NAN, NAN, NAN, NAN, 0.0);
  if (!isnan(caption->t_dew)) put_level(&w, w.f->t, caption->t_dew, 0.0);
  pw_plot_end_block(w.plot);
  put_legend(&w);
  double u, v;
  to_paper(&w, result->coldest_x, result->coldest_y, &u, &v);
  char text[64];
  snprintf(text, sizeof text, "circle: coldest, %.1f %s", shown(&w, result->coldest),
           si ? "C" : "F");
  pw_plot_text(w.plot, "cold_text", text);
  pw_plot_number(w.plot, "cold_x", u);
  pw_plot_number(w.plot, "cold_y", v);
  pw_plot_number(w.plot, "sight", 1e3 * w.sign_v * result->sight_line);
  pw_plot_number(w.plot, "u0", w.u0);
  pw_plot_number(w.plot, "u1", w.u1);
  pw_plot_number(w.plot, "v0", w.v0);
  pw_plot_number(w.plot, "v1", w.v1);
  pw_plot_number(w.plot, "tubes", TUBES);
  pw_plot_text(w.plot, "t_unit", si ? "C" : "F");
  pw_plot_text(w.plot, "l_unit", si ? "mm" : "in");
  pw_plot_number(w.plot, "l_step", si ? 20.0 : 25.4);
  pw_plot_number(w.plot, "l_scale", si ? 1.0 : 25.4);
  pw_plot_text(w.plot, "title", caption->title);
  pw_plot_text(w.plot, "figures", caption->figures);
  char dew[160] = "";
  double low, high;
  range_of(&w, w.f->t, &low, &high);
  if (!isnan(caption->t_dew))
    snprintf(dew, sizeof dew, "%s%.120s",
             caption->t_dew > high  ? "all below the "
             : caption->t_dew < low ? "all above the "
                                    : "thick: ",
             caption->dew);
  pw_plot_text(w.plot, "dew_text", dew);
  pw_status status = pw_plot_write(w.plot, path, 1060, 820, err);
  pw_plot_free(w.plot);
  return status;
}
