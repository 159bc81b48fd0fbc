#include "climate/sky.h"

#include <math.h>
#include <string.h>

#include "base/own_math.h"
#include "panewright/units.h"

/* Perez et al. 1990, all-sites composite, from the bin's lower edge of clearness; METHODS.md 2. */
static const struct {
  float from, f11, f12, f13, f21, f22, f23;
} perez_bin[8] = {{1.000f, -0.008f, 0.588f, -0.062f, -0.060f, 0.072f, -0.022f},
                  {1.065f, 0.130f, 0.683f, -0.151f, -0.019f, 0.066f, -0.029f},
                  {1.230f, 0.330f, 0.487f, -0.221f, 0.055f, -0.064f, -0.026f},
                  {1.500f, 0.568f, 0.187f, -0.295f, 0.109f, -0.152f, -0.014f},
                  {1.950f, 0.873f, -0.392f, -0.362f, 0.226f, -0.462f, 0.001f},
                  {2.800f, 1.132f, -1.237f, -0.412f, 0.288f, -0.823f, 0.056f},
                  {4.500f, 1.060f, -1.600f, -0.359f, 0.264f, -1.127f, 0.131f},
                  {6.200f, 0.678f, -0.327f, -0.250f, 0.156f, -1.377f, 0.251f}};

static const double cos_85 =
    0.08715574274765817;                 /* Perez: floor of cos z below the circumsolar */
static const double hay_floor = 0.01745; /* METHODS.md 2: floor of cos z, Hay & Davies */
static const double sun_most = 5000.0;   /* W/m2; more is a slip of the pen */

/* The facade-free part of an hour's sky. */
typedef struct sky_hour {
  float even, circumsolar, band;
} sky_hour;

/* normal: extraterrestrial; air: relative air mass, 0 or NAN when the sun is down */
static sky_hour brightness(pw_sky_model model, float dni, float dhi, float normal, float air,
                           float zenith, float cos_z)
{
  if (!(dhi > 0.0f)) return (sky_hour){0.0f, 0.0f, 0.0f};
  if (model == PW_SKY_EVEN) return (sky_hour){dhi, 0.0f, 0.0f};
  if (model == PW_SKY_HAY_DAVIES) {
    float a = dni / normal;
    return (sky_hour){dhi * (1.0f - a), dhi * a / fmaxf(cos_z, (float)hay_floor), 0.0f};
  }
  if (!(air > 0.0f)) return (sky_hour){0.0f, 0.0f, 0.0f};
  float z3 = 1.041f * zenith * zenith * zenith;
  float clearness = ((dhi + dni) / dhi + z3) / (1.0f + z3);
  float delta = dhi * air / normal;
  int b = 7;
  while (b > 0 && clearness < perez_bin[b].from)
    b--;
  float f1 = perez_bin[b].f11 + perez_bin[b].f12 * delta + perez_bin[b].f13 * zenith;
  float f2 = perez_bin[b].f21 + perez_bin[b].f22 * delta + perez_bin[b].f23 * zenith;
  f1 = fmaxf(f1, 0.0f);
  return (sky_hour){dhi * (1.0f - f1), dhi * f1 / fmaxf(cos_z, (float)cos_85), dhi * f2};
}

static pw_status facade_in_range(const pw_facade *f, pw_err *err)
{
  if (!(f->azimuth_deg >= -360.0 && f->azimuth_deg <= 720.0))
    return pw_fail(err, PW_E_DOMAIN, "azimuth_deg", "azimuth %g, want 0 to 360",
                   f->azimuth_deg);
  if (!(f->tilt_deg >= 0.0 && f->tilt_deg <= 180.0))
    return pw_fail(err, PW_E_DOMAIN, "tilt_deg", "tilt %g, want 0 to 180", f->tilt_deg);
  if (!(f->albedo <= 1.0))
    return pw_fail(err, PW_E_DOMAIN, "albedo", "albedo %g, want 0 to 1", f->albedo);
  return PW_OK;
}

const char *pw_sky_model_name(pw_sky_model model)
{
  static const char *const name[] = {"perez", "hay-davies", "even"};
  return (unsigned)model < PW_SKY_MODEL_COUNT ? name[model] : "unknown";
}

pw_status pw_sky_plane(pw_sky_model model, const pw_facade *facade, double ghi, double dni,
                       double dhi, double normal, double zenith_deg, double sun_azimuth_deg,
                       pw_plane_sun *out, pw_err *err)
{
  pw_status status = facade_in_range(facade, err);
  if (status != PW_OK) return status;
  if (!((unsigned)model < PW_SKY_MODEL_COUNT))
    return pw_fail(err, PW_E_DOMAIN, "model", "no sky model %d", (int)model);
  if (!(ghi >= 0.0 && dni >= 0.0 && dhi >= 0.0 && normal > 0.0 &&
        fmax(fmax(ghi, dni), fmax(dhi, normal)) <= sun_most))
    return pw_fail(err, PW_E_DOMAIN, "ghi",
                   "global %g, beam %g, diffuse %g, outside the air %g W/m2, want 0 to %g", ghi,
                   dni, dhi, normal, sun_most);
  if (!(zenith_deg >= 0.0 && zenith_deg <= 180.0))
    return pw_fail(err, PW_E_DOMAIN, "zenith_deg", "zenith %g, want 0 to 180", zenith_deg);
  if (!(sun_azimuth_deg >= -360.0 && sun_azimuth_deg <= 720.0))
    return pw_fail(err, PW_E_DOMAIN, "sun_azimuth_deg", "azimuth %g of the sun, want 0 to 360",
                   sun_azimuth_deg);
  double z = pw_rad(zenith_deg), t = pw_rad(facade->tilt_deg);
  double turn = pw_rad(sun_azimuth_deg - facade->azimuth_deg);
  double c = pw_cos(z) * pw_cos(t) + pw_sin(z) * pw_sin(t) * pw_cos(turn);
  double air = zenith_deg <= 90.0 ? pw_air_mass(zenith_deg) : 0.0;
  sky_hour s = brightness(model, (float)dni, (float)dhi, (float)normal, (float)air, (float)z,
                          (float)pw_cos(z));
  double albedo = facade->albedo < 0.0 ? PW_GROUND_ALBEDO : facade->albedo;
  pw_plane_sun p = {.cos_incidence = c,
                    .beam = dni * fmax(c, 0.0),
                    .circumsolar = (double)s.circumsolar * fmax(c, 0.0),
                    .dome = (double)s.even * (1.0 + pw_cos(t)) / 2.0,
                    .horizon = (double)s.band * pw_sin(t),
                    .ground = ghi * albedo * (1.0 - pw_cos(t)) / 2.0};
  if (p.circumsolar + p.dome + p.horizon < 0.0) p.circumsolar = p.dome = p.horizon = 0.0;
  *out = p;
  return PW_OK;
}

pw_status pw_sky_of_year(const pw_weather *w, pw_sky_model model, pw_sky_year *sky, pw_err *err)
{
  if (!((unsigned)model < PW_SKY_MODEL_COUNT))
    return pw_fail(err, PW_E_DOMAIN, "model", "no sky model %d", (int)model);
  pw_status status = pw_sun_of_year(w, &sky->sun, err);
  if (status != PW_OK) return status;
  sky->model = model;
  for (size_t i = 0; i < sky->sun.n; i++) {
    const pw_hour *h = &w->hour[sky->sun.hour[i]];
    sky_hour s = brightness(model, h->dni, h->dhi, sky->sun.normal[i], sky->sun.air_mass[i],
                            sky->sun.zenith[i], sky->sun.up[i]);
    sky->ghi[i] = h->ghi;
    sky->dni[i] = h->dni;
    sky->albedo[i] = h->albedo >= 0.0f ? h->albedo : (float)PW_GROUND_ALBEDO;
    sky->even[i] = s.even;
    sky->circumsolar[i] = s.circumsolar;
    sky->band[i] = s.band;
  }
  return PW_OK;
}

pw_status pw_facade_of_year(const pw_sky_year *sky, const pw_facade *facade,
                            pw_facade_year *out, pw_err *err)
{
  pw_status status = facade_in_range(facade, err);
  if (status != PW_OK) return status;
  double a = pw_rad(facade->azimuth_deg), t = pw_rad(facade->tilt_deg);
  const float e = (float)(pw_sin(a) * pw_sin(t)), n = (float)(pw_cos(a) * pw_sin(t)),
              u = (float)pw_cos(t);
  const float up = (1.0f + u) / 2.0f, down = (1.0f - u) / 2.0f, side = (float)pw_sin(t);
  const float albedo = (float)facade->albedo;
  memset(out, 0, sizeof *out);
  for (size_t i = 0; i < sky->sun.n; i++) {
    int h = sky->sun.hour[i];
    float c = sky->sun.east[i] * e + sky->sun.north[i] * n + sky->sun.up[i] * u;
    float facing = fmaxf(c, 0.0f);
    float ring = sky->circumsolar[i] * facing, dome = sky->even[i] * up;
    float band = sky->band[i] * side;
    float keep = ring + dome + band >= 0.0f ? 1.0f : 0.0f;
    out->cos_incidence[h] = c;
    out->beam[h] = sky->dni[i] * facing;
    out->circumsolar[h] = ring * keep;
    out->dome[h] = dome * keep;
    out->horizon[h] = band * keep;
    out->ground[h] = sky->ghi[i] * (albedo >= 0.0f ? albedo : sky->albedo[i]) * down;
  }
  return PW_OK;
}
