#include "out/json.h"

#include <errno.h>
#include <math.h>
#include <string.h>

json_t *pw_json_real(double v) { return isfinite(v) ? json_real(v) : json_null(); }

void pw_json_set(json_t *object, const char *key, double v)
{
  json_object_set_new(object, key, pw_json_real(v));
}

void pw_json_set_text(json_t *object, const char *key, const char *text)
{
  json_t *s = json_string(text);
  if (!s) { /* not UTF-8: keep the ASCII part readable */
    char copy[1024];
    size_t n = 0;
    for (; n < sizeof copy - 1 && text[n]; n++)
      copy[n] = (char)((unsigned char)text[n] < 128 ? text[n] : '?');
    copy[n] = '\0';
    s = json_string(copy);
  }
  json_object_set_new(object, key, s);
}

json_t *pw_json_array(const double v[], size_t n)
{
  json_t *a = json_array();
  for (size_t i = 0; i < n; i++)
    json_array_append_new(a, pw_json_real(v[i]));
  return a;
}

pw_status pw_json_print(json_t *root, FILE *f, pw_err *err)
{
  int bad = json_dumpf(root, f, JSON_INDENT(2) | JSON_REAL_PRECISION(12)) != 0;
  json_decref(root);
  if (bad || fputc('\n', f) == EOF || fflush(f) != 0)
    return pw_fail(err, PW_E_IO, NULL, "cannot write the JSON output: %s", strerror(errno));
  return PW_OK;
}
