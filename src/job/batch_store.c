#include "job/batch_store.h"

#include <pthread.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/hash.h"
#include "climate/month.h"
#include "panewright/glazing.h"

enum { SLOTS = 2048, FULL = 1024 };

/* One text and what it came to. */
typedef struct entry {
  char *text; /* owned; NULL: free slot */
  pw_status status;
  char *why;           /* owned; of a failure */
  pw_glazing *glazing; /* owned; of a glass */
  size_t place;        /* of a place */
  double away_km;
} entry;

typedef struct store {
  size_t n;
  entry slot[SLOTS];
} store;

struct batch_glasses {
  store glass, place;
};

struct batch_places {
  pw_alone_method method;
  size_t n;
  pthread_mutex_t lock;
  pw_alone_place **place; /* [n], owned; NULL: not met yet */
};

static size_t slot_of(const store *s, const char *text)
{
  uint64_t h = pw_hash_mix(PW_HASH_START, text, strlen(text));
  size_t i = (size_t)(h ^ (h >> 29)) % SLOTS;
  while (s->slot[i].text && strcmp(s->slot[i].text, text) != 0)
    i = (i + 1) % SLOTS;
  return i;
}

static void empty(store *s)
{
  for (size_t i = 0; i < SLOTS; i++) {
    free(s->slot[i].text);
    free(s->slot[i].why);
    free(s->slot[i].glazing);
  }
  memset(s, 0, sizeof *s);
}

/* The entry of a text; *fresh 1 when it is new. NULL: no memory. */
static entry *entry_of(store *s, const char *text, int *fresh)
{
  size_t i = slot_of(s, text);
  *fresh = !s->slot[i].text;
  if (!*fresh) return &s->slot[i];
  size_t size = strlen(text) + 1;
  char *copy = malloc(size);
  if (!copy) return NULL;
  memcpy(copy, text, size);
  s->slot[i].text = copy;
  s->n++;
  return &s->slot[i];
}

static void keep_reason(entry *e, const pw_err *why)
{
  size_t size = strlen(why->text) + 1;
  if (e->status == PW_OK) return;
  free(e->glazing);
  e->glazing = NULL;
  e->why = malloc(size);
  if (e->why) memcpy(e->why, why->text, size);
}

batch_glasses *batch_glasses_new(void) { return calloc(1, sizeof(batch_glasses)); }

void batch_glasses_free(batch_glasses *glasses)
{
  if (!glasses) return;
  empty(&glasses->glass);
  empty(&glasses->place);
  free(glasses);
}

void batch_glasses_tidy(batch_glasses *glasses)
{
  if (glasses->glass.n > FULL) empty(&glasses->glass);
  if (glasses->place.n > FULL) empty(&glasses->place);
}

pw_status batch_glass_of(batch_glasses *g, const char *text, const pw_glazing **glazing,
                         pw_err *err)
{
  int fresh = 0;
  entry *e = entry_of(&g->glass, text, &fresh);
  if (!e) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a build-up");
  if (fresh) {
    pw_buildup buildup;
    pw_err why = {0};
    e->glazing = malloc(sizeof *e->glazing);
    e->status = e->glazing ? pw_buildup_parse(text, &buildup, &why)
                           : pw_fail(&why, PW_E_NOMEM, NULL, "no memory for a build-up");
    if (e->status == PW_OK) e->status = pw_glazing_build(&buildup, e->glazing, &why);
    keep_reason(e, &why);
  }
  if (e->status != PW_OK)
    return pw_fail(err, e->status, "glass", "%s", e->why ? e->why : "no memory");
  *glazing = e->glazing;
  return PW_OK;
}

batch_places *batch_places_new(pw_alone_method method)
{
  batch_places *p = calloc(1, sizeof *p);
  if (!p) return NULL;
  p->method = method;
  p->n = pw_place_count();
  p->place = calloc(p->n ? p->n : 1, sizeof(pw_alone_place *));
  if (p->place && pthread_mutex_init(&p->lock, NULL) == 0) return p;
  free(p->place);
  free(p);
  return NULL;
}

void batch_places_free(batch_places *places)
{
  if (!places) return;
  for (size_t i = 0; i < places->n; i++)
    pw_alone_place_free(places->place[i]);
  free(places->place);
  pthread_mutex_destroy(&places->lock);
  free(places);
}

static pw_status make_place(const batch_places *p, size_t index, pw_alone_place **place,
                            pw_err *err)
{
  pw_weather *weather = malloc(sizeof *weather);
  if (!weather) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a place");
  pw_status status = pw_place_year(index, weather, err);
  if (status == PW_OK) status = pw_alone_place_new(weather, p->method, place, err);
  free(weather);
  return status;
}

pw_status batch_place_of(batch_places *p, batch_glasses *g, const char *text,
                         const pw_alone_place **place, double *away_km, pw_err *err)
{
  int fresh = 0;
  pw_status status = PW_OK;
  entry *e = entry_of(&g->place, text, &fresh);
  if (!e) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a place");
  if (fresh) {
    pw_err why = {0};
    e->status = pw_place_find(text, &e->place, &e->away_km, &why);
    keep_reason(e, &why);
  }
  if (e->status != PW_OK)
    return pw_fail(err, e->status, "place", "%s", e->why ? e->why : "no memory");
  pthread_mutex_lock(&p->lock);
  if (!p->place[e->place]) status = make_place(p, e->place, &p->place[e->place], err);
  *place = p->place[e->place];
  pthread_mutex_unlock(&p->lock);
  *away_km = e->away_km;
  return status;
}
