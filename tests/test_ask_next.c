/* study/ask_next: the order of what is asked, by hand. A fact of first-order index S leaves a range sqrt(1 - S) as wide
 * (Sobol 1993; Saltelli 2010): S 0.36 narrows by 0.2, 0.19 by 0.1, 0.51 by 0.3, 0.75 by 0.5. */
#include "support.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "study/ask_next.h"
#include "study/range_impl.h"

typedef struct fact {
  size_t id;
  double s;
  pw_origin origin;
  pw_shape shape;
} fact;

/* As many asks as there are, and a check of their order by id. */
static void asks(const fact f[], size_t n, const size_t want[], size_t n_want)
{
  pw_range *r = calloc(1, sizeof *r);
  pw_ask ask[PW_ASK_NEXT];
  assert_non_null(r);
  r->n_input = n;
  for (size_t i = 0; i < n; i++) {
    r->input[i].id = f[i].id;
    r->input[i].given.origin = f[i].origin;
    r->input[i].spread.shape = f[i].shape;
    r->package[1].sensitivity[i].first_order = f[i].s;
  }
  assert_int_equal(pw_ask_next(r, 1, ask), n_want);
  for (size_t k = 0; k < n_want; k++) {
    assert_int_equal(r->input[ask[k].input].id, want[k]);
    double s = r->package[1].sensitivity[ask[k].input].first_order;
    pw_assert_near(ask[k].narrows, 1.0 - sqrt(1.0 - s), 1e-12, ask[k].question, "by hand");
    assert_true(ask[k].question[0] && ask[k].where[0]);
  }
  free(r);
}

#define DRAWN PW_ORIGIN_ASSUMED, PW_SHAPE_NORMAL

static void the_three_that_narrow_most_come_first(void **state)
{
  (void)state;
  const fact rising[] = {{IN_AIR, 0.19, DRAWN},
                         {IN_UA, 0.36, DRAWN},
                         {IN_SHADE, 0.51, DRAWN},
                         {IN_DUCT, 0.75, DRAWN}};
  asks(rising, 4, (const size_t[]){IN_DUCT, IN_SHADE, IN_UA}, 3);
  asks(rising, 2, (const size_t[]){IN_UA, IN_AIR}, 2);
  const fact falling[] = {{IN_DUCT, 0.75, DRAWN},
                          {IN_SHADE, 0.51, DRAWN},
                          {IN_UA, 0.36, DRAWN},
                          {IN_AIR, 0.19, DRAWN}};
  asks(falling, 4, (const size_t[]){IN_DUCT, IN_SHADE, IN_UA}, 3);
}

/* The night goes first where it moves the answer at all, and displaces the least. */
static void a_set_back_that_nobody_told_goes_before_all(void **state)
{
  (void)state;
  const fact f[] = {{IN_DUCT, 0.75, DRAWN},
                    {IN_SHADE, 0.51, DRAWN},
                    {IN_UA, 0.36, DRAWN},
                    {IN_SETBACK, 0.03, DRAWN}};
  asks(f, 4, (const size_t[]){IN_SETBACK, IN_DUCT, IN_SHADE}, 3);
}

static void what_is_known_small_or_of_a_model_is_not_asked(void **state)
{
  (void)state;
  const fact f[] = {{IN_AIR, 0.5, PW_ORIGIN_MEASURED, PW_SHAPE_NORMAL},
                    {IN_FRAME_U_NEW, 0.5, PW_ORIGIN_LABEL, PW_SHAPE_NORMAL},
                    {IN_UA, 0.5, PW_ORIGIN_ASSUMED, PW_SHAPE_FIXED},
                    {IN_TAPE, 0.5, DRAWN},    /* of the tape */
                    {IN_FORM, 0.5, DRAWN},    /* of a model */
                    {IN_DUCT, 0.0198, DRAWN}, /* narrows by 0.00995 */
                    {IN_SHADE, -0.3, DRAWN},
                    {IN_GAIN, 0.0200, PW_ORIGIN_STATED, PW_SHAPE_NORMAL}}; /* by 0.01005 */
  asks(f, 8, (const size_t[]){IN_GAIN}, 1);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_three_that_narrow_most_come_first),
      cmocka_unit_test(a_set_back_that_nobody_told_goes_before_all),
      cmocka_unit_test(what_is_known_small_or_of_a_model_is_not_asked),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
