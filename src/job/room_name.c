#include "job/room_name.h"

#include <ctype.h>
#include <string.h>

enum { WORD_MAX = 24 };

/* The next word of *name in small letters; an accent is left out, so that "recámara" is recmara. */
static int next_word(const char **name, char word[WORD_MAX])
{
  const char *s = *name;
  size_t n = 0;
  while (*s && !isalpha((unsigned char)*s) && (unsigned char)*s < 128)
    s++;
  for (; isalpha((unsigned char)*s) || (unsigned char)*s >= 128; s++)
    if ((unsigned char)*s < 128 && n + 1 < WORD_MAX)
      word[n++] = (char)tolower((unsigned char)*s);
  word[n] = '\0';
  *name = s;
  return n > 0;
}

static int begins(const char *word, const char *const list[], size_t n)
{
  for (size_t i = 0; i < n; i++)
    if (strncmp(word, list[i], strlen(list[i])) == 0) return 1;
  return 0;
}

static int is_one(const char *word, const char *const list[], size_t n)
{
  for (size_t i = 0; i < n; i++)
    if (strcmp(word, list[i]) == 0) return 1;
  return 0;
}

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

job_room job_room_read(const char *name)
{
  static const char *const sleeps[] = {"bed", "sleep",    "nurser",  "guest", "dormitor",
                                       "bdr", "recamara", "recmara", "alcoba"};
  static const char *const short_form[] = {"br", "mbr", "mstr"};
  static const char *const wet[] = {"bath", "bao", "bano", "shower", "toilet", "closet"};
  static const char *const asks[] = {"den",     "office", "study",   "basement", "bonus",
                                     "loft",    "master", "primary", "studio",   "flex",
                                     "oficina", "stano",  "sotano",  "spare"};
  char word[WORD_MAX];
  int sleeping = 0, washing = 0, asking = 0;
  while (next_word(&name, word)) {
    sleeping |=
        begins(word, sleeps, COUNT(sleeps)) || is_one(word, short_form, COUNT(short_form));
    washing |= begins(word, wet, COUNT(wet));
    asking |= is_one(word, asks, COUNT(asks));
  }
  if (sleeping) return washing ? JOB_ROOM_ASKS : JOB_ROOM_SLEEPS;
  return asking && !washing ? JOB_ROOM_ASKS : JOB_ROOM_OTHER;
}
