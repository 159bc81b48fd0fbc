/* The library in a host that knows nothing of it: GSL's own handler, which ends the program, is on; the locale writes 1,5; the
 * environment is empty; the working folder is another. Nothing of it may change what the library says. */
#include "support.h"

#include <gsl/gsl_errno.h>
#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "climate/month.h"
#include "house/wall.h"
#include "meter/least_squares.h"
#include "money/worth.h"
#include "panewright/glazing.h"
#include "panewright/house_facts.h"
#include "panewright/rates.h"
#include "panewright/year.h"
#include "study/sobol.h"
#include "study/surface.h"
#include "window/grille.h"

extern char **environ;

static int raised;
static void count(const char *reason, const char *file, int line, int code)
{
  (void)reason, (void)file, (void)line, (void)code;
  raised++;
}

/* Two inputs that say the same at 1e9: the normal matrix is not positive in double, its pivots say so. */
static void what_cannot_be_solved_comes_back_as_a_status(void **state)
{
  (void)state;
  enum { RUNS = 12, IN = 2 };
  double z[RUNS * IN], y[RUNS], focus = 1.0;
  for (int i = 0; i < RUNS; i++) {
    z[2 * i] = z[2 * i + 1] = 1e9 * (i - 5.5);
    y[i] = i;
  }
  surface s = {0};
  pw_err err = {0};
  assert_int_equal(surface_fit(z, y, RUNS, IN, 1, &focus, &s, &err), PW_E_CONVERGE);
  /* Without a film, a gap and a fin the four equations are none. */
  const double none[2] = {0.0, 0.0}, kt[2] = {1e-3, 1e-3};
  double flow[2], out;
  pw_grille_fins(none, kt, 0.0, 0.0, 0.0, 0.01, 0.06, flow, &out);
}

/* The handler that a host has set is its own again after every call, and none of ours reaches it. */
static void the_hosts_handler_is_held_off_and_given_back(void **state)
{
  (void)state;
  raised = 0;
  gsl_set_error_handler(count);
  what_cannot_be_solved_comes_back_as_a_status(NULL);
  double cash[] = {-100.0, 60.0, 60.0};
  pw_irr irr;
  assert_int_equal(pw_internal_rate(cash, 3, &irr, NULL), PW_OK);
  pw_assert_near(irr.rate, 0.130662, 1e-6, "rate",
                 "hand: 100 = 60 v + 60 v2, v = (sqrt(60^2 + 4 60 100) - 60) / 120");
  pw_sobol sobol;
  assert_int_equal(pw_sobol_init(&sobol, 3, 16, 1, NULL), PW_OK);
  const pw_wall_layers layers = {
      .n_layer = 1,
      .layer = {{.thickness = 0.1, .conductivity = 1.0, .density = 2000.0, .heat = 900.0}}};
  pw_wall wall;
  assert_int_equal(pw_wall_init(&layers, 3600.0, &wall, NULL), PW_OK);
  gsl_error_handler_t *mine = gsl_set_error_handler(NULL);
  assert_true(mine == count);
  assert_int_equal(raised, 0);
}

static unsigned long long bits(double v)
{
  unsigned long long b;
  memcpy(&b, &v, sizeof b);
  return b;
}

/* Everything that is words or comes of words, in one text. */
static void say(char *text, size_t size)
{
  static pw_weather weather;
  size_t used = 0, index = 0;
  pw_buildup b;
  pw_glazing glass;
  pw_err err = {0};
  char words[160];
#define ADD(...) used += (size_t)snprintf(text + used, size - used, __VA_ARGS__)
  assert_int_equal(
      pw_buildup_parse("4.7MM Clear coat AG2@2 / 12.7mm argon 62.5% / 1/8 in clear", &b, &err),
      PW_OK);
  assert_int_equal(pw_buildup_print(&b, words, sizeof words, &err), PW_OK);
  ADD("%s\n", words);
  assert_int_not_equal(pw_buildup_parse("0.1mm clear", &b, &err), PW_OK);
  ADD("%s\n", err.text);
  assert_int_not_equal(pw_buildup_parse("4.4mm tempered_thing", &b, &err), PW_OK);
  ADD("%s\n", err.text);
  assert_int_equal(pw_buildup_parse("3.1mm clear", &b, &err), PW_OK);
  assert_int_equal(pw_glazing_build(&b, &glass, &err), PW_OK);
  ADD("%llx %llx\n", bits(glass.u_winter), bits(glass.shgc[0]));
  assert_int_equal(pw_in_range(1.5, 2.5, 3.5, "u", " W", &err), PW_E_DOMAIN);
  ADD("%s\n", err.text);
  assert_int_equal(pw_plate_find("hspf"), PW_PLATE_HSPF); /* a Turkish i is no I */
  pw_given price;
  int year;
  unsigned notes = 0;
  const char *region;
  assert_int_equal(pw_state_price(PW_FUEL_GAS, "il", &price, &year, &region, &notes, NULL),
                   PW_OK);
  ADD("%s %llx\n", region, bits(price.value));
  assert_int_equal(pw_place_find("wichita", &index, NULL, &err), PW_OK);
  assert_int_equal(pw_place_year(index, &weather, &err), PW_OK);
  assert_int_equal(pw_place_find("40.58, -105.08", &index, NULL, &err), PW_OK);
  ADD("%zu\n", index);
  ADD("%zu %llx\n", index, bits((double)weather.hour[5000].t_air));
#undef ADD
}

static void locale_environment_and_folder_change_nothing(void **state)
{
  (void)state;
  static char plain[4096], theirs[4096];
  char folder[] = "/tmp/pw_host_XXXXXX", command[200], name[64], here[1024];
  say(plain, sizeof plain);
  assert_non_null(getcwd(here, sizeof here));
  assert_non_null(mkdtemp(folder));
  static char *none[] = {NULL};
  int tried = 0;
  static const char *const tongue[] = {"de_DE", "tr_TR"};
  for (size_t i = 0; i < 2; i++) {
    snprintf(command, sizeof command,
             "localedef -c -i %s -f UTF-8 %s/%s.UTF-8 2>/dev/null >/dev/null", tongue[i],
             folder, tongue[i]);
    if (system(command) != 0 && system("command -v localedef >/dev/null") != 0) continue;
    snprintf(name, sizeof name, "%s.UTF-8", tongue[i]);
    environ = none;
    setenv("LOCPATH", folder, 1);
    if (!setlocale(LC_ALL, name)) continue;
    tried++;
    assert_int_equal(chdir("/"), 0);
    snprintf(command, sizeof command, "%.1f", 1.5);
    assert_string_equal(command, "1,5"); /* the host's own */
    say(theirs, sizeof theirs);
    assert_string_equal(theirs, plain);
    setenv("PATH", "/usr/bin:/bin", 1);
    assert_int_equal(chdir(here), 0);
  }
  setlocale(LC_ALL, "C");
  snprintf(command, sizeof command, "rm -rf %s", folder);
  assert_int_equal(system(command), 0);
  if (!tried) skip();
}

int main(void)
{
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(what_cannot_be_solved_comes_back_as_a_status),
      cmocka_unit_test(the_hosts_handler_is_held_off_and_given_back),
      cmocka_unit_test(locale_environment_and_folder_change_nothing),
  };
  pw_test_begin();
  return cmocka_run_group_tests(tests, NULL, NULL);
}
