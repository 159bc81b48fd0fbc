/* A slider of 48 x 36 in beside an insert: U in W/(m2 K), SHGC, VT, over the same opening. */
#include <panewright.h>
#include <stdio.h>

int main(void)
{
  pw_opening o;
  pw_package p;
  pw_rating r[2];
  pw_err err;
  pw_opening_init(&o);
  pw_package_init(&p);
  o.operator_existing = o.operator_insert = PW_SLIDER;
  o.width[1] = 48 * PW_INCH, o.height[1] = 36 * PW_INCH;
  if (pw_buildup_parse("3mm clear coat ag2@2 / 1/2in argon 90% / 3mm clear", &p.glass, &err) ||
      pw_rate_opening(&o, &p, &r[0], &r[1], &err))
    return fprintf(stderr, "%s\n", err.text), 1;
  for (int i = 0; i < 2; i++)
    printf("%.6g %.6g %.6g\n", r[i].u, r[i].shgc, r[i].vt);
}
