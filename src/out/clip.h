/* Names cut to a width, never within a character. */
#ifndef OUT_CLIP_H
#define OUT_CLIP_H

enum { PW_CLIP_MAX = 160 };

/* A name in a fixed field: pw_clip(name, 8).text */
typedef struct pw_clipped {
  char text[PW_CLIP_MAX];
} pw_clipped;

/* text as it is when it has at most that many columns (at most 39), else its beginning, the
 * last character a full stop. */
pw_clipped pw_clip(const char *text, int columns);

#endif
