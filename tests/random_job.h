/* A job of chance, written as a folder: openings, packages, house. For tests/test_random_jobs.c and test_tight_jobs.c. */
#ifndef TESTS_RANDOM_JOB_H
#define TESTS_RANDOM_JOB_H

#include "base/random.h"
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { OPENINGS = 5, PACKAGES = 4, LINE = 640 };

static uint64_t seed = 20261128;

static double chance(void) { return pw_random_share(&seed); }

static int below(int n) { return (int)(chance() * n); }

#define PICK(list) (list)[below((int)(sizeof(list) / sizeof((list)[0])))]

typedef struct draft {
  int drawn, in_unit, n_opening, n_package;
  char opening[OPENINGS][LINE], package[PACKAGES][LINE], job[900];
  char own[OPENINGS][LINE];  /* action, phase, package, glass, conditioned */
  char over[OPENINGS][LINE]; /* grilles, grille_pattern, grille_bar, tint, colour, tempered */
} draft;

/* 35 7/16 */
static void inches(double v, char to[24])
{
  int sixteenths = (int)lround(v * 16.0), whole = sixteenths / 16, rest = sixteenths % 16;
  if (rest)
    snprintf(to, 24, "%d %d/16", whole, rest);
  else
    snprintf(to, 24, "%d", whole);
}

/* An outline of chance in w x h: its cells shape, rise, leg_left, leg_right, peak_at, and the height that is
 * read for it. */
static void draft_shape(double w, double h, char cells[160], char height[24])
{
  static const char *const name[] = {"half_round", "quarter_round", "arch",      "circle",
                                     "octagon",    "triangle",      "trapezoid", "gothic"};
  enum { HALF, QUARTER, ARCH, CIRCLE, OCTAGON, TRIANGLE, TRAPEZOID, GOTHIC };
  int which = below(8);
  char rise[24] = "", left[24] = "", right[24] = "";
  inches(w, height);
  if (which == HALF) inches(0.5 * w + below(20), height);
  if (which == ARCH) inches(4.0 + 0.25 * w * chance(), rise);
  if (which == GOTHIC) inches(0.5 * w + 1.0, rise);
  if (which == TRIANGLE) inches(h, height);
  if (which == TRAPEZOID) {
    inches(8.0 + 30.0 * chance(), left);
    inches(8.0 + 30.0 * chance(), right);
    height[0] = '\0';
  }
  snprintf(cells, 160, "%s,%s,%s,%s,%s", name[which], rise, left, right,
           which == QUARTER ? "0" : "");
}

static void draft_opening(draft *d, int i)
{
  static const char *const facing[] = {"N", "NE", "E", "SE", "S", "SW", "W", "NW", "200"};
  static const char *const kind[] = {
      "fixed,",    "slider,XO",  "slider,OX", "single_hung,",      "double_hung,",
      "casement,", "slider,XOX", "hopper,",   "sliding_door,OXXO", "sliding_door,XO"};
  static const char *const joint[] = {"beside", "over"};
  static const char *const frame[] = {"aluminium", "aluminium", "aluminium_break", "wood"};
  static const char *const old[] = {"3mm clear", "1/8 in clear", "6mm bronze",
                                    "3mm clear / 6.4mm air / 3mm clear"};
  double w = 24.0 + below(50 * 16) / 16.0, h = 24.0 + below(40 * 16) / 16.0;
  double cross = sqrt(w * w + h * h);
  char t[8][24];
  for (int k = 0; k < 3; k++) {
    inches(w + below(2) / 16.0, t[k]);
    inches(h + below(2) / 16.0, t[3 + k]);
  }
  inches(cross, t[6]);
  inches(cross + below(2) / 16.0, t[7]);
  char shape[160] = ",,,,", unit[24] = ",,", kind_of[32];
  snprintf(kind_of, sizeof kind_of, "%s", d->drawn ? "slider,XO" : PICK(kind));
  int fins = below(2), times = 1 + below(3), lip = 1;
  if (!d->drawn && below(4) == 0) { /* no rectangle */
    draft_shape(w, h, shape, t[4]);
    snprintf(kind_of, sizeof kind_of, "fixed,");
    t[1][0] = t[2][0] = t[3][0] = t[5][0] = t[6][0] = t[7][0] = '\0';
    fins = lip = 0;
  }
  if (!d->drawn && d->in_unit) { /* all are one opening in the wall */
    snprintf(unit, sizeof unit, "U,%s,%s", i == 0 ? "" : PICK(joint), i == 0 ? "" : "2 1/2");
    times = 2;
  }
  const char *existing = d->drawn ? "aluminium" : PICK(frame);
  snprintf(d->opening[i], LINE,
           "Q%d,Room %d,%d,%s,%s,%s,%s,%s,%s,%s,%s,%s,%s,%s,%s,%s,%d,%s,%s,%d in,%d in,30 "
           "in,living%s,%s,%s",
           i + 1, i + 1, times, PICK(facing), kind_of, t[0], t[1], t[2], t[3], t[4], t[5], t[6],
           t[7], existing, d->drawn ? "3mm clear" : PICK(old), fins ? "1/2" : "0", 0,
           lip ? "9/16" : "0", lip && below(2) ? "yes" : "no", 10 * below(4), 5 + below(20),
           d->drawn ? ",examples/sections/old_jamb.csv" : ",", shape, unit);
}

static void draft_package(draft *d, int p)
{
  static const char *const name[PACKAGES] = {"plain", "hard coat", "two silvers", "tint"};
  static const char *const glass[] = {"3mm clear / 12.7mm air / 3mm clear",
                                      "3mm clear / 12.7mm air / 3mm clear coat pyr20@3",
                                      "3mm clear coat ag2@2 / 12.7mm argon 90% / 3mm clear",
                                      "3mm clear coat ag3@2 / 12.7mm argon 90% / 3mm clear",
                                      "4mm bronze / 12mm air / 4mm clear",
                                      "3mm clear coat ag1@2 / 9mm krypton 90% / 3mm clear"};
  static const char *const spacer[] = {"metal", "stainless", "insulating"};
  static const char *const line[] = {"vinyl", "vinyl_slim", "fibreglass", "aluminium_break"};
  static const char *const filling[] = {"foam", "none"};
  snprintf(d->package[p], LINE, "%s,%s,%s,%s,$%d,%d $/ft2,%s", name[p],
           d->drawn ? glass[below(4)] : PICK(glass), PICK(spacer),
           d->drawn ? "drawn" : PICK(line), 200 + below(300), 15 + below(30),
           d->drawn ? "foam" : PICK(filling));
}

static void draft_job(draft *d)
{
  static const char *const place[] = {"Albuquerque", "Phoenix",    "San Francisco",
                                      "Minneapolis", "Sacramento", "Miami"};
  static const char *const heating[] = {"furnace", "boiler", "heat_pump", "none"};
  static const char *const cooling[] = {"central", "central", "none"};
  const char *heat = PICK(heating), *cool = PICK(cooling);
  int n = snprintf(
      d->job, sizeof d->job,
      "item,value,note\njob,Of chance,\nclimate,%s,\nstate,NM,\nyear_built,%d,\nstoreys,%d,\n"
      "floor_area,%d ft2,\nheating,%s,\ncooling,%s,\nheat_set,%d F,\ncool_set,%d F,\n"
      "install_date,2027-03-14,\nelevation,%d ft,\n",
      PICK(place), 1945 + below(60), 1 + below(2), 1400 + below(1500), heat, cool,
      65 + below(6), 75 + below(5), below(5000));
  if (below(2))
    n += snprintf(d->job + n, sizeof d->job - (size_t)n, "price_gas,1.%02d $/therm,\n",
                  below(90));
  if (below(3) == 0)
    snprintf(d->job + n, sizeof d->job - (size_t)n, "bill_year,$%d,\n", 500 + below(3000));
}

/* What one in three jobs has beside its measures, by number and not by chance, so that the other jobs stay
 * as they are. */
static void draft_own(draft *d, int i)
{
  static const char *const action[] = {"replace", "keep", "", "replace", "replace"};
  static const char *const phase[] = {"", "2", "1", "3", ""};
  static const char *const glass[] = {"", "", "4mm clear / 10mm argon 90% / 4mm clear", "", ""};
  static const char *const inside[] = {"", "yes", "", "", "no", "yes", "yes"};
  for (int k = 0; k < d->n_opening; k++) {
    int of = i / 3 + 2 * k;
    snprintf(d->own[k], LINE, ",,,,");
    if (i % 3 != 1) continue;
    snprintf(d->own[k], LINE, "%s,%s,%s,%s,%s", action[of % 5], phase[(of + k) % 5],
             (of / 5) % 4 == 1 ? "plain" : "", d->drawn ? "" : glass[(of / 2) % 5],
             inside[of % 7]);
  }
}

/* What another third has over the package, by number, too. Bars where the lites are rectangles for certain. */
static void draft_over(draft *d, int i)
{
  static const char *const bars[] = {"between,3x2,3/4 in", "outside,2x3,",
                                     "between,1x4,5/8 in"};
  static const char *const tint[] = {"", "bronze", "gray", "", "green"};
  static const char *const colour[] = {"black", "", "white", "tan"};
  for (int k = 0; k < d->n_opening; k++) {
    int of = i / 3 + k, slides = strstr(d->opening[k], ",slider,") != NULL;
    snprintf(d->over[k], LINE, ",,,,,");
    if (i % 3 != 2) continue;
    snprintf(d->over[k], LINE, "%s,%s,%s,%s", slides ? bars[of % 3] : ",,", tint[of % 5],
             colour[of % 4], of % 2 ? "yes" : "rule");
  }
}

static void draft_of(int i, draft *d)
{
  memset(d, 0, sizeof *d);
  d->drawn = i % 10 == 9;
  d->in_unit = i % 7 == 3;
  d->n_opening = 1 + below(d->drawn ? 2 : OPENINGS);
  d->n_package = 1 + below(d->drawn ? 2 : PACKAGES);
  for (int k = 0; k < d->n_opening; k++)
    draft_opening(d, k);
  for (int k = 0; k < d->n_package; k++)
    draft_package(d, k);
  draft_own(d, i);
  draft_over(d, i);
  draft_job(d);
}

static FILE *create(const char *dir, const char *name)
{
  char path[300];
  snprintf(path, sizeof path, "%s/%s", dir, name);
  FILE *f = fopen(path, "w");
  assert_non_null(f);
  return f;
}

/* turn: rotates the rows. */
static void write_job(const draft *d, const char *dir, int turn)
{
  FILE *f = create(dir, "openings.csv");
  fputs("tag,room,quantity,facing,operator,config,width_bottom,width_middle,width_top,height_"
        "left,"
        "height_middle,height_right,diagonal_1,diagonal_2,existing_frame,existing_glass,fin_"
        "width,"
        "fins_cut,sill_lip,sill_lip_cut,overhang_depth,overhang_gap,sill_height,use,existing_"
        "section,shape,rise,leg_left,leg_right,peak_at,unit,unit_joint,mullion_face,action,"
        "phase,package,glass,conditioned,grilles,grille_pattern,grille_bar,tint,"
        "colour,tempered\n",
        f);
  for (int k = 0; k < d->n_opening; k++)
    fprintf(f, "%s,%s,%s\n", d->opening[(k + turn) % d->n_opening],
            d->own[(k + turn) % d->n_opening], d->over[(k + turn) % d->n_opening]);
  fclose(f);
  f = create(dir, "packages.csv");
  fputs("package,glass,spacer,frame_line,price_per_opening,price_per_area,filling\n", f);
  for (int k = 0; k < d->n_package; k++)
    fprintf(f, "%s\n", d->package[(k + turn) % d->n_package]);
  fclose(f);
  f = create(dir, "job.csv");
  fputs(d->job, f);
  fclose(f);
  if (!d->drawn) return;
  f = create(dir, "frame_lines.csv");
  fputs("frame_line,kind,operator,frame_face,sash_face,meeting_face,section_sill,section_head,"
        "section_jamb,"
        "section_meeting,sections_hold_ring\ndrawn,vinyl,any,2 3/4,2 3/4,1 "
        "3/4,examples/sections/both_sill_cut_foam.csv,"
        "examples/sections/both_head_fins_foam.csv,examples/sections/both_jamb_cut_foam.csv,"
        "examples/sections/insert_meeting.csv,yes\n",
        f);
  fclose(f);
}

#endif
