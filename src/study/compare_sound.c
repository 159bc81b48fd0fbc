#include "study/compare_sound.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "gen/reference.h"
#include "house/leakage.h"
#include "study/compare_sound_impl.h"
#include "study/sobol.h"
#include "window/frame_line.h"
#include "window/glass_sound.h"
#include "window/opening_label.h"
#include "window/opening_package.h"

/* Just noticed, dB: common knowledge of room acoustics (reference/sound METHODS, from memory). */
static const double noticed = 3.0;

pw_heard pw_heard_of(const pw_band *change)
{
  if (change->p10 >= noticed) return PW_HEARD_YES;
  return change->p90 < noticed ? PW_HEARD_NOT : PW_HEARD_MAY;
}

const char *pw_heard_text(pw_heard heard)
{
  static const char *const text[] = {"you may hear it", "you would not hear it",
                                     "you would hear it"};
  return text[heard];
}

/* ---- what is drawn ---- */

static double place(double low, double high, double u) { return low + (high - low) * u; }

static double row_place(size_t row, double u)
{
  return place(pw_ref_sound_joints[row].low, pw_ref_sound_joints[row].high, u);
}

static double row_place_log(size_t row, double u)
{
  const pw_ref_sound_joints_row *r = &pw_ref_sound_joints[row];
  return r->low * pow(r->high / r->low, u);
}

/* About normal: the mean of three even places has the middle most likely. */
static double bell(const double u[3]) { return (u[0] + u[1] + u[2]) / 3.0; }

void sound_draw_of(const double u[SOUND_DIMS], sound_draw *d)
{
  d->set = (size_t)(3.0 * u[0]) < 3 ? (size_t)(3.0 * u[0]) : 2;
  d->laminate = u[1];
  d->old_crack = row_place_log(pw_ref_sound_joints__old_crack, u[2]);
  d->fixed_share = row_place_log(pw_ref_sound_joints__fixed_share, u[3]);
  d->new_window = row_place_log(pw_ref_sound_joints__new_window, u[4]);
  d->new_label = row_place_log(pw_ref_sound_joints__new_label, u[4]);
  d->gape[0] = u[5];
  d->gape[1] = u[6];
  d->depth = row_place_log(pw_ref_sound_joints__depth, u[7]);
  d->frame[0] = row_place(pw_ref_sound_joints__frame_miss, u[8]);
  d->frame[1] = row_place(pw_ref_sound_joints__frame_miss, u[9]);
  d->frame_most = row_place(pw_ref_sound_joints__frame_most, u[10]);
  d->miss[0] = row_place(pw_ref_sound_joints__glass_miss, bell(&u[11]));
  d->miss[1] = row_place(pw_ref_sound_joints__glass_miss, bell(&u[14]));
  d->wall = row_place(pw_ref_sound_joints__wall_miss, u[17]);
}

/* ---- glass ---- */

/* Weighted tau of a glass by set and by the place of its laminates (none: all alike). */
static pw_status glass_of(const pw_buildup *b, sound_glass *g, unsigned *notes, pw_err *err)
{
  unsigned found = 0;
  pw_status s = PW_OK;
  for (size_t set = 0; s == PW_OK && set < 3; set++) {
    pw_sound_set x = pw_sound_set_of(set);
    for (size_t k = 0; s == PW_OK && k < SOUND_PLACES; k++) {
      pw_thirds r;
      if (k > 0 && !(found & PW_SOUND_LAMINATE)) {
        memcpy(g->rw_ctr[set][k], g->rw_ctr[set][0], sizeof g->rw_ctr[set][k]);
        continue;
      }
      s = pw_glass_sound(b, &x, (double)k / (SOUND_PLACES - 1), &r, &found, err);
      if (s != PW_OK) break;
      for (int ctr = 0; ctr < 2; ctr++)
        g->rw_ctr[set][k][ctr] = pw_reduction_a(&r, ctr);
      if (set == pw_ref_sound_unit_sets__safe && k == SOUND_PLACES / 2) g->safe = r;
    }
    if (s == PW_OK && set == pw_ref_sound_unit_sets__safe && !(found & PW_SOUND_LAMINATE))
      s = pw_glass_sound(b, &x, 0.5, &g->safe, NULL, err);
  }
  *notes |= found;
  return s;
}

static double glass_at(const sound_glass *g, const sound_draw *d, int ctr)
{
  double at = d->laminate * (SOUND_PLACES - 1);
  size_t k = (size_t)at < SOUND_PLACES - 2 ? (size_t)at : SOUND_PLACES - 2;
  double low = g->rw_ctr[d->set][k][ctr], high = g->rw_ctr[d->set][k + 1][ctr];
  return low + (high - low) * (at - (double)k);
}

/* ---- joints ---- */

/* Weighted tau of slits by width, by its logarithm; one table for all draws at each depth would be
 * exact, so the table is of the middle depth and scaled by (middle/depth)^2, as tau goes well below
 * resonance, where the weight lies. */
void sound_slits(sound_slit_table *t)
{
  for (size_t k = 0; k < SOUND_WIDTHS; k++) {
    double width = t->narrow * pow(t->wide / t->narrow, (double)k / (SOUND_WIDTHS - 1));
    pw_slit slit = {width, t->depth, 0, 0, 1};
    pw_thirds r;
    for (int b = 0; b < PW_THIRDS; b++)
      r.db[b] = -10.0 * log10(pw_slit_tau(&slit, pw_third_hz(b), PW_SOUND_C));
    for (int ctr = 0; ctr < 2; ctr++)
      t->tau[ctr][k] = pw_sound_tau(pw_reduction_a(&r, ctr));
  }
}

static double slit_tau(const sound_slit_table *t, double width, double depth, int ctr)
{
  double x = log(width / t->narrow) / log(t->wide / t->narrow) * (SOUND_WIDTHS - 1);
  x = fmin(fmax(x, 0.0), SOUND_WIDTHS - 1.0);
  size_t k = (size_t)x < SOUND_WIDTHS - 2 ? (size_t)x : SOUND_WIDTHS - 2;
  double tau = t->tau[ctr][k] + (t->tau[ctr][k + 1] - t->tau[ctr][k]) * (x - (double)k);
  return tau * (t->depth / depth) * (t->depth / depth);
}

/* Open area of the joints of a window, m2: an old one by its lengths, a new one by its label or what
 * new ones have, by its area. */
static double open_area(const sound_window *w, const sound_draw *d)
{
  double through = w->joints.moving + d->fixed_share * w->joints.fixed;
  if (w->old) return pw_leak_area(d->old_crack * through);
  double flow = isfinite(w->label) ? w->label * d->new_label : d->new_window;
  double all = w->joints.moving + w->joints.fixed;
  double share = all > 0.0 ? through / all : 1.0;
  /* A label is of the whole window, its fixed lights included; without one they leak less. */
  return pw_leak_area(flow * w->area * (isfinite(w->label) ? 1.0 : share));
}

/* Sum of area times weighted tau of an opening, m2: glass, frame, joints. */
double sound_through(const sound_window *w, const sound_draw *d, const sound_slit_table *slits,
                     int ctr)
{
  size_t side = w->old ? 0 : 1;
  double glass = glass_at(w->glass, d, ctr) + d->miss[side];
  double frame = fmin(glass, d->frame_most) + d->frame[side];
  double open = open_area(w, d), length = w->joints.moving + w->joints.fixed;
  pw_sound_joint joint = pw_sound_joint_of(open, length, d->gape[side], d->depth);
  double sum =
      w->glass_area * pw_sound_tau(glass) + (w->area - w->glass_area) * pw_sound_tau(frame);
  if (joint.area > 0.0)
    sum += joint.area * slit_tau(slits, joint.slit.width, joint.slit.depth, ctr);
  return sum;
}

/* ---- the windows ---- */

static sound_window window_of(const pw_compare *c, int package, size_t i,
                              const sound_glass glass[])
{
  size_t p = package < 0 ? 0 : (size_t)package;
  const pw_rating *r = pw_compare_rating(&c->rated, package, i);
  int old = pw_compare_is_old(c->job, package, i);
  size_t at = old ? i : c->n_opening + c->fitted.glass_at[p][i];
  sound_window w = {.old = old,
                    .area = r->area,
                    .glass_area = r->glass_area,
                    .times = (double)c->job->opening[i].quantity,
                    .label = (double)NAN,
                    .glass = &glass[at]};
  pw_joints_of(pw_compare_lites(c->job, &c->fitted, package, i), &w.joints);
  if (old) return w;
  pw_label_row label;
  if (pw_opening_label(c->job, p, &c->job->opening[i], &label, NULL) == PW_OK)
    w.label = label.air_leakage.value;
  return w;
}

/* The spectrum in the middle of everything, set safe, and its single numbers. */
static pw_status middle(const sound_window *w, const sound_draw *d, pw_opening_sound *out,
                        pw_err *err)
{
  size_t side = w->old ? 0 : 1;
  double open = open_area(w, d);
  const pw_sound_part part[1] = {{w->area, &w->glass->safe}};
  pw_sound_joint joint =
      pw_sound_joint_of(open, w->joints.moving + w->joints.fixed, d->gape[side], d->depth);
  pw_thirds r;
  pw_status s = pw_sound_composite(part, 1, &joint, 1, w->area, &r, err);
  if (s == PW_OK) s = pw_single_number_of(&r, &out->number, err);
  if (s == PW_OK) s = pw_single_number_of(&w->glass->safe, &out->glass, err);
  return s;
}

static void alone(const pw_compare *c, size_t p, size_t i, pw_opening_sound *out)
{
  const pw_fit *fit = &c->fitted.fit[p][i];
  out->window_rw = out->window_rw_ctr = (double)NAN;
  if (!pw_compare_replaces(c->job, i) || !pw_operator_opens(c->job->opening[i].operator_insert))
    return;
  pw_window_en_14351(out->glass.rw, out->glass.rw + out->glass.ctr[0], fit->order_area,
                     &out->window_rw, &out->window_rw_ctr);
}

static pw_status windows(const pw_compare *c, sound_study *s, pw_compare_sound *out,
                         pw_err *err)
{
  sound_draw even;
  double half[SOUND_DIMS];
  for (size_t k = 0; k < SOUND_DIMS; k++)
    half[k] = 0.5;
  sound_draw_of(half, &even);
  pw_status status = PW_OK;
  for (size_t i = 0; status == PW_OK && i < c->n_opening; i++)
    status = glass_of(&c->job->opening[i].existing_glass, &s->glass[i], &out->notes, err);
  for (size_t k = 0; status == PW_OK && k < c->fitted.n_glass; k++)
    status =
        glass_of(&c->fitted.package_buildup[k], &s->glass[c->n_opening + k], &out->notes, err);
  for (int p = -1; status == PW_OK && p < (int)c->n_package; p++)
    for (size_t i = 0; status == PW_OK && i < c->n_opening; i++) {
      sound_window *w = &s->window[(size_t)(p + 1) * c->n_opening + i];
      pw_opening_sound *o =
          p < 0 ? &out->existing[i] : &out->package[(size_t)p * c->n_opening + i];
      *w = window_of(c, p, i, s->glass);
      status = middle(w, &even, o, err);
      if (status == PW_OK && p >= 0) alone(c, (size_t)p, i, o);
    }
  return status;
}

/* Every draw: what each opening lets through, in Rw + Ctr and in the noise of the job. */
static pw_status draws(sound_study *s, pw_err *err)
{
  pw_sobol sobol;
  pw_status status = pw_sobol_init(&sobol, SOUND_DIMS, PW_SOUND_DRAWS, 17, err);
  for (size_t k = 0; status == PW_OK && k < PW_SOUND_DRAWS; k++) {
    double u[SOUND_DIMS];
    pw_sobol_point(&sobol, k, u);
    sound_draw_of(u, &s->draw[k]);
    for (size_t w = 0; w < s->n_window; w++)
      for (int ctr = 0; ctr < 2; ctr++)
        s->through[ctr][k * s->n_window + w] =
            sound_through(&s->window[w], &s->draw[k], &s->slits, ctr);
  }
  return status;
}

/* ---- bands ---- */

static pw_status bands(const pw_compare *c, sound_study *s, pw_compare_sound *out, pw_err *err)
{
  size_t n = c->n_opening;
  double *v = s->value, *work = s->value + PW_SOUND_DRAWS;
  pw_status status = PW_OK;
  for (size_t p = 0; status == PW_OK && p < c->n_package; p++) {
    for (size_t i = 0; status == PW_OK && i < n; i++) {
      pw_opening_sound *o = &out->package[p * n + i];
      for (size_t k = 0; k < PW_SOUND_DRAWS; k++) {
        const double *t = &s->through[1][k * s->n_window];
        v[k] = 10.0 * log10(t[i] / t[(p + 1) * n + i]);
      }
      status = pw_band_of(v, 1, PW_SOUND_DRAWS, NULL, work, &o->change, err);
      o->heard = pw_heard_of(&o->change);
    }
    for (size_t k = 0; status == PW_OK && k < PW_SOUND_DRAWS; k++) {
      const double *t = &s->through[1][k * s->n_window];
      double now = 0.0, then = 0.0;
      for (size_t i = 0; i < n; i++) {
        now += s->window[i].times * t[i];
        then += s->window[i].times * t[(p + 1) * n + i];
      }
      v[k] = 10.0 * log10(now / then);
    }
    if (status == PW_OK)
      status = pw_band_of(v, 1, PW_SOUND_DRAWS, NULL, work, &out->change[p], err);
    if (status == PW_OK) out->heard[p] = pw_heard_of(&out->change[p]);
  }
  return status;
}

static pw_status fill(const pw_compare *c, sound_study *s, pw_compare_sound *out, pw_err *err)
{
  double low = pw_ref_sound_joints[pw_ref_sound_joints__depth].low;
  s->slits = (sound_slit_table){
      .narrow = 1e-5,
      .wide = 1e-2,
      .depth = sqrt(low * pw_ref_sound_joints[pw_ref_sound_joints__depth].high)};
  sound_slits(&s->slits);
  pw_status status = windows(c, s, out, err);
  if (status == PW_OK) status = draws(s, err);
  if (status == PW_OK) status = bands(c, s, out, err);
  return status == PW_OK ? sound_rooms(c, s, out, err) : status;
}

pw_status pw_compare_sound_of(const pw_compare *c, pw_compare_sound *out, pw_err *err)
{
  size_t n = c->n_opening, np = n * c->n_package;
  *out = (pw_compare_sound){.n_opening = n, .n_package = c->n_package};
  out->existing = calloc(n, sizeof *out->existing);
  out->package = calloc(np, sizeof *out->package);
  out->room = calloc(n, sizeof *out->room);
  sound_study s = {.n_window = n + np};
  s.glass = calloc(n + c->fitted.n_glass, sizeof *s.glass);
  s.window = calloc(s.n_window, sizeof *s.window);
  s.draw = calloc(PW_SOUND_DRAWS, sizeof *s.draw);
  s.value = calloc(3 * PW_SOUND_DRAWS, sizeof *s.value);
  for (int k = 0; k < 2; k++)
    s.through[k] = calloc(PW_SOUND_DRAWS * s.n_window, sizeof **s.through);
  pw_status status = PW_OK;
  if (!out->existing || !out->package || !out->room || !s.glass || !s.window || !s.draw ||
      !s.value || !s.through[0] || !s.through[1])
    status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for the sound");
  if (status == PW_OK) status = fill(c, &s, out, err);
  free(s.glass);
  free(s.window);
  free(s.draw);
  free(s.value);
  free(s.through[0]);
  free(s.through[1]);
  if (status != PW_OK) pw_compare_sound_free(out);
  return status;
}

void pw_compare_sound_free(pw_compare_sound *sound)
{
  if (!sound) return;
  free(sound->existing);
  free(sound->package);
  free(sound->room);
  memset(sound, 0, sizeof *sound);
}
