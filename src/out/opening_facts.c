#include "out/opening_facts.h"

#include <string.h>

#include "out/json.h"
#include "out/wrap.h"
#include "window/opening_package.h"

enum { WIDE = 100 };

static const char *action(const pw_opening *o)
{
  static const char *const word[] = {
      [PW_REPLACED] = "replace", [PW_STAYS] = "keep", [PW_LATER] = "later", [PW_DONE] = "done"};
  return word[o->standing];
}

static int used(const pw_opening *o)
{
  return o->standing != PW_REPLACED || pw_phase_of(o) != 1 || pw_opening_has_own(o) ||
         o->unconditioned || o->dwelling[0];
}

/* Whether any opening of the job has one of them. */
static int pw_facts_used(const pw_job *job)
{
  for (size_t i = 0; i < job->n_opening; i++)
    if (used(&job->opening[i])) return 1;
  return 0;
}

size_t pw_facts_headers(const pw_job *job, const char *header[PW_FACTS])
{
  static const char *const name[PW_FACTS] = {"action",    "phase",       "own_package",
                                             "own_glass", "conditioned", "dwelling"};
  if (!pw_facts_used(job)) return 0;
  memcpy(header, name, sizeof name);
  return PW_FACTS;
}

static const char *own_package(const pw_job *job, const pw_opening *o)
{
  return o->own_package ? job->package[o->own_package - 1].name : "";
}

void pw_facts_cells(const pw_job *job, const pw_opening *o, pw_grid *g)
{
  if (!pw_facts_used(job)) return;
  pw_grid_cell(g, "%s", action(o));
  pw_grid_cell(g, "%d", pw_phase_of(o));
  pw_grid_cell(g, "%s", own_package(job, o));
  pw_grid_cell(g, "%s", o->glass_text);
  pw_grid_cell(g, "%s", o->unconditioned ? "no" : "yes");
  pw_grid_cell(g, "%s", o->dwelling);
}

void pw_facts_json(const pw_job *job, const pw_opening *o, json_t *j)
{
  if (o->standing != PW_REPLACED) pw_json_set_text(j, "action", action(o));
  if (pw_phase_of(o) != 1) json_object_set_new(j, "phase", json_integer(pw_phase_of(o)));
  if (o->own_package) pw_json_set_text(j, "own_package", own_package(job, o));
  if (o->glass_text[0]) pw_json_set_text(j, "own_glass", o->glass_text);
  if (o->unconditioned) json_object_set_new(j, "conditioned", json_false());
  if (o->dwelling[0]) pw_json_set_text(j, "dwelling", o->dwelling);
  if (o->official_word[0]) pw_json_set_text(j, "official_word", o->official_word);
}

pw_clipped pw_window_name(const pw_compare *c, int set, size_t opening, int columns)
{
  const pw_opening *o = &c->job->opening[opening];
  char own[PW_CLIP_MAX];
  int done = o->standing == PW_DONE;
  if (set < 0 && o->standing != PW_REPLACED && !done) return pw_clip("stays", columns);
  if (!done && (set < 0 || !pw_opening_has_own(o)))
    return pw_clip(set < 0 ? c->rated.existing_set.name : c->rated.package_set[set].name,
                   columns);
  size_t row = pw_opening_package_row(o, set < 0 ? 0 : (size_t)set);
  snprintf(own, sizeof own, "=%s", c->job->package[row].name);
  return pw_clip(own, columns);
}

/* Which openings a line is of, and what it adds of each beside its tag. */
typedef struct fact {
  const char *lead;
  int (*holds)(const pw_opening *o);
  void (*beside)(const pw_job *job, const pw_opening *o, const pw_tongue *tongue, char text[],
                 size_t size);
} fact;

static int stays(const pw_opening *o) { return o->standing == PW_STAYS; }
static int later(const pw_opening *o) { return o->standing == PW_LATER; }
static int done(const pw_opening *o) { return o->standing == PW_DONE; }
static int is_own_package(const pw_opening *o)
{
  return o->own_package > 0 && o->standing == PW_REPLACED;
}
static int is_own_glass(const pw_opening *o)
{
  return o->glass_text[0] && o->standing == PW_REPLACED;
}
static int outside(const pw_opening *o) { return o->unconditioned; }

static int has_word(const pw_opening *o) { return o->official_word[0] != '\0'; }

static void room(const pw_job *job, const pw_opening *o, const pw_tongue *tongue, char text[],
                 size_t size)
{
  (void)tongue;
  (void)job;
  snprintf(text, size, "%s", o->room);
}

static void phase(const pw_job *job, const pw_opening *o, const pw_tongue *tongue, char text[],
                  size_t size)
{
  (void)job;
  pw_tongue_put(tongue, text, size, "(phase %d)", pw_phase_of(o));
}

static void package(const pw_job *job, const pw_opening *o, const pw_tongue *tongue,
                    char text[], size_t size)
{
  (void)tongue;
  snprintf(text, size, "%s", own_package(job, o));
}

static void glass(const pw_job *job, const pw_opening *o, const pw_tongue *tongue, char text[],
                  size_t size)
{
  (void)tongue;
  (void)job;
  snprintf(text, size, "%s", o->glass_text);
}

static void word(const pw_job *job, const pw_opening *o, const pw_tongue *tongue, char text[],
                 size_t size)
{
  (void)job;
  (void)tongue;
  snprintf(text, size, "(%s)", o->official_word);
}

static const fact facts[] = {
    {PW_TEXT("Stay as they are, in no order, price or saving: "), stays, room},
    {PW_TEXT("Stay for now, in no order, price or saving of this phase: "), later, phase},
    {PW_TEXT("Done in an earlier phase, so they stand on both sides: "), done, phase},
    {PW_TEXT("A package of their own in every column: "), is_own_package, package},
    {PW_TEXT("A glass of their own, of which the package's label does not speak: "),
     is_own_glass, glass},
    {PW_TEXT("Rooms neither heated nor cooled: rated, ordered and priced, in no heating, "
             "cooling, bill "
             "or saving: "),
     outside, room},
    {PW_TEXT("Escape opening agreed by the building official, by what the job says: "),
     has_word, word},
};

int pw_facts_line(const pw_job *job, size_t k, const pw_tongue *tongue, int codes,
                  char line[PW_FACTS_LINE])
{
  char beside[PW_TEXT_MAX];
  if (k >= sizeof facts / sizeof facts[0]) return -1;
  size_t n = (size_t)snprintf(line, PW_FACTS_LINE, "%s", pw_tongue_say(tongue, facts[k].lead)),
         any = 0;
  for (size_t i = 0; i < job->n_opening; i++) {
    const pw_opening *o = &job->opening[i];
    if (!facts[k].holds(o)) continue;
    facts[k].beside(job, o, tongue, beside, sizeof beside);
    if (!codes && facts[k].holds == is_own_glass) beside[0] = '\0';
    if (n + strlen(o->tag) + strlen(beside) + 8 >= PW_FACTS_LINE) {
      snprintf(line + n, PW_FACTS_LINE - n, " ...");
      break;
    }
    n += (size_t)snprintf(line + n, PW_FACTS_LINE - n, "%s%s%s%s", any++ ? ", " : "", o->tag,
                          beside[0] ? " " : "", beside);
  }
  return any > 0;
}

void pw_facts_text(const pw_job *job, FILE *f)
{
  char line[PW_FACTS_LINE];
  int any = 0;
  for (size_t k = 0; any >= 0; k++)
    if ((any = pw_facts_line(job, k, NULL, 1, line)) > 0) pw_wrap(f, "", line, WIDE);
}
