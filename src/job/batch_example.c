#include "job/batch_example.h"

#include <stdint.h>
#include <stdio.h>

#define COUNT(table) (sizeof(table) / sizeof(table)[0])

/* SplitMix64 (Steele, Lea, Flood 2014; from memory): row i has its own stream. */
static uint64_t next(uint64_t *state)
{
  uint64_t z = *state += 0x9e3779b97f4a7c15u;
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
  return z ^ (z >> 31);
}

static unsigned pick(uint64_t *state, unsigned n) { return (unsigned)(next(state) >> 33) % n; }

#define ONE_OF(state, table) (table)[pick(state, (unsigned)COUNT(table))]

static const char *const place[] = {"Albuquerque NM",    "Phoenix AZ",    "Denver CO",
                                    "Las Vegas NV",      "Sacramento CA", "Los Angeles CA",
                                    "Tucson AZ",         "Boise ID",      "Fort Worth TX",
                                    "\"33.45,-112.07\"", "Miami FL",      "Minneapolis MN"};
static const char *const facing[] = {"N", "NE", "E", "SE", "S", "SW", "W", "NW"};
static const char *const frame[] = {"aluminium", "aluminium", "aluminium_break", "wood"};
static const char *const old_glass[] = {"3mm clear", "3mm clear", "1/8 in clear",
                                        "3mm clear / 6mm air / 3mm clear", "3mm gray"};
static const char *const tint[] = {"clear", "clear", "clear", "bronze", "gray", "green"};
static const char *const coat[] = {"ag1", "ag1_high", "ag2", "ag3"};
static const char *const spacer[] = {"metal", "stainless", "insulating"};
static const char *const line[] = {"vinyl", "vinyl", "vinyl_slim", "fibreglass"};

/* A size that the operator is made in, eighths of an inch. */
static const struct {
  const char *name;
  unsigned width[2], height[2];
} kind[] = {{"fixed", {24 * 8, 72 * 8}, {24 * 8, 72 * 8}},
            {"slider", {36 * 8, 72 * 8}, {24 * 8, 48 * 8}},
            {"slider", {36 * 8, 72 * 8}, {24 * 8, 48 * 8}},
            {"single_hung", {24 * 8, 44 * 8}, {36 * 8, 72 * 8}},
            {"casement", {20 * 8, 36 * 8}, {30 * 8, 60 * 8}},
            {"flanker", {72 * 8, 120 * 8}, {40 * 8, 60 * 8}},
            {"sliding_door", {70 * 8, 96 * 8}, {78 * 8, 81 * 8}}};

size_t pw_batch_example_header(char text[])
{
  return (size_t)sprintf(
      text, "id,place,facing,operator,width,height,existing_frame,existing_glass,fin_width,"
            "fins_cut,sill_lip,sill_lip_cut,overhang_depth,overhang_gap,screen,glass,spacer,"
            "frame_line,filling,shade_factor\n");
}

static void new_glass(uint64_t *s, char glass[128])
{
  const char *t = ONE_OF(s, tint), *c = ONE_OF(s, coat);
  unsigned mm = 3 + pick(s, 2), argon = pick(s, 2);
  const char *gas = argon ? "argon 90%" : "air";
  switch (pick(s, 8)) {
  case 0:
    snprintf(glass, 128, "%umm %s / 12.7mm %s / %umm clear coat pyr20@3", mm, t, gas, mm);
    break;
  case 1:
    snprintf(glass, 128,
             "3mm %s coat %s@2 / 9.5mm argon 90%% / 3mm clear / 9.5mm argon 90%% / "
             "3mm clear coat ag1@5",
             t, c);
    break;
  default:
    snprintf(glass, 128, "%umm %s coat %s@2 / 12.7mm %s / %umm clear", mm, t, c, gas, mm);
  }
}

/* Inches with eighths, as a tape is read. */
static void tape(unsigned eighths, char text[24])
{
  if (eighths % 8)
    snprintf(text, 24, "%u %u/8", eighths / 8, eighths % 8);
  else
    snprintf(text, 24, "%u", eighths / 8);
}

size_t pw_batch_example(unsigned long i, char text[])
{
  uint64_t s = 0x5eedu + (uint64_t)i * 0x2545f4914f6cdd1du;
  unsigned k = pick(&s, (unsigned)COUNT(kind));
  char width[24], height[24], glass[128];
  tape(kind[k].width[0] + pick(&s, kind[k].width[1] - kind[k].width[0]), width);
  tape(kind[k].height[0] + pick(&s, kind[k].height[1] - kind[k].height[0]), height);
  new_glass(&s, glass);
  unsigned fins = pick(&s, 3), overhang = pick(&s, 3) ? 0 : 12 + 6 * pick(&s, 5);
  unsigned gap = overhang ? 4 + pick(&s, 20) : 0, tenths = pick(&s, 4);
  const char *where = ONE_OF(&s, place), *way = ONE_OF(&s, facing), *old = ONE_OF(&s, frame);
  const char *lite = ONE_OF(&s, old_glass), *edge = ONE_OF(&s, spacer);
  const char *maker = ONE_OF(&s, line), *lip = pick(&s, 2) ? "yes" : "no";
  const char *screen = pick(&s, 2) && k > 0 ? "yes" : "no";
  const char *filling = pick(&s, 4) ? "foam" : "air";
  return (size_t)snprintf(
      text, PW_BATCH_EXAMPLE_MAX,
      "W%lu,%s,%s,%s,%s,%s,%s,%s,%s,%u,9/16,%s,%u in,%u in,%s,%s,%s,%s,%s,0.%u\n", i + 1, where,
      way, kind[k].name, width, height, old, lite, fins ? "1/2" : "0",
      fins ? 2 * (fins - 1) : 0, lip, overhang, gap, screen, glass, edge, maker, filling,
      tenths);
}
