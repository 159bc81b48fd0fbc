#include "climate/code_zone.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/ascii.h"
#include "base/nearest.h"
#include "climate/place_impl.h"
#include "gen/reference.h"

enum { PLAIN = 40 };

const char *place_zone_name(int zone)
{
  static const char *const name[] = {"",   "1A", "2A", "2B", "3A", "3B", "3C", "4A",
                                     "4B", "4C", "5A", "5B", "6A", "6B", "7",  "8"};
  return zone >= 0 && zone < (int)(sizeof name / sizeof name[0]) ? name[zone] : "";
}

/* Letters in capitals, all else one blank. */
static void plain(const char *text, char out[PLAIN])
{
  size_t n = 0;
  for (; *text && n + 1 < PLAIN; text++) {
    if (pw_is_alnum(*text))
      out[n++] = pw_upper(*text);
    else if (n && out[n - 1] != ' ')
      out[n++] = ' ';
  }
  while (n && out[n - 1] == ' ')
    n--;
  out[n] = '\0';
}

/* What stands behind a word and a blank, or NULL. */
static const char *behind(const char *text, const char *word)
{
  size_t n = strlen(word);
  return strncmp(text, word, n) == 0 && text[n] == ' ' ? text + n + 1 : NULL;
}

static int is_number(const char *text, int low, int high, int *number)
{
  size_t n = strspn(text, "0123456789");
  if (n == 0 || n > 2 || text[n]) return 0;
  *number = atoi(text);
  return *number >= low && *number <= high;
}

static int is_california(const char *text, int *zone)
{
  const char *rest = behind(text, "CA");
  if (!rest) rest = behind(text, "CALIFORNIA");
  if (rest && behind(rest, "CLIMATE")) rest = behind(rest, "CLIMATE");
  if (rest && behind(rest, "ZONE")) rest = behind(rest, "ZONE");
  return rest && is_number(rest, 1, 16, zone);
}

static int is_zone(const char *text, char zone[4])
{
  if (behind(text, "CLIMATE")) text = behind(text, "CLIMATE");
  if (behind(text, "ZONE")) text = behind(text, "ZONE");
  size_t n = strlen(text);
  if (!(n == 1 || n == 2) || text[0] < '1' || text[0] > '8') return 0;
  if (n == 2 && !strchr("ABC", text[1])) return 0;
  memcpy(zone, text, n + 1);
  return 1;
}

/* The county's name without the word that all of its state's have behind it. */
static void county_name(const char *text, char out[PLAIN])
{
  static const char *const kind[] = {" COUNTY", " PARISH", " BOROUGH", " CENSUS AREA",
                                     " MUNICIPALITY"};
  plain(text, out);
  size_t n = strlen(out);
  for (size_t i = 0; i < sizeof kind / sizeof kind[0]; i++) {
    size_t k = strlen(kind[i]);
    if (n > k && strcmp(out + n - k, kind[i]) == 0) out[n - k] = '\0';
  }
}

static pw_status take_county(const char *text, const char *state, pw_code_zone_said *said,
                             pw_err *err)
{
  char want[PLAIN], have[PLAIN];
  const char *near = NULL;
  county_name(text, want);
  size_t least = strlen(want) / 3 + 1;
  if (!state[0])
    return pw_fail(
        err, PW_E_DATA, "code_zone",
        "'%.40s' is no climate zone, and for a county the item state is needed; want "
        "1 to 8 as in 4B, CA 1 to CA 16, or a county with its state",
        text);
  for (size_t i = 0; i < pw_ref_climate2_zone_by_county__n; i++) {
    const pw_ref_climate2_zone_by_county_row *row = &pw_ref_climate2_zone_by_county[i];
    if (strcmp(row->state, state) != 0) continue;
    county_name(row->county, have);
    size_t away = pw_edit_distance(want, have);
    if (away > 0) {
      if (away < least) near = row->county;
      if (away < least) least = away;
      continue;
    }
    snprintf(said->zone, sizeof said->zone, "%s", place_zone_name(row->iecc_zone));
    snprintf(said->from, sizeof said->from, "of %s, %s", row->county, row->state);
    return PW_OK;
  }
  return pw_fail(
      err, PW_E_DATA, "code_zone",
      "'%.40s' is no climate zone and no county of %s%s%s%s; want 1 to 8 as in 4B, CA 1 "
      "to CA 16, or a county",
      text, state, near ? "; did you mean " : "", near ? near : "", near ? "?" : "");
}

pw_status pw_code_zone_look(const char *text, const char *state, pw_code_zone_said *said,
                            pw_err *err)
{
  char words[PLAIN] = "";
  pw_code_zone_said s = {.from = "as the job says"};
  pw_status status = PW_OK;
  plain(text, words);
  if (!is_california(words, &s.ca_zone) && !is_zone(words, s.zone))
    status = take_county(text, state, &s, err);
  if (status == PW_OK) *said = s;
  return status;
}
