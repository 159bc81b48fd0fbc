#include "window/scope.h"

#include <stdio.h>
#include <string.h>

int pw_option_has(const pw_option_list *list, const char *name)
{
  for (size_t i = 0; i < list->n; i++)
    if (strcmp(list->name[i], name) == 0) return 1;
  return 0;
}

void pw_option_add(pw_option_list *list, const char *name)
{
  if (!name[0] || list->n == PW_OPTIONS_MAX || pw_option_has(list, name)) return;
  snprintf(list->name[list->n++], PW_OPTION_MAX, "%s", name);
}

int pw_scope_fits(const pw_scope *scope, const pw_scope_window *w)
{
  if (scope->package[0] && strcmp(scope->package, w->package) != 0) return 0;
  if (scope->kind && scope->kind != 1 + w->kind) return 0;
  for (size_t i = 0; i < scope->n_option; i++) {
    const char *want = scope->option[i];
    int there = strcmp(want, "none") == 0 ? !pw_option_has(w->option, "grilles")
                                          : pw_option_has(w->option, want);
    if (!there) return 0;
  }
  return scope->size_to == 0.0 || (w->size >= scope->size_from && w->size <= scope->size_to);
}

static int names_option(const pw_scope *scope, const char *name)
{
  for (size_t i = 0; i < scope->n_option; i++)
    if (strcmp(scope->option[i], name) == 0) return 1;
  return 0;
}

int pw_scope_within(const pw_scope *a, const pw_scope *b)
{
  if (b->package[0] && strcmp(a->package, b->package) != 0) return 0;
  if (b->kind && a->kind != b->kind) return 0;
  for (size_t i = 0; i < b->n_option; i++)
    if (!names_option(a, b->option[i])) return 0;
  if (b->size_to == 0.0) return 1;
  return a->size_to > 0.0 && a->size_from >= b->size_from && a->size_to <= b->size_to;
}

pw_status pw_scope_narrowest(const pw_scope *const scope[], size_t n, size_t *best,
                             size_t *rival)
{
  *best = 0;
  for (size_t i = 1; i < n; i++)
    if (pw_scope_within(scope[i], scope[*best])) *best = i;
  for (size_t i = 0; i < n; i++) {
    if (i == *best) continue;
    int before =
        pw_scope_within(scope[*best], scope[i]) && !pw_scope_within(scope[i], scope[*best]);
    if (before) continue;
    *rival = i;
    return PW_E_DATA;
  }
  return PW_OK;
}
