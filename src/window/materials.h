/* What an insert window takes beside itself, and what the job's windows take together: sealant, rod, foam, trim, caulk,
 * shims, screws, tape; the weight of the unit and the hands it wants.
 *
 * An amount of an opening is rounded up once, here, to a step of the trade (lengths to the inch, sealant and caulk to
 * 0.1 fl oz, foam to the cubic inch), so that the job is the sum of what is said of each opening.
 */
#ifndef WINDOW_MATERIALS_H
#define WINDOW_MATERIALS_H

#include <stddef.h>

#include "panewright/fit.h"
#include "panewright/lites.h"
#include "panewright/survey.h"
#include "window/cut_stock.h"
#include "window/install.h"

enum { PW_TRIM_MAX = 12, PW_SHIMS_MAX = 24 };

typedef struct pw_trim {
  int side;      /* PW_LEFT .. PW_TOP of lites.h */
  double length; /* m, to cut: the side and its scribe allowance */
} pw_trim;

/* One unit of an opening. */
typedef struct pw_materials {
  double seal_length, seal_width, seal_depth, seal_class; /* m, m, m, joint B of install.h */
  double seal_volume;                                     /* m3, without waste */
  double stucco_length, stucco_width, stucco_depth,
      stucco_volume;              /* joint A, if all of it is renewed */
  double rod, rod_length;         /* m, diameter sold; m */
  double foam_volume, foam_depth; /* m3, m; 0 where the package leaves air behind the insert */
  size_t n_trim;
  pw_trim trim[PW_TRIM_MAX]; /* straight pieces inside; a door has none at its sill */
  double trim_curved;        /* m, of a shape: bent to the template */
  double caulk_length, caulk_leg,
      caulk_volume; /* m, m, m3: both edges of the trim, without waste */
  size_t n_shim[4];
  double shim
      [4]
      [PW_SHIMS_MAX]; /* m from the lower or left end of the unit's side, places rising; none at the top */
  int shims_low, shims, shims_high;
  int screws_low, screws_high;
  double tape;                      /* m, both edges of the outside joint, without waste */
  double glass_mass;                /* kg */
  double mass_low, mass, mass_high; /* kg, whole unit */
  int people;                       /* who carry it: by mass_high */
} pw_materials;

/* Given     opening; its fit and install plan; package: as the opening gets it; kind of its frame
 * Returned  *materials
 * Notes     1) Trim stands inside, along the opening's sides: a side of the opening rectangle and MA8.
 *           2) Shims: MA13 from each corner, under meeting stiles, at meeting rails and at half the height of a window
 *              that opens (its lock or hinge), and so many between that none is farther from the next than W3.
 *           3) Of a shape: legs and base by their lengths; foam by the gap all round.
 *           4) Joint A counts round the opening, whether it is renewed or not.
 * Source    reference/trade/materials.csv MA1..MA23 and measure.csv F11, S3, S4, W3. */
void pw_materials_of(const pw_opening *opening, const pw_fit *fit, const pw_install *install,
                     const pw_package *package, pw_frame_kind kind, pw_materials *materials);

/* Places along a side: e from both ends, at fixed[n_fixed] (m from the same end, rising), and evenly between so that no
 * two neighbours are farther apart than spacing. A side shorter than 2 e has one in the middle. Returns how many. */
size_t pw_shim_places(double side, double e, double spacing, const double fixed[],
                      size_t n_fixed, double place[PW_SHIMS_MAX]);

enum { PW_JOINTS_MAX = 64, PW_RODS_MAX = 16, PW_STOCKS = 3 };

typedef struct pw_joint_sum {
  double width, depth, class_; /* m, m, as pw_install */
  double length, volume;       /* m, m3, without waste */
} pw_joint_sum;

/* A straight piece of trim of the job. */
typedef struct pw_trim_piece {
  size_t opening; /* index in the job */
  int side;
  double length; /* m */
  int steps;     /* the same in 1/16 in, up */
} pw_trim_piece;

typedef struct pw_trim_stock {
  double length; /* m, of the stock */
  int fits;      /* 1: every piece can be cut from it */
  pw_cut_plan plan;
} pw_trim_stock;

/* The job: every unit of every opening that gets its insert now. */
typedef struct pw_materials_job {
  size_t n_opening, n_unit;
  pw_materials *opening; /* [n_opening], owned; zero where nothing is set */
  int *units;            /* [n_opening], owned: 0 where nothing is set */
  size_t n_joint;
  pw_joint_sum joint[PW_JOINTS_MAX]; /* rising width, depth, class */
  double seal_class, seal_length; /* the highest that a joint wants: one product for all; m */
  double seal_volume, seal_cartridges; /* m3; with waste */
  double stucco_length, stucco_width, stucco_depth, stucco_volume, stucco_cartridges;
  size_t n_rod;
  double rod[PW_RODS_MAX], rod_length[PW_RODS_MAX]; /* m, m; rising; without waste */
  double foam_volume, foam_cans;
  size_t n_piece, n_long;
  pw_trim_piece *
      piece; /* [n_piece], owned, in the order of openings, units, sides; n_long more than the longest
                           stock, which are ordered by their length, stand last */
  size_t *stock_of;                /* [n_piece - n_long], owned: of the stock chosen */
  pw_trim_stock stock[PW_STOCKS];  /* 8, 12, 16 ft */
  size_t stock_chosen;             /* least bought in all, of equal ones the longer */
  double trim_length, trim_curved; /* m */
  double caulk_length, caulk_leg, caulk_volume, caulk_cartridges;
  int shims_low, shims, shims_high, screws_low, screws_high;
  double tape, tape_rolls;
  size_t heaviest; /* opening; n_opening where nothing is set */
} pw_materials_job;

/* Given     job; column, a row of packages.csv; fit, install [job->n_opening]
 * Returned  *sum  to be freed by pw_materials_free; openings that stay or are done take nothing
 * Status    PW_OK; PW_E_NOMEM; PW_E_DOMAIN more than PW_MATERIALS_UNITS units */
enum { PW_MATERIALS_UNITS = 5000 };
pw_status pw_materials_of_job(const pw_job *job, size_t column, const pw_fit fit[],
                              const pw_install install[], pw_materials_job *sum, pw_err *err);
void pw_materials_free(pw_materials_job *sum);

/* Cartridges and cans that a volume of sealant or foam takes, waste counted (MA1, MA2; MA6, MA7). */
double pw_materials_cartridges(double volume);
double pw_materials_cans(double volume);

/* What a cut of the saw takes, m (MA10). */
double pw_materials_kerf(void);

/* Whole cartridges, cans, rolls of a number that was computed: up, a hair of rounding noise forgiven. */
double pw_materials_whole(double number);

#endif
