#include "cli/street_job.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/hash.h"
#include "cli/package_choice.h"
#include "job/dwelling.h"
#include "job/version.h"
#include "out/street_out.h"

typedef struct hand {
  const street_plan *plan;
  cli_args args; /* the command's, with the job in hand as its only word */
} hand;

int street_is_blank(const char *line, size_t n)
{
  if (n > 0 && line[n - 1] == '\n') n--;
  return pw_batch_is_blank(line, n);
}

/* The name of a job as a street knows it: blanks, "./" at the start, "/" at the end and twice are nothing. Status PW_E_DATA
 * too long. */
static pw_status street_name(const char *line, size_t n, char name[STREET_NAME_MAX],
                             pw_err *err)
{
  size_t k = 0;
  while (n > 0 && strchr(" \t\r\n", line[n - 1]))
    n--;
  while (n > 0 && strchr(" \t", line[0])) {
    line++;
    n--;
  }
  if (n >= STREET_NAME_MAX)
    return pw_fail(err, PW_E_DATA, "job", "the name of a job has %zu bytes, want at most %d", n,
                   STREET_NAME_MAX - 1);
  while (n > 2 && line[0] == '.' && line[1] == '/') {
    line += 2;
    n -= 2;
    while (n > 1 && line[0] == '/') {
      line++;
      n--;
    }
  }
  for (size_t i = 0; i < n; i++)
    if (line[i] != '/' || k == 0 || name[k - 1] != '/') name[k++] = line[i];
  while (k > 1 && name[k - 1] == '/')
    k--;
  name[k] = '\0';
  if (memchr(line, '\0', n))
    return pw_fail(err, PW_E_DATA, "job", "the name of a job holds a NUL byte");
  return PW_OK;
}

/* Different houses draw their own facts apart, whatever stands beside them in the list. */
static uint64_t key_of(const char *name, const char *dwelling)
{
  uint64_t h = pw_hash_mix(PW_HASH_START, name, strlen(name) + 1);
  return pw_hash_mix(h, dwelling, strlen(dwelling));
}

/* The house, or one dwelling of several. */
static pw_status house(const hand *h, const char *files, const char *dwelling, pw_lines *out,
                       pw_err *err)
{
  const cli_args *args = &h->args;
  pw_range_options options = h->plan->range;
  pw_street_house draws = {0};
  cli_job job;
  size_t package = 0;
  pw_status status = cli_job_run_dwelling(args, dwelling, 0, PW_YEAR_DETAILED, &job, err);
  if (status != PW_OK) return status;
  status = cli_package(args, &job.open.job, 0, &package, err);
  if (status == PW_OK)
    status = pw_street_house_new(&draws, key_of(args->word[0], job.open.job.dwelling),
                                 options.n_draw, job.compare->n_package, err);
  options.street = &draws;
  if (status == PW_OK) status = cli_job_range_by(args, &options, &job, err);
  if (status == PW_OK) {
    const pw_street_told told = {.name = args->word[0],
                                 .files = files,
                                 .climate = job.open.climate,
                                 .compare = job.compare,
                                 .range = job.range,
                                 .draws = &draws,
                                 .notes = &job.open.notes,
                                 .package = cli_get(args, "package") ? (int)package : -1};
    pw_street_record(out, &told);
  }
  pw_street_house_free(&draws);
  cli_job_free(&job);
  return status;
}

static pw_status folder(hand *h, const char *files, pw_lines *out, pw_err *err)
{
  pw_dwellings list = {0};
  pw_status status = pw_dwellings_list(h->args.word[0], &list, err);
  size_t n = list.n > 1 ? list.n : 1;
  for (size_t d = 0; status == PW_OK && d < n; d++)
    status = house(h, files, n > 1 ? list.name[d] : NULL, out, err);
  return status;
}

static void work(void *of_worker, batch_chunk *chunk)
{
  hand *h = of_worker;
  char name[STREET_NAME_MAX] = "", files[PW_VERSION_MAX] = "";
  pw_err err = {0};
  if (street_is_blank(chunk->in, chunk->n)) return;
  chunk->rows = 1;
  pw_status status = street_name(chunk->in, chunk->n, name, &err);
  h->args.word[0] = name;
  h->args.n_word = 1;
  if (status == PW_OK) status = pw_job_version(name, files, &err);
  if (status == PW_OK) status = folder(h, files, &chunk->out, &err);
  h->args.word[0] = NULL;
  if (status == PW_OK) return;
  if (status == PW_E_NOMEM) { /* no fault of the job: the run ends, to be resumed */
    chunk->failed = err;
    return;
  }
  chunk->out.n = 0; /* a folder counts with all its dwellings or not at all */
  chunk->rejected = 1;
  snprintf(chunk->first_reason, sizeof chunk->first_reason, "%.100s: %.150s",
           name[0] ? name : "a name", err.text);
  if (!name[0]) snprintf(name, sizeof name, "line %llu", (unsigned long long)chunk->line);
  pw_street_reject(&chunk->out, name, files, &err);
}

static void *hand_new(void *context)
{
  hand *h = calloc(1, sizeof *h);
  const street_plan *plan = context;
  if (!h) return NULL;
  h->plan = plan;
  h->args = *plan->args;
  return h;
}

static void hand_free(void *h) { free(h); }

const batch_work street_jobs = {hand_new, hand_free, work, NULL};
