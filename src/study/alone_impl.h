/* What a prepared place holds. Internal to the window's year by itself. */
#ifndef STUDY_ALONE_IMPL_H
#define STUDY_ALONE_IMPL_H

#include "house/simple.h"
#include "panewright/house_facts.h"
#include "study/alone.h"

enum {
  ALONE_FACADES = 36, /* every 10 degrees */
  ALONE_SLOPES = 10,  /* of the sun seen along the facade: height over distance */
  ALONE_LANES = 2,
  ALONE_WARM_UP = 24 * 14 /* hours before the year starts */
};

/* The room, a m2 of its floor. */
typedef struct alone_room {
  pw_simple simple;          /* h_window 0 */
  double gain;               /* W */
  double heat_set, cool_set; /* C */
} alone_room;

/* The hours with light, facade free. */
typedef struct alone_sun {
  size_t n;
  short hour[PW_HOURS];
  float east[PW_HOURS], north[PW_HOURS], up[PW_HOURS];
  float beam[PW_HOURS]; /* W/m2 normal to the sun: disc and the sky close to it apart */
  float ring[PW_HOURS];
  float dome[PW_HOURS], band[PW_HOURS], ground[PW_HOURS]; /* W/m2 on a wall */
} alone_sun;

/* Sun by month, kWh/m2 of wall. */
typedef struct alone_moments {
  float direct[ALONE_FACADES][12][ALONE_SLOPES][10]; /* shared out to slopes and angles */
  float open[ALONE_FACADES][12][10];                 /* summed over slopes */
  float dome[12], band[12], ground[12];
} alone_moments;

struct pw_alone_place {
  pw_alone_method method;
  alone_room room;
  double design_night;                   /* K */
  double month_t[12], month_hours[12];   /* C, h */
  double closed_heating, closed_cooling; /* kWh a m2 of floor, the hole closed */
  float *t_out;                          /* C by hour; hourly only, as sun */
  alone_sun *sun;
  alone_moments *moments;    /* monthly only */
  struct alone_house *house; /* detailed only */
};

/* Slopes of the nodes; the last stands for all above. */
extern const float alone_slope[ALONE_SLOPES];

/* A window a m2 of the room's floor. */
typedef struct alone_lane {
  double h_window; /* W/K */
  double glass;    /* m2 of it that count, screens and trees taken off */
  double other;    /* m2 that let in all sun on them: the frame's share */
  float deep, gap; /* overhang over glass height */
  float dome;      /* share of the dome left */
  double facing_deg;
  const pw_glazing *glazing; /* NULL: no glass, the hole is closed */
} alone_lane;

typedef struct alone_need {
  double heating, cooling; /* kWh */
} alone_need;

pw_status alone_hourly(const pw_alone_place *place, const alone_lane lane[ALONE_LANES],
                       alone_need need[ALONE_LANES], pw_err *err);
pw_status alone_monthly(const pw_alone_place *place, const alone_lane lane[ALONE_LANES],
                        alone_need need[ALONE_LANES], pw_err *err);
/* Need of the reference house with each of n windows, or (window NULL) with none of them, need[0].
 * desk: NULL, one for this call. */
pw_status alone_detailed(const pw_alone_place *place, const pw_house_window window[],
                         const double area[], size_t n, pw_alone_desk *desk, alone_need need[],
                         pw_err *err);
pw_status alone_house_new(const pw_weather *weather, const pw_house_facts *facts,
                          double window_share, struct alone_house **house, pw_err *err);
void alone_house_free(struct alone_house *house);
void alone_moments_of(const alone_sun *sun, alone_moments *moments);

#endif
