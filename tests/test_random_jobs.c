/* Five hundred jobs of chance, of catalogue frames and (one in ten) of drawn ones, by a fixed seed. Whatever a job
 * holds: the order of its packages and openings changes nothing, units change nothing, the text's figures are JSON's,
 * JSON's parts sum to its wholes, and every sentence's figure is the table's. Only the answers are looked at, as a reader
 * would; nothing here computes a window. */
#include "support.h"

#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "job/job_open.h"
#include "out/compare_out.h"
#include "out/units.h"
#include "random_job.h"
#include "study/range.h"

#if defined(__SANITIZE_ADDRESS__)
enum {
  JOBS = 100
}; /* sanitizers look at what is run, not at how often; the plain run has them all */
#else
enum { JOBS = 500 };
#endif

/* ---------------------------------------------------------------- its answers */

typedef struct answers {
  json_t *json;
  char *text[2]; /* inch and SI */
} answers;

static void answer(const char *dir, int with_text, answers *a)
{
  pw_open_job open;
  pw_compare c;
  pw_err err = {0};
  memset(a, 0, sizeof *a);
  if (pw_job_open(dir, &open, &err) != PW_OK) fail_msg("%s: %s", dir, err.text);
  pw_compare_options o = pw_job_options(&open, PW_YEAR_QUICK);
  if (pw_compare_run(&open.job, open.weather, &o, NULL, &c, &err) != PW_OK)
    fail_msg("%s: %s", dir, err.text);
  const pw_compare_frame frame = {
      .climate = open.climate, .method = "monthly", .notes = &open.notes};
  a->json = pw_compare_json(&c, &frame);
  assert_non_null(a->json);
  for (int si = 0; with_text && si < 2; si++) {
    size_t size;
    FILE *f = open_memstream(&a->text[si], &size);
    assert_non_null(f);
    assert_int_equal(pw_compare_text(&c, &frame, pw_units(si), f, &err), PW_OK);
    fclose(f);
  }
  pw_compare_free(&c);
  pw_job_close(&open);
}

static void forget(answers *a)
{
  json_decref(a->json);
  free(a->text[0]);
  free(a->text[1]);
}

/* ---------------------------------------------------------------- order */

/* The member of an array that has the name of this one. */
static const json_t *same_name(const json_t *array, const json_t *member)
{
  static const char *const key[] = {"tag", "package"};
  for (size_t k = 0; k < 2; k++) {
    const char *name = json_string_value(json_object_get(member, key[k]));
    for (size_t i = 0; name && i < json_array_size(array); i++) {
      const json_t *other = json_array_get(array, i);
      const char *its = json_string_value(json_object_get(other, key[k]));
      if (its && strcmp(name, its) == 0) return other;
    }
  }
  return NULL;
}

static void alike(const json_t *a, const json_t *b, const char *path)
{
  char below_it[300];
  if (json_typeof(a) != json_typeof(b)) fail_msg("%s: kinds differ", path);
  if (json_is_number(a)) {
    double x = json_number_value(a), y = json_number_value(b);
    if (!(fabs(x - y) <= 1e-9 * fmax(1.0, fabs(x))))
      fail_msg("%s: %.12g, turned %.12g", path, x, y);
  } else if (json_is_string(a)) {
    if (strcmp(json_string_value(a), json_string_value(b)) != 0)
      fail_msg("%s: '%s', turned '%s'", path, json_string_value(a), json_string_value(b));
  } else if (json_is_object(a)) {
    const char *key;
    json_t *value;
    json_object_foreach((json_t *)(uintptr_t)a, key, value)
    {
      snprintf(below_it, sizeof below_it, "%.200s.%.80s", path, key);
      const json_t *other = json_object_get(b, key);
      if (!other) fail_msg("%s: not there when turned", below_it);
      alike(value, other, below_it);
    }
  } else if (json_is_array(a)) {
    assert_int_equal(json_array_size(a), json_array_size(b));
    for (size_t i = 0; i < json_array_size(a); i++) {
      const json_t *mine = json_array_get(a, i), *other = same_name(b, mine);
      snprintf(below_it, sizeof below_it, "%.200s.%zu", path, i);
      alike(mine, other ? other : json_array_get(b, i), below_it);
    }
  }
}

static void order_changes_nothing(const answers *a, const answers *turned)
{
  static const char *const part[] = {"openings", "house", "climate", "design_outdoor_c"};
  for (size_t i = 0; i < 4; i++)
    alike(json_object_get(a->json, part[i]), json_object_get(turned->json, part[i]), part[i]);
}

/* ---------------------------------------------------------------- how sure */

typedef struct band_of {
  char name[40];
  pw_band saving, payback, worth;
} band_of;

static size_t ranges(const char *dir, band_of band[])
{
  static const pw_range_options options = {
      .n_draw = 128, .seed = 5, .n_thread = 2, .method = PW_RANGE_REDUCED};
  pw_open_job open;
  pw_compare c;
  pw_err err = {0};
  static pw_range r;
  if (pw_job_open(dir, &open, &err) != PW_OK) fail_msg("%s", err.text);
  pw_compare_options o = pw_job_options(&open, PW_YEAR_QUICK);
  if (pw_compare_run(&open.job, open.weather, &o, NULL, &c, &err) != PW_OK ||
      pw_range_of(&c, open.weather, PW_YEAR_QUICK, &options, &r, &err) != PW_OK)
    fail_msg("%s", err.text);
  size_t n = c.n_package;
  for (size_t p = 0; p < n; p++) {
    snprintf(band[p].name, sizeof band[p].name, "%s", c.rated.package_set[p].name);
    band[p].saving = r.package[p].saving_cost;
    band[p].payback = r.package[p].payback;
    band[p].worth = r.package[p].net_present_worth;
  }
  pw_compare_free(&c);
  pw_job_close(&open);
  return n;
}

static void same_band(const pw_band *a, const pw_band *b, double unit, const char *name)
{
  const double x[3] = {a->p10, a->p50, a->p90}, y[3] = {b->p10, b->p50, b->p90};
  for (size_t k = 0; k < 3; k++)
    if (isfinite(x[k]) || isfinite(y[k]))
      if (!(fabs(x[k] - y[k]) <= 1e-6 * fmax(unit, fabs(x[k]))))
        fail_msg("%s: %.9g, turned %.9g", name, x[k], y[k]);
}

static void ranges_do_not_turn(const draft *d, const char *dir)
{
  band_of a[PACKAGES], b[PACKAGES];
  write_job(d, dir, 0);
  size_t n = ranges(dir, a);
  write_job(d, dir, 1);
  assert_int_equal(ranges(dir, b), n);
  for (size_t i = 0; i < n; i++)
    for (size_t k = 0; k < n; k++) {
      if (strcmp(a[i].name, b[k].name) != 0) continue;
      same_band(&a[i].saving, &b[k].saving, 1.0, "saving");
      same_band(&a[i].payback, &b[k].payback, 1.0, "payback");
      same_band(&a[i].worth, &b[k].worth, 1.0, "worth");
    }
}

/* ---------------------------------------------------------------- sums */

static double number(const json_t *o, const char *key)
{
  const json_t *v = json_object_get(o, key);
  return json_is_number(v) ? json_number_value(v) : (double)NAN;
}

static double all_months(const json_t *o, const char *key)
{
  const json_t *list = json_object_get(o, key);
  double sum = 0.0;
  for (size_t m = 0; m < json_array_size(list); m++)
    sum += json_number_value(json_array_get(list, m));
  return sum;
}

static double all_parts(const json_t *o, const char *key)
{
  const char *part;
  json_t *value;
  double sum = 0.0;
  json_object_foreach(json_object_get(o, key), part, value) sum += json_number_value(value);
  return sum;
}

static void near(double a, double b, const char *what)
{
  if (!(fabs(a - b) <= 1e-8 * fmax(1.0, fabs(b))))
    fail_msg("%s: %.10g, its parts %.10g", what, a, b);
}

static void set_sums(const json_t *set, double area)
{
  near(number(set, "heating_kwh"), all_months(set, "heating_month_kwh"), "heating");
  near(number(set, "cooling_kwh"), all_months(set, "cooling_month_kwh"), "cooling");
  near(number(set, "cost"), number(set, "heating_cost") + number(set, "cooling_cost"), "cost");
  if (json_object_get(set, "ua_w_k"))
    near(number(set, "u_w_m2k") * area, all_parts(set, "ua_w_k"), "U");
}

static void sums_hold(const answers *a)
{
  const json_t *house = json_object_get(a->json, "house"),
               *list = json_object_get(house, "packages");
  const json_t *openings = json_object_get(a->json, "openings"),
               *now = json_object_get(house, "existing");
  double area = 0.0, ua = 0.0, all = number(house, "opening_area_m2");
  for (size_t i = 0; i < json_array_size(openings); i++) {
    const json_t *o = json_array_get(openings, i), *e = json_object_get(o, "existing");
    double n = number(o, "quantity");
    area += n * number(o, "opening_area_m2");
    ua += n * number(o, "opening_area_m2") * number(e, "u_w_m2k");
    near(number(o, "opening_area_m2") * number(e, "u_w_m2k"), all_parts(e, "ua_w_k"),
         "U of an opening");
  }
  near(all, area, "area of the openings");
  near(number(now, "u_w_m2k"), ua / area, "U of the existing windows");
  set_sums(now, all);
  set_sums(json_object_get(house, "code_minimum"), all);
  for (size_t p = 0; p < json_array_size(list); p++) {
    const json_t *set = json_array_get(list, p);
    set_sums(set, all);
    near(number(set, "saving_computed"), number(now, "cost") - number(set, "cost"),
         "saving computed");
    near(number(set, "saving_over_code_minimum"),
         number(set, "saving") - number(json_object_get(house, "code_minimum"), "saving"),
         "saving against the code");
  }
}

/* ---------------------------------------------------------------- text */

/* The line of the house's table that begins with a name. */
static const char *row_of(const char *text, const char *name)
{
  const char *table = strstr(text, "\nThe house for a year");
  char want[80];
  assert_non_null(table);
  snprintf(want, sizeof want, "\n%s ", name);
  const char *row = strstr(table, want);
  if (!row) fail_msg("no row of %s", name);
  return row + strlen(want);
}

static double show_u(double u, int si) { return si ? u : u / 5.678263; }

static double column(const char **at, double unit)
{
  while (**at == ' ' || **at == '$')
    (*at)++;
  if ((*at)[0] == '-' && (*at)[1] == ' ') { /* not known */
    (*at)++;
    return (double)NAN;
  }
  int minus = (*at)[0] == '-' && (*at)[1] == '$';
  if (minus) *at += 2;
  char *end;
  double v = strtod(*at, &end);
  if (end == *at) fail_msg("no number at: %.60s", *at);
  *at = end;
  while (**at == '%' || **at == ' ')
    (*at)++;
  return (minus ? -v : v) * unit;
}

static void meets(double shown, double kept, double half, const char *what, const char *name)
{
  if (isnan(shown) && isnan(kept)) return;
  if (!(fabs(shown - kept) <= half * 1.0001 + 1e-9 * fabs(kept)))
    fail_msg("%s of %s: text %.8g, JSON %.8g", what, name, shown, kept);
}

static void row_is_json(const char *text, int si, const json_t *set, const char *name,
                        int cools)
{
  const char *at = row_of(text, name);
  meets(column(&at, 1.0), show_u(number(set, "u_w_m2k"), si), 0.005, "U", name);
  meets(column(&at, 1.0), number(set, "shgc"), 0.005, "SHGC", name);
  column(&at, 1.0);
  meets(column(&at, 1.0), number(set, "heating_kwh"), 0.5, "heating", name);
  if (!cools) return; /* hours, which the monthly method does not know */
  meets(column(&at, 1.0), number(set, "cooling_kwh"), 0.5, "cooling", name);
  meets(column(&at, 1.0), number(set, "cost"), 0.5, "bill", name);
  if (strcmp(name, "existing") == 0) return;
  meets(column(&at, 1.0), number(set, "saving"), 0.5, "saving", name);
}

/* "saves typically $215 a year", "costs $15 a year", "changes little". Line ends count as blanks. */
static double said(const char *at, const char *upto)
{
  double sign = 0.0;
  for (; at < upto; at++) {
    if (strncmp(at, "saves", 5) == 0) sign = 1.0;
    if (strncmp(at, "costs", 5) == 0) sign = -1.0;
    if (strncmp(at, "changes", 7) == 0) return 0.0;
    if (*at == '$' && sign != 0.0) return sign * strtod(at + 1, NULL);
  }
  fail_msg("no figure is said");
  return 0.0;
}

static void sentence_is_table(const char *text, const json_t *set, const char *name)
{
  char lead[80];
  const char *block = strstr(text, "\nWhat may be said");
  assert_non_null(block);
  snprintf(lead, sizeof lead, "\n  %s: ", name);
  const char *at = strstr(block, lead);
  if (!at) fail_msg("nothing is said of %s", name);
  char flat[500];
  size_t n = 0;
  for (at += strlen(lead); *at && n + 1 < sizeof flat;
       at++) /* line ends and indents become one blank */
    if ((*at != ' ' && *at != '\n') || (n > 0 && flat[n - 1] != ' '))
      flat[n++] = *at == '\n' ? ' ' : *at;
  flat[n] = 0;
  const char *and = strstr(flat, "windows, and "), *end = strstr(flat, "just meet the code.");
  assert_true(and&&end && and < end);
  double saved = number(set, "saving"), over = number(set, "saving_over_code_minimum");
  meets(said(flat, and), fabs(saved) < 2.5 ? 0.0 : saved, 2.5, "sentence", name);
  meets(said(and, end), fabs(over) < 2.5 ? 0.0 : over, 2.5, "sentence on the code", name);
}

static void text_is_json(const answers *a)
{
  const json_t *house = json_object_get(a->json, "house"),
               *list = json_object_get(house, "packages");
  for (int si = 0; si < 2; si++) {
    const char *text = a->text[si];
    int cools = strstr(text, "warm h") == NULL;
    row_is_json(text, si, json_object_get(house, "existing"), "existing", cools);
    row_is_json(text, si, json_object_get(house, "code_minimum"), "code minimum", cools);
    for (size_t p = 0; p < json_array_size(list); p++) {
      const json_t *set = json_array_get(list, p);
      const char *name = json_string_value(json_object_get(set, "package"));
      row_is_json(text, si, set, name, cools);
      sentence_is_table(text, set, name);
    }
  }
}

/* ---------------------------------------------------------------- the run */

static void whatever_a_job_holds(void **state)
{
  (void)state;
  char dir[] = "/tmp/panewright-jobs-XXXXXX", root[200];
  assert_non_null(mkdtemp(dir));
  assert_non_null(getcwd(root, sizeof root));
  snprintf(root + strlen(root), sizeof root - strlen(root), "/examples");
  char link[300];
  snprintf(link, sizeof link, "%s/examples", dir);
  assert_int_equal(symlink(root, link), 0);
  for (int i = 0; i < JOBS; i++) {
    draft d;
    answers a, turned;
    draft_of(i, &d);
    write_job(&d, dir, 0);
    answer(dir, 1, &a);
    sums_hold(&a);
    text_is_json(&a);
    if (d.n_opening + d.n_package > 2) {
      write_job(&d, dir, 1);
      answer(dir, 0, &turned);
      order_changes_nothing(&a, &turned);
      forget(&turned);
      if (i % 100 == 1) ranges_do_not_turn(&d, dir);
    }
    forget(&a);
    char path[300];
    snprintf(path, sizeof path, "%s/frame_lines.csv", dir);
    unlink(path);
  }
  static const char *const name[] = {"openings.csv", "packages.csv", "job.csv", "examples"};
  for (size_t k = 0; k < 4; k++) {
    char path[300];
    snprintf(path, sizeof path, "%s/%s", dir, name[k]);
    unlink(path);
  }
  rmdir(dir);
}

int main(void)
{
  const struct CMUnitTest tests[] = {cmocka_unit_test(whatever_a_job_holds)};
  pw_test_begin();
  return cmocka_run_group_tests(tests, NULL, NULL);
}
