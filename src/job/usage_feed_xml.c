/* The XML of a usage feed, streamed (expat). Elements are known by their name without its prefix and in any
 * case, since feeds misspell it; a document type is refused, so that no entity can be declared. */
#include <expat.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "job/usage_feed_impl.h"

enum {
  DEPTH_MAX = 40,
  TEXT_MAX = 65536,
  WORD_MAX = 40,
  CHUNK = 1 << 20,
  READINGS_MAX = 4000000,
  ENTRIES_MAX = 12000
};

typedef enum word {
  W_OTHER = 0,
  W_ENTRY,
  W_USAGE_POINT,
  W_METER_READING,
  W_READING_TYPE,
  W_INTERVAL_BLOCK,
  W_INTERVAL_READING,
  W_LOCAL_TIME,
  W_SUMMARY,
  W_CONSUMPTION, /* overallConsumptionLastPeriod */
  W_BILLING_PERIOD,
  W_TIME_PERIOD,
  W_LINK,
  W_KIND,
  W_UOM,
  W_POWER,
  W_COMMODITY,
  W_FLOW,
  W_BEHAVIOUR,
  W_CURRENCY,
  W_START,
  W_DURATION,
  W_VALUE,
  W_COST,
  W_QUALITY,
  W_TZ,
  W_DST,
  W_DST_START,
  W_DST_END,
  W_COUNT
} word;

static const struct {
  const char *name;
  word is;
} known[] = {
    {"IntervalReading", W_INTERVAL_READING},
    {"timePeriod", W_TIME_PERIOD},
    {"start", W_START},
    {"duration", W_DURATION},
    {"value", W_VALUE},
    {"cost", W_COST},
    {"quality", W_QUALITY},
    {"entry", W_ENTRY},
    {"link", W_LINK},
    {"UsagePoint", W_USAGE_POINT},
    {"MeterReading", W_METER_READING},
    {"ReadingType", W_READING_TYPE},
    {"IntervalBlock", W_INTERVAL_BLOCK},
    {"LocalTimeParameters", W_LOCAL_TIME},
    {"UsageSummary", W_SUMMARY},
    {"ElectricPowerUsageSummary", W_SUMMARY},
    {"overallConsumptionLastPeriod", W_CONSUMPTION},
    {"billingPeriod", W_BILLING_PERIOD},
    {"kind", W_KIND},
    {"uom", W_UOM},
    {"powerOfTenMultiplier", W_POWER},
    {"commodity", W_COMMODITY},
    {"flowDirection", W_FLOW},
    {"accumulationBehaviour", W_BEHAVIOUR},
    {"currency", W_CURRENCY},
    {"tzOffset", W_TZ},
    {"dstOffset", W_DST},
    {"dstStartRule", W_DST_START},
    {"dstEndRule", W_DST_END},
};

typedef struct state {
  feed *f;
  XML_Parser parser;
  pw_err *err;
  pw_status status;
  int depth;
  word stack[DEPTH_MAX + 1];
  int open[W_COUNT]; /* how many elements of the word are open */
  size_t text_size;
  char text[WORD_MAX + 1]; /* of the innermost element */
  size_t n_text;
  feed_entry entry;
  feed_reading reading;
} state;

static void stop(state *s, pw_status status)
{
  s->status = status;
  XML_StopParser(s->parser, XML_FALSE);
}

#if defined(__GNUC__)
__attribute__((format(printf, 3, 4)))
#endif
static void
refuse(state *s, const char *what, const char *format, ...)
{
  char text[200];
  va_list list;
  va_start(list, format);
  vsnprintf(text, sizeof text, format, list);
  va_end(list);
  if (s->status != PW_OK) return;
  stop(s, pw_fail_at(s->err, PW_E_DATA, s->f->name, (int)XML_GetCurrentLineNumber(s->parser),
                     (int)XML_GetCurrentColumnNumber(s->parser) + 1, "%s%s%s", what,
                     what[0] ? ": " : "", text));
}

static word find(const char *name)
{
  const char *colon = strrchr(name, ':');
  if (colon) name = colon + 1;
  for (size_t i = 0; i < sizeof known / sizeof known[0]; i++)
    if ((name[0] | 32) == (known[i].name[0] | 32) && strcasecmp(name, known[i].name) == 0)
      return known[i].is;
  return W_OTHER;
}

static feed_kind kind_of(word w)
{
  switch (w) {
  case W_USAGE_POINT:
    return FEED_USAGE_POINT;
  case W_METER_READING:
    return FEED_METER;
  case W_READING_TYPE:
    return FEED_TYPE;
  case W_INTERVAL_BLOCK:
    return FEED_BLOCK;
  case W_LOCAL_TIME:
    return FEED_CLOCK;
  case W_SUMMARY:
    return FEED_SUMMARY;
  default:
    return FEED_NOTHING;
  }
}

static void take_link(state *s, const char **attribute)
{
  const char *rel = "", *href = "";
  feed_entry *e = &s->entry;
  for (; attribute[0]; attribute += 2) {
    if (strcmp(attribute[0], "rel") == 0) rel = attribute[1];
    if (strcmp(attribute[0], "href") == 0) href = attribute[1];
  }
  if (strlen(href) >= FEED_HREF) {
    refuse(s, "link", "a reference of %zu bytes, want less than %d", strlen(href), FEED_HREF);
    return;
  }
  if (strcasecmp(rel, "self") == 0) snprintf(e->self, FEED_HREF, "%s", href);
  if (strcasecmp(rel, "up") == 0) snprintf(e->up, FEED_HREF, "%s", href);
  if (strcasecmp(rel, "related") == 0 && e->n_related < FEED_LINKS)
    snprintf(e->related[e->n_related++], FEED_HREF, "%s", href);
}

static void clear_entry(state *s)
{
  s->entry = (feed_entry){.service = -1,
                          .uom = -1,
                          .power = FEED_NO_POWER,
                          .commodity = -1,
                          .flow = -1,
                          .behaviour = -1,
                          .currency = -1,
                          .start = (double)NAN,
                          .duration = (double)NAN,
                          .value = (double)NAN};
  s->entry.line = (int)XML_GetCurrentLineNumber(s->parser);
}

static void clear_reading(state *s)
{
  s->reading = (feed_reading){(double)NAN,
                              (double)NAN,
                              (double)NAN,
                              0,
                              (int32_t)s->f->n_entry,
                              (int32_t)XML_GetCurrentLineNumber(s->parser),
                              -1};
}

static void XMLCALL on_start(void *data, const XML_Char *name, const XML_Char **attribute)
{
  state *s = data;
  word w = find(name);
  if (s->status != PW_OK) return;
  if (++s->depth > DEPTH_MAX) {
    refuse(s, "", "elements nested deeper than %d", DEPTH_MAX);
    return;
  }
  s->stack[s->depth] = w;
  s->open[w]++;
  s->n_text = s->text_size = 0;
  /* Feeds without entries hold the elements as they are. */
  if (w == W_ENTRY || (kind_of(w) && !s->open[W_ENTRY])) clear_entry(s);
  if (kind_of(w)) s->entry.kind = kind_of(w);
  if (w == W_LINK) take_link(s, attribute);
  if (w == W_INTERVAL_READING) clear_reading(s);
}

static void XMLCALL on_text(void *data, const XML_Char *text, int size)
{
  state *s = data;
  if (s->status != PW_OK) return;
  s->text_size += (size_t)size;
  if (s->text_size > TEXT_MAX) {
    refuse(s, "", "a text of over %d bytes in one element", TEXT_MAX);
    return;
  }
  for (int i = 0; i < size && s->n_text < WORD_MAX; i++)
    s->text[s->n_text++] = text[i];
}

/* A plain decimal number of the innermost text, blanks around. */
static int number(const state *s, double *v)
{
  const char *p = s->text, *end = p + s->n_text;
  double x = 0.0, place = 1.0;
  int minus = 0, digits = 0;
  while (p < end && (*p == ' ' || *p == '\n' || *p == '\t' || *p == '\r'))
    p++;
  while (end > p && (end[-1] == ' ' || end[-1] == '\n' || end[-1] == '\t' || end[-1] == '\r'))
    end--;
  if (p < end && (*p == '-' || *p == '+')) minus = *p++ == '-';
  for (; p < end && *p >= '0' && *p <= '9'; p++, digits++)
    x = 10.0 * x + (*p - '0');
  if (p < end && *p == '.')
    for (p++; p < end && *p >= '0' && *p <= '9'; p++, digits++)
      x += (*p - '0') * (place *= 0.1);
  if (p != end || !digits || digits > 18) return 0;
  *v = minus ? -x : x;
  return 1;
}

static double number_in(state *s, const char *what, double low, double high)
{
  double v = (double)NAN;
  s->text[s->n_text] = '\0';
  if (!number(s, &v) || !(v >= low && v <= high)) {
    refuse(s, what, "found '%.30s', want a number of %.12g to %.12g", s->text, low, high);
    return low;
  }
  return v;
}

static int code(state *s, const char *what) { return (int)number_in(s, what, -1e6, 1e6); }

static uint32_t rule(state *s, const char *what)
{
  char *end;
  s->text[s->n_text] = '\0';
  unsigned long v = strtoul(s->text, &end, 16);
  if (end == s->text || *end || v > 0xFFFFFFFFul || s->text[0] == '-') {
    refuse(s, what, "found '%.30s', want eight hexadecimal digits", s->text);
    return 0;
  }
  return (uint32_t)v;
}

/* Seconds since 1970 of the years 1980 to 2110; a fraction is dropped. */
static double instant(state *s)
{
  return floor(number_in(s, "start", 315532800.0, 4417977600.0));
}

static void take_in_reading(state *s, word w)
{
  feed_reading *r = &s->reading;
  switch (w) {
  case W_START:
    r->start = instant(s);
    return;
  case W_DURATION:
    r->duration = (int32_t)number_in(s, "duration", 0.0, 4e7);
    return;
  case W_VALUE:
    r->value = number_in(s, "value", -1e15, 1e15);
    return;
  case W_COST:
    r->cost = number_in(s, "cost", -1e15, 1e15);
    return;
  case W_QUALITY:
    r->quality = (int16_t)number_in(s, "quality", 0.0, 30000.0);
    return;
  default:
    return;
  }
}

static void take_in_entry(state *s, word w)
{
  feed_entry *e = &s->entry;
  feed_clock *c = &s->f->clock;
  int type = e->kind == FEED_TYPE || (e->kind == FEED_SUMMARY && s->open[W_CONSUMPTION]);
  int summary = e->kind == FEED_SUMMARY;
  switch (w) {
  case W_KIND:
    if (e->kind == FEED_USAGE_POINT) e->service = code(s, "kind");
    return;
  case W_UOM:
    if (type) e->uom = code(s, "uom");
    return;
  case W_POWER:
    if (type) e->power = (int)number_in(s, "powerOfTenMultiplier", -12.0, 12.0);
    return;
  case W_COMMODITY:
    e->commodity = code(s, "commodity");
    return;
  case W_FLOW:
    e->flow = code(s, "flowDirection");
    return;
  case W_BEHAVIOUR:
    e->behaviour = code(s, "accumulationBehaviour");
    return;
  case W_CURRENCY:
    e->currency = code(s, "currency");
    return;
  case W_START:
    if (summary && s->open[W_BILLING_PERIOD]) e->start = instant(s);
    return;
  case W_DURATION:
    if (summary && s->open[W_BILLING_PERIOD]) e->duration = number_in(s, "duration", 0.0, 4e7);
    return;
  case W_VALUE:
    if (summary && s->open[W_CONSUMPTION]) e->value = number_in(s, "value", -1e15, 1e15);
    return;
  case W_TZ:
    c->said = 1;
    c->tz_s = number_in(s, "tzOffset", -50400.0, 50400.0);
    return;
  case W_DST:
    c->dst_s = number_in(s, "dstOffset", 0.0, 7200.0);
    return;
  case W_DST_START:
    c->start_rule = rule(s, "dstStartRule");
    return;
  case W_DST_END:
    c->end_rule = rule(s, "dstEndRule");
    return;
  default:
    return;
  }
}

/* Room for one more of an array; 0 when there is none. */
static int room(void **array, size_t n, size_t *have, size_t size)
{
  if (n < *have) return 1;
  size_t more = *have ? 2 * *have : 64;
  void *to = realloc(*array, more * size);
  if (!to) return 0;
  *array = to;
  *have = more;
  return 1;
}

static void no_memory(state *s)
{
  stop(s, pw_fail(s->err, PW_E_NOMEM, NULL, "no memory for a usage feed"));
}

static void close_reading(state *s)
{
  feed *f = s->f;
  if (isnan(s->reading.start) || isnan(s->reading.value)) {
    refuse(s, "IntervalReading", "no %s", isnan(s->reading.start) ? "start" : "value");
    return;
  }
  if (f->n_reading >= READINGS_MAX) {
    refuse(s, "", "more than %d readings", READINGS_MAX);
    return;
  }
  void *array = f->reading;
  if (!room(&array, f->n_reading, &f->reading_room, sizeof *f->reading)) {
    no_memory(s);
    return;
  }
  f->reading = array;
  f->reading[f->n_reading++] = s->reading;
}

static void close_entry(state *s)
{
  feed *f = s->f;
  if (!s->entry.kind) return;
  if (f->n_entry >= ENTRIES_MAX) {
    refuse(s, "", "more than %d entries", ENTRIES_MAX);
    return;
  }
  void *array = f->entry;
  if (!room(&array, f->n_entry, &f->entry_room, sizeof *f->entry)) {
    no_memory(s);
    return;
  }
  f->entry = array;
  f->entry[f->n_entry++] = s->entry;
  s->entry.kind = FEED_NOTHING;
}

static void XMLCALL on_end(void *data, const XML_Char *name)
{
  state *s = data;
  (void)name;
  if (s->status != PW_OK) return;
  word w = s->stack[s->depth--];
  if (w != W_OTHER && w != W_LINK) {
    if (s->open[W_INTERVAL_READING])
      take_in_reading(s, w);
    else
      take_in_entry(s, w);
  }
  s->open[w]--;
  s->n_text = s->text_size = 0;
  if (s->status != PW_OK) return;
  if (w == W_INTERVAL_READING) close_reading(s);
  if (w == W_ENTRY || (kind_of(w) && !s->open[W_ENTRY])) close_entry(s);
}

static void XMLCALL on_doctype(void *data, const XML_Char *name, const XML_Char *system,
                               const XML_Char *id, int subset)
{
  (void)name, (void)system, (void)id, (void)subset;
  refuse(data, "", "a document type (DTD), which no usage feed has");
}

pw_status feed_read(const char *name, const char *text, size_t size, feed *f, pw_err *err)
{
  state *s = calloc(1, sizeof *s);
  XML_Parser parser = XML_ParserCreate(NULL);
  *f = (feed){.name = name};
  if (!s || !parser) {
    if (parser) XML_ParserFree(parser);
    free(s);
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a usage feed");
  }
  s->f = f;
  s->parser = parser;
  s->err = err;
  clear_entry(s);
  XML_SetUserData(parser, s);
  XML_SetElementHandler(parser, on_start, on_end);
  XML_SetCharacterDataHandler(parser, on_text);
  XML_SetStartDoctypeDeclHandler(parser, on_doctype);
  pw_status status = PW_OK;
  for (size_t at = 0; status == PW_OK && at <= size; at += CHUNK) {
    size_t n = size - at < CHUNK ? size - at : CHUNK;
    if (XML_Parse(parser, text + at, (int)n, at + CHUNK > size) == XML_STATUS_ERROR) {
      status = s->status;
      if (status == PW_OK)
        status =
            pw_fail_at(err, PW_E_DATA, name, (int)XML_GetCurrentLineNumber(parser),
                       (int)XML_GetCurrentColumnNumber(parser) + 1, "no well-formed XML: %s",
                       XML_ErrorString(XML_GetErrorCode(parser)));
    }
    if (s->status != PW_OK) status = s->status;
  }
  XML_ParserFree(parser);
  free(s);
  if (status != PW_OK) feed_free(f);
  return status;
}

void feed_free(feed *f)
{
  free(f->entry);
  free(f->reading);
  *f = (feed){.name = NULL};
}
