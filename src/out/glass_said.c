#include "out/glass_said.h"

#include <stdio.h>
#include <string.h>

#include "base/tape.h"

/* A word of a build-up and how the trade says it. */
typedef struct word {
  const char *own, *say;
} word;

static const word kind[] = {
    {"clear", PW_TEXT("clear")},
    {"float", PW_TEXT("clear")},
    {"lowiron", PW_TEXT("low-iron")},
    {"bronze", PW_TEXT("bronze tint")},
    {"gray", PW_TEXT("gray tint")},
    {"green", PW_TEXT("green tint")},
    {"green_open", PW_TEXT("green tint")},
    {"frosted", PW_TEXT("frosted")},
    {"obscure", PW_TEXT("obscure (figured)")},
    {"wired", PW_TEXT("wired")},
    {"laminated", PW_TEXT("laminated")},
    {"acoustic", PW_TEXT("laminated, acoustic interlayer")},
    {"laminated_white", PW_TEXT("laminated, white interlayer")},
    {"acrylic", PW_TEXT("acrylic sheet")},
    {"polycarbonate", PW_TEXT("polycarbonate sheet")},
};

static const word coating[] = {
    {"pyr20", PW_TEXT("hard-coat low-e")},
    {"pyr15", PW_TEXT("hard-coat low-e")},
    {"ag1_high", PW_TEXT("one-silver low-e, lets the sun in")},
    {"ag1", PW_TEXT("one-silver low-e")},
    {"ag2", PW_TEXT("two-silver low-e")},
    {"ag3", PW_TEXT("three-silver low-e")},
};

#define COUNT(a) (sizeof(a) / sizeof(a)[0])

static const char *said(const pw_tongue *t, const word list[], size_t n, const char *own)
{
  for (size_t i = 0; i < n; i++)
    if (strcmp(list[i].own, own) == 0) return pw_tongue_say(t, list[i].say);
  return own;
}

static void pane(const pw_tongue *t, const pw_buildup *g, size_t i, char text[], size_t size)
{
  const pw_buildup_pane *p = &g->pane[i];
  size_t n = (size_t)pw_tongue_put(t, text, size, "%.3g mm %s", 1e3 * p->thickness,
                                   said(t, kind, COUNT(kind), p->kind[0] ? p->kind : "clear"));
  for (int side = 0; side < 2 && n < size; side++) {
    int surface = 2 * (int)i + 1 + side;
    if (p->coating[side][0])
      n += (size_t)pw_tongue_put(t, text + n, size - n, "; surface %d: %s", surface,
                                 said(t, coating, COUNT(coating), p->coating[side]));
    if (p->emit[side] > 0.0 && n < size)
      n += (size_t)pw_tongue_put(t, text + n, size - n, "; surface %d: emissivity %.2g",
                                 surface, p->emit[side]);
  }
}

/* Shares of the gap's gas; what has none is air. */
static void gap(const pw_tongue *t, const pw_gap *g, char text[], size_t size)
{
  static const char *const gas[PW_GAS_COUNT] = {PW_TEXT("air"), PW_TEXT("argon"),
                                                PW_TEXT("krypton"), PW_TEXT("xenon"),
                                                PW_TEXT("sulphur hexafluoride")};
  char tape[24];
  pw_tape_text(g->thickness, 16, tape, sizeof tape);
  size_t n =
      (size_t)pw_tongue_put(t, text, size, "gap %.3g mm (%s in)", 1e3 * g->thickness, tape);
  double all = 0.0;
  for (size_t k = 0; k < PW_GAS_COUNT; k++)
    all += g->mix.share[k];
  if (!(all > 0.0) && n < size)
    snprintf(text + n, size - n, ", %s", pw_tongue_say(t, gas[PW_AIR]));
  for (size_t j = 0; all > 0.0 && j < PW_GAS_COUNT && n < size; j++) {
    const size_t k = PW_GAS_COUNT - 1 - j; /* the air last: it fills up */
    if (g->mix.share[k] > 1.0 - 1e-9)
      n += (size_t)snprintf(text + n, size - n, ", %s", pw_tongue_say(t, gas[k]));
    else if (g->mix.share[k] > 1e-9)
      n += (size_t)snprintf(text + n, size - n, ", %s %.3g %%", pw_tongue_say(t, gas[k]),
                            100.0 * g->mix.share[k]);
  }
}

int pw_glass_part(const pw_tongue *t, const pw_buildup *g, size_t k, char text[], size_t size)
{
  if (g->n_pane == 0 || k >= 2 * g->n_pane - 1) return 0;
  if (k % 2 == 0)
    pane(t, g, k / 2, text, size);
  else
    gap(t, &g->gap[k / 2], text, size);
  return 1;
}

void pw_glass_said(const pw_tongue *t, const pw_buildup *g, char text[], size_t size)
{
  char part[160];
  size_t n = 0;
  text[0] = '\0';
  for (size_t k = 0; pw_glass_part(t, g, k, part, sizeof part) && n < size; k++)
    n += (size_t)snprintf(text + n, size - n, "%s%s", k ? " | " : "", part);
}
