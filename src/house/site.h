/* What a workspace keeps from run to run: sky, facades, shades, walls, glass. Internal. */
#ifndef HOUSE_SITE_H
#define HOUSE_SITE_H

#include "climate/shade.h"
#include "house/pane.h"
#include "house/wall.h"
#include "panewright/year.h"

enum {
  SITE_LANES = 8, /* houses that live side by side */
  SITE_FACADES = SITE_LANES * (PW_PARTS_MAX + PW_WINDOWS_MAX), /* as many as they can have */
  SITE_FACADES_KEPT = 24,                                      /* from one run to the next */
  SITE_WALLS = 2 * SITE_LANES * PW_PARTS_MAX,                  /* two steps */
  SITE_PANES = SITE_LANES * PW_WINDOWS_MAX,
  SITE_SHADES = 64
};

/* A facade's sun, and all of it in one. */
typedef struct site_facade {
  pw_facade key;
  pw_facade_year year;
  float all[PW_HOURS]; /* W/m2 */
} site_facade;

typedef struct site_shade {
  pw_shade key;
  const site_facade *facade;
  pw_shade_factor factor;
  float sunlit[PW_HOURS];
} site_shade;

/* Sun on an opaque part under eaves, W/m2 by hour. */
typedef struct site_part {
  float sun[PW_HOURS];
} site_part;

typedef struct site_wall {
  pw_wall_layers key;
  double step, least;
  pw_wall wall;
} site_wall;

typedef struct site_pane {
  pw_unit key;
  double height;
  pane_unit unit;
} site_pane;

/* Sun on and through the glass of one window, W/m2 of glass, of lanes side by side. An hour's record is
 * SITE_SUN rows of so many lanes. */
enum { SITE_INCIDENT, SITE_BEAM, SITE_DIFFUSE, SITE_ABSORBED, SITE_SUN = 3 + PW_PANES_MAX };
typedef struct site_window {
  size_t lanes, room; /* room: lanes there is memory for */
  size_t sky;         /* of which sky the dark hours are */
  size_t panes;       /* rows of panes that may hold sun; the others are none */
  float *sun;         /* on it; let in, from the sun and even; absorbed in each pane */
} site_window;

static inline const float *site_sun(const site_window *s, size_t hour, size_t row)
{
  return s->sun + (hour * SITE_SUN + row) * s->lanes;
}

struct pw_year_workspace {
  const pw_weather *weather; /* borrowed: told apart by address and site only */
  pw_site site;
  pw_sky_model model;
  double pressure;                /* Pa, mean of the year */
  pw_sky_year *sky;               /* owned, as all below */
  unsigned char dark[PW_HOURS];   /* 1: an hour without light */
  float *t_out, *t_sky, *density; /* K (t_out: C), kg/m3, means of the hours */
  float *wind;                    /* m/s at the mast */
  float *wind_glass; /* W/(m2 K), forced part on glass at wind_share of the mast's wind */
  float *wind_root;  /* root of m/s, at the wall; straight forms: W/(m2 K) */
  double wind_share;
  pw_film_out film_out;
  pw_clear_sky clear;
  size_t n_facade, n_shade, n_wall, n_pane, n_window;
  size_t n_sky;           /* skies made so far */
  size_t n_lived, n_lane; /* pw_year_workspace_use */
  site_facade *facade[SITE_FACADES];
  site_shade *shade[SITE_SHADES];
  site_wall *wall[SITE_WALLS];
  site_pane *pane[SITE_PANES];
  site_window *window[PW_WINDOWS_MAX];       /* as the last run left them */
  site_part *part[SITE_LANES][PW_PARTS_MAX]; /* the same; NULL: none yet */
};

/* Makes the workspace fit this weather, the sky of the options, and the wind before the house's walls. */
pw_status site_open(pw_year_workspace *ws, const pw_weather *weather,
                    const pw_year_options *options, const pw_house *house, pw_err *err);

pw_status site_facade_of(pw_year_workspace *ws, double facing_deg, double tilt_deg,
                         double albedo, const site_facade **out, pw_err *err);
pw_status site_wall_of(pw_year_workspace *ws, const pw_wall_layers *layers, double step,
                       double least, const pw_wall **out, pw_err *err);
pw_status site_pane_of(pw_year_workspace *ws, const pw_glazing *glazing, double height,
                       const pane_unit **out, pw_err *err);

/* Makes room for n shades more: where there is none, all that are kept go, so nobody may hold one across it. */
void site_shade_room(pw_year_workspace *ws, size_t n);

/* The shade of a facade; room for it was made before. */
pw_status site_shade_of(pw_year_workspace *ws, const pw_shade *key, const site_facade *facade,
                        const site_shade **out, pw_err *err);

/* Sun on part i of lane l, W/m2 by hour; NULL where there is none. */
pw_status site_part_of(pw_year_workspace *ws, size_t l, size_t i, const pw_house_part *part,
                       double albedo, const float **sun, pw_err *err);

/* Room for the walls and units of so many houses, which are forgotten if need be: only between two
 * runs. */
void site_make_room(pw_year_workspace *ws, size_t houses, size_t parts, size_t windows);

/* Makes ws->window[0..n) hold so many lanes. */
pw_status site_lay_windows(pw_year_workspace *ws, size_t n, size_t lanes, pw_err *err);

/* Fills ws->window[i] for this window of each of n houses; window[l] the first of house l's. */
pw_status site_window_of(pw_year_workspace *ws, size_t i, size_t n,
                         const pw_house_window *const window[], const double albedo[],
                         size_t *failed, pw_err *err);

/* Air density over that at sea level. */
double site_thin(const pw_year_workspace *ws);

double site_height(const pw_house_window *window);
double site_width(const pw_house_window *window);

#endif
