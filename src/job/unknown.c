#include "job/unknown.h"

#include <stdio.h>
#include <string.h>

#include "base/nearest.h"
#include "base/text.h"
#include "job/csv.h"

enum { WORD_MAX = 64 };

/* Plain, without what stands in brackets. */
static void plain_name(const char *name, char plain[WORD_MAX])
{
  char bare[PW_CSV_CELL_MAX + 1];
  snprintf(bare, sizeof bare, "%.*s", (int)strcspn(name, "(["), name);
  pw_text_plain(bare, plain, WORD_MAX);
}

/* Takes a unit off the end: "floor_area_sq_ft" is floor_area. */
static void drop_unit(char plain[WORD_MAX])
{
  static const char *const unit[] = {"_sq_ft", "_sqft", "_sf",      "_ft2",   "_feet", "_ft",
                                     "_in",    "_inch", "_inches",  "_mm",    "_cm",   "_f",
                                     "_deg",   "_psf",  "_percent", "_years", "_yr"};
  size_t n = strlen(plain);
  for (size_t i = 0; i < sizeof unit / sizeof unit[0]; i++) {
    size_t k = strlen(unit[i]);
    if (n <= k || strcmp(plain + n - k, unit[i]) != 0) continue;
    plain[n - k] = '\0';
    return;
  }
}

static const char *find(const char *plain, const char *const known[], size_t n)
{
  for (size_t i = 0; i < n; i++)
    if (strcmp(plain, known[i]) == 0) return known[i];
  return NULL;
}

/* The known name that this plainly means, or NULL. */
static const char *meant(const char *name, const char *const known[], size_t n)
{
  static const struct {
    const char *word, *name;
  } other[] = {{"square_feet", "floor_area"},
               {"square_footage", "floor_area"},
               {"sq_ft", "floor_area"},
               {"sqft", "floor_area"},
               {"house_size", "floor_area"},
               {"area", "floor_area"},
               {"zip", "climate"},
               {"zip_code", "climate"},
               {"zipcode", "climate"},
               {"weather", "climate"},
               {"stories", "storeys"},
               {"floors", "storeys"},
               {"orientation", "facing"},
               {"direction", "facing"},
               {"qty", "quantity"},
               {"count", "quantity"},
               {"electric_price", "price_electricity"},
               {"electricity_price", "price_electricity"},
               {"gas_price", "price_gas"},
               {"built", "year_built"},
               {"year", "year_built"},
               {"heat", "heating"},
               {"cool", "cooling"},
               {"ac", "cooling"},
               {"obscure", "pattern"},
               {"privacy", "pattern"},
               {"color", "colour"},
               {"grids", "grilles"},
               {"grid", "grilles"},
               {"grille", "grilles"},
               {"muntins", "grilles"},
               {"temper", "tempered"},
               {"hinged", "hinge"},
               {"window", "tag"},
               {"mark", "tag"},
               {"label_u", "u"},
               {"u", "label_u"},
               {"label_shgc", "shgc"},
               {"shgc", "label_shgc"},
               {"label_vt", "vt"},
               {"vt", "label_vt"},
               {"label_air_leakage", "air_leakage"},
               {"air_leakage", "label_air_leakage"},
               {"operator", "kind"},
               {"certificate_number", "certificate"},
               {"cpd", "certificate"},
               {"cpd_number", "certificate"},
               {"license", "licence"},
               {"email", "mail"}};
  char plain[WORD_MAX];
  plain_name(name, plain);
  const char *found = find(plain, known, n);
  for (size_t i = 0; !found && i < sizeof other / sizeof other[0]; i++)
    if (strcmp(plain, other[i].word) == 0) found = find(other[i].name, known, n);
  drop_unit(plain);
  return found ? found : find(plain, known, n);
}

/* Whether one of its words is of an order: what stays, what shape, what glass, how many, which way. */
static int changes_an_order(const char *name)
{
  static const char *const order[] = {
      "tempered", "temper",  "toughened", "safety",  "laminated", "obscure", "obscured",
      "frosted",  "privacy", "pattern",   "leave",   "keep",      "stay",    "stays",
      "skip",     "omit",    "action",    "replace", "phase",     "shape",   "arch",
      "arched",   "round",   "unit",      "units",   "tint",      "tinted",  "grid",
      "grids",    "grille",  "grilles",   "muntin",  "muntins",   "colour",  "color",
      "handing",  "hinge",   "swing",     "mull",    "mulled",    "width",   "height",
      "size",     "glass",   "quantity",  "order"};
  char plain[WORD_MAX];
  plain_name(name, plain);
  for (const char *p = plain; *p;) {
    size_t k = strcspn(p, "_");
    for (size_t i = 0; i < sizeof order / sizeof order[0]; i++)
      if (strlen(order[i]) == k && strncmp(p, order[i], k) == 0) return 1;
    p += k + (p[k] == '_');
  }
  return 0;
}

/* Whether two names share a word of four letters or more. */
static int share_a_word(const char *a, const char *b)
{
  for (size_t k; *a; a += k + (a[k] == '_')) {
    k = strcspn(a, "_");
    for (const char *p = b; k >= 4 && *p;) {
      size_t m = strcspn(p, "_");
      if (m == k && strncmp(a, p, k) == 0) return 1;
      p += m + (p[m] == '_');
    }
  }
  return 0;
}

/* What people call our columns that say what becomes of a window and whose it is. */
static const char *by_sense(const char *plain, const char *const known[], size_t n)
{
  static const struct {
    const char *word, *name;
  } sense[] = {{"keep", "action"},       {"leave", "action"},       {"stay", "action"},
               {"stays", "action"},      {"skip", "action"},        {"omit", "action"},
               {"replace", "action"},    {"stage", "phase"},        {"step", "phase"},
               {"unit", "dwelling"},     {"apartment", "dwelling"}, {"apt", "dwelling"},
               {"heated", "conditioned"}};
  for (size_t i = 0; i < sizeof sense / sizeof sense[0]; i++)
    if (strcmp(plain, sense[i].word) == 0) return find(sense[i].name, known, n);
  return NULL;
}

/* The known name that is meant by sense or shares a word, else that of least edits when at least half the word stays. */
static const char *nearest(const char *name, const char *const known[], size_t n)
{
  char plain[WORD_MAX];
  const char *found = NULL;
  plain_name(name, plain);
  size_t best = strlen(plain) / 2 + 1;
  if ((found = by_sense(plain, known, n)) != NULL) return found;
  for (size_t i = 0; i < n; i++)
    if (share_a_word(plain, known[i])) return known[i];
  for (size_t i = 0; i < n; i++) {
    size_t d = pw_edit_distance(plain, known[i]);
    if (d >= best) continue;
    best = d;
    found = known[i];
  }
  return found;
}

int job_unknown_is_order(const char *name)
{
  char plain[WORD_MAX];
  plain_name(name, plain);
  return !strchr(plain, '_') && changes_an_order(plain);
}

pw_status job_unknown_name(const char *name, const char *const known[], size_t n,
                           const job_unknown_at *at, pw_notes *notes, pw_err *err)
{
  char plain[WORD_MAX];
  plain_name(name, plain);
  if (strncmp(plain, "note", 4) == 0) return PW_OK;
  const char *same = meant(name, known, n), *near = nearest(name, known, n);
  if (same) {
    char bare[WORD_MAX];
    memcpy(bare, plain, sizeof bare);
    drop_unit(bare);
    int unit = strpbrk(name, "([") || strcmp(bare, plain) != 0;
    return pw_fail_at(err, PW_E_DATA, at->file, at->line, at->column,
                      "the %s '%.40s' is named %s%s", at->what, name, same,
                      unit ? "; a unit stands beside its value" : "");
  }
  if (at->is_order && changes_an_order(name))
    return pw_fail_at(
        err, PW_E_DATA, at->file, at->line, at->column,
        "the %s '%.40s' is not known and reads like something that changes an "
        "order; name it rightly%s%s%s, or note_%.40s when it is for your own eyes",
        at->what, name, near ? " (nearest: " : "", near ? near : "", near ? ")" : "", plain);
  pw_notes_unknown(notes, at->file, at->line,
                   "%s '%.40s' is not known and was left out%s%s (note_%.40s is left out in "
                   "silence)",
                   at->what, name, near ? "; the nearest is " : "", near ? near : "", plain);
  return PW_OK;
}
