/* Changes that know rows and cells. Half of the changes are libFuzzer's own, of bytes and of the words that it met;
 * the others move, double, drop, swap and replace lines and cells, so that a table stays a table. */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* libFuzzer's; AFL++ has it not, and changes the bytes itself. */
size_t LLVMFuzzerMutate(uint8_t *data, size_t size, size_t most) __attribute__((weak));
size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t most, unsigned seed);
size_t LLVMFuzzerCustomCrossOver(const uint8_t *a, size_t n_a, const uint8_t *b, size_t n_b,
                                 uint8_t *out, size_t most, unsigned seed);

/* What breaks readers: numbers at the edge, signs, blanks, quotes, marks of order, torn UTF-8, formulas. */
static const char *const hostile[] = {"",
                                      " ",
                                      "0",
                                      "-0",
                                      "-1",
                                      "1",
                                      "nan",
                                      "-inf",
                                      "1e308",
                                      "1e-320",
                                      "4294967296",
                                      "0x10",
                                      "1,5",
                                      "1.000.000",
                                      "36 1/2",
                                      "1/0",
                                      "5'11\"",
                                      "35-",
                                      "2'",
                                      "yes",
                                      "no",
                                      "none",
                                      "\"",
                                      "\"\"",
                                      "\"a,b\"",
                                      "=1+1",
                                      "\xEF\xBB\xBF",
                                      "\xC3",
                                      "\xE2\x80\xAE",
                                      "\xC2\x9B"
                                      "31m",
                                      "\x1B[2J",
                                      "\x7F",
                                      "\xF0\x9F\xAA\x9F",
                                      "2026-02-29",
                                      "13/13/2026",
                                      "12/31/99",
                                      "99999-9999",
                                      "# ",
                                      "\r",
                                      "%s%n",
                                      "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa"
                                      "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa"};
enum { N_HOSTILE = sizeof hostile / sizeof hostile[0] };

typedef struct span {
  size_t at, n;
} span;

static uint32_t state;
static size_t below(size_t n)
{
  state = state * 1664525u + 1013904223u;
  return n ? (state >> 8) % n : 0;
}

static int ends(uint8_t c, int cells) { return c == '\n' || (cells && c == ','); }

/* A line with its end (cells 0), or a cell without, around a place of chance. */
static span piece(const uint8_t *data, size_t size, int cells)
{
  size_t at = below(size), from = at, to = at;
  while (from > 0 && !ends(data[from - 1], cells))
    from--;
  while (to < size && !ends(data[to], cells))
    to++;
  if (!cells && to < size) to++;
  return (span){from, to - from};
}

/* Puts text in the place of a span; size when there is no room. */
static size_t put(uint8_t *data, size_t size, size_t most, span s, const void *text, size_t n)
{
  if (size - s.n + n > most) return size;
  memmove(data + s.at + n, data + s.at + s.n, size - s.at - s.n);
  memcpy(data + s.at, text, n);
  return size - s.n + n;
}

/* A copy of one piece in the place of another (of no length: before it). */
static size_t copy(uint8_t *data, size_t size, size_t most, span from, span to)
{
  uint8_t *text = malloc(from.n + 1);
  if (!text) return size;
  memcpy(text, data + from.at, from.n);
  size = put(data, size, most, to, text, from.n);
  free(text);
  return size;
}

size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t most, unsigned seed)
{
  state = seed;
  size_t how = below(12);
  if (size == 0 || how > 5) return LLVMFuzzerMutate(data, size, most);
  int cells = how < 3;
  span a = piece(data, size, cells), b = piece(data, size, cells);
  const char *word = hostile[below(N_HOSTILE)];
  switch (how) {
  case 0:
  case 1:
    return put(data, size, most, a, word, strlen(word));
  case 2:
    return copy(data, size, most, a, b);
  case 3:
    return put(data, size, most, a, "", 0);
  case 4:
    return copy(data, size, most, a, (span){b.at, 0});
  default:
    return copy(data, size, most, a, b);
  }
}

/* The one, with a line of the other in it. */
size_t LLVMFuzzerCustomCrossOver(const uint8_t *a, size_t n_a, const uint8_t *b, size_t n_b,
                                 uint8_t *out, size_t most, unsigned seed)
{
  state = seed;
  size_t n = n_a < most ? n_a : most;
  memcpy(out, a, n);
  if (n == 0 || n_b == 0) return n;
  span to = piece(out, n, 0), from = piece(b, n_b, 0);
  if (below(2)) to.n = 0;
  return put(out, n, most, to, b + from.at, from.n);
}
