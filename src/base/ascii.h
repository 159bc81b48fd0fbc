/* Letters and digits of ASCII: the same in every locale, which ctype.h is not. */
#ifndef BASE_ASCII_H
#define BASE_ASCII_H

static inline int pw_is_digit(char c) { return c >= '0' && c <= '9'; }
static inline char pw_lower(char c) { return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c; }
static inline char pw_upper(char c) { return c >= 'a' && c <= 'z' ? (char)(c - 'a' + 'A') : c; }
static inline int pw_is_alnum(char c)
{
  return pw_is_digit(c) || (pw_lower(c) >= 'a' && pw_lower(c) <= 'z');
}

/* Whether two words are one but for the case of letters. */
static inline int pw_same_word(const char *a, const char *b)
{
  while (*a && pw_lower(*a) == pw_lower(*b)) {
    a++;
    b++;
  }
  return pw_lower(*a) == pw_lower(*b);
}

#endif
