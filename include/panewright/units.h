/* Conversions between SI, used inside, and the inch, Btu and Fahrenheit of the trade.
 *
 * Source   1 in = 25.4 mm exactly; 1 Btu(IT) = 1055.05585262 J; 1 lb = 0.45359237 kg (exact).
 */
#ifndef PANEWRIGHT_UNITS_H
#define PANEWRIGHT_UNITS_H

#define PW_INCH 0.0254               /* m */
#define PW_FOOT 0.3048               /* m */
#define PW_FOOT2 (PW_FOOT * PW_FOOT) /* m2 */
#define PW_BTU 1055.05585262         /* J */
#define PW_U_IP 5.678263341113488    /* W/(m2 K) in one Btu/(h ft2 F) */
#define PW_THERM_KWH 29.307107       /* kWh in one therm */
#define PW_BTU_H 0.29307107017222    /* W in one Btu/h */
#define PW_POUND 0.45359237          /* kg */
#define PW_PSF 47.88025898           /* Pa in one lbf/ft2 */
#define PW_PSI 6894.757293           /* Pa in one lbf/in2 */
#define PW_MPH 0.44704               /* m/s in one mile an hour */
#define PW_KELVIN 273.15             /* K at 0 C */
#define PW_SIGMA 5.670374419e-8      /* W/(m2 K4), Stefan-Boltzmann, CODATA 2018 */

#define PW_FLUID_OUNCE 2.95735295625e-5 /* m3; 231 in3 / 128, exact */
#define PW_PI 3.14159265358979323846
#define PW_GRAVITY 9.81        /* m/s2, as ISO 15099 rounds it */
#define PW_GROUND_ALBEDO 0.2   /* of the ground where nothing tells it */
#define PW_BARE_GLASS 0.84     /* emissivity, ISO 15099 */
#define PW_BARE_GLASS_EN 0.837 /* the same by EN 673 and EN 410, corrected */
#define PW_AIR_HEAT 1006.0     /* J/(kg K), dry air near 20 C */
#define PW_AIR_GAS 287.05      /* J/(kg K), gas constant of dry air */
#define PW_EDGE_BAND 0.0635    /* m, edge of glass inside the sight line: 2.5 in, NFRC 100 */
#define PW_ROOM_T 293.15       /* K, at which air changes are counted and indoor films fitted */

static inline double pw_k(double celsius) { return celsius + PW_KELVIN; }
static inline double pw_c(double kelvin) { return kelvin - PW_KELVIN; }
static inline double pw_f(double kelvin) { return (kelvin - PW_KELVIN) * 1.8 + 32.0; }
static inline double pw_k_from_f(double fahrenheit)
{
  return (fahrenheit - 32.0) / 1.8 + PW_KELVIN;
}
static inline double pw_rad(double degree) { return degree * (PW_PI / 180.0); }

#endif
