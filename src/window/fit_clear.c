/* Clear opening for escape: what the open sash leaves free, by the usual allowances. */
#include "window/fit_impl.h"

#include "panewright/units.h"

/* free = share x outer size - allowance; low end for the thin old metal sash, high end for the
 * insert. Source: reference/trade/SAFETY.md "Egress after an insert" (from memory); the heights of
 * sliders and the widths of hung windows are not stated there and take the two frame members, 2 to
 * 3 in (memory). An awning hangs in its own way and is not counted on. */
static const struct {
  double share_w, low_w, high_w; /* inch */
  double share_h, low_h, high_h;
} allowance[PW_OPERATOR_COUNT] = {
    [PW_FIXED] = {0},
    [PW_SLIDER] = {0.5, 2.0, 3.0, 1.0, 2.0, 3.0},
    [PW_SINGLE_HUNG] = {1.0, 2.0, 3.0, 0.5, 2.5, 3.0},
    [PW_DOUBLE_HUNG] = {1.0, 2.0, 3.0, 0.5, 2.5, 3.0},
    [PW_CASEMENT] = {1.0, 4.0, 6.0, 1.0, 3.0, 3.0},
    [PW_AWNING] = {0},
    [PW_FLANKER] = {0.25, 2.0, 3.0, 1.0, 2.0, 3.0},
    [PW_SLIDING_DOOR] = {0.5, 2.0, 3.0, 1.0, 2.0, 3.0},
    [PW_HOPPER] = {0}, /* as an awning, and it opens into the way */
    [PW_JALOUSIE] = {0},
    [PW_HINGED_DOOR] = {1.0, 4.0, 6.0, 1.0, 2.0, 3.0}, /* as a casement, memory */
};

static pw_clear clear_of(pw_operator k, double share_w, double share_h, double width,
                         double height, int insert)
{
  pw_clear c = {.bottom = -1.0};
  double off_w = insert ? allowance[k].high_w : allowance[k].low_w;
  double off_h = insert ? allowance[k].high_h : allowance[k].low_h;
  double w = share_w * width - off_w * PW_INCH;
  double h = share_h * height - off_h * PW_INCH;
  if (w > 0.0 && h > 0.0) {
    c.width = w;
    c.height = h;
    c.area = w * h;
  }
  return c;
}

pw_clear fit_clear(pw_operator k, const char *config, double width, double height, int insert)
{
  double share = pw_operator_open_share(k, config);
  return clear_of(k, share > 0.0 ? share : allowance[k].share_w, allowance[k].share_h, width,
                  height, insert);
}

pw_clear fit_clear_share(pw_operator k, double share, double width, double height)
{
  int hung = k == PW_SINGLE_HUNG || k == PW_DOUBLE_HUNG;
  double share_w = share > 0.0 && !hung ? share : allowance[k].share_w;
  double share_h = share > 0.0 && hung ? share : allowance[k].share_h;
  return clear_of(k, share_w, share_h, width, height, 1);
}
