/* job.csv: item,value,note rows; the house, its systems and its prices. */
#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/date.h"
#include "base/nearest.h"
#include "base/state.h"
#include "gen/reference.h"
#include "house/airing.h"
#include "house/duct.h"
#include "house/infiltration.h"
#include "job/field_list.h"
#include "job/house_words.h"
#include "job/number.h"
#include "job/survey.h"
#include "job/unknown.h"
#include "job/words.h"
#include "panewright/rates.h"
#include "panewright/units.h"

#define AT(member) .offset = offsetof(pw_house_facts, member)
#define TEXT(name_, member, default_, said)                                                    \
  JOB_TEXT_AT(pw_house_facts, name_, member, default_, said)
#define CHOICE(name_, member, words, default_, said)                                           \
  {                                                                                            \
    .name = name_, .kind = JOB_CHOICE, AT(member),                                             \
    .size = sizeof((pw_house_facts *)0)->member, .blank = default_, .why = said,               \
    .word = words, .n_word = JOB_COUNT(words)                                                  \
  }
#define WORD(name_, member, words, default_, said)                                             \
  {                                                                                            \
    .name = name_, .kind = JOB_WORD, AT(member), .blank = default_, .why = said,               \
    .word = words, .n_word = JOB_COUNT(words)                                                  \
  }
#define GIVEN(name_, member, units, low_, high_, default_, said)                               \
  {                                                                                            \
    .name = name_, .kind = JOB_GIVEN, AT(member), .low = low_, .high = high_,                  \
    .blank = default_, .why = said, .unit = units, .n_unit = JOB_COUNT(units)                  \
  }
#define NUMBER(name_, member, units, low_, high_, default_, said)                              \
  {                                                                                            \
    .name = name_, .kind = JOB_NUMBER, AT(member), .low = low_, .high = high_,                 \
    .blank = default_, .why = said, .unit = units, .n_unit = JOB_COUNT(units)                  \
  }
#define FLAG3(name_, member)                                                                   \
  {                                                                                            \
    .name = name_, .kind = JOB_FLAG, AT(member), .low = -1.0, .blank = "unknown", .why = ""    \
  }

/* Every item, in the order in which they are read. What the house presets fill in (wall, roof, floor,
 * envelope, air changes) they list themselves, with the value. */
static const job_field item[] = {
    TEXT("job", job, "untitled", ""),
    TEXT("customer", customer, "", NULL),
    TEXT("place", place_label, "", NULL),
    TEXT("contractor", contractor, "", NULL),
    TEXT("climate", climate, NULL, NULL),
    TEXT("state", state, "", "unknown; average prices of the country"),
    {.name = "year_built",
     .kind = JOB_INTEGER,
     AT(year_built),
     .low = 1700,
     .high = 2100,
     .blank = "",
     .why = "unknown; the cautions ask"},
    {.name = "storeys",
     .kind = JOB_INTEGER,
     AT(storeys),
     .low = 1,
     .high = 5,
     .blank = "1",
     .why = "assumed"},
    GIVEN("floor_area", floor_area, area, 10.0, 5000.0, "1600 ft2", "assumed"),
    GIVEN("ceiling_height", ceiling_height, height, 1.8, 8.0, "8 ft", "assumed"),
    TEXT("wall", wall, "", NULL),
    TEXT("roof", roof, "", NULL),
    TEXT("floor", floor, "", NULL),
    GIVEN("envelope_ua", envelope_ua, ua, 5.0, 10000.0, "", NULL),
    GIVEN("air_changes", air_changes, per_hour, 0.02, 5.0, "", NULL),
    WORD("infiltration", infiltration, infiltration, "constant", NULL),
    WORD("coverings", covering, coverings, "usual", NULL),
    WORD("airing", airing, airing, "by_plant", NULL),
    GIVEN("cfm50", cfm50, air_flow, 0.02, 20.0, "", NULL),
    GIVEN("cfm50_taped", cfm50_taped, air_flow, 0.01, 20.0, "", NULL),
    CHOICE("mass", mass, mass, "light", "framed house"),
    CHOICE("heating", heating_kind, heating_kind, "furnace", "assumed"),
    WORD("heating_fuel", heating_fuel, fuel, "gas", "assumed"),
    GIVEN("heating_efficiency", heating_efficiency, heat_eff, 0.3, 6.0, "0.80 AFUE",
          "existing furnace, table money, memory"),
    CHOICE("cooling", cooling_kind, cooling_kind, "central", "assumed"),
    GIVEN("cooling_efficiency", cooling_cop, cool_eff, 1.2, 9.0, "13 SEER",
          "federal minimum 2006 to 2014, table money, memory"),
    WORD("ducts", ducts, ducts, "unsaid", NULL),
    GIVEN("duct_efficiency", duct_efficiency, job_share, 0.3, 1.0, "1",
          "no duct loss counted, the smaller saving"),
    GIVEN("heat_set", heat_set_c, degree, 5.0, 30.0, "69.6 F",
          "the mean of surveys of homes, memory"),
    GIVEN("cool_set", cool_set_c, degree, 15.0, 35.0, "73 F",
          "the mean of surveys of homes, memory"),
    GIVEN("setback", setback_k, degrees, 0.0, 15.0, "1.6 F",
          "the mean of surveys of homes, memory"),
    GIVEN("internal_gain", internal_gain, gain, 0.0, 50.0, "5 W/m2",
          "about the dwelling mean of ISO 13790 annex G, memory"),
    GIVEN("price_electricity", price[PW_FUEL_ELECTRICITY], power_price, 0.001, 5.0, "",
          "state average, table money"),
    GIVEN("price_gas", price[PW_FUEL_GAS], gas_price, 0.001, 2.0, "",
          "state average, table money"),
    GIVEN("price_oil", price[PW_FUEL_OIL], oil_price, 0.001, 2.0, "", NULL),
    GIVEN("price_propane", price[PW_FUEL_PROPANE], propane_price, 0.001, 2.0, "", NULL),
    TEXT("tariff", tariff, "", NULL),
    GIVEN("bill_year", bill_year, money, 1.0, 1e6, "", "unknown; savings are not capped by it"),
    GIVEN("escalation", escalation, rate, -0.1, 0.2, "0", "real, table money"),
    GIVEN("discount", discount, rate, -0.5, 1.0, "0.03", "real, 10 CFR 436.14, table money"),
    GIVEN("horizon", horizon_years, years, 1.0, 60.0, "25 yr", "assumed"),
    GIVEN("window_life", window_life_years, years, 1.0, 100.0, "30 yr", "vinyl, table money"),
    GIVEN("elevation", elevation, height, -100.0, 5000.0, "", "unknown; the cautions ask"),
    WORD("correct_height", correct_height, correct_height, "made", NULL),
    GIVEN("plant_elevation", plant_elevation, height, -100.0, 5000.0, "",
          "unknown; the cautions ask"),
    {.name = "install_date",
     .kind = JOB_DATE,
     AT(install_date),
     .size = 12,
     .blank = "",
     .why = "not set"},
    FLAG3("open_combustion", open_combustion),
    FLAG3("coastal", coastal),
    FLAG3("wildfire", wildfire),
    FLAG3("leak_history", leak_history),
    NUMBER("wind_pressure", wind_pressure, psf, 100.0, 10000.0, "",
           "unknown; the cautions ask"),
    CHOICE("sealant", sealant, sealant, "polyurethane", "common on stucco"),
    NUMBER("paint_wait", paint_wait_days, days, 0.0, 90.0, "", "by the sealant, table measure"),
    WORD("section_mismatch", section_mismatch, mismatch, "refuse", ""),
    TEXT("lead_certificate", lead_certificate, "", NULL),
    WORD("noise", noise, noise, "traffic", NULL),
    NUMBER("noise_db_2m", noise_db_2m, decibel, 30.0, 110.0, "", NULL),
    TEXT("code_zone", code_zone, "", NULL),
    {.name = "code_edition",
     .kind = JOB_INTEGER,
     AT(code_edition),
     .low = 2006,
     .high = 2030,
     .blank = ""},
    TEXT("customer_phone", customer_phone, "", NULL),
    TEXT("customer_mail", customer_mail, "", NULL),
    TEXT("utility", utility, "", NULL),
    TEXT("account", account, "", NULL),
    TEXT("payee", payee, "", NULL),
    TEXT("maker", maker, "", NULL),
    TEXT("model", model, "", NULL),
    NUMBER("offer_valid_days", offer.valid_days, days, 1.0, 366.0, "", NULL),
    TEXT("schedule", offer.schedule, "", NULL),
    TEXT("deposit", offer.deposit, "", NULL),
    TEXT("terms", offer.terms, "", NULL),
    TEXT("warranty_work", offer.warranty_work, "", NULL),
    TEXT("warranty_product", offer.warranty_product, "", NULL),
    TEXT("installed", installed, "", NULL),
    TEXT("prices_file", prices_file, "", NULL),
    TEXT("firm_file", firm_file, "", NULL),
    CHOICE("language", language, language, "", NULL),
    CHOICE("crew_language", crew_language, language, "", NULL),
    TEXT("note", note, "", NULL),
};
enum { ITEMS = JOB_COUNT(item) };
_Static_assert((int)ITEMS <= (int)JOB_WORDS_MAX, "items that job_word_find looks at");

static int index_of(const char *name)
{
  size_t i = 0;
  while (i < ITEMS && strcmp(item[i].name, name) != 0)
    i++;
  return (int)i;
}

enum { DWELLING = 3 }; /* of the columns */

/* Whether row r goes before the one that an item has: it is of the dwelling, that one of all. */
static int goes_before(const pw_csv *csv, const int col[], size_t r, int had)
{
  return pw_csv_at(csv, r, col[DWELLING])[0] && !pw_csv_at(csv, (size_t)had, col[DWELLING])[0];
}

/* Finds each item's row for a dwelling: row_of[i], or -1. Twice the same and slips are errors. */
static pw_status find_items(const pw_csv *csv, const int col[], const char *dwelling,
                            int row_of[], pw_notes *notes, pw_err *err)
{
  job_word known[ITEMS];
  const char *names[ITEMS];
  for (size_t i = 0; i < ITEMS; i++) {
    row_of[i] = -1;
    known[i] = (job_word){item[i].name, (int)i};
    names[i] = item[i].name;
  }
  for (size_t r = 0; r < csv->n_row; r++) {
    const char *name = pw_csv_at(csv, r, col[0]), *near = NULL;
    const char *whose = pw_csv_at(csv, r, col[DWELLING]);
    int line = csv->line[r + 1];
    if (whose[0] && pw_edit_distance(whose, dwelling) != 0) continue;
    if (!name[0])
      return pw_fail_at(err, PW_E_DATA, csv->name, line, col[0] + 1, "a value without an item");
    int i = job_word_find(known, ITEMS, name, &near);
    if (i < 0 && near && !job_unknown_is_order(name))
      return pw_fail_at(err, PW_E_DATA, csv->name, line, col[0] + 1,
                        "no item is named '%.40s'; did you mean %s?", name, near);
    if (i < 0) {
      job_unknown_at at = {csv->name, line, col[0] + 1, "item", 1};
      pw_status status = job_unknown_name(name, names, ITEMS, &at, notes, err);
      if (status != PW_OK) return status;
      continue;
    }
    if (row_of[i] >= 0 && goes_before(csv, col, (size_t)row_of[i], (int)r)) continue;
    if (row_of[i] >= 0 && !goes_before(csv, col, r, row_of[i]))
      return pw_fail_at(err, PW_E_DATA, csv->name, line, col[0] + 1,
                        "the item %s stands twice (first in line %d)", item[i].name,
                        csv->line[row_of[i] + 1]);
    row_of[i] = (int)r;
  }
  return PW_OK;
}

/* Defaults that hang on another item. */
static void set_defaults(const pw_house_facts *h, size_t i, job_field *f)
{
  int pump = strcmp(h->heating_kind, "heat_pump") == 0;
  int coil = strcmp(h->heating_kind, "resistance") == 0;
  if (i == (size_t)index_of("heating_fuel") && (pump || coil)) f->blank = "electricity";
  if (i == (size_t)index_of("heating_efficiency") && pump) {
    f->blank = "7.7 HSPF";
    f->why = "federal minimum 2006 to 2014, table money, memory";
  }
  if (i == (size_t)index_of("heating_efficiency") && coil) {
    f->blank = "1 COP";
    f->why = "resistance";
  }
}

/* "80 AFUE" and "AFUE 80" are said for 80 %. */
static const char *afue_in_percent(const char *text, char copy[64])
{
  char low[52];
  size_t n = 0;
  if (strlen(text) > 50 || strchr(text, '%')) return text;
  for (; text[n]; n++)
    low[n] = (char)tolower((unsigned char)text[n]);
  low[n] = '\0';
  const char *at = strstr(low, "afue");
  if (!at) return text;
  const char *number = at == low ? low + 4 + strspn(low + 4, " :=") : low;
  if (atof(number) <= 1.5) return text;
  snprintf(copy, 64, "%.*s%%AFUE", at == low ? (int)strlen(number) : (int)(at - number),
           number);
  return copy;
}

/* An unquoted number with a comma falls apart: 1 stands as the value, 380.00 as the note. */
static pw_status torn_number(const pw_csv *csv, const int col[], int r, const job_field *f,
                             pw_err *err)
{
  const char *value = pw_csv_at(csv, (size_t)r, col[1]),
             *rest = pw_csv_at(csv, (size_t)r, col[2]);
  const char *digits = value + strspn(value, "$ ");
  size_t n = strspn(digits, "0123456789"), k = strspn(rest, "0123456789");
  int number = f->kind == JOB_GIVEN || f->kind == JOB_NUMBER || f->kind == JOB_INTEGER;
  if (!number || n < 1 || n > 3 || digits[n] || k != 3) return PW_OK;
  return pw_fail_at(err, PW_E_DATA, csv->name, csv->line[r + 1], col[1] + 1,
                    "%s: a comma has parted '%.20s,%.20s'; put the number in quotes or leave "
                    "the comma out",
                    f->name, value, rest);
}

/* A price of 0 (a landlord pays, the roof gives it) is taken when the row's note says why. */
static pw_status free_price(const pw_csv *csv, const int col[], int r, const char *text,
                            job_field *f, pw_err *err)
{
  pw_given v = {0};
  if (r < 0 || strncmp(f->name, "price_", 6) != 0 || !text[0] ||
      pw_number_read(text, f->unit, f->n_unit, 0.0, f->high, &v, NULL, NULL) != PW_OK ||
      v.value != 0.0)
    return PW_OK;
  if (!pw_csv_at(csv, (size_t)r, col[2])[0])
    return pw_fail_at(err, PW_E_DATA, csv->name, csv->line[r + 1], col[1] + 1,
                      "%s: found '%.40s'; a price of 0 is taken when the note says why",
                      f->name, text);
  f->low = 0.0;
  return PW_OK;
}

/* The state's two letters in place of its name. */
static pw_status read_state(const job_place *at, const char **text, pw_err *err)
{
  const char *code = NULL, *near = NULL;
  if (!(*text)[0]) return PW_OK;
  if (!pw_state_find(*text, &code, &near))
    return pw_fail_at(
        err, PW_E_DATA, at->file, at->line, at->column,
        "state: '%.40s' is no state%s%s; want two letters or the name, as in AZ or "
        "Arizona",
        *text, near ? ", did you mean " : "", near ? near : "");
  *text = code;
  return PW_OK;
}

static pw_status read_items(const pw_csv *csv, const int col[], const int row_of[],
                            pw_house_facts *h, pw_notes *notes, pw_err *err)
{
  pw_status status = PW_OK;
  for (size_t i = 0; i < ITEMS && status == PW_OK; i++) {
    job_field f = item[i];
    char copy[64];
    int r = row_of[i];
    const char *text = r < 0 ? "" : pw_csv_at(csv, (size_t)r, col[1]);
    job_place place = {csv->name, r < 0 ? 0 : csv->line[r + 1], col[1] + 1, ""};
    set_defaults(h, i, &f);
    if (strcmp(f.name, "heating_efficiency") == 0) text = afue_in_percent(text, copy);
    if (!text[0] &&
        ((strcmp(f.name, "cooling_efficiency") == 0 && strcmp(h->cooling_kind, "none") == 0) ||
         (strncmp(f.name, "heating_", 8) == 0 && strcmp(h->heating_kind, "none") == 0)))
      f.why = NULL;
    if (!text[0] && strcmp(f.name, "duct_efficiency") == 0 && h->ducts != PW_DUCTS_BLANK)
      f.why = NULL; /* they are figured by where they lie */
    if (r < 0 && !f.blank)
      return pw_fail_at(err, PW_E_DATA, csv->name, csv->line[0], 0, "the item %s is missing",
                        f.name);
    if (strcmp(f.name, "climate") == 0) h->climate_line = place.line;
    if (strcmp(f.name, "code_zone") == 0) h->code_zone_line = place.line;
    if (strcmp(f.name, "code_edition") == 0) h->code_edition_line = place.line;
    status = r < 0 || col[2] < 0 ? PW_OK : torn_number(csv, col, r, &f, err);
    if (status == PW_OK) status = free_price(csv, col, r, text, &f, err);
    if (status == PW_OK && strcmp(f.name, "state") == 0)
      status = read_state(&place, &text, err);
    if (status == PW_OK) status = job_field_read(&f, text, &place, h, notes, err);
  }
  return status;
}

static pw_status refuse_item(const pw_csv *csv, const int row_of[], const char *name,
                             const char *text, pw_err *err)
{
  int r = row_of[index_of(name)];
  return pw_fail_at(err, PW_E_DATA, csv->name, r < 0 ? 0 : csv->line[r + 1], 2, "%s: %s", name,
                    text);
}

/* What only two items together can show. */
static pw_status check_items(const pw_csv *csv, const int row_of[], pw_house_facts *h,
                             pw_err *err)
{
  int electric =
      strcmp(h->heating_kind, "heat_pump") == 0 || strcmp(h->heating_kind, "resistance") == 0;
  if (electric && h->heating_fuel != PW_FUEL_ELECTRICITY)
    return refuse_item(csv, row_of, "heating_fuel",
                       "a heat pump or resistance heating runs on electricity", err);
  if (!electric && h->heating_fuel != PW_FUEL_ELECTRICITY && h->heating_efficiency.value > 1.0)
    return refuse_item(
        csv, row_of, "heating_efficiency",
        "no furnace or boiler gives more heat than its fuel holds; want 0.3 to 1 AFUE", err);
  double duct = h->duct_efficiency.value;
  pw_rates rates;
  pw_err why = {0};
  if (duct != 1.0 && pw_rates_of_house(h, NULL, &rates, &why) != PW_OK && why.field &&
      strcmp(why.field, "duct_efficiency") == 0)
    return refuse_item(csv, row_of, "duct_efficiency", why.text, err);
  if (h->ducts != PW_DUCTS_BLANK && h->duct_efficiency.line > 0)
    return refuse_item(csv, row_of, "ducts",
                       "duct_efficiency says what they deliver; want one of the two", err);
  if (h->ducts != PW_DUCTS_BLANK && pw_rates_of_house(h, NULL, &rates, &why) == PW_OK &&
      !rates.heats_by_duct && !rates.cools_by_duct)
    return refuse_item(csv, row_of, "ducts",
                       "neither the heating nor the cooling has ducts; leave it out", err);
  if (h->cfm50_taped.value > 0.0 && !(h->cfm50_taped.value < h->cfm50.value))
    return refuse_item(csv, row_of, "cfm50_taped",
                       h->cfm50.value > 0.0
                           ? "with the windows taped less air has to come than cfm50 says"
                           : "want cfm50 beside it: the reading without tape",
                       err);
  if (!(h->heat_set_c.value < h->cool_set_c.value))
    return refuse_item(csv, row_of, "cool_set", "want it above heat_set", err);
  pw_date date = 0;
  if (pw_date_read(h->install_date, &date, NULL) == PW_OK && date > 0 &&
      h->year_built > date / 10000)
    return refuse_item(csv, row_of, "year_built", "want it not after the year of install_date",
                       err);
  pw_given price;
  const char *region;
  unsigned known = 0;
  int year;
  if (pw_state_price(PW_FUEL_ELECTRICITY, h->state, &price, &year, &region, &known, NULL) !=
      PW_OK)
    return refuse_item(csv, row_of, "state",
                       "no state of that name has prices; want two letters", err);
  return PW_OK;
}

pw_status pw_house_read(const char *path, pw_job *job, pw_notes *notes, pw_err *err)
{
  static const pw_csv_column column[] = {
      {"item", 1}, {"value", 1}, {"note", 0}, [DWELLING] = {"dwelling", 0}};
  int col[JOB_COUNT(column)], row_of[ITEMS];
  pw_csv csv;
  pw_status status = pw_csv_read(path, &csv, err);
  if (status != PW_OK) return status;
  pw_house_facts h;
  pw_house_init(&h);
  status = pw_csv_bind(&csv, column, JOB_COUNT(column), col, notes, err);
  if (status == PW_OK) status = find_items(&csv, col, job->dwelling, row_of, notes, err);
  if (status == PW_OK) status = read_items(&csv, col, row_of, &h, notes, err);
  if (status == PW_OK) status = check_items(&csv, row_of, &h, err);
  pw_csv_free(&csv);
  if (status == PW_OK) job->house = h;
  return status;
}

size_t job_house_fields(job_field f[])
{
  memcpy(f, item, sizeof item);
  return ITEMS;
}
