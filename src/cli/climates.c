/* panewright climates: the built-in places, the one meant by a name or a position, its months. */
#include <stdio.h>
#include <stdlib.h>

#include "cli/command.h"
#include "climate/place_find.h"
#include "out/place_out.h"
#include "panewright/units.h"

/* Sun on the four walls of a place by month, kWh/m2, from its made year. */
static pw_status walls(const pw_place *p, double kwh[4][12], pw_err *err)
{
  pw_weather *w = malloc(sizeof *w);
  pw_sky_year *sky = malloc(sizeof *sky);
  pw_status status = w && sky ? PW_OK : pw_fail(err, PW_E_NOMEM, NULL, "no memory for a year");
  if (status == PW_OK) status = pw_month_year(p, PW_MONTH_VARIED_DAYS, w, err);
  if (status == PW_OK) status = pw_sky_of_year(w, PW_SKY_PEREZ, sky, err);
  for (int k = 0; k < 4 && status == PW_OK; k++)
    status = pw_month_facade(sky, &(pw_facade){90.0 * k, 90.0, PW_GROUND_ALBEDO}, kwh[k], err);
  free(w);
  free(sky);
  return status;
}

static void join_words(const cli_args *args, char text[200])
{
  size_t used = 0;
  text[0] = '\0';
  for (int i = 0; i < args->n_word && used < 200; i++)
    used += (size_t)snprintf(text + used, 200 - used, "%s%s", i ? " " : "", args->word[i]);
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  pw_status status;
  char text[200];
  const pw_place_print as = {args->format, args->si, stdout};
  join_words(args, text);
  if (cli_get(args, "like")) {
    status = pw_places_like_print(&as, text, &err);
  } else if (args->n_word == 0) {
    status = pw_places_print(&as, &err);
  } else {
    pw_place_hit hit;
    double kwh[4][12];
    pw_place place;
    status = pw_place_look(text, &hit, &err);
    if (status == PW_OK) status = pw_place_get(hit.index, &place, &err);
    if (status == PW_OK) status = walls(&place, kwh, &err);
    if (status == PW_OK) status = pw_place_months_print(&as, &place, &hit, kwh, &err);
  }
  return status == PW_OK ? cli_finish() : cli_fail(&err);
}

static const cli_option option[] = {
    {"like", NULL, "places that the text may become, a town or a ZIP code half written"},
    CLI_FORMAT,
    CLI_UNITS,
    CLI_END};
extern const cli_command cli_climates;
const cli_command cli_climates = {
    "climates",
    "[PLACE]",
    "built-in places; with a ZIP code, town or latitude,longitude: the one for it, by month",
    "PLACE is a ZIP code (92262), a town with its state (Palm Springs, CA; St George UT), "
    "words of a\n"
    "station's name, a station number, CA zone 12, or latitude,longitude. What is taken is "
    "said, with\n"
    "its distance, height and code zone.",
    option,
    0,
    6,
    run};
