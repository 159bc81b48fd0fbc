/* base/message: two messages are alike when they would be said alike: lengths to the mark of the tape, all else as it is. */
#include "support.h"

#include <string.h>

#include "panewright/units.h"

static int alike(pw_message a, pw_message b) { return pw_message_alike(&a, &b); }

static void lengths_are_alike_at_the_same_mark(void **state)
{
  (void)state;
  const double mark = PW_INCH / 16.0; /* letter q */
  assert_true(alike(PW_SAYS(PW_SAY_ADJUST, PW_SI(5.6 * mark)),
                    PW_SAYS(PW_SAY_ADJUST, PW_SI(6.4 * mark))));
  assert_false(alike(PW_SAYS(PW_SAY_ADJUST, PW_SI(5.4 * mark)),
                     PW_SAYS(PW_SAY_ADJUST, PW_SI(5.6 * mark))));
  assert_false(alike(PW_SAYS(PW_SAY_ADJUST, PW_SI(6.0 * mark)),
                     PW_SAYS(PW_SAY_ADJUST, PW_SI(8.0 * mark))));
  /* the second argument counts like the first */
  assert_false(alike(PW_SAYS(PW_SAY_EVENLY_UP, PW_SI(mark), PW_SI(mark)),
                     PW_SAYS(PW_SAY_EVENLY_UP, PW_SI(mark), PW_SI(2.0 * mark))));
}

static void words_columns_and_own_text_are_alike_as_they_are(void **state)
{
  (void)state;
  pw_message a = PW_SAYS(PW_SAY_APART, PW_WORD(PW_SAY_WIDTHS), PW_SI(0.1)), b = a;
  assert_true(pw_message_alike(&a, &b));
  b.number = PW_SAY_SPREAD;
  assert_false(pw_message_alike(&a, &b));
  b = a;
  b.led_by = PW_SAY_STAYS_AS_IT_IS;
  assert_false(pw_message_alike(&a, &b));
  b = a;
  b.arg[0].count = PW_SAY_HEIGHTS;
  assert_false(pw_message_alike(&a, &b));
  b = a;
  b.arg[1].kind = PW_ARG_COUNT;
  assert_false(pw_message_alike(&a, &b));
  b = a;
  strcpy(b.own[0], "K1");
  assert_false(pw_message_alike(&a, &b));
  b = a;
  strcpy(b.own[1], "K1");
  assert_false(pw_message_alike(&a, &b));
  a = PW_SAYS(PW_SAY_DIGITS, PW_COLUMN("width_top"), PW_SI(0.1), PW_SI(0.2));
  b = PW_SAYS(PW_SAY_DIGITS, PW_COLUMN("width_mid"), PW_SI(0.1), PW_SI(0.2));
  assert_false(pw_message_alike(&a, &b));
  b.arg[0].column = "width_top";
  assert_true(pw_message_alike(&a, &b));
}

/* Letter e is to an eighth of an inch, z to a millimetre; all that is no length (a: an area) is alike only when it is the same. */
static void each_kind_of_number_has_its_step(void **state)
{
  (void)state;
  const double eighth = PW_INCH / 8.0;
  assert_true(alike(PW_SAYS(PW_SAY_FALL, PW_SI(4.6 * eighth), PW_SI(0.0)),
                    PW_SAYS(PW_SAY_FALL, PW_SI(5.4 * eighth), PW_SI(0.0))));
  assert_false(alike(PW_SAYS(PW_SAY_FALL, PW_SI(4.4 * eighth), PW_SI(0.0)),
                     PW_SAYS(PW_SAY_FALL, PW_SI(4.6 * eighth), PW_SI(0.0))));
  pw_message thick = {.number = PW_SAY_FRAME_WIDTH}, thin = thick; /* its third letter is z */
  thick.arg[2] = (pw_message_arg)PW_SI(0.0044);
  thin.arg[2] = (pw_message_arg)PW_SI(0.0036);
  assert_true(pw_message_alike(&thick, &thin)); /* both 4 mm */
  thin.arg[2] = (pw_message_arg)PW_SI(0.0034);
  assert_false(pw_message_alike(&thick, &thin));
  const double area = 0.5;
  assert_true(alike(PW_SAYS(PW_SAY_LOW_PANE_ASK, PW_SI(area)),
                    PW_SAYS(PW_SAY_LOW_PANE_ASK, PW_SI(area))));
  assert_false(alike(PW_SAYS(PW_SAY_LOW_PANE_ASK, PW_SI(area)),
                     PW_SAYS(PW_SAY_LOW_PANE_ASK, PW_SI(area + 1e-9))));
  assert_false(alike(PW_SAYS(PW_SAY_LOW_PANE_ASK, PW_SI(area)),
                     PW_SAYS(PW_SAY_LOW_PANE_ASK, PW_SI(area - 1e-9))));
}

/* A message that leads another says itself by number alone. */
static void what_is_led_by_another_is_told_apart_by_number(void **state)
{
  (void)state;
  pw_message a = {.number = PW_SAY_STAYS_AS_IT_IS, .led_by = PW_SAY_WIDTH}, b = a;
  assert_true(pw_message_alike(&a, &b));
  b.arg[0].si = 1.0; /* its one letter is the message that it leads: no argument */
  assert_true(pw_message_alike(&a, &b));
  b.led_by = PW_SAY_HEIGHT;
  assert_false(pw_message_alike(&a, &b));
}

/* The letters at the head of message.h. */
static void each_letter_has_its_kind(void **state)
{
  (void)state;
  for (const char *p = "qefszadbkmurgnv"; *p; p++)
    assert_int_equal(pw_message_kind_of(*p), PW_ARG_SI);
  for (const char *p = "iywopl"; *p; p++)
    assert_int_equal(pw_message_kind_of(*p), PW_ARG_COUNT);
  assert_int_equal(pw_message_kind_of('c'), PW_ARG_COLUMN);
  assert_int_equal(pw_message_kind_of('t'), PW_ARG_OWN);
  assert_int_equal(pw_message_kind_of('x'), PW_ARG_OWN);
  assert_int_equal(pw_message_kind_of('*'), PW_ARG_NONE);
  assert_int_equal(pw_message_kind_of('\0'), PW_ARG_NONE);
  assert_string_equal(pw_message_letters(PW_SAY_IMPOSSIBLE), "qqqq");
  assert_string_equal(pw_message_letters(PW_SAY_COUNT), "");
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(lengths_are_alike_at_the_same_mark),
      cmocka_unit_test(words_columns_and_own_text_are_alike_as_they_are),
      cmocka_unit_test(each_kind_of_number_has_its_step),
      cmocka_unit_test(what_is_led_by_another_is_told_apart_by_number),
      cmocka_unit_test(each_letter_has_its_kind),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
