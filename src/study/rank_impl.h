/* What the parts of the search share. Internal. */
#ifndef STUDY_RANK_IMPL_H
#define STUDY_RANK_IMPL_H

#include "glass/optics.h"
#include "study/rank.h"
#include "study/surface.h"

enum {
  RANK_DIMS = 3,  /* of the surface: conducted heat, sun passed, sun absorbed and handed in */
  RANK_GOALS = 5, /* price, heating, cooling, light, comfort */
  RANK_PATTERNS = 4096
};

/* Which coating on which surface, -1 none. */
typedef struct rank_pattern {
  signed char coat[2 * PW_PANES_MAX];
} rank_pattern;

/* The build-ups of one count of panes. A stack is panes and coatings; it meets each way of filling its
 * gaps, each spacer and each line. */
typedef struct rank_group {
  size_t n_pane, n_pattern, n_gaps, n_spacer;
  rank_pattern *pattern;                /* owned */
  uint64_t n_stack, first_stack, first; /* first: number of its first build-up */
} rank_group;

typedef struct rank_space {
  const pw_rank_catalogue *catalogue;
  const pw_rank_limits *limits;
  size_t n_group;
  rank_group group[PW_PANES_MAX];
  uint64_t n_stack, n_all;
} rank_space;

/* One stack, or one build-up: which pane, coating, gap of the catalogue. */
typedef struct rank_stack {
  const rank_group *group;
  size_t pane[PW_PANES_MAX];
  const rank_pattern *pattern;
  uint64_t first; /* number of its first build-up */
} rank_stack;

pw_status rank_space_init(rank_space *space, const pw_rank_catalogue *catalogue,
                          const pw_rank_limits *limits, pw_err *err);
void rank_space_free(rank_space *space);
void rank_stack_of(const rank_space *space, uint64_t stack, rank_stack *out);
/* Gaps of the g-th way to fill them. */
void rank_gaps_of(const rank_space *space, const rank_group *group, size_t g,
                  size_t gap[PW_PANES_MAX - 1]);
/* The build-up of a number in words of the glazing, and what stands beside it. */
void rank_decode(const rank_space *space, uint64_t number, pw_buildup *glass, size_t *spacer,
                 size_t *line);
void rank_buildup(const rank_space *space, const rank_stack *stack, const size_t gap[],
                  pw_buildup *glass);

/* Sums of a frame line over all openings, by quantity. */
typedef struct rank_line {
  double glass_area, center_area, edge_area; /* m2, bars and all */
  double bars;                               /* m2 of the glass that bars cover */
  double perimeter;                          /* m of glass edge */
  double lite_area;                          /* m2 of the heaviest lite's glass */
  double
      sun[PW_ANGLES]; /* kWh a year on the glass, by angle; times SHGC it is the sun gained */
  struct {
    double ua;                                /* W/K of all but centre and edge */
    double other_sun;                         /* kWh gained through the opaque parts */
    double sun_area;                          /* m2: SHGC times area of the opaque parts */
  } fixed[PW_PANES_MAX + 1][PW_SPACER_COUNT]; /* by panes */
  pw_frame_line const *line[PW_WINDOWS_MAX];  /* by opening, borrowed */
} rank_line;

/* The job's house, made ready. */
typedef struct rank_house {
  const pw_compare *compare;
  const pw_weather *weather;
  const pw_rank_catalogue *catalogue;
  const pw_rank_options *options;
  rank_line *line;               /* [n_line], owned */
  pw_fit *fit;                   /* [line * n_opening + i], owned */
  double n_opening, priced_area; /* of the openings sought for */
  double area, light_now;        /* of them, those of rooms inside the energy of the house */
  double heat_price, cool_price; /* $/kWh of need */
  pw_env cold;                   /* mean of the cold hours, for u_year */
  double years_worth;            /* worth today of $1 of energy a year over the horizon */
  surface model;
  double low[RANK_DIMS], high[RANK_DIMS]; /* W/K, kWh, kWh: what the surface was fitted over */
  size_t n_year;
  double error[2]; /* kWh, rms: heating, cooling */
} rank_house;

/* A glazing as the search needs it. */
typedef struct rank_glass {
  size_t n_pane;
  double u, vt;
  double
      u_year; /* W/(m2 K), at the mean of the cold hours: wide gaps leak less than at rating */
  const double *shgc, *tau_e; /* [PW_ANGLES] */
  double t_inner;             /* K */
  double sound;               /* as in rank_found */
} rank_glass;

typedef struct rank_figures {
  double ua; /* W/K */
  double heating, cooling, bill, life_cost;
  double u, shgc, vt, light_kept;
} rank_figures;

/* Whether the search chooses the window of an opening: it is replaced and names no package or glass of
 * its own. The others stand in the house as the comparison's first package has them. */
int rank_seeks(const rank_house *house, size_t opening);

pw_status rank_house_init(rank_house *house, const rank_space *space, pw_err *err);
void rank_house_free(rank_house *house);

/* The numbers of the surface, with edge of glass U. */
void rank_drive(const rank_house *house, const rank_glass *glass, size_t line, size_t spacer,
                double u_edge, double z[RANK_DIMS]);
void rank_evaluate(const rank_house *house, const rank_glass *glass, size_t line, size_t spacer,
                   double u_edge, double price, rank_figures *out);
double rank_price(const rank_house *house, const rank_space *space, const rank_stack *stack,
                  const size_t gap[], size_t spacer, size_t line);
double rank_weight(const rank_house *house, double glass_thickness, size_t line);

/* A full year of the whole house with this glazing everywhere; heat and sun of the windows scaled. */
typedef struct rank_lived {
  double z[RANK_DIMS];
  double heating, cooling, bill;
} rank_lived;
pw_status rank_live(const rank_house *house, const pw_glazing *glazing, size_t line,
                    size_t spacer, double more_ua, double less_sun, pw_year_workspace *ws,
                    rank_lived *lived, pw_err *err);

/* Fits the surface; needs the lines' sums. */
pw_status rank_train(rank_house *house, const rank_space *space, pw_year_workspace *ws,
                     pw_err *err);

/* Of a unit: inner glass on the design night, K; U at the mean of the cold hours, W/(m2 K). */
pw_status rank_dark(const rank_house *house, const pw_unit *unit, double *t_inner,
                    double *u_year, pw_err *err);

/* 1 when the limits of light and colour hold; *light and *tint tell which does not. */
int rank_light_holds(const pw_rank_limits *limits, const pw_light *light, int *dark,
                     int *tinted);

/* One build-up that met all limits. */
typedef struct rank_found {
  double goal[RANK_GOALS]; /* less is better */
  double sound;            /* Rw + Ctr of the glass in steps of 3 dB; 0 where nobody asked */
  double life_cost, u, shgc, vt;
  uint64_t number;
} rank_found;

typedef struct rank_list {
  rank_found *found; /* owned */
  size_t n, room;
} rank_list;

/* Searches the whole space; best[n_best] by life cost, front exact. */
typedef struct rank_result {
  rank_list best, front;
  pw_rank_counts counts;
  int stopped;
} rank_result;
pw_status rank_search(const rank_house *house, const rank_space *space, size_t n_best,
                      rank_result *out, pw_err *err);

#endif
