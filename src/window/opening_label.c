#include "window/opening_label.h"

#include <stdio.h>
#include <string.h>

#include "window/opening_package.h"
#include "window/options.h"

/* What stands before the first '_' of tint_bronze and the like. */
static void general_name(const char *name, char general[PW_OPTION_MAX])
{
  static const char *const kind[] = {"grilles_", "tint_", "colour_"};
  general[0] = '\0';
  for (size_t i = 0; i < sizeof kind / sizeof kind[0]; i++) {
    size_t n = strlen(kind[i]);
    if (strncmp(name, kind[i], n) == 0)
      snprintf(general, PW_OPTION_MAX, "%.*s", (int)n - 1, kind[i]);
  }
}

size_t pw_option_names(const pw_opening *opening, pw_option_name name[PW_OPTIONS_MAX])
{
  char full[PW_OPTION_NAMES_MAX][PW_OPTION_NAME_MAX];
  size_t n = pw_opening_options(opening, full);
  for (size_t i = 0; i < n; i++) {
    int bars = strncmp(full[i], "grilles_", 8) == 0; /* files say between, outside */
    general_name(full[i], name[i].general);
    snprintf(name[i].own, PW_OPTION_MAX, "%s", full[i] + (bars ? 8 : 0));
  }
  return n;
}

void pw_option_list_of(const pw_opening *opening, pw_option_list *list)
{
  pw_option_name name[PW_OPTIONS_MAX];
  size_t n = pw_option_names(opening, name);
  list->n = 0;
  for (size_t i = 0; i < n; i++) {
    pw_option_add(list, name[i].own);
    pw_option_add(list, name[i].general);
  }
  if (opening->glass_text[0]) pw_option_add(list, "glass");
}

/* Whether a row speaks of the glass that the opening has of its own. */
static int names_own_glass(const pw_scope *scope, const pw_opening *opening)
{
  static const char *const word[] = {"glass",       "tint",      "obscure",
                                     "tint_bronze", "tint_gray", "tint_green"};
  if (!opening->glass_text[0] && !pw_options_change_glass(&opening->option)) return 1;
  for (size_t i = 0; i < scope->n_option; i++)
    for (size_t k = 0; k < sizeof word / sizeof word[0]; k++)
      if (strcmp(scope->option[i], word[k]) == 0) return 1;
  return 0;
}

static void sound_of_package(const pw_package *package, pw_label_row *label)
{
  label->rw = package->label_rw;
  label->ctr = package->label_ctr;
  label->stc = package->label_stc;
  label->oitc = package->label_oitc;
}

static void take_package(const pw_package *package, pw_label_row *label)
{
  *label = (pw_label_row){.u = package->label_u,
                          .shgc = package->label_shgc,
                          .vt = package->label_vt,
                          .air_leakage = package->label_air_leakage};
  sound_of_package(package, label);
  memcpy(label->certificate, package->certificate, sizeof label->certificate);
}

pw_status pw_opening_label(const pw_job *job, size_t column, const pw_opening *opening,
                           pw_label_row *label, pw_err *err)
{
  pw_package package;
  pw_opening_package(job, column, opening, &package);
  const pw_scope *fitting[PW_LABELS_MAX];
  const pw_label_row *row[PW_LABELS_MAX];
  size_t n = 0, best = 0, rival = 0;
  pw_option_list option;
  pw_option_list_of(opening, &option);
  const pw_scope_window window = {package.name, (int)opening->operator_insert, &option, 0.0};
  for (size_t i = 0; i < job->n_label && n < PW_LABELS_MAX; i++) {
    if (!pw_scope_fits(&job->label[i].scope, &window) ||
        !names_own_glass(&job->label[i].scope, opening))
      continue;
    row[n] = &job->label[i];
    fitting[n++] = &job->label[i].scope;
  }
  if (n == 0) {
    take_package(&package, label);
    return PW_OK;
  }
  if (pw_scope_narrowest(fitting, n, &best, &rival) != PW_OK)
    return pw_fail_at(
        err, PW_E_DATA, "labels.csv", row[rival]->line, 0,
        "%s, opening %s: lines %d and %d fit alike; want one that says all that the "
        "other says and more",
        package.name, opening->tag,
        row[best]->line < row[rival]->line ? row[best]->line : row[rival]->line,
        row[best]->line < row[rival]->line ? row[rival]->line : row[best]->line);
  *label = *row[best];
  if (!pw_given_is(&label->rw) && !pw_given_is(&label->stc)) sound_of_package(&package, label);
  return PW_OK;
}

int pw_label_is_known(const pw_label_row *label)
{
  return pw_given_is(&label->u) || pw_given_is(&label->shgc) || pw_given_is(&label->vt) ||
         pw_given_is(&label->air_leakage) || label->certificate[0];
}
