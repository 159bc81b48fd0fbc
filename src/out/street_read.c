/* Records of a street read back: an index of names in memory, the rest where it lies. */
#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/hash.h"
#include "out/json.h"
#include "out/street_out.h"

typedef struct entry {
  char *name; /* owned: job, a line end, dwelling */
  size_t file;
  long at;
  uint64_t hash; /* of the line */
  int rejected;
} entry;

struct pw_street {
  FILE *const *file;
  const char *const *name;
  json_t *about; /* owned */
  entry *entry;  /* owned */
  size_t n, room, n_rejected;
  int open;   /* a part has begun and its end is not seen */
  char *line; /* owned; grows to the longest */
  size_t size;
};

void pw_street_free(pw_street *s)
{
  if (!s) return;
  for (size_t i = 0; i < s->n; i++)
    free(s->entry[i].name);
  free(s->entry);
  json_decref(s->about);
  free(s->line);
  free(s);
}

const char *pw_street_word(const json_t *o, const char *key)
{
  const char *text = json_string_value(json_object_get(o, key));
  return text ? text : "";
}

static double number(const json_t *o, const char *key)
{
  const json_t *v = json_object_get(o, key);
  return json_is_number(v) ? json_number_value(v) : (double)NAN;
}

double pw_street_value(const json_t *set, pw_result result)
{
  return number(set, pw_result_of(result)->key);
}

pw_band pw_street_band(const json_t *set, pw_result result)
{
  const json_t *b =
      json_object_get(json_object_get(set, "range"), pw_result_of(result)->ranged);
  return (pw_band){.p10 = number(b, "p10"), .p50 = number(b, "p50"), .p90 = number(b, "p90")};
}

size_t pw_street_houses(const pw_street *s) { return s->n - s->n_rejected; }
size_t pw_street_rejects(const pw_street *s) { return s->n_rejected; }
const json_t *pw_street_about(const pw_street *s) { return s->about; }

static pw_status bad(const pw_street *s, size_t file, const char *what, pw_err *err)
{
  if (pw_json_lost()) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the records");
  return pw_fail(err, PW_E_DATA, "records", "%.200s: %s", s->name[file], what);
}

/* A line, or 0 at the end. A line that there is no memory for is no end. */
static int next_line(FILE *f, char **line, size_t *size)
{
  if (getline(line, size, f) > 0) return 1;
  if (!feof(f) && !ferror(f)) pw_json_lose();
  return 0;
}

static pw_status unfinished(const pw_street *s, size_t file, pw_err *err)
{
  return bad(s, file, "the run that wrote these records did not end: go on with --resume", err);
}

/* A head must be the first one's. */
static pw_status take_head(pw_street *s, size_t file, json_t *head, pw_err *err)
{
  if (!s->about) s->about = json_incref(head);
  if (s->open) return unfinished(s, file, err);
  s->open = 1;
  return json_equal(s->about, head)
             ? PW_OK
             : bad(s, file, "these records are of another version or of other options", err);
}

static pw_status take_house(pw_street *s, size_t file, long at, const json_t *o, pw_err *err)
{
  if (!s->about || !pw_street_word(o, "job")[0])
    return bad(s, file, "this is no file of records of panewright street", err);
  if (s->n == s->room) {
    size_t room = s->room ? 2 * s->room : 64;
    entry *bigger = realloc(s->entry, room * sizeof *bigger);
    if (!bigger) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the names of houses");
    s->entry = bigger;
    s->room = room;
  }
  const char *job = pw_street_word(o, "job"), *dwelling = pw_street_word(o, "dwelling");
  size_t n = strlen(job) + strlen(dwelling) + 2;
  char *name = malloc(n);
  if (!name) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the names of houses");
  snprintf(name, n, "%s\n%s", job, dwelling);
  entry *e = &s->entry[s->n++];
  e->name = name;
  e->file = file;
  e->at = at;
  e->hash = pw_hash_mix(PW_HASH_START, s->line, strlen(s->line));
  e->rejected = json_object_get(o, "rejected") != NULL;
  return PW_OK;
}

static pw_status read_file(pw_street *s, size_t file, int whole, pw_err *err)
{
  FILE *f = s->file[file];
  rewind(f);
  for (;;) {
    long at = ftell(f);
    if (!next_line(f, &s->line, &s->size)) break;
    if (strncmp(s->line, "{\"cost\":", 8) == 0) continue; /* draws of the line above */
    if (strcmp(s->line, PW_STREET_END) == 0) {
      s->open = 0;
      continue;
    }
    json_t *o = json_loads(s->line, 0, NULL);
    if (!o) return bad(s, file, "a line is no record: it is cut or was edited", err);
    pw_status status = json_object_get(o, "street") ? take_head(s, file, o, err)
                                                    : take_house(s, file, at, o, err);
    json_decref(o);
    if (status != PW_OK) return status;
  }
  if (pw_json_lost()) return bad(s, file, "", err);
  if (whole && s->open) return unfinished(s, file, err);
  return ferror(f) ? pw_fail(err, PW_E_IO, "records", "%.200s: cannot read: %s", s->name[file],
                             strerror(errno))
                   : PW_OK;
}

static int by_name(const void *a, const void *b)
{
  return strcmp(((const entry *)a)->name, ((const entry *)b)->name);
}

/* A house that is listed twice, or stands in two parts, is one house. */
static pw_status once_each(pw_street *s, pw_err *err)
{
  if (s->n > 1) qsort(s->entry, s->n, sizeof *s->entry, by_name);
  size_t kept = 0;
  for (size_t i = 0; i < s->n; i++) {
    entry *e = &s->entry[i], *last = kept ? &s->entry[kept - 1] : NULL;
    if (!last || strcmp(last->name, e->name) != 0) {
      entry here = *e;
      e->name = NULL; /* it moves */
      s->entry[kept++] = here;
      continue;
    }
    if (last->hash != e->hash)
      return pw_fail(err, PW_E_DATA, "records", "%.*s has two answers: its files changed",
                     (int)strcspn(e->name, "\n"), e->name);
    free(e->name);
    e->name = NULL;
  }
  s->n = kept;
  for (size_t i = 0; i < s->n; i++)
    s->n_rejected += (size_t)s->entry[i].rejected;
  return PW_OK;
}

pw_status pw_street_open(FILE *const file[], const char *const name[], size_t n, int whole,
                         pw_street **street, pw_err *err)
{
  pw_street *s = calloc(1, sizeof *s);
  pw_status status = s ? PW_OK : pw_fail(err, PW_E_NOMEM, NULL, "no memory for the street");
  *street = NULL;
  if (s) {
    s->file = file;
    s->name = name;
  }
  for (size_t i = 0; status == PW_OK && i < n; i++)
    status = read_file(s, i, whole, err);
  if (status == PW_OK && !s->about)
    status = bad(s, 0, "this is no file of records of panewright street", err);
  if (status == PW_OK) status = once_each(s, err);
  if (status == PW_OK)
    *street = s;
  else
    pw_street_free(s);
  return status;
}

static json_t *next_object(FILE *f, char **line, size_t *size)
{
  return next_line(f, line, size) ? json_loads(*line, 0, NULL) : NULL;
}

pw_status pw_street_each(const pw_street *s,
                         pw_status (*visit)(void *context, json_t *record, json_t *draws,
                                            pw_err *err),
                         void *context, pw_err *err)
{
  char *line = NULL;
  size_t size = 0;
  pw_status status = PW_OK;
  for (size_t i = 0; status == PW_OK && i < s->n; i++) {
    const entry *e = &s->entry[i];
    FILE *f = s->file[e->file];
    json_t *record = NULL, *draws = NULL;
    if (fseek(f, e->at, SEEK_SET) == 0) record = next_object(f, &line, &size);
    if (record && !e->rejected) draws = next_object(f, &line, &size);
    if (!record || (!e->rejected && !json_object_get(draws, "cost")))
      status = bad(s, e->file, "a record is cut or was edited", err);
    else
      status = visit(context, record, draws, err);
    json_decref(record);
    json_decref(draws);
  }
  free(line);
  return status;
}
