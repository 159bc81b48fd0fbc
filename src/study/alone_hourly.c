/* The room hour by hour. The two lanes are two rooms that run side by side, so that the processor
 * works on one while it waits for the other. */
#include <math.h>
#include <string.h>

#include "base/own_math.h"
#include "glass/by_angle.h"
#include "panewright/units.h"
#include "study/alone_impl.h"

/* Sun gained, W a m2 of floor, in every hour of the year. */
static void gain(const alone_sun *s, const alone_lane *l, float out[])
{
  float table[PW_COSINES + 2];
  double azimuth = l->facing_deg * PW_PI / 180.0;
  const float e = (float)pw_sin(azimuth), n = (float)pw_cos(azimuth);
  const float glass = (float)l->glass, other = (float)l->other, deep = l->deep, gap = l->gap;
  const float dome_left = l->dome;
  memset(out, 0, PW_HOURS * sizeof *out);
  if (!l->glazing) return;
  for (int k = 0; k < PW_COSINES + 2; k++) {
    double part;
    int below = pw_cosine_below(k, &part);
    table[k] = (float)pw_angle_share(l->glazing->shgc, below, part);
  }
  const float even_g = (float)l->glazing->shgc[PW_ANGLE_DIFFUSE];
  const float band_g = (float)pw_band_mean(l->glazing->shgc);
  for (size_t i = 0; i < s->n; i++) {
    float c = e * s->east[i] + n * s->north[i];
    float facing = c > 0.0f ? c : 0.0f;
    float ring = s->ring[i] * facing, dome = s->dome[i], band = s->band[i];
    float keep = ring + dome + band >= 0.0f ? 1.0f : 0.0f; /* as sky.h sets it */
    float drop = deep * s->up[i] - gap * facing; /* shadow on the glass, times the facing */
    float shaded = drop > 0.0f ? (drop < facing ? drop : facing) : 0.0f;
    float direct = (s->beam[i] + keep * s->ring[i]) * (facing - (deep > 0.0f ? shaded : 0.0f));
    float even = keep * dome * dome_left + s->ground[i];
    float x = facing * PW_COSINES;
    int k = (int)x;
    float g = table[k] + (x - (float)k) * (table[k + 1] - table[k]);
    band *= keep;
    out[s->hour[i]] =
        glass * (direct * g + even * even_g + band * band_g) + other * (direct + even + band);
  }
}

/* An hour of the room without heating or cooling is linear in the mass temperature t at its start,
 * the sun and the outdoor air:  air = ta t + as sun + ao out + ac,  t' = mt t + ms sun + mo out + mc;
 * a need adds na to the air and nm to the mass for each W. */
typedef struct linear {
  double ta[ALONE_LANES], as[ALONE_LANES], ao[ALONE_LANES], ac[ALONE_LANES];
  double mt[ALONE_LANES], ms[ALONE_LANES], mo[ALONE_LANES], mc[ALONE_LANES];
  double per_air[ALONE_LANES], nm[ALONE_LANES]; /* per_air = 1 / na */
} linear;

/* By trial: the step of simple.h with one driver at a time. */
static pw_status linearise(const alone_room *room, double h_window, linear *k, size_t lane,
                           pw_err *err)
{
  pw_simple s = room->simple;
  pw_simple_net net;
  pw_simple_hour hour;
  s.h_window = h_window;
  pw_status status = pw_simple_init(&s, &net, err);
  if (status != PW_OK) return status;
  const pw_simple_drive still = {.gain = room->gain, .heat_set = NAN, .cool_set = NAN};
  double t = 0.0;
  pw_simple_step(&s, &net, &still, &t, &hour);
  k->ac[lane] = hour.t_air;
  k->mc[lane] = t;
  pw_simple_drive d = still;
  d.solar = 1.0;
  t = 0.0;
  pw_simple_step(&s, &net, &d, &t, &hour);
  k->as[lane] = hour.t_air - k->ac[lane];
  k->ms[lane] = t - k->mc[lane];
  d = still;
  d.t_out = d.t_supply = 1.0;
  t = 0.0;
  pw_simple_step(&s, &net, &d, &t, &hour);
  k->ao[lane] = hour.t_air - k->ac[lane];
  k->mo[lane] = t - k->mc[lane];
  t = 1.0;
  pw_simple_step(&s, &net, &still, &t, &hour);
  k->ta[lane] = hour.t_air - k->ac[lane];
  k->mt[lane] = t - k->mc[lane];
  d = still;
  d.heat_set = k->ac[lane] + 10.0; /* heated up by 10 K */
  t = 0.0;
  pw_simple_step(&s, &net, &d, &t, &hour);
  k->per_air[lane] = hour.need / 10.0;
  k->nm[lane] = (t - k->mc[lane]) / hour.need;
  return PW_OK;
}

typedef struct state {
  double t[ALONE_LANES], heat[ALONE_LANES], cool[ALONE_LANES]; /* C, Wh, Wh */
} state;

static void run(const linear *k, const alone_room *room, const float *t_out,
                const float sun[ALONE_LANES][PW_HOURS], int from, int to, state *s)
{
  const double low = room->heat_set, high = room->cool_set;
  linear c = *k;
  state x = *s;
  for (int i = from; i < to; i++) {
    double out = (double)t_out[i];
    for (int l = 0; l < ALONE_LANES; l++) {
      double g = (double)sun[l][i];
      double air = c.ta[l] * x.t[l] + (c.as[l] * g + c.ao[l] * out + c.ac[l]);
      double cold = low - air, warm = air - high;
      cold = cold > 0.0 ? cold : 0.0;
      warm = warm > 0.0 ? warm : 0.0;
      double heat = cold * c.per_air[l], cool = warm * c.per_air[l];
      x.t[l] =
          c.mt[l] * x.t[l] + (c.ms[l] * g + c.mo[l] * out + c.mc[l]) + c.nm[l] * (heat - cool);
      x.heat[l] += heat;
      x.cool[l] += cool;
    }
  }
  *s = x;
}

pw_status alone_hourly(const pw_alone_place *p, const alone_lane lane[ALONE_LANES],
                       alone_need need[ALONE_LANES], pw_err *err)
{
  float sun[ALONE_LANES][PW_HOURS];
  linear k;
  state s = {.t = {20.0, 20.0}};
  for (size_t l = 0; l < ALONE_LANES; l++) {
    pw_status status = linearise(&p->room, lane[l].h_window, &k, l, err);
    if (status != PW_OK) return status;
    gain(p->sun, &lane[l], sun[l]);
  }
  run(&k, &p->room, p->t_out, (const float(*)[PW_HOURS])sun, PW_HOURS - ALONE_WARM_UP, PW_HOURS,
      &s);
  for (size_t l = 0; l < ALONE_LANES; l++)
    s.heat[l] = s.cool[l] = 0.0;
  run(&k, &p->room, p->t_out, (const float(*)[PW_HOURS])sun, 0, PW_HOURS, &s);
  for (size_t l = 0; l < ALONE_LANES; l++)
    need[l] = (alone_need){1e-3 * s.heat[l], 1e-3 * s.cool[l]};
  return PW_OK;
}
