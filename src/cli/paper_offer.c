/* The offer of the set: of the packages that --offer names, else of --package, else of all where there are few. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/paper_set.h"
#include "job/survey.h"
#include "out/offer.h"

static pw_status write(const void *what, pw_html *h, pw_err *err)
{
  return pw_offer_html(what, h, err);
}

/* Whether a column of packages matters: some window takes the column's. */
static int column_matters(const pw_job *job)
{
  for (size_t i = 0; i < job->n_opening; i++)
    if (job->opening[i].standing == PW_REPLACED && !job->opening[i].own_package) return 1;
  return 0;
}

/* Names parted by commas; each once. */
static pw_status named(const char *names, const pw_job *job, pw_offer *offer, pw_err *err)
{
  for (const char *s = names; *s || s == names;) {
    char name[64];
    size_t n = strcspn(s, ","), p;
    while (n > 0 && *s == ' ')
      s++, n--;
    snprintf(name, sizeof name, "%.*s", (int)n, s);
    pw_status status = pw_job_package_named(job, name, &p, err);
    if (status != PW_OK) return status;
    for (size_t k = 0; k < offer->n_package; k++)
      if (offer->package[k] == p)
        return pw_fail(err, PW_E_DATA, "offer", "--offer %.60s: %s stands twice", names, name);
    if (offer->n_package == PW_OFFER_PACKAGES_MAX)
      return pw_fail(err, PW_E_DATA, "offer", "--offer %.60s: want at most %d packages", names,
                     PW_OFFER_PACKAGES_MAX);
    offer->package[offer->n_package++] = p;
    s += n;
    if (!*s) break;
    s++;
  }
  return PW_OK;
}

static pw_status choose(const cli_set *set, const pw_fit_report *report, pw_offer *offer,
                        pw_err *err)
{
  const char *names = cli_get(set->args, "offer");
  const pw_job *job = report->job;
  if (names) return cli_ask("offer", named(names, job, offer, err), err);
  if (cli_get(set->args, "package") || !column_matters(job)) {
    offer->package[offer->n_package++] = report->column;
    return PW_OK;
  }
  if (job->n_package > PW_OFFER_PACKAGES_MAX)
    return pw_fail(
        err, PW_E_DATA, "offer",
        "the offer is of at most %d packages, the job has %zu: want --offer NAME,NAME "
        "or --package NAME",
        PW_OFFER_PACKAGES_MAX, job->n_package);
  while (offer->n_package < job->n_package) {
    offer->package[offer->n_package] = offer->n_package;
    offer->n_package++;
  }
  return PW_OK;
}

pw_status cli_paper_offer(cli_set *set, const cli_paper_kind *kind, pw_err *err)
{
  const pw_fit_report *report;
  pw_offer offer = {0};
  pw_status status = cli_set_fit(set, &report, err);
  if (status == PW_OK) status = choose(set, report, &offer, err);
  return status == PW_OK ? cli_set_offer(set, kind, &offer, write, err) : status;
}
