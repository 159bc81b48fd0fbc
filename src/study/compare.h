/* The main job: every opening fitted and rated, the house lived in for a year, once with the windows
 * that are there and once with each package; then the bill. Four stages, each with a struct of its own that
 * it alone writes; it is given the earlier ones to read and sees none of the later. The whole chain is four
 * calls in src/study/compare.c. */
#ifndef STUDY_COMPARE_H
#define STUDY_COMPARE_H

#include "house/duct.h"
#include "house/leakage.h"
#include "money/price.h"
#include "money/tariff.h"
#include "money/worth.h"
#include "panewright/bill.h"
#include "panewright/fit.h"
#include "panewright/house_facts.h"
#include "panewright/rating.h"
#include "panewright/year.h"
#include "study/code_limit.h"
#include "study/code_minimum.h"
#include "study/frames.h"
#include "window/caution.h"
#include "window/moisture.h"

enum { PW_COMPARE_PACKAGES_MAX = 8 };

/* One window in one opening. */
typedef struct pw_compare_window {
  pw_rating rating;
  pw_sweat sweat;    /* on the design night */
  double glass_kept; /* share of the existing glass area; 1 for the existing window */
  double light_kept; /* share of existing glass area x VT of the glass */
} pw_compare_window;

/* A set of windows for the whole house is told by three structs, one a stage. This one's sums are of all
 * openings by quantity, those that stay and those of unconditioned rooms included; the others leave the last out. */
typedef struct pw_rated_set {
  char name[48];
  pw_parts areas, ua;            /* m2, W/K */
  pw_parts ua_old;               /* W/K, of it: old windows, which in a package's set stay */
  double sun_old;                /* share of SHGC x area that is theirs, 0..1 */
  double area, glass_area;       /* m2 */
  double u, shgc, vt;            /* over all openings */
  double glass_kept, light_kept; /* shares of the existing */
  double sweat_rh;      /* room humidity, 0..1, at which the first part of any window sweats */
  size_t sweat_opening; /* which */
  double open_area;     /* m2 that its windows, of rooms inside the energy, can open at once */
} pw_rated_set;

typedef struct pw_lived_set {
  pw_year_result year; /* window[i] is opening i */
  pw_needs needs;
  int joints_known;    /* 1: the label tells the air through the joints */
  pw_leak_year joints; /* of it: counted apart, in no saving */
} pw_lived_set;

typedef struct pw_billed_set {
  pw_bill bill;
  pw_saving saving;         /* against the existing windows */
  pw_saving saving_minimum; /* against new windows that just meet the model code */
  double price;             /* $ installed; 0 when the job gives none */
  pw_price parts;           /* what it is made of, and its spread */
  pw_invest invest;         /* what the worth is of; only when price is above 0 */
  pw_worth worth;
} pw_billed_set;

typedef struct pw_compare_options {
  pw_year_method method;
  double t_design_out; /* K, night on which sweating is judged; 0: the 1st percentile of the
                               year's hours */
  double incentive[PW_COMPARE_PACKAGES_MAX]; /* $ of rebates, taken off the price */
  const pw_tariff *const *tariff;            /* [PW_FUEL_COUNT] or NULL: flat prices */
  const pw_named_section
      *section; /* [n_section] frame sections the job names (job/sections.h) */
  size_t n_section;
  pw_code_place code_place; /* zeroed: not known, and the zone by degree-days */
  int lanes;                /* sets lived in side by side: 1, 2, 4, 8; 0: what is soonest */
} pw_compare_options;

/* Glass built, openings fitted. Reads the job. Arrays of every stage are its own to free; once made they are
 * read only. Rows [p][i] are of packages, of one block that starts at [0]. */
typedef struct pw_compare_fitted {
  const pw_glazing *existing_glass;  /* [n_opening] */
  size_t n_glass;                    /* the packages', then what openings have of their own */
  const pw_glazing *package_glass;   /* [n_glass] */
  const pw_buildup *package_buildup; /* [n_glass] what they are of */
  const size_t *glass_at[PW_COMPARE_PACKAGES_MAX]; /* [p][i] which of them */
  const pw_fit *fit[PW_COMPARE_PACKAGES_MAX];      /* [p][i] */
  pw_cautions cautions;                            /* of the first package's fits */
} pw_compare_fitted;

/* Both windows of every opening and what the code asks of new ones. Reads the fitted. */
typedef struct pw_compare_rated {
  double t_in, t_design_out; /* K */
  pw_frame_book frames;      /* sections solved */
  /* [n_opening], of one done in an earlier phase its insert; [p][i], where it stays the existing */
  const pw_compare_window *existing, *package[PW_COMPARE_PACKAGES_MAX];
  pw_code_place code_place; /* with the area that gets new windows */
  pw_code_limits code;      /* in force there */
  pw_code_minimum minimum;
  size_t minimum_size; /* the package of whose sizes its windows are: that of the least glass */
  pw_glazing minimum_glass;
  pw_rated_set existing_set, minimum_set;
  pw_rated_set package_set[PW_COMPARE_PACKAGES_MAX];
} pw_compare_rated;

/* The house and its year with each set of windows. Reads the fitted and the rated. */
typedef struct pw_compare_lived {
  pw_house house;
  const float *air_shape; /* [PW_HOURS], where the house's infiltration goes by the hour */
  pw_duct_season duct[2]; /* heating, cooling; where the job says where its ducts lie */
  int covered;            /* 1: an opening has drapes or blinds that are counted */
  pw_house_notes house_notes;
  /* [set][2][PW_HOURS] W of heating, cooling: existing, the code's, packages; NULL where no fuel has a tariff or
   * the method no hours */
  const float *hours;
  pw_lived_set existing_set, minimum_set;
  pw_lived_set package_set[PW_COMPARE_PACKAGES_MAX];
} pw_compare_lived;

/* What the years cost and save, and the windows' price. Reads the rated and the lived. */
typedef struct pw_compare_billed {
  pw_rates rates;
  pw_given residual_life; /* years that the windows there now have left, by kind and age */
  pw_billed_set existing_set, minimum_set;
  pw_billed_set package_set[PW_COMPARE_PACKAGES_MAX];
} pw_compare_billed;

typedef struct pw_compare {
  const pw_job *job;           /* borrowed; what every stage reads */
  size_t n_opening, n_package; /* of it */
  pw_compare_fitted fitted;
  pw_compare_rated rated;
  pw_compare_lived lived;
  pw_compare_billed billed;
} pw_compare;

/* Runs the whole chain.
 *
 * Given     job (must outlive *out), weather, options (NULL: all default), workspace of the year
 *           (NULL: one for this call)
 * Returned  *out, to be freed by pw_compare_free
 * Status    PW_OK; PW_E_SHAPE no opening or package, or too many; what the steps refuse, with the
 *           tag of the opening or the name of the package in the message. On failure *out is zeroed.
 * Notes     1) Existing and insert are rated over the same opening rectangle (fit.h).
 *           2) The windows that just meet the code have the glass area of the package that leaves the least, the code's U over
 *              the opening and, where it sets one, its SHGC; light as of a common low-e unit.
 *           3) Air leakage is the same in every set: tightening is not claimed.
 */
pw_status pw_compare_run(const pw_job *job, const pw_weather *weather,
                         const pw_compare_options *options, pw_year_workspace *workspace,
                         pw_compare *out, pw_err *err);
void pw_compare_free(pw_compare *compare);

/* A set by number, a package or one of these; borrowed of the comparison. */
enum { PW_SET_MINIMUM = -2, PW_SET_EXISTING = -1 };
typedef struct pw_compare_set {
  const pw_rated_set *rated;
  const pw_lived_set *lived;
  const pw_billed_set *billed;
} pw_compare_set;
pw_compare_set pw_compare_set_of(const pw_compare *compare, int set);

/* Whether windows of an earlier phase stand there. Then the bill that the job gives is not of the existing
 * set but of the house before any phase. */
int pw_compare_is_later(const pw_job *job);

/* What the house that the job's bill is of costs as computed, $ a year. */
double pw_compare_cost_of_bill(const pw_compare *compare);

/* Sweating of a rated window. */
pw_status pw_compare_sweat(const pw_glazing *glazing, double t_in, double t_out,
                           pw_compare_window *window, pw_err *err);
double pw_compare_first_to_sweat(const pw_sweat *sweat);

/* The windows as the house year takes them, one an opening: of the existing set (package below 0)
 * or of a package. Returns the count. */
size_t pw_compare_windows(const pw_job *job, const pw_compare_fitted *fitted,
                          const pw_compare_rated *rated, int package, pw_house_window window[]);

/* What one choice at the measure or the order does, over the same openings: never judge by frame U,
 * which rises when a frame gets narrower though its heat falls. */
typedef struct pw_compare_choice {
  pw_message_number says;
  double ua;         /* W/K of all openings */
  double glass_area; /* m2 */
} pw_compare_choice;

enum { PW_COMPARE_CHOICES = 8 };

/* A package with one thing changed at a time: fins left or cut, lip left or cut (where there are
 * any), foam or air behind the insert, the three spacers. Returns the count. Rated as the packages
 * are, by drawn sections where there are any; what every drawing fixes (spacer, filling, and fins and
 * lip where it holds the ring) is left out. PW_OK or as the ratings. */
pw_status pw_compare_choices(const pw_compare *compare, size_t package,
                             pw_compare_choice choice[PW_COMPARE_CHOICES], size_t *n,
                             pw_err *err);

/* Whether the packages replace the window of an opening; else it is the existing one in every set. */
int pw_compare_replaces(const pw_job *job, size_t opening);
size_t pw_compare_n_replaced(const pw_job *job); /* rows */

/* The first opening that is replaced, 0 where none is: whose figures stand as an example. */
size_t pw_compare_first(const pw_job *job);

/* Whether what stands in an opening in a set is the old window of the job, no insert. */
int pw_compare_is_old(const pw_job *job, int package, size_t opening);

/* Whether it is an old one whose sashes are painted or rusted shut. */
int pw_compare_is_stuck(const pw_job *job, int package, size_t opening);

/* What stands open in a set when the house's windows do: the coefficients of its flow. */
pw_status pw_compare_open_flow(const pw_compare *compare, int package, pw_airing_flow *flow,
                               pw_err *err);

/* Glass, lites and figures of the window that stands in an opening: of the existing set (package below 0)
 * or of a package, with what the opening has of its own. */
const pw_glazing *pw_compare_glass(const pw_job *job, const pw_compare_fitted *fitted,
                                   int package, size_t opening);
const pw_lites *pw_compare_lites(const pw_job *job, const pw_compare_fitted *fitted,
                                 int package, size_t opening);
const pw_compare_window *pw_compare_window_of(const pw_compare_rated *rated, int package,
                                              size_t opening);
const pw_rating *pw_compare_rating(const pw_compare_rated *rated, int package, size_t opening);

#endif
