/* The packages in a customer's words: no codes of coatings, no file words. */
#include <stdio.h>
#include <string.h>

#include "base/tape.h"
#include "out/sheet_impl.h"

void sheet_plain(const char *text, char plain[], size_t size)
{
  snprintf(plain, size, "%s", text);
  for (char *at; (at = strchr(plain, '_')) != NULL;)
    *at = ' ';
}

/* Coatings by the names that build-ups know (glass/optics_film.c). */
static const struct {
  const char *name, *words;
} coating[] = {
    {"pyr20", PW_TEXT("hard coating")},
    {"pyr15", PW_TEXT("hard coating")},
    {"ag1", PW_TEXT("one-silver coating")},
    {"ag1_high", PW_TEXT("one-silver coating that lets much sun in")},
    {"ag2", PW_TEXT("two-silver coating")},
    {"ag3", PW_TEXT("three-silver coating")},
};

static const struct {
  const char *name, *words;
} pane_kind[] = {
    {"clear", PW_TEXT("clear")},   {"lowiron", PW_TEXT("low-iron")},
    {"bronze", PW_TEXT("bronze")}, {"gray", PW_TEXT("gray")},
    {"green", PW_TEXT("green")},   {"obscure", PW_TEXT("obscure")},
};

static void thickness(const pw_sheet *sheet, const pw_html *h, double metres, char text[32])
{
  char tape[24];
  pw_tape_text(metres, 16, tape, sizeof tape);
  if (sheet->units->si)
    snprintf(text, 32, "%.3g mm", 1000.0 * metres);
  else
    pw_tongue_put(h->tongue, text, 32, "%s in", tape);
}

static void pane(const pw_sheet *sheet, const pw_buildup_pane *k, size_t first, pw_html *h)
{
  char thick[32], kind[PW_NAME_MAX];
  const char *words = NULL;
  thickness(sheet, h, k->thickness, thick);
  for (size_t i = 0; i < sizeof pane_kind / sizeof pane_kind[0]; i++)
    if (strcmp(k->kind, pane_kind[i].name) == 0) words = pw_say(h, pane_kind[i].words);
  sheet_plain(k->kind, kind, sizeof kind);
  pw_html_put(h, "%s %s", thick, words ? words : kind);
  for (int side = 0; side < 2; side++) {
    const char *film = k->coating[side][0] ? PW_TEXT("coating") : NULL;
    for (size_t i = 0; i < sizeof coating / sizeof coating[0]; i++)
      if (strcmp(k->coating[side], coating[i].name) == 0) film = coating[i].words;
    if (film) pw_html_put(h, " (%s on surface %zu)", pw_say(h, film), first + (size_t)side);
  }
}

static const char *gas(const pw_gap *gap)
{
  int most = PW_AIR;
  for (int k = 0; k < PW_GAS_COUNT; k++)
    if (gap->mix.share[k] > gap->mix.share[most]) most = k;
  return pw_gas_name((pw_gas)most);
}

static void glass(const pw_sheet *sheet, const pw_buildup *b, pw_html *h)
{
  for (size_t i = 0; i < b->n_pane; i++) {
    char thick[32];
    if (i) {
      thickness(sheet, h, b->gap[i - 1].thickness, thick);
      pw_html_put(h, ", %s %s, ", thick, pw_say(h, gas(&b->gap[i - 1])));
    }
    pane(sheet, &b->pane[i], 2 * i + 1, h);
  }
}

static const char *frame(const pw_job *job, const pw_package *k, char plain[])
{
  static const char *const kind[] = {PW_TEXT("aluminium"), PW_TEXT("wood"), PW_TEXT("vinyl"),
                                     PW_TEXT("fibreglass")};
  (void)job;
  for (size_t i = 0; i < sizeof kind / sizeof kind[0]; i++)
    if (strcmp(k->frame_line, kind[i]) == 0) return kind[i];
  sheet_plain(k->frame_line, plain, sizeof k->frame_line);
  return plain;
}

void sheet_packages(const pw_sheet *sheet, pw_html *h)
{
  static const char *const rim[PW_SPACER_COUNT] = {PW_TEXT("metal"), PW_TEXT("stainless steel"),
                                                   PW_TEXT("insulating")};
  const pw_job *job = sheet->compare->job;
  fputs("<dl class=\"packages\">\n", h->f);
  for (size_t p = 0; p < job->n_package; p++) {
    const pw_package *k = &job->package[p];
    char plain[sizeof k->frame_line];
    fputs("<dt>", h->f);
    pw_html_name(h, k->name);
    pw_html_put(h, "</dt><dd>Glass from outside: ");
    glass(sheet, &k->glass, h);
    pw_html_put(h, ". Bar between the panes at the rim: %s. Frame: <bdi>%s</bdi>.",
                pw_say(h, rim[k->spacer]), pw_say(h, frame(job, k, plain)));
    if (k->note[0]) pw_html_put(h, " <bdi>%s</bdi>", k->note);
    fputs("</dd>\n", h->f);
  }
  fputs("</dl>\n", h->f);
}
