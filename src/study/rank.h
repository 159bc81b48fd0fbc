/* The search: which glass, spacer and frame line from a catalogue is best for a job's house.
 *
 * Every build-up that the catalogue allows is rated in every opening of the job and priced; what it
 * does to the house year comes from a response surface in three numbers, the heat the windows conduct
 * (W/K), the sun they pass and the absorbed sun they hand inward (kWh a year), fitted to full years of build-ups spread over the catalogue. The
 * best are then lived with for a full year each.
 */
#ifndef STUDY_RANK_H
#define STUDY_RANK_H

#include <stdint.h>

#include "money/program.h"
#include "study/compare.h"

enum {
  PW_RANK_PANES = 16,
  PW_RANK_COATINGS = 12,
  PW_RANK_GAPS = 32,
  PW_RANK_LINES = 12,
  PW_RANK_TOP_MAX = 1000
};

/* What the trade offers. Prices in $; areas are of the openings. */
typedef struct pw_rank_catalogue {
  size_t n_pane, n_coating, n_gap, n_spacer, n_line;
  struct {
    pw_buildup_pane pane; /* kind and thickness */
    double per_area;
  } pane[PW_RANK_PANES];
  struct {
    char name[PW_NAME_MAX];
    int outside; /* 1: hard, may also face outdoors or the room; 0: only into a gap */
    double per_area;
  } coating[PW_RANK_COATINGS];
  struct {
    pw_gap gap;
    double per_area;
  } gap[PW_RANK_GAPS];
  struct {
    pw_spacer spacer;
    double per_length; /* a metre of glass edge and gap */
  } spacer[PW_SPACER_COUNT];
  struct {
    char name[PW_NAME_MAX];
    double pocket; /* m, thickest unit it takes */
    double per_opening, per_area;
  } line[PW_RANK_LINES];
} pw_rank_catalogue;

/* What a build-up must keep to; 0 or NULL where there is no such limit. */
typedef struct pw_rank_limits {
  size_t panes_min, panes_max; /* 0: 1 and 3 */
  size_t coatings_max;         /* a unit; 0 means 2; at most one faces a gap */
  int no_coating;              /* 1: none */
  int gaps_differ;             /* 1: the gaps of a unit need not be alike */
  double sash_weight; /* kg of glass in the heaviest moving lite, or fixed lite if none moves */
  double light_least; /* visible transmittance of the glass */
  double tint_most;   /* distance of its colour from white, CIE 1976 u'v' */
  double sound_least; /* Rw + Ctr of the glass, dB, set safe */
  const pw_program *program; /* on computed values, rounded as a label is */
  const char *zone;
  pw_date date;
} pw_rank_limits;

typedef struct pw_rank_options {
  pw_rank_limits limits;
  pw_year_method method;
  size_t n_top; /* 0 means 10 */
  int n_thread; /* 0 means 1 */
  int sound;    /* 1: the objective is quiet, in steps of 3 dB; within one the life cost */
  int no_years; /* 1: leave out the full years of the best (their figures are the surface's) */
  /* Now and then, from the calling thread; a return other than 0 ends the search early. */
  int (*progress)(void *context, size_t done, size_t all);
  void *context;
} pw_rank_options;

/* One build-up in the house. */
typedef struct pw_rank_choice {
  pw_buildup glass;
  size_t line, spacer;             /* of the catalogue */
  uint64_t number;                 /* its place in the enumeration, decides ties */
  double price;                    /* $ installed, all openings */
  double heating_kwh, cooling_kwh; /* need of the house, a year */
  double bill_year, life_cost;     /* $; price and bills of the horizon at the job's discount */
  double u, shgc, vt;              /* over all openings */
  double light_kept;               /* share of the existing windows' light */
  double t_inner;                  /* K, inner glass on the design night: comfort */
  double sash_weight;              /* kg */
  double rw, c, ctr, stc, oitc;    /* dB, of its glass alone, set safe */
  double sound_step; /* Rw + Ctr in steps of 3 dB where quiet is the objective, else 0 */
  int from_year;     /* 1: heating, cooling, bill and life cost by its own full year */
  double surface_heating_kwh, surface_cooling_kwh, surface_life_cost; /* what the search had */
} pw_rank_choice;

typedef struct pw_rank_counts {
  uint64_t all; /* build-ups, spacers and lines of the catalogue */
  uint64_t thickness, weight, light, tint, sound,
      program; /* left out by a limit, each at the first met */
  uint64_t ranked;
  uint64_t light_solves, heat_solves,
      sun_solves; /* done; what one thread solved another may solve again */
} pw_rank_counts;

typedef struct pw_rank {
  size_t n_top, n_front;
  pw_rank_choice *top; /* by life cost (or quiet, then life cost), the full year's where it was
                            run; owned */
  pw_rank_choice *front; /* Pareto set over price, heating, cooling, light and comfort; owned */
  pw_rank_counts counts;
  size_t n_year;                               /* years that the surface was fitted to */
  double heating_error_kwh, cooling_error_kwh; /* rms, each year left out of its fit */
  int sound;                                   /* 1: quiet was the objective */
  int stopped; /* 1: ended early; what was known by then is there */
} pw_rank;

/* Searches.
 *
 * Given     compare (finished, of the job), weather of it, catalogue; options may be NULL
 * Returned  *rank, to be freed by pw_rank_free; the same for any number of threads
 * Status    PW_OK (also when nothing meets the limits: n_top is 0); PW_E_DATA an unknown frame line or
 *           pane (named); PW_E_SHAPE more than 2^40 build-ups; what fit, rating and year refuse
 * Notes     1) A single pane has no spacer: it is counted once.
 *           2) Life cost: price + sum over the horizon of bill (1 + escalation)^k /
 *              (1 + discount)^k. In the search energy has the mean price of the existing bill, which
 *              is exact for flat prices; the full years have the tariff's.
 *           3) Frame values are the catalogue's (no sections); foam behind the insert.
 */
pw_status pw_rank_run(const pw_compare *compare, const pw_weather *weather,
                      const pw_rank_catalogue *catalogue, const pw_rank_options *options,
                      pw_rank *rank, pw_err *err);
void pw_rank_free(pw_rank *rank);

#endif
