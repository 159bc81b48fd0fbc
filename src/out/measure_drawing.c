#include "out/measure_drawing.h"

#include <math.h>
#include <stddef.h>

#include "out/svg.h"

/* Drawing units; the picture is 400 wide and 262 high. */
enum { LEFT = 62, RIGHT = 232, TOP = 22, BOTTOM = 172 };

/* Attributes and not a style sheet: converters to PDF do not all carry one into a picture. */
static const char frame[] = "fill=\"none\" stroke=\"#000\" stroke-width=\"1.4\"";
static const char wall[] = "fill=\"#ddd\" stroke=\"#000\"";
static const char solid[] = "fill=\"#000\" stroke=\"#000\" stroke-width=\"1.4\"";
static const char thin[] =
    "fill=\"none\" stroke=\"#000\" stroke-width=\"0.8\" stroke-dasharray=\"4 3\"";
static const char pane[] = "fill=\"none\" stroke=\"#000\" stroke-width=\"3\"";

static void line(pw_html *h, double x0, double y0, double x1, double y1, const char *look)
{
  fprintf(h->f, "<path %s d=\"M%g %gL%g %g\"/>\n", look, x0, y0, x1, y1);
}

static void box(pw_html *h, double x, double y, double width, double height, const char *look)
{
  fprintf(h->f, "<rect %s x=\"%g\" y=\"%g\" width=\"%g\" height=\"%g\"/>\n", look, x, y, width,
          height);
}

static void letter(pw_html *h, double x, double y, const char *text)
{
  fprintf(h->f, "<text x=\"%g\" y=\"%g\" font-size=\"13\" font-weight=\"600\">%s</text>\n", x,
          y, pw_say(h, text));
}

/* A tape with a mark at both ends. */
static void tape(pw_html *h, double x0, double y0, double x1, double y1)
{
  const double length = hypot(x1 - x0, y1 - y0), mark = 4.0;
  const double ux = (y1 - y0) / length * mark, uy = -(x1 - x0) / length * mark;
  line(h, x0, y0, x1, y1, frame);
  line(h, x0 - ux, y0 - uy, x0 + ux, y0 + uy, frame);
  line(h, x1 - ux, y1 - uy, x1 + ux, y1 + uy, frame);
}

static void elevation(pw_html *h)
{
  static const char *const across[] = {"W3", "W2", "W1"}, *const up[] = {"H1", "H2", "H3"};
  const double width = RIGHT - LEFT, height = BOTTOM - TOP;
  box(h, LEFT - 12, TOP - 12, width + 24, height + 24, frame);
  box(h, LEFT, TOP, width, height, frame);
  line(h, LEFT, BOTTOM, RIGHT, TOP, thin);
  line(h, LEFT, TOP, RIGHT, BOTTOM, thin);
  letter(h, LEFT + 0.20 * width, TOP + 0.24 * height, "D2");
  letter(h, LEFT + 0.70 * width, TOP + 0.24 * height, "D1");
  for (size_t i = 0; i < 3; i++) {
    double y = TOP + height * (0.08 + 0.42 * (double)i),
           x = LEFT + width * (0.08 + 0.42 * (double)i);
    tape(h, LEFT, y, RIGHT, y);
    letter(h, LEFT - 42, y + 4, across[i]);
    tape(h, x, TOP, x, BOTTOM);
    letter(h, x - 7, BOTTOM + 30, up[i]);
  }
  letter(h, LEFT + 0.5 * width - 45, BOTTOM + 48, PW_TEXT("seen from outside"));
}

/* A side, cut level: the fin stands in front of the pocket. */
static void side(pw_html *h)
{
  box(h, 290, 30, 18, 56, wall);
  box(h, 308, 38, 12, 40, frame);
  box(h, 308, 38, 34, 5, solid);
  tape(h, 320, 30, 342, 30);
  letter(h, 346, 34, "F");
  letter(h, 324, 62, PW_TEXT("pocket"));
  letter(h, 290, 100, PW_TEXT("side, from above"));
}

/* The sill, cut upright: outside on the left. */
static void sill(pw_html *h)
{
  box(h, 300, 178, 40, 60, wall);
  box(h, 308, 166, 24, 12, frame);
  box(h, 288, 172, 20, 6, solid);
  tape(h, 288, 188, 300, 188);
  letter(h, 272, 191, "L");
  line(h, 320, 128, 320, 166, pane);
  tape(h, 300, 138, 320, 138);
  letter(h, 284, 142, "R");
  line(h, 340, 238, 392, 238, solid);
  tape(h, 364, 166, 364, 238);
  line(h, 332, 166, 368, 166, thin);
  letter(h, 370, 206, "S");
  letter(h, 272, 256, PW_TEXT("sill, room right"));
}

void pw_measure_drawing(pw_html *h)
{
  pw_html_put(h,
              "<svg class=\"where\" " PW_SVG_LETTERS
              " viewBox=\"0 0 440 262\" role=\"img\" aria-label=\"%s\">\n",
              pw_say(h, "Where the readings are taken: widths W1 at the bottom, W2 in the "
                        "middle, W3 at the top; heights H1 left, H2 middle, H3 right; "
                        "diagonals D1 from bottom left, D2 from top left; F one side fin, L "
                        "what of the sill stands past the stucco, R reveal, S sill above the "
                        "floor"));
  elevation(h);
  side(h);
  sill(h);
  fputs("</svg>\n", h->f);
}
