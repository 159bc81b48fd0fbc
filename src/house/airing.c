#include "house/airing.h"

#include <math.h>
#include <string.h>

#include "gen/reference.h"
#include "house/film.h"
#include "house/open_window.h"

#define ROW(name) (&pw_ref_air_airing[pw_ref_air_airing__##name])

enum { WALLS = 4 };

static unsigned hours_of(pw_airing_habit habit)
{
  unsigned hours = 0;
  if (habit == PW_AIRING_ALWAYS) return (1u << 24) - 1;
  if (habit != PW_AIRING_EVENINGS) return 0;
  for (int h = 0; h < 24; h++)
    if (h >= ROW(evening_from)->value || h < ROW(evening_to)->value) hours |= 1u << h;
  return hours;
}

static pw_airing_habit habit_of(pw_airing_habit habit, int cools)
{
  if (habit != PW_AIRING_BLANK) return habit;
  return cools ? PW_AIRING_NEVER : PW_AIRING_ALWAYS;
}

void pw_airing_of(pw_airing_habit habit, double heat_set, double cool_set, pw_airing *airing)
{
  int cools = isfinite(cool_set);
  *airing = (pw_airing){.hours = hours_of(habit_of(habit, cools))};
  if (!airing->hours) return;
  airing->share = ROW(share)->value;
  airing->flow = ROW(scatter)->value;
  airing->down_to_c = heat_set + ROW(over_heat)->value;
  if (cools) airing->down_to_c = fmin(airing->down_to_c, cool_set);
  airing->over_out = ROW(over_out)->value;
  airing->dew_most_c = ROW(dew_most)->value;
  airing->most_changes = ROW(most_changes)->value;
}

const char *pw_airing_name(pw_airing_habit habit, int cools)
{
  static const char *const name[] = {
      [PW_AIRING_NEVER] = "never",
      [PW_AIRING_EVENINGS] = "evenings",
      [PW_AIRING_ALWAYS] = "always",
  };
  return name[habit_of(habit, cools)];
}

/* ---------------------------------------------------------------- one window */

double pw_airing_screen(void) { return ROW(screen)->value; }

static double hinged_share(pw_operator operator_)
{
  switch (operator_) {
  case PW_CASEMENT:
    return ROW(casement)->value;
  case PW_AWNING:
    return ROW(awning)->value;
  case PW_HOPPER:
    return ROW(hopper)->value;
  case PW_JALOUSIE:
    return ROW(jalousie)->value;
  case PW_HINGED_DOOR:
    return ROW(hinged_door)->value;
  default:
    return 0.0; /* it slides, or it is fixed */
  }
}

/* Lites of a sliding or hung window that can be free at once. */
static double slides_free(const pw_lites *l)
{
  char config[PW_LITES_MAX + 1] = "";
  size_t moving = 0;
  for (size_t i = 0; i < l->n_lite; i++) {
    config[i] = l->lite[i].moving ? 'X' : 'O';
    moving += l->lite[i].moving != 0;
  }
  if (moving == 0) return 0.0;
  double share = pw_operator_open_share(l->operator_, config);
  if (share > 0.0) return share * (double)l->n_lite;
  return l->n_lite > moving ? (double)moving : 1.0; /* two that move pass one another */
}

void pw_openable_of(const pw_lites *l, int stuck, pw_openable *out)
{
  *out = (pw_openable){0};
  if (stuck || l->n_lite == 0 || !pw_operator_opens(l->operator_)) return;
  const pw_lite *lite = &l->lite[0];
  for (size_t i = 0; i < l->n_lite && !lite->moving; i++)
    lite = &l->lite[i];
  double hinged = hinged_share(l->operator_), free = hinged > 0.0 ? hinged : slides_free(l);
  if (!(free > 0.0)) return;
  out->area = free * pw_lite_area(lite);
  out->height = lite->height;
}

/* ---------------------------------------------------------------- all of a house */

static double squared(double x) { return x * x; }

/* Air in by one wall and out by the others, a wind from each side alike. */
static double across(const double wall[WALLS], double all)
{
  double sum = 0.0;
  for (int k = 0; k < WALLS; k++)
    if (wall[k] > 0.0 && all > wall[k])
      sum += pw_open_in_series(wall[k], all - wall[k]) / WALLS;
  return sum;
}

void pw_airing_flow_of(const pw_airing_hole hole[], size_t n, double share, double flow,
                       double terrain, pw_airing_flow *out)
{
  double wall[WALLS] = {0}, all = 0.0, height = 0.0;
  for (size_t i = 0; i < n; i++) {
    double turn = fmod(fmod(hole[i].facing_deg + 45.0, 360.0) + 360.0, 360.0);
    wall[(int)(turn / 90.0) % WALLS] += share * hole[i].area;
    all += share * hole[i].area;
    height += share * hole[i].area * hole[i].height;
  }
  *out = (pw_airing_flow){0};
  if (!(all > 0.0)) return;
  height /= all;
  double still = squared(pw_open_gids_phaff(all, height, 0.0, 0.0));
  double one_side = squared(pw_open_gids_phaff(all, height, 1.0, 0.0)) - still;
  double site = film_wind_share(10.0, terrain > 0.0 ? terrain : 0.22); /* of the mast's wind */
  double cd = ROW(cross_cd)->value, dcp = ROW(cross_dcp)->value, cross = across(wall, all);
  double two_sides = squared(pw_open_en_cross(cross, all, height, site, 0.0, cd, dcp));
  *out = (pw_airing_flow){
      .wind = squared(flow) * fmax(one_side, two_sides),
      .stack = squared(flow) * squared(pw_open_en_cross(cross, all, height, 0.0, 1.0, cd, dcp)),
      .still = two_sides > one_side ? 0.0 : squared(flow) * still,
      .cross = two_sides > one_side};
}
