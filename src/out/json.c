#include "out/json.h"
#include "out/text_stream.h"

#include <math.h>
#include <stdatomic.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"

/* Set when memory for a part of a text in JSON could not be had: a key would be missing in it. */
static atomic_int lost;

void pw_json_lose(void) { atomic_store(&lost, 1); }

static void *take(size_t size)
{
  void *p = malloc(size);
  if (!p) pw_json_lose();
  return p;
}

void pw_json_watch(void) { json_set_alloc_funcs(take, free); }

json_t *pw_json_real(double v) { return isfinite(v) ? json_real(v) : json_null(); }

void pw_json_set(json_t *object, const char *key, double v)
{
  json_object_set_new(object, key, pw_json_real(v));
}

void pw_json_set_text(json_t *object, const char *key, const char *text)
{
  char *copy = strdup(text);
  if (copy)
    pw_text_clean(copy);
  else
    pw_json_lose();
  json_object_set_new(object, key, copy ? json_string(copy) : NULL);
  free(copy);
}

json_t *pw_json_array(const double v[], size_t n)
{
  json_t *a = json_array();
  for (size_t i = 0; i < n; i++)
    json_array_append_new(a, pw_json_real(v[i]));
  return a;
}

int pw_json_lost(void) { return atomic_load(&lost); }

pw_status pw_json_print(json_t *root, FILE *f, pw_err *err)
{
  if (atomic_load(&lost)) {
    json_decref(root);
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the JSON output");
  }
  int bad = json_dumpf(root, f, JSON_INDENT(2) | JSON_REAL_PRECISION(12)) != 0;
  json_decref(root);
  fputc('\n', f);
  pw_status status = pw_text_written(f, "the JSON output", err);
  if (status == PW_OK && (bad || atomic_load(&lost)))
    status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for the JSON output");
  return status;
}
