/* A year in the house: what it needs to stay warm and cool with a given set of windows.
 *
 * Three methods behind one call. Detailed: hour by hour, layered walls, surface balances, each
 * window by its own glass balance. Simple: one mass node hour by hour (ISO 13790, 7.2.2). Quick:
 * month by month with utilisation factors (ISO 13790, 12.2.1).
 */
#ifndef PANEWRIGHT_YEAR_H
#define PANEWRIGHT_YEAR_H

#include "panewright/glazing.h"
#include "panewright/weather.h"
#include "panewright/zone.h"

enum { PW_WINDOWS_MAX = 64 };

enum { PW_COVERING_SUMMER = 0, PW_COVERING_WINTER, PW_COVERING_SEASONS };
enum { PW_COVERING_DAY = 0, PW_COVERING_NIGHT, PW_COVERING_TIMES };

/* What a window's covering does in the mean of all that are used as the survey has it. */
typedef struct pw_covered {
  double pass[PW_COVERING_SEASONS]; /* share of the sun that still comes in, of 1 */
  double closed[PW_COVERING_TIMES]; /* share of the window behind a closed one */
  double resistance;                /* m2 K/W that a closed one adds indoors */
} pw_covered;

/* One opening, as it stands in the wall. Areas are of one window; count multiplies. */
typedef struct pw_house_window {
  double facing_deg;         /* 0 north, 90 east */
  double tilt_deg;           /* 0 means 90, a wall */
  double area_glass;         /* m2 of visible glass */
  double height, width;      /* m of the glass, for shade; 0: square of the area */
  const pw_glazing *glazing; /* borrowed */
  double ua_other;           /* W/K at rating films: frame, edge beyond centre, retained ring */
  double area_other;     /* m2 of frame and retained ring: its outer film follows the wind; 0:
                                ua_other is kept as rated */
  double solar_other;    /* m2: sum of SHGC_f A_f of the opaque parts */
  double overhang_depth; /* m; 0 none */
  double overhang_gap;   /* m from the head of the glass up to it */
  double reveal_depth;   /* m: set back of the glass; shades from head and both sides */
  double fin_depth;      /* m, side fins at the edges of the glass, as high as the overhang */
  double screen;         /* insect screen factor on sun; 0 means 1 (none) */
  double shade_factor;   /* share of sun taken by trees and walls, 0..1 */
  int count;             /* 0 means 1 */
  double open_area; /* m2 that is free when it stands open, less what a screen holds back; 0: it
                            does not open */
  double open_height; /* m of it */
  pw_covered covered; /* by drapes and blinds; pass 0 means 1: none */
} pw_house_window;

typedef enum pw_year_method {
  PW_YEAR_DETAILED = 0,
  PW_YEAR_SIMPLE,
  PW_YEAR_QUICK
} pw_year_method;

/* Optional hourly output: each NULL or PW_HOURS long. */
typedef struct pw_year_hours {
  float *heating_w, *cooling_w; /* W, mean of the hour, both positive */
  float *t_air_c, *t_radiant_c; /* C */
  float *window_w;              /* W into the room through all windows, sun included */
  float *solar_w;               /* W of it: sun passed, and absorbed sun handed inward */
  float *transmitted;           /* W, sun passed by the glass of all windows */
  float *incident;              /* W, sun on the glass after shade */
} pw_year_hours;

typedef struct pw_year_options {
  pw_year_method method;
  pw_sky_model sky;
  pw_clear_sky clear;
  int steps_per_hour;   /* 0 means 1; 1..12 */
  int warm_up_days;     /* 0 means 14, run from the end of the year before it starts */
  pw_year_hours *hours; /* NULL: none */
  int lanes; /* most houses side by side in pw_year_run_beside: 1, 2, 4, 8; 0: pw_year_lanes() */
} pw_year_options;

typedef struct pw_year_window {
  double incident_kwh;    /* sun on the glass, after shade */
  double transmitted_kwh; /* sun passed by the glass */
  double solar_kwh;       /* sun gained: passed and not thrown out again, absorbed sun handed
                             inward; frame too */
  double heat_lost_kwh;   /* heat lost by conduction and radiation, the sun left out, net */
  double solar_month_kwh[12], lost_month_kwh[12];
  double heating_part_kwh; /* net loss in the hours that heat: its share of heating */
  double cooling_part_kwh; /* net gain in the hours that cool: its share of cooling */
  double t_inner_min_c, t_inner_max_c; /* inner glass surface, C */
  double hours_uncomfortable; /* operative temperature 1 m before the glass outside 19..27 C */
  double radiant_min_c;       /* coldest mean radiant temperature there */
} pw_year_window;

enum { PW_FACADES = 8 };

typedef struct pw_year_result {
  double heating_kwh, cooling_kwh; /* sensible need of the zone */
  double heating_month_kwh[12], cooling_month_kwh[12];
  double peak_heating_w, peak_cooling_w;    /* highest hourly mean */
  int peak_heating_hour, peak_cooling_hour; /* index of the hour; -1 none */
  double hours_overheated;                  /* operative temperature above 27 C */
  double hours_cold;                        /* operative temperature below 19 C */
  double
      hours_warm; /* room air above the house's warm_c; NAN not asked, or by the monthly method */
  double t_air_min_c, t_air_max_c, t_air_mean_c;
  double solar_kwh, window_loss_kwh;              /* over all windows */
  double opaque_loss_kwh, air_loss_kwh, gain_kwh; /* the rest of the balance; detailed only */
  double facade_solar_kwh[PW_FACADES], facade_loss_kwh[PW_FACADES]; /* N NE E SE S SW W NW */
  double hours_open;   /* with windows open; NAN by the monthly method */
  double airing_kwh;   /* heat that left through them, part of air_loss_kwh */
  double open_m3_s;    /* mean flow while they are open; 0 never */
  double stored_kwh;   /* end less start of the year */
  double residual_kwh; /* what the balance fails to close by; detailed only */
  size_t n_window;
  pw_year_window window[PW_WINDOWS_MAX];
} pw_year_result;

/* What can be kept from run to run: sun and sky of each facade, prepared walls, gap tables. One
 * thread at a time. A run finds by itself what still fits; the weather is told apart by address
 * and site, so do not change a weather in place between two runs of a workspace. */
typedef struct pw_year_workspace pw_year_workspace;

pw_year_workspace *pw_year_workspace_new(void); /* NULL: no memory */
void pw_year_workspace_free(pw_year_workspace *workspace);

/* What comes through the windows of a house that stand open by its airing; n up to PW_WINDOWS_MAX. */
pw_airing_flow pw_year_open_flow(const pw_house *house, const pw_house_window window[],
                                 size_t n);

/* Index of the compass eighth that an azimuth falls in: 0 N, 1 NE .. 7 NW. */
int pw_year_facade(double facing_deg);

/* Given     house, weather, window[n]; options (NULL: all default); workspace (NULL: one for
 *           this call)
 * Returned  *result, and the hours asked for
 * Status    PW_OK; PW_E_DOMAIN, PW_E_SHAPE (the field is named); PW_E_NOMEM; PW_E_CONVERGE
 * Notes     1) Means over each hour; need is sensible; nothing of equipment, ducts or moisture.
 *           2) Steps of half an hour in place of an hour change heating and cooling of the boxes
 *              of Standard 140 by at most 0.47 % (995: 0.64 % of 0.9 MWh), their sum by 0.24 %.
 *           3) Detailed: annual figures of those boxes lie inside the 2020 spread; peaks to 1.5 %.
 *              Glass by its own balance within 0.5 % of pw_unit_solve; frames at rated U with their
 *              outer film moved to the hour's wind. Hours of the file are means, or readings
 *              brought to means (pw_weather.state_late_h).
 *           4) Simple and quick take window U at the mean wind; what they do not know is NAN.
 * Source    ISO 13790:2008 (simple, quick); detailed: sources at each formula of src/house.
 */
pw_status pw_year_run(const pw_house *house, const pw_weather *weather,
                      const pw_house_window window[], size_t n_window,
                      const pw_year_options *options, pw_year_workspace *workspace,
                      pw_year_result *result, pw_err *err);

/* One of several years lived side by side. */
typedef struct pw_year_lane {
  const pw_house *house;
  const pw_house_window *window;
  pw_year_hours *hours;   /* NULL: none */
  pw_year_result *result; /* of undefined value where its year was not lived */
} pw_year_lane;

/* Years of n houses in one weather, each with n_window windows, several at a time where the detailed
 * method, their parts (count, and what lies behind each) and their films' forms allow.
 *
 * Given     as pw_year_run; options->hours is not used
 * Returned  each lane's result, bit for bit what pw_year_run gives for it, however many run beside it
 *           and on whatever processor; *failed (may be NULL) the lane that failed
 * Status    as pw_year_run
 */
pw_status pw_year_run_beside(const pw_year_lane lane[], size_t n, const pw_weather *weather,
                             size_t n_window, const pw_year_options *options,
                             pw_year_workspace *workspace, size_t *failed, pw_err *err);

/* Houses that this processor lives in side by side: 8, 4 or 2. */
int pw_year_lanes(void);

/* How many house years the detailed method has run in a workspace, and how many lanes it ran for them: those beyond were
 * idle. */
void pw_year_workspace_use(const pw_year_workspace *workspace, size_t *lived, size_t *lanes);

#endif
