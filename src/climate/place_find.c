#include "climate/place_find.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/ascii.h"
#include "base/nearest.h"
#include "base/print.h"
#include "base/state.h"
#include "climate/place_impl.h"
#include "gen/reference.h"

enum { TEXT_MAX = 80, NAME_ROOM = 72, PLACES = pw_ref_climate2_places__n };

/* ---------------------------------------------------------------- stations and ZIP codes */

/* The index of the station of a row of climate2/places. */
static size_t index_of_row(size_t row)
{
  for (size_t i = 0; i < pw_place_count(); i++)
    if (strcmp(place_name_of(i).station, pw_ref_climate2_places[row].usaf) == 0) return i;
  return pw_place_count();
}

/* The index of a key among n that stand in order, by halves; n when it is not there. */
static size_t find_key(const char *key, size_t n, const char *(*key_of)(size_t))
{
  size_t low = 0, high = n;
  while (low < high) {
    size_t middle = low + (high - low) / 2;
    int order = strcmp(key_of(middle), key);
    if (order == 0) return middle;
    if (order < 0)
      low = middle + 1;
    else
      high = middle;
  }
  return n;
}

static const char *usaf_of(size_t i) { return pw_ref_climate2_places[i].usaf; }
static const char *zip_of(size_t i) { return pw_ref_climate2_zip5[i].zip; }

static void take_station(size_t index, pw_place_hit *hit)
{
  size_t r = find_key(place_name_of(index).station, PLACES, usaf_of);
  *hit = (pw_place_hit){.index = index, .zone = ""};
  if (r == PLACES) return;
  const pw_ref_climate2_places_row *row = &pw_ref_climate2_places[r];
  hit->zone = place_zone_name(row->iecc_zone);
  hit->ca_zone = row->ca_zone;
}

static pw_status take_zip(const char *zip, pw_place_hit *hit, pw_err *err)
{
  size_t at = find_key(zip, pw_ref_climate2_zip5__n, zip_of);
  const pw_ref_climate2_zip5_row *row =
      at < pw_ref_climate2_zip5__n ? &pw_ref_climate2_zip5[at] : NULL;
  if (row && row->usaf < 0)
    return pw_fail(err, PW_E_DATA, "climate",
                   "ZIP %s lies over 400 km from every built-in place; want an hourly file",
                   zip);
  if (row) {
    *hit = (pw_place_hit){.index = index_of_row((size_t)row->usaf),
                          .km = row->km,
                          .zone = place_zone_name(row->iecc_zone),
                          .ca_zone = row->ca_zone};
    snprintf(hit->said, sizeof hit->said, "ZIP %s", zip);
    return PW_OK;
  }
  for (size_t i = 0; i < pw_ref_climate2_zip3__n; i++) { /* a box or an office of its own */
    const pw_ref_climate2_zip3_row *r = &pw_ref_climate2_zip3[i];
    if (strncmp(zip, r->zip3, 3) != 0 || r->usaf < 0) continue;
    *hit = (pw_place_hit){.index = index_of_row((size_t)r->usaf),
                          .km = r->km_median,
                          .zone = place_zone_name(r->iecc_zone)};
    snprintf(hit->said, sizeof hit->said, "ZIP %s (not listed; the main place of %s..)", zip,
             r->zip3);
    return PW_OK;
  }
  return pw_fail(err, PW_E_DATA, "climate",
                 "no ZIP code %s is known; want another, a town or "
                 "latitude,longitude",
                 zip);
}

/* Five digits, perhaps with "-1234" behind. */
static int is_zip(const char *text, char zip[6])
{
  size_t n = strspn(text, "0123456789");
  const char *rest = text + n;
  if (n != 5) return 0;
  if (*rest && !(*rest == '-' && strspn(rest + 1, "0123456789") == 4 && strlen(rest) == 5))
    return 0;
  memcpy(zip, text, 5);
  zip[5] = '\0';
  return 1;
}

/* ---------------------------------------------------------------- words */

static const char apart[] = " ,/-.()\t";

/* The next word in capitals, short forms in full; 0 at the end. */
static int next_word(const char **text, char word[24])
{
  static const char *const form[][2] = {{"ST", "SAINT"}, {"FT", "FORT"}, {"MT", "MOUNT"}};
  *text += strspn(*text, apart);
  size_t n = strcspn(*text, apart);
  if (n == 0) return 0;
  size_t k = n < 23 ? n : 23;
  for (size_t i = 0; i < k; i++)
    word[i] = pw_upper((*text)[i]);
  word[k] = '\0';
  *text += n;
  for (size_t i = 0; i < sizeof form / sizeof form[0]; i++)
    if (strcmp(word, form[i][0]) == 0) strcpy(word, form[i][1]);
  return 1;
}

/* Whether every word of text begins a word of name, case aside. */
static int words_fit(const char *text, const char *name)
{
  char want[24], have[24];
  while (next_word(&text, want)) {
    const char *at = name;
    int found = 0;
    while (!found && next_word(&at, have))
      found = strncmp(have, want, strlen(want)) == 0;
    if (!found) return 0;
  }
  return 1;
}

static int same_words(const char *a, const char *b)
{
  char x[24], y[24];
  for (;;) {
    int more_a = next_word(&a, x), more_b = next_word(&b, y);
    if (!more_a || !more_b) return more_a == more_b;
    if (strcmp(x, y) != 0) return 0;
  }
}

/* The text with a state's name at its end written as its code; *state is that code or "". */
static void take_state(const char *text, char plain[TEXT_MAX], const char **state)
{
  snprintf(plain, TEXT_MAX, "%s", text);
  *state = "";
  size_t n = strlen(plain);
  while (n && strchr(apart, plain[n - 1]))
    plain[--n] = '\0';
  for (int words = 3; words > 0; words--) { /* "District of Columbia" */
    char *at = plain + n;
    for (int w = 0; w < words && at > plain; w++) {
      while (at > plain && strchr(" ,", at[-1]))
        at--;
      while (at > plain && !strchr(" ,", at[-1]))
        at--;
    }
    if (at == plain || !pw_state_find(at, state, NULL)) continue;
    memcpy(at, *state, strlen(*state) + 1);
    return;
  }
}

/* ---------------------------------------------------------------- by name */

static void full_name(size_t i, char name[NAME_ROOM])
{
  place_name p = place_name_of(i);
  snprintf(name, NAME_ROOM, "%s %s", p.name, p.state);
}

/* Whether the place has the words and lies in the state; "" any: AR begins no ARPT. */
static int place_fits(size_t i, const char *text, const char *state, char name[NAME_ROOM])
{
  full_name(i, name);
  return (!state[0] || strcmp(place_name_of(i).state, state) == 0) && words_fit(text, name);
}

/* How many of the places [from, to) have the words; the first of them, and up to four names. */
static size_t count_fits(const char *text, const char *state, size_t from, size_t to,
                         size_t *first, char names[200])
{
  size_t found = 0;
  names[0] = '\0';
  for (size_t i = from; i < to; i++) {
    char name[NAME_ROOM];
    if (!place_fits(i, text, state, name)) continue;
    if (found++ == 0) *first = i;
    size_t used = strlen(names);
    if (found <= 4) snprintf(names + used, 200 - used, "%s%s", found > 1 ? "; " : "", name);
  }
  return found;
}

/* The place whose plain name is exactly that, or n. */
static size_t exact_name(const char *text, size_t n)
{
  for (size_t r = 0; r < PLACES; r++)
    if (same_words(text, pw_ref_climate2_places[r].place)) return index_of_row(r);
  return n;
}

/* The place whose name's beginning is spelt most like the text, or n. */
static size_t nearest_spelling(const char *text, size_t n)
{
  size_t best = n, least = strlen(text) / 3 + 1;
  for (size_t i = 0; i < n; i++) {
    char head[64];
    snprintf(head, sizeof head, "%.*s", (int)(strlen(text) < 60 ? strlen(text) : 60),
             place_name_of(i).name);
    size_t d = pw_edit_distance(text, head);
    if (d >= least) continue;
    least = d;
    best = i;
  }
  return best;
}

/* ---------------------------------------------------------------- by town */

/* A town's name by its letters alone, in capitals, short forms in full; the state at its end left out. */
static void letters_of(const char *text, const char *state, char out[TEXT_MAX])
{
  char word[24];
  size_t n = 0;
  while (next_word(&text, word)) {
    const char *end = text + strspn(text, apart);
    if (*end == '\0' && state[0] && strcmp(word, state) == 0) break;
    for (const char *p = word; *p && n + 1 < TEXT_MAX; p++)
      if (pw_is_alnum(*p)) out[n++] = *p;
  }
  out[n] = '\0';
}

typedef struct towns {
  const pw_ref_climate2_towns_row *exact; /* the first of that very name */
  const char *other;                      /* another state that has one; "" none */
  size_t n_begin;                         /* towns whose name begins so */
  char begin[160];                        /* some of them, with their state */
} towns;

static towns find_towns(const char *name, const char *state)
{
  towns t = {.other = ""};
  size_t n = strlen(name);
  for (size_t i = 0; n > 0 && i < pw_ref_climate2_towns__n; i++) {
    const pw_ref_climate2_towns_row *row = &pw_ref_climate2_towns[i];
    char have[TEXT_MAX];
    if (state[0] && strcmp(row->state, state) != 0) continue;
    if (pw_upper(row->town[0]) != name[0]) continue;
    letters_of(row->town, "", have);
    if (strncmp(have, name, n) != 0) continue;
    if (have[n] == '\0') {
      if (t.exact && strcmp(t.exact->state, row->state) != 0) t.other = row->state;
      if (!t.exact) t.exact = row;
      continue;
    }
    size_t used = strlen(t.begin);
    if (t.n_begin++ < 4)
      snprintf(t.begin + used, sizeof t.begin - used, "%s%s %s", used ? "; " : "", row->town,
               row->state);
  }
  return t;
}

static pw_status take_town(const char *text, const char *state, pw_place_hit *hit, int *known,
                           pw_err *err)
{
  char name[TEXT_MAX];
  letters_of(text, state, name);
  towns t = find_towns(name, state);
  *known = t.exact || t.n_begin > 0;
  if (!t.exact)
    return pw_fail(err, PW_E_DATA, "climate", "'%.60s' may be %s%s", text, t.begin,
                   t.n_begin > 4 ? " and more" : "");
  if (t.other[0])
    return pw_fail(err, PW_E_DATA, "climate",
                   "'%.60s' may lie in %s, %s and more; add the state", text, t.exact->state,
                   t.other);
  pw_status status = take_zip(t.exact->zip, hit, err);
  if (status == PW_OK)
    snprintf(hit->said, sizeof hit->said, "%s, %s (ZIP %s)", t.exact->town, t.exact->state,
             t.exact->zip);
  return status;
}

static pw_status take_words(const char *text, pw_place_hit *hit, pw_err *err)
{
  char plain[TEXT_MAX], names[200];
  const char *state = "";
  size_t n = pw_place_count(), first = n;
  take_state(text, plain, &state);
  if (text[strspn(text, apart)] == '\0')
    return pw_fail(
        err, PW_E_DATA, "climate",
        "no place '%.60s'; want a ZIP code, a town with its state, latitude,longitude, or an "
        "hourly file",
        text);
  size_t found = count_fits(plain, state, 0, place_first_set(), &first, names);
  if (found != 1) {
    size_t exact = exact_name(plain, n);
    if (exact < n) {
      first = exact;
      found = 1;
    } else if (found == 0) {
      found = count_fits(plain, state, 0, n, &first, names);
    }
  }
  if (found == 1) {
    take_station(first, hit);
    return PW_OK;
  }
  if (found > 1)
    return pw_fail(err, PW_E_DATA, "climate", "'%.60s' may be %s%s", text, names,
                   found > 4 ? " and more" : "");
  int known = 0;
  pw_status status = take_town(plain, state, hit, &known, err);
  if (known) return status;
  size_t near = nearest_spelling(plain, n);
  if (near < n)
    return pw_fail(err, PW_E_DATA, "climate", "no place '%.60s'; did you mean %s %s?", text,
                   place_name_of(near).name, place_name_of(near).state);
  return pw_fail(err, PW_E_DATA, "climate",
                 "no place '%.60s'; want a ZIP code, a town with its state, "
                 "latitude,longitude, or an hourly "
                 "file",
                 text);
}

/* "CA zone 12": the place of one of California's code zones. */
static int take_ca_zone(const char *text, pw_place_hit *hit)
{
  char word[24];
  const char *at = text;
  int california = 0, zone = 0;
  while (next_word(&at, word)) {
    if (strcmp(word, "CA") == 0 || strcmp(word, "CALIFORNIA") == 0)
      california = 1;
    else if (strcmp(word, "ZONE") != 0 && strcmp(word, "CLIMATE") != 0) {
      size_t n = strspn(word, "0123456789");
      if (n != strlen(word) || n > 2 || zone)
        return 0; /* more digits than an int holds are no zone */
      zone = atoi(word);
    }
  }
  for (size_t i = 0; california && i < pw_ref_climate2_ca_zone_place__n; i++) {
    const pw_ref_climate2_ca_zone_place_row *r = &pw_ref_climate2_ca_zone_place[i];
    if (r->ca_zone != zone) continue;
    take_station(index_of_row((size_t)r->usaf), hit);
    snprintf(hit->said, sizeof hit->said, "California zone %d", zone);
    return 1;
  }
  return 0;
}

/* "40.58, -105.08" and nothing behind it. */
static int is_position(const char *text, double *latitude, double *longitude)
{
  char *end;
  *latitude = pw_plain_number(text, &end);
  const char *comma = end + strspn(end, " ");
  if (end == text || *comma != ',') return 0;
  *longitude = pw_plain_number(comma + 1, &end);
  return end != comma + 1 && end[strspn(end, " ")] == '\0';
}

pw_status pw_place_look(const char *text, pw_place_hit *hit, pw_err *err)
{
  double lat, lon;
  char zip[6];
  text += strspn(text, " ");
  if (is_position(text, &lat, &lon)) {
    size_t index = 0;
    double km = 0.0;
    pw_status status = pw_place_nearest(lat, lon, &index, &km, err);
    if (status != PW_OK) return status;
    take_station(index, hit);
    hit->km = km;
    return PW_OK;
  }
  if (is_zip(text, zip)) return take_zip(zip, hit, err);
  if (strncmp(text, "ZIP ", 4) == 0 && is_zip(text + 4, zip)) return take_zip(zip, hit, err);
  if (take_ca_zone(text, hit)) return PW_OK;
  for (size_t i = 0; i < pw_place_count(); i++)
    if (strcmp(text, place_name_of(i).station) == 0) {
      take_station(i, hit);
      return PW_OK;
    }
  return take_words(text, hit, err);
}

/* ---------------------------------------------------------------- what a text may become */

typedef struct choices {
  pw_place_choice *choice;
  size_t n, most;
} choices;

/* Keeps what can be looked up and is not there yet. */
static void offer(choices *all, const char *write)
{
  pw_place_choice c;
  if (all->n == all->most) return;
  snprintf(c.write, sizeof c.write, "%s", write);
  if (pw_place_look(c.write, &c.hit, NULL) != PW_OK) return;
  for (size_t i = 0; i < all->n; i++)
    if (strcmp(all->choice[i].write, c.write) == 0) return;
  all->choice[all->n++] = c;
}

static void offer_zips(choices *all, const char *digits)
{
  size_t n = strlen(digits);
  for (size_t i = 0; i < pw_ref_climate2_zip5__n && all->n < all->most; i++)
    if (strncmp(pw_ref_climate2_zip5[i].zip, digits, n) == 0)
      offer(all, pw_ref_climate2_zip5[i].zip);
}

/* Towns of that very name, or those that only begin so. */
static void offer_towns(choices *all, const char *name, const char *state, int whole)
{
  size_t n = strlen(name);
  for (size_t i = 0; i < pw_ref_climate2_towns__n && all->n < all->most; i++) {
    const pw_ref_climate2_towns_row *row = &pw_ref_climate2_towns[i];
    char have[TEXT_MAX], write[NAME_ROOM];
    if (state[0] && strcmp(row->state, state) != 0) continue;
    if (pw_upper(row->town[0]) != name[0]) continue;
    letters_of(row->town, "", have);
    if (strncmp(have, name, n) != 0 || (have[n] == '\0') != whole) continue;
    snprintf(write, sizeof write, "%s, %s", row->town, row->state);
    offer(all, write);
  }
}

static void offer_stations(choices *all, const char *plain, const char *state)
{
  for (size_t i = 0; i < pw_place_count() && all->n < all->most; i++) {
    char name[NAME_ROOM];
    if (place_fits(i, plain, state, name)) offer(all, name);
  }
}

size_t pw_place_like(const char *text, pw_place_choice choice[], size_t most)
{
  enum { ZIP_LEAST = 3 }; /* fewer digits are half a country */
  choices all = {choice, 0, most};
  char plain[TEXT_MAX], name[TEXT_MAX];
  const char *state = "";
  text += strspn(text, apart);
  size_t digits = strspn(text, "0123456789");
  offer(&all, text);
  if (digits >= ZIP_LEAST && text[digits] == '\0') {
    offer_zips(&all, text);
    return all.n;
  }
  take_state(text, plain, &state);
  letters_of(plain, state, name);
  if (name[0] == '\0') return all.n;
  offer_towns(&all, name, state, 1);
  offer_stations(&all, plain, state);
  offer_towns(&all, name, state, 0);
  return all.n;
}
