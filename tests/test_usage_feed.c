/* A utility's usage feed: the two of reference/checks/bills (made for it), feeds made here, and hostile
 * ones. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/date.h"
#include "job/input_text.h"
#include "job/usage_feed.h"
#include "made_text.h"

static const pw_feed_options plain = {NAN, NULL, 0};

static pw_status parse(const char *text, const pw_feed_options *o, pw_bills *b, pw_err *err)
{
  pw_notes notes = {0};
  pw_status status = pw_feed_parse("feed.xml", text, strlen(text), o, b, &notes, err);
  pw_notes_free(&notes);
  return status;
}

static char *read_file(const char *name)
{
  char path[200], *text = NULL;
  size_t size;
  snprintf(path, sizeof path, "reference/checks/bills/%s", name);
  if (pw_input_read(path, PW_INPUT_FEED, &text, &size, NULL) != PW_OK) fail_msg("%s", path);
  return text;
}

/* ESPI.md: 24 bills of house v1, 870.2 therm in all; the dates are those of bills_visible.csv. */
static void the_gas_feed_is_the_house(void **state)
{
  (void)state;
  char *text = read_file("espi_gas_monthly.xml");
  pw_bills b;
  double sum = 0.0;
  assert_int_equal(parse(text, &plain, &b, NULL), PW_OK);
  const pw_bills_fuel *g = &b.fuel[PW_FUEL_GAS];
  assert_int_equal(g->n, 24);
  assert_string_equal(g->unit, "therm");
  for (size_t i = 0; i < g->n; i++) {
    sum += g->row[i].amount;
    if (i) assert_int_equal(g->row[i].from, g->row[i - 1].to);
  }
  pw_assert_near(sum, 870.2, 1e-9, "sum", "ESPI.md");
  assert_int_equal(g->row[0].from, pw_date_day(20210209));
  assert_int_equal(g->row[0].to, pw_date_day(20210310));
  assert_int_equal(g->row[23].to, pw_date_day(20230203));
  pw_bills_free(&b);
  free(text);
}

/* ESPI.md: 31 days of March 2022 over a change of clocks, 930.305 kWh. */
static void the_electric_feed_is_march(void **state)
{
  (void)state;
  char *text = read_file("espi_electric_daily.xml");
  pw_bills b;
  assert_int_equal(parse(text, &plain, &b, NULL), PW_OK);
  const pw_bills_fuel *e = &b.fuel[PW_FUEL_ELECTRICITY];
  assert_int_equal(e->n, 1);
  assert_string_equal(e->unit, "kWh");
  assert_int_equal(e->row[0].from, pw_date_day(20220301));
  assert_int_equal(e->row[0].to, pw_date_day(20220401));
  pw_assert_near(e->row[0].amount, 930.305, 1e-9, "sum", "ESPI.md");
  pw_bills_free(&b);
  free(text);
}

/* ---- feeds made here */

/* start of local standard time UTC-5, with or without the clock of the north-east. */
typedef struct form {
  int clock, register_reads, links, reverse, flow, uom, power;
  const char *prefix;
} form;

static const form usual = {
    .clock = 1, .links = 1, .flow = 1, .uom = 72, .power = 0, .prefix = ""};

static void head(const form *f)
{
  const char *p = f->prefix;
  made_size = 0;
  put("<?xml version='1.0'?><feed xmlns='urn:atom' xmlns:q='urn:usage'>");
  if (f->clock)
    put("<entry><content><%sLocalTimeParameters><%sdstEndRule>B40E2000</%sdstEndRule>"
        "<%sdstOffset>3600</%sdstOffset><%sdstStartRule>360E2000</%sdstStartRule>"
        "<%stzOffset>-18000</%stzOffset></%sLocalTimeParameters></content></entry>",
        p, p, p, p, p, p, p, p, p, p);
}

static void meter(const form *f, int number, int commodity)
{
  const char *p = f->prefix;
  if (f->links) put("<entry><link rel='self' href='R/%d'/>", number);
  if (!f->links) put("<entry>");
  put("<content><%sReadingType><%saccumulationBehaviour>%d</%saccumulationBehaviour>"
      "<%scommodity>%d</%scommodity><%sflowDirection>%d</%sflowDirection>"
      "<%spowerOfTenMultiplier>%d</%spowerOfTenMultiplier><%suom>%d</%suom></%sReadingType></"
      "content></entry>",
      p, p, f->register_reads ? 1 : 4, p, p, commodity, p, p, f->flow, p, p, f->power, p, p,
      f->uom, p, p);
  if (f->links)
    put("<entry><link rel='self' href='M/%d'/><link rel='related' href='M/%d/I'/>"
        "<link rel='related' href='R/%d'/><content><%sMeterReading/></content></entry>",
        number, number, number, p);
}

static void block(const form *f, int number)
{
  put("<entry>");
  if (f->links) put("<link rel='up' href='M/%d/I'/>", number);
  put("<content><%sIntervalBlock>", f->prefix);
}

static void reading(const form *f, double from, int length, double value)
{
  const char *p = f->prefix;
  put("<%sIntervalReading><%stimePeriod><%sduration>%d</%sduration><%sstart>%.0f</%sstart></"
      "%stimePeriod>"
      "<%svalue>%.10g</%svalue></%sIntervalReading>",
      p, p, p, length, p, p, from, p, p, p, value, p, p);
}

static void end_block(const form *f) { put("</%sIntervalBlock></content></entry>", f->prefix); }

/* Hours of October to December 2024 at UTC-5, each 1000 + its number; over the end of summer time. */
static void hours(const form *f, int number)
{
  double first = 86400.0 * pw_date_day(20241001) + 4.0 * 3600.0, sum = 0.0;
  int n = 92 * 24 + 1;
  block(f, number);
  for (int i = 0; i < n; i++) {
    double v = 1000.0 + i;
    reading(f, first + 3600.0 * i, 3600, f->register_reads ? sum : v);
    sum += v;
  }
  if (f->register_reads) reading(f, first + 3600.0 * n, 0, sum);
  end_block(f);
}

/* October has 744 hours in summer time; 3 November has 25, so November has 721, December 744. */
static void are_the_months(const pw_bills *b)
{
  static const int month[4] = {20241001, 20241101, 20241201, 20250101};
  static const int count[3] = {744, 721, 744};
  const pw_bills_fuel *e = &b->fuel[PW_FUEL_ELECTRICITY];
  int i = 0;
  assert_int_equal(e->n, 3);
  for (int m = 0; m < 3; m++) {
    double want = 0.0;
    for (int k = 0; k < count[m]; k++)
      want += 1000.0 + i++;
    assert_int_equal(e->row[m].from, pw_date_day(month[m]));
    assert_int_equal(e->row[m].to, pw_date_day(month[m + 1]));
    pw_assert_near(e->row[m].amount, 1e-3 * want, 1e-6, "kWh", "sum by hand");
  }
}

static void hours_become_months(void **state)
{
  (void)state;
  for (int k = 0; k < 5; k++) {
    form f = usual;
    if (k == 1) f.prefix = "q:";
    if (k == 2) f.links = 0;
    if (k == 3) f.register_reads = 1;
    head(&f);
    /* The blocks may stand before what they are tied to. */
    if (k == 4) hours(&f, 1);
    meter(&f, 1, 1);
    if (k != 4) hours(&f, 1);
    put("</feed>");
    pw_bills b;
    pw_err err = {0};
    if (parse(made, &plain, &b, &err) != PW_OK) fail_msg("%d: %s", k, err.text);
    are_the_months(&b);
    pw_bills_free(&b);
  }
}

/* Powers of ten and units: 1 therm is 100 000 Btu. */
static void values_have_their_unit(void **state)
{
  (void)state;
  static const struct {
    int uom, power;
    double value, amount;
    const char *unit, *asked;
  } row[] = {{169, 0, 55, 55, "therm", NULL},       {169, -3, 55800, 55.8, "therm", NULL},
             {132, 0, 5.58e6, 55.8, "therm", NULL}, {119, 0, 5400, 54, "ccf", NULL},
             {42, 1, 15, 150, "m3", NULL},          {0, 0, 55, 55, "therm", "therm"}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    form f = usual;
    pw_feed_options o = {NAN, row[i].asked, 0};
    pw_bills b;
    pw_err err = {0};
    f.uom = row[i].uom;
    f.power = row[i].power;
    head(&f);
    meter(&f, 1, 7);
    block(&f, 1);
    reading(&f, 86400.0 * pw_date_day(20240110) + 5 * 3600, 30 * 86400, row[i].value);
    end_block(&f);
    put("</feed>");
    if (parse(made, &o, &b, &err) != PW_OK) fail_msg("%zu: %s", i, err.text);
    assert_string_equal(b.fuel[PW_FUEL_GAS].unit, row[i].unit);
    pw_assert_near(b.fuel[PW_FUEL_GAS].row[0].amount, row[i].amount, 1e-9, "amount", "by hand");
    assert_int_equal(b.fuel[PW_FUEL_GAS].row[0].from, pw_date_day(20240110));
    assert_int_equal(b.fuel[PW_FUEL_GAS].row[0].to, pw_date_day(20240209));
    pw_bills_free(&b);
  }
}

/* Two meters are never added; what flows back makes the meter one of a house with cells. */
static void meters_are_never_added(void **state)
{
  (void)state;
  form f = usual, back = usual;
  pw_bills b;
  pw_err err = {0};
  back.flow = 19;
  for (int k = 0; k < 2; k++) {
    head(&f);
    meter(&f, 1, 1);
    meter(k ? &back : &f, 2, 1);
    hours(&f, 1);
    hours(&f, 2);
    put("</feed>");
    pw_status status = parse(made, &plain, &b, &err);
    assert_int_equal(status, k ? PW_OK : PW_E_DATA);
    if (k) are_the_months(&b);
    if (k) assert_int_equal(b.fuel[PW_FUEL_ELECTRICITY].solar, 1);
    if (!k) assert_non_null(strstr(err.text, "--meter"));
    pw_bills_free(&b);
  }
  const pw_feed_options second = {NAN, NULL, 2};
  assert_int_equal(parse(made, &second, &b, NULL), PW_OK);
  are_the_months(&b);
  pw_bills_free(&b);
}

static void doubles_and_gaps_are_seen(void **state)
{
  (void)state;
  form f = usual;
  pw_bills b;
  pw_err err = {0};
  head(&f);
  meter(&f, 1, 1);
  hours(&f, 1);
  hours(&f, 1); /* the same block again */
  put("</feed>");
  assert_int_equal(parse(made, &plain, &b, NULL), PW_OK);
  are_the_months(&b);
  pw_bills_free(&b);
  /* A month that lacks a week of hours is no sum of a month. */
  double first = 86400.0 * pw_date_day(20240101) + 5.0 * 3600.0;
  head(&f);
  meter(&f, 1, 1);
  block(&f, 1);
  for (int i = 0; i < 31 * 24; i++)
    if (i < 240 || i >= 408) reading(&f, first + 3600.0 * i, 3600, 500);
  end_block(&f);
  put("</feed>");
  assert_int_equal(parse(made, &plain, &b, NULL), PW_OK);
  assert_int_equal(b.fuel[0].row[0].read, PW_READ_MISSING);
  pw_bills_free(&b);
  head(&f);
  meter(&f, 1, 1);
  block(&f, 1);
  reading(&f, first, 3600, 500);
  reading(&f, first + 1800, 3600, 500);
  end_block(&f);
  put("</feed>");
  assert_int_equal(parse(made, &plain, &b, &err), PW_E_DATA);
  assert_non_null(strstr(err.text, "before the one before it ends"));
}

static void a_summary_stands_in(void **state)
{
  (void)state;
  pw_bills b;
  assert_int_equal(parse("<feed><entry><content><UsageSummary><billingPeriod><duration>2592000<"
                         "/duration><start>"
                         "1704862800</start></"
                         "billingPeriod><overallConsumptionLastPeriod><powerOfTenMultiplier>3"
                         "</powerOfTenMultiplier><uom>72</uom><value>612</value></"
                         "overallConsumptionLastPeriod>"
                         "</UsageSummary></content></entry></feed>",
                         &plain, &b, NULL),
                   PW_OK);
  assert_int_equal(b.fuel[0].n, 1);
  pw_assert_near(b.fuel[0].row[0].amount, 612.0, 1e-9, "kWh", "by hand");
  assert_int_equal(b.fuel[0].row[0].from, pw_date_day(20240110));
  assert_int_equal(b.fuel[0].row[0].to, pw_date_day(20240209));
  pw_bills_free(&b);
}

static char *repeat(const char *before, const char *what, size_t n, const char *after)
{
  size_t k = strlen(what), a = strlen(before);
  char *t = malloc(a + n * k + strlen(after) + 1);
  assert_non_null(t);
  memcpy(t, before, a);
  for (size_t i = 0; i < n; i++)
    memcpy(t + a + i * k, what, k);
  strcpy(t + a + n * k, after);
  return t;
}

/* Each is one line, in a moment, and leaves nothing. */
static void hostile_feeds_are_refused(void **state)
{
  (void)state;
  char *deep = repeat("<feed>", "<a>", 200000, ""),
       *huge = repeat("<feed><value>", "1", 3000000, "");
  char *link = repeat("<feed><link rel='self' href='", "x", 100000, "'/></feed>");
  const struct {
    const char *text, *words;
  } row[] = {
      {"<!DOCTYPE f [<!ENTITY a 'aaaa'><!ENTITY b '&a;&a;&a;'>]><feed>&b;</feed>", "DTD"},
      {"<!DOCTYPE f SYSTEM 'file:///etc/passwd'><feed/>", "DTD"},
      {"<feed>&x;</feed>", "no well-formed XML"},
      {deep, "nested deeper"},
      {huge, "a text of over"},
      {link, "a reference of"},
      {"<feed><entry>", "no well-formed XML"},
      {"<feed></wrong>", "no well-formed XML"},
      {"<", "no well-formed XML"},
      {"<html><body>Please log in</body></html>", "no reading"},
      {"<feed><IntervalBlock><IntervalReading><value>x</value></IntervalReading></"
       "IntervalBlock></feed>",
       "value: found 'x'"},
      {"<feed><IntervalBlock><IntervalReading><value>1e9</value></IntervalReading></"
       "IntervalBlock></feed>",
       "value: found '1e9'"},
      {"<feed><IntervalBlock><IntervalReading><timePeriod><start>-5</start></timePeriod></"
       "IntervalReading>"
       "</IntervalBlock></feed>",
       "start"},
      {"<feed><IntervalBlock><IntervalReading><value>5</value></IntervalReading></"
       "IntervalBlock></feed>",
       "no start"},
      {"<feed><IntervalBlock><IntervalReading><timePeriod><start>1704862800</start></"
       "timePeriod><value>5"
       "</value></IntervalReading></IntervalBlock></feed>",
       "commodity"}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_bills b;
    pw_err err = {0};
    if (parse(row[i].text, &plain, &b, &err) != PW_E_DATA)
      fail_msg("taken: %.80s", row[i].text);
    if (!strstr(err.text, row[i].words)) fail_msg("%.80s -> %s", row[i].text, err.text);
    assert_null(strchr(err.text, '\n'));
    for (int f = 0; f < PW_FUEL_COUNT; f++)
      assert_null(b.fuel[f].row);
  }
  free(deep);
  free(huge);
  free(link);
}

/* Cut anywhere, a feed is read or refused, never followed past its end. */
static void a_cut_feed_is_refused(void **state)
{
  (void)state;
  char *text = read_file("espi_gas_monthly.xml");
  size_t whole = strlen(text);
  pw_notes notes = {0};
  for (size_t n = 0; n + 8 < whole; n += 97) {
    pw_bills b;
    char *part = malloc(n ? n : 1);
    assert_non_null(part);
    memcpy(part, text, n);
    assert_int_equal(pw_feed_parse("feed.xml", part, n, &plain, &b, &notes, NULL), PW_E_DATA);
    free(part);
  }
  pw_notes_free(&notes);
  free(text);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_gas_feed_is_the_house), cmocka_unit_test(the_electric_feed_is_march),
      cmocka_unit_test(hours_become_months),       cmocka_unit_test(values_have_their_unit),
      cmocka_unit_test(meters_are_never_added),    cmocka_unit_test(doubles_and_gaps_are_seen),
      cmocka_unit_test(a_summary_stands_in),       cmocka_unit_test(hostile_feeds_are_refused),
      cmocka_unit_test(a_cut_feed_is_refused)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
