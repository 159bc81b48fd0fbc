/* Findings and refusals of bills in words. */
#include <math.h>
#include <stdarg.h>
#include <stdio.h>

#include "base/date.h"
#include "meter/limits.h"
#include "out/bills_out.h"

const char *pw_bill_finding_word(pw_bill_finding_kind kind)
{
  static const char *const word[PW_BILL_FINDING_COUNT] = {"joined",        "estimate_dropped",
                                                          "estimate_last", "missing",
                                                          "gap",           "overlap",
                                                          "double",        "short",
                                                          "zero",          "corrected",
                                                          "solar",         "no_first_day",
                                                          "old",           "no_weather",
                                                          "outlier",       "read_error",
                                                          "occupancy",     "moved",
                                                          "season",        "scarce",
                                                          "balance_edge",  "split",
                                                          "last_day"};
  return (unsigned)kind < PW_BILL_FINDING_COUNT ? word[kind] : "?";
}

void pw_bill_day(int day, char text[11]) { pw_date_write(pw_date_of_day(day), text); }

#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
static void
say(char text[PW_BILL_TEXT], const char *format, ...)
{
  va_list list;
  va_start(list, format);
  vsnprintf(text, PW_BILL_TEXT, format, list);
  va_end(list);
}

/* A bill that the others do not bear, by how far it is off. */
static void say_outlier(const pw_bill_finding *f, char text[PW_BILL_TEXT])
{
  const char *as = f->value >= 2.6 && f->value < 3.5   ? "about three times"
                   : f->value >= 1.7 && f->value < 2.6 ? "about twice"
                   : f->value >= 0.4 && f->value < 0.6 ? "about half of"
                   : f->value > 1.0                    ? "above"
                                                       : "below";
  say(text,
      "%.2f times what the other bills say, %s it: a read error, a bill of more than its days, "
      "or a month unlike the others; left out",
      f->value, as);
}

static void say_solar(const pw_bill_finding *f, const char *unit, char text[PW_BILL_TEXT])
{
  if (isnan(f->value))
    say(text, "%zu bills lack the generation that the others give", f->count);
  else
    say(text, "%g %s, below 0: solar cells on the same meter", f->value, unit);
}

static void say_dropped(const pw_bill_finding *f, char text[PW_BILL_TEXT])
{
  int days = f->to - f->from;
  if (days > METER_LIMIT(join_days))
    say(text,
        "%zu bill%s up to the next actual read, %d days, of which %.0f at most are joined: "
        "what "
        "lies between was estimated; left out",
        f->count, f->count == 1 ? "" : "s", days, METER_LIMIT(join_days));
  else
    say(text, "estimated, and no actual read within 70 days closes it; left out");
}

/* How many runs of estimates were left out; days[0] the shortest, [1] the longest. */
static size_t dropped(const pw_meter_use *u, int days[2])
{
  size_t n = 0;
  for (size_t i = 0; i < u->findings.n; i++) {
    const pw_bill_finding *f = &u->findings.finding[i];
    if (f->kind != PW_BILL_ESTIMATE_DROPPED || !(f->to - f->from > METER_LIMIT(join_days)))
      continue;
    if (!n || f->to - f->from < days[0]) days[0] = f->to - f->from;
    if (!n || f->to - f->from > days[1]) days[1] = f->to - f->from;
    n++;
  }
  return n;
}

/* Few are left: why, where guesses between the reads took them. */
static void say_few(const pw_meter_use *u, char text[PW_BILL_TEXT])
{
  int days[2] = {0, 0};
  size_t n = dropped(u, days);
  if (n < 2) {
    say(text, "%zu usable bills; want 9 monthly or 6 longer ones, over 6 months at least",
        u->n_used);
    return;
  }
  say(text,
      "%zu usable bills; want 9 monthly or 6 longer ones. Between actual reads lie %d to %d "
      "days "
      "in %zu places, and over %.0f days a sum no longer follows the weather: with every "
      "second "
      "bill of two months a guess none is left; ask the utility for the reads between",
      u->n_used, days[0], days[1], n, METER_LIMIT(join_days));
}

void pw_bill_finding_say(const pw_bill_finding *f, const char *unit, char text[PW_BILL_TEXT])
{
  int days = f->to - f->from;
  switch (f->kind) {
  case PW_BILL_JOINED:
    say(text,
        "%zu bills joined up to the next actual read, %d days: what lies between was estimated",
        f->count, days);
    return;
  case PW_BILL_ESTIMATE_DROPPED:
    say_dropped(f, text);
    return;
  case PW_BILL_ESTIMATE_LAST:
    say(text, "the last bills are estimated, with no actual read after them; left out");
    return;
  case PW_BILL_MISSING:
    say(text, "missing, not read; kept as a gap");
    return;
  case PW_BILL_GAP:
    say(text, "a gap: no bill for %d day%s; kept as a gap", days, days == 1 ? "" : "s");
    return;
  case PW_BILL_OVERLAP:
    say(text, "bills overlap: %d day%s billed twice", days, days == 1 ? " is" : "s are");
    return;
  case PW_BILL_DOUBLE:
    say(text, "the same bill twice; taken once");
    return;
  case PW_BILL_SHORT:
    say(text, "a short bill of %d day%s; joined with its neighbour", days,
        days == 1 ? "" : "s");
    return;
  case PW_BILL_ZERO:
    say(text, f->value != 0.0 ? "a zero bill; left out" : "a zero bill: nothing was used");
    return;
  case PW_BILL_CORRECTED:
    say(text, "a negative bill makes good those before it; %zu bills joined", f->count);
    return;
  case PW_BILL_SOLAR:
    say_solar(f, unit, text);
    return;
  case PW_BILL_FIRST:
    say(text, "the first delivery fills what was used from a day not known; left out");
    return;
  case PW_BILL_OLD:
    say(text, "%zu bills begin more than 36 months before the last; left out", f->count);
    return;
  case PW_BILL_WEATHER:
    say(text, "weather for %.0f %% of its days, want 90 %%; left out", 100.0 * f->value);
    return;
  case PW_BILL_OUTLIER:
    say_outlier(f, text);
    return;
  case PW_BILL_READ_ERROR:
    say(text,
        "a read error: the read between these two bills was %.3g %s too %s, and the next one "
        "made it good; "
        "both left out",
        fabs(f->value), unit, f->value > 0.0 ? "high" : "low");
    return;
  case PW_BILL_OCCUPANCY:
    say(text,
        "the house is another one from this bill on (F %.1f): a change of occupancy, of "
        "equipment or of "
        "habits; only later bills are used, without this one",
        f->value);
    return;
  case PW_BILL_MOVED:
    say(text, "%zu bills before the day given; left out", f->count);
    return;
  case PW_BILL_SEASON:
    say(text, "the bills saw under a quarter of a normal year's %s",
        f->value != 0.0 ? "cooling season" : "heating season");
    return;
  case PW_BILL_SCARCE:
    say(text, "no 12 months in a row with one missing at most: the parts are less sure than "
              "the total");
    return;
  case PW_BILL_EDGE:
    say(text, "a %s term was not taken: its balance point lies at the edge of the days seen",
        f->value != 0.0 ? "cooling" : "heating");
    return;
  case PW_BILL_SPLIT:
    say(text, "one meter for heating and cooling: trust the total, not the split (the heating "
              "part is off by 25 to "
              "85 %% in trials)");
    return;
  case PW_BILL_LAST_DAY:
    say(text,
        "%zu bills end a day before the next begins: when `to` is the last day that a "
        "bill counts, write the day after it; else use a day comes out some 3 %% high",
        f->count);
    return;
  case PW_BILL_FINDING_COUNT:
    break;
  }
  text[0] = '\0';
}

static void say_weather(const pw_bills_report *r, pw_fuel fuel, char text[PW_BILL_TEXT])
{
  const pw_meter_use *u = &r->use[fuel];
  char from[11] = "", to[11] = "";
  if (u->n_period) {
    pw_bill_day(u->period[0].bill.from, from);
    pw_bill_day(u->period[u->n_period - 1].bill.to - 1, to);
  }
  say(text,
      "%s: fetch the daily means of the nearest station, %s to %s (GHCN-Daily, ISD-Lite, or "
      "date,t_mean_c), and give them by --weather",
      r->has_weather ? "the weather given does not cover the bills' days" : "no weather given",
      from, to);
}

void pw_bill_refusal_say(const pw_bills_report *r, pw_fuel fuel, char text[PW_BILL_TEXT])
{
  const pw_meter_use *u = &r->use[fuel];
  text[0] = '\0';
  switch (u->refused) {
  case PW_BILL_ACCEPTED:
    return;
  case PW_BILL_REFUSED_OVERLAP:
    say(text, "bills overlap, so that no sum of them is true; correct their dates");
    return;
  case PW_BILL_REFUSED_SOLAR:
    say(text,
        "solar cells on the same meter: what the meter shows is not what the house uses; want "
        "the generation of each bill's days (column generation)");
    return;
  case PW_BILL_REFUSED_FEW:
    say_few(u, text);
    return;
  case PW_BILL_REFUSED_WEATHER:
    say_weather(r, fuel, text);
    return;
  case PW_BILL_REFUSED_BREAK:
    say(text, "the house changed, and too few bills are left after the change");
    return;
  case PW_BILL_REFUSED_SEASON:
    say(text, "the bills did not see the season of the use that they would have to tell");
    return;
  case PW_BILL_REFUSED_EDGE:
    say(text,
        "use follows the weather, but its balance point lies at the edge of the days seen");
    return;
  case PW_BILL_REFUSED_SCATTER:
    say(text, "CV(RMSE) %.1f %%, want 25 %% at most: no weather model bears these bills",
        100.0 * u->fit.cv);
    return;
  case PW_BILL_REFUSAL_COUNT:
    return;
  }
}
