/* What a kernel has to say: the number of a sentence and its arguments, in SI. The sentences themselves, in every
 * language, stand in out/message_words.c.
 *
 *   *said = PW_SAYS(PW_SAY_SPREAD, PW_WORD(PW_SAY_WIDTH), PW_SI(spread));
 *   *said = PW_SAYS_PLAIN(PW_SAY_CUT_NOTHING);
 *   *said = PW_SAYS(PW_SAY_TUBES, PW_OWN); pw_message_own(said, package->name);
 */
#ifndef PANEWRIGHT_MESSAGE_H
#define PANEWRIGHT_MESSAGE_H

enum { PW_MESSAGE_ARGS = 8, PW_MESSAGE_OWNS = 2, PW_MESSAGE_OWN = 88 };

/* Each sentence with a letter an argument, in the order of the English sentence:
 *   q e  length, m, said to 1/16 or 1/8 in        f  length, m, said in feet    a  area, m2, said in ft2
 *   d    pressure, Pa, said in lbf/ft2            b  pressure, Pa, in psi       k  temperature, K, in F
 *   s z  length, m, said in metres, millimetres   m  money, $                   u  $/m2, said in $/ft2
 *   r g  share, in percent, whole or as it is     n  plain number               v  to two places
 *   i    count or year                            y  pw_date
 *   w    another sentence without arguments       o  pw_operator                p  pw_shape_kind
 *   l    what a way out lacks, PW_LACKS_ bits     c  name of a column, as it stands in the file
 *   t    text of the job, as it is                x  a word that the job chose from a list
 *   *    the message that it leads (led_by)
 */
#define PW_MESSAGES(X)                                                                         \
  /* words */                                                                                  \
  X(NOTHING, "")                                                                               \
  X(WIDTH, "")                                                                                 \
  X(HEIGHT, "")                                                                                \
  X(WIDTHS, "")                                                                                \
  X(HEIGHTS, "")                                                                               \
  X(RISE, "")                                                                                  \
  X(LEG_LEFT, "")                                                                              \
  X(LEG_RIGHT, "")                                                                             \
  X(HEIGHT_LESS_LEG, "")                                                                       \
  X(ITS_WIDTH_IS, "")                                                                          \
  X(HALF_ITS_WIDTH_IS, "")                                                                     \
  X(HEIGHT_LESS_RISE_IS, "")                                                                   \
  X(ITS_HEIGHT_IS, "")                                                                         \
  X(ITS_LEG_IS, "")                                                                            \
  X(LEG_LEFT_IS, "")                                                                           \
  X(ONE_INCH, "")                                                                              \
  X(TEN_INCHES, "")                                                                            \
  X(ONE_FOOT, "")                                                                              \
  X(A_DOOR, "")                                                                                \
  X(A_TUB, "")                                                                                 \
  X(THE_STAIR, "")                                                                             \
  /* readings, window/fit_findings, fit_neighbours, fit_shape_findings */                      \
  X(APART, "wq")                                                                               \
  X(SPREAD, "wq")                                                                              \
  X(EVENLY_ACROSS, "qq")                                                                       \
  X(EVENLY_UP, "qq")                                                                           \
  X(DIGITS, "cqq")                                                                             \
  X(OTHER_SIDE, "cqw")                                                                         \
  X(FEW_READINGS, "iw")                                                                        \
  X(UNUSUAL, "oqq")                                                                            \
  X(LYING_DOOR, "qq")                                                                          \
  X(SIDE_DIGITS, "wqq")                                                                        \
  X(IMPOSSIBLE, "qqqq")                                                                        \
  X(ADJUST, "q")                                                                               \
  X(REMEASURE, "q")                                                                            \
  X(STOP, "q")                                                                                 \
  X(FIN, "cq")                                                                                 \
  X(SILL, "q")                                                                                 \
  X(UNSQUARE_ONE, "")                                                                          \
  X(UNSQUARE_NONE, "")                                                                         \
  X(ONE_DIAGONAL, "")                                                                          \
  X(NO_DIAGONAL, "")                                                                           \
  X(NEIGHBOUR_TEN, "wqtq")                                                                     \
  X(NEIGHBOUR_SLIP, "wqtqw")                                                                   \
  X(NO_SUCH_SHAPE, "pwqwq")                                                                    \
  X(SHAPE_DIAGONAL, "pcqq")                                                                    \
  /* cautions: the way out, window/caution_escape, escape_remedy */                            \
  X(ESCAPE_WORDS, "")                                                                          \
  X(CAUTION_CLOSING, "")                                                                       \
  X(ESCAPE_AREA, "eeaeeaaa")                                                                   \
  X(ESCAPE_HEIGHT, "eee")                                                                      \
  X(ESCAPE_WIDTH, "eee")                                                                       \
  X(ESCAPE_BOTTOM_ASK, "")                                                                     \
  X(ESCAPE_BOTTOM, "eee")                                                                      \
  X(ESCAPE_MISSING, "eeee")                                                                    \
  X(ESCAPE_EXCEPTION, "")                                                                      \
  X(ESCAPE_EXCEPTION_SMALLER, "")                                                              \
  X(ESCAPE_USE, "eeaeea")                                                                      \
  X(ESCAPE_NAMED, "t")                                                                         \
  X(ESCAPE_DOUBT_FAILS, "teeaeea")                                                             \
  X(ESCAPE_DOUBT_PASSES, "teeaeea")                                                            \
  X(REMEDY_SAME_CUT, "")                                                                       \
  X(REMEDY_CASEMENT, "")                                                                       \
  X(REMEDY_CASEMENT_CUT, "")                                                                   \
  X(REMEDY_SLIDER_WIDER, "")                                                                   \
  X(REMEDY_SLIDER_HALF, "")                                                                    \
  X(REMEDY_SPLIT_THIRDS, "")                                                                   \
  X(REMEDY_SPLIT_LOWER, "")                                                                    \
  X(REMEDY_SPLIT_LITES, "")                                                                    \
  X(REMEDY_PASSES, "weeae")                                                                    \
  X(REMEDY_PASSES_BELOW, "weeae")                                                              \
  X(REMEDY_FAILS, "weeael")                                                                    \
  X(REMEDY_FAILS_SOMEWHERE, "weeal")                                                           \
  /* cautions: falls and glass, window/caution_people */                                       \
  X(FALL, "ee")                                                                                \
  X(FALL_ASK, "c")                                                                             \
  X(FALL_ESCAPE, "")                                                                           \
  X(LOW_PANE_ASK, "a")                                                                         \
  X(LOW_PANE, "aeee")                                                                          \
  X(GLASS_NEAR, "ewee")                                                                        \
  X(GLASS_NEAR_ASK, "ewe")                                                                     \
  X(GLASS_IN_DOOR, "")                                                                         \
  X(SAFETY_MARK, "")                                                                           \
  X(SAFETY_MARK_ORDERED, "")                                                                   \
  /* cautions: the house and the product, window/caution_house, caution_stays */               \
  X(COMBUSTION, "")                                                                            \
  X(COMBUSTION_ASK, "")                                                                        \
  X(ALARMS, "")                                                                                \
  X(LEAD, "ii")                                                                                \
  X(LEAD_CERTIFIED, "iit")                                                                     \
  X(LEAD_ASK, "i")                                                                             \
  X(LEAD_MINOR, "")                                                                            \
  X(ASBESTOS, "")                                                                              \
  X(ASBESTOS_ASK, "")                                                                          \
  X(STRUCTURE, "q")                                                                            \
  X(STRUCTURE_ASK, "q")                                                                        \
  X(WIND, "d")                                                                                 \
  X(WIND_ASK, "")                                                                              \
  X(DEBRIS, "")                                                                                \
  X(DEBRIS_ASK, "")                                                                            \
  X(WEEPS, "")                                                                                 \
  X(LEAK, "")                                                                                  \
  X(LEAK_ASK, "")                                                                              \
  X(WILDFIRE, "")                                                                              \
  X(WILDFIRE_ASK, "")                                                                          \
  X(ALTITUDE, "ffb")                                                                           \
  X(ALTITUDE_ASK, "f")                                                                         \
  X(TUBES, "t")                                                                                \
  X(TINTED, "")                                                                                \
  X(TINTED_SHADED, "")                                                                         \
  X(COATED_SHADED, "")                                                                         \
  X(REFLECTION, "")                                                                            \
  X(LESS_GLASS, "r")                                                                           \
  X(RIGHT_TO_CANCEL, "")                                                                       \
  X(APPROVAL, "")                                                                              \
  X(STAYS_WAY_OUT, "eea")                                                                      \
  X(STAYS_AS_IT_IS, "*")                                                                       \
  /* the work, window/install */                                                               \
  X(CUT_FINS, "q")                                                                             \
  X(CUT_FIN, "q")                                                                              \
  X(CUT_LIP, "q")                                                                              \
  X(CUT_FINS_LIP, "qq")                                                                        \
  X(CUT_FIN_LIP, "qq")                                                                         \
  X(CUT_NOTHING, "")                                                                           \
  X(LEAVE_FIN, "q")                                                                            \
  X(LEAVE_FINS, "q")                                                                           \
  X(LEAVE_FINS_STAY, "q")                                                                      \
  X(LEAVE_LIP, "q")                                                                            \
  X(LEAVE_LIP_STAYS, "q")                                                                      \
  X(DRY_FIT, "eeqq")                                                                           \
  X(DRY_FIT_LEANS, "eeqqq")                                                                    \
  X(DRY_FIT_SHAPE, "pee")                                                                      \
  X(DRY_FIT_TEMPLATE, "pee")                                                                   \
  X(JOINT_B, "xnqqekk")                                                                        \
  X(JOINT_B_ANY, "nqqekk")                                                                     \
  X(JOINT_NARROW, "qq")                                                                        \
  X(JOINT_A, "q")                                                                              \
  X(LEAVE_ALONE, "")                                                                           \
  X(SEE_MARK, "")                                                                              \
  X(PAINT_NEVER, "")                                                                           \
  X(PAINT_STATED, "n")                                                                         \
  X(PAINT_SHEET, "xnn")                                                                        \
  X(PAINT_ASK, "")                                                                             \
  /* what the house model takes for granted, house/facts, study/compare_air */                 \
  X(ASSUMED_WALL, "")                                                                          \
  X(ASSUMED_ROOF, "")                                                                          \
  X(ASSUMED_FLOOR, "")                                                                         \
  X(ASSUMED_AIR, "")                                                                           \
  X(ASSUMED_PLAN, "")                                                                          \
  X(ASSUMED_CONTENTS, "")                                                                      \
  X(ASSUMED_RADIANT, "")                                                                       \
  X(ASSUMED_HOURLY_AIR, "")                                                                    \
  X(ASSUMED_AIRING, "")                                                                        \
  X(OF_AIRING_ALWAYS, "r")                                                                     \
  X(OF_AIRING_EVENINGS, "r")                                                                   \
  X(ASSUMED_COVERINGS, "")                                                                     \
  X(OF_COVERINGS, "rr")                                                                        \
  X(OF_PRESET, "t")                                                                            \
  X(OF_AIR, "v")                                                                               \
  X(OF_AIR_BY_DOOR, "v")                                                                       \
  X(OF_PLAN, "s")                                                                              \
  X(OF_CONTENTS, "")                                                                           \
  X(OF_RADIANT, "r")                                                                           \
  X(OF_AIM2, "")                                                                               \
  X(OF_SHERMAN, "")                                                                            \
  /* weather of a job: where it is of, then at what height, job/climate_of_job */              \
  X(CLIMATE_MADE, "t")                                                                         \
  X(CLIMATE_MADE_AWAY, "ti")                                                                   \
  X(CLIMATE_MADE_OF, "tt")                                                                     \
  X(CLIMATE_MADE_OF_AWAY, "tti")                                                               \
  X(CLIMATE_HOURLY, "tti")                                                                     \
  X(STATION_AT, "nf")                                                                          \
  X(MADE_COLDER, "nnnf")                                                                       \
  X(MADE_WARMER, "nnnf")                                                                       \
  X(HOUSE_ABOVE, "nf")                                                                         \
  X(HOUSE_ABOVE_AS_ASKED, "nf")                                                                \
  X(HOUSE_ABOVE_OF_FILE, "nf")                                                                 \
  X(HOUSE_BELOW, "nf")                                                                         \
  X(HOUSE_BELOW_AS_ASKED, "nf")                                                                \
  X(HOUSE_BELOW_OF_FILE, "nf")                                                                 \
  /* a tighter house, study/compare_tight_caution: rate before, least after, limit */          \
  X(TIGHT_DRAWS_AIR, "vv")                                                                     \
  X(TIGHT_MAY_DRAW_AIR, "vv")                                                                  \
  X(TIGHT_DAMP, "vvv")                                                                         \
  X(TIGHT_AIRED, "vvv")                                                                        \
  /* programs: money/program, money/amount, study/rebate */                                    \
  X(PROGRAM_BEGINS, "tyy")                                                                     \
  X(PROGRAM_ENDED, "tyy")                                                                      \
  X(PROGRAM_MEETS, "")                                                                         \
  X(PROGRAM_MEETS_GROUP, "t")                                                                  \
  X(PROGRAM_FAILS, "")                                                                         \
  X(PROGRAM_FAILS_GROUP, "t")                                                                  \
  X(PROGRAM_NO_LABEL, "")                                                                      \
  X(PROGRAM_NO_LABEL_GROUP, "t")                                                               \
  X(PROGRAM_NO_DATE, "")                                                                       \
  X(PROGRAM_NO_DATE_GROUP, "t")                                                                \
  X(NOTHING_TO_CLAIM, "")                                                                      \
  X(COUNTED_OTHER_GROUP, "ii")                                                                 \
  X(COUNTED_OTHERS_FAIL, "ii")                                                                 \
  X(AMOUNT_AREA, "au")                                                                         \
  X(AMOUNT_OPENINGS, "im")                                                                     \
  X(AMOUNT_COST, "gm")                                                                         \
  X(AMOUNT_PRODUCT_UNKNOWN, "g")                                                               \
  X(AMOUNT_PRODUCT, "gm")                                                                      \
  X(AMOUNT_FIXED, "m")                                                                         \
  X(AMOUNT_NONE, "")                                                                           \
  X(AMOUNT_COST_LEFT, "mm")                                                                    \
  X(CAP, "*")                                                                                  \
  X(CAP_NOT_REACHED, "*")                                                                      \
  /* what a choice does, study/compare_choice */                                               \
  X(CHOICE_AS_ORDERED, "")                                                                     \
  X(CHOICE_LEFT, "")                                                                           \
  X(CHOICE_CUT, "")                                                                            \
  X(CHOICE_AIR, "")                                                                            \
  X(CHOICE_FOAM, "")                                                                           \
  X(CHOICE_ALUMINIUM, "")                                                                      \
  X(CHOICE_STAINLESS, "")                                                                      \
  X(CHOICE_FOAM_SPACER, "")                                                                    \
  /* the energy code, study/code_limit */                                                      \
  X(CODE_ZONE, "t")                                                                            \
  X(CODE_CALIFORNIA, "")                                                                       \
  X(CODE_CALIFORNIA_NEWEST, "")                                                                \
  X(CODE_CALIFORNIA_UNKNOWN, "")                                                               \
  X(CODE_SMALL, "*")                                                                           \
  X(CODE_MODEL, "")                                                                            \
  X(CODE_MODEL_ASK, "")                                                                        \
  X(CODE_MODEL_UNKNOWN, "")                                                                    \
  X(CODE_HIGH, "*")                                                                            \
  /* drawn sections, study/frames */                                                           \
  X(A_PACKAGE, "")                                                                             \
  X(AN_OPENING, "")                                                                            \
  X(A_FRAME_LINE, "")                                                                          \
  X(SIDE_SILL, "")                                                                             \
  X(SIDE_HEAD, "")                                                                             \
  X(SIDE_JAMB, "")                                                                             \
  X(SIDE_MEETING, "")                                                                          \
  X(FRAME_GAP, "twti")                                                                         \
  X(FRAME_GAPS, "tiwti")                                                                       \
  X(FRAME_WIDTH, "tqzwwtqz")                                                                   \
  X(FRAME_WIDTH_RING, "tqzwwtqz")                                                              \
  X(FRAME_BELOW, "t")                                                                          \
  X(FRAME_FIXES_SPACER, "t")                                                                   \
  X(FRAME_FIXES_FILLING, "t")                                                                  \
  X(FRAME_FIXES_BOTH, "t")                                                                     \
  X(FRAME_MORE, "")

typedef enum pw_message_number {
#define PW_MESSAGE_NUMBER(name, letters) PW_SAY_##name,
  PW_MESSAGES(PW_MESSAGE_NUMBER)
#undef PW_MESSAGE_NUMBER
      PW_SAY_COUNT
} pw_message_number;

typedef enum pw_message_kind {
  PW_ARG_NONE = 0,
  PW_ARG_SI,     /* letters q e f s z a d b k m u r g n v */
  PW_ARG_COUNT,  /* i y w o p l */
  PW_ARG_COLUMN, /* c */
  PW_ARG_OWN     /* t x: the message's own text */
} pw_message_kind;

typedef struct pw_message_arg {
  pw_message_kind kind;
  union {
    double si;
    int count;
    const char *column; /* static */
  };
} pw_message_arg;

typedef struct pw_message {
  pw_message_number number;
  pw_message_number led_by; /* a sentence that holds this one (PW_SAY_STAYS_AS_IT_IS), or 0 */
  pw_message_arg arg[PW_MESSAGE_ARGS];
  char own[PW_MESSAGE_OWNS]
          [PW_MESSAGE_OWN]; /* text of the job: a tag, a room, a name; "" none */
} pw_message;

/* A message and its arguments. */
#define PW_SAYS(say, ...) ((pw_message){.number = (say), .arg = {__VA_ARGS__}})
#define PW_SAYS_PLAIN(say) ((pw_message){.number = (say)})
#define PW_SI(value)                                                                           \
  {                                                                                            \
    .kind = PW_ARG_SI, .si = (value)                                                           \
  }
#define PW_INT(value)                                                                          \
  {                                                                                            \
    .kind = PW_ARG_COUNT, .count = (int)(value)                                                \
  }
#define PW_WORD(say) PW_INT(say)
#define PW_COLUMN(name)                                                                        \
  {                                                                                            \
    .kind = PW_ARG_COLUMN, .column = (name)                                                    \
  }
#define PW_OWN                                                                                 \
  {                                                                                            \
    .kind = PW_ARG_OWN                                                                         \
  }
#define PW_OWN_2                                                                               \
  {                                                                                            \
    .kind = PW_ARG_OWN, .count = 1                                                             \
  }

/* Sets the text of the job that the message carries, PW_OWN; what is longer than PW_MESSAGE_OWN is cut. */
void pw_message_own(pw_message *message, const char *text);

/* The same of PW_OWN and PW_OWN_2. */
void pw_message_owns(pw_message *message, const char *text, const char *other);

/* Whether two messages read alike: lengths as they are said. */
int pw_message_alike(const pw_message *a, const pw_message *b);

/* The letters of its arguments; "" for a number that is none. */
const char *pw_message_letters(pw_message_number number);

/* What an argument of that letter is. */
pw_message_kind pw_message_kind_of(char letter);

#endif
